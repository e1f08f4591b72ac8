/* catalogue.h part of pottle.h: what the publications say.
 *
 * The catalogue is a folder of XML files (docs/DATA.md). A pottle_catalogue
 * holds the small shared ones; a food or a recipe is read from its own file
 * when it is asked for, so a command opens only what it needs. */
#ifndef POTTLE_H_INTERNAL
#error "include <pottle.h>, not its parts"
#endif

typedef struct pottle_catalogue pottle_catalogue;
typedef struct pottle_food pottle_food;
typedef struct pottle_recipe pottle_recipe;

/* -- Citations ------------------------------------------------------------- */

typedef enum pottle_standing {
    POTTLE_PUBLISHED = 1, /* read in the publication */
    POTTLE_DERIVED =
        2, /* computed from published figures; the note says from which */
    POTTLE_PRACTICE = 3, /* rule of thumb of the trade, no source */
    POTTLE_MEMORY = 4    /* from memory, a lead and not a fact */
} pottle_standing;

POTTLE_API const char *pottle_standing_name(int standing);

/* Where a figure comes from. Texts are never NULL. */
typedef struct pottle_cite {
    const char *source; /* key of a pottle_source */
    const char *at;     /* place in it */
    const char *note;
    pottle_standing standing;
} pottle_cite;

typedef struct pottle_source {
    const char *key, *author, *title, *part, *year, *publisher, *read;
    int review_by; /* year, 0 when none is set */
} pottle_source;

/* -- The shared files ------------------------------------------------------ */

/* Which of the shared files to read; add them up. */
enum {
    POTTLE_WITH_NAMES = 1,    /* foods/names.xml */
    POTTLE_WITH_FIGURES = 2,  /* figures.xml */
    POTTLE_WITH_JARS = 4,     /* jars.xml */
    POTTLE_WITH_RULES = 8,    /* rules.xml */
    POTTLE_WITH_SOURCES = 16, /* sources.xml */
    POTTLE_WITH_SYRUPS = 32,  /* syrups.xml */
    POTTLE_WITH_RESCUE = 64,  /* rescue.xml */
    POTTLE_WITH_ALL = 127
};

/* Opens a catalogue.
 *
 * Given:     folder  where it lies
 *            own     a folder of a person's own recipes, or NULL
 *            parts   what to read of the shared files
 * Returned:  out     the catalogue
 * Status:    POTTLE_OK; POTTLE_EIO when a file cannot be read; POTTLE_EDATA
 *            when one is
 *            invalid; POTTLE_ENOMEM
 * Owns:      the caller, frees it by pottle_catalogue_free after all foods and
 *            recipes read with it
 * Checked:   tests/test_catalogue.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_catalogue_open(const char *folder, const char *own, unsigned parts,
                      pottle_catalogue **out, pottle_error *error);
POTTLE_API void pottle_catalogue_free(pottle_catalogue *catalogue);

/* Entries by key; NULL when there is none or the part was not read. */
POTTLE_API const pottle_source *
pottle_source_find(const pottle_catalogue *catalogue, const char *key);
POTTLE_API const pottle_source *
pottle_sources(const pottle_catalogue *catalogue, size_t *count);

typedef struct pottle_rule {
    const char *id, *text, *instead; /* instead may be empty */
    pottle_cite cite;
    size_t nevers; /* pairs of foods: never put the first for the second */
    const struct pottle_never {
        const char *put, *wanted;
    } * never;
} pottle_rule;
POTTLE_API const pottle_rule *
pottle_rule_find(const pottle_catalogue *catalogue, const char *id);
POTTLE_API const pottle_rule *pottle_rules(const pottle_catalogue *catalogue,
                                           size_t *count);

/* A single figure: value (to `to`, which equals it where there is no range) in
 * its published unit. */
typedef struct pottle_figure {
    const char *id, *unit, *text;
    double value, to, spread;
    pottle_cite cite;
} pottle_figure;
POTTLE_API const pottle_figure *
pottle_figure_find(const pottle_catalogue *catalogue, const char *id);
POTTLE_API const pottle_figure *
pottle_figures(const pottle_catalogue *catalogue, size_t *count);

/* A size of jar. Sizes are ordered by nominal volume. */
typedef struct pottle_jar {
    const char *id, *title;
    double nominal_ml;
    bool regular, wide;            /* mouths it is sold with */
    const char *process_as, *rule; /* size whose process it takes where it is
                                      not tested; "" for none */
    const char *names;             /* what else it is called, separated by | */
    pottle_cite cite;
} pottle_jar;
POTTLE_API const pottle_jar *pottle_jars(const pottle_catalogue *catalogue,
                                         size_t *count);

