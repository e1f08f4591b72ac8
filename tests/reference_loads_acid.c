/* reference_loads_acid.c - test_reference_loads: what acid goes into each jar.
 */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "reference_loads_cases.h"

/* Products of each class in acidification.csv, and whether the catalogue must
 * have them. */
static const struct acidified {
    const char *product_class, *recipe;
    bool may_lack;
} acidified[] = {
    { "tomato (whole, crushed, juiced, sauce)", "tomatoes-crushed", false },
    { "tomato (whole, crushed, juiced, sauce)", "tomatoes-in-water", false },
    { "tomato (whole, crushed, juiced, sauce)", "tomatoes-in-juice", false },
    { "tomato (whole, crushed, juiced, sauce)", "tomatoes-no-liquid", false },
    { "tomato (whole, crushed, juiced, sauce)", "tomato-juice", false },
    { "tomato (whole, crushed, juiced, sauce)", "tomato-vegetable-juice",
      false },
    { "tomato (whole, crushed, juiced, sauce)", "tomato-sauce-standard",
      false },
    { "fig", "figs", false },
    { "Asian pear", "asian-pears", true },
};

/* The columns of acids, and a word that the food's id has. */
static const struct acid {
    const char *column, *word;
} acids[] = { { "bottled_lemon_juice", "lemon" },
              { "citric_acid", "citric" },
              { "vinegar_5pct", "vinegar" } };
enum {
    ACIDS = sizeof acids / sizeof acids[0],
    ACIDIFIED = sizeof acidified / sizeof acidified[0]
};

static const pottle_per_jar *
acid_of(const pottle_recipe *recipe, size_t *count)
{
    size_t n = 0;
    const pottle_per_jar *found = NULL, *p = pottle_recipe_per_jar(recipe, &n);
    *count = 0;
    for (size_t i = 0; i < n; i++)
        if (strcmp(p[i].role, "acid") == 0) {
            found = &p[i];
            (*count)++;
        }
    return found;
}

/* The doses of one acid in one jar that are this amount; unlike ones are
 * counted apart. */
static size_t
doses_of(const pottle_per_jar *p, const char *word, const char *jar,
         const char *amount, size_t *unlike)
{
    pottle_quantity q = { 0, 0, NULL };
    const bool printed = amount[0] != '\0';
    if (printed)
        ck_assert_msg(pottle_quantity_read(amount, -1, &q, NULL) == POTTLE_OK,
                      "%s", amount);
    size_t like = 0;
    for (size_t c = 0; c < p->choices; c++)
        for (size_t k = 0;
             strstr(p->choice[c].food, word) != NULL && k < p->choice[c].doses;
             k++) {
            const pottle_jar_dose *d = &p->choice[c].dose[k];
            if (strcmp(d->jar, jar) != 0)
                continue;
            const bool same =
                printed && d->unit == q.unit && nearly(d->amount, q.low);
            like += same;
            *unlike += !same;
        }
    return like;
}

static void
compare_acid(const csv *t, size_t row, const char *id,
             const pottle_recipe *recipe, findings *f)
{
    const char *jar = csv_at(t, row, "jar");
    size_t n = 0, printed = 0;
    const pottle_per_jar *p = acid_of(recipe, &n);
    if (n != 1 || p->optional) {
        findings_add(
            f,
            "%s: expected acid in each jar, once and not optional, found %zu%s",
            id, n, n > 0 && p->optional ? ", optional" : "");
        return;
    }
    for (size_t a = 0; a < ACIDS; a++) {
        const char *amount = csv_at(t, row, acids[a].column);
        size_t unlike = 0;
        const size_t like = doses_of(p, acids[a].word, jar, amount, &unlike);
        f->looked_at++;
        printed += amount[0] != '\0';
        if (like != (amount[0] != '\0') || unlike != 0)
            findings_add(f,
                         "%s, %s: expected %s of %s, found it %zu times and "
                         "%zu other doses",
                         id, jar, amount[0] != '\0' ? amount : "nothing",
                         acids[a].column, like, unlike);
    }
    if (p->choices != printed)
        findings_add(f, "%s: expected a choice of %zu acids, found %zu", id,
                     printed, p->choices);
}

START_TEST(acids_are_those_printed)
{
    findings f = { "acidification.csv", 0, 0 };
    csv t = reference_csv("canning/acidification.csv");
    size_t rows_met = 0;
    for (size_t i = 0; i < ACIDIFIED; i++) {
        pottle_recipe *recipe = NULL;
        if (!acidified[i].may_lack)
            recipe = reference_recipe(catalogue, acidified[i].recipe, &f);
        else if (pottle_recipe_read(catalogue, acidified[i].recipe, &recipe,
                                    NULL) != POTTLE_OK)
            printf("acidification.csv: the catalogue has no %s\n",
                   acidified[i].recipe);
        for (size_t row = 0; recipe != NULL && row < t.rows; row++)
            if (strcmp(csv_at(&t, row, "product_class"),
                       acidified[i].product_class) == 0) {
                rows_met++;
                compare_acid(&t, row, acidified[i].recipe, recipe, &f);
            }
        pottle_recipe_free(recipe);
    }
    ck_assert_uint_ge(rows_met, 2 * 8);
    csv_free(&t);
    findings_end(&f);
}
END_TEST

TCase *
reference_loads_acid(void)
{
    TCase *t = tcase_create("quantity.csv");
    tcase_set_timeout(t, 60);
    tcase_add_checked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_test(t, acids_are_those_printed);
    return t;
}
