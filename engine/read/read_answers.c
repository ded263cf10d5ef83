/* What may be answered: the options of a question, the values of a conclusion. */
#include <assert.h>

#include "read/ours.h"
#include "read/reader.h"

uint32_t option_find(const answer_option *answers, uint32_t count, str id)
{
    assert(count <= ANSWERS_MAX);
    for (uint32_t i = 0; i < count; i++)
        if (str_eq(answers[i].id.name, id)) return i;
    return NO_ID;
}

const str *option_names(arena *scratch, const answer_option *answers, uint32_t count)
{
    str *names = ARENA_ARRAY(scratch, str, count);
    for (uint32_t i = 0; i < count; i++) names[i] = answers[i].id.name;
    return names;
}

/* "dull or burst" as "dull, burst". */
static str as_list(arena *keep, str words)
{
    text_builder b = {.keep = keep};
    for (size_t or ; (or = str_find(words, STR(" or "))) != SIZE_MAX;
         words = str_slice(words, or +4, words.n))
        text_addf(&b, "%.*s, ", STR_ARG(str_trim(str_slice(words, 0, or))));
    text_add(&b, str_trim(words));
    return text_done(&b);
}

uint32_t read_option(reader *r, const node *n, str owner, const answer_option *answers,
                     uint32_t count)
{
    assert(count > 0 && count <= ANSWERS_MAX);
    str word;
    if (!read_word(r, n, "an answer", &word)) return NO_ID;
    uint32_t id = option_find(answers, count, word);
    if (id != NO_ID)
        mention_add(r->book->mentions, (mention){NAMED_ANSWER, MENTION_ALONE, word,
                                                 base_of_name(owner), STR(""), n->at});
    if (id != NO_ID) return id;
    fault *f = fault_add(r->list, FAULT_NOT_AN_ANSWER, n->at, "'%.*s' is no answer of '%.*s'.",
                         STR_ARG(word), STR_ARG(owner));
    str rest = str_starts(word, "not ") ? str_trim(str_slice(word, 4, word.n)) : STR("");
    if (option_find(answers, count, rest) != NO_ID)
        fault_help(r->list, f, "Write {not: %.*s}.", STR_ARG(rest));
    else if (str_find(word, STR(" or ")) != SIZE_MAX)
        fault_help(r->list, f, "Write several answers as a list: [%.*s].",
                   STR_ARG(as_list(r->scratch, word)));
    else if (str_is(word, "unsure"))
        fault_help(r->list, f, "Write 'not known' for what has no answer, or only 'not sure'.");
    else
        suggest(r, f, word, option_names(r->scratch, answers, count), count);
    return NO_ID;
}

void yes_no_options(reader *r, span at, bool both, answer_option **answers, uint32_t *count)
{
    static const char *const names[] = {"no", "yes"};
    static const text_id words[] = {TEXT_NO, TEXT_YES};
    uint32_t first = both ? 0 : 1;
    *count = 2 - first;
    *answers = ARENA_ARRAY(r->keep, answer_option, 2);
    for (uint32_t i = first; i < 2; i++)
        (*answers)[i - first] = (answer_option){
            .id = {str_of(names[i]), at}, .text = our_texts(r, words[i]), .share = 1.0 / *count};
}

static void read_option_body(reader *r, const node *n, answer_option *out)
{
    assert(out->id.name.p != NULL);
    const bool in_full = node_get(n, "text") != NULL || node_get(n, "heard") != NULL ||
                         node_get(n, "picture") != NULL;
    if (n->kind != NODE_MAP || !in_full) {
        read_texts(r, n, "an answer", TEXT_SENTENCE, &out->text);
        return;
    }
    check_map(r, n, KEYS_ANSWER);
    read_keys(r, n, out->id, KEYS_ANSWER, out);
}

static bool check_answer_count(reader *r, const node *n, label owner)
{
    if (n->count >= 2 && n->count <= ANSWERS_MAX) return true;
    fault *f = fault_add(r->list, FAULT_ANSWER_COUNT, n->count == 0 ? owner.at : n->at,
                         "'%.*s' has %u answer%s; it needs at least 2 and at most %d.",
                         STR_ARG(owner.name), n->count, n->count == 1 ? "" : "s", ANSWERS_MAX);
    fault_help(r->list, f,
               n->count < 2 ? "Add another answer, or leave 'answers' out for yes or no."
                            : "Split the question in two, or make it a reading.");
    return false;
}

static bool read_new_options(reader *r, const node *n, label owner, option_list *out)
{
    if (n->kind != NODE_MAP) {
        wrong_kind(r, n, "'answers'", "a map of names to texts");
        return false;
    }
    if (!check_answer_count(r, n, owner)) return false;
    const node_entry **sorted = entries_by_key(r, n);
    answer_option *options = ARENA_ARRAY(r->keep, answer_option, n->count);
    uint32_t *order = ARENA_ARRAY(r->keep, uint32_t, n->count);
    for (uint32_t i = 0; i < n->count; i++) {
        const node_entry *e = sorted[i];
        check_name(r, e->key, e->key_at, "an answer");
        mention_add(r->book->mentions, (mention){NAMED_ANSWER, MENTION_DEFINES, e->key,
                                                 base_of_name(owner.name), STR(""), e->key_at});
        options[i] = (answer_option){.id = {e->key, e->key_at}, .share = 1.0 / n->count};
        read_option_body(r, e->value, &options[i]);
        assert(e >= n->entries && e < n->entries + n->count);
        order[e - n->entries] = i;
    }
    *out = (option_list){options, n->count, order};
    return true;
}

bool read_answer_options(reader *r, const node *n, label owner, answer_option **answers,
                         uint32_t *count, const uint32_t **shown_order)
{
    const shared_read *before = shared_before(r, n, SHARED_ANSWERS);
    const option_list *read = before == NULL ? NULL : before->items;
    if (read == NULL) {
        option_list *list = ARENA_NEW(r->scratch, option_list);
        if (!read_new_options(r, n, owner, list)) return false;
        share_read(r, n, SHARED_ANSWERS, list, 1);
        read = list;
    }
    *answers = read->options;
    *count = read->count;
    *shown_order = read->shown_order;
    return true;
}
