/* Memory ends at every place in turn while the public face serves an author or a learner: a call
 * that says so has changed nothing, is done again once there is memory, and all comes out as if
 * nothing had happened. Nothing is left behind. */
#include "testing.h"

#include <stdio.h>
#include <string.h>

#include "deeds.h"
#include "test_sources.h"

#if OWN_MALLOC
static struct {
    tt_source files[8], edited[8];
    uint32_t count;
} sample;

/* ---- deeds ---- */

static tt_book *loaded(const tt_source *files)
{
    tt_book *book;
    tt_report *report;
    LOAD(tt_book_load(files, sample.count, &book, &report), report);
    tt_report_free(report);
    return book;
}

/* Where memory does not end in loading. */
static tt_book *loaded_first(const tt_source *files)
{
    memory.on = false;
    tt_book *book = loaded(files);
    memory.on = memory.fail_at > 0;
    return book;
}

static void check_a_book(void)
{
    tt_book *book;
    tt_report *report;
    LOAD(tt_book_load(sample.files, sample.count, &book, &report), report);
    DO(tt_book_doubts(book, report));
    tell(tt_report_text(report));
    tt_report_free(report);
    tt_book_free(book);
}

static void try_its_cases(void)
{
    tt_book *book = loaded_first(sample.files);
    tt_trials trials;
    tt_trial one;
    tt_case *c;
    DO(tt_try(book, &trials));
    for (uint32_t i = 0; i < trials.count; i++) {
        tell(trials.items[i].name);
        tell(trials.items[i].why);
        tell_number(trials.items[i].chance);
    }
    DO(tt_try_case(book, 1, &one, &c));
    tell(one.leads);
    tt_case_free(c);
    tt_book_free(book);
}

static void look_which_numbers_are_held(void)
{
    tt_book *book = loaded_first(sample.files);
    tt_holding held;
    DO(tt_numbers_held(book, &held));
    for (uint32_t i = 0; i < held.count; i++) tell(held.items[i].by);
    tt_book_free(book);
}

/* What was counted is not whole where memory ended, so it is played anew. */
static tt_rehearsal *played(const tt_book *book, uint64_t first, uint64_t count)
{
    const tt_rehearsal_options options = {.seed = 3, .role = TT_NONE, .sensitivity = true};
    tt_rehearsal *r;
    DO(tt_rehearsal_new(book, &options, &r));
    const tt_status status = tt_rehearsal_play(r, first, count);
    if (!is_again(status)) {
        assert_int_equal(status, TT_OK);
        return r;
    }
    tt_rehearsal_free(r);
    return played(book, first, count);
}

static void play_made_up_calls(void)
{
    tt_book *book = loaded_first(sample.files);
    tt_rehearsal *one = played(book, 0, 3), *other = played(book, 3, 3);
    const tt_rehearsed *all;
    const uint64_t *words;
    uint32_t count;
    tt_made_call call;
    DO(tt_rehearsal_add(one, other));
    DO(tt_rehearsal_words(one, &words, &count));
    for (uint32_t i = 0; i < count; i++) tell_number((double)words[i]);
    DO(tt_rehearsal_call(one, 5, &call));
    for (uint32_t i = 0; i < call.path_count; i++) tell(call.path[i]);
    DO(tt_rehearsal_look(one, &all));
    tell_number(all->all.minutes.mean);
    tt_rehearsal_free(other);
    tt_rehearsal_free(one);
    tt_book_free(book);
}

/* To its review; memory that ends on the way is told. */
static tt_status lesson(tt_drill *d)
{
    tt_drill_stand s;
    tt_drill_review r;
    const char *seen;
    bool held;
    tt_outcome outcome;
    tt_status status = tt_drill_look_at(d, &s);
    if (status == TT_OK) tell(s.complaint);
    for (int i = 0; status == TT_OK && i < 4; i++) {
        status = tt_drill_ask(d, s.looks[0], &seen);
        if (status == TT_OK) tell(seen);
        if (status == TT_OK) status = tt_drill_look_at(d, &s);
    }
    for (int i = 0; status == TT_OK && i < 2 && s.end == TT_DRILL_GOES_ON; i++) {
        status = tt_drill_try(d, s.fixes[0], &held, &outcome);
        if (status == TT_OK) tell(tt_outcome_name(outcome));
        if (status == TT_OK) status = tt_drill_look_at(d, &s);
    }
    if (status == TT_OK && s.end == TT_DRILL_GOES_ON) status = tt_drill_call(d);
    if (status == TT_OK) status = tt_drill_review_of(d, &r);
    for (uint32_t i = 0; status == TT_OK && i < r.step_count; i++) {
        tell(r.steps[i].text);
        tell(r.steps[i].result);
        tell(r.steps[i].instead);
    }
    for (uint32_t i = 0; status == TT_OK && i < r.engine_path_count; i++) tell(r.engine_path[i]);
    if (status == TT_OK) tell_number(r.engine_minutes);
    return status;
}

