/* Answers, readings with their units and chances, as schemas. */
#include "revise/answer_schema.h"

#include <assert.h>
#include <string.h>

#define NUMBER   "[+-]?[0-9]+(?:\\.[0-9]+)?(?:[eE][+-]?[0-9]+)?"
#define COMPARED "(?:(?:below|above|at least|at most|weaker than|stronger than) )?"

/* Made from docs/book.schema.json when the program is built. */
extern const unsigned char language_schema_bytes[];
extern const size_t language_schema_bytes_length;

str language_schema(void)
{
    return (str){(const char *)language_schema_bytes, language_schema_bytes_length};
}

/* ---- small parts ---- */

static const char *said(const schema_making *m, str text)
{
    return str_copy(m->keep, text).p;
}

tt_value schema_reference(const schema_making *m, const char *front, str base)
{
    value_builder v = value_map(m->keep);
    value_put_text(&v, "$ref", str_printf(m->keep, "#/definitions/%s%.*s", front, STR_ARG(base)).p);
    return value_done(&v);
}

tt_value schema_words(const schema_making *m, const char *one, const char *other)
{
    value_builder v = value_map(m->keep), words = value_list(m->keep);
    value_add(&words, value_of_text(one));
    if (other != NULL) value_add(&words, value_of_text(other));
    value_put(&v, "enum", value_done(&words));
    return value_done(&v);
}

static tt_value any_of(const schema_making *m, const tt_value *all, uint32_t count)
{
    value_builder v = value_map(m->keep), list = value_list(m->keep);
    for (uint32_t i = 0; i < count; i++) value_add(&list, all[i]);
    value_put(&v, "anyOf", value_done(&list));
    return value_done(&v);
}

/* {"type": "object", "properties": {key: value}, "additionalProperties": false} */
static tt_value map_with(const schema_making *m, const char *key, tt_value value)
{
    value_builder v = value_map(m->keep), properties = value_map(m->keep);
    value_put(&properties, key, value);
    value_put_text(&v, "type", "object");
    value_put(&v, "properties", value_done(&properties));
    value_put_bool(&v, "additionalProperties", false);
    return value_done(&v);
}

static tt_value list_with(const schema_making *m, tt_value item)
{
    value_builder v = value_map(m->keep);
    value_put_text(&v, "type", "array");
    value_put(&v, "items", item);
    return value_done(&v);
}

static tt_value fitting(const schema_making *m, str text, const char *const *examples,
                        uint32_t count)
{
    value_builder v = value_map(m->keep), list = value_list(m->keep);
    value_put_text(&v, "type", "string");
    value_put_text(&v, "pattern", said(m, text));
    if (count > 0) /* many editors show this in place of the pattern */
        value_put_text(
            &v, "patternErrorMessage",
            str_printf(m->keep, "Write such as '%s', in a unit that fits.", examples[0]).p);
    for (uint32_t i = 0; i < count; i++) value_add(&list, value_of_text(examples[i]));
    if (count > 0) value_put(&v, "examples", value_done(&list));
    return value_done(&v);
}

/* ---- answers in words ---- */

static tt_value option_names_of(const schema_making *m, const answer_option *answers,
                                uint32_t count)
{
    value_builder v = value_map(m->keep), names = value_list(m->keep), texts = value_list(m->keep);
    for (uint32_t i = 0; i < count; i++) {
        const answer_option *a = &answers[i];
        const tt_value text = value_of_str(
            m->keep, a->text.count > 0 ? texts_for(&a->text, m->own->language) : STR(""));
        const bool yes = str_is(a->id.name, "true"), no = str_is(a->id.name, "false");
        value_add(&names, value_of_str(m->keep, a->id.name));
        value_add(&texts, text);
        if (!yes && !no) continue;
        value_add(&names, value_of_bool(yes)); /* so YAML takes it; to us it is a word */
        value_add(&texts, text);
    }
    value_put(&v, "enum", value_done(&names));
    value_put(&v, "markdownEnumDescriptions", value_done(&texts));
    return value_done(&v);
}

