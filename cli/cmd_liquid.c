/* cmd_liquid.c - pottle liquid: syrups, brines, the acid of the jars, juice for
 * jelly, vinegar. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "class", "NAME", "syrup: very-light, light, medium, heavy, very-heavy" },
    { "brix", "B", "syrup: true percent of sugar by weight" },
    { "percent", "P", "brine: salt in percent of the whole, by weight" },
    { "fill", "'N JAR'",
      "so many jars: '14 pint'; may be repeated for mixed jars" },
    { "volume", "V", "so much of the liquid: '3 l', '2 qt'" },
    { "water", "V", "brine: so much water, whatever it makes" },
    { "have", "'AMOUNT FOOD'",
      "brine of a recipe: what one ingredient shall be; may be repeated" },
    { "fruit", "MASS", "juice: from so much prepared fruit" },
    { "juice", "V", "juice: how much fruit for so much" },
    { "strength", "P", "vinegar: percent acid of what you have" },
    { "to", "P", "vinegar: percent acid that is asked for; 5 when not given" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "recipes", "FOLDER", "a folder of your own recipes, searched first" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

enum {
    PARTS = POTTLE_WITH_NAMES | POTTLE_WITH_FIGURES | POTTLE_WITH_JARS |
            POTTLE_WITH_RULES | POTTLE_WITH_SOURCES | POTTLE_WITH_SYRUPS
};

/* -- Reading --------------------------------------------------------------- */

/* One number of an option; *given tells whether it was typed. */
static int
read_number(const liquid_asked *k, const char *name, double *out, bool *given)
{
    const char *text = args_value(k->a, name);
    pottle_range range;
    *given = text != NULL;
    if (text == NULL)
        return DONE;
    if (pottle_number_read(text, &range) != POTTLE_OK || range.high > range.low)
        return usage_error(k->self, "'%.40s' of --%s is not one number", text,
                           name);
    *out = range.low;
    return DONE;
}

static int
read_amount(liquid_asked *k, const char *name, pottle_dimension dimension,
            double *out, bool *given)
{
    const char *text = args_value(k->a, name);
    pottle_quantity q;
    pottle_error error;
    *given = text != NULL;
    if (text == NULL)
        return DONE;
    if (pottle_quantity_read(text, (int)dimension, &q, &error) != POTTLE_OK)
        return report(k->catalogue, &error);
    kitchen_quantity(&k->house, text, &q);
    if (q.high > q.low ||
        pottle_unit_convert(
            q.low, q.unit,
            pottle_unit_find(dimension == POTTLE_MASS ? "g" : "ml"), out,
            &error) != POTTLE_OK)
        return usage_error(k->self, "'%.40s' of --%s is not one amount", text,
                           name);
    return DONE;
}

/* "14 pint", "3 500-ml", "6 tall honey jar": a number and a size, listed or of
 * one's own. The longest number that leaves a size is taken: "3 1/2 pint" is
 * 3 1/2 pints. */
static bool
read_fill(liquid_asked *k, const char *text)
{
    char number[40];
    pottle_jar_number *out = &k->jar[k->jars];
    for (size_t n = strspn(text, "0123456789./ "); n > 0; n--) {
        pottle_range range;
        if (n >= sizeof number)
            continue;
        memcpy(number, text, n);
        number[n] = '\0';
        if (pottle_number_read(number, &range) != POTTLE_OK ||
            !(range.low > 0) || range.high > range.low)
            continue;
        const pottle_own_jar *own =
            pottle_own_jar_find(&k->house.kitchen, text + n);
        if ((own != NULL
                 ? pottle_own_jar_size(k->catalogue, own, &out->jar, NULL)
                 : pottle_jar_find(k->catalogue, text + n, &out->jar, NULL)) ==
            POTTLE_OK) {
            out->count = range.low;
            k->own[k->jars] = own;
            return true;
        }
    }
    return false;
}

static int
read_fills(liquid_asked *k)
{
    const char *text;
    for (; (text = args_nth(k->a, "fill", k->jars)) != NULL; k->jars++) {
        if (k->jars == POTTLE_JAR_NUMBERS_MAX)
            return usage_error(k->self, "at most %d sizes of jar",
                               (int)POTTLE_JAR_NUMBERS_MAX);
        if (!read_fill(k, text))
            return usage_error(
                k->self,
                "'%.40s' is not a number and a size of jar, such as '14 pint'",
                text);
    }
    return DONE;
}

