/* fill_count.c - test_fill: how many jars a volume fills. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "fill_cases.h"

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

TCase *
fill_count(void)
{
    TCase *t = tcase_create("count");
    tcase_add_loop_test(t, count_by_hand, 0, COUNT(counts));
    tcase_add_loop_test(t, count_keeps_its_promise, 0, COUNT(spreads));
    tcase_add_loop_test(t, count_is_in_order, 0, COUNT(spreads));
    tcase_add_test(t, count_does_not_wrap);
    tcase_add_loop_test(t, count_refuses, 0, COUNT(no_estimates));
    return t;
}
