/* recipe_read.c - reading a recipe file.
 *
 * What decides about safety is checked here, every time, and not left to the
 * schema: roles and keep rules are known words, bands run on from 0 without a
 * gap and never fall, the jars of a process are known sizes, a tested canned
 * recipe has a process. */
#include <config.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "recipe_read.h"

static const char *const states[] = { "prepared", "purchased", "picked", NULL };
static const char *const keeps[] = { "free", "exact", "at-least", "at-most",
                                     NULL };
static const char *const roles[] = { "produce", "acid",  "low-acid",  "sugar",
                                     "salt",    "spice", "thickener", "pectin",
                                     "liquid",  "other", NULL };
static const char *const yes_no[] = { "no", "yes", NULL };

static bool
flag(pottlei_reader *reader, const pottlei_node *node, const char *name,
     bool fallback)
{
    return pottlei_xml_choice(reader, node, name, yes_no, fallback ? 1 : 0) ==
           1;
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

static const char *
jar_of(pottlei_reader *reader, const pottlei_node *node)
{
    return pottlei_xml_id(reader, node, "jar", NULL);
}

static void
read_ingredient(pottlei_reader *reader, const pottlei_node *node,
                const pottle_cite *parent, pottle_ingredient *i)
{
    pottlei_xml_only(
        reader, node,
        "food amount amount-to unit size state form trim then role keep rule "
        "optional stays per per-food per-form source at standing note");
    i->food = pottlei_xml_id(reader, node, "food", NULL);
    i->amount = pottlei_xml_number(reader, node, "amount", -1);
    i->amount_to = pottlei_xml_number(reader, node, "amount-to", i->amount);
    i->printed = pottlei_xml_attr(reader, node, "amount", NULL);
    i->unit = amount_unit(reader, node, "unit");
    i->size = pottlei_xml_id(reader, node, "size", "");
    i->state =
        (pottle_state)pottlei_xml_choice(reader, node, "state", states, -1);
    i->form = pottlei_xml_id(reader, node, "form", "");
    i->trim = pottlei_xml_id(reader, node, "trim", "");
    i->then = pottlei_xml_attr(reader, node, "then", "");
    i->role = role_of(reader, node);
    i->keep = (pottle_keep)pottlei_xml_choice(reader, node, "keep", keeps, -1);
    i->rule = pottlei_xml_id(reader, node, "rule", NULL);
    i->optional = flag(reader, node, "optional", false);
    i->stays = flag(reader, node, "stays", true);
    i->per = pottlei_xml_peek(node, "per") != NULL
               ? amount_unit(reader, node, "per")
               : NULL;
    i->per_food =
        pottlei_xml_id(reader, node, "per-food", i->per != NULL ? NULL : "");
    i->per_form = pottlei_xml_id(reader, node, "per-form", "");
    i->cite = pottlei_xml_cite(reader, node, parent);
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

    pottle_alternative *alternative = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "or"), sizeof *alternative);
    pottle_printed *other = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "printed"), sizeof *other);
    for (const pottlei_node *c = pottlei_xml_first(reader, node);
         c != NULL && reader->status == POTTLE_OK;
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
read_ingredients(pottlei_reader *reader, const pottlei_node *node,
                 pottle_recipe *recipe)
{
    pottlei_xml_only(reader, node, "source at standing note");
    const pottle_cite cite = pottlei_xml_cite(reader, node, &recipe->cite);
    pottle_ingredient *ingredient =
        pottlei_xml_array(reader, pottlei_xml_count(reader, node, "ingredient"),
                          sizeof *ingredient);
    for (const pottlei_node *e = pottlei_xml_first(reader, node);
         e != NULL && reader->status == POTTLE_OK;
         e = pottlei_xml_next(reader, e)) {
        if (!pottlei_xml_is(e, "ingredient")) {
            pottlei_xml_unknown(reader, e);
            return;
        }
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
    pottle_jar_dose *dose = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "add"), sizeof *dose);
    for (const pottlei_node *c = pottlei_xml_first(reader, node);
         c != NULL && reader->status == POTTLE_OK;
         c = pottlei_xml_next(reader, c)) {
        if (!pottlei_xml_is(c, "add")) {
            pottlei_xml_unknown(reader, c);
            return;
        }
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
    }
    choice->dose = dose;
}

