/* kitchen.h part of pottle.h: what is computed from the catalogue. */
#ifndef POTTLE_H_INTERNAL
#error "include <pottle.h>, not its parts"
#endif

/* -- Phrases --------------------------------------------------------------- */

/* What a person says of an amount of food: "4.2 kg rhubarb as picked". */
typedef struct pottle_phrase {
    double low, high;        /* equal when no range was said */
    const pottle_unit *unit; /* pieces when none was said */
    char food[64];           /* id */
    char form[32]; /* it had this when it was measured; "" when not said */
    char then[32]; /* it gets this after measuring: "5 cups strawberries,
                      crushed" */
    char size[16]; /* of a piece: medium, clove; "" when not said */
    bool state_said;
    pottle_state
        state;      /* as said, else what is taken: see pottle_phrase_read */
    double percent; /* "4 % vinegar": 4; 0 when not said */
} pottle_phrase;

/* Longest phrase that is read, in bytes. */
enum { POTTLE_PHRASE_MAX = 200 };

/* Reads an amount of a food: "8 cups chopped rhubarb", "rhubarb, diced, 8
 * cups", "12 medium tomatoes", "2 bushels apples", "3 pints strawberries as
 * purchased". A form before the food or in front of the amount is how it was
 * measured; after a comma behind the amount it is what is done to it later.
 *
 * Given:     catalogue  with POTTLE_WITH_NAMES
 *            text       UTF-8, at most POTTLE_PHRASE_MAX bytes
 *            preferred  ids that decide when a name fits several foods; may be
 *                       NULL
 * Returned:  out        where no state was said: prepared, when a form other
 *                       than whole was said or the amount is a volume;
 *                       else as purchased
 * Status:    POTTLE_OK; POTTLE_ESYNTAX; POTTLE_EDOMAIN when the amount is 0 or
 *            out of range; POTTLE_EUNIT when the unit is
 *            no unit of an amount; POTTLE_ENOENT with near names;
 *            POTTLE_EAMBIGUOUS with the names that fit
 * Checked:   tests/test_phrase.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_phrase_read(const pottle_catalogue *catalogue, const char *text,
                   const char *const *preferred, size_t preferred_count,
                   pottle_phrase *out, pottle_error *error);

/* -- Conversion ------------------------------------------------------------ */

/* What a result rests on. Cites are borrowed from the food or the catalogue. */
enum { POTTLE_BASIS_CITES = 8, POTTLE_BASIS_NOTES = 6 };
typedef struct pottle_basis {
    size_t cites, notes;
    pottle_cite cite[POTTLE_BASIS_CITES];
    char note[POTTLE_BASIS_NOTES][160];
} pottle_basis;

/* Mass of an amount of food in a wanted state.
 *
 * Given:     catalogue  with POTTLE_WITH_FIGURES
 *            food       the phrase's food
 *            phrase     the amount
 *            state      the state the mass is wanted in
 *            trim       id of the trim to or from it, or "" for the food's
 *                       first
 *            form       form to take for a volume of which none was said, or ""
 * Returned:  out        mass (g)
 *            basis      added to; may be NULL
 * Status:    POTTLE_OK; POTTLE_ENOENT when the food has no such form, piece,
 *            container or trim (the error
 *            lists what it has); POTTLE_EAMBIGUOUS when a volume needs a form
 *            and none was said; POTTLE_EUNIT for a
 *            unit that is no amount
 * Checked:   tests/test_convert.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_phrase_mass(const pottle_catalogue *catalogue, const pottle_food *food,
                   const pottle_phrase *phrase, pottle_state state,
                   const char *trim, const char *form, pottle_estimate *out,
                   pottle_basis *basis, pottle_error *error);

/* Density of a form of a food, with its spread: the first weight's, widened to
 * cover the others.
 * Status:    POTTLE_OK; POTTLE_ENOENT, the error lists the forms it has;
 *            POTTLE_EAMBIGUOUS when form is "" */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_form_density(const pottle_catalogue *catalogue, const pottle_food *food,
                    const char *form, pottle_estimate *out, pottle_basis *basis,
                    pottle_error *error);

/* An amount in another measure. */
typedef struct pottle_conversion {
    pottle_estimate value; /* in `unit` */
    const pottle_unit *unit;
    char form[32]; /* of the result when it is a volume, else of the phrase */
    pottle_state state; /* of the result */
    pottle_basis basis;
} pottle_conversion;

/* Converts an amount of a food to another unit, through density and trim loss
 * where they lie between. Mass to mass keeps its state unless a form is named;
 * a volume is of food ready to use.
 *
 * Given:     as         form the result is wanted in, or NULL
 * Status:    as pottle_phrase_mass
 * Checked:   tests/test_convert.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_convert(const pottle_catalogue *catalogue, const pottle_food *food,
               const pottle_phrase *phrase, const pottle_unit *to,
               const char *as, pottle_conversion *out, pottle_error *error);

/* -- Kitchen measures ------------------------------------------------------ */

/* Largest error of a rounded measure of what must be kept exact. */
#define POTTLE_EXACT_TOLERANCE 0.01

/* A measure that can be filled with cups and spoons, or read on a scale: at
 * most three parts. */
typedef struct pottle_measure {
    size_t parts;
    struct {
        double count;
        const pottle_unit *unit;
        char size[16];
    } part[3];
    double base; /* what the parts add up to, in the base unit of their
                    dimension */
} pottle_measure;

/* Rounds an amount to kitchen measures in the direction that its keep rule
 * allows: at least up, at most down, exact within POTTLE_EXACT_TOLERANCE or not
 * at all, free to the nearest. The coarsest measure that is near enough is
 * taken.
 *
 * Given:     amount     above 0, in the base unit of the dimension (g, mL,
 *                       pieces)
 *            dimension  POTTLE_MASS, POTTLE_VOLUME or POTTLE_COUNT
 *            keep       the rule
 * Status:    POTTLE_OK; POTTLE_EDOMAIN when the amount is not positive and
 *            finite, or no measure
 *            is near enough (give it by weight then)
 * Checked:   tests/test_measure.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_measure_round(double amount, pottle_dimension dimension,
                     pottle_keep keep, pottle_measure *out);

/* "1 1/2 cups + 2 tbsp", "5 lb 8 oz", "3 cloves". Returns the length as
 * snprintf does. */
POTTLE_API size_t pottle_measure_write(const pottle_measure *measure, char *buf,
                                       size_t size);

/* What is needed for so many jars, in measures that a kitchen owns: 25 jars of
 * 2 tbsp are 3 1/8 cups.
 *
 * Given:     each  for one jar, above 0, in `unit`
 *            size  what is counted: "slice"; NULL or "" where it is measured
 * Status:    POTTLE_OK; POTTLE_EDOMAIN for no jars, or as pottle_measure_round
 * Checked:   tests/test_measure.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_measure_jars(double each, const pottle_unit *unit, const char *size,
                    unsigned long jars, pottle_keep keep, pottle_measure *out);

/* -- Canners --------------------------------------------------------------- */

/* The canner that somebody means by a name; ways of heating jars that no table
 * covers are refused by their rule.
 *
 * Given:     catalogue  with POTTLE_WITH_RULES
 * Status:    POTTLE_OK; POTTLE_EBOUNDS: steam, oven, open kettle and the like;
 *            POTTLE_ENOENT, the error lists the three; POTTLE_EMISUSE
 * Checked:   tests/test_process.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_canner_method(const pottle_catalogue *catalogue, const char *name,
                     pottle_method *out, pottle_error *error);

/* -- Jars ------------------------------------------------------------------ */