static tt_value one_or_several(const schema_making *m, tt_value option)
{
    const tt_value both[] = {option, list_with(m, option)};
    return any_of(m, both, 2);
}

static tt_value options_with_chances(const schema_making *m, const answer_option *answers,
                                     uint32_t count)
{
    value_builder v = value_map(m->keep), properties = value_map(m->keep);
    for (uint32_t i = 0; i < count; i++)
        value_put(&properties, said(m, answers[i].id.name), schema_reference(m, "share", STR("")));
    value_put_text(&v, "type", "object");
    value_put(&v, "properties", value_done(&properties));
    value_put_bool(&v, "additionalProperties", false);
    return value_done(&v);
}

/* ---- readings ---- */

static void add_escaped(text_builder *b, str text)
{
    for (size_t i = 0; i < text.n; i++) {
        if (str_find_byte(STR("\\^$.|?*+()[]{}/-"), text.p[i]) != SIZE_MAX) text_add(b, STR("\\"));
        text_add(b, str_slice(text, i, i + 1));
    }
}

/* Spellings that fit, and what is put together of several: "gal/h", "l per min". */
static str units_fitting(const schema_making *m, const unit *wanted)
{
    uint32_t count;
    const str *all = unit_spellings(m->scratch, &count);
    text_builder b = {.keep = m->keep};
    for (uint32_t i = 0; i < count; i++) {
        unit u;
        str bad;
        if (unit_read(m->scratch, all[i], &wanted->dim, &u, &bad) != UNIT_FOUND ||
            !unit_fits(&u, wanted))
            continue;
        add_escaped(&b, all[i]);
        text_add(&b, STR("|"));
    }
    text_add(&b, STR("[^0-9 ][^ ]*[/*^\xC2\xB7][^ ]*|[^0-9 ][^ ]* per [^ ]+"));
    return str_printf(m->keep, "(?:%.*s)(?: interval)?", STR_ARG(text_done(&b)));
}

static str amount_pattern(const schema_making *m, const unit *in)
{
    if (in->text.n == 0) return STR(NUMBER);
    const str units = units_fitting(m, in);
    const char *ratio =
        unit_is_ratio(in) || dimension_is_none(in->dim) ? "|1 ?(?::|in) ?" NUMBER : "";
    return str_printf(m->keep, "(?:" NUMBER " ?%.*s%s)", STR_ARG(units), ratio);
}

/* The names of what can be reckoned with. */
static str reckoned_names(const schema_making *m)
{
    text_builder b = {.keep = m->keep};
    for (uint32_t i = 0; i < m->all->question_count; i++) {
        const question *q = &m->all->questions[i];
        const bool first = i == 0 || !str_eq(q->of.base, m->all->questions[i - 1].of.base);
        if (q->kind != QUESTION_CHOICE && !q->made && first)
            text_addf(&b, "%s%.*s", b.length > 0 ? "|" : "", STR_ARG(q->of.base));
    }
    return b.length > 0 ? text_done(&b) : STR("none");
}

static tt_value compared_with(const schema_making *m, const question *q, str amount)
{
    static const char *const words[] = {"below", "above", "at least", "at most"};
    const char *examples[4];
    const double some = q->has_usual       ? q->usual_low
                        : q->has_plausible ? (q->plausible_low + q->plausible_high) / 2
                                           : 20;
    for (int i = 0; i < 4; i++)
        examples[i] = str_printf(m->keep, "%s %g%s%.*s", words[i], some,
                                 q->in.text.n > 0 ? " " : "", STR_ARG(q->in.text))
                          .p;
    const str text = str_printf(m->keep,
                                "^(?:" COMPARED "(?:%.*s|" NUMBER
                                "(?: ?[^ ]+)? to %.*s)|.*(?:^|[ (])(?:%.*s)(?:[ ),].*)?)$",
                                STR_ARG(amount), STR_ARG(amount), STR_ARG(reckoned_names(m)));
    return fitting(m, text, examples, 4);
}