static void
read_per_jar(pottlei_reader *reader, const pottlei_node *node,
             const pottle_cite *parent, pottle_per_jar *per)
{
    pottlei_xml_only(reader, node,
                     "role keep rule optional source at standing note");
    per->role = role_of(reader, node);
    per->keep =
        (pottle_keep)pottlei_xml_choice(reader, node, "keep", keeps, -1);
    per->rule = pottlei_xml_id(reader, node, "rule", NULL);
    per->optional = flag(reader, node, "optional", false);
    per->cite = pottlei_xml_cite(reader, node, parent);
    pottle_jar_choice *choice = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "choice"), sizeof *choice);
    for (const pottlei_node *c = pottlei_xml_first(reader, node);
         c != NULL && reader->status == POTTLE_OK;
         c = pottlei_xml_next(reader, c)) {
        if (pottlei_xml_is(c, "choice"))
            read_choice(reader, c, &per->cite, &choice[per->choices++]);
        else
            pottlei_xml_unknown(reader, c);
    }
    per->choice = choice;
    if (per->choices == 0)
        pottlei_xml_fail(reader, node, "element", "<per-jar> needs a <choice>");
}

static void
read_quantities(pottlei_reader *reader, const pottlei_node *node,
                const pottle_cite *parent, pottle_quantities *q)
{
    pottlei_xml_only(reader, node, "food source at standing note");
    q->food = pottlei_xml_id(reader, node, "food", NULL);
    const pottle_cite cite = pottlei_xml_cite(reader, node, parent);
    pottle_load *load = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "load"), sizeof *load);
    pottle_average *average = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "average"), sizeof *average);
    pottle_container_yield *container =
        pottlei_xml_array(reader, pottlei_xml_count(reader, node, "container"),
                          sizeof *container);
    for (const pottlei_node *c = pottlei_xml_first(reader, node);
         c != NULL && reader->status == POTTLE_OK;
         c = pottlei_xml_next(reader, c)) {
        if (pottlei_xml_is(c, "load")) {
            pottlei_xml_only(reader, c,
                             "jar jars amount unit source at standing note");
            pottle_load *l = &load[q->loads++];
            *l = (pottle_load){
                jar_of(reader, c), pottlei_xml_number(reader, c, "jars", -1),
                pottlei_xml_number(reader, c, "amount", -1) *
                    pottlei_xml_unit(reader, c, "unit", POTTLE_MASS)->factor,
                pottlei_xml_attr(reader, c, "amount", NULL),
                pottlei_xml_cite(reader, c, &cite)
            };
            if (!(l->jars > 0 && l->grams > 0))
                pottlei_xml_fail(reader, c, "range", "a load of nothing");
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
            pottlei_xml_only(
                reader, c,
                "of weight unit jar low high source at standing note");
            pottle_container_yield *y = &container[q->containers++];
            *y = (pottle_container_yield){
                pottlei_xml_unit(reader, c, "of", POTTLE_CONTAINER),
                pottlei_xml_number(reader, c, "weight", -1) *
                    pottlei_xml_unit(reader, c, "unit", POTTLE_MASS)->factor,
                jar_of(reader, c),
                pottlei_xml_number(reader, c, "low", -1),
                pottlei_xml_number(reader, c, "high", -1),
                pottlei_xml_cite(reader, c, &cite)
            };
            if (!(y->grams > 0 && y->low > 0 && y->low <= y->high))
                pottlei_xml_fail(reader, c, "order",
                                 "the yield of a container is not in order");
        } else {
            pottlei_xml_unknown(reader, c);
        }
    }
    q->load = load;
    q->average = average;
    q->container = container;
}

static void
read_cook(pottlei_reader *reader, const pottlei_node *node,
          const pottle_cite *parent, pottle_cook *cook)
{
    static const char *const ends[] = { "as-is",  "gel-point", "added-pectin",
                                        "reduce", "butter",    "simmer",
                                        "packed", "load",      NULL };
    static const char *const textures[] = { "firm", "limp", NULL };
    pottlei_xml_only(reader, node,
                     "end to minutes covered drained texture juice juice-unit "
                     "source at standing note");
    cook->end = (pottle_end)pottlei_xml_choice(reader, node, "end", ends, -1);
    cook->to = pottlei_xml_number(reader, node, "to", 0);
    cook->minutes = pottlei_xml_number(reader, node, "minutes", 0);
    cook->covered = flag(reader, node, "covered", false);
    cook->drained = flag(reader, node, "drained", false);
    cook->limp = pottlei_xml_choice(reader, node, "texture", textures, 0) == 1;
    cook->juice_ml = pottlei_xml_number(reader, node, "juice", 0);
    if (cook->juice_ml > 0)
        cook->juice_ml *=
            pottlei_xml_unit(reader, node, "juice-unit", POTTLE_VOLUME)->factor;
    cook->cite = pottlei_xml_cite(reader, node, parent);
    if (cook->end == POTTLE_END_REDUCE && !(cook->to > 0 && cook->to < 1))
        pottlei_xml_fail(reader, node, "range",
                         "'reduce' needs the fraction that is left, below 1");
}