/* Finds a jar by id or by a name people use: "half-pint", "8 oz", "500 ml".
 * Status:    POTTLE_OK; POTTLE_ENOENT, the error lists near names */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_jar_find(const pottle_catalogue *catalogue, const char *name,
                const pottle_jar **out, pottle_error *error);

/* Inside diameter of a mouth.
 * Status:    POTTLE_OK; POTTLE_ENOENT when jars.xml was not read */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_mouth_diameter(
    const pottle_catalogue *catalogue, bool wide, pottle_length *out);

typedef struct pottle_syrup {
    const char *id, *title;
    double percent; /* nominal sugar, % by weight as the source labels it */
    size_t loads;
    const struct pottle_syrup_load {
        const char *jar;
        double jars, water_ml, sugar_ml;
    } * load;
    pottle_cite cite;
} pottle_syrup;
POTTLE_API const pottle_syrup *pottle_syrups(const pottle_catalogue *catalogue,
                                             size_t *count);

/* -- Foods ----------------------------------------------------------------- */

typedef enum pottle_state {
    POTTLE_PREPARED = 0,  /* ready to use */
    POTTLE_PURCHASED = 1, /* as sold, with peel, core, pod */
    POTTLE_PICKED = 2     /* from the plant, with leaves too */
} pottle_state;
POTTLE_API const char *pottle_state_name(int state);

typedef enum pottle_acid_class {
    POTTLE_NEUTRAL = 0,
    POTTLE_HIGH_ACID = 1,
    POTTLE_BORDERLINE = 2,
    POTTLE_LOW_ACID = 3
} pottle_acid_class;

/* What part of the mass is kept on the way from purchased or picked to ready.
 */
typedef struct pottle_trim {
    const char *id;
    pottle_state from;
    double keeps;
    pottle_cite cite;
} pottle_trim;

/* A measure of a form weighs so much; as printed and in base units. */
typedef struct pottle_weight {
    double of, grams, volume_ml;
    const char *printed, *measure; /* "122 g", "1 cup" */
    pottle_cite cite;
} pottle_weight;
typedef struct pottle_form {
    const char *id;   /* "diced" */
    const char *bulk; /* liquid, fine, small, cut, leafy: decides the spread */
    size_t weights;
    const pottle_weight *weight;
} pottle_form;
typedef struct pottle_piece {
    const char *size;
    double grams;
    pottle_state state;
    pottle_cite cite;
} pottle_piece;
typedef struct pottle_container {
    const pottle_unit *of;
    double low_g, high_g;
    pottle_cite cite;
} pottle_container;
typedef struct pottle_note {
    const char *of, *text;
    pottle_cite cite;
} pottle_note;
typedef struct pottle_acid {
    pottle_acid_class class_;
    double ph_low, ph_high, strength;
    bool has_ph;
    pottle_cite cite;
} pottle_acid;
/* Grams in 100 g of the edible part; members that the source leaves blank are
 * -1. */
typedef struct pottle_composition {
    bool known;
    double water, carbohydrate, fibre, sugars, ash;
    pottle_cite cite;
} pottle_composition;

/* Reads foods/ID.xml.
 * Status:    POTTLE_OK; POTTLE_ENOENT; POTTLE_EDATA; POTTLE_EIO; POTTLE_ENOMEM
 * Owns:      the caller, by pottle_food_free */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_food_read(const pottle_catalogue *catalogue, const char *id,
                 pottle_food **out, pottle_error *error);
POTTLE_API void pottle_food_free(pottle_food *food);

POTTLE_API const char *pottle_food_id(const pottle_food *food);
POTTLE_API const char *pottle_food_title(const pottle_food *food);
POTTLE_API const char *pottle_food_group(const pottle_food *food);
POTTLE_API const pottle_acid *pottle_food_acid(const pottle_food *food);
POTTLE_API const pottle_composition *
pottle_food_composition(const pottle_food *food);
POTTLE_API const pottle_trim *pottle_food_trims(const pottle_food *food,
                                                size_t *count);
POTTLE_API const pottle_form *pottle_food_forms(const pottle_food *food,
                                                size_t *count);
/* The form of an id ("diced"); NULL when the food has none such. */
POTTLE_API const pottle_form *pottle_food_form(const pottle_food *food,
                                               const char *id);
POTTLE_API const pottle_piece *pottle_food_pieces(const pottle_food *food,
                                                  size_t *count);
POTTLE_API const pottle_container *
pottle_food_containers(const pottle_food *food, size_t *count);
POTTLE_API const pottle_note *pottle_food_notes(const pottle_food *food,
                                                size_t *count);

/* How a form is said behind the title of its food: "finely chopped". "" where
 * it goes without saying: of a liquid, of a spice or powder that is measured as
 * it is sold, and where the title says it already ("cloves, whole"). Static
 * text; total. */
POTTLE_API const char *pottle_form_said(const pottle_food *food,
                                        const char *form);