/* Volume of food in a jar filled to a headspace: the nominal volume at 1/2 in,
 * other headspaces by the area of the mouth; regular unless the jar is only
 * sold with a wide one.
 *
 * Given:     catalogue  with POTTLE_WITH_JARS and POTTLE_WITH_FIGURES
 *            headspace  2 to 60 mm
 * Returned:  out        volume (mL)
 * Status:    POTTLE_OK; POTTLE_EDOMAIN for a headspace outside the range or one
 *            that leaves no room
 * Source:    practice; its standing is that of the figures jar-fill-reference
 *            and spread-jar-fill
 * Checked:   tests/test_fill.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_jar_fill(
    const pottle_catalogue *catalogue, const pottle_jar *jar,
    pottle_length headspace, pottle_estimate *out, pottle_error *error);

/* How many jars a volume fills. */
typedef struct pottle_jar_count {
    const pottle_jar *jar; /* of a jar of one's own the listed size it takes */
    const pottle_own_jar *own; /* borrowed; NULL for a listed size */
    pottle_length headspace;
    pottle_estimate fill_ml, volume_ml;
    pottle_estimate count; /* of full jars and a fraction */
    unsigned long promise; /* filled with nine chances in ten */
    unsigned long prepare; /* suffices with nine chances in ten */
    unsigned long full;    /* of the expected volume */
    double remainder_ml;   /* what is then left */
} pottle_jar_count;

/* Status:    POTTLE_OK; POTTLE_EDOMAIN when volume or fill is not positive and
 *            finite, or the jars
 *            are more than POTTLE_NUMBER_MAX */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_jars_count(
    pottle_estimate volume_ml, pottle_estimate fill_ml, pottle_jar_count *out);

/* -- Scaling --------------------------------------------------------------- */

/* What is asked of a recipe. Exactly one of haves, batches and fill decides how
 * much. */
typedef struct pottle_request {
    int version;               /* 1 */
    const pottle_phrase *have; /* on hand: the scarcest decides */
    size_t haves;
    double batches; /* of the published batch; 0: not given */
    double fill;    /* so many jars of the size `jar` or `own`; 0: not given */
    const pottle_jar *jar; /* NULL: the one of the published yield */
    const pottle_phrase
        *set; /* totals of single ingredients over all that is made */
    size_t sets;
    bool has_altitude;
    double altitude_m;
    const pottle_method *method; /* NULL: any */
    pottle_pack_style pack;
    const pottle_own_jar *own; /* a jar of one's own in the place of `jar`: it
                                  takes the process and the additions of its
                                  listed size (pottle_own_jar_size); NULL for
                                  none; outlives the plan */
} pottle_request;
#define POTTLE_REQUEST_VERSION 1

typedef struct pottle_plan pottle_plan;

/* One ingredient of a plan. */
typedef struct pottle_line {
    const pottle_ingredient *ingredient;
    const char *food; /* id of what is used: the ingredient's food or what
                         stands in its place */
    const char *title;
    const char *form; /* when it is measured */
    const char *said; /* of it, behind the title: pottle_form_said */
    double
        mass_g; /* total, in the state the recipe measures; 0 when not known */
    double volume_ml; /* total; 0 when not known */
    double count;     /* total of pieces; 0 when it is not counted */
    double raw_g;     /* of what is cooked before it is measured: about how much
                         is bought for it, as the source has it; else 0 */
    bool has_measure; /* else it is weighed */
    pottle_measure measure;
} pottle_line;

/* Something that goes into each jar. */
typedef struct pottle_dose {
    const pottle_per_jar *per_jar;
    const char *food, *title;
    size_t choice; /* place among the alternatives of per_jar, from 0: one of
                      them goes in, not all */
    double count;  /* in `unit`, for one jar */
    const pottle_unit *unit;
    const char *size, *printed;
    double total;                 /* for the expected jars, in `unit` */
    const pottle_jar *taken_from; /* size whose dose it is */
} pottle_dose;

/* What stays in the basket. */
typedef struct pottle_rest {
    const char *food, *title;
    double mass_g;
    double volume_ml;
    pottle_state state;
} pottle_rest;

/* A warning for the person. */
typedef struct pottle_warning {
    char code[40];
    char text[320];
    const char *source, *at;
} pottle_warning;

/* Scales a recipe and says what it takes: ingredients, pots, jars, process.
 *
 * Given:     catalogue  with names, figures, jars and rules
 * Returned:  out        the plan
 * Status:    POTTLE_OK; POTTLE_EBOUNDS: refused, the error names rule, source
 *            and way out; POTTLE_ENOENT when a
 *            food is not part of the recipe or a form is not known;
 *            POTTLE_EDOMAIN; POTTLE_EMISUSE when none or
 *            several of have, batches and fill are given; POTTLE_EDATA,
 *            POTTLE_EIO, POTTLE_ENOMEM from reading its foods
 * Owns:      the caller, by pottle_plan_free, before the recipe and the
 *            catalogue
 * Checked:   tests/test_scale.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_scale(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    const pottle_request *request, pottle_plan **out, pottle_error *error);
POTTLE_API void pottle_plan_free(pottle_plan *plan);

/* Times the published batch, over all pots. */
POTTLE_API double pottle_plan_factor(const pottle_plan *plan);
/* "have rhubarb", "batches" or "fill". */
POTTLE_API const char *pottle_plan_limit(const pottle_plan *plan);
/* Factor of each pot; they add up to the factor. */
POTTLE_API const double *pottle_plan_pots(const pottle_plan *plan,
                                          size_t *count);
/* Lines in the order of the recipe; pot past the end, or POTTLE_ALL_POTS, gives
 * the totals. */
#define POTTLE_ALL_POTS ((size_t)-1)
POTTLE_API const pottle_line *pottle_plan_lines(const pottle_plan *plan,
                                                size_t pot, size_t *count);
POTTLE_API const pottle_dose *pottle_plan_doses(const pottle_plan *plan,
                                                size_t *count);
POTTLE_API const pottle_rest *pottle_plan_rests(const pottle_plan *plan,
                                                size_t *count);
POTTLE_API const pottle_warning *pottle_plan_warnings(const pottle_plan *plan,
                                                      size_t *count);
/* NULL when the recipe's volume cannot be told. */
POTTLE_API const pottle_jar_count *pottle_plan_jars(const pottle_plan *plan);
/* Next smaller size tested for the recipe that takes the remainder, or NULL. */
POTTLE_API const pottle_jar *pottle_plan_smaller(const pottle_plan *plan);
/* Processes at the altitude; none when no altitude was given or it is not
 * canned. */
POTTLE_API const pottle_process *pottle_plan_processes(const pottle_plan *plan,
                                                       size_t *count);
/* All tables that apply to the jar, with all bands, whatever the altitude. */
POTTLE_API const pottle_process *pottle_plan_tables(const pottle_plan *plan,
                                                    size_t *count);
/* Canner loads for the expected jars; 0 when it is not canned. */
POTTLE_API unsigned long pottle_plan_loads(const pottle_plan *plan,
                                           unsigned long *per_load);

/* -- Finding --------------------------------------------------------------- */

/* What is wanted of a recipe. */
typedef struct pottle_search {
    int version;               /* 1 */
    const pottle_phrase *have; /* on hand; decides the order */
    size_t haves;
    const char *const *without; /* ids of foods that are not there */
    size_t withouts;
    const char *kind;            /* NULL: any; see pottle_recipe_is_kind */
    const pottle_jar *jar;       /* NULL: the one of the published yield */
    const pottle_method *method; /* NULL: any */
} pottle_search;
#define POTTLE_SEARCH_VERSION 1

/* A recipe that what is on hand makes something of. Borrowed from the matches.
 */
typedef struct pottle_match {
    const pottle_recipe *recipe;
    const pottle_plan *plan; /* scaled to what is on hand; NULL when the amount
                                is under the smallest tested batch */
    double used;             /* share of all that is on hand, by mass, 0 to 1 */
    size_t uses;             /* how many of the foods on hand it uses */
    double besides_g; /* mass of all else that it takes, water left out (g) */
} pottle_match;

typedef struct pottle_matches pottle_matches;

