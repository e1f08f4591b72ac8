/* scale_totals.c - test_scale: totals of single ingredients, and which of them
 * the rules allow. */
#include <config.h>

#include <string.h>

#include "scale_cases.h"

/* -- Single totals --------------------------------------------------------- */

static const struct single {
    const char *recipe;
    double batches;
    const char *set[5];
    const char *food; /* whose line is looked at */
    double
        total; /* in the base unit of its dimension; 0: it is only accepted */
} accepted[] = {
    /* acid may rise (salsa-04: never lower it), what is of low acid may fall
       (salsa-02), salt and spice are free (salsa-08, salsa-07) */
    { "chile-salsa", 1, { "1 1/2 cups vinegar" }, "vinegar", 1.5 * CUP_ML },
    { "chile-salsa", 1, { "1 cup vinegar" }, "vinegar", CUP_ML },
    { "chile-salsa", 1, { "12 oz onions" }, "onion", 0.75 * POUND_G },
    { "chile-salsa", 2, { "12 oz onions" }, "onion", 0.75 * POUND_G },
    { "chile-salsa", 2.5, { "2.5 lb onions" }, "onion", 2.5 * POUND_G },
    { "chile-salsa",
      1,
      { "1 lb chile peppers", "8 oz onions" },
      "chile-pepper",
      POUND_G },
    { "chile-salsa", 1, { "1 tsp canning salt" }, "canning-salt", TSP_ML },
    { "chile-salsa", 1, { "9 tsp canning salt" }, "canning-salt", 9 * TSP_ML },
    { "chile-salsa", 1, { "2 tsp black pepper" }, "black-pepper", 2 * TSP_ML },
    /* what is exact may be named, and is forgiven 1 %: then it stays as tested
     */
    { "chile-salsa", 1, { "5 lb tomatoes" }, "tomato", 5 * POUND_G },
    { "chile-salsa", 1, { "5.04 lb tomatoes" }, "tomato", 5 * POUND_G },
    { "chile-salsa", 1, { "4.96 lb tomatoes" }, "tomato", 5 * POUND_G },
    /* bottled lemon juice for vinegar, measure for measure (salsa-06) */
    { "chile-salsa",
      1,
      { "1 cup bottled lemon juice" },
      "bottled-lemon-juice",
      CUP_ML },
    { "chile-salsa",
      1,
      { "1 1/4 cups bottled lemon juice" },
      "bottled-lemon-juice",
      1.25 * CUP_ML },
    { "tomato-taco-sauce",
      1,
      { "2 1/2 cups bottled lemon juice" },
      "bottled-lemon-juice",
      2.5 * CUP_ML },
    /* lime juice for lemon juice, named by the recipe */
    { "tomato-tomato-paste-salsa",
      1,
      { "2 cups bottled lime juice" },
      "bottled-lime-juice",
      2 * CUP_ML },
    /* in another measure: 1 3/4 cups of chopped onions are 280 g (160 g a cup,
     * SR28 11282), as bought 280 / 0.9 = 311.1 g = 0.686 lb. Spread: the two
     * weights of a cup, 160 g and 0.538 g/mL, are ln(0.6763 / 0.538) / 1.645 =
     * 0.139 apart, trim 0.05: 0.148; high end 0.686 lb * exp(1.645 * 0.148) =
     * 0.875 lb, under 1 lb */
    { "chile-salsa",
      1,
      { "1 3/4 cups chopped onions" },
      "onion",
      0.685883 * POUND_G },
    /* 250 g of vinegar at 238 g a cup (SR28 02053) are 1.0504 cups, low end /
       exp(1.645 * 0.015) = 1.0248 cups */
    { "chile-salsa", 1, { "250 g vinegar" }, "vinegar", 1.050420 * CUP_ML },
    /* two sets on one place add up: 1/2 + 1/2 cup; mild peppers are 1 lb
       jalapeno and 3 lb sweet (guide 6) */
    { "chile-salsa",
      1,
      { "1/2 cup vinegar", "1/2 cup bottled lemon juice" },
      NULL,
      0 },
    { "marinated-peppers",
      1,
      { "1 lb jalapenos", "3 lb sweet peppers" },
      NULL,
      0 },
    /* jars take 2 tbsp of lemon juice, 1/2 tsp of citric acid or 4 tbsp of
       vinegar a quart; a batch is 7 quarts */
    { "tomatoes-crushed", 1, { "14 tbsp bottled lemon juice" }, NULL, 0 },
    { "tomatoes-crushed", 1, { "1 cup bottled lemon juice" }, NULL, 0 },
    { "tomatoes-crushed", 1, { "3 1/2 tsp citric acid" }, NULL, 0 },
    { "tomatoes-crushed", 1, { "1 3/4 cups vinegar" }, NULL, 0 },
    { "tomatoes-crushed", 1, { "1 tsp canning salt" }, NULL, 0 },
};
enum { ACCEPTED = sizeof accepted / sizeof accepted[0] };

