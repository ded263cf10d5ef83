/* Files, folders and places as a disk or a person may have them: each row is one that exists
 * somewhere. What must not be written over stays, and what failed has its name. */
#include "run_telltale.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/ioctl.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include "host/door.h"
#include "host/files.h"
#include "host/held_file.h"
#include "host/into.h"
#include "host/screen.h"
#include "skips.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* ---- file systems without links, in the place of the one here ---- */

static int link_fails; /* errno; 0: it does not */

int link(const char *from, const char *to)
{
    if (link_fails != 0) {
        errno = link_fails;
        return -1;
    }
    return linkat(AT_FDCWD, from, AT_FDCWD, to, 0);
}

static int sync_fails;

int fsync(int fd)
{
    if (sync_fails == 0) return fdatasync(fd);
    errno = sync_fails;
    return -1;
}

static int fresh(void **state)
{
    (void)state;
    link_fails = sync_fails = 0;
    return sh("chmod -R u+w place 2>err; rm -rf place && mkdir place");
}

static bool holds_text(const char *path, const char *text)
{
    char *got = contents(path);
    const bool same = strcmp(got, text) == 0;
    free(got);
    return same;
}

static void without_links_a_name_is_taken_by_looking(void **state)
{
    static const int no_links[] = {EPERM, ENOTSUP, ENOSYS, EMLINK};
    (void)state;
    for (size_t i = 0; i < COUNT(no_links); i++) {
        link_fails = no_links[i];
        assert_int_equal(sh("rm -f place/*"), 0);
        assert_int_equal(write_whole("place/a", "one", 3, 0600, false), 0);
        assert_true(holds_text("place/a", "one"));
        assert_int_equal(write_whole("place/a", "two", 3, 0600, false), EEXIST);
        assert_true(holds_text("place/a", "one"));
    }
    link_fails = EIO; /* there are links, and this one could not be made */
    assert_int_equal(write_whole("place/b", "one", 3, 0600, false), EIO);
    assert_int_equal(sh("ls place >list && test \"$(cat list)\" = a"), 0);
}

/* What is not on the disk is not there, and what was there before stays. */
static void a_disk_that_does_not_answer_leaves_what_was_there(void **state)
{
    (void)state;
    assert_int_equal(write_whole("place/a", "one", 3, 0600, true), 0);
    sync_fails = EIO;
    assert_int_equal(write_whole("place/a", "two", 3, 0600, true), EIO);
    assert_true(holds_text("place/a", "one"));
    sync_fails = EINVAL; /* a folder whose file system has no such call: nothing can be done */
    assert_int_equal(sync_folder("place"), 0);
    sync_fails = EIO;
    assert_int_equal(sync_folder("place"), EIO);
    assert_int_equal(sync_folder("place/none"), ENOENT);
    assert_int_equal(sync_folder("place/a"), ENOTDIR);
    assert_int_equal(sh("ls place >list && test \"$(cat list)\" = a"), 0);
}

static void what_is_no_file_is_not_replaced(void **state)
{
    (void)state;
    assert_int_equal(sh("mkfifo place/pipe && mkdir place/folder && ln -s nowhere place/link"), 0);
    assert_int_equal(write_whole("place/pipe", "x", 1, 0600, true), EPERM);
    assert_int_equal(write_whole("place/folder", "x", 1, 0600, true), EPERM);
    assert_int_equal(write_whole("place/none/a", "x", 1, 0600, true), ENOENT);
    assert_int_equal(write_whole("place/pipe/a", "x", 1, 0600, true), ENOTDIR);
    assert_int_equal(sh("test -p place/pipe && test -d place/folder && test -L place/link"), 0);
}

/* ---- folders ---- */

static void folders_are_made_up_to_what_is_in_the_way(void **state)
{
    struct stat about;
    (void)state;
    assert_int_equal(make_folders("place/one/two/three"), 0);
    assert_int_equal(make_folders("place/one/two/three"), 0);
    assert_int_equal(sh(": >place/file"), 0);
    assert_int_equal(make_folders("place/file/two"), ENOTDIR);
    assert_int_equal(make_folders("place/file"), ENOTDIR);
    assert_int_equal(sh("ln -s nowhere place/link"), 0);
    assert_int_equal(make_folders("place/link/two"), ENOENT);
    assert_int_equal(sh("chmod 2770 place/one"), 0);
    assert_int_equal(make_folders("place/one/shared/below"), 0);
    assert_int_equal(stat("place/one/shared/below", &about), 0);
    assert_int_equal(about.st_mode & 07777, S_ISGID | 0770);
    assert_int_equal(stat("place/one/two", &about), 0);
    assert_int_equal(about.st_mode & 07777, 0700); /* what was there is as it was */
}

