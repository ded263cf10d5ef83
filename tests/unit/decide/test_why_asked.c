/* Why a question is asked, word for word: each reason in its place, and figures worked out by hand.
 */
#include "testing.h"

#include "told_case.h"

static const char lamp[] = "book:\n"
                           "  title: Lamp\n"
                           "  roles: [anybody]\n"
                           "  not-listed: 0 %\n"
                           "  two-faults: 0 %\n"
                           "questions:\n"
                           "  danger: {ask: Danger, about: today, safe: [no]}\n"
                           "  cold: {ask: Cold, about: today}\n"
                           "  dark:\n"
                           "    ask: Is it dark?\n"
                           "    because: Look up.\n"
                           "    takes: 1 min\n"
                           "    read-right: 100 %\n"
                           "  hum:\n"
                           "    ask: Does it hum?\n"
                           "    takes: 40 min\n"
                           "    read-right: 100 %\n"
                           "symptoms:\n"
                           "  is-dark:\n"
                           "    text: It is dark\n"
                           "    when: {dark: yes}\n"
                           "    shown-by: {bulb: 80 %, fuse: 30 %}\n"
                           "    otherwise: 10 %\n"
                           "  hums:\n"
                           "    text: It hums\n"
                           "    when: {hum: yes}\n"
                           "    shown-by: {wire: 50 %}\n"
                           "    otherwise: 10 %\n"
                           "causes:\n"
                           "  bulb: {text: Bulb, how-often: 3}\n"
                           "  wire: {text: Wire, how-often: 1}\n"
                           "  fuse: {text: Fuse, how-often: 1}\n";

static void says(told_case *t, const char *question, const char *const *wanted)
{
    const tt_reason *reasons;
    uint32_t count, at = 0;
    assert_int_equal(tt_why_asked(t->c, told_question(t, question), &reasons, &count), TT_OK);
    for (; wanted[at] != NULL && at < count; at++) {
        assert_string_equal(reasons[at].text, wanted[at]);
        assert_int_equal(reasons[at].for_authors, strncmp(wanted[at], "'", 1) == 0 ||
                                                      strncmp(wanted[at], "Written", 7) == 0);
    }
    assert_null(wanted[at]);
    assert_int_equal(count, at);
}

/* Without a hum: bulb 0.54, wire 0.1, fuse 0.18. Dark then: 0.432, 0.01, 0.054; not dark: 0.108,
 * 0.09, 0.126. */
static void a_question_says_what_each_answer_would_mean(void **state)
{
    (void)state;
    told_case t = told_new(lamp, NULL);
    told_answer(&t, "danger", "no");
    told_answer(&t, "hum", "no");

    const char *const wanted[] = {"Look up.",
                                  told_look(&t)->next.reason,
                                  "If the answer is 'No', the likeliest is: Fuse.",
                                  "'No': Fuse, 39 of 100.",
                                  "If the answer is 'Yes', the likeliest is: Bulb.",
                                  "'Yes': Bulb, 87 of 100.",
                                  "Written in small.yaml:9.",
                                  NULL};
    assert_int_equal(told_look(&t)->next.question, told_question(&t, "dark"));
    says(&t, "dark", wanted);
    told_free(&t);
}

/* Where it is dark: bulb 0.48, wire 0.02, fuse 0.06. No hum then: 0.432, 0.01, 0.054; a hum: 0.048,
 * 0.01, 0.006. */
static void what_changes_no_lead_says_so_once(void **state)
{
    (void)state;
    told_case t = told_new(lamp, NULL);
    told_answer(&t, "danger", "no");
    told_answer(&t, "dark", "yes");
    const char *const wanted[] = {
        told_look(&t)->next.reason,
        "Whatever comes of it, the likeliest stays: Bulb. It shows how sure that is.",
        "'No': Bulb, 87 of 100.",
        "'Yes': Bulb, 75 of 100.",
        "Written in small.yaml:14.",
        NULL};
    says(&t, "hum", wanted);
    told_free(&t);
}

/* One that does not come next has no reason to, and a fact weighs nothing. */
static void what_is_no_evidence_says_so(void **state)
{
    static const char *const fact[] = {"It is a fact that other questions and rules need.",
                                       "Written in small.yaml:8.", NULL};
    static const char *const later[] = {"If the answer is 'No', the likeliest is: Bulb.",
                                        "'No': Bulb, 66 of 100.",
                                        "If the answer is 'Yes', the likeliest is: Wire.",
                                        "'Yes': Wire, 56 of 100.",
                                        "Written in small.yaml:14.",
                                        NULL};
    (void)state;
    told_case t = told_new(lamp, NULL);
    told_answer(&t, "danger", "no");
    says(&t, "cold", fact);
    says(&t, "hum", later); /* no: 0.54 of 0.82; yes: 0.1 of 0.18 */
    const tt_reason *reasons;
    uint32_t count;
    assert_int_equal(tt_why_asked(t.c, 4, &reasons, &count), TT_FAULTY);
    assert_int_equal(count, 0);
    told_free(&t);
}

