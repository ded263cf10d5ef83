/* Turns on a terminal, page by page; and as running lines, for pipes and for whoever listens to the
 * screen instead of looking at it. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/str.h"
#include "face/face.h"
#include "face/page_layout.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "host/screen.h"
#include "say/catalogue.h"

typedef struct terminal {
    face face;
    bool plain, colour, asks_nothing;
    uint32_t told_rows; /* that nobody was asked to read yet */
} terminal;

static void put(FILE *out, str text)
{
    if (text.n > 0) fwrite(text.p, 1, text.n, out);
}

/* ---- running lines ---- */

static void put_lines(terminal *t, const tt_turn *turn)
{
    const blocks all = compose_turn(
        t->face.shown, turn, (compose_wishes){.telephone = t->face.telephone, .enter = true});
    fputc('\n', t->face.out);
    for (uint32_t i = 0; i < all.count; i++) {
        if (all.items[i].told_below) continue;
        put(t->face.out, all.items[i].lead);
        put(t->face.out, all.items[i].text);
        fputc('\n', t->face.out);
    }
}

/* What comes from a pipe nobody sees being typed. */
static face_got read_reply(terminal *t, const char **line)
{
    fflush(t->face.out);
    const face_got got = face_read_line(&t->face, line);
    if (got == FACE_NEWS && t->face.input->terminal)
        fputc('\n', t->face.out); /* behind the prompt */
    if (!t->face.input->terminal) fprintf(t->face.out, "%s\n", *line != NULL ? *line : "");
    return got;
}

static face_got ask_in_lines(terminal *t, const tt_turn *turn, const char **line)
{
    put_lines(t, turn);
    fputs("> ", t->face.out);
    return read_reply(t, line);
}

/* ---- pages ---- */

static void put_row(terminal *t, const row *r)
{
    const ink of_lead = r->ink == INK_CHOICE ? INK_CHOICE : INK_PLAIN,
              of_text = r->ink == INK_CHOICE ? INK_PLAIN : r->ink;
    const bool leads = t->colour && *ink_begin(of_lead) != 0,
               texts = t->colour && *ink_begin(of_text) != 0 && r->text.n > 0;
    if (leads) fputs(ink_begin(of_lead), t->face.out);
    put(t->face.out, r->lead);
    if (leads) fputs(ink_end, t->face.out);
    if (texts) fputs(ink_begin(of_text), t->face.out);
    put(t->face.out, r->text);
    if (texts) fputs(ink_end, t->face.out);
    if (!r->runs_on) fputc('\n', t->face.out);
}

static void put_page(terminal *t, const page *p)
{
    for (uint32_t i = 0; i < p->count; i++) put_row(t, &p->rows[i]);
}

static void put_prompt(terminal *t)
{
    if (t->colour) fputs(ink_begin(INK_PROMPT), t->face.out);
    fputs("> ", t->face.out);
    if (t->colour) fputs(ink_end, t->face.out);
}

/* As it is typed in the language of the turn; null: it is no word there. */
static const char *word_typed(const tt_turn *turn, const char *word)
{
    for (uint32_t i = 0; i < turn->word_count; i++)
        if (strcmp(turn->words[i].id, word) == 0)
            return turn->words[i].said != NULL ? turn->words[i].said : turn->words[i].id;
    return NULL;
}

/* Danger and stop are one word away on every page. */
static void put_pause(terminal *t, const tt_turn *turn)
{
    arena *keep = t->face.shown;
    const tongue in = tongue_of(turn->language);
    const char *danger = word_typed(turn, "danger"), *stop = word_typed(turn, "stop");
    const char *words =
        danger != NULL && stop != NULL ? FILL(keep, in, PAGE_TWO, danger, stop) : danger;
    fprintf(t->face.out, "%s\n",
            words != NULL ? FILL(keep, in, PAGE_MORE_OR, words) : catalogue_text(in, PAGE_MORE));
}

