/* A complaint about a kind of equipment: at which of its pieces? */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "face/piece_order.h"
#include "host/plain_text.h"

typedef enum answer_which { WHICH_TOLD, WHICH_AGAIN, WHICH_LEFT } answer_which;

/* The pieces of one kind, and those of them that were named. */
typedef struct which {
    uint32_t *pieces;
    const char **texts, **names; /* "all" and "not sure" behind them */
    unsigned count;
    uint32_t *named;
    uint32_t named_count;
} which;

static which pieces_of(const ask *a, uint32_t kind)
{
    uint32_t all = tt_piece_count(a->book.book), *order = pieces_in_order(a->book.book);
    which w = {.pieces = take_memory(all * sizeof *w.pieces),
               .texts = take_memory((all + 2) * sizeof *w.texts),
               .names = take_memory((all + 2) * sizeof *w.names),
               .named = take_memory(all * sizeof *w.named)};
    for (uint32_t i = 0; i < all; i++) {
        tt_piece piece = tt_piece_show(a->book.book, order[i]);
        if (piece.kind != kind) continue;
        w.pieces[w.count] = order[i];
        w.texts[w.count] = piece.text;
        w.names[w.count++] = piece.name;
    }
    w.texts[w.count] = "All of them";
    w.texts[w.count + 1] = "Not sure which";
    w.names[w.count] = "all";
    w.names[w.count + 1] = "unsure";
    free(order);
    return w;
}

static void forget_pieces(which *w)
{
    free(w->pieces);
    free(w->texts);
    free(w->names);
    free(w->named);
}

static void name_piece(which *w, unsigned index)
{
    for (uint32_t i = 0; i < w->named_count; i++)
        if (w->named[i] == w->pieces[index]) return;
    w->named[w->named_count++] = w->pieces[index];
}

/* One of several: false if it is none of the pieces. */
static bool take_part(which *w, const char *part)
{
    int chosen = choice_of(part, w->texts, w->count);
    if (chosen < 0) chosen = choice_of(part, w->names, w->count);
    if (chosen >= 0) name_piece(w, (unsigned)chosen);
    return chosen >= 0;
}

/* "1 3" is "1, 3". */
static const char *separators_of(const char *line)
{
    return strspn(line, "0123456789 ,") == strlen(line) ? " ," : ",";
}

static bool take_several(which *w, const char *line)
{
    char *parts = copy_text(line), *rest = NULL;
    bool good = true;
    for (char *part = strtok_r(parts, separators_of(line), &rest); good && part != NULL;
         part = strtok_r(NULL, separators_of(line), &rest))
        good = take_part(w, part);
    free(parts);
    if (!good) w->named_count = 0;
    return good && w->named_count > 0;
}

static answer_which take_which(ask *a, which *w, const char *line)
{
    ask_word word = ask_word_of(line);
    int whole = *line != ':' ? choice_of(line, w->texts, w->count + 2) : -1;
    if (whole == (int)w->count + 1 || (whole < 0 && word == WORD_UNSURE)) return WHICH_TOLD;
    if (whole == (int)w->count)
        for (unsigned i = 0; i < w->count; i++) name_piece(w, i);
    else if (whole >= 0)
        name_piece(w, (unsigned)whole);
    if (whole >= 0 || (*line != ':' && take_several(w, line))) return WHICH_TOLD;
    if (word == WORD_BACK) return WHICH_LEFT;
    if (word != WORD_NONE) {
        ask_do_word(a, word, TT_NONE);
        return a->leaving == STAYING ? WHICH_AGAIN : WHICH_LEFT;
    }
    say_wrong(a, "That is none of them. Type a number from 1 to %u, or several: 1,2.", w->count + 2);
    return WHICH_AGAIN;
}

static answer_which ask_which(ask *a, which *w, const char *one)
{
    static const unsigned offered =
        1 << WORD_KNOWN | 1 << WORD_BACK | 1 << WORD_STOP | 1 << WORD_HELP;
    say_nothing(&a->s);
    ask_for(a, "which", "Which %s is it? If it is several, type their numbers, like 1,2.", one);
    show_choices(a, w->texts, w->count + 2);
    turn_choices(a->turn, w->names, w->texts, w->count + 2);
    turn_takes(a->turn, "options");
    offer_words(a, offered, TT_NONE);
    char *line = hear(a);
    answer_which told = line != NULL ? take_which(a, w, line) : WHICH_LEFT;
    free(line);
    return told;
}

static void take_complaint(ask *a, const tt_complaint *complaint, const char *said, const which *w)
{
    if (!step_complaint(a, complaint, said, w->named, w->named_count))
        say_wrong(a, "That can't be said of these.");
}

void ask_complain_of(ask *a, const tt_complaint *complaint, const char *said)
{
    if (complaint->kind == TT_NONE) {
        step_complaint(a, complaint, said, NULL, 0);
        return;
    }
    tt_kind kind = tt_kind_show(a->book.book, complaint->kind);
    which w = pieces_of(a, complaint->kind);
    answer_which told = WHICH_AGAIN;
    if (w.count == 1) {
        name_piece(&w, 0);
        told = WHICH_TOLD;
    }
    while (told == WHICH_AGAIN) told = ask_which(a, &w, kind.one);
    if (told == WHICH_TOLD) take_complaint(a, complaint, said, &w);
    forget_pieces(&w);
}
