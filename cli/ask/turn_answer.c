/* The answer to a turn, as a person would have typed it. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "ask/turn.h"
#include "host/plain_text.h"

/* Each way to answer is a key, and makes the line of its value; null with *wrong otherwise. */
typedef char *make_line(const turn *t, const json_t *said, const json_t *value, char **wrong);

static char *refuse(char **wrong, char *why)
{
    *wrong = why;
    return NULL;
}

/* On one line, and with nothing that could steer a terminal: it is kept and shown to people. */
static char *one_line(const char *text)
{
    char *clean = clean_text(text), *line = trim_text(clean);
    for (char *c = line; *c != 0; c++)
        if (*c == '\n') *c = ' ';
    free(clean);
    return line;
}

static char *line_of_answer(const turn *t, const json_t *said, const json_t *value, char **wrong)
{
    (void)t;
    (void)said;
    if (json_is_string(value)) return one_line(json_string_value(value));
    return refuse(wrong, copy_text("\"answer\" is a text, as a person would type it; a number goes "
                                   "as \"reading\" or \"choice\"."));
}

static const json_t *list_of(const turn *t, const char *key)
{
    return json_object_get(t->sent, key);
}

static char *line_of_choice(const turn *t, const json_t *said, const json_t *value, char **wrong)
{
    (void)said;
    size_t count = json_array_size(list_of(t, "choices"));
    json_int_t number = json_integer_value(value);
    if (number >= 1 && number <= (json_int_t)count)
        return format_text("%" JSON_INTEGER_FORMAT, number);
    return refuse(wrong,
                  format_text("\"choice\" is the number of a choice, from 1 to %zu.", count));
}

/* From 1; 0: none of the choices. A name wins over a text. */
static size_t choice_named(const turn *t, const char *wanted)
{
    const json_t *choices = list_of(t, "choices");
    static const char *const keys[] = {"name", "text"};
    for (unsigned k = 0; wanted != NULL && k < 2; k++) {
        for (size_t i = 0; i < json_array_size(choices); i++) {
            const char *has =
                json_string_value(json_object_get(json_array_get(choices, i), keys[k]));
            if (has != NULL && strcmp(has, wanted) == 0) return i + 1;
        }
    }
    return 0;
}

/* "a", "b", "c" */
static char *names_of(const turn *t)
{
    char *all = copy_text("");
    size_t i;
    const json_t *choice;
    json_array_foreach(list_of(t, "choices"), i, choice)
    {
        const char *name = json_string_value(json_object_get(choice, "name"));
        if (name == NULL) name = json_string_value(json_object_get(choice, "text"));
        char *longer = format_text("%s%s\"%s\"", all, i > 0 ? ", " : "", name);
        free(all);
        all = longer;
    }
    return all;
}

static char *no_such_option(const turn *t, const json_t *value, const char *key, char **wrong)
{
    char *names = names_of(t);
    const char *given = json_string_value(value);
    char *why = given != NULL
                    ? format_text("\"%s\" is none of the choices. They are: %s.", given, names)
                    : format_text("\"%s\" takes the name or the text of a choice: %s.", key, names);
    free(names);
    return refuse(wrong, why);
}

static char *line_of_option(const turn *t, const json_t *said, const json_t *value, char **wrong)
{
    (void)said;
    size_t number = choice_named(t, json_string_value(value));
    return number > 0 ? format_text("%zu", number) : no_such_option(t, value, "option", wrong);
}

static char *line_of_options(const turn *t, const json_t *said, const json_t *value, char **wrong)
{
    (void)said;
    if (!json_is_array(value) || json_array_size(value) == 0)
        return refuse(wrong,
                      copy_text("\"options\" is a list of names, such as [\"left\", \"right\"]."));
    char *line = copy_text("");
    size_t i;
    const json_t *item;
    json_array_foreach(value, i, item)
    {
        size_t number = choice_named(t, json_string_value(item));
        if (number == 0) {
            free(line);
            return no_such_option(t, item, "options", wrong);
        }
        char *longer = format_text("%s%s%zu", line, i > 0 ? "," : "", number);
        free(line);
        line = longer;
    }
    return line;
}

/* With as many digits as it takes, and no more. */
static char *number_text(double number)
{
    char *text = NULL;
    for (int digits = 15; digits <= 17; digits++) {
        free(text);
        text = format_text("%.*g", digits, number);
        if (strtod(text, NULL) == number) break;
    }
    return text;
}

static char *line_of_reading(const turn *t, const json_t *said, const json_t *value, char **wrong)
{
    (void)t;
    const json_t *unit = json_object_get(said, "unit");
    if (!json_is_number(value) || !isfinite(json_number_value(value)))
        return refuse(wrong, copy_text("\"reading\" is a number; its unit goes in \"unit\"."));
    if (unit != NULL && !json_is_string(unit) && !json_is_null(unit))
        return refuse(
            wrong,
            copy_text("\"unit\" is a text, such as \"psi\"; left out, it is the question's."));
    char *number = number_text(json_number_value(value));
    char *plain = one_line(json_is_string(unit) ? json_string_value(unit) : "");
    char *line = format_text("%s%s%s", number, *plain != 0 ? " " : "", plain);
    free(plain);
    free(number);
    return line;
}

