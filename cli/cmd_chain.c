/* cmd_chain.c - pottle chain: from harvest to jars and back, narrowed by what
 * was measured. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "container", "'N UNIT'",
      "containers as sold: '2 bushels', '3 flats'; 'bushel' alone asks how "
      "many" },
    { "picked", "M", "weight as picked, with leaves: '25 lb'" },
    { "bought", "M", "weight as bought" },
    { "prepared", "M", "weight ready to use: '9.6 kg'" },
    { "measured", "V",
      "measured out: '11 cups', '11 cups diced', '12 medium'" },
    { "batches", "X", "batches that are made" },
    { "cooked", "V|M",
      "in the pot when it is done: '3.1 L', '3.4 kg'; both may be given" },
    { "jars", "'N JAR'", "jars that were filled: '6 half-pint'" },
    { "want", "'N JAR'",
      "how much to pick for so many jars, nine chances in ten" },
    { "about", NULL,
      "all amounts are judged by eye; or write 'about 25 lb' for one" },
    { "scale-error", "E",
      "how far the scale is out: '5 g', '1 %'; else the kitchen file's, or "
      "0.5 %" },
    { "cup-error", "E", "of a cup or spoon filled level; else 3 %" },
    { "level-error", "E", "of a level read in the pot; else 5 %" },
    { "about-error", "E", "of what is judged by eye; else 15 %" },
    { "food", "FOOD",
      "the ingredient that decides; else the heaviest produce" },
    { "jar", "JAR", "size of jar: half-pint, pint, quart, 500-ml ..." },
    { "altitude", "H", "'900 m' or '6200 ft'" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "recipes", "FOLDER", "a folder of your own recipes, searched first" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* -- Arguments ------------------------------------------------------------- */

/* Keeps the observations in the order of the chain. */
static int
add_seen(const command *self, chain_asked *k, pottle_chain_node node,
         double low, double high, bool about, const char *typed)
{
    if (k->count == POTTLE_CHAIN_OBSERVED_MAX)
        return usage_error(self, "more than %d measurements",
                           (int)POTTLE_CHAIN_OBSERVED_MAX);
    size_t i = k->count++;
    for (; i > 0 && k->seen[i - 1].node > node; i--) {
        k->seen[i] = k->seen[i - 1];
        k->typed[i] = k->typed[i - 1];
    }
    k->seen[i] = (pottle_observation){
        .node = node, .low = low, .high = high, .about = about
    };
    k->typed[i] = typed;
    return DONE;
}

/* "about 25 lb": gives what stands behind the word. */
static const char *
skip_about(const char *text, bool *about)
{
    text += strspn(text, " ");
    const bool said = strncmp(text, "about ", 6) == 0;
    *about = *about || said;
    return said ? text + 6 : text;
}

/* An amount in the base unit of its dimension; containers and pieces as they
 * are counted. */
static int
add_quantity(const command *self, chain_asked *k, pottle_chain_node node,
             const pottle_quantity *q, bool about, const char *typed)
{
    static const char *const base[] = {
        [POTTLE_MASS] = "g", [POTTLE_VOLUME] = "ml", [POTTLE_COUNT] = "count"
    };
    double low = q->low, high = q->high;
    pottle_error error;
    const bool converts = q->unit->dimension == POTTLE_MASS ||
                          q->unit->dimension == POTTLE_VOLUME ||
                          q->unit->dimension == POTTLE_COUNT;
    if (node != POTTLE_CHAIN_CONTAINER && converts) {
        const pottle_unit *to = pottle_unit_find(base[q->unit->dimension]);
        if (pottle_unit_convert(q->low, q->unit, to, &low, &error) !=
                POTTLE_OK ||
            pottle_unit_convert(q->high, q->unit, to, &high, &error) !=
                POTTLE_OK)
            return report(k->catalogue, &error);
    }
    return add_seen(self, k, node, low, high, about, typed);
}

static int
read_mass(const command *self, const args *a, chain_asked *k, const char *name,
          pottle_chain_node node)
{
    const char *typed = args_value(a, name);
    bool about = args_has(a, "about");
    pottle_quantity q;
    pottle_error error;
    if (typed == NULL)
        return DONE;
    if (pottle_quantity_read(skip_about(typed, &about), POTTLE_MASS, &q,
                             &error) != POTTLE_OK)
        return report(k->catalogue, &error);
    return add_quantity(self, k, node, &q, about, typed);
}

