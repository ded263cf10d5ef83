/* From files to a book that can run, with a report of what is wrong; answers files; what a book
 * holds. */
#include <assert.h>
#include <stdlib.h>

#include "doubt/doubts.h"
#include "load/nodes.h"
#include "read/book_read.h"
#include "session/session.h"

/* ---- loading ---- */

typedef struct loading {
    const tt_source *sources;
    uint32_t count;
    const tt_source *at;   /* the site's file, or null */
    bool bare;             /* for no site: the book's own is left out */
    const tt_book *before; /* the same book before an edit, or null */
    tt_book *book;
    tt_report *report;
    arena *scratch;
} loading;

static source source_copied(arena *keep, const tt_source *s)
{
    return (source){str_copy(keep, str_of(s->name)), str_copy(keep, (str){s->bytes, s->length})};
}

static sources sources_copied(arena *keep, const tt_source *items, uint32_t count)
{
    source *copies = ARENA_ARRAY(keep, source, count);
    for (uint32_t i = 0; i < count; i++) copies[i] = source_copied(keep, &items[i]);
    return sources_sorted(keep, copies, count);
}

/* The site's file comes last, whatever its name. */
static sources all_copied(arena *keep, const loading *l)
{
    sources rules = sources_copied(keep, l->sources, l->count);
    if (l->at == NULL) return rules;
    source *all = ARENA_ARRAY(keep, source, (size_t)rules.count + 1);
    for (uint32_t i = 0; i < rules.count; i++) all[i] = rules.items[i];
    all[rules.count] = source_copied(keep, l->at);
    return (sources){all, rules.count + 1};
}

void report_finish(tt_report *r, arena *scratch)
{
    assert(r->list != NULL);
    r->text = cstr(r->keep, faults_text(r->list, r->keep, &r->files, 100));
    const fault *sorted = faults_sorted(r->list, scratch, &r->count);
    fault *kept = ARENA_ARRAY(r->keep, fault, r->count);
    for (uint32_t i = 0; i < r->count; i++) kept[i] = sorted[i];
    r->sorted = kept;
}

static const line_index *lines_of(arena *keep, const sources *files)
{
    line_index *all = ARENA_ARRAY(keep, line_index, files->count);
    for (uint32_t i = 0; i < files->count; i++) all[i] = source_lines(keep, &files->items[i]);
    return all;
}

/* What is reckoned is in the same table, but nobody is asked it; our own question is none of the
 * author's. */
static uint32_t count_asked(const book *r)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < r->question_count; i++)
        count += r->questions[i].kind != QUESTION_QUANTITY && !r->questions[i].ours;
    return count;
}

tt_book_info book_info_in(const tt_book *b, arena *keep, str language)
{
    const book *r = b->book;
    const char **cautions = ARENA_ARRAY(keep, const char *, r->cautions.count);
    for (uint32_t i = 0; i < r->cautions.count; i++)
        cautions[i] = cstr(keep, texts_for(&r->cautions.items[i], language));
    const char **with = ARENA_ARRAY(keep, const char *, r->hazard_caution_count);
    for (uint32_t i = 0; i < r->hazard_caution_count; i++)
        with[i] = cstr(keep, texts_for(&r->hazard_cautions[i].text, language));
    return (tt_book_info){cstr(keep, texts_for(&r->title, language)),
                          cstr(keep, r->edition),
                          cstr(keep, r->language),
                          r->role_count,
                          count_asked(r),
                          r->symptom_count,
                          r->cause_count,
                          r->fix_count,
                          r->rule_count,
                          r->conclusion_count,
                          r->case_count,
                          cautions,
                          r->cautions.count,
                          with,
                          r->hazard_caution_count,
                          cstr(keep, texts_for(&r->site_title, language)),
                          r->site_is_example,
                          r->has_site};
}

static void describe(tt_book *b)
{
    b->lines = lines_of(b->keep, &b->files);
    b->info = book_info_in(b, b->keep, b->book->language);
}

