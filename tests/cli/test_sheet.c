/* A case on paper: what is told, in three forms, and that nothing which somebody wrote becomes more
 * than text. */
#include "run_telltale.h"

#include <ctype.h>
#include <jansson.h>

#define AIR TT_SOURCE_DIR "/tests/cli/regulator"
#define TO_THE_OUTCOME \
    "no\\nit goes on and " \
    "off\\n1\\nunsure\\nright\\nbegin\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\nd" \
    "one\\nunsure"
/* Set twice, the second time with danger after it. */
#define SWOLLEN \
    "no\\nstiff " \
    "foam\\n1\\n52\\nbegin\\ndone\\ndone\\nbetter\\n1\\nno\\nbegin\\ndone\\nbetter\\n2\\nyes\\nst" \
    "op"

static int fresh(void **state)
{
    (void)state;
    setenv("AIR", AIR, 1);
    return sh("rm -rf cases book empty && mkdir cases");
}

/* A session on a book; the only case's folder is then cases/x/x/x. */
static void session(const char *book, const char *lines)
{
    sh("printf '%s\\n' | $T ask --cases cases %s >out 2>err", lines, book);
    assert_int_equal(sh("test -d cases/*/*/*"), 0);
}

static void sheet(const char *options)
{
    assert_int_equal(sh("$T sheet cases/*/*/* %s >sheet 2>err", options), 0);
}

static json_t *sheet_json(void)
{
    sheet("--json");
    json_t *all = json_load_file("sheet", 0, NULL);
    assert_non_null(all);
    return all;
}

static const char *text_at(const json_t *all, const char *part, const char *key)
{
    return json_string_value(json_object_get(json_object_get(all, part), key));
}

/* ---- what is told ---- */

static void complaint_answers_and_outcome(void **state)
{
    (void)state;
    session("$WELL", TO_THE_OUTCOME "\\nno change\\nstop");
    sheet("");
    assert_holds("sheet", "\n## What is wrong\n\nThe pump starts and stops\n\nIn their own words: "
                          "it goes on and off\n");
    assert_holds("sheet", "\n| Is there smoke at the pump? | No |  | 20");
    assert_holds("sheet", "\n| Charge the tank with air | no change |\n");
    assert_holds("sheet", "\n## Not as it was found\n\n- To be put back: Let the air out again. "
                          "(after: Charge the tank with air)\n");
    /* whoever holds the sheet is another, and later: danger first, and whose work it is */
    assert_holds("sheet",
                 "> **First ask:** Is there smoke at the pump?\n\nGo on only if the answer is: No. "
                 "After any other answer, or none, do nothing there and call.\n");
    assert_holds("sheet", "- Who does it: householder\n");
    assert_holds(
        "sheet",
        "\n## What always holds here\n\n- Water and electricity kill together. Stand dry.\n");
    assert_holds("sheet", "\n> **Put back before anything else:** Let the air out again.\n");
    assert_holds("sheet", "\n1. Switch the pump off at its breaker and lock it.\n");
    assert_holds("sheet", "\n1. Try to start the pump. It must stay still.\n");
    assert_false(holds("sheet", "\n1. Drain the tank.\n")); /* that is the fix */
    assert_holds(
        "sheet",
        "\n| What does the gauge at the tank read while nobody draws water? | not sure |  | 20");
    assert_holds("sheet", "\n- State: Open\n");
    assert_holds("sheet", "\n- Edition: 3\n- Revision: ");
}

