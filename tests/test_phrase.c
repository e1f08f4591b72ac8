/* test_phrase.c - amounts of food as people type them: what is understood, what
 * is refused, and that nothing is skipped. */
#include <config.h>

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kitchen/phrase.h"
#include "kitchen_help.h"
#include "suite.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))
#define NBSP "\xC2\xA0"
#define NARROW_NBSP "\xE2\x80\xAF"
#define THIN "\xE2\x80\x89"

static pottle_catalogue *catalogue;

static void
open_catalogue(void)
{
    catalogue = kitchen_catalogue(POTTLE_WITH_NAMES);
}

static void
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

static void
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

/* -- Refused --------------------------------------------------------------- */

/* What is no number may be taken for an unreadable amount or for an unknown
 * word. */
#define ANY_REFUSAL POTTLE_OK

/* word: something the sentence must say; NULL: anything. */
static const struct {
    const char *text;
    pottle_status status;
    const char *word;
    const char *why;
} refused[] = {
    { "", POTTLE_ESYNTAX, "amount", "empty" },
    { "   \t ", POTTLE_ESYNTAX, "amount", "blanks" },
    { ",", POTTLE_ESYNTAX, "amount", "a comma" },
    { ", ,,", POTTLE_ESYNTAX, "amount", "commas" },
    { "8", POTTLE_ESYNTAX, "food", "only a number" },
    { "8 cups", POTTLE_ESYNTAX, "food", "only an amount" },
    { "8 cups chopped", POTTLE_ESYNTAX, "food", "no food" },
    { "1 dozen", POTTLE_ESYNTAX, "food", "no food" },
    { "8 cups of the", POTTLE_ESYNTAX, "food", "no food" },
    { "rhubarb", POTTLE_ESYNTAX, "amount", "only a food" },
    { "chopped rhubarb, as picked", POTTLE_ESYNTAX, "amount", "only a food" },
    { "4% vinegar", POTTLE_ESYNTAX, "amount", "a strength is no amount" },

    { "2 cups 3 lb rhubarb", POTTLE_ESYNTAX, NULL, "two amounts" },
    { "2 cups rhubarb, 3 lb", POTTLE_ESYNTAX, "two amounts", "two amounts" },
    { "3 lb, 2 cups rhubarb", POTTLE_ESYNTAX, "two amounts", "two amounts" },
    { "1 lb 8 oz apples", POTTLE_ESYNTAX, NULL, "two amounts; write 1 1/2 lb" },
    { "2 x 3 cups sugar", POTTLE_ESYNTAX, NULL, "two numbers" },
    { "3 + 4 cups sugar", POTTLE_ESYNTAX, NULL, "two numbers" },
    { "1,500 g sugar", POTTLE_ESYNTAX, NULL, "a comma is no part of a number" },
    { "1,5 kg sugar", POTTLE_ESYNTAX, NULL, "a comma is no part of a number" },
    { "2.5.5 cups sugar", POTTLE_ESYNTAX, NULL, "two points" },
    { "2 cups rhubarb, apple", POTTLE_ESYNTAX, "more than one food",
      "two foods" },
    { "rhubarb, 2 cups, apple", POTTLE_ESYNTAX, "more than one food",
      "two foods" },
    { "2 cups rhubarb and apple", POTTLE_ENOENT, "rhubarb and apple",
      "two foods" },
    { "2 cups rhubarb apples", POTTLE_ENOENT, "rhubarb apple", "two foods" },

    { "0 cups rhubarb", POTTLE_EDOMAIN, "above 0", "nothing" },
    { "0.0 cups rhubarb", POTTLE_EDOMAIN, "above 0", "nothing" },
    { "0/5 cups rhubarb", POTTLE_EDOMAIN, "above 0", "nothing" },
    { "0-3 cups rhubarb", POTTLE_EDOMAIN, "above 0", "perhaps nothing" },
    { "rhubarb, 0 cups", POTTLE_EDOMAIN, "above 0", "nothing" },
    { "3-2 lb onions", POTTLE_EDOMAIN, NULL, "the higher end first" },
    { "1/0 cups rhubarb", POTTLE_EDOMAIN, NULL, "divided by nothing" },
    { "1/0% vinegar, 1 cup", POTTLE_EDOMAIN, NULL, "divided by nothing" },
    { "1000000000000000000000000000000 cups rhubarb", POTTLE_EDOMAIN, NULL,
      "1e30" },
    { "1000000001 cups rhubarb", POTTLE_EDOMAIN, NULL,
      "above the largest number" },
    { "0.0000001 cups rhubarb", POTTLE_EDOMAIN, NULL,
      "under the smallest number" },
    { "-2 cups rhubarb", ANY_REFUSAL, NULL, "no sign is read" },
    { "\xE2\x88\x92"
      "2 cups rhubarb",
      ANY_REFUSAL, NULL, "nor a typeset one" },
    { "+2 cups rhubarb", ANY_REFUSAL, NULL, "no sign is read" },
    { "nan cups rhubarb", ANY_REFUSAL, "nan", "no number" },
    { "inf cups rhubarb", ANY_REFUSAL, "inf", "no number" },
    { "1e30 cups rhubarb", ANY_REFUSAL, "e30", "no exponent is read" },
    { "0x10 cups rhubarb", POTTLE_EDOMAIN, NULL, "0, and no hexadecimal" },
    { "two cups sugar", ANY_REFUSAL, "two", "digits only" },

    { "3 psi tomatoes", POTTLE_EUNIT, "pressure", "a pressure" },
    { "3 ft rhubarb", POTTLE_EUNIT, "length", "a length" },
    { "3 m rhubarb", POTTLE_EUNIT, "length", "a length" },
    { "20 deg C water", POTTLE_EUNIT, "temperature", "a temperature" },
    { "rhubarb, 20 \xC2\xB0"
      "F",
      POTTLE_EUNIT, "temperature", "a temperature" },

    { "1 cup 0% vinegar", ANY_REFUSAL, NULL,
      "no acid at all: percent 0 would mean that none was said" },
    { "1 cup 4% vinegar 6%", ANY_REFUSAL, NULL, "two strengths" },

    { "2 cups rhubarv", POTTLE_ENOENT, "nearest: rhubarb", "a slip" },
    { "2 cups chopped ruhbarb", POTTLE_ENOENT, "rhubarb", "a slip" },
    { "2 lb strawbery", POTTLE_ENOENT, "strawberry", "a slip" },
    { "2 kg plutonium", POTTLE_ENOENT, "plutonium", "no food" },

    /* an unknown word is never skipped: it may be the one that matters */
    { "3 cups chopped blarg rhubarb", POTTLE_ENOENT, "blarg",
      "unknown between known" },
    { "3 cups blarg chopped rhubarb", POTTLE_ENOENT, "blarg",
      "unknown in front" },
    { "3 cups chopped rhubarb blarg", POTTLE_ENOENT, "blarg",
      "unknown behind" },
    { "3 blarg cups rhubarb", POTTLE_ENOENT, "blarg", "unknown unit" },
    { "blarg, 3 cups rhubarb", POTTLE_ENOENT, "blarg",
      "unknown piece in front" },
    { "3 cups rhubarb, blarg", POTTLE_ENOENT, "blarg", "unknown piece behind" },
    { "3 cups rhubarb, chopped, blarg", POTTLE_ENOENT, "blarg",
      "unknown piece behind" },
    { "3 cups rhubarb, finely blarg chopped", POTTLE_ENOENT, "blarg",
      "unknown in a piece behind" },
    { "3 cups not chopped rhubarb", POTTLE_ENOENT, "not",
      "a no turned into a yes" },
    { "3 cups unchopped rhubarb", POTTLE_ENOENT, "unchopped", "the opposite" },
    { "3 cups rhubarb (diced)", POTTLE_ENOENT, "diced", "brackets" },
    { "3 cups rhubarb without leaves", POTTLE_ENOENT, "without",
      "the opposite" },
    { "1 cup homemade vinegar", POTTLE_ENOENT, "homemade",
      "a word that matters" },
    { "2 cups rhubarb a a a a a a a a a a a a a a a a a a a a a a a a a a a a "
      "a a a a a a a a a a a a a blarg",
      ANY_REFUSAL, NULL, "unknown behind 41 idle words" },
    { "2 cups rhubarb a a a a a a a a a a a a a a a a a a a a a a a a a a a a "
      "a a a a a a a a a a a a a 3 lb",
      POTTLE_ESYNTAX, NULL, "a second amount behind 41 idle words" },
};

