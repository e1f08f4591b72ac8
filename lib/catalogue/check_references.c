/* check_references.c - whether everything that a file names exists.
 *
 * Keys, rules, foods and jars are found by their attributes wherever they
 * stand, so that a new element with a source is checked without a word here;
 * what belongs to a food (form, piece, trim) is asked of that food. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"

enum { LIST_SIZE = 300 };

static bool
in_list(const char *list, const char *word)
{
    const size_t n = strlen(word);
    for (const char *s = list; (s = strstr(s, word)) != NULL; s += n)
        if ((s == list || s[-1] == ' ') && (s[n] == ' ' || s[n] == '\0'))
            return true;
    return false;
}

const pottle_food *
pottlei_check_food(pottlei_check *check, const char *id)
{
    for (size_t i = 0; i < check->foods; i++)
        if (strcmp(check->food[i].id, id) == 0)
            return check->food[i].food;
    return NULL;
}

static bool
remember_food(pottlei_check *check, const char *id, pottle_food *food)
{
    if (check->foods == check->room) {
        const size_t room = check->room == 0 ? 32 : 2 * check->room;
        void *bigger = realloc(check->food, room * sizeof *check->food);
        if (bigger == NULL)
            return false;
        check->food = bigger;
        check->room = room;
    }
    const char *kept = pottlei_arena_text(&check->catalogue.arena, id);
    if (kept == NULL)
        return false;
    check->food[check->foods++] = (struct pottlei_checked_food){ kept, food };
    return true;
}

static void
refer_food(pottlei_check *check, const pottlei_node *node, const char *id)
{
    bool known = false;
    for (size_t i = 0; i < check->foods && !known; i++)
        known = strcmp(check->food[i].id, id) == 0;
    if (known && pottlei_check_food(check, id) != NULL)
        return;
    pottle_food *food = NULL;
    pottle_error wrong = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_food_read(&check->catalogue, id, &food, &wrong);
    if (status == POTTLE_ENOMEM ||
        (!known && !remember_food(check, id, food))) {
        pottle_food_free(food);
        pottlei_fail(&wrong, POTTLE_ENOMEM, "memory", "no memory");
        pottlei_check_stop(check, POTTLE_ENOMEM, &wrong);
        return;
    }
    if (status == POTTLE_OK)
        return;
    if (status == POTTLE_EIO) { /* no fault of what the file says */
        pottlei_check_stop(check, status, &wrong);
        return;
    }
    if (status != POTTLE_ENOENT) {
        pottlei_check_tell(
            check, false, pottlei_check_line(node), "food-file", NULL, NULL,
            "the file of food '%s' cannot be used: %.300s", id, wrong.what);
        return;
    }
    pottlei_near near;
    pottlei_near_init(&near, id);
    const char *other = NULL;
    for (size_t i = 0; (other = pottle_food_at(&check->catalogue, i)) != NULL;
         i++)
        pottlei_near_try(&near, other);
    char list[LIST_SIZE];
    pottlei_near_write(&near, list, sizeof list);
    pottlei_check_tell(check, false, pottlei_check_line(node), "unknown-food",
                       NULL, NULL, "there is no food '%s'%s", id, list);
}

/* An entry of a shared file, whose structs begin with the id. A part that was
 * not read is not asked. */
static void
refer_entry(pottlei_check *check, const pottlei_node *node, const char *code,
            const char *noun, const void *array, size_t count, size_t size,
            const char *id)
{
    if (count == 0)
        return;
    pottlei_near near;
    pottlei_near_init(&near, id);
    for (size_t i = 0; i < count; i++) {
        const char *const *one = (const void *)((const char *)array + i * size);
        if (strcmp(*one, id) == 0)
            return;
        pottlei_near_try(&near, *one);
    }
    char list[LIST_SIZE];
    pottlei_near_write(&near, list, sizeof list);
    pottlei_check_tell(check, false, pottlei_check_line(node), code, NULL, NULL,
                       "there is no %s '%.63s'%s", noun, id, list);
}

