/* rescue_remake.c - test_rescue: what goes to a soft jam, and its process. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "rescue_cases.h"

/* -- Remaking a soft spread ------------------------------------------------ */

/* For each quart: powdered 1/4 cup sugar, 1/2 cup water, 2 tbsp bottled lemon
 * juice, 4 tsp pectin; liquid 3/4 cup sugar, 2 tbsp lemon juice, 2 tbsp pectin;
 * none 2 tbsp lemon juice. 1 quart is 4 cups, so 6 cups take 1 1/2 times, 2
 * cups half, 5 cups 5/4: 5/4 x 4 tsp = 5 tsp; 5/4 x 2 tbsp = 2 1/2 tbsp. Sugar
 * is 200 g a cup (SR28 19335), water 237 g (SR26 14411), lemon juice 244 g
 * (SR28 09153). */
#define QUART                                                                  \
    "Oklahoma State University, remaking soft jelly, for each quart, by hand"
static const struct {
    const char *pectin;
    double cups;
    const char *food;
    double ml, mass_g;
    const char *measure;
    const char *source;
} remakes[] = {
    { "powdered", 4, "sugar", CUP_ML / 4, 50, "1/4 cup", QUART },
    { "powdered", 4, "water", CUP_ML / 2, 118.5, "1/2 cup", QUART },
    { "powdered", 4, "bottled-lemon-juice", 2 * TBSP_ML, 30.5, "2 tbsp",
      QUART },
    { "powdered", 4, "powdered-pectin", 4 * TSP_ML, 0, "1 tbsp + 1 tsp",
      QUART },
    { "powdered", 6, "sugar", CUP_ML * 0.375, 75, "1/4 cup + 2 tbsp", QUART },
    { "powdered", 6, "powdered-pectin", 6 * TSP_ML, 0, "2 tbsp", QUART },
    { "powdered", 6, "bottled-lemon-juice", 3 * TBSP_ML, 45.75, "3 tbsp",
      QUART },
    { "powdered", 5, "powdered-pectin", 5 * TSP_ML, 0, "1 tbsp + 2 tsp",
      QUART },
    { "powdered", 2, "sugar", CUP_ML / 8, 25, "2 tbsp", QUART },
    { "powdered", 2, "powdered-pectin", 2 * TSP_ML, 0, "2 tsp", QUART },
    { "liquid", 4, "sugar", CUP_ML * 0.75, 150, "3/4 cup", QUART },
    { "liquid", 4, "bottled-lemon-juice", 2 * TBSP_ML, 30.5, "2 tbsp", QUART },
    { "liquid", 4, "liquid-pectin", 2 * TBSP_ML, 29.666666667, "2 tbsp",
      QUART " (89 g in 3 fl oz)" },
    { "liquid", 5, "bottled-lemon-juice", 2.5 * TBSP_ML, 38.125, "2 1/2 tbsp",
      QUART },
    { "none", 4, "bottled-lemon-juice", 2 * TBSP_ML, 30.5, "2 tbsp",
      "Michigan State University 01600900, without added pectin" },
    { "none", 6, "bottled-lemon-juice", 3 * TBSP_ML, 45.75, "3 tbsp",
      "Michigan State University 01600900, by hand" },
};

static pottle_remake
remake_of(const char *pectin, double ml)
{
    pottle_remake r;
    pottle_error error = { .line = -7 };
    const pottle_status status =
        pottle_remake_lot(kitchen, pectin, (pottle_volume){ ml }, &r, &error);
    ck_assert_msg(status == POTTLE_OK, "%g mL, %s: %s", ml, pectin, error.what);
    ck_assert_int_eq(error.line, -7);
    return r;
}

START_TEST(amounts_of_a_remake)
{
    const pottle_remake r =
        remake_of(remakes[_i].pectin, remakes[_i].cups * CUP_ML);
    const pottle_remake_line *l = NULL;
    for (size_t i = 0; i < r.lines; i++)
        l = strcmp(r.line[i].add->food, remakes[_i].food) == 0 ? &r.line[i] : l;
    ck_assert_msg(l != NULL, "%s pectin: no %s (%s)", remakes[_i].pectin,
                  remakes[_i].food, remakes[_i].source);
    ck_assert_msg(within(l->volume_ml, remakes[_i].ml, TINY),
                  "%s: %.6f mL, wanted %.6f (%s)", remakes[_i].food,
                  l->volume_ml, remakes[_i].ml, remakes[_i].source);
    ck_assert_msg(fabs(l->mass_g - remakes[_i].mass_g) <
                      1e-6 * (1 + remakes[_i].mass_g),
                  "%s: %.6f g, wanted %.6f (%s)", remakes[_i].food, l->mass_g,
                  remakes[_i].mass_g, remakes[_i].source);
    char measure[100] = "";
    ck_assert(l->has_measure);
    pottle_measure_write(&l->measure, measure, sizeof measure);
    ck_assert_msg(strcmp(measure, remakes[_i].measure) == 0,
                  "%s: '%s', wanted '%s' (%s)", remakes[_i].food, measure,
                  remakes[_i].measure, remakes[_i].source);
    ck_assert(r.over_usual == (remakes[_i].cups > 4));
    ck_assert_str_ne(l->title, "");
}
END_TEST

