/* handbook: all of a book on one page, what keeps people safe first. */
#include "run_telltale.h"

#include <signal.h>

#include "kill_points.h"
#include "skips.h"

static void assert_in_order(const char *path, const char *const *parts, unsigned count)
{
    char *text = contents(path);
    const char *at = text;
    for (unsigned i = 0; i < count; i++) {
        const char *found = strstr(at, parts[i]);
        if (found == NULL) fail_msg("%s is not (or not here) in the page", parts[i]);
        at = found + strlen(parts[i]);
    }
    free(text);
}

static void all_of_it_is_there_in_its_order(void **state)
{
    (void)state;
    static const char *const parts[] = {
        "<h1>Handbook: Proving cabinet</h1>", "Contents", "#chapter-9",
        /* cautions and danger */
        "id=\"chapter-1\"", "A cabinet that is switched off can still be live inside.",
        "Go on only if the answer is: No, nothing like that",
        "Smoke, sparks or a burnt smell:", "call the fire service first",
        "Call: licensed-electrician.",
        /* what has happened, picture, tables */
        "id=\"chapter-2\"", "Somebody bleeds badly", "id=\"chapter-3\"", "<svg class=\"plan\"",
        "<line class=\"way\"", "id=\"chapter-4\"", "<h3>Risen, with a dry skin",
        "The water pan is empty", "95 %", "1. Fill the water pan",
        "<h3>What is seen when one looks", "The dial is off its mark", "id=\"chapter-5\"", "42 %",
        /* how it is made safe, and the fixes */
        "id=\"chapter-6\"", "<h3>Procedure A: lock-the-cabinet",
        "Tell:", "Switch off and lock, in this order:", "hang your own lock there.",
        "Let go what is stored:", "Prove that nothing is left:", "After the work, give it back:",
        "id=\"chapter-7\"", "<h3>4. Change the seal of the door",
        "medium; with what follows: medium", "Gloves that don&#39;t tear",
        "First procedure A, lock-the-cabinet, all of it",
        "Then:", "Pull the old seal out of its groove", "id=\"chapter-8\"",
        "What does the thermometer behind the glass read?", "90 degF", "100 degF",
        "id=\"chapter-9\"", "Signature"};
    assert_int_equal(sh("$T handbook '" TT_SOURCE_DIR "/cli/sample' >page.html 2>err"), 0);
    assert_in_order("page.html", parts, sizeof parts / sizeof parts[0]);
    assert_int_equal(sh("test -s err"), 1);
}

/* Each cause, fix and complaint of a large book, once for all pieces of a kind. */
static void nothing_is_left_out(void **state)
{
    (void)state;
    assert_int_equal(sh("$T handbook '" TT_SOURCE_DIR "/rules/dosing-and-pumping' >page.html"), 0);
    assert_int_equal(
        sh("sed -n '/id=\"chapter-7\"/,/id=\"chapter-8\"/p' page.html | grep -c '<h3>' >fixes; "
           "grep -h '^fixes:' -A9999 '" TT_SOURCE_DIR "'/rules/dosing-and-pumping/*.yaml | "
           "awk '/^[a-z-]+:/ {on = /^fixes:/} on && /^  [a-z0-9-]+:( *#.*)?$/ {n++} END {print n}' "
           ">written; cmp fixes written"),
        0);
    assert_holds("page.html", "The same holds at: ");
}

/* The foam book's own drawing, where it belongs, with its words and the signs in it. */
static void a_drawing_is_on_the_page(void **state)
{
    (void)state;
    static const char *const page[] = {
        "id=\"chapter-8\"",
        "How does the foam look on the side of a car?</h3>",
        "<figure>",
        "<svg class=\"drawing\" role=\"img\" aria-label=\"Five car sides.",
        "<rect x=",
        ">A</text>",
        "</svg>",
        "<figcaption>",
        "Five car sides.",
        "<ol type=\"A\">",
        "The foam is too wet"};
    assert_int_equal(sh("$T handbook '" TT_SOURCE_DIR "/rules/foam-line' >page.html"), 0);
    assert_in_order("page.html", page, sizeof page / sizeof page[0]);
}

static void a_site_says_whom_to_call(void **state)
{
    (void)state;
    assert_int_equal(sh("$T handbook '" TT_SOURCE_DIR "/rules/foam-line' --site '" TT_SOURCE_DIR
                        "/tests/cli/foam-sites/two-arches.yaml' >page.html 2>err"),
                     0);
    assert_int_equal(sh("! grep -q 'printed for the example' page.html"), 0);
    assert_int_equal(
        sh("$T handbook '" TT_SOURCE_DIR
           "/rules/foam-line' >page.html 2>err && grep -q 'printed for the example' page.html"),
        0);
}

