/* One name for another, wherever it stands in a book: what it names, whether the new one may stand
 * there, and the edits. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/sorted.h"
#include "read/reader.h"
#include "revise/edit_list.h"
#include "revise/name_places.h"
#include "session/session.h"

enum { LISTED_MOST = 8 };

struct tt_renaming {
    arena *keep, *scratch;
    sources files; /* the book's by name, then the site's */
    uint32_t own;  /* so many are the book's */
    const tt_source *originals;
    mention_list names;
    str old, new;
    const mention *target;
    edit_list edits, site_edits; /* two files may have one name */
    tt_renamed result;
};

/* ---- reading ---- */

static source copied(arena *keep, const tt_source *s)
{
    return (source){str_copy(keep, str_of(s->name)), str_copy(keep, (str){s->bytes, s->length})};
}

static void copy_files(tt_renaming *r, const tt_source *given, uint32_t count,
                       const tt_source *site)
{
    source *all = ARENA_ARRAY(r->keep, source, (size_t)count + 1);
    for (uint32_t i = 0; i < count; i++) all[i] = copied(r->keep, &given[i]);
    sources sorted = sources_sorted(r->keep, all, count);
    for (uint32_t i = 0; i < count; i++) all[i] = sorted.items[i];
    if (site != NULL) all[count] = copied(r->keep, site);
    r->own = count;
    r->files = (sources){all, count + (site != NULL ? 1 : 0)};
    tt_source *originals = ARENA_ARRAY(r->keep, tt_source, r->files.count);
    for (uint32_t i = 0; i < r->files.count; i++)
        originals[i] = (tt_source){all[i].name.p, all[i].bytes.p, all[i].bytes.n};
    r->originals = originals;
}

static void read_for(tt_renaming *r, const node *const *roots, uint32_t site)
{
    sources *files = ARENA_NEW(r->keep, sources);
    *files = r->files;
    if (site >= r->own) files->count = r->own;
    if (site == r->own) files->count = r->own + 1;
    faults *list = faults_new(r->keep);
    book_read_names(r->keep, r->scratch, files, site, roots, list, &r->names);
}

/* With the book's own site its cases are read, and without any all that is written for each piece,
 * also of a kind that the site has none of. */
static void read_all(tt_renaming *r)
{
    faults *list = faults_new(r->keep);
    const node *const *roots = load_sources(r->keep, r->scratch, &r->files, list);
    r->names = (mention_list){.keep = r->keep};
    read_for(r, roots, NO_FILE);
    read_for(r, roots, NO_SITE);
    if (r->files.count > r->own) read_for(r, roots, r->own);
}

static str place_in_words(tt_renaming *r, span at)
{
    return span_short(r->keep, &r->files, at);
}

static void refuse(tt_renaming *r, str why)
{
    if (*r->result.refusal == 0) r->result.refusal = why.p;
}

/* ---- what the old name names ---- */

typedef struct wanted {
    uint32_t named; /* NAMED_COUNT: anything */
    str owner, name;
} wanted;

/* "drop", "cause drop" or "question: answer". */
static wanted take_wanted(str text)
{
    size_t colon = str_find_byte(text, ':');
    if (colon != SIZE_MAX)
        return (wanted){NAMED_ANSWER, str_trim(str_slice(text, 0, colon)),
                        str_trim(str_slice(text, colon + 1, text.n))};
    for (uint32_t named = 0; named < NAMED_COUNT; named++) {
        str words = str_of(named_words(named));
        bool first = str_starts(text, words.p) && text.n > words.n && text.p[words.n] == ' ';
        if (first) return (wanted){named, STR(""), str_trim(str_slice(text, words.n, text.n))};
    }
    return (wanted){NAMED_COUNT, STR(""), text};
}

static bool is_wanted(const wanted *w, const mention *m)
{
    if (m->form != MENTION_DEFINES || !str_eq(m->name, w->name)) return false;
    bool either = w->named == NAMED_COUNT || m->named == w->named ||
                  (m->named == NAMED_MADE && w->named == SECTION_SYMPTOMS);
    return either && (w->owner.n == 0 || str_eq(m->owner, w->owner));
}

static bool same_thing(const mention *a, const mention *b)
{
    return a->named == b->named && str_eq(a->name, b->name) && str_eq(a->owner, b->owner);
}

