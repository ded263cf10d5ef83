/* What is written and serves nothing: conclusions nobody reads, kinds and roles without work,
 * answers that mean nothing, rules and cases written twice. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "base/grow.h"
#include "base/sorted.h"
#include "doubt/doubt.h"

/* ---- conclusions, kinds, roles ---- */

static void mark_conclusions(const cond *c, bool *read)
{
    if (c == NULL) return;
    if (c->kind == COND_CONCLUSION) read[c->subject] = true;
    for (uint32_t i = 0; i < c->count; i++) mark_conclusions(c->parts[i], read);
}

static void doubt_conclusions(const doubter *d)
{
    const book *b = d->book;
    bool *read = ARENA_ARRAY(d->scratch, bool, b->conclusion_count);
    for (uint32_t i = 0; i < b->symptom_count; i++) mark_conclusions(b->symptoms[i].when, read);
    for (uint32_t i = 0; i < b->question_count; i++)
        mark_conclusions(b->questions[i].only_when, read);
    for (uint32_t i = 0; i < b->cause_count; i++) mark_conclusions(b->causes[i].only_when, read);
    for (uint32_t i = 0; i < b->fix_count; i++) mark_conclusions(b->fixes[i].only_when, read);
    for (uint32_t i = 0; i < b->rule_count; i++) mark_conclusions(b->rules[i].when, read);
    for (uint32_t i = 0; i < b->conclusion_count; i++) {
        if (read[i]) continue;
        fault *f =
            fault_add(d->list, FAULT_CONCLUSION_UNREAD, b->conclusions[i].id.at,
                      "No condition reads the conclusion '%.*s', so setting it does nothing.",
                      STR_ARG(b->conclusions[i].id.name));
        fault_help(d->list, f,
                   "Name it in the 'when' or 'only-when' that it is meant for, or leave it out.");
    }
}

static bool is_of_kind(const book *b, const owner *of, uint32_t kind)
{
    return of->lone == kind + 1 || (of->piece != NO_ID && b->pieces[of->piece].kind == kind);
}

static void doubt_kinds(const doubter *d)
{
    const book *b = d->book;
    for (uint32_t k = 0; k < b->kind_count; k++) {
        bool used = false;
        for (uint32_t i = 0; i < b->question_count; i++)
            used = used || is_of_kind(b, &b->questions[i].of, k);
        for (uint32_t i = 0; i < b->cause_count; i++)
            used = used || is_of_kind(b, &b->causes[i].of, k);
        for (uint32_t i = 0; i < b->fix_count; i++)
            used = used || is_of_kind(b, &b->fixes[i].of, k);
        if (used) continue;
        fault *f = fault_add(d->list, FAULT_KIND_UNUSED, b->kinds[k].id.at,
                             "Nothing is written for each '%.*s'.", STR_ARG(b->kinds[k].id.name));
        fault_help(d->list, f, "Write 'for-each: %.*s' where it is meant, or leave the kind out.",
                   STR_ARG(b->kinds[k].id.name));
    }
}

static void doubt_roles(const doubter *d)
{
    const book *b = d->book;
    bool *used = ARENA_ARRAY(d->scratch, bool, b->role_count);
    for (uint32_t i = 0; i < b->question_count; i++) used[b->questions[i].role] = true;
    for (uint32_t i = 0; i < b->fix_count; i++) used[b->fixes[i].role] = true;
    for (uint32_t i = 0; i < b->cause_count; i++)
        if (b->causes[i].confirmed_by != NO_ID) used[b->causes[i].confirmed_by] = true;
    for (uint32_t i = 0; i < b->rule_count; i++)
        if (b->rules[i].call != NO_ID) used[b->rules[i].call] = true;
    for (uint32_t i = 0; i < b->emergency_count; i++)
        if (b->emergencies[i].call != NO_ID) used[b->emergencies[i].call] = true;
    if (b->fix_count == 0 || b->question_count == 0) return; /* it is only begun */
    for (uint32_t i = 1; i < b->role_count; i++) {           /* the first is who asks for help */
        if (used[i]) continue;
        fault *f = fault_add(d->list, FAULT_ROLE_UNUSED, b->roles[i].at,
                             "No question, fix or call is for '%.*s'.", STR_ARG(b->roles[i].name));
        fault_help(d->list, f, "Write 'role: %.*s' where it is their work, or leave the role out.",
                   STR_ARG(b->roles[i].name));
    }
}

