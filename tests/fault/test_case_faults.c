/* What was acknowledged is there: after kill -9 before any call, with many writers at once, with the
 * file cut anywhere, with a file that may not grow, with a clock that goes backwards. */
#include "case_bench.h"

#include <sys/resource.h>
#include <time.h>

#include "kill_points.h"
#include "skips.h"

/* ---- the clock of this program, so that it can go backwards ---- */

static time_t clock_now;

int clock_gettime(clockid_t id, struct timespec *out)
{
    (void)id;
    *out = (struct timespec){.tv_sec = clock_now > 0 ? clock_now : time(NULL), .tv_nsec = 0};
    return 0;
}

/* ---- kill -9 ---- */

/* Numbers 0, 1, 2, ... without a gap, at least up to `acknowledged`; how many. */
static long check_numbers(const char *folder, long acknowledged)
{
    case_file *file = read_case(folder);
    long count = (long)case_file_count(file);
    for (long i = 0; i < count; i++) assert_int_equal(number_of(case_file_record(file, (size_t)i)), i);
    assert_true(count > acknowledged);
    assert_true(count <= acknowledged + 2); /* one may be there whose word did not come out any more */
    case_file_close(file);
    return count;
}

/* Adds numbers from `first` on, up to the writer's call number `last`, which is not made. The last
 * that was acknowledged, or -1. */
static long add_until_killed(const char *folder, long first, unsigned last)
{
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    const counted_run run = {.child = write_numbers, .context = &(numbers){folder, first, 1000, ends[1]}};
    assert_int_equal(run_until_call(&run, last), 128 + SIGKILL);
    close(ends[1]);
    return last_acknowledged(ends[0]);
}

static void killed_at_any_call_nothing_acknowledged_is_lost(void **state)
{
    (void)state;
    if (!can_count_calls()) skip_since("a writer that is killed: this machine lets nobody trace his own children (ptrace)");
    char *folder = new_case("killed");
    long count = 0;
    for (unsigned last = 1; last <= 36; last++) {
        long acknowledged = add_until_killed(folder, count, last);
        count = check_numbers(folder, acknowledged >= 0 ? acknowledged : count - 1);
    }
    assert_true(count > 150);
    free(folder);
}

/* ---- many at once ---- */

enum { WRITERS = 8, EACH = 40 };

static void eight_writers_lose_and_tear_nothing(void **state)
{
    (void)state;
    char *folder = new_case("eight");
    pid_t pids[WRITERS];
    int acks[WRITERS], status;
    for (int i = 0; i < WRITERS; i++) pids[i] = start_writer(folder, 1000 * i, EACH, &acks[i]);
    for (int i = 0; i < WRITERS; i++) {
        assert_int_equal(last_acknowledged(acks[i]), 1000 * i + EACH - 1);
        assert_int_equal(waitpid(pids[i], &status, 0), pids[i]);
        assert_int_equal(status, 0);
    }
    case_file *file = read_case(folder);
    assert_int_equal(lines_said(), 0);
    assert_int_equal(case_file_count(file), WRITERS * EACH);
    long next[WRITERS] = {0};
    for (size_t i = 0; i < case_file_count(file); i++) {
        const case_record *r = case_file_record(file, i);
        long n = number_of(r);
        assert_int_equal(n % 1000, next[n / 1000]++);
        if (i > 0) assert_true(r->lamport >= case_file_record(file, i - 1)->lamport);
    }
    case_file_close(file);
    free(folder);
}

/* Two who add without reading each other; each then reads the other's. */
static void two_at_once_have_the_same_case_afterwards(void **state)
{
    (void)state;
    char *folder = new_case("two");
    int acks[2], status;
    pid_t pids[2];
    for (int i = 0; i < 2; i++) pids[i] = start_writer(folder, 1000 * i, 20, &acks[i]);
    for (int i = 0; i < 2; i++) {
        last_acknowledged(acks[i]);
        assert_int_equal(waitpid(pids[i], &status, 0), pids[i]);
    }
    case_file *one = read_case(folder), *other;
    assert_int_equal(open_case(folder, &other), EXIT_DONE);
    assert_int_equal(case_file_count(one), 40);
    assert_int_equal(case_file_count(other), 40);
    for (size_t i = 0; i < 40; i++)
        assert_int_equal(number_of(case_file_record(one, i)), number_of(case_file_record(other, i)));
    case_file_close(other);
    case_file_close(one);
    free(folder);
}

/* ---- cut anywhere ---- */

static size_t whole_lines(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++) count += text[i] == '\n';
    return count;
}

