/* ingredients_read.c - reading what goes into a recipe: its ingredients, what
 * is added to each jar, and the quantities of produce that its source prints.
 *
 * Every amount pottlei_keeps what was printed; roles and keep rules are known
 * words. */
#include <config.h>

#include <string.h>

#include "recipe_read.h"

static const char *const roles[] = { "produce", "acid",  "low-acid",  "sugar",
                                     "salt",    "spice", "thickener", "pectin",
                                     "liquid",  "other", NULL };

static const char *
jar_of(pottlei_reader *reader, const pottlei_node *node)
{
    return pottlei_xml_id(reader, node, "jar", NULL);
}

static const char *
role_of(pottlei_reader *reader, const pottlei_node *node)
{
    return roles[pottlei_xml_choice(reader, node, "role", roles, -1)];
}

static const pottle_unit *
amount_unit(pottlei_reader *reader, const pottlei_node *node, const char *name)
{
    const pottle_unit *unit = pottlei_xml_unit(reader, node, name, -1);
    /* pieces are counted one by one in the catalogue */
    const bool dozens = unit->dimension == POTTLE_COUNT && unit->factor > 1;
    if (dozens ||
        (unit->dimension != POTTLE_MASS && unit->dimension != POTTLE_VOLUME &&
         unit->dimension != POTTLE_COUNT))
        pottlei_xml_fail(reader, node, "unit",
                         "'%s' is not a unit of an amount", unit->id);
    return unit;
}

/* Foods that may stand in the place of an ingredient, and its amounts as
 * printed for other batches. */
static void
read_variants(pottlei_reader *reader, const pottlei_node *node,
              pottle_ingredient *i)
{
    pottle_alternative *alternative =
        pottlei_xml_room(reader, node, "or", sizeof *alternative);
    pottle_printed *other =
        pottlei_xml_room(reader, node, "printed", sizeof *other);
    for (const pottlei_node *c = pottlei_xml_first(reader, node); c != NULL;
         c = pottlei_xml_next(reader, c)) {
        if (pottlei_xml_is(c, "or")) {
            pottlei_xml_only(reader, c,
                             "food form rule source at standing note");
            alternative[i->alternatives++] = (pottle_alternative){
                pottlei_xml_id(reader, c, "food", NULL),
                pottlei_xml_id(reader, c, "form", i->form),
                pottlei_xml_id(reader, c, "rule", i->rule)
            };
        } else if (pottlei_xml_is(c, "printed")) {
            pottlei_xml_only(reader, c,
                             "batch amount unit source at standing note");
            pottle_printed *p = &other[i->printeds++];
            p->batch = pottlei_xml_number(reader, c, "batch", -1);
            p->amount = pottlei_xml_number(reader, c, "amount", -1);
            p->unit = amount_unit(reader, c, "unit");
            if (!(p->batch > 0))
                pottlei_xml_fail(reader, c, "range", "a batch of 0");
        } else {
            pottlei_xml_unknown(reader, c);
        }
    }
    i->alternative = alternative;
    i->other = other;
}

