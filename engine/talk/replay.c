/* What records do to the case: each kind through the engine's own calls, in the order that the
 * journal gives them. */
#include <assert.h>
#include <string.h>

#include "listen/listen.h"
#include "talk/replay_parts.h"

/* ---- answers and complaints ---- */

/* The first danger, if any, that the writer of the record had not heard of: a safe answer doesn't
 * end that one. */
static uint32_t first_unseen(tt_talk *t)
{
    assert(t->entry == NO_ENTRY || t->meaning != NULL);
    uint32_t danger = 0;
    if (t->entry == NO_ENTRY) return tt_dangers(t->c);
    while (danger < t->danger_count && journal_saw(t->meaning, t->entry, t->dangers[danger]))
        danger++;
    return danger;
}

/* Who was interrupted by danger, or by a pause, begins again at isolating; so does putting back. */
static void begin_again(tt_talk *t)
{
    t->interrupted = true;
    t->explained = TT_NONE;
}

/* Which entry told the danger that the case has just counted. */
static void note_danger(tt_talk *t)
{
    assert(t->danger_count <= tt_dangers(t->c));
    while (t->danger_count < tt_dangers(t->c)) {
        GROW(t->keep, t->dangers, t->danger_count, t->danger_room);
        t->dangers[t->danger_count++] = t->entry;
        begin_again(t);
    }
}

/* What a gauge read yesterday is shown, and read again before a fix rests on it. */
static bool is_old_reading(tt_talk *t, const tt_record *r, uint32_t question)
{
    enum { A_DAY = 24 * 60 };
    tt_moment now;
    const bool reads = talk_is_read_off(t, question) && !t->options.look_only;
    return reads && t->entry != NO_ENTRY &&
           (!tt_moment_read(t->now, &now) || minutes_ago(r->time, now) >= A_DAY);
}

/* Only who knew of it can say that it is over; until then its page stays as it is. */
static void forget_danger(tt_talk *t)
{
    t->danger_told = false;
    t->danger_number = 0;
    t->danger_words = "";
    t->emergency_count = 0;
}

static bool replay_answer(tt_talk *t, const tt_record *r)
{
    const uint32_t question = tt_question_find(t->book, record_text(r->data, "question"));
    tt_reply reply;
    if (question == TT_NONE) return false;
    const bool gate = talk_is_gate(t, question);
    const uint32_t unseen = first_unseen(t);
    const tt_value *said = value_get(r->data, "reply");
    const bool known = reply_of_value(t->keep, t->book, question, said, &reply);
    if (!known || !talk_is_ok(t, tt_answer_unaware(t->c, question, &reply, unseen))) {
        if (gate && t->entry != NO_ENTRY)
            talk_check(t, tt_danger_said(t->c)); /* what it was need not have been safe */
        return false;
    }
    if (gate && talk_is_safe(t, question, &reply) && unseen >= t->danger_number) forget_danger(t);
    if (reply.kind == TT_NUMBER) talk_tell_trend(t, question, &reply, r->time);
    if (is_old_reading(t, r, question)) talk_check(t, tt_stale(t->c, question));
    return true;
}

/* Both looks count, whoever knew of the other. */
static bool replay_again(tt_talk *t, const tt_record *r)
{
    const uint32_t question = tt_question_find(t->book, record_text(r->data, "question"));
    tt_reply reply;
    if (question == TT_NONE) return false;
    const bool another = strcmp(record_text(r->data, "instrument"), "another") == 0;
    return reply_of_value(t->keep, t->book, question, value_get(r->data, "reply"), &reply) &&
           talk_is_ok(t, tt_answer_again(t->c, question, &reply,
                                         another ? TT_LOOK_ANOTHER : TT_LOOK_AGAIN));
}

/* All pieces of the kind: it may be any of them. */
static tt_status focus_on_kind(tt_talk *t, uint32_t kind)
{
    assert(kind < tt_kind_count(t->book));
    uint32_t *pieces = ARENA_ARRAY(t->scratch, uint32_t, tt_piece_count(t->book)), count = 0;
    for (uint32_t i = 0; i < tt_piece_count(t->book); i++)
        if (tt_piece_show(t->book, i, NULL).kind == kind) pieces[count++] = i;
    return tt_focus(t->c, pieces, count);
}

static bool complain_at(tt_talk *t, const tt_complaint *c, const tt_value *at)
{
    assert(at->count > 0);
    for (uint32_t i = 0; i < at->count; i++) {
        const uint32_t piece = piece_named(t, at->items[i].text),
                       there =
                           piece != TT_NONE ? tt_symptom_at(t->book, c->symptom, piece) : TT_NONE;
        if (there == TT_NONE || !talk_is_ok(t, tt_complain(t->c, there))) return false;
    }
    return true;
}

/* One about a kind of equipment has one name for all its pieces; one about a single thing is looked
 * up by its symptom. */
