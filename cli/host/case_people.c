#include "host/case_people.h"

#include <pwd.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "host/plain_text.h"

static char *person_here(const char *name)
{
    if (name != NULL && *name != 0) return clean_text(name);
    const struct passwd *user = getpwuid(getuid());
    return clean_text(user != NULL ? user->pw_name : "somebody");
}

void add_person(json_t *data, const char *name)
{
    char machine[256] = "", *person = person_here(name);
    if (gethostname(machine, sizeof machine - 1) != 0) machine[0] = 0;
    char *clean = clean_text(machine);
    json_object_set_new(data, "by", json_string(person));
    json_object_set_new(data, "on", json_string(clean));
    free(clean);
    free(person);
}

/* At the time of the record: one writer may have had several people after each other. */
static const char *said_by(const case_file *file, const case_record *record, const char *key)
{
    const char *last = NULL;
    for (size_t i = 0; i < case_file_count(file); i++) {
        const case_record *r = case_file_record(file, i);
        const char *said = json_string_value(json_object_get(r->data, key));
        bool names = strcmp(r->kind, "begin") == 0 || strcmp(r->kind, "resume") == 0;
        if (names && said != NULL && strcmp(r->writer, record->writer) == 0 && r->number <= record->number) last = said;
    }
    return last;
}

const char *case_record_person(const case_file *file, const case_record *record)
{
    const char *said = said_by(file, record, "by");
    return said != NULL && *said != 0 ? said : "somebody";
}

const char *case_record_place(const case_file *file, const case_record *record)
{
    const char *said = said_by(file, record, "on");
    return said != NULL ? said : "";
}

static bool is_one_of(const char *kind, const char *const *kinds)
{
    while (*kinds != NULL && strcmp(kind, *kinds) != 0) kinds++;
    return *kinds != NULL;
}

/* With which record a writer opened the case; null if it was left since, or somebody has taken it
 * over. */
static const case_record *opened_with(const case_file *file, const char *writer)
{
    static const char *const leaves[] = {"stop", "hold", "hand-over", "close", NULL};
    static const char *const opens[] = {"begin", "resume", NULL};
    const case_record *opened = NULL;
    for (size_t i = 0; i < case_file_count(file); i++) {
        const case_record *r = case_file_record(file, i);
        bool own = strcmp(r->writer, writer) == 0;
        const char *how = json_string_value(json_object_get(r->data, "how"));
        if (own && is_one_of(r->kind, leaves)) opened = NULL;
        else if (!is_one_of(r->kind, opens)) continue;
        else if (own) opened = r;
        else if (opened != NULL && how != NULL && strcmp(how, "take-over") == 0) opened = NULL;
    }
    return opened;
}

const case_record *case_next_holder(const case_file *file, size_t *index, bool *sure)
{
    while (*index < case_file_writers(file)) {
        case_writer writer = case_file_writer_at(file, (*index)++);
        if (writer.is_ours) continue;
        const case_record *opened = opened_with(file, writer.name);
        *sure = writer.is_alive;
        if (opened != NULL && (writer.is_alive || !writer.is_here)) return opened;
    }
    return NULL;
}

/* ---- moments ---- */

static bool read_digits(const char *text, unsigned count, int *out)
{
    *out = 0;
    for (unsigned i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9') return false;
        *out = *out * 10 + (text[i] - '0');
    }
    return true;
}

/* Seconds since the Epoch of a UTC date, as POSIX.1-2017 (Base Definitions, 4.16) puts it. */
static time_t seconds_of(int year, int month, int day, int seconds)
{
    static const int before[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    time_t y = year - 1900, days = before[month - 1] + day - 1 + (leap && month > 2);
    return (days + (y - 70) * 365 + (y - 69) / 4 - (y - 1) / 100 + (y + 299) / 400) * 86400 + seconds;
}

/* RFC 3339 with an offset; false if it is none. */
static bool read_moment(const char *text, time_t *out)
{
    int year, month, day, hour, minute, second, hours, minutes;
    if (strlen(text) < 25) return false;
    const char *zone = text + strlen(text) - 6;
    bool read = read_digits(text, 4, &year) && read_digits(text + 5, 2, &month) && read_digits(text + 8, 2, &day) &&
                read_digits(text + 11, 2, &hour) && read_digits(text + 14, 2, &minute) &&
                read_digits(text + 17, 2, &second) && (*zone == '+' || *zone == '-') &&
                read_digits(zone + 1, 2, &hours) && read_digits(zone + 4, 2, &minutes);
    if (!read || year < 1970 || month < 1 || month > 12) return false;
    int offset = (*zone == '-' ? -1 : 1) * (hours * 3600 + minutes * 60);
    *out = seconds_of(year, month, day, hour * 3600 + minute * 60 + second) - offset;
    return true;
}

double minutes_since(const char *time_text)
{
    time_t then;
    double seconds = read_moment(time_text, &then) ? difftime(time(NULL), then) : 0;
    return seconds > 0 ? seconds / 60 : 0;
}

char *moment_words(const char *time_text)
{
    time_t then, now = time(NULL);
    struct tm local, today;
    char words[32];
    if (!read_moment(time_text, &then) || localtime_r(&then, &local) == NULL || localtime_r(&now, &today) == NULL)
        return clean_text(time_text);
    bool same_day = local.tm_yday == today.tm_yday && local.tm_year == today.tm_year;
    if (strftime(words, sizeof words, same_day ? "%H:%M" : "%Y-%m-%d %H:%M", &local) == 0) return clean_text(time_text);
    return copy_text(words);
}
