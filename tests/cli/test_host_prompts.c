/* What the program itself asks, before a case and after it: at each such question danger, stop,
 * another language and nonsense are heard as anywhere, and nothing is a fault of the program's own.
 */
#include "run_telltale.h"

#include "turn_client.h"

#define FILTERS TT_SOURCE_DIR "/tests/cli/filters"

/* What leads on from each kind of turn. */
static const char *const on[][2] = {
    {"danger", "{\"choice\":\"no\"}"},
    {"complaint", "{\"choice\":1}"},
    {"site-file", "{\"choice\":\"say\"}"},
    {"site-name", "{\"answer\":\"The north house\"}"},
    {"site-pieces", "{\"answer\":\"coarse, fine\"}"},
    {"site-right", "{\"choice\":\"yes\"}"},
    {"site-keep", "{\"choice\":\"elsewhere\"}"},
    {"site-path", "{\"answer\":\"taken.yaml\"}"},
    {"before-fix", "{\"choice\":\"begin\"}"},
    {"fix-step", "{\"choice\":\"done\"}"},
    {"look-again", "{\"choice\":1}"},
    {"fix", "{\"choice\":\"gone\"}"},
    {"cause", "{\"choice\":\"yes\"}"},
};

static const char *const asked[] = {"site-file", "site-name", "site-pieces", "site-right",
                                    "site-keep", "site-path", "site-over",   "keep-facts"};

typedef enum meant { DANGER, HELP, STOP, SPANISH, NOTHING } meant;
static const struct {
    const char *line;
    meant means;
} said[] = {
    {"{\"word\":\"danger\"}", DANGER},
    {"{\"answer\":\"danger\"}", DANGER},
    {"{\"answer\":\"somebody is hurt\"}", DANGER},
    {"{\"answer\":\"hay fuego\"}", DANGER},
    {"{\"answer\":\"help me please\"}", HELP},
    {"{\"answer\":\"ayuda\"}", HELP},
    {"{\"word\":\"stop\"}", STOP},
    {"{\"answer\":\"parar\"}", STOP},
    {"{\"answer\":\"en español\"}", SPANISH},
    {"{\"language\":\"es\"}", SPANISH},
    {"{\"word\":\"?\"}", NOTHING},
    {"{\"word\":\"known\"}", NOTHING},
    {"{\"word\":\"back\"}", NOTHING},
    {"{\"word\":\"hold\"}", NOTHING},
    {"{\"answer\":\"\"}", NOTHING},
    {"{\"answer\":\"the foam is dry\"}", NOTHING},
    {"{\"choice\":\"nonsense\"}", NOTHING},
    {"{\"choice\":99}", NOTHING},
    {"{\"reading\":12}", NOTHING},
    {"{\"turn\":999,\"choice\":1}", NOTHING},
};

static void begin_anew(turn_client *c, const char *kind)
{
    const bool facts = strcmp(kind, "keep-facts") == 0;
    assert_int_equal(
        sh("rm -rf config cases *.yaml; mkdir cases; echo 'site: {}' >taken.yaml; "
           "printf 'site:\\n  units:\\n    filter: {coarse: {comes-before: [fine]}, fine: {}}\\n' "
           ">north.yaml; printf 'danger-now: no\\nflow: trickle\\nhardness: 8 gpg\\n"
           "kind-of of coarse: paper\\ncartridge of coarse: caked\\ncartridge of fine: clean\\n' "
           ">all.yaml"),
        0);
    client_begin(c, facts ? FILTERS " --cases cases --site north.yaml --answers all.yaml"
                          : FILTERS " --cases cases");
}

static bool reach(turn_client *c, const char *kind)
{
    for (int i = 0; i < 30 && !client_is(c, kind); i++) {
        size_t k = 0;
        while (k < sizeof on / sizeof on[0] && !client_is(c, on[k][0])) k++;
        if (k == sizeof on / sizeof on[0]) return false;
        client_say(c, on[k][1]);
    }
    return client_is(c, kind);
}

static void heard_as_meant(turn_client *c, const char *kind, const char *line, meant means)
{
    const char *now = client_text(c, "kind");
    if (means == DANGER && strcmp(now, "stop") != 0)
        fail_msg("%s at %s: %s follows", line, kind, now);
    if (means == HELP && strcmp(now, "help") != 0)
        fail_msg("%s at %s: %s follows", line, kind, now);
    if (means == STOP && strcmp(now, "end") != 0 && strcmp(now, "note") != 0)
        fail_msg("%s at %s: %s follows", line, kind, now);
    if (means == SPANISH && strcmp(client_text(c, "language"), "es") != 0)
        fail_msg("%s at %s: told in %s", line, kind, client_text(c, "language"));
}

/* To the end, whatever there is still to be said. */
static int leave(turn_client *c)
{
    for (int i = 0; i < 6 && !client_is(c, "end"); i++)
        client_say(c, i % 2 == 0 ? "{\"word\":\"stop\"}" : "{\"answer\":\"\"}");
    return client_end(c);
}

static void every_question_of_the_programs_own_hears(void **state)
{
    (void)state;
    setenv("XDG_CONFIG_HOME", "config", 1);
    for (size_t k = 0; k < sizeof asked / sizeof asked[0]; k++)
        for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
            turn_client c;
            begin_anew(&c, asked[k]);
            if (!reach(&c, asked[k])) fail_msg("no %s: %s", asked[k], client_text(&c, "kind"));
            client_say(&c, said[i].line);
            heard_as_meant(&c, asked[k], said[i].line, said[i].means);
            if (said[i].means == HELP) {
                client_say(&c, "{\"choice\":\"danger\"}");
                heard_as_meant(&c, asked[k], said[i].line, DANGER);
            }
            const int status = leave(&c);
            if (status != 0 && status != 1 && status != 3)
                fail_msg("%s at %s: status %d", said[i].line, asked[k], status);
            assert_int_equal(sh("! grep -q 'fault of telltale' client-err"), 0);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_question_of_the_programs_own_hears),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