static bool replay_complaint(tt_talk *t, const tt_record *r)
{
    const tt_value *at = value_get(r->data, "at");
    const uint32_t of_kind = complaint_named(t, record_text(r->data, "symptom"));
    t->complained = true;
    if (at != NULL) {
        if (of_kind == TT_NONE || t->complaints.items[of_kind].kind == TT_NONE) return false;
        const tt_complaint *c = &t->complaints.items[of_kind];
        return at->count == 0 ? talk_is_ok(t, focus_on_kind(t, c->kind)) : complain_at(t, c, at);
    }
    const uint32_t symptom = tt_symptom_find(t->book, record_text(r->data, "symptom"));
    return symptom != TT_NONE && talk_is_ok(t, tt_complain(t->c, symptom));
}

static bool replay_no_complaint(tt_talk *t, const tt_record *r)
{
    (void)r;
    t->complained = true;
    return talk_is_ok(t, tt_no_complaint(t->c));
}

static bool replay_file(tt_talk *t, const tt_record *r)
{
    const char *text = record_text(r->data, "text");
    tt_report *report = NULL;
    const tt_source file = {
        .name = record_text(r->data, "name"), .bytes = text, .length = strlen(text)};
    const tt_status status = tt_answers_load_unaware(t->c, &file, first_unseen(t), &report);
    tt_report_free(report);
    return talk_is_ok(t, status);
}

/* ---- danger and sittings ---- */

static bool replay_sitting(tt_talk *t, const tt_record *r)
{
    if (replay_is_ours(t, r)) {
        begin_again(t);
        t->reviewed = false;
        t->rechecked = "";
    }
    return talk_is_ok(t, tt_sitting(t->c));
}

/* Into its place; what was told before and is not over stays. */
static void add_emergency(tt_talk *t, str name)
{
    uint32_t at = t->emergency_count;
    for (uint32_t i = 0; i < at; i++)
        if (str_is(name, t->emergencies[i])) return;
    if (name.n == 0) return;
    GROW(t->keep, t->emergencies, t->emergency_count, t->emergency_room);
    for (; at > 0 && danger_urgency(name) < danger_urgency(str_of(t->emergencies[at - 1])); at--)
        t->emergencies[at] = t->emergencies[at - 1];
    t->emergencies[at] = str_copy(t->keep, name).p;
    t->emergency_count++;
}

static void add_emergencies(tt_talk *t, const tt_value *data)
{
    add_emergency(t, str_of(record_text(data, "entry")));
    const tt_value *also = value_get(data, "also");
    for (uint32_t i = 0; also != NULL && also->kind == TT_VALUE_LIST && i < also->count; i++)
        if (also->items[i].kind == TT_VALUE_TEXT) add_emergency(t, str_of(also->items[i].text));
}

static bool replay_danger(tt_talk *t, const tt_record *r)
{
    t->danger_told = true;
    t->danger_words = str_copy(t->keep, str_of(record_text(r->data, "words"))).p;
    add_emergencies(t, r->data);
    t->danger_number = tt_dangers(t->c) + 1;
    return talk_is_ok(t, tt_danger_said(t->c));
}

static bool replay_recheck(tt_talk *t, const tt_record *r)
{
    if (replay_is_ours(t, r)) {
        begin_again(t);
        t->rechecked = str_copy(t->keep, str_of(record_text(r->data, "words"))).p;
    }
    return talk_is_ok(t, tt_recheck(t->c));
}

static bool replay_apart(tt_talk *t, const tt_record *r)
{
    assert(r->data != NULL);
    t->apart = true;
    return true;
}

static bool replay_reviewed(tt_talk *t, const tt_record *r)
{
    t->reviewed = t->reviewed || replay_is_ours(t, r);
    return true;
}

/* X(word in the journal, what it does, whether that changes the case, or only the talk about it).
 * Kinds that are not here are told to people and do nothing. */
/* clang-format off */
#define REPLAYED(X) \
    X("answer", replay_answer, THE_CASE) \
    X("again", replay_again, THE_CASE) \
    X("complaint", replay_complaint, THE_CASE) \
    X("no-complaint", replay_no_complaint, THE_CASE) \
    X("answers", replay_file, THE_CASE) \
    X("tried", replay_tried, THE_CASE) \
    X("put-back", replay_put_back, THE_CASE) \
    X("left", replay_left_so, THE_CASE) \
    X("came-back", replay_came_back, THE_CASE) \
    X("fix-begun", replay_begun, THE_TALK) \
    X("step", replay_thing, THE_TALK) \
    X("measured", replay_measured, THE_TALK) \
    X("reviewed", replay_reviewed, THE_TALK) \
    X("begin", replay_sitting, THE_CASE) \
    X("resume", replay_sitting, THE_CASE) \
    X("sitting", replay_sitting, THE_CASE) \
    X("danger", replay_danger, THE_CASE) \
    X("recheck", replay_recheck, THE_CASE) \
    X("past", replay_past, THE_CASE) \
    X("apart", replay_apart, THE_TALK)
/* clang-format on */
#define REPLAYED_ENTRY(word, does, changes) {word, does, changes},
typedef enum changing { THE_CASE, THE_TALK } changing;
static const struct {
    const char *kind;
    bool (*replay)(tt_talk *t, const tt_record *r);
    changing changes;
} replayed[] = {REPLAYED(REPLAYED_ENTRY)};
#undef REPLAYED_ENTRY

