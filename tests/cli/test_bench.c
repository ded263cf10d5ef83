/* bench: each save is answered. Nothing here waits for a time: the bench says when it waits, and
 * only then is saved. */
#include <signal.h>

#include "run_telltale.h"
#include "window.h"

static const char waits[] = "Waiting for the next save; Ctrl-C ends.\n";

static void fresh_book(void)
{
    assert_int_equal(
        sh("rm -rf book && cp -r '" TT_SOURCE_DIR "/cli/sample' book && rm -f book/*.cmake"), 0);
}

static window *open_bench_with(const char *option, const char *file)
{
    const char *words[] = {"bench", "book", option, file, NULL};
    window *w = window_open(&(window_plan){.words = words});
    window_await(w, waits);
    return w;
}

static window *open_bench(const char *into)
{
    return open_bench_with(into != NULL ? "--into" : NULL, into);
}

static void end(window *w)
{
    window_signal(w, SIGTERM);
    window_await_end(w);
    assert_int_equal(window_close(w), 128 + SIGTERM);
}

/* As most editors save: beside, and moved into its place. */
static void save(const char *edit, const char *file)
{
    assert_int_equal(sh("sed '%s' book/%s >book/%s.new && ! cmp -s book/%s book/%s.new && mv "
                        "book/%s.new book/%s",
                        edit, file, file, file, file, file, file),
                     0);
}

static void the_book_is_told_as_it_is_found(void **state)
{
    (void)state;
    fresh_book();
    window *w = open_bench(NULL);
    assert_non_null(strstr(window_text(w), "No faults."));
    assert_non_null(strstr(window_text(w), "Cases: 10 of 10 came out as expected."));
    assert_null(strstr(window_text(w), "moved"));
    end(w);
}

static void a_save_says_what_moved(void **state)
{
    (void)state;
    fresh_book();
    window *w = open_bench(NULL);
    save("s/{pan-empty: almost always, door-leaks: [a-z ]*}/{door-leaks: almost always}/",
         "signs.yaml");
    window_await(w, "Save 1");
    window_await(w, "Cases: 8 of 10 came out as expected.");
    window_await(w, "pan-after-cleaning (cases.yaml:");
    window_await(w, "What has moved since the last save:");
    window_await(w, "pan-after-cleaning: The water pan is empty led with");
    window_await(w, "now The seal of the door is torn or flat with");
    window_await(w, "now not as expected");
    window_await(w, waits);
    end(w);
}

static void a_comment_moves_nothing(void **state)
{
    (void)state;
    fresh_book();
    window *w = open_bench(NULL);
    assert_int_equal(sh("echo '# a word' >>book/signs.yaml"), 0);
    window_await(w, "Nothing has moved since the last save.");
    window_await(w, waits);
    end(w);
}

/* What a colleague would ask is part of what check says, also about a book with errors. */
static void doubts_are_told(void **state)
{
    (void)state;
    fresh_book();
    window *w = open_bench(NULL);
    save("s/when: {paper-held: no}/when: {paper-held: [no, yes]}/", "signs.yaml");
    window_await(w, "warning:");
    window_await(w, "[T9");
    window_await(w, waits);
    assert_null(strstr(strstr(window_text(w), "Save 1"), "No faults."));
    save("s/how-often: very common/how-often: very comon/", "causes.yaml");
    window_await(w, "Did you mean 'very common'?");
    window_await(w, "[T9");
    window_await(w, waits);
    end(w);
}

/* What moved is told against the last book that could be played. */
static void errors_are_told_and_the_cases_wait(void **state)
{
    (void)state;
    fresh_book();
    window *w = open_bench(NULL);
    save("s/how-often: very common/how-often: very comon/", "causes.yaml");
    window_await(w, "causes.yaml:6:16: error:");
    window_await(w, "Did you mean 'very common'?");
    window_await(w, "The cases can't be played before the errors are mended.");
    window_await(w, waits);
    save("s/very comon/uncommon/", "causes.yaml");
    window_await(w, "Save 2");
    window_await(w, "No faults.");
    window_await(w, "pan-after-cleaning");
    window_await(w, waits);
    end(w);
}

