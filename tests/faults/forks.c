/* forks.c - faults that need no second start of the command.
 *
 * At each call that may fail the command is forked: in the child the call
 * fails, in the parent it does not, and the parent goes on when the child has
 * ended. So a whole run meets every fault, and none costs more than what comes
 * behind it.
 *
 * A child must end with status 1, with one message and with nothing on stdout;
 * or, where it can do without, with the answer of a run without faults, which
 * stands in POTTLE_FAULT_WHOLE.out, .err and POTTLE_FAULT_STATUS. A search may
 * leave a recipe out when it says so, and an answer a line goes on behind one
 * that has none. Where libxml2 is not given its memory, a
 * file may be called invalid. */
#include <config.h>

#include <dlfcn.h>
#include <errno.h>
#include <execinfo.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include "shim.h"

#define SHOWN __attribute__((visibility("default")))

enum { DESCRIPTORS = 32, TEXT_MOST = 1 << 18, SECONDS = 20 };

static bool busy; /* inside the shim, or in a child */

/* -- What a child prints --------------------------------------------------- */

/* A file in memory that begins with what stands in `fd` so far. */
static int
copy_of(int fd)
{
    char buf[4096];
    off_t at = 0;
    ssize_t n;
    const int copy = memfd_create("shim", MFD_CLOEXEC);
    while (copy >= 0 && (n = pread(fd, buf, sizeof buf, at)) > 0) {
        if (shim_write(copy, buf, (size_t)n) != n)
            _exit(99);
        at += n;
    }
    return copy;
}

static size_t
text_in(int fd, char text[TEXT_MOST])
{
    const ssize_t n = fd < 0 ? -1 : pread(fd, text, TEXT_MOST - 1, 0);
    if (n < 0)
        _exit(99);
    text[n] = '\0';
    return (size_t)n;
}

static bool
is_whole(const char *end, const char *text)
{
    static char whole[TEXT_MOST];
    char path[1024];
    snprintf(path, sizeof path, "%s%s", shim_setting("POTTLE_FAULT_WHOLE"),
             end);
    const int fd = shim_open(path, O_RDONLY | O_CLOEXEC, 0);
    text_in(fd, whole);
    close(fd);
    return strcmp(text, whole) == 0;
}

/* Lines that each begin so; 0 when one does not. */
static int
messages(const char *text, const char *begin)
{
    int n = 0;
    for (const char *line = text; *line != '\0'; n++) {
        const char *end = strchr(line, '\n');
        if (end == NULL || strncmp(line, begin, strlen(begin)) != 0)
            return 0;
        line = end + 1;
    }
    return n;
}

/* What is wrong with how a child ended; NULL when nothing is. */
static const char *
wrong_with(int status, bool harmless, bool may_be_invalid, const char *out,
           const char *err)
{
    const int whole = atoi(shim_setting("POTTLE_FAULT_STATUS"));
    const int code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    if (code == 98 && may_be_invalid)
        return NULL;
    if (code == -1 || code >= 98)
        return "is no end";
    if (code == whole && is_whole(".out", out) && is_whole(".err", err))
        return NULL;
    if (harmless)
        return "the answer is another";
    if (code == 1 && messages(err, "pottle: left out: ") > 0)
        return NULL;
    if (code == 3 && may_be_invalid)
        return messages(err, "pottle: ") > 0 ? NULL : "not a message";
    if (code == 0)
        return "half an answer as if it were whole";
    if (code != 1)
        return "should be 1";
    if (out[0] != '\0' && strncmp(err, "pottle: line ", 13) != 0)
        return "and yet there is an answer";
    return messages(err, "pottle: ") == 1 ? NULL : "not one message";
}

/* -- Forking --------------------------------------------------------------- */

typedef struct fault {
    const char *call;
    long n;
    int error;
    bool harmless;       /* the answer must be the same */
    bool may_be_invalid; /* the file may be called invalid */
} fault;

static void
judge(const fault *f, int status, int out, int err)
{
    static char said[TEXT_MOST], answer[TEXT_MOST];
    char end[40];
    text_in(out, answer);
    text_in(err, said);
    const char *wrong =
        wrong_with(status, f->harmless, f->may_be_invalid, answer, said);
    if (wrong != NULL)
        shim_say("%s %ld, %s: %s: %s; %.200s", f->call, f->n,
                 f->error != 0 ? strerror(f->error) : "less than wanted",
                 shim_end(status, end), wrong, said);
}

/* Where the schema of `check` is used, libxml2 2.9.14 itself crashes without
 * memory. A crash in a call from elsewhere is ours. */
