/* What is said of causes and fixes whatever was answered: said once for all turns of a case, and a
 * text only anew that numbers are filled into. */
#include <assert.h>

#include "session/session.h"

struct kept_words {
    bool all; /* with texts: somebody reads them */
    tt_cause *causes;
    bool *cause_moves; /* [cause] some text of it is filled in anew each time */
    tt_fix *fixes;
    bool *fix_moves; /* [fix] */
};

static bool moves(const tt_case *c, const texts *t)
{
    const str said = texts_for(t, c->language);
    return str_find_byte(said, '{') != SIZE_MAX || str_find_byte(said, '}') != SIZE_MAX;
}

static const char *kept(tt_case *c, const texts *t)
{
    return cstr(c->keep, texts_for(t, c->language));
}

static void keep_causes(tt_case *c, kept_words *k)
{
    const book *b = c->book->book;
    k->causes = ARENA_ARRAY(c->keep, tt_cause, b->cause_count);
    k->cause_moves = ARENA_ARRAY(c->keep, bool, b->cause_count);
    for (uint32_t i = 0; i < b->cause_count; i++) {
        const struct cause *x = &b->causes[i];
        k->causes[i] = (tt_cause){.name = cstr(c->keep, x->id.name), .text = "", .means = ""};
        if (!k->all) continue;
        k->causes[i].at = x->id.at.file == NO_FILE ? NULL : place_words(c->keep, c->book, x->id.at);
        k->cause_moves[i] = moves(c, &x->text) || moves(c, &x->means) || x->picture != NULL;
        if (k->cause_moves[i]) continue;
        k->causes[i].text = kept(c, &x->text);
        k->causes[i].means = kept(c, &x->means);
    }
}

static const char *kept_role(tt_case *c, uint32_t role)
{
    return cstr(c->keep, str_of(role_words(c, role)));
}

static void keep_fixes(tt_case *c, kept_words *k)
{
    const book *b = c->book->book;
    k->fixes = ARENA_ARRAY(c->keep, tt_fix, b->fix_count);
    k->fix_moves = ARENA_ARRAY(c->keep, bool, b->fix_count);
    const char **roles = ARENA_ARRAY(c->keep, const char *, b->role_count);
    bool *role_moves = ARENA_ARRAY(c->keep, bool, b->role_count);
    for (uint32_t r = 0; r < b->role_count; r++) {
        role_moves[r] = moves(c, &b->role_text[r]);
        roles[r] = kept_role(c, r);
    }
    for (uint32_t f = 0; f < b->fix_count; f++) {
        const struct fix *x = &b->fixes[f];
        const uint32_t role = book_role_for(b, x->role, &x->harm);
        k->fix_moves[f] = role_moves[role] || (k->all && moves(c, &x->text));
        k->fixes[f] = (tt_fix){.fix = f,
                               .name = cstr(c->keep, x->id.name),
                               .text = k->all && !k->fix_moves[f] ? kept(c, &x->text) : "",
                               .risk = risk_name(safety_risk(&x->harm, true)),
                               .minutes = x->minutes,
                               .role = cstr(c->keep, b->roles[role].name),
                               .role_text = roles[role],
                               .held = true};
    }
}

/* Once somebody reads a case that nobody read, it is said in full. */
static const kept_words *words_of(tt_case *c)
{
    if (c->words != NULL && (c->words->all || c->wordless)) return c->words;
    kept_words *k = ARENA_NEW(c->keep, kept_words);
    k->all = !c->wordless;
    keep_causes(c, k);
    keep_fixes(c, k);
    c->words = k;
    return k;
}

tt_cause view_of_cause(tt_case *c, uint32_t cause)
{
    const kept_words *k = words_of(c);
    const struct cause *x = &c->book->book->causes[cause];
    tt_cause said = k->causes[cause];
    if (!k->cause_moves[cause] || c->wordless) return said;
    said.text = case_text(c, &x->text);
    said.means = case_text(c, &x->means);
    said.picture = picture_words(c, x->picture);
    return said;
}

tt_fix view_of_fix(tt_case *c, uint32_t fix)
{
    const kept_words *k = words_of(c);
    const struct fix *x = &c->book->book->fixes[fix];
    tt_fix said = k->fixes[fix];
    if (!k->fix_moves[fix]) return said;
    if (!c->wordless) said.text = case_text(c, &x->text);
    said.role_text = role_words(c, book_role_for(c->book->book, x->role, &x->harm));
    return said;
}
