/* scale_batches.c - test_scale: phrases as batches, of invented recipes. */
#include <config.h>

#include "catalogue/model.h"
#include "kitchen/plan.h"
#include "scale_cases.h"

static const struct phrase_case {
    size_t line;
    double low, high;
    const char *unit, *form, *size;
    bool state_said;
    pottle_state state;
    pottle_status status;
    double batches;
    bool range;
    const char *why;
} phrases[] = {
    { 0, 3, 3, "cup", "diced", "", false, POTTLE_PREPARED, POTTLE_OK, 1.5,
      false, "3 of 2 cups" },
    /* the median of a range is its geometric middle: it is lognormal */
    { 0, 2, 8, "cup", "diced", "", false, POTTLE_PREPARED, POTTLE_OK, 2, true,
      "2 to 8 of 2 cups" },
    { 0, 0, 8, "cup", "diced", "", false, POTTLE_PREPARED, POTTLE_EDOMAIN, 0,
      false, "from nothing" },
    { 0, 3, 3, "cup", "diced", "", true, POTTLE_PREPARED, POTTLE_OK, 1.5, false,
      "said to be ready to use" },
    { 0, 244, 244, "g", "", "", true, POTTLE_PREPARED, POTTLE_OK, 1, true,
      "244 g are 2 cups" },
    { 1, 3, 3, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_OK, 1.5,
      false, "3 of 2 onions" },
    { 1, 3, 3, "count", "", "", false, POTTLE_PREPARED, POTTLE_OK, 1.5, false,
      "3 onions are of the recipe's size" },
    { 1, 1, 4, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_OK, 1,
      true, "1 to 4 of 2 onions" },
    { 1, 0, 4, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_EDOMAIN, 0,
      false, "from nothing" },
    /* large 150 g, medium 110 g (SR28) */
    { 1, 2, 2, "count", "", "large", false, POTTLE_PREPARED, POTTLE_OK,
      150.0 / 110.0, true, "another size is weighed" },
    { 2, 3, 3, "cup", "diced", "", false, POTTLE_PREPARED, POTTLE_EDOMAIN, 0,
      false, "cups of an amount that is not published" },
    { 3, 3, 3, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_EDOMAIN, 0,
      false, "pieces of an amount that is not published" },
    /* a cup of frozen rhubarb 137 g (SR28 09309) */
    { 0, 2, 2, "cup", "frozen", "", false, POTTLE_PREPARED, POTTLE_OK,
      137 / RHUBARB_CUP, true, "another form is weighed" },
    /* stalks as bought keep 95 % (practice) */
    { 0, 3, 3, "cup", "diced", "", true, POTTLE_PURCHASED, POTTLE_OK,
      1.5 * 0.95, true, "cups as bought are trimmed" },
    /* a cup of chopped onions 160 g (SR28 11282) */
    { 4, 6.25, 6.25, "cup", "chopped", "", false, POTTLE_PREPARED, POTTLE_OK, 1,
      true, "cups where the recipe weighs" },
    /* where the recipe weighs, its own amount is exact */
    { 4, 1500, 1500, "g", "", "", false, POTTLE_PREPARED, POTTLE_OK, 1.5, false,
      "1500 of 1000 g" },
    { 4, 10, 10, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_OK, 1.1,
      true, "10 onions of 110 g" },
    /* one drop and one piece are compared as such too */
    { 5, 0.25, 0.25, "tsp", "", "", false, POTTLE_PREPARED, POTTLE_OK, 2, false,
      "1/4 of 1/8 teaspoon" },
    { 6, 2, 2, "count", "", "medium", false, POTTLE_PREPARED, POTTLE_OK, 2,
      false, "2 of 1 onion" },
    /* 10 % are core and stem (SR28 09003); peeled they would be less */
    { 7, 1000, 1000, "g", "", "", true, POTTLE_PURCHASED, POTTLE_OK, 1, true,
      "trimmed as the recipe trims" },
};
enum { PHRASES = sizeof phrases / sizeof phrases[0] };

