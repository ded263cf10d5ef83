/* What people type at a prompt, as an answer to the question that was asked. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/unicode.h"
#include "listen/listen.h"
#include "session/session.h"

/* What people type at a prompt, as the listener understands it: an option by number or in words; a
 * reading with or without its unit. */
typedef struct typing {
    tt_case *c;
    uint32_t subject;
    const char *typed;
    /* in it; null: it is the whole of what was said, and not yet heard */
    const answer_heard *heard;
    tt_reply *out;
    const char *why;
} typing;

static tt_status refuse(typing *t, const char *why)
{
    assert(why != NULL);
    t->why = why;
    return TT_FAULTY;
}

/* In the language of the case, with its inserts. */
#define OUR(t, id, ...) FILL((t)->c->derived, (t)->c->in, (id), __VA_ARGS__)

/* ---- readings ---- */

static const char *example_of(typing *t, const struct question *q)
{
    if (q->in.form == UNIT_PARTS) return "1:50";
    if (q->in.form == UNIT_ONE_IN) return "1 in 50";
    return reading_words(t->c, t->subject, q->has_usual ? q->usual_low : 10);
}

/* A number alone where a ratio is wanted: 50 could be either form. */
static tt_status bare_ratio(typing *t, str typed)
{
    double number;
    if (!str_to_double(typed, &number) || number < 1)
        return refuse(t, case_says(t->c, TEXT_TYPE_RATIO));
    return refuse(t, OUR(t, TEXT_WHICH_RATIO, cstr(t->c->derived, typed)));
}

/* In another unit than those that measure this. */
static tt_status other_unit(typing *t, const struct question *q, const char *bad)
{
    if (q->in.text.n == 0) return refuse(t, OUR(t, TEXT_NUMBER_ALONE, bad));
    const str units = unit_examples(t->c->derived, q->in.dim, 3);
    return refuse(t, units.n == 0 ? OUR(t, TEXT_DOES_NOT_FIT_HERE, bad, example_of(t, q))
                                  : OUR(t, TEXT_OTHER_UNIT, bad, example_of(t, q),
                                        cstr(t->c->derived, units)));
}

static tt_status no_reading(typing *t, const struct question *q, amount_found found, str typed,
                            str bad)
{
    assert(found != AMOUNT_FOUND);
    arena *keep = t->c->derived;
    switch (found) {
    case AMOUNT_UNCLEAR:
        return refuse(
            t,
            OUR(t, str_find_byte(bad, ':') != SIZE_MAX ? TEXT_WHICH_IS_PRODUCT : TEXT_TWO_MEANINGS,
                cstr(keep, bad)));
    case AMOUNT_UNKNOWN_UNIT:
    case AMOUNT_OTHER_KIND:
    case AMOUNT_OTHER_FORM:
        return other_unit(t, q, cstr(keep, bad.n > 0 ? bad : typed));
    case AMOUNT_NO_UNIT:
        return bare_ratio(t, typed);
    case AMOUNT_FOUND:
    case AMOUNT_NO_NUMBER:
        break;
    }
    return refuse(t, OUR(t, TEXT_NO_NUMBER, example_of(t, q)));
}

/* Said back where it could have been meant otherwise: in another unit, with a comma for decimals,
 * as a ratio. */
static void tell_understood(typing *t, const struct question *q, const amount *as, double number)
{
    arena *keep = t->c->derived;
    const unit shown = book_shown_unit(t->c->book->book, &q->in);
    const char *said = amount_words(keep, as->number, &as->in, 10).p;
    const bool same_unit =
        as->in.text.n == 0 || str_eq(as->in.text, shown.text) ||
        (as->in.form == UNIT_PLAIN && shown.form == UNIT_PLAIN && as->in.factor == shown.factor);
    if (unit_is_ratio(&q->in) && number > 0 && number < 1)
        t->why = OUR(t, TEXT_IS_SHARE, said, str_printf(keep, "%.3g", 100 * number).p,
                     str_printf(keep, "%.4g", 1 / number - 1).p);
    else if (!unit_is_ratio(&q->in) && !same_unit)
        t->why = OUR(t, TEXT_IS_IN_UNIT, said,
                     amount_words(keep, unit_convert(&q->in, &shown, number), &shown, 4).p);
    else if (strchr(t->typed, ',') != NULL)
        t->why = OUR(t, TEXT_TAKEN_AS, said);
}

