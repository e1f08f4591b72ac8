/* test_limits.c - what may differ from the tested batch: keep rules, pots,
 * refusals. */
#include <config.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/kitchen.h"
#include "kitchen_help.h"
#include "suite.h"

/* -- Keep rules ------------------------------------------------------------ */

/* An estimate of spread 0.1 lies with 90 % between x/÷ exp(1.6449 * 0.1)
 * = 1.17877: 1.0 is 0.84834 to 1.17877, 1.2 is 1.01801 to 1.41452, 0.84 is
 * 0.71261 to 0.99017. One of spread 0.005: x/÷ exp(0.0082243) = 1.008258. */
static const struct {
    pottle_keep keep;
    double median, sd, tested;
    bool holds;
    const char *why;
} keeps[] = {
    { POTTLE_EXACT, 100, 0, 100, true, "as tested" },
    { POTTLE_EXACT, 100.99, 0, 100, true, "1 % tolerance, above" },
    { POTTLE_EXACT, 99.01, 0, 100, true, "1 % tolerance, below" },
    { POTTLE_EXACT, 101.01, 0, 100, false, "past the tolerance, above" },
    { POTTLE_EXACT, 98.99, 0, 100, false, "past the tolerance, below" },
    { POTTLE_EXACT, 100, 0.005, 100, true, "99.18 to 100.83" },
    { POTTLE_EXACT, 100.5, 0.005, 100, false, "high end 101.33" },
    { POTTLE_EXACT, 99.5, 0.005, 100, false, "low end 98.69" },
    { POTTLE_EXACT, 100, 0.1, 100, false, "both ends outside" },
    { POTTLE_AT_LEAST, 100, 0, 100, true, "as tested" },
    { POTTLE_AT_LEAST, 300, 0, 100, true, "three times" },
    { POTTLE_AT_LEAST, 99.999, 0, 100, false, "a hair under" },
    { POTTLE_AT_LEAST, 100, 0.1, 100, false, "low end 84.8" },
    { POTTLE_AT_LEAST, 120, 0.1, 100, true, "low end 101.8" },
    { POTTLE_AT_MOST, 100, 0, 100, true, "as tested" },
    { POTTLE_AT_MOST, 1, 0, 100, true, "nearly none" },
    { POTTLE_AT_MOST, 100.001, 0, 100, false, "a hair over" },
    { POTTLE_AT_MOST, 100, 0.1, 100, false, "high end 117.9" },
    { POTTLE_AT_MOST, 84, 0.1, 100, true, "high end 99.0" },
    { POTTLE_FREE, 1e-3, 0, 100, true, "free" },
    { POTTLE_FREE, 1e6, 0.5, 100, true, "free" },
};
enum { KEEPS = sizeof keeps / sizeof keeps[0] };

START_TEST(keeps_hold_as_their_words_say)
{
    const pottle_estimate amount = { keeps[_i].median, keeps[_i].sd };
    ck_assert_msg(pottlei_keep_holds(keeps[_i].keep, amount,
                                     keeps[_i].tested) == keeps[_i].holds,
                  "%s: %g (spread %g) against %g: %s",
                  pottle_keep_name((int)keeps[_i].keep), amount.median,
                  amount.sd, keeps[_i].tested, keeps[_i].why);
}
END_TEST

/* What comes back from a conversion there and back is the same amount: 7 lb is
 * 5 lb times 1.4. */
START_TEST(keeps_forgive_the_last_digits)
{
    const double amount = 7 * POUND_G, tested = 1.4 * (5 * POUND_G);
    for (int i = -1; i <= 1; i++) {
        const pottle_estimate e = { amount * (1 + i * 1e-12), 0 };
        ck_assert(pottlei_keep_holds(POTTLE_EXACT, e, tested));
        ck_assert(pottlei_keep_holds(POTTLE_AT_LEAST, e, tested));
        ck_assert(pottlei_keep_holds(POTTLE_AT_MOST, e, tested));
    }
}
END_TEST