/* ---- answers that mean nothing ---- */

static void mark_answers(const cond *c, uint64_t *used)
{
    if (c == NULL) return;
    if (c->kind == COND_ANSWER) used[c->subject] |= c->answers;
    for (uint32_t i = 0; i < c->count; i++) mark_answers(c->parts[i], used);
}

static const uint64_t *answers_used(const doubter *d)
{
    const book *b = d->book;
    uint64_t *used = ARENA_ARRAY(d->scratch, uint64_t, b->question_count);
    for (uint32_t i = 0; i < b->symptom_count; i++) mark_answers(b->symptoms[i].when, used);
    for (uint32_t i = 0; i < b->question_count; i++) {
        mark_answers(b->questions[i].only_when, used);
        for (uint32_t k = 0; k < b->questions[i].case_count; k++)
            mark_answers(b->questions[i].cases[k].when, used);
    }
    for (uint32_t i = 0; i < b->cause_count; i++) mark_answers(b->causes[i].only_when, used);
    for (uint32_t i = 0; i < b->fix_count; i++) mark_answers(b->fixes[i].only_when, used);
    for (uint32_t i = 0; i < b->rule_count; i++) mark_answers(b->rules[i].when, used);
    return used;
}

/* One answer may be the rest; two that are, need not both be there. */
static void doubt_answers(const doubter *d)
{
    const book *b = d->book;
    const uint64_t *used = answers_used(d);
    for (uint32_t i = 0; i < b->question_count; i++) {
        const question *q = &b->questions[i];
        if (q->kind != QUESTION_CHOICE || q->gate || q->about != ABOUT_FAULT ||
            q->answer_count < 3 || used[i] == 0)
            continue;
        uint32_t idle = NO_ID, count = 0;
        for (uint32_t a = 0; a < q->answer_count; a++) {
            if ((used[i] >> a & 1) != 0 || (q->has_usual && q->usual_answer == a)) continue;
            idle = a;
            count++;
        }
        const bool rest = !q->has_usual && count == 1;
        if (count == 0 || rest) continue;
        fault *f = fault_add(d->list, FAULT_ANSWER_IDLE, q->answers[idle].id.at,
                             "Nothing is said of the answer '%.*s' of '%.*s': whoever gives it has "
                             "answered for nothing.",
                             STR_ARG(q->answers[idle].id.name), STR_ARG(q->of.base));
        fault_help(
            d->list, f,
            "Write a symptom for it, or put it together with the answer that means the same.");
    }
}

/* ---- shares ---- */

static void doubt_shares(const doubter *d, const question *q)
{
    assert(q->kind == QUESTION_CHOICE || q->answer_count == 0);
    for (uint32_t i = 0; q->about != ABOUT_FAULT && i < q->answer_count; i++) {
        if (q->answers[i].share > 0 && q->answers[i].share < 1) continue;
        fault *f = fault_add(
            d->list, FAULT_SHARE_NEVER, q->id.at,
            "The answer '%.*s' of '%.*s' has a share of %.3g %%: it %s.",
            STR_ARG(q->answers[i].id.name), STR_ARG(q->of.base), 100 * q->answers[i].share,
            q->answers[i].share > 0 ? "is the only one that there is" : "never comes");
        fault_help(d->list, f, "Write how often it is so in all calls, or leave the answer out.");
    }
}

/* ---- rules and cases written twice ---- */

static bool same_cond(const cond *a, const cond *b)
{
    if (a->kind != b->kind || a->subject != b->subject || a->answers != b->answers ||
        a->count != b->count || a->number != b->number)
        return false;
    if (a->kind == COND_RANGE && (a->low != b->low || a->high != b->high ||
                                  a->low_in != b->low_in || a->high_in != b->high_in))
        return false;
    for (uint32_t i = 0; i < a->count; i++)
        if (!same_cond(a->parts[i], b->parts[i])) return false;
    return true;
}

static bool does_same(const rule *a, const rule *b)
{
    for (uint32_t i = 0; i < a->set_count; i++)
        for (uint32_t k = 0; k < b->set_count; k++)
            if (a->sets[i].conclusion == b->sets[k].conclusion) return true;
    for (uint32_t i = 0; i < a->factor_count; i++)
        for (uint32_t k = 0; k < b->factor_count; k++)
            if (a->factors[i].cause == b->factors[k].cause) return true;
    return false;
}