static void what_was_taken_back_stays_and_is_marked(void **state)
{
    (void)state;
    session("$WELL", "yes\\n2\\nno\\nback\\n2\\nno\\nit goes on and off\\n1\\nstop");
    json_t *all = sheet_json();
    const json_t *steps = json_object_get(all, "steps");
    static const struct {
        const char *result;
        bool taken_back;
    } expected[] = {{"Yes", false}, {"No", true}, {"No", false}};
    size_t answers = 0;
    for (size_t i = 0; i < json_array_size(steps); i++) {
        const json_t *step = json_array_get(steps, i);
        if (strcmp(json_string_value(json_object_get(step, "kind")), "answer") != 0) continue;
        assert_true(answers < 3);
        assert_string_equal(json_string_value(json_object_get(step, "result")),
                            expected[answers].result);
        assert_int_equal(json_is_true(json_object_get(step, "taken_back")),
                         expected[answers].taken_back);
        answers++;
    }
    assert_int_equal(answers, 3);
    /* It burned for a moment: the caution was shown, and that is told. */
    assert_int_equal(json_array_size(json_object_get(all, "cautions")), 2);
    json_decref(all);
}

static void changes_have_before_and_after(void **state)
{
    (void)state;
    session("$AIR", SWOLLEN);
    sheet("");
    assert_holds(
        "sheet",
        " | 52 psi | 47 psi | Lower the foam air step by step | better, but not gone | 20");
    assert_holds(
        "sheet",
        " | 47 psi | 42 psi | Lower the foam air step by step | better, but not gone | 20");
    assert_holds("sheet", "\n- To be put back: Set the regulator back to 52 psi. (after: Lower the "
                          "foam air step by step)\n");
    assert_holds("sheet", "\n| Lower the foam air step by step | What does the gauge at the foam "
                          "air regulator read? | 52 psi | 42 psi | ");
    assert_holds(
        "sheet",
        "\n> **STOP:** Shut the air off and keep away from the hose.\n\n> **Call:** technician\n");
}

static void who_was_called_and_what_it_was(void **state)
{
    (void)state;
    session("$WELL", "yes\\n1");
    json_t *all = sheet_json();
    assert_true(json_is_null(json_object_get(json_object_get(all, "case"), "closed")));
    assert_string_equal(text_at(all, "next", "call"), "technician");
    assert_string_equal(text_at(all, "next", "stop"), "Leave the room and close the door.");
    json_decref(all);
    fresh(NULL);
    session("$WELL", TO_THE_OUTCOME "\\ngone\\nyes");
    all = sheet_json();
    assert_string_equal(text_at(all, "case", "closed"), "gone");
    assert_string_equal(text_at(all, "case", "confirmed"), "The tank has lost its air cushion");
    assert_string_equal(text_at(all, "next", "do"), "nothing");
    json_decref(all);
}

/* The chances of a part's causes add up, since one fault is looked for. */
static void parts_have_their_odds(void **state)
{
    (void)state;
    sh("cp -r $WELL book && sed -i 's/^    how-often: .*/&\\n    spare-parts: [Pressure tank]/' "
       "book/parts/faults.yml");
    session("book", "no\\nit goes on and off\\n1\\nstop");
    json_t *all = sheet_json();
    const json_t *parts = json_object_get(all, "parts"), *causes = json_object_get(all, "causes");
    assert_int_equal(json_array_size(parts), 1);
    double sum = 0;
    for (size_t i = 0; i < json_array_size(causes); i++) {
        const json_t *cause = json_array_get(causes, i);
        if (!json_is_null(json_object_get(cause, "name")))
            sum += json_number_value(json_object_get(cause, "chance"));
    }
    double chance = json_number_value(json_object_get(json_array_get(parts, 0), "chance"));
    assert_true(chance > 0.5 && chance - sum < 1e-9 && sum - chance < 1e-9);
    json_decref(all);
}

static void other_rules_are_said_to_be_others(void **state)
{
    (void)state;
    sh("cp -r $WELL book");
    session("book", "no\\nit goes on and off\\n1\\nstop");
    sheet("");
    assert_false(holds("sheet", "The rules have changed"));
    sh("sed -i 's/edition: 3/edition: 4/' book/book.yaml");
    sheet("");
    assert_holds("sheet", "The rules have changed since this case was last worked on.");
    assert_holds("sheet", "- Edition: 4\n");
    sh("sed -i 's/smoke/fumes/g' $(find book -type f)");
    sheet("");
    assert_holds("sheet", "| no: left out, the rules no longer know it |");
}