START_TEST(totals_that_are_allowed)
{
    const struct single *s = &accepted[_i];
    asked q = { .recipe = s->recipe, .batches = s->batches };
    memcpy(q.set, s->set, sizeof s->set);
    answer a = kitchen_ask(&q);
    ck_assert_msg(a.status == POTTLE_OK,
                  "%s, %g batches, set '%s': refused: %s", s->recipe,
                  s->batches, s->set[0], a.error.what);
    CHECK_NEAR(pottle_plan_factor(a.plan), s->batches,
               "the factor does not follow a single total");
    if (s->food != NULL && s->total > 0) {
        const double got = line_amount(line_of_food(a.plan, s->food));
        ck_assert_msg(within(got, s->total, 1e-6),
                      "%s, set '%s': expected %.6g of %s, found %.6g",
                      s->recipe, s->set[0], s->total, s->food, got);
    }
    answer_free(&a);
}
END_TEST

static const struct refusal {
    const char *recipe;
    double batches;
    const char *set[5];
    const char *code, *source; /* of the rule, as rules.xml cites it */
} refused[] = {
    { "chile-salsa", 1, { "1 1/4 lb onions" }, "keep-at-most", "ucanr-ext" },
    { "chile-salsa", 1, { "1.001 lb onions" }, "keep-at-most", "ucanr-ext" },
    { "chile-salsa", 0.5, { "12 oz onions" }, "keep-at-most", "ucanr-ext" },
    { "chile-salsa", 1, { "3 lb chile peppers" }, "keep-at-most", "ucanr-ext" },
    { "chile-salsa", 1, { "3/4 cup vinegar" }, "keep-at-least", "ucanr-ext" },
    { "chile-salsa",
      2,
      { "1 1/2 cups vinegar" },
      "keep-at-least",
      "ucanr-ext" },
    { "chile-salsa", 1, { "5 1/2 lb tomatoes" }, "keep-exact", "alabama-ext" },
    { "chile-salsa", 1, { "4.9 lb tomatoes" }, "keep-exact", "alabama-ext" },
    { "berry-jam-no-pectin", 1, { "3 cups sugar" }, "keep-exact", NULL },
    { "berry-jam-no-pectin", 1, { "5 cups sugar" }, "keep-exact", NULL },
    /* the swap is judged like what it stands for */
    { "chile-salsa",
      1,
      { "3/4 cup bottled lemon juice" },
      "keep-at-least",
      "ndsu-ext" },
    { "chile-salsa",
      1,
      { "1/2 cup vinegar", "1/4 cup bottled lemon juice" },
      "keep-at-least",
      NULL },
    { "marinated-peppers",
      1,
      { "2 lb jalapenos", "3 lb sweet peppers" },
      "keep-at-most",
      NULL },
    /* never the one for the other */
    { "tomato-tomato-paste-salsa",
      1,
      { "2 cups vinegar" },
      "never-for",
      "nchfp" },
    { "tomato-tomato-paste-salsa",
      1,
      { "3 cups cider vinegar" },
      "never-for",
      "nchfp" },
    { "apple-pie-filling", 1, { "3/4 cup vinegar" }, "never-for", "nchfp" },
    { "apple-pie-filling",
      1,
      { "1 cup fresh lemon juice" },
      "never-for",
      "colorado-ext" },
    { "chile-salsa",
      1,
      { "1 cup fresh lemon juice" },
      "never-for",
      "colorado-ext" },
    { "chile-salsa", 1, { "1 tsp citric acid" }, "never-for", "usu-ext" },
    { "tomatoes-crushed",
      1,
      { "1 cup fresh lemon juice" },
      "never-for",
      "colorado-ext" },
    { "apple-pie-filling",
      1,
      { "1 1/2 cups flour" },
      "never-for",
      "usda-aib539-g2" },
    { "apple-pie-filling",
      1,
      { "1 1/2 cups cornstarch" },
      "never-for",
      "usda-aib539-g2" },
    { "strawberry-jam-powdered-pectin",
      1,
      { "3 fl oz liquid pectin" },
      "never-for",
      NULL },
    { "blackberry-jam-liquid-pectin",
      1,
      { "1 box powdered pectin" },
      "never-for",
      NULL },
    /* vinegar of 4 %, in the pot or in the jars; a balsamic whose strength
       nobody states is not part of it either */
    { "chile-salsa",
      1,
      { "2 cups 4% vinegar" },
      "vinegar-strength",
      "uga-ext" },
    { "chile-salsa",
      1,
      { "1 cup 4.9 % vinegar" },
      "vinegar-strength",
      "uga-ext" },
    { "tomatoes-crushed",
      1,
      { "4 cups 4% vinegar" },
      "vinegar-strength",
      "uga-ext" },
    /* what the recipe does not have */
    { "chile-salsa",
      1,
      { "1 cup corn kernels" },
      "not-in-recipe",
      "pottle-practice" },
    { "chile-salsa",
      1,
      { "1 tsp cornstarch" },
      "not-in-recipe",
      "pottle-practice" },
    { "berry-jam-no-pectin",
      1,
      { "1 box powdered pectin" },
      "not-in-recipe",
      "pottle-practice" },
    /* by the unfavourable end: 2 1/2 cups of chopped onions are 0.980 lb as
     * bought, but up to 1.249 lb (the sum above); 242 g of vinegar are 1.0168
     * cups, but as little as 0.9920 */
    { "chile-salsa",
      1,
      { "2 1/2 cups chopped onions" },
      "keep-at-most",
      "ucanr-ext" },
    { "chile-salsa", 1, { "242 g vinegar" }, "keep-at-least", "ucanr-ext" },
    { "chile-salsa", 1, { "238 g vinegar" }, "keep-at-least", "ucanr-ext" },
    /* 40 small tomatoes may be 5 lb, or not: a count is too wide for what is
       exact */
    { "chile-salsa", 1, { "20 medium tomatoes" }, "keep-exact", NULL },
    /* 7 quarts need 14 tbsp of lemon juice, 3 1/2 tsp of citric acid, 28 tbsp
       of vinegar */
    { "tomatoes-crushed",
      1,
      { "13 tbsp bottled lemon juice" },
      "per-jar",
      "usda-aib539-g3" },
    { "tomatoes-crushed",
      1,
      { "3 tsp citric acid" },
      "per-jar",
      "usda-aib539-g3" },
    { "tomatoes-crushed",
      1,
      { "1 1/2 cups vinegar" },
      "per-jar",
      "usda-aib539-g3" },
    { "tomatoes-crushed",
      2,
      { "14 tbsp bottled lemon juice" },
      "per-jar",
      "usda-aib539-g3" },
};
enum { REFUSED = sizeof refused / sizeof refused[0] };

