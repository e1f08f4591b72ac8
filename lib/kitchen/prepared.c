/* prepared.c - whether what is on hand can still be prepared as the recipe
 * prints it.
 *
 * A time was tested for food cut in one way: what is mashed lets the heat
 * through more slowly than cubes, and nobody makes cubes of it again. How fine
 * a recipe makes its food stands in its form, in what is done to it, and in the
 * steps. */
#include <config.h>

#include <string.h>

#include "kitchen/plan.h"

/* From pieces that a jar's liquid runs between to what holds no liquid. */
typedef enum fineness { PIECES, SHREDS, CRUSHED, PUREED } fineness;

static const struct {
    const char *word; /* a form, or a part of a word that says the same */
    fineness how;
} words[] = {
    { "crumbled", SHREDS }, { "flaked", SHREDS }, { "grated", SHREDS },
    { "minced", SHREDS },   { "shred", SHREDS },  { "crush", CRUSHED },
    { "ground", PUREED },   { "grind", PUREED },  { "mash", PUREED },
    { "mill", PUREED },     { "puree", PUREED },  { "sieve", PUREED },
    { "strain", PUREED },   { "juice", PUREED },
};

static fineness
finest_in(const char *text)
{
    fineness finest = PIECES;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (words[i].how > finest && strstr(text, words[i].word) != NULL)
            finest = words[i].how;
    return finest;
}

/* As fine as the recipe itself makes what stands at a line. */
static fineness
finest_of(const pottle_recipe *recipe, const pottle_line *line)
{
    fineness finest = finest_in(line->form);
    const fineness then = finest_in(line->ingredient->then);
    finest = then > finest ? then : finest;
    size_t n = 0;
    const pottle_step *step = pottle_recipe_steps(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        const fineness how = finest_in(step[i].action);
        finest = how > finest ? how : finest;
    }
    return finest;
}

/* Kinds whose jars are heated for mould and yeast alone, through a spread that
 * was boiled as a whole. */
static bool
is_spread(const pottle_recipe *recipe)
{
    static const char *const kinds[] = { "jam",      "jelly",     "marmalade",
                                         "conserve", "preserves", "butter" };
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (pottle_recipe_is_kind(recipe, kinds[i]))
            return true;
    return false;
}

/* A form that was said, when it was measured or behind, at one line. */
static pottle_status
check_form(const pottle_catalogue *catalogue, const pottle_plan *plan,
           const pottle_line *line, const char *form, pottle_error *error)
{
    const pottle_recipe *recipe = plan->recipe;
    const bool pack = pottle_recipe_is_kind(recipe, "pack");
    if (form[0] == '\0' || strcmp(form, line->form) == 0)
        return POTTLE_OK;
    const fineness finest = finest_of(recipe, line), has = finest_in(form);
    /* shreds in a pickle are as good as slices; in a plain pack they lie
     * closer */
    if (has > finest && (pack || has > SHREDS))
        return pottlei_refuse(catalogue, error, "prepared",
                              "prepared-as-printed", NULL,
                              "%s is not tested with %s %s",
                              pottle_recipe_id(recipe), form, line->title);
    if (pack && strcmp(form, "frozen") == 0 && finest < CRUSHED)
        return pottlei_refuse(catalogue, error, "prepared", "prepared-frozen",
                              NULL, "%s is not tested with frozen %s",
                              pottle_recipe_id(recipe), line->title);
    if (pack && strcmp(form, "cooked") == 0)
        return pottlei_refuse(
            catalogue, error, "prepared", "prepared-as-printed",
            "measure it before it is cooked, and cook it as the recipe says",
            "%s is not tested with cooked %s", pottle_recipe_id(recipe),
            line->title);
    return POTTLE_OK;
}

pottle_status
pottlei_check_prepared(const pottle_catalogue *catalogue,
                       const pottle_plan *plan, const pottle_request *request,
                       pottle_error *error)
{
    size_t processes = 0;
    pottle_recipe_processes(plan->recipe, &processes);
    if (processes == 0 || is_spread(plan->recipe))
        return POTTLE_OK;
    for (size_t k = 0; k < request->haves + request->sets; k++) {
        const pottle_phrase *phrase = k < request->haves
                                        ? &request->have[k]
                                        : &request->set[k - request->haves];
        for (size_t i = 0; i < plan->lines; i++) {
            if (!pottlei_is_produce(plan->list[i].ingredient) ||
                strcmp(plan->list[i].food, phrase->food) != 0)
                continue;
            pottle_status status = check_form(catalogue, plan, &plan->list[i],
                                              phrase->form, error);
            if (status == POTTLE_OK)
                status = check_form(catalogue, plan, &plan->list[i],
                                    phrase->then, error);
            if (status != POTTLE_OK)
                return status;
        }
    }
    return POTTLE_OK;
}
