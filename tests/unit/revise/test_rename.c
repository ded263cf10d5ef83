/* Renaming through the public face: every way in which a name can stand, what is refused, and what
 * stays as it is. */
#include <stdio.h>
#include <stdlib.h>

#include "telltale.h"
#include "testing.h"

static const char rules[] =
    "book:\n"
    "  title: Filters # drop and flow stay in words\n"
    "  roles: [helper, 'fitter']\n"
    "kinds:\n"
    "  filter:\n"
    "    ask: Which filters are there?\n"
    "  tank:\n"
    "    ask: Which tanks are there?\n"
    "questions:\n"
    "  drop: # drop\n"
    "    for-each: filter\n"
    "    ask: What drop has {filter}?\n"
    "    reading: pressure\n"
    "    unit: psi\n"
    "  drop-end:\n"
    "    ask: Is the drop-end wet?\n"
    "    only-when: {look: {not: fine}}\n"
    "  look:\n"
    "    ask: How does it look?\n"
    "    answers: {dull: Dull, fine: Fine, burst: Burst}\n"
    "    confirms: {burst: torn}\n"
    "  deep:\n"
    "    for-each: tank\n"
    "    ask: How deep is {tank}?\n"
    "    reading: level\n"
    "    unit: \"%\"\n"
    "quantities:\n"
    "  span:\n"
    "    text: Span\n"
    "    formula: max(drop of every filter) - min(drop of every filter)\n"
    "    unit: psi\n"
    "symptoms:\n"
    "  held-back:\n"
    "    for-each: filter\n"
    "    text: >-\n"
    "      \"{filter} takes {drop}\", and {{drop}} is a word,\n"
    "      so is {drop, bar} again\n"
    "    when: {drop: above 8 psi}\n"
    "    shown-by: {\"full\": often}\n"
    "  dull-one: {when: {look: [dull]}, text: Dull, shown-by: {worn: usually}}\n"
    "  low:\n"
    "    for-each: tank\n"
    "    text: '{tank} is low'\n"
    "    when: {deep: below 20 %}\n"
    "    shown-by: {worn: often}\n"
    "causes:\n"
    "  full:\n"
    "    for-each: filter\n"
    "    text: The cartridge of {filter} is full\n"
    "  torn: {text: Torn, never-with: [full of any filter]}\n"
    "  worn: {text: Worn}\n"
    "fixes:\n"
    "  full:\n"
    "    for-each: filter\n"
    "    text: Change {filter}\n"
    "    role: fitter\n"
    "    cures: {full: usually}\n"
    "    harm: none\n"
    "    put-back: not needed\n"
    "    look-again: [drop]\n"
    "  mend: {text: Mend, role: helper, cures: {worn: often, torn: often}, harm: none, put-back: "
    "not needed}\n"
    "rules:\n"
    "  wide-span:\n"
    "    when: {span: above 3 psi, look-burst-confirmed: not shown, drop of any filter: above 1 "
    "psi}\n"
    "    then: {likelier: {worn: 2 times}}\n"
    "cases:\n"
    "  coarse-full:\n"
    "    at: [coarse]\n"
    "    answers: {drop of coarse: 12 psi, look: {not: [dull, burst]}}\n"
    "    expect: {leading-cause: full of coarse, first-fix: full of coarse}\n"
    "site:\n"
    "  units:\n"
    "    filter:\n"
    "      coarse: {comes-before: [fine]}\n"
    "      fine: {}\n";

static const char farm[] = "site:\n  units:\n    tank: {fine: {}}\n    filter: {left: {}}\n";

static tt_source source_of(const char *name, const char *text)
{
    return (tt_source){name, text, strlen(text)};
}

static tt_renaming *rename_it(const char *old, const char *new, const char *site, tt_status wanted)
{
    tt_renaming *r;
    tt_report *report;
    const tt_source file = source_of("rules.yaml", rules),
                    there = source_of("farm.yaml", site != NULL ? site : "");
    tt_status status = tt_rename(&file, 1, site != NULL ? &there : NULL, old, new, &r, &report);
    if (status != wanted)
        print_error("%s: %s %s\n", old, r == NULL ? "" : tt_renaming_look(r).refusal,
                    tt_report_text(report));
    assert_int_equal(status, wanted);
    assert_non_null(r);
    tt_report_free(report);
    return r;
}

static unsigned times(const char *text, const char *part)
{
    unsigned count = 0;
    for (const char *at = text; (at = strstr(at, part)) != NULL; at += strlen(part)) count++;
    return count;
}

