/* command_choose.c - the words of a command line by choices (choose.c) among
 * the recipes, the commands, their options and what may stand behind them: what
 * they take, and what they do not. What an option takes is told by its help, so
 * that a new one is tried too. */
#include <config.h>

#include <string.h>

#include "command.h"

#define ONE_OF(in, list) list[fuzz_pick(in, sizeof list / sizeof list[0])]

/* What no option takes. */
static const char *
odd_word(fuzz_input *in)
{
    static const char *const words[] = {
        "",       " ",          "-",         "--",          "-1",
        "0",      "nan",        "inf lb",    "1e9",         "1/0",
        "%s%n",   "\xFF\xFE",   "a\\nb",     "\xC3",        "\x1B[2J",
        "--json", "=",          "\xC2\xBD",  "2-3",         "3-2 lb",
        "8,5 kg", "99999999 m", "10001 m",   "1000000001",  "0.0000001 g",
        "--help", "1 2 3 cups", "half pint", "5 % vinegar", "-0 m",
        "1..2",   "pint=quart", "\t",        "aaaaaaaa",
    };
    return ONE_OF(in, words);
}

/* A number as people write it, and as they should not. */
static void
number(fuzz_input *in, char *buf, size_t size)
{
    static const char *const written[] = {
        "1",          "1/2", "3 1/2",    "2",         "7",    "14",
        "0.5",        "2-3", "\xC2\xBD", "3\xC2\xBD", "1000", "0.001",
        "1000000000", "0",   "900",      "6200",
    };
    if (fuzz_pick(in, 3) == 0)
        snprintf(buf, size, "%s", ONE_OF(in, written));
    else
        snprintf(buf, size, "%.*g", 1 + (int)fuzz_pick(in, 6),
                 fuzz_pick_number(in));
}

static const char *
any_jar(fuzz_input *in)
{
    size_t n = 0;
    const pottle_jar *jar = pottle_jars(fuzz_catalogue(), &n);
    const size_t which = fuzz_pick(in, n + 1);
    return which == n ? "honey jar" : jar[which].id;
}

/* Of all that are measured, or of one dimension. */
static const char *
any_unit(fuzz_input *in, int dimension)
{
    const pottle_unit *few[128];
    size_t n = 0;
    const pottle_unit *u;
    for (size_t i = 0; n < 128 && (u = pottle_unit_at(i)) != NULL; i++)
        if (dimension < 0 || (int)u->dimension == dimension)
            few[n++] = u;
    const pottle_unit *chosen = few[fuzz_pick(in, n)];
    return fuzz_pick(in, 4) == 0 ? chosen->id : chosen->symbol;
}

static void
quantity(fuzz_input *in, command_line *c, int dimension)
{
    char x[60];
    number(in, x, sizeof x);
    command_say(c, "%s %s", x,
                any_unit(in, fuzz_pick(in, 16) == 15 ? -1 : dimension));
}

/* "4.2 kg diced rhubarb as picked" */
static void
phrase(fuzz_input *in, command_line *c, const pottle_recipe *recipe)
{
    static const char *const forms[] = { "",        "",         "diced ",
                                         "sliced ", "crushed ", "whole ",
                                         "medium ", "4 % " };
    static const char *const states[] = {
        "", "", " as picked", " as bought", " prepared", ", crushed",
    };
    static const int dimensions[] = { POTTLE_MASS, POTTLE_MASS, POTTLE_VOLUME,
                                      POTTLE_COUNT, POTTLE_CONTAINER };
    char x[60];
    const char *id = fuzz_pick_food(in, recipe);
    const char *name = pottle_food_name(fuzz_catalogue(), id, fuzz_pick(in, 3));
    const char *form = ONE_OF(in, forms), *state = ONE_OF(in, states);
    const int dimension = ONE_OF(in, dimensions);
    number(in, x, sizeof x);
    command_say(c, "%s %s %s%s%s", x, any_unit(in, dimension), form,
                name != NULL ? name : id, state);
}

static void
jars(fuzz_input *in, command_line *c)
{
    char x[60];
    number(in, x, sizeof x);
    command_say(c, "%s %s", x, any_jar(in));
}

static const char *
any_file(fuzz_input *in)
{
    static const char *const files[] = {
        "kitchen.xml",
        "new.xml",
        "own/green-salsa.xml",
        "broken.xml",
        "furlongs.xml",
        "text.xml",
        "jars.xml",
        "chile-salsa.xml",
        "pickled-asparagus.xml",
        "nothing/new.xml",
        "own",
        "\xFF.xml",
    };
    return ONE_OF(in, files);
}

