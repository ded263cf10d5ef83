#include "page/page_file.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/value.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "page/letters.h"
#include "page/packed.h"
#include "paper/page_style.h"
#include "paper/paper.h"
#include "show/json.h"

extern const unsigned char page_html[], page_css[], opening_js[], module_js[], keep_js[], draw_js[],
    page_js[];
extern const size_t page_html_length, page_css_length, opening_js_length, module_js_length,
    keep_js_length, draw_js_length, page_js_length;

/* ---- what it is opened with ---- */

/* Worked cases hold a book to its word while it is written; a caller needs none of them. */
static bool has_only_cases(const tt_source *file)
{
    bool cases = false;
    for (size_t at = 0; at < file->length; at++) {
        const char *line = file->bytes + at;
        if (at > 0 && line[-1] != '\n') continue;
        const bool is_key = (*line >= 'a' && *line <= 'z') || *line == '"' || *line == '\'';
        if (is_key && (file->length - at < 6 || strncmp(line, "cases:", 6) != 0)) return false;
        cases = cases || is_key;
    }
    return cases;
}

static tt_value files_value(arena *keep, const sources *files)
{
    value_builder list = value_list(keep);
    for (size_t i = 0; i < files->count; i++) {
        const tt_source *file = &files->items[i];
        if (has_only_cases(file)) continue;
        value_builder map = value_map(keep);
        value_put_text(&map, "name", file->name);
        value_put(&map, "text", value_of_str(keep, (str){file->bytes, file->length}));
        value_add(&list, value_done(&map));
    }
    return value_done(&list);
}

static const char *name_of_folder(const char *folder)
{
    const char *slash = strrchr(folder, '/');
    return slash != NULL && slash[1] != 0 ? slash + 1 : folder;
}

static tt_value site_value(arena *keep, const page_contents *what)
{
    if (what->book->site_text == NULL) return value_null;
    value_builder map = value_map(keep);
    value_put_text(&map, "name", name_of_folder(what->site_path));
    value_put_text(&map, "path", NULL); /* where it lies here is nobody's business there */
    value_put_text(&map, "revision", what->book->site_revision);
    value_put_text(&map, "text", what->book->site_text);
    return value_done(&map);
}

static str setup_text(arena *keep, const page_contents *what)
{
    value_builder map = value_map(keep);
    value_put_text(&map, "folder", name_of_folder(what->book->folder));
    value_put_text(&map, "revision", what->book->revision);
    value_put(&map, "files", files_value(keep, what->files));
    value_put(&map, "site", site_value(keep, what));
    value_put_bool(&map, "practice", what->book->site_text == NULL);
    value_put_text(&map, "language", what->language);
    const tt_value value = value_done(&map);
    return json_write(keep, &value, JSON_DIGITS_EXACT);
}

/* ---- what is carried ---- */

/* All of the script but what opens the page. */
static str script_text(arena *keep)
{
    return str_printf(keep, "%.*s%.*s%.*s%.*s", (int)module_js_length, (const char *)module_js,
                      (int)keep_js_length, (const char *)keep_js, (int)draw_js_length,
                      (const char *)draw_js, (int)page_js_length, (const char *)page_js);
}

static uint8_t *put_length(uint8_t *to, size_t length)
{
    for (unsigned i = 0; i < 4; i++) *to++ = (uint8_t)(length >> (8 * i));
    return to;
}

static uint8_t *put_bytes(uint8_t *to, const void *bytes, size_t length)
{
    memcpy(to, bytes, length);
    return to + length;
}

/* The lengths of module and script, these two, and what the engine is opened with: packed, and as
 * letters. Null: there is no memory for it. */
static const char *load_letters(arena *keep, const tt_source *module, str script, str setup)
{
    size_t packed_length, length = 8 + module->length + script.n + setup.n;
    uint8_t *load = ARENA_ARRAY(keep, uint8_t, length), *to = load;
    to = put_length(to, module->length);
    to = put_length(to, script.n);
    to = put_bytes(to, module->bytes, module->length);
    to = put_bytes(to, script.p, script.n);
    to = put_bytes(to, setup.p, setup.n);
    assert(to == load + length);
    const uint8_t *packed = pack(keep, load, length, &packed_length);
    return packed != NULL ? letters_of_bytes(keep, packed, packed_length).p : NULL;
}

