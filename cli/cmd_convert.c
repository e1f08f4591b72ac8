/* cmd_convert.c - pottle convert: one measure of a food in another. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "to", "UNIT",
      "unit of the answer: g, kg, oz, lb, cup, ml, l, bushel, count ..." },
    { "as", "FORM", "form of the answer: diced, sliced, crushed ..." },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* Foods read so far; a stream of phrases names the same few again and again. */
enum { CACHE = 64 };
typedef struct foods {
    pottle_food *food[CACHE];
    size_t count;
} foods;

static pottle_status
get_food(const pottle_catalogue *c, foods *f, const char *id,
         const pottle_food **out, pottle_error *error)
{
    for (size_t i = 0; i < f->count; i++) {
        if (strcmp(pottle_food_id(f->food[i]), id) == 0) {
            *out = f->food[i];
            return POTTLE_OK;
        }
    }
    if (f->count == CACHE)
        pottle_food_free(f->food[--f->count]);
    const pottle_status status =
        pottle_food_read(c, id, &f->food[f->count], error);
    if (status == POTTLE_OK)
        *out = f->food[f->count++];
    return status;
}

/* The parts of a line in one go: for so many, printf takes longer than the rest
 * of the answer. */
static void
print_parts(const char *const *part, size_t count)
{
    char line[400];
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        const size_t k = strlen(part[i]);
        if (k > sizeof line - n) {
            fwrite(line, 1, n, stdout);
            n = 0;
        }
        if (k > sizeof line) {
            fputs(part[i], stdout);
        } else {
            memcpy(line + n, part[i], k);
            n += k;
        }
    }
    fwrite(line, 1, n, stdout);
}

/* What a conversion rests on. */
static void
print_basis(const pottle_catalogue *catalogue, const pottle_basis *basis)
{
    for (size_t k = 0; k < basis->notes; k++)
        print_folded(stdout, "  ", basis->note[k]);
    /* the first source in full, the others by their keys: pottle show has them
     * all */
    for (size_t k = 0; k < basis->cites; k++) {
        char text[400];
        if (k == 0)
            source_text(catalogue, basis->cite[k].source, basis->cite[k].at,
                        text, sizeof text);
        else
            snprintf(text, sizeof text, "%s [%s]", basis->cite[k].at,
                     basis->cite[k].source);
        print_folded(stdout, k == 0 ? "  source: " : "    also: ", text);
    }
}

/* The end of a unit's name where there is more than one of it: "cups", "boxes",
 * and "qt". */
static const char *
plural_end(const pottle_unit *unit, double count)
{
    const char *name = unit->symbol;
    const size_t n = strlen(name);
    if (!(count > 1) || n < 3 || strchr("cbpl", name[0]) == NULL)
        return "";
    return name[n - 1] == 'x' ? "es" : "s";
}

static void
print_text(const pottle_catalogue *catalogue, const pottle_food *food,
           const pottle_phrase *phrase, const pottle_conversion *c, bool brief)
{
    const pottle_interval i = pottle_estimate_interval(c->value);
    char low[40], middle[40], high[40], from[40], to[40] = "";
    short_number(i.low, low, sizeof low);
    short_number(i.expected, middle, sizeof middle);
    short_number(i.high, high, sizeof high);
    short_number(phrase->low, from, sizeof from);
    if (phrase->high > phrase->low) {
        to[0] = '-';
        short_number(phrase->high, to + 1, sizeof to - 1);
    }
    const char *unit =
        c->unit->dimension == POTTLE_COUNT ? "pieces" : c->unit->symbol;
    /* what is weighed before it is cut is not cut yet */
    const char *form = phrase->form[0] != '\0'   ? phrase->form
                     : phrase->state == c->state ? c->form
                                                 : "";
    const bool range = strcmp(low, high) != 0,
               other = c->form[0] != '\0' && strcmp(c->form, form) != 0;
    const char *const parts[] = {
        from,
        to,
        " ",
        phrase->unit->dimension == POTTLE_COUNT ? phrase->size
                                                : phrase->unit->symbol,
        plural_end(phrase->unit, phrase->high),
        form[0] != '\0' ? " " : "",
        form,
        " ",
        pottle_food_title(food),
        phrase->state == POTTLE_PICKED      ? " as picked"
        : phrase->state == POTTLE_PURCHASED ? " as bought"
                                            : "",
        " = ",
        middle,
        " ",
        unit,
        plural_end(c->unit, i.expected),
        range ? " (" : "",
        range ? low : "",
        range ? " to " : "",
        range ? high : "",
        range ? ")" : "",
        c->state == POTTLE_PREPARED && phrase->state != POTTLE_PREPARED
            ? ", ready to use"
            : "",
        other ? ", " : "",
        other ? c->form : "",
        "\n",
    };
    print_parts(parts, sizeof parts / sizeof parts[0]);
    if (brief)
        return;
    print_basis(catalogue, &c->basis);
}

