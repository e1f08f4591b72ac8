/* test_find.c - pottle_recipes_find: what can be made of what is on hand.
 *
 * Which recipes are found is compared with scaling each recipe of the
 * catalogue by itself; how much of the harvest goes into each is reckoned here
 * from the printed batches. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/kitchen.h"
#include "kitchen_help.h"
#include "suite.h"

enum { HAVES = 4 };

typedef struct found {
    pottle_status status;
    pottle_matches *matches;
    const pottle_match *list;
    size_t count;
} found;

static size_t
read_haves(const char *const *text, pottle_phrase *out)
{
    size_t n = 0;
    for (; n < HAVES && text[n] != NULL; n++) {
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottle_phrase_read(kitchen, text[n], NULL, 0, &out[n], &error);
        ck_assert_msg(status == POTTLE_OK, "'%s': %s", text[n], error.what);
    }
    return n;
}

/* The search is a pattern; what is on hand is put in. */
static found
find(const char *const *have, pottle_search search)
{
    pottle_phrase phrase[HAVES];
    pottle_error error = { .status = POTTLE_OK };
    found f = { .matches = NULL };
    search.version = POTTLE_SEARCH_VERSION;
    search.have = phrase;
    search.haves = read_haves(have, phrase);
    f.status =
        pottle_recipes_find(kitchen, &search, NULL, NULL, &f.matches, &error);
    ck_assert_msg(f.status == POTTLE_OK, "%s", error.what);
    f.list = pottle_matches_list(f.matches, &f.count);
    return f;
}

static const pottle_match *
match_of(const found *f, const char *id)
{
    for (size_t i = 0; i < f->count; i++)
        if (strcmp(pottle_recipe_id(f->list[i].recipe), id) == 0)
            return &f->list[i];
    return NULL;
}

/* -- How much goes into it ------------------------------------------------- */

/* 5.3 kg of rhubarb as bought. Stewed (USDA guide 2) it is scaled freely: all
 * of it. A batch of the jam takes about 1 lb (nchfp), one of the jelly 1 1/2 lb
 * (USDA guide 7), and both are made whole: 11 and 7 of them. */
START_TEST(shares_are_those_of_the_printed_batches)
{
    static const char *const have[] = { "5.3 kg rhubarb", NULL };
    static const struct {
        const char *recipe;
        double factor, used_g;
    } rows[] = {
        { "rhubarb-stewed", 5300 / (10.5 * POUND_G), 5300 },
        { "rhubarb-strawberry-jam-liquid-pectin", 11, 11 * POUND_G },
        { "strawberry-rhubarb-jelly", 7, 7 * 1.5 * POUND_G },
    };
    found f = find(have, (pottle_search){ .kind = NULL });
    ck_assert_uint_eq(f.count, sizeof rows / sizeof rows[0]);
    for (size_t i = 0; i < f.count; i++) {
        const pottle_match *m = &f.list[i];
        ck_assert_str_eq(pottle_recipe_id(m->recipe), rows[i].recipe);
        ck_assert_uint_eq(m->uses, 1);
        ck_assert_ptr_nonnull(m->plan);
        CHECK_NEAR(pottle_plan_factor(m->plan), rows[i].factor, rows[i].recipe);
        CHECK_NEAR(m->used, rows[i].used_g / 5300, rows[i].recipe);
    }
    /* beside the rhubarb of the jam: 2 1/2 cups of crushed strawberries, 6 1/2
     * cups of sugar and a pouch a batch; the water does not count */
    const pottle_plan *jam = f.list[1].plan;
    CHECK_NEAR(f.list[1].besides_g,
               line_of_food(jam, "strawberry")->mass_g +
                   line_of_food(jam, "sugar")->mass_g +
                   line_of_food(jam, "liquid-pectin")->mass_g,
               "what the jam takes besides");
    pottle_matches_free(f.matches);
}
END_TEST

