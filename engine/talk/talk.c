/* A talk: its beginning, the records it is handed, replies, and the turn that follows. */
#include "talk/talk_replies.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "session/session.h"

/* ---- beginning and end ---- */

static const char *kept_text(tt_talk *t, const char *text)
{
    return text != NULL ? str_copy(t->keep, str_of(text)).p : NULL;
}

static void list_complaints(tt_talk *t)
{
    tt_complaint *all = NULL;
    uint32_t count = 0;
    talk_check(t, tt_complaints(t->book, &all, &count));
    tt_complaint *kept = arena_try(t->keep, (count + 1) * sizeof *kept);
    if (kept != NULL && count > 0) memcpy(kept, all, count * sizeof *kept);
    free(all);
    if (kept == NULL) arena_leave(t->keep);
    t->complaints = (tt_complaint_list){kept, count};
}

typedef struct opening {
    tt_talk *t;
    const tt_talk_options *given;
} opening;

static tt_status open_talk(void *context)
{
    const opening *o = context;
    tt_talk *t = o->t;
    t->options = *o->given;
    t->options.writer = kept_text(t, o->given->writer);
    t->options.role = kept_text(t, o->given->role);
    t->options.language = kept_text(t, o->given->language);
    t->options.number = o->given->number != NULL ? kept_text(t, o->given->number) : "";
    t->options.how = kept_text(t, o->given->how);
    if (o->given->about != NULL) {
        tt_value *about = ARENA_NEW(t->keep, tt_value);
        *about = value_copy(t->keep, o->given->about);
        t->options.about = about;
    }
    t->role = TT_NONE;
    t->wrong = t->wrong_code = t->how = t->mistaken = t->doubted_good = "";
    t->fix = (walk){.fix = TT_NONE};
    if (t->options.role != NULL && tt_role_find(t->book, t->options.role) == TT_NONE)
        return TT_FAULTY;
    if (t->options.kind == TT_KIND_RECORD && t->options.how == NULL &&
        (t->options.role == NULL || tt_role_find(t->book, t->options.role) == 0))
        return TT_FAULTY; /* what is good is not for whoever sees it first to say */
    list_complaints(t);
    return TT_OK;
}

/* The turn for which no memory is needed. */
static void show_out_of_memory(tt_talk *t)
{
    turn_afresh(t, TT_TURN_NOT_KEPT);
    t->turn.number++;
    t->turn.prompt = t->turn.say = OURS(t, TEXT_OUT_OF_MEMORY);
    t->only_choice = (tt_turn_choice){"go-on", OURS(t, TEXT_GO_ON), NULL, NULL};
    t->only_word = (tt_turn_choice){word_name(WORD_DANGER), OURS(t, word_meaning(WORD_DANGER)),
                                    NULL, OURS(t, word_typed(WORD_DANGER))};
    t->turn.choices = &t->only_choice;
    t->turn.words = &t->only_word;
    t->turn.choice_count = t->turn.word_count = 1;
}

/* As `guarded_talk`; where memory ends in the middle the talk stands as before. What was made by
 * then was handed to nobody, and counts for nothing; the case is played once more. */
static tt_status all_or_nothing(tt_talk *t, tt_status (*work)(void *context), void *context)
{
    const tt_talk before = *t;
    const tt_status status = guarded_talk(t, work, context);
    if (status != TT_NO_MEMORY) return status;
    tt_case *c = t->c;
    *t = before;
    t->c = c;
    t->meaning = NULL;
    t->works_anew = true;
    show_out_of_memory(t);
    return status;
}

tt_status tt_talk_new(const tt_book *book, const tt_talk_options *options, tt_talk **out)
{
    assert(book != NULL && options != NULL && options->writer != NULL);
    *out = NULL;
    tt_talk *t = calloc(1, sizeof *t);
    if (t == NULL) return TT_NO_MEMORY;
    t->book = book;
    t->keep = arena_new(NULL, NULL);
    t->shown = arena_new(NULL, NULL);
    t->scratch = arena_new(NULL, NULL);
    t->meant = arena_new(NULL, NULL);
    tt_status status = TT_NO_MEMORY;
    if (t->keep != NULL && t->shown != NULL && t->scratch != NULL && t->meant != NULL)
        status = guarded_talk(t, open_talk, &(opening){t, options});
    if (status == TT_OK)
        *out = t;
    else
        tt_talk_free(t);
    return status;
}

