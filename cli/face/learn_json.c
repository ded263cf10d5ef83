/* What was learned, for programs: docs/learn.schema.json. */
#include "base/str.h"
#include "face/learned.h"
#include "host/memory.h"
#include "show/json.h"
#include "show/lesson_fields.h"

static shown_seen seen_of(const cases_seen *s)
{
    return (shown_seen){.all = s->all,
                        .counted = s->counted,
                        .other_rulebooks = s->of_others,
                        .open = s->open,
                        .not_gone = s->not_gone,
                        .better = s->better,
                        .unconfirmed = s->unconfirmed,
                        .not_listed = s->not_listed,
                        .unknown_cause = s->unknown,
                        .unreadable = s->broken,
                        .learned_before = s->before,
                        .until = s->until};
}

static shown_side side_of(const what_changes *c, int side)
{
    return (shown_side){c->passed[side], c->leads[side], c->questions[side].mean,
                        c->minutes[side].mean};
}

static const shown_changes *changes_of(arena *keep, const what_changes *c)
{
    if (c == NULL) return NULL;
    const char **broken = ARENA_ARRAY(keep, const char *, c->broken_count);
    for (uint32_t i = 0; i < c->broken_count; i++) broken[i] = c->broken[i].name;
    shown_changes *changes = ARENA_NEW(keep, shown_changes);
    *changes =
        (shown_changes){c->trials, broken, c->broken_count, c->calls, side_of(c, 0), side_of(c, 1)};
    return changes;
}

void print_learned_json(FILE *out, const learned *all)
{
    arena *keep = host_arena();
    const lesson_about about = {all->title, all->since, seen_of(all->seen), all->lesson,
                                changes_of(keep, all->changes)};
    const tt_value value = lesson_value(keep, &about);
    const str text = json_write_lines(keep, &value, JSON_DIGITS_SHOWN, 2);
    fwrite(text.p, 1, text.n, out);
    arena_free(keep);
}