static void
refer(pottlei_check *check, const pottlei_node *node, const char *attribute,
      const char *word)
{
    const pottle_catalogue *c = &check->catalogue;
    if (!pottlei_id_valid(word))
        return; /* told by the schema */
    if (strcmp(attribute, "source") == 0)
        refer_entry(check, node, "unknown-source", "source", c->source,
                    c->source_count, sizeof *c->source, word);
    else if (strcmp(attribute, "rule") == 0 ||
             strcmp(attribute, "smallest-rule") == 0)
        refer_entry(check, node, "unknown-rule", "rule", c->rule, c->rule_count,
                    sizeof *c->rule, word);
    else if (in_list("food per-food put for", attribute) ||
             (strcmp(attribute, "under") == 0 && pottlei_xml_is(node, "food")))
        refer_food(check, node, word);
    else if (strcmp(attribute, "jar") == 0 || (strcmp(attribute, "jars") == 0 &&
                                               pottlei_xml_is(node, "process")))
        refer_entry(check, node, "unknown-jar", "jar", c->jar, c->jar_count,
                    sizeof *c->jar, word);
    else if (strcmp(attribute, "liquids") == 0 &&
             strncmp(word, "syrup-", 6) == 0)
        refer_entry(check, node, "unknown-syrup", "syrup", c->syrup,
                    c->syrup_count, sizeof *c->syrup, word);
}

/* Every attribute that names something, word by word where it is a list. */
static void
refer_attributes(pottlei_check *check, const pottlei_node *node)
{
    for (size_t i = 0; i < node->attributes; i++) {
        const char *name = node->attribute[i].name,
                   *text = node->attribute[i].value;
        char word[64];
        for (; *text != '\0'; text += strspn(text, " ")) {
            const size_t n = strcspn(text, " ");
            if (n < sizeof word) {
                snprintf(word, sizeof word, "%.*s", (int)n, text);
                refer(check, node, name, word);
            }
            text += n;
            if (!in_list("jars liquids", name))
                break;
        }
    }
}

/* names.xml names foods and recipes by the ids of its entries. */
static void
refer_named(pottlei_check *check, const pottlei_node *node)
{
    const char *id = pottlei_xml_peek(node, "id");
    if (id == NULL || !pottlei_id_valid(id))
        return;
    if (pottlei_xml_is(node, "food")) {
        refer_food(check, node, id);
        return;
    }
    pottle_recipe *recipe = NULL;
    pottle_error wrong = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_recipe_read(&check->catalogue, id, &recipe, &wrong);
    if (status == POTTLE_OK && strcmp(pottle_recipe_id(recipe), id) != 0)
        pottlei_check_tell(check, false, pottlei_check_line(node),
                           "unknown-recipe", NULL, NULL,
                           "'%s' is another name of '%s', not a recipe", id,
                           pottle_recipe_id(recipe));
    pottle_recipe_free(recipe);
    if (status == POTTLE_ENOMEM || status == POTTLE_EIO)
        pottlei_check_stop(check, status, &wrong);
    else if (status != POTTLE_OK)
        pottlei_check_tell(check, false, pottlei_check_line(node),
                           status == POTTLE_ENOENT ? "unknown-recipe"
                                                   : "recipe-file",
                           NULL, NULL, "%.400s", wrong.what);
}

/* The whole document in its order, without recursion. */
void
pottlei_check_references(pottlei_check *check, const pottlei_node *root)
{
    const bool names = pottlei_xml_is(root, "names");
    const pottlei_node *node = root;
    while (node != NULL && check->status == POTTLE_OK) {
        refer_attributes(check, node);
        if (names && node->parent == root)
            refer_named(check, node);
        if (node->first != NULL) {
            node = node->first;
            continue;
        }
        while (node != root && node->next == NULL)
            node = node->parent;
        node = node == root ? NULL : node->next;
    }
}

/* -- What belongs to a food ------------------------------------------------ */

static void
add_word(char *list, const char *word)
{
    const size_t n = strlen(list);
    snprintf(list + n, LIST_SIZE - n, "%s%s", n > 0 ? ", " : "known: ", word);
}