static uint64_t key_of_cond(const cond *c)
{
    uint64_t key = key_with(key_with(c->kind + 1, c->subject), c->answers);
    for (uint32_t i = 0; i < c->count; i++) key = key_with(key, key_of_cond(c->parts[i]));
    return key;
}

/* The rules by what they wait for and what they speak of: for each of these one line. */
static keyed *rules_by_sense(const doubter *d, uint32_t *count)
{
    const book *b = d->book;
    uint32_t most = 0;
    for (uint32_t i = 0; i < b->rule_count; i++)
        most += b->rules[i].set_count + b->rules[i].factor_count;
    keyed *all = ARENA_ARRAY(d->scratch, keyed, most);
    *count = 0;
    for (uint32_t i = 0; i < b->rule_count; i++) {
        const rule *r = &b->rules[i];
        const uint64_t when = key_of_cond(r->when);
        for (uint32_t k = 0; k < r->set_count; k++)
            all[(*count)++] = (keyed){key_with(when, 2 * (uint64_t)r->sets[k].conclusion), i};
        for (uint32_t k = 0; k < r->factor_count; k++)
            all[(*count)++] = (keyed){key_with(when, 2 * (uint64_t)r->factors[k].cause + 1), i};
    }
    assert(*count == most);
    keyed_sort(all, *count);
    return all;
}

static bool is_twice(const doubter *d, uint32_t first, uint32_t second)
{
    const rule *one = &d->book->rules[first], *two = &d->book->rules[second];
    return !same_written(&one->id, &two->id) && same_cond(one->when, two->when) &&
           does_same(one, two);
}

static void tell_rules(const doubter *d, const rule *one, const rule *two)
{
    fault *f = fault_add(d->list, FAULT_RULE_TWICE, two->id.at,
                         "'%.*s' and '%.*s' hold at the same time and speak of the same, "
                         "so it counts twice.",
                         STR_ARG(one->id.name), STR_ARG(two->id.name));
    fault_note_at(d->list, f, one->id.at, "the other one");
    fault_help(d->list, f, "Make one rule of them.");
}

static int by_second(const void *left, const void *right)
{
    const keyed *a = left, *b = right;
    return a->item != b->item ? THREE_WAY(a->item, b->item) : THREE_WAY(a->key, b->key);
}

static void doubt_rules(const doubter *d)
{
    uint32_t count, found = 0;
    const keyed *all = rules_by_sense(d, &count);
    keyed *pairs = NULL; /* item: the second; key: the first */
    uint32_t room = 0, *told = ARENA_ARRAY(d->scratch, uint32_t, d->book->rule_count);
    for (uint32_t i = 1, first = 0; i < count; i++) {
        const uint32_t second = all[i].item;
        if (all[first].key != all[i].key) first = i;
        for (uint32_t k = first; k < i && told[second] < FAULT_NOTES_MAX; k++) {
            if (all[k].item == second || !is_twice(d, all[k].item, second)) continue;
            GROW(d->scratch, pairs, found, room);
            pairs[found++] = (keyed){all[k].item, second};
            told[second]++;
        }
    }
    SORT(pairs, found, by_second);
    for (uint32_t i = 0; i < found; i++)
        tell_rules(d, &d->book->rules[pairs[i].key], &d->book->rules[pairs[i].item]);
}

static bool same_reply(const book *of, const reply *a, const reply *b)
{
    assert(a->question != NO_ID && b->question != NO_ID);
    if (a->kind != b->kind || a->question != b->question) return false;
    if (a->kind == REPLY_LIKELY)
        return memcmp(a->weights, b->weights,
                      of->questions[a->question].answer_count * sizeof *a->weights) == 0;
    return a->answer == b->answer && a->number == b->number && a->excluded == b->excluded;
}

static bool same_ids(const ids *a, const ids *b)
{
    bool same = a->count == b->count;
    for (uint32_t i = 0; i < a->count && same; i++) same = a->items[i] == b->items[i];
    return same;
}

static bool same_words(const worked_case *a, const worked_case *b)
{
    bool same = a->hears_count == b->hears_count;
    for (uint32_t i = 0; i < a->hears_count && same; i++)
        same = str_eq(a->hears[i].say, b->hears[i].say) &&
               str_eq(a->hears[i].symptom, b->hears[i].symptom);
    return same;
}