START_TEST(phrase_is_so_many_batches)
{
    pottle_ingredient list[] = { made_part("rhubarb", 2, "cup", "diced"),
                                 made_part("onion", 2, "count", ""),
                                 made_part("rhubarb", 0, "cup", "diced"),
                                 made_part("onion", 0, "count", ""),
                                 made_part("onion", 1000, "g", ""),
                                 made_part("sugar", 0.125, "tsp", ""),
                                 made_part("onion", 1, "count", ""),
                                 made_part("apple", 900, "g", "") };
    list[1].size = list[3].size = list[6].size = "medium";
    list[7].trim = "cored";
    const pottle_recipe recipe = made_recipe(list, 8);
    const struct phrase_case *c = &phrases[_i];
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
    pottle_phrase p = made_phrase(list[c->line].food, c->low, c->high, c->unit);
    POTTLEI_SET(p.form, c->form);
    POTTLEI_SET(p.size, c->size);
    p.state_said = c->state_said;
    p.state = c->state;
    pottle_estimate out = { 77, 78 };
    const pottle_status status =
        pottlei_batches_of(kitchen, plan, c->line, &p, &out, &error);
    ck_assert_msg(status == c->status, "%s: expected %s, found %s: %s", c->why,
                  pottle_strerror((int)c->status), pottle_strerror((int)status),
                  error.what);
    if (status == POTTLE_OK) {
        ck_assert_msg(within(out.median, c->batches, 1e-6),
                      "%s: expected %g batches, found %.9f", c->why, c->batches,
                      out.median);
        ck_assert_msg((out.sd > 0) == c->range, "%s: spread %g", c->why,
                      out.sd);
    } else {
        ck_assert(out.median > 76 && out.sd > 77);
    }
    pottle_plan_free(plan);
}
END_TEST

/* What stands in a place that is not its own is weighed as what it is: a cup of
 * chopped carrots 128 g (SR28 11124), of onions 160 g (11282). */
START_TEST(shared_place_weighs_each)
{
    const pottle_ingredient list[] = { made_part("carrot", 1280, "g", ""),
                                       made_part("onion", 1280, "g", "") };
    const pottle_recipe recipe = made_recipe(list, 2);
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
    static const struct {
        const char *food;
        double cups;
    } said[] = { { "carrot", 10 }, { "onion", 8 } };
    for (size_t i = 0; i < 2; i++)
        for (size_t k = 0; k < 2; k++) {
            pottle_phrase p =
                made_phrase(said[k].food, said[k].cups, said[k].cups, "cup");
            POTTLEI_SET(p.form, "chopped");
            pottle_estimate out = { 0, 0 };
            ck_assert_int_eq(
                pottlei_batches_of(kitchen, plan, i, &p, &out, &error),
                POTTLE_OK);
            ck_assert_msg(within(out.median, 1, 1e-6), "%g cups of %s: %.6f",
                          said[k].cups, said[k].food, out.median);
        }
    pottle_plan_free(plan);
}
END_TEST

/* Cups of cut produce pack fuller in a kitchen (yield study, section 2): of
 * produce, by volume, cut and not crushed. */
START_TEST(parts_that_pack_fuller)
{
    static const struct {
        const char *role, *unit, *form;
        bool fuller, produce;
    } parts[] = {
        { "produce", "cup", "diced", true, true },
        { "low-acid", "cup", "diced", true, true },
        { "produce", "g", "diced", false, true },
        { "sugar", "cup", "diced", false, false },
        { "produce", "cup", "cooked", false, true }, /* a liquid */
        { "low-acid", "g", "cooked", false, true },
    };
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        pottle_ingredient in =
            made_part("rhubarb", 1, parts[i].unit, parts[i].form);
        in.role = parts[i].role;
        const pottle_recipe recipe = made_recipe(&in, 1);
        pottle_error error = { .status = POTTLE_OK };
        pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
        pottlei_part out;
        ck_assert_int_eq(pottlei_line_part(kitchen, plan, 0, 0.5, &out, &error),
                         POTTLE_OK);
        ck_assert_msg(out.by_volume_cut == parts[i].fuller, "part %zu", i);
        NEAR(out.prepared_g.median, 0.5);
        ck_assert(pottlei_is_produce(&in) == parts[i].produce);
        ck_assert_int_eq(pottlei_line_part(kitchen, plan, 0, 0, &out, &error),
                         POTTLE_OK);
        ck_assert(!out.by_volume_cut);
        pottle_plan_free(plan);
    }
    pottle_ingredient crushed = made_part("strawberry", 1, "cup", "crushed");
    crushed.role = "produce";
    const pottle_recipe recipe = made_recipe(&crushed, 1);
    pottle_error error = { .status = POTTLE_OK };
    pottle_plan *plan = made_lines(&recipe, &no_request, POTTLE_OK, &error);
    pottlei_part out;
    ck_assert_int_eq(pottlei_line_part(kitchen, plan, 0, 100, &out, &error),
                     POTTLE_OK);
    ck_assert(!out.by_volume_cut);
    pottle_plan_free(plan);
}
END_TEST

TCase *
scale_batches(void)
{
    TCase *t = tcase_create("batches");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, phrase_is_so_many_batches, 0, PHRASES);
    tcase_add_test(t, shared_place_weighs_each);
    tcase_add_test(t, parts_that_pack_fuller);
    return t;
}
