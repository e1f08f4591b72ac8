/* test_process.c - the look-up of tested processes: published rows, edges of
 * bands, sizes of jars, refusals. */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"
#include "kitchen_help.h"
#include "process_made.h"
#include "suite.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static const double foot_m =
    0.3048; /* international yard and pound agreement 1959 */
static const double inch_mm = 25.4;

static pottle_catalogue *catalogue;

static void
open_catalogue(void)
{
    catalogue = kitchen_catalogue(POTTLE_WITH_NAMES | POTTLE_WITH_JARS |
                                  POTTLE_WITH_RULES);
}

static void
close_catalogue(void)
{
    pottle_catalogue_free(catalogue);
    catalogue = NULL;
}

static pottle_recipe *
recipe_of(const char *id)
{
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(catalogue, id, &recipe, &error);
    ck_assert_msg(status == POTTLE_OK, "%s: %s:%ld: %s", id, error.where,
                  error.line, error.what);
    return recipe;
}

static const pottle_jar *
jar_of(const char *name)
{
    const pottle_jar *jar = NULL;
    ck_assert_msg(pottle_jar_find(catalogue, name, &jar, NULL) == POTTLE_OK,
                  "no jar %s", name);
    return jar;
}

/* A canner of a table: a method, or any. */
typedef enum canner { BW, DIAL, WEIGHTED, ANY } canner;

static const pottle_method *
method_of(canner c)
{
    static const pottle_method methods[] = { POTTLE_BOILING_WATER,
                                             POTTLE_DIAL_GAUGE,
                                             POTTLE_WEIGHTED_GAUGE };
    return c == ANY ? NULL : &methods[c];
}

/* The outputs before a call that must not touch them. */
static void
fill_outputs(pottle_process out[POTTLE_PROCESS_MAX], size_t *count)
{
    memset(out, 0x5A, POTTLE_PROCESS_MAX * sizeof out[0]);
    *count = 4321;
}

static bool
untouched(const pottle_process out[POTTLE_PROCESS_MAX], size_t count)
{
    const unsigned char *byte = (const unsigned char *)out;
    for (size_t i = 0; i < POTTLE_PROCESS_MAX * sizeof out[0]; i++)
        if (byte[i] != 0x5A)
            return false;
    return count == 4321;
}

/* -- Published rows -------------------------------------------------------- */

#define GUIDE "USDA Complete Guide to Home Canning (AIB 539), "
#define G2 GUIDE "Guide 2, "
#define G3 GUIDE "Guide 3, "
#define G4 GUIDE "Guide 4, "
#define G5 GUIDE "Guide 5, "
#define G6 GUIDE "Guide 6, "
#define G7 GUIDE "Guide 7, "
#define HOT POTTLE_HOT_PACK
#define RAW POTTLE_RAW_PACK

/* pairs: how many minute and psi pairs the publication prints for that jar,
 * canner, pack and altitude. */