static pages pages_of(terminal *t, const tt_turn *turn)
{
    const screen now = screen_on(t->face.out);
    const blocks all = compose_turn(
        t->face.shown, turn, (compose_wishes){.telephone = t->face.telephone, .enter = true});
    return lay_out(t->face.shown, &all, now.width, now.height);
}

/* What was told would be pushed off the screen by the page that comes: it is read first. */
static bool pushes_off(const terminal *t, const page *next)
{
    const screen now = screen_on(t->face.out);
    return t->told_rows > 0 && now.height > 0 && t->told_rows + next->count + 1 > now.height;
}

/* An answer on an earlier page is taken at once; the talk is told that the rest was not shown yet.
 */
static face_got ask_on_pages(terminal *t, const tt_turn *turn, const char **line, bool *unread)
{
    const pages all = pages_of(t, turn);
    const bool told = pushes_off(t, &all.items[0]);
    t->told_rows = 0;
    if (told) {
        put_pause(t, turn);
        put_prompt(t);
        const face_got got = read_reply(t, line);
        *unread = true;
        if (got != FACE_REPLY || *line == NULL || **line != 0) return got;
    }
    for (uint32_t i = 0;; i++) {
        const bool last = i + 1 == all.count;
        put_page(t, &all.items[i]);
        if (!last) put_pause(t, turn);
        put_prompt(t);
        const face_got got = read_reply(t, line);
        *unread = !last;
        if (got != FACE_REPLY || last || *line == NULL || **line != 0) return got;
    }
}

/* ---- the face ---- */

static face_got ask(face *f, const tt_turn *turn, tt_heard *reply)
{
    terminal *t = (terminal *)f;
    tt_turn shown = *turn;
    *reply = (tt_heard){.turn = turn->number};
    for (;;) {
        const char *line = NULL;
        arena_back_to(f->shown, (arena_mark){NULL, 0});
        const face_got got = t->plain ? ask_in_lines(t, &shown, &line)
                                      : ask_on_pages(t, &shown, &line, &reply->unread);
        if (got != FACE_REPLY) return got;
        const bool empty = line != NULL && *line == 0;
        const tt_turn_choice *taken = empty ? enter_takes(turn) : NULL;
        reply->choice = taken != NULL ? taken->id : NULL;
        reply->words = empty ? NULL : line;
        if (reply->choice != NULL || reply->words != NULL) return FACE_REPLY;
        if (line == NULL) shown.wrong = catalogue_text(tongue_of(turn->language), PAGE_TOO_LONG);
    }
}

static bool tell(face *f, const tt_turn *turn)
{
    terminal *t = (terminal *)f;
    arena_back_to(f->shown, (arena_mark){NULL, 0});
    if (t->plain) {
        put_lines(t, turn);
        return fflush(f->out) == 0;
    }
    const pages all = pages_of(t, turn);
    for (uint32_t i = 0; i < all.count; i++) {
        const char *line = NULL;
        put_page(t, &all.items[i]);
        t->told_rows = all.items[i].count + (i > 0 ? 0 : t->told_rows);
        if (i + 1 == all.count) break;
        if (t->asks_nothing) continue;
        put_pause(t, turn);
        put_prompt(t);
        if (read_reply(t, &line) != FACE_REPLY) fputc('\n', f->out);
    }
    return fflush(f->out) == 0;
}

static void end(face *f)
{
    free(f);
}

face *terminal_new(FILE *out, line_input *input, terminal_wishes wishes)
{
    terminal *t = take_memory(sizeof *t);
    const bool terminal_out = screen_on(out).terminal, both = terminal_out && input->terminal;
    t->face = (face){.ask = ask,
                     .tell = tell,
                     .end = end,
                     .input = input,
                     .out = out,
                     .shown = host_arena(),
                     .about = {.case_number = "", .revision = "", .site_revision = ""}};
    t->plain = wishes.plain || !both;
    t->asks_nothing = wishes.asks_nothing;
    t->colour = !wishes.plain && colour_is_on(wishes.colour, terminal_out);
    return &t->face;
}