static bool replay_one(tt_talk *t, const tt_record *r)
{
    assert(r->kind != NULL && r->writer != NULL);
    bool taken = true;
    tt_speaker(t->c, talk_speaker(t, r->writer));
    for (size_t i = 0; i < sizeof replayed / sizeof replayed[0]; i++)
        if (strcmp(replayed[i].kind, r->kind) == 0 &&
            (replayed[i].changes == THE_CASE || !t->only_case))
            taken = replayed[i].replay(t, r);
    note_danger(t);
    return taken;
}

static void say_left_out(tt_talk *t, const tt_record *r)
{
    const char *about = record_text(r->data, "question");
    if (*about == 0) about = record_text(r->data, "symptom");
    if (*about == 0) about = record_text(r->data, "fix");
    talk_news(t, TT_PART_NOTE, "", SAY(t, TEXT_LEFT_OUT, r->kind, about));
    const tt_value *set = value_get(r->data, "set");
    double from = 0, to = 0;
    if (set == NULL || !value_number(set, "from", &from) || !value_number(set, "to", &to)) return;
    talk_news(t, TT_PART_NOTE, "",
              SAY(t, TEXT_WAS_SET, str_printf(t->shown, "%.10g", from).p,
                  str_printf(t->shown, "%.10g", to).p));
}

static void begin_case(tt_talk *t)
{
    const tt_options settings = {.role = t->role,
                                 .language = t->language,
                                 .soonest = t->soonest,
                                 .kind = t->kind,
                                 .every = t->every,
                                 .asks_complaint =
                                     !t->options.look_only && t->complaints.count > 0};
    tt_case_free(t->c);
    t->c = NULL;
    talk_check(t, tt_case_new(t->book, &settings, &t->c));
    for (uint32_t i = 0; i < t->complaints.count; i++)
        t->complaints.items[i].text = tt_complaint_text(t->c, t->complaints.items[i].symptom);
    t->fix = (walk){.fix = TT_NONE};
    t->before = (walk_before){.fix = {.fix = TT_NONE}};
    t->measure_count = t->danger_count = 0;
    t->reviewed = t->complained = t->interrupted = false;
    t->rechecked = "";
    t->past = NULL;
    t->apart = false;
    forget_danger(t);
    t->explained = TT_NONE;
}

/* An answer or a word of danger that can't be read any more may have been anything. */
static bool may_tell_danger(tt_talk *t, const journal_entry *e)
{
    if (e->kind == RECORD_DANGER) return true;
    if (e->kind != RECORD_ANSWER) return false;
    if (e->skipped == TT_SKIP_DAMAGED) return true;
    const uint32_t question = tt_question_find(t->book, record_text(e->record.data, "question"));
    tt_reply reply;
    if (question == TT_NONE) return false;
    return talk_is_gate(t, question) &&
           !(reply_of_value(t->scratch, t->book, question, value_get(e->record.data, "reply"),
                            &reply) &&
             talk_is_safe(t, question, &reply));
}

/* What was not safe counts whatever was taken back or settled: only a safe answer ends it. */
static void tell_danger_all_the_same(tt_talk *t, const journal_entry *e)
{
    assert(t->entry != NO_ENTRY);
    const tt_record *r = &e->record;
    if (!may_tell_danger(t, e)) return;
    tt_speaker(t->c, talk_speaker(t, r->writer));
    talk_check(t, tt_danger_said(t->c));
    note_danger(t);
}

/* With somebody watching all are shown, also those that don't count. */
void replay_watched(tt_talk *t, replay_watch *watch, void *context)
{
    const journal *j = talk_meaning(t);
    begin_case(t);
    for (uint32_t i = 0; i < j->count; i++) {
        const journal_entry *e = &j->entries[i];
        const bool counts =
            entry_data(j, i) != NULL &&
            e->skipped == TT_SKIP_NOT; /* what is read only now may turn out to be damaged */
        t->entry = i;
        if (!counts) tell_danger_all_the_same(t, e);
        const bool taken = !counts || replay_one(t, &e->record);
        if (watch != NULL)
            watch(context, i, taken);
        else if (!taken && e->source >= t->told_until)
            say_left_out(t, &e->record);
    }
    if (watch == NULL) t->told_until = t->record_count;
    tt_speaker(t->c, talk_speaker(t, t->options.writer));
    talk_tell_unsettled(t);
    t->works_anew = false;
}

void replay_all(tt_talk *t)
{
    replay_watched(t, NULL, NULL);
}

/* What takes something back changes what stands before it, and another language all that is said of
 * it; everything else comes on top. */
bool replay_newest(tt_talk *t)
{
    const tt_record *r = &t->records[t->record_count - 1];
    const record_kind kind = record_kind_of(r->kind);
    assert(kind != RECORD_UNKNOWN);
    t->entry = NO_ENTRY; /* the writer has seen all that is here */
    const bool again = kind == RECORD_BACK || kind == RECORD_SETTLE || kind == RECORD_LANGUAGE;
    const bool taken = again || replay_one(t, r);
    if (again) replay_all(t);
    return taken;
}
