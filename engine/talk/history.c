/* What happened in a case, record by record, as a sheet tells it: each in words while it is played
 * again, for only then the rules know what it meant. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "talk/talk.h"

typedef struct history {
    tt_talk *t;
    tt_told *told;
    uint32_t count;
    tt_told_caution *cautions;
    uint32_t caution_count, caution_room;
} history;

/* ---- one record ---- */

static const char *text_in(const tt_value *data, const char *key)
{
    const char *text = value_text(data, key);
    return text != NULL ? text : "";
}

static const char *kept(tt_talk *t, const char *text)
{
    return str_copy(t->shown, str_of(text != NULL ? text : "")).p;
}

/* While it counts, the case says best what an answer is. */
static void tell_answer(tt_talk *t, const tt_value *data, tt_told *told)
{
    const uint32_t question = tt_question_find(t->book, text_in(data, "question"));
    tt_reply reply;
    told->about = text_in(data, "question");
    told->text = *text_in(data, "asked") != 0 ? text_in(data, "asked") : told->about;
    told->result = *text_in(data, "words") != 0 ? text_in(data, "words") : text_in(data, "typed");
    if (question == TT_NONE) return;
    const tt_question q = talk_question(t, question);
    told->text = kept(t, q.ask);
    if (reply_of_value(t->shown, t->book, question, value_get(data, "reply"), &reply))
        told->result = kept(t, reply_words_of(t->shown, t->tongue, &q, &reply));
    const tt_fact *fact = told->taken_back || told->left_out ? NULL : talk_fact(t, question);
    if (fact != NULL && fact->before == NULL) told->result = kept(t, fact->text);
}

/* What was read off after a fix, whatever the fact became since. */
static void tell_measured(tt_talk *t, const tt_value *data, tt_told *told)
{
    const uint32_t question = tt_question_find(t->book, text_in(data, "question"));
    told->about = text_in(data, "question");
    told->text = question != TT_NONE ? kept(t, talk_question(t, question).ask) : told->about;
    told->result = text_in(data, "words");
}

static const char *pieces_words(tt_talk *t, const tt_value *at)
{
    text_builder words = {.keep = t->shown};
    for (uint32_t i = 0; value_is(at, TT_VALUE_LIST) && i < at->count; i++) {
        const char *name = at->items[i].kind == TT_VALUE_TEXT ? at->items[i].text : "";
        const uint32_t piece = piece_named(t, name);
        if (i > 0) text_add(&words, STR(", "));
        text_add(&words, str_of(piece != TT_NONE
                                    ? tt_piece_show(t->book, piece, tt_case_language(t->c)).text
                                    : name));
    }
    return text_done(&words).p;
}

static void tell_complaint(tt_talk *t, const tt_value *data, tt_told *told)
{
    const uint32_t complaint = complaint_named(t, text_in(data, "symptom"));
    const char *words =
        complaint != TT_NONE ? t->complaints.items[complaint].text : text_in(data, "text");
    const char *where = pieces_words(t, value_get(data, "at"));
    told->about = text_in(data, "symptom");
    told->text = OURS(t, TEXT_TOLD_TROUBLE);
    if (*words == 0) words = told->about;
    told->result = *where != 0 ? SAY(t, TEXT_NAMED, words, where) : kept(t, words);
}

static const char *setting_words(tt_talk *t, uint32_t reading, const tt_value *set, const char *key)
{
    const char *words = NULL;
    double number;
    const bool said = value_number(set, key, &number) &&
                      talk_is_ok(t, tt_reading_text(t->c, reading, number, &words));
    return said ? kept(t, words) : "";
}

static void tell_fix(tt_talk *t, const tt_value *data, tt_told *told, const char *result)
{
    const uint32_t fix = tt_fix_find(t->book, text_in(data, "fix"));
    const tt_value *set = value_get(data, "set");
    told->about = told->text = text_in(data, "fix");
    told->result = result;
    if (fix == TT_NONE) return;
    const tt_fix_plan plan = talk_plan(t, fix);
    told->text = kept(t, talk_fix_words(t, data));
    if (!value_is(set, TT_VALUE_MAP) || plan.adjust.reading == TT_NONE) return;
    told->setting = kept(t, talk_question(t, plan.adjust.reading).ask);
    told->from = setting_words(t, plan.adjust.reading, set, "from");
    told->to = setting_words(t, plan.adjust.reading, set, "to");
}

static const char *outcome_said(tt_talk *t, const tt_value *data)
{
    tt_outcome outcome;
    return tt_outcome_find(text_in(data, "outcome"), &outcome) ? outcome_words(t->tongue, outcome)
                                                               : text_in(data, "outcome");
}