static void
refer_form(pottlei_check *check, const pottlei_node *node,
           const pottle_food *food, const char *id)
{
    size_t n = 0;
    const pottle_form *form = pottle_food_forms(food, &n);
    char list[LIST_SIZE] = "";
    if (pottle_food_form(food, id) != NULL)
        return;
    for (size_t i = 0; i < n; i++)
        add_word(list, form[i].id);
    pottlei_check_tell(check, false, pottlei_check_line(node), "unknown-form",
                       NULL, list, "%s has no form '%s': it cannot be weighed",
                       pottle_food_id(food), id);
}

static void
refer_piece(pottlei_check *check, const pottlei_node *node,
            const pottle_food *food, const char *size)
{
    size_t n = 0;
    const pottle_piece *piece = pottle_food_pieces(food, &n);
    char list[LIST_SIZE] = "";
    for (size_t i = 0; i < n; i++) {
        if (strcmp(piece[i].size, size) == 0)
            return;
        add_word(list, piece[i].size);
    }
    pottlei_check_tell(check, false, pottlei_check_line(node), "unknown-size",
                       NULL, list, "%s has no weight of a piece of size '%s'",
                       pottle_food_id(food), size);
}

/* The named way to ready, from the state in which it was measured; what is
 * measured as picked may go by the way from purchased. */
static void
refer_trim(pottlei_check *check, const pottlei_node *node,
           const pottle_food *food, const char *id, pottle_state state)
{
    size_t n = 0;
    const pottle_trim *trim = pottle_food_trims(food, &n);
    char list[LIST_SIZE] = "";
    for (size_t i = 0; i < n; i++) {
        if (strcmp(trim[i].id, id) == 0 &&
            (state != POTTLE_PURCHASED || trim[i].from == POTTLE_PURCHASED))
            return;
        add_word(list, trim[i].id);
    }
    pottlei_check_tell(check, false, pottlei_check_line(node), "unknown-trim",
                       NULL, list, "%s has no trim '%s' from %s",
                       pottle_food_id(food), id, pottle_state_name((int)state));
}

/* What may keep a food acid enough: acid by class, or a vinegar, juice or
 * citric acid that no source calls less. */
static bool
is_acid(const pottle_food *food)
{
    const char *group = pottle_food_group(food);
    switch (pottle_food_acid(food)->class_) {
    case POTTLE_HIGH_ACID: return true;
    case POTTLE_NEUTRAL:
        return strcmp(group, "vinegar") == 0 || strcmp(group, "juice") == 0 ||
               strcmp(pottle_food_id(food), "citric-acid") == 0;
    case POTTLE_BORDERLINE:
    case POTTLE_LOW_ACID: break;
    }
    return false;
}

static void
ask_acid(pottlei_check *check, const pottlei_node *node,
         const pottle_food *food)
{
    if (food != NULL && !is_acid(food))
        pottlei_check_tell(
            check, false, pottlei_check_line(node), "weak-acid",
            "acid-at-least",
            "Vinegar of 5 %, bottled lemon or lime juice, citric acid.",
            "%s is no acid that makes a recipe keep", pottle_food_id(food));
}

static void
check_ingredient(pottlei_check *check, const pottlei_node *node,
                 const pottle_ingredient *i)
{
    const pottle_food *food = pottlei_check_food(check, i->food);
    const bool by_volume = i->unit->dimension == POTTLE_VOLUME,
               counted = i->unit->dimension == POTTLE_COUNT;
    const bool acid =
        strcmp(i->role, "acid") == 0 && i->keep == POTTLE_AT_LEAST;
    if (food != NULL) {
        if (i->form[0] != '\0')
            refer_form(check, node, food, i->form);
        if (i->size[0] != '\0')
            refer_piece(check, node, food, i->size);
        if (i->trim[0] != '\0')
            refer_trim(check, node, food, i->trim, i->state);
    }
    if (acid)
        ask_acid(check, node, food);
    const pottle_food *base =
        i->per != NULL ? pottlei_check_food(check, i->per_food) : NULL;
    if (base != NULL && i->per_form[0] != '\0')
        refer_form(check, node, base, i->per_form);
    for (size_t k = 0; k < i->alternatives; k++) {
        const pottle_alternative *a = &i->alternative[k];
        const pottlei_node * or = pottlei_check_child(node, "or", k);
        food = pottlei_check_food(check, a->food);
        if (food == NULL)
            continue;
        if (a->form[0] != '\0' &&
            (by_volume || pottlei_xml_peek(or, "form") != NULL))
            refer_form(check, or, food, a->form);
        if (counted)
            refer_piece(check, or, food, i->size);
        if (acid)
            ask_acid(check, or, food);
    }
    for (size_t k = 0; k < i->printeds; k++)
        if (i->keep != POTTLE_FREE &&
            i->other[k].unit->dimension != i->unit->dimension)
            pottlei_check_tell(
                check, false,
                pottlei_check_line(pottlei_check_child(node, "printed", k)),
                "unit-dimension", NULL, NULL,
                "%s of one batch and %s of another cannot be compared",
                pottle_dimension_name((int)i->unit->dimension),
                pottle_dimension_name((int)i->other[k].unit->dimension));
}

