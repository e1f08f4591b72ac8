/* solution.c - syrups, brines by strength, vinegar, and juice for jelly.
 *
 * A syrup is sugar and water by mass: what its source calls 30 percent holds
 * 27, because the labels go by cups. So a class is made by the published cups,
 * a strength by mass balance, and each answer says which of the two it is. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/solution.h"

enum { JARS_MOST = 1000000 };
static const double room_degC = 20;
static const double brix_most = 64; /* stays dissolved at 0 deg C */

/* -- Shared ---------------------------------------------------------------- */

pottle_status
pottlei_food_density(const pottle_catalogue *catalogue, const char *id,
                     const char *form, pottle_estimate *out, char *title,
                     size_t size, pottle_error *error)
{
    pottle_food *food = NULL;
    pottle_status status = pottle_food_read(catalogue, id, &food, error);
    if (status == POTTLE_ENOENT) /* named by the library or by a file of the
                                    catalogue, not by the person */
        return pottlei_fail(error, POTTLE_EDATA, "missing-food",
                            "the catalogue has no food '%s'", id);
    if (status != POTTLE_OK)
        return status;
    status = pottle_form_density(catalogue, food, form, out, NULL, error);
    if (title != NULL)
        pottlei_copy(title, size, pottle_food_title(food));
    pottle_food_free(food);
    return status;
}

double
pottlei_brine_density(double percent)
{
    /* Poradnik fizykochemiczny, WNT, Warszawa 1974, sodium chloride at 20 deg C
     * (kg/m^3). The copy prints 1012.2 at 2 percent beside 20.250 g of salt a
     * litre, which makes 1012.5, and that is what a second table has. The first
     * line is water, by Tanaka et al. 2001, as in pottle_water_density. */
    static const struct {
        double percent, kg_m3;
    } line[] = {
        { 0, 998.2 },   { 1, 1005.3 },  { 2, 1012.5 },  { 4, 1026.8 },
        { 6, 1041.3 },  { 8, 1055.9 },  { 10, 1070.7 }, { 12, 1085.7 },
        { 14, 1100.9 }, { 16, 1116.2 }, { 18, 1131.9 }, { 20, 1147.8 },
        { 22, 1164.0 }, { 24, 1180.4 }, { 26, 1197.2 },
    };
    size_t i = 1;
    while (i + 1 < sizeof line / sizeof line[0] && percent > line[i].percent)
        i++;
    const double t = (percent - line[i - 1].percent) /
                     (line[i].percent - line[i - 1].percent);
    return 1e-3 * (line[i - 1].kg_m3 + t * (line[i].kg_m3 - line[i - 1].kg_m3));
}

pottle_status
pottlei_jar_numbers_check(const pottle_jar_number *jars, size_t count,
                          pottle_error *error)
{
    if (jars == NULL || count == 0 || count > POTTLE_JAR_NUMBERS_MAX)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "one to %d sizes of jar are needed",
                            (int)POTTLE_JAR_NUMBERS_MAX);
    for (size_t i = 0; i < count; i++) {
        if (jars[i].jar == NULL)
            return pottlei_fail(error, POTTLE_EMISUSE, "misuse", "no jar");
        if (!(jars[i].count > 0 && jars[i].count <= JARS_MOST))
            return pottlei_fail(error, POTTLE_EDOMAIN, "jars",
                                "a number of jars lies above 0 and up to %d",
                                (int)JARS_MOST);
    }
    return POTTLE_OK;
}

pottle_status
pottlei_tested_only(const pottle_catalogue *catalogue,
                    const pottle_recipe *recipe, pottle_error *error)
{
    switch (pottle_recipe_standing(recipe)) {
    case POTTLE_TESTED: break;
    case POTTLE_DRAFT:
        return pottlei_refuse(catalogue, error, "draft", "draft-recipe", NULL,
                              "%s is a draft: its source is incomplete",
                              pottle_recipe_id(recipe));
    case POTTLE_OWN:
        return pottlei_refuse(catalogue, error, "own-recipe", "own-recipe",
                              NULL,
                              "%s is a recipe of your own: it was never tested",
                              pottle_recipe_id(recipe));
    }
    return POTTLE_OK;
}

