/* test_estimate.c - quantities known to within a factor, against a Monte-Carlo.
 *
 * Draws are seeded, so a run is repeatable. A tolerance is four standard errors
 * of what the draws give: the mean of n draws errs by sd/sqrt(n), their
 * standard deviation by sd/sqrt(2 n), a share p by sqrt(p (1 - p)/n). */
#include <config.h>

#include <check.h>
#include <float.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "internal.h"
#include "suite.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

enum { DRAWS = 200000, SIGMAS = 4 };

static bool
near(double a, double b, double relative)
{
    return fabs(a - b) <= relative * fabs(b);
}

static gsl_rng *
generator(int seed)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    ck_assert_ptr_nonnull(rng);
    gsl_rng_set(rng, 20260000u + (unsigned long)seed);
    return rng;
}

static double
draw(const gsl_rng *rng, pottle_estimate e)
{
    return e.median * exp(gsl_ran_gaussian(rng, e.sd));
}

/* Mean and standard deviation as draws come in (Welford). */
typedef struct sample {
    double n, mean, squares;
} sample;

static void
sample_add(sample *s, double x)
{
    s->n += 1;
    const double d = x - s->mean;
    s->mean += d / s->n;
    s->squares += d * (x - s->mean);
}

static double
sample_sd(const sample *s)
{
    return sqrt(s->squares / (s->n - 1));
}

/* The logarithm of the draws must be normal with ln(median) and sd. */
static void
check_logarithms(const sample *s, pottle_estimate e, const char *what)
{
    const double error = SIGMAS * e.sd / sqrt(s->n);
    ck_assert_msg(fabs(s->mean - log(e.median)) <= error,
                  "%s: median %g, draws %g, tolerance %.2g", what, e.median,
                  exp(s->mean), error);
    ck_assert_msg(fabs(sample_sd(s) - e.sd) <= error / sqrt(2),
                  "%s: sd %g, draws %g, tolerance %.2g", what, e.sd,
                  sample_sd(s), error / sqrt(2));
}

static const struct {
    pottle_estimate a, b;
} pairs[] = {
    { { 1, 0.1 }, { 1, 0.1 } },         { { 50, 0.2 }, { 0.82, 0.05 } },
    { { 0.003, 0.5 }, { 4000, 0.01 } }, { { 7, 0.3 }, { 2.5, 0 } },
    { { 17, 0.9 }, { 12, 0.7 } },
};

START_TEST(product_and_quotient)
{
    gsl_rng *rng = generator(_i);
    const pottle_estimate a = pairs[_i].a, b = pairs[_i].b;
    sample times = { 0 }, over = { 0 };
    for (int i = 0; i < DRAWS; i++) {
        const double x = draw(rng, a), y = draw(rng, b);
        sample_add(&times, log(x * y));
        sample_add(&over, log(x / y));
    }
    gsl_rng_free(rng);
    check_logarithms(&times, pottle_estimate_times(a, b), "product");
    check_logarithms(&over, pottle_estimate_over(a, b), "quotient");
}
END_TEST

START_TEST(multiple)
{
    gsl_rng *rng = generator(100 + _i);
    sample s = { 0 };
    for (int i = 0; i < DRAWS; i++)
        sample_add(&s, log(3.25 * draw(rng, pairs[_i].a)));
    gsl_rng_free(rng);
    check_logarithms(&s, pottle_estimate_multiple(pairs[_i].a, 3.25),
                     "multiple");
}
END_TEST

enum { TERMS_MAX = 6 };

static const struct {
    size_t n;
    pottle_estimate term[TERMS_MAX];
} sums[] = {
    { 2, { { 1, 0.1 }, { 1, 0.1 } } },
    { 2, { { 10, 0.3 }, { 1, 0.3 } } },
    { 3, { { 2, 0.2 }, { 3, 0.1 }, { 0.5, 0.4 } } },
    { 6,
      { { 1, 0.3 },
        { 1, 0.3 },
        { 1, 0.3 },
        { 1, 0.3 },
        { 1, 0.3 },
        { 1, 0.3 } } },
    { 2, { { 5, 0 }, { 5, 0.25 } } },
    { 1, { { 4, 0.35 } } },
};

/* The sum has the mean and variance of the draws. The standard error of a
 * variance is sqrt((m4 - m2^2)/n) with the fourth moment of the draws; those
 * are kept for it. */