static void
crashed(int signal)
{
    void *frame[8];
    Dl_info info;
    const int n = backtrace(frame, 8);
    for (int i = 1; i < n; i++)
        if (dladdr(frame[i], &info) != 0 && info.dli_fname != NULL &&
            strstr(info.dli_fname, "libxml2") != NULL)
            _exit(98);
    _exit(128 + signal);
}

/* True in a child, which is to meet the fault. Parent and child share the place
 * in every open file, so the parent puts it back. */
static bool
child_meets(const fault *f)
{
    off_t at[DESCRIPTORS];
    int status = 0;
    busy = true;
    const int out = copy_of(1), err = copy_of(2);
    for (int fd = 0; fd < DESCRIPTORS; fd++)
        at[fd] = lseek(fd, 0, SEEK_CUR);
    const pid_t pid = fork();
    if (out < 0 || err < 0 || pid < 0)
        _exit(99);
    if (pid == 0) {
        dup2(out, 1);
        dup2(err, 2);
        shim_in_child = true;
        alarm(SECONDS);
        signal(SIGSEGV, crashed);
        return true;
    }
    while (waitpid(pid, &status, 0) < 0 && errno == EINTR)
        ;
    for (int fd = 0; fd < DESCRIPTORS; fd++)
        if (at[fd] >= 0 && fd != 1 && fd != 2)
            lseek(fd, at[fd], SEEK_SET);
    judge(f, status, out, err);
    close(out);
    close(err);
    shim_tried++;
    busy = false;
    return false;
}

bool
shim_reading(const char *call, int *error, size_t *most)
{
    static const int opening[] = { EACCES, EMFILE, EIO };
    static long n;
    if (shim_mode_now != SHIM_READING || busy)
        return false;
    n++;
    if (strcmp(call, "open") == 0) {
        for (size_t i = 0; i < sizeof opening / sizeof opening[0]; i++) {
            *error = opening[i];
            if (child_meets(&(fault){ .call = call, .n = n, .error = *error }))
                return true;
        }
        *error = 0;
        return false;
    }
    *error = EIO;
    if (child_meets(&(fault){ .call = call, .n = n, .error = EIO }))
        return true;
    *error = EINTR;
    if (child_meets(
            &(fault){ .call = call, .n = n, .error = EINTR, .harmless = true }))
        return true;
    *error = 0;
    if (*most < 2)
        return false;
    const size_t wanted = *most;
    *most = 1; /* the rest comes with the next call */
    if (child_meets(&(fault){ .call = call, .n = n, .harmless = true }))
        return true;
    *most = 0; /* the file ends, as one that was cut meanwhile; standard input
                  may end anywhere, and no one can tell */
    if (strcmp(call, "read stdin") != 0 &&
        child_meets(&(fault){ .call = call, .n = n }))
        return true;
    *most = wanted;
    return false;
}

/* -- Allocations ----------------------------------------------------------- */

/* All the first and all the last, where an answer is put together; between them
 * ever fewer. How many there are is known from a run that counted them. */
static bool
is_tried(long n)
{
    enum { FIRST = 120, LAST = 330, SHARE = 50 };
    static long all = -1;
    if (all < 0)
        all = atol(shim_setting("POTTLE_FAULT_ALL"));
    return n <= FIRST || n > all - LAST || n % (n / SHARE + 1) == 0;
}

static bool
from_libxml2(const void *caller)
{
    Dl_info info;
    return dladdr(caller, &info) != 0 && info.dli_fname != NULL &&
           strstr(info.dli_fname, "libxml2") != NULL;
}

/* libxml2 2.9.14 does not always say that it had no memory, and then takes the
 * text for one that is not well-formed. */
static bool
refused(const void *caller)
{
    static long n;
    shim_tried += shim_mode_now == SHIM_COUNT;
    if (shim_mode_now != SHIM_ALLOCATIONS || busy)
        return false;
    n++;
    return is_tried(n) &&
           child_meets(&(fault){ .call = "allocation",
                                 .n = n,
                                 .error = ENOMEM,
                                 .may_be_invalid = from_libxml2(caller) });
}

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t n, size_t size);
void *__libc_realloc(void *p, size_t size);

SHOWN void *
malloc(size_t size)
{
    if (!refused(__builtin_return_address(0)))
        return __libc_malloc(size);
    errno = ENOMEM;
    return NULL;
}

SHOWN void *
calloc(size_t n, size_t size)
{
    if (!refused(__builtin_return_address(0)))
        return __libc_calloc(n, size);
    errno = ENOMEM;
    return NULL;
}

SHOWN void *
realloc(void *p, size_t size)
{
    if (!refused(__builtin_return_address(0)))
        return __libc_realloc(p, size);
    errno = ENOMEM;
    return NULL;
}
