/* Which piece of equipment is meant by a word or two of its name: "friction", "the friction row".
 * A word counts that is of one of those offered and of no other; a row's words are its stand's too.
 */
#include <assert.h>

#include "base/unicode.h"
#include "listen/listen.h"
#include "listen/manner.h"
#include "listen/word_set.h"
#include "session/session.h"
#include "talk/talk_replies.h"

enum { LEAST_LETTERS = 3 };

static str add_texts(tt_talk *t, str all, const texts *more)
{
    for (uint32_t i = 0; i < more->count; i++)
        all = str_printf(t->scratch, "%.*s%.*s ", STR_ARG(all),
                         STR_ARG(unicode_plain(t->scratch, more->items[i].text)));
    return all;
}

/* Its name, what it is called in each language, and the same of what hangs on it. */
static str words_of(tt_talk *t, uint32_t piece)
{
    const book *b = t->book->book;
    str all = STR(" ");
    for (uint32_t i = 0; i < b->piece_count; i++) {
        const struct piece *p = &b->pieces[i];
        if (i != piece && p->hangs_on != piece) continue;
        const str name = unicode_plain(t->scratch, p->id.name);
        all = str_printf(t->scratch, "%.*s%.*s ", STR_ARG(all), STR_ARG(name));
        all = add_texts(t, all, &p->text);
    }
    return all;
}

static bool has_word(tt_talk *t, str words, str word)
{
    return str_find(words, str_printf(t->scratch, " %.*s ", STR_ARG(word))) != SIZE_MAX;
}

/* The only one of `count` that has the word, or `count`. */
static uint32_t only_with(tt_talk *t, const str *words, uint32_t count, str word)
{
    uint32_t found = count;
    for (uint32_t i = 0; i < count; i++) {
        if (!has_word(t, words[i], word)) continue;
        if (found < count) return count;
        found = i;
    }
    return found;
}

/* "not the friction" names what it is not. */
static bool is_denied(tt_talk *t, str word)
{
    return (listen_manner(talk_ear(t), t->scratch, word) & (MANNER_DENIES | MANNER_NO)) != 0;
}

/* Of the pieces the only one of which a word is said that is not among `but`, and that nothing
 * denies of the so many words before it; or TT_NONE. */
static uint32_t piece_meant(tt_talk *t, const uint32_t *pieces, uint32_t count, str line, str but,
                            uint32_t denied_within)
{
    str *words = ARENA_ARRAY(t->scratch, str, count), word;
    const str plain = unicode_plain(t->scratch, line);
    uint32_t meant = count, since_no = UINT32_MAX;
    for (uint32_t i = 0; i < count; i++) words[i] = words_of(t, pieces[i]);
    for (size_t at = 0; plain_next(plain, &at, &word);) {
        since_no = is_denied(t, word) ? 0 : since_no == UINT32_MAX ? since_no : since_no + 1;
        if (word.n < LEAST_LETTERS || has_word(t, but, word)) continue;
        const uint32_t one = only_with(t, words, count, word);
        if (one == count) continue;
        if (since_no <= denied_within || (meant < count && meant != one)) return TT_NONE;
        meant = one;
    }
    return meant < count ? pieces[meant] : TT_NONE;
}

static bool says_both(tt_talk *t, str line)
{
    static const char *const words[] = {"both", "all", "every", "ambos", "ambas", "todos", "todas"};
    const str plain = str_printf(t->scratch, " %.*s ", STR_ARG(unicode_plain(t->scratch, line)));
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (has_word(t, plain, str_of(words[i]))) return true;
    return false;
}

const char *piece_by_own_words(tt_talk *t, str line)
{
    assert(t->turn.kind == TT_TURN_WHICH);
    uint32_t *pieces = ARENA_ARRAY(t->scratch, uint32_t, t->turn.choice_count), count = 0;
    for (uint32_t i = 0; i < t->turn.choice_count; i++) {
        const uint32_t piece = piece_named(t, t->turn.choices[i].id);
        if (piece != TT_NONE) pieces[count++] = piece;
    }
    const uint32_t meant = piece_meant(t, pieces, count, line, STR(""), 4);
    if (meant != TT_NONE) return str_copy(t->shown, t->book->book->pieces[meant].id.name).p;
    return count == 2 && says_both(t, line) ? "all" : NULL;
}

/* What complaints are called says what is wrong, and not where: "foam" of "no foam comes". */
static str complaint_words(tt_talk *t)
{
    str all = STR(" ");
    for (uint32_t i = 0; i < t->complaints.count; i++) {
        const struct symptom *s = &t->book->book->symptoms[t->complaints.items[i].symptom];
        all = add_texts(t, add_texts(t, all, &s->text), &s->of_any);
    }
    return all;
}

uint32_t piece_complained_of(tt_talk *t, uint32_t complaint, const char *said, uint32_t *of)
{
    const book *b = t->book->book;
    const tt_complaint *c = &t->complaints.items[complaint];
    uint32_t *pieces = ARENA_ARRAY(t->scratch, uint32_t, b->piece_count), count = 0;
    for (uint32_t i = 0; i < b->piece_count; i++)
        if (c->kind != TT_NONE && b->pieces[i].kind == c->kind) pieces[count++] = i;
    *of = count;
    if (count < 2) return count == 1 ? pieces[0] : TT_NONE;
    return piece_meant(t, pieces, count, str_of(said), complaint_words(t),
                       2); /* "no foam on the …" */
}
