/* Runs the program as a shell would, in the test's own folder. */
#ifndef TT_TESTS_CLI_RUN_TELLTALE_H
#define TT_TESTS_CLI_RUN_TELLTALE_H

#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#define WELL TT_SOURCE_DIR "/tests/cli/well"

/* The exit status of a shell command; $T is the program, $WELL a book: words are parted at line
 * ends only, so that both may hold spaces. Signals come as 128 + number, as the shell says. */
__attribute__((format(printf, 1, 2))) static inline int sh(const char *format, ...)
{
    static const char words[] = "IFS='\n'\n";
    char command[4096];
    size_t room = sizeof command - strlen(words);
    memcpy(command, words, sizeof words);
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(command + strlen(words), room, format, arguments);
    va_end(arguments);
    assert_in_range(length, 1, room - 1);
    setenv("T", TT_PROGRAM, 1);
    setenv("WELL", WELL, 1);
    int status = system(command);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

/* The whole file, freed by the caller. */
static inline char *contents(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) fail_msg("%s can't be read", path);
    char *text = calloc(1, 1 << 20);
    assert_non_null(text);
    size_t length = fread(text, 1, (1 << 20) - 1, file);
    text[length] = 0;
    fclose(file);
    return text;
}

static inline bool holds(const char *path, const char *part)
{
    char *text = contents(path);
    bool found = strstr(text, part) != NULL;
    free(text);
    return found;
}

static inline void assert_holds(const char *path, const char *part)
{
    if (holds(path, part)) return;
    char *text = contents(path);
    print_error("%s lacks \"%s\":\n%s\n", path, part, text);
    free(text);
    fail();
}

static inline void assert_same(const char *path, const char *other)
{
    char *a = contents(path), *b = contents(other);
    assert_string_equal(a, b);
    free(a);
    free(b);
}

#endif