/* The number of edits, and the parts of the text that must be there then: a null ends them. */
static void comes_out(const char *old, const char *new, uint32_t edits, ...)
{
    tt_renaming *r = rename_it(old, new, NULL, TT_OK);
    const tt_renamed done = tt_renaming_look(r);
    const char *text = done.sources[0].bytes;
    va_list parts;
    if (done.edit_count != edits) print_error("%s\n", text);
    assert_int_equal(done.edit_count, edits);
    va_start(parts, edits);
    for (const char *part; (part = va_arg(parts, const char *)) != NULL;)
        if (strstr(text, part) == NULL) fail_msg("%s as %s: no '%s' in\n%s", old, new, part, text);
    va_end(parts);
    tt_renaming_free(r);
}

static void refused(const char *old, const char *new, const char *why)
{
    tt_renaming *r = rename_it(old, new, NULL, TT_FAULTY);
    if (strstr(tt_renaming_look(r).refusal, why) == NULL)
        fail_msg("%s as %s: %s", old, new, tt_renaming_look(r).refusal);
    assert_int_equal(tt_renaming_look(r).edit_count, 0);
    tt_renaming_free(r);
}

static void a_question_wherever_it_stands(void **state)
{
    (void)state;
    comes_out("drop", "loss", 9, "  loss: # drop\n", "takes {loss}\", and {{drop}} is a word,\n",
              "so is {loss, bar} again", "max(loss of every filter) - min(loss of every filter)",
              "when: {loss: above 8 psi}", "look-again: [loss]", "loss of any filter: above 1 psi",
              "{loss of coarse: 12 psi", "drop-end wet", "  drop-end:\n", "What drop has {filter}?",
              "# drop and flow stay in words", NULL);
}

static void names_made_of_names_go_along(void **state)
{
    (void)state;
    comes_out("look", "sight", 5, "only-when: {sight: {not: fine}}",
              "sight-burst-confirmed: not shown", "sight: {not: [dull, burst]}",
              "  sight:\n    ask: How does it look?", NULL);
    comes_out("look: burst", "split", 4, "split: Burst}", "confirms: {split: torn}",
              "look-split-confirmed", "[dull, split]", NULL);
}

static void an_answer_only_of_its_question(void **state)
{
    (void)state;
    comes_out("look: fine", "shiny", 2, "{not: shiny}", "dull: Dull, shiny: Fine",
              "      fine: {}\n", "[fine]", NULL);
    comes_out("answer dull", "matt", 3, "matt: Dull", "[matt]", "[matt, burst]", NULL);
}

static void pieces_kinds_and_roles(void **state)
{
    (void)state;
    comes_out("piece of equipment fine", "thin", 2, "comes-before: [thin]", "      thin: {}",
              "{not: fine}", NULL);
    comes_out("coarse", "wide", 5, "at: [wide]", "drop of wide: 12",
              "full of wide, first-fix: full of wide", "      wide: {comes", NULL);
    comes_out("filter", "strainer", 14, "  strainer:\n    ask: Which filters", "for-each: strainer",
              "What drop has {strainer}?", "\"{strainer} takes", "drop of every strainer",
              "full of any strainer", "    strainer:\n      coarse", NULL);
    comes_out("fitter", "plumber", 2, "[helper, 'plumber']", "role: plumber", NULL);
}

/* The site has no tank, so nothing of what is written for each is read for it. */
static void what_the_site_has_none_of(void **state)
{
    (void)state;
    comes_out("deep", "depth", 2, "  depth:\n", "when: {depth: below 20 %}", NULL);
    comes_out("tank", "vat", 5, "for-each: vat", "How deep is {vat}?", "'{vat} is low'", NULL);
}

static void one_of_two_that_share_a_name(void **state)
{
    (void)state;
    refused("full", "blocked", "'cause full' (rules.yaml:");
    refused("full", "blocked", "'fix full' (rules.yaml:");
    comes_out("cause full", "blocked", 5, "shown-by: {\"blocked\": often}",
              "[blocked of any filter]", "cures: {blocked: usually}",
              "leading-cause: blocked of coarse, first-fix: full of coarse", NULL);
    comes_out("fix full", "change", 2, "  change:\n    for-each: filter",
              "leading-cause: full of coarse, first-fix: change of coarse", NULL);
    comes_out("case coarse-full", "full-one", 1, "  full-one:\n    at:", NULL);
    comes_out("rule wide-span", "wide", 1, "  wide:\n    when:", NULL);
}

