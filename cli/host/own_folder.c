#include "host/own_folder.h"

#include <stdlib.h>

#include "host/plain_text.h"

static const struct {
    const char *variable, *beneath_home;
} folders[] = {
    [OWN_SETTINGS] = {"XDG_CONFIG_HOME", ".config"},
    [OWN_DATA] = {"XDG_DATA_HOME", ".local/share"},
    [OWN_STATE] = {"XDG_STATE_HOME", ".local/state"},
    [OWN_CACHE] = {"XDG_CACHE_HOME", ".cache"},
};

char *own_path(own_folder sort, const char *name)
{
    const char *named = getenv(folders[sort].variable), *home = getenv("HOME");
    if (named != NULL && *named == '/') return format_text("%s/telltale/%s", named, name);
    if (home == NULL || *home != '/') return NULL;
    return format_text("%s/%s/telltale/%s", home, folders[sort].beneath_home, name);
}
