/* food.c - reading a food and giving it out. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "xml.h"

/* Bulk densities of everything eaten lie in here: dried leaves to syrup and
 * salt (g/mL). */
static const double lightest = 0.01, heaviest = 2.2;

static void
read_acid(pottlei_reader *reader, const pottlei_node *node,
          const pottle_cite *parent, pottle_acid *acid)
{
    static const char *const classes[] = { "neutral", "high-acid", "borderline",
                                           "low-acid", NULL };
    pottlei_xml_only(reader, node,
                     "class ph-low ph-high strength source at standing note");
    acid->class_ = (pottle_acid_class)pottlei_xml_choice(reader, node, "class",
                                                         classes, -1);
    acid->has_ph = pottlei_xml_peek(node, "ph-low") != NULL;
    if (acid->has_ph) {
        acid->ph_low = pottlei_xml_number(reader, node, "ph-low", -1);
        acid->ph_high =
            pottlei_xml_number(reader, node, "ph-high", acid->ph_low);
        if (!(acid->ph_low > 0 && acid->ph_low <= acid->ph_high &&
              acid->ph_high <= 14))
            pottlei_xml_fail(reader, node, "order",
                             "the pH range is not in order");
        /* 4.6 is the limit of 21 CFR 114: above it a food is low-acid */
        if (acid->class_ == POTTLE_HIGH_ACID && acid->ph_high > 4.6)
            pottlei_xml_fail(reader, node, "acid-class",
                             "a food whose pH reaches %g is not high-acid",
                             acid->ph_high);
    }
    acid->strength = pottlei_xml_number(reader, node, "strength", 0);
    acid->cite = pottlei_xml_cite(reader, node, parent);
}

/* A blank member is -1. */
static double
percent_of(pottlei_reader *reader, const pottlei_node *node, const char *name)
{
    return pottlei_xml_peek(node, name) == NULL
             ? -1
             : pottlei_xml_number(reader, node, name, -1);
}

static void
read_composition(pottlei_reader *reader, const pottlei_node *node,
                 const pottle_cite *parent, pottle_composition *c)
{
    pottlei_xml_only(
        reader, node,
        "water carbohydrate fibre sugars ash source at standing note");
    c->known = true;
    c->water = pottlei_xml_number(reader, node, "water", -1);
    c->carbohydrate = percent_of(reader, node, "carbohydrate");
    c->fibre = percent_of(reader, node, "fibre");
    c->sugars = percent_of(reader, node, "sugars");
    c->ash = percent_of(reader, node, "ash");
    c->cite = pottlei_xml_cite(reader, node, parent);
    const double sum = c->water + (c->carbohydrate > 0 ? c->carbohydrate : 0) +
                       (c->ash > 0 ? c->ash : 0);
    if (sum > 101) /* figures are rounded one by one */
        pottlei_xml_fail(reader, node, "range", "the parts add up to %g %%",
                         sum);
}

static void
read_trim(pottlei_reader *reader, const pottlei_node *node,
          const pottle_cite *parent, pottle_trim *trim)
{
    pottlei_xml_only(reader, node,
                     "id from refuse keeps source at standing note");
    trim->id = pottlei_xml_id(reader, node, "id", NULL);
    /* nothing is trimmed of what is prepared */
    trim->from = (pottle_state)(pottlei_xml_choice(reader, node, "from",
                                                   pottlei_states + 1, -1) +
                                1);
    const bool refuse = pottlei_xml_peek(node, "refuse") != NULL;
    if (refuse == (pottlei_xml_peek(node, "keeps") != NULL))
        pottlei_xml_fail(reader, node, "attribute",
                         "<trim> needs either 'refuse' or 'keeps'");
    else
        trim->keeps =
            refuse
                ? 1.0 - pottlei_xml_number(reader, node, "refuse", -1) / 100.0
                : pottlei_xml_number(reader, node, "keeps", -1) / 100.0;
    trim->cite = pottlei_xml_cite(reader, node, parent);
    if (reader->status == POTTLE_OK && !(trim->keeps > 0 && trim->keeps <= 1))
        pottlei_xml_fail(reader, node, "range",
                         "a trim keeps more than nothing and at most all");
}