/* Each thing once, though it was read several times. */
static const mention **things_wanted(tt_renaming *r, const wanted *w, uint32_t *count)
{
    const mention **all = ARENA_ARRAY(r->scratch, const mention *, r->names.count);
    *count = 0;
    for (uint32_t i = 0; i < r->names.count; i++) {
        const mention *m = &r->names.items[i];
        if (!is_wanted(w, m)) continue;
        uint32_t k = 0;
        while (k < *count && !same_thing(all[k], m)) k++;
        if (k == *count) all[(*count)++] = m;
    }
    return all;
}

static str how_to_say(tt_renaming *r, const mention *m)
{
    if (m->named == NAMED_ANSWER)
        return str_printf(r->keep, "'%.*s: %.*s'", STR_ARG(m->owner), STR_ARG(m->name));
    return str_printf(r->keep, "'%s %.*s'", named_words(m->named), STR_ARG(m->name));
}

static void refuse_several(tt_renaming *r, const mention *const *all, uint32_t count)
{
    text_builder b = {.keep = r->keep};
    text_addf(&b, "'%.*s' could mean several things. Write which:", STR_ARG(r->old));
    for (uint32_t i = 0; i < count && i < LISTED_MOST; i++)
        text_addf(&b, "%s %.*s (%.*s)", i == 0 ? "" : ",", STR_ARG(how_to_say(r, all[i])),
                  STR_ARG(place_in_words(r, all[i]->at)));
    if (count > LISTED_MOST) text_addf(&b, ", or one of %u more", count - LISTED_MOST);
    text_add(&b, STR("."));
    refuse(r, text_done(&b));
}

static void refuse_unknown(tt_renaming *r, const wanted *w)
{
    str *names = ARENA_ARRAY(r->scratch, str, r->names.count);
    uint32_t count = 0;
    for (uint32_t i = 0; i < r->names.count; i++) {
        const mention *m = &r->names.items[i];
        bool fits = w->named == NAMED_COUNT || m->named == w->named;
        if (fits && m->form == MENTION_DEFINES && (w->owner.n == 0 || str_eq(w->owner, m->owner)))
            names[count++] = m->name;
    }
    size_t nearest = str_nearest(r->scratch, w->name, names, count);
    str help = nearest == SIZE_MAX
                   ? STR("")
                   : str_printf(r->keep, " Did you mean '%.*s'?", STR_ARG(names[nearest]));
    refuse(r, str_printf(r->keep, "Nothing in the book is named '%.*s'.%.*s", STR_ARG(r->old),
                         STR_ARG(help)));
}

static void refuse_made(tt_renaming *r, const mention *m)
{
    refuse(r, str_printf(
                  r->keep,
                  "The symptom '%.*s' has its name from 'confirms' at %.*s. Rename the question "
                  "'%.*s', or its answer '%.*s: %.*s'.",
                  STR_ARG(m->name), STR_ARG(place_in_words(r, m->at)), STR_ARG(m->owner),
                  STR_ARG(m->owner), STR_ARG(m->part)));
}

static void find_target(tt_renaming *r)
{
    const wanted w = take_wanted(r->old);
    uint32_t count;
    const mention *const *all = things_wanted(r, &w, &count);
    if (count == 0) refuse_unknown(r, &w);
    if (count > 1) refuse_several(r, all, count);
    if (count == 1 && all[0]->named == NAMED_MADE) refuse_made(r, all[0]);
    r->target = count == 1 ? all[0] : NULL;
    r->old = w.name;
}

/* ---- whether the new name may stand there ---- */

/* "a cause", "an answer" */
static const char *with_article(tt_renaming *r, uint32_t named)
{
    const char *words = named_words(named);
    return str_printf(r->keep, "%s %s", strchr("aeiou", words[0]) != NULL ? "an" : "a", words).p;
}

static void check_new_name(tt_renaming *r)
{
    faults *list = faults_new(r->keep);
    reader reads = {.keep = r->keep, .scratch = r->scratch, .list = list};
    const char *what = with_article(r, r->target->named);
    if (check_name(&reads, r->new, span_nowhere(), what)) return;
    uint32_t count;
    const fault *f = faults_sorted(list, r->scratch, &count);
    assert(count == 1);
    refuse(r, str_printf(r->keep, "%.*s%s%.*s", STR_ARG(f->text), f->help.n > 0 ? " " : "",
                         STR_ARG(f->help)));
}

/* Conditions name questions, symptoms and conclusions alike. */
static bool in_conditions(uint32_t named)
{
    return named <= SECTION_CONCLUSIONS || named == NAMED_MADE;
}

