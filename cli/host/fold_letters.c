#include "host/fold_letters.h"

#include <stdlib.h>
#include <string.h>
#include <wctype.h>

#include "host/plain_text.h"

static char *put_code_point(char *to, uint32_t c)
{
    if (c < 0x80) {
        *to++ = (char)c;
        return to;
    }
    if (c < 0x800) {
        *to++ = (char)(0xC0 | c >> 6);
    } else if (c < 0x10000) {
        *to++ = (char)(0xE0 | c >> 12);
        *to++ = (char)(0x80 | (c >> 6 & 0x3F));
    } else {
        *to++ = (char)(0xF0 | c >> 18);
        *to++ = (char)(0x80 | (c >> 12 & 0x3F));
        *to++ = (char)(0x80 | (c >> 6 & 0x3F));
    }
    *to++ = (char)(0x80 | (c & 0x3F));
    return to;
}

/* ASCII stays ASCII, and nothing else becomes it: so a search may look at bytes first. */
static uint32_t small_letter(uint32_t c)
{
    if (c < 0x80) return c >= 'A' && c <= 'Z' ? c + 32 : c;
    uint32_t small = (uint32_t)towlower((wint_t)c);
    return small < 0x80 || small > 0x10FFFF ? c : small;
}

char *fold_letters(const char *text)
{
    char *out = take_memory(4 * strlen(text) + 1), *to = out;
    for (uint32_t c; (c = next_code_point(&text)) != 0;) to = put_code_point(to, small_letter(c));
    return out;
}

char *folded_part(const char *text)
{
    char *trimmed = text != NULL ? trim_text(text) : NULL,
         *out = trimmed != NULL ? fold_letters(trimmed) : NULL;
    free(trimmed);
    return out;
}

bool text_holds(const char *text, const char *part)
{
    if (text == NULL) return false;
    char *folded = fold_letters(text);
    bool found = strstr(folded, part) != NULL;
    free(folded);
    return found;
}
