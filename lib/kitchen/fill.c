/* fill.c - what a jar holds and how many jars a volume fills. */
#include <config.h>

#include <math.h>

#include "kitchen/kitchen.h"

pottle_status
pottlei_headspace_check(pottle_length headspace, pottle_error *error)
{
    if (headspace.mm >= 2 && headspace.mm <= 60)
        return POTTLE_OK;
    return pottlei_fail(
        error, POTTLE_EDOMAIN, "headspace",
        "a headspace lies between 2 and 60 mm (1/8 to 2 1/4 in)");
}

pottle_status
pottle_jar_fill(const pottle_catalogue *catalogue, const pottle_jar *jar,
                pottle_length headspace, pottle_estimate *out,
                pottle_error *error)
{
    if (catalogue == NULL || jar == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, jar or place for the result");
    const pottle_status status = pottlei_headspace_check(headspace, error);
    if (status != POTTLE_OK)
        return status;
    pottle_length mouth;
    if (pottle_mouth_diameter(catalogue, !jar->regular, &mouth) != POTTLE_OK)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "the jars were not read");
    const double reference_mm =
        pottlei_figure(catalogue, "jar-fill-reference", 0.5) * POTTLEI_INCH_MM;
    const double area_mm2 = POTTLEI_PI / 4.0 * mouth.mm * mouth.mm;
    const double ml =
        jar->nominal_ml + (reference_mm - headspace.mm) * area_mm2 / 1000.0;
    if (!(ml > 0.1 * jar->nominal_ml))
        return pottlei_fail(error, POTTLE_EDOMAIN, "headspace",
                            "that headspace leaves no room in a %s jar",
                            jar->id);
    *out = (pottle_estimate){ ml, pottlei_figure(catalogue, "spread-jar-fill",
                                                 0.03) };
    return POTTLE_OK;
}

/* A count that a long can hold on every machine. */
static unsigned long
to_count(double x)
{
    return x >= 1e9 ? 1000000000ul : x > 0 ? (unsigned long)x : 0;
}

pottle_status
pottle_jars_count(pottle_estimate volume_ml, pottle_estimate fill_ml,
                  pottle_jar_count *out)
{
    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(volume_ml.median > 0 && volume_ml.median <= 1e12 &&
          volume_ml.sd >= 0 && volume_ml.sd < 10) ||
        !(fill_ml.median > 0 && fill_ml.median <= 1e9 && fill_ml.sd >= 0 &&
          fill_ml.sd < 10))
        return POTTLE_EDOMAIN;
    const pottle_estimate count = pottle_estimate_over(volume_ml, fill_ml);
    /* more jars than can be counted is a slip of the pen */
    if (!(pottle_estimate_interval(count).high <= POTTLE_NUMBER_MAX))
        return POTTLE_EDOMAIN;
    double tenth = 0, ninth = 0;
    if (pottle_estimate_quantile(count, 0.1, &tenth) != POTTLE_OK ||
        pottle_estimate_quantile(count, 0.9, &ninth) != POTTLE_OK)
        return POTTLE_EDOMAIN;
    const double full = floor(count.median * (1 + 1e-9));
    out->volume_ml = volume_ml;
    out->fill_ml = fill_ml;
    out->count = count;
    out->promise = to_count(floor(tenth * (1 + 1e-9)));
    out->prepare = to_count(ceil(ninth * (1 - 1e-9)));
    out->full = to_count(full);
    out->remainder_ml = fmax(0, volume_ml.median - full * fill_ml.median);
    return POTTLE_OK;
}