/* Finds the tested recipes that use something of what is on hand and none of
 * what is not there, scaled to it: those that use up most come first, of equals
 * those that take least besides.
 *
 * Given:     catalogue  with names, figures, jars and rules
 *            tell       called for each recipe file that cannot be used; may be
 *                       NULL
 * Returned:  out        the matches
 * Status:    POTTLE_OK; POTTLE_EMISUSE without anything on hand; POTTLE_EDATA,
 *            POTTLE_EIO, POTTLE_ENOMEM
 * Owns:      the caller, by pottle_matches_free, before the catalogue
 * Checked:   tests/test_find.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_recipes_find(
    const pottle_catalogue *catalogue, const pottle_search *search,
    pottle_tell tell, void *context, pottle_matches **out, pottle_error *error);
POTTLE_API const pottle_match *
pottle_matches_list(const pottle_matches *matches, size_t *count);
POTTLE_API void pottle_matches_free(pottle_matches *matches);

/* Whether a recipe uses one of the foods; whether it cannot do without them all
 * (there is a place that is not optional and in which only they may stand). */
POTTLE_API bool pottle_recipe_uses(const pottle_recipe *recipe,
                                   const char *const *food, size_t count);
POTTLE_API bool pottle_recipe_needs(const pottle_recipe *recipe,
                                    const char *const *food, size_t count);

/* A food of a recipe that is not there, and what is done about it. Borrowed. */
typedef struct pottle_spare {
    const char *food;
    const char *instead; /* the food to take in its place; NULL: leave it out,
                            where the recipe can be made at all */
} pottle_spare;

/* What a recipe does without the foods, in its order, each case once: only of
 * what it takes unless told otherwise, not of what may stand in its place.
 *
 * Given:     food  all that is not there
 * Returned:  out   up to `room` cases
 *            the function gives how many there are in all
 * Checked:   tests/test_find.c */
POTTLE_API size_t pottle_recipe_spares(const pottle_recipe *recipe,
                                       const char *const *food, size_t count,
                                       pottle_spare *out, size_t room);

/* -- The chain from harvest to shelf --------------------------------------- */

/* The links of a harvest to its jars, in their order (docs/CHAIN.md). */
typedef enum pottle_chain_node {
    POTTLE_CHAIN_CONTAINER = 0, /* containers as sold */
    POTTLE_CHAIN_PICKED = 1,    /* mass as picked or as bought (g) */
    POTTLE_CHAIN_PREPARED = 2,  /* mass ready to use (g) */
    POTTLE_CHAIN_MEASURED =
        3, /* volume in the form it is measured in (mL), or pieces */
    POTTLE_CHAIN_BATCHES = 4,       /* times the published batch */
    POTTLE_CHAIN_COOKED_MASS = 5,   /* in the pot when it is done (g) */
    POTTLE_CHAIN_COOKED_VOLUME = 6, /* in the pot when it is done (mL) */
    POTTLE_CHAIN_JARS = 7,          /* full ones and a part */
    POTTLE_CHAIN_LOADS = 8          /* of the canner, and a part */
} pottle_chain_node;
enum { POTTLE_CHAIN_NODES = 9, POTTLE_CHAIN_OBSERVED_MAX = 16 };

/* Name of a node, "cooked-volume"; total. */
POTTLE_API const char *pottle_chain_node_name(int node);

/* Something that was measured. */
typedef struct pottle_observation {
    pottle_chain_node node;
    double low,
        high;     /* in the unit of the node; equal when no range was read */
    bool about;   /* judged by eye */
    double error; /* log standard deviation; 0: the usual one of such a
                     measurement */
} pottle_observation;

/* What a chain is made for. */
typedef struct pottle_chain_request {
    int version;      /* 1 */
    const char *food; /* id of the food that decides how much is made; NULL: the
                         produce of greatest mass */
    const pottle_jar *jar; /* NULL: the one of the published yield */
    bool has_altitude;
    double altitude_m; /* decides the headspace where the published tables
                          differ */
    const pottle_unit
        *container; /* NULL: the first whose weight is published for the food */
    bool picked_said;
    pottle_state picked; /* how it was weighed, when it was said; else as the
                            recipe weighs it */
    const pottle_unit *measured; /* a unit of volume or pieces; NULL: as the
                                    recipe measures it */
    const char *form, *size; /* of what is measured; NULL: as in the recipe */
    bool without_yield; /* leave the published yield out: mass balance alone */
    /* measuring errors, log standard deviations; 0: the figures error-scale,
     * error-cup, error-level, error-about */
    double error_scale, error_cup, error_level, error_about;
    double error_scale_g;      /* of a scale that is out by a mass whatever it
                                  weighs; 0: error_scale */
    const pottle_own_jar *own; /* as in pottle_request */
} pottle_chain_request;
#define POTTLE_CHAIN_REQUEST_VERSION 1

/* What is measured with. */
typedef enum pottle_chain_instrument {
    POTTLE_CHAIN_SCALE = 0,
    POTTLE_CHAIN_CUP = 1,   /* and spoons */
    POTTLE_CHAIN_LEVEL = 2, /* of the pot, by a stick or marks */
    POTTLE_CHAIN_BY_EYE = 3
} pottle_chain_instrument;

/* Puts a measuring error, as a standard deviation, into a request.
 *
 * Given:     which     the instrument
 *            amount    a percentage of 0 to 100; of a scale also a mass
 * Status:    POTTLE_OK; POTTLE_EUNIT; POTTLE_EDOMAIN; POTTLE_EMISUSE
 * Checked:   tests/test_chain.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_chain_error_set(
    pottle_chain_request *request, pottle_chain_instrument which,
    pottle_quantity amount, pottle_error *error);

typedef struct pottle_chain pottle_chain;

/* What a chain is of. */
typedef struct pottle_chain_facts {
    const char *food, *title; /* the limiting food */
    bool has[POTTLE_CHAIN_NODES];
    const pottle_unit *container; /* NULL for none */
    pottle_state picked;
    const pottle_unit *measured; /* "ml" or "count"; NULL for none */
    char form[32], size[16];     /* of what is measured */
    pottle_chain_node base;      /* where the recipe counts its batches */
    double base_amount;          /* of one batch there */
    const pottle_jar *jar;
    const pottle_own_jar *own; /* NULL for a listed size */
    pottle_length headspace;
    pottle_estimate fill_ml;
    unsigned long per_load; /* jars; 0 when it is not known */
    double smallest;        /* batch that may be made; 0: any */
    double produce_share; /* by how many percent the jars rise when the produce
                             measured out for a batch weighs 1 % more */
} pottle_chain_facts;

/* One link: `to` is `from` times the factor. */
typedef struct pottle_chain_link {
    pottle_chain_node from, to;
    pottle_estimate
        factor; /* before anything is measured, in the units of the nodes */
    pottle_basis basis;
} pottle_chain_link;

/* Makes the chain of a recipe for one of its ingredients.
 *
 * Given:     catalogue  with names, figures, jars and rules
 * Returned:  out        the chain
 * Status:    POTTLE_OK; POTTLE_ENOENT when the food is not part of the recipe,
 *            or a form or container is not known;
 *            POTTLE_EUNIT for a unit that is no measure of a food;
 *            POTTLE_EDOMAIN for an error that is no number of
 *            0.00001 to 3 or 0; else as pottle_scale for one batch
 * Owns:      the caller, by pottle_chain_free, before the recipe and the
 *            catalogue
 * Checked:   tests/test_chain.c, tests/test_narrowing.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_chain_new(const pottle_catalogue *catalogue, const pottle_recipe *recipe,
                 const pottle_chain_request *request, pottle_chain **out,
                 pottle_error *error);
POTTLE_API void pottle_chain_free(pottle_chain *chain);
POTTLE_API const pottle_chain_facts *
pottle_chain_facts_of(const pottle_chain *chain);
POTTLE_API const pottle_chain_link *
pottle_chain_links(const pottle_chain *chain, size_t *count);
/* The published batch that the chain multiplies, with its warnings. */
POTTLE_API const pottle_plan *pottle_chain_plan(const pottle_chain *chain);

