#include "books/site_file.h"

#include <stdlib.h>
#include <string.h>

#include "host/own_folder.h"
#include "host/plain_text.h"

char *site_file_usual(const char *book_folder)
{
    const char *slash = strrchr(book_folder, '/');
    const char *name = slash != NULL ? slash + 1 : book_folder;
    char *folder = own_path(OWN_SETTINGS, "sites");
    if (folder == NULL) return NULL;
    char *path = format_text("%s/%s.yaml", folder, *name != 0 ? name : "book");
    free(folder);
    return path;
}
