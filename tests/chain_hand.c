/* chain_hand.c - test_chain: updates worked by hand. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "chain_cases.h"

/* Picked, ready to use, batches, in the pot and jars: 0.8 of the picked mass is
 * kept, 2 kg make a batch, a batch makes 3 L and a jar takes 0.5 L. Errors of
 * the steps are given. */
static pottlei_chain_model
plain_chain(double trim, double cook, double fill)
{
    pottlei_chain_model m;
    memset(&m, 0, sizeof m);
    static const size_t nodes[] = { POTTLE_CHAIN_PICKED, POTTLE_CHAIN_PREPARED,
                                    POTTLE_CHAIN_BATCHES,
                                    POTTLE_CHAIN_COOKED_VOLUME,
                                    POTTLE_CHAIN_JARS };
    for (size_t i = 0; i < sizeof nodes / sizeof nodes[0]; i++)
        m.has[nodes[i]] = true;
    m.offset[POTTLE_CHAIN_PICKED] = -log(0.8);
    m.weight[POTTLE_CHAIN_PICKED][POTTLEI_STEP_TRIM] = -1;
    m.offset[POTTLE_CHAIN_BATCHES] = -log(2.0);
    m.offset[POTTLE_CHAIN_COOKED_VOLUME] = log(1.5);
    m.weight[POTTLE_CHAIN_COOKED_VOLUME][POTTLEI_STEP_COOK] = 1;
    m.offset[POTTLE_CHAIN_JARS] = log(3.0);
    m.weight[POTTLE_CHAIN_JARS][POTTLEI_STEP_COOK] = 1;
    m.weight[POTTLE_CHAIN_JARS][POTTLEI_STEP_FILL] = -1;
    m.sd[POTTLEI_STEP_TRIM] = trim;
    m.sd[POTTLEI_STEP_COOK] = cook;
    m.sd[POTTLEI_STEP_FILL] = fill;
    return m;
}

static void
expect(const pottlei_chain_model *m, const pottlei_seen *seen, size_t count,
       size_t node, double median, double sd, const char *what)
{
    pottlei_posterior known;
    pottlei_chain_condition(m, seen, count, POTTLEI_USE_ALL, &known);
    ck_assert(known.level);
    const pottle_estimate e = pottlei_chain_node(m, &known, node);
    ck_assert_msg(within(e.median, median, 1e-7),
                  "%s: %s: expected %.9f by hand, found %.9f", what,
                  pottle_chain_node_name((int)node), median, e.median);
    ck_assert_msg(fabs(e.sd - sd) < 1e-7,
                  "%s: %s: expected a spread of %.9f by hand, found %.9f", what,
                  pottle_chain_node_name((int)node), sd, e.sd);
}

START_TEST(one_observation_by_hand)
{
    /* 3-4-12-13: 0.03, 0.04 and 0.12 add up to 0.05 and to 0.13. 10 kg picked:
     * 8 kg, 4 batches, 12 L, 24 jars. */
    const pottlei_chain_model m = plain_chain(0.03, 0.04, 0.12);
    const pottlei_seen picked = { POTTLE_CHAIN_PICKED, log(10.0), EXACT };
    expect(&m, &picked, 1, POTTLE_CHAIN_PREPARED, 8, 0.03, "10 kg picked");
    expect(&m, &picked, 1, POTTLE_CHAIN_BATCHES, 4, 0.03, "10 kg picked");
    expect(&m, &picked, 1, POTTLE_CHAIN_COOKED_VOLUME, 12, 0.05,
           "10 kg picked");
    expect(&m, &picked, 1, POTTLE_CHAIN_JARS, 24, 0.13, "10 kg picked");
    /* backward: 24 jars were filled */
    const pottlei_seen jars = { POTTLE_CHAIN_JARS, log(24.0), EXACT };
    expect(&m, &jars, 1, POTTLE_CHAIN_PICKED, 10, 0.13, "24 jars");
    expect(&m, &jars, 1, POTTLE_CHAIN_COOKED_VOLUME, 12, 0.12, "24 jars");
    /* its own error comes first: 0.05 and 0.12 */
    const pottlei_seen about = { POTTLE_CHAIN_COOKED_VOLUME, log(12.0), 0.05 };
    expect(&m, &about, 1, POTTLE_CHAIN_COOKED_VOLUME, 12, 0.05, "about 12 L");
    expect(&m, &about, 1, POTTLE_CHAIN_JARS, 24, 0.13, "about 12 L");
}
END_TEST

