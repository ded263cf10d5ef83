/* Calls at random through the library (TT_CALLS says how many): two writers on one case, answers
 * that were misread, words of danger, steps taken back, cases taken up again. On no turn may a fix
 * be offered while danger is not ruled out, nor one above the role of whoever speaks, nor one with
 * a hazard that nothing covers, nor one that a caution holds back. Whether danger is ruled out is
 * worked out a second time here, plainly, from the records alone. At the end the records, played
 * for nobody, lead where they lead when somebody looks. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/value.h"
#include "book_folder.h"
#include "luck.h"
#include "session/session.h"
#include "telltale.h"
#include "test_sources.h"

#ifdef __SANITIZE_ADDRESS__
enum { CALLS = 40 }; /* ten times slower */
#else
enum { CALLS = 200 };
#endif
enum { WRITERS = 2, MOST_REPLIES = 60, MOST_RECORDS = 1024 };

static uint64_t luck, state_of_call;

/* ---- what was counted ---- */

static struct {
    uint64_t calls, turns, fixes_offered, fixes_with_gate_shut, fixes_above_role, fixes_uncovered,
        fixes_held, cautions_that_hold, turns_without_danger, ends, played_alone;
} seen;

/* ---- the folder of the case: each record once, copied ---- */

typedef struct folder {
    arena *keep;
    tt_record records[MOST_RECORDS];
    uint32_t count;
    uint32_t read[WRITERS]; /* how far each talk has been handed them */
} folder;

static const char *const names[WRITERS] = {"east", "west"};

static void put(folder *f, const tt_record *r)
{
    assert_true(f->count < MOST_RECORDS);
    tt_value *seen_copy = arena_take(f->keep, sizeof *seen_copy),
             *data = arena_take(f->keep, sizeof *data);
    *seen_copy = value_copy(f->keep, r->seen);
    *data = value_copy(f->keep, r->data);
    f->records[f->count++] =
        (tt_record){.writer = strcmp(r->writer, names[0]) == 0 ? names[0] : names[1],
                    .number = r->number,
                    .lamport = r->lamport,
                    .time = "2026-11-29T09:00:00Z",
                    .seen = r->seen != NULL ? seen_copy : NULL,
                    .kind = str_copy(f->keep, str_of(r->kind)).p,
                    .data = data};
}

/* ---- the gate, plainly ---- */

static bool knew_of(const tt_record *later, const tt_record *earlier)
{
    double number = 0;
    if (strcmp(later->writer, earlier->writer) == 0) return earlier->number < later->number;
    return value_number(later->seen, earlier->writer, &number) && (double)earlier->number <= number;
}

static int by_place(const void *a, const void *b)
{
    const tt_record *x = *(const tt_record *const *)a, *y = *(const tt_record *const *)b;
    if (x->lamport != y->lamport) return x->lamport < y->lamport ? -1 : 1;
    const int writers = strcmp(x->writer, y->writer);
    return writers != 0 ? writers : (x->number > y->number) - (x->number < y->number);
}

static bool is_kind(const tt_record *r, const char *kind)
{
    return strcmp(r->kind, kind) == 0;
}

static bool is_about(const tt_record *r, const char *question)
{
    const char *about = value_text(r->data, "question");
    return is_kind(r, "answer") && about != NULL && strcmp(about, question) == 0;
}

static bool is_safe_answer(const tt_record *r, const tt_question *q)
{
    const tt_value *reply = value_get(r->data, "reply");
    const char *option = value_text(reply, "option");
    for (uint32_t i = 0; option != NULL && i < q->option_count; i++)
        if (strcmp(q->options[i].name, option) == 0) return (q->safe_options >> i & 1) != 0;
    double number;
    return option == NULL && value_number(reply, "number", &number) && number >= q->safe_low &&
           number <= q->safe_high;
}

static bool begins_sitting(const tt_record *r)
{
    const char *outcome = value_text(r->data, "outcome");
    return is_kind(r, "begin") || is_kind(r, "resume") || is_kind(r, "sitting") ||
           is_kind(r, "recheck") ||
           (is_kind(r, "tried") && outcome != NULL && strcmp(outcome, "worse") == 0);
}

/* Not one step more generous than: everything unsafe was ended by a safe answer of somebody who
 * knew of it, and the writer said safe after that and after the sitting began. */
