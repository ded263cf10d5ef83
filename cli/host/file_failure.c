/* What went wrong with a file, in words and as a status. */
#include <errno.h>
#include <string.h>

#include "host/files.h"
#include "host/plain_text.h"
#include "host/screen.h"

exit_status say_file_failure(const char *path, int error)
{
    if (error == ENOMEM) memory_ended();
    complain("%s: %s", path, strerror(error));
    if (error == ENOENT || error == ENOTDIR) return EXIT_NO_FILE;
    return error == EACCES || error == EPERM ? EXIT_NOT_ALLOWED : EXIT_IO;
}
