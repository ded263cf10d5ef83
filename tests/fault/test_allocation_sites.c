/* Memory ends at every place in turn while what the cases of a site come to is told, learned and
 * written down: a call that says so has changed nothing, is done again once there is memory, and
 * all comes out as if nothing had happened. Nothing is left behind. */
#include "testing.h"

#include <math.h>

#include "deeds.h"
#include "journal_kit.h"
#include "test_sources.h"

#if OWN_MALLOC
static const char book_text[] =
    "book:\n  title: {en: \"Pump room\", es: Bombas}\n  roles: [helper, {fitter: {authorised: "
    "yes}}]\n"
    "questions:\n"
    "  air:\n    ask: What does the air gauge read?\n    round: daily\n    good: air-set\n"
    "    reading: pressure\n    unit: psi\n    plausible: 0 to 100 psi\n"
    "  fill:\n    ask: How long does the bucket take to fill?\n    round: daily\n    about: today\n"
    "    reading: time\n    unit: s\n    plausible: 1 to 600 s\n"
    "  hum:\n    ask: How is the pump?\n    answers: {loud: Loud, quiet: Quiet}\n"
    "  air-set:\n    ask: At which air does it run well?\n    about: the site\n"
    "    reading: pressure\n    unit: psi\n"
    "  bucket:\n    ask: How much does the bucket hold?\n    about: the site\n    round: monthly\n"
    "    reading: volume\n    unit: gal\n"
    "quantities:\n"
    "  flow:\n    text: What flows\n    formula: bucket / fill\n    unit: gal/min\n    over-time: "
    "yes\n"
    "symptoms:\n"
    "  weak:\n    text: It is weak\n    heard: [it is weak]\n    when: {air: below 20 psi}\n"
    "    shown-by: {knob: usually}\n"
    "  hums: {when: {hum: loud}, shown-by: {worn: usually}}\n"
    "causes:\n  knob:\n    text: {en: \"The knob was turned\", es: \"Movieron la perilla\"}\n"
    "  worn:\n    text: Worn\n"
    "fixes:\n  turn-back:\n    text: {en: \"Turn the knob back\", es: \"Regresar la perilla\"}\n"
    "    cures: {knob: 90 %, worn: 20 %}\n    role: helper\n    harm: none\n    takes: 2 min\n"
    "    put-back: not needed\n    steps:\n      - Turn it.\n    look-again: [air]\n";
static const char site_text[] = "site:\n  title: The pump house\n  answers:\n"
                                "    air-set: {value: 30 psi, day: 2026-11-02}\n"
                                "    bucket: 5 gal\n";
static const tt_source book_file = {"book.yaml", book_text, sizeof book_text - 1},
                       site_file = {"site.yaml", site_text, sizeof site_text - 1};

enum { DAYS = 9 };
static struct {
    tt_book *book;
    tt_past *past;
    journal_kit days[DAYS];
} site;

/* ---- deeds ---- */

static void tell_series(const tt_series *s)
{
    tell(s->name);
    tell(s->good_words);
    tell(s->per_week);
    tell(s->jumped_after);
    tell(s->why);
    for (uint32_t i = 0; i < s->point_count; i++) tell(s->points[i].words);
    for (uint32_t i = 0; i < s->mark_count; i++) tell(s->marks[i].text);
    for (uint32_t i = 0; i < s->missing_count; i++) tell(s->missing[i].ask);
}

static void tell_its_story(void)
{
    tt_story *s;
    DO(tt_story_new(site.book, site.past, "2026-11-30T08:00:00Z", "es", &s));
    const tt_site_story *all = tt_story_look(s);
    tell(all->site);
    assert_true(all->series_count > 1 && all->gap_count > 0 && all->returned_count == 1);
    for (uint32_t i = 0; i < all->series_count; i++) tell_series(&all->series[i]);
    for (uint32_t i = 0; i < all->gap_count; i++) tell(all->gaps[i].from);
    for (uint32_t i = 0; i < all->case_count; i++) tell(all->cases[i].fix_text);
    tell(all->returned[0].fix_text);
    tt_story_free(s);
}