static char *line_of_word(const turn *t, const json_t *said, const json_t *value, char **wrong)
{
    (void)said;
    char *all = copy_text("");
    size_t i;
    const json_t *word;
    json_array_foreach(list_of(t, "words"), i, word)
    {
        if (json_equal(word, value)) {
            free(all);
            return format_text(":%s", json_string_value(word)); /* with a colon it is no answer */
        }
        char *longer = format_text("%s%s%s", all, i > 0 ? ", " : "", json_string_value(word));
        free(all);
        all = longer;
    }
    char *why = *all != 0 ? format_text("\"word\" is one of these here: %s.", all)
                          : copy_text("There are no words here.");
    free(all);
    return refuse(wrong, why);
}

static const struct {
    const char *key;
    make_line *make;
} ways[] = {
    {"answer", line_of_answer},   {"choice", line_of_choice},   {"option", line_of_option},
    {"options", line_of_options}, {"reading", line_of_reading}, {"word", line_of_word},
};
enum { WAYS = sizeof ways / sizeof ways[0] };

/* The ways of this turn, or null with *wrong. */
static char *ways_here(const turn *t)
{
    char *all = copy_text("");
    size_t i;
    const json_t *way;
    json_array_foreach(list_of(t, "takes"), i, way)
    {
        char *longer = format_text("%s%s\"%s\"", all, i > 0 ? ", " : "", json_string_value(way));
        free(all);
        all = longer;
    }
    return all;
}

static char *not_so(const turn *t, const char *what, char **wrong)
{
    char *here = ways_here(t);
    char *why = format_text("%s. Write one of these: %s.", what, here);
    free(here);
    return refuse(wrong, why);
}

static bool is_taken(const turn *t, const char *way)
{
    size_t i;
    const json_t *taken;
    json_array_foreach(list_of(t, "takes"), i,
                       taken) if (strcmp(json_string_value(taken), way) == 0) return true;
    return false;
}

/* The one way that is used; WAYS: not exactly one, or a key that means nothing, with *wrong. */
static unsigned way_of(const turn *t, const json_t *said, char **wrong)
{
    unsigned found = WAYS, count = 0;
    const char *key;
    json_t *value;
    json_object_foreach((json_t *)(uintptr_t)said, key, value)
    {
        unsigned i = 0;
        while (i < WAYS && strcmp(ways[i].key, key) != 0) i++;
        if (i < WAYS) found = i;
        count += i < WAYS;
        if (i < WAYS || strcmp(key, "turn") == 0 || strcmp(key, "unit") == 0) continue;
        char *what = format_text("\"%s\" is no key of an answer", key);
        not_so(t, what, wrong);
        free(what);
        return WAYS;
    }
    if (count == 1) return found;
    not_so(t, count == 0 ? "There is no answer in it" : "That is more than one answer", wrong);
    return WAYS;
}

static bool is_for_this_turn(const turn *t, const json_t *said, char **wrong)
{
    const json_t *number = json_object_get(said, "turn");
    if (number == NULL || (json_is_integer(number) && json_integer_value(number) == t->number))
        return true;
    *wrong = json_is_integer(number)
                 ? format_text("That answers turn %" JSON_INTEGER_FORMAT ", and was not counted.",
                               json_integer_value(number))
                 : copy_text("\"turn\" is the number of the turn that is answered, or left out.");
    return false;
}

static char *line_of(const turn *t, const json_t *said, char **wrong)
{
    if (!is_for_this_turn(t, said, wrong)) return NULL;
    unsigned way = way_of(t, said, wrong);
    if (way == WAYS) return NULL;
    if (json_object_get(said, "unit") != NULL && strcmp(ways[way].key, "reading") != 0)
        return refuse(wrong, copy_text("\"unit\" goes with \"reading\" alone."));
    if (is_taken(t, ways[way].key))
        return ways[way].make(t, said, json_object_get(said, ways[way].key), wrong);
    char *what = format_text("\"%s\" does not answer this", ways[way].key);
    not_so(t, what, wrong);
    free(what);
    return NULL;
}

char *turn_answer(const turn *t, const char *line, char **wrong)
{
    json_error_t error;
    *wrong = NULL;
    json_t *said = json_loads(line, JSON_REJECT_DUPLICATES, &error);
    if (!json_is_object(said)) {
        json_decref(said);
        char *what =
            format_text("An answer is a JSON object on one line, such as {\"answer\": \"1\"}%s%s",
                        said == NULL ? ": " : "", said == NULL ? error.text : "");
        return refuse(wrong, what);
    }
    char *made = line_of(t, said, wrong);
    json_decref(said);
    return made;
}