static int
read_container(const command *self, const args *a, chain_asked *k)
{
    const char *typed = args_value(a, "container");
    bool about = args_has(a, "about");
    pottle_quantity q;
    pottle_error error;
    if (typed == NULL)
        return DONE;
    k->in_containers = true;
    /* a container without a number: how many, is asked */
    char one[80];
    snprintf(one, sizeof one, "1 %.60s", typed);
    if ((typed[0] < '0' || typed[0] > '9') &&
        pottle_quantity_read(one, -1, &q, NULL) == POTTLE_OK) {
        k->request.container = q.unit;
        return DONE;
    }
    if (pottle_quantity_read(skip_about(typed, &about), -1, &q, &error) !=
        POTTLE_OK)
        return report(k->catalogue, &error);
    k->request.container = q.unit;
    return add_quantity(self, k, POTTLE_CHAIN_CONTAINER, &q, about, typed);
}

/* "11 cups diced", "12 medium": a phrase whose food is the chain's. */
static int
read_measured_phrase(chain_asked *k, const char *text, pottle_quantity *q)
{
    char phrase_text[POTTLE_PHRASE_MAX];
    pottle_chain *chain = NULL;
    pottle_phrase phrase;
    pottle_error error;
    if (pottle_chain_new(k->catalogue, k->recipe, &k->request, &chain,
                         &error) != POTTLE_OK)
        return report(k->catalogue, &error);
    const char *food = pottle_chain_facts_of(chain)->food;
    snprintf(phrase_text, sizeof phrase_text, "%s %s", text,
             pottle_food_name(k->catalogue, food, 0));
    const pottle_status status = pottle_phrase_read(k->catalogue, phrase_text,
                                                    &food, 1, &phrase, &error);
    pottle_chain_free(chain);
    if (status != POTTLE_OK)
        return report(k->catalogue, &error);
    snprintf(k->form, sizeof k->form, "%s", phrase.form);
    snprintf(k->size, sizeof k->size, "%s", phrase.size);
    k->request.form = k->form[0] != '\0' ? k->form : NULL;
    k->request.size = k->size[0] != '\0' ? k->size : NULL;
    *q = (pottle_quantity){ phrase.low, phrase.high, phrase.unit };
    return DONE;
}

static int
read_measured(const command *self, const args *a, chain_asked *k)
{
    const char *typed = args_value(a, "measured");
    bool about = args_has(a, "about");
    pottle_quantity q;
    if (typed == NULL)
        return DONE;
    const char *text = skip_about(typed, &about);
    if (pottle_quantity_read(text, -1, &q, NULL) != POTTLE_OK) {
        const int result = read_measured_phrase(k, text, &q);
        if (result != DONE)
            return result;
    }
    kitchen_quantity(&k->house, text, &q);
    k->request.measured = q.unit;
    return add_quantity(self, k, POTTLE_CHAIN_MEASURED, &q, about, typed);
}

static int
read_cooked(const command *self, const args *a, chain_asked *k)
{
    const char *typed;
    for (size_t i = 0; (typed = args_nth(a, "cooked", i)) != NULL; i++) {
        bool about = args_has(a, "about");
        pottle_quantity q;
        pottle_error error;
        const char *text = skip_about(typed, &about);
        if (pottle_quantity_read(text, -1, &q, &error) != POTTLE_OK)
            return report(k->catalogue, &error);
        if (q.unit->dimension != POTTLE_MASS &&
            pottle_quantity_read(text, POTTLE_VOLUME, &q, &error) != POTTLE_OK)
            return report(k->catalogue, &error);
        kitchen_quantity(&k->house, text, &q);
        const int result = add_quantity(self, k,
                                        q.unit->dimension == POTTLE_MASS
                                            ? POTTLE_CHAIN_COOKED_MASS
                                            : POTTLE_CHAIN_COOKED_VOLUME,
                                        &q, about, typed);
        if (result != DONE)
            return result;
    }
    return DONE;
}

