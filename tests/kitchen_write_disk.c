/* kitchen_write_disk.c - test_kitchen_write: a disk that is full, fails, or
 * dies at any byte. */
#include <config.h>

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "kitchen_write_cases.h"

/* Bytes that may still be written; then the disk is full, or the program dies.
 */
static long bytes_left;
static int syncs_left, renames_left;
static bool die;

static void
fail_or_die(int number)
{
    if (die)
        raise(SIGKILL);
    errno = number;
}

static ssize_t
frail_write(int fd, const void *text, size_t n)
{
    if (bytes_left <= 0) {
        fail_or_die(ENOSPC);
        return -1;
    }
    /* a byte at a time, with a signal now and then */
    if (bytes_left % 7 == 3) {
        bytes_left--;
        errno = EINTR;
        return -1;
    }
    bytes_left--;
    return write(fd, text, n > 0 ? 1 : 0);
}

static int
frail_sync(int fd)
{
    if (syncs_left-- <= 0) {
        fail_or_die(EIO);
        return -1;
    }
    return fsync(fd);
}

static int
frail_rename(const char *from, const char *to)
{
    if (renames_left-- <= 0) {
        fail_or_die(EIO);
        return -1;
    }
    return rename(from, to);
}

static const pottlei_disk frail = { frail_write, frail_sync, frail_rename };

const char old_text[] =
    "<kitchen><altitude value=\"100\" unit=\"m\"/></kitchen>\n";

/* Old or new, and nothing else; so is the kept one, if it is there. */
static void
is_whole(const char *what, long at, bool may_be_new)
{
    const char *text = text_of(HERE, 0);
    const bool old = strcmp(text, old_text) == 0,
               fresh = strcmp(text, small_text) == 0;
    ck_assert_msg(
        old || (fresh && may_be_new),
        "%s at %ld: the file is neither the old nor the new one: %.60s", what,
        at, text);
    if (is_there(HERE "~"))
        ck_assert_str_eq(text_of(HERE "~", 0), old_text);
    if (fresh)
        ck_assert_msg(is_there(HERE "~"), "%s at %ld: the old version is lost",
                      what, at);
}

void
reset(void)
{
    clear_work();
    write_text(HERE, old_text, strlen(old_text));
    bytes_left = 1000000;
    syncs_left = renames_left = 1000;
    die = false;
}

START_TEST(full_disk_at_every_byte)
{
    const pottle_kitchen k = small_kitchen();
    long at = 0;
    for (;; at++) {
        reset();
        bytes_left = at;
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottlei_kitchen_write(&frail, &k, HERE, &error);
        is_whole("full", at, status == POTTLE_OK);
        ck_assert_msg(names_in_work() <= 2,
                      "full at %ld: a file was left behind", at);
        if (status == POTTLE_OK)
            break;
        ck_assert_int_eq(status, POTTLE_EIO);
        ck_assert_msg(strstr(error.what, strerror(ENOSPC)) != NULL, "%s",
                      error.what);
    }
    /* both texts, a byte a write */
    ck_assert_msg(at > (long)(strlen(old_text) + strlen(small_text)),
                  "only %ld writes were seen", at);
    ck_assert_str_eq(text_of(HERE, 0), small_text);
}
END_TEST

/* Runs a write in a child that dies in the middle of it. True: it died. */
static bool
dies(const pottle_kitchen *k)
{
    die = true;
    const pid_t child = fork();
    ck_assert_int_ge(child, 0);
    if (child == 0) {
        const pottle_status status =
            pottlei_kitchen_write(&frail, k, HERE, NULL);
        _exit(status == POTTLE_OK ? 0 : 1);
    }
    int status = 0;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    if (WIFSIGNALED(status))
        return true;
    ck_assert_msg(WIFEXITED(status) && WEXITSTATUS(status) == 0,
                  "the child failed");
    return false;
}

START_TEST(killed_at_every_byte)
{
    const pottle_kitchen k = small_kitchen();
    long at = 0;
    for (;; at++) {
        reset();
        bytes_left = at;
        const bool died = dies(&k);
        is_whole("killed", at, !died);
        if (!died)
            break;
        /* what was left behind is not in the way of the next one */
        bytes_left = 1000000;
        die = false;
        if (at % 16 == 0) {
            write_kitchen(&k, HERE);
            ck_assert_str_eq(text_of(HERE, 0), small_text);
            ck_assert_str_eq(text_of(HERE "~", 0), old_text);
        }
    }
    ck_assert_int_gt(at, (int)(strlen(old_text) + strlen(small_text)));
}
END_TEST

/* Between the writes: each fsync and each rename is the last thing that
 * happens. */
START_TEST(killed_at_every_step)
{
    const pottle_kitchen k = small_kitchen();
    int syncs = 0, renames = 0;
    for (;; syncs++) {
        reset();
        syncs_left = syncs;
        const bool died = dies(&k);
        is_whole("fsync", syncs, true);
        if (!died)
            break;
    }
    ck_assert_int_eq(syncs, 4); /* two files, and their folder after each */
    for (;; renames++) {
        reset();
        renames_left = renames;
        const bool died = dies(&k);
        is_whole("rename", renames, !died);
        if (!died)
            break;
    }
    ck_assert_int_eq(renames, 2);
}
END_TEST

START_TEST(steps_that_fail)
{
    const pottle_kitchen k = small_kitchen();
    for (int i = 0; i < 2; i++) {
        pottle_error error = { .status = POTTLE_OK };
        reset();
        renames_left = i;
        ck_assert_int_eq(pottlei_kitchen_write(&frail, &k, HERE, &error),
                         POTTLE_EIO);
        ck_assert_str_eq(error.code, "file");
        is_whole("rename", i, false);
        ck_assert_int_le(names_in_work(), 2);
        /* the first and the third are those of the files; a folder that cannot
         * be synced is no failure */
        reset();
        syncs_left = 2 * i;
        ck_assert_int_eq(pottlei_kitchen_write(&frail, &k, HERE, NULL),
                         POTTLE_EIO);
        is_whole("fsync", i, false);
        ck_assert_int_le(names_in_work(), 2);
    }
    reset();
    syncs_left = 3;
    ck_assert_int_eq(pottlei_kitchen_write(&frail, &k, HERE, NULL), POTTLE_OK);
    ck_assert_str_eq(text_of(HERE, 0), small_text);
}
END_TEST

/* A name that a dead program left behind is passed by. */
START_TEST(left_over_names_are_passed_by)
{
    const pottle_kitchen k = small_kitchen();
    char name[100];
    for (int i = 0; i < 100; i++) {
        snprintf(name, sizeof name, "%s.%ld-%d.new", HERE, (long)getpid(), i);
        if (i < 99)
            write_text(name, "left", 4);
    }
    write_kitchen(&k, HERE);
    ck_assert_str_eq(text_of(HERE, 0), small_text);
    write_text(name, "left", 4);
    pottle_error error;
    unlink(HERE);
    ck_assert_int_eq(pottle_kitchen_write(&k, HERE, &error), POTTLE_EIO);
    ck_assert_str_eq(text_of(name, 0), "left");
}
END_TEST

TCase *
kitchen_write_disk(void)
{
    TCase *t = tcase_create("a disk that fails");
    tcase_set_timeout(t, 240);
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_test(t, full_disk_at_every_byte);
    tcase_add_test(t, killed_at_every_byte);
    tcase_add_test(t, killed_at_every_step);
    tcase_add_test(t, steps_that_fail);
    tcase_add_test(t, left_over_names_are_passed_by);
    return t;
}
