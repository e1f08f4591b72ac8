/* measure.c - rounding to measures that a kitchen has, in the direction a keep
 * rule allows.
 *
 * Measures are whole numbers of a small step, so a rounding direction is a
 * floor or a ceiling of an integer and can be proved. The coarsest shape whose
 * error is small enough wins: "3 1/2 cups" before "3 cups + 7 tbsp". */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

/* Largest error of what may only rise or only fall, towards its free side. */
static const double loose = 0.03;

/* What is free is a matter of taste: the nearest measure, at first within 3 %,
 * then as far as a spoon is from the next. */
static const double free_steps[] = { 0.03, 0.1, 0.34 };
enum { FREE_STEPS = sizeof free_steps / sizeof free_steps[0] };

typedef struct shape {
    const char *big, *small;     /* units; small NULL for none */
    double big_step, small_step; /* in units: 0.25 cups */
    double from, to; /* used for amounts in this range of the base unit */
} shape;

#define CUP_ML (3785.411784 / 16.0)
#define TBSP_ML (CUP_ML / 16.0)
#define TSP_ML (CUP_ML / 48.0)
#define LB_G 453.59237
#define OZ_G (LB_G / 16.0)

/* From coarse to fine. big is filled to a multiple of its step, the rest by
 * small. */
static const shape volumes[] = {
    { "qt", NULL, 1.0, 0, 40.0 * CUP_ML, HUGE_VAL },
    { "qt", NULL, 0.5, 0, 16.0 * CUP_ML, HUGE_VAL },
    { "qt", "cup", 1.0, 0.25, 16.0 * CUP_ML, HUGE_VAL },
    { "cup", NULL, 0.5, 0, 4.0 * CUP_ML, HUGE_VAL },
    { "cup", NULL, 0.25, 0, 0.2 * CUP_ML, HUGE_VAL },
    { "cup", NULL, 1.0 / 3.0, 0, 0.3 * CUP_ML, HUGE_VAL },
    { "cup", "tbsp", 0.25, 1.0, 0.5 * CUP_ML, HUGE_VAL },
    { "tbsp", NULL, 0.5, 0, 1.0 * TBSP_ML, 4.0 * TBSP_ML },
    { "cup", "tsp", 0.25, 0.5, 0.25 * CUP_ML, HUGE_VAL },
    { "tbsp", "tsp", 1.0, 0.25, 1.0 * TBSP_ML, 4.0 * TBSP_ML },
    { "tsp", NULL, 0.5, 0, 0.75 * TSP_ML, 6.0 * TSP_ML },
    { "tsp", NULL, 0.25, 0, 0.2 * TSP_ML, 6.0 * TSP_ML },
    { "tsp", NULL, 0.125, 0, 0.1 * TSP_ML, 1.0 * TSP_ML },
};
static const shape masses[] = {
    { "lb", NULL, 0.5, 0, 2.0 * LB_G, HUGE_VAL },
    { "lb", "oz", 1.0, 1.0, 1.0 * LB_G, HUGE_VAL },
    { "lb", "oz", 1.0, 0.25, 1.0 * LB_G, HUGE_VAL },
    { "oz", NULL, 0.5, 0, 0.9 * OZ_G, LB_G },
    { "oz", NULL, 0.25, 0, 0.2 * OZ_G, LB_G },
};

/* The largest whole number that is not above x, and the smallest not below,
 * where x comes from a quotient of doubles: a value within a billionth of a
 * whole number is that number. */
static double
floor_near(double x)
{
    return floor(x + 1e-9);
}

static double
ceil_near(double x)
{
    return ceil(x - 1e-9);
}

static double
round_by(double x, pottle_keep keep)
{
    return keep == POTTLE_AT_LEAST ? ceil_near(x)
         : keep == POTTLE_AT_MOST  ? floor_near(x)
                                   : floor(x + 0.5);
}

static bool
near_enough(double got, double wanted, pottle_keep keep, double free_error)
{
    const double error = got / wanted - 1.0;
    switch (keep) {
    case POTTLE_EXACT:
        return error >= -POTTLE_EXACT_TOLERANCE &&
               error <= POTTLE_EXACT_TOLERANCE;
    case POTTLE_AT_LEAST: return error >= -1e-8 && error <= loose;
    case POTTLE_AT_MOST: return error <= 1e-8 && error >= -loose;
    case POTTLE_FREE: return error >= -free_error && error <= free_error;
    }
    return false;
}

static void
set_part(pottle_measure *m, double count, const pottle_unit *unit)
{
    m->part[m->parts].count = count;
    m->part[m->parts].unit = unit;
    m->part[m->parts++].size[0] = '\0';
    m->base += count * unit->factor;
}

static bool
try_shape(const shape *s, double amount, pottle_keep keep, double free_error,
          pottle_measure *out)
{
    if (!(amount >= s->from * (1 - 1e-9) && amount <= s->to))
        return false;
    const pottle_unit *big = pottle_unit_find(s->big);
    const double step = s->big_step * big->factor;
    pottle_measure m = { 0 };
    if (s->small == NULL) {
        const double n = round_by(amount / step, keep);
        if (!(n > 0))
            return false;
        set_part(&m, n * s->big_step, big);
    } else {
        const pottle_unit *small = pottle_unit_find(s->small);
        const double fine = s->small_step * small->factor;
        const double total = round_by(amount / fine, keep); /* in small steps */
        const double per_big = floor(step / fine + 0.5);
        const double bigs = floor(total / per_big);
        const double left = total - bigs * per_big;
        if (!(bigs > 0))
            return false;
        set_part(&m, bigs * s->big_step, big);
        /* many teaspoons are tablespoons */
        const pottle_unit *spoon = pottle_unit_find("tbsp");
        const double per_spoon =
            strcmp(s->small, "tsp") == 0 && strcmp(s->big, "cup") == 0
                ? floor(spoon->factor / fine + 0.5)
                : HUGE_VAL;
        const double spoons = floor(left / per_spoon);
        if (spoons > 0)
            set_part(&m, spoons, spoon);
        if (left - spoons * (spoons > 0 ? per_spoon : 0) > 0)
            set_part(&m,
                     (left - (spoons > 0 ? spoons * per_spoon : 0)) *
                         s->small_step,
                     small);
    }
    if (!near_enough(m.base, amount, keep, free_error))
        return false;
    *out = m;
    return true;
}

