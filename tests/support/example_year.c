/* A year at the example site, made up. */
#include "example_year.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/value.h"
#include "books/read_book.h"
#include "cases/case_about.h"
#include "host/memory.h"
#include "summary/record_line.h"
#include "talk_kit.h"
#include "testing.h"

#define BOOK TT_SOURCE_DIR "/rules/foam-line"
#define SITE BOOK "/site.yaml"

enum { DAYS = 364, TURNS_MOST = 200 };

/* The first of December 2025, a Monday, at six in the morning. */
static const int64_t first_day = INT64_C(1764547200000) + 6 * 3600000, a_day = INT64_C(86400000),
                     a_minute = 60000;

/* ---- what the year was like ---- */

/* The same whoever asks, and on which day: from -1 to 1, one of each salt and day. */
static double chance_of_day(int day, uint64_t salt)
{
    uint64_t x = (uint64_t)day * UINT64_C(0x9E3779B97F4A7C15) + salt * UINT64_C(0xBF58476D1CE4E5B9);
    x = (x ^ (x >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    x = (x ^ (x >> 27)) * UINT64_C(0x94D049BB133111EB);
    return (double)(int64_t)((x ^ (x >> 31)) >> 11) / (double)(UINT64_C(1) << 52) - 1;
}

/* The regulator of the foam air wears: it creeps, is set back, creeps again, and is changed in the
 * end. In autumn somebody turns the knob. */
static double foam_air(int day)
{
    const double noise = 0.8 * chance_of_day(day, 1);
    if (day >= 90 && day < 150) return 30 + 9.0 * (day - 90) / 60 + noise;
    if (day >= 150 && day < 190) return 30 + 9.0 * (day - 150) / 40 + noise;
    if (day >= 190 && day < 206) return 30 + 9.0 * (day - 190) / 16 + noise;
    if (day >= 290 && day < 293) return 44 + noise;
    if (day >= 29 && day < 32) return 38 + noise;
    return 30 + noise;
}

static double pump_air(int day)
{
    return 42 + 0.8 * chance_of_day(day, 2);
}

/* The drive of the line was set faster in spring; the foam then ran longer than a car. */
static double mark_to_mark(int day)
{
    return (day < 120 ? 17 : 15) + 0.4 * chance_of_day(day, 3);
}

static double foam_on(int day)
{
    const double longer = day >= 240 && day < 300 ? 3.0 * (day - 240) / 60 : 0;
    return 9 + longer + 0.3 * chance_of_day(day, 4);
}

static double mix_flow(int day)
{
    return day < 200 ? 4.0 : 4.4;
}

/* On Sundays the site is shut; now and then nobody goes; once a fortnight nobody is there. */
static bool has_round(int day)
{
    if (day % 7 == 6 || (day >= 226 && day < 240)) return false;
    return chance_of_day(day, 5) > -0.9;
}

typedef struct fault_of_year {
    int day;
    const char *said;         /* the complaint, in the caller's words */
    const char *seen[6];      /* what they see beside the gauges: question, answer, question … */
    const char *cure, *cause; /* by names of the book; cure "": whoever is called does it */
    bool comes_back;          /* two days later somebody says so */
} fault_of_year;

#define DRY   "foam-look", "stiff"
#define EMPTY "drum-level", "bare", "drum-label", "yes"
static const fault_of_year faults[] = {
    {31,
     "the foam blows away",
     {DRY, "foam-air-holds", "yes"},
     "foam-air-to-mark",
     "foam-air-high",
     false},
    {75, "only water comes out", {EMPTY}, "change-drum", "drum-empty", false},
    {149,
     "the foam is dry",
     {DRY, "foam-air-holds", "yes"},
     "foam-air-to-mark",
     "foam-air-high",
     false},
    {189,
     "the foam is dry",
     {DRY, "foam-air-holds", "yes"},
     "foam-air-to-mark",
     "foam-air-high",
     true},
    {205, "the foam is dry", {DRY, "foam-air-holds", "no"}, "", "foam-air-drifts", false},
    {262, "only water comes out", {EMPTY}, "change-drum", "drum-empty", false},
    {292,
     "the foam is dry",
     {DRY, "foam-air-holds", "yes"},
     "foam-air-to-mark",
     "foam-air-high",
     false},
};

/* ---- a turn ---- */

typedef struct year {
    arena *keep;
    opened_book book;
    const char *folder;
    uint32_t cases; /* so far */
} year;

typedef struct call_of_year {
    year *y;
    record_folder *records;
    told_talk t;
    int64_t now;
    const fault_of_year *fault; /* null: a round, or a record */
    int day;
    bool handed_over; /* nothing that is done helps any more: somebody is called */
} call_of_year;

static void set_clock(call_of_year *c)
{
    char text[TT_MOMENT_SIZE];
    tt_moment_text((tt_moment){c->now, 0}, text);
    snprintf(c->t.now, sizeof c->t.now, "%s", text);
    c->now += a_minute / 2;
}

static bool number_for(const call_of_year *c, const char *question, double *out)
{
    static const struct {
        const char *name;
        double (*on)(int day);
        double step; /* to which it is read */
    } readings[] = {{"foam-air", foam_air, 1},
                    {"pump-air", pump_air, 1},
                    {"mark-to-mark", mark_to_mark, 0.5},
                    {"foam-on-time", foam_on, 0.5},
                    {"mix-flow", mix_flow, 0.1}};
    for (size_t i = 0; i < sizeof readings / sizeof readings[0]; i++)
        if (strcmp(readings[i].name, question) == 0) {
            *out = round(readings[i].on(c->day) / readings[i].step) * readings[i].step;
            return true;
        }
    return false;
}

static bool is_cured(const call_of_year *c)
{
    const tt_record *tried = last_record(c->records, "tried");
    return tried != NULL && c->fault != NULL &&
           strcmp(value_text(tried->data, "fix"), c->fault->cure) == 0;
}

/* Null: nothing in particular. */
static const char *seen_of(const call_of_year *c, const char *question)
{
    for (int i = 0; c->fault != NULL && i < 6 && c->fault->seen[i] != NULL; i += 2)
        if (strcmp(c->fault->seen[i], question) == 0) return c->fault->seen[i + 1];
    return NULL;
}

static void answer(call_of_year *c, const tt_turn *turn)
{
    double number;
    const char *seen = is_cured(c) ? NULL : seen_of(c, turn->subject);
    if (seen != NULL)
        choose(&c->t, seen);
    else if (strcmp(turn->subject, "foam-air") == 0 && is_cured(c))
        read_off(&c->t, 30, "psi");
    else if (turn->takes.reading && number_for(c, turn->subject, &number))
        read_off(&c->t, number, turn->takes.unit);
    else if (strcmp(turn->subject, "drum-level") == 0)
        choose(&c->t, "under");
    else
        choose(&c->t, "unsure");
}

static void after_fix(call_of_year *c, const tt_turn *turn)
{
    const bool helps = !c->handed_over && strcmp(turn->subject, c->fault->cure) == 0;
    choose(&c->t, helps ? "gone" : "no-change");
}

static void choose_first_of(call_of_year *c, const tt_turn *turn)
{
    static const char *const ids[] = {"begin", "done", "right", "close", "keep", "go-on", "yes"};
    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++)
        if (turn_offers(turn, ids[i])) {
            choose(&c->t, ids[i]);
            return;
        }
    assert_true(turn->choice_count > 0);
    choose(&c->t, turn->choices[0].id);
}

static void reply(call_of_year *c, const tt_turn *turn)
{
    switch (turn->kind) {
    case TT_TURN_COMPLAINT:
        type(&c->t, c->fault->said);
        break;
    case TT_TURN_QUESTION:
    case TT_TURN_EARLY:
    case TT_TURN_LOOK_AGAIN:
        answer(c, turn);
        break;
    case TT_TURN_OUTCOME:
        after_fix(c, turn);
        break;
    case TT_TURN_CAUSE:
        choose(&c->t, turn_offers(turn, c->fault->cause) ? c->fault->cause : "yes");
        break;
    default:
        choose_first_of(c, turn);
    }
}

static void talk_to_its_end(call_of_year *c)
{
    for (int i = 0; i < TURNS_MOST; i++) {
        const tt_turn *turn = turn_of(&c->t);
        if (turn->kind == TT_TURN_END) return;
        set_clock(c);
        reply(c, turn);
    }
    fail_msg("day %d: no end in sight", c->day);
}

/* ---- a case ---- */

/* Version 7, of this moment; what is random in it is its number in the year. */
static const char *case_id(year *y, int64_t now)
{
    return str_printf(y->keep, "%08x-%04x-7%03x-8%03x-%012x", (unsigned)(now >> 16),
                      (unsigned)(now & 0xFFFF), y->cases * 37 % 0xFFF, y->cases * 91 % 0xFFF,
                      y->cases * 2654435761u)
        .p;
}

static void make_folder(const char *path)
{
    if (mkdir(path, 0700) != 0) assert_int_equal(errno, EEXIST);
}

static FILE *journal_of(year *y, const char *id, const char *month)
{
    const char *a = str_printf(y->keep, "%s/%.4s", y->folder, month).p,
               *b = str_printf(y->keep, "%s/%.2s", a, month + 5).p,
               *c = str_printf(y->keep, "%s/%s", b, id).p;
    make_folder(a);
    make_folder(b);
    make_folder(c);
    FILE *file = fopen(str_printf(y->keep, "%s/%s.jsonl", c, "example00000").p, "wb");
    assert_non_null(file);
    return file;
}

static void write_case(call_of_year *c, const char *id)
{
    char before[LINE_HASH_SIZE] = "";
    FILE *file = journal_of(c->y, id, c->records->records[0].time);
    for (uint32_t i = 0; i < c->records->count; i++) {
        const str line = record_line(c->y->keep, id, before, &c->records->records[i], NULL);
        assert_int_equal(fwrite(line.p, 1, line.n, file), line.n);
        assert_int_equal(fputc('\n', file), '\n');
        line_hash(line.p, line.n, before);
    }
    assert_int_equal(fclose(file), 0);
}

static const tt_value *about(year *y, const char *number, const char *person)
{
    const case_about a = {.book = y->book.book,
                          .number = number,
                          .folder = BOOK,
                          .revision = y->book.revision,
                          .site_path = SITE,
                          .site_revision = y->book.site_revision,
                          .site_text = y->book.site_text,
                          .person = person,
                          .place = "example"};
    return case_about_value(y->keep, &a);
}

/* "It helped, and came back." */
static void come_back(call_of_year *c)
{
    talk_close(&c->t);
    c->now += 2 * a_day;
    set_clock(c);
    c->t = talk_open(c->y->book.book, c->records, "example00000", NULL, "resume", c->t.now);
    assert_turn(turn_of(&c->t), TT_TURN_CLOSED);
    choose(&c->t, "came-back");
    c->handed_over = true;
    talk_to_its_end(c);
}

static void lead_case(year *y, int day, tt_case_kind kind, tt_every every,
                      const fault_of_year *fault)
{
    char number[TT_CASE_NUMBER_SIZE], now[TT_MOMENT_SIZE];
    const int64_t begins = first_day + day * a_day + (kind == TT_KIND_ROUND ? 0 : 4 * 3600000);
    const char *id = case_id(y, begins);
    call_of_year c = {y, record_folder_new(), {.talk = NULL}, begins, fault, day, false};
    tt_case_number(id, 6, number);
    tt_moment_text((tt_moment){begins, 0}, now);
    const bool skilled = kind == TT_KIND_RECORD;
    const tt_talk_options options = {
        .writer = "example00000",
        .role = skilled ? "technician" : "attendant",
        .kept = true,
        .number = number,
        .about = about(y, number, skilled ? "the technician" : "the early shift"),
        .kind = kind,
        .every = every};
    c.t = talk_open_with(y->book.book, c.records, &options, now);
    set_clock(&c);
    choose(&c.t, turn_of(&c.t)->choices[0].id);
    talk_to_its_end(&c);
    if (fault != NULL && fault->comes_back) come_back(&c);
    write_case(&c, id);
    talk_close(&c.t);
    record_folder_free(c.records);
    y->cases++;
}

void write_example_year(const char *folder)
{
    year y = {.keep = host_arena(), .folder = folder};
    size_t next = 0;
    make_folder(folder);
    assert_int_equal(book_open_at(BOOK, SITE, &y.book), 0);
    for (int day = 0; day < DAYS; day++) {
        const tt_every every = day % 28 == 0 ? TT_MONTHLY : day % 7 == 0 ? TT_WEEKLY : TT_DAILY;
        if (has_round(day)) lead_case(&y, day, TT_KIND_ROUND, every, NULL);
        if (day == 0 || day == 210) lead_case(&y, day, TT_KIND_RECORD, TT_DAILY, NULL);
        for (; next < sizeof faults / sizeof faults[0] && faults[next].day == day; next++)
            lead_case(&y, day, TT_KIND_FAULT, TT_DAILY, &faults[next]);
    }
    book_close(&y.book);
    arena_free(y.keep);
}
