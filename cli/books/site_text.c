#include "books/site_text.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"

enum { LONGEST_NAME = 40 };

/* ---- a text that grows ---- */

typedef struct growing {
    char *text;
    size_t length, room;
} growing;

static void grow(growing *g, const char *text)
{
    size_t more = strlen(text);
    while (g->length + more + 1 > g->room) {
        g->room = 2 * g->room + 64;
        g->text = more_memory(g->text, g->room);
    }
    memcpy(g->text + g->length, text, more + 1);
    g->length += more;
}

static void grow_freed(growing *g, char *text)
{
    grow(g, text);
    free(text);
}

/* ---- names ---- */

void names_free(names_said *names)
{
    for (size_t i = 0; i < names->count; i++) free(names->items[i]);
    free(names->items);
    *names = (names_said){.items = NULL};
}

static bool was_said(const names_said *names, const char *name)
{
    bool found = false;
    char *plain = fold_text(name);
    for (size_t i = 0; !found && i < names->count; i++) {
        char *other = fold_text(names->items[i]);
        found = strcmp(plain, other) == 0;
        free(other);
    }
    free(plain);
    return found;
}

bool names_add(names_said *names, const char *name)
{
    char *kept = trim_text(name);
    for (char *c = kept; *c != 0; c++) *c = *c == '{' ? '(' : *c == '}' ? ')' : *c;
    if (*kept == 0 || was_said(names, kept)) {
        free(kept);
        return false;
    }
    names->items = room_for_one(names->items, names->count, sizeof *names->items);
    names->items[names->count++] = kept;
    return true;
}

void names_drop_last(names_said *names)
{
    assert(names->count > 0);
    free(names->items[--names->count]);
}

static bool is_letter(char c)
{
    return c >= 'a' && c <= 'z';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Small letters and digits, a hyphen for all else; nothing else at the ends. */
static char *hyphened(const char *said)
{
    char *plain = fold_text(said), *end = plain;
    for (const char *c = plain; *c != 0; c++) {
        bool fits = is_letter(*c) || is_digit(*c);
        if (fits || (end > plain && end[-1] != '-')) *end++ = fits ? *c : '-';
    }
    while (end > plain && end[-1] == '-') end--;
    *end = 0;
    return plain;
}

/* Whether `word`, which is `length` long, is a word of `words`, which are joined by hyphens. */
static bool is_word_of(const char *word, size_t length, const char *words)
{
    for (const char *at = words; *at != 0;) {
        size_t part = strcspn(at, "-");
        if (part == length && strncmp(at, word, length) == 0) return true;
        at += part + (at[part] == '-');
    }
    return false;
}

/* "the-left-floor-applicator" → "left-floor": what all of the kind share tells nothing. */
static void strip_shared(char *name, const char *one)
{
    char *shared = hyphened(one);
    size_t first = strcspn(name, "-");
    if (name[first] == '-' && is_word_of(name, first, "the-a-an"))
        memmove(name, name + first + 1, strlen(name + first + 1) + 1);
    for (char *last; (last = strrchr(name, '-')) != NULL;) {
        if (!is_word_of(last + 1, strlen(last + 1), shared)) break;
        *last = 0;
    }
    free(shared);
}

/* Freed by the caller; not yet unique. */
static char *piece_name(const char *said, const tt_kind *kind, bool long_name)
{
    char *name = hyphened(said);
    strip_shared(name, kind->one);
    if (strlen(name) > LONGEST_NAME) name[LONGEST_NAME] = 0;
    if (*name != 0 && !is_digit(*name) && !long_name) return name;
    const char *front = *name == 0 || is_digit(*name) ? kind->name : name;
    const char *back = *name == 0 ? "" : front == name ? kind->name : name;
    char *made = format_text("%s%s%s", front, *back != 0 ? "-" : "", back);
    free(name);
    return made;
}

static char *unique_name(const names_said *used, char *name)
{
    char *made = copy_text(name);
    for (unsigned i = 2; was_said(used, made); i++) {
        free(made);
        made = format_text("%s-%u", name, i);
    }
    free(name);
    return made;
}

/* ---- YAML ---- */

/* As it stands where no letter could mean anything in YAML, else in double quotes. */
static char *yaml_text(const char *text)
{
    bool plain = *text != 0 && *text != ' ' && *text != '-';
    for (const char *c = text; plain && *c != 0; c++)
        plain = (*c & 0x80) != 0 || is_letter((char)(*c | 0x20)) || is_digit(*c) ||
                strchr(" -_./'()", *c) != NULL;
    if (plain && *text != '\'') return copy_text(text);
    char *out = take_memory(2 * strlen(text) + 3), *end = out;
    *end++ = '"';
    for (const char *c = text; *c != 0; c++) {
        if (*c == '"' || *c == '\\') *end++ = '\\';
        *end++ = *c;
    }
    *end = '"';
    return out;
}

static void write_piece(growing *g, const char *name, const char *text, const char *next)
{
    char *quoted = yaml_text(text);
    grow_freed(g, format_text("      %s:\n        text: %s\n", name, quoted));
    if (next != NULL) grow_freed(g, format_text("        comes-before: [%s]\n", next));
    free(quoted);
}

static void write_kind(growing *g, const tt_kind *kind, const names_said *said, names_said *used,
                       bool long_names)
{
    size_t first = used->count;
    for (size_t i = 0; i < said->count; i++) {
        char *name = unique_name(used, piece_name(said->items[i], kind, long_names));
        const bool added = names_add(used, name);
        assert(added);
        free(name);
    }
    grow_freed(g, format_text("    %s:%s\n", kind->name, said->count == 0 ? " {}   # none" : ""));
    for (size_t i = 0; i < said->count; i++)
        write_piece(g, used->items[first + i], said->items[i],
                    i + 1 < said->count ? used->items[first + i + 1] : NULL);
}

char *site_text_of(const tt_book *book, const char *title, const names_said *said, bool long_names)
{
    growing g = {.text = NULL};
    names_said used = {.items = NULL};
    char *comment = copy_text(tt_book_describe(book).title);
    for (char *c = comment; *c != 0; c++) *c = *c == '\n' ? ' ' : *c;
    grow_freed(&g, format_text("# What there is, for the book \"%s\".\nsite:\n", comment));
    if (*title != 0) {
        char *quoted = yaml_text(title);
        grow_freed(&g, format_text("  title: %s\n", quoted));
        free(quoted);
    }
    grow(&g, "  units:\n");
    for (uint32_t i = 0; i < tt_kind_count(book); i++) {
        tt_kind kind = tt_kind_show(book, i, NULL);
        if (!kind.unnamed) write_kind(&g, &kind, &said[i], &used, long_names);
    }
    names_free(&used);
    free(comment);
    return g.text;
}