/* The i-th name of a food or NULL; the first is the usual one. */
POTTLE_API const char *pottle_food_name(const pottle_catalogue *catalogue,
                                        const char *id, size_t i);

/* The food that a food is a kind of, or is made of, by names.xml; or NULL. */
POTTLE_API const char *pottle_food_under(const pottle_catalogue *catalogue,
                                         const char *id);

/* Ids of all foods, sorted. */
POTTLE_API const char *pottle_food_at(const pottle_catalogue *catalogue,
                                      size_t i);

/* Which foods a name means.
 * Returned:  ids     up to `room` of them, borrowed
 *            count   how many fit in all
 * Status:    POTTLE_OK when one or more fit; POTTLE_ENOENT, the error lists
 *            near names */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_names_find(
    const pottle_catalogue *catalogue, const char *name, const char **ids,
    size_t room, size_t *count, pottle_error *error);

/* Which foods somebody does without who does without a name: those it means,
 * those whose usual name is it with a word before ("pine nut"), and those that
 * names.xml puts under one of these (walnut under nut).
 * Returned:  ids     up to `room` of them, sorted, borrowed
 *            count   how many there are in all
 * Status:    as pottle_names_find
 * Checked:   tests/test_catalogue.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_names_cover(
    const pottle_catalogue *catalogue, const char *name, const char **ids,
    size_t room, size_t *count, pottle_error *error);

/* Words of the longest name or id: more of them name no food. */
POTTLE_API size_t pottle_name_words(const pottle_catalogue *catalogue);

/* -- Recipes --------------------------------------------------------------- */

typedef enum pottle_keep {
    POTTLE_FREE = 0,
    POTTLE_EXACT = 1,
    POTTLE_AT_LEAST = 2,
    POTTLE_AT_MOST = 3
} pottle_keep;
POTTLE_API const char *pottle_keep_name(int keep);

typedef enum pottle_recipe_status {
    POTTLE_TESTED = 0,
    POTTLE_DRAFT = 1,
    POTTLE_OWN = 2
} pottle_recipe_status;

/* A food that may stand in an ingredient's place, measure for measure. */
typedef struct pottle_alternative {
    const char *food, *form, *rule;
} pottle_alternative;

/* The amount the source prints for another size of batch (1/7 of the main one).
 */
typedef struct pottle_printed {
    double batch, amount;
    const pottle_unit *unit;
} pottle_printed;

typedef struct pottle_ingredient {
    const char *food;
    double amount, amount_to; /* as published; equal when it is no range */
    const char *printed;      /* the amount as it was written, "3 1/2" */
    const pottle_unit *unit;
    const char *size;               /* of a counted piece, or "" */
    pottle_state state;             /* when it was measured */
    const char *form, *trim, *then; /* or "" */
    const char *role;
    pottle_keep keep;
    const char *rule;
    bool optional, stays;
    const pottle_unit
        *per; /* a rate: amount for each `per` of per_food; NULL for none */
    const char *per_food, *per_form;
    double raw; /* of what was cooked before it was measured: about how much
                   the source has bought for it, in raw_unit; else 0 */
    const pottle_unit *raw_unit; /* of mass; NULL for none */
    size_t alternatives;
    const pottle_alternative *alternative;
    size_t printeds;
    const pottle_printed *other;
    pottle_cite cite;
} pottle_ingredient;

typedef struct pottle_batch {
    double smallest, largest;  /* smallest 0: none */
    const char *rule;          /* of the largest */
    const char *smallest_rule; /* the same where no other is named */
    pottle_cite cite;
} pottle_batch;

/* What goes into each jar: exactly one of the choices. */
typedef struct pottle_jar_dose {
    const char *jar;
    double amount;
    const char *printed;
    const pottle_unit *unit;
    const char *size, *form;
    pottle_cite cite;
} pottle_jar_dose;
typedef struct pottle_jar_choice {
    const char *food;
    size_t doses;
    const pottle_jar_dose *dose;
} pottle_jar_choice;
typedef struct pottle_per_jar {
    const char *role, *rule;
    pottle_keep keep;
    bool optional;
    size_t choices;
    const pottle_jar_choice *choice;
    pottle_cite cite;
} pottle_per_jar;

typedef struct pottle_load {
    const char *jar;
    double jars, grams;
    const char *printed;
    pottle_cite cite;
} pottle_load;
typedef struct pottle_average {
    const char *jar;
    double grams;
    pottle_cite cite;
} pottle_average;
typedef struct pottle_container_yield {
    const pottle_unit *of;
    double grams;
    const char *jar;
    double low, high;
    pottle_cite cite;
} pottle_container_yield;
typedef struct pottle_quantities {
    const char *food; /* "" when the recipe has none */
    size_t loads, averages, containers;
    const pottle_load *load;
    const pottle_average *average;
    const pottle_container_yield *container;
} pottle_quantities;

