/* A turn for programs: its table of fields, and what fills it. */
#include "show/turn_fields.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "show/book_fields.h"
#include "show/picture_fields.h"
#include "show/reply_fields.h"
#include "show/standing_fields.h"
#include "show/step_fields.h"

/* ---- what is shown ---- */

typedef struct shown_choice {
    uint32_t number;
    const char *name, *text;
    const tt_picture *picture;
} shown_choice;
typedef struct shown_part {
    const char *kind, *title;
    const char *const *items;
    uint32_t items_count;
    bool numbered;
} shown_part;
typedef struct shown_wrong {
    const char *code, *text;
} shown_wrong;
typedef struct shown_progress {
    uint32_t asked;
    double minutes_left;
} shown_progress;
typedef struct shown_gate {
    bool open;
} shown_gate;
typedef struct shown_leading {
    const char *name, *text;
} shown_leading;
typedef struct shown_opened {
    const char *name, *edition, *revision;
    const char *const *cautions;
    uint32_t cautions_count;
} shown_opened;
typedef struct shown_turn {
    uint32_t version, turn;
    const char *key, *case_number, *kind, *language, *subject, *title, *together, *prompt, *say,
        *text, *place, *because;
    const tt_picture *picture;
    const shown_progress *progress;
    uint32_t step, steps;
    const shown_choice *choices;
    uint32_t choices_count;
    const char *const *words;
    uint32_t words_count;
    const char *const *takes;
    uint32_t takes_count;
    const shown_part *parts;
    uint32_t parts_count;
    const char *const *notes;
    uint32_t notes_count;
    const shown_wrong *wrong;
    const shown_caution *cautions;
    uint32_t cautions_count;
    const shown_leading *leading;
    uint32_t leading_count;
    const tt_contact *contacts;
    uint32_t contacts_count;
    const shown_gate *gate;
    bool kept, practice, dangerous;
    const shown_opened *book;
    const shown_site *site;
    const shown_question *question;
    const shown_plan *fix;
    const shown_cause *causes;
    uint32_t causes_count;
    const shown_likely *likely;
    const shown_known *known;
    const shown_tried *tried;
    uint32_t tried_count;
    const char *const *different;
    uint32_t different_count;
    const char *how;
    double status;
} shown_turn;

/* ---- tables ---- */

#define NAME_ENTRY(id, name) name,
static const char *const turn_kinds[] = {TT_TURN_TABLE(NAME_ENTRY)};
static const char *const part_kinds[] = {TT_PART_TABLE(NAME_ENTRY)};
#undef NAME_ENTRY
static const char *const hows[] = {"gone",    "call",   "made-safe", "waiting",
                                   "stopped", "left",   "looked",    "input-ended",
                                   "signal",  "failed", "elsewhere", "came-back"};
#define NAMES(list) \
    { \
        list, sizeof(list) / sizeof((list)[0]) \
    }
static const name_list turn_kind_names = NAMES(turn_kinds), part_kind_names = NAMES(part_kinds),
                       how_names = NAMES(hows);