static tt_value trend_words(const schema_making *m)
{
    value_builder v = value_map(m->keep), names = value_list(m->keep);
    for (int t = TREND_STEADY + 1; t < TREND_COUNT; t++)
        value_add(&names, value_of_text(trend_name((reading_trend)t)));
    value_put(&v, "enum", value_done(&names));
    return value_done(&v);
}

/* ---- each question ---- */

static tt_value answer_to(const schema_making *m, const question *q)
{
    const tt_value known = schema_words(m, "known", "not known");
    if (q->kind != QUESTION_CHOICE) {
        value_builder number = value_map(m->keep);
        value_put_text(&number, "type", "number");
        tt_value all[4] = {compared_with(m, q, amount_pattern(m, &q->in)), known};
        uint32_t count = 2;
        if (q->in.text.n == 0) all[count++] = value_done(&number);
        if (q->good != NO_ID) all[count++] = map_with(m, "trend", trend_words(m));
        return any_of(m, all, count);
    }
    const tt_value option = option_names_of(m, q->answers, q->answer_count);
    const tt_value all[] = {option, known, list_with(m, option),
                            map_with(m, "not", one_or_several(m, option))};
    return any_of(m, all, 4);
}

static tt_value reply_to(const schema_making *m, const question *q)
{
    const tt_value unsure = schema_words(m, "unsure", NULL);
    if (q->kind != QUESTION_CHOICE) {
        value_builder number = value_map(m->keep);
        value_put_text(&number, "type", "number");
        const str text = str_printf(m->keep, "^%.*s$", STR_ARG(amount_pattern(m, &q->in)));
        const char *example = str_printf(m->keep, "%g%s%.*s", q->has_usual ? q->usual_low : 20,
                                         q->in.text.n > 0 ? " " : "", STR_ARG(q->in.text))
                                  .p;
        const tt_value all[] = {fitting(m, text, &example, 1), unsure, value_done(&number)};
        return any_of(m, all, q->in.text.n == 0 ? 3 : 2);
    }
    const tt_value option = option_names_of(m, q->answers, q->answer_count);
    const tt_value all[] = {
        option, unsure, map_with(m, "not", one_or_several(m, option)),
        map_with(m, "likely", options_with_chances(m, q->answers, q->answer_count))};
    return any_of(m, all, 4);
}

tt_value schema_site_answer(const schema_making *m, str base)
{
    value_builder v = value_map(m->keep), properties = value_map(m->keep);
    value_put(&properties, "value", schema_reference(m, "reply-to-", base));
    value_put(&properties, "source", schema_reference(m, "text", STR("")));
    value_put_text(&v, "type", "object");
    value_put(&v, "properties", value_done(&properties));
    value_put_bool(&v, "additionalProperties", false);
    const tt_value all[] = {schema_reference(m, "reply-to-", base), value_done(&v)};
    return any_of(m, all, 2);
}

/* Of what is there for each piece the first tells it. */
static bool is_first(const book *b, uint32_t question)
{
    for (uint32_t i = 0; i < question; i++)
        if (str_eq(b->questions[i].of.base, b->questions[question].of.base)) return false;
    return !b->questions[question].made;
}

static str base_of(const question *q)
{
    return q->ours ? q->id.name : q->of.base;
}

static void put_question(const schema_making *m, const question *q, value_builder *out)
{
    value_put(out, str_printf(m->keep, "answer-to-%.*s", STR_ARG(base_of(q))).p, answer_to(m, q));
    value_put(out, str_printf(m->keep, "reply-to-%.*s", STR_ARG(base_of(q))).p, reply_to(m, q));
}

void schema_answers(const schema_making *m, value_builder *out)
{
    const book *b = m->all;
    for (uint32_t i = 0; i < b->question_count; i++)
        if (is_first(b, i)) put_question(m, &b->questions[i], out);
    const tt_value made = value_done(out);
    for (uint32_t i = 0; i < b->conclusion_count; i++) {
        const conclusion *c = &b->conclusions[i];
        const char *key = str_printf(m->keep, "value-of-%.*s", STR_ARG(base_of_name(c->id.name))).p;
        const tt_value now = value_done(out);
        if (value_get(&made, key) != NULL || value_get(&now, key) != NULL) continue;
        const tt_value option = option_names_of(m, c->answers, c->answer_count);
        const tt_value all[] = {option, list_with(m, option),
                                map_with(m, "not", one_or_several(m, option))};
        value_put(out, key, any_of(m, all, 3));
    }
}

