/* own_jar.c - a person's own jars, shelf and cup.
 *
 * A jar is known from weighings with water. Its content is a straight line in
 * the headspace h: what is in it up to the brim less h times the area of the
 * neck. With a mark at the depth d the masses alone decide,
 *
 *     m(h) = (1 - h/d) full + (h/d) to-mark - empty
 *
 * and the error of each reading is counted once. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/kitchen.h"

static double
base(pottle_quantity q)
{
    return q.low * q.unit->factor + q.unit->offset;
}

/* Standard deviation of a reading of the scale (g). */
static double
reading_sd(const pottle_catalogue *catalogue, const pottle_own_jar *jar,
           double g)
{
    if (jar->scale.unit == NULL)
        return g * pottlei_figure(catalogue, "error-scale", 0.005);
    return jar->scale.unit->dimension == POTTLE_MASS ? base(jar->scale)
                                                     : g * jar->scale.low / 100;
}

/* Density of the water; from the tap when no temperature was read, where it
 * lies between that at two. */
static pottle_status
density(const pottle_catalogue *catalogue, const pottle_own_jar *jar,
        pottle_estimate *out, pottle_error *error)
{
    pottle_density one, other;
    if (jar->water.unit != NULL) {
        if (pottle_water_density(base(jar->water), &one) != POTTLE_OK)
            return pottlei_fail(error, POTTLE_EDOMAIN, "temperature",
                                "water is weighed between 0 and 40 deg C");
        *out = (pottle_estimate){ one.g_ml, 0 };
        return POTTLE_OK;
    }
    const pottle_figure *tap = pottle_figure_find(catalogue, "water-from-tap");
    if (pottle_water_density(tap != NULL ? tap->value : 10, &one) !=
            POTTLE_OK ||
        pottle_water_density(tap != NULL ? tap->to : 25, &other) != POTTLE_OK ||
        pottle_estimate_between(fmin(one.g_ml, other.g_ml),
                                fmax(one.g_ml, other.g_ml), out) != POTTLE_OK)
        return pottlei_fail(error, POTTLE_EDOMAIN, "temperature",
                            "the water of the tap is out of range");
    return POTTLE_OK;
}

static bool
readings_good(const pottle_own_jar *jar, pottle_error *error)
{
    if (jar->empty.unit == NULL || jar->full.unit == NULL ||
        !(base(jar->empty) > 0 && base(jar->empty) <= 1e6) ||
        !(base(jar->full) <= 1e6)) {
        (void)pottlei_fail(
            error, POTTLE_EDOMAIN, "weighing",
            "a jar takes two weighings, empty and full to the brim");
        return false;
    }
    if (!(base(jar->full) > base(jar->empty))) {
        (void)pottlei_fail(
            error, POTTLE_EDOMAIN, "contradiction",
            "%s weighs %g g empty and %g g full: full it must weigh more",
            jar->id, base(jar->empty), base(jar->full));
        return false;
    }
    return true;
}

/* Area of the neck from the mouth that was measured or from the listed ones,
 * with its standard deviation (mm2). */
static pottle_status
neck(const pottle_catalogue *catalogue, const pottle_own_jar *jar, double *area,
     double *sd, pottle_error *error)
{
    pottle_length regular, wide;
    if (jar->mouth.unit != NULL) {
        const double d = base(jar->mouth);
        *area = POTTLEI_PI / 4 * d * d;
        *sd =
            POTTLEI_PI / 2 * d * pottlei_figure(catalogue, "error-ruler", 0.5);
        return POTTLE_OK;
    }
    if (pottle_mouth_diameter(catalogue, false, &regular) != POTTLE_OK ||
        pottle_mouth_diameter(catalogue, true, &wide) != POTTLE_OK)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "the jars were not read");
    const pottle_jar *near = NULL;
    if (jar->near[0] != '\0' &&
        pottle_jar_find(catalogue, jar->near, &near, error) != POTTLE_OK)
        return POTTLE_ENOENT;
    const double narrow = near != NULL && !near->regular ? wide.mm : regular.mm,
                 broad = near != NULL && !near->wide ? regular.mm : wide.mm;
    pottle_estimate e;
    if (pottle_estimate_between(POTTLEI_PI / 4 * narrow * narrow,
                                POTTLEI_PI / 4 * broad * broad,
                                &e) != POTTLE_OK)
        return pottlei_fail(error, POTTLE_EDOMAIN, "mouth",
                            "the mouths are out of range");
    *area = e.median;
    *sd = e.median * e.sd;
    return POTTLE_OK;
}

