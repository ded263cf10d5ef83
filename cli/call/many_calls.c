/* Many calls of one program. A line names the call that it is for, and so does the turn that
 * answers it. Each call is held on a thread of its own, since it waits in the middle of what it
 * does; but only one of them runs at a time, handed on with the lock: the one that a line came for,
 * until it shows its next turn. So nothing that they share is touched by two. */
#include "call/many_calls.h"

#include <assert.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/grow.h"
#include "base/value.h"
#include "books/book_cache.h"
#include "call/call_parts.h"
#include "face/turn_line.h"
#include "host/memory.h"
#include "host/screen.h"
#include "say/catalogue.h"

enum { STACK_OF_A_CALL = 4 << 20, LONGEST_KEY = 64 };

typedef struct many many;

typedef struct one_call {
    many *all;
    arena *keep; /* key, options */
    const char *key;
    command_line line; /* as the program was begun, with what this call says otherwise */
    face *face;
    pthread_t thread;
    pthread_cond_t turn; /* it may run */
    bool runs, has_ended;
    face_got got; /* what comes next: */
    const char *said;
} one_call;

struct many {
    const command_line *line;
    arena *keep;
    line_input input;
    face reads; /* lines, for all of them */
    turn_lines refusals;
    book_cache *books;
    pthread_mutex_t lock;
    pthread_cond_t back; /* the call that ran waits, or has ended */
    one_call **calls;
    uint32_t count, room;
};

/* ---- one call, on its thread ---- */

static face_got next_line(face *f, const char **line)
{
    one_call *c = f->many;
    c->runs = false;
    pthread_cond_signal(&c->all->back);
    while (!c->runs) pthread_cond_wait(&c->turn, &c->all->lock);
    *line = c->said;
    return c->got;
}

static void *hold_call(void *context)
{
    one_call *c = context;
    pthread_mutex_lock(&c->all->lock);
    while (!c->runs) pthread_cond_wait(&c->turn, &c->all->lock);
    (void)take_call(&c->line, c->face, &(call_wish){.kind = TT_KIND_FAULT, .books = c->all->books});
    c->has_ended = true;
    c->runs = false;
    pthread_cond_signal(&c->all->back);
    pthread_mutex_unlock(&c->all->lock);
    return NULL;
}

/* Until it waits for the next line, or has ended. The lock is held before and after. */
static void let_run(one_call *c)
{
    c->runs = true;
    pthread_cond_signal(&c->turn);
    while (c->runs) pthread_cond_wait(&c->all->back, &c->all->lock);
}

/* ---- all of them ---- */

static one_call *call_named(const many *m, const char *key)
{
    for (uint32_t i = 0; i < m->count; i++)
        if (strcmp(m->calls[i]->key, key) == 0) return m->calls[i];
    return NULL;
}

static void drop(many *m, one_call *c)
{
    uint32_t i = 0;
    pthread_mutex_unlock(&m->lock);
    pthread_join(c->thread, NULL);
    pthread_mutex_lock(&m->lock);
    while (m->calls[i] != c) i++;
    m->calls[i] = m->calls[--m->count];
    pthread_cond_destroy(&c->turn);
    face_end(c->face);
    arena_free(c->keep);
}

static void hand(many *m, one_call *c, face_got got, const char *line)
{
    c->got = got;
    c->said = line;
    let_run(c);
    if (c->has_ended) drop(m, c);
}

static bool begin_thread(one_call *c)
{
    pthread_attr_t how;
    if (pthread_attr_init(&how) != 0) return false;
    const bool begun = pthread_attr_setstacksize(&how, STACK_OF_A_CALL) == 0 &&
                       pthread_create(&c->thread, &how, hold_call, c) == 0;
    pthread_attr_destroy(&how);
    return begun;
}

/* ---- lines ---- */

/* What a call may say otherwise than the program was begun with. */
static const option_id of_a_call[] = {
    OPTION_SITE,   OPTION_CASE,     OPTION_AS,        OPTION_NAME,      OPTION_CALLER,
    OPTION_TICKET, OPTION_LANGUAGE, OPTION_CALL_BACK, OPTION_TELEPHONE, OPTION_PRACTICE};

/* False: there is no such key, or it has no such value. */
static bool take_option(one_call *c, const char *key, const tt_value *v)
{
    for (size_t i = 0; i < sizeof of_a_call / sizeof of_a_call[0]; i++) {
        const option_entry *option = &option_table[of_a_call[i]];
        if (strcmp(option->name, key) != 0) continue;
        const bool is_switch = option->value == NULL;
        if (v->kind != (is_switch ? TT_VALUE_BOOL : TT_VALUE_TEXT)) return false;
        const char *value = is_switch ? "" : arena_copy(c->keep, v->text);
        c->line.values[of_a_call[i]] = is_switch && !v->truth ? NULL : value;
        return true;
    }
    return false;
}

static bool take_options(one_call *c, const tt_value *open)
{
    if (open->kind != TT_VALUE_MAP) return false;
    if (value_truth(open, "practice")) c->line.values[OPTION_SITE] = NULL;
    for (uint32_t i = 0; i < open->count; i++)
        if (!take_option(c, open->keys[i], &open->items[i])) return false;
    return check_talk_options(&c->line) == EXIT_DONE;
}

