/* test_reference_recipes.c - every tested recipe, against the reference's
 * recipes.jsonl: its kind, its yield and its processes. The ingredients stand
 * in test_reference_ingredients.c. */
#include <stdio.h>
#include <string.h>

#include "reference_json.h"

typedef struct words {
    char text[500];
} words;

/* -- Yield and processes --------------------------------------------------- */

static void
compare_yield(const char *id, const json_t *printed,
              const pottle_recipe *recipe, findings *f)
{
    const json_t *yield = json_object_get(printed, "yield");
    const char *jar = json_text(yield, "jar");
    double low, high;
    json_range(json_object_get(yield, "count"), &low, &high);
    size_t n = 0;
    const pottle_yield *y = pottle_recipe_yields(recipe, &n);
    f->looked_at++;
    words w = { "" };
    for (size_t i = 0; i < n; i++) {
        if (strcmp(y[i].jar, jar) == 0 && nearly(y[i].low, low) &&
            nearly(y[i].high, high))
            return;
        text_add(w.text, sizeof w.text, " %g-%g %s;", y[i].low, y[i].high,
                 y[i].jar);
    }
    if (n > 0 || high > 0) /* 0 to 0 is a yield that is not stated */
        findings_add(f, "%s: expected a yield of %g-%g %s, found:%s", id, low,
                     high, jar, n > 0 ? w.text : " none");
}

static pottle_method
method_of(const char *name)
{
    if (strcmp(name, "dial-gauge-pressure") == 0)
        return POTTLE_DIAL_GAUGE;
    if (strcmp(name, "weighted-gauge-pressure") == 0)
        return POTTLE_WEIGHTED_GAUGE;
    ck_assert_str_eq(name, "boiling-water");
    return POTTLE_BOILING_WATER;
}

/* The i-th band of a process; false past the end. */
static bool
band_of(const json_t *process, size_t i, pottle_band *out)
{
    const json_t *minutes = json_object_get(process, "minutes");
    const json_t *bands =
        json_object_get(process, minutes != NULL ? "psi_bands" : "bands");
    const json_t *band = json_array_get(bands, i);
    if (band == NULL)
        return false;
    const json_t *to = json_object_get(band, "alt_max_ft");
    out->from_ft = (int)json_integer_value(json_object_get(band, "alt_min_ft"));
    out->to_ft = json_is_integer(to) ? (int)json_integer_value(to) : -1;
    out->minutes = (int)json_integer_value(
        minutes != NULL ? minutes : json_object_get(band, "minutes"));
    out->psi = (int)json_integer_value(json_object_get(band, "psi"));
    return true;
}

static void
jars_of(const json_t *process, char *buf, size_t size)
{
    const json_t *jars = json_object_get(process, "jars");
    buf[0] = '\0';
    for (size_t i = 0; i < json_array_size(jars); i++)
        text_add(buf, size, "%s%s", i > 0 ? "|" : "",
                 json_string_value(json_array_get(jars, i)));
}

static bool
same_process(const json_t *process, double headspace_in,
             const pottle_process_table *t)
{
    char jars[100];
    jars_of(process, jars, sizeof jars);
    return t->method == method_of(json_text(process, "method")) &&
           t->raw == (strcmp(json_text(process, "style"), "raw") == 0) &&
           nearly(t->headspace_in, headspace_in) &&
           same_jars(jars, t->jar, t->jars);
}

static bool
has_band(const pottle_process_table *t, const pottle_band *b)
{
    for (size_t i = 0; i < t->bands; i++)
        if (t->band[i].from_ft == b->from_ft && t->band[i].to_ft == b->to_ft &&
            t->band[i].minutes == b->minutes && t->band[i].psi == b->psi)
            return true;
    return false;
}

