/* test_own_jar.c - jars weighed with water, the shelf and the cup of a kitchen.
 *
 * Volumes are worked by hand from the readings with the density of water at 20
 * deg C, 0.998207 g/mL (Tanaka et al. 2001, table: 998.2067 kg/m3), and at 10
 * and 25 deg C, 999.7026 and 997.0470 kg/m3. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "own_jar_cases.h"
#include "suite.h"

pottle_quantity
q(double value, const char *unit)
{
    const pottle_quantity quantity = { value, value, pottle_unit_find(unit) };
    ck_assert_ptr_nonnull(quantity.unit);
    return quantity;
}

/* 452 g empty, 934 g full, in water of 20 deg C, on a scale with 1 g error. */
pottle_own_jar
tall(void)
{
    pottle_own_jar jar;
    memset(&jar, 0, sizeof jar);
    strcpy(jar.id, "tall");
    jar.empty = q(452, "g");
    jar.full = q(934, "g");
    jar.water = q(20, "degc");
    jar.scale = q(1, "g");
    return jar;
}

static void
is_near(const char *what, pottle_estimate have, double ml, double sd)
{
    ck_assert_msg(fabs(have.median - ml) < 2e-3,
                  "%s: expected %.4f mL, found %.4f", what, ml, have.median);
    ck_assert_msg(fabs(have.sd - sd) < 2e-6,
                  "%s: expected a spread of %.6f, found %.6f", what, sd,
                  have.sd);
}

/* -- The brim -------------------------------------------------------------- */

START_TEST(brim_by_hand)
{
    pottle_own_jar jar = tall();
    pottle_estimate out;
    /* 482 g / 0.9982067 = 482.8659 mL; 1 g twice: sqrt(2) / 482 = 0.002934 */
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, &jar, &out, NULL), POTTLE_OK);
    is_near("1 g", out, 482.8659, 0.0029340);
    jar.water = q(68, "degf"); /* 20 deg C */
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, &jar, &out, NULL), POTTLE_OK);
    is_near("68 degF", out, 482.8659, 0.0029340);
    /* 0.5 % of each reading: 2.26 and 4.67 g, together sqrt(5.1076 + 21.8089)
     * = 5.18811 g of 482 */
    jar.scale = q(0.5, "percent");
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, &jar, &out, NULL), POTTLE_OK);
    is_near("0.5 percent", out, 482.8659, 5.18811 / 482);
    /* the figure error-scale is the same 0.5 % */
    jar.scale.unit = NULL;
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, &jar, &out, NULL), POTTLE_OK);
    is_near("no error said", out, 482.8659, 5.18811 / 482);
    /* in pounds: 0.99648 lb is 452.0 g; a tenth of an ounce, 2.834952 g, twice
     * over 482 g */
    jar.empty = q(452 / 453.59237, "lb");
    jar.full = q(934 / 453.59237, "lb");
    jar.scale = q(0.1, "oz");
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, &jar, &out, NULL), POTTLE_OK);
    is_near("pounds", out, 482.8659, sqrt(2) * 2.834952 / 482);
}
END_TEST

START_TEST(brim_with_water_from_the_tap)
{
    pottle_own_jar jar = tall();
    pottle_estimate out;
    jar.water.unit = NULL;
    /* between 10 and 25 deg C: 482 / sqrt(0.9997026 x 0.9970470) = 482.7851 mL,
     * and ln(0.9997026 / 0.9970470) = 0.0026599 is twice 1.64485 deviations:
     * 0.00080856; with 0.0029340 of the scale, 0.0030434 */
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, &jar, &out, NULL), POTTLE_OK);
    is_near("tap", out, 482.7851, 0.0030434);
}
END_TEST

/* -- At a headspace -------------------------------------------------------- */

