/* Parts of a rehearsal: written, read back and added. */
#ifndef TT_CLI_REHEARSE_PARTS_H
#define TT_CLI_REHEARSE_PARTS_H

#include "books/read_book.h"
#include "host/command_line.h"

/* Writes what was counted in the calls first … last, into the file of --into or on standard output.
 */
exit_status part_written(const command_line *line, const opened_book *book,
                         const tt_rehearsal_options *options, uint64_t first, uint64_t last,
                         tt_rehearsal *r);

/* The sum of the parts named behind the book, each of which says how it was played: *options are
 * theirs. *out is freed by the caller, and null unless it is EXIT_DONE. */
exit_status parts_added(const command_line *line, const opened_book *book,
                        tt_rehearsal_options *options, tt_rehearsal **out);

#endif
