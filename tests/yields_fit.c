/* yields_fit.c - the recipes whose yield is printed, and the fit that leaves
 * each of them out. */
#include <config.h>

#include "yields_fit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* -- The recipes ----------------------------------------------------------- */

item list[ITEMS_MAX];
size_t items;
char not_told[2000];

static bool
is_plain_pack(const pottle_recipe *recipe)
{
    const char *kind = pottle_recipe_kind(recipe);
    const size_t n = strlen(kind);
    return n > 5 && strcmp(kind + n - 5, "-pack") == 0;
}

static const char *
kind_words(const pottle_recipe *recipe)
{
    switch (pottle_recipe_cook(recipe)->end) {
    case POTTLE_END_GEL_POINT:
        return pottlei_cook_in_syrup(recipe) ? "fruit in syrup" : "gel point";
    case POTTLE_END_ADDED_PECTIN: return "added pectin";
    case POTTLE_END_REDUCE:
    case POTTLE_END_BUTTER: return "cooked down";
    case POTTLE_END_SIMMER: return "simmered";
    case POTTLE_END_PACKED: return "packed pieces";
    case POTTLE_END_AS_IS:
    case POTTLE_END_LOAD: break;
    }
    return "not cooked";
}

void
read_items(void)
{
    kitchen_open();
    items = 0;
    not_told[0] = '\0';
    for (int i = 0; i < kitchen_ids && items < ITEMS_MAX; i++) {
        item *it = &list[items];
        *it = (item){ .recipe = kitchen_recipe(kitchen_id[i]),
                      .id = kitchen_id[i] };
        pottle_error error = { .status = POTTLE_OK };
        size_t yields = 0;
        pottle_recipe_yields(it->recipe, &yields);
        if (is_plain_pack(it->recipe) || yields == 0) {
            pottle_recipe_free(it->recipe);
            continue;
        }
        if (pottle_yield_compare(kitchen, it->recipe, &it->c, &error) !=
            POTTLE_OK) {
            ck_assert_int_eq(error.status, POTTLE_ENOENT);
            const size_t n = strlen(not_told);
            snprintf(not_told + n, sizeof not_told - n, "* %s: %s.\n", it->id,
                     error.what);
            pottle_recipe_free(it->recipe);
            continue;
        }
        const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                         .batches = 1 };
        pottle_estimate fill;
        ck_assert_int_eq(
            pottle_scale(kitchen, it->recipe, &request, &it->plan, NULL),
            POTTLE_OK);
        ck_assert_int_eq(
            pottlei_cook_parts(kitchen, it->plan, 0, it->part, NULL),
            POTTLE_OK);
        ck_assert_int_eq(pottlei_printed_fill(kitchen, it->c.jar,
                                              it->plan->headspace, &fill, NULL),
                         POTTLE_OK);
        it->fill_ml = fill.median;
        ck_assert_int_eq(pottle_jar_fill(kitchen, it->c.jar,
                                         it->plan->headspace, &fill, NULL),
                         POTTLE_OK);
        it->filled_ml = fill.median;
        it->kind = kind_words(it->recipe);
        it->possible = it->c.verdict == POTTLE_YIELD_AGREES ||
                       it->c.verdict == POTTLE_YIELD_APART;
        items++;
    }
}

void
drop_items(void)
{
    while (items > 0) {
        items--;
        pottle_plan_free(list[items].plan);
        pottle_recipe_free(list[items].recipe);
    }
    kitchen_close();
}

/* -- The fit --------------------------------------------------------------- */

/* Where a parameter starts and how sure it is before any print is seen (log
 * sd): yield study, section 2; the last two, which the study did not have, are
 * judged: fruit in a syrup at the gel point, and chopped vegetables that lose
 * more than slices. Each is a number, or an estimate whose median comes first.
 */