static void
read_form(pottlei_reader *reader, const pottlei_node *node,
          const pottle_cite *parent, pottle_form *form)
{
    pottlei_xml_only(reader, node, "id bulk");
    form->id = pottlei_xml_id(reader, node, "id", NULL);
    form->bulk = pottlei_xml_id(reader, node, "bulk", NULL);
    pottle_weight *weight =
        pottlei_xml_room(reader, node, "weight", sizeof *weight);
    for (const pottlei_node *c = pottlei_xml_first_of(reader, node, "weight");
         c != NULL; c = pottlei_xml_next_of(reader, c)) {
        pottlei_xml_only(reader, c,
                         "of measure value unit source at standing note");
        pottle_weight *w = &weight[form->weights++];
        const pottle_unit *measure =
            pottlei_xml_unit(reader, c, "measure", POTTLE_VOLUME);
        const pottle_unit *unit =
            pottlei_xml_unit(reader, c, "unit", POTTLE_MASS);
        w->of = pottlei_xml_number(reader, c, "of", -1);
        w->grams = pottlei_xml_number(reader, c, "value", -1) * unit->factor;
        w->volume_ml = w->of * measure->factor;
        w->cite = pottlei_xml_cite(reader, c, parent);
        char text[96];
        snprintf(text, sizeof text, "%.30s %s",
                 pottlei_xml_peek(c, "value") ? pottlei_xml_peek(c, "value")
                                              : "",
                 unit->id);
        w->printed = pottlei_arena_text(reader->arena, text);
        snprintf(text, sizeof text, "%.30s %s",
                 pottlei_xml_peek(c, "of") ? pottlei_xml_peek(c, "of") : "",
                 measure->id);
        w->measure = pottlei_arena_text(reader->arena, text);
        if ((w->printed == NULL || w->measure == NULL) &&
            reader->status == POTTLE_OK)
            reader->status = pottlei_fail(reader->error, POTTLE_ENOMEM,
                                          "memory", "no memory");
        const double density = w->grams / w->volume_ml;
        if (reader->status == POTTLE_OK &&
            !(density >= lightest && density <= heaviest))
            pottlei_xml_fail(reader, c, "range",
                             "a density of %g g/mL is out of range", density);
    }
    form->weight = weight;
    if (form->weights == 0)
        pottlei_xml_fail(reader, node, "element", "<form> needs a <weight>");
}

static void
read_piece(pottlei_reader *reader, const pottlei_node *node,
           const pottle_cite *parent, pottle_piece *piece)
{
    pottlei_xml_only(reader, node,
                     "size value unit state source at standing note");
    piece->size = pottlei_xml_id(reader, node, "size", NULL);
    piece->grams = pottlei_xml_number(reader, node, "value", -1) *
                   pottlei_xml_unit(reader, node, "unit", POTTLE_MASS)->factor;
    piece->state = (pottle_state)pottlei_xml_choice(reader, node, "state",
                                                    pottlei_states, -1);
    piece->cite = pottlei_xml_cite(reader, node, parent);
    if (!(piece->grams > 0))
        pottlei_xml_fail(reader, node, "range", "a piece weighs something");
}

static void
read_container(pottlei_reader *reader, const pottlei_node *node,
               const pottle_cite *parent, pottle_container *container)
{
    pottlei_xml_only(reader, node, "of low high unit source at standing note");
    const double g =
        pottlei_xml_unit(reader, node, "unit", POTTLE_MASS)->factor;
    container->of = pottlei_xml_unit(reader, node, "of", POTTLE_CONTAINER);
    container->low_g = pottlei_xml_number(reader, node, "low", -1) * g;
    container->high_g = pottlei_xml_number(reader, node, "high", -1) * g;
    container->cite = pottlei_xml_cite(reader, node, parent);
    if (!(container->low_g > 0 && container->low_g <= container->high_g))
        pottlei_xml_fail(reader, node, "order",
                         "the weights of a container are not in order");
}

