/* Programs that answer `ask --json` at random, and programs that send nonsense: every turn fits the
 * schema, nonsense changes nothing, and what was known at the end is known when the case is taken
 * up again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "luck.h"
#include "turn_client.h"

#define TESTS_CLI TT_SOURCE_DIR "/tests/cli/"

enum { MOST_TURNS = 40, WALKS = 12 };

static uint64_t luck;

static const char *const books[] = {
    TESTS_CLI "well",
    TESTS_CLI "regulator",
    TESTS_CLI "filters",
    TESTS_CLI "filtered-well",
    TESTS_CLI "gauges",
    TT_SOURCE_DIR "/rules/foam-line",
    TT_SOURCE_DIR "/rules/dosing-and-pumping",
};
enum { BOOKS = sizeof books / sizeof books[0] };

/* ---- answers by the schema alone ---- */

static json_t *random_choice(const turn_client *c)
{
    const json_t *choices = json_object_get(c->turn, "choices");
    uint32_t index = luck_below(&luck, (uint32_t)json_array_size(choices));
    const json_t *choice = json_array_get(choices, index), *name = json_object_get(choice, "name");
    if (luck_below(&luck, 3) == 0) return json_pack("{s:i}", "choice", (int)index + 1);
    if (luck_below(&luck, 3) == 0)
        return json_pack("{s:s}", "answer", json_string_value(json_object_get(choice, "text")));
    return json_pack("{s:O}", "choice", name);
}

static json_t *random_reading(const turn_client *c)
{
    const json_t *plausible = json_object_get(json_object_get(c->turn, "question"), "plausible");
    double low = json_number_value(json_object_get(plausible, "low")),
           high = json_number_value(json_object_get(plausible, "high"));
    if (!json_is_object(plausible)) high = 20;
    return json_pack("{s:f}", "reading", low + (high - low) * luck_below(&luck, 101) / 100);
}

static json_t *random_words(void)
{
    static const char *const words[] = {"foam stiff, air 45 psi; hose no",
                                        "air 50, what a day",
                                        "gauge",
                                        "yes, drip no",
                                        "tank gauge 40, no,, ,",
                                        "it goes on and off",
                                        "stiff foam",
                                        "the left one, the right one",
                                        "2",
                                        "",
                                        "foam"};
    return json_pack("{s:s}", "answer", words[luck_below(&luck, sizeof words / sizeof words[0])]);
}

/* What is safe comes first in the shipped books, and is "no" elsewhere. */
static bool last_choice_is_safe(const turn_client *c)
{
    const json_t *first = json_array_get(json_object_get(c->turn, "choices"), 0);
    return strcmp(json_string_value(json_object_get(first, "name")), "yes") == 0;
}

/* Mostly one that goes on. */
static json_t *random_answer(const turn_client *c)
{
    const json_t *words = json_object_get(c->turn, "words");
    uint32_t kind = luck_below(&luck, 10);
    if (kind == 0 && json_array_size(words) > 0) {
        const json_t *word =
            json_array_get(words, luck_below(&luck, (uint32_t)json_array_size(words)));
        if (strcmp(json_string_value(word), "stop") != 0) return json_pack("{s:O}", "word", word);
    }
    if (kind > 1 && client_takes(c, "reading")) return random_reading(c);
    if (kind < 6 && client_is(c, "complaint")) return random_words();
    if (kind == 1 && client_is(c, "question")) return json_pack("{s:s}", "word", "change");
    if (kind > 1 && client_is(c, "fix-step")) return json_pack("{s:s}", "choice", "done");
    if (kind > 5 && client_is(c, "fix")) return json_pack("{s:s}", "choice", "no-change");
    if (kind > 2 && client_is(c, "danger"))
        return json_pack(
            "{s:i}", "choice",
            last_choice_is_safe(c) ? (int)json_array_size(json_object_get(c->turn, "choices")) : 1);
    if (kind > 1 && client_takes(c, "choice")) return random_choice(c);
    return random_words();
}

/* ---- walks ---- */

static void walk(turn_client *c, json_t *kinds)
{
    while (c->turns < MOST_TURNS && !client_is(c, "end")) {
        json_object_set_new(kinds, client_text(c, "kind"), json_true());
        client_answer(c, random_answer(c));
    }
}