/* A blank-separated list of ids. */
static const char *const *
read_ids(pottlei_reader *reader, const pottlei_node *node, const char *name,
         size_t *count)
{
    char *list = pottlei_arena_text(reader->arena,
                                    pottlei_xml_attr(reader, node, name, NULL));
    size_t n = 0;
    for (const char *s = list; s != NULL && *s != '\0'; s++)
        n += *s == ' ';
    const char **id = pottlei_xml_array(reader, n + 1, sizeof *id);
    if (list == NULL || id == NULL) {
        reader->status = reader->status != POTTLE_OK
                           ? reader->status
                           : pottlei_fail(reader->error, POTTLE_ENOMEM,
                                          "memory", "no memory");
        return NULL;
    }
    size_t k = 0;
    for (char *s = list;;) {
        const size_t length = strcspn(s, " ");
        const bool last = s[length] == '\0';
        s[length] = '\0';
        if (!pottlei_id_valid(s))
            pottlei_xml_fail(reader, node, "id", "'%.40s' in '%s' is not an id",
                             s, name);
        id[k++] = s;
        if (last)
            break;
        s += length + 1;
    }
    *count = k;
    return id;
}

static int
whole(pottlei_reader *reader, const pottlei_node *node, const char *name,
      double fallback, double most)
{
    const double x = pottlei_xml_number(reader, node, name, fallback);
    if (!(x >= 0 && x <= most && !(fabs(x - floor(x)) > 0))) {
        pottlei_xml_fail(reader, node, "number",
                         "'%s' must be a whole number up to %g", name, most);
        return 0;
    }
    return (int)x;
}

static void
read_bands(pottlei_reader *reader, const pottlei_node *node,
           pottle_process_table *table)
{
    pottle_band *band = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "band"), sizeof *band);
    int next = 0;
    for (const pottlei_node *c = pottlei_xml_first(reader, node);
         c != NULL && reader->status == POTTLE_OK;
         c = pottlei_xml_next(reader, c)) {
        if (!pottlei_xml_is(c, "band")) {
            pottlei_xml_unknown(reader, c);
            return;
        }
        pottlei_xml_only(reader, c, "from to minutes psi");
        pottle_band *b = &band[table->bands];
        b->from_ft = whole(reader, c, "from", -1, 30000);
        b->to_ft = pottlei_xml_peek(c, "to") == NULL
                     ? -1
                     : whole(reader, c, "to", -1, 30000);
        b->minutes = whole(reader, c, "minutes", -1, 1000);
        b->psi = whole(reader, c, "psi", 0, 15);
        const pottle_band *before = table->bands > 0 ? b - 1 : NULL;
        if (b->from_ft != next || (b->to_ft >= 0 && b->to_ft <= b->from_ft) ||
            (before != NULL && before->to_ft < 0))
            pottlei_xml_fail(reader, c, "bands",
                             "bands must begin at 0 and run on without a gap; "
                             "this one begins at %d",
                             b->from_ft);
        if (b->minutes == 0)
            pottlei_xml_fail(reader, c, "bands", "a process of 0 minutes");
        if ((b->psi > 0) == (table->method == POTTLE_BOILING_WATER))
            pottlei_xml_fail(
                reader, c, "bands",
                "pressure belongs to pressure canners and only to them");
        if (before != NULL &&
            (b->minutes < before->minutes || b->psi < before->psi))
            pottlei_xml_fail(reader, c, "bands",
                             "time and pressure never fall with altitude");
        next = b->to_ft + 1;
        table->bands++;
    }
    table->band = band;
    if (table->bands == 0)
        pottlei_xml_fail(reader, node, "bands", "a process needs a band");
}

