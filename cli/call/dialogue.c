/* Turns that the program makes by itself, and what is said to them. */
#include "call/dialogue.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/grow.h"
#include "base/unicode.h"
#include "call/call_parts.h"
#include "cases/begin_case.h"
#include "host/memory.h"
#include "host/screen.h"
#include "say/catalogue.h"

/* ---- making one ---- */

void host_word(conversation *c, tt_turn *turn, const char *id, text_id typed)
{
    tt_turn_choice *more = ARENA_ARRAY(c->keep, tt_turn_choice, turn->word_count + 1);
    if (turn->word_count > 0) memcpy(more, turn->words, turn->word_count * sizeof *more);
    more[turn->word_count++] = (tt_turn_choice){id, "", NULL, catalogue_text(c->tongue, typed)};
    turn->words = more;
}

/* What only the caller can tell: which equipment there is, how to reach them. The rest is decided
 * here. */
static bool is_for_the_caller(tt_turn_kind kind)
{
    return kind == TT_TURN_SITE_NAME || kind == TT_TURN_SITE_PIECES || kind == TT_TURN_SITE_RIGHT ||
           kind == TT_TURN_CALLER || kind == TT_TURN_CALL_BACK;
}

tt_turn *host_turn(conversation *c, tt_turn_kind kind, const char *prompt)
{
    tt_turn *t = ARENA_NEW(c->keep, tt_turn);
    *t = (tt_turn){.kind = kind,
                   .language = tongue_tag(c->tongue),
                   .prompt = prompt,
                   .say = is_for_the_caller(kind) ? prompt : "",
                   .subject = "",
                   .title = "",
                   .place = "",
                   .because = "",
                   .wrong = "",
                   .wrong_code = "",
                   .how = "",
                   .takes = {.unit = "", .low = NAN, .high = NAN},
                   .kept = !is_given(c->line, OPTION_UNSAVED),
                   .practice = c->practice};
    t->progress.minutes_left = NAN;
    host_word(c, t, "danger", TYPED_DANGER);
    host_word(c, t, "stop", TYPED_STOP);
    if (c->at_desk) host_word(c, t, word_board, TYPED_BOARD);
    return t;
}

/* Few, so each one more makes the list anew. */
void host_choice(conversation *c, tt_turn *turn, const char *id, const char *text)
{
    tt_turn_choice *more = ARENA_ARRAY(c->keep, tt_turn_choice, turn->choice_count + 1);
    if (turn->choice_count > 0) memcpy(more, turn->choices, turn->choice_count * sizeof *more);
    more[turn->choice_count++] = (tt_turn_choice){id, text, NULL, NULL};
    turn->choices = more;
}

void host_list(conversation *c, tt_turn *turn, tt_part_kind kind, const char *title,
               const char *const *items, uint32_t count)
{
    tt_turn_part *more = ARENA_ARRAY(c->keep, tt_turn_part, turn->part_count + 1);
    const char **copy = ARENA_ARRAY(c->keep, const char *, count);
    for (uint32_t i = 0; i < count; i++) copy[i] = items[i];
    if (turn->part_count > 0) memcpy(more, turn->parts, turn->part_count * sizeof *more);
    more[turn->part_count++] =
        (tt_turn_part){.kind = kind, .title = title, .items = copy, .item_count = count};
    turn->parts = more;
}

void host_line(conversation *c, tt_turn *turn, tt_part_kind kind, const char *title,
               const char *text)
{
    host_list(c, turn, kind, title, &text, 1);
}

/* ---- hearing ---- */

const char word_board[] = "board", word_caller[] = "caller";

/* Its id, or as it is typed in any of our languages: who reads one may be used to another. */
static bool is_word_of_desk(const conversation *c, const tt_heard *heard, const char *word,
                            text_id typed)
{
    const char *said = heard->choice != NULL ? heard->choice : heard->words;
    if (!c->at_desk || said == NULL) return false;
    bool is = strcasecmp(said, word) == 0;
    const str plain = unicode_plain(c->keep, str_of(said));
    for (tongue t = 0; t < TONGUE_COUNT && !is; t++)
        is = str_eq(plain, unicode_plain(c->keep, str_of(catalogue_text(t, typed))));
    return is;
}

