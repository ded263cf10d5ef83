/* Words of ours: which one a line is, and what each does. */
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

/* Kept, so that whoever takes the case up goes on in it. */
void speak_language(tt_talk *t, const char *tag)
{
    assert(tag != NULL && *tag != 0);
    t->language = str_copy(t->keep, str_of(tag)).p;
    t->tongue = tongue_of(t->language);
    const char *last = talk_last_language(t);
    value_builder b = value_map(t->keep);
    value_put_text(&b, "language", t->language);
    if (last == NULL || strcmp(last, t->language) != 0)
        keep_record(t, "language", &b);
    else
        replay_all(t); /* its texts are worked out in the language of the case */
    talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_NOW_SPOKEN));
}

talk_word word_of(tt_talk *t, const char *line)
{
    return word_said(t->scratch, str_of(line));
}

/* ---- what each does ---- */

static void read_page(tt_talk *t, tt_turn_kind page, uint32_t question)
{
    t->before_reading = t->doing.kind == ASIDE_READ ? t->before_reading : t->doing;
    t->doing = (aside){.kind = ASIDE_READ, .page = page, .question = question};
}

static void ask_why(tt_talk *t)
{
    const bool again = t->doing.kind == ASIDE_READ && t->doing.page == TT_TURN_WHY;
    const uint32_t about = again ? t->doing.question : talk_asked(t);
    read_page(t, TT_TURN_WHY, about);
    t->doing.more = again;
}

/* The trouble is gone, the case is closed, and only what it was is still asked. */
static bool asks_cause(const tt_talk *t)
{
    return t->doing.kind == ASIDE_CAUSE || t->doing.kind == ASIDE_CAUSE_WHICH ||
           t->doing.kind == ASIDE_CAUSE_ALL;
}

static void go_back(tt_talk *t)
{
    if (asks_cause(t) && talk_meaning(t)->end == END_CALLED) {
        t->doing = (aside){.kind = ASIDE_CLOSED};
        return;
    }
    if (asks_cause(t))
        t->doing = (aside){.kind = ASIDE_NONE}; /* what is taken back is that the trouble is gone */
    leave_queue(t);
    if (t->doing.kind != ASIDE_NONE) { /* a menu is left without a change */
        t->doing = t->doing.kind == ASIDE_READ ? t->before_reading : (aside){.kind = ASIDE_NONE};
        return;
    }
    if (talk_walks(t)) {
        if (t->fix.done > 0)
            keep_thing(t, t->fix.fix, t->fix.done - 1, "back");
        else
            keep_thing(t, t->fix.fix, 0, "not-begun");
        return;
    }
    if (keep_back(t))
        talk_news(t, TT_PART_NOTE, "", OURS(t, TEXT_ONE_BACK));
    else
        talk_wrong(t, "nothing-back", OURS(t, TEXT_NOTHING_BACK));
}

static void leave(tt_talk *t, const char *how)
{
    assert(*how != 0);
    t->left = true;
    t->how = how;
}

static bool can_be_left(tt_talk *t)
{
    if (!t->options.kept) talk_wrong(t, "not-kept", OURS(t, TEXT_NOBODY_GOES_ON));
    return t->options.kept;
}

/* Danger at a touch: the page comes at once, and asks afterwards. */
static void say_danger(tt_talk *t)
{
    keep_danger(t, "danger", (danger_names){0}, "");
}

void do_word(tt_talk *t, talk_word word)
{
    assert(word < WORD_NONE);
    switch (word) {
    case WORD_DANGER:
        say_danger(t);
        return;
    case WORD_WHY:
        ask_why(t);
        return;
    case WORD_KNOWN:
        read_page(t, TT_TURN_KNOWN, TT_NONE);
        return;
    case WORD_CAUTIONS:
        read_page(t, TT_TURN_CAUTIONS, TT_NONE);
        return;
    case WORD_HELP:
        read_page(t, TT_TURN_WORDS, TT_NONE);
        return;
    case WORD_CHANGE:
        t->doing = (aside){.kind = ASIDE_CHANGE};
        return;
    case WORD_BACK:
        go_back(t);
        return;
    case WORD_STOP:
        if (asks_cause(t) && talk_look(t)->gate.state != TT_GATE_SHUT) {
            t->doing = (aside){.kind = ASIDE_NONE};
            leave_closed(t);
            return;
        }
        if (t->opening > 0) { /* nothing was said: nothing is kept */
            leave(t, "left");
            return;
        }
        if (walk_is_over(t)) { /* all was seen, and is in order: nothing is left to be said */
            on_walked(t, "close");
            return;
        }
        if (!t->options.look_only) keep_leaving(t, "stop", NULL, NULL);
        leave(t, "stopped");
        return;
    case WORD_HOLD:
        if (can_be_left(t)) t->doing = (aside){.kind = ASIDE_NOTE};
        return;
    case WORD_HAND:
        if (can_be_left(t)) t->doing = (aside){.kind = ASIDE_TO, .hands_over = true};
        return;
    case WORD_UNSURE:
    case WORD_CANNOT:
        if (t->doing.kind == ASIDE_ASK_BACK) { /* which was meant: none that is kept */
            t->doing = (aside){.kind = ASIDE_NONE};
            return;
        }
        talk_wrong(t, "no-answer-here", OURS(t, TEXT_NO_ANSWER_HERE));
        return;
    case WORD_NONE:
        return;
    }
}
