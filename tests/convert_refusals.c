/* convert_refusals.c - test_convert: what is refused, and with which words. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "convert_cases.h"

/* -- Refusals -------------------------------------------------------------- */

static const struct {
    const char *food;
    double amount;
    const char *unit, *form, *size, *to, *as; /* as NULL: none */
    pottle_status status;
    const char *code, *words[3]; /* what the sentence names */
} refusals[] = {
    /* a cup of apples says nothing: ask for the form */
    { "apple",
      2,
      "cup",
      "",
      "",
      "g",
      NULL,
      POTTLE_EAMBIGUOUS,
      "which-form",
      { "sliced", "chopped", "quartered" } },
    { "onion",
      2,
      "cup",
      "",
      "",
      "lb",
      NULL,
      POTTLE_EAMBIGUOUS,
      "which-form",
      { "sliced", "chopped", "diced" } },
    { "apple",
      2,
      "lb",
      "",
      "",
      "cup",
      NULL,
      POTTLE_EAMBIGUOUS,
      "which-form",
      { "sliced", "chopped", "quartered" } },
    { "tomato",
      12,
      "count",
      "",
      "medium",
      "cup",
      NULL,
      POTTLE_EAMBIGUOUS,
      "which-form",
      { "chopped", "crushed", "pureed" } },
    /* a form that is not known lists those that are */
    { "rhubarb",
      2,
      "cup",
      "pureed",
      "",
      "g",
      NULL,
      POTTLE_ENOENT,
      "no-form",
      { "diced", "cooked", "frozen" } },
    { "rhubarb",
      2,
      "lb",
      "",
      "",
      "cup",
      "mashed",
      POTTLE_ENOENT,
      "no-form",
      { "mashed", "diced", "cooked" } },
    { "strawberry",
      2,
      "cup",
      "julienned",
      "",
      "g",
      NULL,
      POTTLE_ENOENT,
      "no-form",
      { "whole", "halved", "sliced" } },
    { "powdered-pectin",
      2,
      "cup",
      "",
      "",
      "g",
      NULL,
      POTTLE_ENOENT,
      "no-density",
      { "weigh", NULL, NULL } },
    { "powdered-pectin",
      2,
      "g",
      "",
      "",
      "tbsp",
      "ground",
      POTTLE_ENOENT,
      "no-density",
      { "weigh", NULL, NULL } },
    /* pieces */
    { "sugar",
      2,
      "count",
      "",
      "",
      "g",
      NULL,
      POTTLE_ENOENT,
      "no-piece",
      { "weigh", NULL, NULL } },
    { "tomato",
      2,
      "count",
      "",
      "bunch",
      "g",
      NULL,
      POTTLE_ENOENT,
      "no-piece",
      { "small", "medium", "large" } },
    { "sugar",
      2,
      "kg",
      "",
      "",
      "count",
      NULL,
      POTTLE_ENOENT,
      "no-piece",
      { "weigh", NULL, NULL } },
    /* containers */
    { "sugar",
      2,
      "bushel",
      "",
      "",
      "g",
      NULL,
      POTTLE_ENOENT,
      "no-container",
      { "bushel", "eigh", NULL } },
    { "apple",
      1,
      "flat",
      "",
      "",
      "lb",
      NULL,
      POTTLE_ENOENT,
      "no-container",
      { "flat", "bushel", "peck" } },
    { "apple",
      40,
      "lb",
      "",
      "",
      "lug",
      NULL,
      POTTLE_ENOENT,
      "no-container",
      { "lug", "bushel", "peck" } },
    /* dimensions */
    { "apple",
      1,
      "lb",
      "",
      "",
      "psi",
      NULL,
      POTTLE_EUNIT,
      "dimension",
      { "psi", "pressure", NULL } },
    { "apple",
      1,
      "lb",
      "",
      "",
      "ft",
      NULL,
      POTTLE_EUNIT,
      "dimension",
      { "length", NULL, NULL } },
    { "apple",
      1,
      "lb",
      "",
      "",
      "deg C",
      NULL,
      POTTLE_EUNIT,
      "dimension",
      { "temperature", NULL, NULL } },
    { "apple",
      1,
      "lb",
      "",
      "",
      "percent",
      NULL,
      POTTLE_EUNIT,
      "dimension",
      { "number", NULL, NULL } },
    { "apple",
      1,
      "psi",
      "",
      "",
      "lb",
      NULL,
      POTTLE_EUNIT,
      "dimension",
      { "psi", "pressure", NULL } },
    { "apple",
      1,
      "m",
      "",
      "",
      "cup",
      "sliced",
      POTTLE_EUNIT,
      "dimension",
      { "length", NULL, NULL } },
};

