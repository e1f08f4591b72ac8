/* test_chain.c - the chain: its update against sampling and against one-by-one
 * updates, and its properties on random chains; by hand, of recipes and what is
 * refused in files of their own.
 *
 * No expected value comes from the code: it is worked out in a comment,
 * sampled, or computed by another method here. */
#include <config.h>

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

#include "chain_cases.h"
#include "suite.h"

enum { SEEDS = 200 };

/* -- Random chains --------------------------------------------------------- */

typedef struct random_case {
    gsl_rng *rng;
    pottlei_chain_model model;
    pottlei_seen seen[POTTLE_CHAIN_NODES];
    size_t count;
} random_case;

/* A chain of all nodes, each step somewhere in it; some steps exact; some
 * observations that lie as the chain itself would make them. */
static random_case
random_chain(unsigned long seed, double least_error)
{
    random_case c;
    memset(&c, 0, sizeof c);
    c.rng = gsl_rng_alloc(gsl_rng_mt19937);
    ck_assert_ptr_nonnull(c.rng);
    gsl_rng_set(c.rng, seed);
    for (size_t k = 0; k < POTTLEI_STEPS; k++)
        c.model.sd[k] =
            gsl_rng_uniform(c.rng) < 0.2 ? 0 : gsl_ran_flat(c.rng, 0.005, 0.4);
    double step[POTTLEI_STEPS];
    for (size_t k = 0; k < POTTLEI_STEPS; k++)
        step[k] = gsl_ran_gaussian(c.rng, c.model.sd[k]);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        c.model.has[i] = true;
        c.model.offset[i] = gsl_ran_flat(c.rng, -8, 8);
        /* the node takes over the weights of the one before and adds one step,
         * or follows it in part */
        if (i > 0)
            memcpy(c.model.weight[i], c.model.weight[i - 1],
                   sizeof c.model.weight[i]);
        if (i > 0 && i <= POTTLEI_STEPS)
            c.model.weight[i][i - 1] = gsl_rng_uniform(c.rng) < 0.5 ? 1 : -1;
        if (i > 1 && gsl_rng_uniform(c.rng) < 0.3)
            c.model.weight[i][(i - 2) % POTTLEI_STEPS] *=
                gsl_rng_uniform(c.rng);
    }
    const double level = gsl_ran_flat(c.rng, -5, 12);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        pottlei_seen s = { i, level + c.model.offset[i],
                           gsl_ran_flat(c.rng, least_error, 0.2) };
        for (size_t k = 0; k < POTTLEI_STEPS; k++)
            s.log += c.model.weight[i][k] * step[k];
        s.log += gsl_ran_gaussian(c.rng, s.sd);
        if (c.count == 0 || gsl_rng_uniform(c.rng) < 0.45)
            c.seen[c.count++] = s;
    }
    return c;
}

/* Another method: a level with a spread of 1000 beside the steps, and one
 * observation after the other. */
static void
one_by_one(const random_case *c, size_t node, double *mean, double *variance)
{
    enum { N = POTTLEI_STEPS + 1 };
    double x[N] = { 0 }, p[N][N] = { { 0 } };
    for (size_t k = 0; k < POTTLEI_STEPS; k++)
        p[k][k] = c->model.sd[k] * c->model.sd[k];
    p[POTTLEI_STEPS][POTTLEI_STEPS] = 1e6;
    for (size_t o = 0; o <= c->count; o++) {
        const size_t at = o < c->count ? c->seen[o].node : node;
        double h[N], ph[N] = { 0 }, expected = c->model.offset[at], s = 0;
        for (size_t k = 0; k < N; k++)
            h[k] = k < POTTLEI_STEPS ? c->model.weight[at][k] : 1;
        for (size_t k = 0; k < N; k++) {
            expected += h[k] * x[k];
            for (size_t l = 0; l < N; l++)
                ph[k] += p[k][l] * h[l];
            s += h[k] * ph[k];
        }
        if (o == c->count) {
            *mean = expected;
            *variance = s;
            return;
        }
        s += c->seen[o].sd * c->seen[o].sd;
        for (size_t k = 0; k < N; k++)
            x[k] += ph[k] / s * (c->seen[o].log - expected);
        for (size_t k = 0; k < N; k++)
            for (size_t l = 0; l < N; l++)
                p[k][l] -= ph[k] * ph[l] / s;
    }
}

START_TEST(one_update_is_many)
{
    random_case c = random_chain((unsigned long)_i, 0.02);
    pottlei_posterior known;
    pottlei_chain_condition(&c.model, c.seen, c.count, POTTLEI_USE_ALL, &known);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        double mean = 0, variance = 0;
        one_by_one(&c, i, &mean, &variance);
        const pottle_estimate e = pottlei_chain_node(&c.model, &known, i);
        /* a level of 1000 takes 1e6 x 2e-16 of the variance in rounding, and
         * pulls the mean by 0.04 / 1e6 of 20 */
        ck_assert_msg(fabs(log(e.median) - mean) < 1e-5,
                      "seed %d, node %zu: expected %.8f one by one, found %.8f",
                      _i, i, mean, log(e.median));
        ck_assert_msg(fabs(e.sd * e.sd - variance) < 1e-8,
                      "seed %d, node %zu: expected a variance of %.3e one by "
                      "one, found %.3e",
                      _i, i, variance, e.sd * e.sd);
    }
    gsl_rng_free(c.rng);
}
END_TEST