/* A printed range, 100 to 200: each keep looks at its own end. */
START_TEST(keeps_have_two_ends)
{
    static const struct {
        pottle_keep keep;
        double amount;
        bool holds;
    } ends[] = {
        { POTTLE_AT_LEAST, 100, true }, { POTTLE_AT_LEAST, 99, false },
        { POTTLE_AT_LEAST, 300, true }, { POTTLE_AT_MOST, 200, true },
        { POTTLE_AT_MOST, 201, false }, { POTTLE_AT_MOST, 50, true },
        { POTTLE_EXACT, 100, true },    { POTTLE_EXACT, 200, true },
        { POTTLE_EXACT, 98.9, false },  { POTTLE_EXACT, 202.1, false },
        { POTTLE_EXACT, 99.1, true },   { POTTLE_EXACT, 201.9, true },
        { POTTLE_FREE, 50, true },
    };
    for (size_t i = 0; i < sizeof ends / sizeof ends[0]; i++)
        ck_assert_msg(pottlei_keep_between(
                          ends[i].keep, (pottle_estimate){ ends[i].amount, 0 },
                          100, 200) == ends[i].holds,
                      "%s: %g of 100 to 200",
                      pottle_keep_name((int)ends[i].keep), ends[i].amount);
}
END_TEST

static const pottle_keep all_keeps[] = { POTTLE_FREE, POTTLE_EXACT,
                                         POTTLE_AT_LEAST, POTTLE_AT_MOST };
enum { ALL_KEEPS = sizeof all_keeps / sizeof all_keeps[0] };

START_TEST(keeps_never_hold_for_what_is_no_amount)
{
    const pottle_estimate bad[] = { { NOT_A_NUMBER, 0 },
                                    { -1, 0 },
                                    { 0, 0 },
                                    { HUGE_VAL, 0 },
                                    { -HUGE_VAL, 0 },
                                    { 1, NOT_A_NUMBER },
                                    { 1, HUGE_VAL },
                                    { NOT_A_NUMBER, NOT_A_NUMBER },
                                    { 1e300, 100 },
                                    { 1e-300, 100 } }; /* low end 0 */
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        ck_assert_msg(!pottlei_keep_holds(all_keeps[_i], bad[i], 1),
                      "%s holds for %g, spread %g",
                      pottle_keep_name((int)all_keeps[_i]), bad[i].median,
                      bad[i].sd);
    if (all_keeps[_i] != POTTLE_FREE)
        ck_assert_msg(
            !pottlei_keep_holds(all_keeps[_i], (pottle_estimate){ 1, 0 },
                                NOT_A_NUMBER),
            "%s holds against NaN", pottle_keep_name((int)all_keeps[_i]));
}
END_TEST

START_TEST(keeps_are_four)
{
    ck_assert(
        !pottlei_keep_holds((pottle_keep)99, (pottle_estimate){ 1, 0 }, 1));
}
END_TEST

/* -- Pots ------------------------------------------------------------------ */

/* Batches of the catalogue, as the sources bound them: chile-salsa up to 1 in a
 * pot (guide 3, one batch a pot); berry-jam-no-pectin exactly 1 (guide 7: one
 * batch at a time); apple-jelly-no-pectin 1/4 to 1 1/2 (guide 7: no more than
 * 6 cups of juice, 4 a batch); cranberry-sauce up to 2 (its source says that it
 * may be doubled). */
static const struct {
    const char *recipe;
    double factor;
    size_t pots;
    double pot[4];
} splits[] = {
    { "chile-salsa", 1, 1, { 1 } },
    { "chile-salsa", 0.4, 1, { 0.4 } },
    { "chile-salsa", 1e-6, 1, { 1e-6 } },
    { "chile-salsa", 1.4, 2, { 1, 0.4 } },
    { "chile-salsa", 3, 3, { 1, 1, 1 } },
    { "chile-salsa", 3 - 1e-12, 3, { 1, 1, 1 } },
    { "chile-salsa", 3 + 1e-12, 3, { 1, 1, 1 } },
    { "berry-jam-no-pectin", 1, 1, { 1 } },
    { "berry-jam-no-pectin", 1 - 1e-12, 1, { 1 } },
    { "berry-jam-no-pectin", 1.999, 1, { 1 } },
    { "berry-jam-no-pectin", 2.5, 2, { 1, 1 } },
    { "apple-jelly-no-pectin", 0.25, 1, { 0.25 } },
    { "apple-jelly-no-pectin", 1.5, 1, { 1.5 } },
    { "apple-jelly-no-pectin", 1.6, 1, { 1.5 } }, /* 0.1 is under a quarter */
    { "apple-jelly-no-pectin", 1.75, 2, { 1.5, 0.25 } },
    { "apple-jelly-no-pectin", 2, 2, { 1.5, 0.5 } },
    { "apple-jelly-no-pectin", 4.6, 3, { 1.5, 1.5, 1.5 } },
    { "cranberry-sauce", 2, 1, { 2 } },
    { "cranberry-sauce", 5, 3, { 2, 2, 1 } },
};
enum { SPLITS = sizeof splits / sizeof splits[0] };