/* Under the smallest batch it is told, after all that can be made. */
START_TEST(too_little_comes_last)
{
    static const char *const have[] = { "12 oz rhubarb", NULL };
    found f = find(have, (pottle_search){ .kind = NULL });
    ck_assert_uint_eq(f.count, 3);
    ck_assert_str_eq(pottle_recipe_id(f.list[0].recipe), "rhubarb-stewed");
    ck_assert_ptr_nonnull(f.list[0].plan);
    for (size_t i = 1; i < 3; i++) {
        ck_assert_ptr_null(f.list[i].plan);
        ck_assert(!(f.list[i].used > 0));
    }
    pottle_matches_free(f.matches);
}
END_TEST

/* A recipe that takes two of the foods on hand comes before those that take
 * one, however much they take. */
START_TEST(more_foods_come_first)
{
    static const char *const have[] = { "20 lb rhubarb", "2 qt strawberries",
                                        NULL };
    found f = find(have, (pottle_search){ .kind = NULL });
    ck_assert_uint_gt(f.count, 3);
    size_t uses = 2;
    for (size_t i = 0; i < f.count; i++) {
        if (f.list[i].plan == NULL)
            break;
        ck_assert_uint_le(f.list[i].uses, uses);
        if (i > 0 && f.list[i].uses == f.list[i - 1].uses)
            ck_assert_double_le(f.list[i].used, f.list[i - 1].used + 1e-9);
        uses = f.list[i].uses;
    }
    const pottle_match *jelly = match_of(&f, "strawberry-rhubarb-jelly");
    ck_assert_ptr_nonnull(jelly);
    ck_assert_uint_eq(jelly->uses, 2);
    /* 1 1/2 quarts of strawberries a batch (USDA guide 7): one batch */
    CHECK_NEAR(pottle_plan_factor(jelly->plan), 1, "scarce strawberries");
    pottle_matches_free(f.matches);
}
END_TEST

/* -- What is asked for ----------------------------------------------------- */

/* What is missing is judged together: the conserve takes walnuts or other nuts
 * (So Easy to Preserve, 6th ed.), and can be made without one of them, not
 * without both. */
START_TEST(what_is_missing_is_judged_together)
{
    static const char *const have[] = { "5 lb grapes", NULL };
    static const char *const missing[] = { "walnut", "nut" };
    static const struct {
        size_t first, count;
        bool found;
    } rows[] = {
        { 0, 0, true }, { 0, 1, true }, { 1, 1, true }, { 0, 2, false }
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *const *food = missing + rows[i].first;
        found f = find(have, (pottle_search){ .kind = "conserve",
                                              .without = food,
                                              .withouts = rows[i].count });
        ck_assert_msg((match_of(&f, "grape-walnut-conserve") != NULL) ==
                          rows[i].found,
                      "row %zu", i);
        pottle_matches_free(f.matches);
    }
}
END_TEST

/* As printed: peach pie filling has cinnamon and almond extract "optional"
 * (USDA guide 2); salsa has serrano or jalapeno peppers, and bottled lemon or
 * lime juice. */
