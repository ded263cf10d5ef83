#include "ask/spoken.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"

enum { MOST_WORDS = 24, NAME_WORTH = 1000, WORD_WORTH = 10 };

/* Words that tell no question from another. */
static const char *const common[] = {
    "a",     "an",   "and",  "any",  "are",   "as",    "at",    "be",    "been", "by",  "can",
    "did",   "do",   "does", "for",  "from",  "had",   "has",   "have",  "how",  "i",   "in",
    "is",    "it",   "its",  "many", "much",  "my",    "of",    "on",    "or",   "our", "read",
    "reads", "says", "that", "the",  "their", "there", "these", "they",  "this", "to",  "up",
    "was",   "we",   "were", "what", "when",  "where", "which", "while", "with", "you", "your",
};
/* Between what is spoken of and what is said of it: an answer does not begin with them. */
static const char *const linking[] = {"is",    "are",  "was", "were", "at", "read",
                                      "reads", "says", "it",  "the",  "="};

static bool is_among(const char *const *list, size_t count, const char *word)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(list[i], word) == 0) return true;
    return false;
}
#define IS_ONE_OF(list, word) is_among(list, sizeof list / sizeof list[0], word)

/* ---- words ---- */

typedef struct words {
    char *text; /* folded; holds them */
    const char *items[MOST_WORDS];
    unsigned count;
} words;

static bool is_letter(char c)
{
    return isalnum((unsigned char)c) || (unsigned char)c >= 0x80 || c == '\'';
}

static words split_words(const char *text)
{
    words w = {.text = fold_text(text)};
    for (char *c = w.text; *c != 0 && w.count < MOST_WORDS;) {
        while (*c != 0 && !is_letter(*c)) *c++ = 0;
        if (*c == 0) break;
        w.items[w.count++] = c;
        while (is_letter(*c)) c++;
    }
    return w;
}

static size_t stem(const char *word)
{
    size_t length = strlen(word);
    return length > 3 && word[length - 1] == 's' ? length - 1 : length;
}

/* The same but for a plural, or the beginning of a longer word. */
static bool same_word(const char *said, const char *word)
{
    size_t length = stem(said);
    if (length == stem(word) && strncmp(said, word, length) == 0) return true;
    return length >= 4 && strncmp(said, word, length) == 0;
}

static bool has_word(const words *all, const char *word)
{
    for (unsigned i = 0; i < all->count; i++)
        if (same_word(word, all->items[i])) return true;
    return false;
}

/* ---- which question ---- */

/* How well words name a question: 0 not at all. Every one of them must be in its name or its text;
 * the more of its name is said, the better. */
static unsigned worth(const words *name, const words *ask, const char *const *said, unsigned count)
{
    unsigned telling = 0, in_name = 0, in_ask = 0;
    for (unsigned i = 0; i < count; i++) {
        if (IS_ONE_OF(common, said[i])) continue;
        bool named = has_word(name, said[i]), asked = has_word(ask, said[i]);
        if (!named && !asked) return 0;
        telling++;
        in_name += named;
        in_ask += asked;
    }
    if (telling == 0) return 0;
    return NAME_WORTH * in_name / (name->count + 1) + WORD_WORTH * in_ask + telling;
}

static uint32_t question_count(const ask *a)
{
    return tt_book_describe(a->book.book).questions;
}

static bool can_be_answered(ask *a, uint32_t index, tt_question *question)
{
    return tt_question_show(a->c, index, question) == TT_OK && question->kind != TT_QUANTITY;
}

typedef struct found {
    uint32_t question;
    unsigned worth;
    bool tie;
    unsigned split; /* so many words name it */
} found;

static void consider(found *best, uint32_t question, unsigned worth_now, unsigned split)
{
    if (worth_now == 0 || worth_now < best->worth) return;
    bool again = question == best->question;
    if (worth_now == best->worth) {
        best->tie = best->tie || !again;
        return;
    }
    *best = (found){question, worth_now, false, split};
}

/* ---- an answer ---- */

static bool is_number(const char *text)
{
    return *text != 0 && strspn(text, "0123456789 ") == strlen(text);
}

/* An option is not said by its number: it is heard, not seen. */
static bool is_said_answer(ask *a, uint32_t index, const tt_question *question, const char *answer)
{
    tt_reply reply;
    const char *why;
    ask_word word = ask_word_of(answer);
    bool options = question->kind == TT_CHOICE || question->kind == TT_YES_NO;
    if (word == WORD_UNSURE || word == WORD_CANNOT) return true;
    if (options && is_number(answer)) return false;
    return tt_reply_read(a->c, index, answer, &reply, &why) == TT_OK;
}

