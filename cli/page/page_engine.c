#include "page/page_engine.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "cases/case_about.h"
#include "cases/ended.h"
#include "face/turn_line.h"
#include "page/exported.h"
#include "say/catalogue.h"
#include "show/case_fields.h"
#include "show/json.h"
#include "summary/record_line.h"

enum { LONGEST_SETUP = 64 << 20 };

struct page_engine {
    arena *keep;  /* the book's words */
    arena *shown; /* of the last call */
    tt_book *book;
    case_about about;
    const char *said;

    arena *of_case;
    tt_talk *talk;
    turn_lines lines;
    const char *case_id, *now;
    char number[TT_CASE_NUMBER_SIZE];
    char before[LINE_HASH_SIZE]; /* hash of our own last line, or "" */
    bool kept;                   /* records are kept somewhere */
    bool asked;                  /* the turn that stands was counted */
};

static void start(page_engine *p)
{
    arena_back_to(p->shown, (arena_mark){NULL, 0});
    p->said = "";
}

static void say(page_engine *p, const value_builder *map)
{
    const tt_value value = value_done(map);
    p->said = json_write(p->shown, &value, JSON_DIGITS_SHOWN).p;
}

static void say_wrong(page_engine *p, const char *text)
{
    value_builder map = value_map(p->shown);
    value_put_text(&map, "wrong", text);
    say(p, &map);
}

static const char *kept_text(arena *keep, const tt_value *map, const char *key, const char *without)
{
    const char *text = value_text(map, key);
    return text != NULL ? str_copy(keep, str_of(text)).p : without;
}

/* ---- the book ---- */

static tt_source *read_files(page_engine *p, const tt_value *setup, uint32_t *count)
{
    const tt_value *files = value_get(setup, "files");
    assert(value_is(files, TT_VALUE_LIST));
    tt_source *all = ARENA_ARRAY(p->shown, tt_source, files->count);
    for (uint32_t i = 0; i < files->count; i++) {
        const char *text = value_text(&files->items[i], "text");
        assert(text != NULL);
        all[i] = (tt_source){value_text(&files->items[i], "name"), text, strlen(text)};
    }
    *count = files->count;
    return all;
}

static void read_about(page_engine *p, const tt_value *setup)
{
    const tt_value *site = value_get(setup, "site");
    p->about = (case_about){.folder = kept_text(p->keep, setup, "folder", ""),
                            .revision = kept_text(p->keep, setup, "revision", ""),
                            .site_path = kept_text(p->keep, site, "path", NULL),
                            .site_revision = kept_text(p->keep, site, "revision", ""),
                            .site_text = kept_text(p->keep, site, "text", NULL),
                            .practice = value_truth(setup, "practice")};
}

/* Languages that our own words are in. */
static tt_value tongues_value(arena *keep)
{
    value_builder list = value_list(keep);
    for (tongue t = 0; t < TONGUE_COUNT; t++) value_add(&list, value_of_text(tongue_tag(t)));
    return value_done(&list);
}

/* What is shown in each language; cases are told apart by "title" and "site". */
static tt_value titles_value(page_engine *p)
{
    value_builder all = value_map(p->shown);
    for (tongue t = 0; t < TONGUE_COUNT; t++) {
        value_builder one = value_map(p->shown);
        value_put_text(&one, "title", tt_book_title(p->book, tongue_tag(t)));
        value_put_text(&one, "site",
                       p->about.practice ? "" : tt_site_title(p->book, tongue_tag(t)));
        value_put(&all, tongue_tag(t), value_done(&one));
    }
    return value_done(&all);
}

static void tell_book(page_engine *p)
{
    const tt_book_info info = tt_book_describe(p->book);
    value_builder map = value_map(p->shown);
    p->about.book = p->book;
    value_put_text(&map, "title", info.title);
    value_put_text(&map, "edition", info.edition);
    value_put_text(&map, "language", info.language);
    value_put_text(&map, "site", p->about.practice ? "" : info.site_title);
    value_put(&map, "tongues", tongues_value(p->shown));
    value_put(&map, "titles", titles_value(p));
    say(p, &map);
}