START_TEST(totals_that_are_refused)
{
    const struct refusal *r = &refused[_i];
    asked q = { .recipe = r->recipe, .batches = r->batches };
    memcpy(q.set, r->set, sizeof r->set);
    answer a = kitchen_ask(&q);
    ck_assert_msg(a.status == POTTLE_EBOUNDS &&
                      a.error.status == POTTLE_EBOUNDS,
                  "%s, %g batches, set '%s': %s (%s)", r->recipe, r->batches,
                  r->set[0], pottle_strerror((int)a.status), a.error.what);
    ck_assert_msg(strcmp(a.error.code, r->code) == 0,
                  "set '%s': refused as %s, not %s: %s", r->set[0],
                  a.error.code, r->code, a.error.what);
    ck_assert_msg(a.error.what[0] != '\0' && a.error.instead[0] != '\0',
                  "set '%s': '%s', instead '%s'", r->set[0], a.error.what,
                  a.error.instead);
    if (r->source != NULL)
        ck_assert_msg(strcmp(a.error.source, r->source) == 0,
                      "set '%s': source %s, not %s", r->set[0], a.error.source,
                      r->source);
    ck_assert_msg(pottle_source_find(kitchen, a.error.source) != NULL,
                  "set '%s': no source '%s'", r->set[0], a.error.source);
    answer_free(&a);
}
END_TEST

