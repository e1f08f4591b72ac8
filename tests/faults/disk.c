/* disk.c - faults while a file is written.
 *
 * Before the command begins it is forked again and again, each time with the
 * file as it was: its name in POTTLE_FAULT_FILE, its text that of the file
 * POTTLE_FAULT_OLD, and beside it, with a ~, that of POTTLE_FAULT_OLDER. Each
 * child meets another fault in the calls that change the disk.
 *
 * After a fault that is told the old file is whole, and nothing lies about.
 * After a death the old or the new file is whole (POTTLE_FAULT_NEW); the one
 * with the ~ is whole too, and is the old one where the new one is in place;
 * and the next run succeeds. */
#include <config.h>

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "shim.h"

enum { TEXT_MOST = 1 << 16, SECONDS = 20, EVERY = 50 };

typedef struct text {
    size_t n;
    char bytes[TEXT_MOST];
} text;
static text older, old, new;

/* How a call fails; the last two only slow a write down. */
static const int errors[] = { ENOSPC, EIO, EINTR, 0 };
enum { KINDS = sizeof errors / sizeof errors[0], KINDS_OF_FAILURE = 2 };

/* What a child and its parent both see. */
static struct shared {
    bool met, harmless, unsafe;
    char call[20];
} * seen;

static long point;  /* that have been passed in this child */
static long target; /* the one where the fault is */
static int kind;    /* of errors[] */

/* -- In a child ------------------------------------------------------------ */

static bool
is_folder(int fd)
{
    struct stat info;
    return fd >= 0 && fstat(fd, &info) == 0 && S_ISDIR(info.st_mode);
}

static void
die(const char *call)
{
    snprintf(seen->call, sizeof seen->call, "%s", call);
    kill(getpid(), SIGKILL);
}

/* In front of each call, and behind each byte of a write. */
static void
maybe_die(const char *call, int fd, const char *bytes, size_t n)
{
    if (++point == target)
        die(call);
    for (size_t i = 1; i < n; i++) {
        if (++point == target) {
            if (shim_write(fd, bytes, i) != (ssize_t)i)
                _exit(99);
            die(call);
        }
    }
}

int
shim_changing(const char *call, int fd, const void *bytes, size_t *n)
{
    static bool dirty;
    if (shim_mode_now != SHIM_DISK && shim_mode_now != SHIM_KILL)
        return 0;
    if (strcmp(call, "write") == 0)
        dirty = true;
    else if (strcmp(call, "fsync") == 0)
        dirty = false;
    else if (strcmp(call, "rename") == 0 && dirty)
        seen->unsafe = true;
    if (shim_mode_now == SHIM_KILL) {
        maybe_die(call, fd, bytes, n != NULL ? *n : 0);
        return 0;
    }
    if (++point != target || (kind >= KINDS_OF_FAILURE && n == NULL))
        return 0;
    seen->met = true;
    /* a folder that cannot be synced is no failure */
    seen->harmless = kind >= KINDS_OF_FAILURE || is_folder(fd);
    snprintf(seen->call, sizeof seen->call, "%s", call);
    if (errors[kind] == 0)
        *n = 1;
    return errors[kind];
}

/* -- The files ------------------------------------------------------------- */

static void
must(bool done, const char *what)
{
    if (done)
        return;
    shim_say("shim: %s: %s", what, strerror(errno));
    _exit(99);
}

/* Empty when there is none. */
static void
get(const char *path, text *out)
{
    const int fd = shim_open(path, O_RDONLY | O_CLOEXEC, 0);
    const ssize_t n = fd < 0 ? 0 : shim_read(fd, out->bytes, TEXT_MOST);
    must(n >= 0 && n < TEXT_MOST, path);
    out->n = (size_t)n;
    if (fd >= 0)
        close(fd);
}

static void
put(const char *path, const text *t)
{
    const int fd =
        shim_open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    must(fd >= 0 && shim_write(fd, t->bytes, t->n) == (ssize_t)t->n, path);
    close(fd);
}

static bool
same(const text *a, const text *b)
{
    return a->n == b->n && memcmp(a->bytes, b->bytes, a->n) == 0;
}

/* Counts the names in the folder, and takes them out where that is wanted. */
static int
names(bool take_out)
{
    int n = 0;
    DIR *dir = opendir(".");
    must(dir != NULL, "the folder");
    for (const struct dirent *e; (e = readdir(dir)) != NULL;) {
        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0)
            continue;
        n++;
        if (take_out)
            must(unlink(e->d_name) == 0, e->d_name);
    }
    closedir(dir);
    return n;
}

/* -- In the parent --------------------------------------------------------- */

static struct {
    shim_main *run;
    int argc;
    char **argv, **env;
} command;

/* Runs the command in a child and waits; what it says on stderr goes into
 * `said`. */
