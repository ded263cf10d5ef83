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
    const answer_heard
        *heard; /* in it; null: it is the whole of what was said, and not yet heard */
    tt_reply *out;
    const char *why;
} typing;

static tt_status refuse(typing *t, str why)
{
    assert(why.p != NULL);
    t->why = why.p;
    return TT_FAULTY;
}

/* ---- readings ---- */

static str example_of(typing *t, const struct question *q)
{
    if (q->in.form == UNIT_PARTS) return STR("1:50");
    if (q->in.form == UNIT_ONE_IN) return STR("1 in 50");
    return book_amount(t->c->derived, t->c->book->book, t->subject,
                       q->has_usual ? q->usual_low : 10, NULL);
}

/* A number alone where a ratio is wanted: 50 could be either form. */
static tt_status bare_ratio(typing *t, str typed)
{
    arena *keep = t->c->derived;
    double number;
    if (!str_to_double(typed, &number) || number < 1)
        return refuse(t, STR("Type it such as 1:50 (1 part of product to 50 of water), or as a "
                             "share such as 2 %."));
    return refuse(t, str_printf(keep,
                                "Is that 1:%.*s (1 part of product and %.*s of water) or 1 in %.*s "
                                "(1 part in %.*s of the mix)? "
                                "Type it that way, or as a share such as 2 %%.",
                                STR_ARG(typed), STR_ARG(typed), STR_ARG(typed), STR_ARG(typed)));
}

static tt_status no_reading(typing *t, const struct question *q, amount_found found, str typed,
                            str bad)
{
    assert(found != AMOUNT_FOUND);
    arena *keep = t->c->derived;
    str example = example_of(t, q);
    switch (found) {
    case AMOUNT_UNCLEAR:
        if (str_find_byte(bad, ':') != SIZE_MAX)
            return refuse(
                t,
                str_printf(
                    keep, "Which of the two in '%.*s' is the product? Type it first, such as 1:50.",
                    STR_ARG(bad)));
        return refuse(t, str_printf(keep,
                                    "'%.*s' could mean two things. Type decimals with a point, and "
                                    "no sign for thousands.",
                                    STR_ARG(bad)));
    case AMOUNT_UNKNOWN_UNIT:
    case AMOUNT_OTHER_KIND:
    case AMOUNT_OTHER_FORM:
        if (q->in.text.n == 0)
            return refuse(t,
                          str_printf(keep, "Type the number alone, without '%.*s'.", STR_ARG(bad)));
        return refuse(
            t,
            str_printf(
                keep,
                "'%.*s' does not fit here. Type it such as %.*s; other units of %.*s are fine too.",
                STR_ARG(bad.n > 0 ? bad : typed), STR_ARG(example),
                STR_ARG(dimension_words(keep, q->in.dim))));
    case AMOUNT_NO_UNIT:
        return bare_ratio(t, typed);
    case AMOUNT_FOUND:
    case AMOUNT_NO_NUMBER:
        break;
    }
    return refuse(t, str_printf(keep,
                                "That is not a number. Type the number you read, for example %.*s.",
                                STR_ARG(example)));
}

/* Said back where it could have been meant otherwise: in another unit, with a comma for decimals,
 * as a ratio. */
static void tell_understood(typing *t, const struct question *q, const amount *as, double number)
{
    arena *keep = t->c->derived;
    const unit shown = book_shown_unit(t->c->book->book, &q->in);
    str said = amount_words(keep, as->number, &as->in, 10);
    const bool same_unit =
        as->in.text.n == 0 || str_eq(as->in.text, shown.text) ||
        (as->in.form == UNIT_PLAIN && shown.form == UNIT_PLAIN && as->in.factor == shown.factor);
    if (unit_is_ratio(&q->in) && number > 0 && number < 1)
        t->why = str_printf(keep, "%.*s: product is %.3g %% of the mix, 1 part to %.4g of water.",
                            STR_ARG(said), 100 * number, 1 / number - 1)
                     .p;
    else if (!unit_is_ratio(&q->in) && !same_unit)
        t->why =
            str_printf(keep, "%.*s is %.*s.", STR_ARG(said),
                       STR_ARG(amount_words(keep, unit_convert(&q->in, &shown, number), &shown, 4)))
                .p;
    else if (strchr(t->typed, ',') != NULL)
        t->why = str_printf(keep, "Taken as %.*s.", STR_ARG(said)).p;
}

static tt_status implausible(typing *t, const struct question *q, const amount *as)
{
    assert(q->has_plausible && q->plausible_low <= q->plausible_high);
    arena *keep = t->c->derived;
    const book *b = t->c->book->book;
    return refuse(
        t, str_printf(keep,
                      "%.*s can't be right: it lies between %.*s and %.*s. Please read it again.",
                      STR_ARG(amount_words(keep, as->number, &as->in, 10)),
                      STR_ARG(book_amount(keep, b, t->subject, q->plausible_low, NULL)),
                      STR_ARG(book_amount(keep, b, t->subject, q->plausible_high, NULL))));
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
    arena *keep = t->c->derived;
    const book *b = t->c->book->book;
    const struct question *q = &b->questions[t->subject];
    str said = amount_words(keep, as->number, &as->in, 10);
    return refuse(t, str_printf(keep,
                                "%.*s is far from what is usual here, %.*s to %.*s. If it is "
                                "right, type it with its unit: %.*s.",
                                STR_ARG(said),
                                STR_ARG(book_amount(keep, b, t->subject, q->usual_low, NULL)),
                                STR_ARG(book_amount(keep, b, t->subject, q->usual_high, NULL)),
                                STR_ARG(said)));
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
        return refuse(
            t, str_printf(keep, "Type how many there are as a whole number, for example 3."));
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
                            : listen_answer(t->c->book->ear, t->c->derived, t->subject, typed);
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
    if (h.kind == ANSWER_VAGUE)
        return refuse(t, str_printf(keep, "Type the one number that you read, for example %.*s.",
                                    STR_ARG(example_of(t, q))));
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
    text_add(&b, STR("Which one is meant? Type its number: "));
    const uint32_t first = first_of(options);
    for (uint32_t i = first; i < q->answer_count; i++)
        if (options >> i & 1)
            text_addf(&b, "%s%u, %.*s", i > first ? "; " : "", i + 1,
                      STR_ARG(text_of_option(t, q, i)));
    text_add(&b, STR("."));
    return refuse(t, text_done(&b));
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
    return refuse(
        t, str_printf(
               t->c->derived,
               "That is none of the answers. Type a number from 1 to %u, or the words beside it.",
               q->answer_count));
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