static tt_status implausible(typing *t, const struct question *q, const amount *as)
{
    assert(q->has_plausible && q->plausible_low <= q->plausible_high);
    return refuse(t,
                  OUR(t, TEXT_IMPLAUSIBLE, amount_words(t->c->derived, as->number, &as->in, 10).p,
                      reading_words(t->c, t->subject, q->plausible_low),
                      reading_words(t->c, t->subject, q->plausible_high)));
}

/* A number alone, far from what is usual, may be the number of an answer to another question, or
 * read in another unit. */
static bool is_far(const struct question *q, double number)
{
    const double far = 4;
    if (!q->has_usual || q->in.form != UNIT_PLAIN || q->usual_low <= 0 || number == 0) return false;
    return number < q->usual_low / far || number > q->usual_high * far;
}

static tt_status far_off(typing *t, const amount *as)
{
    const struct question *q = &t->c->book->book->questions[t->subject];
    return refuse(t, OUR(t, TEXT_FAR_OFF, amount_words(t->c->derived, as->number, &as->in, 10).p,
                         reading_words(t->c, t->subject, q->usual_low),
                         reading_words(t->c, t->subject, q->usual_high)));
}

/* Looked and not sure, or not able to look. */
static tt_status no_answer(typing *t, answer_kind kind)
{
    *t->out = (tt_reply){.kind = kind == ANSWER_CANNOT ? TT_CANNOT : TT_UNSURE};
    return TT_OK;
}

/* A number without a unit is in the one that people at the site read. */
static tt_status take_amount(typing *t, const struct question *q, amount_found found, double number,
                             amount as)
{
    arena *keep = t->c->derived;
    const unit shown = book_shown_unit(t->c->book->book, &q->in);
    const bool bare = found == AMOUNT_NO_UNIT;
    if (bare) as = (amount){number, shown};
    number = unit_convert(&shown, &q->in, number);
    if (!is_plausible(q, number)) return implausible(t, q, &as);
    if (bare && is_far(q, number)) return far_off(t, &as);
    if (q->kind == QUESTION_COUNT && (number < 0 || number != floor(number)))
        return refuse(t, case_says(t->c, TEXT_WHOLE_NUMBER));
    *t->out = (tt_reply){.kind = TT_NUMBER,
                         .number = as.number,
                         .unit = as.in.text.n > 0 ? cstr(keep, as.in.text) : NULL};
    tell_understood(t, q, &as, number);
    return TT_OK;
}

/* As typed; or in words around it: "I see 40", "forty five pounds". */
static answer_heard hear(typing *t, str typed)
{
    return t->heard != NULL ? *t->heard
                            : listen_answer(case_ear(t->c), t->c->derived, t->subject, typed);
}

static tt_status read_number(typing *t, const struct question *q, str typed)
{
    arena *keep = t->c->derived;
    const unit shown = book_shown_unit(t->c->book->book, &q->in);
    amount as;
    double number;
    str bad = STR("");
    amount_found found = amount_read(keep, typed, &shown, &number, &as, &bad);
    const bool usable = found == AMOUNT_FOUND || found == AMOUNT_UNCLEAR || found == AMOUNT_NO_UNIT;
    const answer_heard h = usable ? (answer_heard){.kind = ANSWER_NONE} : hear(t, typed);
    if (h.kind == ANSWER_CANNOT || h.kind == ANSWER_UNSURE) return no_answer(t, h.kind);
    if (h.kind == ANSWER_VAGUE) return refuse(t, OUR(t, TEXT_ONE_NUMBER, example_of(t, q)));
    if (h.kind == ANSWER_READING || h.kind == ANSWER_OTHER_UNIT)
        found = amount_read(keep, h.typed, &shown, &number, &as, &bad);
    if (found != AMOUNT_FOUND && (found != AMOUNT_NO_UNIT || unit_is_ratio(&q->in)))
        return no_reading(t, q, found, typed, bad);
    return take_amount(t, q, found, number, as);
}

