/* From a turn to blocks of text. */
#include "face/turn_blocks.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/grow.h"
#include "base/unicode.h"
#include "say/catalogue.h"
#include "show/figures.h"

typedef struct composer {
    arena *keep;
    tongue in;
    const tt_turn *turn;
    compose_wishes wishes;
    blocks out;
} composer;

/* ---- blocks ---- */

/* Nothing that could steer a terminal, and no tab, whose width depends on where it stands. */
static str clean_block(arena *keep, const char *text)
{
    const str clean = str_trim(unicode_clean(keep, str_of(text)));
    char *plain = (char *)(uintptr_t)str_copy(keep, clean).p;
    for (size_t i = 0; i < clean.n; i++)
        if (plain[i] == '\t') plain[i] = ' ';
    return (str){plain, clean.n};
}

static block *add(composer *c, block_place place, ink colour, const char *lead, const char *text)
{
    assert(text != NULL && colour < INK_COUNT);
    GROW(c->keep, c->out.items, c->out.count, c->out.room);
    block *b = &c->out.items[c->out.count++];
    *b = (block){
        .place = place, .ink = colour, .lead = str_of(lead), .text = clean_block(c->keep, text)};
    return b;
}

static const char *joined(composer *c, const char *const *items, uint32_t count, text_id between,
                          text_id last)
{
    text_builder b = {.keep = c->keep};
    for (uint32_t i = 0; i < count; i++) {
        if (i > 0) text_add(&b, str_of(catalogue_text(c->in, i + 1 == count ? last : between)));
        text_add(&b, str_of(items[i]));
    }
    return count == 0 ? "" : text_done(&b).p;
}

/* ---- on every page ---- */

static void add_marks(composer *c)
{
    if (c->turn->practice) add(c, AT_HEAD, INK_CAUTION, "", catalogue_text(c->in, PAGE_PRACTICE));
    if (!c->turn->kept) add(c, AT_HEAD, INK_CAUTION, "", catalogue_text(c->in, PAGE_NOT_KEPT));
}

static void add_title(composer *c)
{
    const tt_turn *t = c->turn;
    if (t->kind == TT_TURN_STOP)
        add(c, AT_HEAD, INK_DANGER, "", catalogue_text(c->in, PAGE_DANGER));
    if (*t->title == 0) return;
    const bool steps = t->steps > 0;
    const char *title = steps ? FILL(c->keep, c->in, PAGE_STEP_OF, t->title,
                                     count_words(c->keep, t->step), count_words(c->keep, t->steps))
                              : t->title;
    add(c, AT_HEAD, INK_PROMPT, "", title)->told_below =
        !steps && strstr(t->prompt, t->title) != NULL;
}

static void add_wear(composer *c)
{
    for (uint32_t i = 0; i < c->turn->part_count; i++) {
        const tt_turn_part *part = &c->turn->parts[i];
        if (part->kind != TT_PART_WEAR || part->item_count == 0) continue;
        add(c, AT_HEAD, INK_WEAR, "",
            FILL(c->keep, c->in, PAGE_WEAR,
                 joined(c, part->items, part->item_count, PAGE_AND, PAGE_AND)));
    }
}

/* ---- what is told ---- */

static const struct {
    const char *name;
    text_id word;
    ink ink;
} signals[] = {
    {"danger", PAGE_DANGER, INK_DANGER},
    {"warning", PAGE_WARNING, INK_CAUTION},
    {"caution", PAGE_CAUTION, INK_CAUTION},
    {"notice", PAGE_NOTICE, INK_PLAIN},
};
enum { SIGNALS = sizeof signals / sizeof signals[0] };

/* One with a signal word says it in front of each text; the book's own stand under their heading.
 */
static bool add_caution(composer *c, const tt_turn_part *part)
{
    unsigned s = 0;
    while (s < SIGNALS && strcmp(signals[s].name, part->title) != 0) s++;
    if (part->kind != TT_PART_CAUTION || s == SIGNALS) return false;
    for (uint32_t i = 0; i < part->item_count; i++)
        add(c, IN_BODY, signals[s].ink, "",
            FILL(c->keep, c->in, PAGE_SIGNAL, catalogue_text(c->in, signals[s].word),
                 part->items[i]))
            ->gap = i == 0;
    return true;
}