/* ---- quantities ---- */

static const char belt[] =
    "book: {title: Belt, roles: [anybody], not-listed: 0 %}\n"
    "questions:\n"
    "  danger: {ask: Danger, about: today, safe: [no]}\n"
    "  length: {ask: Length, reading: length, unit: ft}\n"
    "  time: {ask: Time, reading: duration, unit: s, about: today}\n"
    "quantities:\n"
    "  speed:\n"
    "    text: Speed of the belt\n"
    "    formula: length / time\n"
    "    unit: ft/min\n"
    "    usual: 25 to 45 ft/min\n"
    "symptoms:\n"
    "  fast:\n"
    "    text: It is fast\n"
    "    when: {speed: above 45 ft/min}\n"
    "    shown-by: {drive: almost always}\n"
    "causes:\n"
    "  drive: {text: Drive, how-often: common}\n"
    "  worn: {text: Worn, how-often: common}\n"
    "fixes:\n"
    "  slow: {text: Slow, role: anybody, cures: {drive: usually}, takes: 9 min, "
    "harm: none, put-back: not needed}\n";

static void a_reading_says_what_it_is_for(void **state)
{
    (void)state;
    told_case t = told_new(belt, NULL);
    told_answer(&t, "danger", "no");
    const tt_view *v = told_look(&t);
    assert_int_equal(v->next.quantity, told_question(&t, "speed"));
    const tt_reason *reasons;
    uint32_t count;
    assert_int_equal(tt_why_asked(t.c, v->next.question, &reasons, &count), TT_OK);
    assert_int_equal(count, 7);
    assert_string_equal(reasons[1].text, "It is one of the readings for: Speed of the belt.");
    assert_non_null(strstr(reasons[2].text, "If that comes to '"));
    assert_non_null(strstr(reasons[4].text, "45 ft/min"));
    told_free(&t);
}

/* Read long ago, the first reading of a quantity is read again before a fix rests on it. */
static void each_reading_of_a_quantity_speaks_for_the_fix(void **state)
{
    static const char *const both[] = {"length", "time"};
    (void)state;
    for (int i = 0; i < 2; i++) {
        told_case t = told_new(belt, NULL);
        told_answer(&t, "danger", "no");
        told_answer(&t, "length", "30");
        told_answer(&t, "time", "20");
        told_offers(&t, TT_FIX, "slow");
        assert_int_equal(tt_stale(t.c, told_question(&t, both[i])), TT_OK);
        told_asks(&t, both[i], TT_BY_READING);
        assert_string_equal(told_look(&t)->next.reason,
                            "It was answered long ago, and the fix that comes next rests on it.");
        told_free(&t);
    }
}

/* ---- for whoever comes ---- */

/* A spare that is seldom needed is not packed: they would go twice. */
static const char seal[] =
    "book:\n"
    "  title: Seal\n"
    "  roles: [{helper: {authorised: yes}}, {mender: {authorised: yes}}]\n"
    "  not-listed: 0 %\n"
    "questions:\n"
    "  danger: {ask: Danger, about: today, safe: [no]}\n"
    "  drips: {ask: Drips, takes: 1 min, read-right: 100 %}\n"
    "symptoms:\n"
    "  dripping: {text: Drips, when: {drips: yes}, shown-by: {torn: always}, "
    "otherwise: never}\n"
    "causes:\n"
    "  loose: {text: Loose, how-often: 96}\n"
    "  torn: {text: Torn, how-often: 4}\n"
    "fixes:\n"
    "  tighten: {text: Tighten, role: mender, cures: {loose: always}, takes: 20 min, "
    "harm: none, put-back: not needed}\n"
    "  renew: {text: Renew, role: mender, cures: {torn: always}, takes: 40 min, "
    "harm: none, put-back: not needed, parts: [seal]}\n";

static void what_is_asked_for_whoever_comes_says_so(void **state)
{
    (void)state;
    told_case t = told_new(seal, NULL);
    told_answer(&t, "danger", "no");
    told_asks(&t, "drips", TT_BY_BALANCED);
    assert_true(told_look(&t)->next.for_callee);
    assert_string_equal(told_look(&t)->next.reason, "It is asked for whoever comes next.");
    told_free(&t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_question_says_what_each_answer_would_mean),
        cmocka_unit_test(what_changes_no_lead_says_so_once),
        cmocka_unit_test(what_is_no_evidence_says_so),
        cmocka_unit_test(a_reading_says_what_it_is_for),
        cmocka_unit_test(each_reading_of_a_quantity_speaks_for_the_fix),
        cmocka_unit_test(what_is_asked_for_whoever_comes_says_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
