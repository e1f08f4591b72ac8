/* gauge.c - a dial gauge that reads wrong: what to hold on it, and when it may
 * not be used.
 *
 * What it reads too high is added to the tested pressure, what it reads too low
 * is taken off. That is published for errors up to a limit; beyond it no set
 * point is given, whatever the food. */
#include <config.h>

#include <math.h>
#include <stdio.h>

#include "kitchen/shelf.h"

/* With as many digits as show that it is over the limit. */
static void
over_text(double off_psi, double limit_psi, char *buf, size_t size)
{
    pottle_range read = { 0, 0 };
    for (int digits = 2; digits <= 9 && !(read.low > limit_psi); digits++) {
        pottle_number_write(off_psi, digits, buf, size);
        if (pottle_number_read(buf, &read) != POTTLE_OK)
            break;
    }
}

/* Refuses a gauge that is out by more than any source makes up for. `canner`
 * names the one whose gauge it is; "" where that is not known. */
static pottle_status
judge(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
      double off_psi, bool high, const char *canner, pottle_error *error)
{
    /* an error typed in another unit comes back with an error in the last
     * digits */
    const double limit = pottlei_figure(catalogue, "gauge-limit", 2);
    if (!(off_psi > limit + 1e-9))
        return POTTLE_OK;
    char number[40], most[40], text[200];
    over_text(off_psi, limit, number, sizeof number);
    pottle_number_write(limit, 2, most, sizeof most);
    const bool low_acid = pottlei_low_acid(recipe);
    snprintf(text, sizeof text,
             low_acid ? "%s is low-acid"
                      : "for more than %s psi no set point is published",
             low_acid ? pottle_recipe_id(recipe) : most);
    return pottlei_refuse(
        catalogue, error, "gauge-error", "gauge-error",
        low_acid ? NULL
                 : "use the boiling-water process of the recipe, or a weighted "
                   "gauge, until the gauge is replaced",
        "the gauge%s%s reads %s psi %s, and %s",
        canner[0] != '\0' ? " of " : "", canner, number, high ? "high" : "low",
        text);
}

static double
error_psi(pottle_misreading gauge)
{
    return pottle_misreading_base(gauge) / pottle_unit_find("psi")->factor;
}

static pottle_status
set_point(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
          const pottle_process *process, pottle_misreading gauge,
          const char *canner, pottle_set_point *out, pottle_error *error)
{
    if (catalogue == NULL || recipe == NULL || process == NULL || out == NULL)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, recipe, process or place for the result");
    if (process->table->method != POTTLE_DIAL_GAUGE)
        return pottlei_fail(error, POTTLE_EDOMAIN, "gauge",
                            "a %s canner has no dial to set",
                            pottle_method_name((int)process->table->method));
    const double by_psi = error_psi(gauge), off_psi = fabs(by_psi);
    const pottle_status status =
        judge(catalogue, recipe, off_psi, gauge.high, canner, error);
    if (status != POTTLE_OK)
        return status;
    *out = (pottle_set_point){
        process->band->psi + by_psi, off_psi,
        off_psi >= pottlei_figure(catalogue, "gauge-limit-strict", 1) - 1e-9
    };
    return POTTLE_OK;
}

pottle_status
pottle_gauge_set_point(const pottle_catalogue *catalogue,
                       const pottle_recipe *recipe,
                       const pottle_process *process, pottle_misreading gauge,
                       pottle_set_point *out, pottle_error *error)
{
    return set_point(catalogue, recipe, process, gauge, "", out, error);
}

pottle_status
pottle_canner_set_point(const pottle_catalogue *catalogue,
                        const pottle_recipe *recipe,
                        const pottle_process *process,
                        const pottle_kitchen_canner *canner,
                        pottle_set_point *out, pottle_error *error)
{
    if (canner == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse", "no canner");
    return set_point(catalogue, recipe, process, canner->gauge, canner->id, out,
                     error);
}

pottle_status
pottle_canner_usable(const pottle_catalogue *catalogue,
                     const pottle_recipe *recipe,
                     const pottle_kitchen_canner *canner, pottle_error *error)
{
    if (catalogue == NULL || recipe == NULL || canner == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, recipe or canner");
    if (canner->method != POTTLE_DIAL_GAUGE)
        return POTTLE_OK;
    return judge(catalogue, recipe, fabs(error_psi(canner->gauge)),
                 canner->gauge.high, canner->id, error);
}

pottle_status
pottlei_gauge_judge(const pottle_catalogue *catalogue, pottle_filling *f,
                    const pottle_kitchen_canner *canner,
                    const pottle_process *process, pottle_error *error)
{
    pottle_set_point set = { 0 };
    char text[200];
    if (canner == NULL || canner->method != POTTLE_DIAL_GAUGE ||
        process->table->method != POTTLE_DIAL_GAUGE)
        return POTTLE_OK;
    if (canner->gauge.by.unit == NULL) {
        const pottle_figure *months =
            pottle_figure_find(catalogue, "gauge-test-months");
        snprintf(text, sizeof text,
                 "It is not known how well the gauge of %s reads. %s",
                 canner->id, months != NULL ? months->text : "");
        pottlei_filling_warn(catalogue, f, "gauge-untested", NULL, text);
        return POTTLE_OK;
    }
    const pottle_status status = pottle_canner_set_point(
        catalogue, f->recipe, process, canner, &set, error);
    if (status != POTTLE_OK)
        return status;
    f->facts.has_set_point = true;
    f->facts.gauge = canner->gauge;
    if (set.strict) {
        const pottle_figure *limit =
            pottle_figure_find(catalogue, "gauge-limit-strict");
        char number[40];
        pottle_number_write(set.off_psi, 2, number, sizeof number);
        snprintf(text, sizeof text, "The gauge of %s reads %s psi %s. %s",
                 canner->id, number, canner->gauge.high ? "high" : "low",
                 limit != NULL ? limit->text : "");
        pottlei_filling_warn(catalogue, f, "gauge-strict", NULL, text);
        if (limit != NULL && f->warnings > 0) {
            f->warning[f->warnings - 1].source = limit->cite.source;
            f->warning[f->warnings - 1].at = limit->cite.at;
        }
    }
    return POTTLE_OK;
}
