/* What was learned, to be read: which cases spoke, which numbers would change, and what of it. */
#include <math.h>

#include "face/learned.h"
#include "face/speaker.h"

/* ---- the cases ---- */

static void say_count(const speaker *by, uint32_t count, text_id what)
{
    if (count > 0) SPEAK(by, "  - ", what, whole(by, count));
}

static void say_cases(const speaker *by, const cases_seen *seen, const char *since)
{
    SPEAK(by, "", LEARN_LOOKED_AT, whole(by, seen->all), whole(by, seen->counted));
    if (seen->counted < seen->all) speak(by, "", LEARN_NOT_FROM);
    say_count(by, seen->of_others, LEARN_OF_OTHERS);
    say_count(by, seen->open, LEARN_OPEN);
    say_count(by, seen->not_gone, LEARN_NOT_GONE);
    say_count(by, seen->better, LEARN_BETTER);
    say_count(by, seen->unconfirmed, LEARN_UNCONFIRMED);
    say_count(by, seen->not_listed, LEARN_NOT_LISTED);
    say_count(by, seen->unknown, LEARN_UNKNOWN);
    say_count(by, seen->broken, LEARN_BROKEN);
    if (seen->before > 0) SPEAK(by, "  - ", LEARN_BEFORE, whole(by, seen->before), since);
}

/* ---- the numbers ---- */

static void say_change(const speaker *by, const tt_learned *n)
{
    const bool written = *n->written != 0;
    if (*n->proposed != 0)
        SPEAK(by, "    ", LEARN_CHANGES,
              written ? n->written : catalogue_text(TO_AUTHORS, LEARN_LEFT_OUT), n->proposed);
    else if (written)
        SPEAK(by, "    ", LEARN_STAYS, n->written);
    else
        speak(by, "    ", LEARN_STAYS_AS_IT_IS);
}

static void say_interval(const speaker *by, const tt_learned *n)
{
    const bool share = n->kind == TT_HOW_OFTEN;
    const text_id plain = share ? LEARN_SHARE : LEARN_INTERVAL,
                  clear = share ? LEARN_SHARE_CLEAR : LEARN_INTERVAL_CLEAR;
    SPEAK(by, "    ", n->outside ? clear : plain, tenths(by, 100 * n->before),
          tenths(by, 100 * n->after), tenths(by, 100 * n->low), tenths(by, 100 * n->high));
}

static void say_counted(const speaker *by, const tt_learned *n)
{
    if (n->kind == TT_ANSWERS_COUNT) {
        SPEAK(by, "    ", LEARN_COUNT_OF_CASES, places(by, 0, n->of));
        return;
    }
    static const text_id of_what[] = {
        [TT_HOW_OFTEN] = LEARN_OF_CASES,      [TT_SHOWN_BY] = LEARN_OF_ANSWERS,
        [TT_OTHERWISE] = LEARN_OF_ANSWERS,    [TT_DONE_WRONGLY] = LEARN_OF_TRIES,
        [TT_COMES_BACK] = LEARN_OF_RETURNS,   [TT_MISLEADS] = LEARN_OF_USES,
        [TT_COMES_AND_GOES] = LEARN_OF_LOOKS,
    };
    const int after_the_point = fabs(n->cases - round(n->cases)) < 0.05 ? 0 : 1;
    SPEAK(by, "    ", of_what[n->kind], places(by, after_the_point, n->cases),
          places(by, 0, n->of));
}

/* Of one fix or cause that says it, or of the book. */
static void say_one_or_all(const speaker *by, const tt_learned *n)
{
    const bool wrongly = n->kind == TT_DONE_WRONGLY;
    const char *whose = wrongly ? n->fix_text : n->cause_text;
    if (*whose != 0)
        SPEAK(by, "  ", wrongly ? LEARN_WRONGLY_AT : LEARN_RETURNS_AT, whose, n->at);
    else
        SPEAK(by, "  ", wrongly ? LEARN_WRONGLY_ALL_AT : LEARN_RETURNS_ALL_AT, n->at);
}

static void say_number(const speaker *by, const tt_learned *n)
{
    if (n->kind == TT_HOW_OFTEN)
        SPEAK(by, "  ", LEARN_CAUSE_AT, n->cause_text, n->at);
    else if (n->kind == TT_SHOWN_BY || n->kind == TT_COMES_AND_GOES)
        SPEAK(by, "  ", LEARN_SYMPTOM_AT, n->symptom_text, n->cause_text, n->at);
    else if (n->kind == TT_OTHERWISE)
        SPEAK(by, "  ", LEARN_OTHERWISE_AT, n->symptom_text, n->at);
    else if (n->kind == TT_MISLEADS)
        SPEAK(by, "  ", LEARN_MISLEADS_AT, n->instrument_text, n->at);
    else if (n->kind != TT_ANSWERS_COUNT)
        say_one_or_all(by, n);
    else
        SPEAK(by, "  ", LEARN_ANSWERS_COUNT_AT, n->at);
    say_change(by, n);
    say_counted(by, n);
    say_interval(by, n);
}