/* What is known of every node. */
typedef struct pottle_chain_state {
    bool told[POTTLE_CHAIN_NODES]; /* the recipe has the node, and something was
                                      measured */
    pottle_estimate node[POTTLE_CHAIN_NODES];
    double factor[POTTLE_CHAIN_NODES]; /* nine chances in ten: between the
                                          median / this and times this */
    bool has_jars;
    pottle_jar_count jars; /* to promise and to prepare */
    /* A recipe that is only made in whole pots, as long as no pot was counted:
     * what is made of the expected batches, and its jars; 0 when that is less
     * than the smallest pot. */
    bool has_made;
    double made;
    pottle_jar_count made_jars;
} pottle_chain_state;

/* What all measurements together tell. Their order does not matter, and a
 * further one never makes a node less certain.
 *
 * Given:     observed   up to POTTLE_CHAIN_OBSERVED_MAX; none: nothing is told
 * Returned:  out        the state
 * Status:    POTTLE_OK; POTTLE_EDOMAIN when an amount is not positive and
 *            finite, an error is out of range, or two
 *            measurements contradict each other: the error (code
 *            "contradiction" or "more-than-went-in") names both numbers
 *            and by how many standard deviations; POTTLE_ENOENT for a node the
 *            recipe does not have
 * Checked:   tests/test_chain.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_chain_update(
    const pottle_chain *chain, const pottle_observation *observed, size_t count,
    pottle_chain_state *out, pottle_error *error);

/* What one more measurement would do. */
typedef struct pottle_chain_gain {
    pottle_chain_node node;
    double factor; /* of the jars, when it is known too */
} pottle_chain_gain;

/* The measurements that can still be taken, the one that narrows the jars most
 * first. Those before the last one taken are left out: that produce is cut up
 * already.
 *
 * Returned:  out        up to POTTLE_CHAIN_NODES
 *            count      how many; 0 when the jars were counted or cannot be
 *                       told
 * Status:    as pottle_chain_update, less contradictions */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_chain_next(const pottle_chain *chain, const pottle_observation *observed,
                  size_t count, pottle_chain_gain out[POTTLE_CHAIN_NODES],
                  size_t *gains, pottle_error *error);

/* What it takes to fill a number of jars. */
typedef struct pottle_chain_wanted {
    double jars;
    bool told[POTTLE_CHAIN_NODES];
    double needed[POTTLE_CHAIN_NODES];   /* so much there fills them with nine
                                            chances in ten; whole containers,
                                            a bushel in pecks */
    double expected[POTTLE_CHAIN_NODES]; /* jars that it makes */
    double surplus[POTTLE_CHAIN_NODES];  /* of those, beyond what is wanted */
    bool has_chance;
    double chance; /* that what was measured fills them, 0 to 1 */
} pottle_chain_wanted;

/* How much to pick, prepare or measure out so that the wanted jars are filled
 * with nine chances in ten. What was measured tells the ratios (what was lost
 * in trimming); without it they are the published ones.
 *
 * Given:     jars       of the chain's size, above 0
 * Status:    as pottle_chain_update; POTTLE_EDOMAIN for a number that is out of
 *            range; POTTLE_ENOENT when the jars of the
 *            recipe cannot be told
 * Notes:     1) A recipe that is made in whole batches gets as many as it
 *            takes. */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_chain_want(
    const pottle_chain *chain, const pottle_observation *observed, size_t count,
    double jars, pottle_chain_wanted *out, pottle_error *error);

/* -- Cooking down ---------------------------------------------------------- */

/* Where the water and the solids of a batch go (g). It closes, whatever the
 * recipe:
 *
 *   solids_in = solids_jars + solids_lost
 *   water_in  = water_jars + evaporated + drained + water_lost
 *
 * and no member is negative. */
typedef struct pottle_balance {
    size_t pots;
    pottle_end end;
    double mass_in_g, water_in_g, solids_in_g;
    double
        drained_g; /* water that salted or cooked vegetables gave off before */
    double evaporated_g;
    double water_lost_g, solids_lost_g; /* in foam, pot and spoon, and covering
                                           liquid that is left over */
    double left_over_g;                 /* of that, the covering liquid */
    double water_jars_g, solids_jars_g;
    pottle_estimate finished_g;  /* in the pot when it is done */
    pottle_estimate finished_ml; /* the same at 20 deg C; both by the spreads of
                                    amounts and end point alone */
    pottle_estimate volume_ml; /* what goes into the jars; never surer than its
                                  kind was found to be */
    pottle_density density;    /* of that */
} pottle_balance;

/* The balance of a plan's pot, or of all its pots, by the recipe's kind of end
 * point (docs/YIELDS.md); what is printed as yield has no part in it.
 *
 * Given:     catalogue  with figures
 *            pot        from 0, or POTTLE_ALL_POTS
 * Status:    POTTLE_OK; POTTLE_ENOENT when there is no such pot, a composition
 *            is not known or nothing is weighed; POTTLE_EMISUSE
 * Checked:   tests/test_balance.c, over the whole catalogue;
 *            tests/test_yields.c, against published yields */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_cook_balance(const pottle_catalogue *catalogue, const pottle_plan *plan,
                    size_t pot, pottle_balance *out, pottle_error *error);

/* The figure that decides where a recipe's cooking ends, borrowed; NULL where
 * nothing is boiled away or no figures were read. */
POTTLE_API const pottle_figure *
pottle_cook_end_figure(const pottle_catalogue *catalogue,
                       const pottle_recipe *recipe);

/* Mass balance of a boil from one share of solids to another, with nothing
 * lost: the sum behind every jam.
 *
 * Given:     solids_in_g   solids of all that goes in, at least 0 (g)
 *            mass_in_g     all that goes in, more than its solids (g)
 *            end_share     share of solids when it is done, above 0, up to 1
 * Returned:  mass_g        what is made
 *            evaporated_g  water boiled off
 * Status:    POTTLE_OK; POTTLE_EDOMAIN when a number is out of range or water
 *            would have to be added
 * Checked:   tests/test_balance.c, published worked examples */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_boil_down(double mass_in_g,
                                                         double solids_in_g,
                                                         double end_share,
                                                         double *mass_g,
                                                         double *evaporated_g);

typedef enum pottle_yield_verdict {
    POTTLE_YIELD_AGREES = 0,   /* within nine chances in ten of both */
    POTTLE_YIELD_APART = 1,    /* possible, but the two disagree */
    POTTLE_YIELD_TOO_MANY = 2, /* more than went in: the print cannot be */
    POTTLE_YIELD_TOO_FEW =
        3 /* fewer than the pieces alone fill: the print cannot be */
} pottle_yield_verdict;
POTTLE_API const char *pottle_yield_verdict_name(int verdict);

/* The published yield beside the balance. Jars are counted as prints count
 * them: at what they are filled with, but at most at their nominal size. */
typedef struct pottle_yield_comparison {
    const pottle_yield *printed; /* the first one, borrowed */
    const pottle_jar *jar;
    pottle_estimate balance_jars; /* by the balance alone */
    pottle_estimate printed_jars; /* the middle of the print, with the spread
                                     that printed yields have */
    pottle_estimate both_jars;    /* joined by precision; the balance alone when
                                     the print cannot be */
    double least_jars, most_jars; /* what mass balance allows at all */
    double sigma; /* ln(balance / print) over their joint spread */
    pottle_yield_verdict verdict;
    double factor; /* balance over print, by their middles */
    bool outside;  /* the print lies wholly outside the balance's 5 to 95 % */
} pottle_yield_comparison;

/* Compares what a publication prints as yield of its batch with the mass
 * balance of its ingredients.
 *
 * Given:     catalogue  with figures and jars
 * Status:    POTTLE_OK; POTTLE_ENOENT when no yield is printed or the balance
 *            cannot be made; POTTLE_EBOUNDS for a draft;
 *            POTTLE_EMISUSE; else as pottle_scale for one batch
 * Checked:   tests/test_yields.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_yield_compare(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    pottle_yield_comparison *out, pottle_error *error);

/* -- At the stove ---------------------------------------------------------- */

