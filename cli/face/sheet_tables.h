/* The tables and lists of a sheet; each is left out where there is nothing to tell. And what is
 * needed to fill a paper from a sheet. */
#ifndef TT_CLI_SHEET_TABLES_H
#define TT_CLI_SHEET_TABLES_H

#include <jansson.h>
#include <stdbool.h>

#include "face/paper.h"

piece_of_text our_text(const char *text);
piece_of_text rule_text(const char *text);
bool sheet_says(const json_t *object, const char *key); /* true stands there */
bool sheet_counts(const json_t *step);                  /* neither taken back nor left out */
char *sheet_joined(const json_t *texts);                /* "one, two"; freed by the caller */
bool sheet_is_cured(const json_t *sheet);

void put_causes(const paper *p, const json_t *sheet); /* with a picture */
void put_parts(const paper *p, const json_t *sheet);
void put_tried(const paper *p, const json_t *sheet);
void put_changes(const paper *p, const json_t *sheet);
void put_fixes(const paper *p, const json_t *sheet);
void put_steps(const paper *p, const json_t *sheet);
void put_what_follows(const paper *p, const json_t *sheet);
void put_site_facts(const paper *p, const json_t *sheet);

#endif