static void what_cannot_be(void **state)
{
    (void)state;
    refused("worn", "torn", "There is a cause 'torn' already, at rules.yaml:");
    refused("look: fine", "dull", "There is an answer 'dull' already");
    refused("drop", "low", "could not tell this question from the symptom 'low'");
    refused("drop", "filter", "'{filter}' could be this question or the kind of equipment");
    refused("filter", "drop", "'{drop}' could be this kind of equipment or the question");
    refused("drop", "all", "the language uses this word itself");
    refused("drop", "Loss 2", "Write 'loss-2'");
    refused("drop", "drop", "is its name already");
    refused("drpo", "loss", "Did you mean 'drop'?");
    refused("cause fulll", "blocked", "Did you mean 'full'?");
    refused("symptom worn", "torn", "Nothing in the book is named 'symptom worn'.");
    refused("look: finer", "good", "Did you mean 'fine'?");
    refused("hum: fine", "good", "Nothing in the book is named 'hum: fine'.");
    refused("look: fine", "Fine 2", "Write 'fine-2'");
    refused("symptom look-burst-confirmed", "split",
            "Rename the question 'look', or its answer 'look: burst'.");
    refused("qqqqqqqqqqqqqqqq", "loss", "Nothing in the book is named 'qqqqqqqqqqqqqqqq'.");
    refused("look-burst-confirmed", "split",
            "Rename the question 'look', or its answer 'look: burst'");
    refused("look", "drop", "There is a question 'drop' already");
}

/* A name that is written with escapes is not found, and then nothing is half done. */
static void what_is_not_found_is_not_half_done(void **state)
{
    (void)state;
    tt_renaming *r;
    tt_report *report;
    char *text = strdup(rules), *at = strstr(text, "cures: {worn: often");
    assert_non_null(at);
    char *escaped = malloc(strlen(rules) + 32);
    assert_non_null(escaped);
    snprintf(escaped, strlen(rules) + 32, "%.*scures: {\"w\\x6frn\": often%s", (int)(at - text),
             text, at + strlen("cures: {worn: often"));
    const tt_source file = source_of("rules.yaml", escaped);
    assert_int_equal(tt_rename(&file, 1, NULL, "worn", "tired", &r, &report), TT_FAULTY);
    assert_non_null(strstr(tt_renaming_look(r).refusal,
                           "Renamed so, the book would have faults:\nrules.yaml:"));
    assert_non_null(strstr(tt_renaming_look(r).refusal, "'worn'"));
    tt_renaming_free(r);
    tt_report_free(report);
    free(escaped);
    free(text);
}

static void a_site_of_its_own(void **state)
{
    (void)state;
    tt_renaming *r = rename_it("tank", "vat", farm, TT_OK);
    const tt_renamed done = tt_renaming_look(r);
    assert_true(done.edit_count > 3 && done.site_edit_count == 1 && done.source_count == 1);
    assert_int_equal(times(done.site->bytes, "vat: {fine: {}}"), 1);
    assert_int_equal(times(done.sources[0].bytes, "tank"), 1); /* "Which tanks" */
    tt_renaming_free(r);
    r = rename_it("left", "near", farm, TT_OK);
    assert_int_equal(tt_renaming_look(r).edit_count, 0);
    assert_int_equal(tt_renaming_look(r).site_edit_count, 1);
    tt_renaming_free(r);
}

static void a_book_with_faults_is_left_alone(void **state)
{
    (void)state;
    tt_renaming *r;
    tt_report *report;
    const tt_source file = source_of("rules.yaml", "book: {title: X}\n");
    assert_int_equal(tt_rename(&file, 1, NULL, "a", "b", &r, &report), TT_FAULTY);
    assert_null(r);
    assert_true(tt_report_errors(report) > 0);
    tt_report_free(report);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_question_wherever_it_stands),
        cmocka_unit_test(names_made_of_names_go_along),
        cmocka_unit_test(an_answer_only_of_its_question),
        cmocka_unit_test(pieces_kinds_and_roles),
        cmocka_unit_test(what_the_site_has_none_of),
        cmocka_unit_test(one_of_two_that_share_a_name),
        cmocka_unit_test(what_cannot_be),
        cmocka_unit_test(what_is_not_found_is_not_half_done),
        cmocka_unit_test(a_site_of_its_own),
        cmocka_unit_test(a_book_with_faults_is_left_alone),
    };
    return cmocka_run_group_tests_name("rename", tests, NULL, NULL);
}
