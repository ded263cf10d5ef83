/* Worked cases as JUnit XML, the form in which servers that build software take the results of
 * tests. */
#include "face/trials.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"

/* Characters that XML 1.0 has a meaning for, or no place for, are written otherwise. */
static void put_text(const char *text)
{
    char *clean = clean_text(text);
    for (const char *at = clean; *at != 0; at++) {
        const char *written = *at == '&'   ? "&amp;"
                              : *at == '<' ? "&lt;"
                              : *at == '>' ? "&gt;"
                              : *at == '"' ? "&quot;"
                                           : NULL;
        if (written != NULL)
            fputs(written, stdout);
        else
            putchar(*at);
    }
    free(clean);
}

static void put_attribute(const char *name, const char *text)
{
    printf(" %s=\"", name);
    put_text(text);
    putchar('"');
}

/* "cases/air-cases.yaml:41" */
static void put_place(const char *at)
{
    const char *colon = strrchr(at, ':');
    if (colon == NULL) return;
    char *file = copy_text(at);
    file[colon - at] = 0;
    put_attribute("file", file);
    put_attribute("line", colon + 1);
    free(file);
}

static void put_case(const char *title, const tt_trial *trial)
{
    printf("    <testcase");
    put_attribute("classname", title);
    put_attribute("name", trial->name);
    put_place(trial->at);
    if (trial->passed) {
        puts("/>");
        return;
    }
    printf(">\n      <failure");
    put_attribute("message", trial->why);
    printf(" type=\"expectation\">");
    put_text(trial->at);
    printf(": ");
    put_text(trial->why);
    puts("</failure>\n    </testcase>");
}

void print_junit(const tt_book *book, const tt_trials *trials)
{
    const char *title = tt_book_describe(book).title;
    const unsigned failed = trials->count - trials->passed;
    puts("<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
    printf("<testsuites tests=\"%u\" failures=\"%u\" errors=\"0\">\n  <testsuite", trials->count,
           failed);
    put_attribute("name", title);
    printf(" tests=\"%u\" failures=\"%u\" errors=\"0\" skipped=\"0\">\n", trials->count, failed);
    for (uint32_t i = 0; i < trials->count; i++) put_case(title, &trials->items[i]);
    puts("  </testsuite>\n</testsuites>");
}