typedef enum pottle_end {
    POTTLE_END_AS_IS = 0,
    POTTLE_END_GEL_POINT = 1,
    POTTLE_END_ADDED_PECTIN = 2,
    POTTLE_END_REDUCE = 3,
    POTTLE_END_BUTTER = 4,
    POTTLE_END_SIMMER = 5,
    POTTLE_END_PACKED = 6,
    POTTLE_END_LOAD = 7
} pottle_end;
typedef struct pottle_cook {
    pottle_end end;
    double to, minutes; /* 0 when not given */
    bool covered, drained, limp;
    double juice_ml; /* 0 when none is measured */
    pottle_cite cite;
} pottle_cook;

typedef struct pottle_yield {
    const char *jar;
    double low, high;
    bool possible;
    pottle_cite cite;
} pottle_yield;

/* One band of altitude, as printed, in feet. to_ft < 0: open above. psi 0:
 * boiling water. */
typedef struct pottle_band {
    int from_ft, to_ft, minutes, psi;
} pottle_band;
typedef enum pottle_method {
    POTTLE_BOILING_WATER = 0,
    POTTLE_DIAL_GAUGE = 1,
    POTTLE_WEIGHTED_GAUGE = 2
} pottle_method;
POTTLE_API const char *pottle_method_name(int method);
/* Status:    POTTLE_OK; POTTLE_ENOENT, the error lists the three */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_method_find(const char *name,
                                                           pottle_method *out,
                                                           pottle_error *error);

typedef struct pottle_process_table {
    pottle_method method;
    bool raw;     /* raw pack, else hot pack */
    bool sterile; /* jars are sterilised first */
    size_t jars;
    const char *const *jar; /* exactly those tested */
    double headspace_in;
    const char *headspace; /* as printed, "1/2" */
    size_t bands;
    const pottle_band *band;
    pottle_cite cite;
} pottle_process_table;

typedef struct pottle_step {
    const char *action, *text;
    double minutes, minutes_to;
} pottle_step;

/* Reads the recipe of an id or of another id listed for it in names.xml; the
 * own folder is searched first, but an own recipe never hides a tested one
 * (POTTLE_EDATA).
 * Status:    POTTLE_OK; POTTLE_ENOENT, the error lists near ids; POTTLE_EDATA;
 *            POTTLE_EIO; POTTLE_ENOMEM
 * Owns:      the caller, by pottle_recipe_free */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_recipe_read(const pottle_catalogue *catalogue, const char *id,
                   pottle_recipe **out, pottle_error *error);

/* Reads a recipe from a file of any name. Status as pottle_recipe_read. */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_recipe_read_file(const pottle_catalogue *catalogue, const char *path,
                        pottle_recipe **out, pottle_error *error);
POTTLE_API void pottle_recipe_free(pottle_recipe *recipe);

POTTLE_API const char *pottle_recipe_id(const pottle_recipe *recipe);
POTTLE_API const char *pottle_recipe_title(const pottle_recipe *recipe);
POTTLE_API const char *pottle_recipe_kind(const pottle_recipe *recipe);
/* Whether a recipe is of the kind that somebody named, by its whole name or by
 * words of it, singular or plural: "jams" are freezer-jam and jam-liquid-pectin
 * too. An empty name is no kind. */
POTTLE_API bool pottle_recipe_is_kind(const pottle_recipe *recipe,
                                      const char *kind);
POTTLE_API pottle_recipe_status
pottle_recipe_standing(const pottle_recipe *recipe);
POTTLE_API const pottle_cite *pottle_recipe_cite(const pottle_recipe *recipe);
POTTLE_API const pottle_cite *
pottle_recipe_witnesses(const pottle_recipe *recipe, size_t *count);
POTTLE_API const pottle_batch *pottle_recipe_batch(const pottle_recipe *recipe);
POTTLE_API const pottle_ingredient *
pottle_recipe_ingredients(const pottle_recipe *recipe, size_t *count);
POTTLE_API const pottle_per_jar *
pottle_recipe_per_jar(const pottle_recipe *recipe, size_t *count);
POTTLE_API const pottle_quantities *
pottle_recipe_quantities(const pottle_recipe *recipe);
/* Ids of the liquids a pack may be covered with. */
POTTLE_API const char *const *pottle_recipe_covers(const pottle_recipe *recipe,
                                                   size_t *count);
POTTLE_API const pottle_cook *pottle_recipe_cook(const pottle_recipe *recipe);
POTTLE_API const pottle_yield *pottle_recipe_yields(const pottle_recipe *recipe,
                                                    size_t *count);
POTTLE_API const pottle_process_table *
pottle_recipe_processes(const pottle_recipe *recipe, size_t *count);
POTTLE_API const pottle_step *pottle_recipe_steps(const pottle_recipe *recipe,
                                                  size_t *count);
