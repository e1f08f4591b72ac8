/* test_reference_loads.c - how much produce a canner load takes, what acid goes
 * into a jar and how syrups are made, against the reference's quantity.csv,
 * acidification.csv and syrups.csv. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "reference_loads_cases.h"
#include "suite.h"

static const char quantity_file[] = "canning/quantity.csv";

pottle_catalogue *catalogue;

void
open_catalogue(void)
{
    catalogue = reference_catalogue(POTTLE_WITH_JARS | POTTLE_WITH_RULES |
                                    POTTLE_WITH_SYRUPS);
}

void
close_catalogue(void)
{
    pottle_catalogue_free(catalogue);
}

/* -- Loads, averages, containers ------------------------------------------- */

/* These are printed by the pint; the reference doubles the pounds and halves
 * the yield, to have quarts. */
static const char *const by_the_pint[] = { "corn-cream-style", "peppers" };

static bool
is_by_the_pint(const char *id)
{
    for (size_t i = 0; i < sizeof by_the_pint / sizeof by_the_pint[0]; i++)
        if (strcmp(by_the_pint[i], id) == 0)
            return true;
    return false;
}

/* What the reference says of one product; negative where a cell is empty. */
typedef struct amounts {
    double load7_lb, load9_lb, container_lb, low_qt, high_qt, average_lb;
    char container[32];
} amounts;

static double
cell(const csv *t, size_t row, const char *column)
{
    return csv_blank(t, row, column) ? -1 : csv_number(t, row, column);
}

static amounts
amounts_of(const csv *t, size_t row)
{
    amounts a = { cell(t, row, "lb_per_7qt_load"),
                  cell(t, row, "lb_per_9pt_load"),
                  cell(t, row, "container_lb"),
                  cell(t, row, "container_yield_qt_low"),
                  cell(t, row, "container_yield_qt_high"),
                  cell(t, row, "avg_lb_per_qt"),
                  "" };
    /* "24-quart crate" is a crate; what it holds is its weight */
    const char *container = csv_at(t, row, "container"),
               *last = strrchr(container, ' ');
    snprintf(a.container, sizeof a.container, "%s",
             last != NULL ? last + 1 : container);
    return a;
}

/* The figures of the base publication are in quantity.csv, those of other
 * sheets in jar_fill.csv. */
static bool
is_base(const pottle_cite *cite)
{
    static const char base[] = "usda-aib539";
    return strncmp(cite->source, base, strlen(base)) == 0;
}

static const csv *fill; /* jar_fill.csv */

/* Whether a row of jar_fill.csv is of this recipe. */
static bool
is_fill_of(size_t row, const char *id)
{
    char product[64];
    reference_product(csv_at(fill, row, "product_id"), product, sizeof product);
    return strcmp(product, id) == 0 || (strcmp(product, "blueberries") == 0 &&
                                        strcmp(id, "berries-whole") == 0);
}

/* "22 lb per 7 quarts, 10-1/2 lb per 7 pints" */
static bool
load_elsewhere(const char *id, const pottle_load *l)
{
    char wanted[80];
    snprintf(wanted, sizeof wanted, "%s lb per %g %ss", l->printed, l->jars,
             l->jar);
    for (char *c = wanted; c < wanted + strlen(l->printed); c++)
        if (*c == ' ')
            *c = '-';
    for (size_t row = 0; row < fill->rows; row++)
        if (is_fill_of(row, id) &&
            strstr(csv_at(fill, row, "basis"), wanted) != NULL)
            return true;
    return false;
}

