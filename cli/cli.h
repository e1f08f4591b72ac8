/* cli.h - the command: shared by main.c and the cmd_*.c. */
#ifndef POTTLE_CLI_H
#define POTTLE_CLI_H

#include <config.h>

#include <stdbool.h>
#include <stdio.h>

#include <jansson.h>
#include <pottle.h>

/* Exit statuses; the table stands in pottle.1 too. */
enum exit_status {
    DONE = 0,     /* done */
    FAILED = 1,   /* file, memory, internal */
    USAGE = 2,    /* usage, or something unreadable or unknown */
    BAD_DATA = 3, /* a catalogue file is invalid */
    REFUSED = 4   /* outside the tested bounds */
};

/* -- args.c ---------------------------------------------------------------- */

enum { ARGS_MAX = 64 };

typedef struct option {
    const char *name;  /* without the dashes */
    const char *value; /* what it takes, for the help; NULL for none */
    const char *help;
} option;

/* What was typed: operands and options in their order. */
typedef struct args {
    const char *operand[ARGS_MAX];
    size_t operands;
    struct {
        const char *name, *value;
    } given[ARGS_MAX];
    size_t givens;
} args;

/* Sorts argv by a list of options that ends with a NULL name. False when
 * something was wrong: it has been said on stderr. */
bool args_read(int argc, char **argv, const option *options, args *out);
/* The last value of an option, or NULL. */
const char *args_value(const args *a, const char *name);
bool args_has(const args *a, const char *name);
/* The i-th value of an option, or NULL past the end. */
const char *args_nth(const args *a, const char *name, size_t i);

/* -- lines.c --------------------------------------------------------------- */

/* Standard input; begins as { 0 }. */
typedef struct line_reader {
    char *text;
    size_t room, from, to;
    unsigned long number; /* of the line given last */
    bool end, failed;
} line_reader;

/* The next line, its newline cut off; NULL at the end or on a failure, which
 * `failed` tells. It is good until the next call. All that stands in stdout is
 * written out before there is waiting. */
char *lines_next(line_reader *l, size_t *length);
void lines_free(line_reader *l);

/* -- command.c ------------------------------------------------------------- */

typedef struct command {
    const char *name;
    int (*run)(const struct command *self, const args *a, bool json);
    const char *usage; /* one or more lines behind "pottle NAME" */
    const char *help;  /* one line */
    const option *options;
} command;

extern const command convert_command, scale_command, jars_command,
    process_command, recipes_command, show_command, check_command,
    chain_command, cook_command, gel_command, liquid_command, rescue_command,
    fill_command, jar_command, kitchen_command;

/* All of them, in the order of the help; NULL ends. */
extern const command *const commands[];

/* Does what the arguments ask for, the name of the program first, and gives the
 * exit status. Nothing is kept for the next time, so it may be called again. */
int run_command(int argc, char **argv);
/* The folder of the catalogue: POTTLE_DATA, else the one compiled in. */
const char *data_folder(void);
/* Opens the catalogue; says what is wrong itself. */
int open_catalogue(const args *a, unsigned parts, pottle_catalogue **out);
/* Usage error: prints the message and where help is. Gives USAGE. */
int usage_error(const command *self, const char *message, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 2, 3)))
#endif
    ;
/* The exit status that fits an error. */
int exit_for(const pottle_error *error);
/* Says an error on stderr, and a refusal with --json on stdout too; gives the
 * exit status that fits. */
int report(const pottle_catalogue *catalogue, const pottle_error *error);

/* -- print.c: text that fits 80 columns ------------------------------------ */

enum { WIDTH = 80 };
/* What was typed, with '?' for what is no text, cut to the buffer: nothing else
 * goes into a message. Gives buf. */
const char *printable(const char *text, char *buf, size_t size);
/* One line on stderr, "pottle: ...". */
void complain(const char *message, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 1, 2)))
#endif
    ;