START_TEST(conversion_is_refused)
{
    pottle_food *food = food_of(refusals[_i].food);
    const pottle_phrase p = amount_of(refusals[_i].amount, refusals[_i].unit,
                                      refusals[_i].form, refusals[_i].size);
    pottle_conversion c, untouched;
    memset(&c, 0x5A, sizeof c);
    memcpy(&untouched, &c, sizeof c);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_convert(catalogue, food, &p, unit_of(refusals[_i].to),
                       refusals[_i].as, &c, &error);
    ck_assert_msg(status == refusals[_i].status, "%g %s %s to %s: %s: %s",
                  refusals[_i].amount, refusals[_i].unit, refusals[_i].food,
                  refusals[_i].to, pottle_strerror((int)status), error.what);
    ck_assert_int_eq(error.status, status);
    ck_assert_str_eq(error.code, refusals[_i].code);
    for (size_t i = 0; i < 3 && refusals[_i].words[i] != NULL; i++)
        ck_assert_msg(strstr(error.what, refusals[_i].words[i]) != NULL,
                      "'%s' does not name %s", error.what,
                      refusals[_i].words[i]);
    ck_assert_mem_eq(&c, &untouched, sizeof c);
    ck_assert_int_eq(pottle_convert(catalogue, food, &p,
                                    unit_of(refusals[_i].to), refusals[_i].as,
                                    &c, NULL),
                     refusals[_i].status);
    ck_assert_mem_eq(&c, &untouched, sizeof c);
    pottle_food_free(food);
}
END_TEST

START_TEST(trim_and_form_are_refused)
{
    pottle_food *food = food_of("tomato");
    const pottle_phrase p = amount_in(1, "kg", "", POTTLE_PURCHASED);
    pottle_estimate out = { 12, 34 };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, &p, POTTLE_PREPARED,
                                        "skinned-twice", "", &out, NULL,
                                        &error),
                     POTTLE_ENOENT);
    ck_assert_str_eq(error.code, "no-trim");
    ck_assert_msg(strstr(error.what, "skinned-twice") != NULL, "%s",
                  error.what);
    /* "the error lists what it has" */
    ck_assert_msg(strstr(error.what, "peeled-cored") != NULL &&
                      strstr(error.what, "sieved") != NULL,
                  "'%s' does not list the trims that are known", error.what);
    ck_assert_int_eq(
        pottle_form_density(catalogue, food, "julienned", &out, NULL, &error),
        POTTLE_ENOENT);
    ck_assert_msg(strstr(error.what, "julienned") != NULL &&
                      strstr(error.what, "chopped") != NULL,
                  "%s", error.what);
    ck_assert(near(out.median, 12, 0) && near(out.sd, 34, 0));
    pottle_food_free(food);
}
END_TEST

START_TEST(misuse_is_told)
{
    pottle_food *food = food_of("rhubarb");
    pottle_phrase p = amount_of(8, "cup", "diced", "");
    pottle_conversion c, untouched;
    memset(&c, 0x5A, sizeof c);
    memcpy(&untouched, &c, sizeof c);
    pottle_estimate out = { 12, 34 };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(
        pottle_convert(NULL, food, &p, unit_of("g"), NULL, &c, &error),
        POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "misuse");
    ck_assert_int_eq(
        pottle_convert(catalogue, NULL, &p, unit_of("g"), NULL, &c, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_convert(catalogue, food, NULL, unit_of("g"), NULL, &c, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_convert(catalogue, food, &p, NULL, NULL, &c, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_convert(catalogue, food, &p, unit_of("g"), NULL, NULL, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_mass(NULL, food, &p, POTTLE_PREPARED, "", "",
                                        &out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, NULL, &p, POTTLE_PREPARED,
                                        "", "", &out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, NULL, POTTLE_PREPARED,
                                        "", "", &out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, &p, POTTLE_PREPARED,
                                        NULL, "", &out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, &p, POTTLE_PREPARED,
                                        "", NULL, &out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, &p, POTTLE_PREPARED,
                                        "", "", NULL, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_form_density(NULL, food, "diced", &out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_form_density(catalogue, NULL, "diced", &out, NULL, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_form_density(catalogue, food, NULL, &out, NULL, NULL),
        POTTLE_EMISUSE);
    ck_assert_int_eq(
        pottle_form_density(catalogue, food, "diced", NULL, NULL, NULL),
        POTTLE_EMISUSE);
    p.unit = NULL;
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, &p, POTTLE_PREPARED,
                                        "", "", &out, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert(near(out.median, 12, 0) && near(out.sd, 34, 0));
    ck_assert_mem_eq(&c, &untouched, sizeof c);
    pottle_food_free(food);
}
END_TEST

/* An amount without a unit is a caller's bug wherever it is going. */
START_TEST(amount_without_a_unit)
{
    static const char *const to[] = { "g", "cup", "count", "lug" };
    pottle_food *food = food_of("rhubarb");
    pottle_phrase p = amount_of(8, "cup", "diced", "");
    p.unit = NULL;
    pottle_conversion c, untouched;
    memset(&c, 0x5A, sizeof c);
    memcpy(&untouched, &c, sizeof c);
    const pottle_status status =
        pottle_convert(catalogue, food, &p, unit_of(to[_i]), "diced", &c, NULL);
    ck_assert_msg(status == POTTLE_EMISUSE, "to %s: status %d", to[_i],
                  (int)status);
    ck_assert_mem_eq(&c, &untouched, sizeof c);
    pottle_food_free(food);
}
END_TEST

TCase *
convert_refusals(void)
{
    TCase *t = tcase_create("refusals");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, conversion_is_refused, 0, COUNT(refusals));
    tcase_add_test(t, trim_and_form_are_refused);
    tcase_add_test(t, misuse_is_told);
    tcase_add_loop_test(t, amount_without_a_unit, 0, 4);
    return t;
}