/* X(how, text) */
/* clang-format off */
#define HOW_TABLE(X) \
    X("gone", TEXT_OUTCOME_GONE) \
    X("call", TEXT_TOLD_CALLED) \
    X("stop", TEXT_TOLD_STOPPED) \
    X("made-safe", TEXT_TOLD_DANGER_OVER) \
    X("in-order", TEXT_TOLD_IN_ORDER) X("drifted", TEXT_TOLD_DRIFTED) \
    X("recorded", TEXT_TOLD_RECORDED) \
    X("yes", TEXT_TOLD_YES) X("other", TEXT_TOLD_OTHER) X("not-listed", TEXT_TOLD_NOT_LISTED) \
        X("unsure", TEXT_SAID_UNSURE)
/* clang-format on */

static const char *how_words(tt_talk *t, const char *how)
{
#define HOW_ROW(name, id) \
    if (strcmp(how, name) == 0) return OURS(t, id);
    HOW_TABLE(HOW_ROW)
#undef HOW_ROW
    return how;
}

static const char *confirmed_words(tt_talk *t, const tt_value *data)
{
    const char *cause = text_in(data, "cause"), *how = text_in(data, "how");
    if (*cause == 0 || strcmp(how, "not-listed") == 0) return how_words(t, how);
    const tt_view *view = talk_look(t);
    for (uint32_t i = 0; i < view->cause_count; i++)
        if (view->causes[i].name != NULL && strcmp(view->causes[i].name, cause) == 0)
            return kept(t, view->causes[i].text);
    return *text_in(data, "cause_text") != 0 ? text_in(data, "cause_text") : cause;
}

static void set(tt_told *told, const char *text, const char *result)
{
    assert(text != NULL && result != NULL);
    told->text = text;
    told->result = result;
}

static const char *closed_words(tt_talk *t, const tt_value *data)
{
    const char *how = text_in(data, "how");
    return strcmp(how, "elsewhere") == 0 ? SAY(t, TEXT_TOLD_ELSEWHERE, text_in(data, "case"))
                                         : how_words(t, how);
}

/* A sentence of its own: with a capital. */
static void tell_note(tt_talk *t, const tt_record *r, tt_told *told)
{
    const str words = unicode_capital(t->shown, str_of(talk_record_words(t, r)));
    set(told, str_copy(t->shown, words).p,
        record_kind_of(r->kind) == RECORD_CLOSE ? closed_words(t, r->data) : "");
}

static void tell_look(tt_talk *t, const tt_value *data, tt_told *told)
{
    tell_answer(t, data, told);
    told->result = kept(t, SAY(t, TEXT_TOLD_AGAIN, told->result));
}

static void tell_file(tt_talk *t, const tt_value *data, tt_told *told)
{
    const uint32_t complaint = complaint_named(t, text_in(data, "symptom"));
    const char *words =
        complaint != TT_NONE ? t->complaints.items[complaint].text : text_in(data, "complaint");
    set(told, OURS(t, TEXT_TOLD_FILE), text_in(data, "name"));
    if (*words == 0) return;
    told->about = text_in(data, "symptom");
    told->result = SAY(t, TEXT_NAMED, told->result, words);
}

static void tell(tt_talk *t, const tt_record *r, tt_told *told)
{
    switch (record_kind_of(r->kind)) {
    case RECORD_ANSWER:
        tell_answer(t, r->data, told);
        return;
    case RECORD_AGAIN:
        tell_look(t, r->data, told);
        return;
    case RECORD_MEASURED:
        tell_measured(t, r->data, told);
        return;
    case RECORD_COMPLAINT:
        tell_complaint(t, r->data, told);
        return;
    case RECORD_TRIED:
        tell_fix(t, r->data, told, outcome_said(t, r->data));
        return;
    case RECORD_PUT_BACK:
        tell_fix(t, r->data, told, OURS(t, TEXT_DID_PUT_BACK));
        return;
    case RECORD_LEFT:
        tell_fix(t, r->data, told, OURS(t, TEXT_DID_LEAVE_SO));
        return;
    case RECORD_CAME_BACK:
        tell_fix(t, r->data, told, OURS(t, TEXT_DID_COME_BACK));
        return;
    case RECORD_FIX_BEGUN:
        tell_fix(t, r->data, told, OURS(t, TEXT_DID_BEGIN_FIX));
        return;
    case RECORD_CONFIRM:
        set(told, OURS(t, TEXT_TOLD_WAS_IT), confirmed_words(t, r->data));
        return;
    case RECORD_NO_COMPLAINT:
        set(told, OURS(t, TEXT_TOLD_TROUBLE), OURS(t, TEXT_TOLD_NONE_OF_LIST));
        return;
    case RECORD_ANSWERS:
        tell_file(t, r->data, told);
        return;
    default:
        tell_note(t, r, told);
    }
}

/* ---- all of them ---- */

static bool is_told(const history *h, const char *text)
{
    for (uint32_t i = 0; i < h->caution_count; i++)
        if (strcmp(h->cautions[i].text, text) == 0) return true;
    return false;
}

