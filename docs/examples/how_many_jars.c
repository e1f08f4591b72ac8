/* how_many_jars.c - a program that uses libpottle: how many jars to wash for
 * what is on hand.
 *
 *     cc how_many_jars.c $(pkg-config --cflags --libs pottle) -o how_many_jars
 *     ./how_many_jars "$(pkg-config --variable=catalogue pottle)" \
 *         rhubarb-stewed '4.2 kg rhubarb as picked' pint
 *
 * It is C and C++. The exit status is 0, or 1 after a message. */
#include <stdio.h>
#include <string.h>

#include <pottle.h>

/* A refusal names what is allowed instead; hand that on. */
static int
tell(const pottle_error *error)
{
    fprintf(stderr, "how_many_jars: %s\n", error->what);
    if (error->instead[0] != '\0')
        fprintf(stderr, "how_many_jars: instead, %s\n", error->instead);
    return 1;
}

int
main(int argc, char **argv)
{
    pottle_catalogue *catalogue = NULL;
    pottle_recipe *recipe = NULL;
    pottle_plan *plan = NULL;
    pottle_error error;
    int result = 0;

    if (argc != 5) {
        fputs("usage: how_many_jars CATALOGUE RECIPE 'AMOUNT FOOD' JAR\n",
              stderr);
        return 1;
    }

    /* All that is asked for is said in one request; what stays 0 is not. */
    pottle_request request;
    pottle_phrase have;
    memset(&request, 0, sizeof request);
    request.version = 1;
    request.have = &have;
    request.haves = 1;

    /* Each step leaves its detail in `error` when it fails. */
    if (pottle_catalogue_open(argv[1], NULL, POTTLE_WITH_ALL, &catalogue,
                              &error) != POTTLE_OK ||
        pottle_recipe_read(catalogue, argv[2], &recipe, &error) != POTTLE_OK ||
        pottle_phrase_read(catalogue, argv[3], NULL, 0, &have, &error) !=
            POTTLE_OK ||
        pottle_jar_find(catalogue, argv[4], &request.jar, &error) !=
            POTTLE_OK ||
        pottle_scale(catalogue, recipe, &request, &plan, &error) != POTTLE_OK) {
        result = tell(&error);
    } else {
        const pottle_jar_count *jars = pottle_plan_jars(plan);
        const pottle_cite *cite = pottle_recipe_cite(recipe);
        if (jars != NULL)
            printf("wash %lu jars (%s); %lu come out full as a rule\n",
                   jars->prepare, jars->jar->id, jars->full);
        else
            puts("no forecast of jars for this recipe");
        printf("the recipe is that of %s\n", cite->source);
    }

    /* The plan borrows from the recipe, and both from the catalogue. */
    pottle_plan_free(plan);
    pottle_recipe_free(recipe);
    pottle_catalogue_free(catalogue);
    return result;
}
