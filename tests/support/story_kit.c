#include "story_kit.h"

#include <stdio.h>
#include <string.h>

#include "testing.h"

story_kit story_kit_new(const char *book_text, const char *site_text)
{
    story_kit k = {.cases = 0};
    const tt_source book = {"book.yaml", book_text, strlen(book_text)},
                    site = {"site.yaml", site_text, strlen(site_text)};
    tt_report *report;
    if (tt_book_load_at(&book, 1, &site, &k.book, &report) != TT_OK)
        fail_msg("%s", tt_report_text(report));
    tt_report_free(report);
    assert_int_equal(tt_past_new(&k.past), TT_OK);
    return k;
}

void story_kit_end(story_kit *k)
{
    tt_past_free(k->past);
    tt_book_free(k->book);
}

void story_kit_add(story_kit *k, const tt_record *records, size_t count)
{
    char number[16];
    snprintf(number, sizeof number, "%06uA", ++k->cases);
    assert_int_equal(tt_past_add(k->past, number, records, count), TT_OK);
}

tt_story *story_at(const story_kit *k, const char *now)
{
    tt_story *s;
    assert_int_equal(tt_story_new(k->book, k->past, now, NULL, &s), TT_OK);
    return s;
}

const tt_series *series_named(const tt_story *s, const char *name)
{
    const tt_site_story *out = tt_story_look(s);
    for (uint32_t i = 0; i < out->series_count; i++)
        if (strcmp(out->series[i].name, name) == 0) return &out->series[i];
    return NULL;
}