/* A second writer who has seen nothing of the first. */
static void others_and_their_notes(void **state)
{
    (void)state;
    sh("printf 'no\nit goes on and off\n1\nhand over\nWest\nThe gauge is broken\n' | $T ask "
       "--cases cases $WELL --name East >out");
    sheet("");
    assert_holds("sheet", "\n> **East:** Handed the case over to West: The gauge is broken\n");
    assert_false(holds("sheet", " | Who | When |"));
    assert_holds("sheet", "\n- Worked on by: East\n");
    sh("d=$(echo cases/*/*/*); cat >$d/bbbbbbbbbbbb.jsonl <<'END'\n"
       "{\"version\":1,\"case\":\"UUID\",\"writer\":\"bbbbbbbbbbbb\",\"seq\":1,\"lamport\":2,"
       "\"time\":\"2026-11-25T20:40:00.000+00:00\","
       "\"before\":\"\",\"seen\":{},\"kind\":\"resume\",\"data\":{\"by\":\"North\",\"on\":\"desk\","
       "\"how\":\"join\"}}\n"
       "{\"version\":1,\"case\":\"UUID\",\"writer\":\"bbbbbbbbbbbb\",\"seq\":2,\"lamport\":3,"
       "\"time\":\"2026-11-25T20:41:00.000+00:00\","
       "\"before\":\"\",\"seen\":{},\"kind\":\"answer\",\"data\":{\"question\":\"smoke\",\"reply\":"
       "{\"kind\":\"answer\",\"option\":\"yes\"},"
       "\"typed\":\"yes\"}}\nEND\n"
       "sed -i \"s/UUID/$(basename $d)/\" $d/bbbbbbbbbbbb.jsonl");
    sheet("");
    assert_holds("sheet", "\n## To settle\n\n> Is there smoke at the pump? No (East, ");
    assert_holds("sheet", "came of it | Who | When |\n");
    assert_holds("sheet", "\n- Worked on by: East, North\n");
    assert_holds("sheet", "| Is there smoke at the pump? | Yes | North | 2026-11-25 20:41 |\n");
}

/* ---- before and after, dangers, and what is half done ---- */

#define AT_THE_GAUGE "no\\nit goes on and off\\n1\\n12\\nright\\nbegin\\ndone\\ndone\\ndone"

static void both_readings_stand_with_the_fix(void **state)
{
    (void)state;
    session("$WELL", AT_THE_GAUGE "\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\n45\\ngone\\nyes");
    sheet("");
    assert_holds("sheet", " draws water? | 12 psi | 45 psi | the trouble is gone | The tank has "
                          "lost its air cushion |\n");
    assert_holds("sheet", "\n- Stays so: Charge the tank with air: 12 psi before, 45 psi after\n");
    json_t *all = sheet_json();
    const json_t *read =
        json_object_get(json_array_get(json_object_get(all, "tried"), 0), "measured");
    assert_string_equal(json_string_value(json_object_get(read, "before")), "12 psi");
    assert_string_equal(json_string_value(json_object_get(read, "after")), "45 psi");
    assert_true(json_is_null(json_object_get(all, "unfinished")));
    json_decref(all);
}

/* Whoever comes must know that the breaker is off and the drain open. */
static void what_is_half_done_is_told_on_the_first_page(void **state)
{
    (void)state;
    session("$WELL", AT_THE_GAUGE "\\nback\\nstop");
    sheet("");
    assert_holds("sheet", "\n> **Begun and not finished:** Charge the tank with air\n");
    assert_holds("sheet",
                 "\n- Switch the pump off at its breaker and lock it.\n\n## What it points to");
    json_t *all = sheet_json();
    assert_int_equal(json_array_size(json_object_get(json_object_get(all, "unfinished"), "done")),
                     2);
    json_decref(all);
}

