/* The engine that a page carries, as the program's own machine runs it: a conversation over texts,
 * what storage loses, and what no page would send. The page's own module is held against the
 * program in tests/pages. */
#include "testing.h"

#include <jansson.h>
#include <stdbool.h>
#include <stdlib.h>

#include "host/exits.h"
#include "page/page_engine.h"
#include "shipped_books.h"
#include "summary/record_line.h"
#include "test_sources.h"

#define BOOK TT_SOURCE_DIR "/tests/cli/filtered-well"
#define SITE TT_SOURCE_DIR "/tests/cli/filtered-well-sites/cottage.yaml"
#define CASE "019c0000-0000-7000-8000-00000000000"

/* A page, and what it would hold: the lines of a case. */
typedef struct page {
    page_engine *engine;
    json_t *said, *turn, *lines;
} page;

static void take_said(page *p)
{
    json_decref(p->said);
    json_decref(p->turn);
    p->turn = NULL;
    p->said = json_loads(page_said(p->engine), 0, NULL);
    assert_true(json_is_object(p->said));
    const char *line = json_string_value(json_object_get(p->said, "turn"));
    if (line == NULL) return;
    p->turn = json_loads(line, 0, NULL);
    assert_true(json_is_object(p->turn));
}

static json_t *book_setup(json_t *site)
{
    arena *keep = test_arena();
    const sources all = files_of_book(keep, BOOK);
    json_t *files = json_array();
    for (size_t i = 0; i < all.count; i++)
        json_array_append_new(files, json_pack("{s:s, s:s%}", "name", all.items[i].name.p, "text",
                                               all.items[i].bytes.p, all.items[i].bytes.n));
    json_t *setup = json_pack("{s:s, s:s, s:o, s:b, s:o}", "folder", "filtered-well", "revision",
                              "r1", "files", files, "practice", json_is_null(site), "site", site);
    arena_free(keep);
    return setup;
}

static json_t *cottage(void)
{
    arena *keep = test_arena();
    const str text = file_bytes(keep, SITE);
    json_t *site = json_pack("{s:s, s:n, s:s, s:s%}", "name", "cottage.yaml", "path", "revision",
                             "s1", "text", text.p, text.n);
    arena_free(keep);
    return site;
}

/* Takes the setup over. */
static page page_of(json_t *setup)
{
    char *text = json_dumps(setup, 0);
    page p = {.engine = page_open(text, strlen(text)), .lines = json_array()};
    take_said(&p);
    free(text);
    json_decref(setup);
    return p;
}

static void page_end(page *p)
{
    page_close(p->engine);
    json_decref(p->said);
    json_decref(p->turn);
    json_decref(p->lines);
}

typedef void page_call(page_engine *, const char *, size_t);

/* Takes the value over. */
static void call(page *p, page_call *which, json_t *value)
{
    char *text = json_dumps(value, 0);
    which(p->engine, text, strlen(text));
    take_said(p);
    free(text);
    json_decref(value);
}

static void begin(page *p, const char *id, const char *how, bool kept)
{
    call(p, page_begin,
         json_pack("{s:s, s:s, s:s, s:s, s:s, s:s?, s:s, s:b, s:b, s:O}", "case", id, "writer",
                   "phone1", "now", "2026-11-29T09:00:00+01:00", "by", "somebody", "on", "page",
                   "how", how, "language", "en", "telephone", false, "kept", kept, "records",
                   p->lines));
}

/* As keep.js does: lines are held, and kept or not. */
static void keep_all(page *p, bool kept)
{
    while (p->turn == NULL) {
        assert_true(json_array_size(json_object_get(p->said, "keep")) > 0);
        json_array_extend(p->lines, json_object_get(p->said, "keep"));
        page_kept(p->engine, kept);
        take_said(p);
    }
}

static void hear(page *p, json_t *reply)
{
    call(p, page_hear, reply);
    keep_all(p, true);
}

static const char *said(const page *p, const char *key)
{
    const char *text = json_string_value(json_object_get(p->said, key));
    return text != NULL ? text : "";
}

static const char *turn_says(const page *p, const char *key)
{
    const char *text = json_string_value(json_object_get(p->turn, key));
    return text != NULL ? text : "";
}

