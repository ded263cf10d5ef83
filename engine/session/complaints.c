#include <stdlib.h>
#include <string.h>

#include "base/pattern.h"
#include "base/sorted.h"
#include "base/unicode.h"
#include "session/session.h"

typedef struct listening {
    const tt_book *book;
    const char *words; /* null: all complaints */
    arena *scratch;
    tt_complaint *out; /* malloc'd, room for every symptom */
    uint32_t count;
} listening;

/* A pattern that fits counts full; plain words count by the share of them that was found. */
static double one_match(listening *l, const heard *h, str nfc, str plain)
{
    if (h->pattern != NULL) return pattern_match(h->pattern, l->scratch, nfc, NULL, NULL) == PATTERN_YES ? 1 : 0;
    size_t all = 0, found = words_found(unicode_plain(l->scratch, h->plain), plain, &all);
    return all == 0 ? 0 : (double)found / (double)all;
}

static double best_match(listening *l, const struct symptom *s, str nfc, str plain)
{
    enum { WORTH_ASKING_PERCENT = 60 };
    double best = 0;
    for (uint32_t i = 0; i < s->heard.count; i++) {
        double match = one_match(l, &s->heard.items[i], nfc, plain);
        if (match > best) best = match;
    }
    return best * 100 < WORTH_ASKING_PERCENT ? 0 : best;
}

static const char *complaint_text(const book *b, const struct symptom *s)
{
    str text = texts_for(s->of.piece == NO_ID ? &s->text : &s->of_any, b->language);
    if (text.n == 0 && s->rests_on_one) text = texts_for(&b->questions[s->one_question].answers[s->one_answer].text, b->language);
    return text.n == 0 ? s->id.name.p : text.p;
}

static int by_match(const void *a, const void *b)
{
    const tt_complaint *x = a, *y = b;
    if (x->match != y->match) return THREE_WAY(y->match, x->match);
    return strcmp(x->name, y->name);
}

static uint32_t kind_of_symptom(const book *b, uint32_t symptom)
{
    uint32_t piece = b->symptoms[symptom].of.piece;
    return piece == NO_ID ? TT_NONE : b->pieces[piece].kind;
}

/* A symptom of every piece of a kind is one complaint; which piece it is about comes after. */
static bool first_of_its_kind(const book *b, uint32_t symptom)
{
    if (b->symptoms[symptom].of.piece == NO_ID || symptom == 0) return true;
    const owner *of = &b->symptoms[symptom].of, *before = &b->symptoms[symptom - 1].of;
    return before->piece == NO_ID || !str_eq(of->base, before->base);
}

static tt_status listen(void *context)
{
    listening *l = context;
    const book *b = l->book->book;
    str nfc = STR(""), plain = STR("");
    if (l->words != NULL) {
        str clean = unicode_clean(l->scratch, str_of(l->words));
        nfc = unicode_nfc(l->scratch, clean);
        plain = unicode_plain(l->scratch, clean);
    }
    for (uint32_t s = 0; s < b->symptom_count; s++) {
        if (b->symptoms[s].heard.count == 0 || !first_of_its_kind(b, s)) continue;
        double match = l->words == NULL ? 1 : best_match(l, &b->symptoms[s], nfc, plain);
        if (match > 0)
            l->out[l->count++] = (tt_complaint){s, b->symptoms[s].of.base.p, complaint_text(b, &b->symptoms[s]), match,
                                                kind_of_symptom(b, s)};
    }
    SORT(l->out, l->count, by_match);
    return TT_OK;
}

static tt_status complaints(const tt_book *b, const char *words, tt_complaint **out, uint32_t *count)
{
    *out = NULL;
    *count = 0;
    listening l = {b, words, arena_new(NULL, NULL), calloc(b->book->symptom_count + 1, sizeof(tt_complaint)), 0};
    tt_status status = TT_NO_MEMORY;
    if (l.scratch != NULL && l.out != NULL) status = guarded(&l.scratch, 1, listen, &l);
    arena_free(l.scratch);
    if (status != TT_OK) {
        free(l.out);
        return status;
    }
    *out = l.out;
    *count = l.count;
    return TT_OK;
}

tt_status tt_complaints(const tt_book *b, tt_complaint **out, uint32_t *count)
{
    return complaints(b, NULL, out, count);
}

tt_status tt_complaints_heard(const tt_book *b, const char *words, tt_complaint **out, uint32_t *count)
{
    return complaints(b, words, out, count);
}
