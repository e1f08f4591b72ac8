/* test_fill.c - what a jar holds, and how many jars a volume fills. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "fill_cases.h"
#include "suite.h"

static const double inch_mm = 25.4;

static pottle_catalogue *catalogue;

static pottle_catalogue *
open_with(unsigned parts)
{
    const char *srcdir = getenv("srcdir");
    char folder[1024];
    pottle_catalogue *c = NULL;
    pottle_error error = { .status = POTTLE_OK };
    snprintf(folder, sizeof folder, "%s/recipes",
             srcdir != NULL ? srcdir : ".");
    const pottle_status status =
        pottle_catalogue_open(folder, NULL, parts, &c, &error);
    ck_assert_msg(status == POTTLE_OK, "%s:%ld: %s", error.where, error.line,
                  error.what);
    return c;
}

static void
open_catalogue(void)
{
    catalogue = open_with(POTTLE_WITH_JARS | POTTLE_WITH_FIGURES);
}

static void
close_catalogue(void)
{
    pottle_catalogue_free(catalogue);
    catalogue = NULL;
}

static const pottle_jar *
jar_of(const char *name)
{
    const pottle_jar *jar = NULL;
    ck_assert_msg(pottle_jar_find(catalogue, name, &jar, NULL) == POTTLE_OK,
                  "no jar %s", name);
    return jar;
}

bool
same(double a, double b)
{
    return !(a < b) && !(a > b);
}

/* -- What a jar holds ------------------------------------------------------ */

/* The rule: nominal volume at 1/2 in, other headspaces by the area of the
 * mouth. Area of 60 mm: pi/4 x 3600 = 2827.4334 mm2, of 76 mm: pi/4 x 5776 =
 * 4536.4598 mm2. A quarter inch (6.35 mm) of the first is 17.954 mL, of the
 * second 28.807 mL. Nominal volumes from NIST Handbook 44: 1 US fl oz
 * = 29.5735295625 mL. */
#define HB44                                                                   \
    "NIST Handbook 44: US fluid ounce; nominal at 1/2 in (yield study "        \
    "section 1, step 6)"
#define AREA                                                                   \
    "mouth area by hand: pi/4 x 60 mm x 60 mm (yield study section 1, step "   \
    "6: 71.8 mL an inch)"
#define WIDE                                                                   \
    "mouth area by hand: pi/4 x 76 mm x 76 mm (USDA guide: wide mouth about "  \
    "3 in)"

static const struct {
    const char *jar;
    double headspace_in, ml, within;
    const char *source;
} fills[] = {
    { "quarter-pint", 0.5, 118.29411825, 1e-9, HB44 },
    { "half-pint", 0.5, 236.588236500, 1e-9, HB44 },
    { "250-ml", 0.5, 250, 1e-9, "by its name" },
    { "12-oz", 0.5, 354.88235475, 1e-9, HB44 },
    { "pint", 0.5, 473.176473, 1e-9, HB44 },
    { "500-ml", 0.5, 500, 1e-9, "by its name" },
    { "pint-and-half", 0.5, 709.7647095, 1e-9, HB44 },
    { "28-oz", 0.5, 828.05882775, 1e-9, HB44 },
    { "quart", 0.5, 946.352946, 1e-9, HB44 },
    { "1-l", 0.5, 1000, 1e-9, "by its name" },
    { "half-gallon", 0.5, 1892.705892, 1e-9, HB44 },
    /* 236.5882 + 17.9542 = 254.5424 */
    { "half-pint", 0.25, 254.5424, 5e-5, AREA },
    { "half-pint", 0.25, 254.5, 0.05,
      "yield study section 1, step 6: half-pint at 1/4 in 254.5 mL" },
    { "half-pint", 0.25, 236.5882365 * 1.076, 236.59 * 0.0005,
      "yield study section 6: 7.6 % more than nominal" },
    /* 473.1765 + 9.525 x 2.8274334 = 473.1765 + 26.9313 = 500.1078 */
    { "pint", 0.125, 500.1078, 5e-5, AREA },
    { "pint", 0.125, 500, 0.5,
      "yield study section 1, step 6: pint at 1/8 in 500 mL" },
    { "pint", 0.125, 473.176473 * 1.057, 473.18 * 0.0005,
      "yield study section 6: 5.7 % more than nominal" },
    /* 946.3529 - 12.7 x 2.8274334 = 946.3529 - 35.9084 = 910.4445 */
    { "quart", 1, 910.4445, 5e-5, AREA },
    { "quart", 1, 910, 0.5,
      "yield study section 1, step 6: quart at 1 in 910 mL" },
    { "quart", 1, 946.352946 * 0.962, 946.35 * 0.0005,
      "yield study section 6: 3.8 % less than nominal" },
    /* 946.3529 - 25.4 x 2.8274334 = 946.3529 - 71.8168 = 874.5361 */
    { "quart", 1.5, 874.5361, 5e-5, AREA },
    { "pint", 1.25, 419.3139, 5e-5,
      AREA }, /* 473.1765 - 19.05 x 2.8274334 = 473.1765 - 53.8626 */
    { "500-ml", 0.25, 517.9542, 5e-5, AREA },
    /* sold with a wide mouth only: 709.7647 + 28.8065 = 738.5712; 1892.7059
       + 28.8065 = 1921.5124; 1892.7059 - 57.6130 = 1835.0929 */
    { "pint-and-half", 0.25, 738.5712, 1e-4, WIDE },
    { "half-gallon", 0.25, 1921.5124, 1e-4, WIDE },
    { "half-gallon", 1, 1835.0929, 1e-4, WIDE },
};

