#include <assert.h>
#include <string.h>

#include "base/pattern.h"
#include "base/unicode.h"
#include "session/session.h"

/* What people type at a prompt: the number of an option, its name or its words, the start of them; a reading with or without its unit. */
typedef struct typing {
    tt_case *c;
    uint32_t subject;
    const char *typed;
    tt_reply *out;
    const char *why;
} typing;

static tt_status refuse(typing *t, str why)
{
    t->why = why.p;
    return TT_FAULTY;
}

/* ---- readings ---- */

/* "45 psi", "45psi", "45,5": number, then nothing or the question's unit. A comma is a decimal point where it can't be anything else. */
static bool split_number(arena *keep, str typed, double *number, str *rest)
{
    size_t end = 0;
    while (end < typed.n && strchr("0123456789.,+-", typed.p[end]) != NULL) end++;
    str digits = str_copy(keep, str_slice(typed, 0, end));
    size_t comma = str_find_byte(digits, ',');
    if (comma != SIZE_MAX && str_find_byte(digits, '.') == SIZE_MAX && digits.n - comma - 1 != 3) ((char *)digits.p)[comma] = '.';
    *rest = str_trim(str_slice(typed, end, typed.n));
    return str_to_double(digits, number);
}

static tt_status read_number(typing *t, const struct question *q, str typed)
{
    arena *keep = t->c->derived;
    double number;
    str rest;
    const char *gap = q->unit.n == 0 ? "" : " ";
    if (!split_number(keep, typed, &number, &rest))
        return refuse(t, str_printf(keep, "That is not a number. Type the number you read, for example %s%s%.*s.",
                                    number_words(keep, q->has_usual ? q->usual_low : 10).p, gap, STR_ARG(q->unit)));
    if (rest.n > 0 && !str_eq(unicode_plain(keep, rest), unicode_plain(keep, q->unit)))
        return refuse(t, q->unit.n == 0
            ? str_printf(keep, "Type the number alone, without '%.*s'.", STR_ARG(rest))
            : str_printf(keep, "This is read in %.*s, not in '%.*s'. Type the number in %.*s.", STR_ARG(q->unit),
                         STR_ARG(rest), STR_ARG(q->unit)));
    if (q->has_plausible && (number < q->plausible_low || number > q->plausible_high))
        return refuse(t, str_printf(keep, "%s%s%.*s can't be right: it lies between %s and %s. Please read it again.",
                                    number_words(keep, number).p, gap, STR_ARG(q->unit),
                                    number_words(keep, q->plausible_low).p, number_words(keep, q->plausible_high).p));
    if (q->kind == QUESTION_COUNT && (number < 0 || number != (double)(int64_t)number))
        return refuse(t, str_printf(keep, "Type how many there are as a whole number, for example 3."));
    *t->out = (tt_reply){.kind = TT_NUMBER, .number = number};
    return TT_OK;
}

/* ---- options ---- */

/* How well the words fit an option: 3 the same, 2 heard so, 1 the option starts with them, 0 not at all. */
static int option_fit(typing *t, const answer_option *a, str plain)
{
    arena *keep = t->c->derived;
    str text = unicode_plain(keep, texts_for(&a->text, t->c->language)), name = unicode_plain(keep, a->id.name);
    if (str_eq(plain, name) || (text.n > 0 && str_eq(plain, text))) return 3;
    for (uint32_t i = 0; i < a->heard.count; i++) {
        const heard *h = &a->heard.items[i];
        if (h->pattern == NULL ? str_eq(unicode_plain(keep, h->plain), plain)
                               : pattern_match(h->pattern, t->c->scratch, unicode_nfc(keep, str_of(t->typed)), NULL, NULL) == PATTERN_YES)
            return 2;
    }
    bool starts = (name.n >= plain.n && str_eq(str_slice(name, 0, plain.n), plain)) ||
                  (text.n >= plain.n && str_eq(str_slice(text, 0, plain.n), plain));
    return starts ? 1 : 0;
}

/* The one best option, or TT_NONE if none fits or several fit as well. */
static uint32_t best_option(typing *t, const struct question *q, str plain)
{
    uint32_t best = TT_NONE;
    int most = 0;
    bool tie = false;
    for (uint32_t i = 0; i < q->answer_count; i++) {
        int fit = option_fit(t, &q->answers[q->shown_order[i]], plain);
        if (fit > most) {
            most = fit;
            best = i;
            tie = false;
        } else if (fit == most && fit > 0) {
            tie = true;
        }
    }
    return tie ? TT_NONE : best;
}

static tt_status read_option(typing *t, const struct question *q, str typed)
{
    arena *keep = t->c->derived;
    str plain = unicode_plain(keep, typed);
    double number;
    uint32_t option = plain.n == 0 ? TT_NONE : best_option(t, q, plain);
    if (option == TT_NONE && str_to_double(typed, &number) && number >= 1 && number <= q->answer_count &&
        number == (double)(uint32_t)number)
        option = (uint32_t)number - 1;
    if (option != TT_NONE) {
        *t->out = (tt_reply){.kind = TT_ANSWER, .option = option};
        return TT_OK;
    }
    bool negated = str_starts(plain, "not ");
    uint32_t left_out = negated ? best_option(t, q, str_slice(plain, 4, plain.n)) : TT_NONE;
    if (left_out != TT_NONE && q->answer_count > 1) {
        *t->out = (tt_reply){.kind = TT_NOT, .not_options = (uint64_t)1 << left_out};
        return TT_OK;
    }
    return refuse(t, str_printf(keep, "That is none of the answers. Type a number from 1 to %u, or the words beside it.",
                                q->answer_count));
}

static tt_status read_typed(void *context)
{
    typing *t = context;
    if (t->subject >= t->c->book->book->question_count) return TT_FAULTY;
    const struct question *q = &t->c->book->book->questions[t->subject];
    str typed = str_trim(unicode_clean(t->c->derived, str_of(t->typed)));
    return q->kind == QUESTION_CHOICE ? read_option(t, q, typed) : read_number(t, q, typed);
}

tt_status tt_reply_read(tt_case *c, uint32_t question, const char *typed, tt_reply *out, const char **why)
{
    const tt_view *view;
    tt_status status = tt_look(c, &view);
    typing t = {.c = c, .subject = question, .typed = typed, .out = out, .why = ""};
    if (status == TT_OK) status = guarded_case(c, read_typed, &t);
    *why = t.why;
    return status;
}