static int
fail(const liquid_asked *k, const pottle_error *error)
{
    return report(k->catalogue, error);
}

/* -- Syrup ----------------------------------------------------------------- */

static int
run_syrup(liquid_asked *k)
{
    const char *name = args_value(k->a, "class");
    double brix = 0;
    pottle_volume volume = { 0 };
    bool by_brix, by_volume;
    const pottle_syrup *syrup = NULL;
    pottle_syrup_mix mix;
    pottle_estimate need;
    pottle_error error;
    int result = read_number(k, "brix", &brix, &by_brix);
    if (result == DONE)
        result =
            read_amount(k, "volume", POTTLE_VOLUME, &volume.ml, &by_volume);
    if (result != DONE)
        return result;
    if ((name != NULL) == by_brix)
        return usage_error(k->self, "a syrup takes one of --class and --brix");
    if ((k->jars > 0) == by_volume)
        return usage_error(k->self, "a syrup takes one of --fill and --volume");
    if (name != NULL &&
        pottle_syrup_find(k->catalogue, name, &syrup, &error) != POTTLE_OK)
        return fail(k, &error);
    if (k->jars > 0) {
        if (pottle_syrup_need(k->catalogue, k->jar, k->jars, &need, &error) !=
            POTTLE_OK)
            return fail(k, &error);
        volume.ml = need.median;
    }
    const pottle_status status =
        syrup == NULL
            ? pottle_syrup_of_brix(k->catalogue, brix, volume, &mix, &error)
        : k->jars > 0
            ? pottle_syrup_for_jars(k->catalogue, syrup, k->jar, k->jars, &mix,
                                    &error)
            : pottle_syrup_of_class(k->catalogue, syrup, volume, &mix, &error);
    return status != POTTLE_OK
             ? fail(k, &error)
             : liquid_print_syrup(k, &mix, k->jars > 0 ? &need : NULL);
}

/* -- Brine ----------------------------------------------------------------- */

/* The foods of the recipe decide what an ambiguous name means. */
static int
run_recipe_brine(liquid_asked *k, const char *id)
{
    enum { PREFERRED = 64 };
    pottle_phrase phrase[ARGS_MAX];
    const char *preferred[PREFERRED];
    pottle_recipe *recipe = NULL;
    pottle_brine_request request = { .version = POTTLE_BRINE_REQUEST_VERSION,
                                     .amount = phrase };
    pottle_brine_plan plan;
    pottle_error error;
    bool by_volume;
    int result =
        read_amount(k, "volume", POTTLE_VOLUME, &request.volume_ml, &by_volume);
    if (result != DONE)
        return result;
    if (pottle_recipe_read(k->catalogue, id, &recipe, &error) != POTTLE_OK)
        return fail(k, &error);
    size_t n = 0, foods = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &n);
    for (size_t i = 0; i < n && foods < PREFERRED; i++)
        preferred[foods++] = in[i].food;
    const char *text;
    for (; result == DONE &&
           (text = args_nth(k->a, "have", request.amounts)) != NULL;
         request.amounts++)
        if (pottle_phrase_read(k->catalogue, text, preferred, foods,
                               &phrase[request.amounts], &error) != POTTLE_OK)
            result = fail(k, &error);
        else
            kitchen_phrase(&k->house, text, &phrase[request.amounts]);
    if (result == DONE)
        result = pottle_brine_of_recipe(k->catalogue, recipe, &request, &plan,
                                        &error) != POTTLE_OK
                   ? fail(k, &error)
                   : liquid_print_recipe_brine(k, recipe, &plan);
    pottle_recipe_free(recipe);
    return result;
}

static int
run_brine(liquid_asked *k)
{
    double percent = 0;
    pottle_volume made = { 0 }, water = { 0 };
    bool by_percent, by_volume, by_water;
    pottle_brine_mix mix;
    pottle_error error;
    int result = read_number(k, "percent", &percent, &by_percent);
    if (result == DONE)
        result = read_amount(k, "volume", POTTLE_VOLUME, &made.ml, &by_volume);
    if (result == DONE)
        result = read_amount(k, "water", POTTLE_VOLUME, &water.ml, &by_water);
    if (result != DONE)
        return result;
    if (k->a->operands == 2) {
        if (by_percent || by_water)
            return usage_error(
                k->self,
                "a recipe has its own strength: give --volume or --have");
        return run_recipe_brine(k, k->a->operand[1]);
    }
    if (!by_percent || by_volume == by_water)
        return usage_error(k->self, "a brine takes --percent and one of "
                                    "--volume and --water, or a recipe");
    if (pottle_brine_of_percent(k->catalogue, percent, by_water ? water : made,
                                by_water, &mix, &error) != POTTLE_OK)
        return fail(k, &error);
    return liquid_print_brine(k, &mix);
}

