/* Memory ends at every place in turn while a case is led and everything is asked of it that can be:
 * what says so has changed nothing, is done again, and all stands as if nothing had happened. */
#include "testing.h"

#include "book_folder.h"
#include "deeds.h"

#if OWN_MALLOC
static tt_book *book;

/* Done again where memory ended; what came of it is told, whatever it was. */
#define TRY(call) \
    do { \
        tt_status tried_ = (call); \
        if (is_again(tried_)) tried_ = (call); \
        assert_int_not_equal(tried_, TT_NO_MEMORY); \
        tell_number(tried_); \
    } while (0)

/* ---- everything that can be asked ---- */

static void look_at_questions_and_fixes(tt_case *c)
{
    const tt_book_info info = tt_book_describe(book);
    tt_question q;
    tt_walked w;
    tt_fix_plan plan;
    for (uint32_t i = 0; i < info.questions; i++) {
        DO(tt_question_show(c, i, &q));
        tell(q.ask);
        DO(tt_good_look(c, i, &w));
        tell(w.good_text);
    }
    for (uint32_t i = 0; i < info.fixes; i++) {
        DO(tt_fix_show(c, i, &plan));
        tell(plan.text);
    }
}

static void look_at_lists(tt_case *c)
{
    const tt_tried *tried;
    const tt_spare *spares;
    const tt_against *against;
    const tt_walked *walked;
    const tt_reckoned *reckoned;
    uint32_t count;
    DO(tt_tried_fixes(c, &tried, &count));
    for (uint32_t i = 0; i < count; i++) tell(tried[i].put_back);
    DO(tt_spare_parts(c, &spares, &count));
    for (uint32_t i = 0; i < count; i++) tell(spares[i].text);
    DO(tt_spoken_against(c, &against, &count));
    for (uint32_t i = 0; i < count; i++) tell(against[i].text);
    DO(tt_walk_look(c, &walked, &count));
    for (uint32_t i = 0; i < count; i++) tell(walked[i].name);
    DO(tt_over_time_look(c, &reckoned, &count));
    for (uint32_t i = 0; i < count; i++) tell(reckoned[i].why);
}

static void look_at_the_whole(tt_case *c)
{
    const tt_view *v;
    tt_book_info info;
    tt_contents all;
    tt_emergency e;
    const tt_picture *picture;
    DO(tt_look(c, &v));
    for (uint32_t i = 0; i < v->cause_count; i++) tell_number(v->causes[i].chance);
    for (uint32_t i = 0; i < v->fix_count; i++) tell(v->fixes[i].text);
    for (uint32_t i = 0; i < v->caution_count; i++) tell(v->cautions[i].text);
    DO(tt_case_describe(c, &info));
    tell(info.title);
    DO(tt_book_picture(c, &picture));
    DO(tt_book_contents(c, &all));
    for (uint32_t i = 0; i < all.emergency_count; i++) {
        DO(tt_emergency_show(c, all.emergencies[i], &e));
        tell(e.name);
    }
}

static void look_why(tt_case *c)
{
    const tt_origin origin = {book, "r", NULL};
    tt_why_fix waits;
    tt_turning turning;
    char *json;
    TRY(tt_why_fix_waits(c, TT_NONE, &waits));
    TRY(tt_what_turns(c, 0, TT_NONE, &turning));
    DO(tt_standing_why_json(&origin, c, &json));
    tell(json);
    free(json);
}

static void look_at_all(tt_case *c)
{
    look_at_the_whole(c);
    look_at_lists(c);
}

/* ---- a case ---- */

static void type(tt_case *c, const char *question, const char *words)
{
    tt_reply reply;
    const char *why;
    const uint32_t q = tt_question_find(book, question);
    TRY(tt_reply_read(c, q, words, &reply, &why));
    tell(why);
    tt_status status = tt_reply_read(c, q, words, &reply, &why);
    if (is_again(status)) status = tt_reply_read(c, q, words, &reply, &why);
    if (status == TT_OK && *why == 0) TRY(tt_answer(c, q, &reply));
}

