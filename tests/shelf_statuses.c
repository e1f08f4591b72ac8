/* shelf_statuses.c - test_shelf: every status of a filling, and no memory. */
#include <config.h>

#include "shelf_cases.h"
#include "no_memory.h"

START_TEST(statuses_of_a_filling)
{
    const asked a = { .recipe = "tomatoes-crushed",
                      .fill = 14,
                      .jar = "quart" };
    answer plan = kitchen_plan(&a);
    const pottle_own_jar own = { .id = "own" };
    pottle_shelf_size size[POTTLE_SHELF_MAX + 1] = { { kitchen_jar("quart"),
                                                       NULL, 20 } };
    pottle_shelf_request r = { .version = POTTLE_SHELF_REQUEST_VERSION,
                               .size = size,
                               .sizes = 1 };
    pottle_filling *f = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_shelf_fill(NULL, plan.plan, &r, &f, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_shelf_fill(kitchen, NULL, &r, &f, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, NULL, &f, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, NULL, &error),
                     POTTLE_EMISUSE);
    r.version = 2;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EMISUSE);
    r.version = POTTLE_SHELF_REQUEST_VERSION;
    r.size = NULL;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EMISUSE);
    r.size = size;
    r.sizes = 0;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "how-much");
    r.sizes = 1;
    size[0].own = &own;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EMISUSE);
    size[0].own = NULL;
    size[0].count = POTTLE_KITCHEN_COUNT_MAX + 1;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EDOMAIN);
    size[0].count = 600;
    size[1] = size[0];
    r.sizes = 2;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EDOMAIN);
    r.sizes = 1;
    r.has_altitude = true;
    static const double none[] = { -1, 10001, 1e300 };
    for (int i = 0; i < COUNT(none); i++) {
        r.altitude_m = none[i];
        ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                         POTTLE_EDOMAIN);
    }
    r.altitude_m = NOT_A_NUMBER;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EDOMAIN);
    r.altitude_m = 900;
    static const double no_pot[] = { -1, 1e300, NOT_A_NUMBER };
    for (int i = 0; i < COUNT(no_pot); i++) {
        r.cooked_ml = no_pot[i];
        ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                         POTTLE_EDOMAIN);
    }
    r.cooked_ml = 0;
    const pottle_kitchen_canner dial = { .id = "dial",
                                         .method = POTTLE_DIAL_GAUGE };
    const pottle_method weights = POTTLE_WEIGHTED_GAUGE;
    r.canner = &dial;
    r.method = &weights;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "canner");
    r.method = NULL;
    size[0].count = 0;
    ck_assert_int_eq(pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error),
                     POTTLE_EBOUNDS);
    ck_assert_ptr_null(f);
    answer_free(&plan);
    pottle_filling_free(NULL);
}
END_TEST

START_TEST(no_memory)
{
    const asked a = { .recipe = "tomatoes-crushed",
                      .fill = 14.3,
                      .jar = "quart" };
    answer plan = kitchen_plan(&a);
    const pottle_shelf_size size[] = { { kitchen_jar("quart"), NULL, 20 },
                                       { kitchen_jar("pint"), NULL, 9 } };
    const pottle_shelf_request r = { .version = POTTLE_SHELF_REQUEST_VERSION,
                                     .size = size,
                                     .sizes = 2,
                                     .has_altitude = true,
                                     .altitude_m = 900 };
    long n = 0;
    for (;; n++) {
        pottle_filling *f = NULL;
        pottle_error error = { .status = POTTLE_OK };
        fail_at = n;
        allocations = 0;
        const pottle_status status =
            pottle_shelf_fill(kitchen, plan.plan, &r, &f, &error);
        fail_at = -1;
        ck_assert_msg(status == POTTLE_OK ||
                          (status == POTTLE_ENOMEM &&
                           error.status == POTTLE_ENOMEM && f == NULL),
                      "allocation %ld: %d %s", n, (int)status, error.what);
        pottle_filling_free(f);
        if (status == POTTLE_OK)
            break;
        ck_assert_int_lt(n, 5000);
    }
    ck_assert_int_gt(n, 4); /* itself, the search, two plans */
    answer_free(&plan);
}
END_TEST

TCase *
shelf_statuses(void)
{
    TCase *t = tcase_create("statuses");
    tcase_set_timeout(t, 60);
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_test(t, statuses_of_a_filling);
    tcase_add_test(t, no_memory);
    return t;
}