/* Begun anew after a danger that was none: what was done before stands as it was left. */
static void what_was_done_before_it_was_begun_anew_is_told(void **state)
{
    (void)state;
    session("$WELL", AT_THE_GAUGE "\\ndanger\\n2\\nno\\nbegin\\nstop");
    sheet("");
    assert_holds("sheet", "\n> **Begun and not finished:** Charge the tank with air\n");
    json_t *all = sheet_json();
    assert_int_equal(json_array_size(json_object_get(json_object_get(all, "unfinished"), "done")),
                     3);
    json_decref(all);
}

static void danger_that_was_told_is_told(void **state)
{
    (void)state;
    session("$WELL", AT_THE_GAUGE "\\nthere is smoke\\nstop");
    sheet("");
    assert_holds("sheet", "\n> **STOP:** ");
    assert_holds("sheet", "\n| Told of danger: “there is smoke” | 20");
    assert_holds("sheet", "\n> Nothing is to be tried until danger is ruled out.");
}

/* The value, and why it does not count. */
static void assert_marked(const json_t *all, const char *result, const char *mark)
{
    const json_t *steps = json_object_get(all, "steps");
    for (size_t i = 0; i < json_array_size(steps); i++) {
        const json_t *step = json_array_get(steps, i), *is = json_object_get(step, "mark");
        if (strcmp(json_string_value(json_object_get(step, "kind")), "answer") != 0) continue;
        if (strcmp(json_string_value(json_object_get(step, "result")), result) != 0) continue;
        if (mark == NULL ? json_is_null(is)
                         : json_is_string(is) && strcmp(json_string_value(is), mark) == 0)
            return;
    }
    fail_msg("no answer '%s' is marked %s", result, mark != NULL ? mark : "null");
}

static void an_answer_that_was_replaced_is_marked(void **state)
{
    (void)state;
    session("$WELL", "no\\nit goes on and off\\n1\\n12\\nright\\nchange\\n1\\n14\\nstop");
    sheet("");
    assert_holds("sheet", " | 12 psi | no: replaced by a later answer | 20");
    json_t *all = sheet_json();
    assert_marked(all, "12 psi", "replaced");
    assert_marked(all, "14 psi", NULL);
    json_decref(all);
    fresh(NULL);
    session("$WELL",
            AT_THE_GAUGE "\\ndone\\ndone\\ndone\\ndone\\ndone\\ndone\\n45\\nno change\\nstop");
    all = sheet_json();
    assert_marked(all, "12 psi", "read-again");
    assert_marked(all, "45 psi", NULL);
    json_decref(all);
}

static void whom_to_call_is_the_sites(void **state)
{
    (void)state;
    assert_int_equal(sh("printf 'site:\\n  contacts:\\n    - {purpose: plumber, post: pipe desk, "
                        "telephone: 555-0143}\\n"
                        "    - {role: technician, post: maintenance desk, telephone: 555-0142, "
                        "hours: until 22:00}\\n' >site.yaml"),
                     0);
    sh("printf 'yes\\n1\\n' | $T ask --cases cases $WELL --site site.yaml >out 2>err");
    sheet("");
    assert_holds("sheet", "\n## Whom to call\n");
    assert_holds("sheet", "\n| maintenance desk | 555-0142 | until 22:00 |\n| pipe desk | 555-0143 "
                          "|  |\n"); /* who is wanted first */
    json_t *all = sheet_json();
    assert_int_equal(json_array_size(json_object_get(all, "contacts")), 2);
    json_decref(all);
}

/* ---- how it is asked for ---- */

static void a_case_that_comes_as_a_file_is_printed(void **state)
{
    (void)state;
    session("$WELL", AT_THE_GAUGE "\\nstop");
    sheet("");
    assert_int_equal(sh("cat cases/*/*/*/*.jsonl >came.jsonl && mkdir empty && $T sheet came.jsonl "
                        "--cases empty >of-file 2>err"),
                     0);
    assert_same("of-file", "sheet");
    assert_int_equal(sh("test -z \"$(find empty -type f)\""), 0); /* it is taken in nowhere */
    assert_int_equal(sh("$T sheet came.jsonl --contact >of-file 2>err && cmp of-file sheet"), 0);
    assert_int_equal(sh("echo '{}' >none.jsonl; $T sheet none.jsonl >out 2>err"), 65);
    assert_holds("err", "there is no case in it");
}

