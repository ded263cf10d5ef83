/* How a new case is called: a UUID of version 7, so that they sort by time. */
#ifndef TT_CLI_CASE_ID_H
#define TT_CLI_CASE_ID_H

#include <stdbool.h>

#include "telltale.h"

/* Random, of this moment. False with errno if there is no randomness to be had. */
bool case_id_new(char id[TT_CASE_ID_SIZE]);

#endif
