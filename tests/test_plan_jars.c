/* test_plan_jars.c - a plan in jars of one's own, and the shelf beside it.
 *
 * The jar is the one of test_own_jar.c: 452 g empty and 934 g full of water of
 * 20 deg C, 0.9982067 g/mL (Tanaka et al. 2001), so 482.866 mL to the brim.
 * With a mouth of 60 mm a headspace of 1/2 in takes 12.7 mm * 2827.43 mm2 =
 * 35.908 mL of it away: 446.957 mL. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen_help.h"
#include "suite.h"

#define COUNT(list) ((int)(sizeof(list) / sizeof(list)[0]))
#define TALL_ML 446.957

static pottle_own_jar
weighed(double empty_g, double full_g)
{
    pottle_own_jar jar;
    memset(&jar, 0, sizeof jar);
    strcpy(jar.id, "tall");
    jar.empty = (pottle_quantity){ empty_g, empty_g, pottle_unit_find("g") };
    jar.full = (pottle_quantity){ full_g, full_g, pottle_unit_find("g") };
    jar.scale = (pottle_quantity){ 1, 1, pottle_unit_find("g") };
    jar.water = (pottle_quantity){ 20, 20, pottle_unit_find("degc") };
    jar.mouth = (pottle_quantity){ 60, 60, pottle_unit_find("mm") };
    return jar;
}

/* Both kinds of forecast: by the balance of what is cooked, and by the load
 * that a jar takes. */
static const char *const recipes[] = { "tomatoes-crushed", "peaches",
                                       "strawberry-jam-powdered-pectin",
                                       "chile-salsa" };

