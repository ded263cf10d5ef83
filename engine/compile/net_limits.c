/* What an author should hear about a network that can't be built. */
#include <assert.h>

#include "compile/net_parts.h"

enum { NAMES_SHOWN = 12, NOTES_SHOWN = 20 };

void lint_no_weight(faults *list, const net_input *in)
{
    if (list == NULL) return;
    bool none = in->cause_count == 0;
    fault *f = fault_add(list, FAULT_NET_NO_WEIGHT, span_nowhere(), "%s",
                         none ? "This book has no cause, so there is nothing to find."
                              : "No cause ever occurs: all 'how-often' add up to 0.");
    fault_help(list, f, "%s",
               none ? "Add a section 'causes'."
                    : "Give at least one cause 'how-often: occasional'.");
}

/* Signs that list very many causes each. */
static void lint_pair_steps(faults *list, const net *n)
{
    fault *f = fault_add(
        list, FAULT_NET_PAIRS_LEFT_OUT, n->in.at,
        "The signs of this book list so many causes each that weighing two faults at once takes "
        "%llu steps. That is done with up to %d, so here 'two-faults: %.3g %%' counts for nothing: "
        "one fault at a time is looked for.",
        (unsigned long long)n->pair_steps, NET_PAIRS_STEPS_MAX, 100 * n->in.two_faults);
    fault_help(list, f,
               "Let a sign list the causes that it tells from others, and say the rest with "
               "'otherwise'; or write 'two-faults: 0 %%' in the section 'book' if one fault at a "
               "time is right.");
}

void lint_pairs(faults *list, const net *n)
{
    const net_input *in = &n->in;
    if (list == NULL || in->two_faults <= 0 || in->cause_count < 2 || net_weighs_pairs(n)) return;
    if (in->cause_count <= NET_PAIRS_CAUSES_MAX) {
        lint_pair_steps(list, n);
        return;
    }
    fault *f =
        fault_add(list, FAULT_NET_PAIRS_LEFT_OUT, in->at,
                  "This book has %u causes. Two faults at once are reckoned with up to %d, so here "
                  "'two-faults: %.3g %%' counts for nothing: one fault at a time is looked for.",
                  in->cause_count, NET_PAIRS_CAUSES_MAX, 100 * in->two_faults);
    fault_help(
        list, f,
        "Causes of a kind count once for each piece. Make one cause of those that have the same "
        "fix, or a book of each part of the machine; or write 'two-faults: 0 %%' in the "
        "section 'book' if one fault at a time is right.");
}

static str finding_name(const net_input *in, const net_group *from, uint32_t slot)
{
    assert(slot < from->finding_count);
    return in->findings[from->findings[slot]].name;
}

void add_name(text_builder *b, str name, uint32_t index, uint32_t count)
{
    assert(index < count);
    const char *before = index == 0 ? "" : index + 1 == count ? " and " : ", ";
    text_addf(b, "%s'%.*s'", before, STR_ARG(name));
}

static str finding_names(arena *scratch, const net_input *in, const net_group *from)
{
    text_builder b = {.keep = scratch};
    uint32_t shown = from->finding_count > NAMES_SHOWN ? NAMES_SHOWN : from->finding_count;
    for (uint32_t i = 0; i < shown; i++)
        add_name(&b, finding_name(in, from, i), i, from->finding_count);
    if (shown < from->finding_count) text_addf(&b, " and %u more", from->finding_count - shown);
    return text_done(&b);
}

typedef struct naming {
    bool *named; /* [finding of the net] by the condition at hand */
} naming;

static void note_named(void *context, uint32_t finding)
{
    ((naming *)context)->named[finding] = true;
}

/* Counts for each question in how many of the symptoms it stands; notes what the first ones join.
 */
static void note_links(faults *list, fault *f, arena *scratch, const net_input *in,
                       const net_group *from, uint32_t *stands_in)
{
    naming seen = {ARENA_ARRAY(scratch, bool, in->finding_count)};
    for (uint32_t s = 0; s < from->symptom_count; s++) {
        const net_symptom *symptom = &in->symptoms[from->symptoms[s]];
        text_builder b = {.keep = scratch};
        uint32_t all = 0, index = 0;
        expr_each_finding(symptom->when, note_named, &seen);
        for (uint32_t i = 0; i < from->finding_count; i++) all += seen.named[from->findings[i]];
        for (uint32_t i = 0; i < from->finding_count; i++) {
            if (!seen.named[from->findings[i]]) continue;
            seen.named[from->findings[i]] = false;
            stands_in[i]++;
            if (s < NOTES_SHOWN) add_name(&b, finding_name(in, from, i), index++, all);
        }
        str names = text_done(&b);
        if (s < NOTES_SHOWN)
            fault_note_at(list, f, symptom->at, "'%.*s' rests on %.*s", STR_ARG(symptom->name),
                          STR_ARG(names));
    }
}

static str combinations(arena *scratch, const net_input *in, const net_group *from)
{
    assert(from->finding_count > 0);
    double product = 1;
    for (uint32_t i = 0; i < from->finding_count; i++)
        product *= in->findings[from->findings[i]].states;
    if (product > 1e9) return STR("more than a thousand million");
    return str_printf(scratch, "%.0f", product);
}

static fault *tell_too_big(faults *list, arena *scratch, const net_input *in, const net_group *from)
{
    assert(from->symptom_count > 0);
    str names = finding_names(scratch, in, from), cells = combinations(scratch, in, from);
    span at = in->symptoms[from->symptoms[0]].at;
    if (net_group_cells(in, from) <= NET_CELLS_MAX)
        return fault_add(list, FAULT_NET_TOO_BIG, at,
                         "%u symptoms rest on %.*s together; the most is %d.", from->symptom_count,
                         STR_ARG(names), NET_SYMPTOMS_MAX);
    return fault_add(list, FAULT_NET_TOO_BIG, at,
                     "%u symptom%s these questions together: %.*s. That makes %.*s combinations of "
                     "answers; the most is %d.",
                     from->symptom_count, from->symptom_count == 1 ? " chains" : "s chain",
                     STR_ARG(names), STR_ARG(cells), NET_CELLS_MAX);
}

void lint_too_big(faults *list, arena *scratch, const net_input *in, const net_group *from)
{
    assert(from->finding_count > 0 && from->symptom_count > 0);
    if (list == NULL) return;
    fault *f = tell_too_big(list, scratch, in, from);
    uint32_t *stands_in = ARENA_ARRAY(scratch, uint32_t, from->finding_count), most = 0;
    note_links(list, f, scratch, in, from, stands_in);
    for (uint32_t i = 1; i < from->finding_count; i++)
        if (stands_in[i] > stands_in[most]) most = i;
    str busiest = finding_name(in, from, most);
    if (from->finding_count == 1)
        fault_help(list, f, "Join some of these symptoms into one.");
    else if (from->symptom_count == 1)
        fault_help(list, f, "Leave some of these questions out of the condition.");
    else
        fault_help(list, f,
                   "Split the chain: let these symptoms share fewer questions. Begin with '%.*s', "
                   "which stands in %u of them.",
                   STR_ARG(busiest), stands_in[most]);
}