static void load_book(page_engine *p, const tt_value *setup)
{
    uint32_t count;
    tt_report *report = NULL;
    const tt_source *files = read_files(p, setup, &count);
    const char *text = p->about.site_text;
    const char *name = value_text(value_get(setup, "site"), "name");
    const tt_source site = {name != NULL ? name : "site", text, text != NULL ? strlen(text) : 0};
    const tt_status status =
        tt_book_load_at(files, count, text != NULL ? &site : NULL, &p->book, &report);
    if (status == TT_OK)
        tell_book(p);
    else
        say_wrong(p, report != NULL ? str_copy(p->shown, str_of(tt_report_text(report))).p
                                    : "there is no memory left");
    tt_report_free(report);
}

PAGE_EXPORT(page_open)
page_engine *page_open(const char *setup, size_t length)
{
    page_engine *p = calloc(1, sizeof *p);
    tt_value value;
    json_fault fault;
    if (p == NULL) abort();
    p->keep = arena_new(NULL, NULL);
    p->shown = arena_new(NULL, NULL);
    if (!json_read(p->shown, (str){setup, length}, LONGEST_SETUP, &value, &fault)) {
        say_wrong(p, str_copy(p->shown, fault.text).p);
        return p;
    }
    read_about(p, &value);
    load_book(p, &value);
    return p;
}

/* ---- turns ---- */

static str turn_now(page_engine *p, const reply_fault *fault)
{
    const tt_turn *turn = tt_talk_turn(p->talk);
    if (!p->asked) p->lines.number++;
    p->asked = true;
    const bool over = turn->kind == TT_TURN_END;
    const face_about beside = {.c = tt_talk_case(p->talk),
                               .book = p->book,
                               .case_number = *p->before != 0 ? p->number : "",
                               .revision = p->about.revision,
                               .site_revision = p->about.site_revision,
                               .status = over ? (uint32_t)status_of_end(turn->how) : 0};
    return turn_as_line(&p->lines, p->shown, turn, &beside, fault);
}

static tt_value lines_to_keep(page_engine *p, const tt_record *records, uint32_t count)
{
    value_builder list = value_list(p->shown);
    for (uint32_t i = 0; i < count && p->kept; i++) {
        const str line = record_line(p->shown, p->case_id, p->before, &records[i], NULL);
        line_hash(line.p, line.n, p->before);
        value_add(&list, value_of_text(line.p));
    }
    return value_done(&list);
}

/* Words of ours that work at this turn, by their ids. */
static tt_value words_here(page_engine *p)
{
    const tt_turn *turn = tt_talk_turn(p->talk);
    value_builder map = value_map(p->shown);
    for (uint32_t i = 0; i < turn->word_count; i++)
        value_put_text(&map, turn->words[i].id, turn->words[i].text);
    return value_done(&map);
}

/* Records, or the turn that stands. */
static void go_on(page_engine *p, const tt_record *records, uint32_t count, uint32_t left_out,
                  const reply_fault *fault)
{
    value_builder map = value_map(p->shown);
    value_put(&map, "keep", lines_to_keep(p, records, count));
    if (count > 0 && !p->kept) {
        tt_talk_kept(p->talk, false);
        count = 0;
    }
    if (count == 0) value_put(&map, "words", words_here(p));
    value_put_text(&map, "turn", count > 0 ? NULL : turn_now(p, fault).p);
    value_put_text(&map, "number", p->number);
    value_put_number(&map, "left_out", left_out);
    say(p, &map);
}

static const reply_fault no_fault = {"", ""};

/* ---- a case ---- */

typedef struct records_read {
    tt_record *items;
    uint32_t count, left_out;
    char before[LINE_HASH_SIZE]; /* hash of the last line of `writer`, or "" */
} records_read;

static records_read read_records(arena *keep, const tt_value *setup, const char *case_id,
                                 const char *writer)
{
    const tt_value *lines = value_get(setup, "records");
    const uint32_t most = lines != NULL ? lines->count : 0;
    records_read r = {.items = ARENA_ARRAY(keep, tt_record, most)};
    for (uint32_t i = 0; i < most; i++) {
        const char *line = lines->items[i].kind == TT_VALUE_TEXT ? lines->items[i].text : "";
        tt_record *record = &r.items[r.count];
        bool follows;
        if (record_of_line(keep, line, strlen(line), case_id, "", record, &follows) != NULL) {
            r.left_out++;
            continue;
        }
        if (strcmp(record->writer, writer) == 0) line_hash(line, strlen(line), r.before);
        r.count++;
    }
    return r;
}

