/* fuzz_words.c - the small readers of a line: a time, a power, a number of
 * jars, a height, a gauge, and all that is looked up by its name. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "targets.h"

static const pottle_status anything[] = {
    POTTLE_ESYNTAX, POTTLE_EDOMAIN,    POTTLE_EUNIT,
    POTTLE_ENOENT,  POTTLE_EAMBIGUOUS, POTTLE_OK,
};

/* What a reader may say, and that it writes only when all is well. */
static bool
good(pottle_status status, const pottle_error *error, const void *out,
     size_t size, const char *what)
{
    if (status == POTTLE_OK)
        return true;
    fuzz_failure(status, error, anything, what);
    fuzz_expect(fuzz_untouched(out, size, 0x5A), "%s fails and writes", what);
    return false;
}

static void
check_clock(const char *text)
{
    int start, again;
    pottle_error error;
    memset(&start, 0x5A, sizeof start);
    if (!good(pottle_clock_read(text, &start, &error), &error, &start,
              sizeof start, "a time of day"))
        return;
    fuzz_expect(start >= 0 && start < 24 * 60, "'%s' is minute %d", text,
                start);
    const char *colon = strchr(text, ':');
    fuzz_expect(colon == NULL || strtol(colon + 1, NULL, 10) < 60,
                "'%s' is a time of day", text);
    char buf[64];
    const size_t n = pottle_clock_write(start, 0, buf, sizeof buf);
    fuzz_expect(n == strlen(buf) &&
                    pottle_clock_read(buf, &again, NULL) == POTTLE_OK &&
                    again == start,
                "'%s' is written as '%s'", text, buf);
}

static void
check_amounts(const char *text)
{
    double x;
    pottle_error error;
    memset(&x, 0x5A, sizeof x);
    if (good(pottle_power_read(text, &x, &error), &error, &x, sizeof x,
             "a power"))
        fuzz_expect(x > 0 && isfinite(x), "'%s' is %g W", text, x);
    memset(&x, 0x5A, sizeof x);
    if (good(pottle_minutes_read(text, &x, &error), &error, &x, sizeof x,
             "a time"))
        fuzz_expect(x > 0 && isfinite(x), "'%s' is %g minutes", text, x);
    static const int dimensions[] = { POTTLE_NUMBER, POTTLE_MASS, POTTLE_LENGTH,
                                      POTTLE_PRESSURE, POTTLE_TEMPERATURE };
    for (size_t i = 0; i < sizeof dimensions / sizeof dimensions[0]; i++) {
        pottle_quantity q;
        memset(&q, 0x5A, sizeof q);
        if (good(pottle_kitchen_amount(text, dimensions[i], &q, &error), &error,
                 &q, sizeof q, "an amount for the kitchen"))
            fuzz_expect(isfinite(q.low) && q.low >= 0 && q.low <= q.high &&
                            q.unit != NULL,
                        "'%s' is %g to %g", text, q.low, q.high);
    }
    for (int d = POTTLE_PRESSURE; d <= POTTLE_TEMPERATURE; d++) {
        pottle_misreading m;
        memset(&m, 0x5A, sizeof m);
        if (good(pottle_misreading_read(text, d, &m, &error), &error, &m,
                 sizeof m, "a misreading"))
            fuzz_expect(isfinite(pottle_misreading_base(m)),
                        "'%s' is out by %g", text, pottle_misreading_base(m));
    }
}

static void
check_jars(const char *text)
{
    pottle_shelf_size s;
    pottle_error error;
    memset(&s, 0x5A, sizeof s);
    if (good(pottle_shelf_read(fuzz_catalogue(), NULL, text, &s, &error),
             &error, &s, sizeof s, "jars on the shelf"))
        fuzz_expect(s.jar != NULL && s.own == NULL && s.count > 0 &&
                        s.count <= POTTLE_KITCHEN_COUNT_MAX,
                    "'%s' is %lu jars", text, s.count);
    const pottle_jar *jar;
    memset(&jar, 0x5A, sizeof jar);
    if (good(pottle_jar_find(fuzz_catalogue(), text, &jar, &error), &error,
             &jar, sizeof jar, "a jar")) {
        const pottle_jar *same = NULL;
        fuzz_expect(pottle_jar_find(fuzz_catalogue(), jar->id, &same, NULL) ==
                            POTTLE_OK &&
                        same == jar,
                    "'%s' is '%s', which is another", text, jar->id);
    }
}

static void
check_names(const char *text)
{
    pottle_error error;
    pottle_method method;
    pottle_hob hob;
    pottle_cup cup;
    const pottle_mishap *mishap;
    memset(&method, 0x5A, sizeof method);
    if (good(pottle_method_find(text, &method, &error), &error, &method,
             sizeof method, "a canner"))
        fuzz_expect(pottle_method_find(pottle_method_name((int)method), &method,
                                       NULL) == POTTLE_OK,
                    "'%s' is a canner without a name", text);
    memset(&hob, 0x5A, sizeof hob);
    good(pottle_hob_find(text, &hob, &error), &error, &hob, sizeof hob,
         "a hob");
    memset(&cup, 0x5A, sizeof cup);
    good(pottle_cup_find(text, &cup, &error), &error, &cup, sizeof cup,
         "a cup");
    memset(&mishap, 0x5A, sizeof mishap);
    good(pottle_mishap_find(fuzz_catalogue(), text, &mishap, &error), &error,
         &mishap, sizeof mishap, "a mishap");
    /* a file is named by an id: nothing else may reach the file system */
    pottle_food *food = NULL;
    pottle_recipe *recipe = NULL;
    if (pottle_food_read(fuzz_catalogue(), text, &food, &error) == POTTLE_OK)
        fuzz_expect(strcmp(pottle_food_id(food), text) == 0,
                    "'%s' opens the food '%s'", text, pottle_food_id(food));
    else
        fuzz_expect(food == NULL && error.status == POTTLE_ENOENT,
                    "the food '%s' fails with %d", text, (int)error.status);
    if (pottle_recipe_read(fuzz_catalogue(), text, &recipe, &error) ==
        POTTLE_OK)
        fuzz_expect(strcmp(pottle_recipe_id(recipe), text) == 0,
                    "'%s' opens the recipe '%s'", text,
                    pottle_recipe_id(recipe));
    else
        fuzz_expect(recipe == NULL && error.status == POTTLE_ENOENT,
                    "the recipe '%s' fails with %d", text, (int)error.status);
    pottle_food_free(food);
    pottle_recipe_free(recipe);
}

int
target_words(const uint8_t *data, size_t size)
{
    char *text = fuzz_line(data, size);
    check_clock(text);
    check_amounts(text);
    check_jars(text);
    check_names(text);
    free(text);
    return fuzz_verdict();
}