static const field choice_fields[] = {
    FIELD(shown_choice, number, FIELD_COUNT, ALWAYS, 1, "From 1."),
    FIELD(shown_choice, name, FIELD_TEXT, ALWAYS, 1, "The same in every language."),
    FIELD(shown_choice, text, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD_THING(shown_choice, picture, IF_ANY, 2, &picture_shape, "Of how that looks."),
};
static const shape choice_shape = SHAPE("choice", shown_choice, choice_fields, "");

static const field part_fields[] = {
    FIELD_AMONG(shown_part, kind, &part_kind_names, ALWAYS, 2,
                "caution: its title is the signal word; do: one instruction an item, the most "
                "urgent first; call: whom; tell: words to read out to them; "
                "locked: what is locked or opened just now, the locks stay on; command: to be "
                "typed as it stands."),
    FIELD(shown_part, title, FIELD_MAYBE, ALWAYS, 2, ""),
    FIELD_ALL(shown_part, items, FIELD_TEXTS, ALWAYS, 2, NULL, ""),
    FIELD(shown_part, numbered, FIELD_TRUTH, ALWAYS, 2, "Their order matters."),
};
static const shape part_shape = SHAPE("part", shown_part, part_fields, "");

static const field wrong_fields[] = {
    FIELD(shown_wrong, code, FIELD_TEXT, ALWAYS, 2, "The same in every language: \"stale-turn\"."),
    FIELD(shown_wrong, text, FIELD_TEXT, ALWAYS, 1, ""),
};
static const shape wrong_shape = SHAPE("wrong", shown_wrong, wrong_fields, "");

static const field progress_fields[] = {
    FIELD(shown_progress, asked, FIELD_COUNT, ALWAYS, 2,
          "The number of this question; 0: it is none."),
    FIELD(shown_progress, minutes_left, FIELD_NUMBER, ALWAYS, 2, "null: not known."),
};
static const shape progress_shape = SHAPE("progress", shown_progress, progress_fields, "");

static const field gate_fields[] = {
    FIELD(shown_gate, open, FIELD_TRUTH, ALWAYS, 2,
          "Danger is ruled out. While it is not, no fix may be offered.")};
static const shape gate_shape = SHAPE("gate", shown_gate, gate_fields, "");

static const field leading_fields[] = {
    FIELD(shown_leading, name, FIELD_MAYBE, ALWAYS, 2,
          "null: something that the rules don't list."),
    FIELD(shown_leading, text, FIELD_TEXT, ALWAYS, 2, "With its chance."),
};
static const shape leading_shape = SHAPE("leading", shown_leading, leading_fields, "");

static const field opened_fields[] = {
    FIELD(shown_opened, name, FIELD_TEXT, ALWAYS, 1, "Its title."),
    FIELD(shown_opened, edition, FIELD_TEXT, ALWAYS, 1, ""),
    FIELD(shown_opened, revision, FIELD_TEXT, ALWAYS, 1, "As in rank.schema.json."),
    FIELD_ALL(shown_opened, cautions, FIELD_TEXTS, ALWAYS, 1, NULL, "How to keep out of harm."),
};
static const shape opened_shape = SHAPE("book", shown_opened, opened_fields, "");

static const char kinds_doc[] =
    "danger: a question about danger, nothing else comes before it; stop: what to do now, until "
    "somebody says that it is safe; early: a fact that "
    "everything else rests on; complaint: what is wrong, in any words or from the choices; "
    "confirm: whether the words meant this; which: at which "
    "pieces of equipment; question: see `question`; ask-back: words that could mean two things; "
    "review: whether the answers are right, before the first "
    "fix that costs or can hurt; before-fix: what a fix is, what hurts, what to wear; fix-step: "
    "one thing to do; fix: did it help; look-again: a "
    "question, once more, after a fix; put-back: what did not help; settle: people who did not "
    "know of each other said different things; change: which "
    "answer was wrong; cause: the trouble is gone, what was it; call: somebody has to come; "
    "waiting: somebody was called; closed: the case that is taken "
    "up is closed; changed: rules or site have changed since; taken-over: by somebody else; known, "
    "why, words, cautions: to be read; help: which help is "
    "meant; note, to: for whoever goes on; not-kept: the last reply could not be kept; book, "
    "open-cases, open-elsewhere, site-file, site-name, "
    "site-pieces, site-right, site-keep, site-path, site-over, caller, call-back, ticket, "
    "keep-facts: asked by the program, "
    "before a case and after it; refused: with --many, "
    "a line that is no call's, or opens one that is there, and nothing has changed by it; end: the "
    "last one, no reply "
    "is awaited. A program that does not know a kind shows `text` and sends what a person says as "
    "`answer`.";

static const field turn_field_table[] = {
    FIELD(shown_turn, version, FIELD_COUNT, ALWAYS, 1, "Of the protocol: 2."),
    FIELD(shown_turn, turn, FIELD_COUNT, ALWAYS, 1,
          "Its number, from 1. One that is sent again, because the reply was wrong as such, keeps "
          "it."),
    FIELD(shown_turn, key, FIELD_MAYBE, IF_ANY, 2,
          "With --many: of which call; left out where the line names none."),
    FIELD_NAMED(shown_turn, case_number, "case", FIELD_MAYBE, ALWAYS, 1,
                "Number of the case, for --case; null: it has not begun, or is not kept."),
    FIELD_AMONG(shown_turn, kind, &turn_kind_names, ALWAYS, 1, kinds_doc),
    FIELD(shown_turn, subject, FIELD_MAYBE, ALWAYS, 2,
          "Name of the question, symptom or fix that it is about."),
    FIELD(shown_turn, title, FIELD_MAYBE, ALWAYS, 2, "The fix in words."),
    FIELD(shown_turn, together, FIELD_MAYBE, IF_ANY, 2,
          "Name of the other fix that is done, or may be, under the same lockout: it counts once, "
          "and both have one outcome. Left out if there is none."),
    FIELD(shown_turn, language, FIELD_MAYBE, ALWAYS, 2,
          "Of the texts, BCP 47; the program's own are English where it has none in it."),
    FIELD(shown_turn, prompt, FIELD_TEXT, ALWAYS, 1,
          "What is asked, in one sentence; may be empty."),
    FIELD(shown_turn, say, FIELD_MAYBE, ALWAYS, 2, "The same, to be read aloud to a caller."),
    FIELD(shown_turn, text, FIELD_TEXT, ALWAYS, 1,
          "All of the turn in plain words, as a terminal shows it. A chat can pass on this alone, "
          "and send what comes back as `answer`."),
    FIELD(shown_turn, place, FIELD_MAYBE, ALWAYS, 2, "Where it is."),
    FIELD(shown_turn, because, FIELD_MAYBE, ALWAYS, 2, ""),
    FIELD_THING(
        shown_turn, picture, ALWAYS, 2, &picture_shape,
        "Of what is asked about, or of the step; with before-fix and known of the likeliest "
        "cause; with complaint of the whole, and people may point to an area of it instead "
        "of choosing from the list."),
    FIELD_THING(shown_turn, progress, ALWAYS, 2, &progress_shape, ""),
    FIELD(shown_turn, step, FIELD_COUNT, IF_ANY, 2, "With fix-step: which, from 1."),
    FIELD(shown_turn, steps, FIELD_COUNT, IF_ANY, 2, "Of how many."),
    FIELD_ALL(shown_turn, choices, FIELD_LIST, ALWAYS, 1, &choice_shape, "What may be chosen."),
    FIELD_ALL(shown_turn, words, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Words that work here. danger: something is dangerous, or somebody is hurt; unsure: "
              "looked, and can't tell; cannot: can't look there or do "
              "that; why: why is this asked; known: what is known so far; cautions: how to keep "
              "out of harm; change: change an answer; back: take the last "
              "step back; stop: stop, and go on some other time; hold: stop, with a note for "
              "whoever goes on; hand over: pass the case on, with a note; "
              "?: what the words mean."),
    FIELD_ALL(shown_turn, takes, FIELD_TEXTS, ALWAYS, 1, NULL,
              "Which keys a reply may have here; see the definition of a reply. None: the turn is "
              "only told, and the next one comes without a reply."),
    FIELD_ALL(shown_turn, parts, FIELD_LIST, ALWAYS, 2, &part_shape,
              "What is told with it, in the order to be read."),
    FIELD_ALL(shown_turn, notes, FIELD_TEXTS, ALWAYS, 1, NULL,
              "What is new since the turn before: what was understood, what to put back now, what "
              "others did."),
    FIELD_THING(shown_turn, wrong, ALWAYS, 1, &wrong_shape,
                "What is wrong with the reply before; null: nothing."),
    FIELD_ALL(shown_turn, cautions, FIELD_LIST, ALWAYS, 1, &caution_shape,
              "All that hold now, the gravest first."),
    FIELD_ALL(shown_turn, leading, FIELD_LIST, ALWAYS, 2, &leading_shape, "The likeliest causes."),
    FIELD_ALL(shown_turn, contacts, FIELD_LIST, ALWAYS, 2, &contact_shape,
              "Whom to call, where somebody is to be called. In danger the emergency number of the "
              "site comes first, with the purpose `emergency`."),
    FIELD_THING(shown_turn, gate, ALWAYS, 2, &gate_shape, ""),
    FIELD(shown_turn, kept, FIELD_TRUTH, ALWAYS, 2,
          "false: what is said goes nowhere but into this conversation."),
    FIELD(shown_turn, practice, FIELD_TRUTH, ALWAYS, 2,
          "The site is the example: no mark and no number in it is the caller's."),
    FIELD(shown_turn, dangerous, FIELD_TRUTH, ALWAYS, 2, "To be drawn so."),
    FIELD_THING(shown_turn, book, IF_ANY, 2, &opened_shape, "On the first turn."),
    FIELD_THING(shown_turn, site, IF_ANY, 1, &site_shape,
                "On the first turn, if something says what there is."),
    FIELD_THING(shown_turn, question, IF_ANY, 1, &question_shape, "With a question of any kind."),
    FIELD_THING(shown_turn, fix, IF_ANY, 1, &plan_shape,
                "With the kinds review, before-fix, fix-step, fix and put-back."),
    FIELD_ALL(shown_turn, causes, FIELD_LIST, IF_ANY, 1, &cause_shape,
              "With a fix: what the answers point to, the likeliest first."),
    FIELD_THING(shown_turn, likely, IF_ANY, 2, &likely_shape,
                "With a fix: the fewest of these causes that hold 90 % of the belief."),
    FIELD_THING(shown_turn, known, IF_ANY, 1, &known_shape,
                "With known, call, waiting, closed and end."),
    FIELD_ALL(shown_turn, tried, FIELD_LIST, IF_ANY, 1, &tried_shape,
              "With the same kinds: fixes, in the order in which they were tried."),
    FIELD_ALL(shown_turn, different, FIELD_TEXTS, IF_ANY, 1, NULL,
              "With the same kinds: what fixes have left different from before: 'What does the "
              "gauge read? 52 psi found, 47 psi left'."),
    {.name = "how",
     .type = FIELD_TEXT,
     .need = IF_ANY,
     .since = 1,
     .at = offsetof(shown_turn, how),
     .among = &how_names,
     .doc = "On the last turn. gone: the trouble is gone; call: closed, somebody is called; "
            "made-safe: by whoever was called; waiting: for somebody; stopped: "
            "by a word; left: nothing was said; looked: nothing could be said; input-ended, "
            "signal: nothing more came; failed: standard error says why; elsewhere, came-back: it "
            "goes on in the "
            "case whose number is the turn's subject. But "
            "for the first three the case can be taken up again, if it was kept. Of a drill: gone "
            "and call, as its caller was left; else as of a case that was left."},
    FIELD(shown_turn, status, FIELD_WHOLE, IF_ANY, 1,
          "On the last turn: the exit status of the program."),
};
static const shape turn_shape = SHAPE("turn", shown_turn, turn_field_table, "");

/* ---- what fills it ---- */

static void put_choices(arena *keep, shown_turn *s, const tt_turn *t)
{
    shown_choice *choices = ARENA_ARRAY(keep, shown_choice, t->choice_count);
    const char **words = ARENA_ARRAY(keep, const char *, t->word_count);
    for (uint32_t i = 0; i < t->choice_count; i++)
        choices[i] =
            (shown_choice){i + 1, t->choices[i].id, t->choices[i].text, t->choices[i].picture};
    for (uint32_t i = 0; i < t->word_count; i++) words[i] = t->words[i].id;
    s->choices = choices;
    s->choices_count = t->choice_count;
    s->words = words;
    s->words_count = t->word_count;
}

static void put_parts(arena *keep, shown_turn *s, const tt_turn *t)
{
    shown_part *parts = ARENA_ARRAY(keep, shown_part, t->part_count);
    for (uint32_t i = 0; i < t->part_count; i++) {
        const tt_turn_part *p = &t->parts[i];
        parts[i] = (shown_part){tt_part_kind_name(p->kind), p->title, p->items, p->item_count,
                                p->numbered};
    }
    s->parts = parts;
    s->parts_count = t->part_count;
}

/* A line each, with the heading that it stands under. */
static void put_notes(arena *keep, shown_turn *s, const tt_turn *t)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < t->news_count; i++) count += t->news[i].item_count;
    const char **notes = ARENA_ARRAY(keep, const char *, count);
    for (uint32_t i = 0; i < t->news_count; i++) {
        const tt_turn_part *p = &t->news[i];
        for (uint32_t k = 0; k < p->item_count; k++)
            notes[s->notes_count++] =
                *p->title != 0 ? str_printf(keep, "%s %s", p->title, p->items[k]).p : p->items[k];
    }
    s->notes = notes;
}

