/* The keys of every map of the rule language, a table each: name, how it is read and where to, an
 * example if it must be there, what it says, and what holds without it. See keys.h for who reads
 * them. */
#include <assert.h>
#include <string.h>

#include "model/book.h"
#include "read/keys.h"

/* clang-format off */
/* What a key says is read in the schema, in docs and in faults: the page for a phone has none of them. */
#ifdef TT_WITHOUT_AUTHORS
#define SAYS(text) ""
#else
#define SAYS(text) text
#endif
#define NAME(name) name, "'" name "'"
#define MUST(name, kind, type, field, example, says) {NAME(name), kind, offsetof(type, field), example, true, SAYS(says), "must be there"}
#define OFTEN(name, kind, type, field, example, says, without) {NAME(name), kind, offsetof(type, field), example, false, SAYS(says), without}
#define MAY(name, kind, type, field, says, without) {NAME(name), kind, offsetof(type, field), NULL, false, SAYS(says), without}
#define OWN_MUST(name, example, says) {NAME(name), KEY_OWN, 0, example, true, SAYS(says), "must be there"}
#define OWN_OFTEN(name, example, says, without) {NAME(name), KEY_OWN, 0, example, false, SAYS(says), without}
#define OWN(name, says, without) {NAME(name), KEY_OWN, 0, NULL, false, SAYS(says), without}
#define OLD(name, now) {NAME(name), KEY_OLD, 0, NULL, false, now, ""}
#define OLD_VALUE(name, now, line) {NAME(name), KEY_OLD, 0, line, false, now, ""}
#define OLD_MINUTES OLD_VALUE("minutes", "Write 'takes' and the time with its unit, such as 'takes: 90 min'.", "takes: * min")
#define FOR_EACH \
    OWN("for-each", "the kind of equipment of which this is there once [for each piece]" \
                    "(#kinds-what-is-written-once-for-each-piece-of-equipment)", "once")

#define PICTURE(type, says) MAY("picture", KEY_PICTURE, type, picture, says, "none")
#define FINE \
    OWN("fine", "[doubts](faults-doubts.md) of `check` that are no fault here, each with the reason: `{T910: two names for one fault, on purpose}`", \
        "each doubt is told")

static const key of_file[] = {
    OWN("book", "the manifest: what holds for the whole book, in one file of it", "must be there once"),
    OWN("kinds", "kinds of equipment", "none"),
    OWN("site", "the example site: which equipment there is", "two of each kind stand in"),
    OWN("quantities", "what is reckoned from readings", "none"),
    OWN("questions", "what a person can look at, measure or be asked", "none, with a warning"),
    OWN("symptoms", "signs, and how often each cause shows them", "none, with a warning"),
    OWN("conclusions", "what rules set", "none"),
    OWN("causes", "what can be wrong", "must be there"),
    OWN("fixes", "what can be done", "none, with a warning"),
    OWN("rules", "what follows from what", "none"),
    OWN("cases", "worked cases, with which the book is tried", "none"),
    OWN("emergencies", "dangers that have happened, and what to do then", "those that every book has"),
    OWN("words-for", "words that mean the same", "none"),
    OWN("places", "where one stands to look or to work", "none"),
    OWN("procedures", "how energy is isolated and given back, written once", "none"),
    OWN("protection", "lists of what to wear, written once", "none"),
    OWN("harms", "what can hurt and how bad, written once", "none"),
    OWN("instruments", "what questions are answered with", "none"),
    OWN("for-each", "the kind of equipment for each piece of which "
                    "[all entries of the file](#kinds-what-is-written-once-for-each-piece-of-equipment) are there, where they say nothing else", "once"),
    OLD("rulebook", "Write 'book:' instead; what stands beneath it stays as it is."),
};

