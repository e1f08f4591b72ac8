/* mix.c - what a batch consists of, and the volume that it fills. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/stove.h"

double
pottlei_mix_mass(const pottlei_mix *mix)
{
    double sum = 0;
    for (size_t i = 0; i < POTTLEI_CLASSES; i++)
        sum += mix->g[i];
    return sum;
}

double
pottlei_mix_solids(const pottlei_mix *mix)
{
    double sum = 0;
    for (size_t i = POTTLEI_WATER + 1; i < POTTLEI_CLASSES; i++)
        sum += mix->g[i];
    return sum;
}

double
pottlei_solution_volume(double share)
{
    static const double table_end = 0.84, solid_sugar = 1.587; /* g/mL */
    pottle_density d = { 1.0 };
    if (share <= table_end)
        return pottle_sugar_density(100.0 * fmax(0, share), &d) == POTTLE_OK
                 ? 1.0 / d.g_ml
                 : 1.0;
    const double end = pottle_sugar_density(100.0 * table_end, &d) == POTTLE_OK
                         ? 1.0 / d.g_ml
                         : 1.0;
    return end +
           (share - table_end) / (1.0 - table_end) * (1.0 / solid_sugar - end);
}

double
pottlei_mix_volume(const pottlei_mix *mix)
{
    /* g/mL at 20 deg C, by class; the first two are the solution */
    static const double density[POTTLEI_CLASSES] = { 1,
                                                     1,
                                                     1.3115 - 0.36589e-3 * 20,
                                                     2.4238 - 0.28063e-3 * 20,
                                                     1.3299 - 0.51840e-3 * 20,
                                                     0.92559 - 0.41757e-3 * 20,
                                                     1.17 };
    const double solution = mix->g[POTTLEI_WATER] + mix->g[POTTLEI_SOLUBLE];
    double ml = solution > 0
                  ? solution * pottlei_solution_volume(mix->g[POTTLEI_SOLUBLE] /
                                                       solution)
                  : 0;
    for (size_t i = POTTLEI_FIBRE; i < POTTLEI_CLASSES; i++)
        ml += mix->g[i] / density[i];
    return ml;
}

/* The volume rises with every gram of water (tests/test_balance.c), and 60
 * halvings are below the spacing of doubles. */
double
pottlei_mix_water_at(const pottlei_mix *mix, double ml)
{
    pottlei_mix m = *mix;
    double low = 0, high = mix->g[POTTLEI_WATER];
    if (!(pottlei_mix_volume(mix) > ml))
        return high;
    for (int i = 0; i < 60; i++) {
        m.g[POTTLEI_WATER] = 0.5 * (low + high);
        if (pottlei_mix_volume(&m) < ml)
            low = m.g[POTTLEI_WATER];
        else
            high = m.g[POTTLEI_WATER];
    }
    return 0.5 * (low + high);
}

/* What is not given by a food stands for the group's usual; nothing is assumed
 * for produce. Carbohydrate less fibre dissolves and is counted as sugar
 * (starch is near); what neither water, carbohydrate nor ash accounts for is
 * protein and fat: fat where it is most of the solids (oil, nuts, suet), acid
 * in vinegar. */
bool
pottlei_food_classes(const pottle_food *food, double share[POTTLEI_CLASSES])
{
    static const struct {
        const char *group;
        size_t class_;
        double solids;
    } usual[] = {
        { "salt", POTTLEI_ASH, 1 },          { "sugar", POTTLEI_SOLUBLE, 1 },
        { "thickener", POTTLEI_SOLUBLE, 1 }, { "spice", POTTLEI_FIBRE, 1 },
        { "pectin", POTTLEI_SOLUBLE, 1 },    { "water", POTTLEI_SOLUBLE, 0 },
        { "vinegar", POTTLEI_ACID, 0.05 },
    };
    const pottle_composition *c = pottle_food_composition(food);
    const char *group = pottle_food_group(food);
    for (size_t i = 0; i < POTTLEI_CLASSES; i++)
        share[i] = 0;
    if (!c->known) {
        for (size_t i = 0; i < sizeof usual / sizeof usual[0]; i++)
            if (strcmp(group, usual[i].group) == 0) {
                share[POTTLEI_WATER] = 1 - usual[i].solids;
                share[usual[i].class_] = usual[i].solids;
                return true;
            }
        return false;
    }
    const double solids = fmin(1, fmax(0, 1 - c->water / 100)),
                 ash = fmin(solids, fmax(0, c->ash / 100));
    const double starchy = c->carbohydrate >= 0
                             ? fmin(solids - ash, c->carbohydrate / 100)
                             : solids - ash;
    const double fibre = fmin(starchy, fmax(0, c->fibre / 100)),
                 rest = solids - ash - starchy;
    share[POTTLEI_WATER] = 1 - solids;
    share[POTTLEI_SOLUBLE] = starchy - fibre;
    share[POTTLEI_FIBRE] = fibre;
    share[POTTLEI_ASH] = ash;
    share[strcmp(group, "vinegar") == 0 ? POTTLEI_ACID
          : rest > 0.5 * solids         ? POTTLEI_FAT
                                        : POTTLEI_PROTEIN] = rest;
    return true;
}
