/* test_reference_foods.c - the weights, compositions, trims and pH of every
 * food, against the reference's sr28/portions.csv, physics/density.csv and
 * physics/acid.csv.
 *
 * A figure of the nutrient data base is cited by the number of its entry,
 * "09307 cup, diced"; each must be that entry's. Figures of other sources are
 * counted, not compared. */
#include <config.h>

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "reference_foods_cases.h"
#include "suite.h"

static const char portions_file[] = "sr28/portions.csv";

csv portions, densities, acids;
pottle_catalogue *catalogue;

void
open_all(void)
{
    portions = reference_csv(portions_file);
    densities = reference_csv("physics/density.csv");
    acids = reference_csv("physics/acid.csv");
    catalogue = reference_catalogue(POTTLE_WITH_NAMES);
}

void
close_all(void)
{
    pottle_catalogue_free(catalogue);
    csv_free(&acids);
    csv_free(&densities);
    csv_free(&portions);
}

/* -- Entries of the data base ---------------------------------------------- */

const char edition[] = "usda-sr28", earlier[] = "usda-sr26";

/* The number of the entry that a figure is cited from, five digits; false when
 * it is of another source. */
bool
entry_of(const pottle_cite *cite, const char *source,
         char number[NUMBER_LENGTH + 1])
{
    if (strcmp(cite->source, source) != 0)
        return false;
    for (int i = 0; i < NUMBER_LENGTH; i++) {
        if (!isdigit((unsigned char)cite->at[i]))
            return false;
        number[i] = cite->at[i];
    }
    number[NUMBER_LENGTH] = '\0';
    return !isdigit((unsigned char)cite->at[NUMBER_LENGTH]);
}

/* The next row of an entry from a row on; the number of rows past the last. */
size_t
next_row(const char *number, size_t row)
{
    while (row < portions.rows &&
           strcmp(csv_at(&portions, row, "ndb_no"), number) != 0)
        row++;
    return row;
}

typedef struct plain {
    char text[120];
} plain;

/* The letters and digits of a measure, with one blank between words. Inch marks
 * and the words that stand for them are left out: 'medium (3" dia)' and
 * "medium, 3 in" begin alike. */
static plain
plain_of(const char *measure)
{
    plain p = { "" };
    size_t n = 0;
    while (*measure != '\0') {
        size_t length = 0;
        while (isalnum((unsigned char)measure[length]) ||
               measure[length] == '/')
            length++;
        const bool inch = (length == 2 && strncmp(measure, "in", 2) == 0) ||
                          (length == 4 && strncmp(measure, "inch", 4) == 0) ||
                          (length == 2 && strncmp(measure, "to", 2) == 0);
        if (length > 0 && !inch && n + length + 2 < sizeof p.text) {
            memcpy(p.text + n, measure, length);
            n += length;
            p.text[n++] = ' ';
        }
        measure += length > 0 ? length : 1;
    }
    p.text[n] = '\0';
    return p;
}

/* The measure that the citation names, "cup, diced" in "09307 .5 cup, diced";
 * "" when it names none. */
static const char *
measure_named(const pottle_cite *cite)
{
    const char *rest = cite->at + NUMBER_LENGTH;
    rest += strspn(rest, " ,:");
    const char *amount = rest + strspn(rest, ".0123456789");
    return amount > rest && *amount == ' ' ? amount + 1 : rest;
}

/* How well a row is the one that the citation names: 2 the same words, 1 it
 * begins with them. */
static int
likeness(size_t row, const pottle_cite *cite)
{
    const plain named = plain_of(measure_named(cite)),
                measure = plain_of(csv_at(&portions, row, "measure"));
    if (named.text[0] == '\0')
        return 0;
    if (strcmp(named.text, measure.text) == 0)
        return 2;
    return strncmp(named.text, measure.text, strlen(named.text)) == 0;
}

/* Whether no other row is more like the measure that the citation names. One
 * that names none, or that says it in its own words, does not choose among the
 * rows. */
static bool
fits_citation(const char *number, size_t row, const pottle_cite *cite)
{
    for (size_t i = next_row(number, 0); i < portions.rows;
         i = next_row(number, i + 1))
        if (likeness(i, cite) > likeness(row, cite))
            return false;
    return true;
}