/* What is in it at a headspace, 0 for the brim. */
static pottle_status
content(const pottle_catalogue *catalogue, const pottle_own_jar *jar,
        double h_mm, pottle_estimate *out, pottle_error *error)
{
    pottle_estimate rho;
    if (!readings_good(jar, error))
        return POTTLE_EDOMAIN;
    pottle_status status = density(catalogue, jar, &rho, error);
    if (status != POTTLE_OK)
        return status;
    const double empty = base(jar->empty), full = base(jar->full),
                 se = reading_sd(catalogue, jar, empty),
                 sf = reading_sd(catalogue, jar, full);
    double ml = (full - empty) / rho.median,
           variance = (se * se + sf * sf) / (rho.median * rho.median);
    if (h_mm > 0 && jar->to_mark.unit != NULL && jar->mark.unit != NULL) {
        const double d = base(jar->mark), marked = base(jar->to_mark),
                     sm = reading_sd(catalogue, jar, marked);
        if (!(d > 0 && marked > empty && marked < full))
            return pottlei_fail(error, POTTLE_EDOMAIN, "contradiction",
                                "%s weighs %g g filled to the mark, which does "
                                "not lie between %g g empty and %g g full",
                                jar->id, marked, empty, full);
        const double t = h_mm / d,
                     by_depth = t * (full - marked) *
                                pottlei_figure(catalogue, "error-ruler", 0.5) /
                                d;
        ml = ((1 - t) * full + t * marked - empty) / rho.median;
        variance = ((1 - t) * (1 - t) * sf * sf + t * t * sm * sm + se * se +
                    by_depth * by_depth) /
                   (rho.median * rho.median);
    } else if (h_mm > 0) {
        double area = 0, sd = 0;
        status = neck(catalogue, jar, &area, &sd, error);
        if (status != POTTLE_OK)
            return status;
        ml -= h_mm * area / 1000;
        variance += h_mm * sd / 1000 * h_mm * sd / 1000;
    }
    if (!(ml > 0.1 * (full - empty) / rho.median))
        return pottlei_fail(error, POTTLE_EDOMAIN, "headspace",
                            "a headspace of %.0f mm leaves no room in %s", h_mm,
                            jar->id);
    *out = (pottle_estimate){ ml, hypot(sqrt(variance) / ml, rho.sd) };
    return POTTLE_OK;
}

