/* A thousand made-up journals of three writers, who now and then read each other: in whatever order
 * the records come, some of them twice, and read whole or only where it matters, they mean the
 * same; and what counts agrees with a plain twin that looks at everything again and again. */
#include "testing.h"

#include "journal/journal.h"
#include "journal/summary.h"
#include "journal_kit.h"
#include "luck.h"
#include "show/json.h"
#include "summary/case_summary.h"
#include "summary/record_line.h"
#include "test_sources.h"

enum { JOURNALS = 1000, LONGEST = 40 };

static const char *const names[] = {"east", "north", "west"};

/* ---- made-up records ---- */

static const char *pick(uint64_t *luck, const char *const *texts, uint32_t count)
{
    return texts[luck_below(luck, count)];
}
#define PICK(luck, ...) \
    pick((luck), (const char *const[]){__VA_ARGS__}, \
         (uint32_t)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(char *)))

/* The name of some record, mostly one that there is. */
static const char *some_name(arena *a, uint64_t *luck, const journal_kit *k)
{
    const tt_record *r = &k->records[luck_below(luck, k->count)];
    unsigned far = luck_below(luck, 20) == 0 ? 7 : 0;
    return str_printf(a, "{\"writer\":\"%s\",\"seq\":%u}", r->writer, (unsigned)r->number + far).p;
}

static const char *back_data(arena *a, uint64_t *luck, const journal_kit *k)
{
    switch (luck_below(luck, 5)) {
    case 0:
        return "{}";
    case 1:
        return "{\"step\":3}";
    case 2:
        return str_printf(a, "{\"steps\":[%s,%s]}", some_name(a, luck, k), some_name(a, luck, k)).p;
    default:
        return str_printf(a, "{\"step\":%s}", some_name(a, luck, k)).p;
    }
}

static const char *settle_data(arena *a, uint64_t *luck, const journal_kit *k)
{
    return str_printf(a, "{\"right\":%s,\"wrong\":[%s,%s]}", some_name(a, luck, k),
                      some_name(a, luck, k), some_name(a, luck, k))
        .p;
}

static const char *fix_data(arena *a, uint64_t *luck)
{
    return str_printf(a, "{\"fix\":\"%s\",\"outcome\":\"%s\"%s}", PICK(luck, "recharge", "valve"),
                      PICK(luck, "gone", "better", "no-change"),
                      PICK(luck, "", "", ",\"set\":{\"from\":50,\"to\":45}"))
        .p;
}

static const char *answer_data(arena *a, uint64_t *luck)
{
    return str_printf(a,
                      "{\"question\":\"%s\",\"reply\":\"%s\",\"asked\":\"%s?\",\"words\":\"%s\"}",
                      PICK(luck, "smoke", "gauge"), PICK(luck, "no", "yes", "unsure"),
                      PICK(luck, "Smoke", "Gauge"), PICK(luck, "No", "Yes"))
        .p;
}

static const char *visit_data(arena *a, uint64_t *luck)
{
    return str_printf(a, "{\"by\":\"%s\",\"how\":\"%s\",\"revision\":\"%s\"%s}",
                      PICK(luck, "desk 1", "desk 2"), PICK(luck, "join", "take-over", ""),
                      PICK(luck, "r1", "r2"),
                      PICK(luck, "", ",\"site\":null", ",\"site\":{\"path\":\"/s/north.yaml\"}",
                           ",\"site_title\":\"North\""))
        .p;
}