static void
read_children(pottlei_reader *reader, const pottlei_node *root,
              pottle_food *food, const pottle_cite *cite)
{
    pottlei_xml_once(reader, root, "title acid composition");
    pottle_trim *trim = pottlei_xml_room(reader, root, "trim", sizeof *trim);
    pottle_form *form = pottlei_xml_room(reader, root, "form", sizeof *form);
    pottle_piece *piece =
        pottlei_xml_room(reader, root, "piece", sizeof *piece);
    pottle_container *container =
        pottlei_xml_room(reader, root, "container", sizeof *container);
    pottle_note *note = pottlei_xml_room(reader, root, "note", sizeof *note);
    for (const pottlei_node *e = pottlei_xml_first(reader, root); e != NULL;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "title")) {
            food->title = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "acid")) {
            read_acid(reader, e, cite, &food->acid);
        } else if (pottlei_xml_is(e, "composition")) {
            read_composition(reader, e, cite, &food->composition);
        } else if (pottlei_xml_is(e, "trim")) {
            read_trim(reader, e, cite, &trim[food->trim_count++]);
        } else if (pottlei_xml_is(e, "form")) {
            read_form(reader, e, cite, &form[food->form_count++]);
        } else if (pottlei_xml_is(e, "piece")) {
            read_piece(reader, e, cite, &piece[food->piece_count++]);
        } else if (pottlei_xml_is(e, "container")) {
            read_container(reader, e, cite,
                           &container[food->container_count++]);
        } else if (pottlei_xml_is(e, "note")) {
            note[food->note_count++] =
                (pottle_note){ "note", pottlei_xml_text(reader, e),
                               pottlei_xml_cite(reader, e, cite) };
        } else {
            pottlei_xml_unknown(reader, e);
        }
    }
    food->trim = trim;
    food->form = form;
    food->piece = piece;
    food->container = container;
    food->note = note;
}

pottle_status
pottlei_food_read_file(const char *path, pottle_food **out, pottle_error *error)
{
    pottle_food *food = calloc(1, sizeof *food);
    if (food == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory", "no memory");
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &food->arena, error) == POTTLE_OK) {
        const pottlei_node *root = pottlei_xml_root(&reader, "food");
        if (root != NULL) {
            pottlei_xml_only(&reader, root, "id group source at standing note");
            food->id = pottlei_xml_id(&reader, root, "id", NULL);
            food->group = pottlei_xml_id(&reader, root, "group", NULL);
            food->title = food->acid.cite.source = "";
            /* the place may differ in every child, so it is not asked for here
             */
            const pottle_cite cite = {
                pottlei_xml_id(&reader, root, "source", ""),
                pottlei_xml_attr(&reader, root, "at", ""), "",
                (pottle_standing)(pottlei_xml_choice(&reader, root, "standing",
                                                     pottlei_standings, 0) +
                                  1)
            };
            read_children(&reader, root, food, &cite);
            if (food->title[0] == '\0' || food->acid.cite.source[0] == '\0')
                pottlei_xml_fail(&reader, root, "element",
                                 "<food> needs a <title> and an <acid>");
            char stem[64];
            pottlei_stem(path, stem, sizeof stem);
            if (strcmp(stem, food->id) != 0)
                pottlei_xml_fail(&reader, root, "file-name",
                                 "the file of '%s' must be named after it",
                                 food->id);
        }
    }
    if (reader.status != POTTLE_OK) {
        pottle_food_free(food);
        return reader.status;
    }
    *out = food;
    return POTTLE_OK;
}