static const key of_book[] = {
    MUST("title", KEY_TEXT, book, title, "House well", "what the book is called"),
    MAY("edition", KEY_WORD, book, edition, "a word or number of your own", "`1`"),
    OWN("learned-until", "a moment in universal time, `2026-11-25T19:16:00Z`: cases confirmed up to then are in the numbers already. `telltale "
        "learn` "
                         "writes it with what it proposes", "none are"),
    OWN_MUST("roles", "[attendant, technician]",
             "list of names, rising: each may also do the work of those before it; the first is who asks for help. A list within it, `[operator, "
             "[gas-fitter, electrician]]`, is of roles beside each other: neither may do the other's work. Who may isolate and lock says so: `{technician: {authorised: yes}}`"),
    OWN("answers-count", "how much [what the answers say](#how-much-answers-count) counts, 10 % to 100 %: less where signs go together. `telltale learn` "
        "proposes it", "100 %"),
    OWN("not-listed", "share of calls whose fault is none of the causes", "3 %"),
    OWN("two-faults", "share of calls with two faults at once", "5 %"),
    MAY("call-out", KEY_TIME, book, call_minutes, "how long one waits for somebody who is called, `240 min`; their work comes on top of it", "`240 min`"),
    OWN("done-wrongly", "of 100 times that a fix is done, how often it is done wrongly and so cures nothing; a fix may say otherwise", "5 %"),
    OWN("comes-back", "of 100 cures, after how many the same cause [comes back](#what-comes-back) at that site; a cause may say otherwise", "10 %"),
    MAY("walk", KEY_TIME, book, walk_minutes, "the time from one [place](#places-where-one-stands) to another where they say nothing else, `2 min`", "none"),
    OWN("minute-costs", "map over roles: what a minute of theirs costs, `{attendant: 0.5 USD}`", "nothing is said"),
    OWN("language", "language of plain texts, BCP 47", "`en`"),
    OWN("cautions", "list of texts shown before anything else, or of `{text, from: [hazards]}`, shown before each question and fix with one of these hazards", "none"),
    MAY("stop-text", KEY_TEXT, book, stop_text,
        "what to do while [danger](#danger-comes-first) is not ruled out, where no rule that stops says it", "a text of ours"),
    OWN("not-danger", "list of words that sound like danger and are your trade's own: `[photo eye, hot wax]`. What tells of somebody hurt or of fire "
                      "can't be among them", "none"),
    OWN("words", "map: replaces the chance of a word, `{often: 65 %}`", "the words [of the language](#symptoms-the-rules-main-form)"),
    OWN("worth-trying", "map over `low`, `medium`, `serious`: chance from which a fix of that risk is worth trying", "5 %, 5 %, 20 %"),
    OWN("prices", "map over `low`, `medium`, `serious`: minutes that a needless fix of that risk counts as", "0, 10, 30"),
    PICTURE(book, "a [picture](#pictures) of the whole, on which people point to what is wrong"),
    OWN("show", "list of units in which readings are shown and typed numbers without unit are read, one for each thing measured: `[bar, l/min]`. A "
                "site's own `show` comes before it", "each question's unit"),
    OLD("gates", "Write 'worth-trying:' instead; what stands beneath it stays as it is."),
    FINE,
};

static const key of_role[] = {
    OWN("authorised", "`yes`: may isolate and lock. Whoever isn't is offered no fix with a procedure", "no; a site may say so of a post"),
    OWN("text", "what people call it, in each language, without an article: *licensed electrician*", "its name"),
};

static const key of_book_caution[] = {
    MUST("text", KEY_TEXT, hazard_caution, text, "what to beware of", "what to beware of"),
    OWN_MUST("from", "[pressure]", "list of [hazards](#fixes)"),
};

static const key of_kind[] = {
    OWN("one", "what one is called", "its name"),
    OWN_MUST("ask", "Which are there?", "the question that asks which there are, in which order"),
    OWN("hangs-on", "the kind on one of whose pieces [each of these hangs](#what-hangs-on-what)", "on none"),
    OWN("unnamed", "what one is called at a site whose file names none: [one is there then](#what-hangs-on-what), and nobody is asked for it",
        "there is none then"),
    FINE,
};