static const char *wrong_code(const page *p)
{
    const char *code =
        json_string_value(json_object_get(json_object_get(p->turn, "wrong"), "code"));
    return code != NULL ? code : "";
}

static void assert_hears_wrong(page *p, page_call *which, const char *text, const char *wrong)
{
    which(p->engine, text, strlen(text));
    take_said(p);
    if (strstr(said(p, "wrong"), wrong) == NULL) fail_msg("%s", said(p, "wrong"));
    assert_null(p->turn);
}

/* ---- ---- */

static void a_book_is_described(void **state)
{
    (void)state;
    page p = page_of(book_setup(json_null()));
    assert_string_equal(said(&p, "title"), "House well and filters");
    assert_string_equal(said(&p, "site"), ""); /* practice: no site is named */
    assert_string_equal(said(&p, "language"), "en");
    assert_int_equal(json_array_size(json_object_get(p.said, "tongues")), 2);
    page_end(&p);
    p = page_of(book_setup(cottage()));
    assert_string_equal(said(&p, "site"), "The cottage");
    page_end(&p);
}

static void what_can_not_be_opened_is_said(void **state)
{
    static const char no_json[] = "{\"folder\": ";
    (void)state;
    page p = {.engine = page_open(no_json, sizeof no_json - 1)};
    take_said(&p);
    assert_true(strlen(said(&p, "wrong")) > 0);
    page_end(&p);

    json_t *setup = book_setup(json_null());
    json_t *files = json_object_get(setup, "files");
    json_array_append_new(files,
                          json_pack("{s:s, s:s}", "name", "odd.yaml", "text", "causes: 3\n"));
    p = page_of(setup);
    assert_non_null(strstr(said(&p, "wrong"), "odd.yaml:1:"));
    page_end(&p);

    /* a site without a name of its own, with a fault */
    p = page_of(book_setup(json_pack("{s:s}", "text", "site: [\n")));
    assert_non_null(strstr(said(&p, "wrong"), "site:"));
    page_end(&p);
}

static void a_case_is_kept_and_taken_up_again(void **state)
{
    (void)state;
    page p = page_of(book_setup(cottage()));
    begin(&p, CASE "1", NULL, true);
    assert_string_equal(turn_says(&p, "kind"), "danger");
    assert_int_equal(json_array_size(json_object_get(p.said, "keep")), 0); /* nothing was said */
    assert_true(json_is_null(json_object_get(p.turn, "case")));
    assert_non_null(json_object_get(json_object_get(p.said, "words"), "danger"));
    hear(&p,
         json_pack("{s:i, s:s, s:s}", "turn", 1, "choice", "no", "now", "2026-11-29T08:01:00Z"));
    assert_string_equal(turn_says(&p, "kind"), "complaint");
    assert_string_equal(turn_says(&p, "case"), said(&p, "number"));
    hear(&p, json_pack("{s:s}", "choice", "short-cycling"));
    assert_string_equal(turn_says(&p, "kind"), "review");
    char *number = strdup(said(&p, "number")), *prompt = strdup(turn_says(&p, "prompt"));

    /* the moment that a reply named is that of its records, and stays until another comes */
    const char *line = json_string_value(json_array_get(p.lines, json_array_size(p.lines) - 1));
    assert_non_null(strstr(line, "2026-11-29T08:01:00Z"));

    const size_t before = json_array_size(p.lines);
    begin(&p, CASE "1", "resume", true);
    keep_all(&p, true);
    assert_true(json_array_size(p.lines) > before); /* that it was taken up is a record */
    assert_int_equal(json_integer_value(json_object_get(p.said, "left_out")), 0);
    assert_string_equal(turn_says(&p, "kind"), "danger"); /* first, whoever takes it up */
    assert_string_equal(said(&p, "number"), number);
    hear(&p, json_pack("{s:s}", "choice", "no"));
    assert_string_equal(turn_says(&p, "prompt"), prompt);
    free(number);
    free(prompt);
    page_end(&p);
}