pottle_status
pottlei_volume_check(pottle_volume volume, pottle_error *error)
{
    if (volume.ml > 0 && volume.ml <= POTTLE_NUMBER_MAX)
        return POTTLE_OK;
    return pottlei_fail(error, POTTLE_EDOMAIN, "volume",
                        "a volume lies above 0 and up to 1,000,000,000 mL");
}

/* -- Syrups ---------------------------------------------------------------- */

/* Densities that every syrup needs. */
typedef struct materials {
    double water, sugar;
} materials;

static pottle_status
read_materials(const pottle_catalogue *catalogue, materials *out,
               pottle_error *error)
{
    pottle_density water = { 0 };
    pottle_estimate sugar = { 0, 0 };
    pottle_status status = pottle_water_density(room_degC, &water);
    if (status == POTTLE_OK)
        status = pottlei_food_density(catalogue, "sugar", "ground", &sugar,
                                      NULL, 0, error);
    *out = (materials){ water.g_ml, sugar.median };
    return status;
}

/* Volume of a solution of both masses at 20 deg C. */
static double
solution_ml(double water_g, double sugar_g)
{
    pottle_density d = { 1 };
    /* the caller keeps to 84 percent, the end of the table */
    if (pottle_sugar_density(100 * sugar_g / (water_g + sugar_g), &d) !=
        POTTLE_OK)
        d.g_ml = HUGE_VAL;
    return (water_g + sugar_g) / d.g_ml;
}

static pottle_status
finish_syrup(const materials *m, pottle_syrup_mix *mix, pottle_error *error)
{
    mix->water_g = mix->water_ml * m->water;
    mix->sugar_g = mix->sugar_ml * m->sugar;
    mix->brix = 100 * mix->sugar_g / (mix->water_g + mix->sugar_g);
    mix->volume_ml = solution_ml(mix->water_g, mix->sugar_g);
    if (!(mix->volume_ml > 0))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "strength",
            "so much sugar does not dissolve in so little water");
    mix->has_water =
        pottle_measure_round(mix->water_ml, POTTLE_VOLUME, POTTLE_FREE,
                             &mix->water) == POTTLE_OK;
    mix->has_sugar =
        pottle_measure_round(mix->sugar_ml, POTTLE_VOLUME, POTTLE_FREE,
                             &mix->sugar) == POTTLE_OK;
    return POTTLE_OK;
}

