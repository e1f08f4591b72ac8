/* test_fill.c - what a jar holds, and how many jars a volume fills. */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"
#include "suite.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

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

static bool
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

/* -- How many jars --------------------------------------------------------- */

/* By hand. The normal quantile at 90 % is 1.2815516; volume and fill add as
 * hypot(sd, sd). */
static const struct {
    pottle_estimate volume, fill;
    unsigned long promise, prepare, full;
    double count, remainder_ml;
    const char *why;
} counts[] = {
    { { 1000, 0 }, { 250, 0 }, 4, 4, 4, 4, 0, "1000 / 250 = 4" },
    { { 1100, 0 }, { 250, 0 }, 4, 5, 4, 4.4, 100, "1100 - 4 x 250 = 100" },
    { { 249.5, 0 }, { 250, 0 }, 0, 1, 0, 0.998, 249.5, "not one jar" },
    { { 250, 0 }, { 250, 0 }, 1, 1, 1, 1, 0, "one jar" },
    { { 250.5, 0 }, { 250, 0 }, 1, 2, 1, 1.002, 0.5, "one jar and a spoonful" },
    { { 6624.470622, 0 }, { 946.352946, 0 }, 7, 7, 7, 7, 0, "7 quarts" },
    { { 0.3, 0 },
      { 0.1, 0 },
      3,
      3,
      3,
      3,
      0,
      "0.3 / 0.1 in binary is a little less than 3" },
    /* 2000 / 236.5882365 = 8.45350; exp(0.2563103) = 1.292154: 6.5422
       to 10.9233; 2000 - 8 x 236.5882365 = 107.294108 */
    { { 2000, 0.2 },
      { 236.5882365, 0 },
      6,
      11,
      8,
      8.4535,
      107.294108,
      "half-pints, x/div 1.29" },
    { { 2000, 0 },
      { 236.5882365, 0.2 },
      6,
      11,
      8,
      8.4535,
      107.294108,
      "the spread of the fill counts as much" },
    /* hypot(0.15, 0.08) = 0.17; 5000 / 473.176473 = 10.566882; exp(0.2178638)
       = 1.243417: 8.4983 to 13.1390; 5000 - 4731.76473 = 268.23527 */
    { { 5000, 0.15 },
      { 473.176473, 0.08 },
      8,
      14,
      10,
      10.566882,
      268.23527,
      "pints, two spreads" },
    /* hypot(0.2, 0.03) = 0.2022375; 2100 / 254.5424 = 8.250099; exp(0.2591777)
       = 1.295864: 6.3665 to 10.6910; 2100 - 2036.3392 = 63.6608 */
    { { 2100, 0.2 },
      { 254.5424, 0.03 },
      6,
      11,
      8,
      8.250099,
      63.6608,
      "half-pints of jam at 1/4 in" },
    /* 100 / 946.352946 = 0.1056688; exp(0.6407758) = 1.897952: 0.05568 to
       0.20056 */
    { { 100, 0.5 },
      { 946.352946, 0 },
      0,
      1,
      0,
      0.1056688,
      100,
      "a tenth of a quart" },
    { { 1e-6, 0 },
      { 1000, 0 },
      0,
      1,
      0,
      1e-9,
      1e-6,
      "next to nothing still needs a jar" },
};