const yield_parameter parameter[PARAMETERS] = {
    { "solids at the gel point", "cook-gel-solids",
      offsetof(pottlei_cook_values, gel), 0.65, 0.06 },
    { "solids of a fruit butter", "cook-butter-solids",
      offsetof(pottlei_cook_values, butter), 0.42, 0.10 },
    { "water lost in a 1-minute boil", "cook-pectin-loss",
      offsetof(pottlei_cook_values, pectin), 0.05, 0.6 },
    { "volume left by half", "cook-reduce",
      offsetof(pottlei_cook_values, reduce), 0.50, 0.15 },
    { "g/min from 4 kg", "cook-simmer-rate",
      offsetof(pottlei_cook_values, simmer), 20, 0.4 },
    { "drained from slices", "cook-drained-loss",
      offsetof(pottlei_cook_values, slices), 0.15, 0.5 },
    { "jar filled by firm pieces", "cook-tissue-firm",
      offsetof(pottlei_cook_values, firm), 0.57, 0.10 },
    { "jar filled by limp pieces", "cook-tissue-limp",
      offsetof(pottlei_cook_values, limp), 0.75, 0.10 },
    { "a cup of cut produce, over the table", "cook-cut-factor",
      offsetof(pottlei_cook_values, cut), 1.00, 0.08 },
    { "solids of fruit in syrup", "cook-preserves-solids",
      offsetof(pottlei_cook_values, preserves), 0.55, 0.15 },
    { "drained from chopped vegetables", "cook-drained-loss-chopped",
      offsetof(pottlei_cook_values, chopped), 0.25, 0.5 },
};

double *
parameter_of(pottlei_cook_values *values, size_t k)
{
    return (double *)(void *)((char *)values + parameter[k].at);
}

static double
jars_by(const pottlei_cook_values *values, const item *it)
{
    pottle_balance b;
    pottlei_input in;
    ck_assert_int_eq(pottlei_cook_add_up(values, it->recipe, it->part,
                                         it->plan->lines, 1, &in, NULL),
                     POTTLE_OK);
    ck_assert_int_eq(pottlei_cook_run(values, it->recipe, &in, &b, NULL),
                     POTTLE_OK);
    return b.volume_ml.median / it->fill_ml;
}

static bool
depends_on(const item *it, size_t k)
{
    pottlei_cook_values a, b;
    pottlei_cook_values_read(kitchen, &a);
    b = a;
    *parameter_of(&b, k) *= 1.01;
    return fabs(jars_by(&a, it) / jars_by(&b, it) - 1) > 1e-9;
}

static bool uses[ITEMS_MAX][PARAMETERS];

/* Penalised misfit of one parameter: Student's t with 4 degrees of freedom, so
 * that one odd print does not pull, about a spread of 0.17, and the start as
 * prior. */
static double
misfit(pottlei_cook_values *values, size_t k, double log_value, size_t without)
{
    static const double tau = 0.17, nu = 4;
    *parameter_of(values, k) = exp(log_value);
    const double off = (log_value - log(parameter[k].start)) / parameter[k].sd;
    double sum = 0.5 * off * off;
    for (size_t i = 0; i < items; i++) {
        if (i == without || !list[i].possible || !uses[i][k])
            continue;
        const double r =
            log(jars_by(values, &list[i]) / list[i].c.printed_jars.median) /
            tau;
        sum += 0.5 * (nu + 1) * log1p(r * r / nu);
    }
    return sum;
}

/* One parameter after the other, twice: a scan of three sd either way, then
 * golden sections. */
static pottlei_cook_values
fit(size_t without)
{
    pottlei_cook_values values;
    pottlei_cook_values_read(kitchen, &values);
    for (size_t k = 0; k < PARAMETERS; k++)
        *parameter_of(&values, k) = parameter[k].start;
    for (int round = 0; round < 2; round++) {
        for (size_t k = 0; k < PARAMETERS; k++) {
            const double first = log(parameter[k].start) - 3 * parameter[k].sd,
                         step = 6 * parameter[k].sd / 24,
                         golden = 0.6180339887498949;
            double best = first, least = HUGE_VAL;
            for (int i = 0; i <= 24; i++) {
                const double m = misfit(&values, k, first + i * step, without);
                if (m < least) {
                    least = m;
                    best = first + i * step;
                }
            }
            double a = best - step, b = best + step, c = b - golden * (b - a),
                   d = a + golden * (b - a);
            double at_c = misfit(&values, k, c, without),
                   at_d = misfit(&values, k, d, without);
            for (int i = 0; i < 18; i++) {
                if (at_c < at_d) {
                    b = d;
                    d = c;
                    at_d = at_c;
                    c = b - golden * (b - a);
                    at_c = misfit(&values, k, c, without);
                } else {
                    a = c;
                    c = d;
                    at_c = at_d;
                    d = a + golden * (b - a);
                    at_d = misfit(&values, k, d, without);
                }
            }
            *parameter_of(&values, k) = exp(0.5 * (a + b));
        }
    }
    return values;
}