void tt_talk_free(tt_talk *t)
{
    if (t == NULL) return;
    tt_case_free(t->c);
    arena_free(t->keep);
    arena_free(t->shown);
    arena_free(t->scratch);
    arena_free(t->meant);
    free(t);
}

tt_case *tt_talk_case(tt_talk *t)
{
    return t->c;
}

const tt_turn *tt_talk_turn(tt_talk *t)
{
    return &t->turn;
}

/* ---- records that were kept ---- */

typedef struct taking {
    tt_talk *t;
    const tt_record *records;
    size_t count;
} taking;

static const tt_value *kept_value(tt_talk *t, const tt_value *v)
{
    tt_value *kept = v != NULL ? ARENA_NEW(t->keep, tt_value) : NULL;
    if (v != NULL) *kept = value_copy(t->keep, v);
    return kept;
}

static void copy_record(tt_talk *t, const tt_record *r)
{
    assert(r->writer != NULL && r->kind != NULL);
    const tt_record copy = {.writer = kept_text(t, r->writer),
                            .number = r->number,
                            .lamport = r->lamport,
                            .time = kept_text(t, r->time),
                            .seen = kept_value(t, r->seen),
                            .kind = kept_text(t, r->kind),
                            .data = kept_value(t, r->data)};
    talk_add_record(t, &copy);
}

/* What was just handed in stands last in `records`. */
static void tell_meanwhile(tt_talk *t, size_t count)
{
    const journal *j = talk_meaning(t);
    bool first = true;
    for (uint32_t i = 0; i < j->count; i++) {
        if (j->entries[i].source + count < t->record_count) continue;
        if (j->entries[i].kind == RECORD_SEAL) continue;
        talk_news(t, TT_PART_NOTE, first ? OURS(t, TEXT_MEANWHILE) : "", talk_record_line(t, i));
        first = false;
    }
}

static bool takes_over(const tt_talk *t, const tt_record *r)
{
    assert(r->kind != NULL);
    const char *how = value_text(r->data, "how");
    return strcmp(r->writer, t->options.writer) != 0 && strcmp(r->kind, "resume") == 0 &&
           how != NULL && strcmp(how, "take-over") == 0;
}

/* What the person is in the middle of comes back if they go on too. */
static void be_taken_over(tt_talk *t)
{
    const aside was = t->doing.kind == ASIDE_READ ? t->before_reading : t->doing;
    if (was.kind != ASIDE_TAKEN_OVER) t->overtaken = was;
    t->doing = (aside){.kind = ASIDE_TAKEN_OVER};
}

/* Before the talk has begun they are its past; afterwards they are what others did meanwhile. While
 * a reply waits to be kept there is no next turn yet: they are told with it. */
static tt_status take_records(void *context)
{
    const taking *x = context;
    tt_talk *t = x->t;
    for (size_t i = 0; i < x->count; i++) copy_record(t, &x->records[i]);
    t->meaning = NULL;
    if (!t->begun || x->count == 0) return TT_OK;
    for (size_t i = 0; i < x->count; i++) {
        const tt_record *r = &x->records[i];
        if (takes_over(t, r)) be_taken_over(t);
    }
    replay_all(t);
    tell_meanwhile(t, x->count);
    if (!t->kept_is_due) make_turn(t);
    return TT_OK;
}

tt_status tt_talk_take(tt_talk *t, const tt_record *records, size_t count)
{
    assert(records != NULL || count == 0);
    return all_or_nothing(t, take_records, &(taking){t, records, count});
}

/* ---- the first turn ---- */