static tt_value confirms_of(const schema_making *m, const question *q)
{
    value_builder v = value_map(m->keep), properties = value_map(m->keep);
    for (uint32_t i = 0; i < q->answer_count; i++)
        value_put(&properties, said(m, q->answers[i].id.name),
                  schema_reference(m, "cause-name", STR("")));
    value_put_text(&v, "type", "object");
    value_put(&v, "properties", value_done(&properties));
    value_put_bool(&v, "additionalProperties", false);
    return value_done(&v);
}

static tt_value own_keys(const schema_making *m, const question *q)
{
    value_builder v = value_map(m->keep), properties = value_map(m->keep);
    if (q->kind == QUESTION_CHOICE) {
        const tt_value option = option_names_of(m, q->answers, q->answer_count);
        value_put(&properties, "usual", option);
        value_put(&properties, "safe", one_or_several(m, option));
        value_put(&properties, "confirms", confirms_of(m, q));
        value_put(&properties, "shares", options_with_chances(m, q->answers, q->answer_count));
    }
    value_put(&v, "properties", value_done(&properties));
    return value_done(&v);
}

void schema_own_answers(const schema_making *m, const tt_value *general, value_builder *properties)
{
    const book *b = m->all;
    for (uint32_t i = 0; i < b->named_questions; i++) {
        const question *q = &b->questions[i];
        if (q->kind != QUESTION_CHOICE || !is_first(b, i)) continue;
        value_builder v = value_map(m->keep), both = value_list(m->keep);
        value_add(&both, *general);
        value_add(&both, own_keys(m, q));
        value_put(&v, "allOf", value_done(&both));
        value_put(properties, said(m, q->of.base), value_done(&v));
    }
}

/* ---- chances and units ---- */

tt_value schema_chance(const schema_making *m, const tt_value *general)
{
    value_builder v = value_map(m->keep), words = value_map(m->keep), names = value_list(m->keep),
                  texts = value_list(m->keep);
    for (uint32_t i = 0; i < CHANCE_WORDS; i++) {
        value_add(&names, value_of_text(chance_word(i)));
        value_add(&texts,
                  value_of_text(str_printf(m->keep, "%g of 100", 100 * m->own->word_chance[i]).p));
    }
    value_put(&words, "enum", value_done(&names));
    value_put(&words, "markdownEnumDescriptions", value_done(&texts));
    const tt_value all[] = {value_done(&words), schema_reference(m, "share", STR(""))};
    value_put_some(&v, "description", value_text(general, "description"));
    const tt_value any = any_of(m, all, 2);
    value_put(&v, "anyOf", *value_get(&any, "anyOf"));
    return value_done(&v);
}

tt_value schema_units(const schema_making *m, const tt_value *general)
{
    uint32_t count;
    const str *all = unit_spellings(m->scratch, &count);
    value_builder v = value_map(m->keep), words = value_map(m->keep), names = value_list(m->keep);
    for (uint32_t i = 0; i < count; i++) {
        uint32_t before = 0;
        while (before < i && !str_eq(all[before], all[i])) before++;
        if (before == i)
            value_add(&names, value_of_str(m->keep, all[i])); /* some have several meanings */
    }
    value_put(&words, "enum", value_done(&names));
    const tt_value both[] = {value_done(&words),
                             fitting(m, STR("^[^0-9 ][^ ]*(?:[/*^\xC2\xB7 ][^ ]+)+$"), NULL, 0)};
    const tt_value any = any_of(m, both, 2);
    value_put_some(&v, "description", value_text(general, "description"));
    value_put(&v, "anyOf", *value_get(&any, "anyOf"));
    return value_done(&v);
}
