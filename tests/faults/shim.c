/* shim.c - the calls that the shim stands before, and the start of the command.
 */
#include <config.h>

#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include "shim.h"

#define SHOWN __attribute__((visibility("default")))

shim_mode shim_mode_now = SHIM_OFF;
long shim_tried;
bool shim_in_child;

/* -- What both parts use --------------------------------------------------- */

const char *
shim_setting(const char *name)
{
    const char *value = getenv(name);
    if (value == NULL) {
        dprintf(2, "shim: %s is not set\n", name);
        _exit(99);
    }
    return value;
}

void
shim_say(const char *format, ...)
{
    char line[600];
    va_list list;
    va_start(list, format);
    vsnprintf(line, sizeof line - 1, format, list);
    va_end(list);
    for (char *c = line; *c != '\0'; c++)
        if ((unsigned char)*c < ' ' || (unsigned char)*c > '~')
            *c = '|'; /* a line is a line */
    strcat(line, "\n");
    const int fd = shim_open(shim_setting("POTTLE_FAULT_LOG"),
                             O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0666);
    if (fd < 0 || shim_write(fd, line, strlen(line)) < 0)
        _exit(99);
    syscall(SYS_close, fd);
}

const char *
shim_end(int status, char text[40])
{
    if (WIFSIGNALED(status))
        snprintf(text, 40, "signal %d", WTERMSIG(status));
    else
        snprintf(text, 40, "exit status %d", WEXITSTATUS(status));
    return text;
}

int
shim_open(const char *path, int flags, mode_t mode)
{
    return (int)syscall(SYS_openat, AT_FDCWD, path, flags, mode);
}

ssize_t
shim_read(int fd, void *buf, size_t n)
{
    return syscall(SYS_read, fd, buf, n);
}

ssize_t
shim_write(int fd, const void *buf, size_t n)
{
    return syscall(SYS_write, fd, buf, n);
}

/* -- Reading and writing --------------------------------------------------- */

SHOWN int
open(const char *path, int flags, ...)
{
    mode_t mode = 0;
    int error = 0;
    size_t most = 0;
    if ((flags & O_CREAT) != 0) {
        va_list list;
        va_start(list, flags);
        mode = va_arg(list, mode_t);
        va_end(list);
    }
    if ((flags & O_ACCMODE) != O_RDONLY)
        error = shim_changing("open", -1, NULL, NULL);
    else
        (void)shim_reading("open", &error, &most);
    if (error == 0)
        return shim_open(path, flags, mode);
    errno = error;
    return -1;
}

SHOWN ssize_t
read(int fd, void *buf, size_t n)
{
    int error = 0;
    size_t most = n;
    if (shim_reading(fd == STDIN_FILENO ? "read stdin" : "read", &error,
                     &most)) {
        errno = error;
        return error != 0 ? -1 : most == 0 ? 0 : shim_read(fd, buf, most);
    }
    return shim_read(fd, buf, n);
}

SHOWN ssize_t
write(int fd, const void *buf, size_t n)
{
    const int error = shim_changing("write", fd, buf, &n);
    if (error == 0)
        return shim_write(fd, buf, n);
    errno = error;
    return -1;
}

/* A process that dies takes nothing from the disk, so what takes long is left
 * out. */
SHOWN int
fsync(int fd)
{
    const int error = shim_changing("fsync", fd, NULL, NULL);
    if (error == 0)
        return 0;
    errno = error;
    return -1;
}

SHOWN int
fchmod(int fd, mode_t mode)
{
    const int error = shim_changing("fchmod", fd, NULL, NULL);
    if (error == 0)
        return (int)syscall(SYS_fchmod, fd, mode);
    errno = error;
    return -1;
}

SHOWN int
rename(const char *from, const char *to)
{
    const int error = shim_changing("rename", -1, NULL, NULL);
    if (error == 0)
        return (int)syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0);
    errno = error;
    return -1;
}

/* A descriptor is closed even where closing it fails. */
SHOWN int
close(int fd)
{
    const int access = fcntl(fd, F_GETFL) & O_ACCMODE;
    const int error =
        access == O_RDONLY ? 0 : shim_changing("close", fd, NULL, NULL);
    const int result = (int)syscall(SYS_close, fd);
    if (error == 0)
        return result;
    errno = error;
    return -1;
}

/* -- The start ------------------------------------------------------------- */

static shim_main *command;

static int
begin(int argc, char **argv, char **env)
{
    static const struct {
        const char *name;
        shim_mode mode;
    } modes[] = { { "count", SHIM_COUNT },
                  { "allocations", SHIM_ALLOCATIONS },
                  { "reading", SHIM_READING },
                  { "disk", SHIM_DISK },
                  { "kill", SHIM_KILL } };
    const char *name = shim_setting("POTTLE_FAULT");
    shim_mode mode = SHIM_OFF;
    for (size_t i = 0; i < sizeof modes / sizeof modes[0]; i++)
        if (strcmp(name, modes[i].name) == 0)
            mode = modes[i].mode;
    if (mode == SHIM_OFF)
        _exit(99);
    if (mode == SHIM_DISK || mode == SHIM_KILL)
        return shim_disk_run(command, mode == SHIM_KILL, argc, argv, env);
    shim_mode_now = mode;
    const int status = command(argc, argv, env);
    shim_mode_now = SHIM_OFF;
    if (!shim_in_child)
        shim_say("tried %ld", shim_tried);
    return status;
}

/* The C library's own start of a program, with our main. */
typedef int start_function(shim_main *main, int argc, char **argv,
                           void (*init)(void), void (*fini)(void),
                           void (*rtld_fini)(void), void *stack_end);
SHOWN start_function __libc_start_main;

int
__libc_start_main(shim_main *main, int argc, char **argv, void (*init)(void),
                  void (*fini)(void), void (*rtld_fini)(void), void *stack_end)
{
    start_function *real = NULL;
    void *symbol = dlsym(RTLD_NEXT, "__libc_start_main");
    if (symbol == NULL)
        _exit(99);
    memcpy(&real, &symbol, sizeof real);
    command = main;
    return real(begin, argc, argv, init, fini, rtld_fini, stack_end);
}