/* Nothing has changed by it. */
static void refuse(many *m, const char *key, const char *code, text_id text)
{
    const reply_fault fault = {code, catalogue_text(TO_AUTHORS, text)};
    const tt_turn turn = {.kind = TT_TURN_REFUSED,
                          .subject = "",
                          .title = "",
                          .prompt = fault.text,
                          .say = fault.text,
                          .place = "",
                          .because = "",
                          .wrong = "",
                          .wrong_code = "",
                          .how = "",
                          .takes = {.unit = ""},
                          .kept = true};
    m->refusals.key = key;
    m->refusals.number = 1;
    const face_about about = {.case_number = "", .revision = "", .site_revision = ""};
    const str line = turn_as_line(&m->refusals, m->reads.shown, &turn, &about, &fault);
    fwrite(line.p, 1, line.n, stdout);
    fputc('\n', stdout);
    fflush(stdout);
}

static one_call *new_call(many *m, const char *key)
{
    arena *keep = host_arena();
    one_call *c = ARENA_NEW(keep, one_call);
    *c = (one_call){.all = m, .keep = keep, .key = arena_copy(keep, key), .line = *m->line};
    c->face = json_lines_new(stdout, &m->input);
    c->face->many = c;
    c->face->next_line = next_line;
    json_lines_key(c->face, c->key);
    pthread_cond_init(&c->turn, NULL);
    return c;
}

static void open_call(many *m, const char *key, const tt_value *open)
{
    if (call_named(m, key) != NULL) {
        refuse(m, key, "key-in-use", MANY_IN_USE);
        return;
    }
    one_call *c = new_call(m, key);
    const bool taken = take_options(c, open);
    if (taken && begin_thread(c)) {
        GROW(m->keep, m->calls, m->count, m->room);
        m->calls[m->count++] = c;
        hand(m, c, FACE_REPLY, NULL);
        return;
    }
    refuse(m, key, taken ? "too-many" : "wrong-type", taken ? MANY_TOO_MANY : MANY_OPEN);
    pthread_cond_destroy(&c->turn);
    face_end(c->face);
    arena_free(c->keep);
}

static void take_line(many *m, const char *line)
{
    tt_value said = value_null;
    reply_fault fault;
    const bool read = line != NULL && reply_line_value(m->reads.shown, str_of(line), &said, &fault);
    const char *key = read ? value_text(&said, "key") : NULL;
    const bool is_key = key != NULL && *key != 0 && strlen(key) <= LONGEST_KEY;
    const tt_value *open = is_key ? value_get(&said, "open") : NULL;
    one_call *c = is_key ? call_named(m, key) : NULL;
    if (!is_key)
        refuse(m, NULL, "no-key", MANY_NO_KEY);
    else if (open != NULL)
        open_call(m, key, open);
    else if (c == NULL)
        refuse(m, key, "no-such-call", MANY_NO_SUCH);
    else
        hand(m, c, FACE_REPLY, arena_copy(c->face->shown, line));
}

static face_got take_lines(many *m)
{
    face_got got;
    const char *line;
    do {
        arena_back_to(m->reads.shown, (arena_mark){NULL, 0});
        got = face_read_line(&m->reads, &line);
        if (got == FACE_REPLY) take_line(m, line);
    } while (got == FACE_REPLY && ferror(stdout) == 0);
    return got;
}

/* ---- the verb ---- */

static const char *what_is_wrong(const command_line *line)
{
    static const option_id alone[] = {OPTION_CASE, OPTION_ANSWERS, OPTION_NO_INPUT};
    if (!is_given(line, OPTION_JSON)) return "--many is for programs: add --json";
    for (size_t i = 0; i < sizeof alone / sizeof alone[0]; i++)
        if (is_given(line, alone[i]))
            return "--case, --answers and --no-input are of one call: each says its own in "
                   "\"open\"";
    return NULL;
}

static many *take_many(const command_line *line)
{
    arena *keep = host_arena();
    many *m = ARENA_NEW(keep, many);
    *m = (many){.line = line, .keep = keep, .books = book_cache_new()};
    line_input_begin(&m->input, STDIN_FILENO);
    m->reads = (face){.input = &m->input, .shown = host_arena()};
    m->refusals.keep = keep;
    pthread_mutex_init(&m->lock, NULL);
    pthread_cond_init(&m->back, NULL);
    return m;
}

static exit_status end_many(many *m, face_got got)
{
    assert(m->count == 0);
    book_cache_free(m->books);
    pthread_cond_destroy(&m->back);
    pthread_mutex_destroy(&m->lock);
    arena_free(m->reads.shown);
    arena_free(m->keep);
    return got == FACE_ENDED || got == FACE_SIGNAL ? EXIT_DONE : EXIT_IO;
}

exit_status many_calls(const command_line *line)
{
    const char *wrong = what_is_wrong(line);
    if (wrong != NULL) {
        complain("%s", wrong);
        return EXIT_USAGE;
    }
    many *m = take_many(line);
    pthread_mutex_lock(&m->lock);
    face_got got = take_lines(m);
    /* Each is left as if its own input had ended. */
    while (m->count > 0) hand(m, m->calls[0], got == FACE_REPLY ? FACE_FAILED : got, NULL);
    pthread_mutex_unlock(&m->lock);
    return end_many(m, got);
}
