/* How a case is called: a UUID (version 7: they sort by time) in files, and for the telephone a
 * number made from it, six digits and a letter that gives a slip of the tongue away. */
#ifndef TT_CLI_CASE_NUMBER_H
#define TT_CLI_CASE_NUMBER_H

#include <stdbool.h>

enum { CASE_UUID_SIZE = 37, CASE_NUMBER_SIZE = 8 };

/* Random, of this moment. False with errno if there is no randomness to be had. */
bool case_uuid_new(char uuid[CASE_UUID_SIZE]);
bool is_case_uuid(const char *text);
void case_number_of(const char *uuid, char number[CASE_NUMBER_SIZE]); /* "483201K" */

/* What a person typed: spaces, hyphens and small letters are fine. */
typedef enum number_read { NUMBER_READ, NUMBER_NOT_ONE, NUMBER_WRONG_LETTER } number_read;
number_read case_number_read(const char *typed, char number[CASE_NUMBER_SIZE]);

#endif
