/* "Foam still dry", in the middle of a case of dry foam: what is known already, said once more. It
 * answers nothing that is asked, unless the question has that very answer; what was said anew after
 * a fix, or in a second look, is not this. */
#include <assert.h>

#include "base/unicode.h"
#include "listen/listen.h"
#include "listen/manner.h"
#include "session/session.h"
#include "talk/talk_replies.h"

/* Plain words that say "as before", and words that say nothing beside them. */
static bool is_one_of(str word, const char *const *words)
{
    while (*words != NULL && !str_is(word, *words)) words++;
    return *words != NULL;
}

static bool says_still(str word)
{
    static const char *const words[] = {"still",  "keeps",   "again", "same",  "sigue",
                                        "siguen", "todavia", "aun",   "igual", "continua",
                                        "otra",   "nuevo",   NULL};
    return is_one_of(word, words);
}

static bool says_nothing(str word)
{
    static const char *const words[] = {
        "it", "its", "is",  "are", "the", "that", "s",   "esta", "el",    "la",    "los", "las",
        "lo", "y",   "and", "but", "vez", "de",   "que", "sale", "viene", "comes", "out", NULL};
    return says_still(word) || is_one_of(word, words);
}

static bool has_still(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    str word;
    for (size_t at = 0; plain_next(plain, &at, &word);)
        if (says_still(word)) return true;
    return false;
}

static str gist(tt_talk *t, str line)
{
    const str plain = unicode_plain(t->scratch, line);
    text_builder b = {.keep = t->scratch};
    str word;
    for (size_t at = 0; plain_next(plain, &at, &word);)
        if (!says_nothing(word)) text_addf(&b, "%s%.*s", b.length > 0 ? " " : "", STR_ARG(word));
    return b.length > 0 ? text_done(&b) : STR("");
}

/* The words are those of an answer to it. */
static bool is_answer_to(tt_talk *t, uint32_t question, str words)
{
    if (question == TT_NONE) return false;
    const struct question *q = &t->book->book->questions[question];
    const str said = gist(t, words);
    for (uint32_t i = 0; i < q->answer_count; i++) {
        const heard_list *heard = &q->answers[i].heard;
        const texts *own = &q->answers[i].text;
        for (uint32_t k = 0; k < heard->count; k++)
            if (heard->items[k].pattern == NULL && str_eq(gist(t, heard->items[k].plain), said))
                return true;
        for (uint32_t k = 0; k < own->count; k++)
            if (str_eq(gist(t, own->items[k].text), said)) return true;
    }
    return false;
}

static bool denies(tt_talk *t, str words)
{
    const str plain = unicode_plain(t->scratch, words);
    str word;
    for (size_t at = 0; plain_next(plain, &at, &word);)
        if ((listen_manner(talk_ear(t), t->scratch, word) & (MANNER_DENIES | MANNER_NO)) != 0)
            return true;
    return false;
}

/* A complaint that is known may be said with a "no" of its own: "still no foam". */
static bool denies_it(tt_talk *t, const tt_complaint *c, str words)
{
    return denies(t, words) && !denies(t, str_of(c->text));
}

uint32_t complaint_said_again(tt_talk *t, uint32_t asked, str words)
{
    const complaints_heard heard = listen_complaints(talk_ear(t), t->scratch, words);
    if (heard.count != 1 || is_answer_to(t, asked, words)) return TT_NONE;
    const bool clear = heard.items[0].kind == COMPLAINT_CLEAR, still = has_still(t, words);
    for (uint32_t i = 0; i < t->complaints.count; i++) {
        if (t->complaints.items[i].symptom != heard.items[0].ranked[0].symptom) continue;
        const bool known = (clear || still) && talk_was_told(t, i);
        return known && !denies_it(t, &t->complaints.items[i], words) ? i : TT_NONE;
    }
    return TT_NONE;
}
