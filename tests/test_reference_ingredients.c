/* test_reference_ingredients.c - every ingredient of every tested recipe,
 * against the reference's recipes.jsonl.
 *
 * Amounts, units and roles must be those of the publication. Where the
 * catalogue is built otherwise on purpose, a table says so for each ingredient,
 * with the reason; nothing else may differ, and an ingredient that the
 * reference lacks is a difference too. */
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "reference_json.h"

enum { MOST_INGREDIENTS = 40 };

/* -- Differences on purpose ------------------------------------------------ */

typedef enum how {
    LEFT_OUT, /* stands nowhere */
    SPLIT,    /* two ingredients, of amount and second */
    RATE,     /* amount (to second) for each `of` of another ingredient */
    IN_JARS,  /* amount for each jar `of` */
    VARIATION /* the same, of a variation that the scaling note tells; no
                 ingredient */
} how;

typedef struct difference {
    const char *recipe, *item;
    how how;
    double amount, second;
    const char *unit, *of, *reason;
} difference;

static const char each_jar[] =
    "the source gives it for each jar, so it stands in per_jar";
static const char each_pound[] =
    "the source gives the water for each pound of fruit, so it is a rate";

static const difference differences[] = {
    { "berry-jam-no-pectin", "lemon juice", LEFT_OUT, 0, 0, "tbsp", "",
      "the table prints zero, and nothing is added" },
    { "apple-jelly-no-pectin", "water", RATE, 1, 1, "cup", "lb", each_pound },
    { "blackberry-jelly-no-pectin", "water", RATE, 0, 0.25, "cup", "lb",
      each_pound },
    { "crabapple-jelly-no-pectin", "water", RATE, 1, 1, "cup", "lb",
      each_pound },
    { "grape-jelly-no-pectin", "water", RATE, 0, 0.25, "cup", "lb",
      each_pound },
    { "plum-jelly-no-pectin", "water", RATE, 0.5, 0.5, "cup", "lb",
      each_pound },
    { "rhubarb-stewed", "sugar", RATE, 0.5, 0.5, "cup", "qt",
      "the source gives it for each quart of cut fruit" },
    { "applesauce", "sugar", IN_JARS, 0.125, 0, "cup", "quart",
      "the source gives it for each quart of sauce" },
    { "applesauce", "sugar", IN_JARS, 0.0625, 0, "cup", "pint",
      "a pint takes half of what a quart takes" },
    { "marinated-peppers", "salt", IN_JARS, 0.25, 0, "tsp", "half-pint",
      each_jar },
    { "marinated-peppers", "salt", IN_JARS, 0.5, 0, "tsp", "pint", each_jar },
    { "quick-sweet-pickles", "onion", VARIATION, 2, 0, "count", "pint",
      "2 slices a jar, if wanted" },
    { "quick-sweet-pickles", "onion", VARIATION, 2, 0, "count", "quart",
      "2 slices a jar, if wanted" },
    { "quick-fresh-pack-dill-pickles", "canning or pickling salt", SPLIT, 0.75,
      0.5, "cup", "",
      "the source adds up 3/4 cup for the soaking brine, which is poured off, "
      "and 1/2 cup for the pickling solution" },
};

/* Foods whose id shares no word with the name in the reference. */
static const struct renamed {
    const char *recipe, *item, *food, *reason;
} renamed[] = {
    { "berry-jam-no-pectin", "berries", "blackberry",
      "the first of the berries that its note lists" },
    { "spiced-crab-apples", "crab apples", "crabapple", "written as one word" },
};

enum {
    DIFFERENCES = sizeof differences / sizeof differences[0],
    RENAMED = sizeof renamed / sizeof renamed[0]
};
static bool difference_met[DIFFERENCES], renamed_met[RENAMED];

static const difference *
difference_of(const char *recipe, const char *item, size_t skip)
{
    for (size_t i = 0; i < DIFFERENCES; i++)
        if (strcmp(differences[i].recipe, recipe) == 0 &&
            strcmp(differences[i].item, item) == 0 && skip-- == 0) {
            difference_met[i] = true;
            return &differences[i];
        }
    return NULL;
}

/* -- One line of the reference --------------------------------------------- */

