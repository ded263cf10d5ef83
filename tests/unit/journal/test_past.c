/* What the cases of a site had read, in which order, after what was done; and which round is due.
 */
#include "testing.h"

#include "journal/journal.h"
#include "journal_kit.h"
#include "test_sources.h"

#define PSI(number) \
    "{\"question\":\"air\",\"reply\":{\"kind\":\"number\",\"number\":" number ",\"unit\":\"psi\"}" \
    "}"
#define MEASURED(number) \
    "{\"fix\":\"recharge\",\"when\":\"after\",\"question\":\"air\",\"reply\":{\"kind\":" \
    "\"number\",\"number\":" number "}}"
#define TRIED(how) "{\"fix\":\"recharge\",\"outcome\":\"" how "\"}"

typedef struct past_kit {
    arena *keep;
    tt_past *past;
} past_kit;

static past_kit begin_past(void)
{
    past_kit p = {.keep = test_arena()};
    assert_int_equal(tt_past_new(&p.past), TT_OK);
    return p;
}

static void end_past(past_kit *p)
{
    tt_past_free(p->past);
    arena_free(p->keep);
}

static journal_kit case_begun(past_kit *p, const char *about)
{
    journal_kit k = journal_kit_new(p->keep);
    kit_add(&k, "east", "begin", about);
    return k;
}

static void add(past_kit *p, const journal_kit *k)
{
    assert_int_equal(tt_past_add(p->past, "000001A", k->records, k->count), TT_OK);
}

static void assert_readings(past_kit *p, const double *numbers, const char *const *fixes,
                            uint32_t wanted)
{
    uint32_t count;
    const tt_past_reading *r = tt_past_readings(p->past, &count);
    assert_int_equal(count, wanted);
    for (uint32_t i = 0; i < count; i++) {
        assert_true(r[i].number == numbers[i]);
        assert_string_equal(r[i].fix, fixes[i]);
        assert_int_equal(tt_past_begins_anew(p->past, &r[i]), *fixes[i] != '\0');
    }
}

/* Told twice with no fix between, it was told wrong before; what was put back or could not be done
 * changed nothing. */
static void a_reading_belongs_to_what_was_done_before_it(void **state)
{
    (void)state;
    past_kit p = begin_past();
    journal_kit k = case_begun(&p, "{}");
    kit_add(&k, "east", "answer", PSI("50"));
    kit_add(&k, "east", "answer", PSI("51"));
    kit_add(&k, "east", "answer",
            "{\"question\":\"smoke\",\"reply\":{\"kind\":\"answer\",\"option\":\"no\"}}");
    kit_add(&k, "east", "answer", "{\"question\":\"air\",\"reply\":{\"kind\":\"number\"}}");
    kit_add(&k, "east", "tried", TRIED("could-not"));
    kit_add(&k, "east", "answer", PSI("52"));
    kit_add(&k, "east", "tried", TRIED("no-change"));
    kit_add(&k, "east", "answer", PSI("60"));
    kit_add(&k, "east", "answer", PSI("70"));
    kit_add(&k, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":10}}");
    add(&p, &k);
    assert_readings(&p, (const double[]){52, 60}, (const char *const[]){"", "recharge"}, 2);
    journal_kit other =
        case_begun(&p, "{}"); /* as old, and with the same question: by time, then as they came */
    other.clock += 86400000;
    kit_add(&other, "east", "measured", MEASURED("61"));
    kit_add(&other, "east", "tried", TRIED("no-change"));
    kit_add(&other, "east", "put-back", "{\"fix\":\"recharge\"}");
    kit_add(&other, "east", "answer", PSI("53"));
    add(&p, &other);
    assert_readings(&p, (const double[]){52, 60, 61, 53},
                    (const char *const[]){"", "recharge", "recharge", ""}, 4);
    end_past(&p);
}

static void what_is_recorded_anew_begins_anew(void **state)
{
    (void)state;
    past_kit p = begin_past();
    journal_kit k = case_begun(&p, "{\"kind\":\"record\"}");
    kit_add(&k, "east", "answer", PSI("50"));
    add(&p, &k);
    uint32_t count;
    assert_true(tt_past_begins_anew(p.past, tt_past_readings(p.past, &count)));
    assert_int_equal(count, 1);
    end_past(&p);
}