START_TEST(a_recipe_says_what_it_does_without)
{
    static const struct {
        const char *recipe, *missing[3], *food[2], *instead[2];
    } rows[] = {
        { "grape-walnut-conserve", { "walnut" }, { "walnut" }, { "nut" } },
        /* of what may stand there nothing is told: it takes walnuts */
        { "grape-walnut-conserve", { "nut" }, { NULL }, { NULL } },
        { "peach-pie-filling",
          { "almond-extract", "cinnamon-ground" },
          { "cinnamon-ground", "almond-extract" },
          { NULL, NULL } },
        { "tomato-tomato-paste-salsa",
          { "bottled-lemon-juice" },
          { "bottled-lemon-juice" },
          { "bottled-lime-juice" } },
        /* two bottles of colour are one case */
        { "blueberry-pie-filling",
          { "food-colouring" },
          { "food-colouring" },
          { NULL } },
        { "rhubarb-stewed", { "walnut" }, { NULL }, { NULL } },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        pottle_recipe *recipe = kitchen_recipe(rows[i].recipe);
        pottle_spare spare[4], none = { "untouched", NULL };
        size_t missing = 0, wanted = 0;
        while (missing < 3 && rows[i].missing[missing] != NULL)
            missing++;
        while (wanted < 2 && rows[i].food[wanted] != NULL)
            wanted++;
        const size_t n =
            pottle_recipe_spares(recipe, rows[i].missing, missing, spare, 4);
        ck_assert_msg(n == wanted, "row %zu: %zu", i, n);
        for (size_t k = 0; k < n; k++) {
            ck_assert_str_eq(spare[k].food, rows[i].food[k]);
            ck_assert_pstr_eq(spare[k].instead, rows[i].instead[k]);
        }
        ck_assert_uint_ge(
            pottle_recipe_spares(recipe, rows[i].missing, missing, &none, 0),
            n);
        ck_assert_str_eq(none.food, "untouched");
        pottle_recipe_free(recipe);
    }
}
END_TEST

START_TEST(a_search_is_narrowed)
{
    static const char *const have[] = { "5.3 kg rhubarb", NULL };
    static const char *const pectin[] = { "liquid-pectin" };
    static const pottle_method dial = POTTLE_DIAL_GAUGE;
    const pottle_jar *quart = kitchen_jar("quart"),
                     *half_gallon = kitchen_jar("half-gallon");
    const struct {
        pottle_search search;
        size_t count;
        const char *first;
    } rows[] = {
        /* the jam and the jelly cannot do without */
        { { .without = pectin, .withouts = 1 }, 1, "rhubarb-stewed" },
        { { .kind = "jelly" }, 1, "strawberry-rhubarb-jelly" },
        { { .kind = "pickle" }, 0, NULL },
        /* jams and jellies are tested in half-pints and pints, and in boiling
         * water only (USDA guide 7) */
        { { .jar = quart }, 1, "rhubarb-stewed" },
        { { .jar = half_gallon }, 0, NULL },
        { { .method = &dial }, 1, "rhubarb-stewed" },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        found f = find(have, rows[i].search);
        ck_assert_msg(f.count == rows[i].count, "row %zu: %zu", i, f.count);
        if (f.count > 0)
            ck_assert_str_eq(pottle_recipe_id(f.list[0].recipe), rows[i].first);
        pottle_matches_free(f.matches);
    }
}
END_TEST

/* -- Every recipe ---------------------------------------------------------- */

static const char *const harvests[] = {
    "30 lb tomatoes",  "10 lb peaches", "2 lb strawberries", "6 lb cucumbers",
    "1 bushel apples", "3 lb onions",   "1 kg blueberries",  "500 g grapes",
};
enum { HARVESTS = sizeof harvests / sizeof harvests[0] };

/* Whether the food is one of the fruits or vegetables of the recipe. */
static bool
has_produce(const pottle_recipe *recipe, const char *food)
{
    size_t n = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        bool takes = strcmp(in[i].food, food) == 0;
        for (size_t k = 0; k < in[i].alternatives; k++)
            takes = takes || strcmp(in[i].alternative[k].food, food) == 0;
        if (takes && (strcmp(in[i].role, "produce") == 0 ||
                      strcmp(in[i].role, "low-acid") == 0))
            return true;
    }
    return false;
}

/* Each recipe by itself: found when it has the food and can be scaled to it, or
 * when there is too little for it; and nothing else is found. */