POTTLE_API const pottle_note *pottle_recipe_notes(const pottle_recipe *recipe,
                                                  size_t *count);

/* Calls `visit` for each recipe of the catalogue and of the own folder, sorted
 * by id within a kind; it owns the recipe for the time of the call only. A file
 * that cannot be used is passed as recipe NULL with its error, and the walk
 * goes on. A status other than POTTLE_OK from `visit` ends it. */
typedef pottle_status (*pottle_visit)(void *context,
                                      const pottle_recipe *recipe,
                                      const pottle_error *error);
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_recipes_each(const pottle_catalogue *catalogue, pottle_visit visit,
                    void *context, pottle_error *error);

/* Reads the file again from which a walk had a recipe, for an owner of its own:
 * by its id a recipe of one's own may be met instead, which is refused.
 * Status:    as pottle_recipe_read
 * Owns:      the caller, by pottle_recipe_free
 * Checked:   tests/test_catalogue.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_recipe_again(
    const pottle_catalogue *catalogue, const pottle_recipe *seen,
    pottle_recipe **out, pottle_error *error);

/* Validates one catalogue file against its schema and the rules that no schema
 * can say. Calls `tell` for each finding; errors is how many make the file
 * unusable.
 * Status:    POTTLE_OK when it was read, whatever was found; POTTLE_EIO;
 *            POTTLE_ENOMEM; POTTLE_EDATA
 *            when the schema itself is missing or broken
 * Checked:   tests/test_data.c, every file of tests/data */
typedef void (*pottle_tell)(void *context, bool warning,
                            const pottle_error *finding);
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_file_check(
    const pottle_catalogue *catalogue, const char *path, pottle_tell tell,
    void *context, size_t *errors, pottle_error *error);

/* -- Processes ------------------------------------------------------------- */

typedef enum pottle_pack_style {
    POTTLE_ANY_PACK = 0,
    POTTLE_HOT_PACK = 1,
    POTTLE_RAW_PACK = 2
} pottle_pack_style;

/* A tested process for one jar at one altitude. */
typedef struct pottle_process {
    const pottle_process_table *table;
    const pottle_band *band;
    const pottle_jar *jar;       /* the one asked for */
    const pottle_jar *tested_as; /* the one whose process it takes */
    pottle_length headspace;
} pottle_process;

/* The largest number of alternatives of one jar in any publication used here.
 */
enum { POTTLE_PROCESS_MAX = 16 };

/* Looks up the process of a recipe. Nothing is computed: the table's row is
 * found or the request is refused. Edges of bands are as printed; 1,000 ft is
 * in 0-1,000, anything above it in the next.
 *
 * Given:     jar         size; one smaller than tested takes the next larger
 *                        tested size's process
 *            method      canner, or NULL for any
 *            pack        style, or POTTLE_ANY_PACK
 *            altitude_m  0 to POTTLE_ALTITUDE_MAX_M (m)
 * Returned:  out         processes that apply: by method as listed, hot before
 *                        raw, shortest first
 *            count       how many, at least 1, at most POTTLE_PROCESS_MAX
 * Status:    POTTLE_OK; POTTLE_EBOUNDS: the jar is larger than tested, no
 *            process for the method or pack,
 *            altitude above the last band, or the recipe is a draft, own or not
 *            canned; POTTLE_EDOMAIN
 *            for an altitude that is not a number of that range
 * Checked:   tests/test_process.c, and tests/test_reference_process.c for all published
 *            rows */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_process_find(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    const pottle_jar *jar, const pottle_method *method, pottle_pack_style pack,
    double altitude_m, pottle_process *out, size_t *count, pottle_error *error);

/* Whether a tested process of a recipe can have been followed at all, as far as
 * jar, pack and altitude are known.
 *
 * Given:     jar         NULL: any size
 *            pack        style, or POTTLE_ANY_PACK
 *            altitude_m  NULL: any
 * Status:    as of pottle_process_find
 * Checked:   tests/rescue_recipe.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_process_exists(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    const pottle_jar *jar, pottle_pack_style pack, const double *altitude_m,
    pottle_error *error);

/* -- Rescue ---------------------------------------------------------------- */

/* What may be done with a jar that went wrong. */
typedef enum pottle_rescue_action {
    POTTLE_RESCUE_DISCARD = 0,
    POTTLE_RESCUE_KEEP = 1, /* closed, and used first */
    POTTLE_RESCUE_WAIT = 2,
    POTTLE_RESCUE_REMAKE = 3,    /* cook a soft spread again */
    POTTLE_RESCUE_REPROCESS = 4, /* in full, as from fresh food */
    POTTLE_RESCUE_REFRIGERATE = 5,
    POTTLE_RESCUE_FREEZE = 6
} pottle_rescue_action;