static void add_some(arena *a, uint64_t *luck, journal_kit *k, const char *writer)
{
    const char *kind =
        PICK(luck, "answer", "answer", "answer", "tried", "tried", "put-back", "left", "complaint",
             "no-complaint", "back", "back", "settle", "stop", "resume", "hold", "hand-over",
             "waiting", "close", "confirm", "confirm", "sitting", "danger", "recheck", "fix-begun",
             "answers", "made-safe", "said", "no-such-kind");
    const char *data = "{}";
    if (strcmp(kind, "answer") == 0) data = answer_data(a, luck);
    if (strcmp(kind, "tried") == 0 || strcmp(kind, "put-back") == 0 || strcmp(kind, "left") == 0 ||
        strcmp(kind, "fix-begun") == 0)
        data = fix_data(a, luck);
    if (strcmp(kind, "back") == 0) data = back_data(a, luck, k);
    if (strcmp(kind, "settle") == 0) data = settle_data(a, luck, k);
    if (strcmp(kind, "resume") == 0) data = visit_data(a, luck);
    if (strcmp(kind, "complaint") == 0)
        data = PICK(luck, "{\"symptom\":\"stiff\",\"said\":\"it is stiff\"}",
                    "{\"symptom\":\"dry\",\"text\":\"Dry\"}");
    if (strcmp(kind, "confirm") == 0)
        data = PICK(luck, "{\"cause\":\"a\"}", "{\"cause\":\"b\",\"cause_text\":\"B\"}",
                    "{\"cause\":null}");
    if (strcmp(kind, "close") == 0)
        data = PICK(luck, "{\"how\":\"gone\",\"cause\":\"a\",\"cause_text\":\"A\"}",
                    "{\"how\":\"call\"}", "{\"how\":\"stop\"}");
    if (strcmp(kind, "hold") == 0)
        data = PICK(luck, "{\"note\":\"\"}", "{\"note\":\"ring back\",\"next\":\"Look\"}");
    if (strcmp(kind, "hand-over") == 0)
        data = PICK(luck, "{\"to\":\"west\",\"note\":\"look\"}", "{\"to\":\"\",\"note\":\"\"}");
    if (strcmp(kind, "waiting") == 0)
        data = "{\"whom\":\"technician\",\"until\":\"2026-11-30T07:00:00Z\"}";
    if (strcmp(kind, "sitting") == 0)
        data = PICK(luck, "{\"why\":\"pause\"}", "{\"why\":\"joined\"}", "{\"why\":\"reopened\"}",
                    "{\"why\":\"taken-up\",\"accepts\":true}");
    kit_add(k, writer, kind, data);
}

static journal_kit made_up(arena *a, uint64_t *luck)
{
    journal_kit k = journal_kit_new(a);
    kit_add(&k, "east", "begin",
            "{\"title\":\"House well\",\"by\":\"desk 3\",\"rulebook\":\"/rules/well\"}");
    uint32_t count = 1 + luck_below(luck, LONGEST);
    for (uint32_t i = 0; i < count; i++) {
        const char *writer = names[luck_below(luck, 3)];
        if (luck_below(luck, 3) == 0) kit_read(&k, writer);
        if (luck_below(luck, 4) == 0) kit_read_from(&k, writer, names[luck_below(luck, 3)]);
        add_some(a, luck, &k, writer);
        if (luck_below(luck, 15) == 0)
            k.records[k.count - 1].seen = NULL; /* as version 1 wrote them at first */
        if (luck_below(luck, 30) == 0) k.records[k.count - 1].time = "yesterday";
    }
    return k;
}

/* ---- all that a journal means, as text ---- */

static void say_skips(text_builder *b, const journal *j)
{
    for (uint32_t i = 0; i < j->count; i++) {
        const journal_entry *e = &j->entries[i];
        text_addf(b, "%s %u %s: %d by %d, sitting %d, %s of %s\n", e->record.writer,
                  (unsigned)e->record.number, e->record.kind, (int)e->skipped, (int)e->because,
                  (int)e->sitting, e->person, e->place);
    }
}

static void say_writers(arena *a, text_builder *b, const journal *j)
{
    for (uint32_t w = 0; w < j->writer_count; w++) {
        entries back = journal_back_takes(a, j, j->writers[w].name);
        text_addf(b, "%s came %d, back", j->writers[w].name, (int)j->writers[w].came);
        for (uint32_t i = 0; i < back.count; i++) text_addf(b, " %u", back.items[i]);
        text_addf(b, "\n");
    }
    entries holders = journal_holders(a, j);
    for (uint32_t i = 0; i < holders.count; i++) text_addf(b, "holder %u\n", holders.items[i]);
}

static void say_disputes(arena *a, text_builder *b, const journal *j)
{
    disputes d = journal_disputes(a, j);
    for (uint32_t i = 0; i < d.count; i++) {
        text_addf(b, "dispute");
        for (uint32_t k = 0; k < d.items[i].count; k++)
            text_addf(b, " %u=%u", d.items[i].items[k], d.items[i].answer[k]);
        text_addf(b, "\n");
    }
    tt_confirmation c = journal_cause(j);
    text_addf(b, "cause %d %d %s\n", (int)c.said, (int)c.entry, c.cause);
}

