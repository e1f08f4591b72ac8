/* warnings.c - what a plan says beside its figures: rules that bear on it, and
 * the cautions of the recipe and its foods. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "kitchen/plan.h"

static void
warn_rule(const pottle_catalogue *catalogue, pottle_plan *plan,
          const char *code, const char *rule, const char *before)
{
    const pottle_rule *r = pottle_rule_find(catalogue, rule);
    char text[320];
    snprintf(text, sizeof text, "%s%s", before, r != NULL ? r->text : "");
    pottlei_plan_warn(plan, code, r != NULL ? r->cite.source : "",
                      r != NULL ? r->cite.at : "", text);
}

static void
warn_process(const pottle_catalogue *catalogue, pottle_plan *plan,
             const pottle_request *request)
{
    char text[320];
    const pottle_process *p = plan->processes > 0 ? plan->process : plan->table;
    if (plan->tables > 0 && !request->has_altitude)
        pottlei_plan_warn(
            plan, "altitude", "", "",
            "no altitude was given: look up the time for yours in the bands");
    if (plan->tables > 0 && plan->own != NULL) {
        snprintf(text, sizeof text,
                 "%s is a jar of your own and takes the process of %s. ",
                 plan->own->id, p->tested_as->title);
        warn_rule(catalogue, plan, "jar-tested-as", "jar-size-smaller", text);
    } else if (plan->tables > 0 && p->tested_as != p->jar) {
        snprintf(text, sizeof text,
                 "%s jars are not tested for it and take the process of the "
                 "next larger tested size, %s. ",
                 p->jar->title, p->tested_as->title);
        warn_rule(catalogue, plan, "jar-tested-as", "jar-size-smaller", text);
    }
    if (plan->tables > 0 && p->table->sterile && p->band->minutes < 10)
        warn_rule(catalogue, plan, "sterile-jars", "jam-12", "");
    const double confirmed_ft =
        pottlei_figure(catalogue, "altitude-confirmed", 8000);
    if (plan->processes > 0 && p->band->to_ft < 0 &&
        request->altitude_m > confirmed_ft * POTTLEI_FOOT_M) {
        const pottle_figure *f =
            pottle_figure_find(catalogue, "altitude-confirmed");
        snprintf(text, sizeof text,
                 "above %.0f ft not every copy of the source confirms this "
                 "band: ask your extension office",
                 confirmed_ft);
        pottlei_plan_warn(plan, "altitude-high",
                          f != NULL ? f->cite.source : "",
                          f != NULL ? f->cite.at : "", text);
    }
}

/* Yields that the source prints and the ingredients cannot fill. */
static void
warn_yields(pottle_plan *plan)
{
    size_t n = 0;
    char text[320];
    const pottle_yield *yield = pottle_recipe_yields(plan->recipe, &n);
    for (size_t i = 0; i < n; i++) {
        if (yield[i].possible)
            continue;
        if (yield[i].high > yield[i].low)
            snprintf(text, sizeof text,
                     "the source prints %g to %g %s jars a batch; by weight "
                     "what goes in cannot come to that, so it is not used here",
                     yield[i].low, yield[i].high, yield[i].jar);
        else
            snprintf(text, sizeof text,
                     "the source prints %g %s jars a batch; by weight what "
                     "goes in cannot come to that, so it is not used here",
                     yield[i].low, yield[i].jar);
        pottlei_plan_warn(plan, "yield-impossible", yield[i].cite.source,
                          yield[i].cite.at, text);
    }
}

static void
warn_notes(pottle_plan *plan)
{
    size_t n = 0;
    const pottle_note *note = pottle_recipe_notes(plan->recipe, &n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(note[i].of, "caution") == 0 ||
            strcmp(note[i].of, "storage") == 0)
            pottlei_plan_warn(plan, note[i].of, note[i].cite.source,
                              note[i].cite.at, note[i].text);
    /* a poisonous part is told once, by the recipe or else by the food */
    bool told = false;
    for (size_t i = 0; i < plan->warnings; i++)
        told = told || strstr(plan->warning[i].text, "poison") != NULL;
    for (size_t f = 0; !told && f < plan->lines; f++) {
        size_t notes = 0;
        const pottle_note *of_food =
            pottle_food_notes(plan->line_food[f], &notes);
        for (size_t i = 0; i < notes; i++)
            if (strstr(of_food[i].text, "poison") != NULL)
                pottlei_plan_warn(plan, "food", of_food[i].cite.source,
                                  of_food[i].cite.at, of_food[i].text);
    }
}

/* "Lemon juice" was taken for what the recipe has, which is bottled. */
static void
warn_bottled(const pottle_catalogue *catalogue, pottle_plan *plan,
             const pottle_request *request)
{
    static const char id[] = "acid-fresh-citrus";
    const pottle_rule *rule = pottle_rule_find(catalogue, id);
    for (size_t k = 0; rule != NULL && k < request->haves + request->sets;
         k++) {
        const char *food = k < request->haves
                             ? request->have[k].food
                             : request->set[k - request->haves].food;
        for (size_t i = 0; i < rule->nevers; i++) {
            if (strcmp(rule->never[i].wanted, food) == 0) {
                warn_rule(catalogue, plan, "bottled", id, "");
                return;
            }
        }
    }
}

void
pottlei_plan_add_warnings(const pottle_catalogue *catalogue, pottle_plan *plan,
                          const pottle_request *request)
{
    warn_process(catalogue, plan, request);
    if (pottle_recipe_standing(plan->recipe) == POTTLE_OWN)
        warn_rule(catalogue, plan, "own-recipe", "own-recipe", "");
    warn_bottled(catalogue, plan, request);
    warn_yields(plan);
    warn_notes(plan);
}