/* As the case began, unless told otherwise. */
static void settle_role(tt_talk *t)
{
    const tt_value *begun = talk_beginning(t);
    const char *role = t->options.role != NULL ? t->options.role : value_text(begun, "role");
    t->role = role != NULL ? tt_role_find(t->book, role) : TT_NONE;
    t->language = t->options.language != NULL ? t->options.language : talk_last_language(t);
    t->tongue = tongue_of(t->language != NULL ? t->language : tt_book_describe(t->book).language);
    t->soonest = t->options.soonest || value_truth(begun, "soonest");
}

static void settle_kind(tt_talk *t)
{
    const tt_value *begun = talk_beginning(t);
    t->kind = begun == NULL ? t->options.kind : TT_KIND_FAULT;
    t->every = begun == NULL ? t->options.every : TT_DAILY;
    tt_case_kind_find(value_text(begun, "kind"), &t->kind);
    tt_every_find(value_text(begun, "every"), &t->every);
}

/* Rules that are not those that the case was last worked on with: whoever goes on says so. */
static bool differ(const char *was, const char *is)
{
    return was != NULL && *was != 0 && is != NULL && strcmp(was, is) != 0;
}

static void note_changes(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    const bool rules = differ(journal_last_revision(j), value_text(t->options.about, "revision"));
    const bool site = differ(value_text(journal_last_site(j), "revision"),
                             value_text(value_get(t->options.about, "site"), "revision"));
    if (rules || site) t->doing = (aside){.kind = ASIDE_CHANGED, .more = !rules};
    if (rules && site) talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_SITE_CHANGED));
}

static void greet(tt_talk *t)
{
    const tt_book_info info = talk_book(t);
    const bool is_site = t->options.how != NULL && strcmp(t->options.how, "site") ==
                                                       0; /* all but the site was told already */
    if (!is_site) talk_news(t, TT_PART_NOTE, "", info.title);
    if (info.has_site && !t->options.practice && *info.site_title != 0)
        talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_SITE, info.site_title));
    if (is_site) return;
    if (*t->options.number != 0)
        talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_CASE_NUMBER, t->options.number));
    if (info.caution_count > 0) talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_CAUTIONS_AT));
}

static void come_again(tt_talk *t)
{
    const journal *j = talk_meaning(t);
    note_changes(t);
    talk_tell_standing(t);
    if (j->end != END_NONE || talk_look(t)->step == TT_CLOSED)
        t->doing = (aside){.kind = ASIDE_CLOSED};
    if (t->options.look_only) {
        t->doing = (aside){.kind = ASIDE_READ, .page = TT_TURN_KNOWN};
        return;
    }
    keep_coming(t, "resume");
}

typedef struct hearing {
    tt_talk *t;
    const tt_heard *heard;
    const char *now;
} hearing;

static tt_status begin(void *context)
{
    const hearing *x = context;
    tt_talk *t = x->t;
    t->now = kept_text(t, x->now);
    settle_role(t);
    settle_kind(t);
    replay_all(t);
    t->dangers_heeded = tt_dangers(t->c);
    greet(t);
    t->begun = true;
    if (t->options.how != NULL && strcmp(t->options.how, "site") == 0) {
        keep_coming(t, "site");
        if (t->past == NULL) keep_past(t);
    } else if (t->options.how != NULL) {
        come_again(t);
    } else {
        keep_coming(t, "begin");
        keep_past(t);
        greet_walk(t);
        t->opening = t->pending_count; /* kept with the first reply */
    }
    t->last = t->now;
    t->kept_is_due = t->options.how != NULL && t->pending_count > 0;
    if (!t->kept_is_due) make_turn(t);
    return TT_OK;
}

static tt_status play(void *context)
{
    const hearing *x = context;
    tt_talk *t = x->t;
    t->now = kept_text(t, x->now);
    t->only_case = true;
    settle_role(t);
    settle_kind(t);
    replay_all(t);
    return TT_OK;
}

tt_status tt_talk_play(tt_talk *t, const char *now)
{
    assert(!t->begun && now != NULL);
    return guarded_talk(t, play, &(hearing){t, NULL, now});
}