/* Or else the walks have not been where they should. */
static void assert_seen(const json_t *kinds)
{
    static const char *const wanted[] = {
        "danger",     "stop",      "complaint", "confirm",     "which",      "question", "change",
        "before-fix", "fix-step",  "fix",       "known",       "why",        "put-back", "call",
        "cause",      "site-file", "site-name", "site-pieces", "site-right", "site-keep"};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++)
        if (json_object_get(kinds, wanted[i]) == NULL) fail_msg("no walk came to %s", wanted[i]);
}

/* The last turn, kept after the client's end. */
static json_t *end_of(turn_client *c)
{
    for (int i = 0; i < 4 && !client_is(c, "end");
         i++) /* a note takes no word, but may be left empty */
        client_answer(c, i % 2 == 0 ? json_pack("{s:s}", "word", "stop")
                                    : json_pack("{s:s}", "answer", ""));
    json_t *last = json_incref(c->turn);
    int status = client_end(c);
    if (status != 0 && status != 1 && status != 3)
        fail_msg("ended with status %d at %s", status, client_text(c, "kind"));
    return last;
}

/* A fact that was kept in the site's file may move there. And whoever looks has not ruled danger
 * out, and stands elsewhere: the order of fixes counts the way to them. */
static void forget_places(const json_t *turn)
{
    size_t i;
    json_t *fact, *fix, *known = json_object_get(turn, "known"), *by_name = json_object();
    json_array_foreach(json_object_get(known, "facts"), i, fact) json_object_del(fact, "at");
    json_array_foreach(json_object_get(known, "fixes"), i, fix)
    {
        json_object_del(fix, "held");
        json_object_set(by_name, json_string_value(json_object_get(fix, "name")), fix);
    }
    json_object_set_new(known, "fixes", by_name);
}

/* What has gone into the site's file is certain there, and was an answer, which may be misread. */
static bool facts_went_to_the_site(void)
{
    return system("tail -qn 1 cases/*/*/*/*.jsonl | grep -q '\"kind\":\"site\"'") == 0;
}

static void forget_chances(const json_t *turn)
{
    static const char *const of_belief[] = {"causes", "likely", "probably_none", "fixes"};
    json_t *known = json_object_get(turn, "known");
    for (size_t i = 0; i < sizeof of_belief / sizeof of_belief[0]; i++)
        json_object_del(known, of_belief[i]);
}

static void assert_same_at(const json_t *a, const json_t *b, const char *key)
{
    const json_t *one = json_object_get(a, key), *other = json_object_get(b, key);
    if ((one == NULL && other == NULL) || json_equal(one, other)) return; /* nothing is left out */
    json_dumpf(a, stderr, JSON_INDENT(1));
    json_dumpf(b, stderr, JSON_INDENT(1));
    fail_msg("%s differ", key);
}

/* Some begin with the site: those have no case before it is described. */
static void take_up_again(const json_t *last)
{
    turn_client c;
    char arguments[64];
    const char *number = json_string_value(json_object_get(last, "case"));
    if (number == NULL) return;
    snprintf(arguments, sizeof arguments, "--no-input --cases cases --case %s", number);
    client_begin(&c, arguments);
    while (!client_is(&c, "end")) client_wait(&c);
    json_t *now = end_of(&c);
    forget_places(last);
    forget_places(now);
    if (facts_went_to_the_site()) forget_chances(last), forget_chances(now);
    assert_same_at(last, now, "known");
    assert_same_at(last, now, "tried");
    assert_same_at(last, now, "different");
    json_decref(now);
}

/* Nothing of the run before, such as the site files that it wrote. */
static void begin_afresh(void)
{
    char here[4096];
    assert_int_equal(system("rm -rf walks && mkdir walks"), 0);
    assert_int_equal(chdir("walks"), 0);
    assert_non_null(getcwd(here, sizeof here));
    setenv("HOME", here, 1);
}

/* More of them, or others: TT_WALKS times as many, from the seed TT_WALKS_FROM. */
static uint32_t wished(const char *name, uint32_t usual)
{
    const char *said = getenv(name);
    return said != NULL ? (uint32_t)strtoul(said, NULL, 10) : usual;
}

