/* What the files about syntax errors share. Each explain_... takes one complaint of the parser for
 * the mistake that most often lies behind it. */
#ifndef TT_LOAD_SYNTAX_H
#define TT_LOAD_SYNTAX_H

#include <stdbool.h>
#include <stdint.h>

#include "base/faults.h"
#include "load/events.h"

typedef struct syntax {
    str bytes;
    const source *source;
    uint32_t file;
    const events *seen;
    uint32_t at, context; /* where the parser stopped; where that began which it could not finish */
    faults *list;
} syntax;

/* ---- syntax_parts.c ---- */
span to_line_end(const syntax *x, uint32_t start);
str text_at(const syntax *x, span at);
char byte_at(const syntax *x, uint32_t i); /* NUL behind the end */
void help_quotes(const syntax *x, fault *f, const char *lead, str text);
void explain_otherwise(const syntax *x);
const event *last_read(const syntax *x); /* or null */

/* ---- syntax_texts.c: colons, signs, quotes ---- */
void report_missing_colon(const syntax *x, uint32_t start);
void report_colon_in_text(const syntax *x, uint32_t start);
void explain_no_space(const syntax *x);
void explain_colon(const syntax *x);
void explain_missing_colon(const syntax *x);
void report_sign(const syntax *x, uint32_t start);
void explain_token(const syntax *x);
void explain_tab(const syntax *x);
void explain_sign(const syntax *x);
void explain_context_sign(const syntax *x);
void explain_dash(const syntax *x);
void explain_open_quote(const syntax *x);
void explain_escape(const syntax *x);
void report_after_quote(const syntax *x, const event *quoted);

/* ---- syntax_layout.c: brackets, and lines that fit nowhere ---- */
void explain_flow(const syntax *x);
void explain_node(const syntax *x);
void explain_place(const syntax *x);
void explain_second_document(const syntax *x);

#endif