static const key of_question[] = {
    MUST("ask", KEY_HEADED, question, ask, "What do you see?", "the question"),
    MAY("look", KEY_TEXT, question, look, "how to look or measure safely", ""),
    MAY("because", KEY_TEXT, question, because, "why it is asked, for a learner: said when somebody asks why", ""),
    PICTURE(question, "a [picture](#pictures) of what to look at"),
    MAY("say", KEY_HEADED, question, say, "the words to read aloud on the telephone", "`ask`"),
    OWN("answers", "map of two or more names to a text, or to `{text, heard}`", "yes or no"),
    OWN("reading", "what is measured: `pressure`, `speed`, `dilution`, any word of yours", "it is no reading"),
    OWN_OFTEN("unit", "psi", "of a reading: one of [the list](units.md) that fits the word", "must be there for a reading"),
    OWN("count", "what is counted: a whole number without unit", "it is no count"),
    OWN("plausible", "of a reading or count: outside it the prompt asks again, `0 to 150 psi`", "any number will do"),
    OWN("usual", "the answer, or range of the reading, of equipment in order; a number typed without a unit that is more than four times off is "
        "asked "
                 "again", ""),
    MAY("takes", KEY_TIME, question, minutes, "how long it takes, with its unit: `2 min`, `30 s`, `1.5 h`", "`1 min`"),
    MAY("role", KEY_ROLE, question, role, "who may do it", "the lowest"),
    OWN("only-when", "condition: asked only once it is known to hold", "always"),
    MAY("place", KEY_PLACE, question, place, "the [place](#places-where-one-stands) where one stands to answer it; complaints about what is seen there are listed under it", ""),
    MAY("instrument", KEY_INSTRUMENT, question, instrument, "the [instrument](#instruments-what-one-reads-with) that it is answered with", ""),
    OWN("round", "`daily`, `weekly` or `monthly`: it is looked at that often, also without a fault", "only when a fault is looked for"),
    OWN("good", "of a reading: the fact of the site that holds its good value, `foam-air-set`", ""),
    OWN("safe", "the answers that let the case go on, `[no]`, or the range of a reading, `below 5 ppm`: makes it a "
                "[gate question](#danger-comes-first)", "no gate question"),
    OWN("early", "`yes`: a fact that is told right after the gate questions", "no"),
    OLD_MINUTES,
    OLD("first", "To rule out danger write 'safe' with the answers that let the case go on, such as 'safe: [no]'; for a fact that is told right "
        "after "
                 "that, 'early: yes'."),
    OWN("read-right", "how often people get it right", "95 %; readings 98 %; facts 100 %"),
    OWN("about", "`the site` or `today`: a fact, no sign of a fault; it serves conditions and rules", "it may be a sign of a fault"),
    OWN("shares", "for a fact: how often each answer among all calls, `{summer: 25 %}`; until it is told, rules count with these", "even"),
    OWN("confirms", "`{answer: cause}`: always with that cause, otherwise practically never; no symptom need be written", ""),
    OWN("wrongly-confirmed", "of 100 who look where it isn't so, how many tell an answer in `confirms` all the same", "0.2 %"),
    OWN("harm", "as for fixes", "`none`"),
    OWN("protect", "as for fixes", ""),
    OWN("procedure", "as for fixes", ""),
    OWN("isolate", "as for fixes", ""),
    OWN("while", "as for fixes", "`isolated` where a procedure stands, else it does not matter"),
    OWN("put-back", "as for fixes", "`not needed`"),
    FOR_EACH,
    FINE,
};

static const key of_answer[] = {
    MUST("text", KEY_TEXT, answer_option, text, "what the person sees", "what people read"),
    MAY("heard", KEY_HEARD, answer_option, heard, "other words for it: plain words, or a pattern `/…/`", ""),
    PICTURE(answer_option, "a [picture](#pictures) of how that looks"),
};

static const key of_quantity[] = {
    MUST("text", KEY_HEADED, question, ask, "Line speed", "what it is called"),
    OWN_MUST("formula", "cars-per-hour * pitch",
             "a [formula](formulas.md), or a list of cases: the first whose `when` holds gives the value. The last may do without `when`; then it "
        "holds in "
             "all other cases"),
    OWN("unit", "its unit; what the formula gives must fit", "a plain number"),
    OWN("usual", "the range in equipment in order", ""),
    OWN("over-time", "`yes`: `history` shows how it has gone at a site, such as the product for each car", "no"),
    FOR_EACH,
    FINE,
};

static const key of_formula_case[] = {
    OWN("when", "condition over questions and quantities", "always: the last one only"),
    OWN_MUST("is", "2 * pitch", "the formula that gives the value then"),
};

