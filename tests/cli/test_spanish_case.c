/* Whole calls in Spanish, of the foam book: no sentence of ours is in English. Ours are known by
 * the catalogue itself: each text of the English one that reads otherwise in Spanish is looked for
 * in whatever is shown, so that a new text is looked for, too. */
#include "run_telltale.h"

#include "base/str.h"
#include "base/unicode.h"
#include "say/catalogue.h"
#include "test_sources.h"

enum {
    SHORTEST = 12
}; /* letters of a piece that is looked for: "no" and "fire" may be anybody's */

/* ---- what is English of ours ---- */

typedef struct english {
    arena *keep;
    str *pieces; /* what stands between inserts, as plain words with blanks around */
    text_id *of;
    size_t count;
} english;

static str plain_between_blanks(arena *keep, str text)
{
    return str_printf(keep, " %.*s ", STR_ARG(unicode_plain(keep, text)));
}

static void add_piece(english *e, text_id id, str piece)
{
    const str plain = plain_between_blanks(e->keep, piece);
    if (plain.n < SHORTEST + 2 || str_find_byte(unicode_plain(e->keep, piece), ' ') == SIZE_MAX)
        return;
    const str spanish = plain_between_blanks(e->keep, str_of(catalogue_text(TONGUE_ES, id)));
    if (str_find(spanish, plain) != SIZE_MAX) return; /* alike in both: an example, a name */
    e->pieces[e->count] = plain;
    e->of[e->count++] = id;
}

/* Texts of authors and programs are English everywhere, and are shown in no call. English is
 * offered in English. */
static bool is_in_english_alone(text_id id)
{
    return catalogue_text(TONGUE_ES, id) == catalogue_text(TONGUE_EN, id) ||
           id == TEXT_WORD_LANGUAGE;
}

static english english_of_ours(arena *keep)
{
    english e = {.keep = keep,
                 .pieces = ARENA_ARRAY(keep, str, TEXT_COUNT * 10),
                 .of = ARENA_ARRAY(keep, text_id, TEXT_COUNT * 10)};
    for (text_id id = 0; id < TEXT_COUNT; id++) {
        const str text = str_of(catalogue_text(TONGUE_EN, id));
        if (is_in_english_alone(id)) continue;
        size_t from = 0;
        for (size_t at = 0; at <= text.n; at++)
            if (at == text.n || text.p[at] == '{') {
                add_piece(&e, id, str_slice(text, from, at));
                from = at + 3 < text.n ? at + 3 : text.n;
            }
    }
    return e;
}

/* The book's title is its name, and what marks a page as ours is one mark. */
static str without(arena *keep, str text, const char *what)
{
    text_builder b = {.keep = keep};
    for (size_t at; (at = str_find(text, str_of(what))) != SIZE_MAX;
         text = str_slice(text, at + strlen(what), text.n)) {
        text_add(&b, str_slice(text, 0, at));
        text_add(&b, STR("|"));
    }
    text_add(&b, text);
    return text_done(&b);
}

static void assert_spanish(arena *keep, const english *e, const char *shown, const char *what)
{
    const str all = plain_between_blanks(keep, without(keep, str_of(shown), "(made by telltale)"));
    unsigned found = 0;
    for (size_t i = 0; i < e->count; i++) {
        const size_t at = str_find(all, e->pieces[i]);
        if (at == SIZE_MAX) continue;
        found++;
        print_error("%s: %s is in English:%.*s\n", what, catalogue_name(e->of[i]),
                    STR_ARG(e->pieces[i]));
    }
    if (found > 0) print_error("%s\n", shown);
    assert_int_equal(found, 0);
}

/* ---- calls ---- */

#define FOAM TT_SOURCE_DIR "/rules/foam-line"