START_TEST(phrase_is_refused)
{
    pottle_phrase p;
    memset(&p, 0x5A, sizeof p);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_phrase_read(catalogue, refused[_i].text, NULL, 0, &p, &error);
    const bool wanted = refused[_i].status == ANY_REFUSAL
                          ? status == POTTLE_ESYNTAX ||
                                status == POTTLE_ENOENT ||
                                status == POTTLE_EDOMAIN
                          : status == refused[_i].status;
    ck_assert_msg(wanted, "'%s' (%s): %s: %s", refused[_i].text,
                  refused[_i].why, pottle_strerror((int)status), error.what);
    ck_assert_int_eq(error.status, status);
    ck_assert(error.code[0] != '\0' && error.what[0] != '\0');
    ck_assert_msg(refused[_i].word == NULL ||
                      strstr(error.what, refused[_i].word) != NULL,
                  "'%s': '%s' does not say %s", refused[_i].text, error.what,
                  refused[_i].word);
    check_untouched(&p);
    /* without a place for the detail it is refused as well */
    ck_assert_int_eq(
        pottle_phrase_read(catalogue, refused[_i].text, NULL, 0, &p, NULL),
        status);
    check_untouched(&p);
}
END_TEST

/* Where there is one number only, the sentence does not speak of a second. */
START_TEST(refusal_says_what_is_wrong)
{
    static const char *const single[] = { "-2 cups rhubarb", "rhubarb 8 cups",
                                          "rhubarb, diced 8 cups" };
    for (size_t i = 0; i < COUNT(single); i++) {
        pottle_phrase p;
        pottle_error error = { .status = POTTLE_OK };
        if (pottle_phrase_read(catalogue, single[i], NULL, 0, &p, &error) !=
            POTTLE_OK)
            ck_assert_msg(strstr(error.what, "second") == NULL, "%s",
                          error.what);
    }
}
END_TEST