/* "refrigerate"; total. */
POTTLE_API const char *pottle_rescue_action_name(int action);

/* How the jar was processed the first time. */
typedef enum pottle_followed {
    POTTLE_FOLLOWED_UNKNOWN =
        0,               /* nobody knows: no answer that asks for it holds */
    POTTLE_FOLLOWED = 1, /* a tested recipe, to the end */
    POTTLE_FOLLOWED_WRONG =
        2, /* a tested recipe, but a wrong time, pressure, canner or jar */
    POTTLE_FOLLOWED_UNTESTED = 3 /* no tested recipe */
} pottle_followed;

/* One thing that a publication allows. */
typedef struct pottle_rescue_option {
    pottle_rescue_action action;
    double days, days_to;    /* to be eaten within; 0: none said */
    pottle_length headspace; /* to freeze with; 0: none said */
    const char *text;
    pottle_cite cite;
} pottle_rescue_option;

/* What another publication says. */
typedef struct pottle_rescue_other {
    const char *text;
    pottle_cite cite;
} pottle_rescue_other;

/* The answer up to an hour and under conditions. */
typedef struct pottle_rescue_case {
    bool has_hours, under; /* under: that hour itself does not count */
    double hours;
    pottle_followed followed; /* POTTLE_FOLLOWED_UNKNOWN: however it was */
    bool hot_pack, dense;     /* asked for */
    double lost_under;        /* 0: whatever was lost */
    bool jar_acid;            /* asked for: acid goes into each jar */
    size_t options, others;
    const pottle_rescue_option *option;
    const pottle_rescue_other *other;
    const char *chosen; /* why the others are not followed; "" for none */
} pottle_rescue_case;

typedef struct pottle_mishap {
    const char *id, *title;
    const char *clock; /* what the hours are counted from */
    pottle_followed
        supposes; /* of the first process, where nothing is said of it */
    const char *supposed; /* the same in words */
    size_t cases;
    const pottle_rescue_case *list;
} pottle_mishap;

/* Mishaps, sorted by id; none when rescue.xml was not read. */
POTTLE_API const pottle_mishap *
pottle_mishaps(const pottle_catalogue *catalogue, size_t *count);
/* Status:    POTTLE_OK; POTTLE_ENOENT, the error lists near names;
 *            POTTLE_EMISUSE */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_mishap_find(const pottle_catalogue *catalogue, const char *name,
                   const pottle_mishap **out, pottle_error *error);

/* What is known of a jar. All of it 0 or false: nothing. */
typedef struct pottle_jar_facts {
    int version; /* 1 */
    bool has_hours;
    double hours; /* since the mishap's clock, 0 and more */
    pottle_followed followed;
    bool hot_pack; /* a tested hot pack is published for the food */
    bool dense;
    bool has_lost;
    double lost;   /* share of the liquid, 0 to 1 */
    bool jar_acid; /* the recipe puts acid into each jar */
} pottle_jar_facts;
#define POTTLE_JAR_FACTS_VERSION 1

/* Adds what a recipe says: whether it has a tested hot pack for the jar (NULL:
 * for any), is dense, and puts acid into each jar. A recipe that is not a
 * tested one or has no process, and a jar larger than tested, set followed to
 * POTTLE_FOLLOWED_UNTESTED; where it was POTTLE_FOLLOWED_WRONG, the jar may be
 * what was wrong and does not. */
POTTLE_API void pottle_jar_facts_add(const pottle_catalogue *catalogue,
                                     const pottle_recipe *recipe,
                                     const pottle_jar *jar,
                                     pottle_jar_facts *facts);

/* Whether a mishap can have happened to a recipe: vinegar is weak where there
 * is some, acid is forgotten likewise, and what does not set is a cooked jam,
 * jelly, marmalade, preserves or conserve.
 *
 * Status:    POTTLE_OK; POTTLE_EDOMAIN when it cannot; POTTLE_EMISUSE; else as
 *            pottle_food_read of a food of the recipe
 * Checked:   tests/rescue_recipe.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_mishap_suits(
    const pottle_catalogue *catalogue, const pottle_mishap *mishap,
    const pottle_recipe *recipe, pottle_error *error);

/* The answer for a jar: the first case that holds. What is not known never
 * makes one hold, so that a jar of unknown age or history gets the last, which
 * is to discard it.
 *
 * Returned:  out        borrowed from the mishap
 * Status:    POTTLE_OK; POTTLE_EDOMAIN when the hours are negative or not
 *            finite, or the share lost is none of 0 to 1;
 *            POTTLE_EMISUSE
 * Notes:     1) It tells what the sources allow, not that a jar is fit to be
 *            eaten.
 * Checked:   tests/test_rescue.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_rescue_find(const pottle_mishap *mishap, const pottle_jar_facts *facts,
                   const pottle_rescue_case **out, pottle_error *error);

/* What goes to each measure of a soft jam or jelly that is cooked again. */
typedef struct pottle_remake_add {
    const char *food, *form, *printed;
    double amount;
    const pottle_unit *unit;
    pottle_keep keep;
} pottle_remake_add;
typedef struct pottle_remake_way {
    const char *pectin; /* "powdered", "liquid", "none" */
    double per_ml;
    double boil_min, boil_to_min;
    size_t adds;
    const pottle_remake_add *add;
    const char *text;
    pottle_cite cite;
} pottle_remake_way;
typedef struct pottle_remaking {
    double usual_ml, most_ml; /* a lot */
    const char *rule;
    size_t ways, others;
    const pottle_remake_way *way;
    pottle_process_table process;
    const pottle_rescue_other *other;
    const char *chosen;
    pottle_cite cite;
} pottle_remaking;

