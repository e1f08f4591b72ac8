/* scale_raw.c - test_scale: what a recipe measures cooked, on hand raw. */
#include <config.h>

#include <string.h>

#include "catalogue/model.h"
#include "kitchen/plan.h"
#include "scale_cases.h"

/* What is measured cooked is counted by what its sources say to buy for it:
 * about 1 lb of rhubarb for the cup, about 2 1/4 lb of tomatoes for the 3 cups
 * (nchfp, mu-ext: the pages of the two jams). Stalks without leaves keep 95 %
 * of what is bought (common practice), as picked 75 % (SR28, 09307 refuse); a
 * cup of diced ones weighs 122 g (SR28). */
START_TEST(what_is_still_to_be_cooked_is_counted_raw)
{
    static const char rhubarb[] = "rhubarb-strawberry-jam-liquid-pectin",
                      tomato[] = "spiced-tomato-jam";
    static const struct {
        const char *recipe, *have;
        double batches, left_g; /* batches 0: too little for one */
        pottle_state left;
    } rows[] = {
        { rhubarb, "5.3 kg rhubarb", 11, 5300 - 11 * POUND_G,
          POTTLE_PURCHASED },
        { rhubarb, "1 lb rhubarb", 1, 0, POTTLE_PURCHASED },
        { rhubarb, "15 oz rhubarb", 0, 0, POTTLE_PURCHASED },
        { rhubarb, "1 lb rhubarb as picked", 0, 0, POTTLE_PURCHASED },
        { rhubarb, "600 g rhubarb as picked", 1, 600 * 0.75 / 0.95 - POUND_G,
          POTTLE_PURCHASED },
        { rhubarb, "950 g prepared rhubarb", 2, 1000 - 2 * POUND_G,
          POTTLE_PURCHASED },
        { rhubarb, "4 cups diced rhubarb", 1, 4 * 122 / 0.95 - POUND_G,
          POTTLE_PURCHASED },
        { rhubarb, "3 1/2 cups cooked rhubarb", 3, 120, POTTLE_PREPARED },
        { tomato, "2 1/4 lb tomatoes", 1, 0, POTTLE_PURCHASED },
        { tomato, "2 lb tomatoes", 0, 0, POTTLE_PURCHASED },
        { tomato, "10 lb tomatoes", 4, POUND_G, POTTLE_PURCHASED },
        { tomato, "6 cups cooked tomatoes", 2, 0, POTTLE_PREPARED },
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        answer a = kitchen_ask(
            &(asked){ .recipe = rows[i].recipe, .have = { rows[i].have } });
        if (!(rows[i].batches > 0)) {
            ck_assert_msg(a.status == POTTLE_EBOUNDS, "%s: %d", rows[i].have,
                          (int)a.status);
            answer_free(&a);
            continue;
        }
        ck_assert_msg(a.status == POTTLE_OK, "%s: %s", rows[i].have,
                      a.error.what);
        CHECK_NEAR(pottle_plan_factor(a.plan), rows[i].batches, rows[i].have);
        const char *food = rows[i].recipe == tomato ? "tomato" : "rhubarb";
        const double a_batch = rows[i].recipe == tomato ? 2.25 : 1;
        CHECK_NEAR(line_of_food(a.plan, food)->raw_g,
                   rows[i].batches * a_batch * POUND_G, rows[i].have);
        const pottle_rest *rest = rest_of(a.plan, food);
        if (rows[i].left_g > 0) {
            ck_assert_msg(rest != NULL, "%s: nothing is left", rows[i].have);
            ck_assert_msg(rest->state == rows[i].left, "%s", rows[i].have);
            CHECK_NEAR(rest->mass_g, rows[i].left_g, rows[i].have);
        } else {
            ck_assert_msg(rest == NULL, "%s: something is left", rows[i].have);
        }
        answer_free(&a);
    }
    /* how many cups are meant, of what, is not guessed */
    answer a = kitchen_ask(
        &(asked){ .recipe = rhubarb, .have = { "4 cups rhubarb" } });
    ck_assert_int_eq(a.status, POTTLE_EAMBIGUOUS);
    ck_assert_str_eq(a.error.code, "which-form");
    answer_free(&a);
}
END_TEST

/* Invented: 2 cups of whole blackberries, which is also what a cup of them is
 * when nothing is said, from 1 lb; or raspberries in their place. */
static pottle_ingredient
berries(void)
{
    static const pottle_alternative other[] = { { "raspberry", "whole", "" } };
    pottle_ingredient in = made_part("blackberry", 2, "cup", "whole");
    in.role = "produce";
    in.raw = 1;
    in.raw_unit = pottle_unit_find("lb");
    in.alternatives = 1;
    in.alternative = other;
    return in;
}

/* A cup of blackberries weighs 144 g, of raspberries 123 g (SR28, 09042 and
 * 09302), and 4 % of blackberries
 * as bought are caps and bad ones (09042 refuse). */
START_TEST(only_its_own_food_is_counted_raw)
{
    const pottle_ingredient list[] = { berries() };
    const pottle_recipe recipe = made_recipe(list, 1);
    pottle_error error = { .status = POTTLE_OK };
    pottle_phrase berry = made_phrase("blackberry", 3, 3, "cup");
    berry.state = POTTLE_PREPARED;
    pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                               .have = &berry,
                               .haves = 1 };
    pottle_plan *plan = made_lines(&recipe, &request, POTTLE_OK, &error);
    pottle_estimate batches;
    CHECK_NEAR(plan->amount[0].raw_g, POUND_G, "raw");
    ck_assert_int_eq(
        pottlei_batches_of(kitchen, plan, 0, &berry, &batches, &error),
        POTTLE_OK);
    CHECK_NEAR(batches.median, 3 * 144 / 0.96 / POUND_G, "a cup that is raw");
    /* about a pound: with the spread of what is given by eye (practice) */
    ck_assert_double_gt(batches.sd, 0.15);
    POTTLEI_SET(berry.form, "whole");
    ck_assert_int_eq(
        pottlei_batches_of(kitchen, plan, 0, &berry, &batches, &error),
        POTTLE_OK);
    CHECK_NEAR(batches.median, 1.5, "as it is measured");
    /* of what may stand in its place nobody said how much it loses */
    pottle_phrase other = made_phrase("raspberry", 492, 492, "g");
    ck_assert_int_eq(
        pottlei_batches_of(kitchen, plan, 0, &other, &batches, &error),
        POTTLE_OK);
    CHECK_NEAR(batches.median, 492.0 / (2 * 144), "another food");
    pottle_plan_free(plan);
    request.have = &other;
    plan = made_lines(&recipe, &request, POTTLE_OK, &error);
    CHECK_NEAR(plan->amount[0].raw_g + 1, 1, "nothing raw");
    CHECK_NEAR(plan->amount[0].mass_g.median, 2 * 123, "2 cups");
    pottle_plan_free(plan);
}
END_TEST

TCase *
scale_raw(void)
{
    TCase *tcase = tcase_create("raw");
    tcase_add_checked_fixture(tcase, kitchen_open, kitchen_close);
    tcase_add_test(tcase, what_is_still_to_be_cooked_is_counted_raw);
    tcase_add_test(tcase, only_its_own_food_is_counted_raw);
    return tcase;
}