START_TEST(bad_text)
{
    static const struct {
        const char *text;
        const char *why;
    } bad[] = {
        { "2 cups \xFFrhubarb", "never a byte of UTF-8" },
        { "2 cups rhubarb\xC3", "cut" },
        { "2 cups \xC0\xAFrhubarb", "overlong" },
        { "2 cups \xED\xA0\x80rhubarb", "surrogate" },
        { "2 cups \x01rhubarb", "control" },
        { "2 cups \x1B[1mrhubarb", "escape" },
        { "2 \xBD cups rhubarb", "Latin-1 half" },
        { "\x80", "continuation alone" },
    };
    for (size_t i = 0; i < COUNT(bad); i++) {
        pottle_phrase p;
        memset(&p, 0x5A, sizeof p);
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_msg(pottle_phrase_read(catalogue, bad[i].text, NULL, 0, &p,
                                         &error) == POTTLE_ESYNTAX,
                      "%s", bad[i].why);
        ck_assert_str_eq(error.code, "encoding");
        ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
        check_untouched(&p);
    }
}
END_TEST

/* In all 10,000 characters, and at the edge of what is read. */
START_TEST(long_text)
{
    enum { LONG = 10000 };
    static const char *const fillings[] = { "a",       " ", "2 cups rhubarb ",
                                            ",",       "9", "\xC2\xBD",
                                            "rhubarb," };
    char *text = malloc(LONG + 32);
    ck_assert_ptr_nonnull(text);
    pottle_phrase p;
    memset(&p, 0x5A, sizeof p);
    for (size_t i = 0; i < COUNT(fillings); i++) {
        size_t n = 0;
        while (n < LONG) {
            memcpy(text + n, fillings[i], strlen(fillings[i]));
            n += strlen(fillings[i]);
        }
        text[n] = '\0';
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(
            pottle_phrase_read(catalogue, text, NULL, 0, &p, &error),
            POTTLE_ESYNTAX);
        ck_assert_str_eq(error.code, "too-long");
        ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
        check_untouched(&p);
    }
    /* 200 bytes are read, 201 are not */
    memset(text, ' ', 202);
    memcpy(text, "2 cups", 6);
    memcpy(text + 193, "rhubarb", 8);
    ck_assert_uint_eq(strlen(text), 200);
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 0, &p, NULL),
                     POTTLE_OK);
    ck_assert_str_eq(p.food, "rhubarb");
    memset(text + 6, ' ', 196);
    memcpy(text + 194, "rhubarb", 8);
    ck_assert_uint_eq(strlen(text), 201);
    memset(&p, 0x5A, sizeof p);
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 0, &p, NULL),
                     POTTLE_ESYNTAX);
    check_untouched(&p);
    free(text);
}
END_TEST