/* NULL when rescue.xml was not read. */
POTTLE_API const pottle_remaking *
pottle_remaking_of(const pottle_catalogue *catalogue);

/* The process of a remade jam or jelly, looked up as by pottle_process_find.
 * Status:    as pottle_process_find; POTTLE_ENOENT when rescue.xml was not
 *            read */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_remaking_process(
    const pottle_catalogue *catalogue, const pottle_jar *jar, double altitude_m,
    pottle_process *out, pottle_error *error);

/* -- The kitchen file ------------------------------------------------------ */

/* What a person's own kitchen has, kept in a file of the person's
 * (recipes/schema/kitchen.rng). It is a plain value: read it, change it, write
 * it. Amounts stand as they were given, low and high alike; unit NULL means
 * that nothing was said. */
enum {
    POTTLE_KITCHEN_CANNERS = 8,
    POTTLE_KITCHEN_HOLDS = 12,
    POTTLE_KITCHEN_POTS = 16,
    POTTLE_KITCHEN_SHELF = 16,
    POTTLE_KITCHEN_OWN = 32,
    POTTLE_KITCHEN_COUNT_MAX = 1000 /* of jars of one size */
};

/* Which cup the person measures with. */
typedef enum pottle_cup {
    POTTLE_CUP_UNSAID = 0,
    POTTLE_CUP_US = 1,
    POTTLE_CUP_IMPERIAL = 2,
    POTTLE_CUP_METRIC = 3
} pottle_cup;
POTTLE_API const char *pottle_cup_name(int cup);
/* Status:    POTTLE_OK; POTTLE_ENOENT, the error lists the three */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_cup_find(const char *name,
                                                        pottle_cup *out,
                                                        pottle_error *error);

/* How far an instrument reads too high or too low; by 0 when it was tested and
 * found right. A temperature is a difference. */
typedef struct pottle_misreading {
    bool high;
    pottle_quantity by;
} pottle_misreading;

/* How many jars of a size a canner takes at once. */
typedef struct pottle_kitchen_hold {
    char jar[64];
    unsigned long count;
} pottle_kitchen_hold;
typedef struct pottle_kitchen_canner {
    char id[64], title[80]; /* title "" for none, here and below */
    pottle_method method;
    pottle_misreading gauge; /* of a dial gauge, as tested */
    size_t holds;
    pottle_kitchen_hold hold[POTTLE_KITCHEN_HOLDS];
} pottle_kitchen_canner;

typedef struct pottle_kitchen_pot {
    char id[64], title[80];
    pottle_quantity tare, width;
} pottle_kitchen_pot;

/* Jars of a listed size that stand on the shelf. */
typedef struct pottle_kitchen_jars {
    char jar[64];
    unsigned long count;
} pottle_kitchen_jars;

/* A jar that its owner has weighed with water. */
typedef struct pottle_own_jar {
    char id[64], title[80];
    char near[64];               /* listed size it passes for, or "" */
    unsigned long count;         /* on the shelf; 0: not said */
    pottle_quantity empty, full; /* masses, full to the brim */
    pottle_quantity to_mark;     /* mass when it is filled to a mark */
    pottle_quantity
        mark; /* depth of the mark below the brim; with to_mark or not at all */
    pottle_quantity mouth; /* inside width */
    pottle_quantity water; /* temperature of the water */
    pottle_quantity scale; /* error of the scale on that day */
} pottle_own_jar;

typedef struct pottle_kitchen {
    pottle_quantity altitude;
    pottle_cup cup;
    pottle_quantity scale; /* its error, a mass or a percentage; taken as a
                              standard deviation */
    pottle_misreading thermometer;
    size_t canners, pots, shelves, own_jars;
    pottle_kitchen_canner canner[POTTLE_KITCHEN_CANNERS];
    pottle_kitchen_pot pot[POTTLE_KITCHEN_POTS];
    pottle_kitchen_jars shelf[POTTLE_KITCHEN_SHELF];
    pottle_own_jar own[POTTLE_KITCHEN_OWN];
} pottle_kitchen;

