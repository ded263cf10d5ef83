/* The books that come with the program against published rules of safety: in which order energy
 * is isolated and work is handed back, and the wording of hazard statements. What the rules say is
 * compared by their words, so this finds steps that are missing or in the wrong place, not steps
 * that are wrong for a machine. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>

#include "shipped_books.h"
#include "test_sources.h"

/* A step is known by any of these words. */
typedef struct stage {
    const char *what;
    const char *words[8];
} stage;

/* 29 CFR 1910.147(d)(1) to (d)(6). */
static const stage isolation[] = {
    {"know the energy", {"Know "}},
    {"shut down in an orderly way", {"the normal way"}},
    {"isolate", {"Switch off", "disconnect", "Shut ", "shut ", "Unplug"}},
    {"lock and tag", {"lock and tag"}},
    {"release what is stored",
     {"pressure out", "air out", "stored energy go", "stored charge is gone", "no more water",
      "stand still", "stands still", "stands at zero"}},
    {"verify",
     {"Try to start", "Nothing may", "must stay still", "absence of voltage", "that it is dead",
      "No water may", "leak test"}},
};
enum { STAGES = sizeof isolation / sizeof *isolation };

/* Who may do it comes before all of them. */
static const stage who = {"say who may do it", {"authorised", "licensed electrician"}};

static bool has_stage(const char *line, const stage *s)
{
    for (int i = 0; i < 8 && s->words[i] != NULL; i++)
        if (strstr(line, s->words[i]) != NULL) return true;
    return false;
}

/* The first stage that is not found after those before it, or null. */
static const char *stage_missing(const char *const *lines, uint32_t count)
{
    uint32_t line = 0;
    if (count == 0 || !has_stage(lines[line++], &who)) return who.what;
    if (line == count || !has_stage(lines[line], &isolation[0])) return isolation[0].what;
    for (int s = 0; s < STAGES; s++) {
        while (line < count && !has_stage(lines[line], &isolation[s])) line++;
        if (line++ == count) return isolation[s].what;
    }
    return NULL;
}

/* ---- every fix and question of every book ---- */

typedef struct walk {
    const char *folder;
    unsigned lockouts;
    unsigned running; /* with an energy, and a reason why it runs */
    unsigned powered; /* lockouts against electricity or moving parts */
    unsigned hazards; /* lists that name a hazard statement */
} walk;

static bool has_hazard(const tt_safety *s, const char *const *names)
{
    for (uint32_t i = 0; i < s->hazard_count; i++)
        for (int k = 0; names[k] != NULL; k++)
            if (strcmp(s->hazards[i], names[k]) == 0) return true;
    return false;
}

static const char *const energies[] = {"electricity", "moving parts",  "pressure",
                                       "gravity",     "stored energy", NULL};
static const char *const powers[] = {"electricity", "moving parts", NULL};

enum { LINES_MOST = 64 };

/* All that is said from knowing the energy to proving, one line after the other. */
static uint32_t lines_of(const tt_safety *s, const char **lines)
{
    uint32_t count = 0;
    for (uint32_t i = 0; i < s->isolate_count; i++) lines[count++] = s->isolate[i];
    for (uint32_t i = 0; i < s->release_count; i++) lines[count++] = s->release[i];
    for (uint32_t i = 0; i < s->prove_count; i++) lines[count++] = s->prove[i];
    assert_in_range(count, 0, LINES_MOST);
    return count;
}

/* 29 CFR 1910.147(e): tools and people away, each takes off the own lock, everybody is told. */
static const stage handing_back[] = {
    {"take tools away", {"tools"}},
    {"take off only the own lock", {"only their own lock"}},
    {"tell everybody", {"Tell everybody"}},
};
enum { HANDS = sizeof handing_back / sizeof *handing_back };

static const char *hand_missing(const char *const *lines, uint32_t count)
{
    uint32_t line = 0;
    for (int s = 0; s < HANDS; s++) {
        while (line < count && !has_stage(lines[line], &handing_back[s])) line++;
        if (line++ >= count) return handing_back[s].what;
    }
    return NULL;
}

/* (e)(2)(i): people are clear before anybody takes a lock off; with several procedures, of each. */
static bool people_are_clear(const char *const *lines, uint32_t count)
{
    bool clear = false;
    for (uint32_t i = 0; i < count; i++) {
        if (has_stage(lines[i], &handing_back[1]) && !clear) return false;
        if (has_stage(lines[i], &handing_back[1])) clear = false;
        clear = clear || strstr(lines[i], "clear") != NULL ||
                strstr(lines[i], "out of the tunnel") != NULL;
    }
    return true;
}