pottle_status
pottle_syrup_find(const pottle_catalogue *catalogue, const char *name,
                  const pottle_syrup **out, pottle_error *error)
{
    if (catalogue == NULL || name == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, name or place for the result");
    char folded[64], known[64], list[200] = "";
    pottlei_fold(name, folded, sizeof folded);
    size_t n = 0;
    const pottle_syrup *syrup = pottle_syrups(catalogue, &n);
    for (size_t i = 0; i < n; i++) {
        pottlei_fold(syrup[i].id, known, sizeof known);
        const char *alone =
            strncmp(known, "syrup ", 6) == 0 ? known + 6 : known;
        if (strcmp(folded, known) == 0 || strcmp(folded, alone) == 0) {
            *out = &syrup[i];
            return POTTLE_OK;
        }
        pottlei_fold(syrup[i].title, known, sizeof known);
        if (strcmp(folded, known) == 0) {
            *out = &syrup[i];
            return POTTLE_OK;
        }
        pottlei_list_add(list, sizeof list,
                         strncmp(syrup[i].id, "syrup-", 6) == 0
                             ? syrup[i].id + 6
                             : syrup[i].id);
    }
    return pottlei_fail(error, POTTLE_ENOENT, "unknown-syrup",
                        "'%.60s' is not a class of syrup; there are %s", name,
                        list);
}

/* The load of a size, or of the nearest size; `share` is what a jar takes of
 * the load. */
static const struct pottle_syrup_load *
load_for(const pottle_catalogue *catalogue, const pottle_syrup *syrup,
         const pottle_jar *jar, double *share, bool *derived)
{
    const struct pottle_syrup_load *best = NULL;
    double nearest = HUGE_VAL;
    for (size_t i = 0; i < syrup->loads; i++) {
        const pottle_jar *listed = NULL;
        if (pottle_jar_find(catalogue, syrup->load[i].jar, &listed, NULL) !=
            POTTLE_OK)
            continue;
        const double ratio = jar->nominal_ml / listed->nominal_ml,
                     far = fabs(log(ratio));
        if (far < nearest) {
            nearest = far;
            best = &syrup->load[i];
            *share = ratio / best->jars;
        }
    }
    *derived = *derived || (best != NULL && strcmp(best->jar, jar->id) != 0);
    return best;
}

static pottle_status
add_loads(const pottle_catalogue *catalogue, const pottle_syrup *syrup,
          const pottle_jar_number *jars, size_t count, pottle_syrup_mix *mix,
          pottle_error *error)
{
    for (size_t i = 0; i < count; i++) {
        double share = 0;
        const struct pottle_syrup_load *load =
            load_for(catalogue, syrup, jars[i].jar, &share, &mix->derived);
        if (load == NULL)
            return pottlei_fail(error, POTTLE_EDATA, "no-load",
                                "%s has no published load of a known jar",
                                syrup->id);
        mix->water_ml += jars[i].count * share * load->water_ml;
        mix->sugar_ml += jars[i].count * share * load->sugar_ml;
    }
    return POTTLE_OK;
}

pottle_status
pottle_syrup_for_jars(const pottle_catalogue *catalogue,
                      const pottle_syrup *syrup, const pottle_jar_number *jars,
                      size_t count, pottle_syrup_mix *out, pottle_error *error)
{
    if (catalogue == NULL || syrup == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, syrup or place for the result");
    pottle_syrup_mix mix = { .syrup = syrup, .nominal = syrup->percent };
    materials m;
    pottle_status status = pottlei_jar_numbers_check(jars, count, error);
    for (size_t i = 0; i < count && status == POTTLE_OK; i++)
        if (strcmp(jars[i].jar->id, "half-gallon") == 0)
            status = pottlei_refuse(
                catalogue, error, "jar-larger", "jar-half-gallon", NULL,
                "no fruit in syrup is tested in %s jars", jars[i].jar->id);
    if (status == POTTLE_OK)
        status = read_materials(catalogue, &m, error);
    if (status == POTTLE_OK)
        status = add_loads(catalogue, syrup, jars, count, &mix, error);
    if (status == POTTLE_OK)
        status = finish_syrup(&m, &mix, error);
    if (status == POTTLE_OK)
        *out = mix;
    return status;
}

pottle_status
pottle_syrup_of_class(const pottle_catalogue *catalogue,
                      const pottle_syrup *syrup, pottle_volume volume,
                      pottle_syrup_mix *out, pottle_error *error)
{
    if (catalogue == NULL || syrup == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, syrup or place for the result");
    pottle_syrup_mix mix = { .syrup = syrup, .nominal = syrup->percent };
    materials m;
    pottle_status status = pottlei_volume_check(volume, error);
    if (status == POTTLE_OK)
        status = read_materials(catalogue, &m, error);
    for (size_t i = 0; i < syrup->loads; i++) {
        mix.water_ml += syrup->load[i].water_ml;
        mix.sugar_ml += syrup->load[i].sugar_ml;
    }
    if (status == POTTLE_OK)
        status = finish_syrup(&m, &mix, error);
    if (status != POTTLE_OK)
        return status;
    const double k = volume.ml / mix.volume_ml;
    mix.water_ml *= k;
    mix.sugar_ml *= k;
    status = finish_syrup(&m, &mix, error);
    if (status == POTTLE_OK)
        *out = mix;
    return status;
}

pottle_status
pottle_syrup_of_brix(const pottle_catalogue *catalogue, double brix,
                     pottle_volume volume, pottle_syrup_mix *out,
                     pottle_error *error)
{
    if (catalogue == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue or place for the result");
    if (!(brix > 0 && brix <= brix_most))
        return pottlei_fail(error, POTTLE_EDOMAIN, "strength",
                            "a syrup has above 0 and up to %g percent of sugar "
                            "by mass; more does not stay dissolved in the cold",
                            brix_most);
    materials m;
    pottle_density density = { 0 };
    pottle_status status = pottlei_volume_check(volume, error);
    if (status == POTTLE_OK)
        status = read_materials(catalogue, &m, error);
    if (status == POTTLE_OK)
        status = pottle_sugar_density(brix, &density);
    if (status != POTTLE_OK)
        return status;
    const double mass_g = volume.ml * density.g_ml;
    pottle_syrup_mix mix = { .water_ml = mass_g * (1 - brix / 100) / m.water,
                             .sugar_ml = mass_g * brix / 100 / m.sugar };
    status = finish_syrup(&m, &mix, error);
    if (status == POTTLE_OK)
        *out = mix;
    return status;
}

pottle_status
pottle_syrup_need(const pottle_catalogue *catalogue,
                  const pottle_jar_number *jars, size_t count,
                  pottle_estimate *out_ml, pottle_error *error)
{
    if (catalogue == NULL || out_ml == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue or place for the result");
    size_t n = 0;
    const pottle_syrup *syrup = pottle_syrups(catalogue, &n);
    double low = HUGE_VAL, high = 0;
    pottle_status status = n > 0 ? POTTLE_OK
                                 : pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                                                "the syrups were not read");
    for (size_t i = 0; i < n && status == POTTLE_OK; i++) {
        pottle_syrup_mix mix = { 0 };
        status = pottle_syrup_for_jars(catalogue, &syrup[i], jars, count, &mix,
                                       error);
        if (status == POTTLE_OK) {
            low = fmin(low, mix.volume_ml);
            high = fmax(high, mix.volume_ml);
        }
    }
    return status != POTTLE_OK ? status
                               : pottle_estimate_between(low, high, out_ml);
}

/* -- Brine ----------------------------------------------------------------- */

pottle_status
pottle_brine_of_percent(const pottle_catalogue *catalogue, double percent,
                        pottle_volume volume, bool of_water,
                        pottle_brine_mix *out, pottle_error *error)
{
    if (catalogue == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue or place for the result");
    if (!(percent > 0 && percent <= POTTLEI_BRINE_MOST))
        return pottlei_fail(error, POTTLE_EDOMAIN, "strength",
                            "a brine has above 0 and up to %g percent of salt "
                            "by mass; water does not hold more than 26.4",
                            POTTLEI_BRINE_MOST);
    pottle_density water = { 0 };
    pottle_estimate salt = { 0, 0 };
    pottle_status status = pottlei_volume_check(volume, error);
    if (status == POTTLE_OK)
        status = pottle_water_density(room_degC, &water);
    if (status == POTTLE_OK)
        status = pottlei_food_density(catalogue, "canning-salt", "ground",
                                      &salt, NULL, 0, error);
    if (status != POTTLE_OK)
        return status;
    const double density = pottlei_brine_density(percent), part = percent / 100;
    const double mass_g =
        of_water ? volume.ml * water.g_ml / (1 - part) : volume.ml * density;
    pottle_brine_mix mix = { .percent = percent,
                             .salt_g = mass_g * part,
                             .water_g = mass_g * (1 - part),
                             .volume_ml = mass_g / density };
    mix.water_ml = mix.water_g / water.g_ml;
    mix.salt_ml =
        pottle_estimate_over((pottle_estimate){ mix.salt_g, 0 }, salt);
    mix.has_water = pottle_measure_round(mix.water_ml, POTTLE_VOLUME,
                                         POTTLE_FREE, &mix.water) == POTTLE_OK;
    *out = mix;
    return POTTLE_OK;
}

/* -- Vinegar --------------------------------------------------------------- */

pottle_status
pottle_vinegar_check(const pottle_catalogue *catalogue, double has,
                     double wants, pottle_error *error)
{
    if (catalogue == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse", "no catalogue");
    if (!(has > 0 && has <= 100 && wants > 0 && wants <= 100))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "strength",
            "the strength of a vinegar lies above 0 and up to 100 percent");
    const double least = pottlei_figure(catalogue, "vinegar-strength", 5);
    if (has < least || wants < least)
        return pottlei_refuse(catalogue, error, "vinegar-strength",
                              "vinegar-5-percent", NULL,
                              "vinegar of %g percent is weaker than %g percent",
                              fmin(has, wants), least);
    if (has > wants)
        return pottlei_refuse(
            catalogue, error, "vinegar-dilution", "vinegar-dilution", NULL,
            "%g percent vinegar is not made into %g percent with water", has,
            wants);
    if (has < wants)
        return pottlei_refuse(
            catalogue, error, "vinegar-strength", "pickle-02", NULL,
            "vinegar of %g percent does not do where %g percent is asked for",
            has, wants);
    return POTTLE_OK;
}

/* -- Juice ----------------------------------------------------------------- */

pottle_status
pottle_juice_of(const pottle_catalogue *catalogue, double fruit_g,
                double juice_ml, pottle_juice *out, pottle_error *error)
{
    /* 0 is what was not asked; NaN and negative numbers were, and are wrong */
    const bool fruit = !(fruit_g >= 0 && fruit_g <= 0),
               juice = !(juice_ml >= 0 && juice_ml <= 0);
    if (catalogue == NULL || out == NULL || fruit == juice)
        return pottlei_fail(
            error, POTTLE_EMISUSE, fruit == juice ? "how-much" : "misuse",
            "give either an amount of fruit or an amount of juice");
    const double given = fruit ? fruit_g : juice_ml;
    if (!(given > 0 && given <= POTTLE_NUMBER_MAX))
        return pottlei_fail(error, POTTLE_EDOMAIN, "amount",
                            "an amount lies above 0 and up to 1,000,000,000");
    const pottle_figure *share = pottle_figure_find(catalogue, "juice-yield"),
                        *density =
                            pottle_figure_find(catalogue, "juice-density"),
                        *least = pottle_figure_find(catalogue, "juice-least");
    pottle_estimate yield, g_ml;
    if (share == NULL || density == NULL || least == NULL ||
        pottle_estimate_between(share->value, share->to, &yield) != POTTLE_OK ||
        pottle_estimate_between(density->value, density->to, &g_ml) !=
            POTTLE_OK)
        return pottlei_fail(error, POTTLE_ENOENT, "no-figures",
                            "the figures of the yield of juice were not read");
    /* as printed: so many cups from each pound */
    const double ml_g = least->value * pottle_unit_find("cup")->factor /
                        pottle_unit_find("lb")->factor;
    const pottle_estimate ml_of_g = pottle_estimate_over(yield, g_ml);
    pottle_juice j = { { 0, 0 }, { 0, 0 }, 0, 0, 0 };
    if (fruit) {
        j.fruit_g = (pottle_estimate){ fruit_g, 0 };
        j.juice_ml = pottle_estimate_multiple(ml_of_g, fruit_g);
        j.least_ml = fruit_g * ml_g;
    } else {
        j.juice_ml = (pottle_estimate){ juice_ml, 0 };
        j.fruit_g = pottle_estimate_over(j.juice_ml, ml_of_g);
        j.guide_g = juice_ml / ml_g;
        const pottle_status status =
            pottle_estimate_quantile(j.fruit_g, 0.9, &j.sure_g);
        if (status != POTTLE_OK)
            return pottlei_fail(error, status, "amount",
                                "the amount is out of range");
    }
    *out = j;
    return POTTLE_OK;
}