static const struct {
    const char *pectin;
    double boil, boil_to;
    size_t adds;
    const char *source;
} boils[] = {
    { "powdered", 0.5, 0.5, 4, QUART ": boil hard 1/2 minute" },
    { "liquid", 1, 1, 3, QUART ": boil hard 1 minute" },
    { "none", 3, 4, 1,
      "Michigan State University 01600900: boil 3 to 4 minutes" },
};

START_TEST(minutes_of_a_remake)
{
    const pottle_remake r = remake_of(boils[_i].pectin, 4 * CUP_ML);
    ck_assert_msg(fabs(r.way->boil_min - boils[_i].boil) < 1e-12 &&
                      fabs(r.way->boil_to_min - boils[_i].boil_to) < 1e-12,
                  "%g to %g min (%s)", r.way->boil_min, r.way->boil_to_min,
                  boils[_i].source);
    ck_assert_msg(r.lines == boils[_i].adds, "%zu lines (%s)", r.lines,
                  boils[_i].source);
    ck_assert(within(r.way->per_ml, 4 * CUP_ML, TINY));
}
END_TEST

/* Any amount up to six cups: all in the proportion of the quart; lemon juice as
 * measured never less, the others within 1 percent. */
START_TEST(any_lot_keeps_the_proportions)
{
    static const char *const pectins[] = { "powdered", "liquid", "none" };
    const double ml = 6 * CUP_ML * (_i + 1) / 97;
    for (size_t p = 0; p < COUNT(pectins); p++) {
        const pottle_remake r = remake_of(pectins[p], ml),
                            quart = remake_of(pectins[p], 4 * CUP_ML);
        for (size_t i = 0; i < r.lines; i++) {
            const pottle_remake_line *l = &r.line[i];
            ck_assert(within(l->volume_ml,
                             quart.line[i].volume_ml * ml / (4 * CUP_ML),
                             TINY));
            if (!l->has_measure)
                continue;
            const double share = l->measure.base / l->volume_ml;
            if (l->add->keep == POTTLE_AT_LEAST)
                ck_assert_msg(share >= 1 - 1e-7, "%s: %g of it", l->add->food,
                              share);
            else
                ck_assert_msg(share >= 0.99 - 1e-9 && share <= 1.01 + 1e-9,
                              "%s: %g of it", l->add->food, share);
        }
    }
}
END_TEST

/* Over six cups: refused, with the lots. In lots of at most 4 cups 9 are three
 * lots of 3, 6.5 two of 3.25, 100 are 25 of 4. */
static const struct {
    double cups;
    const char *lots;
} large[] = {
    { 9, "3 lots of 3 cups" },
    { 6.5, "2 lots of 3.25 cups" },
    { 100, "25 lots of 4 cups" },
    { 8, "2 lots of 4 cups" },
};

START_TEST(over_six_cups)
{
    pottle_remake r = { .volume_ml = -3 };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(
        pottle_remake_lot(kitchen, "powdered",
                          (pottle_volume){ large[_i].cups * CUP_ML }, &r,
                          &error),
        POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "remake-lot");
    ck_assert_str_eq(error.source, "okstate-ext");
    ck_assert_msg(strstr(error.instead, large[_i].lots) != NULL, "%s",
                  error.instead);
    ck_assert(r.volume_ml < -2.9);
}
END_TEST

