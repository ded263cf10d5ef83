/* Who works on a case, as its records and the locks say together. A courtesy: nobody is kept out. */
#ifndef TT_CLI_CASE_PEOPLE_H
#define TT_CLI_CASE_PEOPLE_H

#include "host/case_file.h"

/* Puts who is here, and on which machine, into a record's data: {"by", "on"}. `name`: as they want to be called; null or "":
 * by their login name. */
void add_person(json_t *data, const char *name);
/* Who added the record, as he called himself then; "somebody" if he never did. Valid until the file is read again. */
const char *case_record_person(const case_file *file, const case_record *record);
/* The machine, or "". */
const char *case_record_place(const case_file *file, const case_record *record);

/* A writer other than ours who has the case open, or null. `sure`: a program of this machine, or one
 * that shares locks with it, has it open now; else its records say that it was opened, and not that
 * it was left. The record is the one with which it was opened. Start with *index 0. */
const case_record *case_next_holder(const case_file *file, size_t *index, bool *sure);

/* "09:12", or "2026-11-25 09:12" if that was not today; freed by the caller. */
char *moment_words(const char *time);
/* Minutes from a record's time until now; 0 if it is in the future or can't be read. */
double minutes_since(const char *time);

#endif