static void say_summary(text_builder *b, tt_case_summary s)
{
#define SAY_TEXT(name) text_addf(b, "%s|", s.name);
    TT_SUMMARY_TEXTS(SAY_TEXT)
#undef SAY_TEXT
    text_addf(b, "%d %.3f %d %d %d %d %u %u %u\n", (int)s.state, s.minutes, s.confirmed, s.disputed,
              (int)s.stands_is, s.held, s.answers, s.tried, s.damaged);
}

static str everything(arena *a, const journal *j)
{
    text_builder b = {.keep = a};
    say_skips(&b, j);
    say_writers(a, &b, j);
    say_disputes(a, &b, j);
    text_addf(&b, "end %d ended %d moved %d left %d, revision %s\n", (int)j->end, (int)j->ended,
              (int)j->moved, (int)j->left, journal_last_revision(j));
    say_summary(&b, journal_summary(j));
    return text_done(&b);
}

/* ---- in any order, some twice; read where it matters ---- */

static journal *shuffled(arena *a, uint64_t *luck, const journal_kit *k)
{
    uint32_t more = luck_below(luck, 4), count = k->count + more;
    tt_record *records = ARENA_ARRAY(a, tt_record, count);
    memcpy(records, k->records, k->count * sizeof *records);
    for (uint32_t i = 0; i < more; i++)
        records[k->count + i] = k->records[luck_below(luck, k->count)];
    for (uint32_t i = count; i > 1; i--) {
        uint32_t other = luck_below(luck, i);
        tt_record r = records[i - 1];
        records[i - 1] = records[other];
        records[other] = r;
    }
    return journal_read(a, records, count, NULL);
}

static bool read_record(void *context, uint32_t source, tt_record *record)
{
    const journal_kit *k = context;
    record->data = k->records[source].data;
    record->seen = k->records[source].seen;
    return true;
}

static tt_case_summary read_lazily(arena *a, journal_kit *k, journal **out)
{
    tt_record *bare = ARENA_ARRAY(a, tt_record, k->count);
    tt_record_reader *reader = ARENA_NEW(a, tt_record_reader);
    *reader = (tt_record_reader){read_record, k};
    memcpy(bare, k->records, k->count * sizeof *bare);
    for (uint32_t i = 0; i < k->count; i++) bare[i].data = bare[i].seen = NULL;
    *out = journal_read(a, bare, k->count, reader);
    return journal_summary(*out);
}

/* ---- as `cases` reads it: from files, line by line, as little as it needs ---- */

static const char case_id[] = "019b1b48-9420-7e45-8172-00002235a41d";

static case_bytes file_of(arena *a, const journal_kit *k, const char *writer)
{
    text_builder file = {.keep = a};
    for (uint32_t i = 0; i < k->count; i++) {
        if (strcmp(k->records[i].writer, writer) != 0) continue;
        text_add(&file, record_line(a, case_id, "", &k->records[i], NULL));
        text_add(&file, STR("\n"));
    }
    str text = str_copy(a, text_done(&file));
    return (case_bytes){(char *)(uintptr_t)text.p, text.n};
}

static case_summary read_from_files(arena *a, const journal_kit *k)
{
    case_bytes files[3];
    case_summary out;
    for (size_t i = 0; i < 3; i++) files[i] = file_of(a, k, names[i]);
    case_summarize(case_id, files, 3, NULL, 0, &out);
    assert_int_equal(out.left_out, 0);
    return out;
}

/* ---- the plain twin: what counts ---- */

static bool knew(const tt_record *later, const tt_record *earlier, uint32_t l, uint32_t e)
{
    uint64_t number = 0;
    if (l <= e) return false;
    if (strcmp(later->writer, earlier->writer) == 0) return true;
    if (later->seen == NULL) return later->lamport > earlier->lamport;
    return value_counter(later->seen, earlier->writer, &number) && number >= earlier->number;
}

static bool names_it(const tt_value *name, const tt_record *r)
{
    uint64_t number = 0;
    const char *writer = value_text(name, "writer");
    return writer != NULL && strcmp(writer, r->writer) == 0 &&
           value_counter(name, "seq", &number) && number == r->number;
}

static bool names_among(const tt_value *list, const tt_record *r)
{
    bool found = false;
    for (uint32_t i = 0; list != NULL && list->kind == TT_VALUE_LIST && i < list->count; i++)
        found = found || names_it(&list->items[i], r);
    return found;
}

static bool is_any(const char *kind, const char *kinds)
{
    const char *at = strstr(kinds, kind);
    return at != NULL && (at == kinds || at[-1] == ' ') &&
           (at[strlen(kind)] == ' ' || at[strlen(kind)] == '\0');
}