START_TEST(count_by_hand)
{
    pottle_jar_count out = { 0 };
    ck_assert_int_eq(
        pottle_jars_count(counts[_i].volume, counts[_i].fill, &out), POTTLE_OK);
    ck_assert_msg(
        out.promise == counts[_i].promise &&
            out.prepare == counts[_i].prepare && out.full == counts[_i].full,
        "%s: promise %lu, prepare %lu, full %lu; wanted %lu, %lu, %lu",
        counts[_i].why, out.promise, out.prepare, out.full, counts[_i].promise,
        counts[_i].prepare, counts[_i].full);
    ck_assert_msg(fabs(out.count.median - counts[_i].count) <=
                      1e-6 * counts[_i].count,
                  "%s: %.9g jars, wanted %.9g", counts[_i].why,
                  out.count.median, counts[_i].count);
    ck_assert_msg(fabs(out.remainder_ml - counts[_i].remainder_ml) < 1e-5,
                  "%s: %.9g mL left, wanted %.9g", counts[_i].why,
                  out.remainder_ml, counts[_i].remainder_ml);
    ck_assert(same(out.volume_ml.median, counts[_i].volume.median) &&
              same(out.volume_ml.sd, counts[_i].volume.sd));
    ck_assert(same(out.fill_ml.median, counts[_i].fill.median) &&
              same(out.fill_ml.sd, counts[_i].fill.sd));
    ck_assert(fabs(out.count.sd -
                   hypot(counts[_i].volume.sd, counts[_i].fill.sd)) < 1e-12);
}
END_TEST

/* Chance that a lognormal of median m and spread sd is at least x; another way
 * to it than the quantile of the library. */
static double
chance_of_at_least(double m, double sd, double x)
{
    return x > 0 ? 0.5 * erfc(log(x / m) / (sd * sqrt(2.0))) : 1;
}

static const double spreads[] = { 0, 0.01, 0.03, 0.1, 0.15, 0.2, 0.35, 0.6 };

/* Nine chances in ten: the promise is the largest count that is filled so
 * often, what is to be prepared the smallest that suffices. */
START_TEST(count_keeps_its_promise)
{
    const double sd = spreads[_i];
    for (double volume = 5; volume < 1e5; volume *= 1.037) {
        pottle_jar_count out = { 0 };
        ck_assert_int_eq(pottle_jars_count((pottle_estimate){ volume, sd },
                                           (pottle_estimate){ 254.54, 0.03 },
                                           &out),
                         POTTLE_OK);
        const double m = volume / 254.54, all = hypot(sd, 0.03), slack = 1e-6;
        ck_assert_msg(chance_of_at_least(m, all, (double)out.promise) >=
                          0.9 - slack,
                      "%g mL, spread %g: promise %lu is too much", volume, sd,
                      out.promise);
        ck_assert_msg(chance_of_at_least(m, all, (double)out.promise + 1) <=
                          0.9 + slack,
                      "%g mL, spread %g: promise %lu is too little", volume, sd,
                      out.promise);
        ck_assert_msg(chance_of_at_least(m, all, (double)out.prepare) <=
                          0.1 + slack,
                      "%g mL, spread %g: prepare %lu is too little", volume, sd,
                      out.prepare);
        ck_assert_msg(chance_of_at_least(m, all, (double)out.prepare - 1) >=
                          0.1 - slack,
                      "%g mL, spread %g: prepare %lu is too much", volume, sd,
                      out.prepare);
    }
}
END_TEST

