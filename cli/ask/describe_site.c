/* The person says what equipment there is, kind by kind; it may be kept in a file. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "ask/ask_site.h"
#include "ask/turn_parts.h"
#include "host/files.h"
#include "host/plain_text.h"
#include "host/site_file.h"
#include "host/site_text.h"

enum { MOST_COUNTED = 40 };

static const unsigned offered = 1 << WORD_STOP | 1 << WORD_HELP;

/* A line that is none of the two words; null when the person leaves. Other words of ours may be
 * names: "back" is where things stand. Freed by the caller. */
static char *hear_words(ask *a, const char *kind, const char *prompt)
{
    for (;;) {
        ask_silently(a, kind, prompt);
        put_words(a, offered);
        char *line = hear(a);
        ask_word word = line != NULL ? ask_word_of(line) : WORD_NONE;
        if (word != WORD_STOP && word != WORD_HELP) return line;
        ask_do_word(a, word, TT_NONE);
        free(line);
        if (a->leaving != STAYING) return NULL;
    }
}

/* ---- what there is of one kind ---- */

/* "3": as many, told apart by their numbers. */
static bool take_count(names_said *said, const char *line, const char *one)
{
    char *end;
    long count = strtol(line, &end, 10);
    if (*line < '0' || *line > '9' || *end != 0 || count > MOST_COUNTED) return false;
    for (long i = 1; i <= count; i++) {
        char *name = format_text("%s %ld", one, i);
        names_add(said, name);
        free(name);
    }
    return true;
}

static void take_names(ask *a, names_said *said, char *line)
{
    for (char *part = line; part != NULL;) {
        char *comma = strchr(part, ',');
        if (comma != NULL) *comma = 0;
        char *name = trim_text(part);
        if (*name != 0 && !names_add(said, name)) say_note(a, "%s is on the list already.", name);
        free(name);
        part = comma != NULL ? comma + 1 : NULL;
    }
}

/* Lines up to an empty one; a line with commas, or a number alone at first, is the whole list. */
static void hear_names(ask *a, const tt_kind *kind, names_said *said)
{
    for (bool more = true; more && a->leaving == STAYING;) {
        char *line = hear_words(a, "site-pieces", kind->ask);
        if (line == NULL) return;
        bool counted = said->count == 0 && take_count(said, line, kind->one);
        more = !counted && *line != 0 && strchr(line, ',') == NULL;
        if (!counted) take_names(a, said, line);
        free(line);
    }
}

static bool is_right(ask *a, const names_said *said, const char *one)
{
    static const char *const names[] = {"yes", "again"};
    static const char *const choices[] = {"Yes", "No, I say it again"};
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING) {
        say_nothing(&a->s);
        if (said->count == 0) say(&a->s, "There is no %s.", one);
        say_list(&a->s, said->count == 1 ? "There is one:" : "There are, in this order:",
                 (const char *const *)said->items, (unsigned)said->count);
        turn_put(a->turn, "pieces", texts_json((const char *const *)said->items, (uint32_t)said->count));
        ask_for(a, "site-right", "Is that right?");
        chosen = choose_one(a, names, choices, 2, offered);
    }
    return chosen == 0;
}

static void ask_kind(ask *a, const tt_kind *kind, names_said *said)
{
    do {
        names_free(said);
        say_nothing(&a->s);
        say(&a->s, "%s", kind->ask);
        say(&a->s,
            "Type each as you would say it, such as: the left %s. Put commas between them, or one "
            "a line and then an empty line. Or type how many there are. None: an empty line.",
            kind->one);
        offer_words(a, offered, TT_NONE);
        hear_names(a, kind, said);
    } while (a->leaving == STAYING && !is_right(a, said, kind->one));
}

/* ---- the whole of it ---- */

static char *ask_title(ask *a)
{
    if (!a->cautions_seen) show_book_cautions(a);
    say_nothing(&a->s);
    say(&a->s, "What equipment is there? This is asked once, and can be kept for the next time. If "
               "anything is dangerous right now, leave this and get help first.");
    say_nothing(&a->s);
    static const char prompt[] = "What do you call this place? Without a name, leave it empty.";
    say(&a->s, "%s", prompt);
    offer_words(a, offered, TT_NONE);
    char *title = hear_words(a, "site-name", prompt);
    for (char *c = title; c != NULL && *c != 0; c++) *c = *c == '{' ? '(' : *c == '}' ? ')' : *c;
    return title;
}

static exit_status open_with(ask *a, const char *book, const char *text)
{
    tt_source source = {.name = "what you said", .bytes = text, .length = strlen(text)};
    opened_book opened;
    exit_status status = book_open(book, &source, &opened);
    if (status != EXIT_DONE) return status;
    book_close(&a->book);
    a->book = opened;
    return EXIT_DONE;
}