static bool same_call(const book *of, const worked_case *a, const worked_case *b)
{
    bool same = a->role == b->role && a->complaint == b->complaint &&
                a->reply_count == b->reply_count && same_ids(&a->at, &b->at);
    for (uint32_t i = 0; i < a->reply_count && same; i++)
        same = same_reply(of, &a->replies[i], &b->replies[i]);
    return same;
}

static bool expect_same(const worked_case *a, const worked_case *b)
{
    return a->leading_cause == b->leading_cause && a->first_fix == b->first_fix &&
           a->caution_rule == b->caution_rule && a->stop_rule == b->stop_rule &&
           a->next_question == b->next_question && a->among_count == b->among_count &&
           same_ids(&a->among, &b->among) && same_ids(&a->never_asked, &b->never_asked) &&
           same_ids(&a->never_offered, &b->never_offered) &&
           THREE_WAY(a->chance_least, b->chance_least) == 0 &&
           THREE_WAY(a->chance_most, b->chance_most) == 0 && a->danger == b->danger &&
           same_words(a, b);
}

static keyed *cases_by_call(const doubter *d)
{
    const book *b = d->book;
    keyed *all = ARENA_ARRAY(d->scratch, keyed, b->case_count);
    for (uint32_t i = 0; i < b->case_count; i++) {
        const worked_case *w = &b->cases[i];
        uint64_t key = key_with(key_with(w->role, w->complaint), w->reply_count);
        for (uint32_t k = 0; k < w->reply_count; k++)
            key = key_with(key_with(key, w->replies[k].question), w->replies[k].answer);
        all[i] = (keyed){key, i};
    }
    keyed_sort(all, b->case_count);
    return all;
}

static void tell_cases(const doubter *d, const worked_case *one, const worked_case *two)
{
    fault *f = fault_add(d->list, FAULT_CASE_TWICE, two->id.at,
                         "The cases '%.*s' and '%.*s' are the same call, and expect the same.",
                         STR_ARG(one->id.name), STR_ARG(two->id.name));
    fault_note_at(d->list, f, one->id.at, "the other one");
    fault_help(d->list, f, "Leave one of them out, or let it try something else.");
}

static void doubt_cases(const doubter *d)
{
    const book *b = d->book;
    const keyed *all = cases_by_call(d);
    for (uint32_t i = 1, first = 0; i < b->case_count; i++) {
        uint32_t told = 0;
        if (all[first].key != all[i].key) first = i;
        for (uint32_t k = first; k < i && told < FAULT_NOTES_MAX; k++) {
            const worked_case *one = &b->cases[all[k].item], *two = &b->cases[all[i].item];
            if (!same_call(b, two, one) || !expect_same(two, one)) continue;
            tell_cases(d, one, two);
            told++;
        }
    }
}

/* ---- what rules do ---- */

/* A rule that sets what its own condition asks for. */
static void doubt_sets(const doubter *d, const rule *r)
{
    assert(r->set_count == 0 || r->sets != NULL);
    const cond *w = r->when;
    for (uint32_t i = 0; i < r->set_count; i++) {
        const rule_set *s = &r->sets[i];
        bool needs = w->kind == COND_CONCLUSION && w->subject == s->conclusion &&
                     w->answers == UINT64_C(1) << s->answer;
        for (uint32_t k = 0; w->kind == COND_ALL && k < w->count; k++)
            needs = needs || (w->parts[k]->kind == COND_CONCLUSION &&
                              w->parts[k]->subject == s->conclusion &&
                              w->parts[k]->answers == UINT64_C(1) << s->answer);
        if (!needs) continue;
        fault *f = fault_add(d->list, FAULT_SETS_ITS_OWN, s->at,
                             "This rule sets '%.*s', which must hold already before it does.",
                             STR_ARG(d->book->conclusions[s->conclusion].id.name));
        fault_help(d->list, f, "Let 'when' say what it is concluded from.");
    }
}

void doubt_unused(const doubter *d)
{
    const book *b = d->book;
    doubt_conclusions(d);
    doubt_kinds(d);
    doubt_roles(d);
    doubt_answers(d);
    doubt_rules(d);
    doubt_cases(d);
    for (uint32_t i = 0; i < b->question_count; i++) doubt_shares(d, &b->questions[i]);
    for (uint32_t i = 0; i < b->rule_count; i++) doubt_sets(d, &b->rules[i]);
}