static void say_numbers(const speaker *by, const tt_lesson *lesson)
{
    static const text_id headings[] = {
        [TT_HOW_OFTEN] = LEARN_HOW_OFTEN,    [TT_SHOWN_BY] = LEARN_SHOWN_BY,
        [TT_OTHERWISE] = LEARN_OTHERWISE,    [TT_DONE_WRONGLY] = LEARN_WRONGLY,
        [TT_COMES_BACK] = LEARN_RETURNS,     [TT_MISLEADS] = LEARN_MISLEADS,
        [TT_COMES_AND_GOES] = LEARN_PASSING, [TT_ANSWERS_COUNT] = LEARN_ANSWERS_COUNT,
    };
    for (uint32_t i = 0; i < lesson->count; i++) {
        if (i == 0 || lesson->items[i - 1].kind != lesson->items[i].kind) {
            say_nothing(by->s);
            speak(by, "", headings[lesson->items[i].kind]);
        }
        say_number(by, &lesson->items[i]);
    }
}

/* ---- what would change ---- */

static void say_shares(const speaker *by, text_id what, const tt_share shares[2])
{
    SPEAK(by, "  ", what, tenths(by, 100 * shares[0].share), tenths(by, 100 * shares[0].low),
          tenths(by, 100 * shares[0].high), tenths(by, 100 * shares[1].share),
          tenths(by, 100 * shares[1].low), tenths(by, 100 * shares[1].high));
}

static void say_means(const speaker *by, text_id what, const tt_mean means[2])
{
    SPEAK(by, "  ", what, tenths(by, means[0].mean), tenths(by, means[0].plus_minus),
          tenths(by, means[1].mean), tenths(by, means[1].plus_minus));
}

static void say_changes(const speaker *by, const what_changes *c)
{
    say_nothing(by->s);
    speak(by, "", LEARN_WOULD_CHANGE);
    SPEAK(by, "  ", LEARN_TRIALS, whole(by, c->passed[0]), whole(by, c->trials),
          whole(by, c->passed[1]));
    for (uint32_t i = 0; i < c->broken_count; i++)
        SPEAK(by, "    ", LEARN_TRIAL, c->broken[i].name, c->broken[i].at, c->broken[i].why);
    SPEAK(by, "", LEARN_MADE_UP, whole(by, c->calls));
    say_shares(by, LEARN_LEADS, c->leads);
    say_means(by, LEARN_QUESTIONS, c->questions);
    say_means(by, LEARN_MINUTES, c->minutes);
}

/* Cases that were handed over are others than those that were cured. */
static void say_handed_over(const speaker *by, const tt_lesson *lesson)
{
    if (lesson->handed_over == 0) return;
    if (lesson->handed_over_confirmed == 0)
        SPEAK(by, "", LEARN_OF_CURED, whole(by, lesson->handed_over));
    else if (lesson->handed_over_counts > 1)
        SPEAK(by, "", lesson->handed_over_held ? LEARN_HANDED_OVER_HELD : LEARN_OF_HANDED_OVER,
              whole(by, lesson->handed_over), whole(by, lesson->handed_over_confirmed),
              tenths(by, lesson->handed_over_counts));
}

static void say_all(const speaker *by, const learned *all)
{
    const tt_lesson *lesson = all->lesson;
    say(by->s, "%s", all->title);
    say_cases(by, all->seen, all->since);
    if (lesson->cases < lesson->cases_wanted) {
        SPEAK(by, "", LEARN_TOO_FEW, whole(by, lesson->causes), whole(by, lesson->cases_wanted));
        return;
    }
    say_handed_over(by, lesson);
    say_numbers(by, lesson);
    if (all->changes == NULL) return;
    say_changes(by, all->changes);
    say_nothing(by->s);
    if (lesson->new_warnings > 0) SPEAK(by, "", LEARN_WARNINGS, whole(by, lesson->new_warnings));
    const uint64_t worth_it = UINT64_C(3) * lesson->cases_wanted;
    if (lesson->cases < worth_it) SPEAK(by, "", LEARN_WORTH_IT, whole(by, worth_it));
    speak(by, "", LEARN_NOTHING_CHANGED);
}

void print_learned_words(FILE *out, const learned *all)
{
    const screen s = screen_on(out);
    const speaker by = {&s, host_arena(), TO_AUTHORS};
    say_all(&by, all);
    arena_free(by.keep);
}
