/* chain_recipes.c - the chains of the catalogue: that they agree with scaling,
 * rest on sources, count batches where the recipe measures, and answer forward
 * and backward. */
#include <config.h>

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

#include "chain_cases.h"

const pottle_chain_request plain = { .version = POTTLE_CHAIN_REQUEST_VERSION };

pottle_chain *
make_chain(const pottle_recipe *recipe, const pottle_chain_request *request)
{
    pottle_chain *chain = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_chain_new(kitchen, recipe, request, &chain, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s: %s", pottle_recipe_id(recipe),
                  pottle_strerror((int)status), error.what);
    return chain;
}

pottle_observation
at(pottle_chain_node node, double value)
{
    return (pottle_observation){ .node = node, .low = value, .high = value };
}

/* One batch, counted: the jars are those that scaling tells. Where a further
 * sheet prints another yield of a container the chain may be wider, never
 * narrower. */
START_TEST(one_batch_is_scaled_alike)
{
    answer a = kitchen_ask(&(asked){ .recipe = kitchen_id[_i], .batches = 1 });
    pottle_chain *chain = NULL;
    if (a.status == POTTLE_OK && pottle_chain_new(kitchen, a.recipe, &plain,
                                                  &chain, NULL) == POTTLE_OK) {
        const pottle_observation one = at(POTTLE_CHAIN_BATCHES, 1);
        pottle_chain_state s;
        ck_assert_int_eq(pottle_chain_update(chain, &one, 1, &s, NULL),
                         POTTLE_OK);
        const pottle_jar_count *j = pottle_plan_jars(a.plan);
        ck_assert_msg(s.has_jars == (j != NULL),
                      "%s: one of them tells no jars", kitchen_id[_i]);
        if (j != NULL) {
            const pottle_estimate e = s.node[POTTLE_CHAIN_JARS];
            ck_assert_msg(within(e.median, j->count.median, 1e-6),
                          "%s: %g jars scaled, %g by the chain", kitchen_id[_i],
                          j->count.median, e.median);
            const bool wider =
                pottle_recipe_quantities(a.recipe)->containers > 0;
            ck_assert_msg(fabs(e.sd - j->count.sd) < 1e-6 ||
                              (wider && e.sd > j->count.sd),
                          "%s: a spread of %.6f scaled, %.6f by the chain",
                          kitchen_id[_i], j->count.sd, e.sd);
        }
    }
    pottle_chain_free(chain);
    answer_free(&a);
}
END_TEST

/* Every chain of the catalogue: links join its nodes in order, each has a
 * source, and all factors multiply to the last node. */
START_TEST(links_are_whole)
{
    pottle_recipe *recipe = kitchen_recipe(kitchen_id[_i]);
    pottle_chain *chain = NULL;
    if (pottle_chain_new(kitchen, recipe, &plain, &chain, NULL) == POTTLE_OK) {
        const pottle_chain_facts *f = pottle_chain_facts_of(chain);
        size_t n = 0, nodes = 0;
        const pottle_chain_link *l = pottle_chain_links(chain, &n);
        for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++)
            nodes += f->has[i];
        ck_assert_msg(n + 1 == nodes, "%s: %zu links of %zu nodes",
                      kitchen_id[_i], n, nodes);
        const pottle_observation one = at(POTTLE_CHAIN_PREPARED, 1000);
        pottle_chain_state s;
        ck_assert_int_eq(pottle_chain_update(chain, &one, 1, &s, NULL),
                         POTTLE_OK);
        for (size_t i = 0; i < n; i++) {
            ck_assert_msg(l[i].from < l[i].to && f->has[l[i].from] &&
                              f->has[l[i].to] &&
                              (i == 0 || l[i - 1].to == l[i].from),
                          "%s: link %zu", kitchen_id[_i], i);
            ck_assert_msg(l[i].factor.median > 0 && l[i].factor.sd >= 0 &&
                              l[i].factor.sd < 1,
                          "%s: link to %s", kitchen_id[_i],
                          pottle_chain_node_name((int)l[i].to));
            ck_assert_msg(within(s.node[l[i].to].median,
                                 s.node[l[i].from].median * l[i].factor.median,
                                 1e-9),
                          "%s: link to %s", kitchen_id[_i],
                          pottle_chain_node_name((int)l[i].to));
            /* a food without a trim is ready as it comes, and says so */
            ck_assert_msg(l[i].basis.cites + l[i].basis.notes > 0 ||
                              !(l[i].factor.sd > 0),
                          "%s: the link to %s has no source", kitchen_id[_i],
                          pottle_chain_node_name((int)l[i].to));
        }
        ck_assert_msg(f->produce_share >= 0 && f->produce_share <= 1,
                      "%s: a share of %g", kitchen_id[_i], f->produce_share);
    }
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

