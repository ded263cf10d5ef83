/* One tiny fixture per way to be wrong, with the exact message beside it: T120-no-space.yaml and
 * T120-no-space.expected; more files of one fixture are called T120-no-space.SOMETHING.yaml. With
 * TT_UPDATE_EXPECTED set in the environment the messages are written instead of compared, also
 * where there was none: read them then as an author would. */
#ifndef TT_SUPPORT_FAULT_FILES_H
#define TT_SUPPORT_FAULT_FILES_H

#include "base/arena.h"
#include "base/str.h"

/* What is said of the fixture that lies in the folder as STEM.yaml, STEM.SOMETHING.yaml; or with
 * another ending. */
typedef str (*fault_teller)(arena *keep, const char *folder, str stem);

/* Checks every fixture of the folder: the message is the expected one, and it holds the code that
 * the fixture's name begins with. A fixture without its message fails, and so does a message
 * without its fixture, and a name without a code; `helpers` lists, up to a null, the stems of files
 * that fixtures share. Returns how many failed, having said which and how. */
unsigned fault_files_check(const char *folder, const char *ending, fault_teller tell,
                           const char *const *helpers);

/* Checks that each code that begins as one of these ("T1") has a fixture; `elsewhere` lists codes
 * that other tests show. Both lists end with a null. Returns the number of codes without one,
 * having named them. */
unsigned fault_codes_without_file(const char *folder, const char *ending,
                                  const char *const *beginnings, const char *const *elsewhere);

#endif