static void
read_ingredient(pottlei_reader *reader, const pottlei_node *node,
                const pottle_cite *parent, pottle_ingredient *i)
{
    pottlei_xml_only(
        reader, node,
        "food amount amount-to unit size state form trim then role keep rule "
        "optional stays per per-food per-form raw raw-unit source at standing "
        "note");
    i->food = pottlei_xml_id(reader, node, "food", NULL);
    i->amount = pottlei_xml_number(reader, node, "amount", -1);
    i->amount_to = pottlei_xml_number(reader, node, "amount-to", i->amount);
    i->printed = pottlei_xml_attr(reader, node, "amount", NULL);
    i->unit = amount_unit(reader, node, "unit");
    i->size = pottlei_xml_id(reader, node, "size", "");
    i->state = (pottle_state)pottlei_xml_choice(reader, node, "state",
                                                pottlei_states, -1);
    i->form = pottlei_xml_id(reader, node, "form", "");
    i->trim = pottlei_xml_id(reader, node, "trim", "");
    i->then = pottlei_xml_attr(reader, node, "then", "");
    i->role = role_of(reader, node);
    i->keep = (pottle_keep)pottlei_xml_choice(reader, node, "keep",
                                              pottlei_keeps, -1);
    i->rule = pottlei_xml_id(reader, node, "rule", NULL);
    i->optional = pottlei_xml_flag(reader, node, "optional", false);
    i->stays = pottlei_xml_flag(reader, node, "stays", true);
    i->per = pottlei_xml_peek(node, "per") != NULL
               ? amount_unit(reader, node, "per")
               : NULL;
    i->per_food =
        pottlei_xml_id(reader, node, "per-food", i->per != NULL ? NULL : "");
    i->per_form = pottlei_xml_id(reader, node, "per-form", "");
    i->raw = pottlei_xml_number(reader, node, "raw", 0);
    i->raw_unit = pottlei_xml_peek(node, "raw-unit") != NULL || i->raw > 0
                    ? amount_unit(reader, node, "raw-unit")
                    : NULL;
    i->cite = pottlei_xml_cite(reader, node, parent);
    if (i->raw_unit != NULL &&
        (!(i->raw > 0) || i->raw_unit->dimension != POTTLE_MASS))
        pottlei_xml_fail(reader, node, "raw",
                         "what was bought raw is told by its weight");
    if (i->amount_to < i->amount)
        pottlei_xml_fail(reader, node, "order",
                         "'amount-to' is below 'amount'");
    if (i->unit->dimension == POTTLE_VOLUME && i->form[0] == '\0')
        pottlei_xml_fail(
            reader, node, "form",
            "an amount by volume needs the form it was measured in");
    if (i->unit->dimension == POTTLE_COUNT && i->size[0] == '\0')
        pottlei_xml_fail(reader, node, "size",
                         "a count needs the size of a piece");
    if (!(i->amount_to > 0) && i->keep != POTTLE_FREE)
        pottlei_xml_fail(reader, node, "amount",
                         "only what is free may have no amount");
    read_variants(reader, node, i);
}

void
pottlei_read_ingredients(pottlei_reader *reader, const pottlei_node *node,
                         pottle_recipe *recipe)
{
    pottlei_xml_only(reader, node, "source at standing note");
    const pottle_cite cite = pottlei_xml_cite(reader, node, &recipe->cite);
    pottle_ingredient *ingredient =
        pottlei_xml_room(reader, node, "ingredient", sizeof *ingredient);
    for (const pottlei_node *e =
             pottlei_xml_first_of(reader, node, "ingredient");
         e != NULL; e = pottlei_xml_next_of(reader, e)) {
        read_ingredient(reader, e, &cite,
                        &ingredient[recipe->ingredient_count++]);
    }
    recipe->ingredient = ingredient;
}

static void
read_choice(pottlei_reader *reader, const pottlei_node *node,
            const pottle_cite *parent, pottle_jar_choice *choice)
{
    pottlei_xml_only(reader, node, "food");
    choice->food = pottlei_xml_id(reader, node, "food", NULL);
    pottle_jar_dose *dose = pottlei_xml_room(reader, node, "add", sizeof *dose);
    for (const pottlei_node *c = pottlei_xml_first_of(reader, node, "add");
         c != NULL; c = pottlei_xml_next_of(reader, c)) {
        pottlei_xml_only(reader, c,
                         "jar amount unit size form source at standing note");
        pottle_jar_dose *d = &dose[choice->doses++];
        d->jar = jar_of(reader, c);
        d->amount = pottlei_xml_number(reader, c, "amount", -1);
        d->printed = pottlei_xml_attr(reader, c, "amount", NULL);
        d->unit = amount_unit(reader, c, "unit");
        d->size = pottlei_xml_id(reader, c, "size", "");
        d->form = pottlei_xml_id(reader, c, "form", "");
        d->cite = pottlei_xml_cite(reader, c, parent);
        if (!(d->amount > 0))
            pottlei_xml_fail(reader, c, "amount", "a dose of nothing");
        for (const pottle_jar_dose *before = dose;
             reader->status == POTTLE_OK && before < d; before++)
            if (strcmp(before->jar, d->jar) == 0)
                pottlei_xml_fail(reader, c, "twice",
                                 "the dose of %s for a %s jar stands twice",
                                 choice->food, d->jar);
    }
    choice->dose = dose;
}

