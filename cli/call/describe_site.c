/* The person says what equipment there is, kind by kind; it may be kept in a file. */
#include <assert.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/str.h"
#include "books/site_file.h"
#include "books/site_text.h"
#include "call/choose_site.h"
#include "call/dialogue.h"
#include "host/files.h"
#include "host/memory.h"
#include "host/plain_text.h"
#include "say/catalogue.h"
#include "show/figures.h"

enum { MOST_COUNTED = 40 };

/* What was said so far: danger may come in between, and none of it is asked for twice. */
struct site_draft {
    const char *title;    /* null: not asked yet */
    names_said *said;     /* one for each kind */
    uint32_t kinds, kind; /* how many there are; of these so many are said, and right */
    bool listed;          /* of that kind all are said, and only to be confirmed */
};

/* ---- what there is of one kind ---- */

/* "3": as many, told apart by their numbers. */
static bool take_count(conversation *c, names_said *said, const char *line, const char *one)
{
    char *end;
    const long count = strtol(line, &end, 10);
    if (*line < '0' || *line > '9' || *end != 0) return false;
    assert(count <= MOST_COUNTED);
    for (long i = 1; i <= count; i++) names_add(said, arena_text(c->keep, "%s %ld", one, i));
    return true;
}

/* A slip of the hand is no name: nobody calls a pump 500. */
static bool is_too_many(const char *line)
{
    return *line != 0 && strspn(line, "0123456789") == strlen(line) &&
           strtol(line, NULL, 10) > MOST_COUNTED;
}

static void take_names(conversation *c, names_said *said, const char *line, const char **twice)
{
    for (str rest = str_of(line); rest.n > 0;) {
        const size_t comma = str_find_byte(rest, ',');
        const str name = str_trim(str_slice(rest, 0, comma < rest.n ? comma : rest.n));
        rest = comma < rest.n ? str_slice(rest, comma + 1, rest.n) : (str){rest.p, 0};
        const char *copy = str_copy(c->keep, name).p;
        if (name.n > 0 && !names_add(said, copy)) *twice = copy;
    }
}

static void list_so_far(conversation *c, tt_turn *turn, const names_said *said, const char *title)
{
    host_list(c, turn, TT_PART_FACTS, title, (const char *const *)said->items,
              (uint32_t)said->count);
}

static tt_turn *names_turn(conversation *c, const tt_kind *kind, const names_said *said)
{
    const bool first = said->count == 0;
    tt_turn *turn =
        host_turn(c, TT_TURN_SITE_PIECES,
                  first ? kind->ask : FILL(c->keep, c->tongue, HOST_MORE_PIECES, kind->ask));
    turn->subject = kind->name;
    host_choice(c, turn, "none", catalogue_text(c->tongue, first ? HOST_NO_PIECE : HOST_NO_MORE));
    if (first)
        host_line(c, turn, TT_PART_LOOK, "", FILL(c->keep, c->tongue, HOST_HOW_TO_SAY, kind->one));
    else
        list_so_far(c, turn, said, catalogue_text(c->tongue, HOST_SO_FAR));
    if (!first) host_word(c, turn, "back", TYPED_BACK);
    return turn;
}

/* "pump 1, pump 2, a man is caught": what was listed before it counts. */
static void take_before_danger(conversation *c, names_said *said, const char *line)
{
    const char *twice;
    for (size_t end = line != NULL ? strlen(line) : 0; end-- > 0;) {
        if (line[end] != ',' || !hears_danger(c, line + end + 1)) continue;
        const char *before = arena_text(c->keep, "%.*s", (int)end, line);
        if (hears_danger(c, before)) continue;
        take_names(c, said, before, &twice);
        return;
    }
}

/* One line after the other, up to an empty one; a line with commas, or a number alone at first, is
 * the whole list. */
static void hear_names(conversation *c, const tt_kind *kind, names_said *said)
{
    const char *twice = NULL, *wrong = "", *word;
    c->said_at_name = NULL;
    for (bool more = true; more;) {
        const bool first = said->count == 0;
        tt_turn *turn = names_turn(c, kind, said);
        if (twice != NULL) wrong = FILL(c->keep, c->tongue, HOST_TWICE, twice);
        turn->wrong = wrong;
        twice = NULL;
        wrong = "";
        const char *line = host_words(c, turn, &word);
        if (line == NULL) {
            take_before_danger(c, said, c->said_at_name);
            return;
        }
        if (first && is_too_many(line)) {
            wrong = FILL(c->keep, c->tongue, HOST_TOO_MANY, count_words(c->keep, MOST_COUNTED));
            continue;
        }
        const bool back = *word != 0, counted = first && take_count(c, said, line, kind->one);
        if (back)
            names_drop_last(said);
        else if (!counted)
            take_names(c, said, line, &twice);
        more = back || (!counted && *line != 0 && strchr(line, ',') == NULL);
    }
}

