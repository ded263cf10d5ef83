#include "made_book.h"

#include <assert.h>

static void add_questions(text_builder *b, uint32_t n)
{
    text_add(
        b,
        STR("questions:\n  smoke:\n    ask: Is there smoke?\n    safe: [no]\n    about: today\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b,
                  "  q%u:\n    ask: How is part %u now?\n    answers:\n      low: It is low\n"
                  "      fine: It is as it should be\n      high: It is high\n    usual: fine\n"
                  "    takes: %u min\n",
                  i, i, 1 + i % 9);
}

static void add_symptoms(text_builder *b, uint32_t n)
{
    text_add(b, STR("symptoms:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b,
                  "  s%u:\n    text: Part %u is low\n    when: {q%u: low}\n"
                  "    shown-by: {c%u: usually, c%u: often, c%u: sometimes}\n",
                  i, i, i, i, (i * 7 + 1) % n, (i * 11 + 3) % n);
}

static void add_causes_and_fixes(text_builder *b, uint32_t n)
{
    static const char *const often[] = {"very common", "common", "occasional", "uncommon", "rare"};
    text_add(b, STR("causes:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b, "  c%u:\n    text: Part %u is worn\n    how-often: %s\n", i, i, often[i % 5]);
    text_add(b, STR("fixes:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(b,
                  "  f%u:\n    text: Put part %u right\n    takes: %u min\n    role: tech\n"
                  "    cures: {c%u: usually}\n    harm: none\n    put-back: not needed\n",
                  i, i, 5 + i % 50, i);
}

str made_book(arena *keep, uint32_t entries)
{
    const uint32_t n = entries / 5;
    text_builder b = {.keep = keep};
    assert(n > 3 && n < 20000);
    text_add(&b,
             STR("book:\n  title: Made\n  edition: 1\n  roles: [op, {tech: {authorised: yes}}]\n"
                 "  two-faults: 0 %\n"));
    add_questions(&b, n);
    add_symptoms(&b, n);
    add_causes_and_fixes(&b, n);
    text_add(&b, STR("rules:\n"));
    for (uint32_t i = 0; i < n; i++)
        text_addf(&b, "  r%u:\n    when: {q%u: high}\n    then: {likelier: {c%u: 2 times}}\n", i, i,
                  (i * 3 + 1) % n);
    return text_done(&b);
}
