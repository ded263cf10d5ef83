/* Sides of tests/bench/ratios that need more than a few lines: decisions, a reply that is kept, the
 * memory of a load. Each ends the program if what it measures is not there. */
#ifndef TT_SUPPORT_RATIO_SIDES_H
#define TT_SUPPORT_RATIO_SIDES_H

#include <stdint.h>

/* What 2,000 questions tell of so many causes, of which each lists eight: with only those looked
 * at, and with all. */
void sparse_gains(uint32_t causes);
void dense_gains(uint32_t causes);

/* One answer to a case of a made-up book with so many causes, what comes next, and the answer taken
 * back; and nothing but adding up every number in that book's tables. */
void next_step(uint32_t causes);
void all_rows_read(uint32_t causes);

/* All worked cases of the foam line: each as a new case with all its words, as `check` did once;
 * and one after the other in the same room, without. Both come out the same, or there is no ratio.
 */
void cases_anew(uint32_t unused);
void cases_in_one_room(uint32_t unused);

/* One reply to a talk, kept on the disk; and as many bytes, written and synced. In the working
 * directory. */
void reply_kept(uint32_t unused);
void bytes_synced(uint32_t unused);

/* What a book of so many entries fills at most while it is loaded, over the size of its file: of a
 * process of its own. */
double load_fills(uint32_t entries);

#endif
