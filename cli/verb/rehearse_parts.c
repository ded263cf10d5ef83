/* Parts of a rehearsal: written, read back and added. A part that does not belong to the others is
 * refused, since its calls would be drawn or played otherwise, or count twice. */
#include "verb/rehearse_parts.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/str.h"
#include "cases/begin_case.h"
#include "host/into.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "show/json.h"
#include "show/part_fields.h"
#include "verb/verbs.h"

enum { FIRST_FILE = 2, MOST_BYTES = 1 << 26 }; /* words: the verb, the book, then the files */

static tt_origin origin_of(const opened_book *book)
{
    return (tt_origin){book->book, book->revision, book->site_revision};
}

/* ---- written ---- */

static bool is_part(const char *bytes, size_t length)
{
    arena *keep = host_arena();
    tt_value v;
    json_fault fault;
    const bool is =
        json_read(keep, (str){bytes, length}, MOST_BYTES, &v, &fault) && rehearsal_part_is(&v);
    arena_free(keep);
    return is;
}

exit_status part_written(const command_line *line, const opened_book *book,
                         const tt_rehearsal_options *options, uint64_t first, uint64_t last,
                         tt_rehearsal *r)
{
    arena *keep = host_arena();
    const tt_origin origin = origin_of(book);
    rehearsal_part part = {.first = first, .last = last, .options = *options};
    part.role = tt_role_name(book->book, options->role == TT_NONE ? 0 : options->role);
    exit_status status = status_of(tt_rehearsal_words(r, &part.words, &part.word_count));
    if (status == EXIT_DONE) {
        const tt_value value = rehearsal_part_value(keep, &origin, &part);
        const str text = json_write_lines(keep, &value, JSON_DIGITS_EXACT, 1);
        const char *into = line->values[OPTION_INTO];
        if (into == NULL || strcmp(into, "-") == 0)
            fwrite(text.p, 1, text.n, stdout);
        else
            status = put_into(into, text.p, text.n, is_part, is_given(line, OPTION_OVERWRITE));
    }
    arena_free(keep);
    return status;
}

/* ---- read and added ---- */

typedef struct parts {
    const command_line *line;
    const opened_book *book;
    arena *keep;
    rehearsal_part *items; /* [file] */
    size_t count;
    tt_rehearsal *sum;
} parts;

static const char *file_of(const parts *p, size_t index)
{
    return p->line->words[FIRST_FILE + index];
}

static exit_status refuse(const parts *p, size_t index, const char *why)
{
    complain("%s %s", file_of(p, index), why);
    return EXIT_BAD_DATA;
}

static exit_status read_part(parts *p, size_t index)
{
    tt_source file;
    tt_value v;
    json_fault fault;
    const tt_origin origin = origin_of(p->book);
    const exit_status status = source_read_large(file_of(p, index), &file);
    if (status != EXIT_DONE) return status;
    const bool is_json = json_read(p->keep, (str){file.bytes, file.length}, MOST_BYTES, &v, &fault);
    source_free(&file);
    if (!is_json)
        return refuse(p, index,
                      "is no part of a rehearsal, or damaged: it is no JSON. A part is "
                      "what rehearse writes with --calls 1..1000");
    const char *why = rehearsal_part_read(p->keep, &origin, &v, &p->items[index]);
    return why == NULL ? EXIT_DONE : refuse(p, index, why);
}

/* All were played as the first one was. */
static exit_status compare_options(const parts *p, size_t index)
{
    const rehearsal_part *a = &p->items[0], *b = &p->items[index];
    const char *other = strcmp(a->role, b->role) != 0                      ? "--as"
                        : a->options.seed != b->options.seed               ? "--seed"
                        : a->options.misread != b->options.misread         ? "--misread"
                        : a->options.sensitivity != b->options.sensitivity ? "--sensitivity"
                        : a->options.numbers_off != b->options.numbers_off ? "--numbers-off"
                                                                           : NULL;
    if (other == NULL) return EXIT_DONE;
    complain("%s was played with another %s than %s: parts of one rehearsal have the same. Play "
             "its calls again with that of the others",
             file_of(p, index), other, file_of(p, 0));
    return EXIT_BAD_DATA;
}

static exit_status compare_calls(const parts *p, size_t index)
{
    const rehearsal_part *b = &p->items[index];
    for (size_t i = 0; i < index; i++) {
        const rehearsal_part *a = &p->items[i];
        if (b->first > a->last || a->first > b->last) continue;
        complain("%s holds calls %llu to %llu, and %s calls %llu to %llu: those in both would "
                 "count twice. Leave one out, or play calls that are in no other part",
                 file_of(p, index), (unsigned long long)b->first, (unsigned long long)b->last,
                 file_of(p, i), (unsigned long long)a->first, (unsigned long long)a->last);
        return EXIT_BAD_DATA;
    }
    return EXIT_DONE;
}

static exit_status begin_sum(parts *p, tt_rehearsal_options *options)
{
    *options = p->items[0].options;
    options->role = tt_role_find(p->book->book, p->items[0].role);
    if (options->role == TT_NONE)
        return refuse(p, 0, "is damaged: its role is none of the book's. Play its calls again");
    const tt_status status = tt_rehearsal_new(p->book->book, options, &p->sum);
    return status == TT_FAULTY ? refuse(p, 0, "is damaged. Play its calls again")
                               : status_of(status);
}

static exit_status add_part(parts *p, size_t index)
{
    const rehearsal_part *x = &p->items[index];
    const uint64_t calls = x->last - x->first + 1;
    const tt_status status = tt_rehearsal_add_words(p->sum, x->words, x->word_count, calls);
    return status == TT_FAULTY
               ? refuse(p, index,
                        "is damaged: its counts are not those that were written. Play "
                        "its calls again")
               : status_of(status);
}

static exit_status add_all(parts *p, tt_rehearsal_options *options)
{
    exit_status status = EXIT_DONE;
    for (size_t i = 0; i < p->count && status == EXIT_DONE; i++) {
        status = read_part(p, i);
        if (status == EXIT_DONE) status = compare_options(p, i);
        if (status == EXIT_DONE) status = compare_calls(p, i);
        if (status == EXIT_DONE && i == 0) status = begin_sum(p, options);
        if (status == EXIT_DONE) status = add_part(p, i);
    }
    return status;
}

exit_status parts_added(const command_line *line, const opened_book *book,
                        tt_rehearsal_options *options, tt_rehearsal **out)
{
    parts p = {.line = line, .book = book, .keep = host_arena(), .count = line->count - FIRST_FILE};
    assert(line->count > FIRST_FILE);
    p.items = ARENA_ARRAY(p.keep, rehearsal_part, p.count);
    const exit_status status = add_all(&p, options);
    if (status != EXIT_DONE) tt_rehearsal_free(p.sum);
    *out = status == EXIT_DONE ? p.sum : NULL;
    arena_free(p.keep);
    return status;
}
