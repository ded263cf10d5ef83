/* Causes × signs through the public face: what the table says, what comes back from a spreadsheet,
 * and everything that can be wrong with it. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "telltale.h"
#include "testing.h"

static const char rules[] = "book:\n"
                            "  title: Filters\n"
                            "  roles: [helper]\n"
                            "kinds:\n"
                            "  filter:\n"
                            "    ask: Which filters are there?\n"
                            "questions:\n"
                            "  drop:\n"
                            "    for-each: filter\n"
                            "    ask: Does {filter} hold the water back?\n"
                            "  hum:\n"
                            "    ask: How is the pump?\n"
                            "    answers: {loud: Loud, quiet: Quiet, burnt: Burnt}\n"
                            "    confirms: {burnt: wound}\n"
                            "symptoms:\n"
                            "  held-back:\n"
                            "    for-each: filter\n"
                            "    text: \"{filter}, holds back\"\n"
                            "    when: {drop: yes}\n"
                            "    shown-by: # the cartridge\n"
                            "      # seen often\n"
                            "      full: often # from the label\n"
                            "      worn: 12.345 % # measured\n"
                            "    # and the rest\n"
                            "    otherwise: 5 % # of all\n"
                            "  hums: {when: {hum: loud}, shown-by: {worn: usually, wound: '0.3', "
                            "full of any filter: 1 of 20}}\n"
                            "causes:\n"
                            "  full:\n"
                            "    for-each: filter\n"
                            "    text: =The cartridge of {filter} is full\n"
                            "    part: filters\n"
                            "    how-often: common # by far\n"
                            "  worn: {text: Worn, part: pump, how-often: \"2\"}\n"
                            "  wound:\n"
                            "    text: {en: Burnt, es: Quemado}\n"
                            "    part: pump\n"
                            "fixes:\n"
                            "  mend: {text: Mend, role: helper, cures: {worn: usually, full of any "
                            "filter: usually, wound: often}, harm: none, put-back: not needed}\n"
                            "site:\n"
                            "  units: {filter: {coarse: {}, fine: {}}}\n";

static const char table[] =
    "part,cause,text,how-often,held-back,hum-burnt-confirmed,hums\r\n"
    ",(sign),,,\"{filter}, holds back\",hum: Burnt,hum: Loud\r\n"
    ",(part),,,filters,pump,pump\r\n"
    ",(otherwise),,,5 %,,\r\n"
    ",\"(strongest, dB)\",,,11.5,50.0,12.3\r\n"
    "filters,full,'=The cartridge of {filter} is full,common,often,,\r\n"
    "filters,full of any filter,'=The cartridge of {filter} is full,,,,1 of 20\r\n"
    "pump,worn,Worn,2,12.345 %,,usually\r\n"
    "pump,wound,Burnt,,,always,0.3\r\n";

static tt_table *new_table(void)
{
    tt_table *t;
    tt_report *report;
    const tt_source file = {"rules.yaml", rules, strlen(rules)};
    tt_status status = tt_table_new(&file, 1, &t, &report);
    if (status != TT_OK) print_error("%s\n", tt_report_text(report));
    assert_int_equal(status, TT_OK);
    tt_report_free(report);
    return t;
}

static void the_table_says_what_the_book_says(void **state)
{
    (void)state;
    tt_table *t = new_table();
    const tt_table_view v = tt_table_look(t);
    const char *bytes;
    size_t length;
    assert_int_equal(tt_table_csv(t, &bytes, &length), TT_OK);
    assert_string_equal(bytes, table);
    assert_int_equal(v.cause_count, 4);
    assert_int_equal(v.sign_count, 3);
    assert_int_equal(v.cell_count, 6);
    const tt_table_cell *c = &v.cells[0]; /* full, held-back */
    assert_string_equal(c->written, "often");
    assert_true(fabs(c->chance - 0.7) < 1e-9 && fabs(c->decibels - 10 * log10(0.7 / 0.05)) < 1e-9);
    assert_string_equal(c->at, "rules.yaml:22");
    assert_true(v.signs[1].confirmed && !v.signs[0].confirmed);
    tt_table_free(t);
}