/* (d)(6), with appendix A: what is tried to start is switched back, or it starts when the lock
 * goes. */
static bool start_is_taken_back(const char *line)
{
    static const stage start = {"try it",
                                {"Try to start", "ress start", "Switch the foam on",
                                 "Switch the unit on", "Switch the drying agent on"}};
    static const stage back = {"switch back", {" again", "back to off"}};
    return !has_stage(line, &start) || has_stage(line, &back);
}

static void check_lockout(walk *w, const char *name, const tt_safety *s)
{
    const char *lines[LINES_MOST];
    const uint32_t count = lines_of(s, lines);
    const char *missing = stage_missing(lines, count);
    if (missing != NULL)
        fail_msg("%s, '%s': the procedure does not %s, or not in that place", w->folder, name,
                 missing);
    if (s->tell_count == 0 || strstr(s->tell[0], "Tell everybody") == NULL) /* (c)(9) */
        fail_msg("%s, '%s': nobody is told before it is locked", w->folder, name);
    if (s->release_count == 0 || s->prove_count == 0)
        fail_msg("%s, '%s': nothing is let go, or nothing proved", w->folder, name);
    missing = hand_missing(s->restore, s->restore_count);
    if (missing != NULL)
        fail_msg("%s, '%s': handing back does not %s, or not in that place", w->folder, name,
                 missing);
    if (!people_are_clear(s->restore, s->restore_count))
        fail_msg("%s, '%s': a lock goes before people are clear", w->folder, name);
    for (uint32_t i = 0; i < s->prove_count; i++)
        if (!start_is_taken_back(s->prove[i]))
            fail_msg("%s, '%s': tried, and not switched off again: %s", w->folder, name,
                     s->prove[i]);
    w->lockouts++;
    w->powered += has_hazard(s, powers);
}

static void check_isolation(walk *w, const char *name, const tt_safety *s)
{
    if (s->procedure_count > 0) {
        check_lockout(w, name, s);
        return;
    }
    if (s->isolate_count > 0) fail_msg("%s, '%s' isolates by hand", w->folder, name);
    if (!has_hazard(s, energies)) return;
    if (strcmp(s->state, "running") != 0 || strlen(s->why_running) < 20)
        fail_msg("%s, '%s': nothing is isolated, and no reason why", w->folder, name);
    w->running++;
}

static bool one_says(const tt_safety *s, const char *one, const char *other)
{
    for (uint32_t i = 0; i < s->protect_count; i++)
        if (strstr(s->protect[i], one) != NULL && strstr(s->protect[i], other) != NULL) return true;
    return false;
}

/* A label that says H314 may leave H318 out, so who names H318 for the goggles names H314 too. */
static void check_eyes(walk *w, const char *name, const tt_safety *s)
{
    if (!one_says(s, "H318", "")) return;
    if (!one_says(s, "oggles", "H314"))
        fail_msg("%s, '%s': goggles for H318, but not for H314", w->folder, name);
    w->hazards++;
}

static void check_fix(walk *w, tt_case *c, uint32_t fix)
{
    tt_fix_plan plan;
    assert_int_equal(tt_fix_show(c, fix, &plan), TT_OK);
    check_isolation(w, plan.name, &plan.safety);
    check_eyes(w, plan.name, &plan.safety);
}

static void check_question(walk *w, tt_case *c, uint32_t question)
{
    tt_question q;
    assert_int_equal(tt_question_show(c, question, &q), TT_OK);
    check_isolation(w, q.name, &q.safety);
    check_eyes(w, q.name, &q.safety);
}

static walk walk_book(arena *scratch, const shipped_book *shipped)
{
    tt_case *c;
    walk w = {.folder = shipped->folder};
    tt_book *book = shipped_load(scratch, shipped);
    assert_int_equal(tt_case_new(book, NULL, &c), TT_OK);
    tt_book_info info = tt_book_describe(book);
    for (uint32_t f = 0; f < info.fixes; f++) check_fix(&w, c, f);
    for (uint32_t q = 0; q < info.questions; q++) check_question(&w, c, q);
    tt_case_free(c);
    tt_book_free(book);
    return w;
}

/* outside-check: every shipped lockout: know, shut down, isolate, lock, release, verify; hand back
 * source: 29 CFR 1910.147(c)(9), (d), (e), paraphrased; GHS 1.4.10.5.3.3 on H318 beside H314
 * standing: VERIFIED
 */
