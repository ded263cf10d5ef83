/* An answer as a record keeps it, and back. */
#include <assert.h>
#include <string.h>

#include "session/session.h"
#include "talk/talk.h"

static const char *const kind_names[] = {
    [TT_UNSURE] = "unsure", [TT_CANNOT] = "cannot", [TT_ANSWER] = "answer",
    [TT_NUMBER] = "number", [TT_NOT] = "not",       [TT_LIKELY] = "likely"};

static void put_not(value_builder *b, const tt_question *q, uint64_t options)
{
    value_builder names = value_list(b->keep);
    for (uint32_t i = 0; i < q->option_count; i++)
        if ((options >> i & 1) != 0)
            value_add(&names, value_of_str(b->keep, str_of(q->options[i].name)));
    value_put(b, "options", value_done(&names));
}

static void put_weights(value_builder *b, const tt_question *q, const double *weights)
{
    assert(weights != NULL);
    value_builder map = value_map(b->keep);
    for (uint32_t i = 0; i < q->option_count; i++)
        value_put_number(&map, str_copy(b->keep, str_of(q->options[i].name)).p, weights[i]);
    value_put(b, "weights", value_done(&map));
}

tt_value reply_to_value(arena *keep, const tt_question *q, const tt_reply *reply)
{
    assert(reply->kind <= TT_LIKELY);
    value_builder b = value_map(keep);
    value_put_text(&b, "kind", kind_names[reply->kind]);
    switch (reply->kind) {
    case TT_ANSWER:
        assert(reply->option < q->option_count);
        value_put(&b, "option", value_of_str(keep, str_of(q->options[reply->option].name)));
        break;
    case TT_NUMBER:
        value_put_number(&b, "number", reply->number);
        if (reply->unit != NULL) value_put(&b, "unit", value_of_str(keep, str_of(reply->unit)));
        break;
    case TT_NOT:
        put_not(&b, q, reply->not_options);
        break;
    case TT_LIKELY:
        put_weights(&b, q, reply->weights);
        break;
    case TT_UNSURE:
    case TT_CANNOT:
        break;
    }
    return value_done(&b);
}

static uint32_t option_found(const struct question *q, const char *name)
{
    for (uint32_t i = 0; name != NULL && i < q->answer_count; i++)
        if (str_is(q->answers[q->shown_order[i]].id.name, name)) return i;
    return TT_NONE;
}

uint32_t option_named(const tt_book *book, uint32_t question, const char *name)
{
    assert(question < book->book->question_count);
    return option_found(&book->book->questions[question], name);
}

static bool read_not(const struct question *q, const tt_value *names, tt_reply *reply)
{
    for (uint32_t i = 0; names != NULL && i < names->count; i++) {
        const uint32_t option = option_found(q, names->items[i].text);
        if (option >= 64) return false;
        reply->not_options |= UINT64_C(1) << option;
    }
    return reply->not_options != 0;
}

static bool read_weights(arena *keep, const struct question *q, const tt_value *given,
                         tt_reply *reply)
{
    double *weights = ARENA_ARRAY(keep, double, q->answer_count + 1);
    for (uint32_t i = 0; i < q->answer_count; i++) {
        const str name = q->answers[q->shown_order[i]].id.name;
        value_number(given, str_copy(keep, name).p, &weights[i]);
    }
    reply->weights = weights;
    return given != NULL && given->count > 0;
}

bool reply_of_value(arena *keep, const tt_book *book, uint32_t question, const tt_value *v,
                    tt_reply *reply)
{
    assert(question < book->book->question_count && reply != NULL);
    const struct question *q = &book->book->questions[question];
    const char *kind = value_text(v, "kind");
    *reply = (tt_reply){.kind = TT_UNSURE};
    unsigned which = 0;
    while (kind != NULL && which <= TT_LIKELY && strcmp(kind_names[which], kind) != 0) which++;
    if (kind == NULL || which > TT_LIKELY) return false;
    reply->kind = (tt_reply_kind)which;
    switch (reply->kind) {
    case TT_UNSURE:
    case TT_CANNOT:
        return true;
    case TT_ANSWER:
        reply->option = option_found(q, value_text(v, "option"));
        return reply->option != TT_NONE;
    case TT_NUMBER:
        reply->unit = value_text(v, "unit");
        return value_number(v, "number", &reply->number);
    case TT_NOT:
        return read_not(q, value_get(v, "options"), reply);
    case TT_LIKELY:
        return read_weights(keep, q, value_get(v, "weights"), reply);
    }
    return false;
}

/* "not sure", "3 bar"; "" if there are no few words for it. */
const char *reply_words_of(arena *keep, tongue in, const tt_question *q, const tt_reply *reply)
{
    assert(reply->kind <= TT_LIKELY);
    const char *unit = reply->unit != NULL ? reply->unit : q->unit;
    switch (reply->kind) {
    case TT_UNSURE:
        return catalogue_text(in, TEXT_SAID_UNSURE);
    case TT_CANNOT:
        return catalogue_text(in, TEXT_SAID_CANNOT);
    case TT_ANSWER:
        return q->options[reply->option].text;
    case TT_NUMBER:
        return number_said(keep, reply->number, unit);
    case TT_NOT:
        return catalogue_text(in, TEXT_SAID_NOT);
    case TT_LIKELY:
        return catalogue_text(in, TEXT_SAID_GUESS);
    }
    return "";
}
