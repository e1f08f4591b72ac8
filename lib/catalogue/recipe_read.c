/* recipe_read.c - reading a recipe file: its parts in turn, and those that have
 * no file of their own.
 *
 * What decides about safety is checked while reading, every time, and not left
 * to the schema: ingredients_read.c, process_read.c. */
#include <config.h>

#include "recipe_read.h"

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
    cook->covered = pottlei_xml_flag(reader, node, "covered", false);
    cook->drained = pottlei_xml_flag(reader, node, "drained", false);
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

static void
read_steps(pottlei_reader *reader, const pottlei_node *node,
           pottle_recipe *recipe)
{
    pottlei_xml_only(reader, node, "");
    pottle_step *step = pottlei_xml_room(reader, node, "step", sizeof *step);
    for (const pottlei_node *c = pottlei_xml_first_of(reader, node, "step");
         c != NULL; c = pottlei_xml_next_of(reader, c)) {
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
    recipe->cover =
        pottlei_xml_ids(reader, node, "liquids", &recipe->cover_count);
}

static void
read_yield(pottlei_reader *reader, const pottlei_node *node,
           const pottle_cite *parent, pottle_yield *yield)
{
    pottlei_xml_only(reader, node,
                     "jar low high possible source at standing note");
    yield->jar = pottlei_xml_id(reader, node, "jar", NULL);
    yield->low = pottlei_xml_number(reader, node, "low", -1);
    yield->high = pottlei_xml_number(reader, node, "high", -1);
    yield->possible = pottlei_xml_flag(reader, node, "possible", true);
    yield->cite = pottlei_xml_cite(reader, node, parent);
    if (!(yield->low > 0 && yield->low <= yield->high))
        pottlei_xml_fail(reader, node, "order", "the yield is not in order");
}

static pottle_cite
read_witness(pottlei_reader *reader, const pottlei_node *node)
{
    pottlei_xml_only(reader, node, "source at");
    return (pottle_cite){ pottlei_xml_id(reader, node, "source", NULL),
                          pottlei_xml_attr(reader, node, "at", ""), "",
                          POTTLE_PUBLISHED };
}

static pottle_batch
read_batch(pottlei_reader *reader, const pottlei_node *node,
           const pottle_cite *cite)
{
    pottlei_xml_only(reader, node,
                     "smallest largest rule smallest-rule source at standing "
                     "note");
    const char *rule = pottlei_xml_id(reader, node, "rule", NULL);
    const pottle_batch batch =
        (pottle_batch){ pottlei_xml_number(reader, node, "smallest", 0),
                        pottlei_xml_number(reader, node, "largest", -1), rule,
                        pottlei_xml_id(reader, node, "smallest-rule", rule),
                        pottlei_xml_cite(reader, node, cite) };
    if (!(batch.largest > 0 && batch.smallest <= batch.largest))
        pottlei_xml_fail(reader, node, "order",
                         "the bounds of the batch are not in order");
    return batch;
}

static pottle_note
read_note(pottlei_reader *reader, const pottlei_node *node,
          const pottle_cite *cite)
{
    static const char *const note_kinds[] = { "choice",  "yield",   "scope",
                                              "caution", "storage", "optional",
                                              NULL };
    pottlei_xml_only(reader, node, "of source at standing note");
    return (pottle_note){
        note_kinds[pottlei_xml_choice(reader, node, "of", note_kinds, -1)],
        pottlei_xml_text(reader, node), pottlei_xml_cite(reader, node, cite)
    };
}

/* Everything below the root but its attributes. Long, since each element has
 * its branch. */
static void
read_parts(pottlei_reader *reader, const pottlei_node *root,
           pottle_recipe *recipe)
{
    size_t processes = 0;
    pottlei_xml_once(reader, root,
                     "title batch ingredients quantities cover cook steps");
    for (const pottlei_node *e = pottlei_xml_first(reader, root); e != NULL;
         e = pottlei_xml_next(reader, e))
        if (pottlei_xml_is(e, "pack"))
            processes += pottlei_xml_count(reader, e, "process");
    pottle_cite *witness =
        pottlei_xml_room(reader, root, "witness", sizeof *witness);
    pottle_per_jar *per_jar =
        pottlei_xml_room(reader, root, "per-jar", sizeof *per_jar);
    pottle_yield *yield =
        pottlei_xml_room(reader, root, "yield", sizeof *yield);
    pottle_note *note = pottlei_xml_room(reader, root, "note", sizeof *note);
    pottle_process_table *process =
        pottlei_xml_array(reader, processes, sizeof *process);
    const pottle_cite *cite = &recipe->cite;
    bool cooked = false, batched = false;
    for (const pottlei_node *e = pottlei_xml_first(reader, root); e != NULL;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "title")) {
            recipe->title = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "witness")) {
            witness[recipe->witness_count++] = read_witness(reader, e);
        } else if (pottlei_xml_is(e, "batch")) {
            recipe->batch = read_batch(reader, e, cite);
            batched = true;
        } else if (pottlei_xml_is(e, "ingredients")) {
            pottlei_read_ingredients(reader, e, recipe);
        } else if (pottlei_xml_is(e, "per-jar")) {
            pottlei_read_per_jar(reader, e, cite,
                                 &per_jar[recipe->per_jar_count++]);
        } else if (pottlei_xml_is(e, "quantities")) {
            pottlei_read_quantities(reader, e, cite, &recipe->quantities);
        } else if (pottlei_xml_is(e, "cover")) {
            read_cover(reader, e, recipe);
        } else if (pottlei_xml_is(e, "cook")) {
            read_cook(reader, e, cite, &recipe->cook);
            cooked = true;
        } else if (pottlei_xml_is(e, "yield")) {
            read_yield(reader, e, cite, &yield[recipe->yield_count++]);
        } else if (pottlei_xml_is(e, "pack")) {
            pottlei_read_pack(reader, e, cite, process, &recipe->process_count);
        } else if (pottlei_xml_is(e, "steps")) {
            read_steps(reader, e, recipe);
        } else if (pottlei_xml_is(e, "note")) {
            note[recipe->note_count++] = read_note(reader, e, cite);
        } else {
            pottlei_xml_unknown(reader, e);
        }
    }
    size_t choices = 0;
    for (size_t i = 0; i < recipe->per_jar_count; i++)
        choices += per_jar[i].choices;
    if (recipe->ingredient_count > POTTLEI_LINES_MAX ||
        choices > POTTLEI_DOSES_MAX)
        pottlei_xml_fail(reader, root, "too-many",
                         "a recipe has up to %d ingredients and %d choices of "
                         "what goes into each jar",
                         (int)POTTLEI_LINES_MAX, (int)POTTLEI_DOSES_MAX);
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