typedef struct line {
    const char *item, *prep, *note, *role;
    const char *unit, *size; /* as the catalogue writes them */
    double low, high;
} line;

static line
line_of(const json_t *ingredient)
{
    line l = { .item = json_text(ingredient, "item"),
               .prep = json_text(ingredient, "prep"),
               .note = json_text(ingredient, "note"),
               .role = json_text(ingredient, "role"),
               .unit = json_text(ingredient, "unit"),
               .size = "" };
    if (strcmp(l.unit, "box") == 0 || strcmp(l.unit, "pouch") == 0) {
        l.size = l.unit;
        l.unit = "count";
    }
    json_range(json_object_get(ingredient, "qty"), &l.low, &l.high);
    return l;
}

/* A word of a name without its plural ending. */
typedef struct word {
    char text[32];
} word;

static const char *
next_word(const char *from, word *out)
{
    size_t n = 0;
    while (*from != '\0' && !isalpha((unsigned char)*from))
        from++;
    for (; isalpha((unsigned char)*from); from++)
        if (n + 1 < sizeof out->text)
            out->text[n++] = (char)tolower((unsigned char)*from);
    /* berries, tomatoes, peaches, beans */
    if (n > 4 && strncmp(out->text + n - 3, "ies", 3) == 0) {
        n -= 2;
        out->text[n - 1] = 'y';
    } else if (n > 4 && (strncmp(out->text + n - 3, "oes", 3) == 0 ||
                         strncmp(out->text + n - 4, "ches", 4) == 0)) {
        n -= 2;
    } else if (n > 3 && out->text[n - 1] == 's' && out->text[n - 2] != 's') {
        n--;
    }
    out->text[n] = '\0';
    return n > 0 ? from : NULL;
}

/* Whether a food's id shares a word with the name in the reference. */
static bool
shares_a_word(const char *food, const char *item)
{
    word a, b;
    for (const char *i = next_word(food, &a); i != NULL; i = next_word(i, &a))
        for (const char *k = next_word(item, &b); k != NULL;
             k = next_word(k, &b))
            if (strcmp(a.text, b.text) == 0)
                return true;
    return false;
}

static bool
is_food(const char *recipe, const char *food, const char *item)
{
    for (size_t i = 0; i < RENAMED; i++)
        if (strcmp(renamed[i].recipe, recipe) == 0 &&
            strcmp(renamed[i].item, item) == 0) {
            renamed_met[i] = true;
            return strcmp(renamed[i].food, food) == 0;
        }
    return shares_a_word(food, item);
}

static bool
same_amount(const pottle_ingredient *c, const line *l)
{
    return strcmp(c->unit->id, l->unit) == 0 && strcmp(c->role, l->role) == 0 &&
           (nearly(c->amount, l->low) && nearly(c->amount_to, l->high)) &&
           (l->size[0] == '\0' || strcmp(c->size, l->size) == 0);
}

typedef struct words {
    char text[500];
} words;

static words
say_ingredient(const pottle_ingredient *c)
{
    words w = { "" };
    text_add(w.text, sizeof w.text, "%g", c->amount);
    if (!nearly(c->amount, c->amount_to))
        text_add(w.text, sizeof w.text, "-%g", c->amount_to);
    text_add(w.text, sizeof w.text, " %s%s%s %s (%s%s%s)", c->unit->id,
             c->size[0] != '\0' ? " " : "", c->size, c->food, c->role,
             c->optional ? ", optional" : "", c->stays ? "" : ", taken out");
    if (c->per != NULL)
        text_add(w.text, sizeof w.text, " per %s %s", c->per->id, c->per_food);
    return w;
}

static words
say_line(const char *id, const line *l)
{
    words w = { "" };
    text_add(w.text, sizeof w.text, "%s: expected %g", id, l->low);
    if (!nearly(l->low, l->high))
        text_add(w.text, sizeof w.text, "-%g", l->high);
    text_add(w.text, sizeof w.text, " %s%s%s %s (%s)", l->unit,
             l->size[0] != '\0' ? " " : "", l->size, l->item, l->role);
    return w;
}

/* -- Ingredients ----------------------------------------------------------- */

typedef struct pot {
    const char *id;
    const pottle_ingredient *all;
    size_t n, next;
    bool used[MOST_INGREDIENTS];
    findings *f;
} pot;