static int
read_batches(const command *self, const args *a, chain_asked *k)
{
    const char *typed = args_value(a, "batches");
    bool about = args_has(a, "about");
    pottle_range range;
    if (typed == NULL)
        return DONE;
    if (pottle_number_read(skip_about(typed, &about), &range) != POTTLE_OK ||
        !(range.low > 0))
        return usage_error(self, "'%.40s' is not a number of batches", typed);
    return add_seen(self, k, POTTLE_CHAIN_BATCHES, range.low, range.high, about,
                    typed);
}

static int
read_jars(const command *self, chain_asked *k, const char *text,
          pottle_range *range)
{
    const char *size;
    const pottle_jar *jar = NULL;
    const pottle_own_jar *own = NULL;
    if (!split_jars(text, range, &size))
        return usage_error(
            self,
            "'%.40s' is not a number and a size of jar such as '14 quart'",
            text);
    const int result = kitchen_jar(&k->house, k->catalogue, size, &jar, &own);
    if (result != DONE)
        return result;
    if (k->request.jar != NULL &&
        (k->request.jar != jar || k->request.own != own))
        return usage_error(self, "--jar, --jars and --want name two sizes");
    k->request.jar = jar;
    k->request.own = own;
    return DONE;
}

static int
read_jar_options(const command *self, const args *a, chain_asked *k)
{
    const char *jar = args_value(a, "jar"), *jars = args_value(a, "jars"),
               *want = args_value(a, "want");
    bool about = args_has(a, "about");
    pottle_range range;
    int result = DONE;
    if (jar != NULL)
        result = kitchen_jar(&k->house, k->catalogue, jar, &k->request.jar,
                             &k->request.own);
    if (result == DONE && want != NULL) {
        result = read_jars(self, k, want, &range);
        if (result == DONE && range.high > range.low)
            result = usage_error(self, "--want takes one number of jars");
        k->want = range.low;
    }
    if (result == DONE && jars != NULL) {
        result = read_jars(self, k, skip_about(jars, &about), &range);
        if (result == DONE)
            result = add_seen(self, k, POTTLE_CHAIN_JARS, range.low, range.high,
                              about, jars);
    }
    return result;
}

/* The id of a food; one of the recipe's where a name fits several. */
static int
read_food(const command *self, const args *a, chain_asked *k)
{
    const char *name = args_value(a, "food"), *ids[16];
    size_t found = 0, n = 0;
    pottle_error error;
    if (name == NULL)
        return DONE;
    if (pottle_names_find(k->catalogue, name, ids, sizeof ids / sizeof ids[0],
                          &found, &error) != POTTLE_OK)
        return report(k->catalogue, &error);
    found =
        found < sizeof ids / sizeof ids[0] ? found : sizeof ids / sizeof ids[0];
    char fits[300] = "";
    for (size_t i = 0, at = 0; i < found; i++)
        if (pottle_recipe_uses(k->recipe, &ids[i], 1)) {
            k->request.food = ids[i];
            if (at + 70 < sizeof fits)
                at += (size_t)snprintf(fits + at, sizeof fits - at, "%s%.60s",
                                       n == 0 ? "" : ", ", ids[i]);
            n++;
        }
    if (n > 1)
        return usage_error(self, "'%.40s' may mean %s: which one?", name, fits);
    if (n == 0)
        k->request.food = ids[0];
    return DONE;
}

/* What was said of the instruments, and of the scale what the kitchen file
 * says. */
static int
read_errors(const args *a, chain_asked *k)
{
    static const char *const names[] = { [POTTLE_CHAIN_SCALE] = "scale-error",
                                         [POTTLE_CHAIN_CUP] = "cup-error",
                                         [POTTLE_CHAIN_LEVEL] = "level-error",
                                         [POTTLE_CHAIN_BY_EYE] =
                                             "about-error" };
    pottle_error error;
    if (k->house.kitchen.scale.unit != NULL &&
        pottle_chain_error_set(&k->request, POTTLE_CHAIN_SCALE,
                               k->house.kitchen.scale, &error) != POTTLE_OK)
        return report(k->catalogue, &error);
    for (int i = POTTLE_CHAIN_SCALE; i <= (int)POTTLE_CHAIN_BY_EYE; i++) {
        const char *typed = args_value(a, names[i]);
        pottle_quantity q;
        if (typed != NULL &&
            (pottle_quantity_read(typed, -1, &q, &error) != POTTLE_OK ||
             pottle_chain_error_set(&k->request, (pottle_chain_instrument)i, q,
                                    &error) != POTTLE_OK))
            return report(k->catalogue, &error);
    }
    return DONE;
}

