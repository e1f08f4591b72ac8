/* fuzz_recipe.c - a recipe file that nobody chose: refused with a reason, or
 * sound in all it gives out, in its processes and when it is scaled. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "targets.h"

static void
check_bands(const pottle_process_table *t)
{
    int next = 0;
    fuzz_expect(t->bands > 0 && t->jars > 0, "a process without band or jar");
    for (size_t i = 0; i < t->bands; i++) {
        const pottle_band *b = &t->band[i];
        fuzz_expect(b->from_ft == next, "a gap before the band from %d ft",
                    b->from_ft);
        fuzz_expect(b->to_ft < 0 ? i + 1 == t->bands : b->to_ft > b->from_ft,
                    "a band from %d to %d ft", b->from_ft, b->to_ft);
        fuzz_expect(b->minutes > 0, "a process of %d minutes", b->minutes);
        fuzz_expect((b->psi > 0) == (t->method != POTTLE_BOILING_WATER),
                    "%d psi", b->psi);
        fuzz_expect(i == 0 ||
                        (b[-1].minutes <= b->minutes && b[-1].psi <= b->psi),
                    "less time or pressure higher up");
        next = b->to_ft + 1;
    }
    for (size_t i = 0; i < t->jars; i++)
        fuzz_expect(pottlei_utf8_valid(t->jar[i], strlen(t->jar[i])) &&
                        t->jar[i][0] != '\0',
                    "jar '%s'", t->jar[i]);
}

static void
check_ingredient(const pottle_ingredient *in)
{
    const char *const texts[] = {
        in->food, in->printed, in->size, in->form,     in->trim,
        in->then, in->role,    in->rule, in->per_food, in->per_form,
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        fuzz_text(texts[i], "text of an ingredient");
    fuzz_cite(&in->cite, "ingredient");
    fuzz_amount(in->amount, "amount");
    fuzz_expect(in->amount <= in->amount_to, "%g to %g of %s", in->amount,
                in->amount_to, in->food);
    fuzz_expect(in->amount_to > 0 || in->keep == POTTLE_FREE,
                "%s is kept and has no amount", in->food);
    fuzz_expect(in->unit != NULL && (in->unit->dimension == POTTLE_MASS ||
                                     in->unit->dimension == POTTLE_VOLUME ||
                                     in->unit->dimension == POTTLE_COUNT),
                "%s has no unit of an amount", in->food);
    for (size_t i = 0; i < in->alternatives; i++) {
        fuzz_text(in->alternative[i].food, "alternative");
        fuzz_text(in->alternative[i].form, "alternative's form");
        fuzz_text(in->alternative[i].rule, "alternative's rule");
    }
    for (size_t i = 0; i < in->printeds; i++)
        fuzz_amount(in->other[i].amount, "printed amount");
}

static void
check_per_jar(const pottle_per_jar *per)
{
    fuzz_text(per->role, "role");
    fuzz_text(per->rule, "rule");
    fuzz_cite(&per->cite, "per-jar");
    fuzz_expect(per->choices > 0, "a dose of nothing to choose from");
    for (size_t i = 0; i < per->choices; i++) {
        fuzz_text(per->choice[i].food, "food");
        for (size_t k = 0; k < per->choice[i].doses; k++) {
            const pottle_jar_dose *d = &per->choice[i].dose[k];
            fuzz_text(d->jar, "jar");
            fuzz_text(d->printed, "printed");
            fuzz_text(d->size, "size");
            fuzz_text(d->form, "form");
            fuzz_cite(&d->cite, "dose");
            fuzz_expect(d->amount > 0 && isfinite(d->amount), "a dose of %g",
                        d->amount);
        }
    }
}

static void
check_recipe(const pottle_recipe *r)
{
    size_t n = 0;
    fuzz_text(pottle_recipe_id(r), "id");
    fuzz_text(pottle_recipe_title(r), "title");
    fuzz_text(pottle_recipe_kind(r), "kind");
    fuzz_cite(pottle_recipe_cite(r), "recipe");
    const pottle_batch *batch = pottle_recipe_batch(r);
    fuzz_expect(batch->largest > 0 && batch->smallest >= 0 &&
                    batch->smallest <= batch->largest,
                "a batch of %g to %g", batch->smallest, batch->largest);
    const pottle_cite *witness = pottle_recipe_witnesses(r, &n);
    for (size_t i = 0; i < n; i++)
        fuzz_text(witness[i].source, "witness");
    const pottle_ingredient *in = pottle_recipe_ingredients(r, &n);
    fuzz_expect(n > 0, "a recipe of nothing");
    for (size_t i = 0; i < n; i++)
        check_ingredient(&in[i]);
    const pottle_per_jar *per = pottle_recipe_per_jar(r, &n);
    for (size_t i = 0; i < n; i++)
        check_per_jar(&per[i]);
    const pottle_quantities *q = pottle_recipe_quantities(r);
    fuzz_text(q->food, "food of the quantities");
    for (size_t i = 0; i < q->loads; i++)
        fuzz_expect(q->load[i].jars > 0 && q->load[i].grams > 0, "a load");
    for (size_t i = 0; i < q->averages; i++)
        fuzz_amount(q->average[i].grams, "average");
    for (size_t i = 0; i < q->containers; i++)
        fuzz_expect(q->container[i].low > 0 &&
                        q->container[i].low <= q->container[i].high,
                    "the yield of a container");
    const char *const *cover = pottle_recipe_covers(r, &n);
    for (size_t i = 0; i < n; i++)
        fuzz_text(cover[i], "cover");
    const pottle_yield *yield = pottle_recipe_yields(r, &n);
    for (size_t i = 0; i < n; i++)
        fuzz_expect(yield[i].low > 0 && yield[i].low <= yield[i].high,
                    "a yield of %g to %g", yield[i].low, yield[i].high);
    const pottle_process_table *table = pottle_recipe_processes(r, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_cite(&table[i].cite, "process");
        fuzz_text(table[i].headspace, "headspace");
        check_bands(&table[i]);
    }
    const pottle_step *step = pottle_recipe_steps(r, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_text(step[i].action, "action");
        fuzz_text(step[i].text, "step");
        fuzz_amount(step[i].minutes, "minutes");
    }
    const pottle_note *note = pottle_recipe_notes(r, &n);
    for (size_t i = 0; i < n; i++)
        fuzz_text(note[i].text, "note");
}

/* Every jar at sea level and on a mountain. */
static void
check_look_up(const pottle_recipe *r)
{
    static const pottle_status allowed[] = { POTTLE_EBOUNDS, POTTLE_OK };
    size_t n = 0;
    const pottle_jar *jar = pottle_jars(fuzz_catalogue(), &n);
    static const double altitude_m[] = { 0, 1900 };
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < 2; k++) {
            pottle_process found[POTTLE_PROCESS_MAX];
            size_t count = 0;
            pottle_error error;
            const pottle_status status = pottle_process_find(
                fuzz_catalogue(), r, &jar[i], NULL, POTTLE_ANY_PACK,
                altitude_m[k], found, &count, &error);
            if (status != POTTLE_OK)
                fuzz_failure(status, &error, allowed, "a look-up");
            else
                fuzz_processes(r, &jar[i], NULL, POTTLE_ANY_PACK, altitude_m[k],
                               found, count);
        }
    }
}