/* The text from this word on, as it was said, with the sign of a number. */
static const char *rest_from(const words *w, const char *said, unsigned word)
{
    const char *from = said + (w->items[word] - w->text);
    return from > said && strchr("-+.", from[-1]) != NULL ? from - 1 : from;
}

static void try_splits(ask *a, uint32_t index, const words *said, const char *plain, found *best)
{
    tt_question question;
    if (!can_be_answered(a, index, &question)) return;
    words name = split_words(question.name), ask = split_words(question.ask);
    for (unsigned k = 1; k < said->count; k++) {
        unsigned now = worth(&name, &ask, said->items, k);
        if (now == 0 || now < best->worth || IS_ONE_OF(linking, said->items[k])) continue;
        if (is_said_answer(a, index, &question, rest_from(said, plain, k)))
            consider(best, index, now, k);
    }
    free(name.text);
    free(ask.text);
}

/* "air 45 psi" */
static bool read_named(ask *a, spoken_part *part)
{
    char *plain = fold_text(part->said);
    words said = split_words(plain);
    found best = {.question = TT_NONE};
    for (uint32_t i = 0; i < question_count(a); i++) try_splits(a, i, &said, plain, &best);
    bool one = best.question != TT_NONE && !best.tie;
    if (one) {
        part->question = best.question;
        part->answer = copy_text(rest_from(&said, plain, best.split));
        part->by_name = true;
    }
    free(said.text);
    free(plain);
    return one;
}

static bool read_asked(ask *a, spoken_part *part, uint32_t asked)
{
    tt_reply reply;
    const char *why;
    if (asked == TT_NONE || !is_answer(a, asked, part->said, &reply, &why)) return false;
    part->question = asked;
    part->answer = copy_text(part->said);
    return true;
}

uint32_t spoken_question(ask *a, const char *line)
{
    words said = split_words(line);
    found best = {.question = TT_NONE};
    for (uint32_t i = 0; i < question_count(a); i++) {
        tt_question question;
        if (!can_be_answered(a, i, &question)) continue;
        words name = split_words(question.name), ask = split_words(question.ask);
        consider(&best, i, worth(&name, &ask, said.items, said.count), said.count);
        free(name.text);
        free(ask.text);
    }
    free(said.text);
    return best.tie ? TT_NONE : best.question;
}

/* ---- parts ---- */

static bool parts_here(const char *line, const char *c)
{
    bool number = c > line && isdigit((unsigned char)c[-1]) && isdigit((unsigned char)c[1]);
    return *c == ';' || (*c == ',' && !number);
}

static void add_part(spoken *all, const char *from, size_t length)
{
    char *raw = format_text("%.*s", (int)length, from), *said = trim_text(raw);
    free(raw);
    if (*said == 0) {
        free(said);
        return;
    }
    all->parts = room_for_one(all->parts, all->count, sizeof *all->parts);
    all->parts[all->count++] = (spoken_part){.said = said, .question = TT_NONE};
}

static spoken split_parts(const char *line)
{
    spoken all = {.count = 0};
    const char *from = line;
    for (const char *c = line; *c != 0; c++) {
        if (!parts_here(line, c)) continue;
        add_part(&all, from, (size_t)(c - from));
        from = c + 1;
    }
    add_part(&all, from, strlen(from));
    return all;
}

/* Said twice, it is not clear which is meant. */
static bool is_taken(const spoken *all, unsigned index)
{
    for (unsigned i = 0; i < index; i++)
        if (all->parts[i].question == all->parts[index].question) return true;
    return false;
}

spoken spoken_read(ask *a, const char *line, uint32_t asked)
{
    spoken all = split_parts(line);
    for (unsigned i = 0; i < all.count; i++) {
        spoken_part *part = &all.parts[i];
        bool told = read_named(a, part) || read_asked(a, part, asked);
        if (told && is_taken(&all, i)) {
            free(part->answer);
            *part = (spoken_part){.said = part->said, .question = TT_NONE};
            told = false;
        }
        all.understood += told;
        all.named += told && part->by_name;
    }
    return all;
}

void spoken_free(spoken *all)
{
    for (unsigned i = 0; i < all->count; i++) {
        free(all->parts[i].said);
        free(all->parts[i].answer);
    }
    free(all->parts);
}