/* One of what stands between bars, as "hot|raw". */
static void
one_between_bars(fuzz_input *in, command_line *c, const char *list)
{
    size_t n = 1;
    for (const char *s = list; *s != '\0'; s++)
        n += *s == '|';
    for (size_t which = fuzz_pick(in, n); which > 0; which--)
        list = strchr(list, '|') + 1;
    command_add(c, list, strcspn(list, "|"));
}

/* A value for an option, by what its help calls it. */
static void
value(fuzz_input *in, command_line *c, const command *self, const option *o,
      const pottle_recipe *recipe)
{
    static const struct {
        const char *called, *list;
    } lists[] = {
        { "METHOD", "boiling-water|dial-gauge|weighted-gauge|steam" },
        { "hot|raw", "hot|raw|cold" },
        { "HOB", "induction|electric|gas|wood" },
        { "HOW", "followed|wrong|untested" },
        { "TIME", "14:30|2:30 pm|9 am|0:00|noon|25:00|23:59" },
        { "WHAT", "recipes|foods|jars|units|kinds|mishaps" },
        { "FORM", "diced|sliced|crushed|whole|chopped|packed|liquid" },
        { "FOLDER", "own|home|nothing" },
        { "'P high|low'", "1 psi high|0 psi|2.5 psi high|13.8 kPa low" },
        { "NAME", "very-light|light|medium|heavy|very-heavy" },
        { "E", "5 g|1 %|0 %|200 %|0.001 %" },
    };
    static const struct {
        const char *called;
        int dimension;
    } measured[] = {
        { "H", POTTLE_LENGTH },   { "M", POTTLE_MASS },
        { "MASS", POTTLE_MASS },  { "V", POTTLE_VOLUME },
        { "L", POTTLE_LENGTH },   { "V|M", POTTLE_VOLUME },
        { "M|POT", POTTLE_MASS }, { "'N UNIT'", POTTLE_CONTAINER },
    };
    const char *called = o->value;
    char x[60];
    if (fuzz_pick(in, 12) == 11) {
        command_say(c, "%s", odd_word(in));
        return;
    }
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++)
        if (strcmp(lists[i].called, called) == 0) {
            one_between_bars(in, c, lists[i].list);
            return;
        }
    for (size_t i = 0; i < sizeof measured / sizeof measured[0]; i++)
        if (strcmp(measured[i].called, called) == 0) {
            quantity(in, c, measured[i].dimension);
            return;
        }
    number(in, x, sizeof x);
    if (strcmp(called, "'AMOUNT FOOD'") == 0)
        phrase(in, c, recipe);
    else if (strcmp(called, "'N JAR'") == 0)
        jars(in, c);
    else if (strcmp(called, "JAR") == 0)
        command_say(c, "%s", any_jar(in));
    else if (strcmp(called, "FILE") == 0)
        command_say(c, "%s", any_file(in));
    else if (strcmp(called, "UNIT") == 0)
        command_say(c, "%s", any_unit(in, -1));
    else if (strcmp(called, "FOOD") == 0)
        command_say(c, "%s", fuzz_pick_food(in, recipe));
    else if (strcmp(called, "ID") == 0)
        command_say(c, "%s", pottle_recipe_id(recipe));
    else if (strcmp(called, "KIND") == 0 && self == &rescue_command)
        one_between_bars(in, c, "powdered|liquid|none");
    else if (strcmp(called, "KIND") == 0)
        command_say(c, "%s", pottle_recipe_kind(recipe));
    else if (strcmp(called, "T") == 0)
        command_say(c, "%s %s", x, fuzz_pick(in, 2) == 0 ? "min" : "degC");
    else if (strcmp(called, "P") == 0)
        command_say(c, "%s%s", x, fuzz_pick(in, 2) == 0 ? "" : " kW");
    else
        command_say(c, "%s", x);
}

static void
give(fuzz_input *in, command_line *c, const command *self, const option *o,
     const pottle_recipe *recipe)
{
    command_say(c, "--%s", o->name);
    if (o->value != NULL)
        value(in, c, self, o, recipe);
}

/* The options that a command is seldom without, each most of the time; of those
 * between bars one. */
static void
give_usual(fuzz_input *in, command_line *c, const command *self,
           const char *usual, const pottle_recipe *recipe)
{
    while (*usual != '\0') {
        const size_t n = strcspn(usual, " ");
        command_line one = { .words = 0 };
        char group[80];
        snprintf(group, sizeof group, "%.*s", (int)n, usual);
        one_between_bars(in, &one, group);
        const option *o = self->options;
        while (o->name != NULL && strcmp(o->name, one.word[0]) != 0)
            o++;
        if (o->name != NULL && fuzz_pick(in, 12) != 11)
            give(in, c, self, o, recipe);
        usual += n + (usual[n] == ' ');
    }
}

/* The operands of the commands that take a word of their own, and the options
 * that go with it. */