/* The batch as published, and a part of it. */
static void
check_scaled(const pottle_recipe *r)
{
    static const pottle_status allowed[] = {
        POTTLE_EBOUNDS,    POTTLE_ENOENT, POTTLE_EDOMAIN,
        POTTLE_EAMBIGUOUS, POTTLE_EDATA,  POTTLE_OK,
    };
    static const double batches[] = { 1, 0.37 };
    for (size_t i = 0; i < 2; i++) {
        const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                         .batches = batches[i],
                                         .has_altitude = true,
                                         .altitude_m = 1000 };
        pottle_plan *plan = NULL;
        pottle_error error;
        const pottle_status status =
            pottle_scale(fuzz_catalogue(), r, &request, &plan, &error);
        if (status != POTTLE_OK)
            fuzz_failure(status, &error, allowed, "scaling");
        else
            fuzz_plan(r, &request, plan);
        pottle_plan_free(plan);
    }
}

int
target_recipe(const uint8_t *data, size_t size)
{
    char path[FUZZ_PATH_SIZE];
    fuzz_put("recipe.xml", data, size, path);
    pottle_recipe *recipe = NULL;
    pottle_error error;
    const pottle_status status =
        pottle_recipe_read_file(fuzz_catalogue(), path, &recipe, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, fuzz_bad_file, "a recipe");
        fuzz_expect(recipe == NULL, "a recipe that is refused is written");
    } else {
        check_recipe(recipe);
        check_look_up(recipe);
        check_scaled(recipe);
    }
    pottle_recipe_free(recipe);
    return fuzz_verdict();
}