static void read_files(const loading *l)
{
    tt_book *b = l->book;
    const tt_book *old = l->before;
    const loaded_before before = old == NULL ? (loaded_before){.files = NULL}
                                             : (loaded_before){&old->files, old->roots, old->nodes};
    const loaded_files read = load_sources_again(b->keep, l->scratch, &b->files,
                                                 old == NULL ? NULL : &before, l->report->list);
    b->roots = read.roots;
    b->nodes = read.nodes;
}

/* bytes → nodes → book → program */
static tt_status load_all(void *context)
{
    loading *l = context;
    tt_book *b = l->book;
    tt_report *r = l->report;
    uint32_t site = l->bare ? NO_SITE : l->at == NULL ? NO_FILE : l->count;
    r->files = b->files = all_copied(held_files_arena(b->held), l);
    r->list = faults_new(r->keep);
    read_files(l);
    b->book = book_read(b->keep, l->scratch, &b->files, site, b->roots, r->list);
    if (b->book != NULL) check_trade_words(b->book, l->scratch, r->list);
    if (b->book != NULL && faults_errors(r->list) == 0)
        b->prog = program_build(b->keep, l->scratch, b->book, r->list);
    if (faults_errors(r->list) > 0) drop_what_follows(r->list, l->scratch, &b->files);
    report_finish(r, l->scratch);
    if (faults_errors(r->list) > 0 || b->prog == NULL) return TT_FAULTY;
    assert(b->book != NULL && b->lines == NULL);
    describe(b);
    return TT_OK;
}

static tt_status load_for(loading of, tt_book **out, tt_report **report)
{
    *out = NULL;
    *report = NULL;
    tt_book *b = calloc(1, sizeof *b);
    tt_report *r = calloc(1, sizeof *r);
    arena *scratch = arena_new(NULL, NULL);
    held_files *held = held_files_new();
    if (b != NULL) b->keep = arena_new(NULL, NULL);
    if (r != NULL) r->keep = arena_new(NULL, NULL);
    tt_status status = TT_NO_MEMORY;
    if (b != NULL && r != NULL && b->keep != NULL && r->keep != NULL && scratch != NULL &&
        held != NULL) {
        b->held = held_files_hold(held);
        r->held = held_files_hold(held);
        of.book = b;
        of.report = r;
        of.scratch = scratch;
        status = guarded((arena *[]){b->keep, r->keep, scratch, held_files_arena(held)}, 4,
                         load_all, &of);
    }
    arena_free(scratch);
    held_files_let_go(held);
    if (status == TT_OK)
        *out = b;
    else
        tt_book_free(b);
    if (status == TT_NO_MEMORY)
        tt_report_free(r);
    else
        *report = r;
    return status;
}

tt_status tt_book_load(const tt_source *files, size_t count, tt_book **out, tt_report **report)
{
    return tt_book_load_at(files, count, NULL, out, report);
}

tt_status tt_book_load_at(const tt_source *files, size_t count, const tt_source *site,
                          tt_book **out, tt_report **report)
{
    assert(out != NULL && report != NULL && count < UINT32_MAX);
    const bool bare = site != NULL && site->bytes == NULL;
    return load_for(
        (loading){
            .sources = files, .count = (uint32_t)count, .at = bare ? NULL : site, .bare = bare},
        out, report);
}

tt_status tt_book_load_again(const tt_source *files, size_t count, const tt_book *before,
                             tt_book **out, tt_report **report)
{
    assert(out != NULL && report != NULL && count < UINT32_MAX);
    return load_for((loading){.sources = files, .count = (uint32_t)count, .before = before}, out,
                    report);
}

/* All that was read is never changed again: only `keep` is for one thread at a time. */
tt_status tt_book_beside(const tt_book *of, tt_book **out)
{
    assert(of != NULL && out != NULL);
    *out = NULL;
    tt_book *b = calloc(1, sizeof *b);
    if (b == NULL) return TT_NO_MEMORY;
    *b = *of;
    b->held = NULL;
    b->keep = arena_new(NULL, NULL);
    if (b->keep != NULL)
        *out = b;
    else
        free(b);
    return b == NULL || *out == NULL ? TT_NO_MEMORY : TT_OK;
}

