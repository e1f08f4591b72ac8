/* cmd_scale.c - pottle scale: a recipe for what is on hand. */
#include "cli.h"

#include <stdlib.h>
#include <string.h>

const option scale_options[] = {
    { "have", "'AMOUNT FOOD'",
      "what is on hand; may be given several times, the scarcest decides" },
    { "batches", "X", "so many published batches" },
    { "fill", "'N JAR'", "so many jars: '14 quart'" },
    { "jar", "JAR", "size of jar: half-pint, pint, quart, 500-ml ..." },
    { "altitude", "H", "'900 m' or '6200 ft'" },
    { "canner", "METHOD", "boiling-water, dial-gauge or weighted-gauge" },
    { "pack", "hot|raw", "style of pack" },
    { "set", "'AMOUNT FOOD'",
      "total of one ingredient over all that is made; may be repeated" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "recipes", "FOLDER", "a folder of your own recipes, searched first" },
    { "volume", "V", "jars only: a volume of food instead of a recipe" },
    { "headspace", "H", "jars only: '1/4 in' or '6 mm'" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* Foods of the recipe decide what an ambiguous name means. */
enum { PREFERRED = 512 };

static size_t
preferred_foods(const pottle_recipe *recipe, const char **id)
{
    size_t n = 0, count = 0;
    const pottle_ingredient *in = pottle_recipe_ingredients(recipe, &count);
    for (size_t i = 0; i < count && n < PREFERRED; i++) {
        id[n++] = in[i].food;
        for (size_t k = 0; k < in[i].alternatives && n < PREFERRED; k++)
            id[n++] = in[i].alternative[k].food;
    }
    const pottle_per_jar *per = pottle_recipe_per_jar(recipe, &count);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < per[i].choices && n < PREFERRED; k++)
            id[n++] = per[i].choice[k].food;
    return n;
}

int
read_altitude(const char *text, double *out)
{
    pottle_quantity q;
    pottle_error error;
    if (pottle_quantity_read(text, POTTLE_LENGTH, &q, &error) != POTTLE_OK)
        return report(NULL, &error);
    if (q.high > q.low ||
        pottle_unit_convert(q.low, q.unit, pottle_unit_find("m"), out,
                            &error) != POTTLE_OK) {
        complain("'%.60s' is not one altitude", text);
        return USAGE;
    }
    /* one limit for all, also where the height is not looked at */
    if (!(*out >= 0 && *out <= POTTLE_ALTITUDE_MAX_M)) {
        complain("the altitude must lie between 0 and %d m (14,763 ft)",
                 POTTLE_ALTITUDE_MAX_M);
        return USAGE;
    }
    return DONE;
}

int
read_pack(const command *self, const char *text, pottle_pack_style *out)
{
    *out = text == NULL             ? POTTLE_ANY_PACK
         : strcmp(text, "hot") == 0 ? POTTLE_HOT_PACK
                                    : POTTLE_RAW_PACK;
    if (text != NULL && strcmp(text, "hot") != 0 && strcmp(text, "raw") != 0)
        return usage_error(self, "'%.40s' is not a pack; there are hot and raw",
                           text);
    return DONE;
}

bool
split_jars(const char *text, pottle_range *number, const char **size)
{
    char first[40];
    text += strspn(text, " ");
    size_t n = strcspn(text, " ");
    /* the number is the first word, and the second too when that is a fraction
     */
    const char *second = text + n + strspn(text + n, " ");
    if (second[0] >= '0' && second[0] <= '9' &&
        memchr(second, '/', strcspn(second, " ")) != NULL)
        n = (size_t)(second - text) + strcspn(second, " ");
    snprintf(first, sizeof first, "%.*s", (int)n, text);
    *size = text + n + strspn(text + n, " ");
    return pottle_number_read(first, number) == POTTLE_OK && number->low > 0;
}

static int
read_fill(const command *self, const scaled *s, const char *text, double *count,
          const pottle_jar **jar, const pottle_own_jar **own)
{
    const char *size;
    pottle_range range;
    if (!split_jars(text, &range, &size) || range.high > range.low)
        return usage_error(self,
                           "'%.40s' is not a number of jars and their size, "
                           "such as '14 quart'",
                           text);
    *count = range.low;
    return kitchen_jar(&s->house, s->catalogue, size, jar, own);
}

static int
read_phrases(scaled *s, const args *a, const char *option_name,
             const char *const *preferred, size_t preferred_count,
             pottle_phrase *out, size_t *count)
{
    pottle_error error;
    *count = 0;
    for (const char *text; (text = args_nth(a, option_name, *count)) != NULL;
         (*count)++) {
        if (pottle_phrase_read(s->catalogue, text, preferred, preferred_count,
                               &out[*count], &error) != POTTLE_OK)
            return report(s->catalogue, &error);
        kitchen_phrase(&s->house, text, &out[*count]);
    }
    return DONE;
}

/* Everything of the request but the recipe and the phrases. */
static int
read_request(const command *self, const args *a, scaled *s)
{
    pottle_error error;
    pottle_request *r = &s->request;
    const char *jar = args_value(a, "jar"), *batches = args_value(a, "batches"),
               *fill = args_value(a, "fill"),
               *altitude = args_value(a, "altitude"),
               *canner = args_value(a, "canner");
    pottle_range range;
    r->version = POTTLE_REQUEST_VERSION;
    if (jar != NULL) {
        const int result =
            kitchen_jar(&s->house, s->catalogue, jar, &r->jar, &r->own);
        if (result != DONE)
            return result;
    }
    if (batches != NULL) {
        if (pottle_number_read(batches, &range) != POTTLE_OK ||
            !(range.low > 0) || range.high > range.low)
            return usage_error(self, "'%.40s' is not a number of batches",
                               batches);
        r->batches = range.low;
    }
    if (fill != NULL) {
        const pottle_jar *size = NULL;
        const pottle_own_jar *own = NULL;
        const int result = read_fill(self, s, fill, &r->fill, &size, &own);
        if (result != DONE)
            return result;
        if (r->jar != NULL && (r->jar != size || r->own != own))
            return usage_error(self, "--fill and --jar name two sizes");
        r->jar = size;
        r->own = own;
    }
    if (altitude != NULL) {
        const int result = read_altitude(altitude, &r->altitude_m);
        if (result != DONE)
            return result;
        r->has_altitude = true;
    }
    if (canner != NULL) {
        if (pottle_canner_method(s->catalogue, canner, &s->method, &error) !=
            POTTLE_OK)
            return report(s->catalogue, &error);
        r->method = &s->method;
    }
    return read_pack(self, args_value(a, "pack"), &r->pack);
}

int
scaled_make(const command *self, const args *a, scaled *s)
{
    memset(s, 0, sizeof *s);
    s->a = a;
    if (a->operands != 1)
        return usage_error(self, "%s takes one recipe", self->name);
    int result = open_catalogue(a, POTTLE_WITH_ALL, &s->catalogue);
    if (result != DONE)
        return result;
    pottle_error error;
    if (pottle_recipe_read(s->catalogue, a->operand[0], &s->recipe, &error) !=
        POTTLE_OK)
        return report(s->catalogue, &error);
    result = kitchen_open(a, s->catalogue, false, &s->house);
    if (result == DONE)
        result = read_request(self, a, s);
    if (result == DONE)
        result = kitchen_defaults(s->catalogue, s->recipe, &s->house,
                                  &s->request, &s->method);
    if (result != DONE)
        return result;
    const char *id[PREFERRED];
    const size_t n = preferred_foods(s->recipe, id);
    result = read_phrases(s, a, "have", id, n, s->have, &s->request.haves);
    if (result == DONE)
        result = read_phrases(s, a, "set", id, n, s->set, &s->request.sets);
    if (result != DONE)
        return result;
    s->request.have = s->have;
    s->request.set = s->set;
    if (pottle_scale(s->catalogue, s->recipe, &s->request, &s->plan, &error) !=
        POTTLE_OK)
        return report(s->catalogue, &error);
    /* no kitchen scale shows the spices of less (practice) */
    if (pottle_plan_factor(s->plan) < 0.01)
        return usage_error(self,
                           "that is less than a hundredth of the %s, too "
                           "little to measure out; the least is --batches 0.01",
                           batch_word(s->recipe));
    size_t processes = 0;
    const pottle_process *p = pottle_plan_processes(s->plan, &processes);
    pottle_process usable[POTTLE_PROCESS_MAX];
    return processes > 0 && kitchen_usable(&s->house, p, processes, usable) == 0
             ? report(s->catalogue, &s->house.why)
             : DONE;
}

void
scaled_free(scaled *s)
{
    pottle_plan_free(s->plan);
    pottle_recipe_free(s->recipe);
    pottle_catalogue_free(s->catalogue);
}

static int
run(const command *self, const args *a, bool json)
{
    scaled s;
    if (args_has(a, "volume") || args_has(a, "headspace"))
        return usage_error(self,
                           "--volume and --headspace belong to 'pottle jars'");
    int result = scaled_make(self, a, &s);
    if (result == DONE) {
        if (json)
            result = print_json(plan_json(&s));
        else
            plan_text(&s);
    }
    scaled_free(&s);
    return result;
}

const command scale_command = {
    "scale", run,
    "RECIPE (--have 'AMOUNT FOOD')... | --batches X | --fill 'N JAR'\n"
    "        [--jar JAR] [--altitude H] [--canner METHOD] [--set 'AMOUNT "
    "FOOD']...",
    "a tested recipe for what is on hand", scale_options
};