static int
run(shim_mode mode, char said[TEXT_MOST])
{
    int status = 0;
    const int err = memfd_create("shim", MFD_CLOEXEC);
    *seen = (struct shared){ .met = false };
    const pid_t pid = fork();
    must(err >= 0 && pid >= 0, "fork");
    if (pid == 0) {
        dup2(shim_open("/dev/null", O_WRONLY, 0), 1);
        dup2(err, 2);
        alarm(SECONDS);
        shim_mode_now = mode;
        exit(command.run(command.argc, command.argv, command.env));
    }
    must(waitpid(pid, &status, 0) == pid, "waitpid");
    const ssize_t n = pread(err, said, TEXT_MOST - 1, 0);
    must(n >= 0, "stderr");
    said[n] = '\0';
    close(err);
    return status;
}

/* What is wrong with the files; NULL when nothing is. */
static const char *
wrong_files(const char *path, bool told, bool done)
{
    static text now, kept;
    char beside[300];
    snprintf(beside, sizeof beside, "%s~", path);
    get(path, &now);
    get(beside, &kept);
    const bool is_new = same(&now, &new);
    if (!is_new && !same(&now, &old))
        return "the file is neither the old nor the new one";
    if (told && is_new)
        return "the new file is there, and yet it failed";
    if (done && !is_new)
        return "the new file is not there";
    if (!same(&kept, &old) && (is_new || !same(&kept, &older)))
        return "the version before is lost";
    if (names(false) > (told || done ? 2 : 3))
        return "files are left about";
    return NULL;
}

static const char *
wrong_end(int status, const char *said)
{
    const char *line = strchr(said, '\n');
    const bool good = WIFEXITED(status) && WEXITSTATUS(status) == 0;
    if (seen->unsafe)
        return "a name was given before the text was on the disk";
    if (seen->harmless || !seen->met)
        return good ? NULL : "it should get along";
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 1)
        return "it should be 1";
    if (strncmp(said, "pottle: ", 8) != 0 || line == NULL || line[1] != '\0')
        return "not one message";
    return NULL;
}

static void
start_anew(const char *path)
{
    char beside[300];
    snprintf(beside, sizeof beside, "%s~", path);
    names(true);
    put(path, &old);
    put(beside, &older);
}

static void
disk_faults(const char *path, char said[TEXT_MOST])
{
    for (bool met = true; met;) {
        met = false;
        target++;
        for (kind = 0; kind < KINDS; kind++) {
            char end[40];
            start_anew(path);
            const int status = run(SHIM_DISK, said);
            const char *wrong = wrong_end(status, said);
            if (wrong == NULL)
                wrong = wrong_files(path, seen->met && !seen->harmless,
                                    seen->harmless || !seen->met);
            if (wrong != NULL)
                shim_say("%s, call %ld, %s: %s: %s; %.200s", seen->call, target,
                         errors[kind] != 0 ? strerror(errors[kind]) : "short",
                         shim_end(status, end), wrong, said);
            met = met || seen->met;
            shim_tried += seen->met;
        }
    }
}

/* As after a death, in the folder as it is. */
static const char *
wrong_next(char said[TEXT_MOST])
{
    static text before, kept;
    char beside[300];
    const char *path = shim_setting("POTTLE_FAULT_FILE");
    snprintf(beside, sizeof beside, "%s~", path);
    get(path, &before);
    const int status = run(SHIM_OFF, said);
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
        return "the next run fails";
    get(beside, &kept);
    if (!same(&kept, &before))
        return "the next run loses the version before";
    get(path, &kept);
    return same(&kept, &new) ? NULL : "the next run writes something else";
}

static void
kills(const char *path, char said[TEXT_MOST])
{
    for (bool killed = true; killed;) {
        char end[40];
        target++;
        start_anew(path);
        const int status = run(SHIM_KILL, said);
        killed = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
        char call[sizeof seen->call];
        memcpy(call, seen->call, sizeof call);
        const char *wrong = killed ? NULL : wrong_end(status, said);
        if (wrong == NULL)
            wrong = wrong_files(path, false, !killed);
        if (wrong == NULL && killed && target % EVERY == 0)
            wrong = wrong_next(said);
        if (wrong != NULL)
            shim_say("killed in %s, point %ld: %s: %s; %.200s", call, target,
                     shim_end(status, end), wrong, said);
        shim_tried += killed;
    }
}

int
shim_disk_run(shim_main *main, bool killing, int argc, char **argv, char **env)
{
    static char said[TEXT_MOST];
    const char *path = shim_setting("POTTLE_FAULT_FILE");
    get(shim_setting("POTTLE_FAULT_OLDER"), &older);
    get(shim_setting("POTTLE_FAULT_OLD"), &old);
    get(shim_setting("POTTLE_FAULT_NEW"), &new);
    must(older.n > 0 && old.n > 0 && new.n > 0 && !same(&old, &new) &&
             !same(&older, &old),
         "the texts");
    seen = mmap(NULL, sizeof *seen, PROT_READ | PROT_WRITE,
                MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    must(seen != MAP_FAILED, "mmap");
    command.run = main;
    command.argc = argc;
    command.argv = argv;
    command.env = env;
    (killing ? kills : disk_faults)(path, said);
    shim_say("tried %ld", shim_tried);
    return 0;
}