START_TEST(sum)
{
    gsl_rng *rng = generator(200 + _i);
    double *x = calloc(DRAWS, sizeof *x);
    ck_assert_ptr_nonnull(x);
    sample s = { 0 };
    for (size_t i = 0; i < DRAWS; i++) {
        for (size_t k = 0; k < sums[_i].n; k++)
            x[i] += draw(rng, sums[_i].term[k]);
        sample_add(&s, x[i]);
    }
    gsl_rng_free(rng);
    const pottle_estimate e = pottle_estimate_sum(sums[_i].term, sums[_i].n);
    const double mean = e.median * exp(e.sd * e.sd / 2),
                 variance = mean * mean * expm1(e.sd * e.sd);

    double m4 = 0;
    for (size_t i = 0; i < DRAWS; i++)
        m4 += pow(x[i] - s.mean, 4) / DRAWS;
    const double m2 = sample_sd(&s) * sample_sd(&s);
    const double mean_error = SIGMAS * sqrt(m2 / DRAWS),
                 variance_error = SIGMAS * sqrt((m4 - m2 * m2) / DRAWS);
    ck_assert_msg(fabs(mean - s.mean) <= mean_error,
                  "mean %g, draws %g, tolerance %.2g", mean, s.mean,
                  mean_error);
    ck_assert_msg(fabs(variance - m2) <= variance_error,
                  "variance %g, draws %g, tolerance %.2g", variance, m2,
                  variance_error);

    /* A sum is not quite lognormal. The claim checked here: with spreads up to
     * 0.4 each, between its 5 % and 95 % points lie 90 % of the draws within 1
     * %, besides the sampling error. */
    const pottle_interval range = pottle_estimate_interval(e);
    double inside = 0;
    for (size_t i = 0; i < DRAWS; i++)
        inside += x[i] >= range.low && x[i] <= range.high ? 1 : 0;
    free(x);
    const double tolerance = 0.01 + SIGMAS * sqrt(0.9 * 0.1 / DRAWS);
    ck_assert_msg(fabs(inside / DRAWS - 0.9) <= tolerance,
                  "%g of the draws lie inside", inside / DRAWS);
}
END_TEST

START_TEST(sum_of_exact_terms_is_exact)
{
    const pottle_estimate terms[] = { { 1.5, 0 }, { 2, 0 }, { 0.25, 0 } };
    const pottle_estimate e = pottle_estimate_sum(terms, COUNT(terms));
    ck_assert(near(e.median, 3.75, 0) && near(e.sd, 0, 0));
}
END_TEST

START_TEST(sum_of_nothing)
{
    pottle_estimate e = pottle_estimate_sum(NULL, 0);
    ck_assert(near(e.median, 0, 0) && near(e.sd, 0, 0));
    const pottle_estimate none[] = { { 0, 0.2 }, { 0, 0 } };
    e = pottle_estimate_sum(none, COUNT(none));
    ck_assert(near(e.median, 0, 0) && near(e.sd, 0, 0));
}
END_TEST

static const struct {
    double prior_sd, measured_sd;
} updates[] = {
    { 0.3, 0.1 },
    { 0.1, 0.3 },
    { 0.5, 0.5 },
    { 0.25, 0.02 },
};

/* What combine is for: something known to within prior_sd is measured to within
 * measured_sd. Given the measurement, the truth must lie about the combined
 * median with the combined spread: their quotient is a standard normal draw. */
START_TEST(combine)
{
    gsl_rng *rng = generator(300 + _i);
    const pottle_estimate prior = { 12, updates[_i].prior_sd };
    sample residual = { 0 };
    for (int i = 0; i < DRAWS; i++) {
        const double truth = draw(rng, prior);
        const pottle_estimate measured = {
            draw(rng, (pottle_estimate){ truth, updates[_i].measured_sd }),
            updates[_i].measured_sd
        };
        const pottle_estimate both = pottle_estimate_combine(prior, measured);
        sample_add(&residual, log(truth / both.median) / both.sd);
    }
    gsl_rng_free(rng);
    check_logarithms(&residual, (pottle_estimate){ 1, 1 }, "residual");
}
END_TEST

START_TEST(combine_by_hand)
{
    /* precisions 1/0.01 and 1/0.04 weigh 4 to 1; ln 8 and ln 2 give ln 2 (3 x 4
     * + 1)/5 */
    const pottle_estimate e = pottle_estimate_combine(
        (pottle_estimate){ 8, 0.1 }, (pottle_estimate){ 2, 0.2 });
    ck_assert(near(e.median, pow(2, 13.0 / 5), 1e-14));
    ck_assert(near(e.sd, sqrt(0.01 * 0.04 / 0.05), 1e-14));
    const pottle_estimate f = pottle_estimate_combine(
        (pottle_estimate){ 2, 0.2 }, (pottle_estimate){ 8, 0.1 });
    ck_assert(near(f.median, e.median, 1e-14) && near(f.sd, e.sd, 1e-14));
}
END_TEST

