#include <math.h>

#include "face/learned.h"
#include "host/plain_text.h"
#include "host/screen.h"

/* ---- the cases ---- */

static void say_count(const screen *s, uint32_t count, const char *what)
{
    if (count > 0) say_item(s, "  - ", "%u %s", count, what);
}

static void say_cases(const screen *s, const cases_seen *seen, const char *since)
{
    say(s, "%u cases looked at, %u learned from.", seen->all, seen->counted);
    if (seen->counted < seen->all) say(s, "Not learned from:");
    say_count(s, seen->of_others, "about other books");
    say_count(s, seen->open, "not closed");
    say_count(s, seen->not_gone, "handed on to somebody: how they ended is not known");
    say_count(s, seen->better,
              "better, but not gone on the way: more than one thing may have been wrong");
    say_count(s, seen->unconfirmed, "nobody confirmed the cause, or two named different ones");
    say_count(s, seen->not_listed,
              "something that the rules don't list: worth a look, a rule may be missing");
    say_count(s, seen->unknown, "of a cause that the rules no longer have");
    say_count(s, seen->broken, "can't be read, or can't be replayed with these rules");
    if (seen->before > 0)
        say_item(s, "  - ",
                 "%u in the numbers already: confirmed until %s, which the book says in "
                 "learned-until",
                 seen->before, since);
}

/* ---- the numbers ---- */

static void say_change(const screen *s, const tt_learned *n)
{
    if (*n->proposed == 0)
        say_item(s, "    ", "stays %s", *n->written != 0 ? n->written : "as it is");
    else
        say_item(s, "    ", "%s -> %s", *n->written != 0 ? n->written : "left out", n->proposed);
}

static void say_interval(const screen *s, const tt_learned *n)
{
    say_item(s, "    ", "%s%.1f %% -> %.1f %%, 95 %% sure between %.1f and %.1f %%%s",
             n->kind == TT_HOW_OFTEN ? "share of calls " : "", 100 * n->before, 100 * n->after,
             100 * n->low, 100 * n->high,
             n->outside ? "; the cases speak clearly against the old number" : "");
}

static void say_counted(const screen *s, const tt_learned *n)
{
    say_item(s, "    ", "%.*f of %.0f %s", fabs(n->cases - round(n->cases)) < 0.05 ? 0 : 1,
             n->cases, n->of, n->kind == TT_HOW_OFTEN ? "cases" : "answers");
}

static void say_number(const screen *s, const tt_learned *n)
{
    if (n->kind == TT_HOW_OFTEN)
        say_item(s, "  ", "%s (%s)", n->cause_text, n->at);
    else if (n->kind == TT_SHOWN_BY)
        say_item(s, "  ", "%s: %s (%s)", n->symptom_text, n->cause_text, n->at);
    else
        say_item(s, "  ", "%s: otherwise (%s)", n->symptom_text, n->at);
    say_change(s, n);
    say_counted(s, n);
    say_interval(s, n);
}

static void say_numbers(const screen *s, const tt_lesson *lesson)
{
    static const char *const headings[] = {
        [TT_HOW_OFTEN] =
            "How often a cause is met. Those without a case keep their number; their share falls:",
        [TT_SHOWN_BY] = "How often a symptom is shown by a cause:",
        [TT_OTHERWISE] = "How often a symptom is shown otherwise:",
    };
    for (uint32_t i = 0; i < lesson->count; i++) {
        if (i == 0 || lesson->items[i - 1].kind != lesson->items[i].kind) {
            say_nothing(s);
            say(s, "%s", headings[lesson->items[i].kind]);
        }
        say_number(s, &lesson->items[i]);
    }
}

/* ---- what would change ---- */

static void say_shares(const screen *s, const char *what, const tt_share shares[2])
{
    say_item(s, "  ", "%s: %.1f %% (%.1f to %.1f) -> %.1f %% (%.1f to %.1f)", what,
             100 * shares[0].share, 100 * shares[0].low, 100 * shares[0].high,
             100 * shares[1].share, 100 * shares[1].low, 100 * shares[1].high);
}

static void say_means(const screen *s, const char *what, const tt_mean means[2])
{
    say_item(s, "  ", "%s: %.1f ± %.1f -> %.1f ± %.1f", what, means[0].mean, means[0].plus_minus,
             means[1].mean, means[1].plus_minus);
}

static void say_changes(const screen *s, const what_changes *c)
{
    say_nothing(s);
    say(s, "What would change:");
    say_item(s, "  ", "worked cases that come out as expected: %u of %u -> %u of %u", c->passed[0],
             c->trials, c->passed[1], c->trials);
    for (uint32_t i = 0; i < c->broken_count; i++)
        say_item(s, "    ", "%s (%s): %s", c->broken[i].name, c->broken[i].at, c->broken[i].why);
    say(s, "In %llu made-up calls, drawn from the numbers as they are -> as they would be:",
        (unsigned long long)c->calls);
    say_shares(s, "the right cause leads at the first fix", c->leads);
    say_means(s, "questions a call", c->questions);
    say_means(s, "minutes a call", c->minutes);
}

static void say_too_few(const screen *s, const tt_lesson *lesson)
{
    say(s,
        "There is nothing to show yet: the rules have %u causes, and it takes about 4 confirmed "
        "cases for each on the mean, %u in all, "
        "before cases know better than an author.",
        lesson->causes, lesson->cases_wanted);
}

void print_learned_words(FILE *out, const learned *all)
{
    screen s = screen_on(out);
    const tt_lesson *lesson = all->lesson;
    say(&s, "%s", all->title);
    say_cases(&s, all->seen, all->since);
    if (lesson->cases < lesson->cases_wanted) {
        say_too_few(&s, lesson);
        return;
    }
    say_numbers(&s, lesson);
    if (all->changes == NULL) return;
    say_changes(&s, all->changes);
    say_nothing(&s);
    if (lesson->new_warnings > 0)
        say(&s, "With these numbers 'check' would warn of %u more things than it does now.",
            lesson->new_warnings);
    if (lesson->cases < 3 * lesson->cases_wanted)
        say(&s, "It is worth having from about 12 cases a cause on the mean, %u in all.",
            3 * lesson->cases_wanted);
    say(&s, "Nothing has been changed. With --patch this becomes a patch that you can read, "
            "shorten and apply.");
}
