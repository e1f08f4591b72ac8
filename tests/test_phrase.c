/* test_phrase.c - amounts of food as people type them: what is understood, what
 * is refused, and that nothing is skipped. */
#include <config.h>

#include <string.h>

#include "phrase_cases.h"
#include "suite.h"

pottle_catalogue *catalogue;

void
open_catalogue(void)
{
    catalogue = kitchen_catalogue(POTTLE_WITH_NAMES);
}

void
close_catalogue(void)
{
    pottle_catalogue_free(catalogue);
    catalogue = NULL;
}

/* The search halves the lexicon, so it must be in order; and an entry of more
 * words than are tried would never be found. */
START_TEST(lexicon_is_sorted)
{
    const char *before = "";
    size_t n = 0;
    for (const char *entry; (entry = pottlei_words_entry(n)) != NULL; n++) {
        ck_assert_msg(strcmp(before, entry) < 0, "%s behind %s", entry, before);
        before = entry;
        size_t words = 1;
        for (const char *s = entry; *s != '\0'; s++)
            words += *s == ' ';
        ck_assert_msg(words <= POTTLEI_ENTRY_WORDS, "%s", entry);
    }
    ck_assert_uint_gt(n, 100);
}
END_TEST

static bool
same(double a, double b)
{
    return !(a < b) && !(a > b);
}

/* -- Understood ------------------------------------------------------------ */

#define PREPARED POTTLE_PREPARED
#define PURCHASED POTTLE_PURCHASED
#define PICKED POTTLE_PICKED