static void read_a_case_of_it(void)
{
    for (int day = 0; day < DAYS; day += DAYS - 1) {
        tt_journal *j;
        tt_case_summary says;
        tt_confirmation cause;
        tt_helped helped;
        tt_case_places places;
        const tt_holder *holders;
        uint32_t count;
        tt_entry e;
        DO(tt_journal_new(site.days[day].records, site.days[day].count, NULL, &j));
        DO(tt_journal_summary(j, &says));
        tell(tt_case_state_name(says.state));
        tell(says.complaint);
        DO(tt_journal_cause(j, &cause));
        tell(cause.cause);
        DO(tt_journal_helped(j, &helped));
        tell(helped.fix_text);
        DO(tt_journal_places(j, &places));
        tell(places.revision);
        DO(tt_journal_holders(j, &holders, &count));
        tell_number(count);
        for (uint32_t i = 0; i < tt_journal_count(j); i++) {
            DO(tt_journal_entry(j, i, &e));
            tell(e.record->kind);
        }
        tt_journal_free(j);
    }
}

static void write_down_what_is_good(void)
{
    const tt_good good[] = {
        {.fact = "air-set", .value = "32 psi", .day = "2026-11-20", .how = "with \"the\" gauge"},
        {.fact = "bucket", .value = "6 gal"},
        {.fact = "crate", .value = "2 gal", .role = "fitter"}};
    char *out;
    DO(tt_site_with_good(site_text, sizeof site_text - 1, good, 3, &out));
    assert_non_null(strstr(out, "with \\\"the\\\" gauge"));
    tell(out);
    free(out);
}

static void read_and_write_json(void)
{
    static const char json[] = "{\"a\": [1, 2.5, null, true, \"x\\ny\"], \"b\": {\"c\": {}, \"d\": "
                               "1e300}, \"e\": \"\\u00e4\"}";
    tt_document *d;
    char *text;
    DO(tt_document_read(json, sizeof json - 1, sizeof json, &d));
    DO(tt_value_json(tt_document_value(d), 6, &text));
    tell(text);
    free(text);
    tt_document_free(d);
    tt_status status = tt_document_read("{\"a\": 1,}", 9, 100, &d);
    if (is_again(status)) status = tt_document_read("{\"a\": 1,}", 9, 100, &d);
    assert_int_equal(status, TT_FAULTY);
    tell(tt_document_wrong(d));
    tt_document_free(d);
}

static void give_numbers_digits(void)
{
    static const char *const ids[] = {"019b1b48-9420-7e45-8172-00002235a41d",
                                      "019b1b48-9420-7e45-8172-00002235a41e",
                                      "019b1b48-9420-7e45-8172-0000a235a41d"};
    uint8_t digits[3];
    DO(tt_case_number_digits(ids, 3, digits));
    for (int i = 0; i < 3; i++) tell_number(digits[i]);
}

static tt_status count_a_cured_case(tt_learning *l)
{
    tt_case *c;
    DO(tt_case_new(site.book, &(tt_options){.role = TT_NONE}, &c));
    DO(tt_answer(c, tt_question_find(site.book, "hum"), &(tt_reply){.kind = TT_ANSWER}));
    DO(tt_fix_tried(c, tt_fix_find(site.book, "turn-back"), TT_GONE));
    const tt_status status = tt_learning_add(l, c, "worn", false);
    tt_case_free(c);
    return status;
}

static tt_status count_all_cases(tt_learning *l)
{
    static const tt_trouble troubles[] = {
        {.cause = "knob", .fix = "turn-back", .began = 1, .ended = 2},
        {.cause = "knob", .fix = "turn-back", .began = 5, .ended = 6}};
    tt_status status = TT_OK;
    for (int i = 0; i < 40 && status == TT_OK; i++) status = count_a_cured_case(l);
    return status == TT_OK ? tt_learning_site(l, site.book, troubles, 2, -INFINITY) : status;
}

static tt_learning *new_learning(void)
{
    tt_learning *l;
    tt_report *report;
    LOAD(tt_learning_new(&book_file, 1, &l, &report), report);
    tt_report_free(report);
    return l;
}

/* What was counted is not whole where memory ended, so all is counted anew. */
static void learn_from_its_cases(void)
{
    tt_learning *l = new_learning();
    const tt_lesson *lesson;
    tt_status status = count_all_cases(l);
    if (is_again(status)) {
        tt_learning_free(l);
        l = new_learning();
        status = count_all_cases(l);
    }
    assert_int_equal(status, TT_OK);
    tt_learning_unconfirmed(l, true);
    DO(tt_learning_look(l, "2026-11-30T08:00:00Z", &lesson));
    assert_true(lesson->edit_count > 0);
    for (uint32_t i = 0; i < lesson->count; i++) tell(lesson->items[i].proposed);
    for (uint32_t i = 0; i < lesson->edit_count; i++) tell(lesson->edits[i].text);
    tt_learning_free(l);
}