static const struct {
    double mm, ml, sd;
    const char *how;
} by_mark[] = {
    /* at the mark itself: (880 - 452) / 0.9982067 = 428.7689; readings 1 g
     * twice, and half a millimetre of 13 mm of 54 g: 54 x 0.5 / 13 = 2.07692 g;
     * sqrt(2 + 4.31361) = 2.51269 g of 428 */
    { 13, 428.7689, 2.51269 / 428, "at the mark" },
    /* half-way: (934 + 880) / 2 - 452 = 455 g, 455.8174 mL; sqrt(0.25 + 0.25 +
       1 + 1.03846^2) = 1.60574 g */
    { 6.5, 455.8174, 1.60574 / 455, "half-way to the mark" },
    /* 1/2 in: 12.7 / 13 = 0.976923; 0.023077 x 934 + 0.976923 x 880 - 452 =
     * 429.24615 g, 430.0173 mL; sqrt(0.000533 + 0.954379 + 1 + (0.976923 x 54 x
     * 0.5 / 13)^2) = sqrt(1.954911 + 4.116821) = 2.46409 g */
    { 12.7, 430.0173, 2.46409 / 429.24615, "1/2 in" },
};

START_TEST(fill_by_a_mark)
{
    pottle_own_jar jar = tall();
    pottle_estimate out;
    jar.to_mark = q(880, "g");
    jar.mark = q(13, "mm");
    ck_assert_int_eq(pottle_own_jar_fill(kitchen, &jar,
                                         (pottle_length){ by_mark[_i].mm },
                                         &out, NULL),
                     POTTLE_OK);
    is_near(by_mark[_i].how, out, by_mark[_i].ml, by_mark[_i].sd);
    /* a mouth beside it changes nothing: the mark is nearer to the truth */
    jar.mouth = q(60, "mm");
    ck_assert_int_eq(pottle_own_jar_fill(kitchen, &jar,
                                         (pottle_length){ by_mark[_i].mm },
                                         &out, NULL),
                     POTTLE_OK);
    is_near(by_mark[_i].how, out, by_mark[_i].ml, by_mark[_i].sd);
}
END_TEST

START_TEST(fill_by_the_mouth)
{
    pottle_own_jar jar = tall();
    pottle_estimate out;
    jar.mouth = q(60, "mm");
    /* 1/4 in: 6.35 mm x pi/4 x 60^2 mm2 = 17.9542 mL less; readings 2 /
     * 0.9982067^2 = 2.007192 mL2, the ruler's half millimetre 6.35 x pi/2 x 60
     * x 0.5 / 1000 = 0.299237 mL; sqrt(2.096735) = 1.448011 mL */
    ck_assert_int_eq(
        pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 6.35 }, &out, NULL),
        POTTLE_OK);
    is_near("60 mm", out, 482.8659 - 17.9542, 1.448011 / 464.9117);
    jar.mouth = q(2.3622047244, "in"); /* 60 mm */
    ck_assert_int_eq(
        pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 6.35 }, &out, NULL),
        POTTLE_OK);
    is_near("2.36 in", out, 464.9117, 1.448011 / 464.9117);
}
END_TEST

START_TEST(fill_by_the_listed_mouths)
{
    pottle_own_jar jar = tall();
    pottle_estimate out;
    /* between 60 and 76 mm: pi/4 x 60 x 76 = 3581.416 mm2, times 12.7
     * mm 45.4840 mL; ln(76^2/60^2) / 3.2897073 = 0.143714 of it, 6.53671 mL;
     * with 2.007192 mL2 of the readings sqrt(44.7357) = 6.68847 mL of 437.3819
     */
    ck_assert_int_eq(
        pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 12.7 }, &out, NULL),
        POTTLE_OK);
    ck_assert_msg(fabs(out.median - 437.3819) < 2e-3 &&
                      fabs(out.sd - 6.68847 / 437.3819) < 2e-5,
                  "found %.4f, %.6f", out.median, out.sd);
    strcpy(jar.near, "pint");
    ck_assert_int_eq(
        pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 12.7 }, &out, NULL),
        POTTLE_OK);
    ck_assert(fabs(out.median - 437.3819) < 2e-3);
    /* a size sold with one mouth only: 12 oz regular, 12.7 x 2827.433 / 1000
     * = 35.9084; pint and a half wide, 12.7 x 4536.460 = 57.6130 */
    strcpy(jar.near, "12-oz");
    ck_assert_int_eq(
        pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 12.7 }, &out, NULL),
        POTTLE_OK);
    is_near("regular", out, 482.8659 - 35.9084, sqrt(2.007192) / 446.9575);
    strcpy(jar.near, "pint-and-half");
    ck_assert_int_eq(
        pottle_own_jar_fill(kitchen, &jar, (pottle_length){ 12.7 }, &out, NULL),
        POTTLE_OK);
    is_near("wide", out, 482.8659 - 57.6130, sqrt(2.007192) / 425.2529);
}
END_TEST