bool puts_down(conversation *c, const tt_heard *heard)
{
    c->put_down = is_word_of_desk(c, heard, word_board, TYPED_BOARD);
    if (c->put_down) c->left = FACE_ENDED;
    return c->put_down;
}

bool asks_contact(const conversation *c, const tt_heard *heard)
{
    return c->store != NULL && is_word_of_desk(c, heard, word_caller, TYPED_CALLER);
}

/* By its number, its words, or how they begin if no other begins so. */
static const tt_turn_choice *choice_meant(arena *keep, const tt_turn *turn, const char *line)
{
    char *end;
    const long number = strtol(line, &end, 10);
    if (*line >= '0' && *line <= '9' && (*end == 0 || *end == ')' || *end == '.'))
        return number >= 1 && number <= (long)turn->choice_count ? &turn->choices[number - 1]
                                                                 : NULL;
    const str said = unicode_plain(keep, str_of(line));
    const tt_turn_choice *found = NULL;
    for (uint32_t i = 0; i < turn->choice_count && said.n > 0; i++) {
        const str text = unicode_plain(keep, str_of(turn->choices[i].text));
        if (str_eq(text, said)) return &turn->choices[i];
        if (!str_starts(text, said.p)) continue;
        if (found != NULL) return NULL;
        found = &turn->choices[i];
    }
    return found;
}

/* A program's: one that it was offered, which says nothing by its name. */
static const tt_turn_choice *choice_of_name(const tt_turn *turn, const char *name)
{
    for (uint32_t i = 0; i < turn->choice_count; i++)
        if (strcmp(turn->choices[i].id, name) == 0) return &turn->choices[i];
    return NULL;
}

/* The book by whose words danger is heard: the one that was named, for every book knows the
 * engine's words and may have some of its own. Null: there is none to be read. */
static tt_book *book_that_hears(conversation *c)
{
    opened_book opened = {.book = NULL};
    if (c->book.book != NULL) return c->book.book;
    if (c->before_count > 0) return c->before[0].book;
    const bool named = c->line->count > 1;
    exit_status status = named ? book_open(c->line->words[1], NULL, &opened) : EXIT_USAGE;
    if (status != EXIT_DONE) status = book_open(usual_book_name, NULL, &opened);
    if (status != EXIT_DONE) return NULL;
    GROW(c->keep, c->before, c->before_count, c->before_room);
    c->before[c->before_count++] = opened;
    return opened.book;
}

static tt_overheard overhear(conversation *c, const char *said, bool name)
{
    tt_overheard over = {.word = ""};
    tt_book *book = book_that_hears(c);
    if (book != NULL) (void)tt_book_hear(book); /* as without it, only sooner the next time */
    if (book != NULL) note_failure(c, status_of(tt_overhear(book, said, name, &over)));
    return over;
}

bool hears_danger(conversation *c, const char *words)
{
    return overhear(c, words, true).danger;
}

/* What is a letter from danger may be a name: asked, so that neither is lost. Null: the person
 * left, or spoke of danger more clearly. */
static const char *name_or_danger(conversation *c, const char *said)
{
    tt_turn *turn =
        host_turn(c, TT_TURN_HELP_OR_DANGER, FILL(c->keep, c->tongue, HOST_NAME_OR_DANGER, said));
    host_choice(c, turn, "danger", catalogue_text(c->tongue, TEXT_HELP_DANGER));
    host_choice(c, turn, "name", catalogue_text(c->tongue, HOST_MEANT_NAME));
    return host_choose(c, turn);
}

static bool was_meant_as_name(const conversation *c, const char *said)
{
    for (uint32_t i = 0; i < c->name_count; i++)
        if (strcmp(c->names_meant[i], said) == 0) return true;
    return false;
}

/* False: there is danger, or nobody is there any more. */
static bool is_meant_as_name(conversation *c, const char *said)
{
    if (was_meant_as_name(c, said)) return true;
    const char *meant = name_or_danger(c, said);
    if (meant == NULL) return false;
    if (strcmp(meant, "danger") == 0) return false;
    GROW(c->keep, c->names_meant, c->name_count, c->name_room);
    c->names_meant[c->name_count++] = said;
    return true;
}