static const struct {
    const char *text;
    double low, high;
    const char *unit, *food, *form, *then, *size;
    bool said;
    pottle_state state;
    double percent;
} understood[] = {
    /* the order of amount, form and food */
    { "8 cups chopped rhubarb", 8, 8, "cup", "rhubarb", "chopped", "", "",
      false, PREPARED, 0 },
    { "rhubarb, diced, 8 cups", 8, 8, "cup", "rhubarb", "diced", "", "", false,
      PREPARED, 0 },
    { "diced rhubarb, 8 cups", 8, 8, "cup", "rhubarb", "diced", "", "", false,
      PREPARED, 0 },
    { "8 cups diced, rhubarb", 8, 8, "cup", "rhubarb", "diced", "", "", false,
      PREPARED, 0 },
    { "rhubarb, 8 cups", 8, 8, "cup", "rhubarb", "", "", "", false, PREPARED,
      0 },
    { "garlic, 2 cloves", 2, 2, "count", "garlic", "", "", "clove", false,
      PURCHASED, 0 },
    { "onions, 3 large", 3, 3, "count", "onion", "", "", "large", false,
      PURCHASED, 0 },

    /* before the amount's comma it was measured so, behind it it is done later
     */
    { "5 cups crushed strawberries", 5, 5, "cup", "strawberry", "crushed", "",
      "", false, PREPARED, 0 },
    { "5 cups strawberries, crushed", 5, 5, "cup", "strawberry", "", "crushed",
      "", false, PREPARED, 0 },
    { "5 cups whole strawberries, crushed", 5, 5, "cup", "strawberry", "whole",
      "crushed", "", false, PREPARED, 0 },
    { "rhubarb, 8 cups, diced", 8, 8, "cup", "rhubarb", "", "diced", "", false,
      PREPARED, 0 },
    { "1 cup packed brown sugar", 1, 1, "cup", "brown-sugar", "packed", "", "",
      false, PREPARED, 0 },
    { "2 cups finely chopped onions", 2, 2, "cup", "onion", "finely-chopped",
      "", "", false, PREPARED, 0 },
    { "2 cups coarsely chopped onions", 2, 2, "cup", "onion",
      "coarsely-chopped", "", "", false, PREPARED, 0 },
    { "1 cup lightly packed mint", 1, 1, "cup", "mint-fresh", "lightly-packed",
      "", "", false, PREPARED, 0 },
    { "2 lb peaches, peeled, sliced", 2, 2, "lb", "peach", "", "sliced", "",
      false, PURCHASED, 0 },

    /* the state when it was weighed */
    { "4.2 kg rhubarb as picked", 4.2, 4.2, "kg", "rhubarb", "", "", "", true,
      PICKED, 0 },
    { "4.2 kg rhubarb, as picked", 4.2, 4.2, "kg", "rhubarb", "", "", "", true,
      PICKED, 0 },
    { "4.2 kg picked rhubarb", 4.2, 4.2, "kg", "rhubarb", "", "", "", true,
      PICKED, 0 },
    { "9 lb rhubarb from the garden", 9, 9, "lb", "rhubarb", "", "", "", true,
      PICKED, 0 },
    { "9 lb rhubarb with leaves", 9, 9, "lb", "rhubarb", "", "", "", true,
      PICKED, 0 },
    { "3 pints as purchased strawberries", 3, 3, "pt", "strawberry", "", "", "",
      true, PURCHASED, 0 },
    { "3 pints strawberries as purchased", 3, 3, "pt", "strawberry", "", "", "",
      true, PURCHASED, 0 },
    { "3 pints strawberries, as bought", 3, 3, "pt", "strawberry", "", "", "",
      true, PURCHASED, 0 },
    { "5 lb unpeeled apples", 5, 5, "lb", "apple", "", "", "", true, PURCHASED,
      0 },
    { "2 lb trimmed rhubarb", 2, 2, "lb", "rhubarb", "", "", "", true, PREPARED,
      0 },
    { "5 cups hulled strawberries", 5, 5, "cup", "strawberry", "", "", "", true,
      PREPARED, 0 },
    { "24 lb peeled peaches", 24, 24, "lb", "peach", "", "", "", true, PREPARED,
      0 },
    { "24 lb peaches, peeled", 24, 24, "lb", "peach", "", "", "", false,
      PURCHASED, 0 }, /* yield study section 6: bought weight */
    /* not said: ready to use by volume or when it is cut, else as bought */
    { "3 pints strawberries", 3, 3, "pt", "strawberry", "", "", "", false,
      PREPARED, 0 },
    { "4 kg rhubarb", 4, 4, "kg", "rhubarb", "", "", "", false, PURCHASED, 0 },
    { "4 kg diced rhubarb", 4, 4, "kg", "rhubarb", "diced", "", "", false,
      PREPARED, 0 },
    { "2 lb whole strawberries", 2, 2, "lb", "strawberry", "whole", "", "",
      false, PURCHASED, 0 },

    /* numbers, units */
    { "3\xC2\xBD lb tomatoes", 3.5, 3.5, "lb", "tomato", "", "", "", false,
      PURCHASED, 0 },
    { "\xC2\xBD cup sugar", 0.5, 0.5, "cup", "sugar", "", "", "", false,
      PREPARED, 0 },
    { "1 1/2 cups sugar", 1.5, 1.5, "cup", "sugar", "", "", "", false, PREPARED,
      0 },
    { "1-1/2 cups sugar", 1.5, 1.5, "cup", "sugar", "", "", "", false, PREPARED,
      0 },
    { "2-3 lb onions", 2, 3, "lb", "onion", "", "", "", false, PURCHASED, 0 },
    { "2\xE2\x80\x93"
      "3 lb onions",
      2, 3, "lb", "onion", "", "", "", false, PURCHASED, 0 },
    { "2 to 3 lb onions", 2, 3, "lb", "onion", "", "", "", false, PURCHASED,
      0 },
    { "4.2kg rhubarb", 4.2, 4.2, "kg", "rhubarb", "", "", "", false, PURCHASED,
      0 },
    { "500ml water", 500, 500, "ml", "water", "", "", "", false, PREPARED, 0 },
    { "2cups sugar", 2, 2, "cup", "sugar", "", "", "", false, PREPARED, 0 },
    { "2 T sugar", 2, 2, "tbsp", "sugar", "", "", "", false, PREPARED, 0 },
    { "2 t sugar", 2, 2, "tsp", "sugar", "", "", "", false, PREPARED, 0 },
    { "2 Tbsp. sugar", 2, 2, "tbsp", "sugar", "", "", "", false, PREPARED, 0 },
    { "8 fl. oz. vinegar", 8, 8, "fl-oz", "vinegar", "", "", "", false,
      PREPARED, 0 },
    { "8 fl oz vinegar", 8, 8, "fl-oz", "vinegar", "", "", "", false, PREPARED,
      0 },
    { "1 metric cup sugar", 1, 1, "metric-cup", "sugar", "", "", "", false,
      PREPARED, 0 },
    { "2 cups of the sugar", 2, 2, "cup", "sugar", "", "", "", false, PREPARED,
      0 },

    /* pieces and containers */
    { "12 medium tomatoes", 12, 12, "count", "tomato", "", "", "medium", false,
      PURCHASED, 0 },
    { "12 tomatoes", 12, 12, "count", "tomato", "", "", "", false, PURCHASED,
      0 },
    { "2 cloves garlic", 2, 2, "count", "garlic", "", "", "clove", false,
      PURCHASED, 0 },
    { "2 cloves of garlic", 2, 2, "count", "garlic", "", "", "", false,
      PURCHASED, 0 }, /* the whole is a name of garlic */
    { "6 stalks celery", 6, 6, "count", "celery", "", "", "stalk", false,
      PURCHASED, 0 },
    { "3 extra large eggplants", 3, 3, "count", "eggplant", "", "",
      "extra-large", false, PURCHASED, 0 },
    { "1 dozen lemons", 12, 12, "count", "lemon", "", "", "", false, PURCHASED,
      0 },
    { "2 dozen lemons", 24, 24, "count", "lemon", "", "", "", false, PURCHASED,
      0 },
    { "2 bushels apples", 2, 2, "bushel", "apple", "", "", "", false, PURCHASED,
      0 },
    { "1/2 bushel of apples", 0.5, 0.5, "bushel", "apple", "", "", "", false,
      PURCHASED, 0 },
    { "2 boxes powdered pectin", 2, 2, "box", "powdered-pectin", "", "", "",
      false, PURCHASED, 0 },
    { "1 pouch liquid pectin", 1, 1, "count", "liquid-pectin", "", "", "pouch",
      false, PURCHASED, 0 },

    /* the strength of vinegar */
    { "1 cup 4 % vinegar", 1, 1, "cup", "vinegar", "", "", "", false, PREPARED,
      4 },
    { "1 cup 4% vinegar", 1, 1, "cup", "vinegar", "", "", "", false, PREPARED,
      4 },
    { "1 cup 4 percent vinegar", 1, 1, "cup", "vinegar", "", "", "", false,
      PREPARED, 4 },
    { "1 cup vinegar 6%", 1, 1, "cup", "vinegar", "", "", "", false, PREPARED,
      6 },
    { "1 cup cider vinegar 5% acidity", 1, 1, "cup", "cider-vinegar", "", "",
      "", false, PREPARED, 5 },
    { "1 cup 2.5% wine vinegar", 1, 1, "cup", "wine-vinegar", "", "", "", false,
      PREPARED, 2.5 },
    { "4% vinegar, 1 cup", 1, 1, "cup", "vinegar", "", "", "", false, PREPARED,
      4 },
    { "4 % vinegar, 1 cup", 1, 1, "cup", "vinegar", "", "", "", false, PREPARED,
      4 },
    { "1 cup vinegar, 4%", 1, 1, "cup", "vinegar", "", "", "", false, PREPARED,
      4 },
    { "1 cup vinegar, 4 %", 1, 1, "cup", "vinegar", "", "", "", false, PREPARED,
      4 },

    /* case and blanks */
    { "8 CUPS CHOPPED RHUBARB", 8, 8, "cup", "rhubarb", "chopped", "", "",
      false, PREPARED, 0 },
    { "Rhubarb, Diced, 8 Cups", 8, 8, "cup", "rhubarb", "diced", "", "", false,
      PREPARED, 0 },
    { "  8   cups\t chopped \t rhubarb  ", 8, 8, "cup", "rhubarb", "chopped",
      "", "", false, PREPARED, 0 },
    { " rhubarb ,diced,8 cups", 8, 8, "cup", "rhubarb", "diced", "", "", false,
      PREPARED, 0 },
    { "8 cups, chopped rhubarb,,", 8, 8, "cup", "rhubarb", "chopped", "", "",
      false, PREPARED, 0 },
    { "about 3 lb apples", 3, 3, "lb", "apple", "", "", "", false, PURCHASED,
      0 },
    { "About 3 lb apples", 3, 3, "lb", "apple", "", "", "", false, PURCHASED,
      0 },
    { "8" NBSP "cups chopped rhubarb", 8, 8, "cup", "rhubarb", "chopped", "",
      "", false, PREPARED, 0 },
    { "3\xC2\xBD" THIN "lb onions", 3.5, 3.5, "lb", "onion", "", "", "", false,
      PURCHASED, 0 },
    { "3" NARROW_NBSP "lb onions", 3, 3, "lb", "onion", "", "", "", false,
      PURCHASED, 0 },
    { "8 cups" NBSP "rhubarb", 8, 8, "cup", "rhubarb", "", "", "", false,
      PREPARED, 0 },
    { "8" NBSP "cups" NBSP "chopped" NBSP "rhubarb", 8, 8, "cup", "rhubarb",
      "chopped", "", "", false, PREPARED, 0 },
    { "1 cup 4" NBSP "% vinegar", 1, 1, "cup", "vinegar", "", "", "", false,
      PREPARED, 4 },

    /* an id is a name, a hyphen a blank */
    { "2 cups tomato-paste", 2, 2, "cup", "tomato-paste", "", "", "", false,
      PREPARED, 0 },
    { "2 cups cherry-sour", 2, 2, "cup", "cherry-sour", "", "", "", false,
      PREPARED, 0 },
};

