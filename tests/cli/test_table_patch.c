/* table from the command line. */
#include "run_telltale.h"

static void the_three_forms(void **state)
{
    (void)state;
    assert_int_equal(sh("$T table $WELL >out"), 0);
    assert_holds("out", "The breaker is off (breaker-off): occasional");
    assert_holds("out", "almost always  +12.8 dB  The pump is silent (silence)");
    assert_int_equal(sh("$T table $WELL --csv >a.csv && head -1 a.csv >first"), 0);
    assert_holds("first",
                 "part,cause,text,how-often,low-pressure,short-cycling,silence,wet-floor\r\n");
    assert_int_equal(sh("$T table $WELL --html >page.html"), 0);
    assert_holds("page.html", "<th scope=\"row\"");
    assert_holds("page.html", "+12.8 dB");
    assert_int_equal(sh("COLUMNS=40 $T table $WELL | wc -l >lines"), 0);
}

static void an_edited_table_is_a_patch(void **state)
{
    (void)state;
    assert_int_equal(
        sh("rm -rf book && cp -r $WELL book && chmod -R u+w book && $T table book --csv >a.csv"),
        0);
    assert_int_equal(sh("$T table book --from a.csv >patch 2>err && ! test -s patch"), 0);
    assert_holds("err", "there is nothing to patch");
    assert_int_equal(sh("sed 's/,common,/,rare,/' a.csv | $T table book --from - | patch -s -p1 -d "
                        "book && $T check book >out"),
                     0);
    assert_int_equal(sh("$T table book --csv | diff - a.csv >difference"), 1);
    assert_holds("difference", "tank-waterlogged,The tank has lost its air cushion,rare,");
    assert_int_equal(sh("$T table book --from a.csv | patch -s -p1 -d book; diff -r book $WELL"),
                     0);
}

static const char one_a_line[] =
    "book:\n  title: Small pump\n  roles: [helper]\n"
    "questions:\n  drip: {ask: \"Does it drip?\", usual: no}\n  hum: {ask: \"Does it hum?\", "
    "usual: yes}\n"
    "symptoms:\n"
    "  drips:\n    text: It drips\n    when: {drip: yes}\n    shown-by:\n      worn-seal: often   "
    "# seen twice\n      loose-gland: sometimes\n"
    "  silent:\n    text: It is silent\n    when: {hum: no}\n    shown-by:\n      breaker-off: "
    "almost always\n"
    "causes:\n  worn-seal: {text: Worn, how-often: common}\n  loose-gland: {text: Loose, "
    "how-often: rare}\n"
    "  breaker-off:\n    text: The breaker is off\n    how-often: common\n";

/* Numbers that stand one a line go and come as whole lines, whichever way lines end; a comment
 * beside one stays. */
static void lines_go_and_come_whole(void **state)
{
    (void)state;
    for (int returns = 0; returns < 2; returns++) {
        assert_int_equal(sh("rm -rf book before && mkdir book"), 0);
        FILE *file = fopen("book/book.yaml", "w");
        assert_non_null(file);
        fputs(one_a_line, file);
        assert_int_equal(fclose(file), 0);
        if (returns == 1) assert_int_equal(sh("sed -i 's/$/\\r/' book/book.yaml"), 0);
        assert_int_equal(sh("cp -r book before && $T table book --csv >a.csv && sed "
                            "'s/,Worn,common,often,/,Worn,common,,usually/; "
                            "s/,Loose,rare,sometimes,/,Loose,rare,,/; s/ is off,common,,almost "
                            "always/ is off,rare,often,/' a.csv >b.csv && "
                            "! cmp -s a.csv b.csv"),
                         0);
        assert_int_equal(sh("$T table book --from b.csv >p && patch --binary -s -p1 -d book <p && "
                            "$T table book --csv >c.csv"),
                         0);
        assert_int_equal(
            sh("grep -v strongest b.csv >wanted; grep -v strongest c.csv | cmp - wanted"), 0);
        assert_int_equal(sh("grep -q '# seen twice' book/book.yaml && ! grep -q 'loose-gland: "
                            "some' book/book.yaml"),
                         0);
        assert_int_equal(sh("$T table book --from a.csv | patch --binary -s -p1 -d book && $T "
                            "table book --csv | cmp - a.csv"),
                         0);
        assert_int_equal(
            sh("tr -dc '\\r' <book/book.yaml | wc -c >returns; wc -l <book/book.yaml >lines"), 0);
        if (returns == 1) assert_int_equal(sh("cmp returns lines"), 0); /* no line lost its own */
    }
}

static void what_is_wrong_is_said(void **state)
{
    (void)state;
    assert_int_equal(sh("$T table $WELL --csv | sed 's/silence/silense/' >bad.csv; $T table $WELL "
                        "--from bad.csv >out 2>err"),
                     65);
    assert_holds("err", "bad.csv:1:");
    assert_holds("err", "help: Did you mean 'silence'?");
    assert_holds("err", "bad.csv can't be taken over before this is mended");
    assert_int_equal(sh("! test -s out"), 0);
    assert_int_equal(sh("$T table $WELL --csv --html 2>err"), 2);
    assert_int_equal(sh("$T table $WELL --from nowhere.csv 2>err"), 66);
    assert_int_equal(
        sh("rm -rf bad && mkdir bad && echo 'causes: 1' >bad/a.yaml && $T table bad 2>err"), 65);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_three_forms),
        cmocka_unit_test(an_edited_table_is_a_patch),
        cmocka_unit_test(lines_go_and_come_whole),
        cmocka_unit_test(what_is_wrong_is_said),
    };
    return cmocka_run_group_tests_name("table patch", tests, NULL, NULL);
}