typedef enum pottle_hob {
    POTTLE_HOB_UNKNOWN = 0,
    POTTLE_HOB_INDUCTION = 1,
    POTTLE_HOB_ELECTRIC = 2,
    POTTLE_HOB_GAS = 3
} pottle_hob;
/* Status:    POTTLE_OK; POTTLE_ENOENT, the error lists the three */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_hob_find(const char *name,
                                                        pottle_hob *out,
                                                        pottle_error *error);

/* Reads a power, "2 kW", "1800 W", or a time, "20 min", "1 h", "1 h 15 min",
 * "90 s".
 *
 * Status:    POTTLE_OK; POTTLE_ESYNTAX; POTTLE_EUNIT when the unit is missing
 *            or another; POTTLE_EDOMAIN unless it is above 0
 * Checked:   tests/test_stove.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_power_read(const char *text,
                                                          double *watt,
                                                          pottle_error *error);
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_minutes_read(const char *text, double *minutes, pottle_error *error);

/* What was read at the stove; 0 where it was not. */
typedef struct pottle_stove {
    int version;      /* 1 */
    size_t pot;       /* of the plan, from 0 */
    double tare_g;    /* the empty pot */
    double started_g; /* the scale with everything in the pot, at the start */
    double now_g;     /* the scale later */
    double after_min; /* that many minutes of boiling later */
    double burner_w;  /* rated power */
    pottle_hob hob;
    pottle_length pot_width;
    bool has_altitude;
    double altitude_m;
} pottle_stove;
#define POTTLE_STOVE_VERSION 1

typedef enum pottle_stop {
    POTTLE_STOP_MASS = 0, /* the end point is a share of solids or of the
                             volume: stop at the weight */
    POTTLE_STOP_CLOCK =
        1 /* the recipe gives minutes: the weight is what to expect then, by the
             usual rate or, from two readings, by this pot's; nothing is
             forecast of the time */
} pottle_stop;

/* When to stop. Intervals are the 5, 50 and 95 % points. */
typedef struct pottle_cook_goal {
    pottle_stop stop;
    pottle_balance balance; /* of the pot, by the recipe */
    double net_g;           /* in the pot at the start, as weighed */
    pottle_estimate
        solids_g;           /* of that, by the recipe and the weight together */
    pottle_estimate stop_g; /* in the pot when it is done */
    pottle_interval reading_g;  /* the scale with the pot on it */
    pottle_interval boil_off_g; /* from the start */
    double start_ml;            /* at 20 deg C */
    pottle_estimate stop_ml;
    pottle_estimate depth_share; /* depth when done over depth at the start, in
                                    a straight-sided pot */
    /* from two readings */
    bool has_now, done; /* done: the scale reads what it should, or less */
    double boiled_g;
    pottle_estimate rate_g_min;
    pottle_interval left_g, left_min;
    /* before there are two: rough */
    bool has_forecast;
    pottle_estimate forecast_rate_g_min, heat_up_min;
    pottle_interval forecast_min; /* heating and boiling */
    /* twice the batch in the same pot on the same burner: times the boiling
     * time, and the whole of it */
    bool has_twice;
    double twice_factor;
    pottle_interval twice_min;
} pottle_cook_goal;

/* How far a pot must boil down, and how long that takes.
 *
 * Given:     catalogue  with figures
 *            plan       says what is in the pot
 *            stove      started_g above tare_g, both above 0; now_g and
 *                       after_min together or neither
 * Returned:  out        what is known; a forecast only when it boils to a
 *                       weight and there is a burner or a pot width and no
 *                       second reading
 * Status:    POTTLE_OK; POTTLE_ENOENT when the recipe has no end point to boil
 *            to (pieces, pie filling, plain packs), there is
 *            no such pot, or the balance cannot be made; POTTLE_EDOMAIN when a
 *            number is out of range or two contradict each
 *            other: the error (code "contradiction") names both and by how many
 *            standard deviations; POTTLE_EMISUSE
 * Notes:     1) The solids are those of the recipe, moved by what the scale
 *            says as far as the ingredient amounts are uncertain.
 *            2) The rate from two readings is taken to last: same burner, same
 *            pot, so same area.
 *            3) Forecast: net power over latent heat, with published hob
 *            efficiencies; by the width alone, a rate for each
 *               area; by neither, none. The warm-up is from 20 deg C.
 * Checked:   tests/test_stove.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_cook_target(
    const pottle_catalogue *catalogue, const pottle_plan *plan,
    const pottle_stove *stove, pottle_cook_goal *out, pottle_error *error);

/* -- Gel point ------------------------------------------------------------- */

/* What 8 deg F above the boiling point of water means here. The first of a pair
 * is POTTLE_SUGAR_TABLE_1912, the second POTTLE_SUGAR_EQUATION_1997: they
 * disagree, and the difference is the answer's uncertainty. */
typedef struct pottle_gel {
    bool measured; /* the boiling point was read, not reckoned from the altitude
                    */
    pottle_pressure
        pressure; /* of the air; from the boiling point when it was read */
    pottle_temperature boiling; /* of water */
    pottle_temperature rule;    /* 8 deg F above it */
    double brix[2]; /* sucrose solution that boils there (percent) */
    double apart;   /* by how much these two disagree (percent) */
    pottle_temperature at_65[2]; /* where one of 65 percent boils */
    bool has_standard; /* an altitude was given beside a boiling point that was
                          read */
    pottle_temperature
        standard; /* boiling point by the standard atmosphere there */
} pottle_gel;

/* The gel point of jam without added pectin, by the rule and by the physics.
 *
 * Given:     altitude_m  0 to POTTLE_ALTITUDE_MAX_M (m), or NULL: with neither, sea level
 *            boiling     of water on the person's own thermometer today, 85 to
 *                        102 deg C, or NULL: it wins over the altitude
 * Status:    POTTLE_OK; POTTLE_EDOMAIN outside these; POTTLE_EMISUSE
 * Source:    USDA Complete Guide, guide 7 (8 deg F); U.S. Standard Atmosphere
 *            1976; IAPWS-IF97; pottle_sugar_elevation, whose
 *            two series hold at 1 atm: at another pressure the activity of the
 *            water is taken to be the same
 * Checked:   tests/test_gel.c, against the published table */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_gel_point(const double *altitude_m, const pottle_temperature *boiling,
                 pottle_gel *out, pottle_error *error);

/* What a thermometer that reads wrong shows at a temperature; the temperature
 * where nothing is known of it. */
POTTLE_API pottle_temperature
pottle_thermometer_shows(pottle_misreading thermometer, pottle_temperature t);

/* -- Solutions ------------------------------------------------------------- */

/* So many jars of a size. */
typedef struct pottle_jar_number {
    const pottle_jar *jar;
    double count;
} pottle_jar_number;
/* At most so many sizes at once. */
enum { POTTLE_JAR_NUMBERS_MAX = 16 };

/* A covering syrup: what goes in and what it makes. */
typedef struct pottle_syrup_mix {
    const pottle_syrup
        *syrup;     /* the class; NULL when a strength was asked for */
    double nominal; /* percent by which its source labels it; 0 for none */
    double brix;    /* sugar, true percent by mass */
    double water_ml, water_g, sugar_ml, sugar_g;
    double volume_ml;          /* made, at 20 deg C */
    bool has_water, has_sugar; /* a measure is near enough, else weigh it */
    pottle_measure water, sugar;
    bool derived; /* a size of jar has no published amount and takes its share
                     of one that has */
} pottle_syrup_mix;

/* Finds a class of syrup by id or name: "medium", "syrup-medium", "medium
 * syrup".
 * Status:    POTTLE_OK; POTTLE_ENOENT, the error lists them; POTTLE_EMISUSE */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_syrup_find(const pottle_catalogue *catalogue, const char *name,
                  const pottle_syrup **out, pottle_error *error);

