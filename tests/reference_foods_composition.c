/* reference_foods_composition.c - test_reference_foods: compositions, trims and
 * pH. */
#include <config.h>

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "reference_foods_cases.h"

/* -- Compositions and trims ------------------------------------------------ */

/* A figure of all the entries that a citation names, "09316" or "09316 and
 * 09307": the least and the greatest; both -1 where the first leaves it blank.
 */
static pottle_range
figure_of(const char *at, const char *column)
{
    pottle_range r = { -1, -1 };
    for (;;) {
        char number[NUMBER_LENGTH + 1];
        snprintf(number, sizeof number, "%s", at);
        const size_t row = next_row(number, 0);
        const double value =
            row < portions.rows && !csv_blank(&portions, row, column)
                ? csv_number(&portions, row, column)
                : -1;
        r.low = r.low < 0 || value < r.low ? value : r.low;
        r.high = value > r.high ? value : r.high;
        at = strstr(at, " and ");
        if (at == NULL)
            return r;
        at += strlen(" and ");
    }
}

static void
compare_composition(const char *food, const pottle_composition *c, findings *f)
{
    char number[NUMBER_LENGTH + 1];
    /* portions.csv has them from the earlier edition; an
     * entry of the later is looked for there too */
    if (!c->known || (!entry_of(&c->cite, earlier, number) &&
                      !entry_of(&c->cite, edition, number)))
        return;
    const struct {
        const char *column;
        double found;
    } part[] = {
        { "water_g_per_100g", c->water },
        { "carbohydrate_g_per_100g", c->carbohydrate },
        { "fiber_g_per_100g", c->fibre },
        { "total_sugar_g_per_100g", c->sugars },
        { "ash_g_per_100g", c->ash },
    };
    f->looked_at++;
    if (next_row(number, 0) == portions.rows) {
        findings_add(f, "%s, composition: at %s, expected an entry, found none",
                     food, c->cite.at);
        return;
    }
    for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
        const pottle_range r = figure_of(c->cite.at, part[i].column);
        const double v = part[i].found;
        /* derived from a fruit for its juice: the fibre stays behind, so what
         * is not known is left blank; from two fruits: somewhere between them
         */
        const bool derived = c->cite.standing == POTTLE_DERIVED &&
                             (v < 0 || (v >= r.low && v <= r.high));
        if (!derived && !(nearly(v, r.low) && nearly(v, r.high)))
            findings_add(f,
                         "%s, composition: at %s %s, expected %s %g to %g, "
                         "found %g (-1: blank)",
                         food, c->cite.at,
                         csv_at(&portions, next_row(number, 0), "description"),
                         part[i].column, r.low, r.high, v);
    }
}

/* Whether what is cut away is the refuse of an entry, or the part of it that
 * its text gives, as in "35% husk, silk, trimmings; 29% cob". */
static bool
is_refuse(size_t row, double percent)
{
    if (nearly(percent, csv_number(&portions, row, "refuse_pct")))
        return true;
    char part[32];
    snprintf(part, sizeof part, "%g%% ", percent);
    const char *text = csv_at(&portions, row, "refuse"),
               *at = strstr(text, part);
    return at != NULL && (at == text || !isdigit((unsigned char)at[-1]));
}

static void
compare_trim(const char *food, const pottle_trim *t, findings *f)
{
    char number[NUMBER_LENGTH + 1];
    if (!entry_of(&t->cite, edition, number))
        return;
    const size_t row = next_row(number, 0);
    f->looked_at++;
    if (row == portions.rows)
        findings_add(f, "%s, trim %s: at %s, expected an entry, found none",
                     food, t->id, t->cite.at);
    else if (!is_refuse(row, 100 - 100 * t->keeps))
        findings_add(
            f, "%s, trim %s: at %s %s, expected refuse of %s %% (%s), found %g",
            food, t->id, t->cite.at, csv_at(&portions, row, "description"),
            csv_at(&portions, row, "refuse_pct"),
            csv_at(&portions, row, "refuse"), 100 - 100 * t->keeps);
}

/* -- pH -------------------------------------------------------------------- */

/* The range of all subjects that a place names, "Mangoes, green; Mangoes,
 * ripe"; false when one of them is not in acid.csv. A subject may have several
 * rows. */
static bool
has_range(const char *at, double low, double high)
{
    double from = 15, to = -1;
    while (*at != '\0') {
        const size_t length = strcspn(at, ";");
        bool known = false;
        for (size_t row = 0; row < acids.rows; row++) {
            const char *subject = csv_at(&acids, row, "subject");
            double first = 0, last = 0;
            if (strcmp(csv_at(&acids, row, "quantity"), "pH") != 0 ||
                strlen(subject) != length || strncmp(subject, at, length) != 0)
                continue;
            known = true;
            if (sscanf(csv_at(&acids, row, "value"), "%lf-%lf", &first,
                       &last) == 1)
                last = first;
            from = first < from ? first : from;
            to = last > to ? last : to;
        }
        if (!known)
            return false;
        at += length;
        at += strspn(at, "; ");
    }
    return nearly(from, low) && nearly(to, high);
}

static void
compare_ph(const char *food, const pottle_acid *a, findings *f)
{
    if (!a->has_ph || strcmp(a->cite.source, "fda-ph") != 0)
        return;
    f->looked_at++;
    if (has_range(a->cite.at, a->ph_low, a->ph_high))
        return;
    words found = { "" };
    for (size_t row = 0; row < acids.rows; row++)
        if (strcmp(csv_at(&acids, row, "quantity"), "pH") == 0 &&
            strncmp(csv_at(&acids, row, "subject"), a->cite.at,
                    strcspn(a->cite.at, ",; ")) == 0)
            text_add(found.text, sizeof found.text, " %s %s;",
                     csv_at(&acids, row, "subject"),
                     csv_at(&acids, row, "value"));
    findings_add(f, "%s: pH %g-%g at %s, expected a row of acid.csv:%s", food,
                 a->ph_low, a->ph_high, a->cite.at,
                 found.text[0] != '\0' ? found.text : " none is named so");
}

static void
trims_of(const pottle_food *food, findings *f)
{
    size_t n = 0;
    const pottle_trim *trim = pottle_food_trims(food, &n);
    for (size_t i = 0; i < n; i++)
        compare_trim(pottle_food_id(food), &trim[i], f);
}

static void
composition_of(const pottle_food *food, findings *f)
{
    compare_composition(pottle_food_id(food), pottle_food_composition(food), f);
}

static void
ph_of(const pottle_food *food, findings *f)
{
    compare_ph(pottle_food_id(food), pottle_food_acid(food), f);
}

START_TEST(compositions_are_those_printed)
{
    compare_all("portions.csv, compositions", composition_of);
}
END_TEST

START_TEST(trims_are_those_printed)
{
    compare_all("portions.csv, trims", trims_of);
}
END_TEST

START_TEST(ph_is_that_printed) { compare_all("acid.csv, pH", ph_of); }
END_TEST

TCase *
reference_foods_composition(void)
{
    TCase *t = tcase_create("portions.csv");
    tcase_set_timeout(t, 120);
    tcase_add_checked_fixture(t, open_all, close_all);
    tcase_add_test(t, compositions_are_those_printed);
    tcase_add_test(t, trims_are_those_printed);
    tcase_add_test(t, ph_is_that_printed);
    return t;
}