static void files_and_folders_come_and_go(void **state)
{
    (void)state;
    fresh_book();
    window *w = open_bench(NULL);
    assert_int_equal(sh("rm book/cases.yaml"), 0);
    window_await(w, "Cases: 0 of 0 came out as expected.");
    window_await(w, "smoke is there no longer");
    window_await(w, waits);
    assert_int_equal(sh("mkdir new && printf 'cases:\\n  one:\\n    complaint: dry-skin\\n    "
                        "expect: {leading-cause: pan-empty}\\n' "
                        ">new/more.yaml && mv new book/more"),
                     0);
    window_await(w, "one, new: The water pan is empty leads with");
    window_await(w, waits);
    assert_int_equal(sh("sed -i s/pan-empty/dial-low/ book/more/more.yaml"), 0);
    window_await(w, "Cases: 0 of 1 came out as expected.");
    window_await(w, waits);
    end(w);
}

/* What an editor leaves beside a file is none of the book. */
static void other_files_are_no_saves(void **state)
{
    (void)state;
    fresh_book();
    window *w = open_bench(NULL);
    assert_int_equal(
        sh("echo x >book/notes.txt; echo x >book/.signs.yaml.swp; echo x >book/.hidden.yaml"), 0);
    assert_int_equal(sh("echo '# a word' >>book/signs.yaml"), 0);
    window_await(w, "Save 1");
    window_await(w, waits);
    assert_null(strstr(window_text(w), "Save 2"));
    end(w);
}

static void the_page_is_written_anew(void **state)
{
    (void)state;
    fresh_book();
    assert_int_equal(sh("rm -f bench.html"), 0);
    window *w = open_bench("bench.html");
    assert_holds("bench.html", "<h1>Bench: Proving cabinet</h1>");
    assert_holds("bench.html", "10 of 10");
    save("s/text: Fill the water pan/txt: Fill the water pan/", "causes.yaml");
    window_await(w, waits);
    assert_holds("bench.html", "error T");
    save("s/txt: Fill the water pan/text: Fill the pan/", "causes.yaml");
    window_await(w, waits);
    assert_holds("bench.html", "Nothing has moved since the last save.");
    end(w);
}

static void what_is_no_book_is_named(void **state)
{
    (void)state;
    assert_int_equal(sh("$T bench ./nowhere 2>err"), 66);
    assert_holds("err", "./nowhere: there is no such folder");
    assert_int_equal(sh("$T bench '" TT_SOURCE_DIR "/cli/sample' --overwrite 2>err"), 2);
    assert_int_equal(sh("$T bench '" TT_SOURCE_DIR "/cli/sample' --into - 2>err"), 2);
    assert_int_equal(sh("echo mine >mine.html; $T bench '" TT_SOURCE_DIR
                        "/cli/sample' --into mine.html >out 2>err"),
                     73);
}

/* It is written after the answer, so it is there once the next save is answered. */
static void the_schema_for_editors_is_kept_fresh(void **state)
{
    (void)state;
    fresh_book();
    assert_int_equal(sh("rm -f book.schema.json"), 0);
    window *w = open_bench_with("--schema", "book.schema.json");
    save("s/pan-empty/pan-is-dry/g", "causes.yaml"); /* elsewhere it is missing: no book */
    window_await(w, "Save 1");
    window_await(w, "error");
    assert_holds("book.schema.json", "\"pan-empty\"");
    assert_int_equal(
        sh("for f in book/*.yaml; do sed 's/pan-empty/pan-is-dry/g' $f >book/new && mv "
           "book/new $f; done"),
        0);
    window_await(w, "No faults.");
    /* It comes after the answer, and of the files as they are then. */
    assert_int_equal(sh("until grep -q '\"pan-is-dry\"' book.schema.json; do :; done"), 0);
    save("s/pan-is-dry/pan-gone/g", "causes.yaml");
    window_await(w, "error");
    assert_holds("book.schema.json", "\"pan-is-dry\"");
    end(w);
    fresh_book();
    assert_int_equal(sh("echo mine >mine.json; $T bench book --schema mine.json >out 2>err"), 73);
    assert_holds("err", "mine.json is a file that telltale did not make");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_book_is_told_as_it_is_found),
        cmocka_unit_test(a_save_says_what_moved),
        cmocka_unit_test(a_comment_moves_nothing),
        cmocka_unit_test(doubts_are_told),
        cmocka_unit_test(errors_are_told_and_the_cases_wait),
        cmocka_unit_test(files_and_folders_come_and_go),
        cmocka_unit_test(other_files_are_no_saves),
        cmocka_unit_test(the_page_is_written_anew),
        cmocka_unit_test(what_is_no_book_is_named),
        cmocka_unit_test(the_schema_for_editors_is_kept_fresh),
    };
    return cmocka_run_group_tests_name("bench", tests, NULL, NULL);
}