/* More headspace is less food, a worse scale a wider answer, and the brim more
 * than either. */
START_TEST(fill_falls_with_the_headspace)
{
    pottle_own_jar jar = tall();
    pottle_estimate brim, before, out;
    if (_i % 3 == 1)
        jar.mouth = q(30 + _i, "mm");
    if (_i % 3 == 2) {
        jar.to_mark = q(800 + _i, "g");
        jar.mark = q(20 + _i, "mm");
    }
    jar.scale = q(0.1 + 0.1 * _i, "g");
    ck_assert_int_eq(pottle_own_jar_brim(kitchen, &jar, &brim, NULL),
                     POTTLE_OK);
    before = brim;
    for (double mm = 2; mm <= 60; mm += 0.5) {
        if (pottle_own_jar_fill(kitchen, &jar, (pottle_length){ mm }, &out,
                                NULL) != POTTLE_OK)
            break;
        ck_assert_msg(out.median < before.median && out.median > 0, "%g mm",
                      mm);
        before = out;
        pottle_own_jar worse = jar;
        worse.scale = q(2 + 0.1 * _i, "g");
        pottle_estimate wide;
        ck_assert_int_eq(pottle_own_jar_fill(kitchen, &worse,
                                             (pottle_length){ mm }, &wide,
                                             NULL),
                         POTTLE_OK);
        ck_assert(wide.sd > out.sd && fabs(wide.median - out.median) < 1e-9);
    }
    ck_assert(before.median < brim.median);
}
END_TEST

/* -- The size whose process it takes --------------------------------------- */

/* Volumes at 1/2 in of a jar with a mouth of 60 mm and a perfect scale. The
 * ruler's half millimetre is 12.7 x pi/2 x 60 x 0.5 / 1000 = 0.59847 mL, so the
 * upper end lies 1.64485 x 0.59847 = 0.984 mL higher, and a pint goes up to
 * 473.1765 x 1.05 - 0.984 = 495.85 mL. */
static const struct {
    double ml;
    const char *near, *size;
} sizes[] = {
    { 100, "", "quarter-pint" },
    { 123.1, "", "quarter-pint" },
    { 123.4, "", "half-pint" }, /* 118.2941 x 1.05 - 0.984 = 123.22 */
    { 247.3, "", "half-pint" },
    { 247.6, "", "250-ml" }, /* 236.5882 x 1.05 - 0.984 = 247.43 */
    { 495.7, "", "pint" },
    { 496.0, "", "500-ml" },
    { 992.6, "", "quart" },
    { 992.8, "", "1-l" }, /* 946.3529 x 1.05 - 0.984 = 992.69 */
    { 1986.2, "", "half-gallon" },
    { 1986.6, "", NULL }, /* 1892.7059 x 1.05 - 0.984 = 1986.36 */
    { 400, "quart", "quart" },
    { 400, "half-pint", "pint" },
    { 495.7, "pint", "pint" },
    { 496.0, "pint", "500-ml" },
    { 3000, "pint", NULL },
    { 100, "half-gallon", "half-gallon" },
};