/* Text folded at WIDTH; the first line begins with `first`, the others with as
 * many blanks. */
void print_folded(FILE *to, const char *first, const char *text);
/* "wash 9 pint jars; expect 7 full (5 to 10), 5 with nine chances in ten" */
void wash_text(const char *indent, const pottle_jar_count *j, const char *jar);
/* A mass as a scale shows it: "976 g", "4.20 kg". */
void mass_text(double g, char *buf, size_t size);
/* Of what is no better known than about so much: two digits. */
void about_text(double g, char *buf, size_t size);
/* A number with about three digits: 0.66, 12.4, 976. */
void short_number(double value, char *buf, size_t size);
/* A food as a line names it: "onions, finely chopped", "onion" where there is
 * one piece or less of a size. `said` is of the form. */
void food_text(const pottle_catalogue *catalogue, const char *food,
               const char *title, const char *said, double pieces,
               const char *size, char *buf, size_t buf_size);
/* A number as a cook reads it: "1/4", "2 1/2". */
void count_text(double count, char *buf, size_t size);
/* A unit behind its number: "cup", "cups", "large"; "" for mere pieces. */
void unit_text(double count, const pottle_unit *unit, const char *size,
               char *buf, size_t buf_size);
/* What goes into so many jars, as a kitchen measures it: "3 cups + 2 tbsp". */
void dose_text(double each, const pottle_unit *unit, const char *size,
               unsigned long jars, pottle_keep keep, char *buf,
               size_t buf_size);
/* "Author, title, part, year; place [key]". */
void source_text(const pottle_catalogue *catalogue, const char *key,
                 const char *at, char *buf, size_t size);
/* The cautions that close every answer about a recipe. */
extern const char *const cautions[];

/* -- kitchen.c: what it holds; its functions follow --------------------------- */

/* The person's kitchen file. */
typedef struct household {
    pottle_kitchen kitchen;
    char path[1024]; /* "" when there is no folder for settings */
    bool named;      /* by --kitchen */
    bool found;      /* there is such a file */
    bool replaced;   /* kitchen_save put a new one in its place */
    bool cup_taken;  /* a cup that was typed was taken for the kitchen's */
    const pottle_kitchen_canner *unused; /* the dial gauge that the recipe could
                                            take but for how wrong it reads */
    pottle_error why;                    /* that it is not used */
} household;

/* -- json.c ---------------------------------------------------------------- */

void json_begin(void);               /* before any JSON is made */
int json_whole(void);                /* DONE; FAILED, which it says, when there
                                        was no memory for a piece of it */
int print_json(json_t *value);       /* takes it; DONE or FAILED */
json_t *json_text(const char *text); /* null for NULL or "" */
json_t *json_number(double value);   /* null when not finite */
json_t *json_span(pottle_interval i);
json_t *json_interval(pottle_estimate e);
/* Pounds of pressure; null for boiling water. */
json_t *json_psi(int psi);
json_t *json_source(const pottle_catalogue *catalogue, const char *key,
                    const char *at);
json_t *json_process(const pottle_catalogue *catalogue,
                     const pottle_recipe *recipe, const pottle_process *p,
                     double altitude_m);
/* With what the shelf of a kitchen has of them; NULL for none. */
json_t *json_jars(const pottle_jar_count *jars, const household *h);
void json_add_warnings(json_t *list, const pottle_catalogue *catalogue,
                       const pottle_warning *w, size_t count);
/* "source" and "notes" of an answer. */
void json_add_basis(json_t *to, const pottle_basis *basis);
json_t *json_cautions(void);

/* -- kitchen.c ------------------------------------------------------------- */

/* Finds and reads the file: --kitchen FILE, else the usual place. That there is
 * none is fine unless it was named and may not be new. */
int kitchen_open(const args *a, const pottle_catalogue *catalogue,
                 bool may_be_new, household *out);
