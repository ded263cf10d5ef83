#include "clingo_kit.h"

#include "skips.h"
#include "testing.h"

#include <stdarg.h>
#include <stdlib.h>
#include <sys/wait.h>

enum { PARTS_MOST = 16 };

/* What is being written; parts of conditions that need a name are numbered as they come. */
typedef struct writing {
    FILE *out;
    uint32_t set, parts;
} writing;

/* What may stand in a body: `a(1,2)`, `not x(1,7)`. */
typedef struct literal {
    char text[48];
} literal;

static literal literal_of(writing *w, const expr *e);

static __attribute__((format(printf, 1, 2))) literal literal_text(const char *format, ...)
{
    literal x;
    va_list list;
    va_start(list, format);
    int n = vsnprintf(x.text, sizeof x.text, format, list);
    va_end(list);
    assert_true(n > 0 && (size_t)n < sizeof x.text);
    return x;
}

static bool one_state(const expr *e)
{
    return e->kind == EXPR_IS && e->mask != 0 && (e->mask & (e->mask - 1)) == 0;
}

static unsigned lowest_state(state_mask mask)
{
    unsigned state = 0;
    while ((mask >> state & 1) == 0) state++;
    return state;
}

/* head :- c, d.   or, for any of them,   head :- c.  head :- d. */
static void write_many(writing *w, const char *head, const expr *e)
{
    literal parts[PARTS_MOST];
    assert_true(e->count <= PARTS_MOST);
    for (uint32_t i = 0; i < e->count; i++) parts[i] = literal_of(w, e->parts[i]);
    if (e->kind == EXPR_ANY) {
        for (uint32_t i = 0; i < e->count; i++) fprintf(w->out, "%s :- %s.\n", head, parts[i].text);
        return;
    }
    fprintf(w->out, "%s%s", head, e->count == 0 ? "" : " :- ");
    for (uint32_t i = 0; i < e->count; i++)
        fprintf(w->out, "%s%s", i == 0 ? "" : ", ", parts[i].text);
    fprintf(w->out, ".\n");
}

static void write_at_least(writing *w, const char *head, const expr *e)
{
    literal parts[PARTS_MOST];
    assert_true(e->count <= PARTS_MOST);
    for (uint32_t i = 0; i < e->count; i++) parts[i] = literal_of(w, e->parts[i]);
    fprintf(w->out, "%s :- %u <= #count { ", head, (unsigned)e->number);
    for (uint32_t i = 0; i < e->count; i++)
        fprintf(w->out, "%s%u : %s", i == 0 ? "" : "; ", (unsigned)i, parts[i].text);
    fprintf(w->out, " }.\n");
}

static void write_states(const writing *w, const char *head, const expr *e)
{
    for (state_mask left = e->mask; left != 0; left &= left - 1)
        fprintf(w->out, "%s :- is(%u,%u,%u).\n", head, (unsigned)w->set, (unsigned)e->subject,
                lowest_state(left));
}

/* The head holds if the condition does. */
static void write_rule(writing *w, const char *head, const expr *e)
{
    if (e->kind == EXPR_ALL || e->kind == EXPR_ANY)
        write_many(w, head, e);
    else if (e->kind == EXPR_AT_LEAST)
        write_at_least(w, head, e);
    else if (e->kind == EXPR_IS)
        write_states(w, head, e);
    else if (e->kind == EXPR_KNOWN)
        fprintf(w->out, "%s :- is(%u,%u,_).\n", head, (unsigned)w->set, (unsigned)e->subject);
    else
        fprintf(w->out, "%s :- %s.\n", head, literal_of(w, e).text);
}

static literal literal_of(writing *w, const expr *e)
{
    if (e->kind == EXPR_ATOM)
        return literal_text("a(%u,%u)", (unsigned)w->set, (unsigned)e->subject);
    if (one_state(e))
        return literal_text("is(%u,%u,%u)", (unsigned)w->set, (unsigned)e->subject,
                            lowest_state(e->mask));
    if (e->kind == EXPR_NOT) {
        literal inner = literal_of(w, e->parts[0]);
        if (strncmp(inner.text, "not ", 4) != 0) return literal_text("not %.40s", inner.text);
        literal named = literal_text("x(%u,%u)", (unsigned)w->set, (unsigned)w->parts++);
        fprintf(w->out, "%s :- %s.\n", named.text, inner.text);
        return literal_text("not %.40s", named.text);
    }
    literal named = literal_text("x(%u,%u)", (unsigned)w->set, (unsigned)w->parts++);
    write_rule(w, named.text, e);
    return named;
}

void clingo_write(FILE *out, uint32_t set, const rule_kit *k, const uint32_t *answered)
{
    writing w = {.out = out, .set = set};
    for (uint32_t f = 0; f < k->finding_count; f++)
        fprintf(out, "is(%u,%u,%u).\n", (unsigned)set, (unsigned)f, (unsigned)answered[f]);
    for (uint32_t i = 0; i < k->body_count; i++)
        write_rule(&w, literal_text("a(%u,%u)", (unsigned)set, (unsigned)k->bodies[i].atom).text,
                   k->bodies[i].when);
}

/* Exit statuses of clingo: 10 and 30 with a model (30: it has looked everywhere), 20 without. */
static void run_program(const char *program)
{
    char command[512];
    need_program("clingo", "gringo");
    int n = snprintf(command, sizeof command,
                     "clingo -V0 --warn=none --models=2 %s >models 2>complaints", program);
    assert_true(n > 0 && (size_t)n < sizeof command);
    int status = system(command);
    int code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    if (code != 10 && code != 20 && code != 30)
        fail_msg("clingo ended with %d: see its file `complaints`", code);
}

static void add_atom(clingo_found *found, size_t *room, const char *word)
{
    unsigned set, atom;
    if (found->count == *room) {
        *room = *room == 0 ? 1024 : *room * 2;
        found->atoms = realloc(found->atoms, *room * sizeof *found->atoms);
        assert_non_null(found->atoms);
    }
    if (sscanf(word, "a(%u,%u)", &set, &atom) != 2) fail_msg("clingo says: %s", word);
    found->atoms[found->count].set = set;
    found->atoms[found->count++].atom = atom;
}

/* One line a model, an empty one too; then a line that says how it ended. */
static void read_models(FILE *models, clingo_found *found)
{
    char word[64];
    size_t room = 0, length = 0;
    uint32_t lines = 0;
    bool ended = false;
    for (int c = getc(models); c != EOF; c = getc(models)) {
        if (c != ' ' && c != '\n') {
            assert_true(length + 1 < sizeof word);
            word[length++] = (char)c;
            continue;
        }
        word[length] = '\0';
        ended = ended || strstr(word, "SATISFIABLE") != NULL;
        if (length > 0 && lines == 0 && !ended) add_atom(found, &room, word);
        length = 0;
        if (c == '\n' && !ended) lines++;
    }
    assert_true(ended);
    found->models = lines;
}

clingo_found clingo_run(const char *program)
{
    clingo_found found = {0};
    run_program(program);
    FILE *models = fopen("models", "r");
    assert_non_null(models);
    read_models(models, &found);
    fclose(models);
    return found;
}

void clingo_free(clingo_found *found)
{
    free(found->atoms);
}
