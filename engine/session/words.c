/* Texts of a case: in its language, with inserts filled in, numbers in the units of the site. */
#include <assert.h>
#include <math.h>

#include "session/session.h"

const char *cstr(arena *keep, str s)
{
    return str_copy(keep, s).p;
}

const char *case_says(tt_case *c, text_id id)
{
    return catalogue_text(c->in, id);
}

text_id lack_text(formula_lack lack)
{
    static const text_id words[FORMULA_LACKS] = {[FORMULA_TOO_LARGE] = TEXT_LACKS_TOO_LARGE,
                                                 [FORMULA_NO_NUMBER] = TEXT_LACKS_NUMBER,
                                                 [FORMULA_BY_ZERO] = TEXT_LACKS_DIVISOR,
                                                 [FORMULA_NO_ROOT] = TEXT_LACKS_ROOT,
                                                 [FORMULA_NO_MEMBER] = TEXT_LACKS_MEMBER};
    assert(lack > FORMULA_LACKS_NOTHING && lack < FORMULA_LACKS);
    return words[lack];
}

const char *lack_words(tt_case *c, formula_lack lack)
{
    return case_says(c, lack_text(lack));
}

const char *place_words(arena *keep, const tt_book *b, span at)
{
    if (at.file == NO_FILE) return "";
    assert(at.file < b->files.count);
    uint32_t line = source_line_of(b->lines[at.file], at.start);
    return str_printf(keep, "%.*s:%u", STR_ARG(b->files.items[at.file].name), line).p;
}

/* At most 10 significant digits, without a locale's comma. */
str number_words(arena *keep, double number)
{
    str text = str_printf(keep, "%.10g", number);
    size_t comma = str_find_byte(text, ',');
    if (comma != SIZE_MAX) ((char *)text.p)[comma] = '.';
    return text;
}

const char *reading_words(tt_case *c, uint32_t question, double number)
{
    return book_amount(c->derived, c->book->book, question, number, NULL).p;
}

static const char *answer_words(tt_case *c, uint32_t question, uint32_t answer)
{
    assert(answer < c->book->book->questions[question].answer_count);
    const answer_option *a = &c->book->book->questions[question].answers[answer];
    str text = texts_for(&a->text, c->language);
    return cstr(c->derived, text.n == 0 ? a->id.name : text);
}

static const char *excluded_words(tt_case *c, uint32_t question, uint64_t excluded)
{
    text_builder b = {.keep = c->derived};
    for (uint32_t a = 0; a < c->book->book->questions[question].answer_count; a++)
        if (((excluded >> a) & 1) != 0)
            text_addf(&b, "%s%s", b.length == 0 ? "" : ", ", answer_words(c, question, a));
    return FILL(c->derived, c->in, TEXT_REPLY_NOT, text_done(&b).p);
}

static const char *likely_words(tt_case *c, uint32_t question, const double *weights)
{
    uint32_t count = c->book->book->questions[question].answer_count, best = 0;
    assert(count > 0 && weights != NULL);
    for (uint32_t a = 1; a < count; a++)
        if (weights[a] > weights[best]) best = a;
    return FILL(c->derived, c->in, TEXT_REPLY_LIKELY, answer_words(c, question, best));
}

static const char *trend_words(tt_case *c, tt_trend trend)
{
    static const text_id words[TT_TRENDS] = {TEXT_TREND_STEADY, TEXT_TREND_RISING,
                                             TEXT_TREND_FALLING, TEXT_TREND_JUMP};
    assert(trend < TT_TRENDS);
    return case_says(c, words[trend]);
}

const char *reply_words(tt_case *c, uint32_t question, const reply *r)
{
    assert(question < c->book->book->question_count);
    if (c->now.cannot != NULL && c->now.cannot[question]) return case_says(c, TEXT_REPLY_CANNOT);
    switch (r->kind) {
    case REPLY_UNSURE:
        return case_says(c, TEXT_REPLY_UNSURE);
    case REPLY_ANSWER:
        return answer_words(c, question, r->answer);
    case REPLY_READING:
        if (c->book->book->questions[question].trend) return trend_words(c, (tt_trend)r->number);
        return reading_words(c, question, r->number);
    case REPLY_NOT:
        return excluded_words(c, question, r->excluded);
    case REPLY_LIKELY:
        return likely_words(c, question, r->weights);
    }
    return "";
}

