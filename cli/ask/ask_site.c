/* Which site a case is about, from its beginning to its end. */
#include "ask/ask_site.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "ask/case_replay.h"
#include "host/begin_case.h"
#include "host/files.h"
#include "host/json_parts.h"
#include "host/plain_text.h"
#include "host/site_file.h"
#include "host/site_text.h"

/* ---- at the beginning ---- */

static exit_status open_file(ask *a, const char *book, const char *path)
{
    book_close(&a->book);
    exit_status status = book_open_at(book, path, &a->book);
    free(a->site_path);
    a->site_path = status == EXIT_DONE ? realpath(path, NULL) : NULL;
    return status;
}

exit_status left_before_case(const ask *a)
{
    if (a->leaving == LEAVING_FAILED) return a->failure;
    say_nothing(&a->s);
    say(&a->s, "No case was begun.");
    return EXIT_UNFINISHED;
}

/* Until one is chosen or the person leaves: -1. */
static int choose(ask *a, const char *kind, const char *question, const char *const *names,
                  const char *const *choices, unsigned count)
{
    int chosen = -1;
    while (chosen < 0 && a->leaving == STAYING) {
        say_nothing(&a->s);
        ask_for(a, kind, "%s", question);
        chosen = choose_one(a, names, choices, count, 1 << WORD_STOP | 1 << WORD_HELP);
    }
    return a->leaving == STAYING ? chosen : -1;
}

/* --site FILE, and there is no such file: to be written, or a slip. */
static exit_status begin_file(ask *a, const char *book, const char *path)
{
    static const char *const names[] = {"stop", "say"};
    static const char *const choices[] = {"Stop here",
                                          "Ask me what is there, and write it to this file"};
    exit_status status = book_open(book, NULL, &a->book);
    if (status != EXIT_DONE) return status;
    if (tt_kind_count(a->book.book) == 0) return say_file_failure(path, ENOENT);
    char *question = format_text("%s: there is no such file.", path);
    int chosen = choose(a, "site-file", question, names, choices, 2);
    free(question);
    if (chosen == 0 || a->leaving == LEAVING_ENDED) return say_file_failure(path, ENOENT);
    return chosen < 0 ? left_before_case(a) : describe_site(a, book, path);
}

static exit_status ask_what_is_there(ask *a, const char *book)
{
    if (!is_given(a->line, OPTION_NO_INPUT)) return describe_site(a, book, NULL);
    complain("these rules need to know what equipment there is: add --site FILE");
    return EXIT_USAGE;
}

/* With the book open for its own site, or for none. */
static exit_status without_file(ask *a, const char *book)
{
    bool asks = tt_kind_count(a->book.book) > 0;
    if (!asks || tt_book_describe(a->book.book).has_site) return EXIT_DONE;
    return ask_what_is_there(a, book);
}

/* A file that was written earlier: taken, or something else instead. */
static exit_status offer_file(ask *a, const char *book, const char *path)
{
    enum { TAKE, OWN, SAY };
    const char *choices[3] = {"Take this file"}, *names[3] = {"take"};
    unsigned count = 1, meant[3] = {TAKE};
    tt_book_info info = tt_book_describe(a->book.book);
    bool asks = tt_kind_count(a->book.book) > 0;
    if (is_given(a->line, OPTION_NO_INPUT)) return open_file(a, book, path);
    if (info.has_site || !asks) {
        meant[count] = OWN;
        names[count] = "leave";
        choices[count++] = info.has_site ? "Take the example in the book" : "Leave it out";
    }
    if (asks) {
        meant[count] = SAY;
        names[count] = "say";
        choices[count++] = "No, I say what is there";
    }
    if (!a->cautions_seen) show_book_cautions(a);
    char *shown = short_path(path);
    char *question = format_text("What is there was kept in %s.", shown);
    int chosen = choose(a, "site-file", question, names, choices, count);
    free(question);
    free(shown);
    if (chosen < 0) return left_before_case(a);
    if (meant[chosen] == OWN) return EXIT_DONE;
    return meant[chosen] == SAY ? describe_site(a, book, NULL) : open_file(a, book, path);
}