static const key of_symptom[] = {
    OWN_MUST("when", "{question: answer}", "condition over questions, other symptoms, conclusions (not over facts alone, not `known`)"),
    OFTEN("text", KEY_HEADED, symptom, text, "what is seen",
        "how it reads; with `heard`, without `{…}` of readings: a call begins with it before anything "
     "is read", "the words of the answer, if it rests on one; else it must be there"),
    MAY("heard", KEY_HEARD, symptom, heard, "what people say, five to eight plain phrases; [words in other words](#heard-and-words-for-what-is-understood) are understood too. `/…/` is a pattern (PCRE2, in single quotes or bare). A "
        "symptom "
                                            "with `heard` is a complaint that a call can begin with", "no complaint"),
    OWN_MUST("shown-by", "{cause: often}", "map: of 100 calls with this cause alone, how many show it"),
    OWN("otherwise", "of 100 calls whose fault is some *other* listed cause, how many show it", "rarely"),
    FOR_EACH,
    FINE,
};

static const key of_cause[] = {
    MUST("text", KEY_HEADED, cause, text, "what is wrong", "what is wrong"),
    OWN("how-often", "`very common` 10, `common` 5, `occasional` 2, `uncommon` 1, `rare` 0.3 or a number (shares are relative)", "`uncommon`"),
    MAY("part", KEY_TEXT, cause, part, "of the equipment", ""),
    MAY("means", KEY_TEXT, cause, means, "a sentence on what happens", ""),
    PICTURE(cause, "a [picture](#pictures) of it"),
    MAY("spare-parts", KEY_PHRASES, cause, spare_parts, "list of texts", "none"),
    MAY("confirmed-by", KEY_ROLE, cause, confirmed_by, "the role that confirms it", "whoever asks"),
    OWN("comes-back", "of 100 cures of it, after how many it [comes back](#what-comes-back) at that site", "as the book says, 10 %"),
    OWN("never-with", "list of causes", "none"),
    OWN("brought-on-by", "list of causes to look at before the case is closed; where this one comes back at a site, they are likelier too", "none"),
    MAY("only-when", KEY_WHEN, cause, only_when, "condition: the cause is out once this is known *not* to hold; while that is open it is as likely as the facts make it", "always"),
    FOR_EACH,
    OWN("each", "`yes`: how often is said of [each piece](#kinds-what-is-written-once-for-each-piece-of-equipment), not of all together", "no"),
    FINE,
};

static const key of_fix[] = {
    MUST("text", KEY_HEADED, fix, text, "what to do", "what to do"),
    MAY("steps", KEY_STEPS, fix, steps, "the steps in order; each a text, or `{text, picture}`", "none"),
    MAY("once-running", KEY_STEPS, fix, once_running, "what comes once it is given back and runs again: watch it, measure it", "none"),
    OWN_MUST("cures", "{cause: usually}", "`{cause: chance}`"),
    OWN("done-wrongly", "of 100 times that it is done, how often it is done wrongly and so cures nothing; the chances in `cures` are of a fix done rightly", "as the book says, 5 %"),
    MAY("takes", KEY_TIME, fix, minutes, "how long it takes, with its unit: `90 min`", "`2 min`"),
    MUST("role", KEY_ROLE, fix, role, "name", "whose work it is, a role of the book"),
    OWN_MUST("harm", "' with 'from', 'unprotected' and 'protected' beneath it; only if nothing can hurt, 'harm: none",
             "`none`, or `from`, `unprotected` and `protected`, or a name of `harms`"),
    OWN("protect", "what to wear, list of texts or of names of `protection`", "nothing"),
    OWN("procedure", "the [procedure](#procedures-written-once) by which its energies are isolated, or several in order, `[lock-the-line, "
        "lock-the-water]`", "none"),
    OWN("isolate", "energy to isolate and lock beside that, in order", "nothing"),
    OWN("while", "`running`, `stopped` or `isolated`: how the equipment is while this is done. With an energy that no procedure isolates a "
        "line `running:` beneath it, and why", "`isolated` where a procedure stands, else it does not matter"),
    MAY("place", KEY_PLACE, fix, place, "the [place](#places-where-one-stands) where it is done", ""),
    OWN_MUST("put-back", "not needed", "a text, `not needed` or `impossible`"),
    MAY("only-when", KEY_WHEN, fix, only_when, "condition: offered once known to hold", "always"),
    OWN("look-again", "questions to ask afterwards", "none"),
    OWN("after", "a fix that is tried first, or a list: rinse before replace", "none"),
    OWN("before", "a fix that is tried later, or a list", "none"),
    OWN("adjust", "a setting that is [changed step by step](#a-setting-changed-step-by-step)", ""),
    MAY("parts", KEY_PHRASES, fix, parts, "list of texts", "none"),
    OWN("cost", "what it costs beside the time: a number and a currency (ISO 4217), `40 USD`; one currency in all of a book", "nothing is said"),
    FOR_EACH,
    OLD_MINUTES,
    FINE,
};

