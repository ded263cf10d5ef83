/* sheet: a case on paper, for whoever goes on with it. */
#include <stdlib.h>
#include <string.h>

#include "cases/case_contact.h"
#include "cases/case_name.h"
#include "face/case_line.h"
#include "host/into.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "paper/sheet.h"
#include "show/json.h"
#include "verb/sheet_case.h"
#include "verb/verbs.h"

typedef enum form { AS_MARKDOWN, AS_HTML, AS_JSON, AS_TEXT, FORMS } form;

/* How each is asked for: by its option, or by how the file's name ends. */
static const struct {
    option_id option;
    const char *ends[2];
    const paper_kind *paper; /* null: it is none */
} forms[FORMS] = {[AS_MARKDOWN] = {OPTION_MARKDOWN, {".md", ".md"}, &paper_of_markdown},
                  [AS_HTML] = {OPTION_HTML, {".html", ".htm"}, &paper_of_html},
                  [AS_JSON] = {OPTION_JSON, {".json", ".json"}, NULL},
                  [AS_TEXT] = {OPTION_PLAIN, {".txt", ".text"}, &paper_of_text}};

static bool ends_with(const char *text, const char *end)
{
    size_t length = strlen(text), tail = strlen(end);
    return length >= tail && strcmp(text + length - tail, end) == 0;
}

static form form_of_name(const char *path)
{
    for (unsigned i = 0; i < FORMS; i++)
        if (ends_with(path, forms[i].ends[0]) || ends_with(path, forms[i].ends[1])) return (form)i;
    return AS_MARKDOWN;
}

/* As the option says, else as the file's name ends, else Markdown, which reads well on a terminal.
 */
static exit_status form_wanted(const command_line *line, form *out)
{
    const char *into = line->values[OPTION_INTO] != NULL ? line->values[OPTION_INTO] : "";
    unsigned given = 0;
    *out = form_of_name(into);
    for (unsigned i = 0; i < FORMS; i++) {
        if (!is_given(line, forms[i].option)) continue;
        *out = (form)i;
        given++;
    }
    if (is_given(line, OPTION_OVERWRITE) && line->values[OPTION_INTO] == NULL) {
        complain("--overwrite says what may be written over by --into: add --into FILE");
        return EXIT_USAGE;
    }
    if (given <= 1) return EXIT_DONE;
    complain("a sheet is written in one form at a time: --html, --markdown, --plain or --json");
    return EXIT_USAGE;
}

static void write_sheet(FILE *out, const shown_sheet *sheet, form as)
{
    arena *keep = host_arena();
    if (as == AS_JSON) {
        const tt_value value = sheet_value(keep, sheet);
        const str text = json_write_lines(keep, &value, JSON_DIGITS_SHOWN, 2);
        fwrite(text.p, 1, text.n, out);
    } else {
        sheet_on_paper(out, forms[as].paper, keep, sheet);
    }
    arena_free(keep);
}

/* A sheet in JSON names a case by its number beside its version. */
static bool is_json_sheet(const char *bytes, size_t length)
{
    tt_document *d = NULL;
    double version;
    bool is = tt_document_read(bytes, length, length, &d) == TT_OK &&
              value_number(tt_document_value(d), "version", &version) &&
              value_text(value_get(tt_document_value(d), "case"), "number") != NULL;
    tt_document_free(d);
    return is;
}

static bool is_sheet(const char *bytes, size_t length)
{
    if (length > 0 && *bytes == '{') return is_json_sheet(bytes, length);
    char *text = format_text("%.*s", (int)length, bytes);
    bool is = strstr(text, HTML_MARK) != NULL || strstr(text, MARKDOWN_MARK) != NULL ||
              strstr(text, TEXT_MARK) != NULL;
    free(text);
    return is;
}

static exit_status write_into(const char *path, bool overwrite, const shown_sheet *sheet, form as)
{
    memory_stream page;
    memory_stream_begin(&page);
    write_sheet(page.stream, sheet, as);
    memory_stream_close(&page);
    const exit_status status = put_into(path, page.bytes, page.length, is_sheet, overwrite);
    memory_stream_free(&page);
    return status;
}

static exit_status put_out(const command_line *line, const shown_sheet *sheet, form as)
{
    const char *into = line->values[OPTION_INTO];
    bool overwrite = is_given(line, OPTION_OVERWRITE);
    if (into != NULL && strcmp(into, "-") != 0) return write_into(into, overwrite, sheet, as);
    write_sheet(stdout, sheet, as);
    return EXIT_DONE;
}

/* A case that came from another machine may name a book that lies elsewhere here. */
static void help_find_book(const command_line *line, const seen_case *seen, exit_status status)
{
    if (status == EXIT_NO_FILE && seen->store != NULL && line->count == 2)
        complain("name the folder of the book after the case: telltale sheet %s BOOK",
                 case_store_is_a_file(seen->store) ? line->words[1]
                                                   : case_store_number(seen->store));
}

static exit_status look(const command_line *line, seen_case *seen)
{
    const char *book = line->count > 2 ? line->words[2] : NULL;
    *seen = (seen_case){.store = NULL};
    char *root = cases_root(line->values[OPTION_CASES]);
    if (root == NULL) return EXIT_CANNOT_CREATE;
    exit_status status = seen_case_read(seen, root, line->words[1]);
    free(root);
    if (status == EXIT_DONE) status = seen_case_open(seen, book);
    return status == EXIT_DONE ? seen_case_play(seen, line->values[OPTION_LANGUAGE]) : status;
}

/* Whoever reads a sheet need not know who called; a file brings nobody along. */
static exit_status add_caller(arena *keep, const seen_case *seen, shown_sheet *sheet)
{
    case_contact c;
    if (case_store_is_a_file(seen->store)) return EXIT_DONE;
    const exit_status status = case_contact_read(keep, case_store_folder(seen->store), &c);
    if (status == EXIT_DONE && case_contact_says_something(&c))
        sheet->head.caller = contact_words(keep, tongue_of(sheet->rulebook.language), &c);
    return status;
}

exit_status verb_sheet(const command_line *line)
{
    form as;
    seen_case seen;
    exit_status status = form_wanted(line, &as);
    if (status != EXIT_DONE) return status;
    status = look(line, &seen);
    help_find_book(line, &seen, status);
    arena *keep = host_arena();
    shown_sheet sheet;
    if (status == EXIT_DONE) sheet_of_case(keep, &seen, line->values[OPTION_LANGUAGE], &sheet);
    if (status == EXIT_DONE && is_given(line, OPTION_CONTACT))
        status = add_caller(keep, &seen, &sheet);
    if (status == EXIT_DONE) status = put_out(line, &sheet, as);
    arena_free(keep);
    seen_case_end(&seen);
    return status;
}
