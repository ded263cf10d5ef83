/* rename from the command line: a patch that applies, and what it says when there is none. */
#include "run_telltale.h"

static void the_patch_applies(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf book && cp -r $WELL book && chmod -R u+w book"), 0);
    assert_int_equal(
        sh("$T rename book tank-waterlogged tank-full >a.patch && patch -s -p1 -d book <a.patch"),
        0);
    assert_int_equal(sh("grep -rnw tank-waterlogged book"), 1);
    assert_int_equal(sh("$T check book --strict >out && $T try book >out"), 0);
    assert_int_equal(
        sh("$T rename book tank-full tank-waterlogged | patch -s -p1 -d book; diff -r $WELL book"),
        0);
}

/* Named from the folder above both, wherever they lie. */
static void book_and_site_are_one_patch(void **state)
{
    (void)state;
    assert_int_equal(sh("rm -rf there && mkdir there && sed 's/^  units:/  units: # all/' "
                        "'%s/tests/cli/filtered-well-sites/farm.yaml' >there/farm.yaml",
                        TT_SOURCE_DIR),
                     0);
    assert_int_equal(
        sh("rm -rf books && mkdir -p books && cp -r '%s/tests/cli/filtered-well' books/well && "
           "$T rename books/well 'kind of equipment filter' strainer --site there/farm.yaml "
           ">a.patch 2>err",
           TT_SOURCE_DIR),
        0);
    assert_holds("a.patch", "+++ b/books/well/");
    assert_holds("a.patch", "+++ b/there/farm.yaml");
    assert_int_equal(sh("grep -q \"patch -p1 -d $PWD/\" err && patch -s -p1 <a.patch"), 0);
    assert_int_equal(sh("$T check books/well >out && ! grep -rqw filter: books/well there"), 0);
    assert_int_equal(sh("echo '{}' | $T rank books/well - --site there/farm.yaml >out"), 0);
    assert_holds("there/farm.yaml", "    strainer:");
    assert_holds("there/farm.yaml", "  units: # all");
}

static void what_is_refused_is_said(void **state)
{
    (void)state;
    assert_int_equal(sh("$T rename $WELL pump-sond hum >out 2>err"), 1);
    assert_holds("err", "Did you mean 'pump-sound'?");
    assert_int_equal(sh("! test -s out"), 0);
    assert_int_equal(sh("$T rename $WELL pump-sound smoke 2>err"), 1);
    assert_holds("err", "There is a question 'smoke' already");
    assert_int_equal(
        sh("rm -rf bad && mkdir bad && echo 'causes: 1' >bad/a.yaml && $T rename bad a b 2>err"),
        65);
    assert_holds("err", "can't be used before this is mended");
    assert_int_equal(sh("$T rename $WELL pump-sound 2>err"), 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_patch_applies),
        cmocka_unit_test(book_and_site_are_one_patch),
        cmocka_unit_test(what_is_refused_is_said),
    };
    return cmocka_run_group_tests_name("rename patch", tests, NULL, NULL);
}