/* ---- options ---- */

/* Answers are numbered by name, options as they are shown. */
static uint64_t options_of(const struct question *q, uint64_t answers)
{
    uint64_t options = 0;
    for (uint32_t i = 0; i < q->answer_count; i++)
        if (answers >> q->shown_order[i] & 1) options |= (uint64_t)1 << i;
    return options;
}

static uint32_t first_of(uint64_t options)
{
    assert(options != 0);
    uint32_t first = 0;
    while ((options >> first & 1) == 0) first++;
    return first;
}

static str text_of_option(typing *t, const struct question *q, uint32_t option)
{
    const answer_option *a = &q->answers[q->shown_order[option]];
    str text = texts_for(&a->text, t->c->language);
    return text.n > 0 ? text : a->id.name;
}

/* What is unsure is asked back. */
static tt_status ask_which_option(typing *t, const struct question *q, uint64_t options)
{
    arena *keep = t->c->derived;
    text_builder b = {.keep = keep};
    const uint32_t first = first_of(options);
    for (uint32_t i = first; i < q->answer_count; i++)
        if (options >> i & 1)
            text_addf(&b, "%s%u, %.*s", i > first ? "; " : "", i + 1,
                      STR_ARG(text_of_option(t, q, i)));
    return refuse(t, OUR(t, TEXT_WHICH_ONE_MEANT, text_done(&b).p));
}

static tt_status read_option(typing *t, const struct question *q, str typed)
{
    const answer_heard h = hear(t, typed);
    const uint64_t options = options_of(q, h.answers);
    switch (h.kind) {
    case ANSWER_ONE:
        *t->out = (tt_reply){.kind = TT_ANSWER, .option = first_of(options)};
        return TT_OK;
    case ANSWER_NOT:
        *t->out = (tt_reply){.kind = TT_NOT, .not_options = options};
        return TT_OK;
    case ANSWER_UNSURE:
    case ANSWER_CANNOT:
        return no_answer(t, h.kind);
    case ANSWER_SEVERAL:
        return ask_which_option(t, q, options);
    case ANSWER_NONE:
    case ANSWER_READING:
    case ANSWER_VAGUE:
    case ANSWER_OTHER_UNIT:
        break;
    }
    return refuse(t,
                  OUR(t, TEXT_NOT_AN_ANSWER, str_printf(t->c->derived, "%u", q->answer_count).p));
}

static tt_status read_typed(void *context)
{
    typing *t = context;
    assert(t->typed != NULL && t->out != NULL);
    if (t->subject >= t->c->book->book->question_count) return TT_FAULTY;
    const struct question *q = &t->c->book->book->questions[t->subject];
    str typed = str_trim(unicode_clean(t->c->derived, str_of(t->typed)));
    return q->kind == QUESTION_CHOICE ? read_option(t, q, typed) : read_number(t, q, typed);
}

tt_status reply_heard(tt_case *c, uint32_t question, const char *words, const answer_heard *heard,
                      tt_reply *out, const char **why)
{
    assert(out != NULL && why != NULL);
    tt_status status = case_see(c);
    typing t = {.c = c, .subject = question, .typed = words, .heard = heard, .out = out, .why = ""};
    if (status == TT_OK) status = guarded_case(c, read_typed, &t);
    *why = t.why;
    return status;
}

tt_status tt_reply_read(tt_case *c, uint32_t question, const char *typed, tt_reply *out,
                        const char **why)
{
    return reply_heard(c, question, typed, NULL, out, why);
}
