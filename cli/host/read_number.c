#include "host/read_number.h"

#include <ctype.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

bool whole_number(const char *text, uint64_t least, uint64_t most, uint64_t *out)
{
    if (*text == 0 || text[strspn(text, "0123456789")] != 0) return false;
    errno = 0;
    unsigned long long number = strtoull(text, NULL, 10);
    *out = number;
    return errno == 0 && number >= least && number <= most;
}

bool percent_number(const char *text, double *out)
{
    char *end;
    if (!isdigit((unsigned char)*text) || text[strspn(text, "0123456789. %")] != 0) return false;
    *out = strtod(text, &end) / 100;
    while (*end == ' ') end++;
    if (*end == '%') end++;
    return *end == 0 && *out >= 0 && *out <= 1;
}