/* The way out of a refused total is one that can be taken: the whole of what
 * shares a place or stands in several, in the form it is measured in, and in
 * digits that show what is wrong. The amounts are those printed: 1 cup of
 * vinegar or lemon juice (ndsu-ext), 2 cups of lime juice (nchfp), 4 lb of
 * peppers, 1/4 and 3/4 cup and 1 qt, 2 qt and 2 gal of the dill pickles, 3 and
 * 3 cups of peppers (USDA guide 6), 4 cups of crushed berries (guide 7), 5 1/2
 * cups of crushed strawberries (sdsu-ext), 3 cups of cooked tomatoes (mu-ext).
 */
START_TEST(the_way_out_can_be_taken)
{
    static const struct {
        const char *recipe, *set[2], *times, *instead, *then[2];
    } rows[] = {
        { "chile-salsa",
          { "1/2 cup bottled lemon juice", "1/4 cup vinegar" },
          " 0.75 times ",
          "at least 1 cup of bottled lemon juice and white distilled vinegar, "
          "5 percent in all",
          { "3/4 cup bottled lemon juice", "1/4 cup vinegar" } },
        { "tomato-tomato-paste-salsa",
          { "1 cup bottled lime juice", "1/2 cup bottled lemon juice" },
          " 0.75 times ",
          "at least 2 cups of ",
          { "1 cup bottled lime juice", "1 cup bottled lemon juice" } },
        { "marinated-peppers",
          { "2 lb jalapenos", "4 lb sweet peppers" },
          " 1.50 times ",
          "at most 4 lb of ",
          { "2 lb jalapenos", "2 lb sweet peppers" } },
        { "berry-jam-no-pectin",
          { "2 cups crushed blackberries", "4 cups crushed raspberries" },
          " 1.50 times ",
          "exactly 4 cups of crushed blackberries and crushed raspberries",
          { "2 cups crushed blackberries", "2 cups crushed raspberries" } },
        { "strawberry-jam-powdered-pectin",
          { "5 1/2 cups strawberries" },
          " to ",
          "exactly 5 1/2 cups of crushed strawberries",
          { "5 1/2 cups crushed strawberries" } },
        { "spiced-tomato-jam",
          { "2 1/4 lb tomatoes" },
          " to ",
          "exactly 3 cups of cooked tomatoes",
          { "3 cups cooked tomatoes" } },
        { "quick-fresh-pack-dill-pickles",
          { "8 qt water" },
          " 0.80 times ",
          "exactly 10 qt of water in all",
          { "10 qt water" } },
        { "quick-fresh-pack-dill-pickles",
          { "1/2 cup canning salt" },
          " 0.40 times ",
          "exactly 1 1/4 cups of ",
          { "1 1/4 cups canning salt" } },
        { "pickle-relish",
          { "7 cups chopped sweet peppers" },
          " 1.17 times ",
          "at most 6 cups of chopped sweet peppers in all",
          { "6 cups chopped sweet peppers" } },
        /* 0.980 lb as bought, but up to 1.249 lb (the sum above) */
        { "chile-salsa",
          { "2 1/2 cups chopped onions" },
          "onions would be 0.77 to 1.25 times ",
          "at most 1 lb of onions for",
          { "1 lb onions" } },
        { "chile-salsa",
          { "236 ml vinegar" },
          " 0.998 times ",
          "at least 1 cup of ",
          { "1 cup vinegar" } },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        answer a =
            kitchen_ask(&(asked){ .recipe = rows[i].recipe,
                                  .batches = 1,
                                  .set = { rows[i].set[0], rows[i].set[1] } });
        ck_assert_msg(a.status == POTTLE_EBOUNDS &&
                          strstr(a.error.what, rows[i].times) != NULL &&
                          strstr(a.error.instead, rows[i].instead) != NULL,
                      "%s, set '%s': %s; %s", rows[i].recipe, rows[i].set[0],
                      a.error.what, a.error.instead);
        answer_free(&a);
        a = kitchen_plan(
            &(asked){ .recipe = rows[i].recipe,
                      .batches = 1,
                      .set = { rows[i].then[0], rows[i].then[1] } });
        answer_free(&a);
    }
}
END_TEST

