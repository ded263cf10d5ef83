/* complete: what may stand next on a command line, for shells: cli/completion holds a few lines for
 * each of them, and all that is known of verbs, options, books and cases is said here. One
 * candidate a line, a tab, and what it is; "<tab>files" or
 * "<tab>folders": the shell goes on by itself. */
#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "books/read_book.h"
#include "books/shelf.h"
#include "cases/case_depot.h"
#include "cases/case_name.h"
#include "host/installed.h"
#include "host/plain_text.h"
#include "say/catalogue.h"
#include "summary/case_order.h"
#include "verb/verbs.h"

enum { MOST_CASES = 200 };

/* The line as far as it is typed: what stands before the word that is being typed, taken apart. */
typedef struct typed {
    const verb_entry *verb; /* null: none yet */
    command_line line;
    const option_entry *pending; /* the last word asks for its value; or null */
    bool only_words;             /* behind -- */
    const char *now;             /* being typed */
    const char *lead; /* stands before each candidate: "--state=" of one that is written so */
} typed;

static void offer(const typed *t, const char *candidate, const char *what)
{
    if (strncmp(candidate, t->now, strlen(t->now)) != 0) return;
    char *clean = clean_text(what);
    for (char *c = clean; *c != 0; c++)
        if (*c == '\n') *c = ' ';
    printf("%s%s\t%s\n", t->lead, candidate, clean);
    free(clean);
}

/* ---- what there is of each sort ---- */

static void offer_nothing(const typed *t)
{
    (void)t;
}

static void offer_files(const typed *t)
{
    (void)t;
    puts("\tfiles");
}

static void offer_folders(const typed *t)
{
    (void)t;
    puts("\tfolders");
}

static void offer_books(const typed *t)
{
    char *folder = installed_folder(TELLTALE_RULES_DIR);
    shelf s = shelf_read(folder, "");
    for (unsigned i = 0; i < s.count; i++) offer(t, strrchr(s.paths[i], '/') + 1, s.titles[i]);
    shelf_free(&s);
    free(folder);
    puts("\tfolders");
}

static bool open_typed_book(const typed *t, opened_book *book)
{
    const char *named = t->line.count > 1 ? t->line.words[1] : "foam-line";
    return book_open(named, NULL, book) == EXIT_DONE;
}

static void offer_roles(const typed *t)
{
    opened_book book;
    if (!open_typed_book(t, &book)) return;
    const uint32_t roles = tt_book_describe(book.book).roles;
    for (uint32_t i = 0; i < roles; i++) offer(t, tt_role_name(book.book, i), "");
    book_close(&book);
}

static void offer_worked_cases(const typed *t)
{
    opened_book book;
    if (!open_typed_book(t, &book)) return;
    const char *name;
    for (uint32_t i = 0; (name = tt_worked_case(book.book, i)) != NULL; i++) offer(t, name, "");
    book_close(&book);
}

static void offer_everies(const typed *t)
{
    for (int i = 0; i < TT_EVERIES; i++) offer(t, tt_every_name((tt_every)i), "");
}

static void offer_colours(const typed *t)
{
    offer(t, "auto", "colour on a terminal");
    offer(t, "always", "");
    offer(t, "never", "");
}

static void offer_languages(const typed *t)
{
    for (int i = 0; i < TONGUE_COUNT; i++)
        offer(t, tongue_tag((tongue)i), tongue_name(tongue_tag((tongue)i)));
}

static void offer_states(const typed *t)
{
    for (int i = 0; i < TT_CASE_STATES; i++) offer(t, tt_case_state_name((tt_case_state)i), "");
}

static void offer_kinds(const typed *t)
{
    for (int i = 0; i < TT_CASE_KINDS; i++)
        if (i != TT_KIND_DRILL) offer(t, tt_case_kind_name((tt_case_kind)i), "");
}

static void offer_orders(const typed *t)
{
    for (int i = 0; i < CASE_ORDERS; i++)
        if (i != ORDER_LISTED) offer(t, case_order_name((case_order)i), "");
}

static void offer_months(const typed *t)
{
    offer(t, "month", "");
}

static void offer_verbs(const typed *t)
{
    for (unsigned i = 0; i < verb_count; i++) offer(t, verb_table[i].name, verb_table[i].help);
}

/* The last that moved first: where a shell keeps the order, they are at hand. */
static void offer_cases(const typed *t)
{
    const bool to_go_on = t->verb != NULL && t->verb->bit == FOR_ASK; /* an option may come first */
    const unsigned open = 1u << TT_CASE_OPEN | 1u << TT_CASE_ON_HOLD | 1u << TT_CASE_WAITING;
    const case_query query = {.states = to_go_on ? open : (1u << TT_CASE_STATES) - 1,
                              .kinds = (1u << TT_CASE_KINDS) - 1,
                              .since = INT64_MIN,
                              .until = INT64_MAX};
    case_list list = {.cases = NULL};
    char *root = cases_root(t->line.values[OPTION_CASES]);
    if (root != NULL && case_list_read(root, true, &query, &list) == EXIT_DONE) {
        case_list_sort(&list, ORDER_MOVED);
        for (size_t i = 0; i < list.count && i < MOST_CASES; i++) {
            const case_summary *c = &list.cases[list.count - 1 - i];
            char *what = format_text("%s, %s: %s", tt_case_state_name(c->says.state), c->says.title,
                                     *c->says.complaint != 0 ? c->says.complaint : c->says.said);
            offer(t, c->number, what);
            free(what);
        }
    }
    case_list_free(&list);
    free(root);
}