static void end_case(page_engine *p)
{
    tt_talk_free(p->talk);
    arena_free(p->of_case);
    p->talk = NULL;
    p->of_case = arena_new(NULL, NULL);
    p->lines = (turn_lines){.keep = p->of_case};
    p->asked = false;
}

/* False: it has no name of a case, as in a file that somebody made. */
static bool name_case(page_engine *p, const tt_value *setup)
{
    p->case_id = kept_text(p->of_case, setup, "case", "");
    p->now = kept_text(p->of_case, setup, "now", "");
    p->kept = value_truth(setup, "kept");
    p->lines.telephone = p->about.telephone = value_truth(setup, "telephone");
    if (!tt_is_case_id(p->case_id)) return false;
    tt_case_number(p->case_id, 6, p->number);
    p->about.number = p->kept ? p->number : NULL;
    p->about.person = kept_text(p->of_case, setup, "by", "somebody");
    p->about.place = kept_text(p->of_case, setup, "on", "");
    return true;
}

static tt_status talk_of_case(page_engine *p, const tt_value *setup)
{
    const char *writer = kept_text(p->of_case, setup, "writer", "page");
    const tt_talk_options options = {.writer = p->kept ? writer : "nobody",
                                     .role = value_text(setup, "role"),
                                     .language = value_text(setup, "language"),
                                     .practice = p->about.practice,
                                     .kept = p->kept,
                                     .telephone = p->about.telephone,
                                     .number = p->kept ? p->number : "",
                                     .about = case_about_value(p->of_case, &p->about),
                                     .how = value_text(setup, "how")};
    const records_read read = read_records(p->shown, setup, p->case_id, writer);
    const tt_record *keep = NULL;
    uint32_t count = 0;
    memcpy(p->before, read.before, sizeof p->before);
    tt_status status = tt_book_hear(p->book);
    if (status == TT_OK) status = tt_talk_new(p->book, &options, &p->talk);
    if (status == TT_OK) status = tt_talk_take(p->talk, read.items, read.count);
    if (status == TT_OK) status = tt_talk_begin(p->talk, p->now, &keep, &count);
    if (status == TT_OK) go_on(p, keep, count, read.left_out, &no_fault);
    return status;
}

/* False: it was said what is wrong. */
static bool read_setup(page_engine *p, const char *setup, size_t length, tt_value *out)
{
    json_fault fault;
    start(p);
    if (json_read(p->shown, (str){setup, length}, LONGEST_SETUP, out, &fault)) return true;
    say_wrong(p, str_copy(p->shown, fault.text).p);
    return false;
}

PAGE_EXPORT(page_begin)
void page_begin(page_engine *p, const char *setup, size_t length)
{
    tt_value value;
    if (!read_setup(p, setup, length, &value)) return;
    end_case(p);
    if (!name_case(p, &value))
        say_wrong(p, "this is no case");
    else if (talk_of_case(p, &value) != TT_OK)
        say_wrong(p, "this case can't be begun with these rules");
}

PAGE_EXPORT(page_hear)
void page_hear(page_engine *p, const char *reply, size_t length)
{
    tt_value value;
    tt_heard heard;
    reply_fault fault = no_fault;
    const char *now = NULL;
    const tt_record *keep = NULL;
    uint32_t count = 0;
    start(p);
    const tt_turn *turn = tt_talk_turn(p->talk);
    assert(turn->kind != TT_TURN_END);
    if (!reply_line_value(p->shown, (str){reply, length}, &value, &fault) ||
        !reply_line_read(&p->lines, p->shown, turn, &value, &heard, &now, &fault)) {
        go_on(p, NULL, 0, 0, &fault);
        return;
    }
    if (now != NULL) p->now = str_copy(p->of_case, str_of(now)).p;
    const tt_status status = tt_talk_hear(p->talk, &heard, p->now, &keep, &count);
    assert(status == TT_OK);
    (void)status;
    p->asked = false;
    go_on(p, keep, count, 0, &no_fault);
}