static const struct published {
    const char *recipe, *jar;
    canner canner;
    pottle_pack_style pack;
    double altitude_ft;
    int minutes, psi;
    double headspace_in;
    size_t pairs;
    const char *source;
} published[] = {
    { "rhubarb-stewed", "pint", BW, HOT, 500, 15, 0, 0.5, 1,
      G2 "Rhubarb - stewed" },
    { "rhubarb-stewed", "quart", BW, HOT, 5200, 20, 0, 0.5, 1,
      G2 "Rhubarb - stewed" },
    { "rhubarb-stewed", "quart", BW, HOT, 7000, 25, 0, 0.5, 1,
      G2 "Rhubarb - stewed" },
    { "rhubarb-stewed", "pint", DIAL, HOT, 4500, 8, 8, 0.5, 1,
      G2 "Rhubarb - stewed" },
    { "rhubarb-stewed", "quart", WEIGHTED, HOT, 1500, 8, 10, 0.5, 1,
      G2 "Rhubarb - stewed" },
    { "apples-sliced", "quart", BW, HOT, 2500, 25, 0, 0.5, 1,
      G2 "Apples - sliced" },
    { "apples-sliced", "pint", DIAL, HOT, 7500, 8, 9, 0.5, 1,
      G2 "Apples - sliced" },
    { "applesauce", "pint", BW, HOT, 3500, 20, 0, 0.5, 1, G2 "Applesauce" },
    { "applesauce", "quart", BW, HOT, 3500, 30, 0, 0.5, 1, G2 "Applesauce" },
    { "applesauce", "quart", DIAL, HOT, 1000, 10, 6, 0.5, 1, G2 "Applesauce" },
    { "apricots", "pint", BW, HOT, 6500, 35, 0, 0.5, 1,
      G2 "Apricots - halved or sliced" },
    { "apricots", "quart", BW, RAW, 6500, 45, 0, 0.5, 1,
      G2 "Apricots - halved or sliced" },
    { "apricots", "pint", BW, RAW, 0, 25, 0, 0.5, 1,
      G2 "Apricots - halved or sliced" },
    { "nectarines", "quart", BW, RAW, 2000, 35, 0, 0.5, 1,
      G2 "Nectarines - halved or sliced" },
    { "peaches", "quart", BW, HOT, 0, 25, 0, 0.5, 1,
      G2 "Peaches - halved or sliced" },
    { "peaches", "quart", BW, RAW, 4000, 40, 0, 0.5, 1,
      G2 "Peaches - halved or sliced" },
    { "peaches", "pint", WEIGHTED, RAW, 500, 10, 5, 0.5, 1,
      G2 "Peaches - halved or sliced" },
    { "pears-halved", "quart", BW, HOT, 5000, 35, 0, 0.5, 1,
      G2 "Pears - halved" },
    { "pears-halved", "quart", DIAL, HOT, 3000, 10, 7, 0.5, 1,
      G2 "Pears - halved" },
    { "plums", "quart", BW, RAW, 7000, 40, 0, 0.5, 1,
      G2 "Plums - halved or whole" },
    { "cherries-whole", "pint", BW, HOT, 2000, 20, 0, 0.5, 1,
      G2 "Cherries - whole" },
    { "cherries-whole", "quart", BW, RAW, 2000, 30, 0, 0.5, 1,
      G2 "Cherries - whole" },
    { "cherries-whole", "pint", WEIGHTED, HOT, 2000, 8, 10, 0.5, 1,
      G2 "Cherries - whole" },
    { "cherries-whole", "quart", DIAL, RAW, 100, 10, 6, 0.5, 1,
      G2 "Cherries - whole" },
    { "berries-whole", "quart", BW, RAW, 5000, 30, 0, 0.5, 1,
      G2 "Berries - whole" },
    { "berries-whole", "pint", BW, RAW, 5000, 20, 0, 0.5, 1,
      G2 "Berries - whole" },
    { "berries-whole", "quart", BW, HOT, 7000, 25, 0, 0.5, 1,
      G2 "Berries - whole" },
    { "figs", "pint", BW, HOT, 0, 45, 0, 0.5, 1, G2 "Figs" },
    { "figs", "quart", BW, HOT, 8000, 65, 0, 0.5, 1, G2 "Figs" },
    { "grapefruit-orange", "quart", BW, RAW, 6000, 15, 0, 0.5, 1,
      G2 "Grapefruit and orange sections" },
    { "grapefruit-orange", "pint", DIAL, RAW, 8000, 8, 9, 0.5, 1,
      G2 "Grapefruit and orange sections" },
    { "grape-juice", "quart", BW, HOT, 1000, 5, 0, 0.25, 1, G2 "Grape juice" },
    { "grape-juice", "half-gallon", BW, HOT, 1000, 10, 0, 0.25, 1,
      G2 "Grape juice" },
    { "grape-juice", "half-gallon", BW, HOT, 7000, 20, 0, 0.25, 1,
      G2 "Grape juice" },
    { "grapes-whole", "quart", BW, RAW, 4000, 30, 0, 1, 1,
      G2 "Grapes - whole" },
    { "grapes-whole", "quart", BW, HOT, 4000, 15, 0, 1, 1,
      G2 "Grapes - whole" },
    { "mixed-fruit-cocktail", "half-pint", BW, RAW, 100, 20, 0, 0.5, 1,
      G2 "Mixed fruit cocktail" },
    { "pineapple", "quart", BW, HOT, 4000, 30, 0, 0.5, 1, G2 "Pineapple" },
    { "pineapple", "pint", BW, HOT, 4000, 20, 0, 0.5, 1, G2 "Pineapple" },
    { "apple-butter", "pint", BW, HOT, 500, 5, 0, 0.25, 1, G2 "Apple butter" },
    { "apple-butter", "quart", BW, HOT, 500, 10, 0, 0.25, 1,
      G2 "Apple butter" },
    { "apple-pie-filling", "quart", BW, HOT, 2000, 30, 0, 1, 1,
      G2 "Apple pie filling" },
    { "blueberry-pie-filling", "pint", BW, HOT, 7000, 45, 0, 1, 1,
      G2 "Blueberry pie filling" },
    { "cherry-pie-filling", "quart", BW, HOT, 500, 30, 0, 1, 1,
      G2 "Cherry pie filling" },
    { "festive-mincemeat-pie-filling", "quart", DIAL, HOT, 5000, 90, 13, 1, 1,
      G2 "Festive mincemeat pie filling (2015)" },
    { "spiced-crab-apples", "pint", BW, HOT, 4000, 30, 0, 0.5, 1,
      G2 "Spiced crab apples" },
    { "spiced-apple-rings", "half-pint", BW, HOT, 2000, 15, 0, 0.5, 1,
      G2 "Spiced apple rings" },
    { "berry-syrup", "half-pint", BW, HOT, 500, 10, 0, 0.5, 1,
      G2 "Berry syrup" },
    { "cranberry-orange-chutney", "half-pint", BW, HOT, 7000, 20, 0, 0.5, 1,
      G2 "Cranberry orange chutney" },

    { "tomatoes-crushed", "pint", BW, HOT, 0, 35, 0, 0.5, 1,
      G3 "Tomatoes - crushed" },
    { "tomatoes-crushed", "quart", BW, HOT, 7000, 60, 0, 0.5, 1,
      G3 "Tomatoes - crushed" },
    { "tomatoes-crushed", "quart", DIAL, HOT, 5000, 20, 8, 0.5, 2,
      G3 "Tomatoes - crushed" },
    { "tomatoes-crushed", "quart", DIAL, HOT, 5000, 15, 13, 0.5, 2,
      G3 "Tomatoes - crushed" },
    { "tomatoes-crushed", "quart", WEIGHTED, HOT, 500, 10, 15, 0.5, 3,
      G3 "Tomatoes - crushed" },
    { "tomatoes-in-water", "quart", BW, RAW, 500, 45, 0, 0.5, 1,
      G3 "Tomatoes - whole or halved, packed in water" },
    { "tomatoes-in-water", "pint", WEIGHTED, HOT, 500, 1, 15, 0.5, 3,
      G3 "Tomatoes - whole or halved, packed in water" },
    { "tomatoes-in-water", "pint", DIAL, RAW, 1500, 15, 6, 0.5, 2,
      G3 "Tomatoes - whole or halved, packed in water" },
    { "tomatoes-in-juice", "quart", BW, HOT, 3000, 90, 0, 0.5, 1,
      G3 "Tomatoes - whole or halved, packed in tomato juice" },
    { "tomatoes-no-liquid", "pint", BW, RAW, 6500, 100, 0, 0.5, 1,
      G3 "Tomatoes - packed raw without added liquid" },
    { "tomatoes-no-liquid", "quart", DIAL, RAW, 7000, 25, 14, 0.5, 2,
      G3 "Tomatoes - packed raw without added liquid" },
    { "tomato-juice", "quart", BW, HOT, 500, 40, 0, 0.5, 1, G3 "Tomato juice" },
    { "tomato-juice", "pint", WEIGHTED, HOT, 500, 15, 10, 0.5, 2,
      G3 "Tomato juice" },
    { "tomato-vegetable-juice", "pint", BW, HOT, 2000, 40, 0, 0.5, 1,
      G3 "Tomato and vegetable juice blend" },
    { "tomato-sauce-standard", "quart", BW, HOT, 5000, 50, 0, 0.25, 1,
      G3 "Standard tomato sauce" },
    { "tomato-ketchup", "pint", BW, HOT, 5000, 20, 0, 0.125, 1,
      G3 "Tomato ketchup" },
    { "chile-salsa", "pint", BW, HOT, 500, 15, 0, 0.5, 1, G3 "Chile salsa" },
    { "tomato-tomato-paste-salsa", "pint", BW, HOT, 6500, 25, 0, 0.5, 1,
      G3 "Tomato/tomato paste salsa" },
    { "spaghetti-sauce-no-meat", "quart", DIAL, HOT, 3000, 25, 12, 1, 1,
      G3 "Spaghetti sauce without meat" },
    { "tomatoes-okra-zucchini", "pint", WEIGHTED, HOT, 500, 30, 10, 1, 1,
      G3 "Tomatoes with okra or zucchini" },
    { "mexican-tomato-sauce", "quart", DIAL, HOT, 7000, 25, 14, 1, 1,
      G3 "Mexican tomato sauce" },
    { "easy-hot-sauce", "half-pint", BW, HOT, 3000, 15, 0, 0.25, 1,
      G3 "Easy hot sauce" },

    { "asparagus", "pint", DIAL, RAW, 1000, 30, 11, 1, 1,
      G4 "Asparagus - spears or pieces" },
    { "asparagus", "quart", WEIGHTED, HOT, 1500, 40, 15, 1, 1,
      G4 "Asparagus - spears or pieces" },
    { "beans-snap", "quart", WEIGHTED, RAW, 500, 25, 10, 1, 1,
      G4 "Beans, snap and Italian - pieces" },
    { "beans-snap", "pint", DIAL, HOT, 8000, 20, 14, 1, 1,
      G4 "Beans, snap and Italian - pieces" },
    { "beans-lima", "quart", DIAL, RAW, 500, 50, 11, 1.5, 1,
      G4 "Beans, fresh lima - shelled" },
    { "beans-lima", "quart", DIAL, HOT, 500, 50, 11, 1, 1,
      G4 "Beans, fresh lima - shelled" },
    { "beans-peas-dried", "pint", DIAL, HOT, 2500, 75, 12, 1, 1,
      G4 "Beans or peas - shelled, dried" },
    { "beets", "quart", DIAL, HOT, 2001, 35, 12, 1, 1,
      G4 "Beets - whole, cubed, or sliced" },
    { "carrots", "pint", WEIGHTED, RAW, 500, 25, 10, 1, 1,
      G4 "Carrots - sliced or diced" },
    { "corn-whole-kernel", "quart", DIAL, HOT, 500, 85, 11, 1, 1,
      G4 "Corn - whole kernel" },
    { "corn-cream-style", "pint", WEIGHTED, HOT, 5000, 85, 15, 1, 1,
      G4 "Corn - cream style" },
    { "okra", "quart", DIAL, HOT, 3000, 40, 12, 1, 1, G4 "Okra" },
    { "peas-green", "quart", WEIGHTED, RAW, 800, 40, 10, 1, 1,
      G4 "Peas, green or English - shelled" },
    { "peppers", "half-pint", DIAL, HOT, 500, 35, 11, 1, 1, G4 "Peppers" },
    { "potatoes-white", "quart", DIAL, HOT, 4500, 40, 13, 1, 1,
      G4 "Potatoes, white - cubed or whole" },
    { "potatoes-sweet", "quart", DIAL, HOT, 1000, 90, 11, 1, 1,
      G4 "Potatoes, sweet - pieces or whole" },
    { "pumpkin-winter-squash", "quart", WEIGHTED, HOT, 1000, 90, 10, 1, 1,
      G4 "Pumpkins and winter squash - cubed" },
    { "spinach-greens", "pint", DIAL, HOT, 6500, 70, 14, 1, 1,
      G4 "Spinach and other greens" },
    { "mixed-vegetables", "quart", WEIGHTED, HOT, 400, 90, 10, 1, 1,
      G4 "Mixed vegetables" },

    { "chicken-rabbit-boneless", "quart", DIAL, RAW, 2000, 90, 11, 1.25, 1,
      G5 "Chicken or rabbit" },
    { "chicken-rabbit-bone-in", "quart", WEIGHTED, HOT, 1500, 75, 15, 1.25, 1,
      G5 "Chicken or rabbit" },

    { "pickle-relish", "pint", BW, HOT, 500, 10, 0, 0.5, 1,
      G6 "Pickle relish" },
    { "quick-fresh-pack-dill-pickles", "quart", BW, RAW, 500, 15, 0, 0.5, 1,
      G6 "Quick fresh-pack dill pickles" },
    { "pickled-green-tomato-relish", "pint", BW, HOT, 500, 5, 0, 0.5, 1,
      G6 "Pickled green tomato relish" },
    { "bread-and-butter-pickles", "quart", BW, HOT, 5000, 15, 0, 0.5, 1,
      G6 "Bread-and-butter pickles" },
    { "marinated-peppers", "half-pint", BW, RAW, 4000, 20, 0, 0.5, 1,
      G6 "Marinated peppers" },
    { "three-bean-salad", "pint", BW, HOT, 7000, 25, 0, 0.5, 1,
      G6 "Pickled three-bean salad" },
    { "pickled-corn-relish", "pint", BW, HOT, 2000, 20, 0, 0.5, 1,
      G6 "Pickled corn relish" },
    { "pickled-mixed-vegetables", "quart", BW, HOT, 500, 10, 0, 0.5, 1,
      G6 "Pickled mixed vegetables" },

    { "strawberry-rhubarb-jelly", "half-pint", BW, HOT, 500, 5, 0, 0.25, 1,
      G7 "Strawberry-rhubarb jelly" },
    { "peach-pineapple-spread", "pint", BW, HOT, 4000, 30, 0, 0.25, 1,
      G7 "Peach-pineapple spread" },
    { "peach-pineapple-spread", "half-pint", BW, HOT, 4000, 20, 0, 0.25, 1,
      G7 "Peach-pineapple spread" },
    { "golden-pepper-jelly", "half-pint", BW, HOT, 3000, 10, 0, 0.25, 1,
      G7 "Golden pepper jelly" },
    { "apricot-jam-no-pectin", "half-pint", BW, HOT, 7000, 15, 0, 0.25, 1,
      G7 "Making jams without added pectin, table" },

    { "strawberry-jam-powdered-pectin", "half-pint", BW, HOT, 500, 5, 0, 0.25,
      1, "University of Illinois Extension, Strawberry jam" },
    { "citrus-marmalade", "half-pint", BW, HOT, 6500, 15, 0, 0.25, 1,
      "National Center for Home Food Preservation, Citrus marmalade" },
    { "barbecue-sauce-tomato", "pint", BW, HOT, 5000, 30, 0, 0.5, 1,
      "National Center for Home Food Preservation (2017), Barbecue sauce" },
    { "pickled-hot-peppers", "half-pint", BW, RAW, 2000, 15, 0, 0.5, 1,
      "National Center for Home Food Preservation, Pickled hot peppers" },
};