static tt_case *opened(void)
{
    tt_case *c;
    const tt_options options = {.role = TT_NONE, .language = "es"};
    DO(tt_case_new(book, &options, &c));
    return c;
}

static void lead_a_case(void)
{
    tt_case *c = opened();
    DO(tt_complain_somewhere(c, tt_symptom_find(book, "short-cycling")));
    type(c, "tank-gauge", "3 bar");
    type(c, "tank-gauge", "much");
    type(c, "flow", "trickle");
    look_at_all(c);
    TRY(tt_recheck(c));
    TRY(tt_danger_said(c));
    look_at_all(c);
    TRY(tt_sitting(c));
    for (uint32_t q = 0; q < tt_book_describe(book).questions; q++) {
        tt_question shown;
        DO(tt_question_show(c, q, &shown));
        if (shown.gate) TRY(tt_answer(c, q, &(tt_reply){.kind = TT_ANSWER, .option = 0}));
    }
    look_at_all(c);
    tt_case_free(c);
}

static void try_what_may_help(void)
{
    tt_case *c = opened();
    DO(tt_no_complaint(c));
    for (uint32_t f = 0; f < 3; f++) {
        TRY(tt_fix_tried(c, f, f == 1 ? TT_GONE : TT_NO_CHANGE));
        TRY(tt_put_back(c, f));
        TRY(tt_left_so(c, f));
        TRY(tt_came_back(c, f));
    }
    look_at_all(c);
    TRY(tt_unsettled(c, 0));
    TRY(tt_stale(c, 1));
    TRY(tt_unsettled_fix(c, 0));
    TRY(tt_undo(c));
    look_at_all(c);
    tt_case_free(c);
}

static void read_all_of_it(void)
{
    tt_case *c = opened();
    look_at_questions_and_fixes(c);
    look_why(c);
    tt_case_free(c);
}

static void answer_from_a_file(void)
{
    static const char good[] = "answers: {flow: trickle, tank-gauge: 1 bar}\n",
                      bad[] = "answers: {flow: much, tank-gage: 1 bar}\n";
    const tt_source files[] = {{"a.yaml", good, sizeof good - 1}, {"b.yaml", bad, sizeof bad - 1}};
    tt_case *c = opened();
    for (int i = 0; i < 2; i++) {
        tt_report *report;
        tt_status status = tt_answers_load(c, &files[i], &report);
        if (is_again(status)) {
            tt_report_free(report);
            status = tt_answers_load(c, &files[i], &report);
        }
        assert_int_equal(status, i == 0 ? TT_OK : TT_FAULTY);
        tell(tt_report_text(report));
        tt_report_free(report);
    }
    look_at_all(c);
    tt_case_free(c);
}

/* ---- words ---- */

static void hear_words(void)
{
    static const char *const words[] = {"it is short cycling", "hardly any water at the tap",
                                        "it smells of gas", "help me"};
    tt_complaint *all;
    tt_overheard heard;
    uint32_t count;
    DO(tt_complaints(book, &all, &count));
    for (uint32_t i = 0; i < count; i++) tell(all[i].text);
    free(all);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        DO(tt_complaints_heard(book, words[i], &all, &count));
        for (uint32_t k = 0; k < count; k++) tell(all[k].text);
        free(all);
        DO(tt_overhear(book, words[i], i % 2 == 0, &heard));
    }
}

static const deed deeds[] = {
    {"lead", lead_a_case},           {"tried", try_what_may_help}, {"read", read_all_of_it},
    {"answers", answer_from_a_file}, {"words", hear_words},
};

static void fail_in_a_case(bool from_then_on)
{
    book = book_folder("tests/cli/filtered-well");
    fail_everywhere(deeds, sizeof deeds / sizeof *deeds, 1500, from_then_on);
    tt_book_free(book);
}
#else
static void fail_in_a_case(bool from_then_on)
{
    (void)from_then_on;
    skip(); /* the sanitizers' malloc stands before ours */
}
#endif

int main(void)
{
    return ending_memory_tests(fail_in_a_case);
}
