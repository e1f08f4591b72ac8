/* own_jar_refused.c - test_own_jar: readings that cannot be of one jar. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "own_jar_cases.h"

void
lighter(pottle_own_jar *j)
{
    j->full = q(400, "g");
}
static void
not_weighed(pottle_own_jar *j)
{
    j->full.unit = NULL;
}
static void
not_weighed_empty(pottle_own_jar *j)
{
    j->empty.unit = NULL;
}
static void
of_nothing(pottle_own_jar *j)
{
    j->empty = q(0, "g");
}
static void
endless(pottle_own_jar *j)
{
    j->full = q(2000, "kg");
}
static void
not_a_number(pottle_own_jar *j)
{
    j->full.low = NOT_A_NUMBER;
}
static void
hot(pottle_own_jar *j)
{
    j->water = q(60, "degc");
}
static void
mark_above(pottle_own_jar *j)
{
    j->to_mark = q(940, "g"), j->mark = q(13, "mm");
}
static void
mark_below(pottle_own_jar *j)
{
    j->to_mark = q(440, "g"), j->mark = q(13, "mm");
}
static void
mark_nowhere(pottle_own_jar *j)
{
    j->to_mark = q(880, "g"), j->mark = q(0, "mm");
}
static void
wide(pottle_own_jar *j)
{
    j->mouth = q(250, "mm");
}

static const struct {
    void (*spoil)(pottle_own_jar *);
    const char *code, *names;
} spoils[] = {
    { lighter, "contradiction", "400" },
    { not_weighed, "weighing", "" },
    { not_weighed_empty, "weighing", "" },
    { of_nothing, "weighing", "" },
    { endless, "weighing", "" },
    { not_a_number, "weighing", "" },
    { hot, "temperature", "" },
    { mark_above, "contradiction", "940" },
    { mark_below, "contradiction", "440" },
    { mark_nowhere, "contradiction", "880" },
    { wide, "headspace", "" },
};

START_TEST(readings_that_cannot_be)
{
    pottle_own_jar jar = tall();
    pottle_estimate out = { 7, 8 };
    const pottle_jar *size = NULL;
    pottle_error error = { .status = POTTLE_OK };
    spoils[_i].spoil(&jar);
    ck_assert_int_eq(pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 12.7 },
                                         &out, &error),
                     POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, spoils[_i].code);
    ck_assert_msg(strstr(error.what, spoils[_i].names) != NULL,
                  "%s does not name %s", error.what, spoils[_i].names);
    ck_assert_int_eq(pottle_own_jar_size(kitchen, &jar, &size, &error),
                     POTTLE_EDOMAIN);
    ck_assert(out.median > 6.9 && out.median < 7.1 && size == NULL);
}
END_TEST

START_TEST(headspace_out_of_range)
{
    static const double none[] = { -1, 0, 1.9, 60.1, 1e9 };
    const pottle_own_jar jar = tall();
    pottle_estimate out = { 7, 8 };
    for (int i = 0; i < COUNT(none); i++)
        ck_assert_int_eq(pottle_own_jar_fill(kitchen, &jar,
                                             (pottle_length){ none[i] }, &out,
                                             NULL),
                         POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_own_jar_fill(kitchen, &jar,
                                         (pottle_length){ NOT_A_NUMBER }, &out,
                                         NULL),
                     POTTLE_EDOMAIN);
    ck_assert(out.sd > 7.9);
}
END_TEST

START_TEST(other_statuses)
{
    pottle_own_jar jar = tall();
    pottle_estimate out = { 7, 8 };
    const pottle_jar *size = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_own_jar_brim(NULL, &jar, &out, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, NULL, &out, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, &jar, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_own_jar_fill(NULL, &jar, (pottle_length){ 13 }, &out, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 13 }, NULL, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_own_jar_size(kitchen, NULL, &size, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_own_jar_size(kitchen, &jar, NULL, &error),
                     POTTLE_EMISUSE);
    strcpy(jar.near, "demijohn");
    ck_assert_int_eq(
        pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 13 }, &out, &error),
        POTTLE_ENOENT);
    ck_assert_int_eq(pottle_own_jar_size(kitchen, &jar, &size, &error),
                     POTTLE_ENOENT);
    jar.near[0] = '\0';
    /* without the jars there are no mouths and no sizes, without the figures
     * there are those of the functions themselves */
    pottle_catalogue *bare = kitchen_catalogue(POTTLE_WITH_FIGURES);
    ck_assert_int_eq(
        pottle_own_jar_fill(bare, &jar, (pottle_length){ 13 }, &out, &error),
        POTTLE_EMISUSE);
    jar.mouth = q(60, "mm");
    ck_assert_int_eq(pottle_own_jar_size(bare, &jar, &size, &error),
                     POTTLE_EMISUSE);
    ck_assert(out.sd > 7.9 && size == NULL);
    pottle_catalogue_free(bare);
    bare = kitchen_catalogue(POTTLE_WITH_JARS);
    pottle_estimate with, without;
    jar.water.unit = NULL;
    ck_assert_int_eq(pottle_own_jar_fill(bare, &jar, (pottle_length){ 13 },
                                         &without, &error),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 13 },
                                         &with, &error),
                     POTTLE_OK);
    ck_assert(fabs(with.median - without.median) < 1e-9 &&
              fabs(with.sd - without.sd) < 1e-9);
    pottle_catalogue_free(bare);
}
END_TEST

TCase *
own_jar_refused(void)
{
    TCase *t = tcase_create("refused");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, readings_that_cannot_be, 0, COUNT(spoils));
    tcase_add_test(t, headspace_out_of_range);
    tcase_add_test(t, other_statuses);
    return t;
}
