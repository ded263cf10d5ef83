/* Which answer was wrong: what was said in this case, the last first; what the site says is a list of its own, since it is long and
 * seldom wrong. */
#include <stdlib.h>
#include <string.h>

#include "ask/ask.h"
#include "host/begin_case.h"
#include "host/plain_text.h"

typedef struct changeable {
    uint32_t question;
    const char *name;
    char *text;
    size_t said; /* the step that said it, counted from 1; 0: not by a step, or nothing is kept */
} changeable;

typedef struct change_list {
    changeable *items;
    unsigned count;
} change_list;

/* Nothing is kept: then the steps do not say what they answered, and the order is that of the names. */
static size_t step_of(const ask *a, const char *question)
{
    for (size_t i = a->file != NULL ? a->step_count : 0; i-- > 0;) {
        if (a->steps[i].kind != STEP_ANSWER && a->steps[i].kind != STEP_CHANGED) continue;
        const case_record *r = case_file_record(a->file, a->steps[i].record);
        const char *about = json_string_value(json_object_get(r->data, "question"));
        if (about != NULL && strcmp(about, question) == 0) return i + 1;
    }
    return 0;
}

/* What a fix left and what was reckoned are no answers. */
static bool is_changeable(const tt_fact *fact, const tt_question *question)
{
    bool reckoned = question->kind == TT_QUANTITY && strcmp(fact->from, "answer") != 0;
    return strcmp(fact->from, "fix") != 0 && strcmp(fact->from, "quantity") != 0 && !reckoned;
}

static void insert(change_list *list, changeable item)
{
    unsigned at = list->count++;
    for (; at > 0 && list->items[at - 1].said < item.said; at--) list->items[at] = list->items[at - 1];
    list->items[at] = item;
}

static change_list list_answers(ask *a, const tt_view *view, bool of_site)
{
    change_list list = {.items = take_memory((view->fact_count + 1) * sizeof *list.items)};
    for (uint32_t i = 0; i < view->fact_count; i++) {
        const tt_fact *fact = &view->facts[i];
        tt_question question;
        if (fact->question == TT_NONE || (strcmp(fact->from, "site") == 0) != of_site) continue;
        if (tt_question_show(a->c, fact->question, &question) != TT_OK) continue;
        if (!is_changeable(fact, &question)) continue;
        insert(&list, (changeable){fact->question, question.name, format_text("%s %s", question.ask, fact->text),
                                   step_of(a, question.name)});
    }
    return list;
}

static void free_list(change_list list)
{
    for (unsigned i = 0; i < list.count; i++) free(list.items[i].text);
    free(list.items);
}

/* The number of one of them; `count` for the site's, if that is offered. */
static int choose_answer(ask *a, const change_list *list, bool offer_site)
{
    const char **texts = take_memory((list->count + 1) * sizeof *texts);
    const char **names = take_memory((list->count + 1) * sizeof *names);
    for (unsigned i = 0; i < list->count; i++) {
        texts[i] = list->items[i].text;
        names[i] = list->items[i].name;
    }
    texts[list->count] = "Something known of this site";
    names[list->count] = "of-this-site";
    int chosen = NONE_OF_THEM;
    while (chosen == NONE_OF_THEM && a->leaving == STAYING) {
        ask_for(a, "change", "Which answer was wrong?");
        chosen = choose_one(a, names, texts, list->count + offer_site, AT_ALL & ~(1u << WORD_CHANGE));
    }
    free(names);
    free(texts);
    return chosen;
}

static void ask_anew(ask *a, uint32_t question)
{
    while (a->leaving == STAYING && !ask_question(a, question)) {
    }
}

static void change_one_of(ask *a, const change_list *list, const change_list *site)
{
    int chosen = choose_answer(a, list, site != NULL && site->count > 0);
    if (chosen < 0) return;
    if (chosen < (int)list->count) {
        ask_anew(a, list->items[chosen].question);
        return;
    }
    say_nothing(&a->s);
    change_one_of(a, site, NULL);
}

void ask_change(ask *a)
{
    const tt_view *view = look(a);
    if (view == NULL) return;
    change_list list = list_answers(a, view, false), site = list_answers(a, view, true);
    if (list.count + site.count == 0)
        say_wrong(a, "There is no answer to change yet.");
    else if (list.count == 0)
        change_one_of(a, &site, NULL);
    else
        change_one_of(a, &list, &site);
    free_list(site);
    free_list(list);
}
