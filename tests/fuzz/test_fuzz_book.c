/* A rulebook: one file, or several with a line of three percent signs between them. What is wrong
 * is said; what loads can be looked at, drawn as a table, described for editors and called through.
 */
#define _GNU_SOURCE /* memmem */
#include "fuzz_target.h"

#include <stdlib.h>
#include <string.h>

#include "telltale.h"
#include "telltale_author.h"
#include "test_sources.h"

enum { MOST_FILES = 4, STEPS = 6 };

static size_t cut_files(tt_source *files, const char *bytes, size_t length)
{
    static const char *const names[MOST_FILES] = {"a.yaml", "b.yaml", "c.svg", "d.yaml"};
    static const char between[] = "\n%%%\n";
    size_t count = 0;
    for (const char *end = bytes + length; count < MOST_FILES;) {
        const char *cut = count + 1 < MOST_FILES
                              ? memmem(bytes, (size_t)(end - bytes), between, sizeof between - 1)
                              : NULL;
        files[count] =
            (tt_source){names[count], bytes, (size_t)((cut != NULL ? cut : end) - bytes)};
        count++;
        if (cut == NULL) break;
        bytes = cut + sizeof between - 1;
    }
    return count;
}

static void read_report(tt_report *report)
{
    MUST(tt_report_text(report) != NULL);
    for (uint32_t i = 0; i < tt_report_count(report); i++) {
        const tt_fault f = tt_report_fault(report, i);
        tt_remark remark;
        MUST(f.code[0] == 'T' && f.text[0] != 0);
        for (uint32_t k = 0; tt_report_note(report, i, k, &remark); k++) MUST(remark.text != NULL);
        tt_report_mend(report, i, &remark);
    }
}

/* Its table comes back without an edit. */
static void read_table(const tt_source *files, size_t count)
{
    tt_table *t;
    tt_report *report, *of_csv;
    MUST(tt_table_new(files, count, &t, &report) == TT_OK);
    const char *csv;
    size_t length;
    uint32_t edits;
    const tt_edit *edit;
    MUST(tt_table_csv(t, &csv, &length) == TT_OK);
    char *copy = memcpy(malloc(length + 1), csv, length);
    MUST(tt_table_read(t, &(tt_source){"table.csv", copy, length}, &edit, &edits, &of_csv) ==
         TT_OK);
    MUST(edits == 0);
    free(copy);
    tt_report_free(of_csv);
    tt_report_free(report);
    tt_table_free(t);
}

static void read_schema(const tt_source *files, size_t count)
{
    tt_schema *s;
    tt_report *report;
    size_t length;
    MUST(tt_schema_new(files, count, &s, &report) == TT_OK);
    MUST(tt_schema_text(s, &length) != NULL && length > 0);
    tt_schema_free(s);
    tt_report_free(report);
}

/* The first answer to whatever comes. */
static void call_through(const tt_book *b)
{
    tt_case *c;
    const tt_options options = {.role = TT_NONE};
    MUST(tt_case_new(b, &options, &c) == TT_OK);
    for (int step = 0; step < STEPS; step++) {
        const tt_view *v;
        MUST(tt_look(c, &v) == TT_OK);
        for (uint32_t i = 0; i < v->cause_count; i++)
            MUST(v->causes[i].chance >= 0 && v->causes[i].chance <= 1 + 1e-9);

        if (v->step != TT_ASK) break;
        tt_reply reply;
        const char *why;
        if (tt_reply_read(c, v->next.question, "1", &reply, &why) != TT_OK)
            reply = (tt_reply){.kind = TT_UNSURE};
        MUST(tt_answer(c, v->next.question, &reply) == TT_OK);
    }
    tt_case_free(c);
}

static void one(const uint8_t *bytes, size_t length)
{
    tt_source files[MOST_FILES];
    tt_book *b;
    tt_report *report;
    const size_t count = cut_files(files, (const char *)bytes, length);
    const tt_status status = tt_book_load(files, count, &b, &report);
    MUST(status == TT_OK || status == TT_FAULTY);
    MUST((status == TT_OK) == (b != NULL) && (b != NULL) == (tt_report_errors(report) == 0));
    MUST((b != NULL ? tt_book_doubts(b, report) : tt_report_doubts(report)) == TT_OK);
    read_report(report);
    if (b != NULL) {
        read_table(files, count);
        read_schema(files, count);
        call_through(b);
    }
    tt_report_free(report);
    tt_book_free(b);
}

static const char *const more[] = {"tests/unit/read/faults", "tests/unit/load/faults",
                                   "tests/unit/doubt/faults", NULL};

FUZZ_TARGET("book", one, more)