static const key of_harm[] = {
    OWN_MUST("from", "[pressure]", "list of hazards"),
    OWN_MUST("unprotected", "{worst: critical, chance: occasional}", "how bad without what is worn and isolated: `worst` and `chance`"),
    OWN_MUST("protected", "{worst: marginal, chance: improbable}", "how bad with it"),
};

static const key of_procedure[] = {
    OWN_MUST("energies", "[electricity]", "list of `electricity`, `pressure`, `moving-parts`, `gravity`, `heat`, `stored-energy`"),
    MUST("tell", KEY_TEXT, procedure, tell, "Tell everybody there that it is being locked out.",
         "whom to tell before anything is switched off"),
    MUST("isolate", KEY_STEPS, procedure, isolate, "a list of what to stop, switch off, shut and lock", "what to stop, switch off, shut and lock, "
         "in order"),
    MAY("release", KEY_STEPS, procedure, release, "what is stored and must go: pressure, what is raised, springs; where nothing is, how long to wait until all stands still",
        "must be there, except for `heat`"),
    MAY("prove", KEY_STEPS, procedure, prove, "how it is shown that nothing is left: try to start it, watch the gauge",
        "must be there, except for `heat`"),
    MUST("restore", KEY_STEPS, procedure, restore, "a list that ends with taking off the own lock and telling everybody",
         "tools out, guards on, people clear, each takes off only their own lock, everybody is told"),
    OWN("wear", "what to wear for it, as `protect` of fixes", "nothing"),
    MAY("takes", KEY_TIME, procedure, minutes, "how much of each such fix's own `takes` it is, to isolate and to give back; [two fixes "
        "under one lockout](#two-fixes-under-one-lockout) take it once", "not known, and each fix is done by itself"),
    FOR_EACH,
};

static const key of_site_procedure[] = {
    MAY("tell", KEY_TEXT, procedure, tell, "whom to tell here", "as in the book"),
    MAY("isolate", KEY_STEPS, procedure, isolate, "the switches and valves here, by their own names", "as in the book"),
    MAY("release", KEY_STEPS, procedure, release, "what is let go here, and where", "as in the book"),
    MAY("prove", KEY_STEPS, procedure, prove, "how it is proved here", "as in the book"),
    MAY("restore", KEY_STEPS, procedure, restore, "how it is given back here", "as in the book"),
    OWN("wear", "what is worn for it here", "as in the book"),
};

static const key of_risk[] = {
    OWN_MUST("worst", "marginal", "`catastrophic`, `critical`, `marginal` or `negligible`"),
    OWN_MUST("chance", "remote", "`frequent`, `probable`, `occasional`, `remote`, `improbable` or `eliminated`"),
};

static const key of_adjust[] = {
    OWN_MUST("reading", "name", "the question (a reading) whose value is set"),
    OWN_MUST("by", "-5 psi", "what one step adds; with a minus, what it takes away; of a temperature an interval, `3 degF interval`. For a "
        "dilution in `%` "
                             "of the whole, `0.2 %`"),
    OWN_MUST("within", "35 to 60 psi", "no step leads outside; the last one is shortened to the limit. A reading that is outside, or at the limit "
        "already, "
                                       "is not adjusted"),
    OWN_MUST("at-most", "3 times", "how many steps"),
};