static bool ruled_out(const folder *f, uint32_t writer, const tt_question *q)
{
    const tt_record *order[MOST_RECORDS];
    bool unsafe[MOST_RECORDS] = {false}, mine = false;
    uint32_t count = 0;
    for (uint32_t i = 0; i < f->count; i++)
        if (i < f->read[writer] || strcmp(f->records[i].writer, names[writer]) == 0)
            order[count++] = &f->records[i];
    qsort(order, count, sizeof order[0], by_place);
    for (uint32_t i = 0; i < count; i++) {
        const tt_record *r = order[i];
        const bool own = strcmp(r->writer, names[writer]) == 0;
        if (own && begins_sitting(r)) mine = false;
        if (is_kind(r, "danger") || (is_about(r, q->name) && !is_safe_answer(r, q))) {
            unsafe[i] = true;
            mine = false;
        } else if (is_about(r, q->name)) {
            for (uint32_t k = 0; k < i; k++)
                if (knew_of(r, order[k])) unsafe[k] = false;
            mine = mine || own;
        }
    }
    for (uint32_t i = 0; i < count; i++) mine = mine && !unsafe[i];
    return mine;
}

/* ---- a turn ---- */

static bool offers_fix(tt_turn_kind kind)
{
    return kind == TT_TURN_BEFORE_FIX || kind == TT_TURN_FIX_STEP || kind == TT_TURN_OUTCOME ||
           kind == TT_TURN_PUT_BACK || kind == TT_TURN_REVIEW;
}

/* What somebody who mends it wants to see. */
static void show_records(const folder *f, uint32_t writer, const tt_turn *turn)
{
    print_message("call %llu: %s is offered '%s' (%s)\n", (unsigned long long)state_of_call,
                  names[writer], turn->prompt, tt_turn_kind_name(turn->kind));
    for (uint32_t i = 0; i < f->count; i++) {
        const tt_record *r = &f->records[i];
        char *data, *known = NULL;
        assert_int_equal(tt_value_json(r->data, 10, &data), TT_OK);
        if (r->seen != NULL) assert_int_equal(tt_value_json(r->seen, 10, &known), TT_OK);
        print_message("  %s %llu@%llu saw %s%s: %s %s\n", r->writer, (unsigned long long)r->number,
                      (unsigned long long)r->lamport, known != NULL ? known : "-",
                      i < f->read[writer] ? "" : " (not read)", r->kind, data);
        free(known);
        free(data);
    }
}

static bool is_energy(const char *hazard)
{
    static const char *const energies[] = {"electricity", "pressure",      "moving parts",
                                           "gravity",     "stored energy", NULL};
    uint32_t i = 0;
    while (energies[i] != NULL && strcmp(energies[i], hazard) != 0) i++;
    return energies[i] != NULL;
}

/* Each energy is isolated by a procedure that is proved and given back, or runs for a reason;
 * against all else something is worn. */
static bool is_uncovered(const tt_safety *s)
{
    const bool runs =
                   strcmp(s->state, "running") == 0 && *s->why_running != 0 && s->protect_count > 0,
               isolated = s->procedure_count > 0 && s->isolate_count > 0 && s->release_count > 0 &&
                          s->prove_count > 0 && s->restore_count > 0;
    for (uint32_t i = 0; i < s->hazard_count; i++)
        if (is_energy(s->hazards[i]) ? !isolated && !runs : s->protect_count == 0) return true;
    return false;
}

/* By the rules of the cautions that stand now. Putting back what was done before is no offer. */
static bool is_held(const tt_book *b, tt_talk *talk, uint32_t fix)
{
    const tt_view *v;
    bool held = false;
    assert_int_equal(tt_look(tt_talk_case(talk), &v), TT_OK);
    for (uint32_t i = 0; i < v->caution_count; i++)
        for (uint32_t r = 0; r < b->book->rule_count; r++) {
            if (!str_is(b->book->rules[r].id.name, v->cautions[i].rule)) continue;
            seen.cautions_that_hold += b->book->rules[r].holds.count > 0;
            for (uint32_t k = 0; k < b->book->rules[r].holds.count; k++)
                held = held || b->book->rules[r].holds.items[k] == fix;
        }
    return held;
}

static void check_turn(const tt_book *b, tt_talk *talk, const folder *f, uint32_t writer)
{
    const tt_turn *turn = tt_talk_turn(talk);
    seen.turns++;
    if (turn->kind == TT_TURN_END) return;
    seen.turns_without_danger += turn->word_count == 0 || strcmp(turn->words[0].id, "danger") != 0;
    if (!offers_fix(turn->kind)) return;
    seen.fixes_offered++;
    bool open = turn->gate_open;
    tt_question q;
    for (uint32_t i = 0; tt_question_show(tt_talk_case(talk), i, &q) == TT_OK; i++)
        if (q.gate) open = open && ruled_out(f, writer, &q);
    seen.fixes_with_gate_shut += !open;
    if (!open) show_records(f, writer, turn);
    tt_fix_plan plan;
    const uint32_t fix = tt_fix_find(b, turn->subject);
    if (tt_fix_show(tt_talk_case(talk), fix, &plan) != TT_OK) return;
    seen.fixes_above_role += tt_role_find(b, plan.role) > 0;
    seen.fixes_uncovered += is_uncovered(&plan.safety);
    seen.fixes_held += turn->kind == TT_TURN_BEFORE_FIX && is_held(b, talk, fix);
}

