#include "face/learned.h"
#include "host/json_parts.h"

static json_t *seen_json(const cases_seen *seen)
{
    json_t *item = json_object();
    json_object_set_new(item, "all", json_integer(seen->all));
    json_object_set_new(item, "counted", json_integer(seen->counted));
    json_object_set_new(item, "other_rulebooks", json_integer(seen->of_others));
    json_object_set_new(item, "open", json_integer(seen->open));
    json_object_set_new(item, "not_gone", json_integer(seen->not_gone));
    json_object_set_new(item, "better", json_integer(seen->better));
    json_object_set_new(item, "unconfirmed", json_integer(seen->unconfirmed));
    json_object_set_new(item, "not_listed", json_integer(seen->not_listed));
    json_object_set_new(item, "unknown_cause", json_integer(seen->unknown));
    json_object_set_new(item, "unreadable", json_integer(seen->broken));
    json_object_set_new(item, "learned_before", json_integer(seen->before));
    json_object_set_new(item, "until", text_or_null(seen->until));
    return item;
}

static json_t *number_item(const tt_learned *n)
{
    static const char *const kinds[] = {
        [TT_HOW_OFTEN] = "how-often", [TT_SHOWN_BY] = "shown-by", [TT_OTHERWISE] = "otherwise"};
    json_t *item = json_object();
    json_object_set_new(item, "number", json_string(kinds[n->kind]));
    json_object_set_new(item, "cause", text_or_null(n->cause));
    json_object_set_new(item, "symptom", text_or_null(n->symptom));
    json_object_set_new(item, "at", json_string(n->at));
    json_object_set_new(item, "written", text_or_null(n->written));
    json_object_set_new(item, "proposed", text_or_null(n->proposed));
    json_object_set_new(item, "before", number_json(n->before));
    json_object_set_new(item, "after", number_json(n->after));
    json_object_set_new(item, "low", number_json(n->low));
    json_object_set_new(item, "high", number_json(n->high));
    json_object_set_new(item, "cases", number_json(n->cases));
    json_object_set_new(item, "of", number_json(n->of));
    json_object_set_new(item, "outside", json_boolean(n->outside));
    return item;
}

static json_t *numbers_json(const tt_lesson *lesson)
{
    json_t *all = json_array();
    for (uint32_t i = 0; i < lesson->count; i++)
        json_array_append_new(all, number_item(&lesson->items[i]));
    return all;
}

static json_t *side_json(const what_changes *c, int side)
{
    json_t *item = json_object(), *leads = json_object();
    json_object_set_new(leads, "share", number_json(c->leads[side].share));
    json_object_set_new(leads, "low", number_json(c->leads[side].low));
    json_object_set_new(leads, "high", number_json(c->leads[side].high));
    json_object_set_new(item, "worked_cases_passed", json_integer(c->passed[side]));
    json_object_set_new(item, "leads", leads);
    json_object_set_new(item, "questions", number_json(c->questions[side].mean));
    json_object_set_new(item, "minutes", number_json(c->minutes[side].mean));
    return item;
}

static json_t *changes_json(const what_changes *c)
{
    if (c == NULL) return json_null();
    json_t *item = json_object(), *broken = json_array();
    for (uint32_t i = 0; i < c->broken_count; i++)
        json_array_append_new(broken, json_string(c->broken[i].name));
    json_object_set_new(item, "worked_cases", json_integer(c->trials));
    json_object_set_new(item, "worked_cases_broken", broken);
    json_object_set_new(item, "calls", json_integer((json_int_t)c->calls));
    json_object_set_new(item, "now", side_json(c, 0));
    json_object_set_new(item, "then", side_json(c, 1));
    return item;
}

void print_learned_json(FILE *out, const learned *all)
{
    const tt_lesson *lesson = all->lesson;
    json_t *whole = json_object();
    json_object_set_new(whole, "version", json_integer(1));
    json_object_set_new(whole, "rulebook", json_string(all->title));
    json_object_set_new(whole, "learned_until", text_or_null(all->since));
    json_object_set_new(whole, "cases", seen_json(all->seen));
    json_object_set_new(whole, "causes", json_integer(lesson->causes));
    json_object_set_new(whole, "cases_wanted", json_integer(lesson->cases_wanted));
    json_object_set_new(whole, "enough", json_boolean(lesson->cases >= lesson->cases_wanted));
    json_object_set_new(whole, "numbers", numbers_json(lesson));
    json_object_set_new(whole, "new_warnings", json_integer(lesson->new_warnings));
    json_object_set_new(whole, "changes", changes_json(all->changes));
    json_dumpf(whole, out, JSON_INDENT(2) | JSON_REAL_PRECISION(JSON_DIGITS));
    fputc('\n', out);
    json_decref(whole);
}
