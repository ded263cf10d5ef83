/* What a list of cases says of one: the same meaning, in fewer words. */
#include "journal/summary.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "journal/parts.h"

/* Nothing said leaves what there was. */
static void say(const char **out, const journal *j, uint32_t entry, const char *key)
{
    const char *text = entry_text(j, entry, key);
    if (*text != '\0') *out = text;
}

/* ---- which book and site ---- */

/* Of records that don't say its title: what its file is called. */
static const char *site_of_path(arena *keep, const char *path)
{
    const char *slash = strrchr(path, '/'), *name = slash != NULL ? slash + 1 : path;
    const char *end = strstr(name, ".yaml");
    return end != NULL ? str_copy(keep, (str){name, (size_t)(end - name)}).p : name;
}

static void say_site(const journal *j, tt_case_summary *s, uint32_t entry)
{
    const char *path = value_text(value_get(entry_data(j, entry), "site"), "path");
    if (path != NULL) s->site = site_of_path(j->keep, path);
    say(&s->site, j, entry, "site_title");
}

/* Records without a word of it are of a fault, as all once were. */
static void say_kind(const journal *j, tt_case_summary *s)
{
    if (j->beginning == NO_ENTRY) return;
    tt_case_kind_find(entry_text(j, j->beginning, "kind"), &s->kind);
    tt_every_find(entry_text(j, j->beginning, "every"), &s->every);
}

static void say_places(const journal *j, tt_case_summary *s)
{
    for (uint32_t i = 0; i < j->count; i++) {
        if (!entry_does(j, i, PLACES)) continue;
        say(&s->title, j, i, "title");
        say(&s->edition, j, i, "edition");
        say(&s->book, j, i, "rulebook");
        say(&s->revision, j, i, "revision");
        say_site(j, s, i);
    }
}

/* ---- steps ---- */

/* In a complaint, or a file of answers that says what is wrong. */
static void say_complaint(const journal *j, tt_case_summary *s, uint32_t entry)
{
    const bool filed = j->entries[entry].kind == RECORD_ANSWERS;
    if (filed && *entry_text(j, entry, "symptom") == 0) return;
    s->complaint_name = entry_text(j, entry, "symptom");
    s->complaint = entry_text(j, entry, filed ? "complaint" : "text");
    s->said = entry_text(j, entry, "said");
}

static uint32_t say_steps(const journal *j, tt_case_summary *s)
{
    uint32_t last = NO_ENTRY;
    for (uint32_t i = 0; i < j->count; i++) {
        if (!entry_counts(j, i)) continue;
        last = i;
        if (j->entries[i].kind == RECORD_COMPLAINT || j->entries[i].kind == RECORD_ANSWERS)
            say_complaint(j, s, i);
        s->answers += j->entries[i].kind == RECORD_ANSWER || j->entries[i].kind == RECORD_AGAIN;
        s->tried += j->entries[i].kind == RECORD_TRIED;
    }
    return last;
}

static const char *first_said(const journal *j, uint32_t entry, const char *const *keys)
{
    const char *text = "";
    for (; *keys != NULL && *text == '\0'; keys++) text = entry_text(j, entry, *keys);
    return text;
}

/* What was done last: "Does the hose swell? no". */
static void say_last_step(const journal *j, tt_case_summary *s, uint32_t last)
{
    static const char *const about[] = {"asked", "text", "question", "fix", "symptom", NULL},
                             *const how[] = {"words", "typed", "outcome", NULL};
    record_kind kind = j->entries[last].kind;
    s->stands_is = kind == RECORD_ANSWERS        ? TT_STANDS_FILE
                   : kind == RECORD_SETTLE       ? TT_STANDS_SETTLED
                   : kind == RECORD_NO_COMPLAINT ? TT_STANDS_NO_COMPLAINT
                                                 : TT_STANDS_STEP;
    if (s->stands_is != TT_STANDS_STEP) return;
    const char *text = first_said(j, last, about), *said = first_said(j, last, how);
    s->stands = *said != '\0' ? str_printf(j->keep, "%s %s", text, said).p : text;
    if (*s->stands == '\0') s->stands_is = TT_STANDS_NOTHING;
}

/* What comes next, if whoever left said so; else what came last. */
static void say_stand(const journal *j, tt_case_summary *s, uint32_t last)
{
    const char *next = j->left != NO_ENTRY ? entry_text(j, j->left, "next") : "";
    if (j->end != END_NONE) return;
    if (*next != '\0') {
        s->stands = next;
        s->stands_is = TT_STANDS_NEXT;
    } else if (last != NO_ENTRY) {
        say_last_step(j, s, last);
    }
}

/* ---- its end ---- */

