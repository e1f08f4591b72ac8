/* test_kitchen_write.c - a kitchen file is written whole or not at all.
 *
 * What may not be written leaves the old file alone; a full disk is tried at
 * every byte, and so is a program that is killed, in a child that kills itself
 * in the middle of a write. */
#include <config.h>

#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "kitchen_file_help.h"
#include "no_memory.h"
#include "suite.h"

#define WORK "test_kitchen_write.tmp"
#define HERE WORK "/kitchen.xml"
#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))

const char work_folder[] = WORK;

/* -- What is not written --------------------------------------------------- */

static void
no_altitude_unit(pottle_kitchen *k)
{
    k->altitude = q(900, "mm");
}
static void
far_altitude(pottle_kitchen *k)
{
    k->altitude = q(10001, "m");
}
static void
nan_altitude(pottle_kitchen *k)
{
    k->altitude.low = k->altitude.high = (double)NAN;
}
static void
range_altitude(pottle_kitchen *k)
{
    k->altitude.high = 950;
}
static void
tiny_altitude(pottle_kitchen *k)
{
    k->altitude.low = k->altitude.high = 1e-9;
}
static void
negative_altitude(pottle_kitchen *k)
{
    k->altitude.low = k->altitude.high = -5;
}
static void
other_cup(pottle_kitchen *k)
{
    k->cup = (pottle_cup)9;
}
static void
scale_in_cm(pottle_kitchen *k)
{
    k->scale = q(1, "cm");
}
static void
scale_of_a_kilo(pottle_kitchen *k)
{
    k->scale = q(30, "oz");
}
static void
thermometer_in_psi(pottle_kitchen *k)
{
    k->thermometer.by = q(1, "psi");
}
static void
pots_beyond(pottle_kitchen *k)
{
    k->pots = POTTLE_KITCHEN_POTS + 1;
}
static void
canners_beyond(pottle_kitchen *k)
{
    k->canners = POTTLE_KITCHEN_CANNERS + 1;
}
static void
shelves_beyond(pottle_kitchen *k)
{
    k->shelves = (size_t)-1;
}
static void
own_beyond(pottle_kitchen *k)
{
    k->own_jars = POTTLE_KITCHEN_OWN + 1;
}
static void
pot_without_id(pottle_kitchen *k)
{
    k->pot[0].id[0] = '\0';
}
static void
pot_id_endless(pottle_kitchen *k)
{
    memset(k->pot[0].id, 'a', sizeof k->pot[0].id);
}
static void
title_endless(pottle_kitchen *k)
{
    memset(k->pot[0].title, 'a', sizeof k->pot[0].title);
}
static void
title_of_two_lines(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "a\nb");
}
static void
title_not_utf8(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "\xFF");
}
static void
title_no_xml(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "a\xEF\xBF\xBE");
}
static void
title_no_xml_either(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "\xEF\xBF\xBF");
}
static void
title_with_control(pottle_kitchen *k)
{
    strcpy(k->pot[0].title, "a\x01");
}
static void
pot_twice(pottle_kitchen *k)
{
    k->pot[k->pots++] = k->pot[0];
}
static void
pot_of_nothing(pottle_kitchen *k)
{
    k->pot[0].width.unit = NULL;
}
static void
pot_in_kilos_wide(pottle_kitchen *k)
{
    k->pot[0].width = q(2, "kg");
}
static void
shelf_of_none(pottle_kitchen *k)
{
    k->shelf[0].count = 0;
}
static void
shelf_of_many(pottle_kitchen *k)
{
    k->shelf[0].count = 1001;
}
static void
shelf_twice(pottle_kitchen *k)
{
    k->shelf[k->shelves++] = k->shelf[0];
}
static void
shelf_no_id(pottle_kitchen *k)
{
    strcpy(k->shelf[0].jar, "1/2 pint");
}