static const key of_conclusion[] = {
    MUST("text", KEY_HEADED, conclusion, text, "what it means", "what it means"),
    OWN("answers", "its values, as for questions", "`yes`"),
    FOR_EACH,
    FINE,
};

static const key of_rule[] = {
    OWN_MUST("when", "{question: answer}", "condition"),
    OWN_MUST("then", "{likelier: {cause: 3 times}}", "what follows"),
    FOR_EACH,
    OWN("for-each-pair", "the kind of equipment for [each two pieces](#kinds-what-is-written-once-for-each-piece-of-equipment) of which this is "
        "there", "once"),
    FINE,
};

static const key of_then[] = {
    OWN("set", "gives a conclusion its value", ""),
    OWN("rule-out", "list of causes that can't be", ""),
    OWN("likelier", "`{cause: 3 times}`: multiplies its *how often*, not its chance", ""),
    OWN("less-likely", "`{cause: 3 times}`: divides it", ""),
    OWN("skip", "questions and fixes that don't apply", ""),
    OWN("caution", "text shown with the word CAUTION; or `signal` and `text`", ""),
    OWN("stop", "text: how to stop safely", ""),
    OWN("call", "beside `stop`: the role to call", "nobody"),
};

static const key of_caution[] = {
    OWN("signal", "`danger`, `warning`, `caution` or `notice`", "`caution`"),
    MUST("text", KEY_HEADED, rule, caution, "what to beware of", "what to beware of"),
    OWN("holds", "list of fixes that nobody is offered while it stands; `none` where it makes no fix more dangerous",
        "must be there with `danger` and `warning`, unless the rule stops"),
};

static const key of_case[] = {
    OWN("answers", "what is answered, as in an answers file", "nothing"),
    MAY("as", KEY_ROLE, worked_case, role, "who asks", "the lowest role"),
    OWN("at", "the pieces of equipment that the call is about; bare names mean the one that is alone of its kind here", "all"),
    OWN("complaint", "the symptom that the call begins with", "none"),
    OWN_MUST("expect", "{leading-cause: name}", "what must come of it"),
    FINE,
};

static const key of_expect[] = {
    OWN("leading-cause", "the cause, or `something-not-listed`, that comes first", ""),
    OWN("among-first", "`{count: 3, cause: name}`, or a list of causes, each of them among the first three", ""),
    OWN("first-fix", "the fix to try first", ""),
    OWN("caution", "a rule whose caution is shown", ""),
    OWN("stop", "a rule that stops", ""),
    OWN("next", "the question that comes next", ""),
    OWN("never-asked", "list of questions that are not asked while the case is played and all else answered *not sure*", ""),
    OWN("never-offered", "list of fixes that are neither worth trying once all is answered, nor offered while the case is played and all else answered *not sure*", ""),
    OWN("chance", "beside `leading-cause`: how sure of it one must be, `at least 70 %` or `at most 90 %`", "any"),
    OWN("danger", "`stop`: the case stops for danger; `none`: it goes on", ""),
    OWN("hears", "`{say: the foam runs off, as: foam-too-wet}`, or a list of such: what these words are taken for", ""),
};

static const key of_hears[] = {
    OWN_MUST("say", "the words", "what somebody says is wrong"),
    OWN_MUST("as", "name", "the symptom that it must be taken for"),
};

static const key of_among_first[] = {
    OWN_MUST("count", "3", "how many places"),
    OWN_MUST("cause", "name", "the cause, or a list of them"),
};

static const key of_emergency[] = {
    MUST("text", KEY_TEXT, emergency, text, "what has happened", "what has happened"),
    OFTEN("heard", KEY_HEARD, emergency, heard, "[what people say then]", "what people say then, as for symptoms",
        "must be there, unless it replaces one"),
    MUST("do", KEY_TEXTS, emergency, do_now, "[Leave now]", "what to do now: one instruction a line, the most urgent first"),
    MAY("then", KEY_TEXTS, emergency, then, "what comes after that", ""),
    MAY("call", KEY_ROLE, emergency, call, "the role to call, beside the emergency number", "nobody else"),
    OFTEN("source", KEY_PHRASE, emergency, source, "where this stands", "where this stands", "must be there if it replaces one"),
    OWN("replaces", "the name of one of those above, in whose place it stands", "none"),
    FINE,
};

