#include "host/settings.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "host/door.h"
#include "host/files.h"
#include "host/own_folder.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum { LARGEST_FILE = 1 << 16, IN_FOLDER = 0, OF_PERSON = 1, OF_SYSTEM = 2, FILES = 3 };

#define SETTING_ENTRY(option, environment, verbs, by_folder, otherwise) \
    {option, environment, verbs, by_folder, otherwise, NULL, NULL, false},
static const setting setting_table[SETTINGS] = {SETTING_TABLE(SETTING_ENTRY)};

/* ---- where ---- */

/* In the first of the system's folders that has one, as the XDG base directory specification says:
 * a desktop puts folders of its own before the usual one. What is not named whole is passed over.
 */
static char *system_file(void)
{
    const char *folders = getenv("XDG_CONFIG_DIRS");
    char *first = NULL;
    if (folders == NULL || *folders == 0) folders = "/etc/xdg";
    for (const char *at = folders; *at != 0; at += *at == ':') {
        const size_t length = strcspn(at, ":");
        char *path = *at == '/' ? format_text("%.*s/telltale/settings", (int)length, at) : NULL;
        at += length;
        if (path == NULL) continue;
        if (access(path, F_OK) == 0) {
            free(first);
            return path;
        }
        if (first == NULL)
            first = path;
        else
            free(path);
    }
    return first != NULL ? first : copy_text("/etc/xdg/telltale/settings");
}

/* ---- one file ---- */

static exit_status refuse(const char *path, unsigned line, const char *why)
{
    complain("%s:%u: %s", path, line, why);
    return EXIT_BAD_DATA;
}

/* A number sign begins a comment, but not within a word: folders and names may hold one. */
static void cut_comment(char *text)
{
    for (char *at = text; *at != 0; at++) {
        const bool apart = at == text || at[-1] == ' ' || at[-1] == '\t';
        if (*at != '#' || !apart) continue;
        *at = 0;
        return;
    }
}

static setting *setting_named(settings *s, const char *name)
{
    for (int i = 0; i < SETTINGS; i++)
        if (strcmp(option_table[s->all[i].option].name, name) == 0) return &s->all[i];
    return NULL;
}

/* A folder of cases means the same wherever one stands. */
static char *value_meant(const setting *s, const char *written)
{
    if (s->option != OPTION_CASES || *written == '/' || strstr(written, "://") != NULL)
        return copy_text(written);
    return begins_at_home(written) ? path_at_home(written) : NULL;
}

/* Why it is no folder. */
static const char *no_folder(const char *written)
{
    const bool own = written[0] == '~' && (written[1] == '/' || written[1] == 0);
    return own ? "~ stands for no folder here: HOME is not set, or is not written from / on. "
                 "Write the folder from / on"
               : "cases lie in a folder that is named whole: write it from / or ~/ on";
}

static exit_status take_line(settings *s, int file, unsigned number, char *text)
{
    const char *path = s->files[file];
    cut_comment(text);
    char *line = trim_text(text), *colon = strchr(line, ':');
    exit_status status = EXIT_DONE;
    if (*line != 0 && colon == NULL) {
        status = refuse(path, number, "a line reads 'key: value', such as 'language: es'");
    } else if (*line != 0) {
        *colon = 0;
        char *value = trim_text(colon + 1), *meant = NULL;
        setting *one = setting_named(s, line);
        if (one == NULL)
            status = refuse(path, number,
                            "there is no such setting. There are: as, name, language, cases");
        else if (*value == 0)
            status = refuse(path, number, "the value is missing behind the colon");
        else if (file == IN_FOLDER && !one->by_folder)
            status = refuse(path, number,
                            "a folder can't set who asks: put it into your own file (telltale "
                            "settings names it)");
        else if (file == IN_FOLDER && strstr(value, "://") != NULL)
            status = refuse(path, number,
                            "a folder can't send cases to another machine: put it into your own "
                            "file (telltale settings names it)");
        else if (one->option == OPTION_LANGUAGE && !is_language_tag(value))
            status = refuse(path, number, "that is no language tag; write en, or de-CH");
        else if ((meant = value_meant(one, value)) == NULL)
            status = refuse(path, number, no_folder(value));
        else if (one->value == NULL) {
            one->value = meant;
            one->from = format_text("%s:%u", path, number);
            one->in_folder = file == IN_FOLDER;
            meant = NULL;
        }
        free(meant);
        free(value);
    }
    free(line);
    return status;
}

/* Nor can somebody have settled anything in a folder that is not theirs to look into: another's
 * home, which a login that was changed still has. */
static bool is_not_there(const char *path, int error)
{
    return error == ENOENT || error == ENOTDIR || (error == EACCES && access(path, F_OK) != 0);
}