exit_status open_for_site(ask *a, const char *book)
{
    const char *given = a->line->values[OPTION_SITE];
    bool may_write = given != NULL && !is_given(a->line, OPTION_NO_INPUT);
    if (may_write && access(given, F_OK) != 0 && errno == ENOENT)
        return begin_file(a, book, given);
    if (given != NULL) return open_file(a, book, given);
    exit_status status = book_open(book, NULL, &a->book);
    if (status != EXIT_DONE) return status;
    char *kept = site_file_usual(a->book.folder);
    bool found = kept != NULL && access(kept, R_OK) == 0;
    status = found ? offer_file(a, book, kept) : without_file(a, book);
    free(kept);
    return status;
}

/* ---- taking up again ---- */

static const char *text_of(const json_t *data, const char *key)
{
    return json_string_value(json_object_get(data, key));
}

exit_status site_open_as_kept(ask *a, const char *book, const json_t *site)
{
    const char *text = text_of(site, "text");
    if (text == NULL) {
        complain("the case does not hold its site any more: add --site FILE");
        return EXIT_BAD_DATA;
    }
    tt_source source = {.name = "the site kept in the case", .bytes = text, .length = strlen(text)};
    return book_open(book, &source, &a->book);
}

exit_status open_for_site_again(ask *a, const char *book)
{
    const char *given = a->line->values[OPTION_SITE];
    const json_t *site = case_last_site(a->file);
    const char *path = site != NULL ? text_of(site, "path") : NULL;
    if (given != NULL) return open_file(a, book, given);
    if (site == NULL) return book_open(book, NULL, &a->book);
    if (path != NULL && access(path, F_OK) == 0) return open_file(a, book, path);
    if (path != NULL)
        say_note(a, "%s is not there any more. The case goes on with what it said.", path);
    return site_open_as_kept(a, book, site);
}

bool is_other_site(const ask *a)
{
    const json_t *site = case_last_site(a->file);
    const char *revision = site != NULL ? text_of(site, "revision") : "";
    return revision == NULL || strcmp(revision, a->book.site_revision) != 0;
}

json_t *site_record(const ask *a)
{
    if (a->book.site_text == NULL) return json_null();
    json_t *site = json_object();
    json_object_set_new(site, "path",
                        a->site_path != NULL ? json_string(a->site_path) : json_null());
    json_object_set_new(site, "revision", json_string(a->book.site_revision));
    json_object_set_new(site, "text", json_string(a->book.site_text));
    return site;
}

void show_site(ask *a)
{
    tt_book_info info = tt_book_describe(a->book.book);
    if (!info.has_site) return;
    turn_put(a->turn, "site", site_json(&a->book));
    say_nothing(&a->s);
    say(&a->s, "Site: %s", *info.site_title != 0 ? info.site_title : "without a name");
    if (a->book.site_text == NULL) {
        say_item(&a->s, "  ",
                 "This is the example in the book. For your own add --site FILE. If there is "
                 "no such file, you are asked what is there, and it is written.");
        return;
    }
    char *shown =
        a->site_path != NULL ? short_path(a->site_path) : copy_text("as you said, in no file");
    say_item(&a->s, "  ", "%s", shown);
    free(shown);
}

/* ---- at the end ---- */

/* As in an answers file; null if it is none that a site could give. Freed by the caller. */
static char *value_for_file(const tt_fact *fact)
{
    bool open = strcmp(fact->value, "unsure") == 0 || strcmp(fact->value, "cannot") == 0;
    if (open || (!fact->is_number && strchr(fact->value, ' ') != NULL)) return NULL;
    return fact->unit != NULL ? format_text("%s %s", fact->value, fact->unit)
                              : copy_text(fact->value);
}

static char *source_for_file(const ask *a)
{
    char day[16] = "";
    time_t now = time(NULL);
    struct tm local;
    if (localtime_r(&now, &local) != NULL) strftime(day, sizeof day, "%Y-%m-%d", &local);
    return format_text("answered%s%s on %s", a->file != NULL ? " in case " : "",
                       a->file != NULL ? case_file_number(a->file) : "", day);
}

