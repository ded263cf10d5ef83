#include "books/site_file.h"

#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"

static char *sites_folder(void)
{
    const char *config = getenv("XDG_CONFIG_HOME"), *home = getenv("HOME");
    if (config != NULL && *config == '/') return format_text("%s/telltale/sites", config);
    if (home != NULL && *home == '/') return format_text("%s/.config/telltale/sites", home);
    return NULL;
}

char *site_file_usual(const char *book_folder)
{
    const char *slash = strrchr(book_folder, '/');
    const char *name = slash != NULL ? slash + 1 : book_folder;
    char *folder = sites_folder();
    if (folder == NULL) return NULL;
    char *path = format_text("%s/%s.yaml", folder, *name != 0 ? name : "book");
    free(folder);
    return path;
}