START_TEST(misuse_is_told)
{
    static const char text[] = "2 cups rhubarb";
    pottle_phrase p;
    memset(&p, 0x5A, sizeof p);
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_phrase_read(NULL, text, NULL, 0, &p, &error),
                     POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "misuse");
    ck_assert_int_eq(pottle_phrase_read(catalogue, NULL, NULL, 0, &p, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 0, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 1, &p, NULL),
                     POTTLE_EMISUSE);
    check_untouched(&p);
}
END_TEST

/* Whatever is typed, an amount that comes back is one that was typed: above 0,
 * finite, in a unit of food, a known food. Words are drawn from a small bag, so
 * that many phrases are whole; the loop number is the seed. */
START_TEST(any_words)
{
    static const char *const bag[] = {
        "2",         "3.5",          "1/2",     "0",
        "-1",        "4 %",          "5%",      "cups",
        "lb",        "psi",          "kg",      "dozen",
        "medium",    "clove",        "bushels", "rhubarb",
        "sugar",     "strawberries", "vinegar", "lemon juice",
        "chopped",   "diced",        "crushed", "whole",
        "as picked", "as purchased", "peeled",  ",",
        ", ",        "of",           "about",   "blarg",
        "\xC2\xBD",  "to",           "-",
    };
    unsigned state = (unsigned)_i * 2654435761u + 12345u;
    for (int n = 0; n < 400; n++) {
        char text[160] = "";
        size_t used = 0;
        state = state * 1664525u + 1013904223u;
        const unsigned words = 1 + (state >> 16) % 8;
        bool blarg = false;
        for (unsigned w = 0; w < words; w++) {
            state = state * 1664525u + 1013904223u;
            const char *word = bag[(state >> 16) % COUNT(bag)];
            blarg = blarg || strcmp(word, "blarg") == 0;
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%s",
                                     w > 0 ? " " : "", word);
        }
        pottle_phrase p;
        memset(&p, 0x5A, sizeof p);
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottle_phrase_read(catalogue, text, NULL, 0, &p, &error);
        if (status != POTTLE_OK) {
            ck_assert_msg(error.status == status && error.code[0] != '\0' &&
                              error.what[0] != '\0',
                          "'%s'", text);
            check_untouched(&p);
            continue;
        }
        ck_assert_msg(!blarg, "'%s' is read, though it has an unknown word",
                      text);
        ck_assert_msg(p.low > 0 && p.low <= p.high &&
                          p.high <= POTTLE_NUMBER_MAX * 12,
                      "'%s': %g to %g", text, p.low, p.high);
        ck_assert_msg(p.unit->dimension == POTTLE_MASS ||
                          p.unit->dimension == POTTLE_VOLUME ||
                          p.unit->dimension == POTTLE_COUNT ||
                          p.unit->dimension == POTTLE_CONTAINER,
                      "'%s': %s", text, p.unit->id);
        ck_assert_msg(pottle_food_name(catalogue, p.food, 0) != NULL,
                      "'%s': food '%s'", text, p.food);
        ck_assert_msg(p.percent >= 0, "'%s': %g %%", text, p.percent);
        ck_assert_msg((strstr(text, "crushed") != NULL) ||
                          (strcmp(p.form, "crushed") != 0 &&
                           strcmp(p.then, "crushed") != 0),
                      "'%s': crushed", text);
    }
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("phrase");
    TCase *t = tcase_create("understood");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, phrase_is_understood, 0, COUNT(understood));
    tcase_add_loop_test(t, name_is_known, 0, COUNT(names));
    tcase_add_test(t, every_name_is_known);
    tcase_add_test(t, lexicon_is_sorted);
    tcase_add_test(t, ambiguous_is_asked);
    tcase_add_test(t, many_meanings);
    tcase_add_test(t, preferred_changes_nothing_else);
    suite_add_tcase(suite, t);

    t = tcase_create("refused");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, phrase_is_refused, 0, COUNT(refused));
    tcase_add_test(t, refusal_says_what_is_wrong);
    tcase_add_test(t, bad_text);
    tcase_add_test(t, long_text);
    tcase_add_test(t, misuse_is_told);
    tcase_add_loop_test(t, any_words, 0, 20);
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