static words
say_processes(const pottle_recipe *recipe)
{
    words w = { "" };
    size_t n = 0;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &n);
    for (size_t i = 0; i < n; i++) {
        text_add(w.text, sizeof w.text, " [%s %s", t[i].raw ? "raw" : "hot",
                 pottle_method_name((int)t[i].method));
        for (size_t k = 0; k < t[i].jars; k++)
            text_add(w.text, sizeof w.text, " %s", t[i].jar[k]);
        text_add(w.text, sizeof w.text, " %g in:", t[i].headspace_in);
        for (size_t k = 0; k < t[i].bands; k++)
            text_add(w.text, sizeof w.text, " %d-%d %d min %d psi",
                     t[i].band[k].from_ft, t[i].band[k].to_ft,
                     t[i].band[k].minutes, t[i].band[k].psi);
        text_add(w.text, sizeof w.text, "]");
    }
    return w;
}

/* Every band of the reference stands in the catalogue, and as many bands as
 * there are. Where a recipe is not canned there is no pack, and nothing that
 * could have a headspace. */
static void
compare_processes(const char *id, const json_t *printed,
                  const pottle_recipe *recipe, findings *f)
{
    const double headspace_in =
        json_number_value(json_object_get(printed, "headspace_in"));
    const json_t *processes = json_object_get(printed, "process");
    size_t n = 0, bands = 0, there = 0;
    const pottle_process_table *t = pottle_recipe_processes(recipe, &n);
    for (size_t i = 0; i < n; i++)
        there += t[i].bands;
    for (size_t i = 0; i < json_array_size(processes); i++) {
        const json_t *process = json_array_get(processes, i);
        pottle_band b;
        for (size_t k = 0; band_of(process, k, &b); k++) {
            size_t times = 0;
            for (size_t j = 0; j < n; j++)
                times += same_process(process, headspace_in, &t[j]) &&
                         has_band(&t[j], &b);
            char jars[100];
            jars_of(process, jars, sizeof jars);
            if (times != 1)
                findings_add(f,
                             "%s: expected once %s %s %s %g in, %d-%d ft %d "
                             "min %d psi, found in%s",
                             id, json_text(process, "style"),
                             json_text(process, "method"), jars, headspace_in,
                             b.from_ft, b.to_ft, b.minutes, b.psi,
                             say_processes(recipe).text);
            f->looked_at++;
            bands++;
        }
    }
    if (bands != there)
        findings_add(f, "%s: expected %zu bands, found %zu:%s", id, bands,
                     there, say_processes(recipe).text);
}

/* -- Kind ------------------------------------------------------------------ */

static void
compare_kind(const char *id, const json_t *printed, const pottle_recipe *recipe,
             findings *f)
{
    const char *kind = json_text(printed, "category");
    f->looked_at++;
    if (strcmp(pottle_recipe_id(recipe), id) != 0 ||
        strcmp(pottle_recipe_kind(recipe), kind) != 0)
        findings_add(f, "%s: expected kind %s, found %s of kind %s", id, kind,
                     pottle_recipe_id(recipe), pottle_recipe_kind(recipe));
    if (json_is_true(json_object_get(printed, "complete")) &&
        pottle_recipe_standing(recipe) != POTTLE_TESTED)
        findings_add(f, "%s: expected a tested recipe, found status %d", id,
                     (int)pottle_recipe_standing(recipe));
}

START_TEST(kinds_are_those_printed)
{
    reference_recipes_each("recipes.jsonl, id and kind", compare_kind);
}
END_TEST

START_TEST(yields_are_those_printed)
{
    reference_recipes_each("recipes.jsonl, yields", compare_yield);
}
END_TEST

START_TEST(processes_are_those_printed)
{
    reference_recipes_each("recipes.jsonl, processes", compare_processes);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("reference: recipes");
    TCase *tcase = tcase_create("recipes.jsonl");
    tcase_add_checked_fixture(tcase, reference_recipes_open,
                              reference_recipes_close);
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, kinds_are_those_printed);
    tcase_add_test(tcase, yields_are_those_printed);
    tcase_add_test(tcase, processes_are_those_printed);
    suite_add_tcase(suite, tcase);
    return reference_run(suite, REFERENCE_RECIPES_FILE);
}
