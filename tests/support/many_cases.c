#include "many_cases.h"

#include <errno.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "cases/case_store.h"
#include "choice_twin.h"
#include "luck.h"
#include "summary/record_line.h"

enum { CAUSES = 25, ANSWERS = 8, SECONDS_A_CASE = 300, FIRST_CASE = 1735689600 /* 2025-01-01 */ };

typedef struct pen {
    char uuid[TT_CASE_ID_SIZE], before[LINE_HASH_SIZE], writer[WRITER_SIZE];
    FILE *file;
    unsigned seq, lamport;
    time_t now;
} pen;

static void put(pen *p, const char *kind, const char *data)
{
    char line[4096], moment[40];
    struct tm utc;
    gmtime_r(&p->now, &utc);
    strftime(moment, sizeof moment, "%Y-%m-%dT%H:%M:%S", &utc);
    int length =
        snprintf(line, sizeof line,
                 "{\"version\":1,\"case\":\"%s\",\"writer\":\"%s\",\"seq\":%u,\"lamport\":%u,"
                 "\"time\":\"%s.000+00:00\",\"before\":\"%s\","
                 "\"kind\":\"%s\",\"data\":%s}",
                 p->uuid, p->writer, ++p->seq, ++p->lamport, moment, p->before, kind, data);
    if (length < 0 || length >= (int)sizeof line) exit(1);
    line_hash(line, (size_t)length, p->before);
    fprintf(p->file, "%s\n", line);
}

static void make_folder(const char *path)
{
    if (mkdir(path, 0700) == 0 || errno == EEXIST) return;
    perror(path);
    exit(1);
}

static void open_writer(pen *p, const char *root, const struct tm *utc, const char *writer)
{
    char path[4096];
    const int parts[] = {utc->tm_year + 1900, utc->tm_mon + 1};
    int length = snprintf(path, sizeof path, "%s", root);
    for (int i = 0; i < 2; i++) {
        make_folder(path);
        length += snprintf(path + length, sizeof path - (size_t)length, i == 0 ? "/%04d" : "/%02d",
                           parts[i]);
    }
    make_folder(path);
    length += snprintf(path + length, sizeof path - (size_t)length, "/%s", p->uuid);
    make_folder(path);
    snprintf(path + length, sizeof path - (size_t)length, "/%s.jsonl", writer);
    memcpy(p->writer, writer, WRITER_SIZE);
    p->file = fopen(path, "w");
    p->seq = 0;
    p->before[0] = 0;
    if (p->file == NULL) {
        perror(path);
        exit(1);
    }
}

static void write_case(const char *root, uint32_t index, uint64_t *random)
{
    pen p = {.now = (time_t)FIRST_CASE + (time_t)index * SECONDS_A_CASE};
    struct tm utc;
    char data[2048];
    uint64_t milliseconds = (uint64_t)p.now * 1000;
    gmtime_r(&p.now, &utc);
    snprintf(data, sizeof data, "%08" PRIx64 "-%04" PRIx64 "-7%03x-8%03x-%012x", milliseconds >> 16,
             milliseconds & 0xFFFF, luck_below(random, 4096), luck_below(random, 4096),
             luck_below(random, 1u << 30));
    memcpy(p.uuid, data, TT_CASE_ID_SIZE);
    open_writer(&p, root, &utc, "0123456789ab");
    snprintf(data, sizeof data,
             "{\"number\":\"\",\"rulebook\":\"/rules/pump\",\"title\":\"A "
             "pump\",\"edition\":\"1\",\"revision\":\"%064d\",\"site\":{\"path\":"
             "\"/sites/s%u.yaml\",\"revision\":\"%064d\",\"text\":\"site:\\n  title: House %u\\n  "
             "pieces:\\n    pump: [left, right]\\n\"},"
             "\"site_title\":\"House "
             "%u\",\"role\":null,\"language\":null,\"soonest\":false,\"program\":\"1\",\"by\":"
             "\"desk-one\",\"on\":\"desk\"}",
             0, index % 300, 0, index % 300, index % 300);
    put(&p, "begin", data);
    snprintf(data, sizeof data,
             "{\"symptom\":\"trouble-%u\",\"said\":\"it stops again, number %u\",\"text\":\"The "
             "pump stops\"}",
             index % 40, index);
    p.now += 60;
    put(&p, "complaint", data);
    for (unsigned i = 0; i < ANSWERS; i++) {
        if (i == 5 && index % 10 == 0) { /* somebody else goes on */
            fclose(p.file);
            open_writer(&p, root, &utc, "ba9876543210");
            put(&p, "resume", "{\"revision\":\"\",\"by\":\"van-two\",\"on\":\"van\"}");
        }
        unsigned option = luck_below(random, 4);
        snprintf(data, sizeof data,
                 "{\"question\":\"question-%u\",\"reply\":{\"kind\":\"answer\",\"option\":\"option-"
                 "%u\"},\"typed\":\"%u\","
                 "\"asked\":\"What does part %u of the pump look like?\",\"words\":\"Like the "
                 "picture %u\"}",
                 i, option, option, i, option);
        p.now += 20 + luck_below(random, 300);
        put(&p, "answer", data);
    }
    unsigned cause = luck_below(random, CAUSES);
    snprintf(data, sizeof data,
             "{\"fix\":\"fix-%u\",\"outcome\":\"gone\",\"text\":\"Mend part %u\"}", cause, cause);
    put(&p, "tried", data);
    snprintf(data, sizeof data,
             "{\"how\":\"%s\",\"cause\":\"cause-%u\",\"cause_text\":\"Part %u is worn\"}",
             index % 20 == 19 ? "call" : "gone", cause, cause);
    if (index % 1000 != 999) put(&p, "close", data);
    snprintf(data, sizeof data, "{\"how\":\"yes\",\"cause\":\"cause-%u\"}", cause);
    if (index % 3 == 0) put(&p, "confirm", data);
    fclose(p.file);
}

void many_cases(const char *root, uint32_t count)
{
    uint64_t random = 7;
    for (uint32_t i = 0; i < count; i++) write_case(root, i, &random);
}