static void put_wrong(arena *keep, shown_turn *s, const tt_turn *t, const turn_about *about)
{
    const char *text = about->wrong != NULL ? about->wrong : t->wrong;
    if (*text == 0) return;
    shown_wrong *wrong = ARENA_NEW(keep, shown_wrong);
    *wrong = (shown_wrong){about->wrong != NULL ? about->wrong_code : t->wrong_code, text};
    s->wrong = wrong;
}

static bool was_told(const turn_about *about, const char *text)
{
    for (uint32_t i = 0; i < about->cautions_told_count; i++)
        if (strcmp(about->cautions_told[i], text) == 0) return true;
    return false;
}

static void put_standing(arena *keep, shown_turn *s, const tt_turn *t, const turn_about *about)
{
    shown_leading *leading = ARENA_ARRAY(keep, shown_leading, t->leading_count);
    for (uint32_t i = 0; i < t->leading_count; i++)
        leading[i] = (shown_leading){t->leading[i].id, t->leading[i].text};
    shown_caution *cautions =
        (shown_caution *)(uintptr_t)(about->c != NULL
                                         ? cautions_of(keep, about->c, &s->cautions_count)
                                         : NULL);
    for (uint32_t i = 0; i < s->cautions_count; i++)
        cautions[i].is_new = !was_told(about, cautions[i].text);
    s->leading = leading;
    s->leading_count = t->leading_count;
    s->cautions = cautions;
    s->contacts = t->contacts;
    s->contacts_count = t->contact_count;
}

