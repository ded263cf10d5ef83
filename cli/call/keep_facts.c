/* At the end: what was said about the site may go into its file. */
#include <stdlib.h>
#include <string.h>

#include "base/grow.h"
#include "books/site_text.h"
#include "call/call_parts.h"
#include "call/choose_site.h"
#include "call/dialogue.h"
#include "host/clock.h"
#include "host/files.h"
#include "host/memory.h"
#include "say/catalogue.h"
#include "show/told.h"

typedef struct new_facts {
    const char *text;     /* of the file, with them in it */
    const char **lines;   /* as they are shown */
    const char **entries; /* for the file */
    uint32_t count, room, entry_count, entry_room;
    bool by_hand; /* the file is written so that nothing can be added by lines */
} new_facts;

const char *fact_as_written(arena *keep, const tt_fact *fact)
{
    if (fact->unit != NULL) return arena_text(keep, "%s %s", fact->value, fact->unit);
    return fact->is_number ? fact->text : fact->value;
}

/* As in an answers file; null if it is none that a site could give. */
static const char *value_for_file(conversation *c, const tt_fact *fact)
{
    const bool open = strcmp(fact->value, "unsure") == 0 || strcmp(fact->value, "cannot") == 0;
    if (open || (!fact->is_number && strchr(fact->value, ' ') != NULL)) return NULL;
    return fact_as_written(c->keep, fact);
}

/* "answered in case 483201K on 2026-11-29" */
static const char *source_for_file(conversation *c)
{
    char clock[TT_MOMENT_SIZE];
    clock_now(clock);
    const char *now = c->face->now != NULL ? c->face->now : clock;
    if (c->store == NULL) return arena_text(c->keep, "answered on %.10s", now);
    return arena_text(c->keep, "answered in case %s on %.10s", case_store_number(c->store), now);
}

static bool is_for_file(conversation *c, const tt_fact *fact, tt_question *question)
{
    return fact->question != TT_NONE && strcmp(fact->from, "answer") == 0 &&
           is_told(c->keep, tt_question_show(tt_talk_case(c->talk), fact->question, question)) &&
           question->of_site;
}

static void add_fact(conversation *c, new_facts *all, const tt_question *question,
                     const tt_fact *fact, const site_fact *entry)
{
    char *longer = site_text_with(all->text, entry);
    all->by_hand = all->by_hand || longer == NULL;
    if (longer == NULL || strcmp(longer, all->text) != 0) {
        GROW(c->keep, all->lines, all->count, all->room);
        all->lines[all->count++] = arena_text(c->keep, "%s %s", question->ask, fact->text);
        GROW(c->keep, all->entries, all->entry_count, all->entry_room);
        all->entries[all->entry_count++] =
            arena_text(c->keep, "%s: %s", entry->question, entry->value);
    }
    if (longer != NULL) all->text = arena_copy(c->keep, longer);
    free(longer);
}

static new_facts gather(conversation *c, const tt_view *view)
{
    new_facts all = {.text = c->book.site_text};
    const char *source = source_for_file(c);
    for (uint32_t i = 0; i < view->fact_count; i++) {
        tt_question question;
        const tt_fact *fact = &view->facts[i];
        const char *value = is_for_file(c, fact, &question) ? value_for_file(c, fact) : NULL;
        if (value != NULL)
            add_fact(c, &all, &question, fact, &(site_fact){fact->name, value, source});
    }
    return all;
}

/* The file must still say what it said when the case began, and be a site file with the facts in
 * it. */
static bool can_be_written(const conversation *c, const char *text)
{
    tt_source now;
    if (source_read_file(c->site_path, &now) != EXIT_DONE) return false;
    const bool same = strlen(c->book.site_text) == now.length &&
                      memcmp(c->book.site_text, now.bytes, now.length) == 0;
    source_free(&now);
    return same && book_fits(c->book.folder, text);
}

/* What became of it, told with the last page. */
static void keep_facts(conversation *c, const new_facts *all)
{
    if (all->by_hand || !can_be_written(c, all->text)) {
        c->told_title = catalogue_text(c->tongue, HOST_BY_HAND);
        for (uint32_t i = 0; i < all->entry_count; i++) tell_at_end(c, all->entries[i]);
        return;
    }
    const int error = write_whole(c->site_path, all->text, strlen(all->text), 0666, true);
    tell_at_end(c, error == 0
                       ? catalogue_text(c->tongue, HOST_FACTS_KEPT)
                       : FILL(c->keep, c->tongue, HOST_NOT_WRITTEN, c->site_path, strerror(error)));
    if (error != 0) return;
    note_site(&c->book, all->text);
    note_site_of_case(c);
}

void offer_to_keep_facts(conversation *c)
{
    const tt_view *view = NULL;
    if (c->site_path == NULL || c->talk == NULL ||
        !is_told(c->keep, tt_look(tt_talk_case(c->talk), &view)))
        return;
    const new_facts all = gather(c, view);
    if (all.count == 0) return;
    char *shown = short_path(c->site_path);
    tt_turn *turn =
        host_turn(c, TT_TURN_KEEP_FACTS, FILL(c->keep, c->tongue, HOST_KEEP_FACTS, shown));
    free(shown);
    host_list(c, turn, TT_PART_FACTS, catalogue_text(c->tongue, HOST_SAID_OF_SITE), all.lines,
              all.count);
    host_choice(c, turn, "yes", catalogue_text(c->tongue, HOST_YES));
    host_choice(c, turn, "no", catalogue_text(c->tongue, HOST_NO));
    const char *chosen = host_choose(c, turn);
    if (chosen != NULL && strcmp(chosen, "yes") == 0) keep_facts(c, &all);
}