/* Sampling: the level from the first observation, the steps from their own
 * distributions, weighted by the likelihood of the other observations. The
 * tolerance is five standard errors of the weighted sample. */
START_TEST(sampling_agrees)
{
    enum { SAMPLES = 3000000, ENOUGH = 600 };
    random_case c = random_chain(1000 + (unsigned long)_i, 0.08);
    if (c.count > 3) /* of more the weights leave too few */
        c.count = 3;
    pottlei_posterior known;
    pottlei_chain_condition(&c.model, c.seen, c.count, POTTLEI_USE_ALL, &known);
    double weights = 0, squares = 0, sum[POTTLE_CHAIN_NODES] = { 0 },
           sum2[POTTLE_CHAIN_NODES] = { 0 };
    for (int n = 0;
         n < SAMPLES && !(squares > 0 && weights * weights / squares > ENOUGH);
         n++) {
        double step[POTTLEI_STEPS], node[POTTLE_CHAIN_NODES], log_weight = 0;
        for (size_t k = 0; k < POTTLEI_STEPS; k++)
            step[k] = gsl_ran_gaussian(c.rng, c.model.sd[k]);
        for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
            node[i] = c.model.offset[i];
            for (size_t k = 0; k < POTTLEI_STEPS; k++)
                node[i] += c.model.weight[i][k] * step[k];
        }
        const double level = c.seen[0].log - node[c.seen[0].node] +
                             gsl_ran_gaussian(c.rng, c.seen[0].sd);
        for (size_t o = 1; o < c.count; o++) {
            const double z =
                (c.seen[o].log - level - node[c.seen[o].node]) / c.seen[o].sd;
            log_weight -= 0.5 * z * z;
        }
        const double w = exp(log_weight);
        weights += w;
        squares += w * w;
        for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
            const double x =
                level + node[i] -
                c.model.offset[i]; /* offsets are known; without them less is
                                      lost in rounding */
            sum[i] += w * x;
            sum2[i] += w * x * x;
        }
    }
    const double effective = weights * weights / squares;
    ck_assert_msg(effective > 0.9 * ENOUGH,
                  "seed %d leaves %.0f effective samples", _i, effective);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        const pottle_estimate e = pottlei_chain_node(&c.model, &known, i);
        const double mean = sum[i] / weights + c.model.offset[i];
        const double sd = sqrt(fmax(
            0, sum2[i] / weights - (sum[i] / weights) * (sum[i] / weights)));
        ck_assert_msg(fabs(mean - log(e.median)) <=
                          5 * e.sd / sqrt(effective) + 1e-9,
                      "seed %d, node %zu: sampled %.5f, found %.5f (spread "
                      "%.4f, %.0f effective samples)",
                      _i, i, mean, log(e.median), e.sd, effective);
        ck_assert_msg(fabs(sd - e.sd) <= 5 * e.sd / sqrt(2 * effective) + 1e-7,
                      "seed %d, node %zu: sampled a spread of %.5f, found %.5f "
                      "(%.0f effective samples)",
                      _i, i, sd, e.sd, effective);
    }
    gsl_rng_free(c.rng);
}
END_TEST

START_TEST(a_measurement_never_widens)
{
    random_case c = random_chain((unsigned long)_i, EXACT);
    double before[POTTLE_CHAIN_NODES];
    for (size_t n = 1; n <= c.count; n++) {
        pottlei_posterior known;
        pottlei_chain_condition(&c.model, c.seen, n, POTTLEI_USE_ALL, &known);
        for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
            const double sd = pottlei_chain_node(&c.model, &known, i).sd;
            ck_assert_msg(n == 1 || sd <= before[i] + 1e-9,
                          "seed %d: node %zu was known to %.9f, and to %.9f "
                          "after %s was measured",
                          _i, i, before[i], sd,
                          pottle_chain_node_name((int)c.seen[n - 1].node));
            before[i] = sd;
        }
        for (size_t i = 0; i < n; i++)
            ck_assert_msg(
                before[c.seen[i].node] <= c.seen[i].sd * (1 + 1e-6) + 1e-9,
                "seed %d: a node is less certain than its measurement", _i);
    }
    gsl_rng_free(c.rng);
}
END_TEST