/* Braces show the answer to a question, or the piece of a kind. */
static bool in_braces(uint32_t a, uint32_t b)
{
    return a == SECTION_QUESTIONS && b == NAMED_KIND;
}

static void check_clash(tt_renaming *r, const mention *m)
{
    const uint32_t mine = r->target->named;
    if (m->form != MENTION_DEFINES || !str_eq(m->name, r->new)) return;
    str at = place_in_words(r, m->at);
    if (m->named == mine && (mine != NAMED_ANSWER || str_eq(m->owner, r->target->owner)))
        refuse(r, str_printf(r->keep, "There is %s '%.*s' already, at %.*s. Choose another name.",
                             with_article(r, mine), STR_ARG(r->new), STR_ARG(at)));
    else if (in_conditions(mine) && in_conditions(m->named))
        refuse(r,
               str_printf(r->keep,
                          "A condition could not tell this %s from the %s '%.*s' at %.*s. Choose "
                          "another name.",
                          named_words(mine), named_words(m->named), STR_ARG(r->new), STR_ARG(at)));
    else if (in_braces(mine, m->named) || in_braces(m->named, mine))
        refuse(r,
               str_printf(r->keep,
                          "In a text '{%.*s}' could be this %s or the %s at %.*s. Choose another "
                          "name.",
                          STR_ARG(r->new), named_words(mine), named_words(m->named), STR_ARG(at)));
}

static void check_new(tt_renaming *r)
{
    if (str_eq(r->old, r->new))
        refuse(r, str_printf(r->keep, "'%.*s' is its name already.", STR_ARG(r->new)));
    check_new_name(r);
    for (uint32_t i = 0; i < r->names.count; i++) check_clash(r, &r->names.items[i]);
}

/* ---- the edits ---- */

typedef struct writing {
    tt_renaming *r;
    const char *text;
} writing;

static void write_at(void *context, span at)
{
    const writing *w = context;
    edit_at(at.file < w->r->own ? &w->r->edits : &w->r->site_edits, at, w->text);
}

/* Everywhere that this thing, under this name, is named. */
static void write_name(tt_renaming *r, uint32_t named, str owner, str name, str text)
{
    writing w = {r, str_copy(r->keep, text).p};
    for (uint32_t i = 0; i < r->names.count; i++) {
        const mention *m = &r->names.items[i];
        bool same = m->named == named && str_eq(m->name, name) && str_eq(m->owner, owner);
        if (same) name_places(&r->files, m, write_at, &w);
    }
}

/* Symptoms that `confirms` makes carry the names of the question and of the answer. */
static void write_made(tt_renaming *r, const mention *m)
{
    const mention *t = r->target;
    bool question = t->named == SECTION_QUESTIONS && str_eq(m->owner, t->name);
    bool answer =
        t->named == NAMED_ANSWER && str_eq(m->owner, t->owner) && str_eq(m->part, t->name);
    if (m->named != NAMED_MADE || (!question && !answer)) return;
    str made = str_printf(r->keep, "%.*s-%.*s-confirmed", STR_ARG(question ? r->new : m->owner),
                          STR_ARG(answer ? r->new : m->part));
    write_name(r, SECTION_SYMPTOMS, STR(""), m->name, made);
}

/* What was read several times was found several times. */
static void leave_out_twice(edit_list *e)
{
    uint32_t used = 0;
    edit_sort(e);
    for (uint32_t i = 0; i < e->count; i++) {
        const tt_edit *last = used > 0 ? &e->items[used - 1] : NULL;
        bool twice = last != NULL && str_is(str_of(last->file), e->items[i].file) &&
                     last->start == e->items[i].start;
        assert(twice || last == NULL || !str_is(str_of(last->file), e->items[i].file) ||
               last->end <= e->items[i].start);
        if (!twice) e->items[used++] = e->items[i];
    }
    e->count = used;
}

static void write_edits(tt_renaming *r)
{
    const mention *t = r->target;
    r->edits = (edit_list){.keep = r->keep, .sources = r->originals, .source_count = r->own};
    r->site_edits = r->edits;
    r->site_edits.source_count = r->files.count;
    assert(t->named == NAMED_ANSWER || t->owner.n == 0);
    write_name(r, t->named, t->owner, r->old, r->new);
    for (uint32_t i = 0; i < r->names.count; i++) write_made(r, &r->names.items[i]);
    leave_out_twice(&r->edits);
    leave_out_twice(&r->site_edits);
    assert(r->edits.count + r->site_edits.count > 0);
}