static void give(const tt_talk *t, const tt_record **keep, uint32_t *count)
{
    assert(keep != NULL && count != NULL);
    *keep = t->kept_is_due ? t->pending : NULL;
    *count = t->kept_is_due ? t->pending_count : 0;
}

tt_status tt_talk_begin(tt_talk *t, const char *now, const tt_record **keep, uint32_t *count)
{
    assert(!t->begun && now != NULL);
    const tt_status status = all_or_nothing(t, begin, &(hearing){t, NULL, now});
    give(t, keep, count);
    return status;
}

/* ---- replies ---- */

static void forget_news(tt_talk *t)
{
    t->news = NULL;
    t->news_count = t->news_room = 0;
    t->wrong = t->wrong_code = "";
}

/* What was safe half an hour ago need not be now; the minutes that a fix takes are none of a pause.
 */
static bool is_after_pause(tt_talk *t)
{
    tt_moment now;
    const double minutes = tt_moment_read(t->now, &now) ? minutes_ago(t->last, now) : INFINITY;
    const double under_way = t->fix.fix != TT_NONE ? talk_plan(t, t->fix.fix).minutes : 0;
    return minutes >= 30 + under_way;
}

/* What was handed out before is kept, or it is not: the records of this reply are those from here
 * on. */
static uint32_t begin_reply(tt_talk *t)
{
    t->replies_from = 0;
    if (t->pending_count > t->opening) t->pending_count = t->opening;
    arena_back_to(t->scratch, (arena_mark){NULL, 0});
    return t->pending_count;
}

/* Who only looks is done when the last page is turned, unless a danger stands. */
static void leave_when_seen(tt_talk *t)
{
    const bool reads = t->doing.kind != ASIDE_NONE || talk_look(t)->gate.state == TT_GATE_SHUT;
    if (!t->options.look_only || t->left || reads) return;
    t->left = true;
    t->how = "looked";
}

static tt_status hear(void *context)
{
    const hearing *x = context;
    tt_talk *t = x->t;
    t->now = kept_text(t, x->now);
    if (x->heard->answers == NULL)
        forget_news(t); /* a file of answers comes before anything was shown */
    const uint32_t before = begin_reply(t);
    if (t->works_anew) replay_all(t);
    const bool paused = is_after_pause(t);
    hear_reply(t, x->heard);
    leave_when_seen(t);
    if (paused && !t->left && !t->options.look_only) keep_text(t, "sitting", "why", "pause");
    t->last = t->now;
    t->kept_is_due = t->pending_count > before;
    if (t->kept_is_due)
        t->opening = 0;
    else
        make_turn(t);
    return TT_OK;
}

tt_status tt_talk_hear(tt_talk *t, const tt_heard *heard, const char *now, const tt_record **keep,
                       uint32_t *count)
{
    assert(t->begun && heard != NULL && now != NULL);
    *keep = NULL;
    *count = 0;
    const bool stale = heard->turn != 0 && heard->turn != t->turn.number;
    const bool over = t->turn.kind == TT_TURN_END && heard->words == NULL;
    if (stale || t->kept_is_due || over) return TT_NOT_NOW;
    const tt_status status = all_or_nothing(t, hear, &(hearing){t, heard, now});
    give(t, keep, count);
    return status;
}

typedef struct keeping {
    tt_talk *t;
    bool kept;
} keeping;

static tt_status after_keeping(void *context)
{
    const keeping *x = context;
    tt_talk *t = x->t;
    if (!x->kept && t->options.kept) {
        t->ever_failed = true;
        talk_wrong(t, "not-kept", OURS(t, TEXT_NOT_KEPT));
    }
    make_turn(t);
    return TT_OK;
}

tt_status tt_talk_kept(tt_talk *t, bool kept)
{
    if (!t->kept_is_due) return TT_NOT_NOW;
    t->kept_is_due = false;
    t->pending_count = 0;
    return all_or_nothing(t, after_keeping, &(keeping){t, kept});
}