/* "bushel 45 lb" or "10-lb carton", 11 to 18 quarts */
static bool
container_elsewhere(const char *id, const pottle_container_yield *c)
{
    char pounds[2][32], yield[32];
    snprintf(pounds[0], sizeof pounds[0], "%g lb", c->grams / POUND_G);
    snprintf(pounds[1], sizeof pounds[1], "%g-lb", c->grams / POUND_G);
    snprintf(yield, sizeof yield, "%g to %g", c->low, c->high);
    const char *other = strcmp(c->of->id, "box") == 0 ? "carton" : c->of->id;
    for (size_t row = 0; row < fill->rows; row++) {
        const char *amount = csv_at(fill, row, "prepared_amount");
        if (is_fill_of(row, id) &&
            strcmp(csv_at(fill, row, "yield_or_amount"), yield) == 0 &&
            strncmp(csv_at(fill, row, "unit"), c->jar, strlen(c->jar)) == 0 &&
            (strstr(amount, c->of->id) != NULL ||
             strstr(amount, other) != NULL) &&
            (strstr(amount, pounds[0]) != NULL ||
             strstr(amount, pounds[1]) != NULL))
            return true;
    }
    return false;
}

static void
compare_load(const char *id, const pottle_quantities *q, const char *jar,
             double jars, double pounds, findings *f)
{
    size_t times = 0, same_load = 0;
    char found[200] = "";
    for (size_t i = 0; i < q->loads; i++) {
        const pottle_load *l = &q->load[i];
        if (strcmp(l->jar, jar) != 0 || !nearly(l->jars, jars) ||
            !is_base(&l->cite))
            continue;
        same_load++;
        times += nearly(l->grams, pounds * POUND_G);
        text_add(found, sizeof found, " %g lb (%s)", l->grams / POUND_G,
                 l->printed);
    }
    f->looked_at++;
    if (pounds < 0 ? same_load > 0 : (times != 1 || same_load != 1))
        findings_add(
            f, "%s: expected %g lb for %g %s jars, found%s (below 0: none)", id,
            pounds, jars, jar, found[0] != '\0' ? found : " none");
}

static void
compare_average(const char *id, const pottle_quantities *q, double pounds_qt,
                findings *f)
{
    const bool pint = is_by_the_pint(id);
    const double expected = (pint ? pounds_qt / 2 : pounds_qt) * POUND_G;
    f->looked_at++;
    if (pounds_qt < 0
            ? q->averages == 0
            : q->averages == 1 &&
                  strcmp(q->average->jar, pint ? "pint" : "quart") == 0 &&
                  nearly(q->average->grams, expected))
        return;
    findings_add(
        f, "%s: expected an average of %g lb a %s, found %zu of %g lb a %s", id,
        expected / POUND_G, pint ? "pint" : "quart", q->averages,
        q->averages > 0 ? q->average->grams / POUND_G : 0,
        q->averages > 0 ? q->average->jar : "jar");
}

static void
compare_container(const char *id, const pottle_quantities *q, const amounts *a,
                  findings *f)
{
    const bool pint = is_by_the_pint(id);
    const double times = pint ? 2 : 1;
    size_t base = 0, like = 0;
    char found[300] = "";
    for (size_t i = 0; i < q->containers; i++) {
        const pottle_container_yield *c = &q->container[i];
        if (!is_base(&c->cite))
            continue;
        base++;
        like += strcmp(c->of->id, a->container) == 0 &&
                nearly(c->grams, a->container_lb * POUND_G) &&
                strcmp(c->jar, pint ? "pint" : "quart") == 0 &&
                nearly(c->low, a->low_qt * times) &&
                nearly(c->high, a->high_qt * times);
        text_add(found, sizeof found, " a %s of %g lb for %g-%g %s jars;",
                 c->of->id, c->grams / POUND_G, c->low, c->high, c->jar);
    }
    f->looked_at++;
    if (a->container_lb < 0 ? base > 0 : (base != 1 || like != 1))
        findings_add(f,
                     "%s: expected a %s of %g lb for %g-%g %s jars (below 0: "
                     "none), found%s",
                     id, a->container, a->container_lb, a->low_qt * times,
                     a->high_qt * times, pint ? "pint" : "quart",
                     base > 0 ? found : " none");
}