/* Each line names the one before by its hash, also over a case that was taken up. */
static void lines_are_a_chain(void **state)
{
    (void)state;
    page p = page_of(book_setup(cottage()));
    begin(&p, CASE "2", NULL, true);
    hear(&p, json_pack("{s:s}", "choice", "no"));
    begin(&p, CASE "2", "resume", true);
    keep_all(&p, true);
    hear(&p, json_pack("{s:s}", "choice", "short-cycling"));
    const size_t count = json_array_size(p.lines);
    assert_true(count >= 3);
    char hash[LINE_HASH_SIZE] = "";
    for (size_t i = 0; i < count; i++) {
        const char *line = json_string_value(json_array_get(p.lines, i));
        json_t *record = json_loads(line, 0, NULL);
        assert_string_equal(json_string_value(json_object_get(record, "before")), hash);
        assert_string_equal(json_string_value(json_object_get(record, "writer")), "phone1");
        assert_int_equal(json_integer_value(json_object_get(record, "seq")), (json_int_t)i + 1);
        line_hash(line, strlen(line), hash);
        json_decref(record);
    }
    page_end(&p);
}

/* What is no record of this case is counted, and the rest is read. */
static void lines_that_are_damaged_are_left_out(void **state)
{
    (void)state;
    page p = page_of(book_setup(cottage()));
    begin(&p, CASE "3", NULL, true);
    hear(&p, json_pack("{s:s}", "choice", "no"));
    json_array_append_new(p.lines, json_string("{\"torn\":"));
    json_array_append_new(p.lines, json_integer(7));
    begin(&p, CASE "3", "resume", true);
    assert_int_equal(json_integer_value(json_object_get(p.said, "left_out")), 2);
    keep_all(&p, true);
    hear(&p, json_pack("{s:s}", "choice", "no"));
    assert_string_equal(turn_says(&p, "kind"), "complaint");

    /* in another case all of them are strangers: it begins from nothing */
    begin(&p, CASE "4", NULL, true);
    assert_true(json_integer_value(json_object_get(p.said, "left_out")) >= 3);
    keep_all(&p, true);
    assert_string_equal(turn_says(&p, "kind"), "danger");
    page_end(&p);
}

/* Danger is asked about first, whoever takes it up. */
static void take_up(page *p, const char *id)
{
    begin(p, id, "resume", true);
    keep_all(p, true);
    assert_string_equal(turn_says(p, "kind"), "danger");
    hear(p, json_pack("{s:s}", "choice", "no"));
}

/* Storage that fails loses no word of what was said: it goes on in this talk, and each turn tells.
 */
static void what_storage_loses_is_said(void **state)
{
    (void)state;
    page p = page_of(book_setup(cottage()));
    begin(&p, CASE "5", NULL, true);
    hear(&p, json_pack("{s:s}", "choice", "no"));
    json_t *stored = json_deep_copy(p.lines);
    call(&p, page_hear, json_pack("{s:s}", "choice", "short-cycling"));
    assert_null(p.turn);
    keep_all(&p, false);
    assert_string_equal(wrong_code(&p), "not-kept");
    assert_string_equal(turn_says(&p, "kind"), "review");

    /* from what the page holds in its hand, all of it is there */
    take_up(&p, CASE "5");
    assert_string_equal(turn_says(&p, "kind"), "review");
    assert_string_equal(wrong_code(&p), "");

    /* from what was stored, that answer is missing, and is asked for once more */
    json_decref(p.lines);
    p.lines = stored;
    take_up(&p, CASE "5");
    assert_string_equal(turn_says(&p, "kind"), "complaint");
    page_end(&p);
}

/* Where nothing can be kept nothing is asked for, and the turn comes at once. */
static void a_case_that_is_not_kept_has_no_lines(void **state)
{
    (void)state;
    page p = page_of(book_setup(json_null()));
    begin(&p, CASE "6", NULL, false);
    call(&p, page_hear, json_pack("{s:s}", "choice", "no"));
    assert_string_equal(turn_says(&p, "kind"), "complaint");
    assert_int_equal(json_array_size(json_object_get(p.said, "keep")), 0);
    assert_true(json_is_null(json_object_get(p.turn, "case")));
    page_end(&p);
}

