/* What a face shows of facts that it is given, as one text. */
#ifndef TT_TESTS_CLI_SHOWN_TEXT_H
#define TT_TESTS_CLI_SHOWN_TEXT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "host/memory.h"
#include "host/screen.h"

typedef struct shown_text {
    memory_stream kept;
    screen on;
} shown_text;

/* width: 0 for lines as long as they come. */
static inline shown_text *show_at(unsigned width)
{
    shown_text *s = calloc(1, sizeof *s);
    assert_non_null(s);
    memory_stream_begin(&s->kept);
    s->on = (screen){.out = s->kept.stream, .width = width};
    return s;
}

/* All of it. It lives until shown_free. */
static inline const char *shown(shown_text *s)
{
    fputc(0, s->kept.stream);
    memory_stream_close(&s->kept);
    return s->kept.bytes;
}

static inline void shown_free(shown_text *s)
{
    memory_stream_free(&s->kept);
    free(s);
}

static inline void assert_shows(const char *text, const char *part)
{
    if (strstr(text, part) != NULL) return;
    fprintf(stderr, "%s\n", text); /* cmocka shows no long texts */
    fail_msg("this lacks \"%s\"", part);
}

static inline void assert_shows_not(const char *text, const char *part)
{
    if (strstr(text, part) == NULL) return;
    fprintf(stderr, "%s\n", text);
    fail_msg("this has \"%s\"", part);
}

#endif