START_TEST(row_is_found_as_printed)
{
    const struct published *row = &published[_i];
    pottle_recipe *recipe = recipe_of(row->recipe);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_process_find(
        catalogue, recipe, jar_of(row->jar), method_of(row->canner), row->pack,
        row->altitude_ft * foot_m, out, &count, &error);
    ck_assert_msg(status == POTTLE_OK, "%s %s at %g ft: %s, but %s has %d min",
                  row->recipe, row->jar, row->altitude_ft, error.what,
                  row->source, row->minutes);
    ck_assert_msg(count == row->pairs,
                  "%s %s at %g ft: %zu processes, %s has %zu", row->recipe,
                  row->jar, row->altitude_ft, count, row->source, row->pairs);
    size_t times = 0;
    for (size_t i = 0; i < count; i++) {
        const pottle_process *p = &out[i];
        ck_assert_msg((int)p->table->method == (int)row->canner &&
                          p->table->raw == (row->pack == RAW),
                      "%s: another canner or pack came back", row->recipe);
        ck_assert_str_eq(p->jar->id, row->jar);
        ck_assert_str_eq(p->tested_as->id, row->jar); /* it is listed itself */
        if (p->band->minutes == row->minutes && p->band->psi == row->psi &&
            fabs(p->headspace.mm - row->headspace_in * inch_mm) < 1e-9)
            times++;
    }
    ck_assert_msg(times == 1,
                  "%s %s at %g ft: %d min %d psi %g mm first, but %s has %d "
                  "min %d psi %g in (%zu times here)",
                  row->recipe, row->jar, row->altitude_ft, out[0].band->minutes,
                  out[0].band->psi, out[0].headspace.mm, row->source,
                  row->minutes, row->psi, row->headspace_in, times);
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Edges of bands -------------------------------------------------------- */

/* In metres, as a map has them. 1,000 ft is 304.8 m, 2,000 ft 609.6 m, 3,000 ft
 * 914.4 m, 4,000 ft 1219.2 m, 6,000 ft 1828.8 m, 8,000 ft 2438.4 m. The bands
 * are those printed: 0-1,000, 1,001-3,000 and so on; what lies between two,
 * 1,000.1 ft, is above the lower and so in the next. */
static const struct {
    const char *recipe;
    canner canner;
    double altitude_m;
    int minutes, psi;
    const char *source;
} edges[] = {
    { "chile-salsa", BW, 0, 15, 0, G3 "Chile salsa" },
    { "chile-salsa", BW, 304.8, 15, 0, G3 "Chile salsa" },
    { "chile-salsa", BW, 1000.1 * 0.3048, 20, 0, G3 "Chile salsa" },
    { "chile-salsa", BW, 1000.001 * 0.3048, 20, 0, G3 "Chile salsa" },
    { "chile-salsa", BW, 305, 20, 0, G3 "Chile salsa" }, /* 1,000.7 ft */
    { "chile-salsa", BW, 1001 * 0.3048, 20, 0, G3 "Chile salsa" },
    { "chile-salsa", BW, 1828.8, 20, 0, G3 "Chile salsa" },
    { "chile-salsa", BW, 1828.9, 25, 0, G3 "Chile salsa" },
    { "chile-salsa", BW, 6001 * 0.3048, 25, 0, G3 "Chile salsa" },
    { "chile-salsa", BW, 10000, 25, 0, G3 "Chile salsa, above 6,000 ft" },
    { "figs", BW, 304.8, 45, 0, G2 "Figs" },
    { "figs", BW, 304.81, 50, 0, G2 "Figs" },
    { "figs", BW, 914.4, 50, 0, G2 "Figs" },
    { "figs", BW, 914.5, 55, 0, G2 "Figs" },
    { "figs", BW, 1828.8, 55, 0, G2 "Figs" },
    { "figs", BW, 1829, 60, 0, G2 "Figs" },
    { "beets", DIAL, 609.6, 30, 11, G4 "Beets" },
    { "beets", DIAL, 609.7, 30, 12, G4 "Beets" },
    { "beets", DIAL, 1219.2, 30, 12, G4 "Beets" },
    { "beets", DIAL, 1219.3, 30, 13, G4 "Beets" },
    { "beets", DIAL, 1828.8, 30, 13, G4 "Beets" },
    { "beets", DIAL, 1828.9, 30, 14, G4 "Beets" },
    { "beets", DIAL, 2438.4, 30, 14, G4 "Beets" },
    { "beets", WEIGHTED, 304.8, 30, 10, G4 "Beets" },
    { "beets", WEIGHTED, 304.9, 30, 15, G4 "Beets" },
    { "beets", WEIGHTED, 3000, 30, 15, G4 "Beets, above 1,000 ft" },
};

START_TEST(edge_of_a_band_is_as_printed)
{
    pottle_recipe *recipe = recipe_of(edges[_i].recipe);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    const pottle_status status = pottle_process_find(
        catalogue, recipe, jar_of("pint"), method_of(edges[_i].canner), HOT,
        edges[_i].altitude_m, out, &count, NULL);
    ck_assert_int_eq(status, POTTLE_OK);
    ck_assert_uint_eq(count, 1);
    ck_assert_msg(out[0].band->minutes == edges[_i].minutes &&
                      out[0].band->psi == edges[_i].psi,
                  "%s at %.4f m: %d min %d psi, %s has %d min %d psi",
                  edges[_i].recipe, edges[_i].altitude_m, out[0].band->minutes,
                  out[0].band->psi, edges[_i].source, edges[_i].minutes,
                  edges[_i].psi);
    pottle_recipe_free(recipe);
}
END_TEST

/* An edge that is typed in feet and comes by way of metres stays in the lower
 * band. */
START_TEST(edge_typed_in_feet_stays)
{
    static const struct {
        const char *text;
        int psi;
    } typed[] = { { "2000 ft", 11 },
                  { "4000 ft", 12 },
                  { "6000 ft", 13 },
                  { "8000 ft", 14 } };
    pottle_recipe *recipe =
        recipe_of("beets"); /* dial-gauge bands of AIB 539, Guide 4, Beets */
    for (size_t i = 0; i < COUNT(typed); i++) {
        pottle_quantity q = { 0, 0, NULL };
        double m = -1;
        ck_assert_int_eq(
            pottle_quantity_read(typed[i].text, POTTLE_LENGTH, &q, NULL),
            POTTLE_OK);
        ck_assert_int_eq(
            pottle_unit_convert(q.low, q.unit, pottle_unit_find("m"), &m, NULL),
            POTTLE_OK);
        pottle_process out[POTTLE_PROCESS_MAX];
        size_t count = 0;
        ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar_of("pint"),
                                             method_of(DIAL), HOT, m, out,
                                             &count, NULL),
                         POTTLE_OK);
        ck_assert_msg(out[0].band->psi == typed[i].psi,
                      "%s: %d psi, the guide has %d", typed[i].text,
                      out[0].band->psi, typed[i].psi);
    }
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Sizes of jars --------------------------------------------------------- */