/* Syrup of a class for so many jars, by the published amounts for a canner load
 * of their size.
 *
 * Given:     catalogue  with syrups and figures
 *            jars       up to POTTLE_JAR_NUMBERS_MAX, each above 0 and at most
 *                       1,000,000
 * Status:    POTTLE_OK; POTTLE_EDOMAIN for numbers out of range;
 *            POTTLE_EMISUSE; else as pottle_food_read of sugar
 * Notes:     1) A size without a published load takes the amount of the nearest
 *            size that has one, by their volumes.
 * Checked:   tests/test_solution.c, against the published table */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_syrup_for_jars(const pottle_catalogue *catalogue,
                      const pottle_syrup *syrup, const pottle_jar_number *jars,
                      size_t count, pottle_syrup_mix *out, pottle_error *error);

/* Syrup of a class that makes so much: the mean of its published loads, which
 * are rounded to quarter cups.
 * Status:    as pottle_syrup_for_jars; the volume lies above 0 and up to
 *            POTTLE_NUMBER_MAX */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_syrup_of_class(
    const pottle_catalogue *catalogue, const pottle_syrup *syrup,
    pottle_volume volume, pottle_syrup_mix *out, pottle_error *error);

/* Syrup of a true strength that makes so much, by mass balance.
 *
 * Given:     brix       sugar, above 0 and up to 64 (percent by mass)
 * Status:    as pottle_syrup_of_class; POTTLE_EDOMAIN for another strength
 * Valid:     64 percent is what stays dissolved at 0 deg C (64.18: historical
 *            table, textbook of confectionery, 2010)
 * Source:    pottle_sugar_density */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_syrup_of_brix(
    const pottle_catalogue *catalogue, double brix, pottle_volume volume,
    pottle_syrup_mix *out, pottle_error *error);

/* How much syrup so many jars take, as the published loads of all classes have
 * it: the least and the most are the ends.
 * Status:    as pottle_syrup_for_jars */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_syrup_need(
    const pottle_catalogue *catalogue, const pottle_jar_number *jars,
    size_t count, pottle_estimate *out_ml, pottle_error *error);

/* A brine of salt and water. */
typedef struct pottle_brine_mix {
    double percent; /* salt over salt and water, by mass */
    double salt_g, water_g, water_ml;
    double volume_ml;        /* made, at 20 deg C */
    pottle_estimate salt_ml; /* as a cup measures it: salts differ, so weigh */
    bool has_water;
    pottle_measure water;
} pottle_brine_mix;

/* A brine of a strength.
 *
 * Given:     catalogue  with figures
 *            percent    above 0 and up to 26
 *            volume     of the brine, or of the water that goes in
 *            of_water   which of the two
 * Status:    POTTLE_OK; POTTLE_EDOMAIN for numbers out of range;
 *            POTTLE_EMISUSE; else as pottle_food_read of canning-salt
 * Valid:     26 percent is the last line of the table; brine is saturated at
 *            26.4
 * Source:    density: Poradnik fizykochemiczny, 1974, in a straight line
 *            between its lines (0.00005 g/mL)
 * Checked:   tests/test_solution.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_brine_of_percent(
    const pottle_catalogue *catalogue, double percent, pottle_volume volume,
    bool of_water, pottle_brine_mix *out, pottle_error *error);

/* One line of the liquid of a recipe. */
typedef struct pottle_brine_line {
    const pottle_ingredient *ingredient; /* of the recipe */
    char title[64];
    double mass_g, volume_ml, count; /* 0 when not known */
    bool has_measure;
    pottle_measure measure;
} pottle_brine_line;
enum { POTTLE_BRINE_LINES_MAX = 24 };

/* The pickling liquid of a recipe, made longer or shorter. */
typedef struct pottle_brine_plan {
    double factor;    /* times that of the published batch */
    double volume_ml; /* that it makes, about */
    /* the strongest vinegar on hand above what the recipe asks for, which takes
     * its place measure for measure; 0: none */
    double vinegar_percent;
    size_t lines;
    pottle_brine_line line[POTTLE_BRINE_LINES_MAX];
} pottle_brine_plan;

/* What is wanted of it. */
typedef struct pottle_brine_request {
    int version;                 /* 1 */
    double volume_ml;            /* that it makes; 0: the first amount tells */
    const pottle_phrase *amount; /* of single ingredients */
    size_t amounts;
} pottle_brine_request;
#define POTTLE_BRINE_REQUEST_VERSION 1

/* More or less of the liquid that a tested pickle is packed in: all its lines
 * times one factor.
 *
 * Given:     catalogue  with names, figures, jars and rules
 * Returned:  out        its liquids, acid, salt and sugar; spices are free and
 *                       left out
 * Status:    POTTLE_OK; POTTLE_EBOUNDS: an amount that is no part of the liquid
 *            or not in its proportions (rule pickle-02), weak
 *            vinegar, a draft or own recipe; POTTLE_ENOENT when the recipe has
 *            no such liquid; POTTLE_EDOMAIN;
 *            POTTLE_EMISUSE (code "how-much" when neither a volume nor an
 *            amount is given); else as pottle_scale
 * Notes:     1) Only what the recipe keeps free may differ.
 *            2) The volume is the sum of the liquids and of what sugar and salt
 *            add to them.
 * Checked:   tests/test_solution.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_brine_of_recipe(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    const pottle_brine_request *request, pottle_brine_plan *out,
    pottle_error *error);

/* Whether vinegar of a strength may be used where another is asked for, by
 * weakening it or as it is.
 *
 * Given:     has, wants percent acid, above 0 and up to 100
 * Status:    POTTLE_OK only when both are the same and 5 percent or more;
 *            POTTLE_EBOUNDS: weaker than 5 percent
 *            (vinegar-5-percent), or stronger than wanted, since no source
 *            gives a dilution (vinegar-dilution);
 *            POTTLE_EDOMAIN; POTTLE_EMISUSE
 * Checked:   tests/test_solution.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_vinegar_check(const pottle_catalogue *catalogue, double has,
                     double wants, pottle_error *error);

/* The acid of one choice over all jars. */
typedef struct pottle_acid_total {
    const char *food; /* id; "or" the next */
    char title[64];
    const pottle_unit *unit; /* of the total */
    double total;
    pottle_measure measure; /* never less */
    bool has_measure;
    struct {
        const pottle_jar *jar, *taken_from;
        double count, each;
        const pottle_unit *unit;
    } dose[POTTLE_JAR_NUMBERS_MAX];
    size_t doses;
    const char *rule;
    pottle_cite cite;
} pottle_acid_total;
enum { POTTLE_ACID_TOTALS_MAX = 8 };

/* How much acid goes into each of mixed jars, and how much that is in all, for
 * each acid that the recipe allows.
 *
 * Given:     catalogue  with names, jars and rules
 * Returned:  out        up to POTTLE_ACID_TOTALS_MAX
 *            totals     how many
 * Status:    POTTLE_OK; POTTLE_ENOENT when the recipe puts no acid into its
 *            jars; POTTLE_EBOUNDS for a jar larger than any
 *            that has a dose, a draft or own recipe; POTTLE_EDOMAIN for numbers
 *            out of range; POTTLE_EMISUSE; else as pottle_food_read of the acid
 * Notes:     1) A size without a dose takes that of the next larger one.
 * Checked:   tests/test_solution.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_acid_for_jars(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    const pottle_jar_number *jars, size_t count, pottle_acid_total *out,
    size_t *totals, pottle_error *error);

/* Juice for jelly. */
typedef struct pottle_juice {
    pottle_estimate juice_ml, fruit_g;
    double least_ml; /* juice that the guide lets expect at least; 0 when fruit
                        was asked for */
    double guide_g;  /* fruit that suffices by the guide; 0 when juice was asked
                        for */
    double sure_g; /* fruit that suffices with nine chances in ten; 0 when juice
                      was asked for */
} pottle_juice;

