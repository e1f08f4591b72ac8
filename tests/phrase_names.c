/* phrase_names.c - test_phrase: every name of a food, and those of several. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "phrase_cases.h"

/* -- Names ----------------------------------------------------------------- */

/* What cooks of several countries call one food, and plurals (from memory, any
 * dictionary has them). */
static const struct {
    const char *name, *food;
} names[] = {
    { "tomatoes", "tomato" },
    { "tomato", "tomato" },
    { "potatoes", "potato" },
    { "sweet potatoes", "sweet-potato" },
    { "mangoes", "mango" },
    { "mangos", "mango" },
    { "radishes", "radish" },
    { "peaches", "peach" },
    { "sour cherries", "cherry-sour" },
    { "blackberries", "blackberry" },
    { "gooseberries", "gooseberry" },
    { "quinces", "quince" },
    { "asparagus", "asparagus" },
    { "bay leaves", "bay-leaf" },
    { "bay leaf", "bay-leaf" },
    { "chives", "chive" },
    { "walnuts", "walnut" },
    { "jalape\xC3\xB1os", "jalapeno" },
    { "jalapenos", "jalapeno" },
    { "jalape\xC3\xB1o", "jalapeno" },
    { "courgettes", "zucchini" },
    { "zucchini", "zucchini" },
    { "aubergines", "eggplant" },
    { "beetroot", "beet" },
    { "beets", "beet" },
    { "swede", "rutabaga" },
    { "neeps", "rutabaga" },
    { "capsicums", "sweet-pepper" },
    { "bell peppers", "sweet-pepper" },
    { "spring onions", "scallion" },
    { "green onions", "scallion" },
    { "scallions", "scallion" },
    { "rocket", "arugula" },
    { "mangetout", "snow-pea" },
    { "french beans", "snap-bean" },
    { "runner beans", "snap-bean" },
    { "green beans", "snap-bean" },
    { "broad beans", "fava-bean" },
    { "haricot beans", "navy-bean-dried" },
    { "gherkins", "pickling-cucumber" },
    { "sultanas", "golden-raisin" },
    { "cornflour", "cornstarch" },
    { "icing sugar", "powdered-sugar" },
    { "caster sugar", "sugar" },
    { "treacle", "molasses" },
    { "brambles", "blackberry" },
    { "silverbeet", "chard" },
    { "rockmelon", "melon-cantaloupe" },
    { "pawpaw", "papaya" },
    { "kumara", "sweet-potato" },
    { "pak choi", "bok-choy" },
    { "coriander leaves", "cilantro" },
    { "cilantro", "cilantro" },
    { "ladies' fingers", "okra" },
    { "sweetcorn", "corn" },
    { "marrow", "summer-squash" },
    { "redcurrants", "currant" },
    { "blackcurrants", "currant-black" },
    { "passata", "tomato-puree" },
    { "icing sugar", "powdered-sugar" },
    { "pickling salt", "canning-salt" },
    { "white vinegar", "vinegar" },
    { "apple cider vinegar", "cider-vinegar" },
    { "nashi", "asian-pear" },
    { "bottled lemon juice", "bottled-lemon-juice" },
    { "fresh lemon juice", "fresh-lemon-juice" },
    { "green tomatoes", "green-tomato" },
    { "roma tomatoes", "paste-tomato" },
    { "garlic cloves", "garlic" },
    { "ground cloves", "clove-ground" },
    { "whole cloves", "clove-whole" },
};

START_TEST(name_is_known)
{
    char text[100];
    snprintf(text, sizeof text, "2 lb %s", names[_i].name);
    pottle_phrase p;
    memset(&p, 0, sizeof p);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_phrase_read(catalogue, text, NULL, 0, &p, &error);
    ck_assert_msg(status == POTTLE_OK, "'%s': %s", text, error.what);
    ck_assert_msg(strcmp(p.food, names[_i].food) == 0, "'%s' is %s, wanted %s",
                  text, p.food, names[_i].food);
}
END_TEST

/* Every name of the catalogue can be typed: it is its own food, or it is said
 * which others it may be. */
