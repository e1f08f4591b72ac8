/* test_number.c - numbers as people write them.
 *
 * Expected values are arithmetic on the text, by hand. */
#include <config.h>

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "number_cases.h"
#include "suite.h"

/* Equal up to the rounding of one division and one sum. */
static bool
same(double a, double b)
{
    return fabs(a - b) <= 4e-16 * fabs(b);
}

static const struct {
    const char *text;
    double low, high;
} good[] = {
    /* decimals */
    { "3", 3, 3 },
    { "0", 0, 0 },
    { "007", 7, 7 },
    { "3.5", 3.5, 3.5 },
    { "3.0", 3, 3 },
    { ".5", 0.5, 0.5 },
    { "0.1", 0.1, 0.1 },
    { "1000000000", 1e9, 1e9 },
    { "000000000000000000000000000000000000000000000000000000000000000000000000"
      "000000012",
      12, 12 },
    { "0.000001", 1e-6, 1e-6 },
    { "0."
      "333333333333333333333333333333333333333333333333333333333333333333333333"
      "33333",
      1.0 / 3, 1.0 / 3 },
    { "1."
      "000000000000000000000000000000000000000000000000000000000000000000000000"
      "0001",
      1, 1 },
    /* fractions */
    { "1/2", 0.5, 0.5 },
    { "1 / 2", 0.5, 0.5 },
    { "3/4", 0.75, 0.75 },
    { "5/4", 1.25, 1.25 },
    { "0/4", 0, 0 },
    { "1\xE2\x81\x84"
      "2",
      0.5, 0.5 }, /* U+2044 */
    /* mixed numbers */
    { "3 1/2", 3.5, 3.5 },
    { "3-1/2", 3.5, 3.5 },
    { "3 -1/2", 3.5, 3.5 },
    { "1 2/3", 5.0 / 3, 5.0 / 3 },
    { "10 7/8", 10.875, 10.875 },
    /* glyphs */
    { "\xC2\xBC", 0.25, 0.25 },
    { "\xC2\xBD", 0.5, 0.5 },
    { "\xC2\xBE", 0.75, 0.75 },
    { "\xE2\x85\x93", 1.0 / 3, 1.0 / 3 },
    { "\xE2\x85\x94", 2.0 / 3, 2.0 / 3 },
    { "\xE2\x85\x95", 0.2, 0.2 },
    { "\xE2\x85\x96", 0.4, 0.4 },
    { "\xE2\x85\x97", 0.6, 0.6 },
    { "\xE2\x85\x98", 0.8, 0.8 },
    { "\xE2\x85\x99", 1.0 / 6, 1.0 / 6 },
    { "\xE2\x85\x9A", 5.0 / 6, 5.0 / 6 },
    { "\xE2\x85\x9B", 0.125, 0.125 },
    { "\xE2\x85\x9C", 0.375, 0.375 },
    { "\xE2\x85\x9D", 0.625, 0.625 },
    { "\xE2\x85\x9E", 0.875, 0.875 },
    { "3\xC2\xBD", 3.5, 3.5 },
    { "3 \xC2\xBD", 3.5, 3.5 },
    { "3-\xC2\xBD", 3.5, 3.5 },
    /* ranges */
    { "2-3", 2, 3 },
    { "2 - 3", 2, 3 },
    { "2 -3", 2, 3 },
    { "2\xE2\x80\x93"
      "3",
      2, 3 }, /* en dash */
    { "2 \xE2\x80\x93 3", 2, 3 },
    { "2\xE2\x80\x94"
      "3",
      2, 3 }, /* em dash */
    { "2 to 3", 2, 3 },
    { "2 to  3", 2, 3 },
    { "2-2", 2, 2 },
    { "0-1", 0, 1 },
    { "1/2-3/4", 0.5, 0.75 },
    { "1/2 to \xC2\xBE", 0.5, 0.75 },
    { "2-3 1/2", 2, 3.5 },
    { "2 1/2-3", 2.5, 3 },
    { "2-1/2 to 3-1/2", 2.5, 3.5 },
    { "1-3/2", 1, 1.5 }, /* 3/2 is no part of a mixed number */
    { "2\xC2\xBD-3\xC2\xBD", 2.5, 3.5 },
    { "1.5-2.25", 1.5, 2.25 },
    /* blanks */
    { " 3 ", 3, 3 },
    { "\t3\t", 3, 3 },
    { "\xC2\xA0"
      "3\xC2\xA0",
      3, 3 },                              /* no-break */
    { "3\xE2\x80\x89\xC2\xBD", 3.5, 3.5 }, /* thin */
    { "3\xE2\x80\xAF"
      "1/2 \xC2\xA0\xE2\x80\x89",
      3.5, 3.5 }, /* narrow no-break */
};