/* Writes it, with its folders when it is the usual place. */
int kitchen_save(household *h);
/* Fills what was not said: altitude, and the kind of canner when
 * the kitchen has one only that serves. `method` is where that is kept; recipe
 * may be NULL. Refuses when that canner has a gauge that is too far out. */
int kitchen_defaults(const pottle_catalogue *catalogue,
                     const pottle_recipe *recipe, household *h,
                     pottle_request *request, pottle_method *method);
/* Finds out whether the dial gauge may be used for the recipe. */
void kitchen_judge(household *h, const pottle_catalogue *catalogue,
                   const pottle_recipe *recipe);
/* The altitude alone, where *has is false. */
int kitchen_altitude(const household *h, bool *has, double *altitude_m);
/* The altitude as it was typed, or stands in the file: "1000 ft". Typed again
 * it is in the same band, as 305 m would not be. */
void altitude_text(const args *a, const household *h, double altitude_m,
                   char *buf, size_t size);
/* A size by its name, or a jar of one's own (own is then not NULL) by that of
 * the size whose process it takes. */
int kitchen_jar(const household *h, const pottle_catalogue *catalogue,
                const char *text, const pottle_jar **jar,
                const pottle_own_jar **own);
/* A canner of a kind, or that the recipe has a process for; of several the one
 * whose gauge is nearest to right. NULL: none. */
const pottle_kitchen_canner *kitchen_canner(const household *h,
                                            const pottle_recipe *recipe,
                                            const pottle_method *only);
/* The name of counted jars; what the shelf has of them, a line. */
const char *jars_name(const pottle_jar_count *jars);
void kitchen_shelf_text(const household *h, const pottle_jar_count *jars);
/* Takes the cup of a phrase for the kitchen's, and remembers it. */
void kitchen_phrase(household *h, const char *text, pottle_phrase *phrase);
/* The same of an amount alone. */
void kitchen_quantity(household *h, const char *text, pottle_quantity *q);
/* Says which cup was taken, and where US measures stand in the answer that they
 * are not the kitchen's: in text, and as "cup" and a warning. */
void kitchen_note(const household *h, bool measures);
void kitchen_add_cup(const household *h, json_t *root, bool measures);
/* The processes but for those on a gauge that is too far out: how many, into
 * `out`, which has room for all. */
size_t kitchen_usable(const household *h, const pottle_process *p, size_t n,
                      pottle_process *out);
/* Where the needle must stand, when a gauge was tested: a line each, and as
 * "set_psi". Then which canner is not used and why: so that alone, and as
 * "not_used". */
void kitchen_gauge_text(const household *h, const pottle_catalogue *catalogue,
                        const pottle_recipe *recipe, const pottle_process *p,
                        size_t n);
void kitchen_unused_text(const household *h);
void kitchen_add_unused(const household *h, const pottle_catalogue *catalogue,
                        json_t *root);
/* Says of which of the processes the kitchen has no canner, when it lists any:
 * boiling water takes none that need be listed. */
void kitchen_lacks_text(const household *h, const pottle_process *p, size_t n);
bool kitchen_lacks(const household *h, const pottle_process *p);
void kitchen_add_set_psi(const household *h, const pottle_catalogue *catalogue,
                         const pottle_recipe *recipe, const pottle_process *p,
                         json_t *process);
/* "2.1 kg", "reads 1 psi high"; {value, unit}, {reads, by, unit} or null. */
void quantity_text(const pottle_quantity *q, char *buf, size_t size);
void misreading_text(const pottle_misreading *m, char *buf, size_t size);
json_t *json_quantity(const pottle_quantity *q);
json_t *json_misreading(const pottle_misreading *m);

/* -- cmd_scale.c, plan_text.c, plan_json.c --------------------------------- */

