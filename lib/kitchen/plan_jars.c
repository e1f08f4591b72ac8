/* plan_jars.c - the jars of a plan: their size and processes, how many a batch
 * fills, the remainder and the canner loads. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/plan.h"

/* -- Jar and process ------------------------------------------------------- */

/* The listed size of one's own jar, else the size asked for, else that of the
 * published yield, else the first one tested. */
static pottle_status
choose_jar(const pottle_catalogue *catalogue, pottle_plan *plan,
           const pottle_request *request, pottle_error *error)
{
    plan->own = request->own;
    if (request->own != NULL)
        return pottle_own_jar_size(catalogue, request->own, &plan->jar, error);
    plan->jar = request->jar;
    if (plan->jar != NULL)
        return POTTLE_OK;
    size_t n = 0;
    const pottle_yield *yield = pottle_recipe_yields(plan->recipe, &n);
    const char *size = n > 0 ? yield[0].jar : "pint";
    const pottle_process_table *table =
        pottle_recipe_processes(plan->recipe, &n);
    bool tested = n == 0;
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < table[i].jars; k++)
            tested = tested || strcmp(table[i].jar[k], size) == 0;
    if (!tested)
        size = table[0].jar[0];
    return pottle_jar_find(catalogue, size, &plan->jar, error);
}

static pottle_status
find_processes(const pottle_catalogue *catalogue, pottle_plan *plan,
               const pottle_request *request, pottle_error *error)
{
    size_t tables = 0;
    pottle_recipe_processes(plan->recipe, &tables);
    if (tables == 0 || pottle_recipe_standing(plan->recipe) == POTTLE_OWN)
        return POTTLE_OK;
    /* every table begins at 0 ft, so this gives all that apply to the jar */
    pottle_status status = pottle_process_find(
        catalogue, plan->recipe, plan->jar, request->method, request->pack, 0,
        plan->table, &plan->tables, error);
    if (status == POTTLE_OK && request->has_altitude)
        status = pottle_process_find(
            catalogue, plan->recipe, plan->jar, request->method, request->pack,
            request->altitude_m, plan->process, &plan->processes, error);
    return status;
}

static pottle_status
predict_batch(const pottle_catalogue *catalogue, pottle_plan *plan,
              pottle_error *error)
{
    pottle_estimate listed;
    pottle_status status =
        pottle_jar_fill(catalogue, plan->jar, plan->headspace, &listed, error);
    plan->fill_ml = listed;
    if (status == POTTLE_OK && plan->own != NULL)
        status = pottle_own_jar_fill(catalogue, plan->own, plan->headspace,
                                     &plan->fill_ml, error);
    if (status != POTTLE_OK)
        return status;
    if (pottle_recipe_cook(plan->recipe)->end == POTTLE_END_LOAD) {
        double g = 0;
        for (size_t i = 0; i < plan->lines; i++)
            if (strcmp(plan->list[i].ingredient->food,
                       pottle_recipe_quantities(plan->recipe)->food) == 0)
                g += plan->amount[i].mass_g.median;
        status = pottlei_load_count(catalogue, plan->recipe, plan->jar, g,
                                    &plan->batch_jars, NULL);
        /* what a listed jar takes goes by volume into one's own */
        if (status == POTTLE_OK && plan->own != NULL)
            plan->batch_jars = pottle_estimate_over(
                pottle_estimate_multiple(plan->batch_jars, listed.median),
                plan->fill_ml);
        if (status == POTTLE_OK)
            return status;
    }
    pottlei_part part[POTTLEI_LINES_MAX];
    pottle_estimate volume;
    status = POTTLE_OK;
    for (size_t i = 0; status == POTTLE_OK && i < plan->lines; i++)
        status = pottlei_line_part(
            catalogue, plan, i, plan->amount[i].mass_g.median, &part[i], error);
    if (status != POTTLE_OK)
        return status;
    /* without a composition or a possible yield nothing is said about jars */
    if (pottlei_cook_predict(catalogue, plan->recipe, part, plan->lines,
                             plan->headspace, &volume, NULL) == POTTLE_OK)
        plan->batch_jars = pottle_estimate_over(volume, plan->fill_ml);
    return POTTLE_OK;
}

pottle_status
pottlei_plan_jar(const pottle_catalogue *catalogue, pottle_plan *plan,
                 const pottle_request *request, pottle_error *error)
{
    pottle_status status = choose_jar(catalogue, plan, request, error);
    if (status == POTTLE_OK)
        status = find_processes(catalogue, plan, request, error);
    if (status != POTTLE_OK)
        return status;
    plan->headspace.mm = plan->tables > 0
                           ? plan->table[0].headspace.mm
                           : pottlei_figure(catalogue, "headspace-fruit", 0.5) *
                                 POTTLEI_INCH_MM;
    if (plan->processes > 0)
        plan->headspace = plan->process[0].headspace;
    return predict_batch(catalogue, plan, error);
}

