/* One tiny file per way to be wrong, with the exact message beside it: T120-no-space.yaml and
 * T120-no-space.expected. With TT_UPDATE_EXPECTED set in the environment the messages are written
 * instead of compared. */
#ifndef TT_SUPPORT_FAULT_FILES_H
#define TT_SUPPORT_FAULT_FILES_H

#include "base/faults.h"
#include "base/source.h"

/* Runs what is to be tested on one file (named "rules.yaml") and collects what it finds. */
typedef void (*fault_finder)(arena *keep, arena *scratch, const sources *all, faults *list);

/* Checks every .yaml file of the folder: the message is the expected one, and it holds the code
 * that the file's name begins with. Returns the number of files that failed, having said which and
 * how. */
unsigned fault_files_check(const char *folder, fault_finder find);

/* Checks that each code that begins so ("T1") has a file; `elsewhere` lists, up to a null, codes
 * that other tests show. Returns the number of codes without one, having named them. */
unsigned fault_codes_without_file(const char *folder, const char *beginning,
                                  const char *const *elsewhere);

#endif
