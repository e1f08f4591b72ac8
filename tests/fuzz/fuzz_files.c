/* fuzz_files.c - targets that read a catalogue file.
 *
 * The library reads files by name, so an input is written to a catalogue of its
 * own in the current folder. Whatever it is: it is refused with a reason, or
 * all that the object gives out is sound. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "targets.h"

const pottle_status fuzz_bad_file[] = { POTTLE_EDATA, POTTLE_OK };

/* -- The folder ----------------------------------------------------------- */

static char folder[64], foods[80];
static pottle_catalogue *bare; /* the folder's, with no shared file read */

static void
remove_folder(void)
{
    static const char *const files[] = {
        "foods/food.xml", "foods/names.xml", "figures.xml", "jars.xml",
        "rules.xml",      "sources.xml",     "syrups.xml",  "rescue.xml",
        "recipe.xml",     "kitchen.xml",     "again.xml",   "again.xml~"
    };
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        char path[FUZZ_PATH_SIZE];
        snprintf(path, sizeof path, "%s/%s", folder, files[i]);
        unlink(path);
    }
    rmdir(foods);
    rmdir(folder);
    pottle_catalogue_free(bare);
}

static void
make_folder(void)
{
    if (bare != NULL)
        return;
    fuzz_catalogue(); /* and with it what listens to libxml2 */
    snprintf(folder, sizeof folder, "fuzz-%ld.tmp", (long)getpid());
    snprintf(foods, sizeof foods, "%s/foods", folder);
    if (mkdir(folder, 0777) != 0 || mkdir(foods, 0777) != 0 ||
        pottle_catalogue_open(folder, NULL, 0, &bare, NULL) != POTTLE_OK) {
        perror(folder);
        exit(99);
    }
    atexit(remove_folder);
}

