/* density.c - the weight of a measure of a food in one of its forms; figures,
 * and the sources and notes that an answer rests on. */
#include <config.h>

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "kitchen/density.h"

/* -- Figures, sources and notes -------------------------------------------- */

double
pottlei_figure(const pottle_catalogue *catalogue, const char *id,
               double fallback)
{
    const pottle_figure *f = pottle_figure_find(catalogue, id);
    return f != NULL ? f->value : fallback;
}

void
pottlei_basis_cite(pottle_basis *basis, const pottle_cite *cite)
{
    if (basis == NULL || cite == NULL || basis->cites == POTTLE_BASIS_CITES)
        return;
    for (size_t i = 0; i < basis->cites; i++)
        if (strcmp(basis->cite[i].source, cite->source) == 0 &&
            strcmp(basis->cite[i].at, cite->at) == 0)
            return;
    basis->cite[basis->cites++] = *cite;
}

void
pottlei_basis_note(pottle_basis *basis, const char *text, ...)
{
    if (basis == NULL || basis->notes == POTTLE_BASIS_NOTES)
        return;
    char *note = basis->note[basis->notes];
    va_list args;
    va_start(args, text);
    vsnprintf(note, sizeof basis->note[0], text, args);
    va_end(args);
    for (size_t i = 0; i < basis->notes; i++)
        if (strcmp(basis->note[i], note) == 0)
            return;
    basis->notes++;
}

/* -- Density --------------------------------------------------------------- */

const char *
pottlei_form_bulk(const pottle_food *food, const char *id)
{
    const pottle_form *form = pottle_food_form(food, id);
    return form != NULL ? form->bulk : "";
}

pottle_status
pottlei_form_missing(const pottle_food *food, const char *wanted,
                     pottle_error *error)
{
    size_t n = 0;
    const pottle_form *form = pottle_food_forms(food, &n);
    char list[240] = "";
    for (size_t i = 0; i < n; i++)
        pottlei_list_add(list, sizeof list, form[i].id);
    if (n == 0)
        return pottlei_fail(error, POTTLE_ENOENT, "no-density",
                            "%s has no published weight of a cup: weigh it",
                            pottle_food_title(food));
    if (wanted[0] == '\0')
        return pottlei_fail(
            error, POTTLE_EAMBIGUOUS, "which-form",
            "a measure of %s depends on its form: say which (%s)",
            pottle_food_title(food), list);
    return pottlei_fail(
        error, POTTLE_ENOENT, "no-form",
        "%s has no published weight when %s; it has: %s. Or weigh one cup",
        pottle_food_title(food), wanted, list);
}

pottle_status
pottle_form_density(const pottle_catalogue *catalogue, const pottle_food *food,
                    const char *form, pottle_estimate *out, pottle_basis *basis,
                    pottle_error *error)
{
    if (catalogue == NULL || food == NULL || form == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, food, form or place for the result");
    const pottle_form *f = pottle_food_form(food, form);
    if (f == NULL)
        return pottlei_form_missing(food, form, error);
    char figure[28] = "spread-"; /* a bulk is a short word */
    const size_t begin = strlen(figure);
    pottlei_copy(figure + begin, sizeof figure - begin, f->bulk);
    const double first = f->weight[0].grams / f->weight[0].volume_ml;
    double sd = pottlei_figure(catalogue, figure, 0.15);
    pottlei_basis_cite(basis, &f->weight[0].cite);
    for (size_t i = 1; i < f->weights; i++) {
        const double apart =
            fabs(log(f->weight[i].grams / f->weight[i].volume_ml / first)) /
            POTTLE_Z95;
        if (apart > sd) {
            sd = apart;
            pottlei_basis_note(
                basis,
                "sources differ (%s a %s, %s a %s): the range covers them",
                f->weight[0].printed, f->weight[0].measure,
                f->weight[i].printed, f->weight[i].measure);
        }
        pottlei_basis_cite(basis, &f->weight[i].cite);
    }
    *out = (pottle_estimate){ first, sd };
    return POTTLE_OK;
}

const pottle_unit *
pottlei_dry_measure(const pottle_unit *unit)
{
    return strcmp(unit->id, "pt") == 0 ? pottle_unit_find("dry-pint")
         : strcmp(unit->id, "qt") == 0 ? pottle_unit_find("dry-quart")
                                       : unit;
}

const char *
pottlei_default_form(const pottle_food *food)
{
    size_t n = 0;
    const pottle_form *form = pottle_food_forms(food, &n);
    if (n == 1)
        return form[0].id;
    for (size_t i = 0; i < n; i++)
        if (strcmp(form[i].id, "whole") == 0 ||
            strcmp(form[i].id, "liquid") == 0)
            return form[i].id;
    return "";
}