static bool is_right(conversation *c, const names_said *said, const char *one)
{
    tt_turn *turn = host_turn(c, TT_TURN_SITE_RIGHT, catalogue_text(c->tongue, HOST_IS_RIGHT));
    if (said->count == 0)
        host_line(c, turn, TT_PART_FACTS, "", FILL(c->keep, c->tongue, HOST_THERE_IS_NONE, one));
    else
        list_so_far(c, turn, said,
                    catalogue_text(c->tongue, said->count == 1 ? HOST_THERE_IS : HOST_THERE_ARE));
    host_choice(c, turn, "yes", catalogue_text(c->tongue, HOST_YES));
    host_choice(c, turn, "again", catalogue_text(c->tongue, HOST_SAY_AGAIN));
    const char *chosen = host_choose(c, turn);
    return chosen != NULL && strcmp(chosen, "yes") == 0;
}

/* False: the person is not here any more, or there is danger. */
static bool ask_kind(conversation *c, const tt_kind *kind, struct site_draft *d)
{
    names_said *said = &d->said[d->kind];
    for (bool right = false; !right;) {
        if (!d->listed) hear_names(c, kind, said);
        if (!may_ask(c)) return false;
        d->listed = true;
        right = is_right(c, said, kind->one);
        if (!may_ask(c)) return false;
        d->listed = false;
        if (!right) names_free(said);
    }
    return true;
}

/* ---- keeping it ---- */

static int write_file(conversation *c, const char *path, bool over)
{
    char *folder = folder_above(path);
    const int error = make_folders(folder);
    free(folder);
    return error != 0 ? error
                      : write_whole(path, c->book.site_text, strlen(c->book.site_text), 0666, over);
}

static bool may_write_over(conversation *c, const char *path)
{
    tt_turn *turn =
        host_turn(c, TT_TURN_SITE_OVER, FILL(c->keep, c->tongue, HOST_FILE_THERE, path));
    host_choice(c, turn, "leave", catalogue_text(c->tongue, HOST_LEAVE_FILE));
    host_choice(c, turn, "over", catalogue_text(c->tongue, HOST_WRITE_OVER));
    const char *chosen = host_choose(c, turn);
    return chosen != NULL && strcmp(chosen, "over") == 0;
}

/* What is wrong with it, or null: it is in the file now. */
static const char *keep_in(conversation *c, const char *path)
{
    int error = write_file(c, path, false);
    if (error == EEXIST) {
        if (!may_write_over(c, path)) return "";
        error = write_file(c, path, true);
    }
    if (error != 0) return FILL(c->keep, c->tongue, HOST_NOT_WRITTEN, path, strerror(error));
    char *absolute = real_path(path);
    c->site_path = absolute != NULL ? arena_copy(c->keep, absolute) : path;
    free(absolute);
    char *shown = short_path(path);
    tell_at_end(c, FILL(c->keep, c->tongue, HOST_WRITTEN, shown));
    free(shown);
    return NULL;
}

/* "~/x" means what it means in a shell; where that is nowhere, it is asked again. Null: none was
 * named. */
static const char *ask_path(conversation *c)
{
    tt_turn *turn = host_turn(c, TT_TURN_SITE_PATH, catalogue_text(c->tongue, HOST_WHICH_FILE));
    host_choice(c, turn, "none", catalogue_text(c->tongue, HOST_NO_FILE));
    for (;;) {
        const char *word, *line = host_words(c, turn, &word);
        if (line == NULL || *line == 0) return NULL;
        if (!begins_at_home(line)) return line;
        char *whole = path_at_home(line);
        const char *kept = whole != NULL ? arena_copy(c->keep, whole) : NULL;
        free(whole);
        if (kept != NULL) return kept;
        turn->wrong_code = "no-home";
        turn->wrong = FILL(c->keep, c->tongue, HOST_NO_HOME, line);
    }
}

