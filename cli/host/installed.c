#include "host/installed.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#ifdef __APPLE__
#include <mach-o/dyld.h>
#endif

#include "host/files.h"
#include "host/plain_text.h"

enum { LONGEST_PATH = 4096 };

/* The running program itself, links resolved; null where the system does not say. Freed by the
 * caller. */
static char *own_path(void)
{
    char path[LONGEST_PATH];
#ifdef __APPLE__
    uint32_t size = sizeof path;
    return _NSGetExecutablePath(path, &size) == 0 ? real_path(path) : NULL;
#else
    const ssize_t length = readlink("/proc/self/exe", path, sizeof path - 1);
    if (length <= 0) return NULL;
    assert((size_t)length < sizeof path);
    path[length] = 0;
    return real_path(path); /* null: it was deleted or replaced while it runs */
#endif
}

char *installed_folder(const char *folder)
{
    assert(folder != NULL && *folder != 0);
    if (*folder == '/') return copy_text(folder);
    char *own = own_path();
    char *beside = own != NULL ? folder_above(own) : copy_text(TELLTALE_BIN_DIR);
    char *path = format_text("%s/%s", beside, folder);
    char *plain = real_path(path); /* without the .. in it, for people */
    free(beside);
    free(own);
    if (plain == NULL) return path;
    free(path);
    return plain;
}