static tt_case_state state_of(const journal *j)
{
    static const tt_case_state ends[] = {
        [END_NONE] = TT_CASE_OPEN,           [END_GONE] = TT_CASE_CLOSED,
        [END_CALLED] = TT_CASE_CALLED,       [END_STOPPED] = TT_CASE_STOPPED,
        [END_MADE_SAFE] = TT_CASE_MADE_SAFE, [END_DONE] = TT_CASE_CLOSED,
        [END_ELSEWHERE] = TT_CASE_ELSEWHERE};
    if (j->count == 0) return TT_CASE_UNREADABLE;
    bool came = false; /* somebody took it up since the note */
    for (uint32_t w = 0; w < j->writer_count && j->note.entry != NO_ENTRY; w++)
        came = came || (j->writers[w].came != NO_ENTRY && j->writers[w].came > j->note.entry);
    if (j->end != END_NONE || came) return ends[j->end];
    if (j->note.kind == RECORD_HOLD) return TT_CASE_ON_HOLD;
    return j->note.kind == RECORD_WAITING ? TT_CASE_WAITING : TT_CASE_OPEN;
}

static void say_cause(const journal *j, tt_case_summary *s)
{
    if (j->end == END_GONE) {
        say(&s->cause_name, j, j->ended, "cause");
        say(&s->cause, j, j->ended, "cause_text");
    }
    const tt_confirmation c = journal_cause(j);
    s->confirmed = c.said == TT_CAUSE_CONFIRMED;
    s->disputed = c.said == TT_CAUSE_DISPUTED;
    bool same = s->confirmed && strcmp(c.cause, s->cause_name) == 0;
    if (s->disputed || (s->confirmed && !same)) s->cause = "";
    if (s->disputed) s->cause_name = "";
    if (!s->confirmed) return;
    s->cause_name = c.cause;
    say(&s->cause, j, c.entry, "cause_text");
}

static void say_times(const journal *j, tt_case_summary *s)
{
    tt_moment began, ended, last;
    s->began = j->entries[0].record.time;
    s->last = j->entries[j->count - 1].record.time;
    if (tt_moment_read(s->last, &last)) s->last_moment = last.milliseconds;
    if (j->ended == NO_ENTRY) return;
    s->ended = j->entries[j->ended].record.time;
    bool known = tt_moment_read(s->began, &began) && tt_moment_read(s->ended, &ended);
    if (known && ended.milliseconds >= began.milliseconds)
        s->minutes = (double)(ended.milliseconds - began.milliseconds) / 60000;
}

/* ---- who has it ---- */

static void say_holder(const journal *j, tt_case_summary *s)
{
    if (j->last_holder == NO_ENTRY) return;
    const journal_writer *w = &j->writers[j->last_holder];
    uint32_t at = w->came;
    for (uint32_t k = w->first + w->count; k-- > w->first && at == NO_ENTRY;)
        if (entry_does(j, j->by_writer[k], LEAVES) || entry_comes(j, j->by_writer[k]))
            at = j->by_writer[k];
    assert(at != NO_ENTRY);
    s->writer = w->name;
    s->held = w->came != NO_ENTRY;
    s->since = j->entries[at].record.time;
    s->person = j->entries[at].person;
    s->place = j->entries[at].place;
}

tt_case_summary journal_summary(const journal *j)
{
    tt_case_summary s = {.minutes = NAN};
#define NOTHING_SAID(name) s.name = "";
    TT_SUMMARY_TEXTS(NOTHING_SAID)
#undef NOTHING_SAID
    if (j->count > 0) {
        uint32_t last = say_steps(j, &s);
        say_times(j, &s);
        say_kind(j, &s);
        say_places(j, &s);
        say_cause(j, &s);
        say_stand(j, &s, last);
        say_holder(j, &s);
        s.danger = j->end == END_NONE && journal_in_danger(j);
        s.note = j->note.note;
        s.to = j->note.to;
        s.to_text = j->note.to_text;
        s.until = j->note.until;
    }
    s.state = state_of(j);
    assert(!(s.confirmed && s.disputed) && s.state < TT_CASE_STATES);
    for (uint32_t i = 0; i < j->count; i++) s.damaged += j->entries[i].skipped == TT_SKIP_DAMAGED;
    return s;
}

tt_helped journal_helped(const journal *j)
{
    tt_helped h = {.fix = "", .fix_text = "", .came_back = ""};
    if (j->end == END_GONE && j->ended != NO_ENTRY) {
        h.fix = entry_text(j, j->ended, "fix");
        h.fix_text = entry_text(j, j->ended, "fix_text");
    }
    for (uint32_t i = 0; i < j->count; i++)
        if (j->entries[i].kind == RECORD_CAME_BACK && j->entries[i].skipped == TT_SKIP_NOT)
            h.came_back = j->entries[i].record.time;
    return h;
}