pottle_status
pottlei_plan_fill_factor(const pottle_plan *plan, double jars, double *factor,
                         pottle_error *error)
{
    if (!(plan->batch_jars.median > 0))
        return pottlei_fail(error, POTTLE_ENOENT, "no-yield",
                            "how many jars %s fills is not known: give what is "
                            "on hand or a number of batches",
                            pottle_recipe_id(plan->recipe));
    const pottle_batch *batch = pottle_recipe_batch(plan->recipe);
    double f = jars / plan->batch_jars.median;
    if (batch->smallest > 0) {
        const double full =
            floor(f / batch->largest * (1 + 1e-9)) * batch->largest;
        const double rest = f - full;
        f = rest < 1e-9 * f ? full : full + fmax(rest, batch->smallest);
    }
    *factor = f;
    return POTTLE_OK;
}

/* -- Count, loads, remainder ------------------------------------------------ */

double
pottlei_whole_jars(const pottle_plan *plan)
{
    return plan->has_jars ? ceil(plan->jars.count.median * (1 - 1e-9)) : 0;
}

static void
count_loads(const pottle_catalogue *catalogue, pottle_plan *plan)
{
    if (!plan->has_jars || plan->tables == 0)
        return;
    plan->per_load = pottlei_canner_holds(catalogue, NULL, plan->jar);
    if (plan->per_load > 0)
        plan->loads = (unsigned long)ceil(pottlei_whole_jars(plan) /
                                          (double)plan->per_load);
}

static bool
is_tested(const pottle_plan *plan, const pottle_jar *jar)
{
    for (size_t i = 0; i < plan->tables; i++)
        for (size_t k = 0; k < plan->table[i].table->jars; k++)
            if (strcmp(plan->table[i].table->jar[k], jar->id) == 0)
                return true;
    return false;
}

/* The largest smaller size that the remainder fills; one that was tested before
 * one that takes a larger one's time. */
static void
place_remainder(const pottle_catalogue *catalogue, pottle_plan *plan)
{
    size_t n = 0;
    const pottle_jar *jar = pottle_jars(catalogue, &n);
    const bool metric = strstr(plan->jar->id, "-ml") != NULL ||
                        strcmp(plan->jar->id, "1-l") == 0;
    for (int pass = 0; plan->tables > 0 && pass < 2 && plan->smaller == NULL;
         pass++) {
        for (size_t i = n; i-- > 0;) {
            pottle_estimate fill;
            const bool same_family =
                metric == (strstr(jar[i].id, "-ml") != NULL ||
                           strcmp(jar[i].id, "1-l") == 0);
            if (jar[i].nominal_ml < plan->jar->nominal_ml && same_family &&
                (pass == 1 || is_tested(plan, &jar[i])) &&
                pottle_jar_fill(catalogue, &jar[i], plan->headspace, &fill,
                                NULL) == POTTLE_OK &&
                fill.median <= plan->jars.remainder_ml) {
                plan->smaller = &jar[i];
                break;
            }
        }
    }
}

pottle_status
pottlei_plan_count_jars(const pottle_catalogue *catalogue, pottle_plan *plan,
                        pottle_error *error)
{
    if (!(plan->batch_jars.median > 0))
        return POTTLE_OK;
    /* pots of whole batches are measured out; only what takes all that is
     * there shares its uncertainty */
    const double have_sd =
        pottle_recipe_batch(plan->recipe)->smallest > 0 ? 0 : plan->factor_sd;
    pottle_estimate volume = pottle_estimate_multiple(
        pottle_estimate_times(plan->batch_jars,
                              (pottle_estimate){ plan->fill_ml.median, 0 }),
        plan->factor);
    volume.sd = hypot(volume.sd, have_sd);
    const pottle_status status = pottle_jars_count(
        volume, (pottle_estimate){ plan->fill_ml.median, 0 }, &plan->jars);
    if (status != POTTLE_OK)
        return pottlei_fail(error, status, "jars",
                            "the number of jars is out of range");
    plan->jars.jar = plan->jar;
    plan->jars.own = plan->own;
    plan->jars.headspace = plan->headspace;
    plan->jars.fill_ml = plan->fill_ml;
    plan->has_jars = true;
    place_remainder(catalogue, plan);
    count_loads(catalogue, plan);
    return POTTLE_OK;
}
