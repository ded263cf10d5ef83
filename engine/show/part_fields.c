/* A part of a rehearsal, written and read by one table of fields. */
#include "show/part_fields.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "show/book_fields.h"

enum { PART_VERSION = 1, WORD_DIGITS = 20 };

static const char part_kind[] = "part of a rehearsal";
static const char *const kinds[] = {part_kind};
static const name_list kind_names = {kinds, 1};

typedef struct shown_part {
    uint32_t version;
    const char *kind, *program;
    shown_book rulebook;
    const shown_site *site;
    uint64_t first, last, seed;
    const char *role;
    double misread, numbers_off;
    bool sensitivity;
    const char *const *counts;
    uint32_t counts_count;
} shown_part;

static const field part_fields[] = {
    FIELD_VERSION(shown_part, version, PART_VERSION),
    FIELD_AMONG(shown_part, kind, &kind_names, ALWAYS, 1, ""),
    FIELD(shown_part, program, FIELD_TEXT, ALWAYS, 1, "Version of telltale that played it."),
    FIELD_WITHIN(shown_part, rulebook, "rulebook", 1, &book_shape, ""),
    FIELD_THING(shown_part, site, ALWAYS, 1, &site_shape,
                "The site that the book was read for; null if there is none."),
    FIELD(shown_part, first, FIELD_TALLY, ALWAYS, 1, "Number of the first call, from 1."),
    FIELD(shown_part, last, FIELD_TALLY, ALWAYS, 1, "Number of the last call."),
    FIELD(shown_part, seed, FIELD_TALLY, ALWAYS, 1, ""),
    FIELD(shown_part, role, FIELD_TEXT, ALWAYS, 1, "Who asks."),
    FIELD_IN(shown_part, misread, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
    FIELD_IN(shown_part, numbers_off, FIELD_FIGURE, ZERO_TO_ONE, 1, ""),
    FIELD(shown_part, sensitivity, FIELD_TRUTH, ALWAYS, 1, ""),
    FIELD_ALL(shown_part, counts, FIELD_TEXTS, ALWAYS, 1, NULL,
              "What was counted, for `telltale rehearse --add` of the same version alone: whole "
              "numbers below 2^64, as texts so that no digit is lost, and a check at the end."),
};
static const shape part_shape = SHAPE("part", shown_part, part_fields, "");

static const char *const *words_as_texts(arena *keep, const uint64_t *words, uint32_t count)
{
    const char **all = ARENA_ARRAY(keep, const char *, count);
    for (uint32_t i = 0; i < count; i++)
        all[i] = str_printf(keep, "%llu", (unsigned long long)words[i]).p;
    return all;
}

tt_value rehearsal_part_value(arena *keep, const tt_origin *origin, const rehearsal_part *part)
{
    assert(part->first >= 1 && part->first <= part->last);
    assert((double)part->last <= VALUE_WHOLE_MOST &&
           (double)part->options.seed <= VALUE_WHOLE_MOST);
    const shown_part shown = {.version = PART_VERSION,
                              .kind = part_kind,
                              .program = TELLTALE_VERSION,
                              .rulebook = book_of(origin),
                              .site = site_of(keep, origin),
                              .first = part->first,
                              .last = part->last,
                              .seed = part->options.seed,
                              .role = part->role,
                              .misread = part->options.misread,
                              .numbers_off = part->options.numbers_off,
                              .sensitivity = part->options.sensitivity,
                              .counts = words_as_texts(keep, part->words, part->word_count),
                              .counts_count = part->word_count};
    return shape_value(keep, &part_shape, &shown);
}

/* ---- read back ---- */

static bool is_text(const char *a, const char *b)
{
    return a != NULL && b != NULL && strcmp(a, b) == 0;
}

bool rehearsal_part_is(const tt_value *v)
{
    return is_text(value_text(v, "kind"), part_kind);
}

static const char *not_of_this_book(arena *keep, const tt_origin *origin, const tt_value *v)
{
    const tt_value *book = value_get(v, "rulebook"), *site = value_get(v, "site");
    const shown_site *here = site_of(keep, origin);
    const char *there = value_text(site, "revision");
    if (!is_text(value_text(book, "revision"), origin->revision))
        return "is of another book, or of this book as it was before a change: play its calls "
               "again with the book as it is";
    const bool same = here == NULL || here->revision == NULL || *here->revision == 0
                          ? there == NULL || *there == 0
                          : is_text(there, here->revision);
    return same ? NULL
                : "was played for another site, or for this one as it was before a change: name "
                  "its file with --site, or play its calls again";
}

static bool read_word(const char *text, uint64_t *word)
{
    const size_t length = strlen(text);
    if (length == 0 || length > WORD_DIGITS || strspn(text, "0123456789") != length) return false;
    *word = strtoull(text, NULL, 10);
    return true;
}

static bool read_words(arena *keep, const tt_value *counts, rehearsal_part *out)
{
    if (!value_is(counts, TT_VALUE_LIST)) return false;
    uint64_t *words = ARENA_ARRAY(keep, uint64_t, counts->count);
    for (uint32_t i = 0; i < counts->count; i++)
        if (counts->items[i].kind != TT_VALUE_TEXT || !read_word(counts->items[i].text, &words[i]))
            return false;
    out->words = words;
    out->word_count = counts->count;
    return true;
}

const char *rehearsal_part_read(arena *keep, const tt_origin *origin, const tt_value *v,
                                rehearsal_part *out)
{
    uint64_t version;
    *out = (rehearsal_part){0};
    if (!rehearsal_part_is(v))
        return "is no part of a rehearsal: a part is what rehearse writes with --calls 1..1000";
    if (!value_counter(v, "version", &version) || version != PART_VERSION ||
        !is_text(value_text(v, "program"), TELLTALE_VERSION))
        return "was written by another version of telltale, which may play otherwise: play its "
               "calls again with this one";
    const char *other = not_of_this_book(keep, origin, v);
    if (other != NULL) return other;
    out->role = value_text(v, "role");
    out->options.sensitivity = value_truth(v, "sensitivity");
    const bool whole =
        out->role != NULL && value_counter(v, "first", &out->first) &&
        value_counter(v, "last", &out->last) && value_counter(v, "seed", &out->options.seed) &&
        value_number(v, "misread", &out->options.misread) &&
        value_number(v, "numbers_off", &out->options.numbers_off) && out->first >= 1 &&
        out->first <= out->last && read_words(keep, value_get(v, "counts"), out);
    return whole ? NULL : "is damaged: something of it is missing. Play its calls again";
}

static const char schema_doc[] =
    "Version 1. What `telltale rehearse --calls A..B` writes: to be kept, and added with --add by "
    "the same version of the program and with the same book, site and options.";

tt_value rehearsal_part_schema(arena *keep)
{
    return whole_schema(keep, &part_shape, "A part of a rehearsal", schema_doc);
}