static ink part_ink(tt_part_kind kind)
{
    switch (kind) {
    case TT_PART_DO:
    case TT_PART_FIRST_AID:
    case TT_PART_LOCKED:
        return INK_DANGER;
    case TT_PART_CAUTION:
    case TT_PART_HAZARDS:
    case TT_PART_RISK:
    case TT_PART_ANNOUNCE:
    case TT_PART_ISOLATE:
    case TT_PART_RELEASE:
    case TT_PART_PROVE:
    case TT_PART_RESTORE:
        return INK_CAUTION;
    case TT_PART_WEAR:
        return INK_WEAR;
    default:
        return INK_PLAIN;
    }
}

/* `goes_on`: with the list that the part before has begun. */
static void add_part(composer *c, block_place place, const tt_turn_part *part, bool goes_on)
{
    const ink colour = part_ink(part->kind);
    const bool titled = *part->title != 0,
               list = (titled || goes_on || part->item_count > 1) && part->kind != TT_PART_COMMAND;
    if (titled) {
        block *title = add(c, place, colour, "", part->title);
        title->gap = true;
        title->with_next = part->item_count > 0;
    }
    for (uint32_t i = 0; i < part->item_count; i++) {
        const char *lead = !list            ? ""
                           : part->numbered ? str_printf(c->keep, "%2u. ", i + 1).p
                                            : "  - ";
        block *item = add(c, place, colour, lead, part->items[i]);
        item->gap = i == 0 && !titled && !goes_on;
        item->as_it_stands = part->kind == TT_PART_COMMAND;
    }
}

/* At the head, and below what is asked. */
static bool stands_elsewhere(const tt_turn_part *part)
{
    return part->kind == TT_PART_WEAR || part->kind == TT_PART_LOOK;
}

static void add_parts(composer *c, const tt_turn_part *parts, uint32_t count)
{
    bool list = false;
    for (uint32_t i = 0; i < count; i++) {
        const tt_turn_part *part = &parts[i];
        const bool goes_on = list && *part->title == 0 && part->kind == parts[i - 1].kind;
        if (stands_elsewhere(part)) continue;
        list = !add_caution(c, part);
        if (list) add_part(c, IN_BODY, part, goes_on);
        list = list && (goes_on || *part->title != 0);
    }
}

static void add_wrong(composer *c)
{
    if (*c->turn->wrong != 0) add(c, IN_BODY, INK_CAUTION, "", c->turn->wrong)->gap = true;
}

static void add_what_else(composer *c)
{
    const tt_turn *t = c->turn;
    if (*t->because != 0)
        add(c, IN_BODY, INK_PLAIN, "", FILL(c->keep, c->in, PAGE_BECAUSE, t->because));
    if (t->picture != NULL)
        add(c, IN_BODY, INK_PLAIN, "", FILL(c->keep, c->in, PAGE_PICTURE, t->picture->text));
}

/* ---- what is asked ---- */

/* "Question 3, about 8 minutes left. At: the left floor applicator" */
static void add_progress(composer *c)
{
    const tt_turn *t = c->turn;
    const bool timed = !isnan(t->progress.minutes_left);
    const char *number = count_words(c->keep, t->progress.asked), *line = "";
    if (t->kind == TT_TURN_DANGER)
        line = catalogue_text(c->in, PAGE_DANGER_FIRST);
    else if (t->progress.asked > 0)
        line = timed ? FILL(c->keep, c->in, PAGE_QUESTION_LEFT, number,
                            minutes_words_of(c->keep, c->in, t->progress.minutes_left))
                     : FILL(c->keep, c->in, PAGE_QUESTION, number);
    if (*t->place != 0)
        line = *line != 0 ? FILL(c->keep, c->in, PAGE_AT_PLACE, line, t->place)
                          : FILL(c->keep, c->in, PAGE_PLACE, t->place);
    if (*line != 0) add(c, AT_PROMPT, t->dangerous ? INK_DANGER : INK_PLAIN, "", line)->gap = true;
}

static bool begins(const char *text, const char *with)
{
    return strncmp(text, with, strlen(with)) == 0;
}

/* Units of dilution are a form (1:N), nothing to stand behind a number. */
static const char *how_to_type(composer *c)
{
    const tt_turn *t = c->turn;
    if (t->takes.several) return catalogue_text(c->in, PAGE_TYPE_SEVERAL);
    if (t->takes.count) return catalogue_text(c->in, PAGE_TYPE_COUNT);
    if (!t->takes.reading) return "";
    if (begins(t->takes.unit, "1:")) return catalogue_text(c->in, PAGE_TYPE_PARTS_TO);
    if (begins(t->takes.unit, "1 in")) return catalogue_text(c->in, PAGE_TYPE_PARTS_IN);
    return *t->takes.unit != 0 ? FILL(c->keep, c->in, PAGE_TYPE_NUMBER_IN, t->takes.unit)
                               : catalogue_text(c->in, PAGE_TYPE_NUMBER);
}

