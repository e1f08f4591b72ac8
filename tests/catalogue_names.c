/* catalogue_names.c - test_catalogue: names of foods, sizes of jars, words for
 * enums. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "catalogue_cases.h"

/* -- Names of foods -------------------------------------------------------- */

/* Which food a name means is common English usage, British, American or
 * Australian (from memory). */
static const struct {
    const char *name;
    const char *ids[3];
} names[] = {
    { "apple", { "apple" } },
    { "Apples", { "apple" } },
    { "  APPLES ", { "apple" } },
    { "tomatoes", { "tomato" } },
    { "potatoes", { "potato" } },
    { "peaches", { "peach" } },
    { "radishes", { "radish" } },
    { "strawberries", { "strawberry" } },
    { "pickling-cucumbers", { "pickling-cucumber" } },
    { "pickling_cucumber", { "pickling-cucumber" } },
    { "asparagus", { "asparagus" } },
    { "brussels sprouts", { "brussels-sprout" } },
    { "courgette", { "zucchini" } },
    { "courgettes", { "zucchini" } },
    { "zucchini", { "zucchini" } },
    { "aubergine", { "eggplant" } },
    { "eggplants", { "eggplant" } },
    { "swede", { "rutabaga" } },
    { "rutabagas", { "rutabaga" } },
    { "beetroot", { "beet" } },
    { "beets", { "beet" } },
    { "spring onions", { "scallion" } },
    { "spring-onion", { "scallion" } },
    { "green onion", { "scallion" } },
    { "scallions", { "scallion" } },
    { "coriander leaf", { "cilantro" } },
    { "coriander leaves", { "cilantro" } },
    { "rocket", { "arugula" } },
    { "cornflour", { "cornstarch" } },
    { "icing sugar", { "powdered-sugar" } },
    { "capsicums", { "sweet-pepper" } },
    { "bell pepper", { "sweet-pepper" } },
    { "broad beans", { "fava-bean" } },
    { "french beans", { "snap-bean" } },
    { "sultanas", { "golden-raisin" } },
    { "silverbeet", { "chard" } },
    { "rockmelon", { "melon-cantaloupe" } },
    { "chillies", { "chile-pepper" } },
    { "blackcurrants", { "currant-black" } },
    { "kumara", { "sweet-potato" } },
    { "celery root", { "celeriac" } },
    /* an id is a name too */
    { "melon-cantaloupe", { "melon-cantaloupe" } },
    { "currant black", { "currant-black" } },
    /* two foods of one name: the caller must ask which */
    { "lemon juice", { "bottled-lemon-juice", "fresh-lemon-juice" } },
    { "Lemon  Juice", { "bottled-lemon-juice", "fresh-lemon-juice" } },
    { "lime juice", { "bottled-lime-juice", "fresh-lime-juice" } },
    { "coriander", { "cilantro", "coriander-seed" } },
    { "cherries", { "cherry-sour", "cherry-sweet" } },
};

START_TEST(names_find)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    const char *ids[8] = { NULL };
    size_t count = 0, wanted = 0;
    pottle_error error = { .status = POTTLE_OK };
    while (wanted < 3 && names[_i].ids[wanted] != NULL)
        wanted++;
    const pottle_status status =
        pottle_names_find(c, names[_i].name, ids, COUNT(ids), &count, &error);
    ck_assert_msg(status == POTTLE_OK, "'%s': %s", names[_i].name, error.what);
    ck_assert_msg(count == wanted, "'%s' means %zu foods, the first %s",
                  names[_i].name, count, ids[0]);
    for (size_t i = 0; i < wanted; i++) {
        bool found = false;
        for (size_t k = 0; k < count; k++)
            found = found || strcmp(ids[k], names[_i].ids[i]) == 0;
        ck_assert_msg(found, "'%s' is not %s", names[_i].name,
                      names[_i].ids[i]);
    }
    /* less room than foods: the count still says how many there are, and
     * nothing is written past it */
    const char *one[2] = { NULL, "untouched" };
    size_t all = 0;
    ck_assert_int_eq(pottle_names_find(c, names[_i].name, one, 1, &all, NULL),
                     POTTLE_OK);
    ck_assert_uint_eq(all, wanted);
    ck_assert_str_eq(one[1], "untouched");
    ck_assert_int_eq(pottle_names_find(c, names[_i].name, NULL, 0, &all, NULL),
                     POTTLE_OK);
    ck_assert_uint_eq(all, wanted);
    pottle_catalogue_free(c);
}
END_TEST