START_TEST(reads)
{
    pottle_range r = { -1, -1 };
    ck_assert_msg(pottle_number_read(good[_i].text, &r) == POTTLE_OK,
                  "'%s' is refused", good[_i].text);
    ck_assert_msg(same(r.low, good[_i].low) && same(r.high, good[_i].high),
                  "'%s' gives %.17g to %.17g", good[_i].text, r.low, r.high);
}
END_TEST

static const struct {
    const char *text;
    pottle_status status;
} bad[] = {
    { "", POTTLE_ESYNTAX },
    { " ", POTTLE_ESYNTAX },
    { "x", POTTLE_ESYNTAX },
    { ".", POTTLE_ESYNTAX },
    { "3.", POTTLE_ESYNTAX },
    { "3..5", POTTLE_ESYNTAX },
    { "3.5.1", POTTLE_ESYNTAX },
    { "-3", POTTLE_ESYNTAX },
    { "+3", POTTLE_ESYNTAX },
    { "\xE2\x88\x92"
      "3",
      POTTLE_ESYNTAX }, /* U+2212 minus */
    { "-1/2", POTTLE_ESYNTAX },
    { "--3", POTTLE_ESYNTAX },
    { "2--3", POTTLE_ESYNTAX },
    { "2-", POTTLE_ESYNTAX },
    { "2 to", POTTLE_ESYNTAX },
    { "2 to ", POTTLE_ESYNTAX },
    { "2 to x", POTTLE_ESYNTAX },
    { "to 3", POTTLE_ESYNTAX },
    { "2-3-4", POTTLE_ESYNTAX },
    { "1,000", POTTLE_ESYNTAX },
    { "3,5", POTTLE_ESYNTAX },
    { "1e3", POTTLE_ESYNTAX },
    { "1e9", POTTLE_ESYNTAX },
    { "0x10", POTTLE_ESYNTAX },
    { "nan", POTTLE_ESYNTAX },
    { "NaN", POTTLE_ESYNTAX },
    { "inf", POTTLE_ESYNTAX },
    { "infinity", POTTLE_ESYNTAX },
    { "1/", POTTLE_ESYNTAX },
    { "/2", POTTLE_ESYNTAX },
    { "1/x", POTTLE_ESYNTAX },
    { "1/2/3", POTTLE_ESYNTAX },
    { "1/-2", POTTLE_ESYNTAX },
    { "1.5/2", POTTLE_ESYNTAX },
    { "1/2.5", POTTLE_ESYNTAX },
    { "3 5/4", POTTLE_ESYNTAX }, /* an improper part is a slip of the pen */
    { "3.5 1/2", POTTLE_ESYNTAX },
    { "\xC2\xBD\xC2\xBD", POTTLE_ESYNTAX },
    { "3 4", POTTLE_ESYNTAX },
    { "3 cups", POTTLE_ESYNTAX },
    { "12-oz", POTTLE_ESYNTAX },
    { "3\xC2",
      POTTLE_ESYNTAX }, /* cut in a character, at the end of the text */
    { "3\xE2\x80", POTTLE_ESYNTAX },
    { "\xC2", POTTLE_ESYNTAX },
    { "\xFF\xFE", POTTLE_ESYNTAX },
    { "3\xFF", POTTLE_ESYNTAX },
    { "\xC0\xB3", POTTLE_ESYNTAX },     /* overlong '3' */
    { "\xEF\xBC\x93", POTTLE_ESYNTAX }, /* full-width 3 */
    { "\xD9\xA3", POTTLE_ESYNTAX },     /* Arabic-Indic 3 */

    { "1/0", POTTLE_EDOMAIN },
    { "0/0", POTTLE_EDOMAIN },
    { "3 1/0", POTTLE_EDOMAIN },
    { "3-1/0", POTTLE_EDOMAIN },
    { "2 to 1/0", POTTLE_EDOMAIN },
    { "1000000001", POTTLE_EDOMAIN },
    { "1000000000.1", POTTLE_EDOMAIN },
    { "99999999999999999999999999999999999999", POTTLE_EDOMAIN },
    { "1-99999999999999999999999999999999999999", POTTLE_EDOMAIN },
    { "1/99999999999999999999999999999999999999", POTTLE_EDOMAIN },
    { "99999999999999999999999999999999999999/1", POTTLE_EDOMAIN },
    { "0/99999999999999999999999999999999999999", POTTLE_EDOMAIN },
    { "1/2000000000", POTTLE_EDOMAIN },
    { "0.0000009", POTTLE_EDOMAIN },
    { "0.00000000000000000000000000000000000000000000000000000000001",
      POTTLE_EDOMAIN },
    { "1/10000000", POTTLE_EDOMAIN },
    { "3-2", POTTLE_EDOMAIN },
    { "3 to 2", POTTLE_EDOMAIN },
    { "1/2-1/4", POTTLE_EDOMAIN },
    { "3\xE2\x80\x93"
      "1/2",
      POTTLE_EDOMAIN }, /* a dash is a range, never a mixed number */
};

