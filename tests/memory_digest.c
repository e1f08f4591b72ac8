/* memory_digest.c - test_memory: what came out of a call, as one number. */
#include <config.h>

#include <string.h>

#include "memory_cases.h"

static void
add_bytes(digest *d, const void *bytes, size_t n)
{
    const unsigned char *b = bytes;
    for (size_t i = 0; i < n; i++)
        *d = (*d ^ b[i]) * 1099511628211u; /* FNV-1a */
}

void
add_text(digest *d, const char *text)
{
    add_bytes(d, text, strlen(text) + 1);
}

void
add_number(digest *d, double x)
{
    add_bytes(d, &x, sizeof x);
}

static void
add_cite(digest *d, const pottle_cite *cite)
{
    add_text(d, cite->source);
    add_text(d, cite->at);
    add_text(d, cite->note);
    add_number(d, (double)cite->standing);
}

void
add_catalogue(digest *d, const pottle_catalogue *c)
{
    size_t n = 0;
    const char *id, *name;
    for (size_t i = 0; (id = pottle_food_at(c, i)) != NULL; i++) {
        add_text(d, id);
        for (size_t k = 0; (name = pottle_food_name(c, id, k)) != NULL; k++)
            add_text(d, name);
    }
    const pottle_figure *figure = pottle_figures(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, figure[i].id);
        add_text(d, figure[i].text);
        add_number(d, figure[i].value);
        add_cite(d, &figure[i].cite);
    }
    const pottle_jar *jar = pottle_jars(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, jar[i].id);
        add_text(d, jar[i].names);
        add_number(d, jar[i].nominal_ml);
        add_text(d, jar[i].process_as);
    }
    const pottle_rule *rule = pottle_rules(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, rule[i].id);
        add_text(d, rule[i].text);
        add_text(d, rule[i].instead);
        for (size_t k = 0; k < rule[i].nevers; k++)
            add_text(d, rule[i].never[k].put);
    }
    const pottle_source *source = pottle_sources(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, source[i].key);
        add_text(d, source[i].title);
    }
    const pottle_syrup *syrup = pottle_syrups(c, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, syrup[i].id);
        add_text(d, syrup[i].title);
        add_number(d, (double)syrup[i].loads);
    }
}

void
add_food(digest *d, const pottle_food *food)
{
    size_t n = 0;
    add_text(d, pottle_food_id(food));
    add_text(d, pottle_food_title(food));
    add_text(d, pottle_food_group(food));
    add_cite(d, &pottle_food_acid(food)->cite);
    add_number(d, pottle_food_composition(food)->water);
    const pottle_trim *trim = pottle_food_trims(food, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, trim[i].keeps);
    const pottle_form *form = pottle_food_forms(food, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < form[i].weights; k++) {
            add_number(d, form[i].weight[k].grams);
            add_text(d, form[i].weight[k].printed);
            add_text(d, form[i].weight[k].measure);
        }
    const pottle_piece *piece = pottle_food_pieces(food, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, piece[i].grams);
    const pottle_container *box = pottle_food_containers(food, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, box[i].high_g);
    const pottle_note *note = pottle_food_notes(food, &n);
    for (size_t i = 0; i < n; i++)
        add_text(d, note[i].text);
}

void
add_recipe(digest *d, const pottle_recipe *r)
{
    size_t n = 0;
    add_text(d, pottle_recipe_id(r));
    add_text(d, pottle_recipe_title(r));
    add_number(d, pottle_recipe_batch(r)->largest);
    const pottle_ingredient *in = pottle_recipe_ingredients(r, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, in[i].food);
        add_text(d, in[i].printed);
        add_text(d, in[i].rule);
        add_number(d, (double)in[i].keep);
        for (size_t k = 0; k < in[i].alternatives; k++)
            add_text(d, in[i].alternative[k].food);
    }
    const pottle_per_jar *per = pottle_recipe_per_jar(r, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < per[i].choices; k++)
            for (size_t j = 0; j < per[i].choice[k].doses; j++)
                add_number(d, per[i].choice[k].dose[j].amount);
    const pottle_process_table *t = pottle_recipe_processes(r, &n);
    for (size_t i = 0; i < n; i++) {
        for (size_t k = 0; k < t[i].jars; k++)
            add_text(d, t[i].jar[k]);
        for (size_t k = 0; k < t[i].bands; k++)
            add_number(d, t[i].band[k].minutes);
    }
    const pottle_step *step = pottle_recipe_steps(r, &n);
    for (size_t i = 0; i < n; i++)
        add_text(d, step[i].text);
    const pottle_note *note = pottle_recipe_notes(r, &n);
    for (size_t i = 0; i < n; i++)
        add_text(d, note[i].text);
}

void
add_plan(digest *d, const pottle_plan *plan)
{
    size_t n = 0;
    add_text(d, pottle_plan_limit(plan));
    add_number(d, pottle_plan_factor(plan));
    const pottle_line *line = pottle_plan_lines(plan, POTTLE_ALL_POTS, &n);
    for (size_t i = 0; i < n; i++) {
        add_text(d, line[i].title);
        add_number(d, line[i].mass_g);
        add_number(d, line[i].volume_ml);
    }
    const pottle_dose *dose = pottle_plan_doses(plan, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, dose[i].total);
    const pottle_process *p = pottle_plan_processes(plan, &n);
    for (size_t i = 0; i < n; i++)
        add_number(d, p[i].band->minutes);
    const pottle_warning *w = pottle_plan_warnings(plan, &n);
    for (size_t i = 0; i < n; i++)
        add_text(d, w[i].text);
}