START_TEST(two_observations_of_two_links_by_hand)
{
    /* Picked 10 kg (0.03) says 8 kg ready with 0.05^2 + 0.03^2 = 0.0034;
     * weighed 8.4 kg with 0.04^2 = 0.0016. Weight of the weighing 0.0034 /
     * 0.0050 = 0.68: 8 x 1.05^0.68, variance 0.0034 x 0.0016 / 0.0050 =
     * 0.001088. Back at picked the weighing says 10.5 kg with 0.0016 + 0.0025 =
     * 0.0041 against 0.0009: 10 x 1.05^(0.0009 / 0.0050), variance 0.0009 x
     * 0.0041 / 0.0050 = 0.000738. */
    const pottlei_chain_model m = plain_chain(0.05, 0.04, 0.12);
    const pottlei_seen seen[] = { { POTTLE_CHAIN_PICKED, log(10.0), 0.03 },
                                  { POTTLE_CHAIN_PREPARED, log(8.4), 0.04 } };
    expect(&m, seen, 2, POTTLE_CHAIN_PREPARED, 8 * pow(1.05, 0.68),
           sqrt(0.001088), "picked and prepared");
    expect(&m, seen, 2, POTTLE_CHAIN_PICKED, 10 * pow(1.05, 0.18),
           sqrt(0.000738), "picked and prepared");
    /* and on to the jars, three links on: 0.001088 + 0.0016 + 0.0144 */
    expect(&m, seen, 2, POTTLE_CHAIN_JARS, 24 * pow(1.05, 0.68), sqrt(0.017088),
           "picked and prepared");
}
END_TEST

START_TEST(three_links_by_hand)
{
    /* 10 kg picked says 12 L in the pot with 0.03^2 + 0.04^2 = 0.0025; the
     * level there says 13.23 L (12 x 1.1025) with as much: half way in the
     * logarithm, 12 x 1.05 = 12.6 L, variance 0.00125; the jars 25.2 with
     * 0.00125 + 0.0144. What was kept takes the part of the surprise that its
     * variance has of all, 0.0009 / 0.0050: 8 x 1.1025^0.18, variance 0.0009
     * less 0.0009^2 / 0.0050 = 0.000738. */
    const pottlei_chain_model m = plain_chain(0.03, 0.04, 0.12);
    const pottlei_seen seen[] = { { POTTLE_CHAIN_PICKED, log(10.0), EXACT },
                                  { POTTLE_CHAIN_COOKED_VOLUME, log(13.23),
                                    0.05 } };
    expect(&m, seen, 2, POTTLE_CHAIN_COOKED_VOLUME, 12.6, sqrt(0.00125),
           "picked and cooked");
    expect(&m, seen, 2, POTTLE_CHAIN_JARS, 25.2, sqrt(0.01565),
           "picked and cooked");
    expect(&m, seen, 2, POTTLE_CHAIN_PREPARED, 8 * pow(1.1025, 0.18),
           sqrt(0.000738), "picked and cooked");
}
END_TEST

