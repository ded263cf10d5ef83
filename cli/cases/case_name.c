#include "cases/case_name.h"

#include <stdlib.h>
#include <string.h>

#include "host/memory.h"
#include "host/own_folder.h"
#include "host/plain_text.h"
#include "host/screen.h"

char *cases_usual_root(void)
{
    const char *home = getenv("HOME");
    return home != NULL && *home == '/' ? format_text("%s/.local/share/telltale/cases", home)
                                        : NULL;
}

char *cases_root(const char *given)
{
    if (given == NULL) given = getenv("TELLTALE_CASES");
    if (given != NULL && *given != 0) return copy_text(given);
    char *usual = own_path(OWN_DATA, "cases");
    if (usual != NULL) return usual;
    complain("there is no home folder to keep cases in. Name one with --cases FOLDER, or keep "
             "nothing with --unsaved");
    return NULL;
}

void case_name_of_id(const char *id, case_name *out)
{
    *out = (case_name){.folder = ""};
    memcpy(out->id, id, TT_CASE_ID_SIZE);
    tt_case_number(id, LEAST_DIGITS, out->number);
}

exit_status case_number_typed(const char *typed, char number[TT_CASE_NUMBER_SIZE])
{
    tt_number_read read = tt_case_number_read(typed, number);
    if (read == TT_NUMBER_READ) return EXIT_DONE;
    complain(read == TT_NUMBER_WRONG_LETTER
                 ? "%s can't be right: the letter doesn't fit the digits. Please look at the "
                   "number again"
                 : "%s is no case number. One looks like 483201K: six digits and a letter",
             typed);
    return EXIT_USAGE;
}