static void
read_pack(pottlei_reader *reader, const pottlei_node *node,
          const pottle_cite *parent, pottle_process_table *process,
          size_t *count)
{
    static const char *const styles[] = { "hot", "raw", NULL };
    static const char *const methods[] = { "boiling-water", "dial-gauge",
                                           "weighted-gauge", NULL };
    pottlei_xml_only(reader, node,
                     "style headspace sterile source at standing note");
    const bool raw = pottlei_xml_choice(reader, node, "style", styles, -1) == 1;
    const bool sterile = flag(reader, node, "sterile", false);
    const double headspace = pottlei_xml_number(reader, node, "headspace", -1);
    const char *printed = pottlei_xml_attr(reader, node, "headspace", NULL);
    const pottle_cite cite = pottlei_xml_cite(reader, node, parent);
    for (const pottlei_node *c = pottlei_xml_first(reader, node);
         c != NULL && reader->status == POTTLE_OK;
         c = pottlei_xml_next(reader, c)) {
        if (!pottlei_xml_is(c, "process")) {
            pottlei_xml_unknown(reader, c);
            return;
        }
        pottlei_xml_only(reader, c,
                         "method jars headspace source at standing note");
        pottle_process_table *t = &process[(*count)++];
        t->method =
            (pottle_method)pottlei_xml_choice(reader, c, "method", methods, -1);
        t->raw = raw;
        t->sterile = sterile;
        t->headspace_in = pottlei_xml_number(reader, c, "headspace", headspace);
        t->headspace = pottlei_xml_attr(reader, c, "headspace", printed);
        t->cite = pottlei_xml_cite(reader, c, &cite);
        t->jar = read_ids(reader, c, "jars", &t->jars);
        read_bands(reader, c, t);
        if (!(t->headspace_in >= 0.1 && t->headspace_in <= 2))
            pottlei_xml_fail(reader, c, "range",
                             "a headspace of %g in is out of range",
                             t->headspace_in);
    }
}

static void
read_steps(pottlei_reader *reader, const pottlei_node *node,
           pottle_recipe *recipe)
{
    pottlei_xml_only(reader, node, "");
    pottle_step *step = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "step"), sizeof *step);
    for (const pottlei_node *c = pottlei_xml_first(reader, node);
         c != NULL && reader->status == POTTLE_OK;
         c = pottlei_xml_next(reader, c)) {
        if (!pottlei_xml_is(c, "step")) {
            pottlei_xml_unknown(reader, c);
            return;
        }
        pottlei_xml_only(reader, c, "do minutes minutes-to");
        pottle_step *s = &step[recipe->step_count++];
        s->action = pottlei_xml_id(reader, c, "do", NULL);
        s->minutes = pottlei_xml_number(reader, c, "minutes", 0);
        s->minutes_to = pottlei_xml_number(reader, c, "minutes-to", s->minutes);
        s->text = pottlei_xml_text(reader, c);
    }
    recipe->step = step;
}

static void
read_cover(pottlei_reader *reader, const pottlei_node *node,
           pottle_recipe *recipe)
{
    pottlei_xml_only(reader, node, "liquids source at standing note");
    recipe->cover = read_ids(reader, node, "liquids", &recipe->cover_count);
}

static void
read_yield(pottlei_reader *reader, const pottlei_node *node,
           const pottle_cite *parent, pottle_yield *yield)
{
    pottlei_xml_only(reader, node,
                     "jar low high possible source at standing note");
    yield->jar = jar_of(reader, node);
    yield->low = pottlei_xml_number(reader, node, "low", -1);
    yield->high = pottlei_xml_number(reader, node, "high", -1);
    yield->possible = flag(reader, node, "possible", true);
    yield->cite = pottlei_xml_cite(reader, node, parent);
    if (!(yield->low > 0 && yield->low <= yield->high))
        pottlei_xml_fail(reader, node, "order", "the yield is not in order");
}

