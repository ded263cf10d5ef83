/* A book as it lies in the checkout: every *.yaml of a folder, without subfolders. */
#ifndef TT_SUPPORT_BOOK_FOLDER_H
#define TT_SUPPORT_BOOK_FOLDER_H

#include "telltale.h"

/* `folder` from the top of the checkout. The test fails, and shows the report, if it does not load.
 * Freed by tt_book_free. */
tt_book *book_folder(const char *folder);
/* The same for no site: the section `site` of the book is left out. */
tt_book *book_folder_bare(const char *folder);
/* The same for the site in this file, from the top of the checkout too. */
tt_book *book_folder_at(const char *folder, const char *site);

#endif