/* The same words in each form, each only once on its first page. */
static void plain_text_says_the_same(void **state)
{
    (void)state;
    session("$WELL", AT_THE_GAUGE "\\nstop");
    sheet("--plain");
    assert_holds("sheet", "Begun and not finished: Charge the tank with air\n");
    assert_holds("sheet", "\n- The tank has lost its air cushion\n  Chance: 83 %\n");
    assert_int_equal(sh("awk '{ if (length($0) > 80) exit 1 }' sheet"), 0);
    assert_int_equal(sh("grep -q '[|#*]' sheet"), 1);
    assert_int_equal(sh("$T sheet cases/*/*/* --into a.txt && cmp a.txt sheet && $T sheet "
                        "cases/*/*/* --into a.txt"),
                     0);
}

static void a_case_has_three_names(void **state)
{
    (void)state;
    session("$WELL", "no\\nstop");
    assert_int_equal(
        sh("n=$(sed -n 's/^Case number: //p' out | head -1); $T sheet $n --cases cases >one"), 0);
    assert_int_equal(sh("$T sheet cases/*/*/*/ >two && $T sheet cases/*/*/*/*.jsonl >three"), 0);
    assert_int_equal(sh("cd cases/*/*/*/ && $T sheet *.jsonl >../../../../four"), 0);
    assert_same("one", "two");
    assert_same("one", "three");
    assert_same("one", "four");
    assert_int_equal(sh("$T sheet 12 --cases cases >out 2>err"), 2);
    assert_int_equal(sh("$T sheet ./nowhere >out 2>err"), 66);
    assert_int_equal(sh("$T sheet ./out >two 2>err"), 66);
}

static void forms_follow_options_and_names(void **state)
{
    (void)state;
    session("$WELL", "no\\nstop");
    sheet("--html");
    assert_int_equal(sh("head -1 sheet | grep -qx '<!DOCTYPE html>'"), 0);
    assert_int_equal(sh("rm -f a.html b.txt a.md a.json && $T sheet cases/*/*/* --into a.html && "
                        "$T sheet cases/*/*/* --html --into b.txt"),
                     0);
    assert_same("a.html", "sheet");
    assert_same("b.txt", "sheet");
    sheet("--markdown");
    assert_int_equal(sh("$T sheet cases/*/*/* --into a.md && $T sheet cases/*/*/* --into -  >b.md"),
                     0);
    assert_same("a.md", "sheet");
    assert_same("b.md", "sheet");
    assert_int_equal(sh("$T sheet cases/*/*/* --into a.json && head -1 a.json | grep -qx '{'"), 0);
    assert_int_equal(sh("$T sheet cases/*/*/* --html --json >out 2>err"), 2);
    assert_holds("err", "one form at a time");
    assert_int_equal(sh("$T sheet cases/*/*/* --into nowhere/a.html 2>err"), 66);
    assert_int_equal(sh("test -e nowhere"), 1);
}

/* Looking needs no lock, no right to write, and leaves no trace. */
static void nothing_is_changed(void **state)
{
    (void)state;
    session("$WELL", "no\\nstop");
    assert_int_equal(sh("find cases -type f -exec sha256sum {} + >before && chmod -R a-w cases"),
                     0);
    sheet("");
    assert_int_equal(sh("chmod -R u+w cases && find cases -type f -exec sha256sum {} + >after"), 0);
    assert_same("before", "after");
    assert_int_equal(sh("test -s err"), 1);
}

/* A case from another machine, where the book lay elsewhere. */
static void the_book_may_lie_elsewhere(void **state)
{
    (void)state;
    sh("cp -r $WELL book");
    session("book", "no\nstop");
    sheet("");
    sh("mv sheet before; rm -rf book");
    assert_int_equal(sh("$T sheet cases/*/*/* >out 2>err"), 66);
    assert_holds("err", "telltale sheet ");
    assert_holds("err", " BOOK");
    assert_int_equal(sh("$T sheet cases/*/*/* $WELL >sheet 2>err"), 0);
    assert_same("before", "sheet");
}