/* What is asked after the last page the talk does not hear of; but danger opens it again. */
static void give_to_talk(conversation *c, const char *said, bool stops)
{
    if (stops && talk_is_over(c)) return;
    c->cried = arena_copy(c->keep, said);
    c->interrupted = true;
    if (c->talk != NULL)
        hear_and_keep(c, stops ? &(tt_heard){.choice = "stop"} : &(tt_heard){.words = said});
    else if (stops)
        c->left = FACE_ENDED;
    else
        c->danger_said = arena_copy(c->keep, said);
}

/* ---- in another language ---- */

static const tt_turn_choice *choices_in(const conversation *c, tongue from,
                                        const tt_turn_choice *all, uint32_t count)
{
    tt_turn_choice *again = ARENA_ARRAY(c->keep, tt_turn_choice, count);
    for (uint32_t i = 0; i < count; i++) {
        again[i] = all[i];
        again[i].text = catalogue_again(from, c->tongue, all[i].text);
        if (all[i].said != NULL) again[i].said = catalogue_again(from, c->tongue, all[i].said);
    }
    return again;
}

/* The same question once more. What has a name or a number in it stays as it is, for this once. */
static void say_otherwise(const conversation *c, tt_turn *turn, tongue from)
{
    turn->language = tongue_tag(c->tongue);
    turn->prompt = catalogue_again(from, c->tongue, turn->prompt);
    turn->say = catalogue_again(from, c->tongue, turn->say);
    turn->title = catalogue_again(from, c->tongue, turn->title);
    turn->wrong = turn->wrong_code = "";
    turn->choices = choices_in(c, from, turn->choices, turn->choice_count);
    turn->words = choices_in(c, from, turn->words, turn->word_count);
    tt_turn_part *parts = ARENA_ARRAY(c->keep, tt_turn_part, turn->part_count);
    for (uint32_t i = 0; i < turn->part_count; i++) {
        const tt_turn_part *p = &turn->parts[i];
        const char **items = ARENA_ARRAY(c->keep, const char *, p->item_count);
        for (uint32_t k = 0; k < p->item_count; k++)
            items[k] = catalogue_again(from, c->tongue, p->items[k]);
        parts[i] = *p;
        parts[i].title = catalogue_again(from, c->tongue, p->title);
        parts[i].items = items;
    }
    turn->parts = parts;
}

/* A case that there is goes on in it, too. */
static void speak(conversation *c, tt_turn *turn, const char *language)
{
    const tongue from = c->tongue;
    c->language = arena_copy(c->keep, language);
    c->tongue = tongue_of(language);
    if (c->talk != NULL && !talk_is_over(c)) hear_and_keep(c, &(tt_heard){.language = c->language});
    say_otherwise(c, turn, from);
}

/* What it said that is no answer: to stop, or of danger, which is for the talk to hear. */
static bool is_for_the_talk(conversation *c, const tt_turn *turn, tt_heard *heard, bool name,
                            const char **word)
{
    const char *said = heard->choice != NULL ? heard->choice : heard->words;
    *word = "";
    if (said == NULL || *said == 0 ||
        (heard->choice != NULL && choice_of_name(turn, said) != NULL) ||
        (heard->words != NULL && choice_meant(c->keep, turn, said) != NULL))
        return false;
    const tt_overheard over = overhear(c, said, name);
    const bool stops = strcmp(over.word, "stop") == 0;
    bool asked = false;
    *word = over.word;
    if (over.danger && over.doubtful && name && heard->choice == NULL) {
        said = heard->words = arena_copy(c->keep, said); /* another turn is asked in between */
        if (is_meant_as_name(c, said)) return false;
        if (!may_ask(c)) return true;
        asked = true;
    }
    c->said_at_name = over.danger && name ? arena_copy(c->keep, said) : NULL;
    if (stops || over.danger) give_to_talk(c, said, stops);
    if (asked && c->talk != NULL && tt_talk_turn(c->talk)->kind == TT_TURN_HELP_OR_DANGER)
        hear_and_keep(c, &(tt_heard){.choice = "danger"}); /* which help was said already */
    return stops || over.danger;
}

static const char *language_asked(conversation *c, const tt_turn *turn, const tt_heard *heard)
{
    if (heard->language != NULL || heard->words == NULL ||
        choice_meant(c->keep, turn, heard->words) != NULL)
        return heard->language;
    return tt_language_asked(heard->words);
}