static const struct {
    void (*spoil)(pottle_kitchen *);
    pottle_status status;
    const char *code;
} spoils[] = {
    { no_altitude_unit, POTTLE_EUNIT, "unit" },
    { far_altitude, POTTLE_EDOMAIN, "range" },
    { nan_altitude, POTTLE_EDOMAIN, "range" },
    { range_altitude, POTTLE_EDOMAIN, "range" },
    { tiny_altitude, POTTLE_EDOMAIN, "range" },
    { negative_altitude, POTTLE_EDOMAIN, "range" },
    { other_cup, POTTLE_EDOMAIN, "cup" },
    { scale_in_cm, POTTLE_EUNIT, "unit" },
    { scale_of_a_kilo, POTTLE_EDOMAIN, "range" },
    { thermometer_in_psi, POTTLE_EUNIT, "unit" },
    { pots_beyond, POTTLE_EDOMAIN, "too-many" },
    { canners_beyond, POTTLE_EDOMAIN, "too-many" },
    { shelves_beyond, POTTLE_EDOMAIN, "too-many" },
    { own_beyond, POTTLE_EDOMAIN, "too-many" },
    { pot_without_id, POTTLE_EDOMAIN, "id" },
    { pot_id_endless, POTTLE_EDOMAIN, "id" },
    { title_endless, POTTLE_EDOMAIN, "title" },
    { title_of_two_lines, POTTLE_EDOMAIN, "title" },
    { title_not_utf8, POTTLE_EDOMAIN, "title" },
    { title_no_xml, POTTLE_EDOMAIN, "title" },
    { title_no_xml_either, POTTLE_EDOMAIN, "title" },
    { title_with_control, POTTLE_EDOMAIN, "title" },
    { pot_twice, POTTLE_EDOMAIN, "twice" },
    { pot_of_nothing, POTTLE_EDOMAIN, "pot" },
    { pot_in_kilos_wide, POTTLE_EUNIT, "unit" },
    { shelf_of_none, POTTLE_EDOMAIN, "count" },
    { shelf_of_many, POTTLE_EDOMAIN, "count" },
    { shelf_twice, POTTLE_EDOMAIN, "twice" },
    { shelf_no_id, POTTLE_EDOMAIN, "id" },
};

START_TEST(what_may_not_stand_there_is_not_written)
{
    const pottle_kitchen before = small_kitchen();
    write_kitchen(&before, HERE);
    pottle_kitchen k = before;
    spoils[_i].spoil(&k);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_kitchen_write(&k, HERE, &error);
    ck_assert_msg(status == spoils[_i].status &&
                      strcmp(error.code, spoils[_i].code) == 0,
                  "case %d: expected %d (%s), found %d (%s): %s", _i,
                  (int)spoils[_i].status, spoils[_i].code, (int)status,
                  error.code, error.what);
    ck_assert_str_eq(text_of(HERE, 0), small_text);
    ck_assert_int_eq(names_in_work(), 1);
    ck_assert_int_eq(pottle_kitchen_write(&k, HERE, NULL), spoils[_i].status);
}
END_TEST

/* -- The old version ------------------------------------------------------- */

START_TEST(old_version_is_kept)
{
    pottle_kitchen k = small_kitchen();
    write_kitchen(&k, HERE);
    ck_assert(!is_there(HERE "~"));
    k.altitude = q(1000, "m");
    write_kitchen(&k, HERE);
    ck_assert_str_eq(text_of(HERE "~", 0), small_text);
    ck_assert_ptr_nonnull(strstr(text_of(HERE, 0), "\"1000\""));
    k.altitude = q(1100, "m");
    write_kitchen(&k, HERE);
    ck_assert_ptr_nonnull(strstr(text_of(HERE "~", 0), "\"1000\""));
    ck_assert_ptr_nonnull(strstr(text_of(HERE, 0), "\"1100\""));
    ck_assert_int_eq(names_in_work(), 2);
}
END_TEST

START_TEST(mode_is_kept)
{
    const pottle_kitchen k = small_kitchen();
    struct stat info;
    write_kitchen(&k, HERE);
    ck_assert_int_eq(chmod(HERE, 0640), 0);
    write_kitchen(&k, HERE);
    ck_assert_int_eq(stat(HERE, &info), 0);
    ck_assert_int_eq(info.st_mode & 0777, 0640);
    ck_assert_int_eq(stat(HERE "~", &info), 0);
    ck_assert_int_eq(info.st_mode & 0777, 0640);
}
END_TEST

/* A link in the place of the kept version is replaced, not followed. */
START_TEST(kept_version_is_no_link)
{
    const pottle_kitchen k = small_kitchen();
    write_text(WORK "/precious", "precious", 8);
    ck_assert_int_eq(symlink("precious", HERE "~"), 0);
    write_kitchen(&k, HERE);
    write_kitchen(&k, HERE);
    struct stat info;
    ck_assert_int_eq(lstat(HERE "~", &info), 0);
    ck_assert(S_ISREG(info.st_mode));
    ck_assert_str_eq(text_of(WORK "/precious", 0), "precious");
}
END_TEST

/* -- Places that cannot be written to -------------------------------------- */

static void
refuses_to_write(const char *path, const char *code)
{
    const pottle_kitchen k = small_kitchen();
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_kitchen_write(&k, path, &error);
    ck_assert_msg(status == POTTLE_EIO && error.status == POTTLE_EIO &&
                      strcmp(error.code, code) == 0,
                  "%.80s: expected POTTLE_EIO (%s), found %d (%s): %s", path,
                  code, (int)status, error.code, error.what);
    ck_assert_int_eq(pottle_kitchen_write(&k, path, NULL), POTTLE_EIO);
}