void
fuzz_put(const char *name, const uint8_t *data, size_t size, char *path)
{
    make_folder();
    snprintf(path, FUZZ_PATH_SIZE, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    if (file == NULL || (size > 0 && fwrite(data, 1, size, file) != size) ||
        fclose(file) != 0) {
        perror(path);
        exit(99);
    }
}

bool
fuzz_has(const uint8_t *data, size_t size, const char *text)
{
    const size_t n = strlen(text);
    for (size_t i = 0; i + n <= size; i++)
        if (memcmp(data + i, text, n) == 0)
            return true;
    return false;
}

pottle_status
fuzz_open(const char *name, const uint8_t *data, size_t size, unsigned part,
          pottle_catalogue **out, pottle_error *error)
{
    char path[FUZZ_PATH_SIZE];
    fuzz_put(name, data, size, path);
    return pottle_catalogue_open(folder, NULL, part, out, error);
}

void
fuzz_cite(const pottle_cite *cite, const char *what)
{
    fuzz_text(cite->source, what);
    fuzz_text(cite->at, what);
    fuzz_text(cite->note, what);
    fuzz_expect(cite->standing >= POTTLE_PUBLISHED &&
                    cite->standing <= POTTLE_MEMORY,
                "%s has standing %d", what, (int)cite->standing);
    fuzz_expect(cite->source[0] != '\0' && cite->at[0] != '\0',
                "%s is not cited", what);
}

/* -- Foods ---------------------------------------------------------------- */

/* Bulk densities lie between those of dried leaves and of salt or syrup. */
static void
check_form(const pottle_food *food, const pottle_form *form)
{
    fuzz_text(form->id, "form");
    fuzz_text(form->bulk, "bulk");
    fuzz_expect(form->weights > 0, "form '%s' has no weight", form->id);
    for (size_t i = 0; i < form->weights; i++) {
        const pottle_weight *w = &form->weight[i];
        const double density = w->grams / w->volume_ml;
        fuzz_expect(density >= 0.01 && density <= 2.2, "a density of %g",
                    density);
        fuzz_text(w->printed, "printed weight");
        fuzz_text(w->measure, "measure");
        fuzz_cite(&w->cite, "weight");
    }
    pottle_estimate density = { -1, -1 };
    fuzz_expect(pottle_form_density(bare, food, form->id, &density, NULL,
                                    NULL) == POTTLE_OK &&
                    density.median > 0 && isfinite(density.median) &&
                    density.sd >= 0 && isfinite(density.sd),
                "the density of '%s' is %g, %g", form->id, density.median,
                density.sd);
}

/* An amount in each unit, in each state, has a mass or a reason. */
static void
check_masses(const pottle_food *food)
{
    static const pottle_status allowed[] = { POTTLE_ENOENT, POTTLE_EAMBIGUOUS,
                                             POTTLE_EUNIT, POTTLE_OK };
    const pottle_unit *unit = pottle_unit_at(0);
    for (size_t i = 0; unit != NULL; unit = pottle_unit_at(++i)) {
        for (int state = POTTLE_PREPARED; state <= POTTLE_PICKED; state++) {
            pottle_phrase p = { .low = 2,
                                .high = 3,
                                .unit = unit,
                                .state_said = true,
                                .state = (pottle_state)state };
            pottle_estimate g;
            pottle_error error;
            const pottle_status status = pottle_phrase_mass(
                bare, food, &p, POTTLE_PURCHASED, "", "", &g, NULL, &error);
            if (status != POTTLE_OK)
                fuzz_failure(status, &error, allowed, "a mass");
            else
                fuzz_expect(g.median > 0 && isfinite(g.median) && g.sd >= 0 &&
                                isfinite(g.sd),
                            "2 to 3 %s have a mass of %g, %g", unit->id,
                            g.median, g.sd);
        }
    }
}

static void
check_food(const pottle_food *food)
{
    size_t n = 0;
    fuzz_expect(strcmp(pottle_food_id(food), "food") == 0, "id '%s'",
                pottle_food_id(food));
    fuzz_text(pottle_food_title(food), "title");
    fuzz_text(pottle_food_group(food), "group");
    const pottle_acid *acid = pottle_food_acid(food);
    fuzz_cite(&acid->cite, "acid");
    fuzz_amount(acid->strength, "strength");
    fuzz_expect(!acid->has_ph ||
                    (acid->ph_low > 0 && acid->ph_low <= acid->ph_high &&
                     acid->ph_high <= 14),
                "pH %g to %g", acid->ph_low, acid->ph_high);
    const pottle_composition *c = pottle_food_composition(food);
    if (c->known) {
        fuzz_cite(&c->cite, "composition");
        fuzz_expect(c->water >= 0 && c->water <= 101, "water %g", c->water);
    }
    const pottle_trim *trim = pottle_food_trims(food, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_cite(&trim[i].cite, "trim");
        fuzz_text(trim[i].id, "trim");
        fuzz_expect(trim[i].keeps > 0 && trim[i].keeps <= 1, "a trim keeps %g",
                    trim[i].keeps);
    }
    const pottle_form *form = pottle_food_forms(food, &n);
    for (size_t i = 0; i < n; i++)
        check_form(food, &form[i]);
    const pottle_piece *piece = pottle_food_pieces(food, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_cite(&piece[i].cite, "piece");
        fuzz_text(piece[i].size, "size");
        fuzz_expect(piece[i].grams > 0 && isfinite(piece[i].grams),
                    "a piece of %g g", piece[i].grams);
    }
    const pottle_container *box = pottle_food_containers(food, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_cite(&box[i].cite, "container");
        fuzz_expect(box[i].of->dimension == POTTLE_CONTAINER &&
                        box[i].low_g > 0 && box[i].low_g <= box[i].high_g,
                    "a container of %g to %g", box[i].low_g, box[i].high_g);
    }
    const pottle_note *note = pottle_food_notes(food, &n);
    for (size_t i = 0; i < n; i++)
        fuzz_text(note[i].text, "note");
    check_masses(food);
}

int
target_food(const uint8_t *data, size_t size)
{
    char path[FUZZ_PATH_SIZE];
    fuzz_put("foods/food.xml", data, size, path);
    pottle_food *food = NULL;
    pottle_error error;
    const pottle_status status = pottle_food_read(bare, "food", &food, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, fuzz_bad_file, "a food");
        fuzz_expect(food == NULL, "a food that is refused is written");
    } else {
        check_food(food);
    }
    pottle_food_free(food);
    return fuzz_verdict();
}