static void put_small_things(arena *keep, shown_turn *s, const tt_turn *t)
{
    shown_progress *progress = ARENA_NEW(keep, shown_progress);
    shown_gate *gate = ARENA_NEW(keep, shown_gate);
    *progress = (shown_progress){t->progress.asked, t->progress.minutes_left};
    *gate = (shown_gate){t->gate_open};
    s->progress = progress;
    s->gate = gate;
}

/* ---- things of the case ---- */

static bool is_question(tt_turn_kind kind)
{
    return kind == TT_TURN_DANGER || kind == TT_TURN_EARLY || kind == TT_TURN_QUESTION ||
           kind == TT_TURN_LOOK_AGAIN;
}

static bool is_fix(tt_turn_kind kind)
{
    return kind == TT_TURN_REVIEW || kind == TT_TURN_BEFORE_FIX || kind == TT_TURN_FIX_STEP ||
           kind == TT_TURN_OUTCOME || kind == TT_TURN_PUT_BACK;
}

static bool tells_standing(tt_turn_kind kind)
{
    return kind == TT_TURN_KNOWN || kind == TT_TURN_CALL || kind == TT_TURN_WAITING ||
           kind == TT_TURN_CLOSED || kind == TT_TURN_END;
}

static void put_case(arena *keep, shown_turn *s, const tt_turn *t, const turn_about *about)
{
    if (is_question(t->kind))
        s->question = question_of(keep, about->c, tt_question_find(about->book, t->subject));
    if (is_fix(t->kind)) {
        s->fix = plan_of(keep, about->c, tt_fix_find(about->book, t->subject));
        s->causes = causes_of(keep, about->c, &s->causes_count);
        s->likely = likely_of(keep, about->c);
    }
    if (!tells_standing(t->kind)) return;
    s->known = known_of(keep, about->book, about->c);
    s->tried = tried_of(keep, about->c, t->measured, &s->tried_count);
    s->different = different_of(keep, about->c, &s->different_count);
}

