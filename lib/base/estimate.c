/* estimate.c - positive quantities known to within a factor.
 *
 * An estimate is a lognormal: median and standard deviation of the logarithm.
 * Products add variances; that is exact. A sum is not lognormal and is matched
 * in mean and variance. */
#include <config.h>

#include <gsl/gsl_cdf.h>
#include <math.h>

#include "internal.h"

pottle_status
pottle_estimate_between(double low, double high, pottle_estimate *out)
{
    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(low > 0 && low <= high && high <= HUGE_VAL) || isinf(high))
        return POTTLE_EDOMAIN;
    /* low == high gives that number exactly; the other form is for a quotient
     * that overflows */
    const double ratio = high / low;
    out->median = isinf(ratio) ? sqrt(low) * sqrt(high) : low * sqrt(ratio);
    out->sd =
        (isinf(ratio) ? log(high) - log(low) : log(ratio)) / (2.0 * POTTLE_Z95);
    return POTTLE_OK;
}

pottle_estimate
pottle_estimate_times(pottle_estimate a, pottle_estimate b)
{
    return (pottle_estimate){ a.median * b.median, hypot(a.sd, b.sd) };
}

pottle_estimate
pottle_estimate_over(pottle_estimate a, pottle_estimate b)
{
    return (pottle_estimate){ a.median / b.median, hypot(a.sd, b.sd) };
}

pottle_estimate
pottle_estimate_multiple(pottle_estimate a, double k)
{
    return (pottle_estimate){ a.median * k, a.sd };
}

pottle_estimate
pottle_estimate_sum(const pottle_estimate *terms, size_t n)
{
    double mean = 0, variance = 0;
    for (size_t i = 0; i < n; i++) {
        const double s2 = terms[i].sd * terms[i].sd;
        const double m = terms[i].median * exp(s2 / 2.0);
        mean += m;
        variance += m * m * expm1(s2);
    }
    if (!(mean > 0))
        return (pottle_estimate){ 0, 0 };
    const double s2 = log1p(variance / (mean * mean)), sd = sqrt(s2);
    return (pottle_estimate){ mean * exp(-s2 / 2.0), sd };
}

pottle_estimate
pottle_estimate_combine(pottle_estimate a, pottle_estimate b)
{
    const double va = a.sd * a.sd, vb = b.sd * b.sd;
    if (!(va > 0))
        return a;
    if (!(vb > 0))
        return b;
    /* weights va, vb crosswise keep the sum of the two from overflowing */
    const double wb = va / (va + vb);
    return (
        pottle_estimate){ exp((1.0 - wb) * log(a.median) + wb * log(b.median)),
                          sqrt(va * vb / (va + vb)) };
}

pottle_status
pottle_estimate_quantile(pottle_estimate e, double p, double *out)
{
    if (out == NULL)
        return POTTLE_EMISUSE;
    if (!(p > 0 && p < 1))
        return POTTLE_EDOMAIN;
    *out = e.median * exp(e.sd * gsl_cdf_ugaussian_Pinv(p));
    return POTTLE_OK;
}

pottle_interval
pottle_estimate_interval(pottle_estimate e)
{
    const double f = exp(POTTLE_Z95 * e.sd);
    return (pottle_interval){ e.median / f, e.median, e.median * f };
}
