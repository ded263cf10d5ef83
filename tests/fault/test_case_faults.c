/* What was acknowledged is there: after kill -9 before any call, with many writers at once, with
 * the file cut anywhere, with a file that may not grow, with a clock that goes backwards. */
#include "case_bench.h"

#include <errno.h>
#include <sys/resource.h>
#include <time.h>

#include "kill_points.h"
#include "skips.h"

/* ---- the disk and the clock of this program, so that they can fail and go backwards ---- */

static bool sync_fails;

int fdatasync(int fd)
{
    if (!sync_fails) return fsync(fd);
    errno = EIO;
    return -1;
}

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
    bench *file = read_case(folder);
    long count = (long)file->count;
    for (long i = 0; i < count; i++) assert_int_equal(number_at(file, (size_t)i), i);
    assert_true(count > acknowledged);
    assert_true(count <=
                acknowledged + 2); /* one may be there whose word did not come out any more */
    close_bench(file);
    return count;
}

/* Adds numbers from `first` on, up to the writer's call number `last`, which is not made. The last
 * that was acknowledged, or -1. */
static long add_until_killed(const char *folder, long first, unsigned last)
{
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    const counted_run run = {
        .child = write_numbers,
        .context = &(numbers){.folder = folder, .first = first, .most = 1000, .acks = ends[1]}};
    assert_int_equal(run_until_call(&run, last), 128 + SIGKILL);
    close(ends[1]);
    return last_acknowledged(ends[0]);
}

static void killed_at_any_call_nothing_acknowledged_is_lost(void **state)
{
    (void)state;
    if (!can_count_calls())
        skip_since(
            "a writer that is killed: this machine lets nobody trace his own children (ptrace)");
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
    bench *file = read_case(folder);
    assert_int_equal(lines_said(), 0);
    assert_int_equal(file->count, WRITERS * EACH);
    long next[WRITERS] = {0};
    for (size_t i = 0; i < file->count; i++) {
        const tt_record *r = &file->records[i];
        long n = number_at(file, i);
        assert_int_equal(n % 1000, next[n / 1000]++);
        if (i > 0) assert_true(r->lamport >= file->records[i - 1].lamport);
    }
    close_bench(file);
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
    bench *one = read_case(folder), *other;
    assert_int_equal(open_case(folder, &other), EXIT_DONE);
    assert_int_equal(one->count, 40);
    assert_int_equal(other->count, 40);
    for (size_t i = 0; i < 40; i++) assert_int_equal(number_at(one, i), number_at(other, i));
    close_bench(other);
    close_bench(one);
    free(folder);
}

/* ---- cut anywhere ---- */

static size_t whole_lines(const char *text, size_t length)
{
    size_t count = 0;
    for (size_t i = 0; i < length; i++) count += text[i] == '\n';
    return count;
}

/* Cut after so many bytes: the whole lines count, the rest stays and does no harm to what is added.
 */
static void check_cut(const char *folder, const char *path, const char *text, size_t cut, bool adds)
{
    bool complete = cut > 0 && (text[cut - 1] == '\n' || text[cut] == '\n');
    size_t whole = whole_lines(text, cut) + (cut > 0 && text[cut] == '\n' && text[cut - 1] != '\n');
    put_file(path, text, cut);
    bench *file = read_case(folder);
    assert_int_equal(file->count, whole);
    assert_int_equal(lines_said(), complete || cut == 0 ? 0 : 1);
    close_bench(file);
    if (!adds) return;
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    assert_true(add_number(file, 77));
    close_bench(file);
    file = read_case(folder);
    assert_int_equal(file->count, whole + 1);
    assert_int_equal(number_at(file, whole), 77);
    close_bench(file);
    size_t length;
    char *after = text_of_file(path, &length);
    assert_memory_equal(after, text, cut);
    free(after);
}