static void put_opening(arena *keep, shown_turn *s, const turn_about *about)
{
    tt_book_info info = tt_book_describe(about->book);
    if (about->c != NULL) (void)tt_case_describe(about->c, &info); /* else in the book's language */
    shown_opened *book = ARENA_NEW(keep, shown_opened);
    *book = (shown_opened){info.title, info.edition, about->opening->revision, info.cautions,
                           info.caution_count};
    s->book = book;
    s->site = site_of(
        keep, &(tt_origin){about->book, about->opening->revision, about->opening->site_revision});
}

tt_value turn_value(arena *keep, const tt_turn *t, const turn_about *about)
{
    assert(t->kind < TT_TURN_KINDS && about->text != NULL && about->case_number != NULL);
    const bool ends = t->kind == TT_TURN_END;
    shown_turn s = {.version = TURN_VERSION,
                    .turn = about->number,
                    .case_number = about->case_number,
                    .kind = tt_turn_kind_name(t->kind),
                    .language = t->language,
                    .subject = t->subject,
                    .title = t->title,
                    .together = t->together,
                    .prompt = t->prompt,
                    .say = t->say,
                    .text = about->text,
                    .key = about->key != NULL ? about->key : "",
                    .place = t->place,
                    .because = t->because,
                    .picture = t->picture,
                    .step = t->step,
                    .steps = t->steps,
                    .kept = t->kept,
                    .practice = t->practice,
                    .dangerous = t->dangerous,
                    .how = ends ? t->how : "",
                    .status = ends ? (double)about->status : (double)NAN};
    if (!about->only_told) s.takes = reply_ways(keep, t, &s.takes_count);
    put_small_things(keep, &s, t);
    put_choices(keep, &s, t);
    put_parts(keep, &s, t);
    put_notes(keep, &s, t);
    put_wrong(keep, &s, t, about);
    put_standing(keep, &s, t, about);
    if (about->c != NULL) put_case(keep, &s, t, about);
    if (about->opening != NULL && about->book != NULL) put_opening(keep, &s, about);
    return shape_value(keep, &turn_shape, &s);
}