START_TEST(count_is_in_order)
{
    const double sd = spreads[_i];
    pottle_jar_count before = { 0 };
    for (double volume = 1; volume < 1e6; volume *= 1.0113) {
        pottle_jar_count out = { 0 }, larger = { 0 }, wider = { 0 };
        const pottle_estimate fill = { 236.5882365, 0 };
        ck_assert_int_eq(
            pottle_jars_count((pottle_estimate){ volume, sd }, fill, &out),
            POTTLE_OK);
        /* promise <= expected <= prepare */
        ck_assert_msg((double)out.promise <= out.count.median * (1 + 1e-8) &&
                          out.count.median <= (double)out.prepare * (1 + 1e-8),
                      "%g mL, spread %g: %lu, %g, %lu", volume, sd, out.promise,
                      out.count.median, out.prepare);
        ck_assert(out.promise <= out.full && out.full <= out.prepare);
        /* nothing is lost: full jars and the remainder, which is less than a
         * jar */
        ck_assert_msg(fabs((double)out.full * 236.5882365 + out.remainder_ml -
                           volume) <= 1e-7 * volume,
                      "%g mL: %lu jars and %g mL", volume, out.full,
                      out.remainder_ml);
        ck_assert(out.remainder_ml >= 0 && out.remainder_ml < 236.5882365);
        /* more volume, never fewer jars; larger jars, never more; less known, a
         * wider range */
        ck_assert(out.promise >= before.promise &&
                  out.prepare >= before.prepare && out.full >= before.full);
        ck_assert_int_eq(pottle_jars_count((pottle_estimate){ volume, sd },
                                           (pottle_estimate){ 473.176473, 0 },
                                           &larger),
                         POTTLE_OK);
        ck_assert(larger.promise <= out.promise &&
                  larger.prepare <= out.prepare && larger.full <= out.full);
        ck_assert_int_eq(
            pottle_jars_count((pottle_estimate){ volume, sd + 0.05 }, fill,
                              &wider),
            POTTLE_OK);
        ck_assert(wider.promise <= out.promise &&
                  wider.prepare >= out.prepare && wider.full == out.full);
        before = out;
    }
}
END_TEST

/* A sea of jam in thimbles: more jars than the largest number that is read are
 * no answer, and nothing is written. */
START_TEST(count_does_not_wrap)
{
    pottle_jar_count out = { .promise = 7, .full = 8, .prepare = 9 };
    ck_assert_int_eq(pottle_jars_count((pottle_estimate){ 1e12, 0.2 },
                                       (pottle_estimate){ 1e-3, 0 }, &out),
                     POTTLE_EDOMAIN);
    ck_assert(out.promise == 7 && out.full == 8 && out.prepare == 9);
    /* 9e8 jars of 1 mL are still counted */
    ck_assert_int_eq(pottle_jars_count((pottle_estimate){ 9e8, 0 },
                                       (pottle_estimate){ 1, 0 }, &out),
                     POTTLE_OK);
    ck_assert_uint_eq(out.full, 900000000);
}
END_TEST

static const pottle_estimate no_estimates[] = {
    { 0, 0 },
    { -1, 0 },
    { (double)NAN, 0 },
    { (double)INFINITY, 0 },
    { -(double)INFINITY, 0 },
    { 1e13, 0 },
    { 100, -0.1 },
    { 100, (double)NAN },
    { 100, (double)INFINITY },
    { 100, 11 },
};

START_TEST(count_refuses)
{
    const pottle_estimate good = { 250, 0.1 };
    pottle_jar_count out, kept;
    memset(&out, 0x5A, sizeof out);
    memcpy(&kept, &out, sizeof out);
    const pottle_status of_volume =
        pottle_jars_count(no_estimates[_i], good, &out);
    const pottle_status of_fill =
        pottle_jars_count(good, no_estimates[_i], &out);
    ck_assert_msg(of_volume == POTTLE_EDOMAIN,
                  "volume %g, spread %g: status %d", no_estimates[_i].median,
                  no_estimates[_i].sd, (int)of_volume);
    ck_assert_msg(of_fill == POTTLE_EDOMAIN, "fill %g, spread %g: status %d",
                  no_estimates[_i].median, no_estimates[_i].sd, (int)of_fill);
    ck_assert_mem_eq(&out, &kept, sizeof out);
    ck_assert_int_eq(pottle_jars_count(good, good, NULL), POTTLE_EMISUSE);
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

    t = tcase_create("count");
    tcase_add_loop_test(t, count_by_hand, 0, COUNT(counts));
    tcase_add_loop_test(t, count_keeps_its_promise, 0, COUNT(spreads));
    tcase_add_loop_test(t, count_is_in_order, 0, COUNT(spreads));
    tcase_add_test(t, count_does_not_wrap);
    tcase_add_loop_test(t, count_refuses, 0, COUNT(no_estimates));
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