static void show_edits(tt_renaming *r)
{
    tt_renamed *out = &r->result;
    out->edits = r->edits.items;
    out->edit_count = r->edits.count;
    out->sources = edited_sources(r->keep, r->originals, r->own, r->edits.items, r->edits.count);
    out->source_count = r->own;
    out->site_edits = r->site_edits.items;
    out->site_edit_count = r->site_edits.count;
    if (r->files.count > r->own)
        out->site = edited_sources(r->keep, &r->originals[r->own], 1, r->site_edits.items,
                                   r->site_edits.count);
}

/* ---- all together ---- */

typedef struct asking {
    tt_renaming *r;
    const tt_source *given, *site;
    uint32_t count;
    const char *old, *new;
} asking;

static tt_status find_edits(void *context)
{
    const asking *a = context;
    tt_renaming *r = a->r;
    r->result.refusal = "";
    copy_files(r, a->given, a->count, a->site);
    r->old = str_trim(str_copy(r->keep, str_of(a->old)));
    r->new = str_trim(str_copy(r->keep, str_of(a->new)));
    read_all(r);
    find_target(r);
    if (r->target != NULL) check_new(r);
    if (*r->result.refusal != 0) return TT_FAULTY;
    write_edits(r);
    r->result.what = named_words(r->target->named);
    r->result.at = place_in_words(r, r->target->at).p;
    show_edits(r);
    return TT_OK;
}

static tt_status say_broken(void *context)
{
    const asking *a = context;
    refuse(a->r, str_printf(a->r->keep, "Renamed so, the book would have faults:\n%s", a->old));
    a->r->result.edit_count = a->r->result.site_edit_count = 0;
    return TT_FAULTY;
}

/* The patch must leave a book that can be used: what was not understood shows here. */
static tt_status try_renamed(tt_renaming *r, const tt_source *site)
{
    tt_book *b = NULL;
    tt_report *report = NULL;
    tt_status status = tt_book_load_at(r->result.sources, r->own, site, &b, &report);
    if (status == TT_FAULTY) {
        asking a = {.r = r, .old = tt_report_text(report)};
        status = guarded((arena *[]){r->keep, r->scratch}, 2, say_broken, &a);
    }
    tt_book_free(b);
    tt_report_free(report);
    return status;
}

/* Of a book with faults nobody knows what names what. */
static tt_status check_whole(const tt_source *given, size_t count, const tt_source *site,
                             tt_report **report)
{
    tt_book *b = NULL;
    tt_status status = tt_book_load_at(given, count, site, &b, report);
    tt_book_free(b);
    return status;
}

static tt_status rename_whole(tt_renaming *r, const asking *a)
{
    tt_status status =
        guarded((arena *[]){r->keep, r->scratch}, 2, find_edits, (void *)(uintptr_t)a);
    if (status == TT_OK) status = try_renamed(r, NULL);
    if (status == TT_OK && a->site != NULL) status = try_renamed(r, r->result.site);
    return status;
}

tt_status tt_rename(const tt_source *given, size_t count, const tt_source *site, const char *old,
                    const char *new, tt_renaming **out, tt_report **report)
{
    assert(old != NULL && new != NULL &&count < NO_SITE);
    *out = NULL;
    tt_status status = check_whole(given, count, NULL, report);
    if (status == TT_OK && site != NULL) {
        tt_report_free(*report);
        status = check_whole(given, count, site, report);
    }
    if (status != TT_OK) return status;
    tt_renaming *r = calloc(1, sizeof *r);
    if (r == NULL) return TT_NO_MEMORY;
    *r = (tt_renaming){.keep = arena_new(NULL, NULL), .scratch = arena_new(NULL, NULL)};
    const asking a = {r, given, site, (uint32_t)count, old, new};
    status = r->keep != NULL && r->scratch != NULL ? rename_whole(r, &a) : TT_NO_MEMORY;
    if (status == TT_NO_MEMORY)
        tt_renaming_free(r);
    else
        *out = r;
    return status;
}

void tt_renaming_free(tt_renaming *r)
{
    if (r == NULL) return;
    arena_free(r->keep);
    arena_free(r->scratch);
    free(r);
}

tt_renamed tt_renaming_look(const tt_renaming *r)
{
    assert(r->result.refusal != NULL);
    return r->result;
}
