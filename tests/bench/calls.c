/* calls.c - how many calls a second the library answers:  calls CATALOGUE
 *
 * Each call is repeated for a fifth of a second of processor time, three times
 * over, and the best is printed. Amounts change from call to call, so that it
 * is not the same sum again and again. */
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <pottle.h>

enum { ROUNDS = 3, AT_ONCE = 10 };

typedef struct bench {
    const pottle_catalogue *catalogue;
    const pottle_recipe *recipe;
    const pottle_food *food;
    const pottle_unit *gram;
    const pottle_jar *jar;
    const pottle_chain *chain;
    pottle_phrase phrase;
} bench;

static bool
parse(const bench *b, int i)
{
    static const char *const text[] = {
        "8 cups diced rhubarb",         "3 1/2 lb rhubarb as picked",
        "1.2 kg sliced apples",         "2 bushels apples",
        "5 cups strawberries, crushed", "12 medium onions",
    };
    pottle_phrase phrase;
    return pottle_phrase_read(b->catalogue,
                              text[(size_t)i % (sizeof text / sizeof text[0])],
                              NULL, 0, &phrase, NULL) == POTTLE_OK;
}

static bool
convert(const bench *b, int i)
{
    pottle_phrase phrase = b->phrase;
    pottle_conversion c;
    phrase.low = phrase.high = 1 + i % 50;
    return pottle_convert(b->catalogue, b->food, &phrase, b->gram, NULL, &c,
                          NULL) == POTTLE_OK;
}

static bool
scale(const bench *b, int i)
{
    const pottle_request request = { .version = POTTLE_REQUEST_VERSION,
                                     .batches = 0.5 + i % 50 / 100.0,
                                     .jar = b->jar };
    pottle_plan *plan = NULL;
    if (pottle_scale(b->catalogue, b->recipe, &request, &plan, NULL) !=
        POTTLE_OK)
        return false;
    pottle_plan_free(plan);
    return true;
}

static bool
predict(const bench *b, int i)
{
    pottle_jar_count count;
    (void)b;
    return pottle_jars_count((pottle_estimate){ 3000 + i % 50, 0.2 },
                             (pottle_estimate){ 473, 0.02 },
                             &count) == POTTLE_OK;
}

static bool
update(const bench *b, int i)
{
    const double ml = 6000 + i % 50;
    const pottle_observation seen[] = {
        { .node = POTTLE_CHAIN_PICKED, .low = 6000, .high = 6000 },
        { .node = POTTLE_CHAIN_COOKED_VOLUME, .low = ml, .high = ml },
    };
    pottle_chain_state state;
    return pottle_chain_update(b->chain, seen, 2, &state, NULL) == POTTLE_OK;
}

static bool
measure(const char *name, bool (*call)(const bench *, int), const bench *b)
{
    double best = 0;
    for (int round = 0; round < ROUNDS; round++) {
        const clock_t begin = clock(), enough = CLOCKS_PER_SEC / 5;
        long calls = 0;
        while (clock() - begin < enough)
            for (int i = 0; i < AT_ONCE; i++)
                if (!call(b, (int)(calls++ % 1000))) {
                    fprintf(stderr, "calls: %s failed\n", name);
                    return false;
                }
        const double seconds = (double)(clock() - begin) / CLOCKS_PER_SEC;
        if ((double)calls / seconds > best)
            best = (double)calls / seconds;
    }
    printf("  %-34s %9.0f\n", name, best);
    return true;
}

int
main(int argc, char **argv)
{
    pottle_catalogue *catalogue = NULL;
    pottle_recipe *recipe = NULL;
    pottle_food *food = NULL;
    pottle_chain *chain = NULL;
    pottle_error error = { .what = "calls: takes the folder of the catalogue" };
    bench b = { .gram = pottle_unit_find("g") };
    const pottle_chain_request whole = { .version =
                                             POTTLE_CHAIN_REQUEST_VERSION };
    const bool good =
        argc == 2 &&
        pottle_catalogue_open(argv[1], NULL, POTTLE_WITH_ALL, &catalogue,
                              &error) == POTTLE_OK &&
        pottle_recipe_read(catalogue, "rhubarb-stewed", &recipe, &error) ==
            POTTLE_OK &&
        pottle_food_read(catalogue, "rhubarb", &food, &error) == POTTLE_OK &&
        pottle_jar_find(catalogue, "pint", &b.jar, &error) == POTTLE_OK &&
        pottle_phrase_read(catalogue, "8 cups diced rhubarb", NULL, 0,
                           &b.phrase, &error) == POTTLE_OK &&
        pottle_chain_new(catalogue, recipe, &whole, &chain, &error) ==
            POTTLE_OK;
    b.catalogue = catalogue;
    b.recipe = recipe;
    b.food = food;
    b.chain = chain;
    if (!good)
        fprintf(stderr, "%s\n", error.what);
    const bool done = good && measure("phrases read", parse, &b) &&
                      measure("conversions", convert, &b) &&
                      measure("recipes scaled, foods read anew", scale, &b) &&
                      measure("jars predicted from a volume", predict, &b) &&
                      measure("updates of the chain", update, &b);
    pottle_chain_free(chain);
    pottle_food_free(food);
    pottle_recipe_free(recipe);
    pottle_catalogue_free(catalogue);
    return done ? EXIT_SUCCESS : EXIT_FAILURE;
}