/* Some editors put three bytes before a text that say it is UTF-8: they mean nothing more. */
static char *without_mark(char *text)
{
    return strncmp(text, "\xEF\xBB\xBF", 3) == 0 ? text + 3 : text;
}

/* The line of the first byte that no text in UTF-8 has: another encoding, or no text at all. 0:
 * none. */
static unsigned odd_line(const char *bytes, size_t length)
{
    unsigned line = 1;
    for (const char *at = bytes; at < bytes + length;) {
        const char *before = at;
        if (*at == '\n') line++;
        if (next_code_point(&at) == 0xFFFD || at == before) return line;
    }
    return 0;
}

static exit_status take_lines(settings *s, int file, char *text)
{
    exit_status status = EXIT_DONE;
    char *at = without_mark(text);
    for (unsigned number = 1; status == EXIT_DONE && *at != 0; number++) {
        char *end = at + strcspn(at, "\n");
        const bool last = *end == 0;
        *end = 0;
        status = take_line(s, file, number, at);
        at = last ? end : end + 1;
    }
    return status;
}

static exit_status read_file(settings *s, int file)
{
    door_fault fault;
    char *bytes = NULL;
    if (s->files[file] == NULL) return EXIT_DONE;
    const int fd = door_open_file(AT_FDCWD, s->files[file], LINKS_FOLLOWED, &fault);
    if (fd < 0)
        return is_not_there(s->files[file], fault.error) ? EXIT_DONE
                                                         : say_door_fault(s->files[file], &fault);
    const ssize_t length = read_descriptor(fd, LARGEST_FILE, &bytes);
    const int error = errno;
    close(fd);
    if (length < 0) return say_file_failure(s->files[file], error);
    bytes[length] = 0; /* there is room for it */
    const unsigned odd = odd_line(bytes, (size_t)length);
    const exit_status status =
        odd == 0 ? take_lines(s, file, bytes)
                 : refuse(s->files[file], odd, "that is no plain text. Save the file as UTF-8");
    free(bytes);
    return status;
}

/* ---- all of them ---- */

exit_status settings_read(settings *out)
{
    *out = (settings){.files = {[IN_FOLDER] = copy_text("telltale.settings"),
                                [OF_PERSON] = own_path(OWN_SETTINGS, "settings"),
                                [OF_SYSTEM] = system_file()}};
    memcpy(out->all, setting_table, sizeof setting_table);
    for (int i = 0; i < SETTINGS; i++) {
        const char *value = getenv(out->all[i].environment);
        if (value == NULL || *value == 0) continue;
        const bool at_home = out->all[i].option == OPTION_CASES && begins_at_home(value);
        out->all[i].value = at_home ? path_at_home(value) : copy_text(value);
        if (out->all[i].value == NULL) {
            complain("%s=%s: %s", out->all[i].environment, value, no_folder(value));
            return EXIT_USAGE;
        }
        out->all[i].from = format_text("the environment, %s", out->all[i].environment);
    }
    exit_status status = EXIT_DONE;
    for (int file = 0; file < FILES && status == EXIT_DONE; file++) status = read_file(out, file);
    return status;
}

/* Where one happens to stand is no place to keep what was said without a word of it. */
static void tell_place(const setting *cases, unsigned verb, const command_line *line)
{
    const bool keeps = (verb & (FOR_TALKS | FOR_DESK)) != 0 && !is_given(line, OPTION_UNSAVED) &&
                       !is_given(line, OPTION_CASES);
    if (keeps && cases->in_folder)
        complain("cases are kept in %s, as %s says", cases->value, cases->from);
}

void settings_apply(const settings *s, unsigned verb, command_line *line)
{
    for (int i = 0; i < SETTINGS; i++) {
        const setting *one = &s->all[i];
        assert(one->option < OPTION_COUNT);
        if (one->value == NULL || (one->verbs & verb) == 0) continue;
        if (one->option == OPTION_CASES) {
            tell_place(one, verb, line);
            setenv(one->environment, one->value,
                   1); /* whoever looks for cases asks there, and a folder may be named as a word */
        } else if (is_given(line, OPTION_JSON)) {
            continue; /* a program speaks for somebody else than whose settings these are */
        } else if (!is_given(line, one->option) && (option_table[one->option].verbs & verb) != 0) {
            line->values[one->option] = one->value;
        }
    }
}

void settings_free(settings *s)
{
    for (int i = 0; i < SETTINGS; i++) {
        free(s->all[i].value);
        free(s->all[i].from);
    }
    for (int i = 0; i < FILES; i++) free(s->files[i]);
}