/* ---- paths ---- */

static void assert_short(const char *home, const char *path, const char *expected)
{
    if (home != NULL)
        setenv("HOME", home, 1);
    else
        unsetenv("HOME");
    char *shown = short_path(path);
    assert_string_equal(shown, expected);
    free(shown);
}

static void paths_are_short_for_those_at_home(void **state)
{
    char *before = strdup(getenv("HOME"));
    (void)state;
    assert_short("/home/east", "/home/east/cases", "~/cases");
    assert_short("/home/east", "/home/east", "/home/east");
    assert_short("/home/east", "/home/easter/cases", "/home/easter/cases");
    assert_short("/home/east", "/elsewhere", "/elsewhere");
    assert_short("home", "home/cases", "home/cases");
    assert_short("/", "/cases", "/cases");
    assert_short("", "/cases", "/cases");
    assert_short(NULL, "/cases", "/cases");
    setenv("HOME", before, 1);
    free(before);
}

static void a_path_is_told_from_the_top(void **state)
{
    char here[4096], *path;
    (void)state;
    assert_non_null(getcwd(here, sizeof here));
    path = absolute_path("place");
    assert_int_equal(strncmp(path, here, strlen(here)), 0);
    free(path);
    path = absolute_path("none/at/all");
    assert_int_equal(strncmp(path, here, strlen(here)), 0);
    assert_string_equal(path + strlen(here), "/none/at/all");
    free(path);
    path = absolute_path("/none/at/all");
    assert_string_equal(path, "/none/at/all");
    free(path);
}

/* The folder that one stands in was taken away. */
static void a_path_in_no_folder_stays_as_it_is(void **state)
{
    char here[4096];
    (void)state;
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(mkdir("place/gone", 0700), 0);
    assert_int_equal(chdir("place/gone"), 0);
    assert_int_equal(rmdir("../gone"), 0);
    char *path = absolute_path("cases");
    assert_int_equal(chdir(here), 0);
    assert_string_equal(path, "cases");
    free(path);
}

static void what_is_too_long_is_not_read(void **state)
{
    char *bytes = NULL;
    (void)state;
    assert_int_equal(sh("printf 12345 >place/five"), 0);
    int fd = open("place/five", O_RDONLY | O_CLOEXEC);
    assert_int_equal(read_descriptor(fd, 5, &bytes), 5);
    free(bytes);
    assert_int_equal(lseek(fd, 0, SEEK_SET), 0);
    assert_int_equal(read_descriptor(fd, 4, &bytes), -1);
    assert_int_equal(errno, EFBIG);
    close(fd);
    fd = open("place", O_RDONLY | O_CLOEXEC);
    assert_int_equal(read_descriptor(fd, 4, &bytes), -1);
    assert_int_equal(errno, EISDIR);
    close(fd);
}

/* ---- where somebody wants something put ---- */

static bool is_nothing_of_ours(const char *bytes, size_t length)
{
    (void)bytes;
    (void)length;
    return false;
}