/* Everything that a call may come to; a line for each reply. */
static const struct call {
    const char *what, *typed;
} calls[] = {
    {"questions, mistyped answers, why",
     "no\nla espuma sale seca\n1\nquizás\n99 ft\n4x\npor qué\nmore\n\n1\nno sé\n99\n-3 psi\n1 2 "
     "3\nresumen\n\nno puedo\nprecauciones\n\nparar\n"},
    {"readings", "no\nla espuma sale seca, aire 55 psi\n1\n4 ft\n55,5 psi\n1:2:3\n9999 psi\n3\n55 "
                 "psi\n1\n1\n1\npor qué\n\n1\n1\nresumen\n\nparar\n"},
    {"a fix, step by step, and what came of it",
     "no\nla espuma sale seca, aire 55 "
     "psi\n1\n1\n1\n1\n1\nhecho\nhecho\nhecho\nhecho\nhecho\nhecho\nigual\n1\n1\n1\n2\n1\n1\n1\n1\n"
     "parar\n"},
    {"one that can't be done, and one that made it worse",
     "no\nla espuma sale aguada\n1\n1\n1\n1\n1\n1\n1\nno "
     "pude\n1\n1\n1\npeor\n1\n1\n1\n1\n1\n1\nresumen\n\nparar\n"},
    {"it is gone", "no\nla espuma sale seca, aire 55 "
                   "psi\n1\n1\n1\n1\n1\n1\n1\n1\n1\n1\n1\n1\n1\n1\n1\n1\nparar\n"},
    {"danger, and how it ends", "2\n\n1\n1\nno\nhay un herido\n1\n1\nparar\n"},
    {"danger in the middle", "no\npeligro\nfuego\n\n1\nno\nhuele a gas\n1\n1\nparar\n"},
    {"product in the eyes", "no\nle cayó producto en los ojos\n\n1\nparar\n"},
    {"a shock", "no\nalguien recibió una descarga eléctrica\n\n1\nparar\n"},
    {"something burns", "humo\n\n1\nparar\n"},
    {"back, and another answer",
     "no\nno hace espuma\n1\n1\natrás\natrás\ncambiar\n1\n1\natrás\natrás\nnada de "
     "esto\n?\n\nparar\n"},
    {"help", "no\nayuda\n1\nayuda\n2\n:resumen\n\nparar\n"},
    {"nothing that is understood",
     "no\nqwerty zxcv\n4\n19\nasdf\n1\nno sé\nno sé\nno sé\nno sé\nno sé\nno sé\nno sé\nno sé\nno "
     "sé\nno sé\nno sé\nno sé\nno sé\nparar\n"},
};

static void write_lines(const char *path, const char *typed, const char *before, const char *behind)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    for (const char *at = typed; *at != 0; at = strchr(at, '\n') + 1)
        fprintf(file, "%s%.*s%s\n", before, (int)strcspn(at, "\n"), at, behind);
    assert_int_equal(fclose(file), 0);
}

/* Of JSON the texts that have a blank: keys, names and codes have none. */
static void keep_texts(const char *path)
{
    char *all = contents(path), *end = all;
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    for (char *at = strchr(all, '"'); at != NULL; at = strchr(end + 1, '"')) {
        for (end = at + 1; *end != '"'; end++) end += *end == '\\';
        *end = 0;
        if (strchr(at, ' ') != NULL) fprintf(file, "%s |\n", at + 1);
    }
    assert_int_equal(fclose(file), 0);
    free(all);
}

/* What the last call showed, which went to `shown`. */
static void assert_shown_is_spanish(arena *keep, const english *e, const char *what)
{
    char *shown = contents("shown");
    assert_true(strlen(shown) > 200);
    assert_spanish(keep, e, shown, what);
    free(shown);
}

static void each_call_is_spanish(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const english e = english_of_ours(keep);
    assert_true(e.count > 500);
    for (size_t i = 0; i < sizeof calls / sizeof calls[0]; i++) {
        write_lines("typed", calls[i].typed, "", "");
        sh("$T ask " FOAM " --practice --unsaved --plain --language es <typed >shown 2>&1");
        assert_shown_is_spanish(keep, &e, calls[i].what);
        if (i > 1) continue; /* what is read aloud is the same, but for words around it */
        sh("$T ask " FOAM
           " --practice --unsaved --plain --telephone --language es <typed >shown 2>&1");
        assert_shown_is_spanish(keep, &e, calls[i].what);
    }
    arena_free(keep);
}