static const key of_site[] = {
    MAY("title", KEY_TEXT, book, site_title, "what the place is called; one a language, if you like", ""),
    OWN("units", "for each kind of the book, the pieces there are", "none of any kind"),
    OWN("answers", "facts of the whole place", "asked when they are needed"),
    OWN("contacts", "[whom to call](sites.md#whom-to-call)", "nobody is named"),
    OWN("emergency-number", "the number that is called here when somebody is hurt or something burns: `911`", "*the local emergency number*"),
    OWN("procedures", "[the switches and valves here](sites.md#procedures-of-the-site), by their own names", "as in the book"),
    OWN("show", "the units in which people there read and speak, one for each kind of quantity; `[bar, l/min]`", "those of the rules"),
};

static const key of_piece[] = {
    OWN("text", "what people there call it, in the middle of a sentence: *the fine filter*. One a language, if you like", "its name, with blanks for "
                "hyphens"),
    OWN("comes-before", "list of the pieces of its kind that the work meets right after it", "no order"),
    OWN("hangs-on", "the piece [on which it hangs](language.md#what-hangs-on-what), where its kind hangs on another", "the only one there is"),
};

static const key of_site_value[] = {
    OWN_MUST("value", "8 psi", "the answer"),
    MAY("source", KEY_PHRASE, site_answer, source, "how it is known: `the label on its housing`", "not told"),
    MAY("day", KEY_WORD, site_answer, day, "when it was found good: `2026-05-03`", "not told"),
    MAY("role", KEY_WORD, site_answer, role, "who found it so: a role of the book", "not told"),
    MAY("how", KEY_WORD, site_answer, how, "with what it was measured", "not told"),
};

static const key of_picture[] = {
    OWN_MUST("file", "fan.svg", "an SVG drawing in the book's folder, `pictures/fan.svg`"),
    MUST("text", KEY_TEXT, picture, text, "what it shows, in words", "what it shows, in words: for the telephone, and for whoever does not see it"),
    OWN("areas", "where in it signs are seen: `{symptom: [x, y, width, height]}`, in the numbers of the drawing's `viewBox`", "none"),
};

static const key of_step[] = {
    MUST("text", KEY_TEXT, texts_with_picture, text, "what to do", "what to do"),
    PICTURE(texts_with_picture, "a [picture](#pictures) of it"),
};

static const key of_place[] = {
    OWN_MUST("text", "the drum room", "what it is called, in the middle of a sentence: *the drum room*"),
    OWN("walk", "how far it is to other places, `{drums: 1 min}`: as far back as there, so it is told at one end", "as the manifest's `walk`"),
};

static const key of_instrument[] = {
    OWN_MUST("text", "the foam-air gauge", "what it is called, in the middle of a sentence"),
    OWN("wrong", "how often it shows what is not so, `2 %`: then each time one looks", "never"),
    OWN("own", "`yes`: each person has one, like hearing, so somebody else's look is a fresh one", "it is the same whoever reads it"),
    MAY("another", KEY_PHRASE, instrument, another, "what else can be read, for a second look, in the middle of a sentence: *the spare gauge from the store*", "nothing"),
};

static const key of_sign[] = {
    OWN_MUST("chance", "often", "of 100 calls with this cause alone, how many show it"),
    OWN("comes-and-goes", "how many of 100 looks show the sign while the cause is there", "all: it stays"),
};

static const key of_contact[] = {
    MAY("role", KEY_ROLE, contact, role, "whose work it is, a role of the book", "must be there, or `purpose`"),
    OWN_OFTEN("purpose", "water supplier", "what they are called for, if that is no role; one a language, if you like", "must be there, or `role`"),
    OWN_MUST("post", "night desk", "what the post is called, one a language, if you like; no person's name"),
    OWN_MUST("telephone", "555-0142", "their number"),
    OWN("hours", "when somebody answers; one a language, if you like", "not told"),
    OWN("authorised", "`yes`: whoever is of this role here may isolate and lock", "as in the book"),
};