static words
say_rows(const char *number)
{
    words w = { "" };
    size_t row = next_row(number, 0);
    if (row == portions.rows)
        text_add(w.text, sizeof w.text, " no entry %s", number);
    else
        text_add(w.text, sizeof w.text, " %s %s:", number,
                 csv_at(&portions, row, "description"));
    for (; row < portions.rows; row = next_row(number, row + 1))
        text_add(w.text, sizeof w.text, " %s %s %s g;",
                 csv_at(&portions, row, "amount"),
                 csv_at(&portions, row, "measure"),
                 csv_at(&portions, row, "grams"));
    return w;
}

/* -- Weights --------------------------------------------------------------- */

/* Volume of the unit that a text begins with; below zero when there is none
 * (mL). */
static double
unit_ml(const char *text)
{
    static const struct {
        const char *begins, *id;
    } names[] = {
        { "cup", "cup" },  { "tbsp", "tbsp" },    { "tablespoon", "tbsp" },
        { "tsp", "tsp" },  { "teaspoon", "tsp" }, { "fl oz", "fl-oz" },
        { "quart", "qt" }, { "pint", "pt" },      { "milliliter", "ml" },
    };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const size_t length = strlen(names[i].begins);
        if (strncmp(text, names[i].begins, length) == 0 &&
            !isalpha((unsigned char)text[length]))
            return pottle_unit_find(names[i].id)->factor;
    }
    return -1;
}

/* Volume of a household measure, "cup, diced", "can (6 fl oz)", "serving 1/4
 * cup"; below zero when it is none (mL). */
static double
measure_ml(const char *measure)
{
    if (unit_ml(measure) > 0)
        return unit_ml(measure);
    const char *at = measure + strcspn(measure, "0123456789");
    int over = 0, under = 1, used = 0;
    if (sscanf(at, "%d/%d %n", &over, &under, &used) != 2 || used == 0) {
        under = 1;
        used = 0;
        if (sscanf(at, "%d %n", &over, &used) != 1 || used == 0)
            return -1;
    }
    return unit_ml(at + used) * over / under;
}

/* Amounts are printed with two or three digits: .333 is a third. */
static bool
same_volume(const pottle_weight *w, size_t row)
{
    const double ml = measure_ml(csv_at(&portions, row, "measure"));
    const double apart =
        w->volume_ml / ml - csv_number(&portions, row, "amount");
    return ml > 0 && apart <= 0.005 && apart >= -0.005;
}

static void
compare_weight(const char *food, const char *form, const pottle_weight *w,
               findings *f)
{
    char number[NUMBER_LENGTH + 1];
    if (!entry_of(&w->cite, edition, number))
        return;
    f->looked_at++;
    for (size_t row = next_row(number, 0); row < portions.rows;
         row = next_row(number, row + 1))
        if (same_volume(w, row) &&
            nearly(w->grams, csv_number(&portions, row, "grams")) &&
            fits_citation(number, row, &w->cite))
            return;
    findings_add(f, "%s, %s: %s weighs %s at %s, expected a row of%s", food,
                 form, w->measure, w->printed, w->cite.at,
                 say_rows(number).text);
}

/* A weight from the earlier edition, or a mean density of the other table, in
 * density.csv. */
static void
compare_density(const char *food, const char *form, const pottle_weight *w,
                findings *f)
{
    char number[NUMBER_LENGTH + 1];
    const bool entry = entry_of(&w->cite, earlier, number),
               mean = strcmp(w->cite.source, "fao-density") == 0;
    if (!entry && !mean)
        return;
    f->looked_at++;
    for (size_t row = 0; row < densities.rows; row++) {
        const char *item = csv_at(&densities, row, "item"),
                   *measure = csv_at(&densities, row, "measure");
        const char *source = csv_at(&densities, row, "source");
        const size_t length = strlen(item);
        if (entry && strstr(source, "Release 26") != NULL &&
            strcmp(csv_at(&densities, row, "source_id"), number) == 0 &&
            nearly(w->volume_ml, w->of * unit_ml(measure)) &&
            nearly(w->of, 1) &&
            nearly(w->grams, csv_number(&densities, row, "grams")))
            return;
        if (mean && strncmp(source, "FAO", 3) == 0 &&
            strncmp(w->cite.at, item, length) == 0 &&
            (w->cite.at[length] == ',' || w->cite.at[length] == '\0') &&
            nearly(w->grams / w->volume_ml,
                   csv_number(&densities, row, "g_per_mL")))
            return;
    }
    findings_add(
        f, "%s, %s: %s weighs %s at %s (%s), expected a row of density.csv",
        food, form, w->measure, w->printed, w->cite.at, w->cite.source);
}