/* How much juice comes from so much prepared fruit, or how much fruit it takes.
 *
 * Given:     catalogue  with figures
 *            fruit_g    above 0 and up to POTTLE_NUMBER_MAX, or 0
 *            juice_ml   the same; one of the two is 0
 * Status:    POTTLE_OK; POTTLE_EDOMAIN; POTTLE_EMISUSE when both or none are
 *            given; POTTLE_ENOENT without the figures
 * Source:    figures juice-yield, juice-least and juice-density
 * Checked:   tests/test_solution.c */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_juice_of(const pottle_catalogue *catalogue, double fruit_g,
                double juice_ml, pottle_juice *out, pottle_error *error);

/* -- Remaking a soft spread ------------------------------------------------ */

typedef struct pottle_remake_line {
    const pottle_remake_add *add;
    char title[64];
    double volume_ml, mass_g; /* mass 0 when not known */
    bool has_measure;
    pottle_measure measure;
} pottle_remake_line;
enum { POTTLE_REMAKE_LINES_MAX = 8 };
typedef struct pottle_remake {
    const pottle_remaking *remaking;
    const pottle_remake_way *way;
    double volume_ml; /* of the soft spread */
    bool over_usual; /* more than the smallest published lot, within the largest
                      */
    size_t lines;
    pottle_remake_line line[POTTLE_REMAKE_LINES_MAX];
} pottle_remake;

/* What goes to a lot of soft jam or jelly to cook it again.
 *
 * Given:     catalogue  with rescue, names, figures and rules
 *            pectin     "powdered", "liquid" or "none"
 *            volume     measured, above 0
 * Status:    POTTLE_OK; POTTLE_EBOUNDS: more than the published lot, the error
 *            says in how many lots; POTTLE_ENOENT for
 *            another pectin, or when rescue.xml was not read; POTTLE_EDOMAIN;
 *            POTTLE_EMISUSE; else as pottle_food_read of what is added
 * Checked:   tests/test_rescue.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_remake_lot(
    const pottle_catalogue *catalogue, const char *pectin, pottle_volume volume,
    pottle_remake *out, pottle_error *error);

/* -- Jars of one's own ----------------------------------------------------- */

/* Volume of a jar from its two weighings, full to the brim.
 *
 * Given:     catalogue  with figures
 *            jar        as pottle_kitchen_put_own takes it
 * Returned:  out        volume (mL)
 * Status:    POTTLE_OK; POTTLE_EDOMAIN for readings that cannot be of one jar:
 *            the error names both numbers
 * Source:    pottle_water_density at the temperature of the water; the
 *            readings' errors are those of the scale, each for itself
 * Notes:     1) Without a temperature the water is from the tap (figure
 *            water-from-tap), which widens the spread a little.
 *            2) Buoyancy in air, 0.1 %, is left out: it lies inside the error
 *            of a kitchen scale.
 * Checked:   tests/test_own_jar.c, weighings worked by hand */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_own_jar_brim(
    const pottle_catalogue *catalogue, const pottle_own_jar *jar,
    pottle_estimate *out, pottle_error *error);

/* Volume of food in it, filled to a headspace: the brim less the headspace
 * times the mouth. With a mark the two readings give the area; without mark and
 * mouth it lies between those of the listed mouths.
 *
 * Given:     catalogue  with figures and jars
 *            headspace  2 to 60 mm
 * Status:    as pottle_own_jar_brim; POTTLE_EDOMAIN for a headspace outside the
 *            range or one that leaves no room
 * Valid:     a straight neck down to the headspace. How exactly a jar is filled
 *            to its line is not in the spread
 * Checked:   tests/test_own_jar.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_own_jar_fill(
    const pottle_catalogue *catalogue, const pottle_own_jar *jar,
    pottle_length headspace, pottle_estimate *out, pottle_error *error);

/* The listed size whose process and additions it takes: the smallest that is
 * not smaller than what it holds at the headspace at which listed jars hold
 * their nominal volume (figure jar-fill-reference), and never smaller than the
 * one it passes for. Larger by up to the figure own-jar-larger counts as alike,
 * judged by the upper end of its spread.
 *
 * Status:    POTTLE_OK; POTTLE_EBOUNDS when no listed size is as large;
 *            POTTLE_ENOENT when it passes for a size that is not listed; as
 *            pottle_own_jar_fill
 * Checked:   tests/test_own_jar.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_own_jar_size(
    const pottle_catalogue *catalogue, const pottle_own_jar *jar,
    const pottle_jar **out, pottle_error *error);

/* -- The dial gauge -------------------------------------------------------- */

/* Where the needle must stand. */
typedef struct pottle_set_point {
    double psi;     /* the tested pressure plus what the gauge reads too high */
    double off_psi; /* how far it is out, either way */
    bool strict; /* out by so much that the stricter reading replaces it (figure
                    gauge-limit-strict) */
} pottle_set_point;

/* Pressure to hold on a gauge that reads wrong.
 *
 * Given:     catalogue  with figures and rules
 *            process    of a dial-gauge canner
 *            gauge      as tested; unit NULL: taken to be right
 * Status:    POTTLE_OK; POTTLE_EBOUNDS (rule gauge-error) when it is out by
 *            more than a set point is published for (figure gauge-limit);
 *            POTTLE_EDOMAIN for another kind of canner
 * Checked:   tests/test_loads.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_gauge_set_point(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    const pottle_process *process, pottle_misreading gauge,
    pottle_set_point *out, pottle_error *error);

/* The same for the gauge of a canner, which a refusal names. Status as there,
 * and POTTLE_EMISUSE without a canner. */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_canner_set_point(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    const pottle_process *process, const pottle_kitchen_canner *canner,
    pottle_set_point *out, pottle_error *error);

/* Whether a canner may be used for a recipe: not one whose gauge is out by more
 * than a set point is published for. One without a dial may, and one whose
 * gauge was never tested.
 *
 * Status:    POTTLE_OK; POTTLE_EBOUNDS (rule gauge-error); POTTLE_EMISUSE
 * Checked:   tests/test_loads.c */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_canner_usable(
    const pottle_catalogue *catalogue, const pottle_recipe *recipe,
    const pottle_kitchen_canner *canner, pottle_error *error);

/* -- Mixed jars and loads -------------------------------------------------- */

/* A size of jar on the shelf. */
typedef struct pottle_shelf_size {
    const pottle_jar *jar;     /* NULL for a jar of one's own */
    const pottle_own_jar *own; /* NULL for a listed size */
    unsigned long count;
} pottle_shelf_size;
enum { POTTLE_SHELF_MAX = 16 };

/* Reads "6 pint", "4 1/2 pint" (four half-pints), "12 tall honey jar".
 *
 * Given:     catalogue  with jars
 *            kitchen    for jars of one's own; may be NULL
 * Status:    POTTLE_OK; POTTLE_ESYNTAX without a whole number in front;
 *            POTTLE_EDOMAIN for a number that is 0 or over
 *            POTTLE_KITCHEN_COUNT_MAX; POTTLE_ENOENT, the error lists near
 *            names */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_shelf_read(
    const pottle_catalogue *catalogue, const pottle_kitchen *kitchen,
    const char *text, pottle_shelf_size *out, pottle_error *error);

/* The shelf of a kitchen file.
 *
 * Returned:  out        room for POTTLE_SHELF_MAX
 * Status:    POTTLE_OK; POTTLE_ENOENT for a size that is not listed;
 *            POTTLE_EDOMAIN when there are more than POTTLE_SHELF_MAX */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_kitchen_shelf(
    const pottle_catalogue *catalogue, const pottle_kitchen *kitchen,
    pottle_shelf_size *out, size_t *count, pottle_error *error);