/* What is not in quantity.csv must stand in jar_fill.csv. */
static void
compare_others(const char *id, const pottle_quantities *q, findings *f)
{
    for (size_t i = 0; i < q->loads; i++) {
        const pottle_load *l = &q->load[i];
        const bool base_size =
            nearly(l->jars, strcmp(l->jar, "quart") == 0 ? 7 : 9);
        f->looked_at++;
        if (is_base(&l->cite) ? !base_size : !load_elsewhere(id, l))
            findings_add(
                f, "%s: expected no other load, found %s for %g %s jars (%s)",
                id, l->printed, l->jars, l->jar, l->cite.source);
    }
    for (size_t i = 0; i < q->containers; i++) {
        const pottle_container_yield *c = &q->container[i];
        f->looked_at++;
        if (!is_base(&c->cite) && !container_elsewhere(id, c))
            findings_add(f,
                         "%s: expected no other container, found a %s of %g lb "
                         "for %g-%g %s jars (%s)",
                         id, c->of->id, c->grams / POUND_G, c->low, c->high,
                         c->jar, c->cite.source);
    }
}

/* The sauce has two rows of quantities and one table of processes; in the
 * catalogue each thickness is a pack. Gives the id in the catalogue of the
 * product of a row. */
static const char *
recipe_of(const csv *t, size_t row, char *buf, size_t size)
{
    static const struct {
        const char *product, *recipe;
    } renamed[] = {
        { "tomato-sauce-standard-thin", "tomato-sauce-standard" },
        { "tomato-sauce-standard-thick", "tomato-sauce-thick" },
    };
    reference_product(csv_at(t, row, "product_id"), buf, size);
    for (size_t i = 0; i < sizeof renamed / sizeof renamed[0]; i++)
        if (strcmp(renamed[i].product, buf) == 0)
            return renamed[i].recipe;
    return buf;
}

static void
compare_row(const csv *t, size_t row, findings *f)
{
    char product[64];
    const char *id = recipe_of(t, row, product, sizeof product);
    pottle_recipe *recipe = reference_recipe(catalogue, id, f);
    if (recipe == NULL)
        return;
    const amounts a = amounts_of(t, row);
    const pottle_quantities *q = pottle_recipe_quantities(recipe);
    compare_load(id, q, "quart", 7, a.load7_lb, f);
    compare_load(id, q, "pint", 9, a.load9_lb, f);
    compare_average(id, q, a.average_lb, f);
    compare_container(id, q, &a, f);
    compare_others(id, q, f);
    pottle_recipe_free(recipe);
}

START_TEST(quantities_are_those_printed)
{
    findings f = { "quantity.csv", 0, 0 };
    csv t = reference_csv(quantity_file),
        others = reference_csv("canning/jar_fill.csv");
    fill = &others;
    for (size_t row = 0; row < t.rows; row++)
        compare_row(&t, row, &f);
    csv_free(&others);
    csv_free(&t);
    findings_end(&f);
}
END_TEST

/* The row of a recipe; rows when it has none. */
static size_t
row_of(const csv *t, const char *recipe)
{
    size_t row = 0;
    char id[64];
    while (row < t->rows &&
           strcmp(recipe_of(t, row, id, sizeof id), recipe) != 0)
        row++;
    return row;
}

typedef struct search {
    const csv *table;
    findings *f;
} search;

static pottle_status
has_a_row(void *context, const pottle_recipe *recipe, const pottle_error *error)
{
    const search *s = context;
    (void)error; /* a file that cannot be used is told by test_data */
    if (recipe == NULL)
        return POTTLE_OK;
    const pottle_quantities *q = pottle_recipe_quantities(recipe);
    s->f->looked_at++;
    if (q->loads + q->averages + q->containers > 0 &&
        row_of(s->table, pottle_recipe_id(recipe)) == s->table->rows)
        findings_add(s->f,
                     "%s: expected no quantities, for quantity.csv has none, "
                     "found %zu loads, %zu averages, %zu containers",
                     pottle_recipe_id(recipe), q->loads, q->averages,
                     q->containers);
    return POTTLE_OK;
}

