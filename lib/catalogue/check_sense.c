/* check_sense.c - what a file may say, but hardly means: warnings.
 *
 * Nothing here decides about a recipe. The limits are wide, so that what is
 * told is worth a look. */
#include <config.h>

#include <string.h>

#include "check.h"

/* -- Mass ------------------------------------------------------------------ */

/* Volume of a gram of what is dissolved, taken as sugar for all solids: 100 g
 * of a 60 % solution are 100/1.2864 mL, of which 40/0.9982 are water; the rest
 * by 60 g.
 * Source: CRC Handbook of Chemistry and Physics, aqueous sucrose, 20 deg C (the rows lib/matter/sugar.c prints) */
static const double solids_ml_g = 0.628, water_ml_g = 1 / 0.9982;
/* A yield is not doubted for less: figures are rounded to half a jar, and cups
 * of cut pieces are heaped. */
static const double doubt = 0.9;

/* The largest density that a source gives: the check asks what could be in the
 * jars at most. */
static double
heaviest(const pottle_form *form)
{
    double most = 0;
    for (size_t i = 0; i < form->weights; i++) {
        const double g_ml = form->weight[i].grams / form->weight[i].volume_ml;
        most = g_ml > most ? g_ml : most;
    }
    return most;
}

/* What is kept from a state to ready; all where no trim is known. */
static double
kept(const pottle_food *food, pottle_state state, const char *id)
{
    size_t n = 0;
    const pottle_trim *trim = pottle_food_trims(food, &n);
    for (size_t i = 0; state != POTTLE_PREPARED && i < n; i++)
        if (trim[i].from == state &&
            (id[0] == '\0' || strcmp(trim[i].id, id) == 0))
            return trim[i].keeps;
    return 1;
}

/* Mass of an amount (g), ready to use; false when a figure is missing. */
static bool
ready_mass(const pottle_food *food, const pottle_ingredient *i, double *g)
{
    pottle_state state = i->state;
    switch (i->unit->dimension) {
    case POTTLE_MASS: *g = i->amount_to * i->unit->factor; break;
    case POTTLE_VOLUME: {
        const pottle_form *form = pottle_food_form(food, i->form);
        if (form == NULL)
            return false;
        *g = i->amount_to * i->unit->factor * heaviest(form);
        break;
    }
    case POTTLE_COUNT: {
        size_t n = 0, k = 0;
        const pottle_piece *piece = pottle_food_pieces(food, &n);
        while (k < n && strcmp(piece[k].size, i->size) != 0)
            k++;
        if (k == n)
            return false;
        *g = i->amount_to * piece[k].grams;
        state = piece[k].state;
        break;
    }
    case POTTLE_NUMBER:
    case POTTLE_LENGTH:
    case POTTLE_PRESSURE:
    case POTTLE_TEMPERATURE:
    case POTTLE_CONTAINER: return false;
    }
    *g *= kept(food, state, i->trim);
    return true;
}

/* Volume of a mass (mL) without the air between its pieces. What has no
 * composition and is no produce is dry, or watery. */
static bool
volume_of(const pottle_food *food, double g, double *ml)
{
    static const char *const dry[] = { "salt", "sugar", "thickener", "spice",
                                       "pectin" };
    const pottle_composition *c = pottle_food_composition(food);
    const char *group = pottle_food_group(food);
    double water = c->water / 100;
    if (!c->known) {
        bool found =
            strcmp(group, "water") == 0 || strcmp(group, "vinegar") == 0;
        water = found ? 1 : 0;
        for (size_t i = 0; i < sizeof dry / sizeof dry[0]; i++)
            found = found || strcmp(group, dry[i]) == 0;
        if (!found)
            return false;
    }
    *ml = g * (water * water_ml_g + (1 - water) * solids_ml_g);
    return true;
}

/* How often a rate applies: 12 for 1/2 cup to each quart of 12 quarts. */
static bool
times(pottlei_check *check, const pottle_recipe *recipe,
      const pottle_ingredient *rate, double *out)
{
    for (size_t i = 0; i < recipe->ingredient_count; i++) {
        const pottle_ingredient *base = &recipe->ingredient[i];
        const pottle_food *food = pottlei_check_food(check, base->food);
        double g = 0;
        if (base == rate || food == NULL ||
            strcmp(base->food, rate->per_food) != 0)
            continue;
        if (rate->per->dimension == POTTLE_MASS &&
            base->unit->dimension == POTTLE_MASS) {
            *out = base->amount_to * base->unit->factor / rate->per->factor;
            return true;
        }
        const pottle_form *form = pottle_food_form(
            food, rate->per_form[0] != '\0' ? rate->per_form : base->form);
        if (rate->per->dimension != POTTLE_VOLUME || form == NULL ||
            !ready_mass(food, base, &g))
            return false;
        *out = g / heaviest(form) / rate->per->factor;
        return true;
    }
    return false;
}