static int
read_all(const command *self, const args *a, chain_asked *k)
{
    const char *altitude = args_value(a, "altitude");
    if (args_has(a, "picked") && args_has(a, "bought"))
        return usage_error(
            self, "--picked and --bought are the same weighing: give one");
    k->request.version = POTTLE_CHAIN_REQUEST_VERSION;
    k->request.picked_said = args_has(a, "picked") || args_has(a, "bought");
    k->request.picked =
        args_has(a, "picked") ? POTTLE_PICKED : POTTLE_PURCHASED;
    int result = read_food(self, a, k);
    if (result == DONE && altitude != NULL) {
        result = read_altitude(altitude, &k->request.altitude_m);
        k->request.has_altitude = true;
    }
    if (result == DONE)
        result = kitchen_open(a, k->catalogue, false, &k->house);
    if (result == DONE)
        result = kitchen_altitude(&k->house, &k->request.has_altitude,
                                  &k->request.altitude_m);
    if (result == DONE)
        result = read_errors(a, k);
    if (result == DONE)
        result = read_jar_options(self, a, k);
    if (result == DONE)
        result = read_container(self, a, k);
    if (result == DONE)
        result =
            read_mass(self, a, k, args_has(a, "picked") ? "picked" : "bought",
                      POTTLE_CHAIN_PICKED);
    if (result == DONE)
        result = read_mass(self, a, k, "prepared", POTTLE_CHAIN_PREPARED);
    if (result == DONE)
        result = read_batches(self, a, k);
    if (result == DONE)
        result = read_cooked(self, a, k);
    if (result == DONE)
        result = read_measured(self, a, k);
    if (result == DONE && k->count == 0 && !(k->want > 0))
        result = usage_error(self, "say what was measured, or what is wanted: "
                                   "--picked '25 lb', --want '14 quart'");
    return result;
}

/* -- The command ----------------------------------------------------------- */

static int
ask(chain_asked *k)
{
    pottle_error error;
    if (pottle_chain_new(k->catalogue, k->recipe, &k->request, &k->chain,
                         &error) != POTTLE_OK ||
        pottle_chain_update(k->chain, k->seen, k->count, &k->state, &error) !=
            POTTLE_OK ||
        pottle_chain_next(k->chain, k->seen, k->count, k->gain, &k->gains,
                          &error) != POTTLE_OK ||
        (k->want > 0 && pottle_chain_want(k->chain, k->seen, k->count, k->want,
                                          &k->wanted, &error) != POTTLE_OK))
        return report(k->catalogue, &error);
    return DONE;
}

static int
run(const command *self, const args *a, bool json)
{
    chain_asked k;
    memset(&k, 0, sizeof k);
    if (a->operands != 1)
        return usage_error(self, "chain takes one recipe");
    int result = open_catalogue(a, POTTLE_WITH_ALL, &k.catalogue);
    if (result != DONE)
        return result;
    pottle_error error;
    if (pottle_recipe_read(k.catalogue, a->operand[0], &k.recipe, &error) !=
        POTTLE_OK)
        result = report(k.catalogue, &error);
    if (result == DONE)
        result = read_all(self, a, &k);
    if (result == DONE)
        result = ask(&k);
    if (result == DONE && json)
        result = print_json(chain_json(&k));
    else if (result == DONE)
        chain_text(&k);
    pottle_chain_free(k.chain);
    pottle_recipe_free(k.recipe);
    pottle_catalogue_free(k.catalogue);
    return result;
}

const command chain_command = {
    "chain", run,
    "RECIPE [--container 'N UNIT'] [--picked M | --bought M] [--prepared M]\n"
    "        [--measured V] [--batches X] [--cooked V|M]... [--jars 'N JAR'] "
    "[--about]\n"
    "        [--scale-error E] [--cup-error E] [--level-error E] "
    "[--about-error "
    "E]\n"
    "        [--want 'N JAR'] [--food FOOD] [--jar JAR] [--altitude H]",
    "from harvest to jars and back, narrowed by what was measured", options
};
