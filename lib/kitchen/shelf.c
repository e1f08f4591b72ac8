/* shelf.c - the expected volume in the jars that are there.
 *
 * First it is asked which of them may be used at all (shelf_use.c); then the
 * volume is packed (pack.c); then what goes into each jar is added up, and the
 * jars are sorted into loads (loads.c). A part-filled jar is never among them.
 */
#include <config.h>

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/plan.h"
#include "kitchen/shelf.h"

/* -- How much -------------------------------------------------------------- */

static pottle_status
find_fills(const pottle_catalogue *catalogue, pottle_filling *f,
           pottle_length usual, pottle_process (*found)[POTTLE_PROCESS_MAX],
           const size_t *founds, pottle_error *error)
{
    for (size_t i = 0; i < f->sizes; i++) {
        pottle_filled *s = &f->size[i];
        if (!s->allowed)
            continue;
        s->headspace = founds[i] > 0 ? found[i][0].headspace : usual;
        pottle_error why;
        const pottle_status status =
            s->of.own != NULL
                ? pottle_own_jar_fill(catalogue, s->of.own, s->headspace,
                                      &s->fill_ml, &why)
                : pottle_jar_fill(catalogue, s->of.jar, s->headspace,
                                  &s->fill_ml, &why);
        if (status == POTTLE_EDOMAIN) { /* a jar too small for that headspace */
            s->allowed = false;
            POTTLEI_SET(s->code, why.code);
            POTTLEI_SET(s->why, why.what);
        } else if (status != POTTLE_OK) {
            if (error != NULL)
                *error = why;
            return status;
        }
    }
    return POTTLE_OK;
}

/* Tenths of a millilitre are taken while the search stays small, then whole
 * ones; a jar that lacks less than one counts as full. Any forecast errs by
 * more. */
static pottle_status
pack(const pottle_catalogue *catalogue, pottle_filling *f, double volume_ml,
     pottle_error *error)
{
    enum { SMALL = 1 << 21 };
    unsigned long size[POTTLE_SHELF_MAX], count[POTTLE_SHELF_MAX],
        jars[POTTLE_SHELF_MAX] = { 0 };
    double holds = 0;
    for (size_t i = 0; i < f->sizes; i++)
        if (f->size[i].allowed)
            holds += (double)f->size[i].of.count * f->size[i].fill_ml.median;
    /* where all jars are filled, how much there is beyond them does not matter
     */
    const double volume = fmin(volume_ml, 2 * holds + 1);
    double grain = 0.1;
    pottle_status status = POTTLE_OK;
    for (int pass = 0; pass < 2; pass++, grain = 1) {
        for (size_t i = 0; i < f->sizes; i++) {
            size[i] = f->size[i].allowed
                        ? (unsigned long)(f->size[i].fill_ml.median / grain)
                        : 0;
            count[i] = f->size[i].allowed ? f->size[i].of.count : 0;
        }
        if (pass == 1 || pottlei_pack_room(size, count, f->sizes,
                                           (unsigned long)(volume * (1 + 1e-9) /
                                                           grain)) <= SMALL)
            break;
    }
    const double alike =
        pottlei_figure(catalogue, "left-over-alike", 10) / grain;
    status = pottlei_pack(size, count, f->sizes,
                          (unsigned long)(volume * (1 + 1e-9) / grain),
                          (unsigned long)fmax(0, alike), jars, error);
    for (size_t i = 0; status == POTTLE_OK && i < f->sizes; i++)
        f->size[i].jars = jars[i];
    return status;
}

/* The size to have more of ready: the largest of those that are used and of
 * which there are more, else the largest other one that is left, else the
 * largest that was used; when nothing fills a jar, the smallest. */
static size_t
next_size(const pottle_filling *f)
{
    size_t best = f->sizes;
    int rank = -1;
    for (size_t i = 0; i < f->sizes; i++) {
        const pottle_filled *s = &f->size[i];
        if (!s->allowed || s->of.count == 0)
            continue;
        const bool left = s->of.count > s->jars, used = s->jars > 0;
        const int r = f->facts.jars == 0 ? 0 : left && used ? 2 : left ? 1 : 0;
        const bool larger =
            best < f->sizes && s->fill_ml.median > f->size[best].fill_ml.median;
        if (r > rank || (r == rank && larger == (f->facts.jars > 0))) {
            best = i;
            rank = r;
        }
    }
    return best;
}