/* ---- replies ---- */

static const char *const sayings[] = {
    "yes",
    "no",
    "no idea",
    "there is smoke",
    "somebody is hurt",
    "my eyes burn",
    "fire",
    "help",
    "nobody is hurt",
    "a hose sprays",
    "it leaks",
    "worse",
    "the foam is dry and air 55",
    "stiff foam, air 45 psi, a hose sprays",
    "idk",
    "cannot",
    "unsure",
    "back",
    "danger",
    "known",
    "why",
    "change",
    "55 psi",
    "0",
    "-3",
    "1e9",
    "",
    "?",
    ":stop",
    "roof is streaky",
    "no foam",
    "done",
    "ok",
    "se quemo la mano",
    "todo bien",
    "safe",
    "I see 40",
    "forty",
    "not dry",
    "hold",
    "cautions",
    "the pump does not run",
    "gas smell",
    "it is gone",
    "no change",
};

static void random_reply(const tt_turn *turn, tt_heard *h, double *number)
{
    const uint32_t how = luck_below(&luck, 10);
    *h = (tt_heard){.words = sayings[luck_below(&luck, sizeof sayings / sizeof sayings[0])]};
    if (how < 6 && turn->choice_count > 0)
        h->choice =
            turn->choices[luck_below(&luck, 3) == 0 ? luck_below(&luck, turn->choice_count) : 0].id;
    else if (how == 6 && turn->word_count > 0)
        h->choice = turn->words[luck_below(&luck, turn->word_count)].id;
    else if ((how < 9 && turn->takes.reading) || how == 7) {
        *number = (double)luck_below(&luck, 1000) / 10;
        h->number = number;
    }
    if (h->choice != NULL &&
        (strcmp(h->choice, "stop") == 0 || strcmp(h->choice, "hand over") == 0) &&
        luck_below(&luck, 4) != 0)
        h->choice = "known";
}

static void keep(folder *f, tt_talk *talk, const tt_record *records, uint32_t count)
{
    for (uint32_t i = 0; i < count; i++) put(f, &records[i]);
    if (count > 0) assert_int_equal(tt_talk_kept(talk, luck_below(&luck, 200) != 0), TT_OK);
}

static void hand_over_news(folder *f, tt_talk *talk, uint32_t writer)
{
    for (; f->read[writer] < f->count; f->read[writer]++) {
        const tt_record *r = &f->records[f->read[writer]];
        if (strcmp(r->writer, names[writer]) != 0)
            assert_int_equal(tt_talk_take(talk, r, 1), TT_OK);
    }
}

static tt_talk *open_talk(const tt_book *b, folder *f, uint32_t writer, const char *now)
{
    static const char *const ways[] = {"resume", "join", "take-over"};
    const tt_talk_options options = {.writer = names[writer],
                                     .kept = true,
                                     .number = "000001A",
                                     .how = f->count > 0 ? ways[luck_below(&luck, 3)] : NULL};
    tt_talk *talk;
    const tt_record *records;
    uint32_t count;
    assert_int_equal(tt_talk_new(b, &options, &talk), TT_OK);
    assert_int_equal(tt_talk_take(talk, f->records, f->count), TT_OK);
    f->read[writer] = f->count;
    assert_int_equal(tt_talk_begin(talk, now, &records, &count), TT_OK);
    keep(f, talk, records, count);
    check_turn(b, talk, f, writer);
    return talk;
}

/* ---- played for nobody ---- */

static char *standing_of(const tt_book *b, const folder *f, bool alone)
{
    const tt_talk_options options = {
        .writer = names[0], .number = "000001A", .look_only = true, .how = "resume"};
    const tt_origin origin = {.book = b, .revision = ""};
    const char *now = "2026-11-30T09:00:00Z";
    tt_talk *talk;
    const tt_record *records;
    uint32_t count;
    char *json;
    assert_int_equal(tt_talk_new(b, &options, &talk), TT_OK);
    assert_int_equal(tt_talk_take(talk, f->records, f->count), TT_OK);
    assert_int_equal(alone ? tt_talk_play(talk, now) : tt_talk_begin(talk, now, &records, &count),
                     TT_OK);
    assert_int_equal(tt_standing_json(&origin, tt_talk_case(talk), &json), TT_OK);
    tt_talk_free(talk);
    return json;
}