static void made_up_calls_and_empty_cases_are_left_out(void **state)
{
    (void)state;
    past_kit p = begin_past();
    journal_kit k = case_begun(&p, "{\"kind\":\"drill\"}");
    kit_add(&k, "east", "answer", PSI("50"));
    add(&p, &k);
    assert_int_equal(tt_past_add(p.past, "000002B", NULL, 0), TT_OK);
    uint32_t cases, readings;
    tt_past_cases(p.past, &cases);
    tt_past_readings(p.past, &readings);
    assert_int_equal(cases, 0);
    assert_int_equal(readings, 0);
    end_past(&p);
}

static void spoil(const tt_value *v)
{
    if (v->kind == TT_VALUE_TEXT) memset((char *)(uintptr_t)v->text, '#', strlen(v->text));
    if (v->kind != TT_VALUE_MAP && v->kind != TT_VALUE_LIST) return;
    for (uint32_t i = 0; i < v->count; i++) spoil(&v->items[i]);
}

/* Whoever hands records in may give back their memory afterwards. */
static void nothing_of_the_records_is_needed_later(void **state)
{
    (void)state;
    past_kit p = begin_past();
    journal_kit k = case_begun(&p, "{\"title\":\"House well\",\"by\":\"east desk\"}");
    kit_add(&k, "east", "complaint", "{\"symptom\":\"stiff\",\"text\":\"It is stiff\"}");
    kit_add(&k, "east", "tried", TRIED("no-change"));
    kit_add(&k, "east", "answer", PSI("50"));
    kit_add(&k, "east", "came-back", "{}");
    kit_add(&k, "east", "close",
            "{\"how\":\"gone\",\"fix\":\"recharge\",\"fix_text\":\"Charge the tank\",\"cause\":"
            "\"leak\",\"cause_text\":\"It leaks\"}");
    char id[] = "000001A", writer[] = "east", time[] = "2026-11-29T08:05:00Z";
    k.records[4].time = k.records[5].time = time;
    for (uint32_t i = 0; i < k.count; i++) k.records[i].writer = writer;
    assert_int_equal(tt_past_add(p.past, id, k.records, k.count), TT_OK);
    for (uint32_t i = 0; i < k.count; i++) spoil(k.records[i].data);
    memset(id, '#', strlen(id));
    memset(writer, '#', strlen(writer));
    memset(time, '#', strlen(time));
    uint32_t count;
    const tt_past_case *c = tt_past_cases(p.past, &count);
    assert_int_equal(count, 1);
    const char *const texts[][2] = {{c->number, "000001A"},
                                    {c->says.title, "House well"},
                                    {c->says.complaint_name, "stiff"},
                                    {c->says.complaint, "It is stiff"},
                                    {c->says.cause_name, "leak"},
                                    {c->says.cause, "It leaks"},
                                    {c->fix, "recharge"},
                                    {c->fix_text, "Charge the tank"},
                                    {c->says.writer, "east"},
                                    {c->says.person, "east desk"},
                                    {c->says.last, "2026-11-29T08:05:00Z"},
                                    {c->came_back, "2026-11-29T08:05:00Z"}};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        assert_string_equal(texts[i][0], texts[i][1]);
    const tt_past_reading *r = tt_past_readings(p.past, &count);
    assert_int_equal(count, 1);
    assert_string_equal(r->question, "air");
    assert_string_equal(r->unit, "psi");
    assert_string_equal(r->fix, "recharge");
    assert_int_equal(r->of, 0);
    end_past(&p);
}