/* ---- which of them may stand here ---- */

typedef void offering(const typed *t);

/* By what the tables of verbs and options call a word or a value; those of `of` first. */
static const struct named_offer {
    const char *name;
    int of; /* an option, or -1: any that calls its value so, and the words of verbs */
    offering *offers;
} offers[] = {
    {"NUMBER", OPTION_CASE, offer_cases},
    {"WHEN", -1, offer_colours},
    {"ROLE", -1, offer_roles},
    {"FILE", -1, offer_files},
    {"FOLDER", -1, offer_folders},
    {"WHERE", -1, offer_folders},
    {"TIME", OPTION_EVERY, offer_everies},
    {"TAG", -1, offer_languages},
    {"STATE", -1, offer_states},
    {"KIND", -1, offer_kinds},
    {"ORDER", -1, offer_orders},
    {"MONTH", -1, offer_months},
    {"BOOK", -1, offer_books},
    {"ANSWERS", -1, offer_files},
    {"VERB", -1, offer_verbs},
};

static offering *offering_named(const char *name, size_t length, int option)
{
    for (size_t i = 0; i < sizeof offers / sizeof offers[0]; i++) {
        const struct named_offer *o = &offers[i];
        const bool same = strncmp(o->name, name, length) == 0 && o->name[length] == 0;
        if (same && (o->of < 0 || o->of == option)) return o->offers;
    }
    return offer_nothing;
}

/* The next word of a verb. What is written by the rules themselves is a verb's own affair. */
static offering *offering_of_word(const typed *t)
{
    const unsigned bit = t->verb->bit;
    const size_t number = t->line.count; /* words, the verb among them */
    if (number > t->verb->most) return offer_nothing;
    if (bit == FOR_SHEET) return number == 1 ? offer_cases : offer_books;
    if (bit == FOR_TRY && number == 2) return offer_worked_cases;
    if (bit == FOR_COMPARE) return offer_books;
    if (bit == FOR_REHEARSE && number > 1) return offer_files;
    if (bit == FOR_RENAME && number == 1) return offer_books;
    const char *at = t->verb->words;
    for (size_t i = 1; i < number && *at != 0; i++) {
        at += strcspn(at, " ");
        at += *at == ' ';
    }
    return offering_named(at, strcspn(at, " "), -1);
}

static void offer_options(const typed *t)
{
    for (int i = 0; i < OPTION_COUNT; i++) {
        const option_entry *o = &option_table[i];
        if (t->verb != NULL ? (o->verbs & t->verb->bit) == 0 : o->verbs != FOR_ALL) continue;
        if (is_given(&t->line, (option_id)i)) continue;
        char *name = format_text("--%s", o->name);
        offer(t, name, o->help);
        free(name);
    }
}

/* ---- the line ---- */

static const option_entry *option_typed(const char *word, size_t length)
{
    for (int i = 0; i < OPTION_COUNT; i++)
        if (strncmp(option_table[i].name, word, length) == 0 && option_table[i].name[length] == 0)
            return &option_table[i];
    return NULL;
}

static void take_word(typed *t, const char *word)
{
    if (t->pending != NULL) {
        t->line.values[t->pending - option_table] = word;
        t->pending = NULL;
    } else if (!t->only_words && strcmp(word, "--") == 0) {
        t->only_words = true;
    } else if (!t->only_words && word[0] == '-' && word[1] == '-') {
        const size_t length = strcspn(word + 2, "=");
        const option_entry *option = option_typed(word + 2, length);
        if (option == NULL) return;
        const bool whole = option->value == NULL || word[2 + length] == '=';
        t->line.values[option - option_table] = word + 2 + length + (word[2 + length] == '=');
        if (!whole) t->pending = option;
    } else if (t->only_words || word[0] != '-') {
        for (unsigned i = 0; t->line.count == 0 && i < verb_count; i++)
            if (strcmp(verb_table[i].name, word) == 0) t->verb = &verb_table[i];
        t->line.words[t->line.count++] = word;
    }
}

/* "--state=op" is a value that is being typed. */
static void part_value(typed *t, char **lead)
{
    const char *equal = strchr(t->now, '=');
    if (t->pending != NULL || t->only_words || strncmp(t->now, "--", 2) != 0 || equal == NULL)
        return;
    t->pending = option_typed(t->now + 2, (size_t)(equal - t->now) - 2);
    *lead = format_text("%.*s", (int)(equal + 1 - t->now), t->now);
    t->lead = *lead;
    t->now = equal + 1;
}

static void offer_next(const typed *t)
{
    const bool of_option = t->pending != NULL;
    if (of_option)
        offering_named(t->pending->value, strlen(t->pending->value),
                       (int)(t->pending - option_table))(t);
    else if (!t->only_words && t->now[0] == '-')
        offer_options(t);
    else if (t->line.count == 0)
        offer_verbs(t);
    else if (t->verb != NULL)
        offering_of_word(t)(t);
}

exit_status verb_complete(const command_line *line)
{
    typed t = {.now = line->count > 1 ? line->words[line->count - 1] : "", .lead = ""};
    char *lead = NULL;
    t.line.program = line->program;
    t.line.words = take_memory((line->count + 1) * sizeof *t.line.words);
    for (size_t i = 1; i + 1 < line->count; i++) take_word(&t, line->words[i]);
    assert(t.line.count < line->count);
    part_value(&t, &lead);
    offer_next(&t);
    free(lead);
    command_line_free(&t.line);
    return EXIT_DONE;
}
