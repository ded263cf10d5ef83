#include "ask/case_replay.h"

#include <stdlib.h>
#include <string.h>

#include "ask/ask_site.h"
#include "host/begin_case.h"
#include "host/case_folder.h"
#include "host/case_skips.h"
#include "host/plain_text.h"

static const char *text_of(const json_t *data, const char *key)
{
    return json_string_value(json_object_get(data, key));
}

const json_t *case_beginning(const case_file *file)
{
    for (size_t i = 0; i < case_file_count(file); i++)
        if (strcmp(case_file_record(file, i)->kind, "begin") == 0)
            return case_file_record(file, i)->data;
    return NULL;
}

const char *case_last_revision(const case_file *file)
{
    const char *last = "";
    for (size_t i = 0; i < case_file_count(file); i++) {
        const case_record *record = case_file_record(file, i);
        const char *revision = text_of(record->data, "revision");
        bool names_one = strcmp(record->kind, "begin") == 0 || strcmp(record->kind, "resume") == 0;
        if (names_one && revision != NULL) last = revision;
    }
    return last;
}

const json_t *case_last_site(const case_file *file)
{
    const json_t *last = NULL;
    for (size_t i = 0; i < case_file_count(file); i++) {
        const json_t *site = json_object_get(case_file_record(file, i)->data, "site");
        if (site != NULL) last = site;
    }
    return json_is_object(last) ? last : NULL;
}

static bool moves_the_case(const char *kind)
{
    return is_case_step(kind) || strcmp(kind, "back") == 0;
}

bool case_is_closed(const case_file *file)
{
    const char *last = "";
    for (size_t i = 0; i < case_file_count(file); i++) {
        const char *kind = case_file_record(file, i)->kind;
        if (moves_the_case(kind) || strcmp(kind, "begin") == 0 || strcmp(kind, "close") == 0) last = kind;
    }
    return strcmp(last, "close") == 0;
}

static bool is_confirmation(const case_record *record)
{
    return strcmp(record->kind, "confirm") == 0;
}

/* Somebody who knew of it said it anew. */
static bool is_said_anew(const case_file *file, size_t index)
{
    const case_record *record = case_file_record(file, index);
    for (size_t i = index + 1; i < case_file_count(file); i++) {
        const case_record *later = case_file_record(file, i);
        if (is_confirmation(later) && case_record_saw(later, record)) return true;
    }
    return false;
}

/* What two said who did not know of each other: null causes say nothing, and two causes are none. */
static const json_t *agreed(const json_t *one, const json_t *other)
{
    const char *cause = text_of(other, "cause"), *before = one != NULL ? text_of(one, "cause") : NULL;
    if (before == NULL) return other;
    return cause == NULL || strcmp(cause, before) == 0 ? one : NULL;
}

const json_t *case_confirmed(const case_file *file)
{
    const json_t *said = NULL;
    size_t from = 0;
    bool disputed = false;
    for (size_t i = 0; i < case_file_count(file); i++)
        if (moves_the_case(case_file_record(file, i)->kind)) from = i + 1;
    for (size_t i = from; i < case_file_count(file); i++) {
        const case_record *record = case_file_record(file, i);
        if (!is_confirmation(record) || is_said_anew(file, i)) continue;
        const json_t *both = agreed(said, record->data);
        disputed = disputed || both == NULL;
        said = both;
    }
    return disputed ? NULL : said;
}

const char *case_book(const case_file *file, const char *named)
{
    const json_t *begun = case_beginning(file);
    const char *folder = named != NULL ? named : begun != NULL ? text_of(begun, "rulebook") : NULL;
    if (begun != NULL && folder != NULL) return folder;
    complain(
        "%s does not say which book it is about. Name it: telltale ask BOOK --case ...",
        case_file_folder(file));
    return NULL;
}

static exit_status open_book(ask *a, const char *folder)
{
    const json_t *site = case_last_site(a->file);
    return site != NULL ? site_open_as_kept(a, folder, site)
                        : book_open(folder, NULL, &a->book);
}

static exit_status open_case(ask *a, const char *book)
{
    const char *folder = case_book(a->file, book);
    exit_status status = folder != NULL ? open_book(a, folder) : EXIT_BAD_DATA;
    return status == EXIT_DONE ? case_begin_again(a) : status;
}

exit_status case_begin_again(ask *a)
{
    const json_t *begun = case_beginning(a->file);
    const char *role = a->line->values[OPTION_AS], *language = a->line->values[OPTION_LANGUAGE];
    return case_begin(&a->book, role != NULL ? role : text_of(begun, "role"),
                      language != NULL ? language : text_of(begun, "language"),
                      is_given(a->line, OPTION_SOONEST) ||
                          json_is_true(json_object_get(begun, "soonest")),
                      a->asks, &a->c);
}

exit_status case_look(ask *a, const command_line *line, const char *named, const char *book,
                      record_seen *after, void *context)
{
    *a = (ask){.s = screen_on(stderr),
               .line = line,
               .question_shown = TT_NONE,
               .fix_shown = TT_NONE,
               .fix_explained = TT_NONE,
               .jump = TT_NONE,
               .danger_next = TT_NONE,
               .after_record = after,
               .after_context = context};
    char *root = cases_root(line->values[OPTION_CASES]);
    if (root == NULL) return EXIT_CANNOT_CREATE;
    exit_status status = case_file_read(root, named, &a->file);
    free(root);
    if (status == EXIT_DONE) status = open_case(a, book);
    return status == EXIT_DONE ? replay(a) : status;
}

void case_look_end(ask *a)
{
    for (size_t i = 0; i < a->caution_count; i++) free(a->cautions_shown[i]);
    free(a->cautions_shown);
    free(a->steps);
    free(a->site_path);
    tt_case_free(a->c);
    case_file_close(a->file);
    book_close(&a->book);
}