/* Cut after so many bytes: the whole lines count, the rest stays and does no harm to what is added. */
static void check_cut(const char *folder, const char *path, const char *text, size_t cut, bool adds)
{
    bool complete = cut > 0 && (text[cut - 1] == '\n' || text[cut] == '\n');
    size_t whole = whole_lines(text, cut) + (cut > 0 && text[cut] == '\n' && text[cut - 1] != '\n');
    put_file(path, text, cut);
    case_file *file = read_case(folder);
    assert_int_equal(case_file_count(file), whole);
    assert_int_equal(lines_said(), complete || cut == 0 ? 0 : 1);
    case_file_close(file);
    if (!adds) return;
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    assert_int_equal(add_number(file, 77), EXIT_DONE);
    case_file_close(file);
    file = read_case(folder);
    assert_int_equal(case_file_count(file), whole + 1);
    assert_int_equal(number_of(case_file_record(file, whole)), 77);
    case_file_close(file);
    size_t length;
    char *after = text_of_file(path, &length);
    assert_memory_equal(after, text, cut);
    free(after);
}

static void cut_at_every_byte_the_whole_lines_count(void **state)
{
    (void)state;
    char *folder = new_case("cut"), *path;
    case_file *file;
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    for (long n = 0; n < 5; n++) assert_int_equal(add_number(file, n), EXIT_DONE);
    case_file_close(file);
    path = only_file(folder);
    size_t length;
    char *text = text_of_file(path, &length);
    for (size_t cut = 0; cut <= length; cut++) check_cut(folder, path, text, cut, cut % 5 == 0);
    free(text);
    free(path);
    free(folder);
}

/* ---- a file that may not grow, as on a full disk ---- */

static void add_until_it_is_full(const char *folder, int ack)
{
    case_file *file;
    signal(SIGXFSZ, SIG_IGN);
    if (case_file_open(".", folder, &file) != EXIT_DONE) _exit(9);
    setrlimit(RLIMIT_FSIZE, &(struct rlimit){5000, 5000});
    int error = open("/dev/null", O_WRONLY);
    dup2(error, 2);
    for (long n = 0; n < 1000; n++) {
        if (add_number(file, n) == EXIT_IO) _exit(5);
        if (write(ack, &n, sizeof n) != (ssize_t)sizeof n) _exit(8);
    }
    _exit(0);
}

static void what_no_longer_fits_is_said_and_the_rest_is_there(void **state)
{
    (void)state;
    char *folder = new_case("full");
    int ends[2], status;
    assert_int_equal(pipe(ends), 0);
    fflush(NULL);
    pid_t pid = fork();
    if (pid == 0) add_until_it_is_full(folder, ends[1]);
    close(ends[1]);
    long last = last_acknowledged(ends[0]);
    assert_int_equal(waitpid(pid, &status, 0), pid);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 5);
    case_file *file = read_case(folder);
    assert_int_equal(case_file_count(file), last + 1);
    assert_true(was_said("it was not written to its end"));
    case_file_close(file);
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    assert_int_equal(add_number(file, last + 1), EXIT_DONE);
    case_file_close(file);
    check_numbers(folder, last);
    free(folder);
}

/* ---- the clock ---- */

static void a_clock_that_goes_backwards_changes_no_order(void **state)
{
    (void)state;
    clock_now = 4000000000;
    char *folder = new_case("clock");
    case_file *file;
    for (long n = 0; n < 5; n++) {
        assert_int_equal(open_case(folder, &file), EXIT_DONE);
        assert_int_equal(add_number(file, n), EXIT_DONE);
        clock_now -= 500000000;
        case_file_close(file);
    }
    file = read_case(folder);
    assert_int_equal(lines_said(), 0);
    assert_int_equal(case_file_count(file), 5);
    for (size_t i = 0; i < 5; i++) {
        assert_int_equal(number_of(case_file_record(file, i)), i);
        if (i > 0) assert_true(strcmp(case_file_record(file, i)->time, case_file_record(file, i - 1)->time) < 0);
    }
    case_file_close(file);
    clock_now = 0;
    free(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(killed_at_any_call_nothing_acknowledged_is_lost),
        cmocka_unit_test(eight_writers_lose_and_tear_nothing),
        cmocka_unit_test(two_at_once_have_the_same_case_afterwards),
        cmocka_unit_test(cut_at_every_byte_the_whole_lines_count),
        cmocka_unit_test(what_no_longer_fits_is_said_and_the_rest_is_there),
        cmocka_unit_test(a_clock_that_goes_backwards_changes_no_order),
    };
    return cmocka_run_group_tests_name("case faults", tests, NULL, NULL);
}
