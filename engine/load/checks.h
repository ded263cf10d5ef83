/* What is looked at beside the tree: the bytes before they are parsed, each text after, and why the parser stopped. */
#ifndef TT_LOAD_CHECKS_H
#define TT_LOAD_CHECKS_H

#include <stdbool.h>

#include "base/faults.h"
#include "load/events.h"

/* ---- byte_checks.c ---- */

/* Whether the bytes may go to the parser; says why not. */
bool check_bytes(const sources *all, uint32_t file, faults *list);

/* ---- text_checks.c: a text that was parsed; `at` is its bytes, quotes included ---- */
void check_text(const source *s, str text, node_style style, span at, faults *list);
/* A text as value or item: also what follows it on its line. */
void check_value(const source *s, str text, node_style style, span at, faults *list);

/* ---- stops.c, syntax.c: why a file was not read to its end, in the words of who writes rules ---- */
void report_stop(const source *s, uint32_t file, const events *seen, faults *list);
void report_syntax(const source *s, uint32_t file, const events *seen, faults *list);

#endif
