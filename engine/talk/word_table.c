/* Words of ours: which one a line is. */
#include <assert.h>
#include <string.h>

#include "base/unicode.h"
#include "talk/talk.h"

#define WORD_ENTRY(id, word, typed, meaning) [id] = {word, typed, meaning},
static const struct {
    const char *word;
    text_id typed, meaning;
} table[WORD_NONE] = {TALK_WORDS(WORD_ENTRY)};
#undef WORD_ENTRY

/* What people also type when they mean one of them. */
static const struct {
    const char *typed;
    talk_word meant;
} also_meant[] = {
    {"handover", WORD_HAND},
    {"quit", WORD_STOP},
    {"exit", WORD_STOP},
    {"adios", WORD_STOP},
    {"peligro", WORD_DANGER},
    {"not sure", WORD_UNSURE},
    {"im not sure", WORD_UNSURE},
    {"i am not sure", WORD_UNSURE},
    {"dont know", WORD_UNSURE},
    {"i dont know", WORD_UNSURE},
    {"do not know", WORD_UNSURE},
    {"cant tell", WORD_UNSURE},
    {"i cant tell", WORD_UNSURE},
    {"no idea", WORD_UNSURE},
    {"idk", WORD_UNSURE},
    {"no se", WORD_UNSURE},
    {"ni idea", WORD_UNSURE},
    {"no estoy seguro", WORD_UNSURE},
    {"no estoy segura", WORD_UNSURE},
    {"skip", WORD_CANNOT},
    {"cant", WORD_CANNOT},
    {"i cant", WORD_CANNOT},
    {"no puedo", WORD_CANNOT},
    {"can not", WORD_CANNOT},
    {"atras", WORD_BACK},
    {"por que", WORD_WHY},
    {"porque", WORD_WHY},
    {"parar", WORD_STOP},
    {"ayuda con esto", WORD_HELP},
};

const char *word_name(talk_word word)
{
    assert(word < WORD_NONE);
    return table[word].word;
}

text_id word_meaning(talk_word word)
{
    assert(word < WORD_NONE);
    return table[word].meaning;
}

text_id word_typed(talk_word word)
{
    assert(word < WORD_NONE);
    return table[word].typed;
}

talk_word word_by_id(const char *id)
{
    assert(id != NULL);
    unsigned i = 0;
    while (i < WORD_NONE && strcmp(table[i].word, id) != 0) i++;
    return (talk_word)i;
}

/* In any language of ours, whichever is spoken: who is afraid falls back on their own. */
static bool is_typed(arena *scratch, str plain, talk_word word)
{
    assert(word < WORD_NONE);
    for (tongue i = 0; i < TONGUE_COUNT && plain.n > 0; i++)
        if (str_eq(plain, unicode_plain(scratch, str_of(catalogue_text(i, table[word].typed)))))
            return true;
    return str_is(plain, table[word].word);
}

talk_word word_said(arena *scratch, str line)
{
    const str said = str_trim(line.n > 0 && line.p[0] == ':' ? str_slice(line, 1, line.n) : line);
    if (str_is(said, "?")) return WORD_HELP;
    const str plain = unicode_plain(scratch, said);
    for (unsigned i = 0; i < WORD_NONE; i++)
        if (is_typed(scratch, plain, (talk_word)i)) return (talk_word)i;
    for (size_t i = 0; i < sizeof also_meant / sizeof also_meant[0]; i++)
        if (str_is(plain, also_meant[i].typed)) return also_meant[i].meant;
    return WORD_NONE;
}

talk_word word_of(tt_talk *t, const char *line)
{
    return word_said(t->scratch, str_of(line));
}

/* Whoever asks for a language asks in it, or says that the other is none of theirs. */
static const struct {
    const char *said;
    tongue in;
} asked_for[] = {
    {"in english", TONGUE_EN},
    {"english please", TONGUE_EN},
    {"in english please", TONGUE_EN},
    {"speak english", TONGUE_EN},
    {"do you speak english", TONGUE_EN},
    {"i speak english", TONGUE_EN},
    {"no spanish", TONGUE_EN},
    {"i dont speak spanish", TONGUE_EN},
    {"ingles", TONGUE_EN},
    {"en ingles", TONGUE_EN},
    {"spanish", TONGUE_ES},
    {"in spanish", TONGUE_ES},
    {"spanish please", TONGUE_ES},
    {"in spanish please", TONGUE_ES},
    {"speak spanish", TONGUE_ES},
    {"do you speak spanish", TONGUE_ES},
    {"no english", TONGUE_ES},
    {"i dont speak english", TONGUE_ES},
    {"i no speak english", TONGUE_ES},
    {"no speak english", TONGUE_ES},
    {"castellano", TONGUE_ES},
    {"en castellano", TONGUE_ES},
    {"en espanol", TONGUE_ES},
    {"espanol por favor", TONGUE_ES},
    {"en espanol por favor", TONGUE_ES},
    {"habla espanol", TONGUE_ES},
    {"hablas espanol", TONGUE_ES},
    {"hablan espanol", TONGUE_ES},
    {"se habla espanol", TONGUE_ES},
    {"hablo espanol", TONGUE_ES},
    {"hable espanol", TONGUE_ES},
    {"hable en espanol", TONGUE_ES},
    {"no hablo ingles", TONGUE_ES},
    {"no se ingles", TONGUE_ES},
    {"no entiendo ingles", TONGUE_ES},
    {"no entiendo el ingles", TONGUE_ES},
};

tongue tongue_asked(arena *scratch, str line)
{
    const str plain = unicode_plain(scratch, line);
    for (tongue i = 0; i < TONGUE_COUNT && plain.n > 0; i++)
        if (str_eq(plain, unicode_plain(scratch, str_of(catalogue_text(i, TYPED_LANGUAGE)))))
            return i;
    for (size_t i = 0; i < sizeof asked_for / sizeof asked_for[0]; i++)
        if (str_is(plain, asked_for[i].said)) return asked_for[i].in;
    return TONGUE_COUNT;
}