START_TEST(nothing_is_missed_and_nothing_is_made_up)
{
    const char *have[] = { harvests[_i], NULL };
    found f = find(have, (pottle_search){ .kind = NULL });
    pottle_phrase phrase;
    ck_assert_uint_eq(read_haves(have, &phrase), 1);
    size_t expected = 0;
    for (int i = 0; i < kitchen_ids; i++) {
        pottle_recipe *recipe = kitchen_recipe(kitchen_id[i]);
        const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                         .have = &phrase,
                                         .haves = 1 };
        pottle_plan *plan = NULL;
        pottle_error error = { .status = POTTLE_OK };
        const pottle_match *m = match_of(&f, kitchen_id[i]);
        bool wanted = has_produce(recipe, phrase.food);
        bool little = false;
        if (wanted) {
            const pottle_status status =
                pottle_scale(kitchen, recipe, &request, &plan, &error);
            little = status == POTTLE_EBOUNDS &&
                     strcmp(error.code, "batch-smallest") == 0;
            wanted = status == POTTLE_OK || little;
        }
        ck_assert_msg(wanted == (m != NULL), "%s of %s: %s", harvests[_i],
                      kitchen_id[i], wanted ? "missed" : "made up");
        if (m != NULL) {
            expected++;
            ck_assert(little == (m->plan == NULL));
            ck_assert(m->used >= 0 && m->used <= 1);
        }
        if (plan != NULL)
            CHECK_NEAR(pottle_plan_factor(m->plan), pottle_plan_factor(plan),
                       kitchen_id[i]);
        pottle_plan_free(plan);
        pottle_recipe_free(recipe);
    }
    ck_assert_uint_gt(expected, 0);
    ck_assert_uint_eq(f.count, expected);
    pottle_matches_free(f.matches);
}
END_TEST

/* -- Misuse ---------------------------------------------------------------- */

START_TEST(a_search_needs_something_on_hand)
{
    static const char *const have[] = { "1 lb rhubarb", NULL };
    pottle_phrase phrase[HAVES];
    pottle_search s = { .version = POTTLE_SEARCH_VERSION,
                        .have = phrase,
                        .haves = read_haves(have, phrase) };
    pottle_matches *m = NULL;
    pottle_error error = { .status = POTTLE_OK };
    pottle_search none = s, other = s, nowhere = s;
    none.haves = 0;
    other.version = POTTLE_SEARCH_VERSION + 1;
    nowhere.have = NULL;
    ck_assert_int_eq(
        pottle_recipes_find(kitchen, &none, NULL, NULL, &m, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_recipes_find(kitchen, &other, NULL, NULL, &m, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_recipes_find(kitchen, &nowhere, NULL, NULL, &m, &error),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipes_find(kitchen, NULL, NULL, NULL, &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipes_find(NULL, &s, NULL, NULL, &m, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipes_find(kitchen, &s, NULL, NULL, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_ptr_null(m);
    pottle_matches_free(NULL);
}
END_TEST

int
main(void)
{
    if (!kitchen_list())
        return 99;
    Suite *suite = suite_create("find");
    TCase *shares = tcase_create("shares");
    tcase_add_checked_fixture(shares, kitchen_open, kitchen_close);
    tcase_add_test(shares, shares_are_those_of_the_printed_batches);
    tcase_add_test(shares, too_little_comes_last);
    tcase_add_test(shares, more_foods_come_first);
    tcase_add_test(shares, what_is_missing_is_judged_together);
    tcase_add_test(shares, a_recipe_says_what_it_does_without);
    tcase_add_test(shares, a_search_is_narrowed);
    tcase_add_test(shares, a_search_needs_something_on_hand);
    suite_add_tcase(suite, shares);

    TCase *all = tcase_create("every recipe");
    tcase_add_checked_fixture(all, kitchen_open, kitchen_close);
    tcase_set_timeout(all, 60);
    tcase_add_loop_test(all, nothing_is_missed_and_nothing_is_made_up, 0,
                        HARVESTS);
    suite_add_tcase(suite, all);
    const int status = suite_run(suite);
    kitchen_unlist();
    return status;
}