/* -- Acid, juice, vinegar -------------------------------------------------- */

static int
run_acid(liquid_asked *k)
{
    pottle_recipe *recipe = NULL;
    pottle_acid_total total[POTTLE_ACID_TOTALS_MAX];
    size_t totals = 0;
    pottle_error error;
    if (k->a->operands != 2 || k->jars == 0)
        return usage_error(k->self, "acid takes a recipe and --fill");
    const bool done =
        pottle_recipe_read(k->catalogue, k->a->operand[1], &recipe, &error) ==
            POTTLE_OK &&
        pottle_acid_for_jars(k->catalogue, recipe, k->jar, k->jars, total,
                             &totals, &error) == POTTLE_OK;
    const int result =
        done ? liquid_print_acid(k, recipe, total, totals) : fail(k, &error);
    pottle_recipe_free(recipe);
    return result;
}

static int
run_juice(liquid_asked *k)
{
    double fruit_g = 0, juice_ml = 0;
    bool fruit, wanted;
    pottle_juice j;
    pottle_error error;
    int result = read_amount(k, "fruit", POTTLE_MASS, &fruit_g, &fruit);
    if (result == DONE)
        result = read_amount(k, "juice", POTTLE_VOLUME, &juice_ml, &wanted);
    if (result != DONE)
        return result;
    if (fruit == wanted)
        return usage_error(k->self, "juice takes one of --fruit and --juice");
    if (pottle_juice_of(k->catalogue, fruit_g, juice_ml, &j, &error) !=
        POTTLE_OK)
        return fail(k, &error);
    return liquid_print_juice(k, &j);
}

static int
run_vinegar(liquid_asked *k)
{
    double has = 0, wants = 5;
    bool given, wanted;
    pottle_error error;
    int result = read_number(k, "strength", &has, &given);
    if (result == DONE)
        result = read_number(k, "to", &wants, &wanted);
    if (result != DONE)
        return result;
    if (!given)
        return usage_error(k->self, "vinegar takes --strength");
    if (pottle_vinegar_check(k->catalogue, has, wants, &error) != POTTLE_OK)
        return fail(k, &error);
    return liquid_print_vinegar(k, has);
}

/* -- The command ----------------------------------------------------------- */

static int
run(const command *self, const args *a, bool json)
{
    static const struct {
        const char *name;
        int (*run)(liquid_asked *);
        size_t operands;
    } kinds[] = {
        { "syrup", run_syrup, 1 },     { "brine", run_brine, 2 },
        { "acid", run_acid, 2 },       { "juice", run_juice, 1 },
        { "vinegar", run_vinegar, 1 },
    };
    liquid_asked k = { .self = self, .a = a, .json = json };
    size_t i = 0;
    while (i < sizeof kinds / sizeof kinds[0] &&
           (a->operands == 0 || strcmp(a->operand[0], kinds[i].name) != 0))
        i++;
    if (i == sizeof kinds / sizeof kinds[0])
        return usage_error(
            self, "liquid takes one of syrup, brine, acid, juice, vinegar");
    if (a->operands > kinds[i].operands)
        return usage_error(self, "too many operands");
    int result = open_catalogue(a, PARTS, &k.catalogue);
    if (result != DONE)
        return result;
    result = kitchen_open(a, k.catalogue, false, &k.house);
    if (result == DONE)
        result = read_fills(&k);
    if (result == DONE)
        result = kinds[i].run(&k);
    pottle_catalogue_free(k.catalogue);
    return result;
}

const command liquid_command = {
    "liquid", run,
    "syrup --class NAME | --brix B (--fill 'N JAR')... | --volume V\n"
    "brine --percent P --volume V | --water V\n"
    "brine RECIPE --volume V | (--have 'AMOUNT FOOD')...\n"
    "acid RECIPE (--fill 'N JAR')...\n"
    "juice --fruit MASS | --juice V\n"
    "vinegar --strength P [--to P]",
    "syrup, brine, acid for the jars, juice for jelly", options
};