/* One in which memory ended begins anew. */
static void take_a_lesson(void)
{
    tt_book *book = loaded_first(sample.files);
    tt_drill *d;
    DO(tt_drill_new(book, &(tt_drill_options){.seed = 8, .role = TT_NONE}, &d));
    tt_status status = lesson(d);
    tt_drill_free(d);
    if (is_again(status)) {
        told.length = 0;
        DO(tt_drill_new(book, &(tt_drill_options){.seed = 8, .role = TT_NONE}, &d));
        status = lesson(d);
        tt_drill_free(d);
    }
    assert_int_equal(status, TT_OK);
    tt_book_free(book);
}

static void compare_two_editions(void)
{
    tt_comparison *x;
    tt_report *one = NULL, *other = NULL;
    const tt_compared *out;
    tt_status status = tt_comparison_new(sample.files, sample.count, sample.edited, sample.count,
                                         &x, &one, &other);
    if (is_again(status)) {
        tt_report_free(one);
        tt_report_free(other);
        status = tt_comparison_new(sample.files, sample.count, sample.edited, sample.count, &x,
                                   &one, &other);
    }
    assert_int_equal(status, TT_OK);
    tt_report_free(one);
    tt_report_free(other);
    status = tt_comparison_look(x, 1, 5, &out); /* called once */
    if (is_again(status)) {
        tt_comparison_free(x);
        compare_two_editions();
        return;
    }
    assert_int_equal(status, TT_OK);
    for (uint32_t i = 0; i < out->edit_count; i++) tell(out->edits[i]);
    for (uint32_t i = 0; i < out->moved_count; i++) {
        tell(out->moved[i].name);
        tell_number(out->moved[i].shift);
        for (uint32_t k = 0; k < out->moved[i].edit_count; k++) tell(out->moved[i].edits[k]);
    }
    tt_comparison_free(x);
}

static void know_cases_of_the_last_edition(void)
{
    tt_book *before = loaded_first(sample.files), *now = loaded_first(sample.edited);
    const tt_case_alike *alike;
    DO(tt_cases_alike(now, before, NULL, &alike));
    for (uint32_t i = 0; tt_worked_case(now, i) != NULL; i++) tell(alike[i].at);
    tt_book_free(now);
    tt_book_free(before);
}

static void make_a_table(void)
{
    tt_table *t;
    tt_report *report;
    const char *bytes;
    size_t length;
    const tt_edit *edits;
    uint32_t count;
    LOAD(tt_table_new(sample.files, sample.count, &t, &report), report);
    tt_report_free(report);
    DO(tt_table_csv(t, &bytes, &length));
    char *copy = __libc_malloc(length + 1);
    memcpy(copy, bytes, length);
    copy[length] = 0;
    tell(copy);
    const tt_source file = {"table.csv", copy, length};
    LOAD(tt_table_read(t, &file, &edits, &count, &report), report);
    assert_int_equal(count, 0);
    tt_report_free(report);
    __libc_free(copy);
    tt_table_free(t);
}

static void make_a_schema(void)
{
    tt_schema *s;
    tt_report *report;
    size_t length;
    LOAD(tt_schema_new(sample.files, sample.count, &s, &report), report);
    tt_report_free(report);
    tell(tt_schema_text(s, &length));
    tt_schema_free(s);
}

static void change_a_name(void)
{
    tt_renaming *r;
    tt_report *report;
    LOAD(tt_rename(sample.files, sample.count, NULL, "pan-empty", "pan-dry", &r, &report), report);
    tt_report_free(report);
    const tt_renamed done = tt_renaming_look(r);
    assert_true(done.edit_count > 1);
    for (uint32_t i = 0; i < done.source_count; i++) tell(done.sources[i].bytes);
    tt_renaming_free(r);
}

