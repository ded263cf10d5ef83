/* History first: what the site's earlier cases say of this trouble. It is told as soon as the
 * complaint is known; and a call that may belong to one of them can go on there, so that two people
 * do not look for one fault twice. All of it comes from the record `past`, kept as this case began.
 */
#include <assert.h>
#include <string.h>

#include "base/moment.h"
#include "talk/replay_parts.h"
#include "talk/talk_turns.h"

enum { OPEN_OFFERED = 4, DAYS_OFFERED = 30, SAME_FIX_TOLD = 2 };

/* ---- which are about the same ---- */

static bool is_complained_of(tt_talk *t, const char *symptom)
{
    const journal *j = talk_meaning(t);
    for (uint32_t i = 0; i < j->count && *symptom != 0; i++)
        if (j->entries[i].kind == RECORD_COMPLAINT && entry_counts(j, i) &&
            strcmp(entry_text(j, i, "symptom"), symptom) == 0)
            return true;
    return false;
}

typedef struct same_cases {
    const tt_value **items; /* in the order in which they began */
    uint32_t count;
} same_cases;

/* `which`: "cases", which ended, or "open". */
static same_cases same_trouble(tt_talk *t, const char *which)
{
    const tt_value *all = t->past != NULL ? value_get(t->past, which) : NULL;
    const uint32_t most = all != NULL ? all->count : 0;
    same_cases same = {ARENA_ARRAY(t->shown, const tt_value *, most + 1), 0};
    for (uint32_t i = 0; i < most; i++)
        if (is_complained_of(t, record_text(&all->items[i], "symptom")))
            same.items[same.count++] = &all->items[i];
    return same;
}

static double days_since(tt_talk *t, const char *time)
{
    tt_moment now;
    return tt_moment_read(t->now, &now) ? minutes_ago(time, now) / (24 * 60) : 0;
}

/* ---- told ---- */

static uint32_t ended_by(const same_cases *same, const char *fix)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < same->count; i++)
        count += strcmp(record_text(same->items[i], "fix"), fix) == 0;
    return count;
}

static const char *times_words(tt_talk *t, const same_cases *same)
{
    const double days = days_since(t, record_text(same->items[0], "began"));
    const char *times = talk_number(t, same->count + 1);
    if (!(days < 3650)) return SAY(t, TEXT_EARLIER_TIMES, times);
    return days < 1 ? SAY(t, TEXT_EARLIER_DAY, times)
                    : SAY(t, TEXT_EARLIER_DAYS, times, talk_number(t, (uint32_t)days + 1));
}

/* In the book's words, in the language that is spoken now; else in those it was kept with. */
static const char *words_kept(const tt_talk *t, tt_named what, const tt_value *one,
                              const char *name, const char *text)
{
    const char *called = tt_named_text(t->c, what, record_text(one, name));
    return called != NULL ? called : record_text(one, text);
}

static const char *fix_words(const tt_talk *t, const tt_value *one)
{
    return words_kept(t, TT_NAMED_FIX, one, "fix", "fix_text");
}

static const char *last_words(tt_talk *t, const tt_value *last)
{
    const char *day = str_printf(t->shown, "%.10s", record_text(last, "ended")).p,
               *fix = fix_words(t, last),
               *cause = words_kept(t, TT_NAMED_CAUSE, last, "cause", "cause_text");
    if (*fix != 0)
        return SAY(t,
                   *record_text(last, "came_back") != 0 ? TEXT_EARLIER_FIX_BACK : TEXT_EARLIER_FIX,
                   day, fix);
    return *cause != 0 ? SAY(t, TEXT_EARLIER_WAS, day, cause) : SAY(t, TEXT_EARLIER_CALLED, day);
}

uint32_t earlier_lines(tt_talk *t, const char *lines[EARLIER_LINES])
{
    const same_cases same = same_trouble(t, "cases");
    uint32_t count = 0;
    if (same.count == 0) return 0;
    const tt_value *last = same.items[same.count - 1];
    const char *fix = record_text(last, "fix");
    const uint32_t times = *fix != 0 ? ended_by(&same, fix) : 0;
    lines[count++] = times_words(t, &same);
    lines[count++] = last_words(t, last);
    if (times >= SAME_FIX_TOLD)
        lines[count++] = SAY(t, TEXT_EARLIER_SAME_FIX, talk_number(t, times));
    assert(count <= EARLIER_LINES);
    return count;
}

void tell_earlier(tt_talk *t)
{
    const char *lines[EARLIER_LINES];
    const uint32_t count = earlier_lines(t, lines);
    for (uint32_t i = 0; i < count; i++) talk_news(t, TT_PART_PAST, "", lines[i]);
}

void turn_earlier(tt_talk *t)
{
    const char **lines = ARENA_ARRAY(t->shown, const char *, EARLIER_LINES); /* as the turn lives */
    const uint32_t count = earlier_lines(t, lines);
    if (count > 0) turn_list(t, TT_PART_PAST, "", lines, count);
}

/* ---- offered ---- */

const char earlier_open[] = "case-", earlier_back[] = "back-", earlier_none[] = "none";

/* The last that a fix ended, not long ago: it may be the same once more. Null: there is none. */
static const tt_value *may_be_back(tt_talk *t, const same_cases *ended)
{
    const tt_value *last = ended->count > 0 ? ended->items[ended->count - 1] : NULL;
    const bool cured = last != NULL && *record_text(last, "fix") != 0;
    return cured && days_since(t, record_text(last, "ended")) <= DAYS_OFFERED ? last : NULL;
}

bool earlier_is_offered(tt_talk *t)
{
    const char *how = t->options.how;
    const bool begins = how == NULL || strcmp(how, "site") == 0;
    if (!begins || t->options.look_only || t->apart || t->past == NULL) return false;
    const same_cases open = same_trouble(t, "open"), ended = same_trouble(t, "cases");
    return open.count > 0 || may_be_back(t, &ended) != NULL;
}

static void offer_open(tt_talk *t, const tt_value *one)
{
    const char *number = record_text(one, "number"), *person = record_text(one, "by"),
               *since = talk_moment(t, record_text(one, "began")),
               *trouble = words_kept(t, TT_NAMED_COMPLAINT, one, "symptom", "text");
    turn_choice(t, str_printf(t->shown, "%s%s", earlier_open, number).p,
                *person != 0 ? SAY(t, TEXT_EARLIER_OPEN_BY, number, trouble, since, person)
                             : SAY(t, TEXT_EARLIER_OPEN, number, trouble, since));
}

void make_earlier(tt_talk *t)
{
    const same_cases open = same_trouble(t, "open"), ended = same_trouble(t, "cases");
    const tt_value *back = may_be_back(t, &ended);
    const uint32_t from = open.count > OPEN_OFFERED ? open.count - OPEN_OFFERED : 0;
    turn_afresh(t, TT_TURN_EARLIER);
    turn_earlier(t);
    t->turn.prompt = t->turn.say = OURS(t, TEXT_IS_IT_EARLIER);
    for (uint32_t i = open.count; i-- > from;) offer_open(t, open.items[i]);
    if (back != NULL) {
        const char *number = record_text(back, "number"),
                   *day = str_printf(t->shown, "%.10s", record_text(back, "ended")).p;
        turn_choice(t, str_printf(t->shown, "%s%s", earlier_back, number).p,
                    SAY(t, TEXT_EARLIER_BACK, number, fix_words(t, back), day));
    }
    turn_choice(t, earlier_none, OURS(t, TEXT_NOT_EARLIER));
    turn_words(t, OFFER_MORE);
    assert(t->turn.choice_count > 1);
}