typedef struct doubting {
    const tt_book *book;
    tt_report *report;
    arena *hearing, *scratch;
} doubting;

static tt_status doubt_all(void *context)
{
    const doubting *x = context;
    find_doubts(&(doubter){.book = x->book->book,
                           .ear = listener_for_danger(x->hearing, x->scratch, x->book->book),
                           .scratch = x->scratch,
                           .list = x->report->list});
    report_finish(x->report, x->scratch);
    return TT_OK;
}

tt_status tt_book_doubts(const tt_book *book, tt_report *report)
{
    assert(book != NULL && report != NULL);
    doubting x = {book, report, arena_new(NULL, NULL), arena_new(NULL, NULL)};
    tt_status status = TT_NO_MEMORY;
    if (x.hearing != NULL && x.scratch != NULL)
        status = guarded((arena *[]){report->keep, x.hearing, x.scratch}, 3, doubt_all, &x);
    arena_free(x.hearing);
    arena_free(x.scratch);
    return status;
}

void tt_book_free(tt_book *b)
{
    if (b == NULL) return;
    arena_free(b->keep);
    held_files_let_go(b->held);
    free(b);
}

/* ---- answers files share the report ---- */

uint32_t file_complaint(arena *keep, arena *scratch, const tt_book *b, const tt_source *file)
{
    assert(b != NULL && file != NULL && keep != scratch);
    const sources files = sources_copied(keep, file, 1);
    faults *list = faults_new(keep); /* a load takes the scratch back that it has used */
    uint32_t budget = LOAD_NODES_MAX + 1;
    const node *root = load_source(keep, scratch, &files, 0, &budget, list);
    told_file told = {.complaint = NO_ID};
    if (root != NULL) replies_read(keep, scratch, b->book, root, list, &told);
    return faults_errors(list) == 0 ? told.complaint : NO_ID;
}

typedef struct answering {
    tt_case *c;
    const tt_source *file;
    tt_report *report;
    uint32_t first_unseen; /* danger that whoever wrote the file did not know of */
} answering;

static tt_status load_answers(void *context)
{
    answering *a = context;
    tt_report *r = a->report;
    r->files = sources_copied(r->keep, a->file, 1);
    r->list = faults_new(r->keep);
    uint32_t budget = LOAD_NODES_MAX + 1;
    const node *root = load_source(a->c->keep, a->c->scratch, &r->files, 0, &budget, r->list);
    told_file told = {.complaint = NO_ID};
    const reply *replies = NULL;
    if (root != NULL)
        replies = replies_read(a->c->keep, a->c->scratch, a->c->book->book, root, r->list, &told);
    report_finish(r, a->c->scratch);
    if (faults_errors(r->list) > 0) return TT_FAULTY;
    if (told.at.count > 0) case_push(a->c, (event){.kind = EVENT_FOCUS, .pieces = told.at});
    if (told.complaint != NO_ID) case_complain(a->c, told.complaint);
    for (uint32_t i = 0; i < told.count; i++)
        case_push(a->c, (event){.kind = EVENT_ANSWER,
                                .subject = replies[i].question,
                                .filed = true,
                                .unaware = true,
                                .first_unseen = a->first_unseen,
                                .reply = replies[i]});
    return TT_OK;
}

tt_status tt_answers_load(tt_case *c, const tt_source *file, tt_report **report)
{
    return tt_answers_load_unaware(c, file, TT_NONE, report);
}

tt_status tt_answers_load_unaware(tt_case *c, const tt_source *file, uint32_t first_unseen,
                                  tt_report **report)
{
    *report = NULL;
    tt_report *r = calloc(1, sizeof *r);
    if (r != NULL) r->keep = arena_new(NULL, NULL);
    if (r == NULL || r->keep == NULL) {
        free(r);
        return TT_NO_MEMORY;
    }
    uint32_t before = c->event_count;
    answering a = {c, file, r, first_unseen};
    tt_status status = guarded((arena *[]){c->keep, c->scratch, r->keep}, 3, load_answers, &a);
    if (status == TT_NO_MEMORY) {
        c->event_count = before;
        case_forget(c);
        tt_report_free(r);
    } else {
        *report = r;
    }
    return status;
}