START_TEST(pots_are_tested_batches)
{
    pottle_recipe *recipe = kitchen_recipe(splits[_i].recipe);
    pottlei_pots pots = { NULL, 0, 0 };
    ck_assert_int_eq(
        pottlei_pots_split(kitchen, recipe, splits[_i].factor, &pots, NULL),
        POTTLE_OK);
    ck_assert_uint_eq(pots.count, splits[_i].pots);
    double sum = 0;
    for (size_t i = 0; i < pots.count; i++) {
        ck_assert_msg(fabs(pots.pot[i] - splits[_i].pot[i]) < 1e-9,
                      "%s, %g batches: pot %zu is %g, not %g",
                      splits[_i].recipe, splits[_i].factor, i, pots.pot[i],
                      splits[_i].pot[i]);
        sum += pots.pot[i];
    }
    ck_assert_double_eq_tol(pots.factor, sum, 1e-9);
    free(pots.pot);
    pottle_recipe_free(recipe);
}
END_TEST

static const struct {
    const char *recipe;
    double factor;
    pottle_status status;
    const char *code;
} no_splits[] = {
    { "berry-jam-no-pectin", 0.999, POTTLE_EBOUNDS, "batch-smallest" },
    { "berry-jam-no-pectin", 0.1, POTTLE_EBOUNDS, "batch-smallest" },
    { "apple-jelly-no-pectin", 0.249, POTTLE_EBOUNDS, "batch-smallest" },
    { "chile-salsa", 1000.5, POTTLE_EDOMAIN, "too-many-pots" },
    { "apple-jelly-no-pectin", 1501, POTTLE_EDOMAIN, "too-many-pots" },
    { "chile-salsa", 0, POTTLE_EDOMAIN, "factor" },
    { "chile-salsa", -1, POTTLE_EDOMAIN, "factor" },
    { "chile-salsa", NOT_A_NUMBER, POTTLE_EDOMAIN, "factor" },
    { "chile-salsa", HUGE_VAL, POTTLE_EDOMAIN, "factor" },
    { "chile-salsa", -HUGE_VAL, POTTLE_EDOMAIN, "factor" },
    { "chile-salsa", 1e300, POTTLE_EDOMAIN, "factor" },
    { "berry-jam-no-pectin", NOT_A_NUMBER, POTTLE_EDOMAIN, "factor" },
};
enum { NO_SPLITS = sizeof no_splits / sizeof no_splits[0] };