START_TEST(remake_refusals)
{
    pottle_remake r = { .volume_ml = -3 };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_volume cup = { CUP_ML },
                        six = { 3 * 473.176473 }; /* three pints are six cups */
    ck_assert_int_eq(pottle_remake_lot(kitchen, "powdered", six, &r, &error),
                     POTTLE_OK);
    r.volume_ml = -3;
    ck_assert_int_eq(pottle_remake_lot(kitchen, "powdered",
                                       (pottle_volume){ 6.001 * CUP_ML }, &r,
                                       &error),
                     POTTLE_EBOUNDS);
    ck_assert_int_eq(pottle_remake_lot(kitchen, "powdered",
                                       (pottle_volume){ 0 }, &r, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_remake_lot(kitchen, "powdered",
                                       (pottle_volume){ -1 }, &r, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_remake_lot(kitchen, "powdered",
                                       (pottle_volume){ NOT_A_NUMBER }, &r,
                                       &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_remake_lot(kitchen, "powdered",
                                       (pottle_volume){ HUGE_VAL }, &r, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_remake_lot(kitchen, "agar", cup, &r, &error),
                     POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "unknown-pectin");
    ck_assert_int_eq(pottle_remake_lot(kitchen, NULL, cup, &r, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_remake_lot(NULL, "none", cup, &r, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_remake_lot(kitchen, "none", cup, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert(r.volume_ml < -2.9);
}
END_TEST

/* 5, 10 and 15 minutes; edges as printed: 1,000 ft is in the first band. */
#define TABLE                                                                  \
    "Oklahoma State University, remaking soft jelly, table 1: half-pints or "  \
    "pints 5, 10, 15 min"
static const struct {
    const char *jar;
    double ft;
    int minutes;
    const char *tested_as;
    const char *source;
} times[] = {
    { "half-pint", 0, 5, "half-pint", TABLE },
    { "pint", 1000, 5, "pint", TABLE },
    { "pint", 1001, 10, "pint", TABLE },
    { "pint", 1000.5, 10, "pint", TABLE },
    { "half-pint", 6000, 10, "half-pint", TABLE },
    { "half-pint", 6001, 15, "half-pint", TABLE },
    { "pint", 12000, 15, "pint", TABLE " (above 6,000 ft)" },
    { "quarter-pint", 500, 5, "half-pint",
      TABLE "; a smaller jar takes the next larger's" },
    { "12-oz", 500, 5, "pint",
      TABLE "; a smaller jar takes the next larger's" },
};

START_TEST(process_of_a_remake)
{
    pottle_process p;
    pottle_error error = { .line = -7 };
    ck_assert_int_eq(pottle_remaking_process(kitchen,
                                             kitchen_jar(times[_i].jar),
                                             times[_i].ft * FOOT_M, &p, &error),
                     POTTLE_OK);
    ck_assert_msg(p.band->minutes == times[_i].minutes,
                  "%s at %g ft: %d min, wanted %d (%s)", times[_i].jar,
                  times[_i].ft, p.band->minutes, times[_i].minutes,
                  times[_i].source);
    ck_assert_str_eq(p.tested_as->id, times[_i].tested_as);
    ck_assert_int_eq(p.table->method, POTTLE_BOILING_WATER);
    ck_assert(!p.table->raw && p.table->sterile && p.band->psi == 0);
    ck_assert(fabs(p.headspace.mm - 0.25 * INCH_MM) < 1e-9);
    ck_assert_int_eq(error.line, -7);
}
END_TEST

START_TEST(process_refusals)
{
    pottle_process p = { .band = NULL };
    pottle_error error = { .status = POTTLE_OK };
    const pottle_jar *pint = kitchen_jar("pint");
    ck_assert_int_eq(
        pottle_remaking_process(kitchen, kitchen_jar("quart"), 0, &p, &error),
        POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "jar-larger");
    ck_assert_int_eq(pottle_remaking_process(kitchen, pint, -1, &p, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(
        pottle_remaking_process(kitchen, pint, NOT_A_NUMBER, &p, &error),
        POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_remaking_process(kitchen, pint, 10001, &p, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottle_remaking_process(NULL, pint, 0, &p, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_remaking_process(kitchen, NULL, 0, &p, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_remaking_process(kitchen, pint, 0, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_ptr_null(p.band);
}
END_TEST

TCase *
rescue_remake(void)
{
    TCase *remake = tcase_create("remaking");
    tcase_add_checked_fixture(remake, kitchen_open, kitchen_close);
    tcase_add_loop_test(remake, amounts_of_a_remake, 0, (int)COUNT(remakes));
    tcase_add_loop_test(remake, minutes_of_a_remake, 0, (int)COUNT(boils));
    tcase_add_loop_test(remake, any_lot_keeps_the_proportions, 0, 97);
    tcase_add_loop_test(remake, over_six_cups, 0, (int)COUNT(large));
    tcase_add_test(remake, remake_refusals);
    tcase_add_loop_test(remake, process_of_a_remake, 0, (int)COUNT(times));
    tcase_add_test(remake, process_refusals);
    return remake;
}