/* A scaled recipe with all that it rests on. */
typedef struct scaled {
    const args *a;
    pottle_catalogue *catalogue;
    pottle_recipe *recipe;
    pottle_plan *plan;
    pottle_request request;
    pottle_method method;
    pottle_phrase have[ARGS_MAX], set[ARGS_MAX];
    household house;
} scaled;
extern const option scale_options[];

/* Reads the arguments of scale and jars and scales. The caller ends it by
 * scaled_free whatever happened. */
int scaled_make(const command *self, const args *a, scaled *out);
void scaled_free(scaled *s);
void plan_text(const scaled *s);
/* Whether cups, spoons or quarts stand among what a plan measures out, and what
 * goes into each jar. */
bool us_unit(const pottle_unit *unit);
bool plan_in_cups(const pottle_plan *plan);
bool doses_in_cups(const pottle_plan *plan);
/* "published batch" of a recipe that was published; of one's own "batch". */
const char *batch_word(const pottle_recipe *recipe);
/* Where a recipe is from. */
void recipe_source_text(const pottle_catalogue *catalogue,
                        const pottle_recipe *recipe, char *buf, size_t size);
/* The measure of a line that has one; what no kitchen scale shows is told so.
 */
void line_measure(const pottle_line *l, char *buf, size_t size);
/* What a line's measure is of: "rhubarb, cooked; from about 450 g as bought",
 * with what stands before "from". */
void line_name(const pottle_catalogue *catalogue, const pottle_line *l,
               const char *before, char *buf, size_t size);
json_t *plan_json(const scaled *s);
void jars_text(const scaled *s);
void process_text(const pottle_process *p, size_t count);
/* Says where an open last band is not confirmed by every copy. */
void high_text(const pottle_process *p, size_t count, double altitude_m);
void cautions_text(const scaled *s);
/* Splits "14 quart", "6 1/2 pint" or "6 500-ml" into a number and a size. False
 * when there is no number in front. */
bool split_jars(const char *text, pottle_range *number, const char **size);
/* Reads "900 m" or "6200 ft" into metres; says what is wrong itself. */
int read_altitude(const char *text, double *out);
/* args.c: one amount of an option, above 0, in `unit`; as it was without the
 * option. */
int read_single(const command *self, const args *a, const char *name,
                pottle_dimension dimension, const char *unit, double *out);
int read_pack(const command *self, const char *text, pottle_pack_style *out);

/* -- show_list.c ----------------------------------------------------------- */

/* Prints the ids of what --list names; gives the exit status. */
int show_list(const command *self, const args *a, bool json);

/* -- cmd_chain.c, chain_print.c, chain_json.c ------------------------------ */

/* What was asked of a chain, and its answers. */
typedef struct chain_asked {
    pottle_catalogue *catalogue;
    pottle_recipe *recipe;
    pottle_chain *chain;
    pottle_chain_request request;
    pottle_observation seen[POTTLE_CHAIN_OBSERVED_MAX];
    const char *typed[POTTLE_CHAIN_OBSERVED_MAX]; /* as it was typed */
    size_t count;
    double want;        /* 0: not asked */
    bool in_containers; /* the person spoke of containers */
    char form[40], size[20];
    pottle_chain_state state;
    pottle_chain_gain gain[POTTLE_CHAIN_NODES];
    size_t gains;
    pottle_chain_wanted wanted;
    household house;
} chain_asked;

void chain_text(const chain_asked *k);
json_t *chain_json(const chain_asked *k);

/* -- besides.c ------------------------------------------------------------- */

/* What is on hand, and what is not there: ids of foods. */
typedef struct besides_asked {
    const pottle_catalogue *catalogue;
    const pottle_phrase *have;
    size_t haves;
    const char *const *without;
    size_t withouts;
} besides_asked;

/* What a plan takes from the cupboard or the shop; plan may be NULL for JSON.
 */
void besides_text(const besides_asked *k, const pottle_plan *plan, char *buf,
                  size_t size);
json_t *besides_json(const besides_asked *k, const pottle_plan *plan);
/* What a recipe does without the foods that are not there; "" and [] when it
 * has none of them. */
