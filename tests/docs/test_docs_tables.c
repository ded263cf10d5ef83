/* The manual and the pages on faults say what the program's own tables say. */
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>
#include <jansson.h>

#include "talk/talk.h"
#include "telltale.h"
#include "verb/verbs.h"

enum { TEXT_ROOM = 1 << 20 };

static char *page_text(const char *name)
{
    char path[4096];
    snprintf(path, sizeof path, "%s/docs/%s", TT_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    if (file == NULL) fail_msg("%s can't be read", path);
    char *text = calloc(1, TEXT_ROOM);
    assert_non_null(text);
    text[fread(text, 1, TEXT_ROOM - 1, file)] = 0;
    fclose(file);
    return text;
}

static unsigned times(const char *text, const char *part)
{
    unsigned count = 0;
    for (; (text = strstr(text, part)) != NULL; text++) count++;
    return count;
}

/* The line with which the manual's list introduces an option. */
static void manual_item(const option_entry *option, char *out, size_t room)
{
    char value[64] = "", letter[16] = "";
    if (option->value != NULL) snprintf(value, sizeof value, " Ar %s", option->value);
    for (char *p = value + (*value != 0 ? 4 : 0); *p != 0; p++)
        if (*p >= 'A' && *p <= 'Z') *p = (char)(*p - 'A' + 'a');
    if (option->letter != 0) snprintf(letter, sizeof letter, "%c , ", option->letter);
    snprintf(out, room, "\n.It Fl %s-%s%s\n", letter, option->name, value);
}

static void the_manual_lists_every_option(void **state)
{
    (void)state;
    char *manual = page_text("telltale.1"), item[256];
    for (int i = 0; i < OPTION_COUNT; i++) {
        manual_item(&option_table[i], item, sizeof item);
        if (times(manual, item) != 1) fail_msg("the manual lacks%s", item);
    }
    assert_int_equal(times(manual, "\n.It Fl "), OPTION_COUNT);
    free(manual);
}

static const char *synopsis_of(const char *manual, const char *verb, size_t *length)
{
    char start[64];
    snprintf(start, sizeof start, "\n.Cm %s\n", verb);
    const char *from = strstr(manual, start);
    if (from == NULL) fail_msg("the manual's synopsis lacks %s", verb);
    const char *end = strstr(from + 1, "\n.Nm\n"), *section = strstr(from + 1, "\n.Sh ");
    if (end == NULL || end > section) end = section;
    *length = (size_t)(end - from);
    return from;
}

static void the_synopsis_knows_each_verbs_options(void **state)
{
    (void)state;
    char *manual = page_text("telltale.1"), part[64];
    for (unsigned v = 0; v < verb_count; v++) {
        size_t length;
        const char *from = synopsis_of(manual, verb_table[v].name, &length);
        char *own = calloc(1, length + 2);
        assert_non_null(own);
        memcpy(own, from, length);
        own[length] = '\n';
        for (int i = 0; i < OPTION_COUNT; i++) {
            if (option_table[i].verbs == FOR_ALL) continue;
            snprintf(part, sizeof part, "\n.Op Fl -%s%s", option_table[i].name,
                     option_table[i].value != NULL ? " Ar " : "\n");
            bool wanted = (option_table[i].verbs & verb_table[v].bit) != 0;
            if (times(own, part) != wanted)
                fail_msg("%s and --%s in the synopsis", verb_table[v].name, option_table[i].name);
        }
        free(own);
        snprintf(part, sizeof part, "\n.It Cm %s\n", verb_table[v].name);
        assert_int_equal(times(manual, part), 1);
    }
    free(manual);
}

static void the_manual_lists_words_and_exit_statuses(void **state)
{
    (void)state;
    char *manual = page_text("telltale.1"), item[256];
    unsigned statuses = 0;
#define STATUS_ITEM(name, number, text) \
    snprintf(item, sizeof item, "\n.It %d\n%s\n", number, text); \
    if (times(manual, item) != 1) fail_msg("the manual lacks%s", item); \
    statuses++;
    EXIT_TABLE(STATUS_ITEM)
    const char *list = strstr(manual, "\n.Sh EXIT STATUS");
    assert_non_null(list);
    char *own = strdup(list);
    *strstr(own, "\n.El") = 0;
    assert_int_equal(times(own, "\n.It "), statuses);
    free(own);
#define WORD_ITEM(id, word, typed, meaning) \
    snprintf(item, sizeof item, "\n.It Ic %s%s\n%s\n", strcmp(word, "?") == 0 ? "\\&" : "", word, \
             catalogue_text(TONGUE_EN, meaning)); \
    if (times(manual, item) != 1) fail_msg("the manual lacks%s", item);
    TALK_WORDS(WORD_ITEM)
    free(manual);
}

static void the_help_lists_every_option(void **state)
{
    (void)state;
    for (unsigned v = 0; v < verb_count; v++) {
        char command[4096];
        snprintf(command, sizeof command, "'%s' help %s >help.txt", TT_PROGRAM, verb_table[v].name);
        assert_int_equal(system(command), 0);
        for (int i = 0; i < OPTION_COUNT; i++) {
            snprintf(command, sizeof command, "grep -q -- '--%s\\b' help.txt",
                     option_table[i].name);
            bool wanted = (option_table[i].verbs & verb_table[v].bit) != 0;
            if ((system(command) == 0) != wanted)
                fail_msg("--%s and help %s", option_table[i].name, verb_table[v].name);
        }
    }
}

static int only_faults(const struct dirent *entry)
{
    return strncmp(entry->d_name, "faults-", 7) == 0 && strstr(entry->d_name, ".md") != NULL;
}

/* All pages on faults, one behind the other; each is named in the index. */
static char *fault_pages(void)
{
    struct dirent **pages;
    int count = scandir(TT_SOURCE_DIR "/docs", &pages, only_faults, alphasort);
    assert_true(count > 0);
    char *all = calloc((size_t)count + 1, TEXT_ROOM), *end = all, *index = page_text("faults.md");
    assert_non_null(all);
    for (int i = 0; i < count; i++) {
        char *page = page_text(pages[i]->d_name);
        if (times(index, pages[i]->d_name) == 0)
            fail_msg("faults.md does not name %s", pages[i]->d_name);
        end += snprintf(end, TEXT_ROOM, "\n%s", page);
        free(page);
        free(pages[i]);
    }
    free(pages);
    free(index);
    return all;
}

static void every_fault_has_its_section(void **state)
{
    (void)state;
    const char *code, *title;
    uint32_t count = 0, lacking = 0;
    char *all = fault_pages();
    for (; tt_fault_code(count, &code, &title); count++) {
        char heading[256];
        snprintf(heading, sizeof heading, "\n## %s %s\n", code, title);
        if (times(all, heading) == 1) continue;
        print_error("docs/faults-*.md lack the section%s", heading);
        lacking++;
    }
    assert_int_equal(lacking, 0);
    assert_int_equal(times(all, "\n## T"), count);
    free(all);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_manual_lists_every_option),
        cmocka_unit_test(the_synopsis_knows_each_verbs_options),
        cmocka_unit_test(the_manual_lists_words_and_exit_statuses),
        cmocka_unit_test(the_help_lists_every_option),
        cmocka_unit_test(every_fault_has_its_section),
    };
    return cmocka_run_group_tests_name("docs tables", tests, NULL, NULL);
}