static const char reports[] = "tried put-back left came-back",
                  givable[] = "answer complaint no-complaint tried put-back left came-back settle",
                  rivals[] = "answer tried put-back left";

static bool same_field(const tt_record *x, const tt_record *y, const char *field)
{
    const tt_value *a = value_get(x->data, field), *b = value_get(y->data, field);
    return a == NULL || b == NULL ? a == b : value_eq(a, b);
}

static bool same_report(const tt_record *x, const tt_record *y)
{
    bool outcome = strcmp(x->kind, "tried") != 0 || same_field(x, y, "outcome");
    return strcmp(x->kind, y->kind) == 0 && outcome && same_field(x, y, "fix") &&
           same_field(x, y, "set");
}

/* Records in the order of the journal; sets those that count. */
static void twin_counts(const journal *j, bool *counts)
{
    const journal_entry *e = j->entries;
    bool gone[LONGEST + 2] = {false}, stacked[LONGEST + 2] = {false};
    for (uint32_t i = 0; i < j->count; i++)
        for (uint32_t b = i + 1; b < j->count; b++) {
            const tt_value *data = e[b].record.data;
            bool named = strcmp(e[b].record.kind, "back") == 0 &&
                         is_any(e[i].record.kind, givable) &&
                         (names_it(value_get(data, "step"), &e[i].record) ||
                          names_among(value_get(data, "steps"), &e[i].record));
            gone[i] = gone[i] || named;
        }
    bool taken[LONGEST + 2];
    memcpy(taken, gone, sizeof taken);
    for (uint32_t i = 0; i < j->count; i++)
        for (uint32_t s = i + 1; s < j->count; s++)
            if (strcmp(e[s].record.kind, "settle") == 0 && !taken[s] &&
                is_any(e[i].record.kind, rivals) &&
                names_among(value_get(e[s].record.data, "wrong"), &e[i].record))
                gone[i] = true;
    for (uint32_t i = 0; i < j->count; i++) {
        const tt_record *r = &e[i].record;
        bool twice = false;
        for (uint32_t k = 0; k < i && is_any(r->kind, reports) && !gone[i]; k++)
            twice = twice ||
                    (stacked[k] && same_report(&e[k].record, r) && !knew(r, &e[k].record, i, k));
        stacked[i] =
            !gone[i] && !twice && (is_any(r->kind, givable) || strcmp(r->kind, "answers") == 0);
        bool bare = strcmp(r->kind, "back") == 0 && value_get(r->data, "step") == NULL &&
                    value_get(r->data, "steps") == NULL;
        uint32_t last = i;
        while (bare && last > 0 && !stacked[last]) last--;
        if (bare && stacked[last] && strcmp(e[last].record.kind, "answers") != 0)
            stacked[last] = false;
    }
    memcpy(counts, stacked, sizeof stacked);
}

static void agrees_with_the_twin(const journal *j)
{
    bool counts[LONGEST + 2];
    twin_counts(j, counts);
    for (uint32_t i = 0; i < j->count; i++) assert_int_equal(entry_counts(j, i), counts[i]);
    for (uint32_t later = 0; later < j->count; later++)
        for (uint32_t earlier = 0; earlier < j->count; earlier++)
            assert_int_equal(
                journal_saw(j, later, earlier),
                knew(&j->entries[later].record, &j->entries[earlier].record, later, earlier));
}

static void a_thousand_mean_the_same_however_they_come(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= JOURNALS; seed++) {
        arena *a = test_arena();
        uint64_t luck = seed;
        journal_kit k = made_up(a, &luck);
        journal *whole = kit_journal(&k), *lazy;
        str said = everything(a, whole);
        assert_str(everything(a, shuffled(a, &luck, &k)), said.p);
        text_builder fast = {.keep = a}, full = {.keep = a};
        read_lazily(a, &k, &lazy);
        say_summary(&fast, journal_summary(lazy));
        say_summary(&full, journal_summary(whole));
        assert_str(text_done(&fast), text_done(&full).p);
        case_summary listed = read_from_files(a, &k);
        text_builder list = {.keep = a};
        say_summary(&list, listed.says);
        assert_str(text_done(&list), text_done(&full).p);
        case_summary_free(&listed);
        assert_str(everything(a, lazy), said.p);
        agrees_with_the_twin(whole);
        arena_free(a);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_thousand_mean_the_same_however_they_come)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