/* How the pot follows the produce: the masses of a batch are drawn at random
 * and balanced one by one, and the slope of the logarithm of the volume on that
 * of the produce is the share. Tolerance: five standard errors of a slope, and
 * 0.01 for the curve of it. */
START_TEST(the_share_is_sampled)
{
    enum { SAMPLES = 4000 };
    static const char *const recipes[] = {
        "berry-jam-no-pectin", "strawberry-jam-powdered-pectin",
        "barbecue-sauce-tomato", "rummage-relish", "blueberry-pie-filling"
    };
    pottle_recipe *recipe = kitchen_recipe(recipes[_i]);
    const pottle_chain_request alone = { .version =
                                             POTTLE_CHAIN_REQUEST_VERSION,
                                         .without_yield = true };
    pottle_chain *chain = make_chain(recipe, &alone),
                 *joined = make_chain(recipe, &plain);
    pottlei_part part[POTTLEI_LINES_MAX], drawn[POTTLEI_LINES_MAX];
    ck_assert_int_eq(pottlei_cook_parts(kitchen, chain->plan, 0, part, NULL),
                     POTTLE_OK);
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    double sx = 0, sy = 0, sxx = 0, sxy = 0, syy = 0;
    for (int n = 0; n < SAMPLES; n++) {
        double x = 0;
        memcpy(drawn, part, sizeof drawn);
        for (size_t i = 0; i < chain->plan->lines; i++) {
            const double step = gsl_ran_gaussian(rng, 0.05);
            drawn[i].prepared_g.median *= exp(step);
            if (part[i].food == chain->food)
                x = step;
        }
        pottle_estimate ml;
        ck_assert_int_eq(pottlei_cook_balance(kitchen, recipe, drawn,
                                              chain->plan->lines, &ml, NULL),
                         POTTLE_OK);
        const double y = log(ml.median);
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
        syy += y * y;
    }
    const double vx = sxx - sx * sx / SAMPLES,
                 slope = (sxy - sx * sy / SAMPLES) / vx,
                 rest = syy - sy * sy / SAMPLES - slope * slope * vx;
    const double error = sqrt(rest / (SAMPLES - 2) / vx),
                 share = pottle_chain_facts_of(chain)->produce_share;
    ck_assert_msg(fabs(slope - share) < 5 * error + 0.01,
                  "%s: a slope of %.4f sampled (%.4f), a share of %.4f",
                  recipes[_i], slope, error, share);
    ck_assert_msg(share > 0.02, "%s: a share of %g", recipes[_i], share);
    /* with the published yield, in the part that the balance has in the volume:
     * of precisions, by the variances of both */
    const double by_kind = chain->model.sd[POTTLEI_STEP_COOK],
                 both = joined->model.sd[POTTLEI_STEP_COOK];
    ck_assert(both < by_kind);
    ck_assert(pottle_chain_facts_of(joined)->produce_share < 0.9 * share);
    pottle_chain_free(joined);
    gsl_rng_free(rng);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(what_the_recipe_measures_counts_batches)
{
    /* 4 cups of crushed berries make a batch (USDA guide 7, jams without added
     * pectin, berries): 11 cups are 2.75, and a cup is filled with an error of
     * 3 % */
    pottle_recipe *jam = kitchen_recipe("berry-jam-no-pectin");
    pottle_chain *chain = make_chain(jam, &plain);
    pottle_chain_state s;
    pottle_observation o = at(POTTLE_CHAIN_MEASURED, 11 * CUP_ML);
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_chain_facts_of(chain)->base, POTTLE_CHAIN_MEASURED);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].median, 2.75, 1e-9);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].sd, 0.03, 1e-9);
    /* the errors that are asked for, and "about" */
    pottle_chain_free(chain);
    chain = make_chain(
        jam, &(pottle_chain_request){ .version = POTTLE_CHAIN_REQUEST_VERSION,
                                      .error_cup = 0.06,
                                      .error_about = 0.2 });
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].sd, 0.06, 1e-9);
    o.about = true;
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].sd, 0.2, 1e-9);
    o.error = 0.01;
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].sd, 0.01, 1e-9);
    /* a range is its 90 % interval: 9 to 16 cups are 12 x/÷ 4/3, with the error
     * beside it */
    o = (pottle_observation){ .node = POTTLE_CHAIN_MEASURED,
                              .low = 9 * CUP_ML,
                              .high = 16 * CUP_ML,
                              .error = 0.05 };
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].median, 3, 1e-9);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].sd,
                            hypot(0.05, log(4.0 / 3.0) / POTTLE_Z95), 1e-9);
    pottle_chain_free(chain);
    pottle_recipe_free(jam);
    /* 22 lb of tomatoes as bought make a load of 7 quarts (USDA guide 3,
     * crushed): 11 lb are half of it, with the error of a scale */
    pottle_recipe *crushed = kitchen_recipe("tomatoes-crushed");
    chain = make_chain(crushed, &plain);
    o = at(POTTLE_CHAIN_PICKED, 11 * POUND_G);
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_chain_facts_of(chain)->base, POTTLE_CHAIN_PICKED);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].median, 0.5, 1e-9);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].sd, 0.005, 1e-9);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_JARS].median, 3.5, 1e-6);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_LOADS].median, 0.5, 1e-6);
    pottle_chain_free(chain);
    pottle_recipe_free(crushed);
}
END_TEST