void
pottlei_read_per_jar(pottlei_reader *reader, const pottlei_node *node,
                     const pottle_cite *parent, pottle_per_jar *per)
{
    pottlei_xml_only(reader, node,
                     "role keep rule optional source at standing note");
    per->role = role_of(reader, node);
    per->keep = (pottle_keep)pottlei_xml_choice(reader, node, "keep",
                                                pottlei_keeps, -1);
    per->rule = pottlei_xml_id(reader, node, "rule", NULL);
    per->optional = pottlei_xml_flag(reader, node, "optional", false);
    per->cite = pottlei_xml_cite(reader, node, parent);
    pottle_jar_choice *choice =
        pottlei_xml_room(reader, node, "choice", sizeof *choice);
    for (const pottlei_node *c = pottlei_xml_first_of(reader, node, "choice");
         c != NULL; c = pottlei_xml_next_of(reader, c)) {
        read_choice(reader, c, &per->cite, &choice[per->choices]);
        for (size_t i = 0; reader->status == POTTLE_OK && i < per->choices; i++)
            if (strcmp(choice[i].food, choice[per->choices].food) == 0)
                pottlei_xml_fail(reader, c, "twice",
                                 "the choice of %s stands twice",
                                 choice[i].food);
        per->choices++;
    }
    per->choice = choice;
    if (per->choices == 0)
        pottlei_xml_fail(reader, node, "element", "<per-jar> needs a <choice>");
}

static void
read_load(pottlei_reader *reader, const pottlei_node *node,
          const pottle_cite *cite, pottle_load *l)
{
    pottlei_xml_only(reader, node,
                     "jar jars amount unit source at standing note");
    *l = (pottle_load){
        jar_of(reader, node), pottlei_xml_number(reader, node, "jars", -1),
        pottlei_xml_number(reader, node, "amount", -1) *
            pottlei_xml_unit(reader, node, "unit", POTTLE_MASS)->factor,
        pottlei_xml_attr(reader, node, "amount", NULL),
        pottlei_xml_cite(reader, node, cite)
    };
    if (!(l->jars > 0 && l->grams > 0))
        pottlei_xml_fail(reader, node, "range", "a load of nothing");
}

static void
read_container(pottlei_reader *reader, const pottlei_node *node,
               const pottle_cite *cite, pottle_container_yield *y)
{
    pottlei_xml_only(reader, node,
                     "of weight unit jar low high source at standing note");
    *y = (pottle_container_yield){
        pottlei_xml_unit(reader, node, "of", POTTLE_CONTAINER),
        pottlei_xml_number(reader, node, "weight", -1) *
            pottlei_xml_unit(reader, node, "unit", POTTLE_MASS)->factor,
        jar_of(reader, node),
        pottlei_xml_number(reader, node, "low", -1),
        pottlei_xml_number(reader, node, "high", -1),
        pottlei_xml_cite(reader, node, cite)
    };
    if (!(y->grams > 0 && y->low > 0 && y->low <= y->high))
        pottlei_xml_fail(reader, node, "order",
                         "the yield of a container is not in order");
}

void
pottlei_read_quantities(pottlei_reader *reader, const pottlei_node *node,
                        const pottle_cite *parent, pottle_quantities *q)
{
    pottlei_xml_only(reader, node, "food source at standing note");
    q->food = pottlei_xml_id(reader, node, "food", NULL);
    const pottle_cite cite = pottlei_xml_cite(reader, node, parent);
    pottle_load *load = pottlei_xml_room(reader, node, "load", sizeof *load);
    pottle_average *average =
        pottlei_xml_room(reader, node, "average", sizeof *average);
    pottle_container_yield *container =
        pottlei_xml_room(reader, node, "container", sizeof *container);
    for (const pottlei_node *c = pottlei_xml_first(reader, node); c != NULL;
         c = pottlei_xml_next(reader, c)) {
        if (pottlei_xml_is(c, "load")) {
            read_load(reader, c, &cite, &load[q->loads++]);
        } else if (pottlei_xml_is(c, "average")) {
            pottlei_xml_only(reader, c,
                             "jar amount unit source at standing note");
            average[q->averages++] = (pottle_average){
                jar_of(reader, c),
                pottlei_xml_number(reader, c, "amount", -1) *
                    pottlei_xml_unit(reader, c, "unit", POTTLE_MASS)->factor,
                pottlei_xml_cite(reader, c, &cite)
            };
        } else if (pottlei_xml_is(c, "container")) {
            read_container(reader, c, &cite, &container[q->containers++]);
        } else {
            pottlei_xml_unknown(reader, c);
        }
    }
    q->load = load;
    q->average = average;
    q->container = container;
}
