/* make_example_year FOLDER: the example site's year, to be looked at: telltale history
 * rules/foam-line --site rules/foam-line/site.yaml --cases FOLDER --until 2026-11-29. Invented. */
#include "example_year.h"
#include "testing.h"

static const char *folder;

static void make(void **state)
{
    (void)state;
    write_example_year(folder);
}

int main(int count, char **words)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(make)};
    folder = count > 1 ? words[1] : "example-year";
    return cmocka_run_group_tests(tests, NULL, NULL);
}