/* A slip of the keyboard: the name that was meant is among the near ones.
 * Empty: nothing is near; NULL: not asked. */
static const struct {
    const char *name, *near;
} misses[] = {
    { "tomatoe", "tomato" }, /* the e of the plural */
    { "zuchini", "zucchini" },
    { "brocolli", "broccoli" },
    { "cinammon stick", "cinnamon stick" },
    { "rubarb", "rhubarb" },
    { "aple", "apple" },
    { "xylophone orchestra", "" },
    { "", "" },
    { "   ", "" },
    { "-", "" },
    { "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9", "" },
    { "apple\napple apple apple", "" },
    { "chile-salsa", NULL }, /* a recipe is no food */
};

START_TEST(names_miss)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    const char *id = "untouched";
    size_t count = 99;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(
        pottle_names_find(c, misses[_i].name, &id, 1, &count, &error),
        POTTLE_ENOENT);
    ck_assert_uint_eq(count, 99);
    ck_assert_str_eq(id, "untouched");
    ck_assert_str_eq(error.code, "unknown-food");
    const char *near = strstr(error.what, "nearest: ");
    if (misses[_i].near == NULL)
        ck_assert_msg(strstr(error.what, "nearest: chile-salsa") == NULL, "%s",
                      error.what);
    else if (misses[_i].near[0] == '\0')
        ck_assert_msg(near == NULL, "%s", error.what);
    else
        ck_assert_msg(near != NULL && strstr(near, misses[_i].near) != NULL,
                      "%s", error.what);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(names_of_any_length)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    char *far = long_text();
    size_t count = 99;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_names_find(c, far, NULL, 0, &count, &error),
                     POTTLE_ENOENT);
    ck_assert_uint_lt(strlen(error.what), sizeof error.what);
    /* a known name at the end or the beginning of a long text is not the name
     */
    memcpy(far, "apple ", 6);
    ck_assert_int_eq(pottle_names_find(c, far, NULL, 0, &count, &error),
                     POTTLE_ENOENT);
    memset(far, ' ', 10000);
    memcpy(far + 9995, "apple", 5);
    ck_assert_int_eq(pottle_names_find(c, far, NULL, 0, &count, &error),
                     POTTLE_OK); /* blanks do not count */
    ck_assert_uint_eq(count, 1);
    free(far);
    ck_assert_int_eq(pottle_names_find(NULL, "apple", NULL, 0, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_find(c, NULL, NULL, 0, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_find(c, "apple", NULL, 1, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_find(c, "apple", NULL, 0, NULL, &error),
                     POTTLE_EMISUSE);
    pottle_catalogue_free(c);
}
END_TEST

/* Who must do without nuts must do without the tree nuts: FDA, Guidance for
 * Industry: Questions and Answers Regarding Food Allergens (5th ed.), counts
 * almonds, hazelnuts (filberts), macadamia nuts, pecans, pine nuts, pistachios
 * and walnuts, black ones too, among them; nutmeg is the seed of no tree nut. A
 * love apple is a tomato and no apple. */
static const struct {
    const char *name, *covered, *not_covered;
} covers[] = {
    { "nuts", "nut", "nutmeg" },
    { "nuts", "walnut", "coconut" },
    { "nuts", "black-walnut", "butternut-squash" },
    { "nuts", "almond", "mushroom" },
    { "nuts", "almond-extract", "peach" },
    { "nuts", "hazelnut", NULL },
    { "nuts", "macadamia", NULL },
    { "nuts", "pecan", NULL },
    { "nuts", "pine-nut", NULL },
    { "nuts", "pistachio", NULL },
    { "walnut", "walnut", "nut" },
    { "walnuts", "black-walnut", "pecan" },
    { "peppers", "black-pepper", "pepper" },
    { "peppers", "banana-pepper", NULL },
    { "peppers", "jalapeno", NULL },
    { "tomatoes", "green-tomato", "tomatillo" },
    { "apples", "apple", "tomato" },
    { "apples", "apple", "pineapple" },
    { "vinegar", "cider-vinegar", NULL },
};

START_TEST(names_cover)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    const char *ids[64] = { NULL }, *one[2] = { NULL, "untouched" };
    size_t count = 0, all = 0;
    bool found = false, other = false;
    ck_assert_int_eq(
        pottle_names_cover(c, covers[_i].name, ids, COUNT(ids), &count, NULL),
        POTTLE_OK);
    ck_assert_uint_le(count, COUNT(ids));
    for (size_t i = 0; i < count; i++) {
        found = found || strcmp(ids[i], covers[_i].covered) == 0;
        other = other || (covers[_i].not_covered != NULL &&
                          strcmp(ids[i], covers[_i].not_covered) == 0);
    }
    ck_assert_msg(found, "%s does not cover %s", covers[_i].name,
                  covers[_i].covered);
    ck_assert_msg(!other, "%s covers %s", covers[_i].name,
                  covers[_i].not_covered);
    ck_assert_int_eq(pottle_names_cover(c, covers[_i].name, one, 1, &all, NULL),
                     POTTLE_OK);
    ck_assert_uint_eq(all, count);
    ck_assert_str_eq(one[1], "untouched");
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(names_cover_refuses)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    const char *id = "untouched";
    size_t count = 7;
    pottle_error error;
    ck_assert_int_eq(pottle_names_cover(c, "walnutt", &id, 1, &count, &error),
                     POTTLE_ENOENT);
    ck_assert_ptr_nonnull(strstr(error.what, "walnut"));
    ck_assert_int_eq(pottle_names_cover(NULL, "nut", &id, 1, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_cover(c, NULL, &id, 1, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_cover(c, "nut", NULL, 1, &count, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_names_cover(c, "nut", &id, 1, NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_uint_eq(count, 7);
    ck_assert_str_eq(id, "untouched");
    ck_assert_str_eq(pottle_food_under(c, "walnut"), "nut");
    ck_assert_ptr_null(pottle_food_under(c, "nut"));
    ck_assert_ptr_null(pottle_food_under(c, "no-such-food"));
    pottle_catalogue_free(c);
}
END_TEST

/* Every name of every food finds that food, in the singular as listed and in
 * capitals. */
START_TEST(names_all_lead_back)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    const char *id, *before = "", *name;
    size_t foods = 0;
    for (; (id = pottle_food_at(c, foods)) != NULL; foods++) {
        ck_assert_msg(strcmp(before, id) < 0, "%s comes before %s", before, id);
        before = id;
        size_t n = 0;
        for (; (name = pottle_food_name(c, id, n)) != NULL; n++) {
            char loud[128];
            const char *ids[16];
            size_t count = 0;
            bool found = false;
            snprintf(loud, sizeof loud, "%s", name);
            for (char *s = loud; *s != '\0'; s++)
                *s = *s >= 'a' && *s <= 'z' ? (char)(*s - 'a' + 'A') : *s;
            ck_assert_msg(pottle_names_find(c, loud, ids, COUNT(ids), &count,
                                            NULL) == POTTLE_OK,
                          "%s", loud);
            ck_assert_uint_le(count, COUNT(ids));
            for (size_t i = 0; i < count; i++)
                found = found || strcmp(ids[i], id) == 0;
            ck_assert_msg(found, "'%s' does not lead to %s", loud, id);
        }
        ck_assert_msg(n > 0, "%s has no name", id);
    }
    ck_assert_uint_gt(foods, 100);
    ck_assert_ptr_null(pottle_food_name(c, "chile-salsa", 0)); /* a recipe */
    ck_assert_ptr_null(pottle_food_name(c, "no-such-food", 0));
    pottle_catalogue_free(c);
}
END_TEST

/* -- Jars ------------------------------------------------------------------ */

/* Volumes: a US gallon is 231 cubic inches, 3,785.411784 mL, of 128 fl oz (NIST
 * Handbook 44, appendix C). */
static const struct {
    const char *name, *id;
    double ml;
} jars[] = {
    { "half-pint", "half-pint", 236.5882365 },
    { "half pint", "half-pint", 236.5882365 },
    { "Half-Pints", "half-pint", 236.5882365 },
    { "half-pint jars", "half-pint", 236.5882365 },
    { "8 oz", "half-pint", 236.5882365 },
    { "8-oz", "half-pint", 236.5882365 },
    { "8-ounce jar", "half-pint", 236.5882365 },
    { "1/2 pint", "half-pint", 236.5882365 },
    { "4 oz", "quarter-pint", 118.29411825 },
    { "12-oz", "12-oz", 354.88235475 },
    { "pint", "pint", 473.176473 },
    { "pints", "pint", 473.176473 },
    { "pint jar", "pint", 473.176473 },
    { "pint jars", "pint", 473.176473 },
    { "PINT  JARS", "pint", 473.176473 },
    { "16 oz", "pint", 473.176473 },
    { "quart", "quart", 946.352946 },
    { "quart jars", "quart", 946.352946 },
    { "32 oz", "quart", 946.352946 },
    { "1 1/2 pint", "pint-and-half", 709.7647095 },
    { "half-gallon", "half-gallon", 1892.705892 },
    { "250 ml", "250-ml", 250 },
    { "500 ml", "500-ml", 500 },
    { "500-ml", "500-ml", 500 },
    { "500 ml jars", "500-ml", 500 },
    { "0.5 l", "500-ml", 500 },
    { "1 l", "1-l", 1000 },
    { "1-l", "1-l", 1000 },
};

START_TEST(jar_by_name)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_JARS);
    const pottle_jar *jar = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_msg(pottle_jar_find(c, jars[_i].name, &jar, &error) == POTTLE_OK,
                  "'%s': %s", jars[_i].name, error.what);
    ck_assert_msg(strcmp(jar->id, jars[_i].id) == 0, "'%s' is %s",
                  jars[_i].name, jar->id);
    ck_assert_double_eq_tol(jar->nominal_ml, jars[_i].ml, 1e-6);
    pottle_catalogue_free(c);
}
END_TEST

static const char *const no_jars[] = {
    "",        " ", "jar", " jars", "bucket",   "pint bucket", "9 oz",
    "1500 ml", "-", "|",   "pint|", "16 oz|pt", "\xC3\xA9"
};

START_TEST(jar_by_no_name)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_JARS);
    const pottle_jar *jar = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_jar_find(c, no_jars[_i], &jar, &error);
    ck_assert_msg(status == POTTLE_ENOENT, "'%s' is %s", no_jars[_i],
                  jar != NULL ? jar->id : "");
    ck_assert_ptr_null(jar);
    ck_assert_str_eq(error.code, "unknown-jar");
    ck_assert_str_ne(error.what, "");
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(jars_in_order)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_JARS);
    size_t n = 0;
    const pottle_jar *jar = pottle_jars(c, &n);
    ck_assert_uint_ge(n, 8);
    for (size_t i = 0; i < n; i++) {
        const pottle_jar *found = NULL;
        ck_assert(i == 0 || jar[i - 1].nominal_ml < jar[i].nominal_ml);
        ck_assert_int_eq(pottle_jar_find(c, jar[i].id, &found, NULL),
                         POTTLE_OK);
        ck_assert_ptr_eq(found, &jar[i]);
        /* what the command prints it must understand */
        ck_assert_msg(pottle_jar_find(c, jar[i].title, &found, NULL) ==
                          POTTLE_OK,
                      "'%s' finds no jar", jar[i].title);
        ck_assert_ptr_eq(found, &jar[i]);
        ck_assert(jar[i].regular || jar[i].wide);
        if (jar[i].process_as[0] == '\0')
            continue;
        /* National Center for Home Food Preservation: a smaller jar takes the
         * time of the next larger tested one, never the reverse */
        ck_assert_int_eq(pottle_jar_find(c, jar[i].process_as, &found, NULL),
                         POTTLE_OK);
        ck_assert_msg(found->nominal_ml > jar[i].nominal_ml, "%s as %s",
                      jar[i].id, found->id);
    }
    const pottle_jar *jar_found = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_jar_find(c, "pinte", &jar_found, &error),
                     POTTLE_ENOENT);
    ck_assert_msg(strstr(error.what, "nearest: pint") != NULL, "%s",
                  error.what);
    char *far = long_text();
    ck_assert_int_eq(pottle_jar_find(c, far, &jar_found, &error),
                     POTTLE_ENOENT);
    free(far);
    ck_assert_int_eq(pottle_jar_find(NULL, "pint", &jar_found, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_jar_find(c, NULL, &jar_found, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_jar_find(c, "pint", NULL, &error), POTTLE_EMISUSE);
    /* a wide mouth is the wider: USDA Bulletin 539, guide 1, "about 2-3/8 in"
     * and "about 3 in" */
    pottle_length regular = { 0 }, wide = { 0 };
    ck_assert_int_eq(pottle_mouth_diameter(c, false, &regular), POTTLE_OK);
    ck_assert_int_eq(pottle_mouth_diameter(c, true, &wide), POTTLE_OK);
    ck_assert_double_eq_tol(regular.mm, 2.375 * 25.4, 1.0);
    ck_assert_double_eq_tol(wide.mm, 3 * 25.4, 1.0);
    pottle_catalogue_free(c);
}
END_TEST

/* -- Words ----------------------------------------------------------------- */

/* Any int has a word; those of the catalogue's files are the schema's. */
START_TEST(words_are_total)
{
    static const struct {
        const char *(*word)(int);
        int from;
        const char *words[5];
    } all[] = {
        { pottle_standing_name,
          POTTLE_PUBLISHED,
          { "published", "derived", "practice", "memory", NULL } },
        { pottle_state_name,
          POTTLE_PREPARED,
          { "prepared", "purchased", "picked", NULL } },
        { pottle_keep_name,
          POTTLE_FREE,
          { "free", "exact", "at-least", "at-most", NULL } },
        { pottle_method_name,
          POTTLE_BOILING_WATER,
          { "boiling-water", "dial-gauge", "weighted-gauge", NULL } },
    };
    for (size_t i = 0; i < COUNT(all); i++) {
        int n = 0;
        for (; all[i].words[n] != NULL; n++)
            ck_assert_str_eq(all[i].word(all[i].from + n), all[i].words[n]);
        ck_assert_str_eq(all[i].word(all[i].from + n), "unknown");
        ck_assert_str_eq(all[i].word(-1), "unknown");
        ck_assert_str_eq(all[i].word(1000), "unknown");
    }
    pottle_method method = POTTLE_DIAL_GAUGE;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_method_find("oven", &method, &error),
                     POTTLE_ENOENT);
    ck_assert_int_eq(method, POTTLE_DIAL_GAUGE);
    ck_assert_msg(
        strstr(error.what, "boiling-water, dial-gauge, weighted-gauge") != NULL,
        "%s", error.what);
    ck_assert_int_eq(pottle_method_find("Boiling Water", &method, &error),
                     POTTLE_OK);
    ck_assert_int_eq(method, POTTLE_BOILING_WATER);
    ck_assert_int_eq(pottle_method_find(NULL, &method, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_method_find("dial-gauge", NULL, &error),
                     POTTLE_EMISUSE);
}
END_TEST

/* ------------------------------------------------------------------------- */

TCase *
catalogue_names(void)
{
    TCase *t = tcase_create("catalogue");
    tcase_set_timeout(t, 300);
    tcase_add_loop_test(t, names_find, 0, (int)COUNT(names));
    tcase_add_loop_test(t, names_miss, 0, (int)COUNT(misses));
    tcase_add_test(t, names_of_any_length);
    tcase_add_test(t, names_all_lead_back);
    tcase_add_loop_test(t, names_cover, 0, (int)COUNT(covers));
    tcase_add_test(t, names_cover_refuses);
    tcase_add_loop_test(t, jar_by_name, 0, (int)COUNT(jars));
    tcase_add_loop_test(t, jar_by_no_name, 0, (int)COUNT(no_jars));
    tcase_add_test(t, jars_in_order);
    tcase_add_test(t, words_are_total);
    return t;
}
