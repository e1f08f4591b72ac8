/* unit_quantities.c - test_unit: quantities as they are typed, and conversion.
 */
#include <config.h>

#include <float.h>
#include <math.h>
#include <string.h>

#include "unit_cases.h"

/* -- Scanning and quantities ----------------------------------------------- */

static const struct {
    const char *text, *id, *rest;
} scans[] = {
    { "cups sugar", "cup", " sugar" },
    { " cups sugar", "cup", " sugar" },
    { "\tcup\tsugar", "cup", "\tsugar" },
    { "-oz jar", "oz", " jar" },
    { "fl oz of juice", "fl-oz", " of juice" },
    { "fluid ounces juice", "fl-oz", " juice" },
    { "imperial fluid ounces", "imp-fl-oz", "" },
    { "pounds per square inch", "psi", "" },
    { "pounds per square foot", "lb", " per square foot" },
    { "dry pints, level", "dry-pint", ", level" },
    { "kg,", "kg", "," },
    { "T butter", "tbsp", " butter" },
    { "t salt", "tsp", " salt" },
    { "gallons", "gal", "" },
    { "apples", NULL, "apples" },
    { "", NULL, "" },
    { ", cup", NULL, ", cup" },
    { "cupful of", "cup", " of" },
    { "lbsugar", NULL, "lbsugar" },
};

START_TEST(scan)
{
    const char *at = scans[_i].text;
    const pottle_unit *u = pottlei_unit_scan(&at);
    ck_assert_msg(u == (scans[_i].id == NULL ? NULL : unit(scans[_i].id)),
                  "'%s' gives %s", scans[_i].text, u == NULL ? "none" : u->id);
    ck_assert_str_eq(at, scans[_i].rest);
}
END_TEST

static const struct {
    const char *text;
    int dimension;
    double low, high;
    const char *id;
} quantities[] = {
    { "3 1/2 cups", POTTLE_VOLUME, 3.5, 3.5, "cup" },
    { "3-1/2 cups", -1, 3.5, 3.5, "cup" },
    { "3\xC2\xBD"
      "cups",
      -1, 3.5, 3.5, "cup" },
    { "1900 m", POTTLE_LENGTH, 1900, 1900, "m" },
    { "6200 ft", POTTLE_LENGTH, 6200, 6200, "ft" },
    { "2-3 lb", POTTLE_MASS, 2, 3, "lb" },
    { "2 to 3 lbs.", POTTLE_MASS, 2, 3, "lb" },
    { "1.2 kg", POTTLE_MASS, 1.2, 1.2, "kg" },
    { "1.2kg", -1, 1.2, 1.2, "kg" },
    { "1/4 in", POTTLE_LENGTH, 0.25, 0.25, "in" },
    { "1/4-inch", POTTLE_LENGTH, 0.25, 0.25, "in" },
    { "12-oz", POTTLE_MASS, 12, 12, "oz" },
    { "12 fl. oz.", POTTLE_VOLUME, 12, 12, "fl-oz" },
    { "3\xC2\xA0"
      "cups",
      -1, 3, 3, "cup" },
    { "3\xE2\x80\x89kg ", -1, 3, 3, "kg" },
    { "500 ml", POTTLE_VOLUME, 500, 500, "ml" },
    { "5 %", POTTLE_NUMBER, 5, 5, "percent" },
    { "220\xC2\xB0"
      "F",
      POTTLE_TEMPERATURE, 220, 220, "degf" },
    { "11 psi", POTTLE_PRESSURE, 11, 11, "psi" },
    { "2 bushels", POTTLE_CONTAINER, 2, 2, "bushel" },
    { "2 dozen", POTTLE_COUNT, 2, 2, "dozen" },
    { "0 m", POTTLE_LENGTH, 0, 0, "m" },
};

START_TEST(quantity)
{
    pottle_quantity q = { -1, -1, NULL };
    pottle_error error = { .code = "untouched" };
    ck_assert_msg(pottle_quantity_read(quantities[_i].text,
                                       quantities[_i].dimension, &q,
                                       &error) == POTTLE_OK,
                  "'%s': %s", quantities[_i].text, error.what);
    ck_assert_msg(near(q.low, quantities[_i].low, 0) &&
                      near(q.high, quantities[_i].high, 0),
                  "'%s'", quantities[_i].text);
    ck_assert_msg(q.unit == unit(quantities[_i].id), "'%s' gives %s",
                  quantities[_i].text, q.unit->id);
    ck_assert_str_eq(error.code, "untouched");
}
END_TEST