START_TEST(refuses)
{
    pottle_range r = { -1, -2 };
    const pottle_status status = pottle_number_read(bad[_i].text, &r);
    ck_assert_msg(status == bad[_i].status, "'%s' gives status %d",
                  bad[_i].text, (int)status);
    ck_assert_msg(same(r.low, -1) && same(r.high, -2), "'%s' wrote its output",
                  bad[_i].text);
}
END_TEST

START_TEST(refuses_null)
{
    pottle_range r = { -1, -2 };
    ck_assert_int_eq(pottle_number_read(NULL, &r), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_number_read("3", NULL), POTTLE_EMISUSE);
    ck_assert(same(r.low, -1) && same(r.high, -2));
}
END_TEST

enum { LONG_TEXT = 10000 };

static const struct {
    const char *fill, *tail;
    pottle_status status;
    double value;
} longs[] = {
    { "9", "", POTTLE_EDOMAIN, 0 },
    { "0", "", POTTLE_OK, 0 },
    { "0", "7", POTTLE_OK, 7 },
    { "0", ".5", POTTLE_OK, 0.5 },
    { " ", "7", POTTLE_OK, 7 },
    { "\xC2\xA0", "7", POTTLE_OK, 7 },
    { "\t", "", POTTLE_ESYNTAX, 0 },
    { "x", "", POTTLE_ESYNTAX, 0 },
    { "-", "3", POTTLE_ESYNTAX, 0 },
    { ".", "5", POTTLE_ESYNTAX, 0 },
    { "/", "2", POTTLE_ESYNTAX, 0 },
    { "1/", "1", POTTLE_ESYNTAX, 0 },
    { "\xC2\xBD", "", POTTLE_ESYNTAX, 0 },
    { "\xFF", "", POTTLE_ESYNTAX, 0 },
    { "1 to ", "2", POTTLE_ESYNTAX, 0 },
};