static void cut_at_every_byte_the_whole_lines_count(void **state)
{
    (void)state;
    char *folder = new_case("cut"), *path;
    bench *file;
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    for (long n = 0; n < 5; n++) assert_true(add_number(file, n));
    close_bench(file);
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
    bench *file;
    signal(SIGXFSZ, SIG_IGN);
    if (open_quietly(folder, &file) != EXIT_DONE) _exit(9);
    setrlimit(RLIMIT_FSIZE, &(struct rlimit){5000, 5000});
    int error = open("/dev/null", O_WRONLY);
    dup2(error, 2);
    for (long n = 0; n < 1000; n++) {
        if (!add_number(file, n)) _exit(5);
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
    bench *file = read_case(folder);
    assert_int_equal(file->count, last + 1);
    assert_true(was_said("it was not written to its end"));
    close_bench(file);
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    assert_true(add_number(file, last + 1));
    close_bench(file);
    check_numbers(folder, last);
    free(folder);
}

/* Whether it came to the disk can't be known any more: it is said every time, and nothing is
 * written twice. */
static void a_sync_that_fails_is_said_every_time(void **state)
{
    (void)state;
    const char *why;
    char *folder = new_case("sync");
    bench *file;
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    assert_true(add_number(file, 0));
    sync_fails = true;
    assert_false(add_number_or(file, 1, &why));
    assert_non_null(strstr(why, ".jsonl: Input/output error"));
    sync_fails = false;
    assert_false(add_number_or(file, 2, &why));
    assert_non_null(strstr(why, ".jsonl: Input/output error"));
    assert_int_equal(case_store_unkept(file->store), 2);
    close_bench(file);
    file = read_case(folder);
    assert_int_equal(lines_said(), 0);
    assert_true(file->count >= 1 && file->count <= 2);
    for (size_t i = 0; i < file->count; i++) assert_int_equal(number_at(file, i), i);
    close_bench(file);
    free(folder);
}

/* ---- what others add ---- */

/* Another program adds one. */
static void add_elsewhere(const char *folder, long number)
{
    int acks, status;
    pid_t pid = start_writer(folder, number, 1, &acks);
    assert_int_equal(last_acknowledged(acks), number);
    assert_int_equal(waitpid(pid, &status, 0), pid);
}

static void news_are_what_others_added_since(void **state)
{
    (void)state;
    char *folder = new_case("news");
    bench *one;
    const tt_record *news;
    size_t count;
    assert_int_equal(open_case(folder, &one), EXIT_DONE);
    assert_true(add_number(one, 0));
    for (long n = 1; n <= 3; n++) {
        assert_false(case_store_has_news(one->store));
        assert_true(add_number(one, 10 * n));
        assert_false(case_store_has_news(one->store)); /* its own are none */
        add_elsewhere(folder, n);
        assert_true(case_store_has_news(one->store));
        assert_int_equal(case_store_news(one->store, &news, &count), EXIT_DONE);
        assert_int_equal(count, 1);
        assert_string_not_equal(news->writer, case_store_writer(one->store));
        assert_int_equal((long)news->data->items[0].number, n);
    }
    assert_int_equal(case_store_writers(one->store), 2);
    for (size_t i = 0; i < 2; i++) {
        case_writer writer = case_store_writer_at(one->store, i);
        assert_true(writer.is_here);
        assert_int_equal(writer.is_ours, strcmp(writer.name, case_store_writer(one->store)) == 0);
        assert_int_equal(writer.is_alive, writer.is_ours);
    }
    close_bench(one);
    bench *all = read_case(folder);
    assert_int_equal(all->count, 7);
    close_bench(all);
    free(folder);
}

/* Of a torn line that its writer has gone on behind, only the whole ones count, also when they are
 * read bit by bit. */
static void a_torn_line_is_passed_over_in_news(void **state)
{
    (void)state;
    char *folder = new_case("torn"), *path, *text;
    bench *file, *looks;
    size_t length, count;
    const tt_record *news;
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    for (long n = 0; n < 3; n++) assert_true(add_number(file, n));
    close_bench(file);
    path = only_file(folder);
    text = text_of_file(path, &length);
    size_t second = (size_t)(strchr(strchr(text, '\n') + 1, '\n') - text) + 1;
    put_file(path, text, second + 40);
    looks = read_case(folder);
    assert_int_equal(looks->count, 2);
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    assert_true(add_number(file, 7));
    assert_int_equal(case_store_news(looks->store, &news, &count), EXIT_DONE);
    assert_int_equal(count, 1);
    assert_int_equal((long)news->data->items[0].number, 7);
    close_bench(file);
    close_bench(looks);
    free(text);
    free(path);
    free(folder);
}

/* ---- the beginning ---- */

static void nothing_is_on_the_disk_before_something_is_kept(void **state)
{
    (void)state;
    case_store *store;
    struct stat about;
    assert_int_equal(system("rm -rf unbegun"), 0);
    assert_int_equal(case_store_new("unbegun", &store), EXIT_DONE);
    assert_false(case_store_is_on_disk(store));
    assert_int_equal(stat("unbegun", &about), -1);
    case_store_close(store);
    assert_int_equal(case_store_new("unbegun", &store), EXIT_DONE);
    char *folder = strdup(case_store_folder(store));
    bench *b = bench_of(store);
    assert_true(add_number(b, 0));
    assert_true(case_store_is_on_disk(store));
    close_bench(b);
    b = read_case(folder);
    assert_int_equal(b->count, 1);
    close_bench(b);
    free(folder);
}

static void what_would_be_in_the_way_is_said_at_once(void **state)
{
    (void)state;
    static const char *const roots[][2] = {
        {"in-the-way/file", "in-the-way/file is a plain file, not a folder"},
        {"in-the-way/file/cases", "in-the-way/file is a plain file, not a folder"},
        {"in-the-way/linked", "is a link, not a folder"}};
    assert_int_equal(system("rm -rf in-the-way; mkdir -p in-the-way/linked in-the-way/year && : "
                            ">in-the-way/file && "
                            "ln -s ../year in-the-way/linked/$(date -u +%Y)"),
                     0);
    for (unsigned i = 0; i < sizeof roots / sizeof roots[0]; i++) {
        case_store *store;
        int before = catch_complaints();
        exit_status status = case_store_new(roots[i][0], &store);
        hear_again(before);
        assert_int_equal(status, EXIT_CANNOT_CREATE);
        assert_true(was_said(roots[i][1]));
    }
}

/* ---- the clock ---- */

static void a_clock_that_goes_backwards_changes_no_order(void **state)
{
    (void)state;
    clock_now = 4000000000;
    char *folder = new_case("clock");
    bench *file;
    for (long n = 0; n < 5; n++) {
        assert_int_equal(open_case(folder, &file), EXIT_DONE);
        assert_true(add_number(file, n));
        clock_now -= 500000000;
        close_bench(file);
    }
    file = read_case(folder);
    assert_int_equal(lines_said(), 0);
    assert_int_equal(file->count, 5);
    for (size_t i = 0; i < 5; i++) {
        assert_int_equal(number_at(file, i), i);
        if (i > 0) assert_true(strcmp(file->records[i].time, file->records[i - 1].time) < 0);
    }
    close_bench(file);
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
        cmocka_unit_test(a_sync_that_fails_is_said_every_time),
        cmocka_unit_test(news_are_what_others_added_since),
        cmocka_unit_test(a_torn_line_is_passed_over_in_news),
        cmocka_unit_test(nothing_is_on_the_disk_before_something_is_kept),
        cmocka_unit_test(what_would_be_in_the_way_is_said_at_once),
        cmocka_unit_test(a_clock_that_goes_backwards_changes_no_order),
    };
    return cmocka_run_group_tests_name("case faults", tests, NULL, NULL);
}