/* Part of the text is replaced: a null leaves it as it is. Freed by the caller. */
static char *with(const char *text, const char *old, const char *new)
{
    const char *at = old != NULL ? strstr(text, old) : NULL;
    if (old != NULL) assert_non_null(at);
    size_t room = strlen(text) + (new != NULL ? strlen(new) : 0) + 1;
    char *out = malloc(room);
    assert_non_null(out);
    if (old == NULL)
        snprintf(out, room, "%s", text);
    else
        snprintf(out, room, "%.*s%s%s", (int)(at - text), text, new, at + strlen(old));
    return out;
}

static char *applied(const tt_edit *edits, uint32_t count)
{
    char *out = calloc(1, sizeof rules + 4096), *end = out;
    assert_non_null(out);
    size_t from = 0;
    for (uint32_t i = 0; i < count; i++) {
        assert_true(from <= edits[i].start && edits[i].start <= edits[i].end);
        memcpy(end, rules + from, edits[i].start - from);
        end += edits[i].start - from;
        memcpy(end, edits[i].text, strlen(edits[i].text));
        end += strlen(edits[i].text);
        from = edits[i].end;
    }
    memcpy(end, rules + from, strlen(rules + from));
    return out;
}

/* `edited` in place of the table makes the rules those with `new` in place of `old`. */
static void becomes(const char *edited, uint32_t edit_count, const char *old, const char *new)
{
    tt_table *t = new_table();
    const tt_edit *edits;
    uint32_t count;
    tt_report *report;
    const tt_source file = {"numbers.csv", edited, strlen(edited)};
    tt_status status = tt_table_read(t, &file, &edits, &count, &report);
    if (status != TT_OK) print_error("%s\n", tt_report_text(report));
    assert_int_equal(status, TT_OK);
    char *now = applied(edits, count), *wanted = with(rules, old, new);
    assert_string_equal(now, wanted);
    assert_int_equal(count, edit_count);
    free(now);
    free(wanted);
    tt_report_free(report);
    tt_table_free(t);
}

static void changed(const char *old_cell, const char *new_cell, uint32_t edits, const char *old,
                    const char *new)
{
    char *edited = with(table, old_cell, new_cell);
    becomes(edited, edits, old, new);
    free(edited);
}

static void nothing_changed_changes_nothing(void **state)
{
    (void)state;
    becomes(table, 0, NULL, NULL);
    changed("5 %", "5%", 0, NULL, NULL);
    changed("12.345 %", "12.35%", 0, NULL, NULL); /* as a spreadsheet shows it */
    changed("0.3", "0.30", 0, NULL, NULL);
    changed("hum: Loud", "Whatever", 0, NULL, NULL); /* texts are not read back */
    changed("11.5", "99", 0, NULL, NULL);
    changed("12.345 %", "12.35 %", 0, NULL, NULL);
    changed("Worn", "\"Wo\"\"rn\"", 0, NULL, NULL);
    changed("Worn", "\"\"", 0, NULL, NULL);
    changed("Worn", "Wo\xEF\xBF\xBDrn\rn", 0, NULL, NULL);
    changed("pump,worn", ",,,,,,\r\n\r\npump,worn", 0, NULL, NULL);
    changed(",hums\r", ",hums,\r", 0, NULL, NULL); /* a column in which nothing stands */
    changed("wound,Burnt,,,always,0.3\r\n", "wound,Burnt,,,always,0.3", 0, NULL, NULL);
    char *bom = with(table, "part,", "\xEF\xBB\xBFpart,");
    becomes(bom, 0, NULL, NULL);
    free(bom);
}

static void numbers_change_and_nothing_else(void **state)
{
    (void)state;
    changed("common,often", "common,85.50%", 1, "full: often #", "full: 85.5 % #");
    changed("12.345 %", "12.3 %", 1, "12.345 %", "12.3 %");
    changed(",5 %,", ",6 %,", 1, "otherwise: 5 %", "otherwise: 6 %");
    changed("common,often", "7,often", 1, "how-often: common #", "how-often: 7 #");
    changed("usually", "often", 1, "worn: usually, wound", "worn: often, wound");
    changed("0.3", "0.4", 1, "wound: '0.3'", "wound: 0.4");
    changed("Worn,2,", "Worn,3,", 1, "how-often: \"2\"", "how-often: 3");
}