static void texts_stay_texts(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf odd && cp -r '" TT_SOURCE_DIR "/cli/sample' odd && "
                        "sed -i \"s|text: The water pan is empty|text: '<b>\\\"&'|\" "
                        "odd/causes.yaml && $T handbook odd >page.html"),
                     0);
    assert_holds("page.html", "&lt;b&gt;&quot;");
    assert_int_equal(sh("grep -q '<b>' page.html"), 1);
}

static void it_takes_nobody_s_place(void **state)
{
    (void)state;
    assert_int_equal(sh("echo mine >page.html; $T handbook '" TT_SOURCE_DIR
                        "/cli/sample' --into page.html 2>err; test $? = 73"),
                     0);
    assert_int_equal(sh("grep -q mine page.html"), 0);
    assert_int_equal(sh("$T handbook '" TT_SOURCE_DIR
                        "/cli/sample' --into page.html --overwrite && "
                        "$T handbook '" TT_SOURCE_DIR
                        "/cli/sample' --into page.html && $T handbook '" TT_SOURCE_DIR
                        "/cli/sample' >shown && cmp shown page.html"),
                     0);
    assert_int_equal(sh("$T handbook '" TT_SOURCE_DIR "/cli/sample' --overwrite 2>err"), 2);
    assert_holds("err", "add --into FILE");
    assert_int_equal(sh("$T handbook ./nowhere 2>err"), 66);
    assert_int_equal(
        sh("mkdir -p faulty && echo 'causes: {' >faulty/a.yaml; $T handbook faulty >out 2>err"),
        65);
    assert_int_equal(sh("test -s out"), 1);
}

/* Whatever ends the program: the old page stands or the new one, each of them whole. What may be
 * left beside is the new one under a name of its own, and never more than that. */
static void killed_at_any_call_a_whole_page_stands(void **state)
{
    static const char *const words[] = {"handbook", TT_SOURCE_DIR "/cli/sample", "--into",
                                        "killed/page.html", NULL};
    const counted_run run = {.words = words, .shown = "out"};
    (void)state;
    if (!can_count_calls())
        skip_since("a killed --into: this machine lets nobody trace his own children (ptrace)");
    assert_int_equal(
        sh("$T handbook $WELL >old && $T handbook '" TT_SOURCE_DIR "/cli/sample' >new"), 0);
    unsigned old = 0, new = 0;
    for (int status = 128 + SIGKILL, n = 1; status == 128 + SIGKILL; n++) {
        assert_int_equal(sh("rm -rf killed && mkdir killed && cp old killed/page.html"), 0);
        status = run_until_call(&run, (unsigned)n);
        const bool is_old = sh("cmp -s old killed/page.html") == 0;
        if (!is_old) assert_int_equal(sh("cmp new killed/page.html"), 0);
        old += is_old;
        new += !is_old;
        assert_int_equal(sh("test $(ls killed | grep -cv '^page.html.[0-9]*.new$') = 1"), 0);
        if (status == 0) assert_int_equal(sh("test $(ls killed | wc -l) = 1"), 0);
    }
    assert_true(old > 2 && new > 0);
}

/* All of it, also what stands first: cautions, the title, the site and whom to call. */
static void in_the_language_that_is_asked_for(void **state)
{
    (void)state;
    assert_int_equal(sh("cp '" TT_SOURCE_DIR
                        "/rules/foam-line/site.yaml' ours.yaml && $T handbook '" TT_SOURCE_DIR
                        "/rules/foam-line' --site ours.yaml --language es >page.html"),
                     0);
    assert_holds("page.html",
                 "<h1>Manual: Aplicación de espuma en un autolavado de transportador</h1>");
    assert_holds("page.html", "<dd>El túnel de ejemplo</dd>");
    assert_holds("page.html", "mesa de mantenimiento");
    assert_holds("page.html", "proveedor del producto");
    assert_int_equal(
        sh("grep -q 'Conveyor and brushes\\|The example tunnel\\|maintenance desk' page.html"), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_the_language_that_is_asked_for),
        cmocka_unit_test(all_of_it_is_there_in_its_order),
        cmocka_unit_test(nothing_is_left_out),
        cmocka_unit_test(a_drawing_is_on_the_page),
        cmocka_unit_test(a_site_says_whom_to_call),
        cmocka_unit_test(texts_stay_texts),
        cmocka_unit_test(it_takes_nobody_s_place),
        cmocka_unit_test(killed_at_any_call_a_whole_page_stands),
    };
    return cmocka_run_group_tests_name("handbook", tests, NULL, NULL);
}