/* Finds the ingredient of a line that no other line has taken: of the right
 * name from where the last one stood, then anywhere, then of any name. */
static const pottle_ingredient *
take(pot *p, const line *l)
{
    for (int pass = 0; pass < 2; pass++)
        for (size_t k = 0; k < p->n; k++) {
            const size_t i = (p->next + k) % p->n;
            if (p->used[i] || !same_amount(&p->all[i], l) ||
                (pass == 0 && !is_food(p->id, p->all[i].food, l->item)))
                continue;
            if (pass == 1)
                findings_add(p->f, "%s, found another food: %s",
                             say_line(p->id, l).text,
                             say_ingredient(&p->all[i]).text);
            p->used[i] = true;
            p->next = i + 1;
            return &p->all[i];
        }
    return NULL;
}

static void
missing(pot *p, const line *l, const char *how_it_should)
{
    words w = { "" };
    for (size_t i = 0; i < p->n; i++)
        if (!p->used[i] && shares_a_word(p->all[i].food, l->item)) {
            text_add(w.text, sizeof w.text, " %s;",
                     say_ingredient(&p->all[i]).text);
            p->used[i] = true; /* one finding is enough for a pair */
            break;
        }
    findings_add(p->f, "%s%s, found:%s", say_line(p->id, l).text, how_it_should,
                 w.text[0] != '\0' ? w.text : " nothing");
}

/* The words of the reference that say so: it may be left out; it is taken out
 * again. */
static void
compare_words(const pot *p, const line *l, const pottle_ingredient *c)
{
    static const char *const out[] = { "drained off",    "discarded",
                                       "soak only",      "removed after",
                                       "removed before", "removed from syrup",
                                       "in bag",         "in cloth",
                                       "extraction only" };
    const bool optional = strncmp(l->note, "optional", strlen("optional")) == 0;
    if (c->optional != optional)
        findings_add(p->f, "%s%s, found %s", say_line(p->id, l).text,
                     optional ? ", optional" : ", not optional",
                     say_ingredient(c).text);
    for (size_t i = 0; i < sizeof out / sizeof out[0]; i++)
        if (c->stays && (strstr(l->prep, out[i]) != NULL ||
                         strstr(l->note, out[i]) != NULL))
            findings_add(p->f, "%s, %s, found that it stays: %s",
                         say_line(p->id, l).text, out[i],
                         say_ingredient(c).text);
}

/* Reads "3/4 cup + 2 tbsp", in the base of its unit; below zero when that is
 * not what it is. */
static double
read_sum(const char *text)
{
    double sum = 0;
    for (;;) {
        char unit[20];
        int whole = 0, over = 0, under = 1, used = 0;
        if (sscanf(text, "%d-%d/%d%n", &whole, &over, &under, &used) != 3) {
            whole = 0;
            if (sscanf(text, "%d/%d%n", &over, &under, &used) != 2) {
                over = 0;
                under = 1;
                if (sscanf(text, "%d%n", &whole, &used) != 1)
                    return -1;
            }
        }
        text += used;
        used = 0;
        const pottle_unit *u = sscanf(text, " %19[a-z]%n", unit, &used) == 1
                                 ? pottle_unit_find(unit)
                                 : NULL;
        /* drops and nothing at all are counts */
        sum += (whole + (double)over / under) * (u != NULL ? u->factor : 1);
        text += used;
        const char *more = strchr(text, '+'), *end = strchr(text, ';');
        if (more == NULL || (end != NULL && end < more))
            return sum;
        text = more + 1 + strspn(more + 1, " ");
    }
}

/* "cooked rhubarb ... about 1 lb rhubarb": what is bought for what is measured
 * cooked. */
static void
compare_raw(pot *p, const line *l, const pottle_ingredient *c)
{
    static const char cooked[] = "cooked ", about[] = "about ";
    const char *at = strncmp(l->item, cooked, strlen(cooked)) == 0
                       ? strstr(l->note, about)
                       : NULL;
    const double expected = at != NULL ? read_sum(at + strlen(about)) : 0,
                 found = c->raw_unit != NULL ? c->raw * c->raw_unit->factor : 0;
    if (!nearly(found, expected))
        findings_add(p->f, "%s, from %g g raw, found %g g: %s",
                     say_line(p->id, l).text, expected, found,
                     say_ingredient(c).text);
}

