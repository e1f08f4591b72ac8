/* chain_refusals.c - what a chain refuses, and how it names measurements that
 * cannot be true together. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "chain_cases.h"

static const struct refused {
    const char *name, *recipe;
    pottle_chain_request request;
    pottle_status status;
    const char *code;
} refused[] = {
    { "version",
      "berry-jam-no-pectin",
      { .version = 0 },
      POTTLE_EMISUSE,
      "misuse" },
    { "prepared is not picked",
      "berry-jam-no-pectin",
      { .version = 1, .picked_said = true, .picked = POTTLE_PREPARED },
      POTTLE_EMISUSE,
      "misuse" },
    { "no such food in it",
      "berry-jam-no-pectin",
      { .version = 1, .food = "cucumber" },
      POTTLE_ENOENT,
      "not-in-recipe" },
    { "no such form",
      "berry-jam-no-pectin",
      { .version = 1, .form = "kernels" },
      POTTLE_ENOENT,
      "no-form" },
    { "an error below 0",
      "berry-jam-no-pectin",
      { .version = 1, .error_cup = -0.1 },
      POTTLE_EDOMAIN,
      "error" },
    { "an error above 3",
      "berry-jam-no-pectin",
      { .version = 1, .error_scale = 4 },
      POTTLE_EDOMAIN,
      "error" },
    { "an error that is no number",
      "berry-jam-no-pectin",
      { .version = 1, .error_level = (double)NAN },
      POTTLE_EDOMAIN,
      "error" },
    { "an altitude that is none",
      "berry-jam-no-pectin",
      { .version = 1, .has_altitude = true, .altitude_m = -5 },
      POTTLE_EDOMAIN,
      "altitude" },
    { "nothing to count by",
      "chicken-rabbit-boneless",
      { .version = 1 },
      POTTLE_ENOENT,
      "no-amount" },
};

START_TEST(new_refuses)
{
    pottle_recipe *recipe = kitchen_recipe(refused[_i].recipe);
    pottle_chain *chain = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_chain_new(kitchen, recipe, &refused[_i].request, &chain, &error);
    ck_assert_msg(status == refused[_i].status &&
                      strcmp(error.code, refused[_i].code) == 0 &&
                      chain == NULL,
                  "%s: expected %d (%s), found %d (%s): %s", refused[_i].name,
                  (int)refused[_i].status, refused[_i].code, (int)status,
                  error.code, error.what);
    pottle_recipe_free(recipe);
}
END_TEST

static const struct {
    const char *amount;
    pottle_chain_instrument which;
    pottle_status status;
} errors[] = {
    { "3 %", POTTLE_CHAIN_CUP, POTTLE_OK },
    { "0 %", POTTLE_CHAIN_LEVEL, POTTLE_OK },
    { "5 g", POTTLE_CHAIN_SCALE, POTTLE_OK },
    { "5 g", POTTLE_CHAIN_CUP, POTTLE_EUNIT },
    { "5 ml", POTTLE_CHAIN_SCALE, POTTLE_EUNIT },
    { "101 %", POTTLE_CHAIN_BY_EYE, POTTLE_EDOMAIN },
    { "1-2 %", POTTLE_CHAIN_BY_EYE, POTTLE_EDOMAIN },
    { "101 kg", POTTLE_CHAIN_SCALE, POTTLE_EDOMAIN },
};

START_TEST(errors_are_set)
{
    pottle_chain_request r = plain;
    pottle_quantity q;
    ck_assert_int_eq(pottle_quantity_read(errors[_i].amount, -1, &q, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_chain_error_set(&r, errors[_i].which, q, NULL),
                     errors[_i].status);
    const bool set = r.error_scale > 0 || r.error_cup > 0 ||
                     r.error_level > 0 || r.error_about > 0;
    ck_assert(set == (errors[_i].status == POTTLE_OK));
    ck_assert((r.error_scale_g > 0) ==
              (set && errors[_i].which == POTTLE_CHAIN_SCALE));
    ck_assert_int_eq(pottle_chain_error_set(NULL, errors[_i].which, q, NULL),
                     POTTLE_EMISUSE);
}
END_TEST

START_TEST(new_refuses_units)
{
    pottle_recipe *recipe = kitchen_recipe("berry-jam-no-pectin");
    pottle_chain *chain = NULL;
    pottle_error error = { .status = POTTLE_OK };
    pottle_chain_request r = plain;
    r.container = pottle_unit_find("kg");
    ck_assert_int_eq(pottle_chain_new(kitchen, recipe, &r, &chain, &error),
                     POTTLE_EUNIT);
    r.container = pottle_unit_find("sack");
    ck_assert_int_eq(pottle_chain_new(kitchen, recipe, &r, &chain, &error),
                     POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "no-container");
    r.container = NULL;
    r.measured = pottle_unit_find("mm");
    ck_assert_int_eq(pottle_chain_new(kitchen, recipe, &r, &chain, &error),
                     POTTLE_EUNIT);
    r = plain;
    r.jar = kitchen_jar("quart"); /* jam is tested up to pints */
    ck_assert_int_eq(pottle_chain_new(kitchen, recipe, &r, &chain, &error),
                     POTTLE_EBOUNDS);
    ck_assert_int_eq(pottle_chain_new(NULL, recipe, &plain, &chain, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_chain_new(kitchen, NULL, &plain, &chain, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_chain_new(kitchen, recipe, NULL, &chain, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_chain_new(kitchen, recipe, &plain, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_ptr_null(chain);
    pottle_chain_free(NULL);
    pottle_recipe_free(recipe);
}
END_TEST

/* Refuses, leaves the result alone and tells why; gives the error. */
static pottle_error
update_fails(const pottle_chain *chain, const pottle_observation *o, size_t n,
             pottle_status status, const char *code)
{
    pottle_chain_state s, before;
    pottle_error error = { .status = POTTLE_OK };
    memset(&s, 0x55, sizeof s);
    memcpy(&before, &s, sizeof s);
    const pottle_status found = pottle_chain_update(chain, o, n, &s, &error);
    ck_assert_msg(found == status && strcmp(error.code, code) == 0,
                  "expected %d (%s), found %d (%s): %s", (int)status, code,
                  (int)found, error.code, error.what);
    ck_assert_mem_eq(&s, &before, sizeof s);
    return error;
}

START_TEST(update_refuses)
{
    pottle_recipe *recipe = kitchen_recipe("peaches");
    pottle_chain *chain = make_chain(recipe, &plain);
    pottle_observation o[POTTLE_CHAIN_OBSERVED_MAX + 1];
    for (size_t i = 0; i <= POTTLE_CHAIN_OBSERVED_MAX; i++)
        o[i] = at(POTTLE_CHAIN_PICKED, 5000);
    pottle_chain_state s;
    ck_assert_int_eq(
        pottle_chain_update(chain, o, POTTLE_CHAIN_OBSERVED_MAX, &s, NULL),
        POTTLE_OK);
    update_fails(chain, o, POTTLE_CHAIN_OBSERVED_MAX + 1, POTTLE_EMISUSE,
                 "misuse");
    update_fails(chain, NULL, 1, POTTLE_EMISUSE, "misuse");
    update_fails(NULL, o, 1, POTTLE_EMISUSE, "misuse");
    ck_assert_int_eq(pottle_chain_update(chain, o, 1, NULL, NULL),
                     POTTLE_EMISUSE);
    /* slices under syrup: no pot holds what the jars will */
    const pottle_observation pot = at(POTTLE_CHAIN_COOKED_VOLUME, 3000);
    update_fails(chain, &pot, 1, POTTLE_ENOENT, "no-link");
    pottle_observation odd = at(POTTLE_CHAIN_PICKED, 5000);
    odd.node = (pottle_chain_node)77;
    update_fails(chain, &odd, 1, POTTLE_ENOENT, "no-link");
    static const double bad[] = { 0, -1, (double)NAN, HUGE_VAL, 1e13 };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        odd = at(POTTLE_CHAIN_PICKED, bad[i]);
        update_fails(chain, &odd, 1, POTTLE_EDOMAIN, "amount-range");
    }
    odd = at(POTTLE_CHAIN_PICKED, 5000);
    odd.high = 4000;
    update_fails(chain, &odd, 1, POTTLE_EDOMAIN, "amount-range");
    odd = at(POTTLE_CHAIN_PICKED, 5000);
    odd.error = -0.1;
    update_fails(chain, &odd, 1, POTTLE_EDOMAIN, "error");
    odd.error = 5;
    update_fails(chain, &odd, 1, POTTLE_EDOMAIN, "error");
    odd.error = (double)NAN;
    update_fails(chain, &odd, 1, POTTLE_EDOMAIN, "error");
    /* nothing measured, nothing told */
    ck_assert_int_eq(pottle_chain_update(chain, NULL, 0, &s, NULL), POTTLE_OK);
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++)
        ck_assert(!s.told[i]);
    ck_assert(!s.has_jars);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(contradictions_are_named)
{
    pottle_recipe *recipe = kitchen_recipe("tomatoes-crushed");
    pottle_chain *chain = make_chain(recipe, &plain);
    /* 10 kg bought keep 0.774 (yield study) with 0.05, weighed with 0.005
     * each: 7.74 kg. 4.5 kg are ln(7.74 / 4.5) / sqrt(0.0025 + 2 x 0.000025) =
     * 0.5423 / 0.050498 = 10.7 spreads away; 6.7 kg are 2.9, and stand */
    pottle_observation o[3] = { at(POTTLE_CHAIN_PICKED, 10000),
                                at(POTTLE_CHAIN_PREPARED, 4500),
                                at(POTTLE_CHAIN_JARS, 7) };
    pottle_error e = update_fails(chain, o, 2, POTTLE_EDOMAIN, "contradiction");
    ck_assert_msg(strstr(e.what, "10 kg") != NULL &&
                      strstr(e.what, "4.5 kg") != NULL &&
                      strstr(e.what, "10.7 standard deviations") != NULL,
                  "%s", e.what);
    o[1] = at(POTTLE_CHAIN_PREPARED, 7740 * exp(-2.9 * 0.050498));
    pottle_chain_state s;
    ck_assert_int_eq(pottle_chain_update(chain, o, 2, &s, NULL), POTTLE_OK);
    o[1] = at(POTTLE_CHAIN_PREPARED, 7740 * exp(-3.1 * 0.050498));
    update_fails(chain, o, 2, POTTLE_EDOMAIN, "contradiction");
    /* of three the odd one is named first: 7 quarts from 10 kg are right (22 lb
     * print 7), so the middle one is wrong */
    o[1] = at(POTTLE_CHAIN_PREPARED, 3000);
    e = update_fails(chain, o, 3, POTTLE_EDOMAIN, "contradiction");
    ck_assert_msg(
        strncmp(e.what, "prepared 3 kg contradicts picked 10 kg", 38) == 0,
        "%s", e.what);
    pottle_chain_wanted w;
    ck_assert_int_eq(pottle_chain_want(chain, o, 3, 5, &w, NULL),
                     POTTLE_EDOMAIN);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(more_than_went_in_is_named)
{
    /* 4 cups of crushed berries and 4 cups of sugar (USDA guide 7): 4 x 232
     * x 1.1 (study: a cup of cut produce packs fuller, which crushed fruit does
     * not, 1.0) + 800 g = 1728 to 1820 g a batch. 2 kg cannot come out of one
     * batch, nor 2 L. */
    pottle_recipe *recipe = kitchen_recipe("berry-jam-no-pectin");
    pottle_chain *chain = make_chain(recipe, &plain);
    pottle_observation o[2] = { at(POTTLE_CHAIN_BATCHES, 1),
                                at(POTTLE_CHAIN_COOKED_MASS, 2600) };
    pottle_error e =
        update_fails(chain, o, 2, POTTLE_EDOMAIN, "more-than-went-in");
    ck_assert_msg(strstr(e.what, "2.6 kg") != NULL &&
                      strstr(e.what, "1.7") != NULL &&
                      strstr(e.what, "standard deviations") != NULL,
                  "%s", e.what);
    ck_assert_str_ne(e.instead, "");
    o[1] = at(POTTLE_CHAIN_COOKED_VOLUME, 2200);
    e = update_fails(chain, o, 2, POTTLE_EDOMAIN, "more-than-went-in");
    ck_assert_msg(strstr(e.what, "2.2 L") != NULL, "%s", e.what);
    /* the limit is three standard deviations of the inputs and the scale: just
     * below it nothing is said of what went in, just above it is; 928 g of
     * crushed fruit (study, 232 g a cup) and 4 cups of sugar of 200 g went in
     */
    ck_assert_msg(chain->in_g > 1700 && chain->in_g < 1760, "%g g went in",
                  chain->in_g);
    const double sd = hypot(chain->in_sd, 0.005);
    o[1] = at(POTTLE_CHAIN_COOKED_MASS, chain->in_g * exp(3.05 * sd));
    update_fails(chain, o, 2, POTTLE_EDOMAIN, "more-than-went-in");
    o[1] = at(POTTLE_CHAIN_COOKED_MASS, chain->in_g * exp(2.95 * sd));
    pottle_chain_state below;
    pottle_error none = { .status = POTTLE_OK };
    ck_assert(pottle_chain_update(chain, o, 2, &below, &none) == POTTLE_OK ||
              strcmp(none.code, "more-than-went-in") != 0);
    /* what came out cannot vouch for what went in, however roughly that is
     * known */
    const pottle_observation rough[2] = {
        { .node = POTTLE_CHAIN_MEASURED,
          .low = 4 * CUP_ML,
          .high = 4 * CUP_ML,
          .about = true },
        at(POTTLE_CHAIN_COOKED_MASS, chain->in_g * exp(3.1 * hypot(0.15, sd)))
    };
    update_fails(chain, rough, 2, POTTLE_EDOMAIN, "more-than-went-in");
    /* by eye it may be as much as is there */
    o[1] = (pottle_observation){ .node = POTTLE_CHAIN_COOKED_VOLUME,
                                 .low = 1200,
                                 .high = 1200,
                                 .about = true };
    pottle_chain_state s;
    ck_assert_int_eq(pottle_chain_update(chain, o, 2, &s, NULL), POTTLE_OK);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(want_refuses)
{
    pottle_recipe *recipe = kitchen_recipe("berry-jam-no-pectin");
    pottle_chain *chain = make_chain(recipe, &plain);
    pottle_chain_wanted w, before;
    memset(&w, 0x55, sizeof w);
    memcpy(&before, &w, sizeof w);
    static const double bad[] = { 0, -3, (double)NAN, HUGE_VAL, 2e6 };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        ck_assert_int_eq(pottle_chain_want(chain, NULL, 0, bad[i], &w, NULL),
                         POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_chain_want(NULL, NULL, 0, 3, &w, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_chain_want(chain, NULL, 1, 3, &w, NULL),
                     POTTLE_EMISUSE);
    ck_assert_mem_eq(&w, &before, sizeof w);
    ck_assert_int_eq(pottle_chain_want(chain, NULL, 0, 3, NULL, NULL),
                     POTTLE_EMISUSE);
    /* whole batches of jam */
    ck_assert_int_eq(pottle_chain_want(chain, NULL, 0, 14, &w, NULL),
                     POTTLE_OK);
    ck_assert_double_eq_tol(w.needed[POTTLE_CHAIN_BATCHES],
                            floor(w.needed[POTTLE_CHAIN_BATCHES] + 0.5), 1e-9);
    pottle_chain_free(chain);
    pottle_recipe_free(recipe);
}
END_TEST

TCase *
chain_refusals(void)
{
    TCase *refusals = tcase_create("refusals");
    tcase_add_checked_fixture(refusals, kitchen_open, kitchen_close);
    tcase_add_loop_test(refusals, new_refuses, 0,
                        (int)(sizeof refused / sizeof refused[0]));
    tcase_add_loop_test(refusals, errors_are_set, 0,
                        sizeof errors / sizeof errors[0]);
    tcase_add_test(refusals, new_refuses_units);
    tcase_add_test(refusals, update_refuses);
    tcase_add_test(refusals, contradictions_are_named);
    tcase_add_test(refusals, more_than_went_in_is_named);
    tcase_add_test(refusals, want_refuses);
    return refusals;
}