static bool is_last(const tt_turn *turn)
{
    return turn->kind == TT_TURN_END;
}

static void add_asked(composer *c)
{
    const tt_turn *t = c->turn;
    const bool first = c->out.count == 0 || c->out.items[c->out.count - 1].place != AT_PROMPT;
    const block_place place =
        is_last(t) ? IN_BODY : AT_PROMPT; /* the last page ends with how to go on */
    const char *prompt =
        c->wishes.telephone && *t->say != 0 ? FILL(c->keep, c->in, PAGE_SAY, t->say) : t->prompt;
    if (*prompt != 0)
        add(c, place, t->dangerous ? INK_DANGER : INK_PROMPT, "", prompt)->gap = first;
    const char *how = how_to_type(c);
    if (*how != 0) add(c, AT_PROMPT, INK_PLAIN, "", how);
}

/* A number there is a name, or a count. */
static bool is_only_typed(tt_turn_kind kind)
{
    return kind == TT_TURN_SITE_NAME || kind == TT_TURN_SITE_PIECES || kind == TT_TURN_SITE_PATH ||
           kind == TT_TURN_CALLER || kind == TT_TURN_CALL_BACK || kind == TT_TURN_TICKET;
}

static void add_look(composer *c)
{
    const uint32_t first = c->out.count;
    for (uint32_t i = 0; i < c->turn->part_count; i++)
        if (c->turn->parts[i].kind == TT_PART_LOOK)
            add_part(c, BY_PROMPT, &c->turn->parts[i], false);
    for (uint32_t i = first; i < c->out.count; i++) c->out.items[i].gap = false;
}

/* What Enter takes need not be offered twice. */
static bool is_said_by_enter(const composer *c)
{
    return c->wishes.enter && c->turn->choice_count == 1 && enter_takes(c->turn) != NULL;
}

static void add_choices(composer *c)
{
    if (is_only_typed(c->turn->kind) || is_said_by_enter(c)) return;
    for (uint32_t i = 0; i < c->turn->choice_count; i++) {
        const tt_turn_choice *choice = &c->turn->choices[i];
        add(c, IN_CHOICES, INK_CHOICE, str_printf(c->keep, "%2u  ", i + 1).p, choice->text)->gap =
            i == 0;
        if (choice->picture != NULL) add(c, IN_CHOICES, INK_PLAIN, "    ", choice->picture->text);
    }
}

static void add_words(composer *c)
{
    const tt_turn *t = c->turn;
    if (t->word_count == 0) return;
    const char **words = ARENA_ARRAY(c->keep, const char *, t->word_count);
    for (uint32_t i = 0; i < t->word_count; i++)
        words[i] = t->words[i].said != NULL ? t->words[i].said : t->words[i].id;
    add(c, AT_WORDS, INK_PLAIN, "",
        FILL(c->keep, c->in, PAGE_WORDS, joined(c, words, t->word_count, PAGE_COMMA, PAGE_COMMA)))
        ->gap = true;
}

static const tt_turn_choice *choice_named(const tt_turn *turn, const char *id)
{
    for (uint32_t i = 0; i < turn->choice_count; i++)
        if (strcmp(turn->choices[i].id, id) == 0) return &turn->choices[i];
    return NULL;
}

const tt_turn_choice *enter_takes(const tt_turn *turn)
{
    switch (turn->kind) {
    case TT_TURN_KNOWN:
    case TT_TURN_WHY:
    case TT_TURN_WORDS:
    case TT_TURN_CAUTIONS:
    case TT_TURN_PROCEDURE:
        return choice_named(turn, "go-on");
    case TT_TURN_NOTE:
    case TT_TURN_TO:
    case TT_TURN_SITE_NAME:
    case TT_TURN_SITE_PIECES:
    case TT_TURN_SITE_PATH:
    case TT_TURN_CALLER:
    case TT_TURN_CALL_BACK:
    case TT_TURN_TICKET:
        return choice_named(turn, "none");
    case TT_TURN_BOOK:
        return turn->choice_count > 0 ? turn->choices : NULL; /* the usual one is the first */
    default:
        return NULL;
    }
}