pottle_status
pottle_food_read(const pottle_catalogue *catalogue, const char *id,
                 pottle_food **out, pottle_error *error)
{
    if (catalogue == NULL || id == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, id or place for the result");
    /* names.xml lies among the foods and is none */
    if (!pottlei_id_valid(id) || strcmp(id, "names") == 0)
        return pottlei_fail(error, POTTLE_ENOENT, "unknown-food",
                            "'%.60s' is not the id of a food", id);
    char path[512], file[80];
    snprintf(file, sizeof file, "%s.xml", id);
    pottle_status status =
        pottlei_path(path, sizeof path, error, catalogue->folder, "foods", file,
                     (char *)NULL);
    if (status == POTTLE_OK)
        status = pottlei_food_read_file(path, out, error);
    if (status == POTTLE_ENOENT)
        pottlei_fail(error, status, "unknown-food", "there is no food '%s'",
                     id);
    return status;
}

void
pottle_food_free(pottle_food *food)
{
    if (food == NULL)
        return;
    pottlei_arena_free(&food->arena);
    free(food);
}

const char *
pottle_food_id(const pottle_food *food)
{
    return food->id;
}
const char *
pottle_food_title(const pottle_food *food)
{
    return food->title;
}

/* Whether a word of the title begins as the form does: "flakes" says
 * flaked. */
static bool
says(const char *title, const char *form)
{
    size_t n = strlen(form);
    if (n > 4 && strcmp(form + n - 2, "ed") == 0)
        n -= 2;
    for (const char *s = title; *s != '\0';) {
        s += strspn(s, " ,");
        if (strncmp(s, form, n) == 0)
            return true;
        s += strcspn(s, " ,");
    }
    return false;
}

const char *
pottle_form_said(const pottle_food *food, const char *form)
{
    static const char *const two[][2] = {
        { "coarsely-chopped", "coarsely chopped" },
        { "finely-chopped", "finely chopped" },
        { "lightly-packed", "lightly packed" }
    };
    size_t n = 0;
    const pottle_form *known = pottle_food_forms(food, &n);
    /* what is cut up in the kitchen is always said; a spice, a salt, a fat
     * comes as it is */
    const bool grown = strcmp(food->group, "fruit") == 0 ||
                       strcmp(food->group, "vegetable") == 0 ||
                       strcmp(food->group, "herb") == 0 ||
                       strcmp(food->group, "meat") == 0,
               spice = strcmp(food->group, "spice") == 0,
               whole = strcmp(form, "whole") == 0;
    if (form[0] == '\0' || strcmp(form, "liquid") == 0 ||
        says(food->title, form) || (spice && whole) ||
        (!grown && n == 1 && (whole || strcmp(form, "ground") == 0)) ||
        (strcmp(form, "packed") == 0 && strcmp(food->group, "pantry") == 0))
        return "";
    const char *said = "";
    for (size_t i = 0; i < n; i++)
        if (strcmp(form, known[i].id) == 0)
            said = known[i].id;
    for (size_t i = 0; i < sizeof two / sizeof two[0]; i++)
        if (strcmp(said, two[i][0]) == 0)
            said = two[i][1];
    return said;
}
const char *
pottle_food_group(const pottle_food *food)
{
    return food->group;
}
const pottle_acid *
pottle_food_acid(const pottle_food *food)
{
    return &food->acid;
}
const pottle_composition *
pottle_food_composition(const pottle_food *food)
{
    return &food->composition;
}

const pottle_trim *
pottle_food_trims(const pottle_food *food, size_t *count)
{
    *count = food->trim_count;
    return food->trim;
}

const pottle_form *
pottle_food_forms(const pottle_food *food, size_t *count)
{
    *count = food->form_count;
    return food->form;
}

const pottle_form *
pottle_food_form(const pottle_food *food, const char *id)
{
    for (size_t i = 0; i < food->form_count; i++)
        if (strcmp(food->form[i].id, id) == 0)
            return &food->form[i];
    return NULL;
}

const pottle_piece *
pottle_food_pieces(const pottle_food *food, size_t *count)
{
    *count = food->piece_count;
    return food->piece;
}

const pottle_container *
pottle_food_containers(const pottle_food *food, size_t *count)
{
    *count = food->container_count;
    return food->container;
}

const pottle_note *
pottle_food_notes(const pottle_food *food, size_t *count)
{
    *count = food->note_count;
    return food->note;
}
