/* remake.c - what goes to a soft jam or jelly that is cooked again. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/solution.h"

static const double rounding = 1e-9; /* 6 cups said in pints are 6 cups */

static pottle_status
refuse_lot(const pottle_catalogue *catalogue, const pottle_remaking *r,
           double ml, pottle_error *error)
{
    const double cup = pottle_unit_find("cup")->factor;
    const double lots = ceil(ml / r->usual_ml * (1 - rounding));
    char instead[200], each[40], whole[40], most[40];
    pottle_number_write(ml / lots / cup, 2, each, sizeof each);
    pottle_number_write(ml / cup, 2, whole, sizeof whole);
    pottle_number_write(r->most_ml / cup, 2, most, sizeof most);
    snprintf(instead, sizeof instead,
             "remake it in %.0f lots of %s cups, one after the other", lots,
             each);
    return pottlei_refuse(
        catalogue, error, "remake-lot", r->rule, instead,
        "%s cups are more than the %s that are cooked again at one time", whole,
        most);
}

pottle_status
pottle_remake_lot(const pottle_catalogue *catalogue, const char *pectin,
                  pottle_volume volume, pottle_remake *out, pottle_error *error)
{
    if (catalogue == NULL || pectin == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, pectin or place for the result");
    const pottle_remaking *r = pottle_remaking_of(catalogue);
    if (r == NULL)
        return pottlei_fail(error, POTTLE_ENOENT, "no-remaking",
                            "how spreads are remade was not read");
    pottle_status status = pottlei_volume_check(volume, error);
    if (status != POTTLE_OK)
        return status;
    pottle_remake remake = { .remaking = r, .volume_ml = volume.ml };
    for (size_t i = 0; i < r->ways && remake.way == NULL; i++)
        remake.way = strcmp(r->way[i].pectin, pectin) == 0 ? &r->way[i] : NULL;
    if (remake.way == NULL)
        return pottlei_fail(error, POTTLE_ENOENT, "unknown-pectin",
                            "'%.40s' is not a pectin to remake with; there are "
                            "powdered, liquid and none",
                            pectin);
    if (volume.ml > r->most_ml * (1 + rounding))
        return refuse_lot(catalogue, r, volume.ml, error);
    remake.over_usual = volume.ml > r->usual_ml * (1 + rounding);
    for (size_t i = 0; i < remake.way->adds && i < POTTLE_REMAKE_LINES_MAX;
         i++) {
        const pottle_remake_add *add = &remake.way->add[i];
        pottle_remake_line *l = &remake.line[remake.lines++];
        l->add = add;
        l->volume_ml =
            add->amount * add->unit->factor * volume.ml / remake.way->per_ml;
        pottle_estimate density = { 0, 0 };
        pottle_error wrong;
        status = pottlei_food_density(catalogue, add->food, add->form, &density,
                                      l->title, sizeof l->title, &wrong);
        /* powdered pectin is measured by the spoon, and nobody says what a
         * spoon weighs */
        if (status != POTTLE_OK && status != POTTLE_ENOENT) {
            if (error != NULL)
                *error = wrong;
            return status;
        }
        l->mass_g = status == POTTLE_OK ? l->volume_ml * density.median : 0;
        l->has_measure =
            pottle_measure_round(l->volume_ml, POTTLE_VOLUME, add->keep,
                                 &l->measure) == POTTLE_OK;
    }
    *out = remake;
    return POTTLE_OK;
}
