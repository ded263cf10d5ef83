/* Finding one's way in the lines of a file, in bytes. */
#ifndef TT_LOAD_LINES_H
#define TT_LOAD_LINES_H

#include <stdbool.h>
#include <stdint.h>

#include "base/str.h"

uint32_t line_start(str bytes, uint32_t i);
uint32_t line_end_trimmed(str bytes, uint32_t i); /* without blanks at its end; never before i */
uint32_t comment_start(str bytes, uint32_t from,
                       uint32_t to);          /* where ' #' ends what came before, or to */
uint32_t line_content(str bytes, uint32_t i); /* the first byte of the line that is not a blank */
uint32_t item_content(str bytes, uint32_t dash); /* what stands behind '- ', or '- - ' */
uint32_t indentation(str bytes, uint32_t i);     /* of the line */
uint32_t column_of(str bytes, uint32_t i);       /* from 0 */
bool crosses_line(str bytes, uint32_t from, uint32_t to);
uint32_t next_character(str bytes, uint32_t i); /* i or later, not blank; or the end */
uint32_t last_character(str bytes, uint32_t i); /* before i, not blank; or 0 */
uint32_t character_end(str bytes, uint32_t i);  /* of the UTF-8 character at i */
uint32_t escape_end(str bytes, uint32_t i);     /* after hexadecimal digits */

#endif
