/* A case as it stands, gathered once for people and programs: docs/sheet.schema.json says what a sheet holds. */
#ifndef TT_CLI_SHEET_CASE_H
#define TT_CLI_SHEET_CASE_H

#include <jansson.h>

#include "ask/ask.h"

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

#endif