START_TEST(pots_are_refused_outside_the_tested_batch)
{
    pottle_recipe *recipe = kitchen_recipe(no_splits[_i].recipe);
    pottlei_pots pots = { NULL, 77, 7.7 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottlei_pots_split(
        kitchen, recipe, no_splits[_i].factor, &pots, &error);
    ck_assert_msg(status == no_splits[_i].status && error.status == status &&
                      strcmp(error.code, no_splits[_i].code) == 0,
                  "%s, %g batches: %s (%s): %s", no_splits[_i].recipe,
                  no_splits[_i].factor, pottle_strerror((int)status),
                  error.code, error.what);
    ck_assert(pots.pot == NULL && pots.count == 77 && pots.factor > 7.6);
    /* guide 7 is the source of the rule that a jam is not cut */
    if (status == POTTLE_EBOUNDS) {
        ck_assert_ptr_nonnull(pottle_source_find(kitchen, error.source));
        ck_assert_msg(strstr(error.instead, "freeze") != NULL, "instead: %s",
                      error.instead);
    }
    ck_assert_int_eq(
        pottlei_pots_split(kitchen, recipe, no_splits[_i].factor, &pots, NULL),
        status);
    pottle_recipe_free(recipe);
}
END_TEST

/* The largest number of pots is made, one more is not. */
START_TEST(pots_end_at_their_largest_number)
{
    pottle_recipe *recipe = kitchen_recipe("chile-salsa");
    pottlei_pots pots = { NULL, 0, 0 };
    ck_assert_int_eq(
        pottlei_pots_split(kitchen, recipe, POTTLEI_POTS_MAX, &pots, NULL),
        POTTLE_OK);
    ck_assert_uint_eq(pots.count, POTTLEI_POTS_MAX);
    free(pots.pot);
    /* a number that may be asked, and one that may not */
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(
        pottlei_pots_split(kitchen, recipe, POTTLE_NUMBER_MAX, &pots, &error),
        POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "too-many-pots");
    ck_assert_int_eq(pottlei_pots_split(kitchen, recipe,
                                        1.0001 * POTTLE_NUMBER_MAX, &pots,
                                        &error),
                     POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "factor");
    pottle_recipe_free(recipe);
}
END_TEST

/* apple-jelly-no-pectin, 1/4 to 1 1/2 a pot: what differs in the tenth digit is
 * a conversion there and back, what differs in the fourth is not. */
START_TEST(pots_forgive_the_last_digits)
{
    static const struct {
        double factor;
        size_t pots; /* 0: refused */
        double made;
    } edges[] = {
        { 0.25 * (1 - 5e-10), 1, 0.25 },
        { 0.25 * (1 - 1e-6), 0, 0 },
        { 3 * (1 - 5e-10), 2, 3 },
        { 3 * (1 + 5e-10), 2, 3 },
        { 3 * (1 - 5e-4), 2, 2.9985 },
        { 3.2, 2, 3 },
        { 3.25, 3, 3.25 },
    };
    pottle_recipe *recipe = kitchen_recipe("apple-jelly-no-pectin");
    for (size_t i = 0; i < sizeof edges / sizeof edges[0]; i++) {
        pottlei_pots pots = { NULL, 0, 0 };
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottlei_pots_split(kitchen, recipe, edges[i].factor, &pots, &error);
        ck_assert_msg((status == POTTLE_OK) == (edges[i].pots > 0), "%.12g: %s",
                      edges[i].factor, error.what);
        ck_assert_uint_eq(pots.count, edges[i].pots);
        ck_assert_msg(fabs(pots.factor - edges[i].made) <= 2e-9, "%.12g: %.12g",
                      edges[i].factor, pots.factor);
        if (status != POTTLE_OK)
            ck_assert_ptr_nonnull(strstr(
                error.what, "is tested from 0.25 of the "
                            "published batch; this would be 0.25 of it"));
        free(pots.pot);
    }
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Refusals -------------------------------------------------------------- */

/* The rule salsa-02 as rules.xml cites it: "Onion, celery and peppers may be
 * lowered or left out, never raised", a salsa page of a state extension. */
START_TEST(refusals_name_rule_source_and_way_out)
{
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottlei_refuse(kitchen, &error, "keep-at-most", "salsa-02",
                                    NULL, "%s %d", "onions", 3),
                     POTTLE_EBOUNDS);
    ck_assert_int_eq(error.status, POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "keep-at-most");
    ck_assert_msg(strncmp(error.what, "onions 3", 8) == 0, "%s", error.what);
    ck_assert_msg(strstr(error.what, "never raised") != NULL, "%s", error.what);
    ck_assert_str_eq(error.source, "ucanr-ext");
    ck_assert_str_eq(error.at, "salsa page");
    ck_assert_msg(strstr(error.instead, "after opening") != NULL, "%s",
                  error.instead);
    ck_assert_ptr_nonnull(pottle_source_find(kitchen, error.source));
}
END_TEST

START_TEST(refusals_may_know_a_better_way_out)
{
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottlei_refuse(kitchen, &error, "keep-at-most", "salsa-02",
                                    "use at most 1 lb", "onions"),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.instead, "use at most 1 lb");
    ck_assert_str_eq(error.source, "ucanr-ext");
    ck_assert_int_eq(pottlei_refuse(kitchen, NULL, "keep-at-most", "salsa-02",
                                    "use at most 1 lb", "onions"),
                     POTTLE_EBOUNDS);
}
END_TEST

/* Without the rule, or without the file of the rules, it is a refusal all the
 * same. */
START_TEST(refusals_stand_without_a_rule)
{
    pottle_catalogue *bare = kitchen_catalogue(POTTLE_WITH_JARS);
    const pottle_catalogue *const catalogues[] = { kitchen, bare };
    const char *const rules[] = { "no-such-rule", "salsa-02" };
    for (size_t i = 0; i < 2; i++) {
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(pottlei_refuse(catalogues[i], &error, "some-code",
                                        rules[i], NULL, "onions"),
                         POTTLE_EBOUNDS);
        ck_assert_int_eq(error.status, POTTLE_EBOUNDS);
        ck_assert_str_eq(error.what, "onions");
        ck_assert_str_eq(error.source, "");
        ck_assert_str_eq(error.instead, "");
        ck_assert_int_eq(pottlei_refuse(catalogues[i], &error, "some-code",
                                        rules[i], "less", "onions"),
                         POTTLE_EBOUNDS);
        ck_assert_str_eq(error.instead, "less");
    }
    pottle_catalogue_free(bare);
}
END_TEST