/* A total is the total, whatever the printed columns are: 2 tbsp of lemon
 * juice, as printed for one quart, are 2 tbsp. */
START_TEST(a_total_is_not_raised_again_by_a_printed_column)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "apple-pie-filling",
                               .batches = 1.0 / 7,
                               .set = { "2 tbsp bottled lemon juice" } });
    CHECK_NEAR(line_of_food(a.plan, "bottled-lemon-juice")->volume_ml,
               2 * TBSP_ML, "lemon juice");
    answer_free(&a);
    /* 1.8 tbsp is over 12/7 = 1.714 and under the printed 2 (pie-04: never
     * alter the lemon juice) */
    a = kitchen_ask(&(asked){ .recipe = "apple-pie-filling",
                              .batches = 1.0 / 7,
                              .set = { "1.8 tbsp bottled lemon juice" } });
    ck_assert_msg(a.status == POTTLE_EBOUNDS, "1.8 tbsp for a quart: %s",
                  pottle_strerror((int)a.status));
    answer_free(&a);
}
END_TEST

/* A total goes into the pots as they need it: of 14 tbsp for 8 quarts of apple
 * pie filling the pot of one quart gets its printed 2 tbsp, the pot of seven
 * its 3/4 cup = 12 tbsp (USDA guide 2, both columns). */
START_TEST(a_total_goes_where_it_is_needed)
{
    answer a =
        kitchen_plan(&(asked){ .recipe = "apple-pie-filling",
                               .batches = 8.0 / 7,
                               .set = { "14 tbsp bottled lemon juice" } });
    CHECK_NEAR(line_in(a.plan, 0, "bottled-lemon-juice")->volume_ml,
               12 * TBSP_ML, "the pot of seven");
    CHECK_NEAR(line_in(a.plan, 1, "bottled-lemon-juice")->volume_ml,
               2 * TBSP_ML, "the pot of one");
    answer_free(&a);
}
END_TEST

/* What a source prints as a range was tested all over it: 4 to 5 cups of sugar
 * in peach jam (USDA guide 7), 2 1/2 to 3 lb of chile peppers in Mexican tomato
 * sauce (guide 3), 2 1/2 to 3 lb of banana peppers in pepper rings (guide 6).
 */
START_TEST(a_printed_range_is_allowed_all_over)
{
    static const struct {
        const char *recipe, *set;
        pottle_status status;
    } rows[] = {
        { "peach-jam-no-pectin", "4 cups sugar", POTTLE_OK },
        { "peach-jam-no-pectin", "5 cups sugar", POTTLE_OK },
        { "peach-jam-no-pectin", "5 1/4 cups sugar", POTTLE_EBOUNDS },
        { "peach-jam-no-pectin", "3 3/4 cups sugar", POTTLE_EBOUNDS },
        { "mexican-tomato-sauce", "3 lb chile peppers", POTTLE_OK },
        { "mexican-tomato-sauce", "3 1/4 lb chile peppers", POTTLE_EBOUNDS },
        { "pickled-yellow-pepper-rings", "3 lb banana peppers", POTTLE_OK },
    };
    const size_t i = (size_t)_i;
    ck_assert_uint_lt(i, sizeof rows / sizeof rows[0]);
    answer a = kitchen_ask(&(asked){
        .recipe = rows[i].recipe, .batches = 1, .set = { rows[i].set } });
    ck_assert_msg(a.status == rows[i].status, "%s, set '%s': %s: %s",
                  rows[i].recipe, rows[i].set, pottle_strerror((int)a.status),
                  a.error.what);
    answer_free(&a);
}
END_TEST

TCase *
scale_totals(void)
{
    TCase *tcase = tcase_create("single totals");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_add_loop_test(tcase, totals_that_are_allowed, 0, ACCEPTED);
    tcase_add_loop_test(tcase, totals_that_are_refused, 0, REFUSED);
    tcase_add_test(tcase, the_way_out_can_be_taken);
    tcase_add_test(tcase, a_total_is_not_raised_again_by_a_printed_column);
    tcase_add_test(tcase, a_total_goes_where_it_is_needed);
    tcase_add_loop_test(tcase, a_printed_range_is_allowed_all_over, 0, 7);
    return tcase;
}