/* Everything below the root but its attributes. */
static void
read_parts(pottlei_reader *reader, const pottlei_node *root,
           pottle_recipe *recipe)
{
    static const char *const note_kinds[] = { "choice",  "yield",   "scope",
                                              "caution", "storage", "optional",
                                              NULL };
    size_t processes = 0;
    for (const pottlei_node *e = pottlei_xml_first(reader, root); e != NULL;
         e = pottlei_xml_next(reader, e))
        if (pottlei_xml_is(e, "pack"))
            processes += pottlei_xml_count(reader, e, "process");
    pottle_cite *witness = pottlei_xml_array(
        reader, pottlei_xml_count(reader, root, "witness"), sizeof *witness);
    pottle_per_jar *per_jar = pottlei_xml_array(
        reader, pottlei_xml_count(reader, root, "per-jar"), sizeof *per_jar);
    pottle_yield *yield = pottlei_xml_array(
        reader, pottlei_xml_count(reader, root, "yield"), sizeof *yield);
    pottle_note *note = pottlei_xml_array(
        reader, pottlei_xml_count(reader, root, "note"), sizeof *note);
    pottle_process_table *process =
        pottlei_xml_array(reader, processes, sizeof *process);
    const pottle_cite *cite = &recipe->cite;
    bool cooked = false, batched = false;
    for (const pottlei_node *e = pottlei_xml_first(reader, root);
         e != NULL && reader->status == POTTLE_OK;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "title")) {
            recipe->title = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "witness")) {
            pottlei_xml_only(reader, e, "source at");
            witness[recipe->witness_count++] =
                (pottle_cite){ pottlei_xml_id(reader, e, "source", NULL),
                               pottlei_xml_attr(reader, e, "at", ""), "",
                               POTTLE_PUBLISHED };
        } else if (pottlei_xml_is(e, "batch")) {
            pottlei_xml_only(reader, e,
                             "smallest largest rule source at standing note");
            recipe->batch =
                (pottle_batch){ pottlei_xml_number(reader, e, "smallest", 0),
                                pottlei_xml_number(reader, e, "largest", -1),
                                pottlei_xml_id(reader, e, "rule", NULL),
                                pottlei_xml_cite(reader, e, cite) };
            batched = true;
            if (!(recipe->batch.largest > 0 &&
                  recipe->batch.smallest <= recipe->batch.largest))
                pottlei_xml_fail(reader, e, "order",
                                 "the bounds of the batch are not in order");
        } else if (pottlei_xml_is(e, "ingredients")) {
            read_ingredients(reader, e, recipe);
        } else if (pottlei_xml_is(e, "per-jar")) {
            read_per_jar(reader, e, cite, &per_jar[recipe->per_jar_count++]);
        } else if (pottlei_xml_is(e, "quantities")) {
            read_quantities(reader, e, cite, &recipe->quantities);
        } else if (pottlei_xml_is(e, "cover")) {
            read_cover(reader, e, recipe);
        } else if (pottlei_xml_is(e, "cook")) {
            read_cook(reader, e, cite, &recipe->cook);
            cooked = true;
        } else if (pottlei_xml_is(e, "yield")) {
            read_yield(reader, e, cite, &yield[recipe->yield_count++]);
        } else if (pottlei_xml_is(e, "pack")) {
            read_pack(reader, e, cite, process, &recipe->process_count);
        } else if (pottlei_xml_is(e, "steps")) {
            read_steps(reader, e, recipe);
        } else if (pottlei_xml_is(e, "note")) {
            pottlei_xml_only(reader, e, "of source at standing note");
            note[recipe->note_count++] = (pottle_note){
                note_kinds[pottlei_xml_choice(reader, e, "of", note_kinds, -1)],
                pottlei_xml_text(reader, e), pottlei_xml_cite(reader, e, cite)
            };
        } else {
            pottlei_xml_unknown(reader, e);
        }
    }
    recipe->witness = witness;
    recipe->per_jar = per_jar;
    recipe->yield = yield;
    recipe->note = note;
    recipe->process = process;
    if (recipe->title[0] == '\0' || recipe->ingredient_count == 0 ||
        recipe->step_count == 0 || !cooked || !batched)
        pottlei_xml_fail(
            reader, root, "element",
            "a recipe needs a title, a batch, ingredients, cook and steps");
}

pottle_status
pottlei_recipe_build(pottlei_reader *reader, pottle_recipe *recipe)
{
    static const char *const statuses[] = { "tested", "draft", "own", NULL };
    const pottlei_node *root = pottlei_xml_root(reader, "recipe");
    if (root == NULL)
        return reader->status;
    pottlei_xml_only(reader, root, "id kind status source at standing");
    recipe->title = "";
    recipe->quantities.food = "";
    recipe->id = pottlei_xml_id(reader, root, "id", NULL);
    recipe->kind = pottlei_xml_id(reader, root, "kind", NULL);
    recipe->status = (pottle_recipe_status)pottlei_xml_choice(
        reader, root, "status", statuses, -1);
    recipe->cite = pottlei_xml_cite(reader, root, NULL);
    read_parts(reader, root, recipe);
    return reader->status;
}