/* A smaller jar takes the next larger size that is tested; the volumes decide,
 * so 250 mL is more than a half-pint (236.6 mL) and 500 mL more than a pint
 * (473.2 mL). tested NULL: refused. Minutes are those printed for the tested
 * size at 0 ft. */
#define SMALLER                                                                \
    "national centre, choice of jar sizes; Kansas State 2019, 2022: 4 oz as "  \
    "half-pint, 12 oz as pint, 24 and 28 oz as quart"
#define LARGER                                                                 \
    "national centre, choice of jar sizes: no process for a jar larger than "  \
    "tested"

static const struct {
    const char *recipe, *jar;
    canner canner;
    pottle_pack_style pack;
    const char *tested;
    int minutes;
    const char *source;
} sizes[] = {
    /* pints are tested, 15 minutes */
    { "chile-salsa", "quarter-pint", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "half-pint", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "250-ml", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "12-oz", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "pint", BW, HOT, "pint", 15, SMALLER },
    { "chile-salsa", "500-ml", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "pint-and-half", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "28-oz", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "quart", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "1-l", BW, HOT, NULL, 0, LARGER },
    { "chile-salsa", "half-gallon", BW, HOT, NULL, 0, LARGER },
    /* half-pints and pints in one row, 5 minutes */
    { "strawberry-jam-powdered-pectin", "quarter-pint", BW, HOT, "half-pint", 5,
      SMALLER },
    { "strawberry-jam-powdered-pectin", "half-pint", BW, HOT, "half-pint", 5,
      SMALLER },
    { "strawberry-jam-powdered-pectin", "250-ml", BW, HOT, "pint", 5, SMALLER },
    { "strawberry-jam-powdered-pectin", "500-ml", BW, HOT, NULL, 0, LARGER },
    /* half-pints only, 10 minutes */
    { "easy-hot-sauce", "quarter-pint", BW, HOT, "half-pint", 10, SMALLER },
    { "easy-hot-sauce", "250-ml", BW, HOT, NULL, 0, LARGER },
    { "easy-hot-sauce", "12-oz", BW, HOT, NULL, 0, LARGER },
    { "easy-hot-sauce", "pint", BW, HOT, NULL, 0, LARGER },
    /* pints 20, quarts 25 minutes */
    { "peaches", "half-pint", BW, HOT, "pint", 20, SMALLER },
    { "peaches", "12-oz", BW, HOT, "pint", 20, SMALLER },
    { "peaches", "500-ml", BW, HOT, "quart", 25, SMALLER },
    { "peaches", "pint-and-half", BW, HOT, "quart", 25, SMALLER },
    { "peaches", "28-oz", BW, HOT, "quart", 25, SMALLER },
    { "peaches", "1-l", BW, HOT, NULL, 0, LARGER },
    /* half-pints and pints 5, quarts 10 minutes */
    { "apple-butter", "12-oz", BW, HOT, "pint", 5, SMALLER },
    { "apple-butter", "500-ml", BW, HOT, "quart", 10, SMALLER },
    /* half-pints 15, pints 20 minutes */
    { "peach-pineapple-spread", "quarter-pint", BW, HOT, "half-pint", 15,
      SMALLER },
    { "peach-pineapple-spread", "12-oz", BW, HOT, "pint", 20, SMALLER },
    /* pints and quarts 5, half-gallons 10 minutes */
    { "grape-juice", "half-pint", BW, HOT, "pint", 5, SMALLER },
    { "grape-juice", "28-oz", BW, HOT, "quart", 5, SMALLER },
    { "grape-juice", "1-l", BW, HOT, "half-gallon", 10, SMALLER },
    /* quarts only, 90 minutes */
    { "festive-mincemeat-pie-filling", "half-pint", DIAL, HOT, "quart", 90,
      SMALLER },
    { "festive-mincemeat-pie-filling", "pint", WEIGHTED, HOT, "quart", 90,
      SMALLER },
    /* hot: pints only, 5 minutes; raw: pints 10, quarts 15 */
    { "quick-sweet-pickles", "half-pint", BW, HOT, "pint", 5, SMALLER },
    { "quick-sweet-pickles", "quart", BW, HOT, NULL, 0, LARGER },
    { "quick-sweet-pickles", "quart", BW, RAW, "quart", 15, SMALLER },
    { "quick-sweet-pickles", "quart", BW, POTTLE_ANY_PACK, "quart", 15,
      SMALLER },
    /* the one half-gallon of the guide is fruit juice */
    { "tomato-juice", "half-gallon", BW, HOT, NULL, 0,
      "Penn State Extension: half-gallons for apple and grape juice only" },
};