/* The amount for a batch of one quart, which the reference has in a note: "1
 * quart: 1/4 cup + 1 tbsp" or "1-1/3 cups for 1 quart". */
static void
compare_small_batch(pot *p, const line *l, const pottle_ingredient *c)
{
    static const char before[] = "1 quart: ", after[] = "for 1 quart";
    const char *at = strstr(l->note, before);
    if (at == NULL && strstr(l->note, after) == NULL)
        return;
    if (at != NULL) {
        at += strlen(before);
    } else {
        const char *end = strstr(l->note, after);
        for (at = end; at > l->note && at[-1] != ';'; at--)
            continue;
        at += strspn(at, " ");
    }
    const double expected = read_sum(at);
    p->f->looked_at++;
    double found = -1;
    for (size_t i = 0; i < c->printeds; i++)
        if (nearly(c->other[i].batch, 1.0 / 7))
            found = c->other[i].amount * c->other[i].unit->factor;
    if (expected < 0 || !nearly(found, expected))
        findings_add(p->f,
                     "%s, %s, that is %g in the base of its unit, found %g",
                     say_line(p->id, l).text, l->note, expected, found);
}

static void
taken_as(pot *p, const line *l, double low, double high,
         const char *how_it_should, const char *per)
{
    line part = *l;
    part.low = low;
    part.high = high;
    const pottle_ingredient *c = take(p, &part);
    if (c == NULL)
        missing(p, &part, how_it_should);
    else if ((c->per == NULL) != (per == NULL) ||
             (per != NULL && strcmp(c->per->id, per) != 0))
        findings_add(p->f, "%s%s %s, found %s", say_line(p->id, &part).text,
                     how_it_should, per != NULL ? per : "",
                     say_ingredient(c).text);
    if (c != NULL) {
        compare_words(p, &part, c);
        compare_small_batch(p, &part, c);
        compare_raw(p, &part, c);
    }
}

/* Whether a dose is the one of the table; amounts are compared in the base of
 * their units, so that 1/8 cup may be written as 2 tbsp. */
static bool
is_dose(const pottle_per_jar *p, const pottle_jar_choice *choice,
        const pottle_jar_dose *dose, const difference *d)
{
    const pottle_unit *unit = pottle_unit_find(d->unit);
    return unit != NULL && strcmp(dose->jar, d->of) == 0 &&
           shares_a_word(choice->food, d->item) &&
           dose->unit->dimension == unit->dimension &&
           (d->how == IN_JARS || (d->how == VARIATION && p->optional)) &&
           nearly(dose->amount * dose->unit->factor, d->amount * unit->factor);
}

static bool
in_jars(const pottle_recipe *recipe, const line *l, const difference *d)
{
    size_t n = 0;
    const bool optional = strncmp(l->note, "optional", strlen("optional")) == 0;
    const pottle_per_jar *p = pottle_recipe_per_jar(recipe, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t c = 0; c < p[i].choices; c++)
            for (size_t k = 0; k < p[i].choice[c].doses; k++)
                if (is_dose(&p[i], &p[i].choice[c], &p[i].choice[c].dose[k],
                            d) &&
                    strcmp(p[i].role, l->role) == 0 &&
                    p[i].optional == optional)
                    return true;
    return false;
}

/* Every dose must be one that the table says. */
static void
compare_doses(const char *id, const pottle_recipe *recipe, findings *f)
{
    size_t n = 0;
    const pottle_per_jar *p = pottle_recipe_per_jar(recipe, &n);
    for (size_t i = 0; i < n; i++)
        for (size_t c = 0; c < p[i].choices; c++)
            for (size_t k = 0; k < p[i].choice[c].doses; k++) {
                const pottle_jar_dose *dose = &p[i].choice[c].dose[k];
                bool known = false;
                for (size_t d = 0; d < DIFFERENCES; d++)
                    known = known || (strcmp(differences[d].recipe, id) == 0 &&
                                      is_dose(&p[i], &p[i].choice[c], dose,
                                              &differences[d]));
                f->looked_at++;
                if (!known)
                    findings_add(f,
                                 "%s: expected nothing more in each jar, found "
                                 "%g %s %s in each %s%s",
                                 id, dose->amount, dose->unit->id,
                                 p[i].choice[c].food, dose->jar,
                                 p[i].optional ? ", optional" : "");
            }
}