/* The most that what goes in can fill (mL); false when it cannot be said. */
static bool
most_volume(pottlei_check *check, const pottle_recipe *recipe, double *ml)
{
    *ml = recipe->cook
              .juice_ml; /* which stands for the produce it is pressed from */
    for (size_t k = 0; k < recipe->ingredient_count; k++) {
        const pottle_ingredient *i = &recipe->ingredient[k];
        const pottle_food *food = pottlei_check_food(check, i->food);
        double g = 0, one = 0, rate = 1;
        if (!i->stays || !(i->amount_to > 0) ||
            (recipe->cook.juice_ml > 0 && strcmp(i->role, "produce") == 0))
            continue;
        if (food == NULL || !ready_mass(food, i, &g) ||
            !volume_of(food, g, &one) ||
            (i->per != NULL && !times(check, recipe, i, &rate))) {
            if (i->optional || i->keep == POTTLE_FREE)
                continue; /* a leaf or two */
            return false;
        }
        *ml += one * rate;
    }
    return true;
}

/* Packs are covered with a liquid of which no recipe says how much; all else
 * can fill no more jars than went in. */
static void
check_yield(pottlei_check *check, const pottlei_node *root,
            const pottle_recipe *recipe)
{
    static const char *const covered[] = { "fruit-pack", "vegetable-pack",
                                           "meat-pack" };
    bool packed =
        recipe->cook.end == POTTLE_END_LOAD || recipe->cover_count > 0;
    for (size_t i = 0; i < sizeof covered / sizeof covered[0]; i++)
        packed = packed || strcmp(recipe->kind, covered[i]) == 0;
    double most = 0;
    if (packed || recipe->yield_count == 0 ||
        !most_volume(check, recipe, &most))
        return;
    for (size_t i = 0; i < recipe->yield_count; i++) {
        const pottle_yield *y = &recipe->yield[i];
        const pottle_jar *jar = NULL;
        if (!y->possible ||
            pottle_jar_find(&check->catalogue, y->jar, &jar, NULL) != POTTLE_OK)
            continue;
        const double stated = y->low * jar->nominal_ml;
        if (most < doubt * stated)
            pottlei_check_tell(
                check, true,
                pottlei_check_line(pottlei_check_child(root, "yield", i)),
                "yield-mass", NULL, NULL,
                "%g x %s are %.0f mL, but what goes in fills at most %.0f mL: "
                "%.0f %% less",
                y->low, jar->id, stated, most, 100 * (1 - most / stated));
    }
}

/* -- Acid ------------------------------------------------------------------ */

static bool
is_low_acid(pottlei_check *check, const pottle_ingredient *i)
{
    if (strcmp(i->role, "low-acid") == 0)
        return true;
    const pottle_food *food = strcmp(i->role, "produce") == 0
                                ? pottlei_check_food(check, i->food)
                                : NULL;
    return food != NULL && pottle_food_acid(food)->class_ == POTTLE_LOW_ACID;
}

static void
check_acid(pottlei_check *check, const pottlei_node *root,
           const pottle_recipe *recipe)
{
    const pottlei_node *ingredients =
                           pottlei_check_child(root, "ingredients", 0),
                       *low = NULL;
    const char *food = "";
    bool any_acid = false, kept_acid = false, boiling_water = false;
    for (size_t i = 0; i < recipe->ingredient_count; i++) {
        const pottle_ingredient *in = &recipe->ingredient[i];
        if (strcmp(in->role, "acid") == 0) {
            any_acid = true;
            kept_acid = kept_acid || in->keep == POTTLE_AT_LEAST;
        }
        if (low == NULL && is_low_acid(check, in)) {
            low = pottlei_check_child(ingredients, "ingredient", i);
            food = in->food;
        }
    }
    for (size_t i = 0; i < recipe->per_jar_count; i++) {
        if (strcmp(recipe->per_jar[i].role, "acid") == 0) {
            any_acid = true;
            kept_acid =
                kept_acid || (recipe->per_jar[i].keep == POTTLE_AT_LEAST &&
                              !recipe->per_jar[i].optional);
        }
    }
    for (size_t i = 0; i < recipe->process_count; i++)
        boiling_water =
            boiling_water || recipe->process[i].method == POTTLE_BOILING_WATER;
    if (low == NULL)
        return;
    if (recipe->status == POTTLE_OWN && any_acid)
        pottlei_check_tell(check, true, pottlei_check_line(low),
                           "own-acidified", "own-recipe", NULL,
                           "%s is a low-acid food: no tested source says that "
                           "the acid of this recipe is enough",
                           food);
    if (boiling_water && !kept_acid)
        pottlei_check_tell(check, true, pottlei_check_line(low),
                           "low-acid-boiling-water", "low-acid-boiling-water",
                           NULL,
                           "%s is a low-acid food in a boiling-water process, "
                           "and no acid is kept from being less",
                           food);
}