static void
find_facts(pottle_filling *f, const pottle_jar_count *planned)
{
    pottle_filling_facts *facts = &f->facts;
    double sd = 0;
    facts->volume_ml = planned->volume_ml;
    for (size_t i = 0; i < f->sizes; i++) {
        const pottle_filled *s = &f->size[i];
        if (!s->allowed)
            continue;
        const double holds = (double)s->of.count * s->fill_ml.median;
        facts->jars += s->jars;
        facts->filled_ml += (double)s->jars * s->fill_ml.median;
        facts->capacity_ml += holds;
        sd += holds * s->fill_ml.sd; /* jars of a size err together; so, to be
                                        cautious, do the sizes */
    }
    facts->left_ml = fmax(0, planned->volume_ml.median - facts->filled_ml);
    sd = facts->capacity_ml > 0 ? sd / facts->capacity_ml : 0;
    /* the forecast has the spread of its own jar in it, whose place these take
     */
    const double without =
        fmax(0, planned->volume_ml.sd * planned->volume_ml.sd -
                    planned->fill_ml.sd * planned->fill_ml.sd);
    const pottle_estimate needed = { planned->volume_ml.median,
                                     hypot(sqrt(without), sd) };
    const double times = log(facts->capacity_ml / needed.median);
    facts->suffices = needed.sd > 0 ? gsl_cdf_ugaussian_P(times / needed.sd)
                    : times < -1e-9 ? 0
                                    : 1;
    if (pottle_estimate_quantile(needed, 0.9, &facts->prepare_ml) != POTTLE_OK)
        facts->prepare_ml = needed.median;
    facts->next = next_size(f);
    if (facts->next < f->sizes) {
        const pottle_filled *s = &f->size[facts->next];
        const double more = ceil((facts->prepare_ml - facts->filled_ml) /
                                 s->fill_ml.median * (1 - 1e-9));
        facts->ready = more > 0 ? (unsigned long)fmin(more, 1e9) : 0;
        facts->spare = s->of.count - s->jars;
    }
}

/* -- What goes into each jar ----------------------------------------------- */

/* The place of a dose in the list: made when it is new. NULL when there is no
 * room. */
static pottle_filling_dose *
dose_for(pottle_filling *f, const pottle_dose *d)
{
    for (size_t i = 0; i < f->doses; i++) {
        pottle_filling_dose *have = &f->dose[i];
        /* what is counted in one size and measured in another is not added up
         */
        if (have->per_jar == d->per_jar && strcmp(have->food, d->food) == 0 &&
            have->unit->dimension == d->unit->dimension &&
            strcmp(have->size, d->size) == 0)
            return have;
    }
    if (f->doses == POTTLEI_SHELF_DOSES)
        return NULL;
    pottle_filling_dose *fresh = &f->dose[f->doses++];
    *fresh = (pottle_filling_dose){ .per_jar = d->per_jar,
                                    .food = d->food,
                                    .title = d->title,
                                    .choice = d->choice,
                                    .unit = d->unit,
                                    .size = d->size };
    return fresh;
}

/* What a jar of each size gets is what the plan of one batch in that size says;
 * the plan at hand decides the order of the alternatives, since a total that
 * was set comes first there. */