/* ---- the page ---- */

typedef struct reading {
    const char *at;
    char open[64][16];
    unsigned depth;
} reading;

static bool is_among(const char *word, const char *const *all)
{
    for (; *all != NULL; all++)
        if (strcmp(word, *all) == 0) return true;
    return false;
}

static void read_word(reading *r, char *word, size_t room)
{
    size_t n = 0;
    while (isalnum((unsigned char)*r->at) || *r->at == '-') {
        assert_true(n + 1 < room);
        word[n++] = *r->at++;
    }
    word[n] = 0;
    assert_true(n > 0);
}

/* Only names of ours, with values in double quotes in which nothing ends them. */
static void read_attributes(reading *r)
{
    static const char *const known[] = {
        "lang",    "charset",     "http-equiv", "content", "name",  "scope",  "class", "datetime",
        "viewBox", "aria-hidden", "x",          "y",       "width", "height", "dir",   NULL};
    while (*r->at == ' ') {
        char name[32];
        r->at++;
        read_word(r, name, sizeof name);
        if (!is_among(name, known)) fail_msg("an attribute %s", name);
        assert_int_equal(strncmp(r->at, "=\"", 2), 0);
        r->at += 2;
        while (*r->at != '"') {
            assert_true(*r->at != 0 && *r->at != '<' && *r->at != '>');
            r->at++;
        }
        r->at++;
    }
}

static void read_tag(reading *r)
{
    static const char *const known[] = {
        "html",   "head",  "meta", "title", "style", "body", "main", "h1",  "h2",    "p",
        "strong", "h3",    "dl",   "dt",    "dd",    "ul",   "ol",   "li",  "table", "caption",
        "thead",  "tbody", "tr",   "th",    "td",    "span", "time", "svg", "rect",  NULL};
    char name[16];
    bool closes = *r->at == '/';
    r->at += closes;
    read_word(r, name, sizeof name);
    if (!is_among(name, known)) fail_msg("an element %s", name);
    if (closes) {
        assert_true(r->depth > 0);
        assert_string_equal(r->open[--r->depth], name);
        assert_int_equal(*r->at++, '>');
        return;
    }
    read_attributes(r);
    bool empty = *r->at == '/' || strcmp(name, "meta") == 0;
    r->at += *r->at == '/';
    assert_int_equal(*r->at++, '>');
    if (empty) return;
    assert_true(r->depth < 64);
    memcpy(r->open[r->depth++], name, sizeof name);
}

