/* Book to program. */
#include "compile/program.h"

#include <assert.h>

#include "compile/program_parts.h"

/* Facts of the book in the forms that chaining and belief want. */
const program *program_build(arena *keep, arena *scratch, const book *b, faults *list)
{
    assert(keep != scratch);
    program *p = ARENA_NEW(keep, program);
    p->book = b;
    p->tables = program_cut_readings(keep, scratch, b, list);
    if (p->tables == NULL) return NULL;
    program_name_atoms(keep, p);
    const logic_input *rules = program_logic(keep, p);
    p->rules = logic_build(keep, scratch, rules, list);
    if (p->rules == NULL) return NULL; /* with a loop there is no way to expand the symptoms */
    net_input *evidence = program_evidence(keep, p, list);
    if (evidence == NULL) return NULL;
    program_mark_use(keep, p, evidence);
    p->facts = facts_build(keep, scratch, p, evidence, list);
    if (p->facts == NULL) return NULL;
    facts_tell_readers(keep, p->facts, evidence);
    p->evidence = net_build(keep, scratch, evidence, list);
    if (p->evidence == NULL) return NULL;
    p->evidence = facts_mix_site(keep, scratch, p->facts, p->evidence);
    return p;
}