/* A pound of rhubarb as bought makes about the cup of cooked rhubarb of one
 * batch (nchfp, the page of the jam); what is weighed after trimming is 95 % of
 * it (common practice). About is 15 % (practice). */
START_TEST(what_is_cooked_first_has_a_link_of_its_own)
{
    pottle_recipe *jam = kitchen_recipe("rhubarb-strawberry-jam-liquid-pectin");
    const pottle_chain_request bought = { .version = 1,
                                          .food = "rhubarb",
                                          .picked = POTTLE_PURCHASED,
                                          .picked_said = true };
    pottle_chain *chain = make_chain(jam, &bought);
    pottle_observation o = at(POTTLE_CHAIN_PICKED, 3 * POUND_G);
    pottle_chain_state s;
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_chain_facts_of(chain)->base, POTTLE_CHAIN_MEASURED);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_PREPARED].median,
                            3 * 0.95 * POUND_G, 1e-6);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_MEASURED].median, 3 * CUP_ML,
                            1e-6);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].median, 3, 1e-9);
    ck_assert_double_gt(s.node[POTTLE_CHAIN_BATCHES].sd, 0.15);
    pottle_chain_free(chain);
    /* measured out before it is cooked, the batch is still a pound */
    const pottle_chain_request diced = { .version = 1,
                                         .food = "rhubarb",
                                         .picked = POTTLE_PURCHASED,
                                         .picked_said = true,
                                         .form = "diced" };
    chain = make_chain(jam, &diced);
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_MEASURED].median,
                            3 * 0.95 * POUND_G / 122 * CUP_ML, 1e-6);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].median, 3, 1e-9);
    pottle_chain_free(chain);
    pottle_recipe_free(jam);
}
END_TEST

START_TEST(counted_jars_are_half_a_jar_out)
{
    /* practice, as for printed yields: 6 jars are 5 1/2 to 6 1/2 with nine
     * chances in ten, 0.5 / 6 / 1.645 */
    pottle_recipe *jam = kitchen_recipe("berry-jam-no-pectin");
    pottle_chain *chain = make_chain(jam, &plain);
    pottle_chain_state s;
    const pottle_observation o = at(POTTLE_CHAIN_JARS, 6);
    ck_assert_int_eq(pottle_chain_update(chain, &o, 1, &s, NULL), POTTLE_OK);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_JARS].median, 6, 1e-9);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_JARS].sd,
                            0.5 / 6 / 1.6448536269514722, 1e-9);
    pottle_chain_free(chain);
    pottle_recipe_free(jam);
}
END_TEST

/* The pot of one batch by the balance alone is that of the balance; what the
 * published yield adds to it is water, a gram a mL. */