/* Reads a kitchen file.
 *
 * Given:     catalogue  with jars: sizes it does not list are an error; or NULL
 * Returned:  out        what the file says
 * Status:    POTTLE_OK; POTTLE_ENOENT when there is no such file; POTTLE_EDATA;
 *            POTTLE_EIO; POTTLE_ENOMEM
 * Checked:   tests/test_kitchen_file.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_kitchen_read(const pottle_catalogue *catalogue, const char *path,
                    pottle_kitchen *out, pottle_error *error);

/* Writes a kitchen file, whole or not at all: beside it first, then in its
 * place. The file that was there is kept under its name with a ~ behind it,
 * written in the same way before.
 *
 * Given:     path    a plain file or none yet, in a folder that is there; a
 *                    symbolic link is refused and what it points to
 *                    left alone, and so is a write-protected file
 * Status:    POTTLE_OK; POTTLE_EDOMAIN for what no kitchen file may say (a
 *            count, an amount, two of one name); POTTLE_EUNIT for
 *            a unit that may not stand there; POTTLE_EIO; POTTLE_ENOMEM; after
 *            any of them the old file is as it was
 * Notes:     1) Comments written into the file by hand are not kept; they are
 *            still in the old version.
 * Checked:   tests/test_kitchen_file.c, killed at every byte of a write */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_kitchen_write(
    const pottle_kitchen *kitchen, const char *path, pottle_error *error);

/* The id that goes with a name, "Tall honey jar" to "tall-honey-jar".
 * Status:    POTTLE_OK; POTTLE_ESYNTAX when it has other than letters A to Z,
 *            digits, blanks and hyphens, or is too long */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_kitchen_id(const char *name,
                                                          char id[64],
                                                          pottle_error *error);

/* Reads one amount for a kitchen file; a unit that may not stand there becomes
 * one that may.
 *
 * Given:     dimension   POTTLE_MASS, POTTLE_TEMPERATURE, POTTLE_PRESSURE,
 *                        POTTLE_LENGTH (in m, ft or km a height);
 *                        POTTLE_NUMBER:
 *                        the error of a scale, '1 g' or '0.5 %'
 * Status:    as pottle_quantity_read; POTTLE_ESYNTAX for a range */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_kitchen_amount(
    const char *text, int dimension, pottle_quantity *out, pottle_error *error);

/* Reads "1 psi high", "0.5 degC low", "0 psi".
 *
 * Given:     dimension   POTTLE_PRESSURE or POTTLE_TEMPERATURE
 * Status:    as pottle_quantity_read; POTTLE_ESYNTAX when it does not say high
 *            or low */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_misreading_read(const char *text, int dimension, pottle_misreading *out,
                       pottle_error *error);

/* By how much it reads high, in Pa or K; below 0 when it reads low; 0 when
 * nothing is known. */
POTTLE_API double pottle_misreading_base(pottle_misreading misreading);

/* Entries by id or by the name that gave it; NULL when there is none. */
POTTLE_API const pottle_kitchen_canner *
pottle_kitchen_canner_find(const pottle_kitchen *kitchen, const char *name);
POTTLE_API const pottle_kitchen_pot *
pottle_kitchen_pot_find(const pottle_kitchen *kitchen, const char *name);
POTTLE_API const pottle_own_jar *
pottle_own_jar_find(const pottle_kitchen *kitchen, const char *name);

/* Puts an entry in, in the place of one of the same id (of the same size on the
 * shelf, where count 0 takes it out), and takes one out. The kitchen is changed
 * only when all is well.
 *
 * Status:    POTTLE_OK; POTTLE_EDOMAIN as pottle_kitchen_write, or when there
 *            is no room for another; POTTLE_EUNIT; POTTLE_ENOENT
 *            when there is nothing of that name to take out; POTTLE_EMISUSE */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_kitchen_put_canner(
    pottle_kitchen *kitchen, const pottle_kitchen_canner *canner,
    pottle_error *error);
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_kitchen_put_pot(pottle_kitchen *kitchen, const pottle_kitchen_pot *pot,
                       pottle_error *error);
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_kitchen_put_own(
    pottle_kitchen *kitchen, const pottle_own_jar *jar, pottle_error *error);
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_kitchen_put_jars(pottle_kitchen *kitchen, const char *jar,
                        unsigned long count, pottle_error *error);
typedef enum pottle_kitchen_part {
    POTTLE_KITCHEN_A_CANNER = 1,
    POTTLE_KITCHEN_A_POT = 2,
    POTTLE_KITCHEN_AN_OWN_JAR = 3
} pottle_kitchen_part;
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_kitchen_remove(pottle_kitchen *kitchen, pottle_kitchen_part part,
                      const char *name, pottle_error *error);