static const char *ask_where(conversation *c, const char *usual, const char *wrong)
{
    char *shown = short_path(usual != NULL ? usual : "");
    tt_turn *turn = host_turn(c, TT_TURN_SITE_KEEP, catalogue_text(c->tongue, HOST_KEEP_SITE));
    turn->wrong = wrong;
    if (usual != NULL)
        host_choice(c, turn, "here", FILL(c->keep, c->tongue, HOST_KEEP_HERE, shown));
    host_choice(c, turn, "elsewhere", catalogue_text(c->tongue, HOST_KEEP_ELSEWHERE));
    host_choice(c, turn, "no", catalogue_text(c->tongue, HOST_KEEP_NOT));
    free(shown);
    return host_choose(c, turn);
}

/* Until it is kept, or need not be. `wrong`: why it could not be kept where it was to be. */
static void offer_to_keep(conversation *c, const char *wrong)
{
    char *usual = site_file_usual(c->book.folder);
    while (wrong != NULL) {
        const char *chosen = ask_where(c, usual, wrong);
        if (chosen == NULL || strcmp(chosen, "no") == 0) break;
        const char *path = strcmp(chosen, "here") == 0 ? usual : ask_path(c);
        wrong = path != NULL ? keep_in(c, arena_copy(c->keep, path)) : "";
        if (!may_ask(c)) break;
    }
    free(usual);
}

/* Into the file named on the command line; if that fails, as if none had been. */
void keep_site(conversation *c)
{
    const char *given = c->line->values[OPTION_SITE],
               *wrong = given != NULL ? keep_in(c, given) : "";
    if (given != NULL || !is_given(c->line, OPTION_UNSAVED)) offer_to_keep(c, wrong);
    /* danger came first: it is asked again */
    c->keeps_site = c->interrupted && is_here(c) && !talk_is_over(c);
}

/* ---- the whole of it ---- */

/* Short names may happen to be words of the rule language; then long ones do. False: the rules have
 * nothing to find there, as where there is none of their equipment; it is asked again. */
static bool open_as_said(conversation *c, const char *title, const names_said *said)
{
    char *text = NULL;
    bool fits = false;
    for (int as_words = 0; as_words < 2 && !fits; as_words++) {
        free(text);
        text = site_text_of(c->book.book, title, said, as_words == 1);
        fits = book_fits(c->book.folder, text);
    }
    if (fits) note_failure(c, open_with_site_text(c, text));
    c->site_wrong = fits ? "" : catalogue_text(c->tongue, HOST_SITE_FINDS_NOTHING);
    free(text);
    return fits;
}

static bool ask_all_kinds(conversation *c, struct site_draft *d)
{
    for (; d->kind < d->kinds; d->kind++) {
        const tt_kind kind = tt_kind_show(c->book.book, d->kind, c->language);
        if (!kind.unnamed && !ask_kind(c, &kind, d)) return false;
    }
    return true;
}

/* Braces mean something in rules. */
static const char *ask_title(conversation *c)
{
    tt_turn *turn = host_turn(c, TT_TURN_SITE_NAME, catalogue_text(c->tongue, HOST_SITE_NAME));
    host_choice(c, turn, "none", catalogue_text(c->tongue, HOST_NO_NAME));
    const char *word, *said = host_words(c, turn, &word);
    char *title = said != NULL ? (char *)(uintptr_t)arena_copy(c->keep, said) : NULL;
    for (char *b = title; b != NULL && *b != 0; b++) *b = *b == '{' ? '(' : *b == '}' ? ')' : *b;
    return title;
}

static struct site_draft *draft_of(conversation *c)
{
    if (c->draft != NULL) return c->draft;
    c->draft = ARENA_NEW(c->keep, struct site_draft);
    c->draft->kinds = tt_kind_count(c->book.book);
    c->draft->said = ARENA_ARRAY(c->keep, names_said, c->draft->kinds);
    return c->draft;
}

void forget_draft(conversation *c)
{
    for (uint32_t i = 0; c->draft != NULL && i < c->draft->kinds; i++)
        names_free(&c->draft->said[i]);
    c->draft = NULL;
}

bool describe_site(conversation *c)
{
    struct site_draft *d = draft_of(c);
    if (d->title == NULL) d->title = ask_title(c);
    if (d->title == NULL || !ask_all_kinds(c, d)) {
        if (!c->interrupted) forget_draft(c);
        return false;
    }
    const bool complete = open_as_said(c, d->title, d->said);
    forget_draft(c);
    if (complete && may_ask(c)) keep_site(c);
    return complete && c->failure == EXIT_DONE;
}
