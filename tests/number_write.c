/* number_write.c - test_number: numbers as text against printf, and there and
 * back. */
#include <config.h>

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "number_cases.h"

/* Each digit that is written is the one the C library's printf writes: at
 * halves and next to them, where a wrong rounding would show, and at random. */
static void
compare_with_printf(double value, int decimals)
{
    char buf[64], wanted[64];
    snprintf(wanted, sizeof wanted, "%.*f", decimals, value);
    if (strchr(wanted, '.') != NULL) {
        size_t n = strlen(wanted);
        while (wanted[n - 1] == '0')
            n--;
        wanted[wanted[n - 1] == '.' ? n - 1 : n] = '\0';
    }
    pottle_number_write(value, decimals, buf, sizeof buf);
    ck_assert_msg(strcmp(buf, strcmp(wanted, "-0") == 0 ? "0" : wanted) == 0,
                  "%.20g to %d: %s, not %s", value, decimals, buf, wanted);
}

START_TEST(write_is_printf_rounded)
{
    static const double tens[] = { 1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6 };
    uint64_t random = 1;
    for (int decimals = 0; decimals <= 6; decimals++) {
        for (int i = 0; i < 3000; i++) {
            /* Knuth, MMIX: a, c of a linear congruential sequence */
            random = random * 6364136223846793005u + 1442695040888963407u;
            const double wide = (double)(random >> 11),
                         size = tens[random % 7] * 1e-3 / 9007199254740992.0;
            compare_with_printf(wide * size, decimals);
            /* a half of the last place, as near as a double comes to it */
            const double half = ((double)(random >> 44) + 0.5) / tens[decimals];
            compare_with_printf(half, decimals);
            compare_with_printf(nextafter(half, 0), decimals);
            compare_with_printf(-nextafter(half, 1e9), decimals);
            /* an exact half where the binary fraction has one */
            compare_with_printf((double)(random >> 40) / 64.0, decimals);
        }
    }
}
END_TEST

START_TEST(write_is_like_snprintf)
{
    char buf[8] = "xxxxxxx";
    ck_assert_uint_eq(pottle_number_write(1234.5, 1, buf, 4), 6);
    ck_assert_str_eq(buf, "123");
    ck_assert_uint_eq(pottle_number_write(1234.5, 1, buf, 1), 6);
    ck_assert_str_eq(buf, "");
    memcpy(buf, "xxxxxxx", 8);
    ck_assert_uint_eq(pottle_number_write(1234.5, 1, buf, 0), 6);
    ck_assert_str_eq(buf, "xxxxxxx");
    ck_assert_uint_eq(pottle_number_write(1234.5, 1, NULL, 0), 6);
}
END_TEST

START_TEST(write_takes_the_largest)
{
    char buf[400];
    const size_t n =
        pottle_number_write(1.7976931348623157e308, 9, buf, sizeof buf);
    ck_assert_uint_eq(n, 309);
    ck_assert_int_eq(strncmp(buf, "17976931348623157", 17), 0);
}
END_TEST

/* What is written is read again as the same number. */
START_TEST(there_and_back)
{
    const double value = (double)(_i * _i * 37 + _i) / 1024.0;
    char buf[64];
    pottle_number_write(value, 9, buf, sizeof buf);
    pottle_range r = { -1, -1 };
    ck_assert_int_eq(pottle_number_read(buf, &r), POTTLE_OK);
    ck_assert_msg(fabs(r.low - value) <= 0.5e-9, "%s for %.12g", buf, value);
}
END_TEST

TCase *
number_write(void)
{
    TCase *t = tcase_create("write");
    tcase_add_test(t, write_is_printf_rounded);
    tcase_add_test(t, write_is_like_snprintf);
    tcase_add_test(t, write_takes_the_largest);
    tcase_add_loop_test(t, there_and_back, 0, 200);
    return t;
}