/* ---- the schema ---- */

static const char schema_doc[] =
    "Version 2. `ask --json` writes one turn a line, and reads one reply a line (see the "
    "definition of a reply) to each whose `takes` names a key. The very first line "
    "may begin the conversation with a given case, writer and moment instead (see the definition "
    "of a beginning), so that it can be played again byte for "
    "byte: then its first turn comes anew. With --many one process holds many conversations: each "
    "is opened by a line of its own (see the definition of an opening), and each reply, beginning "
    "and turn has its `key`; they come in any order, and `ask` ends when its input does. Keys and "
    "kinds may be added, and then the version "
    "stays; a key never changes its meaning or goes away without a "
    "new version. Numbers have 10 significant digits. What was said is on the disk before the next "
    "turn comes, unless `kept` says otherwise.";

tt_value turn_schema(arena *keep)
{
    value_builder definitions = value_map(keep),
                  schema = schema_head(keep, "A turn of `telltale ask --json`", schema_doc);
    const tt_value turn = shape_schema(keep, &turn_shape, &definitions);
    value_put(&definitions, "reply", reply_schema(keep));
    value_put(&definitions, "beginning", beginning_schema(keep));
    value_put(&definitions, "opening", opening_schema(keep));
    for (uint32_t i = 0; i < turn.count; i++) value_put(&schema, turn.keys[i], turn.items[i]);
    value_put(&schema, "definitions", value_done(&definitions));
    return value_done(&schema);
}