START_TEST(every_name_is_known)
{
    size_t seen = 0;
    for (size_t i = 0; pottle_food_at(catalogue, i) != NULL; i++) {
        const char *id = pottle_food_at(catalogue, i);
        for (size_t k = 0; pottle_food_name(catalogue, id, k) != NULL; k++) {
            char text[120];
            snprintf(text, sizeof text, "1 kg %s",
                     pottle_food_name(catalogue, id, k));
            pottle_phrase p;
            pottle_error error = { .status = POTTLE_OK };
            pottle_status status =
                pottle_phrase_read(catalogue, text, NULL, 0, &p, &error);
            if (status == POTTLE_EAMBIGUOUS) /* the context settles it */
                status =
                    pottle_phrase_read(catalogue, text, &id, 1, &p, &error);
            ck_assert_msg(status == POTTLE_OK, "'%s' of %s: %s", text, id,
                          error.what);
            ck_assert_msg(strcmp(p.food, id) == 0,
                          "'%s' is %s, but it stands at %s", text, p.food, id);
            seen++;
        }
    }
    ck_assert_msg(seen > 1000, "only %zu names", seen);
}
END_TEST

/* -- Ambiguous ------------------------------------------------------------- */

static const char bottled[] = "bottled-lemon-juice",
                  fresh[] = "fresh-lemon-juice";

void
check_untouched(const pottle_phrase *p)
{
    pottle_phrase kept;
    memset(&kept, 0x5A, sizeof kept);
    ck_assert_msg(memcmp(p, &kept, sizeof kept) == 0, "the output was written");
}

static size_t
times(const char *text, const char *word)
{
    size_t n = 0;
    for (const char *s = strstr(text, word); s != NULL; s = strstr(s + 1, word))
        n++;
    return n;
}

/* None of two forms is dropped, in whatever order they stand. */
START_TEST(two_forms_are_asked)
{
    static const char *const rows[] = { "5 lb mashed diced potatoes",
                                        "5 lb diced mashed potatoes",
                                        "5 lb potatoes, mashed, diced",
                                        "5 lb frozen sliced peaches" };
    for (size_t i = 0; i < COUNT(rows); i++) {
        pottle_phrase p;
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(
            pottle_phrase_read(catalogue, rows[i], NULL, 0, &p, &error),
            POTTLE_ESYNTAX);
        ck_assert_str_eq(error.code, "two-forms");
    }
}
END_TEST

/* "fresh" and "raw" are part of the food where there is a fresh one, wherever
 * they stand; what comes in bottles, cans or packets is not fresh. */
START_TEST(fresh_is_not_dropped)
{
    static const struct {
        const char *text, *food; /* NULL: a contradiction */
    } rows[] = {
        { "1 cup fresh lemon juice", "fresh-lemon-juice" },
        { "1 cup lemon juice, fresh", "fresh-lemon-juice" },
        { "1 cup lemon juice fresh", "fresh-lemon-juice" },
        { "1 cup raw lemon juice", "fresh-lemon-juice" },
        { "raw lemon juice 1 cup", "fresh-lemon-juice" },
        { "2 tbsp basil, fresh", "basil-fresh" },
        { "2 tbsp grated raw ginger", "ginger-fresh" },
        { "2 lb fresh tomatoes", "tomato" },
        { "2 lb carrots, raw", "carrot" },
        { "1 cup bottled lemon juice, fresh", NULL },
        { "1 tsp fresh dried basil", NULL },
        { "2 cups canned tomatoes, fresh", NULL },
    };
    /* what a recipe has does not make it bottled */
    static const char *const preferred[] = { bottled, "basil-dried",
                                             "ginger-ground" };
    for (size_t i = 0; i < COUNT(rows); i++) {
        pottle_phrase p;
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status = pottle_phrase_read(
            catalogue, rows[i].text, preferred, COUNT(preferred), &p, &error);
        if (rows[i].food == NULL) {
            ck_assert_msg(status == POTTLE_ESYNTAX &&
                              strcmp(error.code, "fresh-or-not") == 0,
                          "'%s': %d %s", rows[i].text, (int)status, error.what);
            continue;
        }
        ck_assert_msg(status == POTTLE_OK, "'%s': %s", rows[i].text,
                      error.what);
        ck_assert_str_eq(p.food, rows[i].food);
    }
}
END_TEST

