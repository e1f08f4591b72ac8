/* cook_values.c - the parameters of the balance: how each kind of cooking ends.
 *
 * Each stands in figures.xml with its spread and origin; none is a recipe's
 * own. */
#include <config.h>

#include <string.h>

#include "kitchen/stove.h"

static pottle_estimate
value_of(const pottle_catalogue *catalogue, const char *id, double value,
         double spread)
{
    const pottle_figure *f = pottle_figure_find(catalogue, id);
    return f != NULL ? (pottle_estimate){ 0.5 * (f->value + f->to), f->spread }
                     : (pottle_estimate){ value, spread };
}

void
pottlei_cook_values_read(const pottle_catalogue *catalogue,
                         pottlei_cook_values *out)
{
    *out = (pottlei_cook_values){
        .gel = value_of(catalogue, "cook-gel-solids", 0.62, 0.06),
        .preserves = value_of(catalogue, "cook-preserves-solids", 0.50, 0.15),
        .butter = value_of(catalogue, "cook-butter-solids", 0.42, 0.12),
        .pectin = value_of(catalogue, "cook-pectin-loss", 0.05, 0.6),
        .reduce = value_of(catalogue, "cook-reduce", 0.5, 0.15),
        .simmer = value_of(catalogue, "cook-simmer-rate", 17, 0.4),
        .slices = value_of(catalogue, "cook-drained-loss", 0.15, 0.45),
        .chopped = value_of(catalogue, "cook-drained-loss-chopped", 0.40, 0.45),
        .firm = value_of(catalogue, "cook-tissue-firm", 0.57, 0.1),
        .limp = value_of(catalogue, "cook-tissue-limp", 0.75, 0.1),
        .cut = pottlei_figure(catalogue, "cook-cut-factor", 1.1),
        .pot_loss = value_of(catalogue, "cook-pot-loss", 0.03, 0.5).median,
        .pot_loss_sd = value_of(catalogue, "cook-pot-loss", 0.03, 0.5).sd,
        .cup = pottlei_figure(catalogue, "error-cup", 0.03),
    };
}

/* Whole or cut fruit that is cooked in a syrup made with water keeps its shape
 * and more water than the syrup around it; fruit layered with sugar gives off
 * its juice and boils to the gel point. */
bool
pottlei_cook_in_syrup(const pottle_recipe *recipe)
{
    size_t n = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0;
         i < n && strcmp(pottle_recipe_kind(recipe), "preserves") == 0; i++)
        if (strcmp(in[i].food, "water") == 0 && in[i].stays)
            return true;
    return false;
}

const pottle_estimate *
pottlei_cook_end_value(const pottlei_cook_values *values,
                       const pottle_recipe *recipe)
{
    const pottle_cook *cook = pottle_recipe_cook(recipe);
    switch (cook->end) {
    case POTTLE_END_GEL_POINT:
        return pottlei_cook_in_syrup(recipe) ? &values->preserves
                                             : &values->gel;
    case POTTLE_END_BUTTER: return &values->butter;
    case POTTLE_END_ADDED_PECTIN: return &values->pectin;
    case POTTLE_END_REDUCE: return &values->reduce;
    case POTTLE_END_SIMMER: return &values->simmer;
    case POTTLE_END_PACKED: return cook->limp ? &values->limp : &values->firm;
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return NULL;
}

const pottle_figure *
pottle_cook_end_figure(const pottle_catalogue *catalogue,
                       const pottle_recipe *recipe)
{
    const pottle_cook *cook = pottle_recipe_cook(recipe);
    const char *id = "";
    switch (cook->end) {
    case POTTLE_END_GEL_POINT:
        id = pottlei_cook_in_syrup(recipe) ? "cook-preserves-solids"
                                           : "cook-gel-solids";
        break;
    case POTTLE_END_BUTTER: id = "cook-butter-solids"; break;
    case POTTLE_END_ADDED_PECTIN: id = "cook-pectin-loss"; break;
    case POTTLE_END_REDUCE: id = "cook-reduce"; break;
    case POTTLE_END_SIMMER: id = "cook-simmer-rate"; break;
    case POTTLE_END_PACKED:
        id = cook->limp ? "cook-tissue-limp" : "cook-tissue-firm";
        break;
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return pottle_figure_find(catalogue, id);
}

/* By kind, as found against published yields (docs/YIELDS.md). */
double
pottlei_cook_kind_spread(const pottle_catalogue *catalogue,
                         const pottle_recipe *recipe)
{
    switch (pottle_recipe_cook(recipe)->end) {
    case POTTLE_END_GEL_POINT:
        return pottlei_figure(catalogue, "spread-kind-gel", 0.20);
    case POTTLE_END_ADDED_PECTIN:
        return pottlei_figure(catalogue, "spread-kind-added-pectin", 0.15);
    case POTTLE_END_REDUCE:
    case POTTLE_END_BUTTER:
        return pottlei_figure(catalogue, "spread-kind-cooked-down", 0.23);
    case POTTLE_END_SIMMER:
        return pottlei_figure(catalogue, "spread-kind-simmered", 0.20);
    case POTTLE_END_PACKED:
        return pottlei_figure(catalogue, "spread-kind-packed", 0.15);
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return pottlei_figure(catalogue, "spread-kind-pie", 0.16);
}