/* Without the turns the case stands where it stands with them. */
static void check_played_alone(const tt_book *b, const folder *f)
{
    char *with = standing_of(b, f, false), *without = standing_of(b, f, true);
    assert_string_equal(without, with);
    seen.played_alone++;
    free(with);
    free(without);
}

static void play(const tt_book *b, uint64_t call)
{
    folder f = {.keep = test_arena()};
    tt_talk *talks[WRITERS] = {NULL};
    uint32_t minutes = 0;
    char now[40];
    state_of_call = call;
    luck = call;
    for (uint32_t i = 0; i < MOST_REPLIES && f.count + 64 < MOST_RECORDS; i++) {
        const uint32_t w = luck_below(&luck, 5) == 0;
        minutes += luck_below(&luck, 40) == 0 ? 31 : 1;
        snprintf(now, sizeof now, "2026-11-29T%02u:%02u:00Z", minutes / 60 % 24, minutes % 60);
        if (talks[w] == NULL)
            talks[w] = open_talk(b, &f, w, now);
        else if (luck_below(&luck, 6) == 0)
            hand_over_news(&f, talks[w], w);
        check_turn(b, talks[w], &f, w);
        tt_heard heard;
        double number = 0;
        const tt_record *records;
        uint32_t count;
        random_reply(tt_talk_turn(talks[w]), &heard, &number);
        if (tt_talk_hear(talks[w], &heard, now, &records, &count) == TT_OK)
            keep(&f, talks[w], records, count);
        check_turn(b, talks[w], &f, w);
        if (tt_talk_turn(talks[w])->kind != TT_TURN_END && luck_below(&luck, 60) != 0) continue;
        seen.ends++;
        tt_talk_free(talks[w]);
        talks[w] = NULL;
    }
    for (uint32_t w = 0; w < WRITERS; w++) tt_talk_free(talks[w]);
    check_played_alone(b, &f);
    arena_free(f.keep);
    seen.calls++;
}

static const struct {
    const char *book, *site; /* null: as the book itself says */
} books[] = {
    {"rules/foam-line", NULL},          {"rules/foam-line", "rules/foam-line-two-stands.yaml"},
    {"rules/dosing-and-pumping", NULL}, {"rules/standby-generator", NULL},
    {"tests/cli/regulator", NULL},      {"tests/cli/gauges", NULL},
    {"tests/cli/filters", NULL}};
enum { BOOKS = sizeof books / sizeof books[0] };

static uint64_t calls_wanted(void)
{
    const char *wanted = getenv("TT_CALLS");
    return wanted != NULL ? strtoull(wanted, NULL, 10) : CALLS;
}

static void no_fix_is_offered_while_danger_is_not_ruled_out(void **state)
{
    (void)state;
    for (uint32_t i = 0; i < BOOKS; i++) {
        tt_book *b = books[i].site != NULL ? book_folder_at(books[i].book, books[i].site)
                                           : book_folder(books[i].book);
        for (uint64_t call = 0; call < calls_wanted() / BOOKS; call++) play(b, call * BOOKS + i);
        tt_book_free(b);
    }
    printf("random calls: %llu, turns: %llu, turns that offer a fix: %llu\n",
           (unsigned long long)seen.calls, (unsigned long long)seen.turns,
           (unsigned long long)seen.fixes_offered);
    printf("a fix offered with the gate shut: %llu\n",
           (unsigned long long)seen.fixes_with_gate_shut);
    printf("a fix above the role: %llu\n", (unsigned long long)seen.fixes_above_role);
    printf("a fix with an uncovered hazard: %llu\n", (unsigned long long)seen.fixes_uncovered);
    printf("a fix while a caution holds it: %llu (cautions that hold stood at %llu offers)\n",
           (unsigned long long)seen.fixes_held, (unsigned long long)seen.cautions_that_hold);
    printf("a turn without the word danger: %llu\n", (unsigned long long)seen.turns_without_danger);
    assert_true(seen.fixes_offered > 0);
    assert_int_equal(seen.played_alone, seen.calls);
    assert_int_equal(seen.fixes_with_gate_shut, 0);
    assert_int_equal(seen.fixes_above_role, 0);
    assert_int_equal(seen.fixes_uncovered, 0);
    assert_int_equal(seen.fixes_held, 0);
    assert_int_equal(seen.turns_without_danger, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_fix_is_offered_while_danger_is_not_ruled_out)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