static void
check_per_jar(pottlei_check *check, const pottlei_node *node,
              const pottle_per_jar *per)
{
    for (size_t i = 0; i < per->choices; i++) {
        const pottle_jar_choice *choice = &per->choice[i];
        const pottlei_node *at = pottlei_check_child(node, "choice", i);
        const pottle_food *food = pottlei_check_food(check, choice->food);
        if (food == NULL)
            continue;
        if (strcmp(per->role, "acid") == 0 && per->keep == POTTLE_AT_LEAST)
            ask_acid(check, at, food);
        for (size_t k = 0; k < choice->doses; k++) {
            const pottle_jar_dose *dose = &choice->dose[k];
            const pottlei_node *add = pottlei_check_child(at, "add", k);
            if (dose->form[0] != '\0')
                refer_form(check, add, food, dose->form);
            if (dose->unit->dimension == POTTLE_COUNT)
                refer_piece(check, add, food,
                            dose->size[0] != '\0' ? dose->size : "one");
        }
    }
}

/* An own recipe must not stand in the place of a tested one. */
static void
check_own_id(pottlei_check *check, const pottlei_node *root,
             const pottle_recipe *recipe)
{
    pottle_recipe *other = NULL;
    pottle_error wrong = { .status = POTTLE_OK };
    pottle_catalogue tested = check->catalogue;
    tested.own = NULL;
    const pottle_status status =
        pottle_recipe_read(&tested, recipe->id, &other, &wrong);
    pottle_recipe_free(other);
    if (status == POTTLE_ENOMEM || status == POTTLE_EIO)
        pottlei_check_stop(check, status, &wrong);
    else if (status != POTTLE_ENOENT)
        pottlei_check_tell(check, false, pottlei_check_line(root),
                           "hides-tested", NULL, "Give it another id.",
                           "'%s' is the id of a tested recipe", recipe->id);
}

void
pottlei_check_recipe_parts(pottlei_check *check, const pottlei_node *root,
                           const pottle_recipe *recipe)
{
    const pottlei_node *ingredients =
        pottlei_check_child(root, "ingredients", 0);
    for (size_t i = 0; i < recipe->ingredient_count; i++)
        check_ingredient(check,
                         pottlei_check_child(ingredients, "ingredient", i),
                         &recipe->ingredient[i]);
    for (size_t i = 0; i < recipe->per_jar_count; i++)
        check_per_jar(check, pottlei_check_child(root, "per-jar", i),
                      &recipe->per_jar[i]);
    const pottlei_node *steps = pottlei_check_child(root, "steps", 0);
    for (size_t i = 0; i < recipe->step_count; i++)
        if (recipe->step[i].minutes_to < recipe->step[i].minutes)
            pottlei_check_tell(
                check, false,
                pottlei_check_line(pottlei_check_child(steps, "step", i)),
                "order", NULL, NULL, "'minutes-to' is below 'minutes'");
    bool stored = false;
    for (size_t i = 0; i < recipe->note_count; i++)
        stored = stored || strcmp(recipe->note[i].of, "storage") == 0;
    if (recipe->status == POTTLE_TESTED && recipe->process_count == 0 &&
        !stored)
        pottlei_check_tell(
            check, false, pottlei_check_line(root), "no-process", "no-process",
            "Enter the published processes, or say in a storage note how it is "
            "kept.",
            "a tested recipe needs a process or a note on its storage");
    if (recipe->status == POTTLE_OWN)
        check_own_id(check, root, recipe);
}
