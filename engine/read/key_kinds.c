/* The value of a key, by its kind: what is read alike everywhere. */
#include <assert.h>

#include "read/reader.h"

static void read_own_word(reader *r, const node *n, const key *k, str *out)
{
    str word;
    if (read_word(r, n, k->quoted, &word)) *out = str_copy(r->keep, word);
}

static void read_own_role(reader *r, const node *n, uint32_t *out)
{
    uint32_t role = resolve_role(r, n);
    if (role != NO_ID) *out = role;
}

static void read_own_entry(reader *r, const node *n, section s, uint32_t *out)
{
    str name;
    if (read_word(r, n, section_entry(s), &name)) *out = resolve(r, s, name, n->at);
}

void read_key_value(reader *r, const node *n, const key *k, void *entry)
{
    assert(n != NULL && (k->kind == KEY_OWN || entry != NULL));
    void *at = (char *)entry + k->at;
    switch (k->kind) {
    case KEY_OWN:
    case KEY_OLD:
        break;
    case KEY_TEXT:
        read_texts(r, n, k->quoted, TEXT_SENTENCE, at);
        break;
    case KEY_HEADED:
        read_headed(r, n, k->quoted, at);
        break;
    case KEY_PHRASE:
        read_texts(r, n, k->quoted, TEXT_PHRASE, at);
        break;
    case KEY_TEXTS:
        read_texts_list(r, n, k->quoted, TEXT_SENTENCE, at);
        break;
    case KEY_PHRASES:
        read_texts_list(r, n, k->quoted, TEXT_PHRASE, at);
        break;
    case KEY_HEARD:
        read_heard(r, n, at);
        break;
    case KEY_WORD:
        read_own_word(r, n, k, at);
        break;
    case KEY_ROLE:
        read_own_role(r, n, at);
        break;
    case KEY_TIME:
        read_time(r, n, at);
        break;
    case KEY_PLACE:
        read_own_entry(r, n, SECTION_PLACES, at);
        break;
    case KEY_INSTRUMENT:
        read_own_entry(r, n, SECTION_INSTRUMENTS, at);
        break;
    case KEY_PICTURE:
        read_picture(r, n, at);
        break;
    case KEY_STEPS:
        read_steps(r, n, k->quoted, at);
        break;
    case KEY_WHEN:
        *(const cond **)at = read_condition(r, n);
        break;
    }
}
