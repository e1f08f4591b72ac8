/* stove.h - what a pot holds and how it boils down: shared between mix.c,
 * cook_values.c, cook.c, yield.c, stove.c, the chain and their tests.
 *
 * A batch is a mixture of a few classes of stuff. Only water leaves it by
 * itself; everything else leaves it with a share of the mixture (what sticks to
 * the pot, liquid that is left over). So every balance closes by construction.
 */
#ifndef POTTLE_KITCHEN_STOVE_H
#define POTTLE_KITCHEN_STOVE_H

#include "kitchen/plan.h"

enum {
    POTTLEI_WATER = 0,
    POTTLEI_SOLUBLE = 1,
    POTTLEI_FIBRE = 2,
    POTTLEI_ASH = 3,
    POTTLEI_PROTEIN = 4,
    POTTLEI_FAT = 5,
    POTTLEI_ACID = 6,
    POTTLEI_CLASSES = 7
};

typedef struct pottlei_mix {
    double g[POTTLEI_CLASSES];
} pottlei_mix;

double pottlei_mix_mass(const pottlei_mix *mix);
double pottlei_mix_solids(const pottlei_mix *mix);

/* Volume of one gram of sucrose solution of that share of solids (mL). */
double pottlei_solution_volume(double share);

/* Volume of a mixture at 20 deg C: water and soluble carbohydrate as a sucrose
 * solution, all else beside it.
 *
 * Source:    pottle_sugar_density; densities of the other classes at 20 deg C:
 *            Y. Choi and M. R. Okos, "Effects of temperature
 *            and composition on the thermal properties of foods", 1986, as
 *            printed in a refrigeration handbook of 2006 (read in
 *            copies): protein 1329.9 - 0.51840 t, fat 925.59 - 0.41757
 *            t, fibre 1311.5 - 0.36589 t, ash
 *            2423.8 - 0.28063 t (kg/m3, t in deg C). Acid: 1.17 makes a cup of
 *            vinegar of 5.22 % weigh its published 238 g.
 *            Beyond 84 % the specific volume goes straight to that of solid
 *            sugar, 1.587 g/mL
 * Checked:   tests/test_balance.c */
double pottlei_mix_volume(const pottlei_mix *mix);

/* Water that a mixture holds when its volume is `ml`; all its water when it is
 * not larger than that. */
double pottlei_mix_water_at(const pottlei_mix *mix, double ml);

/* Classes of one gram of a food. False: its composition is not known. */
bool pottlei_food_classes(const pottle_food *food,
                          double share[POTTLEI_CLASSES]);

/* cook_values.c: the parameters of the balance; each a figure of figures.xml
 * with its spread.
 */
typedef struct pottlei_cook_values {
    pottle_estimate gel, preserves,
        butter;             /* share of solids when it is done */
    pottle_estimate pectin; /* share of the water lost in a 1-minute boil */
    pottle_estimate reduce; /* share of the volume left by "half" */
    pottle_estimate simmer; /* g/min from 4 kg */
    pottle_estimate slices,
        chopped;                /* share of the vegetables that drains away */
    pottle_estimate firm, limp; /* share of the jar that pieces fill */
    double cut, pot_loss, pot_loss_sd;
    double cup; /* spread of a measured volume */
} pottlei_cook_values;
void pottlei_cook_values_read(const pottle_catalogue *catalogue,
                              pottlei_cook_values *out);

/* Whether it is fruit in syrup rather than jam. */
bool pottlei_cook_in_syrup(const pottle_recipe *recipe);

/* The parameter that decides a recipe's end, or NULL where nothing is boiled
 * away. */
const pottle_estimate *pottlei_cook_end_value(const pottlei_cook_values *values,
                                              const pottle_recipe *recipe);

/* What goes into the pot, whole, and the pieces in it, with the spreads of
 * their logarithms and what ties mass to solids. */
typedef struct pottlei_input {
    pottlei_mix all, pieces;
    double mass_sd, solids_sd, pieces_sd;
    double solids_by_mass; /* solids that come with each further gram:
                              covariance over variance of the mass */
    bool drained;          /* what drains away is out already */
} pottlei_input;

/* cook.c: adds up the parts.
 *
 * Given:     scale   how much of the published batch the parts are, for the
 *                    measured juice
 * Status:    POTTLE_OK; POTTLE_ENOENT when a composition is not known or
 *            nothing stays in the pot */
pottle_status pottlei_cook_add_up(const pottlei_cook_values *values,
                                  const pottle_recipe *recipe,
                                  const pottlei_part *parts, size_t count,
                                  double scale, pottlei_input *out,
                                  pottle_error *error);

/* The balance of what was added up. Status as pottlei_cook_add_up. */
pottle_status pottlei_cook_run(const pottlei_cook_values *values,
                               const pottle_recipe *recipe,
                               const pottlei_input *input, pottle_balance *out,
                               pottle_error *error);

/* Spread that is left when the kind's parameters are known as well as they are,
 * from figures.xml. */
double pottlei_cook_kind_spread(const pottle_catalogue *catalogue,
                                const pottle_recipe *recipe);

/* Parts of one pot of a plan, ready to use. out has room for
 * POTTLEI_LINES_MAX.
 */
pottle_status pottlei_cook_parts(const pottle_catalogue *catalogue,
                                 const pottle_plan *plan, size_t pot,
                                 pottlei_part *out, pottle_error *error);

/* What a printed jar is taken to hold: what it is filled with, at most its
 * nominal size. The printed yields of half-pints are counted as 8 fl oz of
 * product although they are filled higher (docs/YIELDS.md). */
pottle_status pottlei_printed_fill(const pottle_catalogue *catalogue,
                                   const pottle_jar *jar,
                                   pottle_length headspace,
                                   pottle_estimate *out, pottle_error *error);

#endif
