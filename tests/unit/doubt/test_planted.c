/* Faults of meaning planted in the shipped foam book, one at a time: each is doubted at its line.
 * Without them the book has no doubt. "@@" in what is planted stands before the place. */
#include "testing.h"

#include "base/arena.h"
#include "base/str.h"
#include "telltale.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define BOOK TT_SOURCE_DIR "/rules/foam-line"

typedef struct edit {
    const char *file, *find, *put; /* find: the first place; put in front of it */
} edit;

typedef struct plant {
    const char *code;
    edit edits[4];
} plant;

#define QUESTION_AT "supply.yaml", "  strainer-look:\n"
#define RULE_AT     "supply.yaml", "  wrong-drum-warning:\n"
#define CAUSE_AT    "supply.yaml", "  drum-empty:\n"
#define FIX_AT      "supply.yaml", "  change-drum:\n"
#define SIGN_AT     "supply.yaml", "  foam-pale:\n"
#define A_SETTING(by, within, times) \
    "@@  mend-planted:\n    text: Turn the planted thing\n    takes: 16 min\n    role: " \
    "attendant\n    harm: none\n" \
    "    put-back: Set it back to {foam-air as found}.\n    cures: {planted-fault: usually}\n" \
    "    adjust: {reading: foam-air, by: " by ", within: " within ", at-most: " times "}\n"
#define A_FIX(name, more) \
    "  " name ":\n    text: Look after the planted thing\n    takes: 16 min\n    role: " \
    "attendant\n    harm: none\n" \
    "    put-back: not needed\n" more
#define A_CAUSE \
    "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is planted.\n"
#define A_SIGN \
    "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    shown-by: " \
    "{planted-fault: often}\n"
#define A_CURE A_FIX("mend-planted", "    cures: {planted-fault: usually}\n")

