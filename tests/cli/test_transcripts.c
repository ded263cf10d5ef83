/* Calls as they stand in tests/cli/transcripts: what is typed, what is shown, how it ends. A
 * transcript reads as a window does:
 *
 *     # what it shows
 *     $ telltale ask $WELL --cases cases
 *     ... what is shown, and on the lines that begin with "> " what is typed there; "> ^D" ends the
 * input ... = 3
 *
 * Several commands may follow each other in a folder of their own; one without a status line may
 * prepare it. NUMBER is the number of the case, in commands too; what the machine and the hour make
 * different is shown alike (see show_alike). TT_UPDATE_EXPECTED=1 writes anew what is shown: read
 * it as a person would who has to act on it. */
#include <dirent.h>
#include <regex.h>
#include <unistd.h>

#include "run_telltale.h"

#include "base/str.h"
#include "test_sources.h"

static const char folder[] = TT_SOURCE_DIR "/tests/cli/transcripts";

typedef struct told {
    arena *keep;
    str number; /* of the last case; "" */
    text_builder shown;
} told;

/* ---- what differs from one machine or hour to another ---- */

static str replaced(arena *keep, str text, const char *pattern, const char *by)
{
    regex_t regex;
    regmatch_t m;
    text_builder b = {.keep = keep};
    assert_int_equal(regcomp(&regex, pattern, REG_EXTENDED), 0);
    const char *at = text.p;
    for (int flags = 0; regexec(&regex, at, 1, &m, flags) == 0; flags = REG_NOTBOL) {
        text_add(&b, (str){at, (size_t)m.rm_so});
        text_add(&b, str_of(by));
        at += m.rm_eo;
        assert_true(m.rm_eo > m.rm_so);
    }
    regfree(&regex);
    text_add(&b, str_of(at));
    return text_done(&b);
}

static str replaced_text(arena *keep, str text, const char *what, const char *by)
{
    text_builder b = {.keep = keep};
    for (size_t at; (at = str_find(text, str_of(what))) != SIZE_MAX;
         text = str_slice(text, at + strlen(what), text.n)) {
        text_add(&b, str_slice(text, 0, at));
        text_add(&b, str_of(by));
    }
    text_add(&b, text);
    return text_done(&b);
}

static str show_alike(arena *keep, str text)
{
    char here[4096];
    assert_non_null(getcwd(here, sizeof here));
    text = replaced_text(keep, text, TT_PROGRAM, "telltale");
    text = replaced_text(keep, text, here, "HERE");
    text = replaced_text(keep, text, TT_SOURCE_DIR, "SOURCE");
    assert_int_equal(gethostname(here, sizeof here), 0);
    text = replaced_text(keep, text, str_printf(keep, " (%s)", here).p, " (DESK)");
    text = replaced(keep, text, "[0-9]{6}[A-Z]", "NUMBER");
    text = replaced(keep, text, "[0-9]{4}-[0-9]{2}-[0-9]{2}(T[0-9:.]+(Z|[+-][0-9:]{5}))?", "DAY");
    return replaced(keep, text, "(DAY )?[0-9]{2}:[0-9]{2}( |$)", "HH:MM ");
}

static void note_number(told *t, str text)
{
    regex_t regex;
    regmatch_t m;
    assert_int_equal(regcomp(&regex, "[0-9]{6}[A-Z]", REG_EXTENDED), 0);
    if (regexec(&regex, text.p, 1, &m, 0) == 0)
        t->number = str_copy(t->keep, (str){text.p + m.rm_so, 7});
    regfree(&regex);
}

/* ---- a command ---- */

typedef struct command {
    str line, typed;    /* typed: lines with their ends */
    bool status, ended; /* its status is told; its input ends by ^D */
} command;

static const char *as_shell_line(told *t, str line)
{
    str words = replaced_text(t->keep, str_slice(line, 2, line.n), "NUMBER",
                              t->number.p != NULL ? t->number.p : "");
    if (str_starts(words, "telltale "))
        words = str_printf(t->keep, "\"$T\"%.*s", STR_ARG(str_slice(words, 8, words.n)));
    return words.p;
}

static int run(told *t, const command *c)
{
    FILE *in = fopen("typed", "wb");
    assert_non_null(in);
    fwrite(c->typed.p, 1, c->typed.n, in);
    fclose(in);
    FILE *script = fopen("script", "wb");
    assert_non_null(script);
    fprintf(script, "%s\n", as_shell_line(t, c->line));
    fclose(script);
    return sh("unset IFS; . ./script <typed >shown 2>&1");
}