static pottle_own_jar
holding(double ml, double scale_g)
{
    pottle_own_jar jar = tall();
    jar.mouth = q(60, "mm");
    jar.empty = q(400, "g");
    jar.full =
        q(400 + (ml + 12.7 * 0.25 * 3.141592653589793 * 3.6) * RHO20, "g");
    jar.scale = q(scale_g, "g");
    return jar;
}

START_TEST(size_by_hand)
{
    pottle_own_jar jar = holding(sizes[_i].ml, 0.001);
    const pottle_jar *out = NULL;
    pottle_error error = { .status = POTTLE_OK };
    strcpy(jar.near, sizes[_i].near);
    const pottle_status status =
        pottle_own_jar_size(kitchen, &jar, &out, &error);
    if (sizes[_i].size == NULL) {
        ck_assert_int_eq(status, POTTLE_EBOUNDS);
        ck_assert_str_eq(error.code, "jar-larger");
        ck_assert_str_eq(error.source,
                         "nchfp"); /* of the rule jar-size-larger */
        ck_assert_ptr_null(out);
        return;
    }
    ck_assert_msg(status == POTTLE_OK, "%s", error.what);
    ck_assert_msg(strcmp(out->id, sizes[_i].size) == 0,
                  "%g mL, near '%s': expected %s, found %s", sizes[_i].ml,
                  sizes[_i].near, sizes[_i].size, out->id);
}
END_TEST

/* On a scale with 1 g error: 4 % over a pint is a pint, 6 % over takes the next
 * larger. */
START_TEST(size_on_a_kitchen_scale)
{
    const pottle_jar *out = NULL;
    pottle_own_jar jar = holding(1.04 * 473.1765, 1);
    ck_assert_int_eq(pottle_own_jar_size(kitchen, &jar, &out, NULL), POTTLE_OK);
    ck_assert_str_eq(out->id, "pint");
    jar = holding(1.06 * 473.1765, 1);
    ck_assert_int_eq(pottle_own_jar_size(kitchen, &jar, &out, NULL), POTTLE_OK);
    ck_assert_str_eq(out->id, "500-ml");
    /* what may be larger is taken for larger: 4 % over, but read on a scale
     * that is 10 g out */
    jar = holding(1.04 * 473.1765, 10);
    ck_assert_int_eq(pottle_own_jar_size(kitchen, &jar, &out, NULL), POTTLE_OK);
    ck_assert_str_eq(out->id, "500-ml");
}
END_TEST

/* A larger jar never takes a smaller one's process. */
START_TEST(size_is_monotonic)
{
    double before = 0;
    for (double ml = 60; ml < 1980; ml += 3.7) {
        const pottle_own_jar jar = holding(ml, 0.5);
        const pottle_jar *out = NULL;
        ck_assert_int_eq(pottle_own_jar_size(kitchen, &jar, &out, NULL),
                         POTTLE_OK);
        ck_assert_msg(out->nominal_ml >= before && out->nominal_ml * 1.05 >= ml,
                      "%g mL takes %s", ml, out->id);
        before = out->nominal_ml;
    }
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("own jar");
    TCase *t = tcase_create("volume");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, brim_by_hand);
    tcase_add_test(t, brim_with_water_from_the_tap);
    tcase_add_loop_test(t, fill_by_a_mark, 0, COUNT(by_mark));
    tcase_add_test(t, fill_by_the_mouth);
    tcase_add_test(t, fill_by_the_listed_mouths);
    tcase_add_loop_test(t, fill_falls_with_the_headspace, 0, 30);
    suite_add_tcase(suite, t);

    t = tcase_create("size");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, size_by_hand, 0, COUNT(sizes));
    tcase_add_test(t, size_on_a_kitchen_scale);
    tcase_add_test(t, size_is_monotonic);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, own_jar_refused());
    suite_add_tcase(suite, own_jar_shelf());
    return suite_run(suite);
}