/* -- Names ---------------------------------------------------------------- */

/* Every name of a food finds it. */
static void
check_names(const pottle_catalogue *c)
{
    const char *id;
    for (size_t i = 0; (id = pottle_food_at(c, i)) != NULL; i++) {
        const char *name;
        fuzz_text(id, "id");
        for (size_t k = 0; (name = pottle_food_name(c, id, k)) != NULL; k++) {
            const char *ids[64];
            size_t count = 0;
            fuzz_text(name, "name");
            if (!fuzz_expect(pottle_names_find(c, name, ids, 64, &count,
                                               NULL) == POTTLE_OK &&
                                 count > 0,
                             "'%s' finds nothing", name))
                continue;
            bool found = count > 64;
            for (size_t n = 0; n < count && n < 64; n++)
                found = found || strcmp(ids[n], id) == 0;
            fuzz_expect(found, "'%s' does not find '%s'", name, id);
        }
    }
}

int
target_names(const uint8_t *data, size_t size)
{
    pottle_catalogue *c = NULL;
    pottle_error error;
    const pottle_status status =
        fuzz_open("foods/names.xml", data, size, POTTLE_WITH_NAMES, &c, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, fuzz_bad_file, "a file of names");
        fuzz_expect(c == NULL, "a catalogue that is refused is written");
    } else {
        static const pottle_status unknown[] = { POTTLE_ENOENT, POTTLE_OK };
        const char *ids[1];
        size_t count = 0;
        check_names(c);
        const pottle_status none =
            pottle_names_find(c, "no such food", ids, 1, &count, &error);
        if (none != POTTLE_OK)
            fuzz_failure(none, &error, unknown, "a name");
    }
    pottle_catalogue_free(c);
    return fuzz_verdict();
}

/* -- The other shared files ----------------------------------------------- */

static void
check_jars(const pottle_catalogue *c)
{
    size_t n = 0;
    const pottle_jar *jar = pottle_jars(c, &n), *found = NULL;
    for (size_t i = 0; i < n; i++) {
        fuzz_cite(&jar[i].cite, "jar");
        fuzz_text(jar[i].title, "title");
        fuzz_text(jar[i].names, "names");
        fuzz_text(jar[i].process_as, "process-as");
        fuzz_text(jar[i].rule, "rule");
        fuzz_amount(jar[i].nominal_ml, "nominal volume");
        fuzz_expect(i == 0 || jar[i - 1].nominal_ml <= jar[i].nominal_ml,
                    "jars are not in order at '%s'", jar[i].id);
        fuzz_expect(pottle_jar_find(c, jar[i].id, &found, NULL) == POTTLE_OK,
                    "jar '%s' is not found", jar[i].id);
        static const pottle_length headspace[] = { { 2 }, { 31 }, { 60 } };
        for (size_t k = 0; k < sizeof headspace / sizeof headspace[0]; k++) {
            pottle_estimate fill = { 1, 0 };
            const pottle_status status =
                pottle_jar_fill(c, &jar[i], headspace[k], &fill, NULL);
            fuzz_expect(status == POTTLE_EDOMAIN ||
                            (status == POTTLE_OK && fill.median > 0 &&
                             isfinite(fill.median)),
                        "jar '%s' holds %g mL", jar[i].id, fill.median);
        }
    }
    pottle_length mouth;
    fuzz_expect(pottle_mouth_diameter(c, false, &mouth) == POTTLE_OK &&
                    mouth.mm > 0 && isfinite(mouth.mm),
                "the mouth has no width");
}