/* Raw fruit that is taken for cooked makes too many batches. */
static void
check_raw(pottlei_check *check, const pottlei_node *root,
          const pottle_recipe *recipe)
{
    for (size_t i = 0; i < recipe->ingredient_count; i++) {
        const pottle_ingredient *in = &recipe->ingredient[i];
        if (in->raw_unit == NULL && in->unit->dimension == POTTLE_VOLUME &&
            strcmp(in->role, "produce") == 0 && strcmp(in->form, "cooked") == 0)
            pottlei_check_tell(
                check, true,
                pottlei_check_line(pottlei_check_child(
                    pottlei_check_child(root, "ingredients", 0), "ingredient",
                    i)),
                "raw", NULL, NULL,
                "%s is measured cooked, and nothing says how much is bought "
                "for it: what is on hand raw counts as if it lost nothing",
                in->food);
    }
}

void
pottlei_check_recipe_sense(pottlei_check *check, const pottlei_node *root,
                           const pottle_recipe *recipe)
{
    if (recipe->status == POTTLE_OWN)
        pottlei_check_tell(check, true, pottlei_check_line(root), "own-recipe",
                           "own-recipe", NULL,
                           "a recipe of your own: it was never tested, and no "
                           "process is given for it");
    char stem[64];
    pottlei_stem(check->path, stem, sizeof stem);
    if (strcmp(stem, recipe->id) != 0)
        pottlei_check_tell(
            check, true, pottlei_check_line(root), "file-name", NULL, NULL,
            "'%s' is found by its id only in a file that is named after it",
            recipe->id);
    for (size_t i = 0, k = 0; i < recipe->process_count; i++) {
        const pottle_process_table *t = &recipe->process[i];
        if (t->method == POTTLE_BOILING_WATER && t->band[0].minutes < 10 &&
            !t->sterile && k++ == 0)
            pottlei_check_tell(
                check, true,
                pottlei_check_line(pottlei_check_child(root, "pack", 0)),
                "sterile", "jam-12", NULL,
                "a process of %d minutes needs sterilised jars, and the pack "
                "does not say so",
                t->band[0].minutes);
    }
    check_acid(check, root, recipe);
    check_raw(check, root, recipe);
    check_yield(check, root, recipe);
}

/* -- Foods ----------------------------------------------------------------- */

/* Two sources that are further apart than this probably mean two things: packed
 * and loose, raw and cooked. */
static const double apart = 1.5;

void
pottlei_check_food_sense(pottlei_check *check, const pottlei_node *root,
                         const pottle_food *food)
{
    if (check->catalogue.named_count > 0 &&
        pottle_food_name(&check->catalogue, food->id, 0) == NULL)
        pottlei_check_tell(
            check, true, pottlei_check_line(root), "unnamed", NULL, NULL,
            "'%s' has no name in names.xml, so nobody finds it", food->id);
    for (size_t f = 0; f < food->form_count; f++) {
        const pottle_form *form = &food->form[f];
        const pottlei_node *node = pottlei_check_child(root, "form", f);
        bool told = false;
        for (size_t i = 0; i < form->weights && !told; i++) {
            for (size_t k = 0; k < i && !told; k++) {
                const pottle_weight *a = &form->weight[i],
                                    *b = &form->weight[k];
                const double ratio =
                    a->grams / a->volume_ml / (b->grams / b->volume_ml);
                told = strcmp(a->cite.source, b->cite.source) != 0 &&
                       (ratio > apart || ratio < 1 / apart);
                if (told)
                    pottlei_check_tell(check, true,
                                       pottlei_check_line(pottlei_check_child(
                                           node, "weight", i)),
                                       "densities", NULL, NULL,
                                       "%s a %s (%s) and %s a %s (%s) differ "
                                       "by more than a factor of %g",
                                       b->printed, b->measure, b->cite.source,
                                       a->printed, a->measure, a->cite.source,
                                       apart);
            }
        }
    }
}
