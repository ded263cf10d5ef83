#include "ask/turn.h"

#include <stdlib.h>
#include <string.h>

#include "host/exits.h"
#include "host/json_parts.h"
#include "host/plain_text.h"
#include "host/screen.h"

enum { VERSION = 1 };

static void show_afresh(turn *t)
{
    if (t->shown != NULL) fclose(t->shown);
    free(t->text);
    t->text = NULL;
    t->shown = open_memstream(&t->text, &t->length);
    if (t->shown != NULL) return;
    complain("there is no memory left");
    exit(EXIT_OUR_BUG);
}

turn *turn_new(FILE *out)
{
    turn *t = take_memory(sizeof *t);
    *t = (turn){.out = out, .now = json_object(), .cautions_sent = json_object()};
    show_afresh(t);
    return t;
}

void turn_free(turn *t)
{
    if (t == NULL) return;
    fclose(t->shown);
    free(t->text);
    json_decref(t->now);
    json_decref(t->sent);
    json_decref(t->cautions_sent);
    free(t);
}

void turn_put(turn *t, const char *key, json_t *value)
{
    if (t != NULL)
        json_object_set_new(t->now, key, value);
    else
        json_decref(value);
}

bool turn_has(const turn *t, const char *key)
{
    return t != NULL && json_object_get(t->now, key) != NULL;
}

void turn_add(turn *t, const char *key, json_t *value)
{
    if (t == NULL) {
        json_decref(value);
        return;
    }
    json_t *list = json_object_get(t->now, key);
    if (list == NULL) {
        list = json_array();
        json_object_set_new(t->now, key, list);
    }
    json_array_append_new(list, value);
}

void turn_takes(turn *t, const char *way)
{
    turn_add(t, "takes", json_string(way));
}

void turn_choices(turn *t, const char *const *names, const char *const *texts, unsigned count)
{
    if (t == NULL || count == 0) return;
    for (unsigned i = 0; i < count; i++) {
        json_t *choice = json_object();
        json_object_set_new(choice, "number", json_integer(i + 1));
        json_object_set_new(choice, "name", text_or_null(names != NULL ? names[i] : NULL));
        json_object_set_new(choice, "text", json_string(texts[i]));
        turn_add(t, "choices", choice);
    }
    turn_takes(t, "choice");
    turn_takes(t, "option");
}

static bool print_turn(turn *t, const json_t *whole)
{
    json_dumpf(whole, t->out, JSON_COMPACT | JSON_REAL_PRECISION(JSON_DIGITS));
    fputc('\n', t->out);
    return fflush(t->out) == 0 && ferror(t->out) == 0;
}

/* Each caution is news once. */
static void mark_news(turn *t, json_t *cautions)
{
    size_t i;
    json_t *caution;
    json_array_foreach(cautions, i, caution)
    {
        const char *text = json_string_value(json_object_get(caution, "text"));
        bool old = json_object_get(t->cautions_sent, text) != NULL;
        json_object_set_new(caution, "new", json_boolean(!old));
        json_object_set_new(t->cautions_sent, text, json_true());
    }
}

static json_t *text_shown(turn *t)
{
    fflush(t->shown);
    char *text = trim_text(t->text);
    json_t *json = json_string(text);
    free(text);
    return json != NULL ? json : json_string("");
}

/* What every turn has. */
static void fill_up(json_t *now)
{
    static const char *const lists[] = {"notes", "choices", "words", "takes"};
    for (unsigned i = 0; i < sizeof lists / sizeof lists[0]; i++)
        if (json_object_get(now, lists[i]) == NULL)
            json_object_set_new(now, lists[i], json_array());
    if (json_object_get(now, "wrong") == NULL) json_object_set_new(now, "wrong", json_null());
}

bool turn_send(turn *t, const char *case_number, json_t *cautions)
{
    json_t *whole = json_object();
    mark_news(t, cautions);
    fill_up(t->now);
    json_object_set_new(whole, "version", json_integer(VERSION));
    json_object_set_new(whole, "turn", json_integer(++t->number));
    json_object_set_new(whole, "case", text_or_null(case_number));
    json_object_update(whole, t->now);
    json_object_set_new(whole, "cautions", cautions);
    json_object_set_new(whole, "text", text_shown(t));
    json_decref(t->sent);
    t->sent = whole;
    json_object_clear(t->now);
    show_afresh(t);
    return print_turn(t, whole);
}

/* What is wrong stands in front of the text too: a chat shows nothing else. */
bool turn_send_again(turn *t, const char *wrong)
{
    json_t *again = json_copy(t->sent);
    char *text = format_text("%s\n\n%s", wrong, json_string_value(json_object_get(again, "text")));
    json_object_set_new(again, "turn", json_integer(++t->number));
    json_object_set_new(again, "wrong", json_string(wrong));
    json_object_set_new(again, "text", json_string(text));
    bool printed = print_turn(t, again);
    free(text);
    json_decref(again);
    return printed;
}