START_TEST(fill_of_a_jar)
{
    pottle_estimate out = { -1, -1 };
    const pottle_length headspace = { fills[_i].headspace_in * inch_mm };
    ck_assert_int_eq(pottle_jar_fill(catalogue, jar_of(fills[_i].jar),
                                     headspace, &out, NULL),
                     POTTLE_OK);
    ck_assert_msg(fabs(out.median - fills[_i].ml) <= fills[_i].within,
                  "%s at %g in: %.6f mL, wanted %.6f (%s)", fills[_i].jar,
                  fills[_i].headspace_in, out.median, fills[_i].ml,
                  fills[_i].source);
    ck_assert_msg(fabs(out.sd - 0.03) < 1e-12,
                  "spread %g, yield study section 2: jar volume as filled 0.03",
                  out.sd);
}
END_TEST

/* A quarter inch less adds 17.95 mL to every jar of a regular mouth, wherever
 * it begins. */
START_TEST(quarter_inch_of_a_regular_mouth)
{
    size_t jars = 0;
    const pottle_jar *jar = pottle_jars(catalogue, &jars);
    size_t seen = 0;
    for (size_t i = 0; i < jars; i++) {
        if (!jar[i].regular)
            continue;
        for (double inch = 0.25; inch < 1.3; inch += 0.25) {
            pottle_estimate more, less;
            ck_assert_int_eq(pottle_jar_fill(catalogue, &jar[i],
                                             (pottle_length){ inch * inch_mm },
                                             &more, NULL),
                             POTTLE_OK);
            ck_assert_int_eq(
                pottle_jar_fill(catalogue, &jar[i],
                                (pottle_length){ (inch + 0.25) * inch_mm },
                                &less, NULL),
                POTTLE_OK);
            ck_assert_msg(fabs(more.median - less.median - 17.95) < 0.005,
                          "%s, %g in: %.4f mL (pi/4 x 60 x 60 x 6.35 mm3)",
                          jar[i].id, inch, more.median - less.median);
            seen++;
        }
    }
    ck_assert_uint_ge(seen, 9 * 5);
}
END_TEST

/* The ends of the range: 946.3529 + (12.7 - 2) x 2.8274334 = 976.6065; 946.3529
 * - (60 - 12.7) x 2.8274334 = 812.6153. */
START_TEST(ends_of_the_range)
{
    pottle_estimate out = { -1, -1 };
    ck_assert_int_eq(pottle_jar_fill(catalogue, jar_of("quart"),
                                     (pottle_length){ 2 }, &out, NULL),
                     POTTLE_OK);
    ck_assert_msg(fabs(out.median - 976.6065) < 1e-4, "%.6f mL (" AREA ")",
                  out.median);
    ck_assert_int_eq(pottle_jar_fill(catalogue, jar_of("quart"),
                                     (pottle_length){ 60 }, &out, NULL),
                     POTTLE_OK);
    ck_assert_msg(fabs(out.median - 812.6153) < 1e-4, "%.6f mL (" AREA ")",
                  out.median);
}
END_TEST

/* More headspace is less food, in every jar; at one headspace a larger jar
 * holds more. */
