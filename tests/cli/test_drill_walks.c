/* Drills in which the learner does whatever comes to mind: each ends with a review that tells every
 * step, and over them all each thing is said that a review can say. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "luck.h"
#include "turn_client.h"

enum { LONG_WALKS = 12, WALKS = 12, MOST_STEPS = 14 };

#define RULES TT_SOURCE_DIR "/rules/"

/* What was said in some review, or on the way to it. */
static const char *const sayings[] = {
    "done. The caller says that the trouble is gone.",
    "done. The caller says that it is better, but not gone.",
    "done. The caller says that nothing has changed.",
    "not done. On this call danger is not ruled out",
    "not done. It needs a reading that this caller can't take",
    "The caller says only that something is wrong.",
    "it looked after the caller's safety, which comes first",
    "it told next to nothing of what was wrong",
    "it pointed to what was wrong, ",
    "it pointed away from what was wrong, ",
    "The program would have done the same.",
    "The program would have asked: ",
    "The program would have tried: ",
    "The program would have sent somebody.",
    "Why one looks there: ",
    "It was not done: danger was not ruled out.",
    "No danger was missed.",
    "Nobody asked: ",
    ": this was to be tried before anybody asked: ",
    ": this was to be tried although the answer to this was no safe one: ",
    "Something that these rules do not list: sending somebody is right then.",
    "Then the trouble is gone.",
    "Then it sends somebody.",
    "The drill is over: the trouble is gone.",
    "The drill is over: somebody was sent.",
};
enum { SAYINGS = sizeof sayings / sizeof *sayings };
static unsigned said[SAYINGS];

static void note_sayings(const char *text)
{
    for (int i = 0; i < SAYINGS; i++) said[i] += strstr(text, sayings[i]) != NULL;
}

static size_t choice_count(const turn_client *c)
{
    return json_array_size(json_object_get(c->turn, "choices"));
}

static const char *choice_at(const turn_client *c, size_t at)
{
    const json_t *choice = json_array_get(json_object_get(c->turn, "choices"), at);
    return json_string_value(json_object_get(choice, "name"));
}

static void choose(turn_client *c, const char *name)
{
    client_answer(c, json_pack("{s:s}", "choice", name));
}

/* One thing that is looked at or tried; with the last choice, "none of these", nothing is. How many
 * steps that is. */
static unsigned do_one(turn_client *c, uint64_t *luck)
{
    const size_t of = choice_count(c), at = luck_below(luck, (uint32_t)of);
    choose(c, choice_at(c, at));
    return at + 1 < of;
}

/* Calls somebody in the end. The steps that were taken. */
static unsigned walk(turn_client *c, uint64_t *luck)
{
    unsigned steps = 0;
    while (client_is(c, "drill")) {
        const size_t of = choice_count(c);
        note_sayings(client_text(c, "text"));
        const bool calls = steps == MOST_STEPS || luck_below(luck, 12) == 0;
        choose(c, choice_at(c, calls ? of - 1 : luck_below(luck, (uint32_t)of - 1)));
        if (client_is(c, "drill-look") || client_is(c, "drill-try")) steps += do_one(c, luck);
    }
    return steps;
}

static void assert_reviewed(const turn_client *c, unsigned steps)
{
    const char *text = client_text(c, "text");
    assert_true(client_is(c, "drill-review"));
    note_sayings(text);
    for (unsigned i = 1; i <= steps + 1; i++) {
        char number[16];
        snprintf(number, sizeof number, "  - %u. ", i);
        if ((strstr(text, number) != NULL) != (i <= steps))
            fail_msg("of %u steps number %u:\n%s", steps, i, text);
    }
    assert_int_equal(strstr(text, "Danger that was missed") == NULL,
                     strstr(text, "No danger was missed.") != NULL);
    assert_non_null(strstr(text, "You: "));
}

/* After the review a program is told only that it ended. */
static void end_drill(turn_client *c)
{
    int status;
    client_wait(c);
    assert_true(client_is(c, "end"));
    fclose(c->to);
    assert_int_equal(fgetc(c->from), EOF);
    fclose(c->from);
    assert_int_equal(waitpid(c->pid, &status, 0), c->pid);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    json_decref(c->schema);
    json_decref(c->turn);
}

/* Danger is ruled out where the learner is, by the answer that says so. */
static void walk_through(const char *book, const char *safe, unsigned seed, const char *more)
{
    turn_client c;
    char arguments[512], with_seed[32];
    uint64_t luck = seed;
    snprintf(arguments, sizeof arguments, "'%s' --unsaved --seed %u %s", book, seed, more);
    client_begin_as(&c, "drill", arguments);
    client_wait(&c);
    choose(&c, safe);
    const unsigned steps = walk(&c, &luck);
    assert_reviewed(&c, steps);
    snprintf(with_seed, sizeof with_seed, "--seed %u", seed);
    assert_non_null(strstr(client_text(&c, "text"), with_seed));
    end_drill(&c);
}

static void each_review_tells_every_step(void **state)
{
    (void)state;
    for (unsigned seed = 1; seed <= LONG_WALKS; seed++)
        walk_through(RULES "foam-line", "safe", seed, "--as technician");
    for (unsigned seed = 1; seed <= WALKS; seed++)
        walk_through(TT_SOURCE_DIR "/cli/sample", "nothing", seed, "");
    for (unsigned seed = 1; seed <= LONG_WALKS; seed++) walk_through("hot", "no", seed, "");
    for (int i = 0; i < SAYINGS; i++)
        if (said[i] == 0) print_error("never said: %s\n", sayings[i]);
    for (int i = 0; i < SAYINGS; i++) assert_true(said[i] > 0);
}

/* A book in which what rules danger out is itself a sign: there the caller may be in danger. */
static int write_hot_book(void **state)
{
    static const char text[] =
        "book:\n  title: Hot pump\n"
        "  roles: [{helper: {authorised: yes}}, {fitter: {authorised: yes}}]\n"
        "questions:\n"
        "  smoke:\n    ask: Is there smoke?\n    safe: [no]\n    takes: 1 min\n"
        "  hums:\n    ask: Does it hum?\n    takes: 1 min\n"
        "symptoms:\n"
        "  smokes:\n    text: It smokes\n    when: {smoke: yes}\n    shown-by: {burnt: usually}\n"
        "  silent:\n    text: It is silent\n    when: {hums: no}\n    heard: [it is silent]\n"
        "    shown-by: {burnt: usually, loose: often}\n"
        "causes:\n  burnt:\n    text: It is burnt\n  loose:\n    text: A wire is loose\n"
        "fixes:\n"
        "  press:\n    text: Press the wire on\n    role: helper\n    cures: {loose: usually}\n"
        "    harm: none\n    put-back: not needed\n    takes: 5 min\n"
        "  swap:\n    text: Swap the pump\n    role: fitter\n    cures: {burnt: usually}\n"
        "    harm: none\n    put-back: not needed\n    takes: 50 min\n";
    (void)state;
    mkdir("hot", 0755);
    FILE *file = fopen("hot/book.yaml", "w");
    if (file == NULL) return -1;
    fputs(text, file);
    return fclose(file);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_review_tells_every_step)};
    return cmocka_run_group_tests(tests, write_hot_book, NULL);
}