/* The status, and what was said is in "err". */
static exit_status put(const char *path, bool overwrite)
{
    fflush(stderr);
    const int before = dup(2), file = open("err", O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    assert_true(before >= 0 && file >= 0 && dup2(file, 2) == 2);
    close(file);
    const exit_status status = put_into(path, "text", 4, is_nothing_of_ours, overwrite);
    fflush(stderr);
    assert_int_equal(dup2(before, 2), 2);
    close(before);
    return status;
}

static void make_socket(const char *path)
{
    struct sockaddr_un name = {.sun_family = AF_UNIX};
    snprintf(name.sun_path, sizeof name.sun_path, "%s", path);
    const int fd = socket(AF_UNIX, SOCK_STREAM, 0);
    assert_int_equal(bind(fd, (struct sockaddr *)&name, sizeof name), 0);
    close(fd);
}

static void what_is_in_the_place_decides(void **state)
{
    static const struct {
        const char *path;
        bool overwrite;
        exit_status status;
        const char *said;
    } rows[] = {
        {"place/new", false, EXIT_DONE, ""},
        {"place/empty", false, EXIT_DONE, ""},
        {"place/theirs", false, EXIT_CANNOT_CREATE, "place/theirs is a file that telltale did not"},
        {"place/theirs", true, EXIT_DONE, ""},
        {"place/huge", false, EXIT_CANNOT_CREATE, "place/huge is a file that telltale did not"},
        {"place/folder", true, EXIT_CANNOT_CREATE, "place/folder is a folder. Name a file"},
        {"place/socket", true, EXIT_CANNOT_CREATE, "place/socket is a socket. Name a file"},
        {"place/link", true, EXIT_NO_FILE, "place/link is a link to a file that is not there"},
        {"place/none/new", false, EXIT_NO_FILE, "place/none/new could not be written"},
        {"place/theirs/new", false, EXIT_NO_FILE, "place/theirs/new could not be written"},
        {"place/loop", false, EXIT_IO, "place/loop could not be written"},
        {"/dev/fd/", false, EXIT_CANNOT_CREATE, "is a folder. Name a file"},
        {"/dev/fd/x", false, EXIT_NO_FILE, "/dev/fd/x could not be written"},
        {"/dev/fd/1234567", false, EXIT_NO_FILE, "/dev/fd/1234567 could not be written"},
        {"/proc/self/fd/999", false, EXIT_IO, "/proc/self/fd/999 could not be written"},
        {"/dev/full", false, EXIT_IO, "/dev/full could not be written: No space left"},
        {"/dev/stderr", false, EXIT_DONE, "text"},
        {"/dev/fd/2", false, EXIT_DONE, "text"},
        {"/proc/self/fd/2", false, EXIT_DONE, "text"}};
    (void)state;
    assert_int_equal(sh(": >place/empty; echo theirs >place/theirs; mkdir place/folder; "
                        "ln -s nowhere place/link; ln -s loop place/loop; "
                        "truncate -s 17M place/huge"),
                     0);
    make_socket("place/socket");
    for (size_t i = 0; i < COUNT(rows); i++) {
        const exit_status status = put(rows[i].path, rows[i].overwrite);
        if (status != rows[i].status)
            fail_msg("%s: status %d, not %d", rows[i].path, status, rows[i].status);
        assert_holds("err", rows[i].said);
    }
    assert_true(holds_text("place/new", "text"));
    assert_true(holds_text("place/empty", "text"));
    assert_true(holds_text("place/theirs", "text"));
}

/* A disk that is named by a slip is not written over; nobody opens it. */
static void a_disk_is_left_alone(void **state)
{
    (void)state;
    if (mknod("place/disk", S_IFBLK | 0600, 0) != 0)
        skip_since("a disk: none may be made here; run it as root");
    assert_int_equal(put("place/disk", false), EXIT_CANNOT_CREATE);
    assert_holds("err", "place/disk is a disk that telltale did not make");
    assert_int_equal(put("place/disk", true), EXIT_IO); /* there is no such disk */
    assert_holds("err", "place/disk could not be written");
}

/* ---- what two hold ---- */

static void a_file_is_held_where_it_can_be(void **state)
{
    (void)state;
    held_file held = hold_file("place/none/file");
    assert_int_equal(held.fd, -1); /* nobody is kept from going on */
    let_file_go(&held);
    held = hold_file("place/file");
    assert_true(held.fd >= 0);
    assert_int_equal(access("place/.file.held", F_OK), 0);
    let_file_go(&held);
    assert_int_equal(access("place/.file.held", F_OK), -1);
    held = hold_file("file-here");
    assert_int_equal(access(".file-here.held", F_OK), 0);
    let_file_go(&held);
}

/* Whoever waits has it once the other lets it go, and holds what others see. */
static void the_next_holds_what_others_see(void **state)
{
    int ready[2];
    char byte;
    (void)state;
    assert_int_equal(sh(": >place/file"), 0);
    assert_int_equal(pipe(ready), 0);
    held_file held = hold_file("place/file");
    fflush(NULL);
    const pid_t child = fork();
    if (child == 0) {
        if (write(ready[1], "x", 1) != 1) _exit(2);
        held_file own = hold_file("place/file");
        _exit(own.fd >= 0 && access("place/.file.held", F_OK) == 0 ? 0 : 1);
    }
    assert_int_equal(read(ready[0], &byte, 1), 1);
    let_file_go(&held);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    close(ready[0]);
    close(ready[1]);
}

/* ---- what a mode is called ---- */

static void each_kind_has_a_name(void **state)
{
    static const struct {
        mode_t mode;
        const char *words;
    } rows[] = {{S_IFREG, "a plain file"}, {S_IFDIR, "a folder"},  {S_IFLNK, "a link"},
                {S_IFIFO, "a pipe"},       {S_IFSOCK, "a socket"}, {S_IFCHR, "a device"},
                {S_IFBLK, "a device"}};
    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++)
        assert_string_equal(door_kind_words(rows[i].mode), rows[i].words);
    door_fault fault;
    assert_int_equal(sh(": >place/file"), 0);
    assert_int_equal(door_make_file(AT_FDCWD, "place/file", 0600, &fault), -1);
    assert_int_equal(fault.error, EEXIST);
    assert_int_equal(door_open_stream("place/none", &fault), -1);
    assert_int_equal(fault.error, ENOENT);
}