static json_t *
to_json(const pottle_food *food, const pottle_phrase *phrase,
        const pottle_conversion *c)
{
    json_t *result = json_interval(c->value);
    json_object_set_new(result, "unit", json_string(c->unit->id));
    json_t *amount =
        json_pack("{s:f, s:s}", "value", phrase->low, "unit", phrase->unit->id);
    if (phrase->high > phrase->low)
        json_object_set_new(amount, "to", json_real(phrase->high));
    json_t *root = json_pack(
        "{s:s, s:o, s:s, s:o, s:o}", "food", pottle_food_id(food), "form",
        json_text(c->form[0] != '\0' ? c->form : phrase->form), "state",
        pottle_state_name((int)c->state), "amount", amount, "result", result);
    json_add_basis(root, &c->basis);
    return root;
}

/* Converts and prints as text, or gives *root to print where that is wanted. */
static pottle_status
convert(const pottle_catalogue *catalogue, foods *cache, household *house,
        const char *text, const pottle_unit *to, const char *as, json_t **root,
        bool brief, pottle_error *error)
{
    pottle_phrase phrase;
    const pottle_food *food = NULL;
    pottle_conversion c;
    pottle_status status =
        pottle_phrase_read(catalogue, text, NULL, 0, &phrase, error);
    house->cup_taken = false;
    if (status == POTTLE_OK)
        kitchen_phrase(house, text, &phrase);
    if (status == POTTLE_OK)
        status = get_food(catalogue, cache, phrase.food, &food, error);
    if (status == POTTLE_OK)
        status = pottle_convert(catalogue, food, &phrase, to, as, &c, error);
    if (status != POTTLE_OK)
        return status;
    if (root != NULL) {
        *root = to_json(food, &phrase, &c);
        kitchen_add_cup(house, *root, us_unit(c.unit));
        return POTTLE_OK;
    }
    print_text(catalogue, food, &phrase, &c, brief);
    if (!brief)
        kitchen_note(house, us_unit(c.unit));
    return POTTLE_OK;
}

/* Phrases from stdin, a line each; a line that cannot be read is said and the
 * rest goes on. */
static int
convert_lines(const pottle_catalogue *catalogue, foods *cache, household *house,
              const pottle_unit *to, const char *as, bool json)
{
    line_reader in = { 0 };
    int result = DONE;
    size_t n = 0;
    for (char *line; (line = lines_next(&in, &n)) != NULL;) {
        if (strlen(line) != n) {
            fprintf(stderr, "pottle: line %lu: holds a NUL byte\n", in.number);
            result = USAGE;
            continue;
        }
        if (line[strspn(line, " \t\r")] == '\0')
            continue;
        pottle_error error;
        json_t *root = NULL;
        int this_one = DONE;
        if (convert(catalogue, cache, house, line, to, as, json ? &root : NULL,
                    true, &error) != POTTLE_OK) {
            complain("line %lu: %s", in.number, error.what);
            this_one = exit_for(&error);
        } else if (json && print_json(root) != DONE) {
            lines_free(&in);
            return FAILED;
        }
        result = this_one > result ? this_one : result;
    }
    if (in.failed) {
        fprintf(stderr, "pottle: line %lu: cannot read standard input\n",
                in.number + 1);
        result = FAILED;
    }
    lines_free(&in);
    return result;
}

static int
run(const command *self, const args *a, bool json)
{
    const char *unit = args_value(a, "to"), *as = args_value(a, "as");
    if (a->operands != 1)
        return usage_error(self, "convert takes one amount of food in quotes, "
                                 "or - for lines on standard input");
    if (unit == NULL)
        return usage_error(self, "convert needs --to UNIT");
    const pottle_unit *to = pottle_unit_find(unit);
    if (to == NULL)
        return usage_error(self,
                           "'%.40s' is not a unit that is known; some are g, "
                           "kg, oz, lb, cup, tbsp, ml, l, bushel",
                           unit);
    pottle_catalogue *catalogue = NULL;
    const bool lines = strcmp(a->operand[0], "-") == 0;
    int result =
        open_catalogue(a,
                       POTTLE_WITH_NAMES | POTTLE_WITH_FIGURES |
                           (json || lines ? 0u : (unsigned)POTTLE_WITH_SOURCES),
                       &catalogue);
    if (result != DONE)
        return result;
    foods cache = { { NULL }, 0 };
    household house;
    result = kitchen_open(a, NULL, false, &house);
    if (result != DONE) {
        /* said already */
    } else if (lines) {
        result = convert_lines(catalogue, &cache, &house, to, as, json);
    } else {
        pottle_error error;
        json_t *root = NULL;
        if (convert(catalogue, &cache, &house, a->operand[0], to, as,
                    json ? &root : NULL, false, &error) != POTTLE_OK)
            result = report(catalogue, &error);
        else if (json)
            result = print_json(root);
    }
    for (size_t i = 0; i < cache.count; i++)
        pottle_food_free(cache.food[i]);
    pottle_catalogue_free(catalogue);
    return result;
}

const command convert_command = {
    "convert", run,
    "'AMOUNT FOOD' --to UNIT [--as FORM]\n- --to UNIT [--as FORM]   (a phrase "
    "a line on standard input)",
    "one measure of a food in another", options
};