START_TEST(no_link_is_followed)
{
    write_text(WORK "/precious", "precious", 8);
    ck_assert_int_eq(symlink("precious", HERE), 0);
    refuses_to_write(HERE, "symlink");
    ck_assert_str_eq(text_of(WORK "/precious", 0), "precious");
    ck_assert_int_eq(symlink("nowhere", WORK "/dangling.xml"), 0);
    refuses_to_write(WORK "/dangling.xml", "symlink");
    ck_assert(!is_there(WORK "/nowhere"));
    ck_assert_int_eq(names_in_work(), 3);
    /* a folder that is a link is where the person put it */
    ck_assert_int_eq(mkdir(WORK "/folder", 0777), 0);
    ck_assert_int_eq(symlink("folder", WORK "/link"), 0);
    const pottle_kitchen k = small_kitchen();
    write_kitchen(&k, WORK "/link/kitchen.xml");
    ck_assert_str_eq(text_of(WORK "/folder/kitchen.xml", 0), small_text);
}
END_TEST

START_TEST(only_plain_files_are_replaced)
{
    ck_assert_int_eq(mkdir(HERE, 0777), 0);
    refuses_to_write(HERE, "file");
    refuses_to_write("/dev/full", "file");
    refuses_to_write("/dev/null", "file");
    ck_assert_int_eq(mkfifo(WORK "/pipe", 0666), 0);
    refuses_to_write(WORK "/pipe", "file");
    write_text(WORK "/shut.xml", "shut", 4);
    ck_assert_int_eq(chmod(WORK "/shut.xml", 0444), 0);
    refuses_to_write(WORK "/shut.xml", "write-protected");
    ck_assert_str_eq(text_of(WORK "/shut.xml", 0), "shut");
    static char large[(1 << 20) + 1];
    memset(large, 'a', sizeof large);
    write_text(WORK "/large.xml", large, sizeof large);
    refuses_to_write(WORK "/large.xml", "file-size");
    ck_assert_int_eq(names_in_work(), 4);
}
END_TEST