static void each_call_is_spanish_to_a_program(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const english e = english_of_ours(keep);
    for (size_t i = 0; i < sizeof calls / sizeof calls[0]; i += 3) {
        write_lines("typed", calls[i].typed, "{\"answer\":\"", "\"}");
        sh("$T ask " FOAM " --practice --unsaved --json --language es <typed >shown 2>/dev/null");
        keep_texts("shown");
        assert_shown_is_spanish(keep, &e, calls[i].what);
    }
    arena_free(keep);
}

/* Begun in English, switched, handed over, taken up by somebody else, and put on paper. */
static void what_is_handed_over_stays_spanish(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const english e = english_of_ours(keep);
    write_lines("typed",
                "no\nhabla español?\nla espuma sale seca\n1\naire 55 psi\n1\nentregar\nmesa "
                "norte\nestoy afuera\n",
                "", "");
    sh("rm -rf cases; $T ask " FOAM " --practice --cases cases --plain <typed >begun 2>&1");
    write_lines("typed", "no\nresumen\n\n1\npausa\nsigo mañana\n", "", "");
    sh("$T ask --case $(ls -d cases/*/*/*) --plain <typed >shown 2>&1");
    assert_shown_is_spanish(keep, &e, "taken up");
    assert_holds("shown", "mesa norte");
    sh("$T sheet $(ls -d cases/*/*/*) --plain " FOAM " >shown 2>&1");
    assert_shown_is_spanish(keep, &e, "sheet");
    sh("$T sheet $(ls -d cases/*/*/*) --html " FOAM " >shown 2>&1");
    assert_shown_is_spanish(keep, &e, "sheet as a page");
    arena_free(keep);
}

/* By its name in the book, or as it is called in another language; a person stays as said. */
static void whom_it_is_for_is_called_as_the_page_speaks(void **state)
{
    (void)state;
    static const char *const said[] = {"technician", "Technician", "técnico", "Mesa norte"};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        const char *spanish = i < 3 ? "técnico" : said[i],
                   *english = i < 3 ? "technician" : said[i];
        char typed[200];
        snprintf(typed, sizeof typed, "no\nla espuma sale seca\n1\nentregar\n%s\nestoy afuera\n",
                 said[i]);
        write_lines("typed", typed, "", "");
        sh("rm -rf cases; $T ask " FOAM " --practice --cases cases --plain --language es <typed "
           ">shown 2>&1");
        assert_int_equal(sh("$T sheet $(ls -d cases/*/*/*) --plain " FOAM " >shown 2>&1"), 0);
        assert_int_equal(sh("grep -A1 '^ *Para' shown | grep -q '%s'", spanish), 0);
        sh("$T ask --case $(ls -d cases/*/*/*) --plain </dev/null >shown 2>&1");
        assert_int_equal(sh("grep -q 'para %s' shown", spanish), 0);
        sh("$T ask --case $(ls -d cases/*/*/*) --plain --language en </dev/null >shown 2>&1");
        assert_int_equal(sh("grep -q 'to %s' shown", english), 0);
        sh("echo parar | $T desk --cases cases --plain --language es >shown 2>&1");
        assert_int_equal(sh("grep -q 'Para %s' shown", spanish), 0);
    }
}

/* The search itself: what is English is found. */
static void what_is_english_is_found(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const english e = english_of_ours(keep);
    static const char *const said[] = {
        "That is not a number. Type the number you read, for example 3 psi.",
        "Asking first saves about 4 minutes.", "Press hard on the wound with a clean cloth."};
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        const str all = plain_between_blanks(keep, str_of(said[i]));
        bool found = false;
        for (size_t k = 0; k < e.count; k++)
            found = found || str_find(all, e.pieces[k]) != SIZE_MAX;
        assert_true(found);
    }
    arena_free(keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_english_is_found),
        cmocka_unit_test(each_call_is_spanish),
        cmocka_unit_test(each_call_is_spanish_to_a_program),
        cmocka_unit_test(what_is_handed_over_stays_spanish),
        cmocka_unit_test(whom_it_is_for_is_called_as_the_page_speaks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