static void numbers_come_and_go(void **state)
{
    (void)state;
    changed("pump,wound,Burnt,,,", "pump,wound,Burnt,,rarely,", 1, "    # and the rest\n",
            "      wound: rarely\n    # and the rest\n");
    changed("pump,wound,Burnt,,", "pump,wound,Burnt,rare,", 1, "    part: pump\nfixes",
            "    how-often: rare\n    part: pump\nfixes");
    changed("common,often,", "common,,", 1, "      full: often # from the label\n",
            "      # from the label\n");
    changed(",5 %,", ",,", 1, "    otherwise: 5 % # of all\n", "    # of all\n");
    changed("0.3", "", 1, "wound: '0.3', ", "");
    changed("1 of 20", "", 1, ", full of any filter: 1 of 20", "");
    changed("usually", "", 1, "worn: usually, ", "");
    changed("pump,worn,Worn,2,", "pump,worn,Worn,,", 1, ", how-often: \"2\"", "");
    changed(",5 %,,", ",5 %,,4 %", 1, "hums: {when", "hums: {otherwise: 4 %, when");
}

/* The first goes and another comes. */
static void both_at_once(void **state)
{
    (void)state;
    char *gone = with(table, "usually", ""),
         *both =
             with(gone, "filters,full of any filter,'=The cartridge of {filter} is full,,,,1 of 20",
                  "filters,full of any filter,'=The cartridge of {filter} is full,,,,2 of 20");
    becomes(both, 2, "{worn: usually, wound: '0.3', full of any filter: 1 of 20}",
            "{wound: '0.3', full of any filter: 2 of 20}");
    free(gone);
    free(both);
}

static void other_separators(void **state)
{
    (void)state;
    char *semicolons = with(table, NULL, NULL);
    bool quoted = false;
    for (char *p = semicolons; *p != 0; p++) {
        if (*p == '"') quoted = !quoted;
        if (*p == ',' && !quoted) *p = ';';
    }
    becomes(semicolons, 0, NULL, NULL);
    char *tabs = with(table, NULL, NULL);
    for (char *p = tabs; *p != 0; p++) {
        if (*p == '"') quoted = !quoted;
        if (*p == ',' && !quoted) *p = '\t';
    }
    becomes(tabs, 0, NULL, NULL);
    free(tabs);
    char *edited = with(semicolons, "common;often", "common;rarely");
    becomes(edited, 1, "full: often", "full: rarely");
    free(edited);
    free(semicolons);
}

static void wrong(const char *old, const char *new, const char *said)
{
    tt_table *t = new_table();
    const tt_edit *edits;
    uint32_t count;
    tt_report *report;
    char *edited = with(table, old, new);
    const tt_source file = {"numbers.csv", edited, strlen(edited)};
    assert_int_equal(tt_table_read(t, &file, &edits, &count, &report), TT_FAULTY);
    assert_int_equal(count, 0);
    if (strstr(tt_report_text(report), said) == NULL)
        fail_msg("no '%s' in\n%s", said, tt_report_text(report));
    tt_report_free(report);
    tt_table_free(t);
    free(edited);
}

static void much_is_missing(void **state)
{
    (void)state;
    static const char head[] = "part,cause,text,how-often\r\n", nothing[] = "\r\n",
                      short_row[] = "x";
    static const char *const said[][2] = {
        {head, "There is no column of 'held-back', 'hum-burnt-confirmed', 'hums'. [T887]"},
        {head, "There is no row of 'full', 'full of any filter', 'worn', 'wound'. [T887]"},
        {nothing, "its first row must be that of 'telltale table'. [T883]"},
        {"", "[T883]"},
        {short_row, "[T883]"},
        {"part,cause,text,how-often\r\npump\r\n", "The book has no cause 'pump'. [T884]"}};
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) wrong(table, said[i][0], said[i][1]);
}

