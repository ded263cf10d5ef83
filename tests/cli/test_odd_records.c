/* Records that are well formed and mean nothing, or nothing at this place: the case can be looked
 * at and gone on with all the same. */
#include "run_telltale.h"

/* X(kind, data) */
#define ODD_RECORDS(X) \
    X("answer", "{}") \
    X("answer", "{\"question\":7,\"reply\":[]}") \
    X("answer", "{\"question\":\"smoke\",\"reply\":{\"kind\":\"answer\",\"option\":\"perhaps\"}}") \
    X("answer", "{\"question\":\"smoke\",\"reply\":{\"kind\":\"number\",\"number\":1e308}}") \
    X("answer", \
      "{\"question\":\"smoke\",\"reply\":{\"kind\":\"likely\",\"weights\":{\"yes\":-1}}}") \
    X("answer", "{\"question\":\"tank-gauge\",\"reply\":{\"kind\":\"number\",\"number\":1e308," \
                "\"unit\":\"miles\"}}") \
    X("complaint", "{\"symptom\":\"no-such\",\"at\":[]}") \
    X("complaint", "{\"symptom\":null,\"at\":[1,null]}") \
    X("tried", "{\"fix\":\"recharge-tank\"}") \
    X("tried", "{\"fix\":\"recharge-tank\",\"outcome\":\"no-change\",\"set\":{\"from\":\"x\"}}") \
    X("put-back", "{\"fix\":\"recharge-tank\"}") \
    X("put-back", "{\"fix\":\"recharge-tank\",\"set\":{}}") \
    X("left", "{\"fix\":\"recharge-tank\"}") \
    X("left", "{}") \
    X("answers", "{\"name\":\"a\",\"text\":\"]\"}") \
    X("back", "{}") \
    X("back", "{\"step\":{\"writer\":\"0000aaaa0000\",\"seq\":1}}") \
    X("back", "{\"step\":{\"writer\":[],\"seq\":\"1\"}}") \
    X("back", "{\"step\":3}") \
    X("settle", "{}") \
    X("settle", "{\"right\":null,\"wrong\":[{\"writer\":\"0000aaaa0000\",\"seq\":1},{},7]}") \
    X("settle", "{\"wrong\":{}}") \
    X("confirm", "{\"cause\":[]}") \
    X("site", "{\"site\":null}") \
    X("resume", "{\"by\":7,\"on\":[],\"how\":{}}") \
    X("hand-over", "{\"to\":1,\"note\":\"\\\\u001b[31mred\"}") \
    X("hold", "{\"note\":null}") \
    X("close", "{}") \
    X("no-such-kind", "{}")

static const struct {
    const char *kind, *data;
} odd[] = {
#define ODD_ENTRY(kind, data) {kind, data},
    ODD_RECORDS(ODD_ENTRY)
#undef ODD_ENTRY
};
enum { ODD = sizeof odd / sizeof odd[0] };

/* Made once, for each record costs the disk its time; every test gets a copy. */
static int make_case(void **state)
{
    (void)state;
    return sh("rm -rf whole; printf 'no\\nshort cycling\\n1\\n' | $T ask $WELL --cases whole >out "
              "2>err") != 3;
}

static void begin_case(void)
{
    assert_int_equal(sh("rm -rf cases && cp -r whole cases"), 0);
}

/* From another writer, who knew of nothing, and from one who knew of all: after what is there. */
static void add_odd(size_t which, unsigned place, const char *seen)
{
    FILE *line = fopen("line", "w");
    assert_non_null(line);
    fprintf(line,
            "\"writer\":\"0000aaaa0000\",\"seq\":%u,\"lamport\":%u,\"time\":\"2026-01-01T00:00:00."
            "000+00:00\",\"before\":\"\",%s"
            "\"kind\":\"%s\",\"data\":%s}\n",
            place, 3 + place, seen, odd[which].kind, odd[which].data);
    fclose(line);
    assert_int_equal(sh("cd cases/*/*/* && { printf '{\"version\":1,\"case\":\"%%s\",' $(basename "
                        "$PWD); cat $OLDPWD/line; } >>0000aaaa0000.jsonl"),
                     0);
}

static void look_and_go_on(size_t which)
{
    int looked = sh("$T ask --case cases/*/*/* --no-input >out 2>err");
    if (looked != 3)
        fail_msg("%s %s: looking ends with %d", odd[which].kind, odd[which].data, looked);
    char *shown = contents("out");
    bool steers = strchr(shown, 033) != NULL;
    free(shown);
    if (steers) fail_msg("%s: steers the terminal", odd[which].kind);
    /* "3" takes it over where an odd record makes it look open elsewhere; else it is no answer. */
    int resumed = sh("printf '3\\nno\\nunsure\\nback\\nback\\nback\\nback\\nknown\\n' | $T ask "
                     "--case cases/*/*/* >out 2>err");
    if (resumed != 3 && resumed != 1 && resumed != 0)
        fail_msg("%s %s: going on ends with %d", odd[which].kind, odd[which].data, resumed);
}

static void one_odd_record_does_no_harm(void **state)
{
    (void)state;
    for (size_t i = 0; i < ODD; i++) {
        begin_case();
        add_odd(i, 1, i % 2 == 0 ? "\"seen\":{}," : "");
        look_and_go_on(i);
    }
}

static void all_of_them_together_do_none(void **state)
{
    (void)state;
    begin_case();
    for (unsigned i = 0; i < ODD; i++) add_odd(i, i + 1, "\"seen\":{\"x\":\"y\"},");
    look_and_go_on(ODD - 1);
    begin_case();
    for (unsigned i = ODD; i-- > 0;) add_odd(i, ODD - i, "");
    look_and_go_on(0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_odd_record_does_no_harm),
        cmocka_unit_test(all_of_them_together_do_none),
    };
    return cmocka_run_group_tests_name("odd records", tests, make_case, NULL);
}