/* What had helped is told of a case whose trouble was gone, and when it came back after. */
static void what_helped_is_what_the_trouble_was_gone_by(void **state)
{
    (void)state;
    past_kit p = begin_past();
    journal_kit gone = case_begun(&p, "{}"), called = case_begun(&p, "{}");
    kit_add(&gone, "east", "tried", TRIED("gone"));
    kit_add(&gone, "east", "close",
            "{\"how\":\"gone\",\"fix\":\"recharge\",\"fix_text\":\"Charge the tank\"}");
    kit_add(&called, "east", "tried", TRIED("no-change"));
    kit_add(&called, "east", "close", "{\"how\":\"call\",\"fix\":\"recharge\"}");
    add(&p, &gone);
    add(&p, &called);
    const uint32_t back = kit_add(&gone, "east", "came-back", "{\"fix\":\"recharge\"}");
    const uint32_t twice = kit_add(&gone, "east", "came-back", "{\"fix\":\"recharge\"}");
    kit_add(&gone, "east", "back", "{\"step\":{\"writer\":\"east\",\"seq\":5}}");
    add(&p, &gone);
    uint32_t count;
    const tt_past_case *cases = tt_past_cases(p.past, &count);
    assert_int_equal(count, 3);
    assert_string_equal(cases[0].fix, "recharge");
    assert_string_equal(cases[0].fix_text, "Charge the tank");
    assert_string_equal(cases[0].came_back, "");
    assert_string_equal(cases[1].fix, "");
    assert_string_equal(cases[2].came_back, gone.records[back].time);
    assert_int_equal(twice, back + 1);
    end_past(&p);
}

/* The kit's rounds end two minutes after 2026-11-29T08:00Z. */
static void add_round(past_kit *p, const char *about, bool to_its_end)
{
    journal_kit k = case_begun(p, about);
    kit_add(&k, "east", "answer", PSI("50"));
    if (to_its_end) kit_add(&k, "east", "close", "{\"how\":\"in-order\"}");
    add(p, &k);
}

static void a_round_is_due_when_a_fuller_one_was_long_ago(void **state)
{
    (void)state;
    past_kit p = begin_past();
    assert_int_equal(tt_past_due(p.past, "2026-11-29T09:00:00Z"), TT_MONTHLY); /* never */
    assert_int_equal(tt_past_due(p.past, "some day"), TT_MONTHLY);
    add_round(&p, "{\"kind\":\"fault\",\"every\":\"monthly\"}", true); /* no round */
    add_round(&p, "{\"kind\":\"round\",\"every\":\"monthly\"}", false);
    assert_int_equal(tt_past_due(p.past, "2026-11-29T09:00:00Z"), TT_MONTHLY);
    add_round(&p, "{\"kind\":\"round\",\"every\":\"monthly\"}", true);
    assert_int_equal(tt_past_due(p.past, "2026-11-29T09:00:00Z"), TT_DAILY);
    assert_int_equal(tt_past_due(p.past, "some day"), TT_MONTHLY);           /* rather too much */
    assert_int_equal(tt_past_due(p.past, "2026-11-28T09:00:00Z"), TT_DAILY); /* a clock set back */
    assert_int_equal(tt_past_due(p.past, "2026-12-05T20:01:59Z"),
                     TT_DAILY); /* six days and a half */
    assert_int_equal(tt_past_due(p.past, "2026-12-05T20:02:00Z"), TT_WEEKLY);
    assert_int_equal(tt_past_due(p.past, "2026-12-26T20:01:59Z"),
                     TT_WEEKLY); /* twenty-seven and a half */
    assert_int_equal(tt_past_due(p.past, "2026-12-26T20:02:00Z"), TT_MONTHLY);
    end_past(&p);
}

static void a_weekly_round_stands_for_no_monthly_one(void **state)
{
    (void)state;
    past_kit p = begin_past();
    add_round(&p, "{\"kind\":\"round\",\"every\":\"weekly\"}", true);
    assert_int_equal(tt_past_due(p.past, "2026-11-29T09:00:00Z"), TT_MONTHLY);
    end_past(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_reading_belongs_to_what_was_done_before_it),
        cmocka_unit_test(what_is_recorded_anew_begins_anew),
        cmocka_unit_test(made_up_calls_and_empty_cases_are_left_out),
        cmocka_unit_test(nothing_of_the_records_is_needed_later),
        cmocka_unit_test(what_helped_is_what_the_trouble_was_gone_by),
        cmocka_unit_test(a_round_is_due_when_a_fuller_one_was_long_ago),
        cmocka_unit_test(a_weekly_round_stands_for_no_monthly_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
