/* The table of causes and signs in words and as a page: by part, the strongest sign first, and what
 * has no number or no sign told in words. */
#include <math.h>

#include "face/show_table.h"
#include "shown_text.h"

static const tt_table_cause causes[] = {{"bent", "Bent", "drum", "rare", "book.yaml:9"},
                                        {"loose", "Loose", "drum", "", "book.yaml:5"},
                                        {"worn", "Worn", "", "often", "book.yaml:1"}};
static const tt_table_sign signs[] = {{"hums", "It hums", "drum", "rarely", .05, 9, false, "a:1"},
                                      {"hot", "It is hot", "", "", .05, 9, false, "a:2"},
                                      {"cold", "It is cold", "", "", .05, 9, false, "a:3"}};
static const tt_table_cell cells[] = {{0, 0, "usually", .7, 11.46, "a:4"},
                                      {0, 1, "never", 0, -INFINITY, "a:5"},
                                      {0, 2, "often", .5, 11.46, "a:6"},
                                      {1, 0, "usually", .7, 11.46, "a:7"},
                                      {1, 1, "always", 1, INFINITY, "a:8"}};
static const tt_table_view view = {"Drier", NULL, causes, 3, signs, 3, cells, 5};

static void in_words(void **state)
{
    (void)state;
    shown_text *s = show_at(0);
    table_in_words(&s->on, &view);
    const char *text = shown(s), *first = strstr(text, "\ndrum\n");
    assert_non_null(first);
    assert_string_equal(first, "\ndrum\n"
                               "  Bent (bent): rare\n"
                               "    usually       +11.5 dB  It hums (hums)\n"
                               "    often         +11.5 dB  It is cold (cold)\n"
                               "    never        ruled out  It is hot (hot)\n"
                               "  Loose (loose)\n"
                               "    always         certain  It is hot (hot)\n"
                               "    usually       +11.5 dB  It hums (hums)\n"
                               "\nNo part named\n"
                               "  Worn (worn): often\n"
                               "    No sign points to it.\n");
    shown_free(s);
}

static void on_a_page(void **state)
{
    (void)state;
    shown_text *s = show_at(0);
    table_on_paper(s->on.out, &paper_of_text, &view);
    const char *text = shown(s), *first = strstr(text, "Causes and their signs\n");
    assert_non_null(first);
    assert_shows(first, "drum:\n- Bent\n  How often it is met: rare\n  Sign: It hums\n"
                        "  With this cause: usually\n  Strength: +11.5 dB\n- Bent\n");
    assert_shows(first, "  With this cause: never\n  Strength: ruled out\n");
    assert_shows(first, "No part named:\n- Worn\n  How often it is met: often\n"
                        "  Sign: No sign points to it.\n");
    /* of two causes that a sign speaks for as strongly, the first of the table */
    assert_shows(first, "drum:\n- It hums\n  With other causes: rarely\n  Cause: Bent\n"
                        "  With this cause: usually\n  Strength: +11.5 dB\n"
                        "- It hums\n  With other causes: rarely\n  Cause: Loose\n");
    assert_shows(first, "No part named:\n- It is hot\n  Cause: Loose\n");
    shown_free(s);
}

static void of_no_cause_nothing(void **state)
{
    (void)state;
    shown_text *s = show_at(0);
    table_on_paper(s->on.out, &paper_of_text, &(tt_table_view){.title = "Drier"});
    assert_shows(shown(s),
                 "Signs and their causes\n----------------------\n\n(made by telltale)\n");
    shown_free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_words),
        cmocka_unit_test(on_a_page),
        cmocka_unit_test(of_no_cause_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
