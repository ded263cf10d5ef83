/* A handbook from its first page to its last: what keeps people safe stands first, room to sign
 * last. */
#include "paper/handbook.h"

#include "cases/begin_case.h"

enum { ROWS_TO_SIGN = 8, ROWS_TO_RELEASE = 2 };

static const text_id chapters[] = {HANDBOOK_FIRST, HANDBOOK_EMERGENCIES, HANDBOOK_PICTURE,
                                   HANDBOOK_SIGNS, HANDBOOK_CAUSES,      HANDBOOK_LOCKOUTS,
                                   HANDBOOK_FIXES, HANDBOOK_QUESTIONS,   HANDBOOK_SIGN_HERE};
enum { CHAPTERS = sizeof chapters / sizeof chapters[0] };

static void put_chapter(const handbook *h, size_t number)
{
    h->p->kind->chapter(h->p, number, catalogue_text(h->p->in, chapters[number - 1]));
}

/* ---- the head ---- */

static void put_head(const handbook *h, const tt_book_info *info)
{
    const char **roles = ARENA_ARRAY(h->keep, const char *, info->roles + 1);
    for (uint32_t i = 0; i < info->roles; i++)
        roles[i] = handbook_role(h, tt_role_name(h->book->book, i));
    h->p->kind->facts_begin(h->p);
    paper_fact(h->p, SHEET_EDITION, our_text(info->edition));
    paper_fact(h->p, SHEET_REVISION, our_text(h->book->revision));
    paper_fact(h->p, SHEET_SITE, rule_text(tt_site_title(h->book->book, tt_case_language(h->c))));
    paper_fact(h->p, SHEET_SITE_REVISION, our_text(h->book->site_revision));
    paper_fact(h->p, HANDBOOK_ROLES, our_text(texts_joined(h->keep, roles, info->roles)));
    paper_fact(h->p, SHEET_WRITTEN_BY,
               our_text(FILL(h->keep, h->p->in, SHEET_PROGRAM, TELLTALE_VERSION)));
    h->p->kind->facts_end(h->p);
    if (info->has_site && info->site_is_example)
        h->p->kind->boxed(h->p, false, NULL, our_words(h->p->in, HANDBOOK_EXAMPLE_SITE));
}

static void put_contents(const handbook *h)
{
    const char *titles[CHAPTERS];
    for (size_t i = 0; i < CHAPTERS; i++) titles[i] = catalogue_text(h->p->in, chapters[i]);
    h->p->kind->contents(h->p, catalogue_text(h->p->in, HANDBOOK_CONTENTS), titles, CHAPTERS);
}

/* In the language of the handbook. */
static void put_cautions(const handbook *h)
{
    tt_book_info info;
    must_be_done(tt_case_describe(h->c, &info));
    for (uint32_t i = 0; i < info.caution_count; i++)
        h->p->kind->boxed(h->p, false, NULL, rule_text(info.cautions[i]));
    h->p->kind->boxed(h->p, false, NULL, our_words(h->p->in, HANDBOOK_NEVER));
}

/* ---- the last page ---- */

static void put_room_to_sign(const handbook *h)
{
    const char *const columns[] = {
        catalogue_text(h->p->in, HANDBOOK_NAME), catalogue_text(h->p->in, HANDBOOK_ROLE),
        catalogue_text(h->p->in, HANDBOOK_DAY), catalogue_text(h->p->in, HANDBOOK_SIGNATURE)};
    h->p->kind->form(h->p, catalogue_text(h->p->in, HANDBOOK_RELEASED), columns, 4,
                     ROWS_TO_RELEASE);
    h->p->kind->paragraph(h->p, our_words(h->p->in, HANDBOOK_SIGN_SAYS));
    h->p->kind->form(h->p, catalogue_text(h->p->in, HANDBOOK_SIGN_CAPTION_ROWS), columns, 4,
                     ROWS_TO_SIGN);
}

static void put_chapters(const handbook *h, const char *language)
{
    put_chapter(h, 1);
    put_cautions(h);
    put_danger(h, language);
    put_chapter(h, 2);
    put_emergencies(h);
    put_chapter(h, 3);
    put_whole(h);
    put_pictures(h);
    put_chapter(h, 4);
    put_signs(h);
    put_chapter(h, 5);
    put_cause_table(h);
    put_cause_drawings(h);
    put_chapter(h, 6);
    put_lockouts(h);
    put_chapter(h, 7);
    put_all_fixes(h);
    put_chapter(h, 8);
    put_questions(h);
    put_question_drawings(h);
    put_chapter(h, 9);
    put_room_to_sign(h);
}

exit_status handbook_on_paper(FILE *out, const paper_kind *kind, arena *keep,
                              const opened_book *book, const char *language)
{
    const tt_book_info info = tt_book_describe(book->book);
    const char *read_in = language != NULL ? language : info.language;
    const tongue in = tongue_of(read_in);
    const paper p = {.kind = kind, .out = out, .language = paper_language(in, read_in), .in = in};
    handbook h = {.p = &p, .keep = keep, .book = book};
    exit_status status = case_begin(book, NULL, language, false, false, &h.c);
    if (status == EXIT_DONE) {
        must_be_done(tt_book_contents(h.c, &h.all));
        find_lockouts(&h);
        kind->begin(&p, FILL(keep, in, HANDBOOK_TITLE, tt_book_title(book->book, read_in)));
        put_head(&h, &info);
        put_contents(&h);
        put_chapters(&h, language);
        kind->end(&p);
    }
    tt_case_free(h.c);
    return status;
}
