/* A name put into a text that is being written: with a capital where it begins a sentence, drawn
 * together with what stands before it, and its noun said once. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "read/reader.h"

/* Behind nothing, or behind the mark that ends a sentence and a space. */
static bool sentence_begins(const text_builder *out)
{
    str before = str_trim((str){out->bytes, out->length});
    if (before.n == 0) return true;
    bool space = before.p + before.n < out->bytes + out->length;
    return space && strchr(".!?", before.p[before.n - 1]) != NULL;
}

/* Spanish draws "de el filtro" and "a el filtro" together: del, al. */
static bool draws_together(const text_builder *out, str text, str language)
{
    static const char *const words[] = {" de ", " De ", " a ", " A "};
    if (!str_starts(language, "es") || !str_starts(text, "el ")) return false;
    const str before = {out->bytes, out->length};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (str_ends(before, words[i]) || str_is(before, words[i] + 1)) return true;
    return false;
}

static const char *const articles[] = {"el ", "la ", "los ", "las ", "the "};

/* Where the last word of a text begins. */
static size_t last_word(str text)
{
    size_t from = text.n;
    while (from > 0 && text.p[from - 1] != ' ') from--;
    return from;
}

/* "la", and at the beginning of a sentence "La"; of "el" also "del" and "al". */
static bool is_article(str word, str article)
{
    assert(article.n > 1);
    if (str_eq(word, article)) return true;
    if (str_is(article, "el") && (str_is(word, "del") || str_is(word, "al"))) return true;
    return word.n == article.n && (word.p[0] | ' ') == article.p[0] &&
           memcmp(word.p + 1, article.p + 1, article.n - 1) == 0;
}

/* What a text says right before "de" or "of", or "". */
static str said_before_of(const text_builder *out)
{
    static const char *const joins[] = {" de ", " of "};
    const str before = {out->bytes, out->length};
    for (size_t i = 0; i < sizeof joins / sizeof joins[0]; i++)
        if (str_ends(before, joins[i])) return str_slice(before, 0, before.n - strlen(joins[i]));
    return STR("");
}

/* "la tela de", and then "la tela del techo": the noun is said once. Takes away what was said too
 * much of both. */
static str without_noun_said(text_builder *out, str text)
{
    const str head = said_before_of(out);
    str article = STR("");
    for (size_t i = 0; i < sizeof articles / sizeof articles[0]; i++)
        if (str_starts(text, articles[i])) article = str_slice(text, 0, strlen(articles[i]) - 1);
    const str noun = article.n > 0 ? str_slice(text, article.n + 1, text.n) : text;
    if (article.n == 0) return text;
    for (size_t from = last_word(head); from > 0; from = last_word(str_slice(head, 0, from - 1))) {
        const str said = str_slice(head, from, head.n), rest = str_slice(head, 0, from - 1);
        if (said.n >= noun.n || memcmp(said.p, noun.p, said.n) != 0 || noun.p[said.n] != ' ' ||
            !is_article(str_slice(rest, last_word(rest), rest.n), article))
            continue;
        out->length = from;
        return noun;
    }
    return text;
}

void name_in_text(arena *scratch, text_builder *out, str name, str language)
{
    str text = without_noun_said(out, name);
    if (draws_together(out, text, language)) {
        out->length--; /* the space */
        text = str_slice(text, 1, text.n);
    }
    text_add(out, sentence_begins(out) ? unicode_capital(scratch, text) : text);
}