/* ---- reports ---- */

void tt_report_free(tt_report *report)
{
    if (report == NULL) return;
    arena_free(report->keep);
    held_files_let_go(report->held);
    free(report);
}

uint32_t tt_report_errors(const tt_report *report)
{
    return faults_errors(report->list);
}

uint32_t tt_report_warnings(const tt_report *report)
{
    return faults_warnings(report->list);
}

const char *tt_report_text(const tt_report *report)
{
    return report->text;
}

uint32_t tt_report_count(const tt_report *report)
{
    return report->count;
}

/* Nowhere: no file, and line 0. */
static tt_remark remark_at(const tt_report *report, span at, const char *text)
{
    if (at.file >= report->files.count) return (tt_remark){"", 0, 0, 0, 0, text};
    const source *s = &report->files.items[at.file];
    const place from = source_place(s, at.start),
                to = source_place_after(s, from, at.start, at.end);
    return (tt_remark){s->name.p, from.line, from.column, to.line, to.column, text};
}

tt_fault tt_report_fault(const tt_report *report, uint32_t index)
{
    assert(index < report->count);
    const fault *f = &report->sorted[index];
    tt_fault out = {fault_id(f->code),
                    fault_severity_of(f->code) == SEVERITY_ERROR ? "error" : "warning",
                    "",
                    0,
                    0,
                    0,
                    0,
                    f->text.p,
                    f->help.n == 0 ? "" : f->help.p};
    const tt_remark at = remark_at(report, f->at, "");
    out.file = at.file;
    out.line = at.line;
    out.column = at.column;
    out.end_line = at.end_line;
    out.end_column = at.end_column;
    return out;
}

bool tt_report_note(const tt_report *report, uint32_t fault_index, uint32_t index, tt_remark *out)
{
    assert(fault_index < report->count && out != NULL);
    const fault_note *n = report->sorted[fault_index].notes;
    for (; n != NULL && index > 0; index--) n = n->next;
    if (n == NULL) return false;
    *out = remark_at(report, n->at, n->text.p);
    return true;
}

bool tt_report_mend(const tt_report *report, uint32_t fault_index, tt_remark *out)
{
    assert(fault_index < report->count && out != NULL);
    const fault *f = &report->sorted[fault_index];
    span at;
    if (!fault_mend_at(f, &report->files, &at)) return false;
    *out = remark_at(report, at, f->mended.p);
    return true;
}

bool tt_fault_code(uint32_t index, const char **code, const char **title)
{
    if (index >= FAULT_COUNT) return false;
    *code = fault_id((fault_code)index);
    *title = fault_title((fault_code)index);
    return true;
}

/* ---- what a book holds ---- */

tt_book_info tt_book_describe(const tt_book *b)
{
    return b->info;
}

typedef struct describing {
    tt_case *c;
    tt_book_info *out;
} describing;

static tt_status describe_in_case(void *context)
{
    const describing *d = context;
    *d->out = book_info_in(d->c->book, d->c->derived, d->c->language);
    return TT_OK;
}

tt_status tt_case_describe(tt_case *c, tt_book_info *out)
{
    assert(c != NULL && out != NULL);
    *out = c->book->info;
    return guarded_case(c, describe_in_case, &(describing){c, out});
}

static const char *title_in(const tt_book *b, const texts *title, const char *language)
{
    return texts_for(title, language == NULL ? b->book->language : str_of(language)).p;
}

const char *tt_book_title(const tt_book *b, const char *language)
{
    return title_in(b, &b->book->title, language);
}

const char *tt_site_title(const tt_book *b, const char *language)
{
    return title_in(b, &b->book->site_title, language);
}

uint32_t tt_question_find(const tt_book *b, const char *name)
{
    return book_question(b->book, str_of(name));
}

uint32_t tt_fix_find(const tt_book *b, const char *name)
{
    return book_fix(b->book, str_of(name));
}

uint32_t tt_symptom_find(const tt_book *b, const char *name)
{
    return book_symptom(b->book, str_of(name));
}