pottle_status
pottle_own_jar_brim(const pottle_catalogue *catalogue,
                    const pottle_own_jar *jar, pottle_estimate *out,
                    pottle_error *error)
{
    if (catalogue == NULL || jar == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, jar or place for the result");
    return content(catalogue, jar, 0, out, error);
}

pottle_status
pottle_own_jar_fill(const pottle_catalogue *catalogue,
                    const pottle_own_jar *jar, pottle_length headspace,
                    pottle_estimate *out, pottle_error *error)
{
    if (catalogue == NULL || jar == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, jar or place for the result");
    const pottle_status status = pottlei_headspace_check(headspace, error);
    return status == POTTLE_OK
             ? content(catalogue, jar, headspace.mm, out, error)
             : status;
}

pottle_status
pottle_own_jar_size(const pottle_catalogue *catalogue,
                    const pottle_own_jar *jar, const pottle_jar **out,
                    pottle_error *error)
{
    if (catalogue == NULL || jar == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, jar or place for the result");
    pottle_estimate holds;
    pottle_status status = content(
        catalogue, jar,
        pottlei_figure(catalogue, "jar-fill-reference", 0.5) * POTTLEI_INCH_MM,
        &holds, error);
    if (status != POTTLE_OK)
        return status;
    const pottle_jar *near = NULL;
    if (jar->near[0] != '\0' &&
        pottle_jar_find(catalogue, jar->near, &near, error) != POTTLE_OK)
        return POTTLE_ENOENT;
    /* a jar that may be larger is taken for larger: its process is the longer
     * one */
    const double larger = 1 + pottlei_figure(catalogue, "own-jar-larger", 0.05);
    double most = pottle_estimate_interval(holds).high / larger;
    /* nor does a mouth or mark that was read wrong make it smaller: a half inch
     * under the brim takes no more away than in the widest listed mouth */
    pottle_length wide;
    pottle_estimate brim;
    status = content(catalogue, jar, 0, &brim, error);
    if (status != POTTLE_OK)
        return status;
    if (pottle_mouth_diameter(catalogue, true, &wide) != POTTLE_OK)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "the jars were not read");
    const double least = pottle_estimate_interval(brim).high -
                         pottlei_figure(catalogue, "jar-fill-reference", 0.5) *
                             POTTLEI_INCH_MM * POTTLEI_PI / 4 * wide.mm *
                             wide.mm / 1000;
    if (least / larger > most)
        most = least / larger;
    size_t n = 0;
    const pottle_jar *list = pottle_jars(catalogue, &n);
    if (n == 0)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "the jars were not read");
    for (size_t i = 0; i < n; i++) {
        if (list[i].nominal_ml < most ||
            (near != NULL && list[i].nominal_ml < near->nominal_ml))
            continue;
        *out = &list[i];
        return POTTLE_OK;
    }
    return pottlei_refuse(
        catalogue, error, "jar-larger", "jar-size-larger", NULL,
        "%s holds %.0f mL, more than the largest size that is listed", jar->id,
        holds.median);
}

/* -- The shelf ------------------------------------------------------------- */

pottle_status
pottle_shelf_read(const pottle_catalogue *catalogue,
                  const pottle_kitchen *kitchen, const char *text,
                  pottle_shelf_size *out, pottle_error *error)
{
    if (catalogue == NULL || text == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, text or place for the result");
    const char *s = text + strspn(text, " \t");
    const size_t digits = strspn(s, "0123456789"),
                 blanks = strspn(s + digits, " \t");
    const char *name = s + digits + blanks;
    if (digits == 0 || blanks == 0 || *name == '\0')
        return pottlei_fail(
            error, POTTLE_ESYNTAX, "shelf",
            "'%.60s' is not a number of jars and their size, such as '6 pint'",
            text);
    unsigned long count = 0;
    for (size_t i = 0; i < digits && count <= POTTLE_KITCHEN_COUNT_MAX; i++)
        count = 10 * count + (unsigned long)(s[i] - '0');
    if (count == 0 || count > POTTLE_KITCHEN_COUNT_MAX)
        return pottlei_fail(error, POTTLE_EDOMAIN, "count",
                            "'%.60s': a number of jars lies between 1 and %d",
                            text, (int)POTTLE_KITCHEN_COUNT_MAX);
    pottle_shelf_size size = {
        NULL, kitchen != NULL ? pottle_own_jar_find(kitchen, name) : NULL, count
    };
    if (size.own == NULL) {
        const pottle_status status =
            pottle_jar_find(catalogue, name, &size.jar, error);
        if (status != POTTLE_OK)
            return status;
    }
    *out = size;
    return POTTLE_OK;
}

pottle_status
pottle_kitchen_shelf(const pottle_catalogue *catalogue,
                     const pottle_kitchen *kitchen, pottle_shelf_size *out,
                     size_t *count, pottle_error *error)
{
    if (catalogue == NULL || kitchen == NULL || out == NULL || count == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, kitchen or place for the result");
    pottle_shelf_size list[POTTLE_SHELF_MAX];
    size_t n = 0, all = kitchen->shelves;
    for (size_t i = 0; i < kitchen->own_jars; i++)
        all += kitchen->own[i].count > 0;
    if (all > POTTLE_SHELF_MAX)
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "shelf",
            "more than %d sizes of jar on the shelf: name those to use",
            (int)POTTLE_SHELF_MAX);
    for (size_t i = 0; i < kitchen->shelves; i++) {
        list[n] = (pottle_shelf_size){ NULL, NULL, kitchen->shelf[i].count };
        const pottle_status status = pottle_jar_find(
            catalogue, kitchen->shelf[i].jar, &list[n].jar, error);
        if (status != POTTLE_OK)
            return status;
        n++;
    }
    for (size_t i = 0; i < kitchen->own_jars; i++)
        if (kitchen->own[i].count > 0)
            list[n++] = (pottle_shelf_size){ NULL, &kitchen->own[i],
                                             kitchen->own[i].count };
    memcpy(out, list, n * sizeof list[0]);
    *count = n;
    return POTTLE_OK;
}

bool
pottle_shelf_has(const pottle_kitchen *kitchen, const pottle_jar_count *jars,
                 pottle_shelf_stock *out)
{
    if (kitchen == NULL || jars == NULL || jars->jar == NULL || out == NULL)
        return false;
    unsigned long there = 0;
    bool known = jars->own == NULL && kitchen->shelves > 0;
    for (size_t i = 0; i < kitchen->shelves && jars->own == NULL; i++)
        if (strcmp(kitchen->shelf[i].jar, jars->jar->id) == 0)
            there += kitchen->shelf[i].count;
    for (size_t i = 0; i < kitchen->own_jars; i++) {
        const unsigned long count = kitchen->own[i].count;
        if (jars->own == NULL) {
            known = known || count > 0;
        } else if (strcmp(kitchen->own[i].id, jars->own->id) == 0) {
            there = count;
            known = count > 0;
        }
    }
    if (!known)
        return false;
    *out =
        (pottle_shelf_stock){ there,
                              there < jars->prepare ? jars->prepare - there : 0,
                              there < jars->full ? jars->full - there : 0 };
    return true;
}

/* -- The cup --------------------------------------------------------------- */

bool
pottle_kitchen_cup(const pottle_kitchen *kitchen, const char *text,
                   pottle_phrase *phrase)
{
    static const char *const cups[] = { NULL, NULL, "imp-cup", "metric-cup" };
    if (kitchen == NULL || text == NULL || phrase == NULL ||
        phrase->unit == NULL || (int)kitchen->cup < 0 ||
        (int)kitchen->cup > (int)POTTLE_CUP_METRIC ||
        cups[kitchen->cup] == NULL || strcmp(phrase->unit->id, "cup") != 0)
        return false;
    char folded[POTTLE_PHRASE_MAX + 2];
    (void)pottlei_fold_singular(text, folded, sizeof folded);
    if (strstr(folded, "us cup") != NULL)
        return false;
    phrase->unit = pottle_unit_find(cups[kitchen->cup]);
    return true;
}
