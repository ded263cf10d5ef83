/* The steps of loading one file: its bytes before they are parsed, then the tree with each of its
 * texts, or why the parser stopped. */
#ifndef TT_LOAD_CHECKS_H
#define TT_LOAD_CHECKS_H

#include <stdbool.h>

#include "base/faults.h"
#include "load/events.h"

/* ---- byte_checks.c ---- */

/* Whether the bytes may go to the parser; says why not. */
bool check_bytes(const sources *all, uint32_t file, faults *list);

/* ---- text_checks.c: a text that was parsed; `at` is its bytes, quotes included ---- */
/* One in double quotes, where letters may be written as others. */
void check_text(const source *s, str text, span at, faults *list);
/* A text as value or item: also what follows it on its line. */
void check_value(const source *s, str text, node_style style, span at, faults *list);
/* Of a plain text in one line, as it stands in the file: check_value can have nothing to say of it,
 * as of most. */
static inline bool is_fine_as_written(const source *s, str text, span at)
{
    const char last = text.p[text.n - 1];
    const bool ascii = ((unsigned char)text.p[0] & 0x80) == 0;            /* a curly quote is not */
    const bool alone = at.end >= s->bytes.n || s->bytes.p[at.end] != ' '; /* no comment behind it */
    return ascii && alone && last != ']' && last != '}';
}

/* ---- keys_once.c: says which names stand twice; returns how many entries are left, the first of
 * each name ---- */
uint32_t keys_once(arena *scratch, node_entry *entries, uint32_t count, faults *list);

/* ---- build_tree.c: of a file that was read to its end; null if it holds nothing ---- */
const node *build_tree(arena *keep, arena *scratch, const source *s, uint32_t file,
                       const events *seen, faults *list);

/* ---- stops.c, syntax.c: why a file was not read to its end, in the words of who writes rules ----
 */
void report_stop(const source *s, uint32_t file, const events *seen, faults *list);
void report_syntax(const source *s, uint32_t file, const events *seen, faults *list);

#endif