START_TEST(ambiguous_is_asked)
{
    static const struct {
        const char *text, *first, *second;
    } both[] = {
        { "2 cups lemon juice", bottled, fresh },
        { "lemon juice, 2 cups", bottled, fresh },
        { "2 cups cold LEMON JUICE", bottled, fresh },
        { "2 tsp cloves", "clove-ground", "clove-whole" },
        { "1 cup salt", "canning-salt", "table-salt" },
        { "2 lb cherries", "cherry-sour", "cherry-sweet" },
        { "2 boxes pectin", "liquid-pectin", "powdered-pectin" },
    };
    for (size_t i = 0; i < COUNT(both); i++) {
        pottle_phrase p;
        memset(&p, 0x5A, sizeof p);
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_msg(pottle_phrase_read(catalogue, both[i].text, NULL, 0, &p,
                                         &error) == POTTLE_EAMBIGUOUS,
                      "'%s'", both[i].text);
        ck_assert_int_eq(error.status, POTTLE_EAMBIGUOUS);
        ck_assert_str_eq(error.code, "ambiguous-food");
        ck_assert_msg(times(error.what, both[i].first) == 1 &&
                          times(error.what, both[i].second) == 1,
                      "'%s' does not list each once: %s", both[i].text,
                      error.what);
        check_untouched(&p);
        /* the foods of a recipe decide */
        const char *const first[] = { "sugar", both[i].first, "water" },
                          *const second[] = { both[i].second };
        ck_assert_msg(pottle_phrase_read(catalogue, both[i].text, first, 3, &p,
                                         &error) == POTTLE_OK,
                      "'%s' with %s: %s", both[i].text, both[i].first,
                      error.what);
        ck_assert_str_eq(p.food, both[i].first);
        ck_assert_msg(pottle_phrase_read(catalogue, both[i].text, second, 1, &p,
                                         &error) == POTTLE_OK,
                      "'%s' with %s: %s", both[i].text, both[i].second,
                      error.what);
        ck_assert_str_eq(p.food, both[i].second);
        /* both or neither do not */
        const char *const all[] = { both[i].first, both[i].second },
                          *const none[] = { "sugar" };
        memset(&p, 0x5A, sizeof p);
        ck_assert_int_eq(
            pottle_phrase_read(catalogue, both[i].text, all, 2, &p, NULL),
            POTTLE_EAMBIGUOUS);
        ck_assert_int_eq(
            pottle_phrase_read(catalogue, both[i].text, none, 1, &p, NULL),
            POTTLE_EAMBIGUOUS);
        check_untouched(&p);
    }
}
END_TEST

/* A name of many foods: any of them can be preferred, also the last. */
START_TEST(many_meanings)
{
    static const char *const berries[] = {
        "blackberry", "blueberry", "boysenberry", "dewberry",  "gooseberry",
        "loganberry", "mulberry",  "raspberry",   "strawberry"
    };
    for (size_t i = 0; i < COUNT(berries); i++) {
        pottle_phrase p;
        memset(&p, 0, sizeof p);
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status = pottle_phrase_read(
            catalogue, "4 cups berries", &berries[i], 1, &p, &error);
        ck_assert_msg(status == POTTLE_OK, "'4 cups berries' with %s: %s",
                      berries[i], error.what);
        ck_assert_str_eq(p.food, berries[i]);
    }
}
END_TEST

/* What is preferred settles a doubt; it never turns one food into another. */
START_TEST(preferred_changes_nothing_else)
{
    static const char *const preferred[] = { "bottled-lemon-juice" };
    pottle_phrase p;
    ck_assert_int_eq(pottle_phrase_read(catalogue, "2 cups fresh lemon juice",
                                        preferred, 1, &p, NULL),
                     POTTLE_OK);
    ck_assert_str_eq(p.food, "fresh-lemon-juice");
    ck_assert_int_eq(
        pottle_phrase_read(catalogue, "2 cups vinegar", preferred, 1, &p, NULL),
        POTTLE_OK);
    ck_assert_str_eq(p.food, "vinegar");
}
END_TEST

TCase *
phrase_names(void)
{
    TCase *t = tcase_create("understood");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, name_is_known, 0, COUNT(names));
    tcase_add_test(t, every_name_is_known);
    tcase_add_test(t, fresh_is_not_dropped);
    tcase_add_test(t, two_forms_are_asked);
    tcase_add_test(t, ambiguous_is_asked);
    tcase_add_test(t, many_meanings);
    tcase_add_test(t, preferred_changes_nothing_else);
    return t;
}