static void
check_lists(const pottle_catalogue *c)
{
    size_t n = 0;
    const pottle_figure *figure = pottle_figures(c, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_cite(&figure[i].cite, "figure");
        fuzz_text(figure[i].text, "figure");
        fuzz_text(figure[i].unit, "unit");
        fuzz_amount(figure[i].value, "value");
        fuzz_amount(figure[i].spread, "spread");
        fuzz_expect(figure[i].value <= figure[i].to, "'%s' goes from %g to %g",
                    figure[i].id, figure[i].value, figure[i].to);
        fuzz_expect(pottle_figure_find(c, figure[i].id) == &figure[i],
                    "figure '%s' is not found", figure[i].id);
    }
    const pottle_rule *rule = pottle_rules(c, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_cite(&rule[i].cite, "rule");
        fuzz_text(rule[i].text, "rule");
        fuzz_text(rule[i].instead, "instead");
        for (size_t k = 0; k < rule[i].nevers; k++) {
            fuzz_text(rule[i].never[k].put, "never put");
            fuzz_text(rule[i].never[k].wanted, "never for");
        }
        fuzz_expect(pottle_rule_find(c, rule[i].id) == &rule[i],
                    "rule '%s' is not found", rule[i].id);
    }
    const pottle_source *source = pottle_sources(c, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_text(source[i].author, "author");
        fuzz_text(source[i].title, "title");
        fuzz_text(source[i].part, "part");
        fuzz_text(source[i].year, "year");
        fuzz_text(source[i].publisher, "publisher");
        fuzz_text(source[i].read, "read");
        fuzz_expect(pottle_source_find(c, source[i].key) == &source[i],
                    "source '%s' is not found", source[i].key);
    }
    const pottle_syrup *syrup = pottle_syrups(c, &n);
    for (size_t i = 0; i < n; i++) {
        fuzz_cite(&syrup[i].cite, "syrup");
        fuzz_text(syrup[i].title, "syrup");
        fuzz_amount(syrup[i].percent, "percent");
        for (size_t k = 0; k < syrup[i].loads; k++) {
            fuzz_text(syrup[i].load[k].jar, "jar");
            fuzz_amount(syrup[i].load[k].jars, "jars");
            fuzz_amount(syrup[i].load[k].water_ml, "water");
            fuzz_amount(syrup[i].load[k].sugar_ml, "sugar");
        }
    }
}

/* The root element tells which of the files it is; what has none of their names
 * is given to the first. */
int
target_shared(const uint8_t *data, size_t size)
{
    static const struct {
        const char *root, *file;
        unsigned part;
    } kinds[] = {
        { "<figures", "figures.xml", POTTLE_WITH_FIGURES },
        { "<jars", "jars.xml", POTTLE_WITH_JARS },
        { "<rules", "rules.xml", POTTLE_WITH_RULES },
        { "<sources", "sources.xml", POTTLE_WITH_SOURCES },
        { "<syrups", "syrups.xml", POTTLE_WITH_SYRUPS },
        { "<rescue", "rescue.xml", POTTLE_WITH_RESCUE },
    };
    size_t kind = 0, nearest = size;
    for (size_t k = 0; k < sizeof kinds / sizeof kinds[0]; k++) {
        const size_t n = strlen(kinds[k].root);
        for (size_t i = 0; i + n <= size && i < nearest; i++) {
            if (memcmp(data + i, kinds[k].root, n) == 0) {
                nearest = i;
                kind = k;
            }
        }
    }
    pottle_catalogue *c = NULL;
    pottle_error error;
    const pottle_status status =
        fuzz_open(kinds[kind].file, data, size, kinds[kind].part, &c, &error);
    if (status != POTTLE_OK) {
        fuzz_failure(status, &error, fuzz_bad_file, kinds[kind].file);
        fuzz_expect(c == NULL, "a catalogue that is refused is written");
    } else {
        if (kinds[kind].part == POTTLE_WITH_JARS)
            check_jars(c);
        if (kinds[kind].part == POTTLE_WITH_RESCUE)
            fuzz_mishaps(c);
        check_lists(c);
    }
    pottle_catalogue_free(c);
    return fuzz_verdict();
}
