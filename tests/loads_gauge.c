/* loads_gauge.c - test_loads: the dial gauge. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "loads_cases.h"

pottle_misreading
reads(const char *text)
{
    pottle_misreading m = { false, { 0, 0, NULL } };
    if (text != NULL)
        ck_assert_int_eq(
            pottle_misreading_read(text, POTTLE_PRESSURE, &m, NULL), POTTLE_OK);
    return m;
}

/* Snap beans at 900 m, 2,953 ft: 12 psi on a dial gauge (guide 4, 2,001 to
 * 4,000 ft). Tomatoes and spaghetti sauce at sea level: 11 psi (guide 3). That
 * a gauge which reads 1 psi high is held 1 psi higher: Iowa State University,
 * testing dial gauges. */
static const struct {
    const char *recipe, *altitude;
    int tested;
    const char *gauge;
    pottle_status status;
    double psi;
    bool strict;
} gauges[] = {
    { "beans-snap", "900 m", 12, NULL, POTTLE_OK, 12, false },
    { "beans-snap", "900 m", 12, "0 psi", POTTLE_OK, 12, false },
    { "beans-snap", "900 m", 12, "1/2 psi high", POTTLE_OK, 12.5, false },
    { "beans-snap", "900 m", 12, "0.9 psi low", POTTLE_OK, 11.1, false },
    { "beans-snap", "900 m", 12, "1 psi high", POTTLE_OK, 13, true },
    { "beans-snap", "900 m", 12, "1 psi low", POTTLE_OK, 11, true },
    { "beans-snap", "900 m", 12, "2 psi high", POTTLE_OK, 14, true },
    { "beans-snap", "900 m", 12, "2 psi low", POTTLE_OK, 10, true },
    /* 2 psi are 13.78951 kPa */
    { "beans-snap", "900 m", 12, "13.789514586 kPa high", POTTLE_OK, 14, true },
    { "beans-snap", "900 m", 12, "13.80 kPa high", POTTLE_EBOUNDS, 0, false },
    { "beans-snap", "900 m", 12, "2.1 psi high", POTTLE_EBOUNDS, 0, false },
    { "beans-snap", "900 m", 12, "2.1 psi low", POTTLE_EBOUNDS, 0, false },
    /* acid, with a boiling-water process: the pressures that make up for an
     * error are published up to 2 psi for it too, and not beyond. Stewed
     * rhubarb takes 6 psi at sea level (guide 2). */
    { "tomatoes-crushed", "0 m", 11, "1 psi high", POTTLE_OK, 12, true },
    { "tomatoes-crushed", "0 m", 11, "2 psi high", POTTLE_OK, 13, true },
    { "tomatoes-crushed", "0 m", 11, "2.5 psi high", POTTLE_EBOUNDS, 0, false },
    { "rhubarb-stewed", "0 m", 6, "2 psi low", POTTLE_OK, 4, true },
    { "rhubarb-stewed", "0 m", 6, "2.1 psi low", POTTLE_EBOUNDS, 0, false },
    { "rhubarb-stewed", "0 m", 6, "9 psi low", POTTLE_EBOUNDS, 0, false },
    { "rhubarb-stewed", "0 m", 6, "15 psi high", POTTLE_EBOUNDS, 0, false },
    /* pressure only, though of tomatoes: counts as low-acid */
    { "spaghetti-sauce-no-meat", "0 m", 11, "2.5 psi high", POTTLE_EBOUNDS, 0,
      false },
};