static void random_answers_lose_nothing(void **state)
{
    const uint32_t walks = BOOKS * WALKS * wished("TT_WALKS", 1),
                   from = wished("TT_WALKS_FROM", 1000);
    (void)state;
    begin_afresh();
    json_t *kinds = json_object();
    for (uint32_t i = 0; i < walks; i++) {
        turn_client c;
        char arguments[1024];
        luck = from + i;
        if (getenv("TT_WALKS") != NULL) printf("walk %u\n", from + i);
        assert_int_equal(system("rm -rf cases"), 0); /* numbers of cases may meet */
        snprintf(arguments, sizeof arguments, "'%s' --cases cases%s", books[i % BOOKS],
                 i / BOOKS % 2 == 0 ? "" : " --telephone");
        client_begin(&c, arguments);
        walk(&c, kinds);
        json_t *last = end_of(&c);
        take_up_again(last);
        json_decref(last);
    }
    assert_seen(kinds);
    json_decref(kinds);
}

/* ---- nonsense ---- */

static const char *const shapes[] = {
    "{\"choice\":%d}",
    "{\"choice\":-%d}",
    "{\"choice\":%d.5}",
    "{\"turn\":%d,\"choice\":1}",
    "[%d]",
    "%d",
    "\"%d\"",
    "{\"begin\":%d}",
    "{\"answer\":[%d]}",
    "{\"word\":\"%d\"}",
    "{\"reading\":1e%d}",
    "{\"options\":[%d]}",
    "{\"choice\":{}}",
    "{\"answers\":[{\"question\":\"%d\"}]}",
    "{\"answer\":{\"%d\":1}}",
    "{\"%d\":1}",
    "{\"answer\":\"\\u0000%d\"}",
    "{\"reading\":1,\"unit\":\"%d\"}",
    "{\"reading\":1,\"unit\":[%d]}",
    "null%d",
    "{\"word\":\":%d\"}",
};

static void random_bytes(char *line, uint32_t length)
{
    for (uint32_t i = 0; i < length; i++) {
        line[i] =
            (char)(luck_below(&luck, 4) == 0 ? luck_below(&luck, 256) : 32 + luck_below(&luck, 95));
        if (line[i] == '\n' || line[i] == 0) line[i] = '{';
    }
    line[length] = 0;
}

static void nest(char *line, uint32_t depth)
{
    memset(line, '[', depth);
    line[depth] = 0;
}

static void make_nonsense(char *line, size_t room)
{
    uint32_t kind = luck_below(&luck, 8);
    if (kind == 0)
        random_bytes(line, luck_below(&luck, 300));
    else if (kind == 1)
        nest(line, luck_below(&luck, 6000));
    else
        snprintf(line, room, shapes[luck_below(&luck, sizeof shapes / sizeof shapes[0])],
                 (int)(3000 + luck_below(&luck, 90000)));
}

static void nonsense_changes_nothing(void **state)
{
    static char line[8192];
    (void)state;
    for (uint32_t i = 0; i < 10; i++) {
        turn_client c;
        char arguments[1024];
        luck = 77 + i;
        assert_int_equal(system("rm -rf cases"), 0); /* numbers of cases may meet */
        snprintf(arguments, sizeof arguments, "'%s' --cases cases", books[i % 2]);
        client_begin(&c, arguments);
        for (uint32_t bad = 0; bad < 60 && !client_is(&c, "end"); bad++) {
            json_t *before = json_incref(json_object_get(c.turn, "prompt"));
            make_nonsense(line, sizeof line);
            client_say(&c, line);
            if (*client_wrong(&c) == 0 || !json_equal(before, json_object_get(c.turn, "prompt")))
                fail_msg("taken for an answer to '%s': %s", json_string_value(before), line);
            json_decref(before);
            if (bad % 10 == 9) client_answer(&c, random_answer(&c));
        }
        json_t *last = end_of(&c);
        take_up_again(last);
        json_decref(last);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_answers_lose_nothing),
        cmocka_unit_test(nonsense_changes_nothing),
    };
    return cmocka_run_group_tests_name("property turn walks", tests, NULL, NULL);
}