/* Pieces that are cut away from another one: the row weighs what is left, 100 -
 * refuse percent of the whole, and `peel` percent of the whole is the piece. */
static const struct cut_away {
    const char *food, *measure;
    double peel;
} cut_away[] = {
    { "lemon-peel", "fruit (2-1/8\" dia)",
      45 }, /* refuse: 45% peel, 2% seeds */
    { "orange-peel", "fruit (2-5/8\" dia)", 27 }, /* refuse: peel and seeds */
};

/* Weight of one piece by a row (g); what is derived from it is a whole number.
 */
static double
piece_g(const char *food, size_t row)
{
    const double one = csv_number(&portions, row, "grams") /
                       csv_number(&portions, row, "amount");
    for (size_t i = 0; i < sizeof cut_away / sizeof cut_away[0]; i++)
        if (strcmp(cut_away[i].food, food) == 0 &&
            strcmp(cut_away[i].measure, csv_at(&portions, row, "measure")) == 0)
            return (int)(one * cut_away[i].peel /
                             (100 - csv_number(&portions, row, "refuse_pct")) +
                         0.5);
    return one;
}

static void
compare_piece(const char *food, const pottle_piece *p, findings *f)
{
    char number[NUMBER_LENGTH + 1];
    if (!entry_of(&p->cite, edition, number))
        return;
    f->looked_at++;
    for (size_t row = next_row(number, 0); row < portions.rows;
         row = next_row(number, row + 1)) {
        /* nine sprigs weigh 20 g: one of them 2.22 g, derived and rounded */
        const double rounding = p->cite.standing == POTTLE_DERIVED ? 0.005 : 0;
        const double one = piece_g(food, row), apart = p->grams - one;
        if ((nearly(p->grams, csv_number(&portions, row, "grams")) ||
             nearly(p->grams, one) ||
             (apart <= rounding && apart >= -rounding)) &&
            fits_citation(number, row, &p->cite))
            return;
    }
    findings_add(f, "%s, piece %s: %g g at %s, expected a row of%s", food,
                 p->size, p->grams, p->cite.at, say_rows(number).text);
}

/* -- All foods ------------------------------------------------------------- */

void
compare_all(const char *section, compare one)
{
    findings f = { section, 0, 0 };
    const char *id;
    for (size_t i = 0; (id = pottle_food_at(catalogue, i)) != NULL; i++) {
        pottle_food *food = NULL;
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottle_food_read(catalogue, id, &food, &error);
        if (status == POTTLE_OK)
            one(food, &f);
        else
            findings_add(&f, "%s: expected a food, found %s, %s:%ld: %s", id,
                         pottle_strerror((int)status), error.where, error.line,
                         error.what);
        pottle_food_free(food);
    }
    findings_end(&f);
}

static void
weights_of(const pottle_food *food, findings *f)
{
    size_t n = 0;
    const pottle_form *form = pottle_food_forms(food, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < form[i].weights; k++) {
            compare_weight(pottle_food_id(food), form[i].id, &form[i].weight[k],
                           f);
            compare_density(pottle_food_id(food), form[i].id,
                            &form[i].weight[k], f);
        }
}

static void
pieces_of(const pottle_food *food, findings *f)
{
    size_t n = 0;
    const pottle_piece *piece = pottle_food_pieces(food, &n);
    for (size_t i = 0; i < n; i++)
        compare_piece(pottle_food_id(food), &piece[i], f);
}

START_TEST(weights_are_those_printed)
{
    compare_all("portions.csv and density.csv, weights of forms", weights_of);
}
END_TEST

START_TEST(pieces_are_those_printed)
{
    compare_all("portions.csv, weights of pieces", pieces_of);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("reference: foods");
    TCase *tcase = tcase_create("portions.csv");
    tcase_add_checked_fixture(tcase, open_all, close_all);
    tcase_set_timeout(tcase, 120);
    tcase_add_test(tcase, weights_are_those_printed);
    tcase_add_test(tcase, pieces_are_those_printed);
    suite_add_tcase(suite, tcase);
    suite_add_tcase(suite, reference_foods_composition());
    return reference_run(suite, portions_file);
}