START_TEST(combine_with_an_exact_one)
{
    const pottle_estimate exact = { 3, 0 }, other = { 5, 0.2 };
    pottle_estimate e = pottle_estimate_combine(exact, other);
    ck_assert(near(e.median, 3, 0) && near(e.sd, 0, 0));
    e = pottle_estimate_combine(other, exact);
    ck_assert(near(e.median, 3, 0) && near(e.sd, 0, 0));
    e = pottle_estimate_combine(exact, (pottle_estimate){ 4, 0 });
    ck_assert(near(e.median, 3, 0) && near(e.sd, 0, 0));
}
END_TEST

/* Standard normal quantiles, printed to ten decimals.
 * Source: M. Abramowitz and I. Stegun, Handbook of Mathematical Functions, 1964, table 26.5
 * (from memory). */
static const struct {
    double p, z;
} normal[] = {
    { 0.5, 0 },
    { 0.75, 0.6744897502 },
    { 0.9, 1.2815515655 },
    { 0.95, 1.6448536270 },
    { 0.975, 1.9599639845 },
    { 0.99, 2.3263478740 },
    { 0.995, 2.5758293035 },
    { 0.999, 3.0902323062 },
};

START_TEST(quantile)
{
    const pottle_estimate e = { 8, 0.25 };
    double upper = 0, lower = 0;
    ck_assert_int_eq(pottle_estimate_quantile(e, normal[_i].p, &upper),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_estimate_quantile(e, 1 - normal[_i].p, &lower),
                     POTTLE_OK);
    ck_assert_msg(fabs(log(upper / 8) / 0.25 - normal[_i].z) <= 1e-10,
                  "p %g: %.12g, table %.10f", normal[_i].p,
                  log(upper / 8) / 0.25, normal[_i].z);
    ck_assert_msg(fabs(log(lower / 8) / 0.25 + normal[_i].z) <= 1e-10,
                  "p %g: %.12g, table %.10f", 1 - normal[_i].p,
                  log(lower / 8) / 0.25, -normal[_i].z);
}
END_TEST

START_TEST(quantile_of_draws)
{
    gsl_rng *rng = generator(400 + _i);
    const pottle_estimate e = { 8, 0.25 };
    double limit = 0, under = 0;
    ck_assert_int_eq(pottle_estimate_quantile(e, normal[_i].p, &limit),
                     POTTLE_OK);
    for (int i = 0; i < DRAWS; i++)
        under += draw(rng, e) < limit ? 1 : 0;
    gsl_rng_free(rng);
    const double p = normal[_i].p,
                 tolerance = SIGMAS * sqrt(p * (1 - p) / DRAWS);
    ck_assert_msg(fabs(under / DRAWS - p) <= tolerance,
                  "%g of the draws lie under the %g quantile", under / DRAWS,
                  p);
}
END_TEST

static const double no_probability[] = { 0,   1,           -0.1,
                                         1.1, (double)NAN, (double)INFINITY };

START_TEST(quantile_refused)
{
    double out = -1;
    ck_assert_int_eq(pottle_estimate_quantile((pottle_estimate){ 8, 0.25 },
                                              no_probability[_i], &out),
                     POTTLE_EDOMAIN);
    ck_assert(near(out, -1, 0));
    ck_assert_int_eq(
        pottle_estimate_quantile((pottle_estimate){ 8, 0.25 }, 0.5, NULL),
        POTTLE_EMISUSE);
}
END_TEST

START_TEST(exact_estimate_has_one_quantile)
{
    double out = 0;
    ck_assert_int_eq(
        pottle_estimate_quantile((pottle_estimate){ 8, 0 }, 0.001, &out),
        POTTLE_OK);
    ck_assert(near(out, 8, 0));
    const pottle_interval i =
        pottle_estimate_interval((pottle_estimate){ 8, 0 });
    ck_assert(near(i.low, 8, 0) && near(i.expected, 8, 0) &&
              near(i.high, 8, 0));
}
END_TEST