START_TEST(order_does_not_matter)
{
    random_case c = random_chain((unsigned long)_i, 1e-3);
    pottlei_posterior forward, backward;
    pottlei_seen turned[POTTLE_CHAIN_NODES];
    for (size_t i = 0; i < c.count; i++)
        turned[i] = c.seen[c.count - 1 - i];
    pottlei_chain_condition(&c.model, c.seen, c.count, POTTLEI_USE_ALL,
                            &forward);
    pottlei_chain_condition(&c.model, turned, c.count, POTTLEI_USE_ALL,
                            &backward);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        const pottle_estimate a = pottlei_chain_node(&c.model, &forward, i),
                              b = pottlei_chain_node(&c.model, &backward, i);
        ck_assert_msg(within(a.median, b.median, 1e-8) &&
                          fabs(a.sd - b.sd) < 1e-8,
                      "seed %d, node %zu: %.10g (%.10g) and %.10g (%.10g)", _i,
                      i, a.median, a.sd, b.median, b.sd);
        for (size_t k = 0; k < POTTLE_CHAIN_NODES; k++) {
            const pottle_estimate r = pottlei_chain_ratio(&c.model, &forward, i,
                                                          k),
                                  s = pottlei_chain_ratio(&c.model, &backward,
                                                          i, k);
            ck_assert_msg(
                within(r.median, s.median, 1e-8) && fabs(r.sd - s.sd) < 1e-8,
                "seed %d: ratios of nodes %zu and %zu differ", _i, i, k);
        }
    }
    gsl_rng_free(c.rng);
}
END_TEST

START_TEST(observing_all_reproduces_them)
{
    /* every node, exactly, where no step is exact: whatever was measured
     * stands, wherever it lies */
    random_case c = random_chain((unsigned long)_i, 0.01);
    pottlei_seen seen[POTTLEI_STEPS + 1];
    for (size_t k = 0; k < POTTLEI_STEPS; k++)
        c.model.sd[k] = 0.05 + 0.3 * gsl_rng_uniform(c.rng);
    for (size_t i = 0; i <= POTTLEI_STEPS; i++)
        seen[i] =
            (pottlei_seen){ i, c.model.offset[i] + gsl_ran_flat(c.rng, 4, 4.5),
                            EXACT };
    pottlei_posterior known;
    pottlei_chain_condition(&c.model, seen, POTTLEI_STEPS + 1, POTTLEI_USE_ALL,
                            &known);
    for (size_t i = 0; i <= POTTLEI_STEPS; i++) {
        const pottle_estimate e = pottlei_chain_node(&c.model, &known, i);
        /* an error of 1e-5 against steps of 0.05 or more, of which a surprise
         * of 0.5 takes (1e-5 / 0.05)^2 a link */
        ck_assert_msg(fabs(log(e.median) - seen[i].log) < 1e-6 &&
                          e.sd <= EXACT * (1 + 1e-4),
                      "seed %d, node %zu: measured %.8f, found %.8f (%.2e)", _i,
                      i, seen[i].log, log(e.median), e.sd);
    }
    gsl_rng_free(c.rng);
}
END_TEST

START_TEST(scaling_scales_all)
{
    random_case c = random_chain((unsigned long)_i, 1e-3);
    const double k = gsl_ran_flat(c.rng, 0.1, 30);
    pottlei_posterior before, after;
    pottlei_chain_condition(&c.model, c.seen, c.count, POTTLEI_USE_ALL,
                            &before);
    for (size_t i = 0; i < c.count; i++)
        c.seen[i].log += log(k);
    pottlei_chain_condition(&c.model, c.seen, c.count, POTTLEI_USE_ALL, &after);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        const pottle_estimate a = pottlei_chain_node(&c.model, &before, i),
                              b = pottlei_chain_node(&c.model, &after, i);
        ck_assert_msg(within(b.median, k * a.median, 1e-9) &&
                          fabs(a.sd - b.sd) < 1e-12,
                      "seed %d, node %zu: %.10g times %g is not %.10g", _i, i,
                      a.median, k, b.median);
    }
    gsl_rng_free(c.rng);
}
END_TEST

START_TEST(names_are_total)
{
    for (int i = -2; i < POTTLE_CHAIN_NODES + 2; i++) {
        ck_assert_ptr_nonnull(pottle_chain_node_name(i));
        ck_assert_int_eq(strcmp(pottle_chain_node_name(i), "unknown") == 0,
                         i < 0 || i >= POTTLE_CHAIN_NODES);
    }
}
END_TEST

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("chain");
    suite_add_tcase(suite, chain_hand());
    TCase *names = tcase_create("names");
    tcase_add_test(names, names_are_total);
    suite_add_tcase(suite, names);
    TCase *chance = tcase_create("random chains");
    tcase_set_timeout(chance, 120);
    tcase_add_loop_test(chance, one_update_is_many, 0, SEEDS);
    tcase_add_loop_test(chance, sampling_agrees, 0, 12);
    tcase_add_loop_test(chance, a_measurement_never_widens, 0, SEEDS);
    tcase_add_loop_test(chance, order_does_not_matter, 0, SEEDS);
    tcase_add_loop_test(chance, observing_all_reproduces_them, 0, SEEDS);
    tcase_add_loop_test(chance, scaling_scales_all, 0, SEEDS);
    suite_add_tcase(suite, chance);
    suite_add_tcase(suite, chain_recipes());
    suite_add_tcase(suite, chain_wanted());
    suite_add_tcase(suite, chain_refusals());
    const int result = suite_run(suite);
    kitchen_unlist();
    return result;
}