START_TEST(set_point_by_hand)
{
    pottle_recipe *recipe = kitchen_recipe(gauges[_i].recipe);
    pottle_quantity altitude;
    pottle_process p[POTTLE_PROCESS_MAX];
    size_t n = 0, k = 0;
    const pottle_method dial = POTTLE_DIAL_GAUGE;
    ck_assert_int_eq(pottle_quantity_read(gauges[_i].altitude, POTTLE_LENGTH,
                                          &altitude, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(
        pottle_process_find(
            kitchen, recipe, kitchen_jar("pint"), &dial, POTTLE_ANY_PACK,
            altitude.low * altitude.unit->factor / 1000, p, &n, NULL),
        POTTLE_OK);
    while (k < n && p[k].band->psi != gauges[_i].tested)
        k++;
    ck_assert_msg(k < n, "no process at %d psi is printed", gauges[_i].tested);
    pottle_set_point out = { 7, 7, false };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_gauge_set_point(
        kitchen, recipe, &p[k], reads(gauges[_i].gauge), &out, &error);
    ck_assert_msg(status == gauges[_i].status, "%s, %s: %d %s",
                  gauges[_i].recipe, gauges[_i].gauge, (int)status, error.what);
    if (status == POTTLE_OK) {
        ck_assert_msg(fabs(out.psi - gauges[_i].psi) < 1e-6,
                      "%s: expected %g psi, found %.8g", gauges[_i].gauge,
                      gauges[_i].psi, out.psi);
        ck_assert(out.strict == gauges[_i].strict);
        ck_assert(fabs(out.off_psi - fabs(gauges[_i].psi - gauges[_i].tested)) <
                  1e-6);
    } else {
        ck_assert_str_eq(error.code, "gauge-error");
        ck_assert_str_eq(error.source, "isu-ext"); /* of the rule gauge-error */
        ck_assert(error.instead[0] != '\0' && out.psi > 6.9 && out.psi < 7.1);
        /* a way out that the recipe has */
        ck_assert((strstr(error.instead, "boiling-water") != NULL) !=
                  pottlei_low_acid(recipe));
    }
    const pottle_kitchen_canner canner = { .id = "big",
                                           .method = POTTLE_DIAL_GAUGE,
                                           .gauge = reads(gauges[_i].gauge) };
    ck_assert(pottle_canner_usable(kitchen, recipe, &canner, NULL) ==
              gauges[_i].status);
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(set_point_statuses)
{
    pottle_recipe *recipe = kitchen_recipe("beans-snap");
    pottle_process p[POTTLE_PROCESS_MAX];
    size_t n = 0;
    const pottle_method weights = POTTLE_WEIGHTED_GAUGE;
    pottle_set_point out;
    ck_assert_int_eq(pottle_process_find(kitchen, recipe, kitchen_jar("pint"),
                                         &weights, POTTLE_ANY_PACK, 0, p, &n,
                                         NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_gauge_set_point(kitchen, recipe, p,
                                            reads("1 psi high"), &out, NULL),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(
        pottle_canner_set_point(kitchen, recipe, p, NULL, &out, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_gauge_set_point(NULL, recipe, p, reads(NULL), &out, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_gauge_set_point(kitchen, NULL, p, reads(NULL), &out, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_gauge_set_point(kitchen, recipe, NULL, reads(NULL), &out, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_gauge_set_point(kitchen, recipe, p, reads(NULL), NULL, NULL),
        POTTLE_EMISUSE);
    pottle_kitchen_canner canner = { .id = "big",
                                     .method = POTTLE_WEIGHTED_GAUGE,
                                     .gauge = reads("9 psi low") };
    ck_assert_int_eq(pottle_canner_usable(kitchen, recipe, &canner, NULL),
                     POTTLE_OK); /* weights have no dial */
    ck_assert_int_eq(pottle_canner_usable(kitchen, recipe, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_canner_usable(kitchen, NULL, &canner, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_canner_usable(NULL, recipe, &canner, NULL),
                     POTTLE_EMISUSE);
    pottle_recipe_free(recipe);
}
END_TEST

/* What is said of a limit names it. */
START_TEST(limits_are_named)
{
    static const char *const ids[] = { "gauge-limit", "gauge-limit-strict" };
    for (int i = 0; i < COUNT(ids); i++) {
        const pottle_figure *f = pottle_figure_find(kitchen, ids[i]);
        char number[40];
        ck_assert(f != NULL);
        snprintf(number, sizeof number, " %g psi ", f->value);
        ck_assert_msg(strstr(f->text, number) != NULL, "%s: %s", ids[i],
                      f->text);
    }
}
END_TEST

/* Vegetables and meat have no boiling-water process, fruit has one. */
START_TEST(low_acid_is_what_has_no_boiling_water_process)
{
    static const struct {
        const char *recipe;
        bool low;
    } recipes[] = {
        { "beans-snap", true },
        { "chicken-rabbit-boneless", true },
        { "spaghetti-sauce-no-meat", true },
        { "tomatoes-crushed", false },
        { "peaches", false },
        { "chile-salsa", false },
        { "berry-freezer-jam-powdered-pectin", false },
    };
    for (int i = 0; i < COUNT(recipes); i++) {
        pottle_recipe *recipe = kitchen_recipe(recipes[i].recipe);
        ck_assert_msg(pottlei_low_acid(recipe) == recipes[i].low, "%s",
                      recipes[i].recipe);
        pottle_recipe_free(recipe);
    }
}
END_TEST

TCase *
loads_gauge(void)
{
    TCase *t = tcase_create("gauge");
    tcase_add_checked_fixture(t, kitchen_open, kitchen_close);
    tcase_add_loop_test(t, set_point_by_hand, 0, COUNT(gauges));
    tcase_add_test(t, set_point_statuses);
    tcase_add_test(t, limits_are_named);
    tcase_add_test(t, low_acid_is_what_has_no_boiling_water_process);
    return t;
}