START_TEST(fill_is_monotonic)
{
    size_t jars = 0;
    const pottle_jar *jar = pottle_jars(catalogue, &jars);
    ck_assert_uint_ge(jars, 11);
    for (double mm = 2; mm < 39; mm += 0.125) {
        double smaller = 0;
        for (size_t i = 0; i < jars; i++) {
            pottle_estimate here, below;
            ck_assert_int_eq(pottle_jar_fill(catalogue, &jar[i],
                                             (pottle_length){ mm }, &here,
                                             NULL),
                             POTTLE_OK);
            ck_assert_int_eq(pottle_jar_fill(catalogue, &jar[i],
                                             (pottle_length){ mm + 0.125 },
                                             &below, NULL),
                             POTTLE_OK);
            ck_assert_msg(below.median < here.median, "%s at %g mm", jar[i].id,
                          mm);
            ck_assert_msg(here.median > smaller,
                          "%s at %g mm holds no more than the next smaller jar",
                          jar[i].id, mm);
            ck_assert(below.median > 0);
            smaller = here.median;
        }
    }
}
END_TEST

/* Without figures.xml the rule is the same. */
START_TEST(fill_without_figures)
{
    pottle_catalogue *bare = open_with(POTTLE_WITH_JARS);
    const pottle_jar *jar = NULL;
    ck_assert_int_eq(pottle_jar_find(bare, "half-pint", &jar, NULL), POTTLE_OK);
    pottle_estimate out = { -1, -1 };
    ck_assert_int_eq(
        pottle_jar_fill(bare, jar, (pottle_length){ 6.35 }, &out, NULL),
        POTTLE_OK);
    ck_assert_msg(fabs(out.median - 254.5424) < 5e-5 &&
                      fabs(out.sd - 0.03) < 1e-12,
                  "%g mL, spread %g", out.median, out.sd);
    pottle_catalogue_free(bare);
}
END_TEST

/* A quarter-pint with 60 mm of headspace: 118.29 - 47.3 x 2.827 is below
 * nothing. At 51 mm it is 10.0 mL, under a tenth of the jar. */
static const struct {
    const char *jar;
    double mm;
} no_fills[] = {
    { "pint", 0 },
    { "pint", 1.999 },
    { "pint", -6.35 },
    { "pint", 60.001 },
    { "pint", 1e300 },
    { "pint", (double)NAN },
    { "pint", (double)INFINITY },
    { "pint", -(double)INFINITY },
    { "quarter-pint", 60 },
    { "quarter-pint", 51 },
};

START_TEST(fill_refuses_a_headspace)
{
    pottle_estimate out = { 12, 34 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_jar_fill(catalogue, jar_of(no_fills[_i].jar),
                        (pottle_length){ no_fills[_i].mm }, &out, &error);
    ck_assert_msg(status == POTTLE_EDOMAIN, "%s at %g mm gives status %d",
                  no_fills[_i].jar, no_fills[_i].mm, (int)status);
    ck_assert_int_eq(error.status, POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "headspace");
    ck_assert(error.what[0] != '\0');
    ck_assert(same(out.median, 12) && same(out.sd, 34));
    ck_assert_int_eq(pottle_jar_fill(catalogue, jar_of(no_fills[_i].jar),
                                     (pottle_length){ no_fills[_i].mm }, &out,
                                     NULL),
                     POTTLE_EDOMAIN);
}
END_TEST

START_TEST(fill_misuse)
{
    const pottle_jar *jar = jar_of("pint");
    const pottle_length half = { 12.7 };
    pottle_estimate out = { 12, 34 };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_jar_fill(NULL, jar, half, &out, &error),
                     POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "misuse");
    ck_assert_int_eq(pottle_jar_fill(catalogue, NULL, half, &out, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_jar_fill(catalogue, jar, half, NULL, NULL),
                     POTTLE_EMISUSE);
    /* a catalogue that was opened without its jars knows no mouths */
    pottle_catalogue *bare = open_with(POTTLE_WITH_FIGURES);
    ck_assert_int_eq(pottle_jar_fill(bare, jar, half, &out, NULL),
                     POTTLE_EMISUSE);
    pottle_catalogue_free(bare);
    ck_assert(same(out.median, 12) && same(out.sd, 34));
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("fill");
    TCase *t = tcase_create("fill");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, fill_of_a_jar, 0, COUNT(fills));
    tcase_add_test(t, ends_of_the_range);
    tcase_add_test(t, quarter_inch_of_a_regular_mouth);
    tcase_add_test(t, fill_is_monotonic);
    tcase_add_test(t, fill_without_figures);
    tcase_add_loop_test(t, fill_refuses_a_headspace, 0, COUNT(no_fills));
    tcase_add_test(t, fill_misuse);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, fill_count());

    return suite_run(suite);
}
