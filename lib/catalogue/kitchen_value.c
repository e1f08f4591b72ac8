/* kitchen_value.c - the single values of a kitchen file: kinds of cup, amounts
 * with their units and ranges, misreadings, counts. */
#include <config.h>

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "kitchen_file.h"

const char *const pottlei_cup_names[] = { "unsaid", "us", "imperial", "metric",
                                          NULL };

const char *
pottle_cup_name(int cup)
{
    return cup >= 0 && cup <= (int)POTTLE_CUP_METRIC ? pottlei_cup_names[cup]
                                                     : "unknown";
}

pottle_status
pottle_cup_find(const char *name, pottle_cup *out, pottle_error *error)
{
    if (name == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no name or no place for the result");
    for (int i = POTTLE_CUP_US; i <= (int)POTTLE_CUP_METRIC; i++)
        if (strcmp(name, pottlei_cup_names[i]) == 0) {
            *out = (pottle_cup)i;
            return POTTLE_OK;
        }
    return pottlei_fail(
        error, POTTLE_ENOENT, "cup",
        "'%.40s' is no kind of cup; there are us, imperial and metric", name);
}

bool
pottlei_complain(pottlei_complaint *c, pottle_status status, const char *code,
                 const char *what, ...)
{
    va_list args;
    c->status = status;
    c->code = code;
    va_start(args, what);
    vsnprintf(c->what, sizeof c->what, what, args);
    va_end(args);
    return false;
}

/* -- Amounts --------------------------------------------------------------- */

/* Ranges in the base unit (mm, g, Pa, deg C), of percent in percent; wide
 * enough for any kitchen. The first unit is the one that others become. */
static const struct kind {
    const char *name, *units[5];
    double low, high;
} kinds[] = {
    [POTTLEI_ALTITUDE] = { "the altitude",
                           { "m", "ft" },
                           0,
                           1000.0 * POTTLE_ALTITUDE_MAX_M },
    [POTTLEI_SCALE_ERROR] = { "the error of the scale",
                              { "g", "oz", "percent" },
                              0.001,
                              500 },
    [POTTLEI_GAUGE_ERROR] = { "the error of the gauge",
                              { "psi", "kpa", "bar" },
                              0,
                              1.1e5 },
    [POTTLEI_THERMOMETER_ERROR] = { "the error of the thermometer",
                                    { "degc", "degf" },
                                    0,
                                    20 },
    [POTTLEI_MASS_OF_JAR] = { "the mass of the jar",
                              { "g", "kg", "oz", "lb" },
                              1,
                              20000 },
    [POTTLEI_TARE] = { "the mass of the pot",
                       { "g", "kg", "oz", "lb" },
                       10,
                       50000 },
    [POTTLEI_WIDTH] = { "the width of the pot",
                        { "mm", "cm", "in" },
                        50,
                        1000 },
    [POTTLEI_DEPTH] = { "the depth of the mark", { "mm", "cm", "in" }, 1, 150 },
    [POTTLEI_MOUTH] = { "the width of the mouth",
                        { "mm", "cm", "in" },
                        10,
                        250 },
    [POTTLEI_WATER_TEMPERATURE] = { "the temperature of the water",
                                    { "degc", "degf" },
                                    0,
                                    40 },
};

static bool
unit_fits(const struct kind *k, const pottle_unit *unit)
{
    for (size_t i = 0;
         i < sizeof k->units / sizeof k->units[0] && k->units[i] != NULL; i++)
        if (strcmp(k->units[i], unit->id) == 0)
            return true;
    return false;
}

static bool
is_difference(pottlei_amount_kind kind)
{
    return kind == POTTLEI_THERMOMETER_ERROR || kind == POTTLEI_GAUGE_ERROR;
}

bool
pottlei_amount_good(pottlei_amount_kind kind, const pottle_quantity *q,
                    pottlei_complaint *c)
{
    const struct kind *k = &kinds[kind];
    if (q->unit == NULL || !unit_fits(k, q->unit))
        return pottlei_complain(c, POTTLE_EUNIT, "unit",
                                "'%.20s' is not a unit of %s",
                                q->unit != NULL ? q->unit->id : "", k->name);
    const bool percent = q->unit->dimension == POTTLE_NUMBER;
    const double base = percent
                          ? q->low
                          : q->low * q->unit->factor +
                                (is_difference(kind) ? 0 : q->unit->offset);
    const double high = percent ? 20 : k->high;
    /* the ends of a range stand in one unit and may be typed in another */
    const double slack = 1e-9 * high;
    char number[40];
    pottle_number_write(q->low, 6, number, sizeof number);
    if (!(base >= k->low - slack && base <= high + slack) || q->high < q->low ||
        q->high > q->low || (q->low > 0 && q->low < POTTLE_NUMBER_MIN))
        return pottlei_complain(c, POTTLE_EDOMAIN, "range",
                                "%s cannot be %s %s", k->name, number,
                                q->unit->id);
    return true;
}

pottle_status
pottle_kitchen_amount(const char *text, int dimension, pottle_quantity *out,
                      pottle_error *error)
{
    static const struct {
        int dimension;
        pottlei_amount_kind kind;
    } first[] = {
        { POTTLE_MASS, POTTLEI_TARE },
        { POTTLE_LENGTH, POTTLEI_WIDTH },
        { POTTLE_TEMPERATURE, POTTLEI_WATER_TEMPERATURE },
        { POTTLE_NUMBER, POTTLEI_SCALE_ERROR },
        { POTTLE_PRESSURE, POTTLEI_GAUGE_ERROR },
    };
    if (text == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no text or no place for the result");
    const struct kind *k = NULL;
    for (size_t i = 0; i < sizeof first / sizeof first[0]; i++)
        if (first[i].dimension == dimension)
            k = &kinds[first[i].kind];
    if (k == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "a kitchen file has no such amount");
    pottle_quantity q;
    pottle_status status = pottle_quantity_read(
        text, dimension == POTTLE_NUMBER ? -1 : dimension, &q, error);
    if (status != POTTLE_OK)
        return status;
    if (q.high > q.low)
        return pottlei_fail(error, POTTLE_ESYNTAX, "range",
                            "'%.60s' is a range; one number is wanted", text);
    if (dimension == POTTLE_NUMBER && q.unit->dimension != POTTLE_MASS &&
        q.unit->dimension != POTTLE_NUMBER)
        return pottlei_fail(
            error, POTTLE_EUNIT, "dimension",
            "'%.60s': a scale is out by a mass or by a percentage", text);
    /* a height is a length too, but in metres or feet it stays as it is */
    const bool height = dimension == POTTLE_LENGTH &&
                        unit_fits(&kinds[POTTLEI_ALTITUDE], q.unit);
    if (!height && !unit_fits(k, q.unit)) {
        const pottle_unit *unit = pottle_unit_find(
            dimension == POTTLE_LENGTH && q.unit->factor > 1000 ? "m"
                                                                : k->units[0]);
        status = pottle_unit_convert(q.low, q.unit, unit, &q.low, error);
        if (status != POTTLE_OK)
            return status;
        q.high = q.low;
        q.unit = unit;
    }
    *out = q;
    return POTTLE_OK;
}

pottle_status
pottle_misreading_read(const char *text, int dimension, pottle_misreading *out,
                       pottle_error *error)
{
    if (text == NULL || out == NULL ||
        (dimension != POTTLE_PRESSURE && dimension != POTTLE_TEMPERATURE))
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no text, no place for the result or no such instrument");
    /* the last word says which way */
    char amount[80], way[16] = "";
    size_t n = strnlen(text, sizeof amount - 1);
    pottlei_copy(amount, sizeof amount, text);
    while (n > 0 && amount[n - 1] == ' ')
        amount[--n] = '\0';
    char *last = strrchr(amount, ' ');
    if (last != NULL)
        (void)pottlei_fold(last, way, sizeof way);
    const bool high = strcmp(way, "high") == 0, low = strcmp(way, "low") == 0;
    if (last != NULL && (high || low))
        *last = '\0';
    pottle_misreading m = { high, { 0, 0, NULL } };
    /* a difference of temperatures has no zero to shift, so its unit is never
     * changed */
    pottle_status status =
        dimension == POTTLE_TEMPERATURE
            ? pottle_quantity_read(amount, dimension, &m.by, error)
            : pottle_kitchen_amount(amount, dimension, &m.by, error);
    if (status != POTTLE_OK)
        return status;
    if (m.by.high > m.by.low || (m.by.low > 0 && !high && !low))
        return pottlei_fail(error, POTTLE_ESYNTAX, "misreading",
                            "'%.60s' does not say by how much it reads high or "
                            "low, such as '1 psi high'",
                            text);
    *out = m;
    return POTTLE_OK;
}

double
pottle_misreading_base(pottle_misreading m)
{
    return m.by.unit == NULL ? 0
                             : (m.high ? 1 : -1) * m.by.low * m.by.unit->factor;
}

bool
pottlei_count_good(unsigned long count, pottlei_complaint *c)
{
    if (count < 1 || count > POTTLE_KITCHEN_COUNT_MAX)
        return pottlei_complain(c, POTTLE_EDOMAIN, "count",
                                "a number of jars lies between 1 and %d",
                                (int)POTTLE_KITCHEN_COUNT_MAX);
    return true;
}