PAGE_EXPORT(page_kept)
void page_kept(page_engine *p, bool kept)
{
    start(p);
    tt_talk_kept(p->talk, kept);
    go_on(p, NULL, 0, 0, &no_fault);
}

/* ---- our own words ---- */

/* Texts of the page itself, and the signal words that it draws. */
static bool is_of_page(text_id id)
{
    return strncmp(catalogue_name(id), "PHONE_", strlen("PHONE_")) == 0 || id == PAGE_DANGER ||
           id == PAGE_WARNING || id == PAGE_CAUTION || id == PAGE_NOTICE;
}

/* What is typed in a terminal is touched on a page. */
static const struct {
    text_id typed, touched;
} touched_texts[] = {
    {TEXT_CAUTIONS_AT, TOUCH_CAUTIONS_AT},   {TEXT_WHAT_IS_WRONG, TOUCH_WHAT_IS_WRONG},
    {TEXT_WHAT_ELSE, TOUCH_WHAT_ELSE},       {TEXT_WHERE_IS_IT, TOUCH_WHERE_IS_IT},
    {TEXT_OTHER_WORDS, TOUCH_OTHER_WORDS},   {TEXT_NONE_OF_THE_ANSWERS, TOUCH_NONE_OF_THE_ANSWERS},
    {TEXT_NOTHING_SAID, TOUCH_NOTHING_SAID}, {TEXT_THESE_WORDS, TOUCH_THESE_WORDS},
};

static tt_value touched_value(page_engine *p, tongue in)
{
    value_builder map = value_map(p->shown);
    for (size_t i = 0; i < sizeof touched_texts / sizeof *touched_texts; i++)
        value_put_text(&map, catalogue_text(in, touched_texts[i].typed),
                       catalogue_text(in, touched_texts[i].touched));
    return value_done(&map);
}

PAGE_EXPORT(page_texts)
void page_texts(page_engine *p, const char *setup, size_t length)
{
    tt_value value;
    if (!read_setup(p, setup, length, &value)) return;
    const tongue in = tongue_of(value_text(&value, "language"));
    value_builder map = value_map(p->shown);
    for (text_id i = 0; i < TEXT_COUNT; i++)
        if (is_of_page(i)) value_put_text(&map, catalogue_name(i), catalogue_text(in, i));
    value_put(&map, "touched", touched_value(p, in));
    say(p, &map);
}

/* ---- many cases ---- */

static void tell_summary(page_engine *p, const char *case_id, const records_read *read)
{
    tt_journal *journal = NULL;
    tt_case_summary says;
    char number[TT_CASE_NUMBER_SIZE];
    if (tt_journal_new(read->items, read->count, NULL, &journal) == TT_OK &&
        tt_journal_summary(journal, &says) == TT_OK) {
        tt_case_number(case_id, 6, number);
        const listed_case listed = {.number = number,
                                    .id = case_id,
                                    .folder = "",
                                    .left_out = read->left_out,
                                    .says = &says};
        const tt_value value = listed_case_value(p->shown, &listed);
        p->said = json_write(p->shown, &value, JSON_DIGITS_SHOWN).p;
    }
    tt_journal_free(journal);
}

PAGE_EXPORT(page_summary)
void page_summary(page_engine *p, const char *setup, size_t length)
{
    tt_value value;
    if (!read_setup(p, setup, length, &value)) return;
    const char *id = kept_text(p->shown, &value, "case", "");
    if (!tt_is_case_id(id)) {
        say_wrong(p, "this is no case");
        return;
    }
    const records_read read = read_records(p->shown, &value, id, "");
    tell_summary(p, id, &read);
}

/* ---- ---- */

PAGE_EXPORT(page_said)
const char *page_said(const page_engine *p)
{
    assert(p != NULL && p->said != NULL);
    return p->said;
}

PAGE_EXPORT(page_close)
void page_close(page_engine *p)
{
    if (p == NULL) return;
    tt_talk_free(p->talk);
    tt_book_free(p->book);
    arena_free(p->of_case);
    arena_free(p->keep);
    arena_free(p->shown);
    free(p);
}