static pottle_status
add_doses(const pottle_catalogue *catalogue, pottle_filling *f,
          const pottle_plan *plan, pottle_error *error)
{
    size_t n = 0, ordered = 0;
    (void)pottle_recipe_per_jar(f->recipe, &n);
    if (n == 0)
        return POTTLE_OK;
    for (size_t i = 0; i < f->sizes; i++) {
        if (f->size[i].jars == 0)
            continue;
        const pottle_request request = {
            .version = POTTLE_REQUEST_VERSION,
            .batches = pottle_recipe_batch(f->recipe)->largest,
            .jar = f->size[i].of.jar
        };
        const pottle_status status =
            pottle_scale(catalogue, f->recipe, &request, &f->doser[i], error);
        if (status != POTTLE_OK)
            return status;
    }
    const pottle_dose *order = pottle_plan_doses(plan, &ordered);
    for (size_t o = 0; o < ordered; o++) {
        for (size_t i = 0; i < f->sizes; i++) {
            if (f->doser[i] == NULL)
                continue;
            size_t doses = 0;
            const pottle_dose *d = pottle_plan_doses(f->doser[i], &doses);
            while (doses > 0 && !(d->per_jar == order[o].per_jar &&
                                  strcmp(d->food, order[o].food) == 0)) {
                d++;
                doses--;
            }
            pottle_filling_dose *to = doses > 0 ? dose_for(f, d) : NULL;
            if (to == NULL)
                continue;
            to->choice = order[o].choice;
            to->each[i] = d->count * d->unit->factor / to->unit->factor;
            to->total += to->each[i] * (double)f->size[i].jars;
        }
    }
    return POTTLE_OK;
}

/* -- The whole ------------------------------------------------------------- */

static void
warn_sizes(const pottle_catalogue *catalogue, pottle_filling *f)
{
    char text[300] = "";
    size_t n = 0;
    for (size_t i = 0; i < f->sizes; i++) {
        const pottle_filled *s = &f->size[i];
        if (s->jars == 0 || !s->has_process ||
            (s->process.tested_as == s->process.jar && s->of.own == NULL))
            continue;
        const int k =
            snprintf(text + n, sizeof text - n, "%s%s takes the process of %s",
                     n > 0 ? ", " : "",
                     s->of.own != NULL ? s->of.own->id : s->of.jar->title,
                     s->process.tested_as->title);
        if (k < 0 || (size_t)k >= sizeof text - n - 2)
            break;
        n += (size_t)k;
    }
    if (n == 0)
        return;
    text[n] = '.';
    text[n + 1] = '\0';
    pottlei_filling_warn(catalogue, f, "jar-tested-as", "jar-size-smaller",
                         text);
}

/* What has no process is filled into the size that its source prints or that
 * was asked for, and into smaller ones: a larger jar of a spread sets softly
 * (rule jam-03). */
static void
without_process(pottle_filling *f, const pottle_jar *printed)
{
    for (size_t i = 0; i < f->sizes; i++) {
        pottle_filled *s = &f->size[i];
        if (!s->allowed || s->of.jar->nominal_ml <= printed->nominal_ml)
            continue;
        s->allowed = false;
        POTTLEI_SET(s->code, "jar-larger");
        snprintf(s->why, sizeof s->why,
                 "%s is filled into %s jars or smaller ones; %s is larger",
                 pottle_recipe_id(f->recipe), printed->id, s->of.jar->id);
    }
}

/* What was measured stands in the place of the forecast, unless the two
 * contradict each other. */
static pottle_status
take_cooked(const pottle_catalogue *catalogue, const pottle_shelf_request *r,
            pottle_jar_count *planned, pottle_error *error)
{
    if (!(r->cooked_ml > 0))
        return POTTLE_OK;
    const pottle_estimate expected = planned->volume_ml, read = {
        r->cooked_ml, pottlei_figure(catalogue, "error-level", 0.05)
    };
    const double apart =
        fabs(log(read.median / expected.median)) / hypot(read.sd, expected.sd);
    if (apart > pottlei_figure(catalogue, "contradiction-limit", 3)) {
        const pottle_interval i = pottle_estimate_interval(expected);
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "contradiction",
            "%.3g L in the pots contradict what goes in, by which %.3g L are "
            "expected (%.3g to %.3g): %.1f standard deviations apart",
            read.median / 1000, i.expected / 1000, i.low / 1000, i.high / 1000,
            apart);
    }
    planned->volume_ml = read;
    planned->fill_ml.sd = 0; /* no jar's spread is in what was measured */
    return POTTLE_OK;
}