static void add_enter(composer *c)
{
    const tt_turn_choice *taken = c->wishes.enter ? enter_takes(c->turn) : NULL;
    if (taken != NULL)
        add(c, AT_WORDS, INK_PLAIN, "", FILL(c->keep, c->in, PAGE_ENTER, taken->text));
}

/* ---- with a caller on the line ---- */

static bool asks_for_an_answer(tt_turn_kind kind)
{
    return kind == TT_TURN_DANGER || kind == TT_TURN_EARLY || kind == TT_TURN_QUESTION ||
           kind == TT_TURN_LOOK_AGAIN;
}

static bool are_yes_and_no(const tt_turn *t)
{
    return t->choice_count == 2 && strcmp(t->choices[0].id, "yes") == 0 &&
           strcmp(t->choices[1].id, "no") == 0;
}

/* Say: “Is it: thin; stiff; or as always?” */
static void add_choices_aloud(composer *c)
{
    const tt_turn *t = c->turn;
    if (!asks_for_an_answer(t->kind) || t->choice_count == 0 || are_yes_and_no(t)) return;
    const char **texts = ARENA_ARRAY(c->keep, const char *, t->choice_count);
    for (uint32_t i = 0; i < t->choice_count; i++) texts[i] = t->choices[i].text;
    add(c, BY_PROMPT, INK_PROMPT, "",
        FILL(c->keep, c->in, PAGE_SAY_CHOICES,
             joined(c, texts, t->choice_count, PAGE_BETWEEN, PAGE_LAST_BETWEEN)));
}

/* What the agent keeps an eye on, in one line. */
static void add_leading(composer *c)
{
    const tt_turn *t = c->turn;
    if (t->leading_count == 0 || t->dangerous || t->kind == TT_TURN_END) return;
    const char **texts = ARENA_ARRAY(c->keep, const char *, t->leading_count);
    for (uint32_t i = 0; i < t->leading_count; i++) texts[i] = t->leading[i].text;
    add(c, IN_BODY, INK_PLAIN, "",
        FILL(c->keep, c->in, PAGE_LEADING,
             joined(c, texts, t->leading_count, PAGE_BETWEEN, PAGE_BETWEEN)))
        ->gap = true;
}

/* Whom the caller may ask for, where the turn itself does not say it. */
static void add_contacts(composer *c)
{
    const tt_turn *t = c->turn;
    for (uint32_t i = 0; i < t->part_count; i++)
        if (t->parts[i].kind == TT_PART_CALL) return;
    for (uint32_t i = 0; i < t->contact_count; i++) {
        const tt_contact *who = &t->contacts[i];
        const char *line = who->who;
        if (*who->telephone != 0) line = FILL(c->keep, c->in, PAGE_CONTACT, line, who->telephone);
        if (*who->hours != 0) line = FILL(c->keep, c->in, PAGE_CONTACT_HOURS, line, who->hours);
        add(c, IN_BODY, INK_PLAIN, "  - ", line)->gap = i == 0;
    }
}

static bool has_instructions(const tt_turn *t)
{
    return t->part_count > 0 && (t->kind == TT_TURN_STOP || t->kind == TT_TURN_CALL ||
                                 t->kind == TT_TURN_BEFORE_FIX || t->kind == TT_TURN_FIX_STEP);
}

static void add_read_out(composer *c)
{
    if (!has_instructions(c->turn)) return;
    block *b = add(c, IN_BODY, INK_PROMPT, "", catalogue_text(c->in, PAGE_SAY_FIRST));
    b->gap = b->with_next = true;
}

/* ---- the whole ---- */

static void add_told(composer *c)
{
    const tt_turn *t = c->turn;
    add_wrong(c);
    add_parts(c, t->news, t->news_count);
    if (is_last(t)) add_asked(c);
    if (c->wishes.telephone) add_read_out(c);
    add_parts(c, t->parts, t->part_count);
    if (c->wishes.telephone) add_contacts(c);
    if (c->wishes.telephone) add_leading(c);
    add_what_else(c);
}

blocks compose_turn(arena *keep, const tt_turn *turn, compose_wishes wishes)
{
    assert(turn != NULL && turn->kind < TT_TURN_KINDS);
    composer c = {.keep = keep, .in = tongue_of(turn->language), .turn = turn, .wishes = wishes};
    add_marks(&c);
    add_title(&c);
    add_wear(&c);
    add_told(&c);
    add_progress(&c);
    if (!is_last(turn)) add_asked(&c);
    add_look(&c);
    if (wishes.telephone) add_choices_aloud(&c);
    add_choices(&c);
    add_words(&c);
    add_enter(&c);
    return c.out;
}