/* "> " at which nothing more was typed. */
static str with_end_of_input(arena *keep, str text)
{
    if (!str_ends(text, "\n")) return text;
    size_t last = SIZE_MAX, from = 0;
    for (size_t at; (at = str_find(str_slice(text, from, text.n), STR("\n> \n"))) != SIZE_MAX;
         from += at + 1)
        last = from + at;
    if (last == SIZE_MAX) return text;
    return str_printf(keep, "%.*s\n> ^D%.*s", STR_ARG(str_slice(text, 0, last)),
                      STR_ARG(str_slice(text, last + 3, text.n)));
}

static void tell(told *t, const command *c)
{
    const int status = run(t, c);
    str text = file_bytes(t->keep, "shown");
    note_number(t, text);
    text_addf(&t->shown, "%.*s\n", STR_ARG(c->line));
    text = show_alike(t->keep, text);
    if (c->ended) text = with_end_of_input(t->keep, text);
    text_add(&t->shown, text);
    if (text.n > 0 && !str_ends(text, "\n")) text_add(&t->shown, STR("\n"));
    if (c->status)
        text_addf(&t->shown, "= %d\n", status);
    else if (status != 0)
        fail_msg("%.*s: status %d", STR_ARG(c->line), status);
}

/* ---- a transcript ---- */

static str next_line(str *rest)
{
    const size_t end = str_find_byte(*rest, '\n');
    const str line = str_slice(*rest, 0, end < rest->n ? end : rest->n);
    *rest = end < rest->n ? str_slice(*rest, end + 1, rest->n) : (str){rest->p, 0};
    return line;
}

static bool begins(str line, const char *mark)
{
    return str_starts(line, mark);
}

/* The command's line was read; up to the next command or remark. */
static command read_command(arena *keep, str line, str *rest)
{
    command c = {.line = line};
    text_builder typed = {.keep = keep};
    while (rest->n > 0 && !begins(*rest, "$ ") && !begins(*rest, "# ")) {
        const str told = next_line(rest);
        if (str_is(told, "> ^D"))
            c.ended = true;
        else if (begins(told, "> "))
            text_addf(&typed, "%.*s\n", STR_ARG(str_slice(told, 2, told.n)));
        c.status = c.status || begins(told, "= ");
    }
    c.typed = typed.length > 0 ? text_done(&typed) : STR("");
    return c;
}

static str retold(told *t, str wanted)
{
    for (str rest = wanted; rest.n > 0;) {
        const str line = next_line(&rest);
        if (begins(line, "$ ")) {
            const command c = read_command(t->keep, line, &rest);
            tell(t, &c);
        } else {
            text_addf(&t->shown, "%.*s\n", STR_ARG(line));
        }
    }
    return text_done(&t->shown);
}

static void show_difference(const char *name, str wanted, str shown)
{
    size_t line = 1;
    while (wanted.n > 0 && shown.n > 0) {
        const str a = next_line(&wanted), b = next_line(&shown);
        if (!str_eq(a, b)) {
            print_error("%s:%zu: wanted \"%.*s\", shown \"%.*s\"\n", name, line, STR_ARG(a),
                        STR_ARG(b));
            return;
        }
        line++;
    }
    print_error("%s:%zu: %s\n", name, line,
                wanted.n > 0 ? "nothing more is shown" : "more is shown");
}

/* True: it reads as it is written. */
static bool is_so(arena *keep, const char *name)
{
    const char *path = str_printf(keep, "%s/%s", folder, name).p;
    const str wanted = file_bytes(keep, path);
    told t = {.keep = keep, .shown = {.keep = keep}};
    assert_int_equal(sh("rm -rf ./* ./.config ./.local"), 0);
    const str shown = retold(&t, wanted);
    if (str_eq(wanted, shown)) return true;
    if (getenv("TT_UPDATE_EXPECTED") != NULL) {
        FILE *file = fopen(path, "wb");
        assert_non_null(file);
        fwrite(shown.p, 1, shown.n, file);
        fclose(file);
        return true;
    }
    show_difference(name, wanted, shown);
    return false;
}

static void every_transcript_is_so(void **state)
{
    (void)state;
    arena *keep = test_arena();
    const file_names names = files_ending(keep, folder, ".txt");
    unsigned wrong = 0;
    assert_true(names.count > 5);
    for (size_t i = 0; i < names.count; i++)
        wrong += !is_so(keep, str_copy(keep, names.items[i]).p);
    arena_free(keep);
    assert_int_equal(wrong, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_transcript_is_so)};
    return cmocka_run_group_tests_name("transcripts", tests, NULL, NULL);
}
