#include "call/seen_case.h"

#include <string.h>

#include "base/value.h"
#include "cases/begin_case.h"
#include "cases/case_file.h"
#include "host/screen.h"

const char *seen_case_text(const tt_value *map, const char *key)
{
    const char *text = value_text(map, key);
    return text != NULL ? text : "";
}

static void read_meaning(seen_case *c)
{
    size_t count;
    const tt_record *records = case_store_records(c->store, &count);
    must_be_done(tt_journal_new(records, count, NULL, &c->journal));
    must_be_done(tt_journal_summary(c->journal, &c->says));
    must_be_done(tt_journal_places(c->journal, &c->places));
}

exit_status seen_case_read(seen_case *c, const char *root, const char *named)
{
    *c = (seen_case){.store = NULL};
    const exit_status status = is_case_file(named) ? case_store_look_file(named, &c->store)
                                                   : case_store_look(root, named, &c->store);
    if (status == EXIT_DONE) read_meaning(c);
    return status;
}

bool is_out_of_reach(exit_status read)
{
    return read == EXIT_IO || read == EXIT_NOT_ALLOWED || read == EXIT_AWAY;
}

exit_status all_were_read(size_t failed)
{
    if (failed == 0) return EXIT_DONE;
    const bool one = failed == 1;
    complain("%zu %s could not be read: nothing is reckoned without %s", failed,
             one ? "folder or case" : "folders or cases", one ? "it" : "them");
    return EXIT_IO;
}

/* ---- its book ---- */

static const char *book_of(const seen_case *c, const char *named)
{
    const char *folder = named != NULL ? named : value_text(c->places.begin, "rulebook");
    if (folder != NULL) return folder;
    complain(
        "%s does not say which book it is about. Name it: telltale sheet CASE BOOK, or telltale "
        "ask BOOK --case CASE",
        case_store_folder(c->store));
    return NULL;
}

bool is_practice_case(const tt_case_places *places)
{
    if (places->begin == NULL) return false; /* lost: what isn't known is no practice */
    if (value_get(places->begin, "practice") == NULL) return places->site == NULL;
    return value_truth(places->begin, "practice");
}

exit_status seen_case_open(seen_case *c, const char *named)
{
    static const tt_source no_site = {.name = "", .bytes = NULL};
    const char *folder = book_of(c, named), *site = value_text(c->places.site, "text");
    if (folder == NULL) return EXIT_BAD_DATA;
    if (c->places.site == NULL)
        return book_open(folder, is_practice_case(&c->places) ? NULL : &no_site, &c->book);
    if (site != NULL) {
        const tt_source source = {
            .name = "the site kept in the case", .bytes = site, .length = strlen(site)};
        return book_open(folder, &source, &c->book);
    }
    complain("the case does not hold its site any more: add --site FILE");
    return EXIT_BAD_DATA;
}

/* ---- its records ---- */

static exit_status open_talk(seen_case *c, const char *language)
{
    const tt_talk_options options = {.writer = c->says.writer,
                                     .language = language,
                                     .practice = is_practice_case(&c->places),
                                     .look_only = true,
                                     .number = "",
                                     .how = "resume"};
    size_t count;
    uint32_t role;
    const tt_record *records = case_store_records(c->store, &count);
    exit_status status = language_typed(language);
    if (status == EXIT_DONE)
        status = role_named(c->book.book, value_text(c->places.begin, "role"), &role);
    if (status == EXIT_DONE) status = status_of(tt_talk_new(c->book.book, &options, &c->talk));
    return status == EXIT_DONE ? status_of(tt_talk_take(c->talk, records, count)) : status;
}

/* Looked at from where it stands: nothing has grown old by being looked at. */
exit_status seen_case_play(seen_case *c, const char *language)
{
    uint32_t keep_count;
    const tt_record *keep;
    const exit_status status = open_talk(c, language);
    return status == EXIT_DONE ? status_of(tt_talk_begin(c->talk, c->says.last, &keep, &keep_count))
                               : status;
}

exit_status seen_case_evidence(seen_case *c)
{
    const exit_status status = open_talk(c, NULL);
    return status == EXIT_DONE ? status_of(tt_talk_play(c->talk, c->says.last)) : status;
}

void seen_case_end(seen_case *c)
{
    tt_talk_free(c->talk);
    tt_journal_free(c->journal);
    book_close(&c->book);
    case_store_close(c->store);
}
