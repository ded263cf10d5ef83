/* Calls at random through the program itself (TT_FACE_CALLS says how many for each face): running
 * lines, a telephone, and JSON for programs. What is shown decides: a page that offers a fix while
 * danger was not ruled out by what was typed before, or one above the role, is counted. Whether
 * danger is ruled out is worked out from the lines that were typed, and not asked of the engine. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include <jansson.h>

#include "base/str.h"
#include "book_folder.h"
#include "luck.h"
#include "say/catalogue.h"
#include "test_sources.h"

enum { CALLS = 6, MOST_REPLIES = 40, MOST_CHOICES = 40 };

static uint64_t luck;

static struct {
    uint64_t calls, pages, fixes, shut, above;
} seen;

/* ---- the program, over two pipes ---- */

typedef struct program {
    pid_t pid;
    FILE *to, *from;
} program;

static program start(const char *book, const char *face)
{
    int in[2], out[2];
    char command[4096];
    program p;
    assert_int_equal(pipe(in), 0);
    assert_int_equal(pipe(out), 0);
    snprintf(command, sizeof command,
             "exec '%s' ask '" TT_SOURCE_DIR "/%s' --unsaved --practice %s 2>face-err", TT_PROGRAM,
             book, face);
    p.pid = fork();
    assert_true(p.pid >= 0);
    if (p.pid == 0) {
        dup2(in[0], STDIN_FILENO);
        dup2(out[1], STDOUT_FILENO);
        for (int i = 0; i < 2; i++) {
            close(in[i]);
            close(out[i]);
        }
        execl("/bin/sh", "sh", "-c", command, (char *)NULL);
        _exit(127);
    }
    close(in[0]);
    close(out[1]);
    p.to = fdopen(in[1], "w");
    p.from = fdopen(out[0], "r");
    return p;
}

static void end(program *p)
{
    int status = 0;
    fclose(p->to);
    while (fgetc(p->from) != EOF) {
    }
    fclose(p->from);
    assert_int_equal(waitpid(p->pid, &status, 0), p->pid);
    assert_true(WIFEXITED(status));
}

static void send(program *p, const char *line)
{
    fprintf(p->to, "%s\n", line);
    fflush(p->to);
}

/* ---- a page, whatever the face ---- */

typedef struct page {
    const char *choices[MOST_CHOICES];
    uint32_t choice_count;
    const char *title; /* JSON: the fix it is about */
    str text;          /* all of it */
    bool ended;
} page;

/* Up to the sign that a line is waited for. */
static str read_lines(arena *a, program *p)
{
    text_builder b = {.keep = a};
    for (int c; (c = fgetc(p->from)) != EOF;) {
        const char byte = (char)c;
        text_add(&b, (str){&byte, 1});
        if (b.length >= 3 && c == ' ' && str_ends((str){b.bytes, b.length}, "\n> ")) break;
    }
    return text_done(&b);
}

static const char *copied(arena *a, str text)
{
    return str_copy(a, text).p;
}

/* " 1  No, nothing like that": the number as it is counted, two blanks. */
static void find_choice(arena *a, page *g, str line)
{
    const str lead = str_printf(a, "%u  ", g->choice_count + 1);
    const str trimmed = str_trim(line);
    if (g->choice_count < MOST_CHOICES && str_starts(trimmed, lead.p))
        g->choices[g->choice_count++] = copied(a, str_slice(trimmed, lead.n, trimmed.n));
}

static page read_page(arena *a, program *p)
{
    page g = {.text = read_lines(a, p)};
    g.ended = !str_ends(g.text, "\n> ");
    for (size_t at = 0; at < g.text.n;) {
        size_t length = str_find_byte(str_slice(g.text, at, g.text.n), '\n');
        if (length == SIZE_MAX) length = g.text.n - at;
        find_choice(a, &g, str_slice(g.text, at, at + length));
        at += length + 1;
    }
    return g;
}