/* The turn stands, with what was wrong; its number stays. */
static void a_reply_that_is_none_changes_nothing(void **state)
{
    static const char *const odd[] = {"",
                                      "7",
                                      "[]",
                                      "{\"choice\":",
                                      "{\"choice\":\"no-such\"}",
                                      "{\"turn\":9,\"choice\":\"no\"}",
                                      "{\"answer\":3}",
                                      "{\"choice\":\"no\",\"extra\":1}"};
    (void)state;
    page p = page_of(book_setup(cottage()));
    begin(&p, CASE "7", NULL, true);
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        page_hear(p.engine, odd[i], strlen(odd[i]));
        take_said(&p);
        assert_string_not_equal(wrong_code(&p), "");
        assert_string_equal(turn_says(&p, "kind"), "danger");
        assert_int_equal(json_integer_value(json_object_get(p.turn, "turn")), 1);
        assert_int_equal(json_array_size(json_object_get(p.said, "keep")), 0);
    }
    page_end(&p);
}

static void a_call_that_ends_tells_how(void **state)
{
    (void)state;
    page p = page_of(book_setup(cottage()));
    begin(&p, CASE "8", NULL, true);
    hear(&p, json_pack("{s:s}", "choice", "no"));
    hear(&p, json_pack("{s:s}", "word", "stop"));
    assert_string_equal(turn_says(&p, "kind"), "end");
    assert_int_equal(json_integer_value(json_object_get(p.turn, "status")), EXIT_UNFINISHED);

    call(&p, page_summary, json_pack("{s:s, s:O}", "case", CASE "8", "records", p.lines));
    assert_string_equal(said(&p, "state"), "open");
    assert_string_equal(said(&p, "site"), "The cottage");
    call(&p, page_summary, json_pack("{s:s}", "case", CASE "9"));
    assert_string_equal(said(&p, "state"), "unreadable"); /* there is nothing of it */
    page_end(&p);
}

static void what_is_no_case_is_said(void **state)
{
    (void)state;
    page p = page_of(book_setup(cottage()));
    assert_hears_wrong(&p, page_begin, "{", "ends too soon");
    assert_hears_wrong(&p, page_begin, "{\"case\":\"000001A\"}", "no case");
    assert_hears_wrong(&p, page_begin, "{}", "no case");
    assert_hears_wrong(&p, page_begin, "{\"case\":\"" CASE "1\",\"role\":\"no-such\"}",
                       "can't be begun");
    assert_hears_wrong(&p, page_summary, "{\"case\":null}", "no case");
    assert_hears_wrong(&p, page_summary, "nothing", "not JSON");
    assert_hears_wrong(&p, page_texts, "{]", "not JSON");
    begin(&p, CASE "1", NULL, true); /* and it goes on after all that */
    assert_string_equal(turn_says(&p, "kind"), "danger");
    page_end(&p);
}

static void our_words_are_in_each_language(void **state)
{
    (void)state;
    page p = page_of(book_setup(json_null()));
    call(&p, page_texts, json_pack("{s:s}", "language", "en"));
    char *english = strdup(said(&p, "PAGE_DANGER"));
    assert_true(strlen(english) > 0);
    assert_true(json_object_size(json_object_get(p.said, "touched")) >= 8);
    call(&p, page_texts, json_pack("{s:s}", "language", "es"));
    assert_string_not_equal(said(&p, "PAGE_DANGER"), english);
    call(&p, page_texts, json_object()); /* none named: ours */
    assert_string_equal(said(&p, "PAGE_DANGER"), english);
    free(english);
    page_end(&p);
}

static void nothing_is_closed_without_harm(void **state)
{
    (void)state;
    page_close(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_book_is_described),
        cmocka_unit_test(what_can_not_be_opened_is_said),
        cmocka_unit_test(a_case_is_kept_and_taken_up_again),
        cmocka_unit_test(lines_are_a_chain),
        cmocka_unit_test(lines_that_are_damaged_are_left_out),
        cmocka_unit_test(what_storage_loses_is_said),
        cmocka_unit_test(a_case_that_is_not_kept_has_no_lines),
        cmocka_unit_test(a_reply_that_is_none_changes_nothing),
        cmocka_unit_test(a_call_that_ends_tells_how),
        cmocka_unit_test(what_is_no_case_is_said),
        cmocka_unit_test(our_words_are_in_each_language),
        cmocka_unit_test(nothing_is_closed_without_harm),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
