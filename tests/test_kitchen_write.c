/* test_kitchen_write.c - a kitchen file is written whole or not at all.
 *
 * What may not be written leaves the old file alone; a full disk is tried at
 * every byte, and so is a program that is killed, in a child that kills itself
 * in the middle of a write. */
#include <config.h>

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "kitchen_write_cases.h"
#include "no_memory.h"
#include "suite.h"

const char work_folder[] = WORK;

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
    suite_add_tcase(suite, kitchen_write_refused());

    TCase *t = tcase_create("in its place");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_test(t, old_version_is_kept);
    tcase_add_test(t, mode_is_kept);
    tcase_add_test(t, kept_version_is_no_link);
    tcase_add_test(t, no_link_is_followed);
    tcase_add_test(t, only_plain_files_are_replaced);
    tcase_add_test(t, places_that_are_not_there);
    tcase_add_test(t, a_folder_in_the_place_of_the_kept_version);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, kitchen_write_disk());

    t = tcase_create("statuses");
    tcase_add_checked_fixture(t, set_up, tear_down);
    tcase_add_test(t, no_memory);
    tcase_add_test(t, files_that_cannot_be_read);
    tcase_add_test(t, misuse);
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