START_TEST(phrase_is_understood)
{
    pottle_phrase p;
    memset(&p, 0, sizeof p);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_phrase_read(catalogue, understood[_i].text, NULL, 0, &p, &error);
    ck_assert_msg(status == POTTLE_OK, "'%s': %s", understood[_i].text,
                  error.what);
    ck_assert_msg(same(p.low, understood[_i].low) &&
                      same(p.high, understood[_i].high),
                  "'%s': %g to %g", understood[_i].text, p.low, p.high);
    ck_assert_msg(strcmp(p.unit->id, understood[_i].unit) == 0, "'%s': unit %s",
                  understood[_i].text, p.unit->id);
    ck_assert_msg(strcmp(p.food, understood[_i].food) == 0, "'%s': food %s",
                  understood[_i].text, p.food);
    ck_assert_msg(strcmp(p.form, understood[_i].form) == 0, "'%s': form '%s'",
                  understood[_i].text, p.form);
    ck_assert_msg(strcmp(p.then, understood[_i].then) == 0, "'%s': then '%s'",
                  understood[_i].text, p.then);
    ck_assert_msg(strcmp(p.size, understood[_i].size) == 0, "'%s': size '%s'",
                  understood[_i].text, p.size);
    ck_assert_msg(p.state_said == understood[_i].said,
                  "'%s': state said or not", understood[_i].text);
    ck_assert_msg(p.state == understood[_i].state, "'%s': %s",
                  understood[_i].text, pottle_state_name((int)p.state));
    ck_assert_msg(same(p.percent, understood[_i].percent), "'%s': %g %%",
                  understood[_i].text, p.percent);
    ck_assert_int_eq(error.status,
                     POTTLE_OK); /* an error is written on failure only */
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("phrase");
    TCase *t = tcase_create("understood");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, phrase_is_understood, 0, COUNT(understood));
    tcase_add_test(t, lexicon_is_sorted);
    suite_add_tcase(suite, t);
    suite_add_tcase(suite, phrase_names());
    suite_add_tcase(suite, phrase_refused());

    return suite_run(suite);
}