START_TEST(quantities_have_nothing_else)
{
    findings f = { "recipes with a row in quantity.csv", 0, 0 };
    csv t = reference_csv(quantity_file);
    search s = { &t, &f };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_recipes_each(catalogue, has_a_row, &s, &error),
                     POTTLE_OK);
    csv_free(&t);
    findings_end(&f);
}
END_TEST

/* -- Syrups ---------------------------------------------------------------- */

static void
compare_syrup(const pottle_syrup *s, const char *name, const char *jar,
              double jars, double water, double sugar, findings *f)
{
    f->looked_at++;
    char found[200] = "";
    for (size_t i = 0; i < s->loads; i++) {
        const struct pottle_syrup_load *l = &s->load[i];
        if (strcmp(l->jar, jar) == 0 && nearly(l->jars, jars) &&
            nearly(l->water_ml, water * CUP_ML) &&
            nearly(l->sugar_ml, sugar * CUP_ML))
            return;
        text_add(found, sizeof found, " %g %s: %g and %g cups;", l->jars,
                 l->jar, l->water_ml / CUP_ML, l->sugar_ml / CUP_ML);
    }
    findings_add(f,
                 "%s syrup: expected %g cups water and %g cups sugar for %g %s "
                 "jars, found%s",
                 name, water, sugar, jars, jar, found);
}

static bool
is_syrup(const char *id, const char *name)
{
    char with[64];
    snprintf(with, sizeof with, "syrup-%s", name);
    for (char *c = with; *c != '\0'; c++)
        if (*c == ' ')
            *c = '-';
    return strcmp(id, with) == 0 || strcmp(id, with + strlen("syrup-")) == 0;
}

START_TEST(syrups_are_those_printed)
{
    findings f = { "syrups.csv", 0, 0 };
    csv t = reference_csv("canning/syrups.csv");
    size_t n = 0;
    const pottle_syrup *s = pottle_syrups(catalogue, &n);
    for (size_t row = 0; row < t.rows; row++) {
        const char *name = csv_at(&t, row, "syrup");
        size_t i = 0;
        while (i < n && !is_syrup(s[i].id, name))
            i++;
        if (i == n) {
            findings_add(&f, "%s syrup: expected it, found %zu others", name,
                         n);
            continue;
        }
        f.looked_at++;
        if (!nearly(s[i].percent, csv_number(&t, row, "approx_pct_sugar")))
            findings_add(&f, "%s syrup: expected %s %% sugar, found %g", name,
                         csv_at(&t, row, "approx_pct_sugar"), s[i].percent);
        const double water9 = csv_number(&t, row, "cups_water_9pt"),
                     sugar9 = csv_number(&t, row, "cups_sugar_9pt");
        compare_syrup(&s[i], name, "pint", 9, water9, sugar9, &f);
        compare_syrup(&s[i], name, "quart", 7,
                      csv_number(&t, row, "cups_water_7qt"),
                      csv_number(&t, row, "cups_sugar_7qt"), &f);
        /* README.md: the amount for 9 pints also serves 4 quarts; no other load
         * is printed */
        if (s[i].loads > 2)
            compare_syrup(&s[i], name, "quart", 4, water9, sugar9, &f);
        if (s[i].loads > 3)
            findings_add(&f, "%s syrup: expected at most 3 loads, found %zu",
                         name, s[i].loads);
    }
    if (n != t.rows)
        findings_add(&f, "expected %zu syrups, found %zu", t.rows, n);
    csv_free(&t);
    findings_end(&f);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("reference: loads");
    TCase *tcase = tcase_create("quantity.csv");
    tcase_add_checked_fixture(tcase, open_catalogue, close_catalogue);
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, quantities_are_those_printed);
    tcase_add_test(tcase, quantities_have_nothing_else);
    tcase_add_test(tcase, syrups_are_those_printed);
    suite_add_tcase(suite, tcase);
    suite_add_tcase(suite, reference_loads_acid());
    return reference_run(suite, quantity_file);
}