START_TEST(long_text)
{
    char *text = calloc(LONG_TEXT + 16, 1);
    ck_assert_ptr_nonnull(text);
    const size_t n = strlen(longs[_i].fill);
    size_t k = 0;
    for (; k + n <= LONG_TEXT; k += n)
        memcpy(text + k, longs[_i].fill, n);
    memcpy(text + k, longs[_i].tail, strlen(longs[_i].tail) + 1);
    pottle_range r = { -1, -1 };
    const pottle_status status = pottle_number_read(text, &r);
    free(text);
    ck_assert_msg(status == longs[_i].status, "many '%s' give status %d",
                  longs[_i].fill, (int)status);
    ck_assert(same(r.low, status == POTTLE_OK ? longs[_i].value : -1));
}
END_TEST

START_TEST(many_decimals)
{
    char text[LONG_TEXT + 3] = "2.";
    memset(text + 2, '3', LONG_TEXT);
    pottle_range r = { -1, -1 };
    ck_assert_int_eq(pottle_number_read(text, &r), POTTLE_OK);
    ck_assert(same(r.low, 7.0 / 3));
}
END_TEST

/* The scanner leaves what follows to its caller. */
static const struct {
    const char *text;
    pottle_status status;
    double low, high;
    const char *rest;
} scans[] = {
    { "12-oz jar", POTTLE_OK, 12, 12, "-oz jar" },
    { "12 oz", POTTLE_OK, 12, 12, " oz" },
    { "3 1/2 cups", POTTLE_OK, 3.5, 3.5, " cups" },
    { "3-1/2 cups", POTTLE_OK, 3.5, 3.5, " cups" },
    { "3\xC2\xBD"
      "cups",
      POTTLE_OK, 3.5, 3.5, "cups" },
    { "2-3 lb", POTTLE_OK, 2, 3, " lb" },
    { "2 to 3 lb", POTTLE_OK, 2, 3, " lb" },
    { "2 tomatoes", POTTLE_OK, 2, 2, " tomatoes" },
    { "2 to taste", POTTLE_OK, 2, 2, " to taste" },
    { "3kg", POTTLE_OK, 3, 3, "kg" },
    { "3 5/4", POTTLE_OK, 3, 3, " 5/4" },
    { "5%", POTTLE_OK, 5, 5, "%" },
    { "1, 2", POTTLE_OK, 1, 1, ", 2" },
    { "3. cups", POTTLE_OK, 3, 3, ". cups" },
    { "3\xC2\xA0"
      "cups",
      POTTLE_OK, 3, 3, "cups" },
    { "3\xE2\x80\xAF\xE2\x80\x89"
      "cups",
      POTTLE_OK, 3, 3, "cups" },
    { "salt", POTTLE_ENOENT, -1, -2, "salt" },
    { "  salt", POTTLE_ENOENT, -1, -2, "  salt" },
    { "", POTTLE_ENOENT, -1, -2, "" },
    { "-3", POTTLE_ENOENT, -1, -2, "-3" },
    { "1/x", POTTLE_ESYNTAX, -1, -2, "1/x" },
    { "1/0 cup", POTTLE_EDOMAIN, -1, -2, "1/0 cup" },
    { "3 to 2 cups", POTTLE_EDOMAIN, -1, -2, "3 to 2 cups" },
};

START_TEST(scan_leaves_the_rest)
{
    const char *at = scans[_i].text;
    pottle_range r = { -1, -2 };
    const pottle_status status = pottlei_number_scan(&at, &r);
    ck_assert_msg(status == scans[_i].status, "'%s' gives status %d",
                  scans[_i].text, (int)status);
    ck_assert_msg(same(r.low, scans[_i].low) && same(r.high, scans[_i].high),
                  "'%s' gives %g to %g", scans[_i].text, r.low, r.high);
    ck_assert_msg(strcmp(at, scans[_i].rest) == 0, "'%s' leaves '%s'",
                  scans[_i].text, at);
}
END_TEST

