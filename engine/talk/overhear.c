/* What a host hears at a question of its own, which no talk is asked. */
#include <assert.h>
#include <math.h>

#include "base/unicode.h"
#include "listen/listen.h"
#include "session/session.h"
#include "talk/talk.h"

typedef struct overhearing {
    const tt_book *book;
    const char *words;
    bool name;
    arena *hearing, *scratch;
    tt_overheard *out;
} overhearing;

/* A name may sound like an answer, and a list of names like much; so there only what says clearly
 * what is wrong, and nothing else, is taken for that. */
static bool is_complaint_alone(const listen_parts *parts, str line)
{
    return parts->count == 1 && parts->items[0].kind == LISTEN_COMPLAINT &&
           parts->items[0].complaint->kind == COMPLAINT_CLEAR &&
           str_find_byte(line, ',') == SIZE_MAX;
}

/* The best of those that were heard. A clear one is told apart from its like. */
static double complaint_in_units(const listen_parts *parts)
{
    double best = 0;
    for (uint32_t i = 0; i < parts->count; i++) {
        if (parts->items[i].kind != LISTEN_COMPLAINT) continue;
        const complaint_heard *c = parts->items[i].complaint;
        best = fmax(best, c->ranked[0].evidence / log(1.0 + c->count));
    }
    return best;
}

static bool tells(const overhearing *o, const listener *ear, str line)
{
    if (listen_manner(ear, o->scratch, line) != 0) return false;
    const listen_parts parts = listen_all(ear, o->scratch, NO_ID, NULL, line);
    o->out->complaint = complaint_in_units(&parts);
    if (o->name) return is_complaint_alone(&parts, line);
    bool told = false;
    for (uint32_t i = 0; i < parts.count; i++) told = told || parts.items[i].kind != LISTEN_UNUSED;
    return told;
}

static tt_status overhear(void *context)
{
    const overhearing *o = context;
    const str line = str_trim(unicode_clean(o->scratch, str_of(o->words)));
    const talk_word word = word_said(o->scratch, line);
    const listener *ear = book_ear(o->book, o->hearing, o->scratch);
    const dangers d = listen_danger(ear, o->scratch, line, o->name ? LISTEN_NOTE : LISTEN_PROMPT);
    const bool cries = o->name && d.list == DANGER_NONE &&
                       listen_danger(ear, o->scratch, line, LISTEN_PROMPT).list == DANGER_HELP;
    const bool tells_it = word == WORD_NONE && tells(o, ear, line);
    o->out->told = tells_it && d.list == DANGER_NONE;
    o->out->doubtful = d.doubtful || cries;
    o->out->word = word != WORD_NONE ? word_name(word) : "";
    o->out->reply = word == WORD_NONE && listen_manner(ear, o->scratch, line) != 0;
    o->out->danger = d.list != DANGER_NONE || word == WORD_DANGER || cries;
    return TT_OK;
}

tt_status tt_overhear(const tt_book *book, const char *words, bool name, tt_overheard *out)
{
    assert(book != NULL && words != NULL);
    *out = (tt_overheard){.word = "", .danger = true};
    overhearing o = {book, words, name, arena_new(NULL, NULL), arena_new(NULL, NULL), out};
    tt_status status = TT_NO_MEMORY;
    if (o.hearing != NULL && o.scratch != NULL)
        status = guarded((arena *[]){o.hearing, o.scratch}, 2, overhear, &o);
    arena_free(o.hearing);
    arena_free(o.scratch);
    return status;
}

typedef struct asking_language {
    const char *words;
    arena *scratch;
    tongue asked;
} asking_language;

static tt_status hear_language(void *context)
{
    asking_language *a = context;
    assert(a->words != NULL && a->asked == TONGUE_COUNT);
    a->asked = tongue_asked(a->scratch, str_trim(unicode_clean(a->scratch, str_of(a->words))));
    return TT_OK;
}

const char *tt_language_asked(const char *words)
{
    asking_language a = {words, arena_new(NULL, NULL), TONGUE_COUNT};
    if (a.scratch != NULL) (void)guarded(&a.scratch, 1, hear_language, &a);
    arena_free(a.scratch);
    return a.asked != TONGUE_COUNT ? tongue_tag(a.asked) : NULL;
}