/* ---- the file ---- */

typedef struct insert {
    const char *mark, *text;
} insert;

/* A text that the policy lets through: 'sha256-…'. */
static const char *allowed(arena *keep, str text)
{
    char *digest = text_digest(text.p, text.n);
    const char *source = str_printf(keep, "'sha256-%s'", digest).p;
    free(digest);
    return source;
}

static const char *policy_text(arena *keep, str style, str opening, str script)
{
    return str_printf(keep,
                      "default-src 'none'; style-src %s; script-src %s %s 'wasm-unsafe-eval'; "
                      "base-uri 'none'; form-action 'none'",
                      allowed(keep, style), allowed(keep, opening), allowed(keep, script))
        .p;
}

static const char *escaped(arena *keep, const char *text)
{
    text_builder b = {.keep = keep};
    for (; *text != 0; text++) {
        const char *entity = *text == '&' ? "&amp;" : *text == '<' ? "&lt;" : NULL;
        text_add(&b, entity != NULL ? str_of(entity) : (str){text, 1});
    }
    return b.length > 0 ? text_done(&b).p : "";
}

/* The marks stand in this order in page.html. */
static void write_filled(FILE *out, const insert *inserts, size_t count)
{
    const char *at = (const char *)page_html, *end = at + page_html_length;
    for (size_t i = 0; i < count; i++) {
        const size_t length = strlen(inserts[i].mark);
        const char *mark = at;
        while (strncmp(mark, inserts[i].mark, length) != 0) {
            mark++;
            assert(mark + length <= end);
        }
        fwrite(at, 1, (size_t)(mark - at), out);
        fputs(inserts[i].text, out);
        at = mark + length;
    }
    fwrite(at, 1, (size_t)(end - at), out);
}

static exit_status write_page(FILE *out, arena *keep, const page_contents *what,
                              const tt_source *module, const tt_source *unpack)
{
    const str style = str_printf(keep, "%.*s", (int)page_css_length, (const char *)page_css),
              opening =
                  str_printf(keep, "\n%.*s", (int)opening_js_length, (const char *)opening_js),
              script = script_text(keep);
    const char *load = load_letters(keep, module, script, setup_text(keep, what));
    if (load == NULL) memory_ended();
    char *opener = base64_of((const uint8_t *)unpack->bytes, unpack->length);
    const insert inserts[] = {
        {"@POLICY@", policy_text(keep, style, opening, script)},
        {"@MARK@", HTML_MARK},
        {"@TITLE@", escaped(keep, tt_book_describe(what->book->book).title)},
        {"@STYLE@", style.p},
        {"@OPENER@", opener},
        {"@LOAD@", load},
        {"@SCRIPT@", opening.p},
    };
    write_filled(out, inserts, sizeof inserts / sizeof *inserts);
    free(opener);
    return EXIT_DONE;
}

static exit_status say_no_module(const char *path)
{
    complain("the page's engine is not here: %s. It is built by ./cli/start where this machine "
             "has clang, lld, wasi-libc, libclang-rt-14-dev-wasm32 and dpkg-dev: install these, "
             "and start ./cli/start once more",
             path);
    return EXIT_NO_FILE;
}

exit_status page_file_write(FILE *out, arena *keep, const page_contents *what)
{
    tt_source module = {.name = NULL}, unpack = {.name = NULL};
    if (access(what->module, R_OK) != 0) return say_no_module(what->module);
    exit_status status = source_read_large(what->module, &module);
    if (status == EXIT_DONE) status = source_read_large(what->unpack, &unpack);
    if (status == EXIT_DONE) status = write_page(out, keep, what, &module, &unpack);
    source_free(&module);
    source_free(&unpack);
    return status;
}
