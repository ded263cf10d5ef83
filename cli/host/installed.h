/* Where the files lie that came with the program. A build may be installed anywhere, and moved
 * later: they are looked for from where the program lies. */
#ifndef TT_CLI_INSTALLED_H
#define TT_CLI_INSTALLED_H

/* `folder`: as the build names it, absolute or seen from the program's own folder. Freed by the
 * caller. */
char *installed_folder(const char *folder);

#endif
