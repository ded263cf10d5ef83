#define _GNU_SOURCE /* pipe2 */
#include "database_kit.h"

#include <errno.h>
#include <fcntl.h>
#include <glob.h>
#include <pwd.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "testing.h"

static struct {
    char folder[64], bin[512], user[64], address[256];
    const char *ip; /* it is called over TCP; else "" */
    int guard;      /* a pipe: while it is open, the server lives */
    pid_t cleaner;
} server = {.ip = "", .guard = -1};

/* ---- what there is ---- */

static bool find_programs(void)
{
    glob_t found;
    if (glob("/usr/lib/postgresql/*/bin/initdb", 0, NULL, &found) != 0) return false;
    const char *last = found.gl_pathv[found.gl_pathc - 1];
    snprintf(server.bin, sizeof server.bin, "%.*s", (int)(strrchr(last, '/') - last), last);
    globfree(&found);
    return true;
}

/* initdb refuses root: so a user without any rights is taken then. */
static bool find_user(void)
{
    if (getuid() != 0) return true;
    static const char *const users[] = {"postgres", "nobody"};
    for (size_t i = 0; i < sizeof users / sizeof users[0] && server.user[0] == 0; i++)
        if (getpwnam(users[i]) != NULL) snprintf(server.user, sizeof server.user, "%s", users[i]);
    return server.user[0] != 0;
}

/* As the server's user. */
__attribute__((format(printf, 1, 2))) static int as_server(const char *format, ...)
{
    char command[3072], whole[4096];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(command, sizeof command, format, arguments);
    va_end(arguments);
    if (server.user[0] != 0)
        snprintf(whole, sizeof whole,
                 "cd / && setpriv --reuid=%s --regid=$(id -g %s) --clear-groups %s/%s", server.user,
                 server.user, server.bin, command);
    else
        snprintf(whole, sizeof whole, "cd / && %s/%s", server.bin, command);
    const int status = system(whole);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/* What the system was given outlives a server that is killed: so nothing here waits for the disk.
 */
static int start(void)
{
    return as_server(
        "pg_ctl -D %s/data -w -t 600 -s -l %s/log -o \"-c listen_addresses='%s' -c "
        "unix_socket_directories=%s"
        " -c max_connections=120 -c fsync=off -c shared_buffers=16MB\" start >/dev/null 2>&1",
        server.folder, server.folder, server.ip, server.folder);
}

static void stop_and_remove(void)
{
    char command[256];
    as_server("pg_ctl -D %s/data -s -m immediate stop >/dev/null 2>&1", server.folder);
    snprintf(command, sizeof command, "rm -rf %s", server.folder);
    if (system(command) != 0) fprintf(stderr, "%s could not be removed\n", server.folder);
}

/* A child that outlives the test only to clean up after it. */
static bool set_guard(void)
{
    int ends[2];
    char byte;
    if (pipe2(ends, O_CLOEXEC) != 0) return false;
    fflush(NULL);
    const pid_t pid = fork();
    if (pid == 0) {
        setsid();
        close(ends[1]);
        while (read(ends[0], &byte, 1) < 0 && errno == EINTR) continue;
        stop_and_remove();
        _exit(0);
    }
    close(ends[0]);
    server.guard = ends[1];
    server.cleaner = pid;
    return pid > 0;
}

static bool make_folder(void)
{
    snprintf(server.folder, sizeof server.folder, "/tmp/telltale-database-XXXXXX");
    if (mkdtemp(server.folder) == NULL) return false;
    const struct passwd *user = server.user[0] != 0 ? getpwnam(server.user) : NULL;
    return user == NULL || (chown(server.folder, user->pw_uid, user->pw_gid) == 0 &&
                            chmod(server.folder, 0755) == 0);
}

char *database_sql(const char *sql)
{
    char command[8192], *out = calloc(1, 1 << 16);
    assert_non_null(out);
    assert_true(
        snprintf(command, sizeof command,
                 "%s/psql -h %s -U owner -d postgres -qAtX -v ON_ERROR_STOP=1 <<'EOF'\n%s\nEOF\n",
                 server.bin, server.folder, sql) < (int)sizeof command);
    FILE *psql = popen(command, "r");
    assert_non_null(psql);
    const size_t got = fread(out, 1, (1 << 16) - 1, psql);
    out[got > 0 && out[got - 1] == '\n' ? got - 1 : got] = 0;
    if (pclose(psql) != 0) fail_msg("psql failed at %s", sql);
    return out;
}

bool database_start(void)
{
    if (!find_programs() || !find_user() || !make_folder()) return false;
    if (as_server("initdb -D %s/data -A trust -U owner -E UTF8 --locale=C.UTF-8 --no-sync "
                  ">/dev/null 2>&1",
                  server.folder) != 0)
        return false;
    if (!set_guard() || start() != 0) return false;
    free(database_sql("\\i " TT_SOURCE_DIR "/docs/cases.sql"));
    free(database_sql("CREATE ROLE writer LOGIN IN ROLE telltale_writer; CREATE ROLE reader LOGIN "
                      "IN ROLE telltale_reader;"
                      " CREATE ROLE stranger LOGIN;"));
    return true;
}

bool database_start_at(const char *ip)
{
    server.ip = ip;
    return database_start();
}

void database_end(void)
{
    int status;
    if (server.guard < 0) return;
    close(server.guard);
    server.guard = -1;
    waitpid(server.cleaner, &status, 0);
}

const char *database_address(const char *role)
{
    if (server.ip[0] != 0)
        snprintf(server.address, sizeof server.address, "postgresql://%s@%s/postgres", role,
                 server.ip);
    else
        snprintf(server.address, sizeof server.address, "postgresql://%s@/postgres?host=%s", role,
                 server.folder);
    return server.address;
}

const char *no_address(void)
{
    return "postgresql://writer@/postgres?host=/tmp/telltale-no-server";
}

/* Those who serve a session notice the end of the server when they come to it, and answer until
 * then. */
static void kill_sessions(char *pids)
{
    for (char *at = pids, *end; *at != 0; at = *end == '\n' ? end + 1 : end) {
        const long pid = strtol(at, &end, 10);
        assert_true(end > at && pid > 1);
        assert_true(kill((pid_t)pid, SIGKILL) == 0 || errno == ESRCH);
    }
}

void database_kill(void)
{
    char path[128];
    long pid = 0;
    char *sessions = database_sql("SELECT pid FROM pg_stat_activity WHERE backend_type = 'client "
                                  "backend' AND pid <> pg_backend_pid()");
    snprintf(path, sizeof path, "%s/data/postmaster.pid", server.folder);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    assert_int_equal(fscanf(file, "%ld", &pid), 1);
    fclose(file);
    assert_int_equal(kill((pid_t)pid, SIGKILL), 0);
    kill_sessions(sessions);
    free(sessions);
}

/* What is left of the old server has to notice first that it is alone: until then a new one won't
 * begin. */
void database_again(void)
{
    unsigned tries = 0;
    while (start() != 0)
        if (++tries > 1000) fail_msg("the server does not come back: see %s/log", server.folder);
}