void tell_first(conversation *c, const char *words)
{
    c->told_first = c->told_first == NULL ? arena_copy(c->keep, words)
                                          : arena_text(c->keep, "%s. %s", c->told_first, words);
}

/* What is wrong, said at a question of ours: the talk hears it as soon as it may. A name that reads
 * so is one when it is said once more. */
static bool is_told_first(conversation *c, tt_turn *turn, const tt_heard *heard, bool name)
{
    if (heard->words == NULL || c->talk == NULL || (name && !c->asks_site)) return false;
    const char *before = c->told_first;
    if (choice_meant(c->keep, turn, heard->words) != NULL ||
        (before != NULL && strstr(before, heard->words) != NULL) ||
        !overhear(c, heard->words, name).told)
        return false;
    tell_first(c, heard->words);
    host_line(c, turn, TT_PART_NOTE, "", FILL(c->keep, c->tongue, HOST_HEARD_FIRST, heard->words));
    turn->wrong = turn->wrong_code = "";
    return true;
}

/* False: nothing that could be an answer came. `word`: the word of ours that did, or "". */
static bool ask_once(conversation *c, tt_turn *turn, bool name, tt_heard *heard, const char **word)
{
    if (!may_ask(c)) return false;
    show_about(c);
    const face_got got = c->face->ask(c->face, turn, heard);
    const char *language = got == FACE_REPLY ? language_asked(c, turn, heard) : NULL;
    if (language != NULL) {
        speak(c, turn, language);
        return ask_once(c, turn, name, heard, word);
    }
    if (got != FACE_REPLY) c->left = got;
    if (got == FACE_REPLY && puts_down(c, heard)) return false;
    if (got != FACE_REPLY || is_for_the_talk(c, turn, heard, name, word)) return false;
    return !is_told_first(c, turn, heard, name) || ask_once(c, turn, name, heard, word);
}

/* A number that is not on the list, and a word of ours that does nothing here, tell of nothing. */
static bool tells_something(const char *said, const char *word)
{
    bool letters = false;
    for (const char *b = said; b != NULL && *b != 0; b++)
        letters =
            letters || (*b & 0x80) != 0 || (*b >= 'A' && *b <= 'Z') || (*b >= 'a' && *b <= 'z');
    return letters && *word == 0;
}

static const char *choose(conversation *c, tt_turn *turn, const char **told)
{
    tt_heard heard;
    const char *word;
    assert(turn->choice_count > 0);
    while (ask_once(c, turn, false, &heard, &word)) {
        const tt_turn_choice *chosen =
            heard.words != NULL ? choice_meant(c->keep, turn, heard.words) : NULL;
        if (heard.choice != NULL) chosen = choice_of_name(turn, heard.choice);
        if (chosen != NULL) return chosen->id;
        if (told != NULL && tells_something(heard.words, word)) {
            *told = arena_copy(c->keep, heard.words);
            return NULL;
        }
        const bool asks_how = strcmp(word, "?") == 0;
        turn->wrong_code = asks_how ? "no-answer-here" : "no-such-choice";
        turn->wrong = catalogue_text(c->tongue, asks_how ? HOST_HOW : HOST_NONE_OF_THESE);
    }
    return NULL;
}

const char *host_choose(conversation *c, tt_turn *turn)
{
    return choose(c, turn, NULL);
}

const char *host_choose_or_hear(conversation *c, tt_turn *turn, const char **told)
{
    *told = NULL;
    return choose(c, turn, told);
}

static bool takes_word(const tt_turn *turn, const char *word)
{
    uint32_t i = 0;
    while (i < turn->word_count && strcmp(turn->words[i].id, word) != 0) i++;
    return i < turn->word_count;
}

const char *host_words(conversation *c, tt_turn *turn, const char **word)
{
    tt_heard heard;
    turn->takes.text = true;
    while (ask_once(c, turn, true, &heard, word)) {
        if (**word == 0) return heard.words != NULL ? str_copy(c->keep, str_of(heard.words)).p : "";
        if (takes_word(turn, *word)) return "";
        turn->wrong_code = "no-answer-here";
        turn->wrong = FILL(c->keep, c->tongue, HOST_WORD_IS_OURS, *word);
    }
    return NULL;
}

void host_tell(conversation *c, const tt_turn *turn)
{
    show_about(c);
    if (!c->face->tell(c->face, turn)) note_failure(c, EXIT_IO);
}
