/* The books that come with the program can be read in each language that its own texts are in:
 * every text, by every role. A text that lacks one is named. */
#include "doubt/people_read.h"
#include "session/session.h"
#include "shipped_books.h"
#include "test_sources.h"
#include "testing.h"

#include <stdio.h>
#include <string.h>

static const char *const languages[] = {"en", "es"};
enum { LANGUAGES = sizeof languages / sizeof *languages };

static bool is_said_in(const texts *t, const char *language)
{
    for (uint32_t i = 0; i < t->count; i++)
        if (str_is(t->items[i].language, language)) return str_trim(t->items[i].text).n > 0;
    return false;
}

/* How many texts can't be read in this language; each is named. */
static uint32_t count_missing(const char *folder, const read_list *all, const char *language)
{
    uint32_t missing = 0;
    for (uint32_t i = 0; i < all->count; i++) {
        const read_text *r = &all->items[i];
        if (is_said_in(r->text, language)) continue;
        print_message("%s: %s of '%.*s' is not there in '%s'\n", folder, r->what,
                      STR_ARG(r->name->name), language);
        missing++;
    }
    return missing;
}

static read_list texts_of(arena *keep, const tt_book *loaded)
{
    const doubter d = {.book = loaded->book, .scratch = keep};
    return what_people_read(&d);
}

static void every_text_is_there_in_each_language(void **state)
{
    (void)state;
    arena *keep = test_arena();
    shipped_book books[SHIPPED_MOST];
    const uint32_t count = shipped_books(keep, books);
    uint32_t missing = 0;
    for (uint32_t i = 0; i < count; i++) {
        tt_book *loaded = shipped_load(keep, &books[i]);
        const read_list all = texts_of(keep, loaded);
        assert_true(all.count > 500);
        for (int k = 0; k < LANGUAGES; k++)
            missing += count_missing(books[i].folder, &all, languages[k]);
        tt_book_free(loaded);
    }
    assert_int_equal(missing, 0);
    arena_free(keep);
}

/* One text in one language, and nothing of it in the other. */
static const char small[] =
    "book:\n  title: {en: Pump, es: Bomba}\n  roles: [helper]\n"
    "questions:\n  dry:\n    ask: {en: \"Is it dry?\", es: \"¿Está seca?\"}\n"
    "symptoms:\n  is-dry:\n    text: {en: \"It is dry\", es: \"Está seca\"}\n"
    "    when: {dry: yes}\n    shown-by: {worn: often}\n"
    "causes:\n  worn:\n    text: {en: \"It is worn\", es: Gastada}\n    means: It runs dry.\n"
    "fixes:\n  renew:\n    text: {en: \"Renew it\", es: Cambiarla}\n    role: helper\n"
    "    cures: {worn: often}\n    harm: none\n    put-back: Fit the old one.\n"
    "    steps:\n      - {en: \"Take it off\", es: Quitarla}\n";

static void what_lacks_one_is_seen(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const tt_source file = {.name = "a.yaml", .bytes = small, .length = sizeof small - 1};
    tt_book *loaded = NULL;
    tt_report *report = NULL;
    const tt_status status = tt_book_load(&file, 1, &loaded, &report);
    if (status != TT_OK) fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    const read_list all = texts_of(keep, loaded);
    assert_int_equal(count_missing("small", &all, "en"), 0);
    assert_int_equal(count_missing("small", &all, "es"),
                     2); /* what it means, and how it is put back */
    assert_int_equal(count_missing("small", &all, "de"), all.count);
    tt_book_free(loaded);
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_text_is_there_in_each_language),
        cmocka_unit_test(what_lacks_one_is_seen),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