void spares_text(const besides_asked *k, const pottle_recipe *recipe, char *buf,
                 size_t size);
json_t *spares_json(const besides_asked *k, const pottle_recipe *recipe);

/* -- show_recipe.c --------------------------------------------------------- */

/* A source in full, or in one short line. */
void show_cite(const pottle_catalogue *c, const char *indent,
               const pottle_cite *cite);
void short_cite(const pottle_cite *cite, char *buf, size_t size);
/* As many pounds as so many grams are: "21", "17.5". */
void pounds_text(double g, char *buf, size_t size);
/* A recipe as text; DONE or FAILED. */
int show_recipe(const pottle_catalogue *c, const pottle_recipe *r);

/* -- show_json.c ----------------------------------------------------------- */

json_t *show_recipe_json(const pottle_catalogue *c, const pottle_recipe *r);
json_t *show_food_json(const pottle_catalogue *c, const pottle_food *f);

/* -- cmd_rescue.c, rescue_print.c ------------------------------------------ */

/* All that was asked of pottle rescue, and found. */
typedef struct rescue_asked {
    const command *self;
    const args *a;
    bool json;
    pottle_catalogue *catalogue;
    pottle_recipe *recipe;
    const pottle_mishap *mishap;
    const pottle_jar *jar;
    const pottle_own_jar *own; /* NULL for a listed size */
    bool has_altitude,
        supposed; /* supposed: nothing was said of the first process */
    double altitude_m;
    pottle_pack_style pack;
    pottle_jar_facts facts;
    const pottle_rescue_case *answer,
        *otherwise; /* otherwise: when what is supposed is not so */
    bool has_remake;
    pottle_remake remake;
    bool
        wrong_differs; /* a tested recipe done wrong has an answer of its own */
    size_t processes;
    pottle_process process[POTTLE_PROCESS_MAX];
    household house;
    pottle_error
        refused,  /* why there is no process to give again; code "" for none */
        untested; /* why the recipe cannot have been followed; code "" likewise
                   */
    bool other_pectin; /* the remake takes another pectin than the recipe */
} rescue_asked;

/* The published doses of acid, one call for each, where acid was forgotten and
 * may still be added; the last argument is true for the first. */
void rescue_each_acid(const rescue_asked *k,
                      void (*tell)(void *, const pottle_jar_choice *,
                                   const pottle_jar_dose *, bool),
                      void *context);
void rescue_text(rescue_asked *k);
int rescue_json(const rescue_asked *k);
int rescue_list(const rescue_asked *k);

/* -- cmd_liquid.c, liquid_print.c ------------------------------------------ */

/* What was typed behind pottle liquid, as far as it is the same for all kinds.
 */
typedef struct liquid_asked {
    const command *self;
    const args *a;
    bool json;
    pottle_catalogue *catalogue;
    pottle_jar_number jar[POTTLE_JAR_NUMBERS_MAX];
    /* NULL for a listed size */
    const pottle_own_jar *own[POTTLE_JAR_NUMBERS_MAX];
    size_t jars;
    household house;
} liquid_asked;

/* Print an answer as text or JSON; DONE or FAILED. `need` is NULL when no jars
 * were asked for. */
int liquid_print_syrup(const liquid_asked *k, const pottle_syrup_mix *mix,
                       const pottle_estimate *need);
int liquid_print_brine(const liquid_asked *k, const pottle_brine_mix *mix);
int liquid_print_recipe_brine(const liquid_asked *k,
                              const pottle_recipe *recipe,
                              const pottle_brine_plan *plan);
int liquid_print_acid(const liquid_asked *k, const pottle_recipe *recipe,
                      const pottle_acid_total *totals, size_t count);
int liquid_print_juice(const liquid_asked *k, const pottle_juice *juice);
int liquid_print_vinegar(const liquid_asked *k, double strength);

#endif