#define WITH(keys) keys, sizeof(keys) / sizeof *(keys)
static const key_map maps[KEY_MAP_COUNT] = {
    [KEYS_FILE] = {"A file", "The file", "", WITH(of_file)},
    [KEYS_BOOK] = {"The section 'book'", "The section 'book'", "manifest", WITH(of_book)},
    [KEYS_ROLE] = {"A role", "The role", "role-keys", WITH(of_role)},
    [KEYS_BOOK_CAUTION] = {"A caution of the book", "The caution", "book-caution", WITH(of_book_caution)},
    [KEYS_KIND] = {"A kind of equipment", "The kind", "kind", WITH(of_kind)},
    [KEYS_QUESTION] = {"A question", "The question", "question", WITH(of_question)},
    [KEYS_ANSWER] = {"An answer", "The answer", "answer", WITH(of_answer)},
    [KEYS_QUANTITY] = {"A quantity", "The quantity", "quantity", WITH(of_quantity)},
    [KEYS_FORMULA_CASE] = {"A case of a formula", "The case", "formula-case", WITH(of_formula_case)},
    [KEYS_SYMPTOM] = {"A symptom", "The symptom", "symptom", WITH(of_symptom)},
    [KEYS_CAUSE] = {"A cause", "The cause", "cause", WITH(of_cause)},
    [KEYS_FIX] = {"A fix", "The fix", "fix", WITH(of_fix)},
    [KEYS_HARM] = {"'harm'", "'harm'", "harms", WITH(of_harm)},
    [KEYS_PROCEDURE] = {"A procedure", "The procedure", "procedure", WITH(of_procedure)},
    [KEYS_SITE_PROCEDURE] = {"A procedure of the site", "The procedure", "site-procedure", WITH(of_site_procedure)},
    [KEYS_RISK] = {"A risk", "The risk", "risk", WITH(of_risk)},
    [KEYS_ADJUST] = {"'adjust'", "'adjust'", "adjust", WITH(of_adjust)},
    [KEYS_CONCLUSION] = {"A conclusion", "The conclusion", "conclusion", WITH(of_conclusion)},
    [KEYS_RULE] = {"A rule", "The rule", "rule", WITH(of_rule)},
    [KEYS_THEN] = {"'then'", "'then'", "then", WITH(of_then)},
    [KEYS_CAUTION] = {"'caution'", "'caution'", "signalled", WITH(of_caution)},
    [KEYS_CASE] = {"A case", "The case", "case", WITH(of_case)},
    [KEYS_EXPECT] = {"'expect'", "'expect'", "expect", WITH(of_expect)},
    [KEYS_HEARS] = {"'hears'", "'hears'", "hears", WITH(of_hears)},
    [KEYS_AMONG_FIRST] = {"'among-first'", "'among-first'", "among-first", WITH(of_among_first)},
    [KEYS_EMERGENCY] = {"An emergency", "The emergency", "emergency", WITH(of_emergency)},
    [KEYS_SITE] = {"'site'", "'site'", "site", WITH(of_site)},
    [KEYS_PIECE] = {"A piece of equipment", "The piece of equipment", "piece", WITH(of_piece)},
    [KEYS_SITE_VALUE] = {"A value of the site", "The value", "site-value", WITH(of_site_value)},
    [KEYS_PLACE] = {"A place", "The place", "place", WITH(of_place)},
    [KEYS_INSTRUMENT] = {"An instrument", "The instrument", "instrument", WITH(of_instrument)},
    [KEYS_SIGN] = {"A cause in 'shown-by'", "The cause", "sign", WITH(of_sign)},
    [KEYS_PICTURE] = {"A picture", "The picture", "picture", WITH(of_picture)},
    [KEYS_STEP] = {"A step", "The step", "step", WITH(of_step)},
    [KEYS_CONTACT] = {"A contact", "The contact", "contact", WITH(of_contact)},
};
/* clang-format on */

const key_map *key_map_of(key_map_id id)
{
    assert(id < KEY_MAP_COUNT && maps[id].count > 0);
    return &maps[id];
}

const key *key_find(const key_map *map, const char *name)
{
    uint32_t i = 0;
    while (map->keys[i].name[0] != name[0] || strcmp(map->keys[i].name, name) != 0) {
        i++;
        assert(i < map->count);
    }
    return &map->keys[i];
}