static const struct {
    const char *text;
    int dimension;
    pottle_status status;
    const char *code;
} refused[] = {
    { "", -1, POTTLE_ESYNTAX, "no-number" },
    { "cups", -1, POTTLE_ESYNTAX, "no-number" },
    { "-3 cups", -1, POTTLE_ESYNTAX, "no-number" },
    { "1/x cups", -1, POTTLE_ESYNTAX, "no-number" },
    { "nan kg", -1, POTTLE_ESYNTAX, "no-number" },
    { "1/0 cups", -1, POTTLE_EDOMAIN, "number-range" },
    { "2000000000 kg", -1, POTTLE_EDOMAIN, "number-range" },
    { "3-2 kg", -1, POTTLE_EDOMAIN, "number-range" },
    { "3", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 furlongs", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 cups sugar", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 cups 2 tbsp", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3,5 kg", -1, POTTLE_ESYNTAX, "comma" },
    { "1e3 kg", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 \xFF", -1, POTTLE_EUNIT, "unknown-unit" },
    { "3 kg", POTTLE_VOLUME, POTTLE_EUNIT, "dimension" },
    { "3 cups", POTTLE_MASS, POTTLE_EUNIT, "dimension" },
    { "3 cups", 99, POTTLE_EUNIT, "dimension" },
    { "3 oz", POTTLE_VOLUME, POTTLE_EUNIT, "dimension" },
};

START_TEST(quantity_refused)
{
    pottle_quantity q = { -1, -2, unit("kg") };
    pottle_error error;
    const pottle_status status = pottle_quantity_read(
        refused[_i].text, refused[_i].dimension, &q, &error);
    ck_assert_msg(status == refused[_i].status, "'%s' gives status %d",
                  refused[_i].text, (int)status);
    ck_assert_int_eq(error.status, status);
    ck_assert_str_eq(error.code, refused[_i].code);
    ck_assert_uint_gt(strlen(error.what), 0);
    ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
    ck_assert(near(q.low, -1, 0) && near(q.high, -2, 0) &&
              q.unit == unit("kg"));
    ck_assert_int_eq(
        pottle_quantity_read(refused[_i].text, refused[_i].dimension, &q, NULL),
        status);
}
END_TEST

START_TEST(quantity_error_names_both_dimensions)
{
    pottle_quantity q;
    pottle_error error;
    ck_assert_int_eq(pottle_quantity_read("3 kg", POTTLE_VOLUME, &q, &error),
                     POTTLE_EUNIT);
    ck_assert_ptr_nonnull(strstr(error.what, "a mass"));
    ck_assert_ptr_nonnull(strstr(error.what, "a volume"));
}
END_TEST

START_TEST(quantity_misuse)
{
    pottle_quantity q = { -1, -2, NULL };
    pottle_error error;
    ck_assert_int_eq(pottle_quantity_read(NULL, -1, &q, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(error.status, POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_quantity_read("3 kg", -1, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert(near(q.low, -1, 0));
}
END_TEST

/* A message quotes the text cut short; it must not be cut in a character. */
START_TEST(quantity_error_is_valid_text)
{
    for (size_t shift = 0; shift < 2; shift++) {
        char text[200] = "3 x";
        for (size_t i = 2 + shift; i + 3 < sizeof text; i += 2)
            memcpy(text + i, "\xC3\xA9", 3);
        pottle_quantity q;
        pottle_error error;
        ck_assert_int_eq(pottle_quantity_read(text, -1, &q, &error),
                         POTTLE_EUNIT);
        ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
        ck_assert_ptr_nonnull(strstr(error.what, "\xC3\xA9"));
    }
}
END_TEST

/* -- Conversion ------------------------------------------------------------ */

static const struct {
    double value;
    const char *from, *to;
    double result, relative;
    const char *source;
} conversions[] = {
    { 1, "lb", "g", 453.59237, 4e-16, YARD },
    { 1, "gal", "qt", 4, 4e-16, HB44 },
    { 1, "qt", "pt", 2, 4e-16, HB44 },
    { 1, "pt", "cup", 2, 4e-16, HB44 },
    { 1, "cup", "tbsp", 16, 4e-16, HB44 },
    { 1, "tbsp", "tsp", 3, 4e-16, HB44 },
    { 1, "bushel", "peck", 4, 4e-16, HB44 },
    { 1, "peck", "dry-quart", 8, 4e-16, HB44 },
    { 1, "imp-gal", "imp-fl-oz", 160, 4e-16, UK },
    { 2, "dozen", "count", 24, 0, "a dozen" },
    { 6200, "ft", "m", 1889.76, 4e-16, "6200 x 0.3048" },
    { 32, "degf", "degc", 0, 0, "t_C = (t_F - 32) / 1.8" },
    { 212, "degf", "degc", 100, 4e-16, "t_C = (t_F - 32) / 1.8" },
    { 220, "degf", "degc", 104.444444444444444, 4e-16,
      "t_C = (t_F - 32) / 1.8" },
    { 100, "degc", "degf", 212, 4e-16, "t_C = (t_F - 32) / 1.8" },
    { -40, "degc", "degf", -40, 4e-16, "t_C = (t_F - 32) / 1.8" },
    { 5, "percent", "percent", 5, 0, "itself" },
    { 7, "lug", "lug", 7, 0, "itself, whatever it holds" },
    { -3, "kg", "g", -3000, 0, "SI" },
    { 0, "cup", "ml", 0, 0, "nothing" },
};

START_TEST(convert)
{
    double out = 1e99;
    ck_assert_int_eq(pottle_unit_convert(conversions[_i].value,
                                         unit(conversions[_i].from),
                                         unit(conversions[_i].to), &out, NULL),
                     POTTLE_OK);
    /* a difference of large numbers cannot be exact to the last place of a
     * small one */
    const double absolute =
        conversions[_i].result > 0 || conversions[_i].result < 0 ? 0 : 1e-14;
    ck_assert_msg(fabs(out - conversions[_i].result) <=
                      absolute + conversions[_i].relative *
                                     fabs(conversions[_i].result),
                  "%g %s in %s: %.17g, not %.17g (%s)", conversions[_i].value,
                  conversions[_i].from, conversions[_i].to, out,
                  conversions[_i].result, conversions[_i].source);
}
END_TEST

/* Every pair of units of one dimension, there and back. */
START_TEST(there_and_back)
{
    static const double values[] = { 1e-6, 0.25, 1, 3.7, 212, 1e9 };
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++)
        for (size_t k = 0; pottle_unit_at(k) != NULL; k++) {
            const pottle_unit *a = pottle_unit_at(i), *b = pottle_unit_at(k);
            if (a->dimension != b->dimension ||
                (a != b && !(a->factor > 0 && b->factor > 0)))
                continue;
            double there = 0, back = 0;
            ck_assert_int_eq(
                pottle_unit_convert(values[_i], a, b, &there, NULL), POTTLE_OK);
            ck_assert_int_eq(pottle_unit_convert(there, b, a, &back, NULL),
                             POTTLE_OK);
            /* a temperature passes through the offset: an error of the last
             * place of 32 */
            const double absolute =
                a->dimension == POTTLE_TEMPERATURE ? 32 * 4e-16 : 0;
            ck_assert_msg(fabs(back - values[_i]) <=
                              absolute + 8e-16 * values[_i],
                          "%g %s to %s: %.17g", values[_i], a->id, b->id, back);
        }
}
END_TEST

/* Units of two dimensions never convert, whichever they are; nor do containers
 * without a size. */
START_TEST(dimensions_do_not_mix)
{
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++)
        for (size_t k = 0; pottle_unit_at(k) != NULL; k++) {
            const pottle_unit *a = pottle_unit_at(i), *b = pottle_unit_at(k);
            if (a == b || (a->dimension == b->dimension && a->factor > 0 &&
                           b->factor > 0))
                continue;
            double out = -1;
            pottle_error error;
            ck_assert_int_eq(pottle_unit_convert(1, a, b, &out, &error),
                             POTTLE_EUNIT);
            ck_assert_int_eq(error.status, POTTLE_EUNIT);
            ck_assert_ptr_nonnull(strstr(error.what, a->id));
            ck_assert_ptr_nonnull(strstr(error.what, b->id));
            ck_assert(near(out, -1, 0));
        }
}
END_TEST

static const struct {
    double value;
    const char *from, *to;
} not_finite[] = {
    { (double)NAN, "g", "kg" },
    { (double)INFINITY, "g", "kg" },
    { -(double)INFINITY, "g", "g" },
    { DBL_MAX, "kg", "g" }, /* the result is not */
    { -DBL_MAX, "km", "mm" },
};

START_TEST(convert_not_finite)
{
    double out = -1;
    pottle_error error;
    ck_assert_int_eq(pottle_unit_convert(not_finite[_i].value,
                                         unit(not_finite[_i].from),
                                         unit(not_finite[_i].to), &out, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(error.status, POTTLE_EDOMAIN);
    ck_assert(near(out, -1, 0));
}
END_TEST

START_TEST(convert_misuse)
{
    double out = -1;
    ck_assert_int_eq(pottle_unit_convert(1, NULL, unit("g"), &out, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_unit_convert(1, unit("g"), NULL, &out, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_unit_convert(1, unit("g"), unit("g"), NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert(near(out, -1, 0));
}
END_TEST

TCase *
unit_quantities(void)
{
    TCase *t = tcase_create("quantities");
    tcase_add_loop_test(t, scan, 0, COUNT(scans));
    tcase_add_loop_test(t, quantity, 0, COUNT(quantities));
    tcase_add_loop_test(t, quantity_refused, 0, COUNT(refused));
    tcase_add_test(t, quantity_error_names_both_dimensions);
    tcase_add_test(t, quantity_misuse);
    tcase_add_test(t, quantity_error_is_valid_text);
    tcase_add_loop_test(t, convert, 0, COUNT(conversions));
    tcase_add_loop_test(t, there_and_back, 0, 6);
    tcase_add_test(t, dimensions_do_not_mix);
    tcase_add_loop_test(t, convert_not_finite, 0, COUNT(not_finite));
    tcase_add_test(t, convert_misuse);
    return t;
}