/* ---- how large a screen is ---- */

static void assert_screen(const char *columns, const char *lines, struct winsize size,
                          unsigned width, unsigned height)
{
    const int master = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
    assert_true(master >= 0 && grantpt(master) == 0 && unlockpt(master) == 0);
    FILE *end = fopen(ptsname(master), "we");
    assert_non_null(end);
    assert_int_equal(ioctl(master, TIOCSWINSZ, &size), 0);
    setenv("COLUMNS", columns, 1);
    setenv("LINES", lines, 1);
    const screen s = screen_on(end);
    assert_true(s.terminal);
    if (s.width != width || s.height != height)
        fail_msg("COLUMNS=%s LINES=%s: %ux%u, not %ux%u", columns, lines, s.width, s.height, width,
                 height);
    fclose(end);
    close(master);
    unsetenv("COLUMNS");
    unsetenv("LINES");
}

/* What the person has set counts, then what the terminal says; then what is usual. */
static void a_screen_is_as_large_as_is_said(void **state)
{
    const struct winsize real = {.ws_row = 30, .ws_col = 60}, none = {.ws_row = 0},
                         small = {.ws_row = 2, .ws_col = 3};
    (void)state;
    assert_screen("", "", real, 60, 30);
    assert_screen("70", "40", real, 70, 40);
    assert_screen("7", "4", real, 20, 12);
    assert_screen("700", "400", real, 88, 400);
    assert_screen("wide", "0", real, 60, 30);
    assert_screen("-5", "40x", real, 60, 30);
    assert_screen("", "", small, 20, 12);
    assert_screen("", "", none, 80, 24);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(without_links_a_name_is_taken_by_looking, fresh),
        cmocka_unit_test_setup(a_disk_that_does_not_answer_leaves_what_was_there, fresh),
        cmocka_unit_test_setup(what_is_no_file_is_not_replaced, fresh),
        cmocka_unit_test_setup(folders_are_made_up_to_what_is_in_the_way, fresh),
        cmocka_unit_test_setup(paths_are_short_for_those_at_home, fresh),
        cmocka_unit_test_setup(a_path_is_told_from_the_top, fresh),
        cmocka_unit_test_setup(a_path_in_no_folder_stays_as_it_is, fresh),
        cmocka_unit_test_setup(what_is_too_long_is_not_read, fresh),
        cmocka_unit_test_setup(what_is_in_the_place_decides, fresh),
        cmocka_unit_test_setup(a_disk_is_left_alone, fresh),
        cmocka_unit_test_setup(a_file_is_held_where_it_can_be, fresh),
        cmocka_unit_test_setup(the_next_holds_what_others_see, fresh),
        cmocka_unit_test_setup(each_kind_has_a_name, fresh),
        cmocka_unit_test_setup(a_screen_is_as_large_as_is_said, fresh),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
