/* process_rows.c - test_process: the published rows, and the edges of their
 * bands. */
#include <config.h>

#include <math.h>

#include "process_cases.h"

/* -- Published rows -------------------------------------------------------- */

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
    { "chile-salsa", BW, 4500, 25, 0, G3 "Chile salsa, above 6,000 ft" },
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

TCase *
process_rows(void)
{
    TCase *t = tcase_create("published");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, row_is_found_as_printed, 0, COUNT(published));
    tcase_add_loop_test(t, edge_of_a_band_is_as_printed, 0, COUNT(edges));
    tcase_add_test(t, edge_typed_in_feet_stays);
    return t;
}