/* However long the names are, the text ends inside its place. */
START_TEST(refusals_fit_their_place)
{
    char name[2000];
    memset(name, 'x', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    pottle_error error;
    memset(&error, 'y', sizeof error);
    ck_assert_int_eq(pottlei_refuse(kitchen, &error, "keep-at-most", "salsa-02",
                                    name, "%s", name),
                     POTTLE_EBOUNDS);
    ck_assert_uint_lt(strnlen(error.what, sizeof error.what),
                      sizeof error.what);
    ck_assert_uint_lt(strnlen(error.instead, sizeof error.instead),
                      sizeof error.instead);
    ck_assert_uint_gt(strlen(error.what), 300);
}
END_TEST

/* Every rule that an ingredient, a batch or a dose names is there, with a
 * source: a refusal is never bare. */
static pottle_status
rules_are_there(void *context, const pottle_recipe *recipe,
                const pottle_error *error)
{
    size_t *looked_at = context, n = 0;
    ck_assert_msg(recipe != NULL, "%s:%ld: %s", error->where, error->line,
                  error->what);
    const char *rules[128];
    size_t count = 0;
    const pottle_ingredient *list = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0; i < n && count < 100; i++) {
        rules[count++] = list[i].rule;
        for (size_t k = 0; k < list[i].alternatives && count < 100; k++)
            rules[count++] = list[i].alternative[k].rule;
    }
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &n);
    for (size_t i = 0; i < n && count < 120; i++)
        rules[count++] = per[i].rule;
    rules[count++] = pottle_recipe_batch(recipe)->rule;
    for (size_t i = 0; i < count; i++) {
        const pottle_rule *rule = pottle_rule_find(kitchen, rules[i]);
        ck_assert_msg(rule != NULL && rule->text[0] != '\0' &&
                          pottle_source_find(kitchen, rule->cite.source) !=
                              NULL,
                      "%s: rule '%s' has no text or source",
                      pottle_recipe_id(recipe), rules[i]);
        (*looked_at)++;
    }
    return POTTLE_OK;
}

START_TEST(refusals_are_never_bare)
{
    size_t looked_at = 0;
    ck_assert_int_eq(
        pottle_recipes_each(kitchen, rules_are_there, &looked_at, NULL),
        POTTLE_OK);
    ck_assert_uint_gt(looked_at, 500);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("limits");
    TCase *keep = tcase_create("keep rules");
    tcase_add_loop_test(keep, keeps_hold_as_their_words_say, 0, KEEPS);
    tcase_add_test(keep, keeps_forgive_the_last_digits);
    tcase_add_loop_test(keep, keeps_never_hold_for_what_is_no_amount, 0,
                        ALL_KEEPS);
    tcase_add_test(keep, keeps_are_four);
    tcase_add_test(keep, keeps_have_two_ends);
    suite_add_tcase(suite, keep);

    TCase *pots = tcase_create("pots");
    tcase_add_checked_fixture(pots, kitchen_open, kitchen_close);
    tcase_add_loop_test(pots, pots_are_tested_batches, 0, SPLITS);
    tcase_add_loop_test(pots, pots_are_refused_outside_the_tested_batch, 0,
                        NO_SPLITS);
    tcase_add_test(pots, pots_end_at_their_largest_number);
    tcase_add_test(pots, pots_forgive_the_last_digits);
    suite_add_tcase(suite, pots);

    TCase *refusals = tcase_create("refusals");
    tcase_add_checked_fixture(refusals, kitchen_open, kitchen_close);
    tcase_add_test(refusals, refusals_name_rule_source_and_way_out);
    tcase_add_test(refusals, refusals_may_know_a_better_way_out);
    tcase_add_test(refusals, refusals_stand_without_a_rule);
    tcase_add_test(refusals, refusals_fit_their_place);
    tcase_add_test(refusals, refusals_are_never_bare);
    suite_add_tcase(suite, refusals);
    return suite_run(suite);
}