pottle_status
pottle_measure_round(double amount, pottle_dimension dimension,
                     pottle_keep keep, pottle_measure *out)
{
    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(amount > 0 && amount <= 1e12))
        return POTTLE_EDOMAIN;
    if (dimension == POTTLE_COUNT) {
        /* what is free is rounded to half pieces, the rest to whole ones */
        const double step = keep == POTTLE_FREE ? 0.5 : 1.0;
        const double n = round_by(amount / step, keep) * step;
        const double error = fabs(n / amount - 1.0);
        if (!(n > 0) ||
            (keep == POTTLE_EXACT && error > POTTLE_EXACT_TOLERANCE) ||
            (keep != POTTLE_EXACT && error > 0.34))
            return POTTLE_EDOMAIN;
        pottle_measure m = { 0 };
        set_part(&m, n, pottle_unit_find("count"));
        *out = m;
        return POTTLE_OK;
    }
    const shape *list = dimension == POTTLE_VOLUME ? volumes : masses;
    const size_t n = dimension == POTTLE_VOLUME
                       ? sizeof volumes / sizeof volumes[0]
                   : dimension == POTTLE_MASS ? sizeof masses / sizeof masses[0]
                                              : 0;
    for (size_t k = 0; k < (keep == POTTLE_FREE ? FREE_STEPS : 1); k++)
        for (size_t i = 0; i < n; i++)
            if (try_shape(&list[i], amount, keep, free_steps[k], out))
                return POTTLE_OK;
    return POTTLE_EDOMAIN;
}

/* -- Writing --------------------------------------------------------------- */

/* 2.25 as "2 1/4"; steps are eighths, thirds or halves. */
static void
write_count(double count, char *buf, size_t size)
{
    static const struct {
        double part;
        const char *text;
    } parts[] = {
        { 1.0 / 8, "1/8" }, { 1.0 / 4, "1/4" }, { 1.0 / 3, "1/3" },
        { 3.0 / 8, "3/8" }, { 1.0 / 2, "1/2" }, { 5.0 / 8, "5/8" },
        { 2.0 / 3, "2/3" }, { 3.0 / 4, "3/4" }, { 7.0 / 8, "7/8" },
    };
    const double whole = floor(count + 1e-6), rest = count - whole;
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (fabs(rest - parts[i].part) < 1e-6) {
            if (whole > 0)
                snprintf(buf, size, "%.0f %s", whole, parts[i].text);
            else
                snprintf(buf, size, "%s", parts[i].text);
            return;
        }
    }
    pottle_number_write(count, 2, buf, size);
}

/* "3 large", but "3 cloves" */
static bool
is_size(const char *name)
{
    static const char *const sizes[] = { "one", "small", "medium", "large",
                                         "extra-large" };
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
        if (strcmp(name, sizes[i]) == 0)
            return true;
    return false;
}

pottle_status
pottle_measure_jars(double each, const pottle_unit *unit, const char *size,
                    unsigned long jars, pottle_keep keep, pottle_measure *out)
{
    pottle_measure m;
    const pottle_status status = pottle_measure_round(
        each * (double)jars * unit->factor, unit->dimension, keep, &m);
    if (status != POTTLE_OK)
        return status;
    if (unit->dimension == POTTLE_COUNT && size != NULL)
        POTTLEI_SET(m.part[0].size, size);
    *out = m;
    return POTTLE_OK;
}

size_t
pottle_measure_write(const pottle_measure *measure, char *buf, size_t size)
{
    char text[160] = "";
    size_t n = 0;
    for (size_t i = 0; i < measure->parts; i++) {
        char count[32];
        write_count(measure->part[i].count, count, sizeof count);
        const pottle_unit *unit = measure->part[i].unit;
        const bool many = measure->part[i].count > 1 + 1e-9;
        const char *name = unit->dimension == POTTLE_COUNT
                             ? measure->part[i].size
                             : unit->symbol;
        const bool plural = many && (strcmp(name, "cup") == 0 ||
                                     (unit->dimension == POTTLE_CONTAINER &&
                                      strcmp(name, unit->id) == 0) ||
                                     (unit->dimension == POTTLE_COUNT &&
                                      name[0] != '\0' && !is_size(name)));
        const bool shown = name[0] != '\0' && strcmp(name, "one") != 0;
        if (plural && strcmp(name, "leaf") == 0)
            name = "leave";
        const char *ending =
            !plural ? ""
            : name[strlen(name) - 1] == 'h' || name[strlen(name) - 1] == 'x'
                ? "es"
                : "s";
        n += (size_t)snprintf(text + n, sizeof text - n, "%s%s%s%s%s",
                              i == 0 ? "" : " + ", count, shown ? " " : "",
                              shown ? name : "", ending);
    }
    if (size > 0)
        pottlei_copy(buf, size, text);
    return n;
}
