/* The way to the database lets nothing through any more, and nobody says so: on a network of the
 * test's own, of which one end is taken down while a call is held. */
#define _GNU_SOURCE /* unshare */
#include <net/if.h>
#include <sched.h>
#include <sys/ioctl.h>
#include <sys/socket.h>
#include <unistd.h>

#include "database/db_session.h"
#include "database_kit.h"
#include "run_telltale.h"
#include "window.h"

/* What the program takes ten seconds for, in one. */
#define HASTY "?tcp_user_timeout=1000&keepalives_idle=1&keepalives_interval=1&keepalives_count=1"

static bool set_network(bool up)
{
    struct ifreq about = {.ifr_name = "lo"};
    const int s = socket(AF_INET, SOCK_DGRAM, 0);
    bool fine = s >= 0 && ioctl(s, SIOCGIFFLAGS, &about) == 0;
    about.ifr_flags = (short)(up ? about.ifr_flags | IFF_UP : about.ifr_flags & ~IFF_UP);
    fine = fine && ioctl(s, SIOCSIFFLAGS, &about) == 0;
    if (s >= 0) close(s);
    return fine;
}

static window *begin_call(void)
{
    char address[512];
    snprintf(address, sizeof address, "%s" HASTY, database_address("writer"));
    setenv("D", address, 1);
    window *w = window_open(&(window_plan){
        .words = (const char *const[]){"ask", WELL, "--practice", "--cases", address, NULL}});
    window_await(w, "Is there smoke at the pump?");
    window_await_next_prompt(w);
    return w;
}

static void carry_over(const char *records)
{
    assert_true(set_network(true));
    assert_int_equal(sh("$T cases .local/share/telltale/until-back/* --copy-to $D >copied 2>err"),
                     0);
    char *kept = database_sql("SELECT count(*) FROM telltale.records");
    assert_string_equal(kept, records);
    free(kept);
}

/* What is being kept when the way falls silent is kept on this machine. */
static void what_is_said_into_silence_is_kept_here(void **state)
{
    (void)state;
    window *w = begin_call();
    window_type(w, "no");
    window_await(w, "What is wrong?");
    window_await_next_prompt(w);
    assert_true(set_network(false));
    window_type(w, "no water");
    window_await(w, "the database can't be reached");
    window_await(w, "until the database is back");
    window_await_next_prompt(w);
    window_type(w, "stop");
    window_await_end(w);
    assert_int_equal(window_close(w), 3);
    assert_int_equal(sh("cat .local/share/telltale/until-back/*/*/*/*/*.jsonl | wc -l >count"), 0);
    char *count = contents("count");
    count[strcspn(count, "\n")] = 0;
    carry_over(count);
    free(count);
}

static int sweep(void **state)
{
    (void)state;
    return set_network(true) ? sh("rm -rf .local") : 1;
}

int main(void)
{
    if (!db_is_built_in()) return skip_all_since(NEEDS_DATABASE);
    if (unshare(CLONE_NEWNET) != 0 || !set_network(true))
        return skip_all_since("no network of its own may be made here; run it as root");
    if (!database_start_at("127.0.0.1")) return skip_all_since(NEEDS_DATABASE);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(what_is_said_into_silence_is_kept_here, sweep),
    };
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    database_end();
    return failed;
}