START_TEST(jar_takes_the_next_larger_tested)
{
    pottle_recipe *recipe = recipe_of(sizes[_i].recipe);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    fill_outputs(out, &count);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_process_find(
        catalogue, recipe, jar_of(sizes[_i].jar), method_of(sizes[_i].canner),
        sizes[_i].pack, 0, out, &count, &error);
    if (sizes[_i].tested == NULL) {
        ck_assert_msg(status == POTTLE_EBOUNDS, "%s in %s is not refused (%s)",
                      sizes[_i].recipe, sizes[_i].jar, sizes[_i].source);
        ck_assert_str_eq(error.code, "jar-larger");
        ck_assert(untouched(out, count));
    } else {
        ck_assert_msg(status == POTTLE_OK, "%s in %s: %s (%s)",
                      sizes[_i].recipe, sizes[_i].jar, error.what,
                      sizes[_i].source);
        ck_assert_uint_eq(count, 1);
        ck_assert_str_eq(out[0].jar->id, sizes[_i].jar);
        ck_assert_msg(
            strcmp(out[0].tested_as->id, sizes[_i].tested) == 0 &&
                out[0].band->minutes == sizes[_i].minutes,
            "%s in %s: as %s, %d min; it should be as %s, %d min (%s)",
            sizes[_i].recipe, sizes[_i].jar, out[0].tested_as->id,
            out[0].band->minutes, sizes[_i].tested, sizes[_i].minutes,
            sizes[_i].source);
    }
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Order of alternatives ------------------------------------------------- */

typedef struct choice {
    canner canner;
    bool raw;
    int minutes, psi;
} choice;

static void
check_order(const char *id, const char *jar, canner c, pottle_pack_style pack,
            double altitude_ft, const choice *wanted, size_t n,
            const char *source)
{
    pottle_recipe *recipe = recipe_of(id);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    ck_assert_int_eq(
        pottle_process_find(catalogue, recipe, jar_of(jar), method_of(c), pack,
                            altitude_ft * foot_m, out, &count, NULL),
        POTTLE_OK);
    ck_assert_msg(count == n, "%s at %g ft: %zu processes, %s has %zu", id,
                  altitude_ft, count, source, n);
    for (size_t i = 0; i < n; i++) {
        const pottle_process *p = &out[i];
        ck_assert_msg((int)p->table->method == (int)wanted[i].canner &&
                          p->table->raw == wanted[i].raw &&
                          p->band->minutes == wanted[i].minutes &&
                          p->band->psi == wanted[i].psi,
                      "%s at %g ft, place %zu: %s %s %d min %d psi; it should "
                      "be %s %s %d min %d psi (%s)",
                      id, altitude_ft, i,
                      pottle_method_name((int)p->table->method),
                      p->table->raw ? "raw" : "hot", p->band->minutes,
                      p->band->psi, pottle_method_name((int)wanted[i].canner),
                      wanted[i].raw ? "raw" : "hot", wanted[i].minutes,
                      wanted[i].psi, source);
    }
    pottle_recipe_free(recipe);
}

/* All pairs that the guide prints; by canner, hot before raw, the shortest
 * first. */
/* National Center for Home Food Preservation, Equipment and methods not
 * recommended (USDA Bulletin 539, 2015): open kettle, ovens, microwave ovens,
 * dishwashers; steam canners have directions of their own. */
START_TEST(no_other_way_of_heating)
{
    static const char *const others[] = { "steam",      "Steam canner",
                                          "oven",       "microwave-oven",
                                          "dishwasher", "open kettle" };
    pottle_method method = POTTLE_DIAL_GAUGE;
    pottle_error error;
    for (size_t i = 0; i < COUNT(others); i++) {
        ck_assert_int_eq(
            pottle_canner_method(catalogue, others[i], &method, &error),
            POTTLE_EBOUNDS);
        ck_assert_str_ne(error.source, "");
        ck_assert_str_ne(error.instead, "");
    }
    ck_assert_int_eq(
        pottle_canner_method(catalogue, "bathtub", &method, &error),
        POTTLE_ENOENT);
    ck_assert_int_eq(pottle_canner_method(catalogue, NULL, &method, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(method, POTTLE_DIAL_GAUGE);
    ck_assert_int_eq(
        pottle_canner_method(catalogue, "boiling-water", &method, &error),
        POTTLE_OK);
    ck_assert_int_eq(method, POTTLE_BOILING_WATER);
}
END_TEST

START_TEST(alternatives_are_in_order)
{
    static const choice low[] = {
        { BW, false, 45, 0 },        { DIAL, false, 15, 11 },
        { DIAL, false, 20, 6 },      { WEIGHTED, false, 10, 15 },
        { WEIGHTED, false, 15, 10 }, { WEIGHTED, false, 20, 5 }
    };
    check_order("tomatoes-crushed", "quart", ANY, POTTLE_ANY_PACK, 500, low,
                COUNT(low), G3 "Tomatoes - crushed");
    /* the 15-psi pair of 10 minutes ends at 1,000 ft */
    static const choice middle[] = { { BW, false, 50, 0 },
                                     { DIAL, false, 15, 11 },
                                     { DIAL, false, 20, 6 },
                                     { WEIGHTED, false, 15, 15 },
                                     { WEIGHTED, false, 20, 10 } };
    check_order("tomatoes-crushed", "quart", ANY, POTTLE_ANY_PACK, 2000, middle,
                COUNT(middle), G3 "Tomatoes - crushed");
    /* dial-gauge tables end at 8,000 ft */
    static const choice high[] = { { BW, false, 50, 0 },
                                   { WEIGHTED, false, 15, 15 },
                                   { WEIGHTED, false, 20, 10 } };
    check_order("tomatoes-crushed", "pint", ANY, POTTLE_ANY_PACK, 9000, high,
                COUNT(high), G3 "Tomatoes - crushed");
    static const choice dial[] = { { DIAL, false, 15, 14 },
                                   { DIAL, false, 20, 9 } };
    check_order("tomatoes-crushed", "half-pint", DIAL, POTTLE_ANY_PACK, 8000,
                dial, COUNT(dial), G3 "Tomatoes - crushed");
    static const choice both[] = {
        { BW, false, 40, 0 },       { BW, true, 40, 0 },
        { DIAL, false, 10, 11 },    { DIAL, false, 15, 6 },
        { DIAL, true, 10, 11 },     { DIAL, true, 15, 6 },
        { WEIGHTED, false, 1, 15 }, { WEIGHTED, false, 10, 10 },
        { WEIGHTED, false, 15, 5 }, { WEIGHTED, true, 1, 15 },
        { WEIGHTED, true, 10, 10 }, { WEIGHTED, true, 15, 5 },
    };
    check_order("tomatoes-in-water", "pint", ANY, POTTLE_ANY_PACK, 500, both,
                COUNT(both), G3 "Tomatoes - whole or halved, packed in water");
    static const choice beans[] = { { DIAL, false, 20, 13 },
                                    { DIAL, true, 20, 13 },
                                    { WEIGHTED, false, 20, 15 },
                                    { WEIGHTED, true, 20, 15 } };
    check_order("beans-snap", "pint", ANY, POTTLE_ANY_PACK, 5000, beans,
                COUNT(beans), G4 "Beans, snap and Italian - pieces");
    /* the pint has a row of its own and never takes the quart's */
    static const choice cherries[] = { { BW, false, 15, 0 },
                                       { BW, true, 25, 0 } };
    check_order("cherries-whole", "pint", BW, POTTLE_ANY_PACK, 0, cherries,
                COUNT(cherries), G2 "Cherries - whole");
}
END_TEST

/* -- Refusals -------------------------------------------------------------- */

static const struct {
    const char *recipe, *jar;
    canner canner;
    pottle_pack_style pack;
    double altitude_ft;
    const char *code, *source,
        *instead; /* key of the rule's source; a word of the way out */
} refusals[] = {
    { "chile-salsa", "quart", ANY, POTTLE_ANY_PACK, 0, "jar-larger", "nchfp",
      "jar size" },
    { "corn-cream-style", "quart", WEIGHTED, HOT, 0, "jar-larger", "nchfp",
      "jar size" },
    { "quick-sweet-pickles", "quart", BW, HOT, 0, "jar-larger", "nchfp",
      "jar size" },
    { "tomato-juice", "half-gallon", ANY, POTTLE_ANY_PACK, 0, "jar-larger",
      "penn-state-ext", "quarts" },
    { "peaches", "half-gallon", BW, HOT, 0, "jar-larger", "penn-state-ext",
      "quarts" },
    { "beans-snap", "pint", BW, POTTLE_ANY_PACK, 0, "no-process-method",
      "nchfp", "pressure canner" },
    { "beans-snap", "quarter-pint", BW, RAW, 0, "no-process-method", "nchfp",
      "pressure canner" },
    { "chicken-rabbit-boneless", "pint", BW, HOT, 0, "no-process-method",
      "nchfp", "pressure canner" },
    { "mexican-tomato-sauce", "pint", BW, HOT, 0, "no-process-method", "nchfp",
      "pressure canner" },
    { "strawberry-jam-powdered-pectin", "half-pint", DIAL, POTTLE_ANY_PACK, 0,
      "no-process-method", "pottle-practice", "canner" },
    { "grape-juice", "quart", WEIGHTED, POTTLE_ANY_PACK, 0, "no-process-method",
      "pottle-practice", "canner" },
    { "tomatoes-crushed", "pint", ANY, RAW, 0, "no-process-pack",
      "pottle-practice", "pack" },
    { "beets", "pint", DIAL, RAW, 0, "no-process-pack", "pottle-practice",
      "pack" },
    { "tomatoes-no-liquid", "quart", BW, HOT, 0, "no-process-pack",
      "pottle-practice", "pack" },
    { "marinated-peppers", "pint", BW, HOT, 0, "no-process-pack",
      "pottle-practice", "pack" },
    { "beans-snap", "pint", DIAL, HOT, 8000.1, "altitude-above",
      "usda-aib539-g1", "freeze" },
    { "beans-snap", "pint", DIAL, POTTLE_ANY_PACK, 8001, "altitude-above",
      "usda-aib539-g1", "freeze" },
    { "tomatoes-crushed", "quart", DIAL, HOT, 8001, "altitude-above",
      "usda-aib539-g1", "freeze" },
    { "apples-sliced", "quart", DIAL, HOT, 20000, "altitude-above",
      "usda-aib539-g1", "freeze" },
    { "pickled-horseradish-sauce", "half-pint", ANY, POTTLE_ANY_PACK, 0,
      "not-canned", "pottle-practice", "refrigerator" },
    { "berry-freezer-jam-powdered-pectin", "half-pint", BW, HOT, 0,
      "not-canned", "pottle-practice", "freezer" },
};

START_TEST(refused_with_rule_and_way_out)
{
    pottle_recipe *recipe = recipe_of(refusals[_i].recipe);
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    fill_outputs(out, &count);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_process_find(
        catalogue, recipe, jar_of(refusals[_i].jar),
        method_of(refusals[_i].canner), refusals[_i].pack,
        refusals[_i].altitude_ft * foot_m, out, &count, &error);
    ck_assert_msg(status == POTTLE_EBOUNDS, "%s %s is not refused",
                  refusals[_i].recipe, refusals[_i].jar);
    ck_assert_int_eq(error.status, POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, refusals[_i].code);
    ck_assert_msg(strstr(error.what, refusals[_i].recipe) != NULL,
                  "the recipe is not named: %s", error.what);
    ck_assert_str_eq(error.source, refusals[_i].source);
    ck_assert_msg(error.at[0] != '\0', "%s: no place in the source",
                  error.what);
    ck_assert_msg(strstr(error.instead, refusals[_i].instead) != NULL,
                  "%s: instead '%s', not a word of %s", error.what,
                  error.instead, refusals[_i].instead);
    ck_assert(untouched(out, count));
    /* without a place for the detail it is refused as well */
    ck_assert_int_eq(pottle_process_find(
                         catalogue, recipe, jar_of(refusals[_i].jar),
                         method_of(refusals[_i].canner), refusals[_i].pack,
                         refusals[_i].altitude_ft * foot_m, out, &count, NULL),
                     POTTLE_EBOUNDS);
    ck_assert(untouched(out, count));
    pottle_recipe_free(recipe);
}
END_TEST

/* A recipe made for a test, whole but for what is asked. */
static pottle_recipe *
recipe_made(const char *status, const char *processes)
{
    static const char path[] = "test_process_made.xml";
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fprintf(file,
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<recipe id=\"test-sauce\" kind=\"salsa\" status=\"%s\" "
            "source=\"pottle-practice\" at=\"test\" standing=\"practice\">\n"
            "  <title>test sauce</title>\n"
            "  <batch largest=\"1\" rule=\"one-batch-a-pot\"/>\n"
            "  <ingredients><ingredient food=\"tomato\" amount=\"5\" "
            "unit=\"lb\" state=\"purchased\" role=\"produce\" keep=\"exact\" "
            "rule=\"pickle-03\"/></ingredients>\n"
            "  <cook end=\"simmer\" minutes=\"10\"/>\n"
            "  <pack style=\"hot\" headspace=\"1/2\">%s</pack>\n"
            "  <steps><step do=\"boil\">Boil.</step></steps>\n"
            "</recipe>\n",
            status, processes);
    ck_assert_int_eq(fclose(file), 0);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status read =
        pottle_recipe_read_file(catalogue, path, &recipe, &error);
    ck_assert_msg(read == POTTLE_OK, "%s:%ld: %s", error.where, error.line,
                  error.what);
    remove(path);
    return recipe;
}

/* The order of the file decides nothing: the quart stands first, and is the
 * quicker one by a slip of whoever wrote it; a pint has its row and takes no
 * other, and a half-pint takes the pint's. */
START_TEST(nearest_size_wherever_it_stands)
{
    static const char *const orders[] = {
        "<process method=\"boiling-water\" jars=\"quart\"><band from=\"0\" "
        "minutes=\"15\"/></process>"
        "<process method=\"boiling-water\" jars=\"pint\"><band from=\"0\" "
        "minutes=\"35\"/></process>",
        "<process method=\"boiling-water\" jars=\"pint\"><band from=\"0\" "
        "minutes=\"35\"/></process>"
        "<process method=\"boiling-water\" jars=\"quart\"><band from=\"0\" "
        "minutes=\"15\"/></process>",
    };
    static const struct {
        const char *jar, *tested;
        int minutes;
    } sizes_made[] = {
        { "half-pint", "pint", 35 },
        { "pint", "pint", 35 },
        { "500-ml", "quart", 15 },
        { "quart", "quart", 15 },
    };
    for (size_t i = 0; i < COUNT(orders); i++) {
        pottle_recipe *recipe = recipe_made("tested", orders[i]);
        for (size_t k = 0; k < COUNT(sizes_made); k++) {
            pottle_process out[POTTLE_PROCESS_MAX];
            size_t count = 0;
            ck_assert_int_eq(pottle_process_find(
                                 catalogue, recipe, jar_of(sizes_made[k].jar),
                                 NULL, POTTLE_ANY_PACK, 0, out, &count, NULL),
                             POTTLE_OK);
            ck_assert_msg(count == 1 &&
                              out[0].band->minutes == sizes_made[k].minutes,
                          "order %zu, %s: %zu processes, %d min", i,
                          sizes_made[k].jar, count, out[0].band->minutes);
            ck_assert_str_eq(out[0].tested_as->id, sizes_made[k].tested);
        }
        pottle_recipe_free(recipe);
    }
}
END_TEST

START_TEST(only_tested_recipes_have_a_process)
{
    static const struct {
        const char *status, *code, *source, *instead;
    } kinds[] = {
        { "draft", "draft", "pottle-practice", "tested" },
        { "own", "own-recipe", "nchfp", "tested" },
    };
    static const char pints[] =
        "<process method=\"boiling-water\" jars=\"pint\"><band from=\"0\" "
        "minutes=\"15\"/></process>";
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    for (size_t i = 0; i < COUNT(kinds); i++) {
        pottle_recipe *recipe = recipe_made(kinds[i].status, pints);
        pottle_error error = { .status = POTTLE_OK };
        fill_outputs(out, &count);
        ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar_of("pint"),
                                             method_of(BW), HOT, 0, out, &count,
                                             &error),
                         POTTLE_EBOUNDS);
        ck_assert_str_eq(error.code, kinds[i].code);
        ck_assert_str_eq(error.source, kinds[i].source);
        ck_assert_msg(strstr(error.what, "test-sauce") != NULL, "%s",
                      error.what);
        ck_assert_msg(strstr(error.instead, kinds[i].instead) != NULL, "%s",
                      error.instead);
        ck_assert(untouched(out, count));
        pottle_recipe_free(recipe);
    }
    /* the same file with status "tested" has one: it is the status that refuses
     */
    pottle_recipe *recipe = recipe_made("tested", pints);
    ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar_of("pint"),
                                         method_of(BW), HOT, 0, out, &count,
                                         NULL),
                     POTTLE_OK);
    ck_assert_int_eq(out[0].band->minutes, 15);
    pottle_recipe_free(recipe);
}
END_TEST