static const char *
words_of_liquid(fuzz_input *in, command_line *c, const pottle_recipe *recipe)
{
    static const struct {
        const char *kind;
        bool recipe;
        const char *usual;
    } kinds[] = {
        { "syrup", false, "class|brix fill|volume" },
        { "brine", false, "percent volume|water" },
        { "brine", true, "volume|have" },
        { "acid", true, "fill" },
        { "juice", false, "fruit|juice" },
        { "vinegar", false, "strength" },
    };
    const size_t k = fuzz_pick(in, sizeof kinds / sizeof kinds[0]);
    command_say(c, "%s", kinds[k].kind);
    if (kinds[k].recipe)
        command_say(c, "%s", pottle_recipe_id(recipe));
    return kinds[k].usual;
}

static const char *
words_of_kitchen(fuzz_input *in, command_line *c)
{
    static const char *const names[] = { "big", "jam pan", "honey", "new one",
                                         "a&b" };
    const size_t which = fuzz_pick(in, 9);
    if (which == 0) {
        command_say(c, "show");
    } else if (which < 3) {
        command_say(c, "remove");
        one_between_bars(in, c, "canner|pot|jar");
        command_say(c, "%s", ONE_OF(in, names));
    } else {
        command_say(c, "set");
        one_between_bars(in, c,
                         "altitude|cup|scale|thermometer|canner|pot|jars");
        switch (which) {
        case 3: quantity(in, c, POTTLE_LENGTH); break;
        case 4: one_between_bars(in, c, "us|imperial|metric"); break;
        case 5:
            one_between_bars(in, c, "0.5 %|1 g|1 degF low|2 degC high");
            break;
        case 6: jars(in, c); break;
        default: command_say(c, "%s", ONE_OF(in, names)); break;
        }
        if (which == 8) {
            one_between_bars(in, c, "dial-gauge|boiling-water|weighted-gauge");
            return "holds gauge";
        }
        return which == 7 ? "tare width" : "";
    }
    return "";
}

static const char *
words_of(fuzz_input *in, command_line *c, const command *self,
         const pottle_recipe *recipe)
{
    if (self == &convert_command) {
        phrase(in, c, recipe);
        return "to";
    }
    if (self == &check_command) {
        command_say(c, "%s", any_file(in));
        return "";
    }
    if (self == &show_command) {
        const size_t which = fuzz_pick(in, 4);
        if (which < 3)
            command_say(c, "%s",
                        which == 0   ? pottle_recipe_id(recipe)
                        : which == 1 ? fuzz_pick_food(in, recipe)
                                     : any_jar(in));
        return which < 3 ? "" : "list";
    }
    if (self == &rescue_command) {
        size_t n = 0;
        const pottle_mishap *m = pottle_mishaps(fuzz_catalogue(), &n);
        command_say(c, "%s", m[fuzz_pick(in, n)].id);
        return fuzz_pick(in, 2) == 0 ? "hours" : "volume|fraction";
    }
    if (self == &jar_command) {
        if (fuzz_pick(in, 4) == 0) {
            command_say(c, "list");
            return "";
        }
        command_say(c, "measure");
        one_between_bars(in, c, "honey|tall one|pint|a&b");
        return "empty full";
    }
    if (self == &liquid_command)
        return words_of_liquid(in, c, recipe);
    if (self == &kitchen_command)
        return words_of_kitchen(in, c);
    if (self == &gel_command || self == &recipes_command)
        return "";
    command_say(c, "%s",
                fuzz_pick(in, 16) == 15 ? "green-salsa"
                                        : pottle_recipe_id(recipe));
    if (self == &process_command)
        return "jar altitude";
    if (self == &chain_command)
        return "picked|bought|container|measured";
    return self == &cook_command   ? "batches|have|fill pot-tare started"
         : self == &fill_command   ? "batches|have|fill shelf"
         : fuzz_pick(in, 16) == 15 ? "volume headspace jar"
                                   : "batches|have|fill";
}

void
command_choose(const uint8_t *data, size_t size, command_line *out)
{
    fuzz_input in = { data, data + size };
    const pottle_recipe *recipe = fuzz_pick_recipe(&in);
    size_t all = 0, options = 0;
    while (commands[all] != NULL)
        all++;
    const command *self = commands[fuzz_pick(&in, all)];
    while (self->options[options].name != NULL)
        options++;
    command_say(out, "pottle");
    command_say(out, "%s", self->name);
    const char *usual = words_of(&in, out, self, recipe);
    give_usual(&in, out, self, usual, recipe);
    for (size_t more = fuzz_pick(&in, 6); more > 0; more--) {
        const size_t which = fuzz_pick(&in, options + 1);
        if (which < options)
            give(&in, out, self, &self->options[which], recipe);
        else
            command_say(out, "%s", odd_word(&in));
    }
}