static pottle_status
make(const pottle_catalogue *catalogue, pottle_filling *f,
     const pottle_plan *plan, const pottle_shelf_request *r,
     pottle_error *error)
{
    pottle_process found[POTTLE_SHELF_MAX][POTTLE_PROCESS_MAX];
    size_t founds[POTTLE_SHELF_MAX] = { 0 }, tables = 0;
    const pottle_jar_count *forecast = pottle_plan_jars(plan);
    if (forecast == NULL)
        return pottlei_fail(error, POTTLE_ENOENT, "no-yield",
                            "how much %s fills is not known",
                            pottle_recipe_id(f->recipe));
    pottle_jar_count planned = *forecast;
    pottle_status status = take_cooked(catalogue, r, &planned, error);
    if (status == POTTLE_OK)
        status = pottlei_shelf_take(catalogue, f, r, error);
    if (status != POTTLE_OK)
        return status;
    (void)pottle_recipe_processes(f->recipe, &tables);
    f->facts.canned =
        tables > 0 && pottle_recipe_standing(f->recipe) != POTTLE_OWN;
    if (f->facts.canned)
        status = pottlei_shelf_choose(catalogue, f, r, found, founds, error);
    else
        without_process(f, planned.jar);
    if (status == POTTLE_OK)
        status =
            find_fills(catalogue, f, planned.headspace, found, founds, error);
    if (status == POTTLE_OK)
        status = pack(catalogue, f, planned.volume_ml.median, error);
    if (status != POTTLE_OK)
        return status;
    find_facts(f, &planned);
    if (f->facts.next == f->sizes)
        return pottlei_refuse(
            catalogue, error,
            f->size[0].code[0] != '\0' ? f->size[0].code : "no-jars",
            "jar-size-larger", NULL, "%s",
            f->size[0].why[0] != '\0'
                ? f->size[0].why
                : "there is no jar on the shelf that may be used");
    status = add_doses(catalogue, f, plan, error);
    if (status == POTTLE_OK && f->facts.canned) {
        if (r->has_altitude)
            for (size_t i = 0; i < f->sizes; i++)
                f->size[i].has_process = f->size[i].allowed;
        else
            pottlei_filling_warn(
                catalogue, f, "altitude", NULL,
                "No altitude was given, so no time can be told.");
        status =
            pottlei_loads_make(catalogue, f, r->canner, found, founds, error);
        warn_sizes(catalogue, f);
    }
    return status;
}

pottle_status
pottle_shelf_fill(const pottle_catalogue *catalogue, const pottle_plan *plan,
                  const pottle_shelf_request *request, pottle_filling **out,
                  pottle_error *error)
{
    if (catalogue == NULL || plan == NULL || request == NULL || out == NULL)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, plan, request or place for the result");
    pottle_status status = pottlei_shelf_check(request, error);
    if (status != POTTLE_OK)
        return status;
    pottle_filling *f = calloc(1, sizeof *f);
    if (f == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    f->recipe = plan->recipe;
    status = make(catalogue, f, plan, request, error);
    if (status != POTTLE_OK) {
        pottle_filling_free(f);
        return status;
    }
    *out = f;
    return POTTLE_OK;
}

void
pottle_filling_free(pottle_filling *f)
{
    if (f == NULL)
        return;
    for (size_t i = 0; i < POTTLE_SHELF_MAX; i++)
        pottle_plan_free(f->doser[i]);
    free(f);
}

const pottle_filling_facts *
pottle_filling_facts_of(const pottle_filling *f)
{
    return &f->facts;
}

const pottle_filled *
pottle_filling_sizes(const pottle_filling *f, size_t *count)
{
    *count = f->sizes;
    return f->size;
}

const pottle_filling_dose *
pottle_filling_doses(const pottle_filling *f, size_t *count)
{
    *count = f->doses;
    return f->dose;
}

const pottle_filling_load *
pottle_filling_loads(const pottle_filling *f, size_t *count)
{
    *count = f->loads;
    return f->load;
}

const pottle_warning *
pottle_filling_warnings(const pottle_filling *f, size_t *count)
{
    *count = f->warnings;
    return f->warning;
}

unsigned long
pottle_filling_time(const pottle_filling *f, pottle_range *minutes)
{
    if (minutes != NULL)
        *minutes = f->minutes;
    return f->load_count;
}