START_TEST(the_pot_is_balanced)
{
    const pottle_chain_request alone = { .version =
                                             POTTLE_CHAIN_REQUEST_VERSION,
                                         .without_yield = true };
    answer a =
        kitchen_plan(&(asked){ .recipe = "peach-jam-no-pectin", .batches = 1 });
    pottle_chain *chain = make_chain(a.recipe, &alone),
                 *joined = make_chain(a.recipe, &plain);
    const pottle_observation one = at(POTTLE_CHAIN_BATCHES, 1);
    pottle_chain_state s, t;
    pottle_balance b;
    ck_assert_int_eq(pottle_chain_update(chain, &one, 1, &s, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_chain_update(joined, &one, 1, &t, NULL), POTTLE_OK);
    ck_assert_int_eq(pottle_cook_balance(kitchen, a.plan, 0, &b, NULL),
                     POTTLE_OK);
    const double g = s.node[POTTLE_CHAIN_COOKED_MASS].median,
                 ml = s.node[POTTLE_CHAIN_COOKED_VOLUME].median;
    ck_assert_msg(within(g, b.finished_g.median, 1e-6),
                  "%g g in the pot, %g by the balance", g, b.finished_g.median);
    ck_assert_msg(within(ml, b.finished_ml.median, 1e-6),
                  "%g mL in the pot, %g by the balance", ml,
                  b.finished_ml.median);
    const double more_g = t.node[POTTLE_CHAIN_COOKED_MASS].median - g,
                 more_ml = t.node[POTTLE_CHAIN_COOKED_VOLUME].median - ml;
    ck_assert(fabs(more_ml) > 10);
    ck_assert_double_eq_tol(more_g, more_ml, 1e-6 * g);
    pottle_chain_free(chain);
    pottle_chain_free(joined);
    answer_free(&a);
}
END_TEST

START_TEST(other_foods_and_forms)
{
    /* raspberries in place of the blackberries; a form the recipe does not
     * measure; pieces; dry pints */
    pottle_recipe *jam = kitchen_recipe("berry-jam-no-pectin");
    pottle_chain *chain = make_chain(
        jam, &(pottle_chain_request){ .version = POTTLE_CHAIN_REQUEST_VERSION,
                                      .food = "raspberry" });
    ck_assert_str_eq(pottle_chain_facts_of(chain)->food, "raspberry");
    ck_assert_int_eq(pottle_chain_facts_of(chain)->base, POTTLE_CHAIN_MEASURED);
    pottle_chain_free(chain);
    chain = make_chain(
        jam, &(pottle_chain_request){ .version = POTTLE_CHAIN_REQUEST_VERSION,
                                      .form = "whole" });
    ck_assert_str_eq(pottle_chain_facts_of(chain)->form, "whole");
    /* then the batch is counted by mass: 4 cups crushed, at 232 g a cup (yield
     * study, mapping: crushed fruit of any kind) */
    ck_assert_int_eq(pottle_chain_facts_of(chain)->base, POTTLE_CHAIN_PREPARED);
    ck_assert_double_eq_tol(pottle_chain_facts_of(chain)->base_amount, 928, 4);
    pottle_chain_free(chain);
    pottle_recipe_free(jam);
    pottle_recipe *crushed = kitchen_recipe("tomatoes-crushed");
    chain = make_chain(crushed, &(pottle_chain_request){
                                    .version = POTTLE_CHAIN_REQUEST_VERSION,
                                    .measured = pottle_unit_find("count"),
                                    .size = "medium" });
    ck_assert_int_eq(pottle_chain_facts_of(chain)->measured->dimension,
                     POTTLE_COUNT);
    const pottle_observation dozen = at(POTTLE_CHAIN_MEASURED, 12);
    pottle_chain_state s;
    ck_assert_int_eq(pottle_chain_update(chain, &dozen, 1, &s, NULL),
                     POTTLE_OK);
    /* 12 medium tomatoes of 123 g (SR28 portions) with 0.774 kept, to the
     * spread of a piece */
    ck_assert_msg(s.node[POTTLE_CHAIN_PICKED].median > 12 * 100 &&
                      s.node[POTTLE_CHAIN_PICKED].median < 12 * 200,
                  "%g g", s.node[POTTLE_CHAIN_PICKED].median);
    pottle_chain_free(chain);
    pottle_recipe_free(crushed);
    /* two lines of one food are one basket: 3 cups of red and 3 of green
     * peppers (USDA guide 6, pickle relish), so 12 cups are two batches */
    pottle_recipe *relish = kitchen_recipe("pickle-relish");
    chain = make_chain(relish, &(pottle_chain_request){
                                   .version = POTTLE_CHAIN_REQUEST_VERSION,
                                   .food = "sweet-pepper" });
    const pottle_observation peppers = at(POTTLE_CHAIN_MEASURED, 12 * CUP_ML);
    ck_assert_int_eq(pottle_chain_update(chain, &peppers, 1, &s, NULL),
                     POTTLE_OK);
    ck_assert_double_eq_tol(s.node[POTTLE_CHAIN_BATCHES].median, 2, 1e-9);
    pottle_chain_free(chain);
    pottle_recipe_free(relish);
    /* tomatoes have no leaves to weigh: as picked is as bought, and the load is
     * counted by it */
    crushed = kitchen_recipe("tomatoes-crushed");
    chain = make_chain(crushed, &(pottle_chain_request){
                                    .version = POTTLE_CHAIN_REQUEST_VERSION,
                                    .picked_said = true,
                                    .picked = POTTLE_PICKED });
    ck_assert_int_eq(pottle_chain_facts_of(chain)->picked, POTTLE_PURCHASED);
    ck_assert_int_eq(pottle_chain_facts_of(chain)->base, POTTLE_CHAIN_PICKED);
    /* what else goes into a pack is not among its ingredients, so nothing
     * bounds what comes out */
    ck_assert(!(chain->in_g > 0));
    pottle_chain_free(chain);
    pottle_recipe_free(crushed);
    /* stewed rhubarb is measured as bought, and here it was picked with its
     * leaves */
    pottle_recipe *rhubarb = kitchen_recipe("rhubarb-stewed");
    chain = make_chain(rhubarb, &(pottle_chain_request){
                                    .version = POTTLE_CHAIN_REQUEST_VERSION,
                                    .picked_said = true,
                                    .picked = POTTLE_PICKED });
    ck_assert_int_eq(pottle_chain_facts_of(chain)->picked, POTTLE_PICKED);
    ck_assert_int_eq(pottle_chain_facts_of(chain)->base, POTTLE_CHAIN_PREPARED);
    pottle_chain_free(chain);
    pottle_recipe_free(rhubarb);
}
END_TEST

START_TEST(whole_pots_are_made)
{
    /* jam is made in whole batches of 4 cups: of 11 cups two batches, 2.75 less
     * 0.75 */
    pottle_recipe *jam = kitchen_recipe("berry-jam-no-pectin");
    pottle_chain *chain = make_chain(jam, &plain);
    pottle_chain_state s;
    pottle_observation o[2] = { at(POTTLE_CHAIN_MEASURED, 11 * CUP_ML),
                                at(POTTLE_CHAIN_COOKED_VOLUME, 2900) };
    ck_assert_int_eq(pottle_chain_update(chain, o, 1, &s, NULL), POTTLE_OK);
    ck_assert(s.has_made);
    ck_assert_double_eq_tol(s.made, 2, 1e-12);
    ck_assert_double_eq_tol(s.made_jars.count.median,
                            2.0 / 2.75 * s.jars.count.median, 1e-9);
    /* and only those fill jars: half of all cases fill the expected ones */
    pottle_chain_wanted w;
    ck_assert_int_eq(
        pottle_chain_want(chain, o, 1, s.made_jars.count.median, &w, NULL),
        POTTLE_OK);
    ck_assert_double_eq_tol(w.chance, 0.5, 1e-6);
    /* what is in the pot was made */
    ck_assert_int_eq(pottle_chain_update(chain, o, 2, &s, NULL), POTTLE_OK);
    ck_assert(!s.has_made);
    /* a whole number of batches is not lost to rounding */
    for (int n = 1; n <= 12; n++) {
        o[0] = at(POTTLE_CHAIN_MEASURED, 4 * n * CUP_ML);
        ck_assert_int_eq(pottle_chain_update(chain, o, 1, &s, NULL), POTTLE_OK);
        ck_assert_double_eq_tol(s.made, n, 1e-6);
    }
    /* less than a batch makes none */
    o[0] = at(POTTLE_CHAIN_MEASURED, 3.9 * CUP_ML);
    ck_assert_int_eq(pottle_chain_update(chain, o, 1, &s, NULL), POTTLE_OK);
    ck_assert(s.has_made && !(s.made > 0));
    ck_assert_int_eq(pottle_chain_want(chain, o, 1, 2, &w, NULL), POTTLE_OK);
    ck_assert(w.has_chance && !(w.chance > 0));
    pottle_chain_free(chain);
    pottle_recipe_free(jam);
}
END_TEST

TCase *
chain_recipes(void)
{
    TCase *recipes = tcase_create("recipes");
    tcase_add_checked_fixture(recipes, kitchen_open, kitchen_close);
    tcase_set_timeout(recipes, 120);
    tcase_add_loop_test(recipes, one_batch_is_scaled_alike, 0, kitchen_ids);
    tcase_add_loop_test(recipes, links_are_whole, 0, kitchen_ids);
    tcase_add_loop_test(recipes, the_share_is_sampled, 0, 5);
    tcase_add_test(recipes, what_the_recipe_measures_counts_batches);
    tcase_add_test(recipes, counted_jars_are_half_a_jar_out);
    tcase_add_test(recipes, what_is_cooked_first_has_a_link_of_its_own);
    tcase_add_test(recipes, the_pot_is_balanced);
    tcase_add_test(recipes, other_foods_and_forms);
    tcase_add_test(recipes, whole_pots_are_made);
    return recipes;
}