START_TEST(own_jars_hold_what_was_cooked)
{
    const pottle_own_jar jar = weighed(452, 934);
    pottle_recipe *recipe = kitchen_recipe(recipes[_i]);
    pottle_plan *pints = NULL, *own = NULL;
    pottle_error error;
    pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                               .batches = 1,
                               .jar = kitchen_jar("pint") };
    ck_assert_msg(pottle_scale(kitchen, recipe, &request, &pints, &error) ==
                      POTTLE_OK,
                  "%s", error.what);
    request.jar = NULL;
    request.own = &jar;
    ck_assert_msg(pottle_scale(kitchen, recipe, &request, &own, &error) ==
                      POTTLE_OK,
                  "%s", error.what);
    const pottle_jar_count *p = pottle_plan_jars(pints),
                           *t = pottle_plan_jars(own);
    ck_assert_ptr_nonnull(t);
    ck_assert_ptr_eq(t->own, &jar);
    ck_assert_ptr_null(p->own);
    /* it holds less than a pint and more than a half-pint */
    ck_assert_str_eq(t->jar->id, "pint");
    const double inches = t->headspace.mm / 25.4,
                 holds = 482.8659 - inches * 25.4 * 2827.4334 / 1000;
    ck_assert_double_eq_tol(t->fill_ml.median, holds, 0.01);
    /* what is in the pot does not ask what it is filled into */
    ck_assert_double_eq_tol(t->volume_ml.median, p->volume_ml.median,
                            1e-6 * p->volume_ml.median);
    ck_assert_double_eq_tol(t->count.median, p->volume_ml.median / holds,
                            1e-4 * t->count.median);
    /* the process is the pint's */
    size_t n = 0, m = 0;
    const pottle_process *a = pottle_plan_tables(pints, &n),
                         *b = pottle_plan_tables(own, &m);
    ck_assert_uint_eq(n, m);
    for (size_t i = 0; i < n; i++)
        ck_assert_ptr_eq(a[i].table, b[i].table);
    pottle_plan_free(own);
    pottle_plan_free(pints);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(fill_half_inch)
{
    const pottle_own_jar jar = weighed(452, 934);
    pottle_recipe *recipe = kitchen_recipe("tomatoes-crushed");
    pottle_plan *plan = NULL;
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .fill = 8,
                                     .own = &jar };
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, NULL),
                     POTTLE_OK);
    /* USDA Complete Guide, guide 3: crushed tomatoes, 1/2 in headspace */
    ck_assert_double_eq_tol(pottle_plan_jars(plan)->fill_ml.median, TALL_ML,
                            0.01);
    ck_assert_double_eq_tol(pottle_plan_jars(plan)->count.median, 8, 1e-6);
    pottle_plan_free(plan);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(too_large_is_refused)
{
    /* guide 3 has pints and quarts of crushed tomatoes; this one holds 1.3 L */
    const pottle_own_jar jar = weighed(500, 1800);
    pottle_recipe *recipe = kitchen_recipe("tomatoes-crushed");
    pottle_plan *plan = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 1,
                                     .own = &jar };
    ck_assert_int_eq(pottle_scale(kitchen, recipe, &request, &plan, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "jar-larger");
    ck_assert_str_ne(error.source, "");
    ck_assert_ptr_null(plan);
    pottle_chain *chain = NULL;
    const pottle_chain_request wanted = { .version =
                                              POTTLE_CHAIN_REQUEST_VERSION,
                                          .own = &jar };
    ck_assert_int_eq(pottle_chain_new(kitchen, recipe, &wanted, &chain, &error),
                     POTTLE_EBOUNDS);
    ck_assert_ptr_null(chain);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(chain_takes_it)
{
    const pottle_own_jar jar = weighed(452, 934);
    pottle_recipe *recipe = kitchen_recipe("tomatoes-crushed");
    pottle_chain *chain = NULL;
    pottle_chain_state state;
    const pottle_observation seen = { .node = POTTLE_CHAIN_BATCHES,
                                      .low = 1,
                                      .high = 1 };
    const pottle_chain_request wanted = { .version =
                                              POTTLE_CHAIN_REQUEST_VERSION,
                                          .own = &jar };
    ck_assert_int_eq(pottle_chain_new(kitchen, recipe, &wanted, &chain, NULL),
                     POTTLE_OK);
    const pottle_chain_facts *f = pottle_chain_facts_of(chain);
    ck_assert_ptr_eq(f->own, &jar);
    ck_assert_str_eq(f->jar->id, "pint");
    ck_assert_double_eq_tol(f->fill_ml.median, TALL_ML, 0.01);
    ck_assert_int_eq(pottle_chain_update(chain, &seen, 1, &state, NULL),
                     POTTLE_OK);
    ck_assert_ptr_eq(state.jars.own, &jar);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

/* -- The shelf ------------------------------------------------------------- */

/* 9 expected, 11 to prepare, of pints or of the jar of one's own. */
static const struct {
    const char *shelf; /* a listed size there, NULL for none */
    unsigned long count, own;
    bool of_own, known;
    unsigned long there, lacking, expected;
} stocks[] = {
    { "pint", 11, 0, false, true, 11, 0, 0 },
    { "pint", 10, 0, false, true, 10, 1, 0 },
    { "pint", 9, 0, false, true, 9, 2, 0 },
    { "pint", 8, 0, false, true, 8, 3, 1 },
    { "quart", 8, 0, false, true, 0, 11, 9 },
    { NULL, 0, 0, false, false, 0, 0, 0 },
    /* a pint is no jar of one's own, though that takes its process */
    { "pint", 20, 6, true, true, 6, 5, 3 },
    /* one that was measured need not have been counted */
    { "pint", 20, 0, true, false, 0, 0, 0 },
    { NULL, 0, 6, false, true, 0, 11, 9 },
};

START_TEST(stock)
{
    static pottle_kitchen house; /* large */
    memset(&house, 0, sizeof house);
    const pottle_own_jar jar = weighed(452, 934);
    if (stocks[_i].shelf != NULL) {
        house.shelves = 1;
        strcpy(house.shelf[0].jar, stocks[_i].shelf);
        house.shelf[0].count = stocks[_i].count;
    }
    house.own_jars = 1;
    house.own[0] = jar;
    house.own[0].count = stocks[_i].own;
    const pottle_jar_count jars = { .jar = kitchen_jar("pint"),
                                    .own = stocks[_i].of_own ? &house.own[0]
                                                             : NULL,
                                    .prepare = 11,
                                    .full = 9 };
    pottle_shelf_stock out = { 77, 77, 77 };
    ck_assert(pottle_shelf_has(&house, &jars, &out) == stocks[_i].known);
    ck_assert_uint_eq(out.there, stocks[_i].known ? stocks[_i].there : 77);
    ck_assert_uint_eq(out.lacking, stocks[_i].known ? stocks[_i].lacking : 77);
    ck_assert_uint_eq(out.expected,
                      stocks[_i].known ? stocks[_i].expected : 77);
    ck_assert(!pottle_shelf_has(NULL, &jars, &out));
    ck_assert(!pottle_shelf_has(&house, NULL, &out));
    ck_assert(!pottle_shelf_has(&house, &jars, NULL));
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("jars of a plan");
    TCase *t = tcase_create("own");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, own_jars_hold_what_was_cooked, 0, COUNT(recipes));
    tcase_add_test(t, fill_half_inch);
    tcase_add_test(t, too_large_is_refused);
    tcase_add_test(t, chain_takes_it);
    suite_add_tcase(suite, t);

    t = tcase_create("shelf");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, stock, 0, COUNT(stocks));
    suite_add_tcase(suite, t);
    return suite_run(suite);
}
