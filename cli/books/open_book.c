/* From sources to a book that can be used, with the digest by which a case knows it again. */
#include <assert.h>
#include <sha256.h>
#include <stdlib.h>
#include <string.h>

#include "books/read_book.h"
#include "host/plain_text.h"
#include "host/screen.h"

static void digest_length(SHA2_CTX *digest, uint64_t length)
{
    uint8_t bytes[8];
    for (unsigned i = 0; i < 8; i++) bytes[i] = (uint8_t)(length >> (56 - 8 * i));
    SHA256Update(digest, bytes, sizeof bytes);
}

static void write_revision(const sources *all, char out[REVISION_SIZE])
{
    static_assert(REVISION_SIZE == SHA256_DIGEST_STRING_LENGTH, "a text of the digest");
    SHA2_CTX digest;
    SHA256Init(&digest);
    for (size_t i = 0; i < all->count; i++) {
        const tt_source *source = &all->items[i];
        assert(i == 0 || strcmp(all->items[i - 1].name, source->name) < 0);
        SHA256Update(&digest, (const uint8_t *)source->name, strlen(source->name) + 1);
        digest_length(&digest, source->length);
        SHA256Update(&digest, (const uint8_t *)source->bytes, source->length);
    }
    SHA256End(&digest, out);
}

void note_site(opened_book *book, const char *text)
{
    free(book->site_text);
    book->site_text = copy_text(text);
    SHA256Data((const uint8_t *)text, strlen(text), book->site_revision);
}

/* "   12 |   text: …" and the line of marks beneath it. */
static bool is_quoted(const char *line)
{
    line += strspn(line, " ");
    line += strspn(line, "0123456789");
    return line[strspn(line, " ")] == '|';
}

/* What is quoted stands as it is, with its mark beneath; all else is wrapped at words. */
static void show_line(const screen *s, const char *line, size_t length)
{
    char *copy = format_text("%.*s", (int)length, line);
    if (s->width == 0 || is_quoted(copy) || display_width(copy, length) <= s->width)
        fprintf(s->out, "%s\n", copy);
    else
        say(s, "%s", copy);
    free(copy);
}

void show_report(FILE *out, const tt_report *report)
{
    const screen s = screen_on(out);
    const char *text = report != NULL ? tt_report_text(report) : "";
    fflush(stdout);
    for (size_t length; *text != 0; text += length + (text[length] == '\n')) {
        length = strcspn(text, "\n");
        show_line(&s, text, length);
    }
}

/* The site's file if all the faults are in it, else the book. */
static const char *to_be_mended(const tt_report *report, const char *folder, const tt_source *site)
{
    for (uint32_t i = 0; i < tt_report_count(report); i++) {
        tt_fault fault = tt_report_fault(report, i);
        bool error = strcmp(fault.severity, "error") == 0;
        if (error && (site == NULL || strcmp(fault.file, site->name) != 0)) return folder;
    }
    return site != NULL ? site->name : folder;
}

static exit_status load(const char *folder, const sources *all, const tt_source *site,
                        tt_book **book)
{
    tt_report *report = NULL;
    tt_status status = tt_book_load_at(all->items, all->count, site, book, &report);
    if (status == TT_NO_MEMORY) memory_ended();
    if (status == TT_FAULTY) {
        show_report(stderr, report);
        complain("%s can't be used before this is mended", to_be_mended(report, folder, site));
    }
    tt_report_free(report);
    return status == TT_OK ? EXIT_DONE : EXIT_BAD_DATA;
}

exit_status book_open(const char *folder, const tt_source *site, opened_book *out)
{
    *out = (opened_book){.book = NULL};
    sources all;
    exit_status status = sources_read(folder, &all);
    if (status == EXIT_DONE) status = load(folder, &all, site, &out->book);
    if (status == EXIT_DONE) {
        write_revision(&all, out->revision);
        out->folder = book_folder(folder);
        if (out->folder == NULL) out->folder = copy_text(folder);
    }
    if (status == EXIT_DONE && site != NULL && site->bytes != NULL) {
        char *text = format_text("%.*s", (int)site->length, site->bytes);
        note_site(out, text);
        free(text);
    }
    sources_free(&all);
    return status;
}

bool book_fits(const char *folder, const char *site_text)
{
    tt_source site = {.name = "site", .bytes = site_text, .length = strlen(site_text)};
    tt_book *book = NULL;
    tt_report *report = NULL;
    sources all;
    bool fits = sources_read(folder, &all) == EXIT_DONE &&
                tt_book_load_at(all.items, all.count, &site, &book, &report) == TT_OK;
    tt_report_free(report);
    tt_book_free(book);
    sources_free(&all);
    return fits;
}

char *book_title(const char *folder)
{
    tt_book *book = NULL;
    tt_report *report = NULL;
    sources all;
    char *title = NULL;
    if (sources_read(folder, &all) == EXIT_DONE &&
        tt_book_load(all.items, all.count, &book, &report) == TT_OK)
        title = clean_text(tt_book_describe(book).title);
    tt_report_free(report);
    tt_book_free(book);
    sources_free(&all);
    return title;
}

exit_status book_open_at(const char *folder, const char *site, opened_book *out)
{
    tt_source file = {.name = NULL};
    *out = (opened_book){.book = NULL};
    exit_status status = site != NULL ? source_read_file(site, &file) : EXIT_DONE;
    if (status == EXIT_DONE) status = book_open(folder, site != NULL ? &file : NULL, out);
    source_free(&file);
    return status;
}

void book_close(opened_book *book)
{
    if (!book->is_lent) tt_book_free(book->book);
    free(book->folder);
    free(book->site_text);
    *book = (opened_book){.book = NULL};
}