START_TEST(interval_is_of_its_quantiles)
{
    const pottle_estimate e = pairs[_i].a;
    double low = 0, high = 0;
    ck_assert_int_eq(pottle_estimate_quantile(e, 0.05, &low), POTTLE_OK);
    ck_assert_int_eq(pottle_estimate_quantile(e, 0.95, &high), POTTLE_OK);
    const pottle_interval i = pottle_estimate_interval(e);
    ck_assert(near(i.low, low, 1e-14) && near(i.expected, e.median, 0) &&
              near(i.high, high, 1e-14));
}
END_TEST

static const struct {
    double low, high;
} ranges[] = {
    { 6, 10 }, { 1, 1.0000001 }, { 45, 60 },   { 1e-6, 1e9 },
    { 3, 3 },  { 2, 2 },         { 0.1, 0.1 }, { DBL_MIN, DBL_MAX },
};

START_TEST(between)
{
    pottle_estimate e = { -1, -1 };
    ck_assert_int_eq(
        pottle_estimate_between(ranges[_i].low, ranges[_i].high, &e),
        POTTLE_OK);
    ck_assert(isfinite(e.median) && isfinite(e.sd) && e.sd >= 0);
    const pottle_interval i = pottle_estimate_interval(e);
    /* exp and log of numbers up to 709 lose as many units of the last place */
    ck_assert_msg(near(i.low, ranges[_i].low, 1e-12) &&
                      near(i.high, ranges[_i].high, 1e-12),
                  "%g to %g", i.low, i.high);
}
END_TEST

/* A range of one number is that number, to the last bit: eight jars are
 * not 7.9999. */
START_TEST(between_the_same_is_exact)
{
    const double x = (double)(_i + 1) / 7;
    pottle_estimate e = { -1, -1 };
    ck_assert_int_eq(pottle_estimate_between(x, x, &e), POTTLE_OK);
    ck_assert(near(e.median, x, 0) && near(e.sd, 0, 0));
}
END_TEST

static const struct {
    double low, high;
} no_ranges[] = {
    { 0, 1 },
    { -1, 1 },
    { 2, 1 },
    { 1, (double)INFINITY },
    { (double)INFINITY, (double)INFINITY },
    { (double)NAN, 1 },
    { 1, (double)NAN },
    { 0, 0 },
};

START_TEST(between_refused)
{
    pottle_estimate e = { -1, -2 };
    ck_assert_int_eq(
        pottle_estimate_between(no_ranges[_i].low, no_ranges[_i].high, &e),
        POTTLE_EDOMAIN);
    ck_assert(near(e.median, -1, 0) && near(e.sd, -2, 0));
    ck_assert_int_eq(pottle_estimate_between(1, 2, NULL), POTTLE_EMISUSE);
}
END_TEST

START_TEST(products_of_exact_ones_are_exact)
{
    const pottle_estimate a = { 6, 0 }, b = { 1.5, 0 };
    pottle_estimate e = pottle_estimate_times(a, b);
    ck_assert(near(e.median, 9, 0) && near(e.sd, 0, 0));
    e = pottle_estimate_over(a, b);
    ck_assert(near(e.median, 4, 0) && near(e.sd, 0, 0));
    e = pottle_estimate_multiple(a, 2);
    ck_assert(near(e.median, 12, 0) && near(e.sd, 0, 0));
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("estimate");
    TCase *t = tcase_create("chain");
    tcase_set_timeout(t, 60);
    tcase_add_loop_test(t, product_and_quotient, 0, COUNT(pairs));
    tcase_add_loop_test(t, multiple, 0, COUNT(pairs));
    tcase_add_loop_test(t, sum, 0, COUNT(sums));
    tcase_add_test(t, sum_of_exact_terms_is_exact);
    tcase_add_test(t, sum_of_nothing);
    tcase_add_loop_test(t, combine, 0, COUNT(updates));
    tcase_add_test(t, combine_by_hand);
    tcase_add_test(t, combine_with_an_exact_one);
    tcase_add_test(t, products_of_exact_ones_are_exact);
    suite_add_tcase(suite, t);

    t = tcase_create("points");
    tcase_set_timeout(t, 60);
    tcase_add_loop_test(t, quantile, 0, COUNT(normal));
    tcase_add_loop_test(t, quantile_of_draws, 0, COUNT(normal));
    tcase_add_loop_test(t, quantile_refused, 0, COUNT(no_probability));
    tcase_add_test(t, exact_estimate_has_one_quantile);
    tcase_add_loop_test(t, interval_is_of_its_quantiles, 0, COUNT(pairs));
    tcase_add_loop_test(t, between, 0, COUNT(ranges));
    tcase_add_loop_test(t, between_the_same_is_exact, 0, 100);
    tcase_add_loop_test(t, between_refused, 0, COUNT(no_ranges));
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