START_TEST(places_that_are_not_there)
{
    refuses_to_write("", "file");
    refuses_to_write(WORK "/no/such/folder/kitchen.xml", "file");
    write_text(WORK "/plain", "plain", 5);
    refuses_to_write(WORK "/plain/kitchen.xml", "file");
    refuses_to_write("/proc/kitchen.xml", "file");
    char name[320];
    memset(name, 'a', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    memcpy(name, WORK "/", strlen(WORK "/"));
    refuses_to_write(name, "file");
    static char path[6000];
    memset(path, 'a', sizeof path - 1);
    refuses_to_write(path, "file");
    if (geteuid() == 0)
        return; /* root writes everywhere */
    ck_assert_int_eq(mkdir(WORK "/shut", 0500), 0);
    refuses_to_write(WORK "/shut/kitchen.xml", "file");
}
END_TEST

START_TEST(a_folder_in_the_place_of_the_kept_version)
{
    const pottle_kitchen k = small_kitchen();
    write_kitchen(&k, HERE);
    ck_assert_int_eq(mkdir(HERE "~", 0777), 0);
    refuses_to_write(HERE, "file");
    ck_assert_str_eq(text_of(HERE, 0), small_text);
    ck_assert_int_eq(names_in_work(), 2);
}
END_TEST

/* -- A disk that fails ----------------------------------------------------- */

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

static const char old_text[] =
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

static void
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

/* -- No memory, misuse, and files that are not there ----------------------- */

START_TEST(no_memory)
{
    const pottle_kitchen k = small_kitchen();
    reset();
    long n = 0;
    pottle_status status = POTTLE_ENOMEM;
    for (; status != POTTLE_OK && n < 100; n++) {
        pottle_error error = { .status = POTTLE_OK };
        fail_at = n;
        allocations = 0;
        status = pottle_kitchen_write(&k, HERE, &error);
        fail_at = -1;
        if (status == POTTLE_OK)
            break;
        ck_assert_int_eq(status, POTTLE_ENOMEM);
        ck_assert_int_eq(error.status, POTTLE_ENOMEM);
        ck_assert_str_eq(text_of(HERE, 0), old_text);
        ck_assert_int_eq(names_in_work(), 1);
    }
    ck_assert_int_eq(n, 2); /* the new text and the old one */
    status = POTTLE_ENOMEM;
    for (n = 0; status != POTTLE_OK && n < 100; n++) {
        pottle_kitchen out, kept;
        memset(&out, 0x5A, sizeof out);
        kept = out;
        fail_at = n;
        allocations = 0;
        status = pottle_kitchen_read(catalogue, HERE, &out, NULL);
        fail_at = -1;
        if (status != POTTLE_OK) {
            ck_assert_int_eq(status, POTTLE_ENOMEM);
            ck_assert_mem_eq(&out, &kept, sizeof out);
        }
    }
    ck_assert_int_gt(n, 2);
}
END_TEST

START_TEST(files_that_cannot_be_read)
{
    pottle_kitchen k, kept;
    pottle_error error = { .status = POTTLE_OK };
    memset(&k, 0x5A, sizeof k);
    kept = k;
    ck_assert_int_eq(
        pottle_kitchen_read(catalogue, WORK "/none.xml", &k, &error),
        POTTLE_ENOENT);
    ck_assert_int_eq(error.status, POTTLE_ENOENT);
    ck_assert_int_eq(pottle_kitchen_read(catalogue, WORK, &k, &error),
                     POTTLE_EIO);
    ck_assert_int_eq(pottle_kitchen_read(catalogue, "/dev/null", &k, &error),
                     POTTLE_EIO);
    write_text(HERE, "", 0);
    ck_assert_int_eq(pottle_kitchen_read(catalogue, HERE, &k, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "xml");
    write_text(HERE, "<kitchen>\0</kitchen>", 20);
    ck_assert_int_eq(pottle_kitchen_read(catalogue, HERE, &k, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "encoding");
    static char large[(1 << 18) + 1];
    memset(large, ' ', sizeof large);
    memcpy(large, "<kitchen/>", 10);
    write_text(HERE, large, sizeof large);
    ck_assert_int_eq(pottle_kitchen_read(catalogue, HERE, &k, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "file-size");
    ck_assert_mem_eq(&k, &kept, sizeof k);
    write_text(HERE, large, sizeof large - 1);
    ck_assert_int_eq(pottle_kitchen_read(catalogue, HERE, &k, &error),
                     POTTLE_OK);
}
END_TEST

START_TEST(misuse)
{
    pottle_kitchen k = small_kitchen();
    pottle_error error = { .status = POTTLE_OK };
    char id[64] = "kept";
    pottle_quantity amount = q(1, "g");
    pottle_misreading misreading = { false, q(1, "psi") };
    pottle_cup cup = POTTLE_CUP_US;
    ck_assert_int_eq(pottle_kitchen_read(catalogue, NULL, &k, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_read(catalogue, HERE, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_write(NULL, HERE, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_write(&k, NULL, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_id(NULL, id, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_id("a", NULL, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_amount(NULL, POTTLE_MASS, &amount, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_amount("1 g", POTTLE_MASS, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_kitchen_amount("1 cup", POTTLE_VOLUME, &amount, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_misreading_read("1 g high", POTTLE_MASS, &misreading, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_misreading_read(NULL, POTTLE_PRESSURE, &misreading, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_misreading_read("1 psi high", POTTLE_PRESSURE, NULL, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_cup_find(NULL, &cup, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_cup_find("us", NULL, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_put_canner(NULL, &k.canner[0], &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_put_canner(&k, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_put_pot(&k, NULL, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_put_own(&k, NULL, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_kitchen_put_jars(&k, NULL, 1, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_kitchen_remove(&k, POTTLE_KITCHEN_A_POT, NULL, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_kitchen_remove(&k, (pottle_kitchen_part)7, "jam-pan", &error),
        POTTLE_EMISUSE);
    ck_assert_str_eq(id, "kept");
    ck_assert(is(amount, 1, "g") && is(misreading.by, 1, "psi") &&
              cup == POTTLE_CUP_US && k.pots == 1);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("kitchen file in its place");
    TCase *t = tcase_create("refused");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_loop_test(t, what_may_not_stand_there_is_not_written, 0,
                        COUNT(spoils));
    suite_add_tcase(suite, t);

    t = tcase_create("in its place");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_test(t, old_version_is_kept);
    tcase_add_test(t, mode_is_kept);
    tcase_add_test(t, kept_version_is_no_link);
    tcase_add_test(t, no_link_is_followed);
    tcase_add_test(t, only_plain_files_are_replaced);
    tcase_add_test(t, places_that_are_not_there);
    tcase_add_test(t, a_folder_in_the_place_of_the_kept_version);
    suite_add_tcase(suite, t);

    t = tcase_create("a disk that fails");
    tcase_set_timeout(t, 240);
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_test(t, full_disk_at_every_byte);
    tcase_add_test(t, killed_at_every_byte);
    tcase_add_test(t, killed_at_every_step);
    tcase_add_test(t, steps_that_fail);
    tcase_add_test(t, left_over_names_are_passed_by);
    suite_add_tcase(suite, t);

    t = tcase_create("statuses");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_test(t, no_memory);
    tcase_add_test(t, files_that_cannot_be_read);
    tcase_add_test(t, misuse);
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