const char *number_said(arena *keep, double number, const char *in)
{
    /* Nobody has seen yet whether it fits. Parts of water are few digits on every label. */
    enum { AS_SAID = 10, PARTS = 4 };
    unit u;
    str bad;
    const bool share = number > 0 && number <= 1 && isfinite(1 / number);
    if (share && unit_read(keep, str_of(in), NULL, &u, &bad) == UNIT_FOUND && unit_is_ratio(&u))
        return amount_words(keep, number, &u, PARTS).p;
    return str_printf(keep, "%.*g%s%s", AS_SAID, number, *in != 0 ? " " : "", in).p;
}

/* A number in the unit that the text asks for; the reader has seen that it fits. */
static const char *number_in(tt_case *c, uint32_t question, double number, str wanted)
{
    const book *b = c->book->book;
    unit u;
    str bad;
    bool given = wanted.n > 0 && unit_read(c->derived, wanted, &b->questions[question].in.dim, &u,
                                           &bad) == UNIT_FOUND;
    return book_amount(c->derived, b, question, number, given ? &u : NULL).p;
}

static const char *insert_words(tt_case *c, str inside)
{
    insert what = insert_parts(inside);
    uint32_t q = book_question(c->book->book, what.name);
    double found;
    if (q != NO_ID && str_is(what.when, "found") && adjust_found(c, q, &found))
        return number_in(c, q, found, what.unit);
    bool known =
        q != NO_ID && c->now.replies != NULL && c->now.replies[q] != NULL && !c->now.stale[q];
    const reply *r = known ? c->now.replies[q] : NULL;
    if (r == NULL || r->kind == REPLY_UNSURE) {
        bool quantity = q != NO_ID && c->book->book->questions[q].kind == QUESTION_QUANTITY;
        return case_says(c, quantity ? TEXT_NOT_KNOWN_YET : TEXT_NOT_READ_YET);
    }
    return r->kind == REPLY_READING ? number_in(c, q, r->number, what.unit) : reply_words(c, q, r);
}

static size_t next_brace(str text, size_t from)
{
    assert(from <= text.n);
    while (from < text.n && text.p[from] != '{' && text.p[from] != '}') from++;
    return from;
}

/* {name} is filled in; {{ and }} are braces. */
static const char *filled_in(tt_case *c, str text)
{
    size_t brace = next_brace(text, 0), done = 0;
    if (brace == text.n) return cstr(c->derived, text);
    text_builder b = {.keep = c->derived};
    while (brace < text.n) {
        text_add(&b, str_slice(text, done, brace));
        bool doubled = brace + 1 < text.n && text.p[brace] == text.p[brace + 1];
        size_t end = text.p[brace] == '{' && !doubled
                         ? str_find_byte(str_slice(text, brace, text.n), '}')
                         : SIZE_MAX;
        if (end != SIZE_MAX)
            text_add(&b, str_of(insert_words(c, str_slice(text, brace + 1, brace + end))));
        else
            text_add(&b, str_slice(text, brace, brace + 1));
        done = brace + (end != SIZE_MAX ? end + 1 : doubled ? 2 : 1);
        brace = next_brace(text, done);
    }
    assert(done <= text.n);
    text_add(&b, str_slice(text, done, text.n));
    return b.length == 0 ? "" : text_done(&b).p;
}

const char *case_text(tt_case *c, const texts *t)
{
    return filled_in(c, texts_for(t, c->language));
}

const char *role_words(tt_case *c, uint32_t role)
{
    const book *b = c->book->book;
    assert(role < b->role_count);
    const texts *called = &b->role_text[role];
    return called->count > 0 ? case_text(c, called) : cstr(c->derived, b->roles[role].name);
}

const char *const *case_text_list(tt_case *c, const texts_list *list)
{
    const char **all = ARENA_ARRAY(c->derived, const char *, list->count);
    for (uint32_t i = 0; i < list->count; i++) all[i] = case_text(c, &list->items[i]);
    return all;
}

const char *symptom_words(tt_case *c, uint32_t symptom)
{
    assert(symptom < c->book->book->symptom_count);
    const struct symptom *s = &c->book->book->symptoms[symptom];
    if (s->text.count > 0) return case_text(c, &s->text);
    if (!s->rests_on_one) return cstr(c->derived, s->id.name);
    const char *answer = answer_words(c, s->one_question, s->one_answer);
    if (s->of.piece == NO_ID) return answer;
    const char *piece = case_text(c, &c->book->book->pieces[s->of.piece].text);
    return str_printf(c->derived, "%s: %s", piece, answer)
        .p; /* the answer alone would not say which */
}
