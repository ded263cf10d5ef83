/* A case as it stands, for people and programs: gathered once (docs/sheet.schema.json says what it
 * holds), then written as JSON, as a page or as Markdown. All texts in it are clean. */
#ifndef TT_CLI_SHEET_H
#define TT_CLI_SHEET_H

#include <jansson.h>
#include <stdio.h>

#include "ask.h"
#include "paper.h"

/* What was said and done, as the records say it, gathered while they are replayed. */
typedef struct sheet_steps {
    json_t *items;    /* one for each record, in order */
    size_t *records;  /* [item] which record it is */
    json_t *cautions; /* with the moment when each was shown first */
    size_t next;      /* the first record that was not seen yet */
    tt_complaint *complaints;
    uint32_t complaint_count;
} sheet_steps;
sheet_steps sheet_steps_begin(void);
void sheet_steps_end(sheet_steps *steps);
void sheet_record_seen(void *steps, ask *a, const case_record *record, bool taken);
/* When all was replayed: marks what does not count any more. */
void sheet_steps_finish(sheet_steps *steps, ask *a);

/* The whole sheet of a case that was replayed. Null after saying what failed. */
json_t *sheet_of_case(ask *a, const sheet_steps *steps);

/* As a page or as Markdown. */
void sheet_on_paper(FILE *out, const paper_kind *kind, const json_t *sheet);

/* ---- what its parts share ---- */

json_t *clean_json(const char *text);                          /* a string; null for null */
const char *sheet_text(const json_t *object, const char *key); /* "" if there is none */
/* "open", "closed: the trouble is gone" and so on, in words. */
const char *sheet_state_words(const json_t *sheet);

#endif