static void tell_caution(history *h, const char *signal, const char *text, const char *time)
{
    assert(signal != NULL && text != NULL && time != NULL);
    if (is_told(h, text)) return;
    GROW(h->t->shown, h->cautions, h->caution_count, h->caution_room);
    h->cautions[h->caution_count++] = (tt_told_caution){signal, kept(h->t, text), time};
}

/* Those of the book are shown at the beginning, with no signal word before them. */
static void tell_cautions(history *h, const tt_record *r)
{
    const tt_book_info info = talk_book(h->t);
    const tt_view *view = talk_see(h->t);
    for (uint32_t i = 0; record_kind_of(r->kind) == RECORD_BEGIN && i < info.caution_count; i++)
        tell_caution(h, "", info.cautions[i], r->time);
    for (uint32_t i = 0; i < view->caution_count; i++)
        tell_caution(h, view->cautions[i].signal, view->cautions[i].text, r->time);
}

/* Words that were kept before anybody confirmed them, and stand with the complaint by now. */
static bool stands_with_complaint(const journal *j, uint32_t entry)
{
    assert(entry < j->count);
    const char *words = text_in(j->entries[entry].record.data, "words");
    if (j->entries[entry].kind != RECORD_SAID) return false;
    for (uint32_t i = entry + 1; i < j->count; i++)
        if (j->entries[i].kind == RECORD_COMPLAINT && entry_counts(j, i) &&
            strcmp(entry_text(j, i, "said"), words) == 0)
            return true;
    return false;
}

static void tell_entry(void *context, uint32_t entry, bool taken)
{
    history *h = context;
    tt_talk *t = h->t;
    const journal_entry *e = &talk_meaning(t)->entries[entry];
    tt_told *told = &h->told[h->count];
    const char *typed = *text_in(e->record.data, "said") != 0 ? text_in(e->record.data, "said")
                                                              : text_in(e->record.data, "typed");
    if (e->kind == RECORD_BACK || e->kind == RECORD_SEAL) return; /* what it took is marked */
    if (stands_with_complaint(talk_meaning(t), entry)) return;
    *told = (tt_told){.record = &e->record,
                      .person = *e->person != 0 ? e->person : OURS(t, TEXT_SOMEBODY),
                      .about = "",
                      .typed = typed,
                      .setting = "",
                      .from = "",
                      .to = "",
                      .skipped = e->skipped,
                      .taken_back = e->skipped != TT_SKIP_NOT,
                      .left_out = !taken};
    h->count++;
    assert(h->count <= talk_meaning(t)->count);
    tell(t, &e->record, told);
    if (e->skipped == TT_SKIP_NOT) tell_cautions(h, &e->record);
}

typedef struct asked_history {
    tt_talk *t;
    history told;
} asked_history;

static tt_status tell_all(void *context)
{
    asked_history *a = context;
    a->told =
        (history){.t = a->t, .told = ARENA_ARRAY(a->t->shown, tt_told, talk_meaning(a->t)->count)};
    replay_watched(a->t, tell_entry, &a->told);
    return TT_OK;
}

tt_status tt_talk_history(tt_talk *t, tt_history *out)
{
    assert(t->begun && out != NULL);
    asked_history a = {.t = t};
    const tt_status status = guarded_talk(t, tell_all, &a);
    if (status == TT_OK)
        *out = (tt_history){a.told.told, a.told.count, a.told.cautions, a.told.caution_count};
    return status;
}

/* ---- what two said differently ---- */

/* "Is there smoke? no (east desk, 09:12)" */
static const char *whose_words(tt_talk *t, uint32_t entry)
{
    assert(entry < talk_meaning(t)->count);
    const journal_entry *e = &talk_meaning(t)->entries[entry];
    const char *person = *e->person != 0 ? e->person : OURS(t, TEXT_SOMEBODY);
    return SAY(t, TEXT_TOLD_BY, talk_record_words(t, &e->record), person,
               talk_moment(t, e->record.time));
}

typedef struct unsettled {
    tt_talk *t;
    const char **items;
    uint32_t count;
} unsettled;

static tt_status tell_unsettled(void *context)
{
    unsettled *u = context;
    const disputes all = journal_disputes(u->t->shown, talk_meaning(u->t));
    u->items = ARENA_ARRAY(u->t->shown, const char *, all.count);
    for (uint32_t i = 0; i < all.count; i++) {
        const dispute *d = &all.items[i];
        uint32_t other = 0;
        while (d->answer[other] == d->answer[0]) other++;
        u->items[u->count++] = SAY(u->t, TEXT_TOLD_BUT, whose_words(u->t, d->items[0]),
                                   whose_words(u->t, d->items[other]));
    }
    return TT_OK;
}

tt_status tt_talk_unsettled(tt_talk *t, const char *const **out, uint32_t *count)
{
    assert(t->begun && out != NULL && count != NULL);
    unsettled u = {.t = t};
    const tt_status status = guarded_talk(t, tell_unsettled, &u);
    *out = status == TT_OK ? u.items : NULL;
    *count = status == TT_OK ? u.count : 0;
    return status;
}