static void lead_a_case(void)
{
    tt_book *book = loaded_first(sample.files);
    const tt_origin origin = {book, "r", NULL};
    const tt_view *v;
    const tt_reason *reasons;
    uint32_t count;
    tt_case *c;
    tt_contents all;
    tt_why why;
    tt_turning turning;
    tt_why_fix waits;
    char *json;
    DO(tt_case_new(book, &(tt_options){.role = TT_NONE}, &c));
    DO(tt_book_contents(c, &all));
    for (uint32_t i = 0; i < all.causes.count; i++) tell(all.causes.items[i].text);
    const uint32_t danger = tt_question_find(book, "danger"),
                   look = tt_question_find(book, "dough-look"),
                   beads = tt_question_find(book, "glass-beads");
    DO(tt_answer(c, danger, &(tt_reply){.kind = TT_ANSWER, .option = 0}));
    DO(tt_complain(c, tt_symptom_find(book, "stays-small")));
    DO(tt_why_asked(c, look, &reasons, &count));
    for (uint32_t i = 0; i < count; i++) tell(reasons[i].text);
    DO(tt_answer(c, look, &(tt_reply){.kind = TT_ANSWER, .option = 1}));
    DO(tt_answer(c, beads, &(tt_reply){.kind = TT_UNSURE}));
    DO(tt_look(c, &v));
    DO(tt_why_cause(c, 0, TT_NONE, &why));
    DO(tt_what_turns(c, 0, 1, &turning));
    for (uint32_t i = 0; i < turning.pivot_count; i++) tell(turning.pivots[i].text);
    uint32_t wait = 0;
    for (uint32_t f = 0; f < 6; f++) {
        tt_status status = tt_why_fix_waits(c, f, &waits);
        if (is_again(status)) status = tt_why_fix_waits(c, f, &waits);
        assert_true(status == TT_OK || status == TT_NOT_NOW); /* it comes first */
        if (status == TT_OK) tell(waits.reason);
        wait += status == TT_OK;
    }
    assert_true(wait > 0);
    DO(tt_standing_why_json(&origin, c, &json));
    tell(json);
    free(json);
    DO(tt_fix_tried(c, tt_fix_find(book, "fill-pan"), TT_NO_CHANGE));
    DO(tt_undo(c));
    DO(tt_retract(c, beads));
    DO(tt_standing_json(&origin, c, &json));
    tell(json);
    free(json);
    tt_case_free(c);
    tt_book_free(book);
}

/* ---- memory ends ---- */

static const deed deeds[] = {
    {"check", check_a_book},
    {"try", try_its_cases},
    {"held", look_which_numbers_are_held},
    {"rehearse", play_made_up_calls},
    {"drill", take_a_lesson},
    {"compare", compare_two_editions},
    {"alike", know_cases_of_the_last_edition},
    {"table", make_a_table},
    {"schema", make_a_schema},
    {"rename", change_a_name},
    {"case", lead_a_case},
};

static void edit(arena *keep)
{
    uint32_t edits = 0;
    for (uint32_t i = 0; i < sample.count; i++) {
        const str all = {sample.files[i].bytes, sample.files[i].length};
        const size_t at = str_find(all, STR("usually"));
        sample.edited[i] = sample.files[i];
        if (at == SIZE_MAX || edits++ > 0) continue;
        const str made = str_printf(keep, "%.*sseldom%.*s", STR_ARG(str_slice(all, 0, at)),
                                    STR_ARG(str_slice(all, at + 7, all.n)));
        sample.edited[i] = (tt_source){sample.files[i].name, made.p, made.n};
    }
    assert_true(edits > 0);
}

static void read_sample(arena *keep)
{
    const file_names names = files_ending(keep, TT_SOURCE_DIR "/cli/sample", ".yaml");
    for (size_t i = 0; i < names.count; i++) {
        const str text = file_bytes(
            keep, str_printf(keep, TT_SOURCE_DIR "/cli/sample/%.*s", STR_ARG(names.items[i])).p);
        sample.files[i] = (tt_source){str_copy(keep, names.items[i]).p, text.p, text.n};
    }
    sample.count = (uint32_t)names.count;
    edit(keep);
}

static void fail_with_a_book(bool from_then_on)
{
    arena *keep = test_arena();
    read_sample(keep);
    fail_everywhere(deeds, sizeof deeds / sizeof *deeds, 100, from_then_on);
    arena_free(keep);
}
#else
static void fail_with_a_book(bool from_then_on)
{
    (void)from_then_on;
    skip(); /* the sanitizers' malloc stands before ours */
}
#endif

int main(void)
{
    return ending_memory_tests(fail_with_a_book);
}