static void
compare_otherwise(pot *p, const pottle_recipe *recipe, const line *l)
{
    const difference *d = difference_of(p->id, l->item, 0);
    switch (d->how) {
    case LEFT_OUT:
        if (!nearly(l->high, 0))
            missing(p, l, " (only what is zero may be left out)");
        break;
    case SPLIT:
        ck_assert_msg(nearly(d->amount + d->second, l->low),
                      "%s: %s does not add up", d->recipe, d->item);
        taken_as(p, l, d->amount, d->amount, " as one part", NULL);
        taken_as(p, l, d->second, d->second, " as one part", NULL);
        break;
    case RATE: taken_as(p, l, d->amount, d->second, " for each", d->of); break;
    case IN_JARS:
        for (size_t i = 0; (d = difference_of(p->id, l->item, i)) != NULL; i++)
            if (!in_jars(recipe, l, d))
                findings_add(
                    p->f,
                    "%s as %g %s in each %s, found no such dose with its role",
                    say_line(p->id, l).text, d->amount, d->unit, d->of);
        break;
    case VARIATION: missing(p, l, " (an ingredient, and no variation)"); break;
    }
}

static void
compare_ingredients(const char *id, const json_t *printed,
                    const pottle_recipe *recipe, findings *f)
{
    pot p = { .id = id, .f = f };
    p.all = pottle_recipe_ingredients(recipe, &p.n);
    ck_assert_msg(p.n <= MOST_INGREDIENTS, "%s has %zu ingredients", id, p.n);
    const json_t *lines = json_object_get(printed, "ingredients");
    for (size_t i = 0; i < json_array_size(lines); i++) {
        const line l = line_of(json_array_get(lines, i));
        f->looked_at++;
        if (difference_of(id, l.item, 0) != NULL)
            compare_otherwise(&p, recipe, &l);
        else
            taken_as(&p, &l, l.low, l.high, "", NULL);
    }
    for (size_t i = 0; i < p.n; i++)
        if (!p.used[i])
            findings_add(f, "%s: expected nothing more, found %s", id,
                         say_ingredient(&p.all[i]).text);
    compare_doses(id, recipe, f);
}

START_TEST(ingredients_are_those_printed)
{
    reference_recipes_each("recipes.jsonl, ingredients", compare_ingredients);
}
END_TEST

/* A row of a table that no ingredient needs has outlived its reason. */
static void
meet(const char *id, const json_t *printed, const pottle_recipe *recipe,
     findings *f)
{
    const json_t *lines = json_object_get(printed, "ingredients");
    for (size_t i = 0; i < json_array_size(lines); i++) {
        const char *item = json_text(json_array_get(lines, i), "item");
        for (size_t k = 0; difference_of(id, item, k) != NULL; k++)
            continue;
        (void)is_food(id, "", item);
    }
    for (size_t k = 0; k < DIFFERENCES; k++)
        if (differences[k].how == VARIATION &&
            strcmp(differences[k].recipe, id) == 0)
            difference_met[k] = shares_a_word(
                differences[k].item, json_text(printed, "scaling_note"));
    f->looked_at += recipe != NULL;
}

START_TEST(every_difference_is_met)
{
    reference_recipes_each("recipes.jsonl, the tables of differences", meet);
    for (size_t i = 0; i < DIFFERENCES; i++)
        ck_assert_msg(difference_met[i], "%s has no %s", differences[i].recipe,
                      differences[i].item);
    for (size_t i = 0; i < RENAMED; i++)
        ck_assert_msg(renamed_met[i], "%s has no %s", renamed[i].recipe,
                      renamed[i].item);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("reference: ingredients");
    TCase *tcase = tcase_create("recipes.jsonl");
    tcase_add_checked_fixture(tcase, reference_recipes_open,
                              reference_recipes_close);
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, ingredients_are_those_printed);
    tcase_add_test(tcase, every_difference_is_met);
    suite_add_tcase(suite, tcase);
    return reference_run(suite, REFERENCE_RECIPES_FILE);
}
