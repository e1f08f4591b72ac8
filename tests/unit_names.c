/* unit_names.c - test_unit: the table of units, and how people write their
 * names. */
#include <config.h>

#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "unit_cases.h"

START_TEST(table_is_sound)
{
    size_t n = 0;
    for (; pottle_unit_at(n) != NULL; n++) {
        const pottle_unit *u = pottle_unit_at(n);
        ck_assert_ptr_nonnull(u->id);
        ck_assert_ptr_nonnull(u->symbol);
        ck_assert_ptr_nonnull(u->names);
        ck_assert_ptr_nonnull(u->standard);
        ck_assert_uint_gt(strlen(u->standard), 0);
        ck_assert(u->factor >= 0);
        ck_assert(u->factor > 0 || u->dimension == POTTLE_CONTAINER);
        ck_assert(u->dimension == POTTLE_TEMPERATURE || near(u->offset, 0, 0));
        for (size_t k = 0; k < n; k++)
            ck_assert_str_ne(u->id, pottle_unit_at(k)->id);
    }
    ck_assert_uint_gt(n, 50);
    ck_assert_ptr_null(pottle_unit_at(n));
    ck_assert_ptr_null(pottle_unit_at(SIZE_MAX));
}
END_TEST

/* Every unit answers to its id, its symbol and each of its names: as written,
 * in capitals, with an s or a point behind; and no other unit answers to them.
 */
START_TEST(every_name_finds_its_unit)
{
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++) {
        const pottle_unit *u = pottle_unit_at(i);
        ck_assert_msg(pottle_unit_find(u->id) == u, "id %s", u->id);
        ck_assert_msg(u->symbol[0] == '\0' || pottle_unit_find(u->symbol) == u,
                      "symbol %s", u->symbol);
        for (const char *s = u->names; *s != '\0';) {
            const size_t n = strcspn(s, "|");
            char name[80];
            ck_assert_uint_lt(n + 3, sizeof name);
            memcpy(name, s, n);
            name[n] = '\0';
            ck_assert_msg(pottle_unit_find(name) == u, "%s: name %s", u->id,
                          name);
            memcpy(name + n, ".", 2);
            ck_assert_msg(pottle_unit_find(name) == u, "%s: name %s", u->id,
                          name);
            /* (psi has no plural, and degrees have theirs inside) */
            if (n > 1 && name[n - 1] >= 'a' && name[n - 1] <= 'z' &&
                name[n - 1] != 'i' && u->dimension != POTTLE_TEMPERATURE) {
                memcpy(name + n,
                       name[n - 1] == 'h' || name[n - 1] == 'x' ? "es" : "s",
                       name[n - 1] == 'h' || name[n - 1] == 'x' ? 3 : 2);
                ck_assert_msg(name[n - 1] == 's' || pottle_unit_find(name) == u,
                              "%s: plural %s", u->id, name);
            }
            name[n] = '\0';
            for (size_t k = 0; k < n && n > 1; k++)
                if (name[k] >= 'a' && name[k] <= 'z')
                    name[k] = (char)(name[k] - 'a' + 'A');
            ck_assert_msg(pottle_unit_find(name) == u, "%s: capitals %s", u->id,
                          name);
            s += n + (s[n] == '|');
        }
    }
}
END_TEST

/* The sorted names are in order, and each stands in the list of its unit. */
START_TEST(sorted_names_are_those_of_the_units)
{
    const char *id = NULL, *before = "";
    size_t n = 0, listed = 0;
    for (const char *name; (name = pottlei_unit_name_at(n, &id)) != NULL; n++) {
        ck_assert_msg(strcmp(before, name) < 0, "%s behind %s", name, before);
        before = name;
        const pottle_unit *u = pottle_unit_find(name);
        ck_assert_msg(u != NULL && strcmp(u->id, id) == 0, "%s", name);
        char wanted[80], among[400];
        snprintf(wanted, sizeof wanted, "|%s|", name);
        snprintf(among, sizeof among, "|%s|", u->names);
        ck_assert_msg(strstr(among, wanted) != NULL, "%s: %s", id, name);
    }
    for (size_t i = 0; pottle_unit_at(i) != NULL; i++) {
        listed++;
        for (const char *s = pottle_unit_at(i)->names; *s != '\0'; s++)
            listed += *s == '|';
    }
    ck_assert_uint_eq(n, listed);
}
END_TEST

static const struct {
    const char *name, *id;
} finds[] = {
    { "T", "tbsp" },
    { "t", "tsp" },
    { "T.", "tbsp" },
    { "t.", "tsp" },
    { "C", "cup" },
    { "Tbsp.", "tbsp" },
    { "TBSP", "tbsp" },
    { "Tsps.", "tsp" },
    { "fl. oz.", "fl-oz" },
    { "Fl-Oz", "fl-oz" },
    { "fluid ounces", "fl-oz" },
    { "cups.", "cup" },
    { "lbs.", "lb" },
    { "pts", "pt" },
    { "qts.", "qt" },
    { "ozs", "oz" },
    { "inches", "in" },
    { "feet", "ft" },
    { "boxes", "box" },
    { "bushels", "bushel" },
    { "half-gallons", "pottle" },
    { "pounds per square inch", "psi" },
    { "p.s.i.", "psi" },
    { "\xC2\xB0"
      "C",
      "degc" },
    { "\xC2\xB0"
      "F",
      "degf" },
    { "degrees C", "degc" },
    { "degrees Fahrenheit", "degf" },
    { "%", "percent" },
    { "  dry   PINTS ", "dry-pint" },
    { "Litre", "l" },
    { "liters", "l" },
};

START_TEST(finds_what_people_write)
{
    ck_assert_msg(pottle_unit_find(finds[_i].name) == unit(finds[_i].id), "%s",
                  finds[_i].name);
}
END_TEST

static const char *const unknown[] = {
    "",
    " ",
    ".",
    "...",
    "furlong",
    "cupp",
    "|",
    "g|kg",
    "kg|",
    "pint of",
    "s",
    "ss",
    "a",
    "handful",
    "\xFF",
    "\xC2\xB0",
    "gggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg",
    "ggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggggg",
    "cup                                                              ",
};

START_TEST(unknown_units_are_not_found)
{
    ck_assert_ptr_null(pottle_unit_find(unknown[_i]));
}
END_TEST

START_TEST(null_is_no_unit) { ck_assert_ptr_null(pottle_unit_find(NULL)); }
END_TEST

START_TEST(dimension_names_are_total)
{
    for (int d = POTTLE_NUMBER; d <= POTTLE_CONTAINER; d++)
        for (int k = POTTLE_NUMBER; k < d; k++)
            ck_assert_str_ne(pottle_dimension_name(d),
                             pottle_dimension_name(k));
    ck_assert_str_eq(pottle_dimension_name(-1), "something unknown");
    ck_assert_str_eq(pottle_dimension_name(POTTLE_CONTAINER + 1),
                     "something unknown");
    ck_assert_str_eq(pottle_dimension_name(POTTLE_MASS), "a mass");
}
END_TEST

TCase *
unit_names(void)
{
    TCase *t = tcase_create("names");
    tcase_add_test(t, table_is_sound);
    tcase_add_test(t, every_name_finds_its_unit);
    tcase_add_test(t, sorted_names_are_those_of_the_units);
    tcase_add_loop_test(t, finds_what_people_write, 0, COUNT(finds));
    tcase_add_loop_test(t, unknown_units_are_not_found, 0, COUNT(unknown));
    tcase_add_test(t, null_is_no_unit);
    tcase_add_test(t, dimension_names_are_total);
    return t;
}