static page read_turn(arena *a, program *p)
{
    page g = {.title = ""};
    char *line = NULL;
    size_t room = 0, i;
    json_t *turn = getline(&line, &room, p->from) > 0 ? json_loads(line, 0, NULL) : NULL, *choice;
    g.text = str_copy(a, str_of(line));
    g.ended = turn == NULL || strcmp(json_string_value(json_object_get(turn, "kind")), "end") == 0;
    json_array_foreach(json_object_get(turn, "choices"), i,
                       choice) if (g.choice_count < MOST_CHOICES) g.choices[g.choice_count++] =
        copied(a, str_of(json_string_value(json_object_get(choice, "text"))));
    free(line);
    json_decref(turn);
    return g;
}

static bool has_choice(const page *g, const char *text)
{
    for (uint32_t i = 0; i < g->choice_count; i++)
        if (strcmp(g->choices[i], text) == 0) return true;
    return false;
}

static bool offers_fix(const page *g)
{
    static const text_id does[] = {TEXT_BEGIN,       TEXT_BEGIN_DRESSED,       TEXT_DONE_IT,
                                   TEXT_CHOICE_GONE, TEXT_CHOICE_PUT_BACK_NOW, TEXT_REVIEW_RIGHT};
    for (size_t i = 0; i < sizeof does / sizeof *does; i++)
        if (has_choice(g, catalogue_text(TONGUE_EN, does[i]))) return true;
    return false;
}

/* ---- what was typed ---- */

typedef struct call {
    const tt_book *book;
    tt_case *c; /* knows the fixes; nothing is told to it */
    tt_question gate;
    bool json, ruled_out;
    const char *doubted; /* words of list B: said again they ask nothing in this sitting */
} call;

static const struct saying {
    const char *words;
    char list; /* A, B; n: a plain no; w: a word of the program; else nothing that opens a gate */
} sayings[] = {
    {"there is smoke", 'A'},
    {"somebody is hurt", 'A'},
    {"my eyes burn", 'A'},
    {"a man is caught", 'A'},
    {"se quemo la mano", 'A'},
    {"the hose burst", 'B'},
    {"it smells of gas", 'B'},
    {"huele a cloro", 'B'},
    {"no", 'n'},
    {"all good", 'n'},
    {"ok", ' '},
    {"fine", ' '},
    {"not really", ' '},
    {"yes", ' '},
    {"1", ' '},
    {"foam is dry", ' '},
    {"no foam", ' '},
    {"air 55", ' '},
    {"55", ' '},
    {"0", ' '},
    {"-3", ' '},
    {"idk", ' '},
    {"i cant see", ' '},
    {"known", 'w'},
    {"why", 'w'},
    {"change", 'w'},
    {"back", 'w'},
    {"", 'w'},
    {"?", 'w'},
    {"done", ' '},
    {"same", ' '},
    {"worse", ' '},
    {"danger", ' '},
    {"espuma seca", ' '},
    {"asdf", ' '},
};

static bool asks_danger(const call *l, const page *g)
{
    for (uint32_t i = 0; i < l->gate.option_count; i++)
        if (!has_choice(g, l->gate.options[i].text)) return false;
    return g->choice_count >= l->gate.option_count;
}

static void note_words(call *l, const page *g, const struct saying *s)
{
    const bool again = l->ruled_out && l->doubted != NULL && strcmp(l->doubted, s->words) == 0;
    if (s->list == 'A' || (s->list == 'B' && !again)) l->ruled_out = false;
    if (s->list == 'B') l->doubted = s->words;
    if (asks_danger(l, g) && s->list != 'w') l->ruled_out = s->list == 'n';
}

static void note_choice(call *l, const page *g, uint32_t choice)
{
    if (!asks_danger(l, g)) return;
    for (uint32_t i = 0; i < l->gate.option_count; i++)
        if (strcmp(g->choices[choice], l->gate.options[i].text) == 0)
            l->ruled_out = (l->gate.safe_options >> i & 1) != 0;
}

/* ---- a call ---- */

static void say_number(const call *l, program *p, uint32_t number)
{
    char line[40];
    snprintf(line, sizeof line, l->json ? "{\"choice\":%u}" : "%u", number);
    send(p, line);
}

static void say_words(const call *l, program *p, const char *words)
{
    json_t *reply = json_pack("{s:s}", "answer", words);
    char *line = json_dumps(reply, JSON_COMPACT);
    send(p, l->json ? line : words);
    free(line);
    json_decref(reply);
}

