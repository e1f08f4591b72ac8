/* catalogue_recipes.c - test_catalogue: foods and recipes by id, a folder of
 * one's own, and the walk over all recipes. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "catalogue_cases.h"

/* -- Foods and recipes by id ----------------------------------------------- */

/* No id is a way out of the catalogue. foods/names.xml is no food, and
 * schema/recipe.rng no recipe. */
static const char *const tricks[] = {
    "",
    " ",
    ".",
    "..",
    "/",
    "../x",
    "../rules",
    "foods/apple",
    "./apple",
    "apple.xml",
    "apple/",
    "/etc/passwd",
    "APPLE",
    "apple ",
    " apple",
    "apple\n",
    "appl\xC3\xA9",
    "apple--pie",
    "-apple",
    "apple-",
    "apple%",
    "%s%n",
    "ap\\ple",
    "..\\x",
    "no-such-thing",
    "names",
    "common",
    "0",
};

START_TEST(food_by_no_id)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    pottle_food *food = (pottle_food *)c, *const before = food;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status = pottle_food_read(c, tricks[_i], &food, &error);
    ck_assert_msg(status == POTTLE_ENOENT, "'%s': %s: %s", tricks[_i],
                  pottle_strerror((int)status), error.what);
    ck_assert_int_eq(error.status, POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "unknown-food");
    ck_assert_ptr_eq(food, before);
    ck_assert_int_eq(pottle_food_read(c, tricks[_i], &food, NULL),
                     POTTLE_ENOENT);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(recipe_by_no_id)
{
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    pottle_recipe *recipe = (pottle_recipe *)c, *const before = recipe;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(c, tricks[_i], &recipe, &error);
    ck_assert_msg(status == POTTLE_ENOENT, "'%s': %s: %s", tricks[_i],
                  pottle_strerror((int)status), error.what);
    ck_assert_int_eq(error.status, POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "unknown-recipe");
    ck_assert_ptr_eq(recipe, before);
    ck_assert_int_eq(pottle_recipe_read(c, tricks[_i], &recipe, NULL),
                     POTTLE_ENOENT);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(form_said)
{
    /* what a person reads behind the title, by hand: the form is said wherever
     * another would be another amount */
    static const struct {
        const char *food, *form, *said;
    } cases[] = {
        { "onion", "finely-chopped", "finely chopped" },
        { "onion", "ground", "ground" },
        { "sugar", "ground", "" },
        { "brown-sugar", "packed", "packed" },
        { "butter", "packed", "" },
        { "clove-whole", "whole", "" },
        { "celery-seed", "whole", "" },
        { "mustard-seed", "ground", "ground" },
        { "red-pepper-flakes", "flaked", "" },
        { "strawberry", "whole", "whole" },
        { "liquid-pectin", "liquid", "" },
        { "onion", "liquid", "" },
        { "onion", "no such form", "" },
        { "onion", "", "" },
    };
    pottle_catalogue *c = open_shipped(POTTLE_WITH_NAMES);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        pottle_food *food = NULL;
        ck_assert_int_eq(pottle_food_read(c, cases[i].food, &food, NULL),
                         POTTLE_OK);
        const char *said = pottle_form_said(food, cases[i].form);
        ck_assert_msg(strcmp(said, cases[i].said) == 0, "%s %s: '%s'",
                      cases[i].food, cases[i].form, said);
        pottle_food_free(food);
    }
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(food_read)
{
    make_work();
    pottle_catalogue *c = open_folder(FOLDER, NULL, POTTLE_WITH_NAMES);
    pottle_food *food = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_food_read(c, "tomato", &food, &error), POTTLE_OK);
    ck_assert_str_eq(pottle_food_id(food), "tomato");
    ck_assert_str_ne(pottle_food_title(food), "");
    ck_assert_str_eq(pottle_food_group(food), "vegetable");
    /* US Food and Drug Administration, approximate pH of foods: tomatoes 4.30
     * to 4.90, on both sides of 4.6 */
    ck_assert_int_eq(pottle_food_acid(food)->class_, POTTLE_BORDERLINE);
    ck_assert_double_eq_tol(pottle_food_acid(food)->ph_low, 4.30, 1e-9);
    ck_assert_double_eq_tol(pottle_food_acid(food)->ph_high, 4.90, 1e-9);
    /* USDA Standard Reference 28, 11529: 1 cup of chopped tomatoes weighs 180
     * g; a cup is 236.5882365 mL */
    const pottle_form *form = pottle_food_form(food, "chopped");
    ck_assert_ptr_nonnull(form);
    ck_assert_str_eq(form->id, "chopped");
    ck_assert_double_eq_tol(form->weight[0].grams, 180, 1e-9);
    ck_assert_double_eq_tol(form->weight[0].volume_ml, 236.5882365, 1e-9);
    ck_assert_str_eq(form->weight[0].measure, "1 cup");
    /* the words of an id and no part of them */
    ck_assert_ptr_null(pottle_food_form(food, "chop"));
    ck_assert_ptr_null(pottle_food_form(food, ""));
    /* what is found is an entry of the list */
    size_t n = 0;
    const pottle_form *list = pottle_food_forms(food, &n);
    for (size_t i = 0; i < n; i++)
        ck_assert_ptr_eq(pottle_food_form(food, list[i].id), &list[i]);
    pottle_food_free(food);
    pottle_food_free(NULL);

    food = NULL;
    ck_assert_int_eq(pottle_food_read(NULL, "tomato", &food, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_food_read(c, NULL, &food, &error), POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_food_read(c, "tomato", NULL, &error),
                     POTTLE_EMISUSE);
    char *far = long_text();
    ck_assert_int_eq(pottle_food_read(c, far, &food, &error), POTTLE_ENOENT);
    far[64] = '\0'; /* one more than an id may have */
    ck_assert_int_eq(pottle_food_read(c, far, &food, &error), POTTLE_ENOENT);
    far[63] = '\0';
    ck_assert_int_eq(pottle_food_read(c, far, &food, &error), POTTLE_ENOENT);
    free(far);

    copy_file(FOLDER "/foods/tomato.xml", FOLDER "/foods/apple.xml", NULL,
              NULL);
    ck_assert_int_eq(pottle_food_read(c, "apple", &food, &error), POTTLE_EDATA);
    ck_assert_str_eq(error.code, "file-name");
    ck_assert_str_eq(error.where, FOLDER "/foods/apple.xml");
    ck_assert_int_gt(error.line, 0);
    ck_assert_int_eq(mkdir(FOLDER "/foods/pear.xml", 0777), 0);
    ck_assert_int_eq(pottle_food_read(c, "pear", &food, &error), POTTLE_EIO);
    ck_assert_ptr_null(food);
    pottle_catalogue_free(c);
}
END_TEST

START_TEST(recipe_read)
{
    make_work();
    pottle_catalogue *c = open_folder(FOLDER, NULL, POTTLE_WITH_NAMES);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", &recipe, &error),
                     POTTLE_OK);
    ck_assert_str_eq(pottle_recipe_id(recipe), "chile-salsa");
    ck_assert_str_eq(pottle_recipe_kind(recipe), "salsa");
    ck_assert(pottle_recipe_is_kind(recipe, "Salsas"));
    ck_assert(!pottle_recipe_is_kind(recipe, "sal"));
    ck_assert(!pottle_recipe_is_kind(recipe, ""));
    ck_assert(!pottle_recipe_is_kind(recipe, "salsa jam"));
    ck_assert_int_eq(pottle_recipe_standing(recipe), POTTLE_TESTED);
    /* USDA Bulletin 539, guide 3, Chile salsa: pints, hot pack, 15, 20 and 25
     * minutes at 0 to 1,000, 1,001 to 6,000, above 6,000 ft */
    size_t n = 0;
    const pottle_process_table *table = pottle_recipe_processes(recipe, &n);
    ck_assert_uint_eq(n, 1);
    ck_assert_uint_eq(table[0].bands, 3);
    ck_assert_int_eq(table[0].band[0].minutes, 15);
    ck_assert_int_eq(table[0].band[1].minutes, 20);
    ck_assert_int_eq(table[0].band[1].to_ft, 6000);
    ck_assert_int_eq(table[0].band[2].minutes, 25);
    ck_assert_int_lt(table[0].band[2].to_ft, 0);
    pottle_recipe_free(recipe);
    pottle_recipe_free(NULL);

    /* another id that names.xml lists for it, and how it may be typed */
    static const char *const others[] = { "salsa-chile", "salsa chile",
                                          "Salsa-Chile" };
    for (size_t i = 0; i < COUNT(others); i++) {
        recipe = NULL;
        ck_assert_msg(pottle_recipe_read(c, others[i], &recipe, &error) ==
                          POTTLE_OK,
                      "%s: %s", others[i], error.what);
        ck_assert_str_eq(pottle_recipe_id(recipe), "chile-salsa");
        pottle_recipe_free(recipe);
    }

    recipe = NULL;
    ck_assert_int_eq(pottle_recipe_read(c, "chille-salsa", &recipe, &error),
                     POTTLE_ENOENT);
    ck_assert_msg(strstr(error.what, "nearest: ") != NULL &&
                      strstr(error.what, "chile-salsa") != NULL,
                  "%s", error.what);
    ck_assert_int_eq(pottle_recipe_read(c, "tomato", &recipe, &error),
                     POTTLE_ENOENT); /* a food */
    ck_assert_int_eq(pottle_recipe_read(NULL, "chile-salsa", &recipe, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read(c, NULL, &recipe, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read_file(NULL,
                                             FOLDER "/salsa/chile-salsa.xml",
                                             &recipe, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read_file(c, NULL, &recipe, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read_file(c, FOLDER "/salsa/chile-salsa.xml",
                                             NULL, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_read_file(c, FOLDER "/salsa/nothing.xml",
                                             &recipe, &error),
                     POTTLE_ENOENT);
    ck_assert_int_eq(
        pottle_recipe_read_file(c, FOLDER "/salsa", &recipe, &error),
        POTTLE_EIO);
    char *far = long_text();
    ck_assert_int_eq(pottle_recipe_read(c, far, &recipe, &error),
                     POTTLE_ENOENT);
    ck_assert_int_eq(pottle_recipe_read_file(c, far, &recipe, &error),
                     POTTLE_EIO);
    free(far);
    ck_assert_ptr_null(recipe);
    pottle_catalogue_free(c);
}
END_TEST

/* A recipe of the catalogue lies where its id and kind say, and is not
 * somebody's own. */
START_TEST(recipe_out_of_place)
{
    make_work();
    static const struct {
        const char *to, *id, *old, *new, *code;
    } moves[] = {
        { FOLDER "/relish/chile-salsa-two.xml", "chile-salsa-two",
          "id=\"chile-salsa\"", "id=\"chile-salsa-two\"", "kind" },
        { FOLDER "/salsa/hot-salsa.xml", "hot-salsa", "<title>", "<title>",
          "file-name" },
        { FOLDER "/salsa/our-salsa.xml", "our-salsa",
          "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"",
          "id=\"our-salsa\" kind=\"salsa\" status=\"own\"", "own" },
    };
    pottle_catalogue *c = open_folder(FOLDER, NULL, 0);
    for (size_t i = 0; i < COUNT(moves); i++) {
        copy_file(FOLDER "/salsa/chile-salsa.xml", moves[i].to, moves[i].old,
                  moves[i].new);
        pottle_recipe *recipe = NULL;
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(pottle_recipe_read(c, moves[i].id, &recipe, &error),
                         POTTLE_EDATA);
        ck_assert_str_eq(error.code, moves[i].code);
        ck_assert_str_eq(error.where, moves[i].to);
        ck_assert_ptr_null(recipe);
        /* from a file of any name it can be read */
        ck_assert_int_eq(
            pottle_recipe_read_file(c, moves[i].to, &recipe, &error),
            POTTLE_OK);
        pottle_recipe_free(recipe);
    }
    pottle_catalogue_free(c);
}
END_TEST

/* -- A folder of one's own ------------------------------------------------- */

START_TEST(own_recipes)
{
    static const char tested[] =
        "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"";
    make_work();
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/our-salsa.xml", tested,
              "id=\"our-salsa\" kind=\"salsa\" status=\"own\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/chile-salsa.xml", tested,
              "id=\"chile-salsa\" kind=\"salsa\" status=\"own\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/bold-salsa.xml", tested,
              "id=\"bold-salsa\" kind=\"salsa\" status=\"tested\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/draft-salsa.xml", tested,
              "id=\"draft-salsa\" kind=\"salsa\" status=\"draft\"");
    pottle_catalogue *c = open_folder(FOLDER, OWN, POTTLE_WITH_ALL);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };

    ck_assert_int_eq(pottle_recipe_read(c, "our-salsa", &recipe, &error),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_recipe_standing(recipe), POTTLE_OWN);
    /* the copied times are there to be read and are given to nobody */
    size_t n = 0;
    const pottle_jar *jar = NULL;
    pottle_process process[POTTLE_PROCESS_MAX];
    pottle_recipe_processes(recipe, &n);
    ck_assert_uint_eq(n, 1);
    ck_assert_int_eq(pottle_jar_find(c, "pint", &jar, &error), POTTLE_OK);
    ck_assert_int_eq(pottle_process_find(c, recipe, jar, NULL, POTTLE_ANY_PACK,
                                         100, process, &n, &error),
                     POTTLE_EBOUNDS);
    ck_assert_str_eq(error.code, "own-recipe");
    pottle_recipe_free(recipe);

    recipe = NULL;
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", &recipe, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "hides-tested");
    ck_assert_str_eq(error.where, OWN "/chile-salsa.xml");
    ck_assert_int_eq(pottle_recipe_read(c, "bold-salsa", &recipe, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "own");
    ck_assert_int_eq(pottle_recipe_read(c, "draft-salsa", &recipe, &error),
                     POTTLE_EDATA);
    ck_assert_str_eq(error.code, "own");
    ck_assert_ptr_null(recipe);
    /* once it is gone the tested one is found again */
    ck_assert_int_eq(remove(OWN "/chile-salsa.xml"), 0);
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", &recipe, &error),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_recipe_standing(recipe), POTTLE_TESTED);
    pottle_recipe_free(recipe);
    pottle_catalogue_free(c);

    /* without the folder there is no such recipe */
    c = open_folder(FOLDER, NULL, 0);
    recipe = NULL;
    ck_assert_int_eq(pottle_recipe_read(c, "our-salsa", &recipe, &error),
                     POTTLE_ENOENT);
    pottle_catalogue_free(c);
}
END_TEST

/* What a walk had is read again by its file, whatever else has its id; a recipe
 * of one's own is of no catalogue without its folder. */
START_TEST(recipe_read_again)
{
    make_work();
    pottle_catalogue *plain = open_folder(FOLDER, NULL, 0);
    pottle_recipe *seen = NULL, *out = NULL, *own = NULL;
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_recipe_read(plain, "chile-salsa", &seen, &error),
                     POTTLE_OK);
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/chile-salsa.xml",
              "status=\"tested\"", "status=\"own\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/our-salsa.xml",
              "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"",
              "id=\"our-salsa\" kind=\"salsa\" status=\"own\"");
    pottle_catalogue *c = open_folder(FOLDER, OWN, 0);
    ck_assert_int_eq(pottle_recipe_read(c, "chile-salsa", &out, &error),
                     POTTLE_EDATA);
    ck_assert_int_eq(pottle_recipe_again(c, seen, &out, &error), POTTLE_OK);
    ck_assert_int_eq(pottle_recipe_standing(out), POTTLE_TESTED);
    pottle_recipe_free(out);
    out = NULL;
    ck_assert_int_eq(pottle_recipe_read(c, "our-salsa", &own, &error),
                     POTTLE_OK);
    ck_assert_int_eq(pottle_recipe_again(c, own, &out, &error), POTTLE_OK);
    ck_assert_int_eq(pottle_recipe_standing(out), POTTLE_OWN);
    pottle_recipe_free(out);
    out = NULL;
    ck_assert_int_eq(pottle_recipe_again(plain, own, &out, &error),
                     POTTLE_ENOENT);
    ck_assert_int_eq(pottle_recipe_again(NULL, own, &out, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_again(c, NULL, &out, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipe_again(c, own, NULL, &error), POTTLE_EMISUSE);
    ck_assert_ptr_null(out);
    pottle_recipe_free(own);
    pottle_recipe_free(seen);
    pottle_catalogue_free(c);
    pottle_catalogue_free(plain);
}
END_TEST

/* An own recipe under another id of a tested one would be met where the tested
 * one is meant. */
START_TEST(own_recipe_under_an_alias)
{
    make_work();
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/salsa-chile.xml",
              "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"",
              "id=\"salsa-chile\" kind=\"salsa\" status=\"own\"");
    pottle_catalogue *c = open_folder(FOLDER, OWN, POTTLE_WITH_ALL);
    pottle_recipe *recipe = NULL;
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(c, "salsa-chile", &recipe, &error);
    ck_assert_msg(status == POTTLE_EDATA,
                  "an own recipe hides the tested one of that other id: %s",
                  pottle_strerror((int)status));
    ck_assert_str_eq(error.code, "hides-tested");
    pottle_catalogue_free(c);
}
END_TEST

/* -- The walk -------------------------------------------------------------- */

typedef struct walk {
    size_t recipes, broken, stop_after;
    char order[40][64];
    pottle_error last;
} walk;

static pottle_status
visit(void *context, const pottle_recipe *recipe, const pottle_error *error)
{
    walk *w = context;
    if (recipe != NULL) {
        if (w->recipes < 40)
            snprintf(w->order[w->recipes], sizeof w->order[0], "%s",
                     pottle_recipe_id(recipe));
        w->recipes++;
    } else {
        w->broken++;
        w->last = *error;
    }
    return w->stop_after > 0 && w->recipes + w->broken == w->stop_after
             ? POTTLE_EDOMAIN
             : POTTLE_OK;
}

START_TEST(walk_goes_on)
{
    make_work();
    pottle_catalogue *c = open_folder(FOLDER, OWN, 0);
    pottle_error error = { .status = POTTLE_OK };
    walk w = { .recipes = 0 };
    ck_assert_int_eq(pottle_recipes_each(c, visit, &w, &error), POTTLE_OK);
    ck_assert_uint_eq(w.recipes, 2);
    ck_assert_uint_eq(w.broken, 0);

    /* a broken one among them, one in a wrong folder, one of one's own, and
     * things that are no recipes */
    copy_file(FOLDER "/salsa/chile-salsa.xml", FOLDER "/salsa/amber-salsa.xml",
              "id=\"chile-salsa\"", "id=\"amber-salsa\"");
    write_file(FOLDER "/salsa/broken-salsa.xml", "<recipe", 7);
    copy_file(FOLDER "/salsa/chile-salsa.xml", FOLDER "/relish/zesty-salsa.xml",
              "id=\"chile-salsa\"", "id=\"zesty-salsa\"");
    copy_file(FOLDER "/salsa/chile-salsa.xml", OWN "/our-salsa.xml",
              "id=\"chile-salsa\" kind=\"salsa\" status=\"tested\"",
              "id=\"our-salsa\" kind=\"salsa\" status=\"own\"");
    write_file(FOLDER "/salsa/notes.txt", "notes", 5);
    write_file(FOLDER "/salsa/.xml", "hidden", 6);
    w = (walk){ .recipes = 0 };
    ck_assert_int_eq(pottle_recipes_each(c, visit, &w, &error), POTTLE_OK);
    ck_assert_uint_eq(w.recipes, 4);
    ck_assert_uint_eq(w.broken, 2);
    ck_assert_str_ne(w.last.what, "");
    ck_assert_str_ne(w.last.where, "");
    /* of one kind they come by their ids, whatever order the folder has */
    size_t amber = 99, chile = 0;
    for (size_t i = 0; i < w.recipes; i++) {
        amber = strcmp(w.order[i], "amber-salsa") == 0 ? i : amber;
        chile = strcmp(w.order[i], "chile-salsa") == 0 ? i : chile;
    }
    ck_assert_uint_lt(amber, chile);

    /* a status ends the walk and is handed on */
    for (size_t n = 1; n <= 6; n++) {
        w = (walk){ .stop_after = n };
        ck_assert_int_eq(pottle_recipes_each(c, visit, &w, &error),
                         POTTLE_EDOMAIN);
        ck_assert_uint_eq(w.recipes + w.broken, n);
    }
    ck_assert_int_eq(pottle_recipes_each(NULL, visit, &w, &error),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_recipes_each(c, NULL, &w, &error), POTTLE_EMISUSE);
    pottle_catalogue_free(c);
}
END_TEST

TCase *
catalogue_recipes(void)
{
    TCase *t = tcase_create("catalogue");
    tcase_set_timeout(t, 300);
    tcase_add_loop_test(t, food_by_no_id, 0, (int)COUNT(tricks));
    tcase_add_loop_test(t, recipe_by_no_id, 0, (int)COUNT(tricks));
    tcase_add_test(t, form_said);
    tcase_add_test(t, food_read);
    tcase_add_test(t, recipe_read);
    tcase_add_test(t, recipe_out_of_place);
    tcase_add_test(t, own_recipes);
    tcase_add_test(t, recipe_read_again);
    tcase_add_test(t, own_recipe_under_an_alias);
    tcase_add_test(t, walk_goes_on);
    return t;
}
