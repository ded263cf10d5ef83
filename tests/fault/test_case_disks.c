/* A case on a disk of its own: full, read-only, and cut off from power while it is written. Such
 * disks need root; without, this says so and is skipped. */
#define _GNU_SOURCE /* unshare */
#include "case_bench.h"

#include <errno.h>
#include <sched.h>
#include <sys/mount.h>

#include "skips.h"

/* A mount namespace of our own: nobody else sees these disks, and they go with us. */
static bool can_mount(void)
{
    static int can = -1;
    if (can < 0)
        can = unshare(CLONE_NEWNS) == 0 && mount(NULL, "/", NULL, MS_REC | MS_PRIVATE, NULL) == 0;
    return can == 1;
}

static void need_disks(void)
{
    if (!can_mount())
        skip_since(
            "a disk that is full, or read only: nobody may mount one here (that needs root)");
}

static void mount_small(const char *path)
{
    mkdir(path, 0700);
    umount2(path, MNT_DETACH);
    if (mount("tmpfs", path, "tmpfs", 0, "size=64k") != 0)
        fail_msg("no tmpfs: %s", strerror(errno));
}

static int run(const char *command)
{
    int status = system(command);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static void assert_numbers(bench *file, long count)
{
    assert_int_equal(file->count, count);
    for (long i = 0; i < count; i++) assert_int_equal(number_at(file, (size_t)i), i);
}

/* Nothing that was acknowledged is lost; and when there is room again, nothing at all is. */
static void a_full_disk_is_said_and_loses_nothing(void **state)
{
    (void)state;
    need_disks();
    mount_small("full-disk");
    bench *file;
    const char *why;
    char *folder = new_case("full-disk");
    assert_int_equal(run("dd if=/dev/zero of=full-disk/filler bs=4k count=8 2>/dev/null"), 0);
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    long kept = 0;
    while (kept < 1000 && add_number_or(file, kept, &why)) kept++;
    assert_true(kept > 0 && kept < 1000);
    assert_non_null(strstr(why, ".jsonl: No space left on device"));
    assert_false(add_number(file, kept + 1));
    assert_int_equal(case_store_unkept(file->store), 2);
    bench *seen = read_case(folder);
    assert_numbers(seen, kept);
    close_bench(seen);
    assert_int_equal(unlink("full-disk/filler"), 0);
    assert_true(add_number_or(file, kept + 2, &why));
    assert_int_equal(case_store_unkept(file->store), 0);
    assert_true(add_number(file, kept + 3));
    close_bench(file);
    file = read_case(folder);
    assert_numbers(file, kept + 4);
    close_bench(file);
    umount2("full-disk", MNT_DETACH);
    free(folder);
}

/* A case that can't even be begun goes on all the same. */
static void a_disk_without_room_for_the_first_record(void **state)
{
    (void)state;
    need_disks();
    mount_small("no-room");
    case_store *store;
    const char *why;
    assert_int_equal(case_store_new("no-room/cases", &store), EXIT_DONE);
    assert_int_equal(run("cat /dev/zero >no-room/filler 2>/dev/null; for i in $(seq 200); do mkdir "
                         "no-room/$i 2>/dev/null; done"),
                     0);
    bench *b = bench_of(store);
    bool kept = add_number_or(b, 0, &why);
    if (!kept) assert_non_null(strstr(why, "No space left on device"));
    assert_false(kept);
    assert_int_equal(run("rm -r no-room/filler no-room/[0-9]*"), 0);
    assert_true(add_number(b, 1));
    char *folder = strdup(case_store_folder(store));
    close_bench(b);
    b = read_case(folder);
    assert_numbers(b, 2);
    close_bench(b);
    umount2("no-room", MNT_DETACH);
    free(folder);
}

static void a_read_only_disk_can_be_looked_at(void **state)
{
    (void)state;
    need_disks();
    mount_small("read-only");
    bench *file;
    char *folder = new_case("read-only");
    assert_int_equal(open_case(folder, &file), EXIT_DONE);
    assert_true(add_number(file, 0));
    close_bench(file);
    assert_int_equal(mount(NULL, "read-only", NULL, MS_REMOUNT | MS_RDONLY, NULL), 0);
    assert_int_equal(open_case(folder, &file), EXIT_CANNOT_CREATE);
    assert_true(was_said("the case can't be kept in read-only/"));
    assert_true(was_said("Read-only file system"));
    file = read_case(folder);
    assert_numbers(file, 1);
    close_bench(file);
    int before = catch_complaints();
    case_store *store;
    assert_int_equal(case_store_new("read-only", &store), EXIT_CANNOT_CREATE);
    hear_again(before);
    assert_true(was_said("Name another folder with --cases FOLDER"));
    umount2("read-only", MNT_DETACH);
    free(folder);
}

/* ---- power ---- */

static void need_disk_image(void)
{
    need_disks();
    bool made = run("rm -f disk.img; truncate -s 8M disk.img && mkfs.ext4 -q -F disk.img "
                    "2>/dev/null && mkdir -p disk after &&"
                    " mount -o loop disk.img disk 2>/dev/null") == 0;
    if (!made)
        skip_since(
            "a power cut: no disk image can be made and mounted here (mkfs.ext4, loop devices)");
}

/* What has come to the disk so far, and no more: as the next start would find it. */
static void cut_power(void)
{
    assert_int_equal(run("cp disk.img cut.img && mount -o loop cut.img after"), 0);
}

static void start_again(void)
{
    assert_int_equal(run("umount after && rm cut.img"), 0);
}

/* What was written and not synced is not there, or this test could not fail. */
static void assert_power_matters(void)
{
    assert_int_equal(run("echo lost >disk/unsynced && echo kept >disk/synced && sync disk/synced"),
                     0);
    cut_power();
    assert_int_equal(access("after/synced", F_OK), 0);
    char text[8] = "";
    FILE *file = fopen("after/unsynced", "r");
    size_t got = file != NULL ? fread(text, 1, sizeof text, file) : 0;
    if (file != NULL) fclose(file);
    assert_int_equal(got, 0);
    start_again();
}

static void after_a_power_cut_all_that_was_acknowledged_is_there(void **state)
{
    (void)state;
    need_disk_image();
    assert_power_matters();
    char *folder = new_case("disk/cases"), elsewhere[512];
    snprintf(elsewhere, sizeof elsewhere, "after/%s", folder + strlen("disk/"));
    for (int round = 0; round < 12; round++) {
        int acks, status;
        long first = 100L * round, n = first;
        pid_t pid = start_writer(folder, first, 100, &acks);
        for (int i = 0; i < 3 + 5 * round; i++)
            assert_int_equal(read(acks, &n, sizeof n), sizeof n);
        kill(pid, SIGSTOP);
        cut_power();
        bench *file = read_case(elsewhere);
        bool found = false;
        for (size_t i = 0; i < file->count; i++) found = found || number_at(file, i) == n;
        assert_true(file->count >= (size_t)(n - first) + 1);
        assert_true(found);
        close_bench(file);
        start_again();
        kill(pid, SIGKILL);
        last_acknowledged(acks);
        assert_int_equal(waitpid(pid, &status, 0), pid);
    }
    run("umount disk");
    free(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_full_disk_is_said_and_loses_nothing),
        cmocka_unit_test(a_disk_without_room_for_the_first_record),
        cmocka_unit_test(a_read_only_disk_can_be_looked_at),
        cmocka_unit_test(after_a_power_cut_all_that_was_acknowledged_is_there),
    };
    return cmocka_run_group_tests_name("case disks", tests, NULL, NULL);
}