/* Every element is known and closed, and every "&" begins one of five references. */
static void assert_sound(const char *path)
{
    static const char doctype[] = "<!DOCTYPE html>\n";
    static const char *const references[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;"};
    char *text = contents(path);
    assert_int_equal(strncmp(text, doctype, strlen(doctype)), 0);
    reading r = {.at = text + strlen(doctype)};
    while (*r.at != 0) {
        bool known = *r.at != '&';
        for (unsigned i = 0; i < 5; i++)
            known = known || strncmp(r.at, references[i], strlen(references[i])) == 0;
        assert_true(known);
        assert_int_not_equal(*r.at, '>');
        if (*r.at++ == '<') read_tag(&r);
        /* The style is ours: it ends where it says. */
        if (r.depth > 0 && strcmp(r.open[r.depth - 1], "style") == 0) {
            r.at = strstr(r.at, "</style>");
            assert_non_null(r.at);
        }
    }
    assert_int_equal(r.depth, 0);
    free(text);
}

static unsigned count_of(const char *path, const char *part)
{
    char *text = contents(path);
    unsigned count = 0;
    for (const char *at = text; (at = strstr(at, part)) != NULL; at++) count++;
    free(text);
    return count;
}

static void the_page_is_sound(void **state)
{
    (void)state;
    session("$AIR", SWOLLEN);
    sheet("--html");
    assert_sound("sheet");
    assert_int_equal(count_of("sheet", "<h1>"), 1);
    assert_int_equal(count_of("sheet", "<table>"), count_of("sheet", "<caption>"));
    assert_int_equal(count_of("sheet", "<tr>"),
                     count_of("sheet", "<th scope=\"row\">") + count_of("sheet", "<thead>"));
    assert_int_equal(count_of("sheet", "<svg "), count_of("sheet", " aria-hidden=\"true\""));
    assert_int_equal(count_of("sheet", "class=\"apart\""), 1);
    assert_holds("sheet", "default-src 'none'; style-src 'sha256-");
    /* Each bar's figure stands beside it. */
    assert_holds("sheet", "width=\"85\" height=\"11\"/></svg>86 %</td>");
}

/* The policy's digest is that of the style between its tags, as another program works it out. */
static void the_policy_allows_this_style(void **state)
{
    (void)state;
    session("$WELL", "no\\nstop");
    sheet("--html");
    assert_int_equal(sh("tr '\\n' '\\001' <sheet | sed 's/.*<style>//; s/<.style>.*//' | tr "
                        "'\\001' '\\n' >style;"
                        "d=$(sha256sum style | cut -d' ' -f1); sed -n \"s/.*style-src "
                        "'sha256-\\([^']*\\)'.*/\\1/p\" sheet | "
                        "base64 -d | od -An -tx1 | tr -d ' \\n' | grep -qx $d"),
                     0);
}

/* ---- hostile texts ---- */

static void add_hostile_records(void)
{
    sh("d=$(echo cases/*/*/*); cat >$d/aaaaaaaaaaaa.jsonl <<'END'\n"
       "{\"version\":1,\"case\":\"UUID\",\"writer\":\"aaaaaaaaaaaa\",\"seq\":1,\"lamport\":99,"
       "\"time\":\"<b>never</b>\",\"before\":\"\","
       "\"kind\":\"</td><script>alert(3)</script>\",\"data\":{\"note\":\"x\"}}\n"
       "{\"version\":1,\"case\":\"UUID\",\"writer\":\"aaaaaaaaaaaa\",\"seq\":2,\"lamport\":100,"
       "\"time\":\"2026-01-01T00:00\\\"><i>\",\"before\":\"\","
       "\"kind\":\"complaint\",\"data\":{\"symptom\":\"silence\",\"said\":\"\\u202e\\u001b["
       "31mred\\u0007 \\u2066<script>\\\"'\\\\ \\nSecond # line\"}}\n"
       "{\"version\":1,\"case\":\"UUID\",\"writer\":\"aaaaaaaaaaaa\",\"seq\":3,\"lamport\":101,"
       "\"time\":\"\",\"before\":\"\","
       "\"kind\":\"resume\",\"data\":{\"by\":\"<script>\",\"how\":\"join\"}}\n"
       "END\n"
       "sed -i \"s/UUID/$(basename $d)/\" $d/aaaaaaaaaaaa.jsonl");
}

static void hostile_texts_stay_texts(void **state)
{
    (void)state;
    sh("cp -r $WELL book && find book -type f -exec sed -i 's!The tank has lost its air "
       "cushion!'\"'\"'%s'\"'\"'!' {} +",
       "</title></style></script><script>alert(1)</script><img src=x onerror=alert(2)> \"quoted\" "
       "\\& | `code` [a](http://b) www.c.d");
    session("book", "no\\nit goes on and off\\n1\\nstop");
    assert_int_equal(sh("grep -rq 'onerror' book"), 0);
    add_hostile_records();
    sheet("--html");
    assert_sound("sheet");
    assert_holds("sheet", "&lt;/title&gt;&lt;/style&gt;&lt;/script&gt;&lt;script&gt;alert(1)");
    assert_int_equal(sh("LC_ALL=C grep -q \"$(printf '[\\001-\\010\\013-\\037]')\" sheet"), 1);
    assert_int_equal(
        sh("grep -q \"$(printf '\\342\\200\\256')\\|$(printf '\\342\\201\\246')\" sheet"), 1);
    sheet("");
    assert_holds("sheet", "\\</title\\>\\</style\\>\\</script\\>\\<script\\>alert(1)");
    assert_holds("sheet", "\\| \\`code\\` \\[a\\](http\\://b) www\\.c.d");
    assert_int_equal(sh("grep -v '^    ' sheet | grep -q '[^\\\\]<'"), 1);
    sheet("--json");
    assert_int_equal(sh("grep -q \"$(printf '\\342\\200\\256')\" sheet"), 1);
}

static void huge_texts_are_shown_whole(void **state)
{
    (void)state;
    session("$WELL", "no\\nstop");
    sh("d=$(echo cases/*/*/*); { printf "
       "'{\"version\":1,\"case\":\"%%s\",\"writer\":\"aaaaaaaaaaaa\",\"seq\":1,\"lamport\":99,"
       "\"time\":\"2026-01-01T00:00:00.000+00:00\",\"before\":\"\",\"kind\":\"complaint\",\"data\":"
       "{\"symptom\":\"silence\",\"said\":\"' $(basename $d); "
       "head -c 300000 /dev/zero | tr '\\0' '<'; printf '\"}}\\n'; } >$d/aaaaaaaaaaaa.jsonl");
    assert_int_equal(sh("$T sheet cases/*/*/* --html >sheet 2>err"), 0);
    assert_int_equal(sh("test \"$(grep -o '&lt;' sheet | wc -l)\" = 300000"), 0);
}

static void other_languages_are_marked(void **state)
{
    (void)state;
    sh("cp -r $WELL book && sed -i 's/  edition: 3/&\\n  language: de/' book/book.yaml");
    session("book", "no\\nstop");
    sheet("--html");
    assert_sound("sheet");
    assert_holds("sheet", "<html lang=\"en\">");
    assert_holds("sheet", "<span dir=\"auto\" lang=\"de\">Is there smoke at the pump?</span>");
    assert_holds("sheet", "<dt>State</dt>\n<dd>Open</dd>");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(complaint_answers_and_outcome, fresh),
        cmocka_unit_test_setup(what_was_taken_back_stays_and_is_marked, fresh),
        cmocka_unit_test_setup(changes_have_before_and_after, fresh),
        cmocka_unit_test_setup(who_was_called_and_what_it_was, fresh),
        cmocka_unit_test_setup(parts_have_their_odds, fresh),
        cmocka_unit_test_setup(other_rules_are_said_to_be_others, fresh),
        cmocka_unit_test_setup(others_and_their_notes, fresh),
        cmocka_unit_test_setup(both_readings_stand_with_the_fix, fresh),
        cmocka_unit_test_setup(what_is_half_done_is_told_on_the_first_page, fresh),
        cmocka_unit_test_setup(what_was_done_before_it_was_begun_anew_is_told, fresh),
        cmocka_unit_test_setup(danger_that_was_told_is_told, fresh),
        cmocka_unit_test_setup(an_answer_that_was_replaced_is_marked, fresh),
        cmocka_unit_test_setup(whom_to_call_is_the_sites, fresh),
        cmocka_unit_test_setup(a_case_that_comes_as_a_file_is_printed, fresh),
        cmocka_unit_test_setup(plain_text_says_the_same, fresh),
        cmocka_unit_test_setup(a_case_has_three_names, fresh),
        cmocka_unit_test_setup(forms_follow_options_and_names, fresh),
        cmocka_unit_test_setup(nothing_is_changed, fresh),
        cmocka_unit_test_setup(the_book_may_lie_elsewhere, fresh),
        cmocka_unit_test_setup(the_page_is_sound, fresh),
        cmocka_unit_test_setup(the_policy_allows_this_style, fresh),
        cmocka_unit_test_setup(hostile_texts_stay_texts, fresh),
        cmocka_unit_test_setup(huge_texts_are_shown_whole, fresh),
        cmocka_unit_test_setup(other_languages_are_marked, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