static bool is_for_file(ask *a, const tt_fact *fact, tt_question *question)
{
    return fact->question != TT_NONE && strcmp(fact->from, "answer") == 0 &&
           tt_question_show(a->c, fact->question, question) == TT_OK && question->of_site;
}

typedef struct kept_facts {
    char *text;              /* of the file, with them in it */
    char **lines, **entries; /* as they are shown, and for the file */
    bool by_hand;            /* the file is written so that nothing can be added by lines */
    size_t count;
} kept_facts;

static kept_facts gather(ask *a, const tt_view *view)
{
    kept_facts all = {.text = copy_text(a->book.site_text)};
    char *source = source_for_file(a);
    for (uint32_t i = 0; i < view->fact_count; i++) {
        tt_question question;
        if (!is_for_file(a, &view->facts[i], &question)) continue;
        char *value = value_for_file(&view->facts[i]);
        if (value == NULL) continue;
        site_fact fact = {view->facts[i].name, value, source};
        char *longer = site_text_with(all.text, &fact);
        all.by_hand = all.by_hand || longer == NULL;
        if (longer == NULL || strcmp(longer, all.text) != 0) {
            all.lines = room_for_one(all.lines, all.count, sizeof *all.lines);
            all.entries = room_for_one(all.entries, all.count, sizeof *all.entries);
            all.entries[all.count] = format_text("%s: %s", fact.question, value);
            all.lines[all.count++] = format_text("%s %s", question.ask, view->facts[i].text);
        }
        if (longer != NULL) {
            free(all.text);
            all.text = longer;
        }
        free(value);
    }
    free(source);
    return all;
}

static void forget(kept_facts *all)
{
    for (size_t i = 0; i < all->count; i++) {
        free(all->lines[i]);
        free(all->entries[i]);
    }
    free(all->lines);
    free(all->entries);
    free(all->text);
}

/* The file must still say what it said when the case began, and be a site file with the facts in
 * it. */
static bool can_be_written(const ask *a, const char *text)
{
    tt_source now;
    if (source_read_file(a->site_path, &now) != EXIT_DONE) return false;
    bool same = strlen(a->book.site_text) == now.length &&
                memcmp(a->book.site_text, now.bytes, now.length) == 0;
    source_free(&now);
    return same && book_fits(a->book.folder, text);
}

static void keep_facts(ask *a, const kept_facts *all)
{
    if (all->by_hand || !can_be_written(a, all->text)) {
        say_note(a, "The file can't take this as it is now. Please write it there by hand:");
        for (size_t i = 0; i < all->count; i++) {
            turn_add(a->turn, "notes", json_string(all->entries[i]));
            say_item(&a->s, "  - ", "%s", all->entries[i]);
        }
        return;
    }
    int error = write_whole(a->site_path, all->text, strlen(all->text), 0666, true);
    if (error != 0) {
        complain("%s: %s", a->site_path, strerror(error));
        return;
    }
    say_note(a, "It is kept.");
    note_site(&a->book, all->text);
    json_t *data = json_object();
    json_object_set_new(data, "site", site_record(a));
    keep_note(a, "site", data);
}

void offer_to_keep_facts(ask *a)
{
    static const char *const names[] = {"yes", "no"}, *const choices[] = {"Yes", "No"};
    const tt_view *view = NULL;
    if (a->site_path == NULL || tt_look(a->c, &view) != TT_OK) return;
    kept_facts all = gather(a, view);
    leaving before = a->leaving;
    if (all.count > 0) {
        a->leaving = STAYING;
        say_nothing(&a->s);
        say_list(&a->s, "You said about the site:", (const char *const *)all.lines,
                 (unsigned)all.count);
        char *shown = short_path(a->site_path);
        char *question = format_text("Keep this for next time, in %s?", shown);
        for (size_t i = 0; i < all.count; i++) turn_add(a->turn, "facts", json_string(all.lines[i]));
        if (choose(a, "keep-facts", question, names, choices, 2) == 0) keep_facts(a, &all);
        free(question);
        free(shown);
        if (a->leaving != LEAVING_FAILED && a->leaving != LEAVING_SIGNAL) a->leaving = before;
    }
    forget(&all);
}