/* So many jars of a size on the shelf, beside so many that are wanted. */
typedef struct pottle_shelf_stock {
    unsigned long there;
    unsigned long lacking;  /* of those to prepare; 0: enough */
    unsigned long expected; /* of those of the expected volume, lacking */
} pottle_shelf_stock;

/* Whether the shelf of a kitchen file has the jars of a plan.
 *
 * Given:     kitchen    may be NULL
 *            jars       as counted: of a listed size, or of one's own
 * Returned:  out        untouched where nothing is known
 *            whether anything is known: a shelf on which another size stands
 *            has none of this one, but a measured jar need not be counted
 * Checked:   tests/test_plan_jars.c */
POTTLE_API bool pottle_shelf_has(const pottle_kitchen *kitchen,
                                 const pottle_jar_count *jars,
                                 pottle_shelf_stock *out);

/* What to fill and how to process it. */
typedef struct pottle_shelf_request {
    int version; /* 1 */
    const pottle_shelf_size *size;
    size_t sizes;
    bool has_altitude;
    double altitude_m;
    const pottle_method *method; /* NULL: any, or that of the canner */
    pottle_pack_style pack;
    const pottle_kitchen_canner *canner; /* NULL: a standard one */
    double cooked_ml; /* what the pots hold when they are done, read as a level
                         (figure error-level); 0: as the plan forecasts */
} pottle_shelf_request;
#define POTTLE_SHELF_REQUEST_VERSION 1

/* One size of a filling. */
typedef struct pottle_filled {
    pottle_shelf_size of;
    bool allowed; /* tested for this recipe, or smaller than a tested one */
    char code[40], why[320]; /* of the refusal when it is not */
    pottle_length headspace;
    pottle_estimate fill_ml;
    unsigned long jars; /* full ones of the expected volume */
    bool has_process;   /* at the altitude */
    pottle_process
        process; /* its own; in a mixed load the longest holds for all */
} pottle_filled;

/* How much goes in, and how sure that is. */
typedef struct pottle_filling_facts {
    pottle_estimate volume_ml; /* to be filled */
    unsigned long jars;
    double filled_ml, left_ml; /* of the expected volume */
    double capacity_ml;        /* of all jars that may be used */
    double suffices;           /* probability that they take all, 0 to 1 */
    double prepare_ml; /* with nine chances in ten it is no more than this */
    size_t next; /* index of the size to have more of ready; count of sizes:
                    none is allowed */
    unsigned long ready; /* so many of it beyond those filled suffice with nine
                            chances in ten */
    unsigned long spare; /* so many are left on the shelf */
    bool canned; /* a process is published; loads are told when canner and
                    altitude are known too */
    pottle_method method;
    bool raw;
    bool has_set_point; /* the canner's dial gauge was tested */
    pottle_misreading gauge;
} pottle_filling_facts;

/* Something that goes into each jar, over all sizes. */
typedef struct pottle_filling_dose {
    const pottle_per_jar *per_jar;
    const char *food, *title;
    size_t choice;           /* as in pottle_dose */
    const pottle_unit *unit; /* of the first size that is filled */
    const char *size;
    double each[POTTLE_SHELF_MAX]; /* for one jar of each size, in `unit`; 0
                                      where none is filled */
    double total;                  /* for all jars that are filled, in `unit` */
} pottle_filling_dose;

/* Times of one load in minutes, each from low to high; what its canner does not
 * do is 0. */
typedef struct pottle_load_time {
    pottle_range heat_up, vent, pressurise, process, cool, wait, total;
} pottle_load_time;

/* Canner loads that are alike. */
typedef struct pottle_filling_load {
    unsigned long times;
    unsigned long jars[POTTLE_SHELF_MAX]; /* of each size */
    size_t sizes;                         /* how many sizes are in it */
    pottle_process process;               /* the longest of them */
    double psi; /* to hold on this canner; 0 in boiling water */
    pottle_load_time time;
} pottle_filling_load;

typedef struct pottle_filling pottle_filling;

/* Fills the expected volume of a plan into the jars on the shelf: so that least
 * is left over and no jar is part-filled, and of equal fillings the one with
 * the fewest jars. Left-overs within the figure left-over-alike count as equal;
 * volumes are reckoned in whole millilitres. The search is exact.
 *
 * Given:     catalogue  with figures, jars and rules
 *            plan       decides volume and recipe
 * Returned:  out        the filling
 * Status:    POTTLE_OK; POTTLE_EBOUNDS when no size on the shelf may be used
 *            (the error is the first one's), or for a gauge as in
 *            pottle_gauge_set_point; POTTLE_ENOENT when the volume cannot be
 *            told; POTTLE_EDOMAIN for too many jars, an altitude out of
 *            range, or what is cooked that contradicts the plan;
 *            POTTLE_EMISUSE; POTTLE_ENOMEM
 * Owns:      the caller, by pottle_filling_free, before the plan
 * Source:    practice: sizes share a load when product, pack and pressure are
 *            the same, and the longest time holds for all; a mixed load
 *            is full when the shares of the sizes, each of its own full load,
 *            make 1
 * Checked:   tests/test_shelf.c, against brute force */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_shelf_fill(const pottle_catalogue *catalogue, const pottle_plan *plan,
                  const pottle_shelf_request *request, pottle_filling **out,
                  pottle_error *error);
POTTLE_API void pottle_filling_free(pottle_filling *filling);
/* Sizes in the order of the request, alike ones added up. */
POTTLE_API const pottle_filled *
pottle_filling_sizes(const pottle_filling *filling, size_t *count);
POTTLE_API const pottle_filling_facts *
pottle_filling_facts_of(const pottle_filling *filling);
POTTLE_API const pottle_filling_dose *
pottle_filling_doses(const pottle_filling *filling, size_t *count);
/* None without a process at the altitude, or when it is not known how many jars
 * the canner takes. */
POTTLE_API const pottle_filling_load *
pottle_filling_loads(const pottle_filling *filling, size_t *count);
POTTLE_API const pottle_warning *
pottle_filling_warnings(const pottle_filling *filling, size_t *count);
/* All loads one after the other in one canner: how many, and minutes from low
 * to high. */
POTTLE_API unsigned long pottle_filling_time(const pottle_filling *filling,
                                             pottle_range *minutes);

/* Minutes of one load, from the published parts.
 *
 * Given:     catalogue  with figures
 *            minutes    of the process, 1 to 1000
 * Status:    POTTLE_OK; POTTLE_EDOMAIN; POTTLE_ENOENT when a figure is missing;
 *            POTTLE_EMISUSE for another method
 * Source:    figures heat-up-boiling-water, rest-minutes; heat-up-pressure,
 *            vent-minutes, pressurise-minutes, cool-down-minutes,
 *            wait-after-weight
 * Checked:   tests/test_loads.c, summed by hand */
POTTLE_API POTTLE_MUSTUSE pottle_status
pottle_load_minutes(const pottle_catalogue *catalogue, pottle_method method,
                    int minutes, pottle_load_time *out, pottle_error *error);

/* Reads a time of day: "14:30", "9:05", "2:30 pm", "2 pm".
 *
 * Returned:  out        minutes after midnight, 0 to 1439
 * Status:    POTTLE_OK; POTTLE_ESYNTAX */
POTTLE_API POTTLE_MUSTUSE pottle_status pottle_clock_read(const char *text,
                                                          int *out,
                                                          pottle_error *error);
/* Writes the time of day so many minutes later, to the nearest: "16:05", "00:20
 * next day", "2 days later at 08:00". Returns the length as snprintf does; a
 * number that is no time gives "?". */
POTTLE_API size_t pottle_clock_write(int start, double minutes_later, char *buf,
                                     size_t size);

/* Takes a "cup" of a phrase for the cup of the kitchen file, where the phrase
 * does not say itself which (a "us cup").
 *
 * Given:     text       the phrase as it was typed
 * Returned:  whether the phrase was changed */
POTTLE_API bool pottle_kitchen_cup(const pottle_kitchen *kitchen,
                                   const char *text, pottle_phrase *phrase);