START_TEST(a_part_of_the_surprise_reaches_the_pot)
{
    /* 10 L are measured out for a recipe that is measured by volume, and 1 L
     * should weigh 1 kg: they weigh 11. Half of what is in the pot is the
     * produce: the pot holds 1.1^0.5 times as much, and the form's spread is
     * gone from it. */
    pottlei_chain_model m = plain_chain(0, 0.04, 0.03);
    m.has[POTTLE_CHAIN_MEASURED] = true;
    m.sd[POTTLEI_STEP_FORM] = 0.08;
    m.weight[POTTLE_CHAIN_MEASURED][POTTLEI_STEP_FORM] = -1;
    m.weight[POTTLE_CHAIN_BATCHES][POTTLEI_STEP_FORM] = -1;
    m.weight[POTTLE_CHAIN_COOKED_VOLUME][POTTLEI_STEP_FORM] =
        m.weight[POTTLE_CHAIN_JARS][POTTLEI_STEP_FORM] = -0.5;
    const pottlei_seen seen[] = { { POTTLE_CHAIN_MEASURED, log(10.0), EXACT },
                                  { POTTLE_CHAIN_PREPARED, log(11.0), EXACT } };
    expect(&m, seen, 1, POTTLE_CHAIN_BATCHES, 5, EXACT, "measured out");
    expect(&m, seen, 1, POTTLE_CHAIN_COOKED_VOLUME, 15, sqrt(0.0016 + 0.0016),
           "measured out"); /* (0.08 / 2)^2 and 0.04^2 */
    expect(&m, seen, 2, POTTLE_CHAIN_BATCHES, 5, EXACT,
           "measured out and weighed");
    expect(&m, seen, 2, POTTLE_CHAIN_COOKED_VOLUME, 15 * sqrt(1.1), 0.04,
           "measured out and weighed");
    expect(&m, seen, 2, POTTLE_CHAIN_JARS, 30 * sqrt(1.1), 0.05,
           "measured out and weighed");
}
END_TEST

START_TEST(nothing_observed_tells_only_ratios)
{
    const pottlei_chain_model m = plain_chain(0.03, 0.04, 0.12);
    pottlei_posterior known;
    pottlei_chain_condition(&m, NULL, 0, POTTLEI_USE_ALL, &known);
    ck_assert(!known.level);
    const pottle_estimate e =
        pottlei_chain_ratio(&m, &known, POTTLE_CHAIN_PICKED, POTTLE_CHAIN_JARS);
    ck_assert_double_eq_tol(e.median, 2.4, 1e-12);
    ck_assert_double_eq_tol(e.sd, 0.13, 1e-12);
}
END_TEST

START_TEST(a_clash_by_hand)
{
    /* 10 kg picked (0.03) says 8 kg with 0.0034; 16 kg were weighed (0.04): ln
     * 2 / sqrt(0.0050) = 9.80 sigma, either way round. */
    const pottlei_chain_model m = plain_chain(0.05, 0.04, 0.12);
    pottlei_seen seen[] = { { POTTLE_CHAIN_PICKED, log(10.0), 0.03 },
                            { POTTLE_CHAIN_PREPARED, log(16.0), 0.04 },
                            { POTTLE_CHAIN_COOKED_VOLUME, log(12.0), 0.05 } };
    pottlei_clash c;
    ck_assert(!pottlei_chain_clash(&m, seen, 1, 3, &c));
    ck_assert(pottlei_chain_clash(&m, seen, 2, 3, &c));
    ck_assert(c.pair);
    ck_assert_double_eq_tol(fabs(c.sigma), log(2.0) / sqrt(0.0050), 1e-9);
    /* the pot sides with the picked weight: the middle one is named, and
     * against the one it is furthest from */
    ck_assert(pottlei_chain_clash(&m, seen, 3, 3, &c));
    ck_assert_uint_eq(c.seen, 1);
    ck_assert(c.pair && c.other == 0);
    ck_assert_double_eq_tol(c.sigma, log(2.0) / sqrt(0.0050), 1e-9);
    /* the pot alone says 8 kg with 0.04^2 + 0.05^2 = 0.0041: ln 2 / sqrt(0.0041
     * + 0.0016) = 9.18, a little nearer */
    seen[0].sd = 0.5;
    ck_assert(pottlei_chain_clash(&m, seen, 3, 3, &c));
    ck_assert(c.pair && c.seen + c.other == 3);
    ck_assert_double_eq_tol(fabs(c.sigma), log(2.0) / sqrt(0.0057), 1e-9);
}
END_TEST

TCase *
chain_hand(void)
{
    TCase *t = tcase_create("by hand");
    tcase_add_test(t, one_observation_by_hand);
    tcase_add_test(t, two_observations_of_two_links_by_hand);
    tcase_add_test(t, three_links_by_hand);
    tcase_add_test(t, a_part_of_the_surprise_reaches_the_pot);
    tcase_add_test(t, nothing_observed_tells_only_ratios);
    tcase_add_test(t, a_clash_by_hand);
    return t;
}
