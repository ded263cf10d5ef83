/* However many threads read ahead: cases are looked at in the order in which they began, each once
 * and as one thread alone reads it, and what is wrong with one is said when its turn comes. */
#include "testing.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "call/cases_in_order.h"
#include "host/plain_text.h"
#include "many_cases.h"

enum { CASES = 210, EVERY = 7 };

static int fresh(void **state)
{
    (void)state;
    assert_int_equal(system("rm -rf cases"), 0);
    many_cases("cases", CASES);
    return 0;
}

typedef struct looking {
    FILE *out;
    uint32_t count, good;
} looking;

static void tell(FILE *out, const char *folder, exit_status read, const seen_case *c)
{
    size_t records = 0;
    if (read == EXIT_DONE) case_store_records(c->store, &records);
    fprintf(out, "%s %d %zu %s\n", folder, read, records, read == EXIT_DONE ? c->says.last : "");
}

static void look(void *context, const read_case *one)
{
    looking *l = context;
    assert_ptr_equal(strrchr(one->folder, '/') + 1,
                     one->folder + strlen(one->folder) - strlen(one->uuid));
    fflush(stderr);
    fprintf(stderr, "looked at %s\n", one->folder);
    tell(l->out, one->folder, one->read, one->c);
    l->count++;
    l->good += one->read == EXIT_DONE;
}

static char *whole(const char *name)
{
    FILE *f = fopen(name, "r");
    assert_non_null(f);
    char *text = NULL;
    size_t room = 0;
    if (getdelim(&text, &room, '\0', f) < 0) text = copy_text("");
    fclose(f);
    return text;
}

/* What is said to standard error meanwhile is left in the file "said". */
static char *looked_at(size_t *out_of_reach, looking *l)
{
    char *text;
    size_t length;
    fflush(stderr);
    const int before = dup(STDERR_FILENO);
    assert_non_null(freopen("said", "w", stderr));
    l->out = open_memstream(&text, &length);
    *out_of_reach = cases_in_order("cases", look, l);
    fclose(l->out);
    fflush(stderr);
    assert_true(dup2(before, STDERR_FILENO) >= 0);
    close(before);
    return text;
}

/* One after another, without any other thread. */
static char *read_alone(void)
{
    char *text, *path = NULL;
    size_t length, room = 0;
    FILE *out = open_memstream(&text, &length),
         *paths = popen("find cases -mindepth 3 -maxdepth 3 | sort", "r");
    assert_non_null(paths);
    for (ssize_t got; (got = getline(&path, &room, paths)) > 0;) {
        seen_case c;
        path[got - 1] = 0;
        const exit_status read = seen_case_read(&c, "", path);
        tell(out, path, read, &c);
        seen_case_end(&c);
    }
    free(path);
    pclose(paths);
    fclose(out);
    return text;
}

static void each_once_and_in_order(void **state)
{
    (void)state;
    looking l = {.count = 0};
    size_t out_of_reach;
    char *together = looked_at(&out_of_reach, &l), *alone = read_alone();
    assert_int_equal(l.count, CASES);
    assert_int_equal(l.good, CASES);
    assert_int_equal(out_of_reach, 0);
    assert_string_equal(together, alone);
    free(together);
    free(alone);
}

/* Every seventh has a line that is none, every fiftieth is no folder of a case any more. */
static void damage(void)
{
    assert_int_equal(system("n=0; for c in $(find cases -mindepth 3 -maxdepth 3 | sort); do "
                            "n=$((n + 1)); "
                            "if [ $((n % 50)) = 0 ]; then rm -r $c && ln -s / $c; "
                            "elif [ $((n % 7)) = 0 ]; then "
                            "for f in $c/*.jsonl; do echo '{damaged' >>$f; done; fi; done"),
                     0);
}

/* Null: that was the last. */
static char *next_line(char **rest)
{
    char *line = *rest, *end = line != NULL ? strchr(line, '\n') : NULL;
    if (end != NULL) *end = 0;
    *rest = end != NULL && end[1] != 0 ? end + 1 : NULL;
    return line;
}

/* The folder whose file a complaint names; null: it is none of those. */
static char *folder_named(const char *line)
{
    const char *begin = strstr(line, "cases/"), *end = strstr(line, ".jsonl, line");
    if (begin == NULL || end == NULL) return NULL;
    while (*end != '/') end--;
    return format_text("%.*s", (int)(end - begin), begin);
}

static bool is_complaint(const char *line)
{
    return strncmp(line, "telltale: ", 10) == 0;
}

/* Each stands right before its case is looked at. */
static uint32_t complaints_in_their_places(char *said)
{
    uint32_t count = 0;
    for (char *line, *rest = said; (line = next_line(&rest)) != NULL;) {
        char *of = folder_named(line);
        if (of == NULL) continue;
        while (is_complaint(line)) line = next_line(&rest); /* of two writers */
        char *next = format_text("looked at %s", of);
        assert_string_equal(line, next);
        free(next);
        free(of);
        count++;
    }
    return count;
}

static void what_is_wrong_is_said_in_its_turn(void **state)
{
    (void)state;
    damage();
    looking l = {.count = 0};
    size_t out_of_reach;
    char *together = looked_at(&out_of_reach, &l), *said = whole("said"), *alone = read_alone();
    const char *place = alone; /* which has a line for each link, too */
    for (char *line, *rest = together; (line = next_line(&rest)) != NULL;) {
        place = strstr(place, line);
        assert_non_null(place);
    }
    assert_int_equal(l.count, CASES - CASES / 50);
    assert_int_equal(out_of_reach, 0); /* a link is said, and is nothing to be read */
    assert_true(complaints_in_their_places(said) >= CASES / EVERY - CASES / 350);
    free(together);
    free(said);
    free(alone);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(each_once_and_in_order, fresh),
        cmocka_unit_test_setup(what_is_wrong_is_said_in_its_turn, fresh)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