static const double bad_altitudes[] = {
    (double)NAN,      -1e-9, -1, -430, 10000.001, 1e300, (double)INFINITY,
    -(double)INFINITY
};

START_TEST(altitude_out_of_range)
{
    pottle_recipe *recipe = recipe_of("chile-salsa");
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    fill_outputs(out, &count);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_process_find(
        catalogue, recipe, jar_of("pint"), NULL, POTTLE_ANY_PACK,
        bad_altitudes[_i], out, &count, &error);
    ck_assert_msg(status == POTTLE_EDOMAIN, "%g m gives status %d",
                  bad_altitudes[_i], (int)status);
    ck_assert_str_eq(error.code, "altitude");
    ck_assert(untouched(out, count));
    pottle_recipe_free(recipe);
}
END_TEST

START_TEST(misuse_is_told)
{
    pottle_recipe *recipe = recipe_of("chile-salsa");
    const pottle_jar *jar = jar_of("pint");
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    fill_outputs(out, &count);
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_process_find(NULL, recipe, jar, NULL,
                                         POTTLE_ANY_PACK, 0, out, &count,
                                         &error),
                     POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "misuse");
    ck_assert_int_eq(pottle_process_find(catalogue, NULL, jar, NULL,
                                         POTTLE_ANY_PACK, 0, out, &count, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_process_find(catalogue, recipe, NULL, NULL,
                                         POTTLE_ANY_PACK, 0, out, &count, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar, NULL,
                                         POTTLE_ANY_PACK, 0, NULL, &count,
                                         NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_process_find(catalogue, recipe, jar, NULL,
                                         POTTLE_ANY_PACK, 0, out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert(untouched(out, count));
    pottle_recipe_free(recipe);
}
END_TEST

/* -- Properties over the catalogue ----------------------------------------- */

static size_t recipes_seen, processes_seen;

/* What is returned is printed: a band of a table of the recipe, and the
 * altitude lies in it. */
static void
check_printed(const pottle_recipe *recipe, const pottle_process *p,
              double altitude_ft)
{
    size_t tables = 0;
    const pottle_process_table *table =
        pottle_recipe_processes(recipe, &tables);
    ck_assert(p->table >= table && p->table < table + tables);
    ck_assert(p->band >= p->table->band &&
              p->band < p->table->band + p->table->bands);
    ck_assert_msg(p->band->to_ft < 0 || altitude_ft <= (double)p->band->to_ft,
                  "%s: band to %d ft at %g ft", pottle_recipe_id(recipe),
                  p->band->to_ft, altitude_ft);
    ck_assert_msg(p->band == p->table->band ||
                      altitude_ft > (double)p->band[-1].to_ft,
                  "%s: band from %d ft at %g ft", pottle_recipe_id(recipe),
                  p->band->from_ft, altitude_ft);
    ck_assert(p->tested_as->nominal_ml >= p->jar->nominal_ml);
    bool listed = false;
    for (size_t i = 0; i < p->table->jars; i++)
        listed = listed || strcmp(p->table->jar[i], p->tested_as->id) == 0;
    ck_assert_msg(listed, "%s: %s is not tested", pottle_recipe_id(recipe),
                  p->tested_as->id);
    ck_assert((p->band->psi > 0) == (p->table->method != POTTLE_BOILING_WATER));
    ck_assert(fabs(p->headspace.mm - p->table->headspace_in * inch_mm) < 1e-9);
}

/* Shortest minutes for one canner and pack, or -1 when refused. */
static int
shortest(const pottle_recipe *recipe, const pottle_jar *jar, canner c,
         pottle_pack_style pack, double altitude_ft)
{
    pottle_process out[POTTLE_PROCESS_MAX];
    size_t count = 0;
    const pottle_status status =
        pottle_process_find(catalogue, recipe, jar, method_of(c), pack,
                            altitude_ft * foot_m, out, &count, NULL);
    if (status != POTTLE_OK) {
        ck_assert_int_eq(status, POTTLE_EBOUNDS);
        return -1;
    }
    ck_assert(count >= 1 && count <= POTTLE_PROCESS_MAX);
    for (size_t i = 0; i < count; i++) {
        check_printed(recipe, &out[i], altitude_ft);
        ck_assert(i == 0 || out[i].band->minutes >= out[i - 1].band->minutes);
    }
    processes_seen += count;
    return out[0].band->minutes;
}

static pottle_status
check_recipe(void *context, const pottle_recipe *recipe,
             const pottle_error *error)
{
    (void)context;
    (void)error; /* a file that cannot be used is for test_data.c to find */
    if (recipe == NULL)
        return POTTLE_OK;
    recipes_seen++;
    static const double altitudes[] = { 0,    999,  1000, 1000.5, 1500, 2000,
                                        2500, 3000, 3500, 4000,   5000, 6000,
                                        6500, 8000, 8500, 12000 };
    size_t jars = 0;
    const pottle_jar *jar = pottle_jars(catalogue, &jars);
    for (canner c = BW; c <= WEIGHTED; c++)
        for (int raw = 0; raw < 2; raw++) {
            const pottle_pack_style pack = raw ? RAW : HOT;
            for (size_t a = 0; a < COUNT(altitudes); a++) {
                int smaller = 0;
                for (size_t k = 0; k < jars; k++) {
                    const int minutes =
                        shortest(recipe, &jar[k], c, pack, altitudes[a]);
                    /* once a size is too large every larger one is, and none is
                     * quicker than a smaller one */
                    ck_assert_msg(smaller >= 0 || minutes < 0,
                                  "%s: %s is refused, the larger %s is not",
                                  pottle_recipe_id(recipe), jar[k - 1].id,
                                  jar[k].id);
                    ck_assert_msg(minutes < 0 || minutes >= smaller,
                                  "%s: %s takes %d min, the smaller jar %d",
                                  pottle_recipe_id(recipe), jar[k].id, minutes,
                                  smaller);
                    smaller = minutes;
                    /* nor is a higher place */
                    const int lower = a > 0 ? shortest(recipe, &jar[k], c, pack,
                                                       altitudes[a - 1])
                                            : 0;
                    ck_assert_msg(lower >= 0 || minutes < 0,
                                  "%s: refused lower down, not at %g ft",
                                  pottle_recipe_id(recipe), altitudes[a]);
                    ck_assert_msg(minutes < 0 || minutes >= lower,
                                  "%s: %d min at %g ft, %d lower down",
                                  pottle_recipe_id(recipe), minutes,
                                  altitudes[a], lower);
                }
            }
        }
    return POTTLE_OK;
}

START_TEST(nothing_is_returned_that_is_not_printed)
{
    recipes_seen = processes_seen = 0;
    ck_assert_int_eq(pottle_recipes_each(catalogue, check_recipe, NULL, NULL),
                     POTTLE_OK);
    ck_assert_msg(recipes_seen >= 83, "only %zu recipes",
                  recipes_seen); /* those of the reference alone */
    ck_assert_msg(processes_seen > 10000, "only %zu processes", processes_seen);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("process");
    TCase *t = tcase_create("published");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, row_is_found_as_printed, 0, COUNT(published));
    tcase_add_loop_test(t, edge_of_a_band_is_as_printed, 0, COUNT(edges));
    tcase_add_test(t, edge_typed_in_feet_stays);
    tcase_add_loop_test(t, jar_takes_the_next_larger_tested, 0, COUNT(sizes));
    tcase_add_test(t, alternatives_are_in_order);
    tcase_add_test(t, nearest_size_wherever_it_stands);
    suite_add_tcase(suite, t);

    t = tcase_create("refusals");
    tcase_add_test(t, no_other_way_of_heating);
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, refused_with_rule_and_way_out, 0, COUNT(refusals));
    tcase_add_test(t, only_tested_recipes_have_a_process);
    tcase_add_loop_test(t, altitude_out_of_range, 0, COUNT(bad_altitudes));
    tcase_add_test(t, misuse_is_told);
    suite_add_tcase(suite, t);

    t = tcase_create("properties");
    tcase_set_timeout(t, 120);
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_test(t, nothing_is_returned_that_is_not_printed);
    suite_add_tcase(suite, t);

    suite_add_tcase(suite, process_made());
    return suite_run(suite);
}