static const struct {
    double value;
    int decimals;
    const char *text;
} writes[] = {
    { 0, 0, "0" },
    { 0, 9, "0" },
    { -0.0, 3, "0" },
    { -0.0001, 2, "0" },
    { 3, 0, "3" },
    { 3, 4, "3" },
    { 3.5, 0, "4" },
    { 2.5, 0, "2" }, /* half to even: both are exact in binary */
    { 0.125, 2, "0.12" },
    { 0.375, 2, "0.38" },
    { 3.5, 1, "3.5" },
    { 3.50, 3, "3.5" },
    { 3.140, 9, "3.14" },
    { -1.25, 2, "-1.25" },
    { 100, 0, "100" },
    { 1200, 2, "1200" },
    { 0.05, 1, "0.1" }, /* the double lies above 0.05 */
    { 999.9996, 3, "1000" },
    { 1e9, 3, "1000000000" },
    { 0.000001, 6, "0.000001" },
    { 0.123456789, 9, "0.123456789" },
    { 0.123456789, 12, "0.123456789" }, /* 9 at most */
    { 1.5, -4, "2" },
    { (double)INFINITY, 2, "?" },
    { -(double)INFINITY, 2, "?" },
    { (double)NAN, 2, "?" },
};

START_TEST(write_rounds)
{
    char buf[64];
    const size_t n = pottle_number_write(writes[_i].value, writes[_i].decimals,
                                         buf, sizeof buf);
    ck_assert_str_eq(buf, writes[_i].text);
    ck_assert_uint_eq(n, strlen(writes[_i].text));
}
END_TEST

/* Locales with a decimal comma, as systems name them. */
static const char *
comma_locale(void)
{
    static const char *const names[] = {
        "de_DE.UTF-8", "de_DE.utf8",  "de_DE",       "fr_FR.UTF-8",
        "fr_FR.utf8",  "nl_NL.UTF-8", "it_IT.UTF-8", "da_DK.UTF-8",
    };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (setlocale(LC_ALL, names[i]) != NULL &&
            strcmp(localeconv()->decimal_point, ",") == 0)
            return names[i];
    return NULL;
}

START_TEST(comma_locale_changes_nothing)
{
    ck_assert_ptr_nonnull(comma_locale());
    char buf[64];
    snprintf(buf, sizeof buf, "%.1f", 3.5);
    ck_assert_str_eq(buf, "3,5"); /* the locale is in force */
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        pottle_range r = { -1, -1 };
        ck_assert_msg(pottle_number_read(good[i].text, &r) == POTTLE_OK,
                      "'%s' is refused", good[i].text);
        ck_assert_msg(same(r.low, good[i].low) && same(r.high, good[i].high),
                      "'%s' gives %.17g", good[i].text, r.low);
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        pottle_range r = { -1, -2 };
        ck_assert_msg(pottle_number_read(bad[i].text, &r) == bad[i].status,
                      "'%s'", bad[i].text);
    }
    for (size_t i = 0; i < sizeof writes / sizeof writes[0]; i++) {
        pottle_number_write(writes[i].value, writes[i].decimals, buf,
                            sizeof buf);
        ck_assert_str_eq(buf, writes[i].text);
    }
    ck_assert_str_eq(localeconv()->decimal_point, ","); /* and still is */
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("number");
    TCase *t = tcase_create("read");
    tcase_add_loop_test(t, reads, 0, sizeof good / sizeof good[0]);
    tcase_add_loop_test(t, refuses, 0, sizeof bad / sizeof bad[0]);
    tcase_add_test(t, refuses_null);
    tcase_add_loop_test(t, long_text, 0, sizeof longs / sizeof longs[0]);
    tcase_add_test(t, many_decimals);
    tcase_add_loop_test(t, scan_leaves_the_rest, 0,
                        sizeof scans / sizeof scans[0]);
    suite_add_tcase(suite, t);

    t = tcase_create("write");
    tcase_add_loop_test(t, write_rounds, 0, sizeof writes / sizeof writes[0]);
    suite_add_tcase(suite, t);
    suite_add_tcase(suite, number_write());

    if (comma_locale() != NULL) {
        t = tcase_create("locale");
        tcase_add_test(t, comma_locale_changes_nothing);
        suite_add_tcase(suite, t);
    } else {
        puts("not tested: no locale with a decimal comma is installed");
    }
    setlocale(LC_ALL, "C");

    return suite_run(suite);
}