/* The two edits move the case only together, so that each is left out once. */
static void find_who_is_moved(void)
{
    static const char late[] = "usually", rare[] = "rarely";
    char other[sizeof book_text];
    memcpy(other, book_text, sizeof other);
    for (char *at = other; (at = strstr(at, late)) != NULL;) memcpy(at, "seldom ", sizeof rare);
    const tt_source edited = {"book.yaml", other, sizeof book_text - 1};
    const journal_kit *k = &site.days[0];
    const tt_kept_case kept = {"000001A",  site_text, "east", "2026-11-30T08:00:00Z",
                               k->records, k->count,  false};
    const tt_compared *out;
    tt_comparison *x;
    tt_report *one = NULL, *two = NULL;
    tt_status status = tt_comparison_new(&book_file, 1, &edited, 1, &x, &one, &two);
    if (is_again(status)) {
        tt_report_free(one);
        tt_report_free(two);
        status = tt_comparison_new(&book_file, 1, &edited, 1, &x, &one, &two);
    }
    assert_int_equal(status, TT_OK);
    tt_report_free(one);
    tt_report_free(two);
    DO(tt_comparison_case(x, &kept));
    status = tt_comparison_look(x, 3, 4, &out); /* called once */
    if (is_again(status)) {
        tt_comparison_free(x);
        told.length = 0;
        find_who_is_moved();
        return;
    }
    assert_int_equal(status, TT_OK);
    assert_int_equal(out->stored, 1);
    for (uint32_t i = 0; i < out->moved_count; i++) {
        tell(out->moved[i].name);
        for (uint32_t e = 0; e < out->moved[i].edit_count; e++) tell(out->moved[i].edits[e]);
    }
    tt_comparison_free(x);
}

static const deed deeds[] = {
    {"story", tell_its_story},         {"journal", read_a_case_of_it},
    {"good", write_down_what_is_good}, {"json", read_and_write_json},
    {"digits", give_numbers_digits},   {"learn", learn_from_its_cases},
    {"moved", find_who_is_moved},
};

/* ---- what the site's cases say ---- */

static void add_reading(journal_kit *k, const char *question, double number, const char *unit)
{
    kit_add(k, "east", "answer",
            str_printf(k->keep,
                       "{\"question\":\"%s\",\"reply\":{\"kind\":\"number\",\"number\":%g,\"unit\":"
                       "\"%s\"}}",
                       question, number, unit)
                .p);
}

/* Rounds with a gap, and between them a trouble that comes twice. */
static journal_kit case_of_day(arena *keep, int day)
{
    journal_kit k = journal_kit_new(keep);
    k.clock += (int64_t)(day < 5 ? day : day + 3) * 86400000;
    const bool fault = day % 4 == 0;
    kit_add(&k, "east", "begin",
            fault ? "{\"kind\":\"fault\",\"title\":\"Pump room\",\"role\":\"helper\"}"
                  : "{\"kind\":\"round\",\"every\":\"daily\",\"title\":\"Pump room\"}");
    if (fault) kit_add(&k, "east", "complaint", "{\"symptom\":\"weak\",\"text\":\"It is weak\"}");
    add_reading(&k, "air", fault ? 12 : 30 + day, "psi");
    add_reading(&k, "fill", 60 + day, "s");
    if (fault) kit_add(&k, "east", "tried", "{\"fix\":\"turn-back\",\"outcome\":\"gone\"}");
    if (fault) add_reading(&k, "air", 30, "psi");
    kit_add(&k, "east", "close",
            fault ? "{\"how\":\"gone\",\"fix\":\"turn-back\",\"fix_text\":\"Turn the knob back\","
                    "\"cause\":\"knob\",\"cause_text\":\"The knob was turned\"}"
                  : "{\"how\":\"in-order\"}");
    return k;
}

static void fail_at_a_site(bool from_then_on)
{
    arena *keep = test_arena();
    tt_report *report;
    if (tt_book_load_at(&book_file, 1, &site_file, &site.book, &report) != TT_OK)
        fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    assert_int_equal(tt_past_new(&site.past), TT_OK);
    for (int day = 0; day < DAYS; day++) {
        site.days[day] = case_of_day(keep, day);
        assert_int_equal(
            tt_past_add(site.past, "000001A", site.days[day].records, site.days[day].count), TT_OK);
    }
    fail_everywhere(deeds, sizeof deeds / sizeof *deeds, 1000, from_then_on);
    tt_past_free(site.past);
    tt_book_free(site.book);
    arena_free(keep);
}
#else
static void fail_at_a_site(bool from_then_on)
{
    (void)from_then_on;
    skip(); /* the sanitizers' malloc stands before ours */
}
#endif

int main(void)
{
    return ending_memory_tests(fail_at_a_site);
}
