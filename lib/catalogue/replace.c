/* replace.c - a file put in the place of another, whole or not at all.
 *
 * The text goes into a new file beside the old one, is brought to the disk, and
 * takes the old one's name in one step. At any moment, whatever kills the
 * program, the name leads to the whole old file or to the whole new one. The
 * version before is copied to the same name with a ~ in the same way first, so
 * that a bad edit can be undone. */
#include <config.h>

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "kitchen_file.h"

enum { PATH_ROOM = 4096, OLD_MAX = 1 << 20, TRIES = 100 };

const pottlei_disk pottlei_disk_real = { write, fsync, rename };

static pottle_status
fail(pottle_error *error, const char *path, const char *code, const char *what,
     int number)
{
    pottlei_fail(error, POTTLE_EIO, code, "%s%s%s", what,
                 number != 0 ? ": " : "", number != 0 ? strerror(number) : "");
    if (error != NULL)
        POTTLEI_SET(error->where, path);
    return POTTLE_EIO;
}

/* What was there before. */
typedef struct old {
    bool there;
    mode_t mode;
    char *text;
    size_t n;
} old;

static pottle_status
read_all(int fd, old *out, size_t size, const char *path, pottle_error *error)
{
    out->text = malloc(size + 1);
    if (out->text == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory",
                            "no memory to keep the old version");
    while (out->n <= size) {
        const ssize_t k = read(fd, out->text + out->n, size + 1 - out->n);
        if (k < 0 && errno == EINTR)
            continue;
        if (k < 0)
            return fail(error, path, "file", "cannot read the old version",
                        errno);
        if (k == 0 && out->n == size)
            return POTTLE_OK;
        if (k == 0)
            break;
        out->n += (size_t)k;
    }
    return fail(error, path, "file", "the file changes while it is read", 0);
}

/* Reads the file that is there; none is fine. */
static pottle_status
read_old(const char *path, old *out, pottle_error *error)
{
    struct stat info;
    if (lstat(path, &info) != 0)
        return errno == ENOENT
                 ? POTTLE_OK
                 : fail(error, path, "file", "cannot look at the file", errno);
    if (S_ISLNK(info.st_mode))
        return fail(error, path, "symlink",
                    "it is a symbolic link, and what it points to is not "
                    "replaced: name the file itself",
                    0);
    if (!S_ISREG(info.st_mode))
        return fail(error, path, "file", "not a plain file", 0);
    if ((info.st_mode & (S_IWUSR | S_IWGRP | S_IWOTH)) == 0)
        return fail(error, path, "write-protected",
                    "the file is write-protected", 0);
    if (info.st_size > OLD_MAX)
        return fail(error, path, "file-size",
                    "the file that is there is too large to be a kitchen file",
                    0);
    /* it may have become something else since, so the descriptor is asked again
     */
    const int fd =
        open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK | O_NOFOLLOW);
    if (fd < 0)
        return fail(error, path, "file", "cannot open the file", errno);
    pottle_status status = POTTLE_OK;
    if (fstat(fd, &info) != 0 || !S_ISREG(info.st_mode) || info.st_size < 0 ||
        info.st_size > OLD_MAX)
        status = fail(error, path, "file", "not a plain file", 0);
    if (status == POTTLE_OK) {
        out->there = true;
        out->mode = info.st_mode & 0777;
        status = read_all(fd, out, (size_t)info.st_size, path, error);
    }
    close(fd);
    return status;
}

/* A new file beside `path`; its name is written to temporary. */
static int
open_beside(const char *path, char temporary[PATH_ROOM])
{
    int fd = -1;
    for (int i = 0; fd < 0 && i < TRIES; i++) {
        const int n = snprintf(temporary, PATH_ROOM, "%s.%ld-%d.new", path,
                               (long)getpid(), i);
        if (n < 0 || n >= PATH_ROOM) {
            errno = ENAMETOOLONG;
            return -1;
        }
        fd = open(temporary,
                  O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666);
        if (fd < 0 && errno != EEXIST)
            return -1;
    }
    return fd;
}

static int
write_all(const pottlei_disk *disk, int fd, const char *text, size_t n)
{
    while (n > 0) {
        const ssize_t k = disk->write(fd, text, n);
        if (k < 0 && errno == EINTR)
            continue;
        if (k < 0)
            return errno;
        if (k == 0)
            return ENOSPC;
        text += k;
        n -= (size_t)k;
    }
    return disk->sync(fd) == 0 ? 0 : errno;
}

/* A name is on the disk when its folder is. Not every file system can do that,
 * so what it answers is not asked. */
static void
sync_folder(const pottlei_disk *disk, const char *path)
{
    char folder[PATH_ROOM];
    const char *slash = strrchr(path, '/');
    const size_t n = slash == NULL ? 0
                   : slash == path ? 1
                                   : (size_t)(slash - path);
    memcpy(folder, n == 0 ? "." : path, n == 0 ? 1 : n);
    folder[n == 0 ? 1 : n] = '\0';
    const int fd = open(folder, O_RDONLY | O_CLOEXEC | O_DIRECTORY);
    if (fd >= 0) {
        (void)disk->sync(fd);
        close(fd);
    }
}

static pottle_status
put(const pottlei_disk *disk, const char *path, const char *text, size_t n,
    const old *before, pottle_error *error)
{
    char temporary[PATH_ROOM];
    const int fd = open_beside(path, temporary);
    if (fd < 0)
        return fail(error, path, "file", "cannot write a file beside it",
                    errno);
    int wrong = before->there && fchmod(fd, before->mode) != 0 ? errno : 0;
    if (wrong == 0)
        wrong = write_all(disk, fd, text, n);
    if (close(fd) != 0 && wrong == 0)
        wrong = errno;
    if (wrong == 0 && disk->rename(temporary, path) != 0)
        wrong = errno;
    if (wrong != 0) {
        unlink(temporary);
        return fail(error, path, "file", "cannot write the file", wrong);
    }
    sync_folder(disk, path);
    return POTTLE_OK;
}

pottle_status
pottlei_file_replace(const pottlei_disk *disk, const char *path,
                     const char *text, size_t n, pottle_error *error)
{
    char kept[PATH_ROOM];
    old before = { .there = false };
    if (path[0] == '\0' || strlen(path) + 2 > sizeof kept)
        return fail(error, path, "file", "not a path of a file", 0);
    pottle_status status = read_old(path, &before, error);
    if (status == POTTLE_OK && before.there) {
        snprintf(kept, sizeof kept, "%s~", path);
        status = put(disk, kept, before.text, before.n, &before, error);
    }
    if (status == POTTLE_OK)
        status = put(disk, path, text, n, &before, error);
    free(before.text);
    return status;
}