pottlei_cook_values fitted;
double jackknife[PARAMETERS];

void
leave_each_out(void)
{
    /* without forking several tests run in one process, and the catalogue stays
     * the same */
    static double kept[ITEMS_MAX];
    static size_t known;
    if (known == items && items > 0) {
        for (size_t i = 0; i < items; i++)
            list[i].left_out = kept[i];
        return;
    }
    for (size_t i = 0; i < items; i++)
        for (size_t k = 0; k < PARAMETERS; k++)
            uses[i][k] = depends_on(&list[i], k);
    fitted = fit(items);
    size_t n = 0;
    double sum[PARAMETERS] = { 0 }, square[PARAMETERS] = { 0 };
    for (size_t i = 0; i < items; i++) {
        if (!list[i].possible) {
            list[i].left_out = jars_by(&fitted, &list[i]);
            continue;
        }
        pottlei_cook_values values = fit(i);
        list[i].left_out = jars_by(&values, &list[i]);
        n++;
        for (size_t k = 0; k < PARAMETERS; k++) {
            const double l = log(*parameter_of(&values, k));
            sum[k] += l;
            square[k] += l * l;
        }
    }
    for (size_t k = 0; k < PARAMETERS; k++)
        jackknife[k] = sqrt(fmax(0, square[k] - sum[k] * sum[k] / (double)n) *
                            ((double)n - 1) / (double)n);
    known = items;
    for (size_t i = 0; i < items; i++)
        kept[i] = list[i].left_out;
}

/* -- Scores ---------------------------------------------------------------- */

static int
by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double
median_of(double *x, size_t n)
{
    qsort(x, n, sizeof x[0], by_size);
    return n == 0 ? 0 : n % 2 == 1 ? x[n / 2] : 0.5 * (x[n / 2 - 1] + x[n / 2]);
}

score
score_of(const char *kind, bool possible_only, bool left_out,
         const char *const *only, size_t only_count)
{
    double error[ITEMS_MAX], size[ITEMS_MAX], wide[ITEMS_MAX];
    score s = { .n = 0 };
    for (size_t i = 0; i < items; i++) {
        const item *it = &list[i];
        bool wanted = (kind == NULL || strcmp(kind, it->kind) == 0) &&
                      (it->possible || !possible_only);
        for (size_t k = 0; only != NULL && wanted; k++) {
            wanted = k < only_count;
            if (wanted && strcmp(only[k], it->id) == 0)
                break;
        }
        if (!wanted)
            continue;
        const double jars = left_out ? it->left_out : it->c.balance_jars.median,
                     off = log(jars / it->c.printed_jars.median);
        error[s.n] = expm1(off);
        size[s.n] = fabs(error[s.n]);
        wide[s.n] = exp(2 * POTTLE_Z95 * it->c.balance_jars.sd);
        s.mean_abs += size[s.n];
        s.rms += off * off;
        s.inside += fabs(off) <= POTTLE_Z95 * it->c.balance_jars.sd;
        s.within_15 += size[s.n] < 0.15;
        s.within_25 += size[s.n] < 0.25;
        s.n++;
    }
    if (s.n > 0) {
        s.mean_abs /= (double)s.n;
        s.rms = sqrt(s.rms / (double)s.n);
        s.median = median_of(error, s.n);
        s.median_abs = median_of(size, s.n);
        s.wide = median_of(wide, s.n);
    }
    return s;
}