static void every_lockout_in_sequence(void **state)
{
    (void)state;
    arena *keep = test_arena();
    shipped_book books[SHIPPED_MOST];
    uint32_t count = shipped_books(keep, books);
    unsigned lockouts = 0;
    for (uint32_t i = 0; i < count; i++) {
        walk w = walk_book(keep, &books[i]);
        print_message("%s: %u lockouts, %u that run for a reason\n", w.folder, w.lockouts,
                      w.running);
        lockouts += w.lockouts;
        if (strcmp(w.folder, "foam-line") == 0) assert_true(w.hazards > 0 && w.powered > 0);
    }
    assert_true(lockouts > 0);
    arena_free(keep);
}

/* The check itself: a step that is left out, and two that are exchanged, are seen. */
static void a_missing_step_is_seen(void **state)
{
    (void)state;
    const char *lines[] = {
        "Only a person whom the site has authorised locks the line out.",
        "Know what can move.",
        "Stop the line the normal way.",
        "Switch off the disconnect.",
        "Put your own lock and tag on it.",
        "Let the pressure out.",
        "Press start. Nothing may move.",
    };
    enum { LINES = sizeof lines / sizeof *lines };
    assert_null(stage_missing(lines, LINES));
    for (uint32_t i = 0; i < LINES; i++) {
        const char *fewer[LINES];
        uint32_t count = 0;
        for (uint32_t k = 0; k < LINES; k++)
            if (k != i) fewer[count++] = lines[k];
        assert_string_equal(stage_missing(fewer, count), i == 0 ? who.what : isolation[i - 1].what);
    }
    for (uint32_t i = 0; i + 1 < LINES; i++) {
        const char *kept = lines[i];
        lines[i] = lines[i + 1];
        lines[i + 1] = kept;
        assert_non_null(stage_missing(lines, LINES));
        lines[i + 1] = lines[i];
        lines[i] = kept;
    }
    const char *back[] = {"Take all tools out.", "Take off only their own lock.",
                          "Tell everybody."};
    assert_null(hand_missing(back, HANDS));
    assert_string_equal(hand_missing(back, HANDS - 1), "tell everybody");
    assert_string_equal(hand_missing(back + 1, HANDS - 1), "take tools away");
    assert_false(people_are_clear(back, HANDS));
    const char *twice[] = {"Tools out, all clear.", back[1], back[1]};
    assert_true(people_are_clear(twice, 2));
    assert_false(people_are_clear(twice, 3));
    assert_false(start_is_taken_back("Press start. Nothing may move. Then begin."));
    assert_true(start_is_taken_back("Press start. Nothing may move. Press stop again."));
}

/* ---- hazard statements ---- */

/* The hazard statements whose texts we hold. A code that is not here is added with its source. */
static const struct {
    const char *code, *text, *spanish;
} statements[] = {
    {"H290", "May be corrosive to metals", "Puede ser corrosiva para los metales"},
    {"H302", "Harmful if swallowed", "Nocivo en caso de ingestión"},
    {"H314", "Causes severe skin burns and eye damage",
     "Provoca graves quemaduras en la piel y lesiones oculares"},
    {"H315", "Causes skin irritation", "Provoca irritación cutánea"},
    {"H318", "Causes serious eye damage", "Provoca lesiones oculares graves"},
    {"H319", "Causes serious eye irritation", "Provoca irritación ocular grave"},
    {"H335", "May cause respiratory irritation", "Puede irritar las vías respiratorias"},
};