static void every_fault_teaches(void **state)
{
    (void)state;
    wrong("Worn", "W\xF6rn",
          "numbers.csv:8:12: error: The table is no UTF-8 text from here on. [T881]");
    wrong("Worn", "Wo\xED\xA0\x80rn", "[T881]");
    wrong("Worn", "\"Worn",
          "numbers.csv:8:11: error: Here a quoted cell begins that does not end as one. [T882]");
    wrong("Worn", "\"Wo\"rn", "[T882]");
    wrong("part,cause", "cause,part", "its first row must be that of 'telltale table'. [T883]");
    wrong("pump,worn,", "pump,wron,",
          "numbers.csv:8:6: error: The book has no cause 'wron'. [T884]");
    wrong("pump,worn,", "pump,wron,", "help: Did you mean 'worn'?");
    wrong(",hums\r", ",humms\r", "The book has no sign 'humms'. [T885]");
    wrong("pump,wound", "pump,worn", "The cause 'worn' stands twice. [T886]");
    wrong("hum-burnt-confirmed,hums", "hums,hums", "The sign 'hums' stands twice. [T886]");
    wrong("pump,worn,Worn,2,12.345 %,,usually\r\n", "", "There is no row of 'worn'. [T887]");
    wrong(",usually\r", "\r", "This row ends before the column 'hums'. [T887]");
    wrong(",(otherwise),", ",(sign),", "There is no row (otherwise). [T887]");
    wrong("common,often", "common,offten",
          "numbers.csv:6:57: error: 'offten' is no chance. [T888]");
    wrong("common,often", "common,\"12,5 %\"", "help: Decimals stand behind a point: '12.5 %'.");
    wrong("common,often", "common,85", "Write '85 %' if you mean 85 of 100.");
    wrong("common,often", "seldom,often",
          "'seldom' is no word or number for how often a cause is met. [T888]");
    wrong(",always", ",often",
          "This can't be changed here: 'confirms' at rules.yaml:14 makes this sign. [T889]");
    wrong("is full,,,,1 of 20", "is full,rare,,,1 of 20",
          "how often stands in the row 'full'. [T889]");
    wrong("full,common,often", "full,common,120 %", "[T888]");
    wrong("common,often", "common,-1", "Write a word such as often or usually");
    wrong("common,often", "common,101", "Write a word such as often or usually");
    wrong("common,often", "common,\"often, or so\"", "'often, or so' is no chance. [T888]");
    wrong("common,often", "\"2,5\",often", "help: Decimals stand behind a point: '2.5'.");
    wrong("common,often", "0,often", "or a number above 0.");
    wrong("common,often", "2000000,often", "or a number above 0.");
    wrong("common,often", "\"much, much\",often", "or a number above 0.");
    wrong(",5 %,,", ",5 %,6 %,", "This can't be changed here: 'confirms' at rules.yaml:14");
    wrong(",5 %,,", ",500 %,,", "'500 %' is no chance. [T888]");
    wrong("Worn", "W\xEF\xBF\xBErn\xC3", "[T881]");
    wrong("Worn", "\"Wo\n", "a quoted cell begins that does not end as one. [T882]");
}

/* What only the whole book shows is said of the book. */
static void what_cannot_stand_there(void **state)
{
    (void)state;
    wrong("filters,full,'=The cartridge of {filter} is full,common,often,,",
          "filters,full,'=The cartridge of {filter} is full,common,often,,often",
          "'full' is there once for each filter, and this does not say for which.");
}

static void a_sign_keeps_a_cause(void **state)
{
    (void)state;
    char *first = with(table, "common,often", "common,"), *both = with(first, "12.345 %", "");
    tt_table *t = new_table();
    const tt_edit *edits;
    uint32_t count;
    tt_report *report;
    const tt_source file = {"numbers.csv", both, strlen(both)};
    assert_int_equal(tt_table_read(t, &file, &edits, &count, &report), TT_FAULTY);
    assert_non_null(strstr(tt_report_text(report),
                           "No cause would show the sign 'held-back' any more. [T889]"));
    tt_report_free(report);
    tt_table_free(t);
    free(first);
    free(both);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_table_says_what_the_book_says),
        cmocka_unit_test(nothing_changed_changes_nothing),
        cmocka_unit_test(numbers_change_and_nothing_else),
        cmocka_unit_test(numbers_come_and_go),
        cmocka_unit_test(both_at_once),
        cmocka_unit_test(much_is_missing),
        cmocka_unit_test(other_separators),
        cmocka_unit_test(every_fault_teaches),
        cmocka_unit_test(what_cannot_stand_there),
        cmocka_unit_test(a_sign_keeps_a_cause),
    };
    return cmocka_run_group_tests_name("table", tests, NULL, NULL);
}
