/* The table of kinds, looked up. */
#include "journal/record_kinds.h"

#include <assert.h>
#include <string.h>

typedef struct kind_row {
    const char *word;
    unsigned does;
    record_author who;
    const char *about, *says, *fields;
} kind_row;

#define RECORD_ROW(id, word, does, who, about, says, fields) \
    [id] = {word, (does), who, about, says, fields},
static const kind_row rows[RECORD_KINDS] = {RECORD_TABLE(RECORD_ROW)};
#undef RECORD_ROW

static const kind_row unknown = {"", NOTHING, ANYBODY, "", "", ""};

static const kind_row *row_of(record_kind kind)
{
    assert(kind <= RECORD_UNKNOWN);
    return kind == RECORD_UNKNOWN ? &unknown : &rows[kind];
}

record_kind record_kind_of(const char *word)
{
    unsigned kind = 0;
    assert(word != NULL);
    while (kind < RECORD_KINDS &&
           (rows[kind].word[0] != word[0] || strcmp(rows[kind].word, word) != 0))
        kind++;
    return (record_kind)kind;
}

unsigned record_does(record_kind kind)
{
    return row_of(kind)->does;
}

const char *record_about(record_kind kind)
{
    return row_of(kind)->about;
}

const char *record_says(record_kind kind)
{
    return row_of(kind)->says;
}

bool record_has_field(record_kind kind, const char *field)
{
    const char *at = row_of(kind)->fields;
    size_t length = strlen(field);
    while (*at != '\0') {
        size_t word = strcspn(at, " ");
        if (word == length && memcmp(at, field, length) == 0) return true;
        at += word + strspn(at + word, " ");
    }
    return false;
}

bool record_may_add(record_kind kind, record_author author)
{
    record_author who = row_of(kind)->who;
    return who == ANYBODY || author == who || (who == CALLED_ROLE && author == DESK);
}