/* Short names may happen to be words of the rule language; then long ones do. */
static exit_status open_as_said(ask *a, const char *book, const char *title,
                                const names_said *said)
{
    char *text = site_text_of(a->book.book, title, said, false);
    if (!book_fits(book, text)) {
        free(text);
        text = site_text_of(a->book.book, title, said, true);
    }
    exit_status status = open_with(a, book, text);
    free(text);
    return status;
}

/* ---- keeping it ---- */

static int write_file(const char *path, const char *text, bool over)
{
    char *folder = copy_text(path), *slash = strrchr(folder, '/');
    if (slash != NULL) *slash = 0;
    int error = slash != NULL && *folder != 0 ? make_folders(folder) : 0;
    free(folder);
    return error != 0 ? error : write_whole(path, text, strlen(text), 0666, over);
}

static bool may_write_over(ask *a, const char *path)
{
    static const char *const names[] = {"leave", "over"};
    static const char *const choices[] = {"Leave it as it is", "Write over it"};
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING) {
        say_nothing(&a->s);
        ask_for(a, "site-over", "%s is there already.", path);
        chosen = choose_one(a, names, choices, 2, offered);
    }
    return chosen == 1;
}

/* Whether it is in the file now. */
static bool keep_in(ask *a, const char *path)
{
    const char *text = a->book.site_text;
    int error = write_file(path, text, false);
    if (error == EEXIST) {
        if (!may_write_over(a, path)) return false;
        error = write_file(path, text, true);
    }
    if (error != 0) {
        complain("%s: %s", path, strerror(error));
        return false;
    }
    a->site_path = realpath(path, NULL);
    char *shown = short_path(path);
    say_note(a, "It is written. You can change it with any editor: %s", shown);
    free(shown);
    return true;
}

/* "~/x" means what it means in a shell. Null: left empty. Freed by the caller. */
static char *ask_path(ask *a)
{
    say_nothing(&a->s);
    static const char prompt[] =
        "Which file? Type its path, such as north.yaml. Leave it empty to go back.";
    say(&a->s, "%s", prompt);
    char *line = hear_words(a, "site-path", prompt);
    const char *home = getenv("HOME");
    bool empty = line == NULL || *line == 0;
    bool at_home = !empty && strncmp(line, "~/", 2) == 0 && home != NULL;
    char *path = empty ? NULL : at_home ? format_text("%s%s", home, line + 1) : copy_text(line);
    free(line);
    return path;
}

static void say_how_next_time(const ask *a, const char *book)
{
    char *word = shell_word(book), *path = shell_word(a->site_path);
    char *command = format_text("telltale ask %s --site %s", word, path);
    say(&a->s, "Next time:");
    say_command(&a->s, command);
    free(command);
    free(path);
    free(word);
}

static bool keep_elsewhere(ask *a, const char *book)
{
    char *path = ask_path(a);
    bool kept = path != NULL && keep_in(a, path);
    if (kept) say_how_next_time(a, book);
    free(path);
    return kept;
}

static void offer_to_keep(ask *a, const char *book)
{
    char *usual = site_file_usual(a->book.folder);
    char *shown = short_path(usual != NULL ? usual : "");
    char *here = format_text("Yes, in %s", shown);
    free(shown);
    static const char *const names[] = {"here", "elsewhere", "no"};
    const char *choices[] = {here, "Yes, in another file", "No, only for this case"};
    unsigned left_out = usual == NULL ? 1 : 0;
    for (bool done = false; !done && a->leaving == STAYING;) {
        say_nothing(&a->s);
        ask_for(a, "site-keep", "Keep this, so that nobody is asked again?");
        int chosen = choose_one(a, names + left_out, choices + left_out, 3 - left_out, offered);
        if (chosen >= 0) chosen += (int)left_out;
        if (chosen == 0) done = keep_in(a, usual);
        if (chosen == 1) done = keep_elsewhere(a, book);
        if (chosen == 2) done = true;
    }
    free(here);
    free(usual);
}

/* To the file named on the command line; if that fails, as if none had been. */
static void keep(ask *a, const char *book, const char *path)
{
    if (path != NULL && keep_in(a, path)) return;
    if (a->leaving == STAYING && (path != NULL || !is_given(a->line, OPTION_UNSAVED)))
        offer_to_keep(a, book);
}

exit_status describe_site(ask *a, const char *book, const char *path)
{
    uint32_t kinds = tt_kind_count(a->book.book);
    names_said *said = take_memory(kinds * sizeof *said);
    exit_status status = EXIT_DONE;
    char *title = ask_title(a);
    for (uint32_t i = 0; i < kinds && a->leaving == STAYING; i++) {
        tt_kind kind = tt_kind_show(a->book.book, i);
        ask_kind(a, &kind, &said[i]);
    }
    if (a->leaving == STAYING) status = open_as_said(a, book, title, said);
    if (a->leaving == STAYING && status == EXIT_DONE) keep(a, book, path);
    if (a->leaving != STAYING) status = left_before_case(a);
    for (uint32_t i = 0; i < kinds; i++) names_free(&said[i]);
    free(said);
    free(title);
    return status;
}