static const plant plants[] = {
    {"T902",
     {{CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    fine: {@@T910: they are one}\n"},
      {SIGN_AT, A_SIGN},
      {FIX_AT, A_CURE}}},
    {"T903",
     {{RULE_AT, "  planted:\n    when: @@{all: [{drum-changed: yes}, {drum-changed: no}]}\n    "
                "then: {likelier: {drum-empty: 2 times}}\n"}}},
    {"T903",
     {{RULE_AT, "  planted:\n    when: @@{all: [{foam-air: below 10 psi}, {foam-air: above 20 "
                "psi}]}\n    then: {likelier: {drum-empty: 2 times}}\n"}}},
    {"T904",
     {{RULE_AT, "  planted:\n    when: @@{any: [{drum-changed: yes}, {drum-changed: no}]}\n    "
                "then: {likelier: {drum-empty: 2 times}}\n"}}},
    {"T905",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare, "
                "drum-changed: no}\n    shown-by: {@@planted-fault: often}\n"},
      {CAUSE_AT,
       "  planted-fault:\n    text: A planted fault\n    only-when: {drum-changed: yes}\n"},
      {FIX_AT, A_CURE}}},
    {"T906",
     {{FIX_AT, A_FIX("mend-planted",
                     "    only-when: {drum-changed: no}\n    cures: {@@planted-fault: usually}\n")},
      {CAUSE_AT,
       "  planted-fault:\n    text: A planted fault\n    only-when: {drum-changed: yes}\n"},
      {SIGN_AT, A_SIGN}}},
    {"T907",
     {{RULE_AT, "  planted:\n    when: {drum-changed: no}\n    then: {likelier: {@@planted-fault: "
                "2 times}}\n"},
      {CAUSE_AT,
       "  planted-fault:\n    text: A planted fault\n    only-when: {drum-changed: yes}\n"},
      {SIGN_AT, A_SIGN}}},
    {"T908",
     {{QUESTION_AT,
       "  planted-look:\n    ask: Is it planted?\n    only-when: @@{planted-look: yes}\n"}}},
    {"T910",
     {{CAUSE_AT, "@@  zz-planted:\n    text: Another planted fault\n  planted-fault:\n    text: A "
                 "planted fault\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often, zz-planted: often}\n"},
      {FIX_AT,
       A_FIX("mend-planted", "    cures: {planted-fault: usually, zz-planted: usually}\n")}}},
    {"T911",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often, @@line-too-fast: rarely}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T912",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {@@planted-fault: 100 %}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T913",
     {{CAUSE_AT, "@@  planted-fault:\n    text: A planted fault\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: 12 %}\n    otherwise: 10 %\n"},
      {FIX_AT, A_CURE}}},
    {"T914",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: 80 %, drum-empty: 60 %, @@wrong-product: 75 %}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T914",
     {{"pump.yaml", "      air-filter-clogged: 80 %\n", "      @@foot-valve-leaks: seldom\n"}}},
    {"T919",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n    otherwise: @@seldom\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T509",
     {{QUESTION_AT, "  planted-look:\n    ask: Is it planted?\n    confirms: {@@yes: "
                    "planted-fault}\n    wrongly-confirmed: 2 %\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T920",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: @@{foam-air: below 30 psi}\n "
                "   shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T920",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: @@{product-flow: quick}\n    "
                "shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T921",
     {{SIGN_AT,
       "  planted-sign:\n    text: A planted sign\n    when: @@{foam-air: above 70 psi}\n    "
       "shown-by: {planted-fault: often}\n  planted-range:\n    text: A planted range\n    when: "
       "{foam-air: 45 to 60 psi}\n    shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T922",
     {{FIX_AT, A_SETTING("2 psi", "10 to 60 psi", "5 times")},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {foam-air: above 50 psi}\n   "
                " shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE}}},
    {"T923",
     {{FIX_AT, A_SETTING("2 psi", "5 to 15 psi", "5 times")},
      {SIGN_AT, A_SIGN},
      {CAUSE_AT, A_CAUSE}}},
    {"T924",
     {{FIX_AT, A_SETTING("25 psi", "10 to 60 psi", "2 times")},
      {SIGN_AT, A_SIGN},
      {CAUSE_AT, A_CAUSE}}},
    {"T988",
     {{FIX_AT, A_SETTING("2 psi", "55 to 60 psi", "2 times")},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {foam-air: below 20 psi}\n   "
                " shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE}}},
    {"T988",
     {{FIX_AT, A_SETTING("2 psi", "15 to 60 psi", "5 times")},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {foam-air: below 20 psi}\n   "
                " shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE}}},
    {"T989",
     {{FIX_AT, "@@  mend-planted:\n    text: Look after the planted thing\n    takes: 241 min\n    "
               "role: licensed-electrician\n    harm: "
               "none\n    put-back: not needed\n    cures: {planted-fault: usually}\n"},
      {SIGN_AT, A_SIGN},
      {CAUSE_AT, A_CAUSE}}},
    {"T256",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    heard: [it is planted, @@but not "
                "deep]\n    when: {drum-level: bare}\n    shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T969", {{"procedures.yaml", "procedures:\n", "protection:\n@@  planted-gear: [A hat]\n"}}},
    {"T969",
     {{"procedures.yaml", "procedures:\n",
       "harms:\n@@  planted-harm:\n    from: [slips]\n    unprotected: {worst: marginal, chance: "
       "remote}\n    protected: {worst: negligible, chance: remote}\n"}}},
    {"T930",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    heard: [no bubbles at all, it is "
                "planted]\n    when: {drum-level: bare}\n    shown-by: {planted-fault: often}\n  "
                "zz-sign:\n    text: Another planted sign\n    heard: [@@it is planted]\n    when: "
                "{drum-label: no}\n    shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T931",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    heard: [@@'/^(\\w+ ?)+x$/']\n    "
                "when: {drum-level: bare}\n    shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T932",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    heard: [@@/dead$ pump/]\n    when: "
                "{drum-level: bare}\n    shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T933",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    heard: [@@/streaks/]\n    when: "
                "{drum-level: bare}\n    shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T935",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    heard: [@@somebody is hurt]\n    "
                "when: {drum-level: bare}\n    shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, A_CAUSE},
      {FIX_AT, A_CURE}}},
    {"T936", {{QUESTION_AT, "@@  planted-gate:\n    ask: Is anybody hurt?\n    safe: [yes]\n"}}},
    {"T940",
     {{QUESTION_AT, "  planted-look:\n    ask: @@It is planted\n    about: today\n"},
      {RULE_AT, "  planted:\n    when: {planted-look: yes}\n    then: {likelier: {drum-empty: 2 "
                "times}}\n"}}},
    {"T941",
     {{"supply.yaml", "  wrong-product:\n    text:\n      en: The hose is in the wrong drum\n",
       "  planted-fault:\n    text: @@The hose is in the wrong drum\n"},
      {SIGN_AT, A_SIGN},
      {FIX_AT, A_CURE}}},
    {"T942",
     {{CAUSE_AT, "  planted-fault:\n    text: @@TODO\n"}, {SIGN_AT, A_SIGN}, {FIX_AT, A_CURE}}},
    {"T943",
     {{QUESTION_AT, "  planted-look:\n    about: today\n    ask: @@Is it so that the thing which "
                    "somebody has planted here yesterday, or the day before, or at any time in the "
                    "week before that, is still to be found where it was planted?\n"},
      {RULE_AT, "  planted:\n    when: {planted-look: yes}\n    then: {likelier: {drum-empty: 2 "
                "times}}\n"}}},
    {"T950",
     {{FIX_AT, "@@" A_FIX("mend-planted",
                          "    cures: {planted-fault: usually}\n    look-again: [drum-label]\n")},
      {SIGN_AT, A_SIGN},
      {CAUSE_AT, A_CAUSE}}},
    {"T951",
     {{FIX_AT, A_FIX("mend-planted", "    cures: {@@planted-fault: rarely}\n")},
      {SIGN_AT, A_SIGN},
      {CAUSE_AT, A_CAUSE}}},
    {"T952",
     {{FIX_AT,
       A_FIX(
           "mend-planted",
           "    cures: {planted-fault: usually}\n") "@@  zz-mend:\n    text: Look after it "
                                                    "slowly\n    takes: 20 min\n    role: "
                                                    "attendant\n    harm: none\n    put-back: not "
                                                    "needed\n    cures: {planted-fault: often}\n"},
      {SIGN_AT, A_SIGN},
      {CAUSE_AT, A_CAUSE}}},
    {"T953",
     {{FIX_AT, "@@  mend-planted:\n    text: Look after it\n    takes: 90 h\n    role: attendant\n "
               "   harm: none\n    put-back: not needed\n    cures: {planted-fault: often}\n"},
      {SIGN_AT, A_SIGN},
      {CAUSE_AT, A_CAUSE}}},
    {"T954",
     {{RULE_AT, "@@  planted:\n    when: {drum-changed: yes, foam-air: above 140 psi}\n    then:\n "
                "     stop: Leave it.\n      call: attendant\n"}}},
    {"T956",
     {{FIX_AT, A_FIX("mend-planted", "    cures: {@@planted-fault: sometimes}\n")},
      {SIGN_AT, A_SIGN},
      {CAUSE_AT, A_CAUSE}}},
    {"T960",
     {{"today.yaml", "  cold-stand:\n    text", "@@  zz-planted:\n    text: Planted\n"},
      {RULE_AT,
       "  planted:\n    when: {drum-changed: yes}\n    then: {set: {zz-planted: yes}}\n"}}},
    {"T963",
     {{QUESTION_AT,
       "  planted-look:\n    ask: How is it planted?\n    answers:\n      deep: Deep\n      "
       "@@shallow: Shallow\n      nowhere: Not at all\n    usual: nowhere\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {planted-look: deep}\n    "
                "shown-by: {drum-empty: often}\n"}}},
    {"T964",
     {{QUESTION_AT, "@@  planted-look:\n    ask: Is it planted?\n    about: today\n    shares: "
                    "{yes: 0 %, no: 100 %}\n"},
      {RULE_AT, "  planted:\n    when: {planted-look: yes}\n    then: {likelier: {drum-empty: 2 "
                "times}}\n"}}},
    {"T966",
     {{RULE_AT, "  planted:\n    when: {drum-changed: yes, weather: wind}\n    then: {likelier: "
                "{drum-empty: 2 times}}\n@@  zz-planted:\n    when: {drum-changed: yes, weather: "
                "wind}\n    then: {likelier: {drum-empty: 3 times}}\n"}}},
    {"T968",
     {{RULE_AT,
       "  planted:\n    when: {new-chemistry: yes}\n    then: {set: {@@new-chemistry: yes}}\n"}}},
    {"T915",
     {{SIGN_AT, "@@  planted-sign:\n    text: A planted sign\n    when: {strainer-look: coated}\n  "
                "  shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {FIX_AT, "  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: attendant\n    harm: none\n    put-back: not needed\n    cures: "
               "{planted-fault: usually}\n"}}},
    {"T916",
     {{QUESTION_AT, "@@  planted-look:\n    ask: Is it planted?\n    usual: no\n    confirms: {no: "
                    "planted-fault}\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {FIX_AT, "  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: attendant\n    harm: none\n    put-back: not needed\n    cures: "
               "{planted-fault: usually}\n"}}},
    {"T917",
     {{QUESTION_AT,
       "@@  planted-look:\n    ask: Is it planted?\n    about: today\n    read-right: 3 %\n"},
      {RULE_AT, "  planted:\n    when: {planted-look: yes}\n    then: {likelier: {drum-empty: 2 "
                "times}}\n"}}},
    {"T918", {{"book.yaml", "title:\n    en: Foam", "@@"}, {"book.yaml", " %\n  two-faults", "6"}}},
    {"T925", {{"site.yaml", "30 psi, source: mark at the gauge}", "@@1"}}},
    {"T937",
     {{SIGN_AT, "  planted-sign:\n    text: A planted sign\n    heard: [it is planted, @@lots "
                "left]\n    when: {drum-level: bare}\n    shown-by: {planted-fault: often}\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {FIX_AT, "  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: attendant\n    harm: none\n    put-back: not needed\n    cures: "
               "{planted-fault: usually}\n"}}},
    {"T957",
     {{FIX_AT, "@@  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: attendant\n    harm: none\n    put-back: not needed\n    cures: "
               "{planted-fault: usually}\n    after: replace-product-hose\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T958",
     {{FIX_AT, "@@  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: attendant\n    harm: none\n    put-back: not needed\n    cures: "
               "{planted-fault: usually}\n    after: clean-strainer\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T959",
     {{FIX_AT,
       "@@  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    role: "
       "attendant\n    harm: none\n    put-back: not needed\n    cures: {planted-fault: usually}\n "
       "   steps:\n      - Write down the turns as they are.\n      - Turn it.\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T965",
     {{QUESTION_AT,
       "  planted-look:\n    ask: Is it planted?\n    about: today\n    role: technician\n"},
      {FIX_AT, "  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: attendant\n    harm: none\n    put-back: not needed\n    cures: "
               "{planted-fault: usually}\n    only-when: @@{planted-look: yes}\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T969", {{"places.yaml", "  walkway:\n", "@@  attic:\n    text: the attic\n"}}},
    {"T969", {{"places.yaml", "  foam-air-gauge:\n", "@@  ruler:\n    text: the ruler\n"}}},
    {"T970",
     {{"danger.yaml", "      uncertain: #", "@@"},
      {"danger.yaml", "]\n    takes: 0.2", ", uncertain"}}},
    {"T971",
     {{QUESTION_AT,
       "@@  planted-gate:\n    ask: Is it planted?\n    about: today\n    safe: [no]\n"}}},
    {"T972",
     {{RULE_AT, "@@  planted:\n    when: {drum-changed: yes, foam-air: above 140 psi}\n    then:\n "
                "     stop: Leave it.\n"}}},
    {"T973",
     {{FIX_AT, "@@  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: technician\n    harm:\n      from: [pressure]\n      unprotected: {worst: "
               "critical, chance: occasional}\n      protected: {worst: marginal, chance: "
               "remote}\n    put-back: not needed\n    cures: {planted-fault: usually}\n    "
               "procedure: lock-the-stand\n    while:\n      running: It is quicker.\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T974",
     {{FIX_AT, "  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: technician\n    harm:\n      from: [pressure]\n      unprotected: {worst: "
               "critical, chance: occasional}\n      protected: {worst: marginal, chance: "
               "remote}\n    put-back: not needed\n    cures: {planted-fault: usually}\n    "
               "procedure: lock-the-stand\n    steps:\n      - @@Switch the foam on and look.\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T975",
     {{FIX_AT,
       "@@  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    role: "
       "attendant\n    harm:\n      from: [pressure]\n      unprotected: {worst: critical, chance: "
       "occasional}\n      protected: {worst: marginal, chance: remote}\n    put-back: not "
       "needed\n    cures: {planted-fault: usually}\n    procedure: lock-the-stand\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T976",
     {{"procedures.yaml", "  lock-the-line:\n",
       "@@  lock-planted:\n    energies: [pressure]\n    tell: Tell everybody.\n    isolate:\n     "
       " - Shut the valve.\n    release:\n      - Open the drain.\n    prove:\n      - Press "
       "start. Nothing may move.\n    restore:\n      - Take off your own lock.\n"}}},
    {"T976",
     {{"procedures.yaml", "  lock-the-line:\n",
       "@@  lock-planted:\n    energies: [pressure]\n    tell: Tell everybody.\n    isolate:\n     "
       " - Shut the valve and hang your own lock on it.\n    release:\n      - Open the drain.\n   "
       " prove:\n      - Press start. Nothing may move.\n    restore:\n      - Open the "
       "valve.\n"}}},
    {"T987",
     {{"procedures.yaml", "  lock-the-line:\n",
       "@@  lock-planted:\n    energies: [pressure]\n    tell: Tell everybody.\n    isolate:\n     "
       " - Shut the valve and hang your own lock on it.\n    release:\n      - Press start. "
       "Nothing may move.\n    prove:\n      - Open the drain.\n    restore:\n      - Take off "
       "your own lock.\n"}}},
    {"T977",
     {{FIX_AT,
       "@@  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    role: "
       "technician\n    harm:\n      from: [pressure]\n      unprotected: {worst: critical, "
       "chance: occasional}\n      protected: {worst: critical, chance: occasional}\n    put-back: "
       "not needed\n    cures: {planted-fault: usually}\n    procedure: lock-the-stand\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T978",
     {{FIX_AT, "  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: technician\n    harm:\n      @@from: [slips]\n      unprotected: {worst: "
               "critical, chance: occasional}\n      protected: {worst: marginal, chance: "
               "remote}\n    put-back: not needed\n    cures: {planted-fault: usually}\n    "
               "protect: [Boots that grip]\n    steps:\n      - Climb the ladder to it.\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T979",
     {{FIX_AT, "@@  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: technician\n    harm:\n      from: [electricity]\n      unprotected: {worst: "
               "critical, chance: occasional}\n      protected: {worst: marginal, chance: "
               "remote}\n    put-back: not needed\n    cures: {planted-fault: usually}\n    "
               "procedure: lock-the-controller\n    steps:\n      - Mend the wiring.\n"},
      {CAUSE_AT, "  planted-fault:\n    text: A planted fault\n    part: supply\n    means: It is "
                 "planted.\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"}}},
    {"T980",
     {{RULE_AT, "@@  planted:\n    when: {foam-air: above 25 psi}\n    then:\n      caution:\n     "
                "   signal: warning\n        holds: none\n        text: It is planted.\n"}}},
    {"T981",
     {{RULE_AT,
       "  planted:\n    when: {foam-colour: paler}\n    then: {rule-out: [@@drum-empty]}\n"}}},
    {"T982",
     {{RULE_AT, "@@  planted:\n    when: {drum-level: bare}\n    then: {skip: [drum-level]}\n"}}},
    {"T983",
     {{CAUSE_AT,
       "@@  planted-fault:\n    text: A planted fault\n    brought-on-by: [zz-planted]\n  "
       "zz-planted:\n    text: Another planted fault\n    brought-on-by: [planted-fault]\n"},
      {SIGN_AT, "  planted-sign:\n    text: A planted sign\n    when: {drum-level: bare}\n    "
                "shown-by: {planted-fault: often}\n"},
      {FIX_AT, "  mend-planted:\n    text: Look after the planted thing\n    takes: 16 min\n    "
               "role: attendant\n    harm: none\n    put-back: not needed\n    cures: "
               "{planted-fault: usually}\n"}}},
    {"T984",
     {{QUESTION_AT, "  planted-look:\n    ask: Is it planted?\n    about: today\n    only-when: "
                    "{drum-level: bare}\n"},
      {RULE_AT,
       "  planted:\n    when: {planted-look: yes}\n    then: {likelier: {drum-empty: 2 times}}\n"},
      {"cases/danger-cases.yaml", "  hose-sprays:\n",
       "  planted:\n    answers: {drum-level: under, planted-look: @@yes}\n    expect: "
       "{never-asked: [drum-label]}\n"}}},
    {"T985",
     {{QUESTION_AT, "  planted-look:\n    ask: Is it planted?\n    role: technician\n    confirms: "
                    "{yes: drum-empty}\n"},
      {"cases/danger-cases.yaml", "  hose-sprays:\n",
       "  planted:\n    answers: {planted-look: @@yes}\n    expect: {leading-cause: "
       "drum-empty}\n"}}},
    {"T986",
     {{"cases/danger-cases.yaml", "  hose-sprays:\n",
       "  planted:\n    answers: {drum-level: bare}\n    expect: {leading-cause: drum-empty, "
       "first-fix: @@clean-strainer}\n"}}},
    {"T953",
     {{"places.yaml", "  walkway:\n",
       "@@  attic:\n    text: the attic\n    walk: {till: 20 h}\n"}}},
    {"T415", {{CAUSE_AT, "@@  planted-fault:\n    text: A planted fault\n"}, {FIX_AT, A_CURE}}},
    {"T416", {{CAUSE_AT, "@@  planted-fault:\n    text: A planted fault\n"}, {SIGN_AT, A_SIGN}}},
    {"T417", {{QUESTION_AT, "@@  planted-look:\n    ask: Is it planted?\n"}}},
};

/* ---- a book in memory ---- */

enum { FILES_MAX = 128 };
typedef struct planted {
    arena *keep;
    tt_source files[FILES_MAX];
    uint32_t count, marked; /* the file with the mark */
    const char *file;       /* and line where the doubt is to stand */
    uint32_t line;
} planted;

static bool is_book_file(const char *name)
{
    return str_ends(str_of(name), ".yaml") || str_ends(str_of(name), ".svg");
}

static str bytes_of(arena *keep, const char *path)
{
    FILE *f = fopen(path, "rb");
    assert_non_null(f);
    char *bytes = ARENA_ARRAY(keep, char, 1 << 17);
    const size_t n = fread(bytes, 1, 1 << 17, f);
    assert_true(n < 1 << 17);
    fclose(f);
    return (str){bytes, n};
}

static void read_folder(planted *p, const char *folder, const char *before)
{
    DIR *d = opendir(folder);
    assert_non_null(d);
    for (struct dirent *e; (e = readdir(d)) != NULL;) {
        if (!is_book_file(e->d_name)) continue;
        const str path = str_printf(p->keep, "%s/%s", folder, e->d_name),
                  bytes = bytes_of(p->keep, path.p);
        assert_true(p->count < FILES_MAX);
        p->files[p->count++] = (tt_source){.name = str_printf(p->keep, "%s%s", before, e->d_name).p,
                                           .bytes = bytes.p,
                                           .length = bytes.n};
    }
    closedir(d);
}

static planted whole_book(arena *keep)
{
    planted p = {.keep = keep};
    read_folder(&p, BOOK, "");
    read_folder(&p, BOOK "/cases", "cases/");
    return p;
}

static uint32_t line_at(str text, size_t at)
{
    uint32_t line = 1;
    for (size_t i = 0; i < at; i++) line += text.p[i] == '\n';
    return line;
}

static void apply(planted *p, const edit *e)
{
    uint32_t f = 0;
    while (f < p->count && strcmp(p->files[f].name, e->file) != 0) f++;
    assert_true(f < p->count);
    const str text = {p->files[f].bytes, p->files[f].length}, put = str_of(e->put);
    const size_t at = str_find(text, str_of(e->find)), mark = str_find(put, STR("@@"));
    if (at == SIZE_MAX) fail_msg("%s has no '%s'", e->file, e->find);
    const str all = str_printf(p->keep, "%.*s%.*s%.*s", (int)at, text.p, STR_ARG(put),
                               (int)(text.n - at), text.p + at);
    p->files[f].bytes = all.p;
    p->files[f].length = all.n;
    if (mark != SIZE_MAX) p->marked = f;
}

/* Where the mark stands once all is planted; it is taken out. */
static void take_mark(planted *p)
{
    tt_source *file = &p->files[p->marked];
    const str text = {file->bytes, file->length};
    const size_t at = str_find(text, STR("@@"));
    assert_true(at != SIZE_MAX);
    const str all =
        str_printf(p->keep, "%.*s%.*s", (int)at, text.p, (int)(text.n - at - 2), text.p + at + 2);
    p->file = file->name;
    p->line = line_at(text, at);
    file->bytes = all.p;
    file->length = all.n;
}

static tt_report *doubted(const planted *p)
{
    tt_book *book = NULL;
    tt_report *report = NULL;
    if (tt_book_load(p->files, p->count, &book, &report) == TT_OK)
        assert_int_equal(tt_book_doubts(book, report), TT_OK);
    tt_book_free(book);
    return report;
}

/* At the place, or as the other of two. */
static bool is_at(const tt_report *report, uint32_t i, const char *file, uint32_t line)
{
    const tt_fault f = tt_report_fault(report, i);
    tt_remark note;
    if (strcmp(f.file, file) == 0 && f.line == line) return true;
    for (uint32_t n = 0; tt_report_note(report, i, n, &note); n++)
        if (strcmp(note.file, file) == 0 && note.line == line) return true;
    return false;
}

static bool is_there(const tt_report *report, const char *code, const char *file, uint32_t line)
{
    for (uint32_t i = 0; i < tt_report_count(report); i++)
        if (strcmp(tt_report_fault(report, i).code, code) == 0 && is_at(report, i, file, line))
            return true;
    return false;
}

/* ---- */

static void the_shipped_book_has_no_doubt(void **state)
{
    (void)state;
    arena *keep = arena_new(NULL, NULL);
    const planted p = whole_book(keep);
    tt_report *report = doubted(&p);
    assert_string_equal(tt_report_text(report), "");
    tt_report_free(report);
    arena_free(keep);
}

static void each_plant_is_found_at_its_line(void **state)
{
    (void)state;
    uint32_t missed = 0;
    for (size_t i = 0; i < sizeof plants / sizeof *plants; i++) {
        arena *keep = arena_new(NULL, NULL);
        planted p = whole_book(keep);
        for (size_t k = 0; k < 4 && plants[i].edits[k].file != NULL; k++)
            apply(&p, &plants[i].edits[k]);
        take_mark(&p);
        tt_report *report = doubted(&p);
        if (!is_there(report, plants[i].code, p.file, p.line)) {
            print_error("%s is not found at %s:%u; said is:\n%s\n", plants[i].code, p.file, p.line,
                        tt_report_text(report));
            missed++;
        }
        tt_report_free(report);
        arena_free(keep);
    }
    assert_int_equal(missed, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_shipped_book_has_no_doubt),
        cmocka_unit_test(each_plant_is_found_at_its_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