static void reply(call *l, program *p, const page *g)
{
    const bool stops = has_choice(g, catalogue_text(TONGUE_EN, TEXT_CHOICE_SAFE_NOW));
    if (g->choice_count > 0 && luck_below(&luck, 10) < 8) {
        const uint32_t choice =
            stops || luck_below(&luck, 3) == 0 ? luck_below(&luck, g->choice_count) : 0;
        note_choice(l, g, choice);
        say_number(l, p, choice + 1);
        return;
    }
    const struct saying *s = &sayings[luck_below(&luck, sizeof sayings / sizeof *sayings)];
    note_words(l, g, s);
    if (strcmp(s->words, "1") == 0 && g->choice_count > 0) note_choice(l, g, 0);
    say_words(l, p, s->words);
}

static bool names_fix_above(const call *l, const page *g)
{
    tt_fix_plan plan;
    for (uint32_t i = 0; tt_fix_show(l->c, i, &plan) == TT_OK; i++) {
        if (tt_role_find(l->book, plan.role) == 0) continue;
        char line[400];
        snprintf(line, sizeof line, "Try this: %s", plan.text);
        if (str_find(g->text, str_of(line)) != SIZE_MAX) return true;
    }
    return false;
}

static void check_page(const call *l, const page *g, const char *face, uint64_t seed)
{
    seen.pages++;
    if (!offers_fix(g)) return;
    seen.fixes++;
    seen.above += names_fix_above(l, g);
    if (l->ruled_out) return;
    seen.shut++;
    print_message("seed %llu, %s:\n%.*s\n", (unsigned long long)seed, face, STR_ARG(g->text));
}

static void play(call *l, const char *book, const char *face, uint64_t seed)
{
    arena *a = test_arena();
    program p = start(book, face);
    luck = seed;
    l->json = strstr(face, "json") != NULL;
    l->ruled_out = false;
    l->doubted = NULL;
    for (uint32_t i = 0; i < MOST_REPLIES; i++) {
        const page g = l->json ? read_turn(a, &p) : read_page(a, &p);
        if (g.ended) break;
        check_page(l, &g, face, seed);
        reply(l, &p, &g);
    }
    end(&p);
    arena_free(a);
    seen.calls++;
}

static void find_gate(call *l)
{
    for (uint32_t i = 0; tt_question_show(l->c, i, &l->gate) == TT_OK; i++)
        if (l->gate.gate) return;
    fail_msg("no question about danger");
}

static uint64_t calls_wanted(void)
{
    const char *wanted = getenv("TT_FACE_CALLS");
    return wanted != NULL ? strtoull(wanted, NULL, 10) : CALLS;
}

/* One question about danger each, so that the plain account above holds. */
static const char *const books[] = {"rules/foam-line", "rules/dosing-and-pumping",
                                    "rules/standby-generator"};

static void walk(const char *face)
{
    memset(&seen, 0, sizeof seen);
    for (size_t b = 0; b < sizeof books / sizeof *books; b++) {
        tt_book *book = book_folder(books[b]);
        call l = {.book = book};
        const tt_options options = {.role = 0};
        assert_int_equal(tt_case_new(book, &options, &l.c), TT_OK);
        find_gate(&l);
        for (uint64_t seed = 1; seed <= calls_wanted(); seed++) play(&l, books[b], face, seed);
        tt_case_free(l.c);
        tt_book_free(book);
    }
    printf("%s: random calls: %llu, pages: %llu, that offer a fix: %llu\n", face,
           (unsigned long long)seen.calls, (unsigned long long)seen.pages,
           (unsigned long long)seen.fixes);
    printf("a fix offered with the gate shut: %llu\n", (unsigned long long)seen.shut);
    printf("a fix above the role: %llu\n", (unsigned long long)seen.above);
    assert_true(seen.fixes > 0);
    assert_int_equal(seen.shut, 0);
    assert_int_equal(seen.above, 0);
}

static void running_lines(void **state)
{
    (void)state;
    walk("--plain");
}

static void telephone(void **state)
{
    (void)state;
    walk("--plain --telephone");
}

static void json(void **state)
{
    (void)state;
    walk("--json");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(running_lines),
        cmocka_unit_test(telephone),
        cmocka_unit_test(json),
    };
    return cmocka_run_group_tests_name("face walks", tests, NULL, NULL);
}