/* Precautionary statements, which the rules say in their own words. */
static const char *const precautions[] = {"P260", "P264", "P280", "P301", "P302", "P304", "P305",
                                          "P310", "P338", "P340", "P351", "P352", "P405", "P501"};

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter_or_digit(char c)
{
    return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

/* Does a code begin here? `before` is what stands ahead of it. */
static bool is_code(char before, const char *p)
{
    return (*p == 'H' || *p == 'P') && is_digit(p[1]) && is_digit(p[2]) && is_digit(p[3]) &&
           !is_digit(p[4]) && !is_letter_or_digit(before);
}

static bool begins_with(const char *text, const char *words)
{
    const size_t length = strlen(words);
    return strncmp(text, words, length) == 0 && !is_letter_or_digit(text[length]);
}

/* Null if the code is followed by its text, in either language, after a comma, a colon or a blank;
 * else that text, or
 * "" for a code that is not in the list. */
static const char *wanted_text(const char *p)
{
    for (size_t i = 0; i < sizeof precautions / sizeof *precautions; i++)
        if (strncmp(p, precautions[i], 4) == 0) return NULL;
    for (size_t i = 0; i < sizeof statements / sizeof *statements; i++) {
        if (strncmp(p, statements[i].code, 4) != 0) continue;
        const char *text = p + 4 + strspn(p + 4, ",: ");
        const bool said =
            begins_with(text, statements[i].text) || begins_with(text, statements[i].spanish);
        return said ? NULL : statements[i].text;
    }
    return "";
}

static unsigned check_statements(const source *file)
{
    unsigned codes = 0;
    for (size_t i = 1; i + 4 < file->bytes.n; i++) {
        const char *p = file->bytes.p + i;
        if (!is_code(p[-1], p)) continue;
        const char *wanted = wanted_text(p);
        if (wanted != NULL && *wanted == 0)
            fail_msg("%s: the list here has no %.4s: %.60s", file->name.p, p, p);
        if (wanted != NULL) fail_msg("%s: %.4s is '%s', not: %.60s", file->name.p, p, wanted, p);
        codes++;
    }
    return codes;
}

static bool line_holds(const char *line, const char *words)
{
    const char *end = strchr(line, '\n'), *found = strstr(line, words);
    return found != NULL && (end == NULL || found < end);
}

/* What is in eyes: P305+P351+P338, all three, in words that people say. "Several minutes" of it are
 * at least the 15 of ANSI/ISEA Z358.1, which is all the longer. */
typedef struct first_aid {
    const char *begins, *wanted[4];
} first_aid;
static const first_aid eyes_said[] = {
    {"In eyes,",
     {"rinse cautiously with water", "for at least 15 minutes", "contact lenses", "go on rinsing"}},
    {"En los ojos,",
     {"enjuague con cuidado con agua", "por lo menos 15 minutos", "lentes de contacto",
      "siga enjuagando"}},
};
enum { TONGUES = sizeof eyes_said / sizeof *eyes_said };

static unsigned check_first_aid(const source *file, const first_aid *said)
{
    unsigned found = 0;
    for (const char *p = strstr(file->bytes.p, said->begins); p != NULL;
         p = strstr(p + 1, said->begins)) {
        for (int i = 0; i < 4; i++)
            if (!line_holds(p, said->wanted[i]))
                fail_msg("%s: no '%s': %.90s", file->name.p, said->wanted[i], p);
        found++;
    }
    return found;
}

/* outside-check: hazard statements in the books have their codes' texts; first aid for eyes
 * source: GHS of the United Nations, annex 3 (ten published tables of H statements, P lists); in
 * Spanish NOM-018-STPS-2015; ANSI/ISEA Z358.1 for the minutes standing: VERIFIED
 */
static void hazard_statements(void **state)
{
    (void)state;
    arena *keep = test_arena();
    shipped_book books[SHIPPED_MOST];
    uint32_t count = shipped_books(keep, books);
    unsigned codes = 0, eyes[TONGUES] = {0};
    for (uint32_t i = 0; i < count; i++)
        for (uint32_t f = 0; f < books[i].files.count; f++) {
            codes += check_statements(&books[i].files.items[f]);
            for (int t = 0; t < TONGUES; t++)
                eyes[t] += check_first_aid(&books[i].files.items[f], &eyes_said[t]);
        }
    print_message("%u statements, eyes %u times\n", codes, eyes[0]);
    assert_true(codes > 20 && eyes[0] > 0);
    assert_int_equal(eyes[0], eyes[1]);
    arena_free(keep);
}

static void a_wrong_statement_is_seen(void **state)
{
    (void)state;
    assert_null(wanted_text("H318, Causes serious eye damage, or"));
    assert_string_equal(wanted_text("H318, Causes serious eye irritation"), statements[4].text);
    assert_string_equal(wanted_text("H315, Causes skin irritations"), statements[3].text);
    assert_null(wanted_text("H318, Provoca lesiones oculares graves, o"));
    assert_string_equal(wanted_text("H318, Provoca lesiones oculares"), statements[4].text);
    assert_null(wanted_text("P305+P351+P338"));
    assert_string_equal(wanted_text("P999"), "");
    assert_string_equal(wanted_text("H999, Causes nothing"), "");
    assert_true(is_code(' ', "H314,"));
    assert_false(is_code('X', "H314,"));
    assert_false(is_code(' ', "H3145"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_lockout_in_sequence),
        cmocka_unit_test(a_missing_step_is_seen),
        cmocka_unit_test(hazard_statements),
        cmocka_unit_test(a_wrong_statement_is_seen),
    };
    return cmocka_run_group_tests_name("shipped safety", tests, NULL, NULL);
}
