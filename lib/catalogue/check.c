/* check.c - one catalogue file against its schema, its reader and the rest of
 * the catalogue.
 *
 * A file passes three gates: the RELAX NG schema (is it written as it should
 * be), the reader that every command uses (can it be worked with), and what
 * neither can say: that each key, rule, food, form and jar that it names
 * exists. A finding carries the line of the element it is about, so the
 * references are walked in the document, not in the object. */
#include <config.h>

#include <libxml/relaxng.h>
#include <libxml/xmlerror.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "check.h"

enum {
    KIND_FOOD,
    KIND_RECIPE,
    KIND_NAMES,
    KIND_FIGURES,
    KIND_JARS,
    KIND_RULES,
    KIND_SOURCES,
    KIND_SYRUPS,
    KIND_RESCUE,
    KIND_KITCHEN,
    KIND_COUNT
};
static const char *const roots[KIND_COUNT] = { "food",    "recipe", "names",
                                               "figures", "jars",   "rules",
                                               "sources", "syrups", "rescue",
                                               "kitchen" };
enum { PATH_SIZE = 512 };

/* -- Telling --------------------------------------------------------------- */

void
pottlei_check_tell(pottlei_check *check, bool warning, long line,
                   const char *code, const char *rule, const char *instead,
                   const char *what, ...)
{
    if (check->status != POTTLE_OK)
        return;
    char text[480];
    va_list args;
    va_start(args, what);
    const int n = vsnprintf(text, sizeof text, what, args);
    va_end(args);
    pottle_error finding;
    pottlei_fail(&finding, POTTLE_EDATA, code, "%s", n < 0 ? "invalid" : text);
    POTTLEI_SET(finding.where, check->path);
    finding.line = line;
    const pottle_rule *r =
        rule != NULL ? pottle_rule_find(&check->catalogue, rule) : NULL;
    if (r != NULL) {
        POTTLEI_SET(finding.source, r->cite.source);
        POTTLEI_SET(finding.at, r->cite.at);
        POTTLEI_SET(finding.instead, r->instead);
    }
    if (instead != NULL)
        POTTLEI_SET(finding.instead, instead);
    check->errors += !warning;
    check->tell(check->context, warning, &finding);
}

/* A finding that a reader made. */
static void
tell_as_read(pottlei_check *check, pottle_error *finding)
{
    POTTLEI_SET(finding->where, check->path);
    check->errors++;
    check->tell(check->context, false, finding);
}

void
pottlei_check_stop(pottlei_check *check, pottle_status status,
                   const pottle_error *error)
{
    if (check->status != POTTLE_OK)
        return;
    check->status = status == POTTLE_ENOENT
                      ? POTTLE_EIO
                      : status; /* a file that is not there cannot be read */
    check->stop = *error;
    check->stop.status = check->status;
}

const pottlei_node *
pottlei_check_child(const pottlei_node *parent, const char *name, size_t i)
{
    for (const pottlei_node *e = parent != NULL ? parent->first : NULL;
         e != NULL; e = e->next)
        if (pottlei_xml_is(e, name) && i-- == 0)
            return e;
    return NULL;
}

long
pottlei_check_line(const pottlei_node *node)
{
    return node != NULL ? node->line : 0;
}

/* -- Schema ---------------------------------------------------------------- */

/* the argument became const in 2.12 */
#if LIBXML_VERSION >= 21200
typedef const xmlError *schema_error;
#else
typedef xmlError *schema_error;
#endif

enum { MOST_TOLD = 12 };
typedef struct complaints {
    struct complaint {
        int code;
        long line;
        char what[240];
    } list[MOST_TOLD];
    size_t count;
    bool memory, exact; /* exact: one or more say which part is wrong */
} complaints;

/* An element "failed to validate" because of what another complaint says. */
static bool
is_consequence(const struct complaint *c)
{
    return c->code == XML_RELAXNG_ERR_ATTRVALID ||
           c->code == XML_RELAXNG_ERR_CONTENTVALID;
}

static void
collect(void *context, schema_error wrong)
{
    complaints *all = context;
    if (wrong->code == XML_ERR_NO_MEMORY ||
        wrong->code == XML_RELAXNG_ERR_MEMORY) {
        all->memory = true;
        return;
    }
    if (all->count == MOST_TOLD)
        return;
    struct complaint *c = &all->list[all->count++];
    const char *message =
        wrong->message != NULL ? wrong->message : "not as the schema asks";
    char cut[240];
    snprintf(cut, sizeof cut, "%.*s", (int)strcspn(message, "\n"), message);
    *c = (struct complaint){ .code = wrong->code, .line = wrong->line };
    /* of an element that failed, libxml2 gives the line of the child where it
     * noticed */
    const xmlNode *node =
        is_consequence(c) && wrong->str1 != NULL ? wrong->node : NULL;
    while (node != NULL && node->type == XML_ELEMENT_NODE &&
           strcmp((const char *)node->name, wrong->str1) != 0)
        node = node->parent;
    if (node != NULL && node->type == XML_ELEMENT_NODE)
        c->line = xmlGetLineNo(node);
    POTTLEI_SET(c->what, cut);
    all->exact = all->exact || !is_consequence(c);
}

static pottle_status
open_schema(const pottle_catalogue *catalogue, const char *name,
            pottlei_reader *reader, char *path, pottle_error *error)
{
    *reader = (pottlei_reader){ .doc = NULL };
    pottle_status status =
        pottlei_path(path, PATH_SIZE, error, catalogue->folder, "schema", name,
                     (char *)NULL);
    if (status == POTTLE_OK)
        status = pottlei_xml_document(reader, path, error);
    if (status == POTTLE_OK || status == POTTLE_ENOMEM || status == POTTLE_EIO)
        return status;
    if (error != NULL)
        error->status = POTTLE_EDATA;
    return POTTLE_EDATA;
}

/* Puts the common definitions where a schema includes them. libxml2 would read
 * them by itself, but takes a path for an address (a folder may be called
 * "100%" or "#1") and prints when it fails. */
static bool
include_common(const xmlDoc *common, xmlDoc *doc)
{
    xmlNode *root = xmlDocGetRootElement(doc);
    for (xmlNode *e = root != NULL ? root->children : NULL; e != NULL;
         e = e->next) {
        if (e->type != XML_ELEMENT_NODE ||
            strcmp((const char *)e->name, "include") != 0)
            continue;
        xmlNode *copy = xmlDocCopyNode(xmlDocGetRootElement(common), doc, 1);
        if (copy == NULL)
            return false;
        xmlNodeSetName(copy, (const xmlChar *)"div");
        xmlFreeNode(xmlReplaceNode(e, copy));
        e = copy;
    }
    return true;
}

static pottle_status
read_schema(const pottle_catalogue *catalogue, const char *root,
            xmlRelaxNG **out, pottle_error *error)
{
    char path[PATH_SIZE], file[40];
    snprintf(file, sizeof file, "%s.rng", root);
    complaints all = { .count = 0 };
    xmlRelaxNGParserCtxt *parser = NULL;
    xmlRelaxNG *schema = NULL;
    pottlei_reader common, reader = { .doc = NULL };
    pottle_status status =
        open_schema(catalogue, "common.rng", &common, path, error);
    if (status == POTTLE_OK)
        status = open_schema(catalogue, file, &reader, path, error);
    if (status != POTTLE_OK)
        goto done;
    if (include_common(common.doc, reader.doc))
        parser = xmlRelaxNGNewDocParserCtxt(reader.doc);
    if (parser != NULL) {
        xmlRelaxNGSetParserStructuredErrors(parser, collect, &all);
        schema = xmlRelaxNGParse(parser);
    }
    if (parser == NULL || all.memory) {
        status = pottlei_fail(error, POTTLE_ENOMEM, "memory",
                              "no memory for the schema");
    } else if (schema == NULL || all.count > 0) {
        status = pottlei_fail(
            error, POTTLE_EDATA, "schema", "the schema itself is not valid: %s",
            all.count > 0 ? all.list[0].what : "it cannot be used");
        if (error != NULL) {
            pottlei_set_where(error, path);
            error->line = all.count > 0 ? all.list[0].line : 0;
        }
    } else {
        *out = schema;
        schema = NULL;
    }
done:
    xmlRelaxNGFree(schema);
    xmlRelaxNGFreeParserCtxt(parser);
    pottlei_xml_close(&reader);
    pottlei_xml_close(&common);
    return status;
}

static pottle_status
validate(xmlRelaxNG *schema, xmlDoc *doc, complaints *all, pottle_error *error)
{
    xmlRelaxNGValidCtxt *valid = xmlRelaxNGNewValidCtxt(schema);
    if (valid == NULL)
        return pottlei_fail(error, POTTLE_ENOMEM, "memory",
                            "no memory to validate");
    xmlRelaxNGSetValidStructuredErrors(valid, collect, all);
    const int result = xmlRelaxNGValidateDoc(valid, doc);
    xmlRelaxNGFreeValidCtxt(valid);
    if (all->memory || (result < 0 && all->count == 0))
        return pottlei_fail(error, POTTLE_ENOMEM, "memory",
                            "no memory to validate");
    if (result > 0 && all->count == 0)
        all->list[all->count++] =
            (struct complaint){ .what = "not as the schema asks" };
    return POTTLE_OK;
}

/* What the reader found is said better by the reader, so the schema's word on
 * that line is left out. */
static void
tell_schema(pottlei_check *check, const complaints *all,
            const pottlei_node *root, const pottle_error *reader)
{
    char instead[60];
    snprintf(instead, sizeof instead, "Compare with schema/%.30s.rng.",
             root->name);
    for (size_t i = 0; i < all->count; i++) {
        const struct complaint *c = &all->list[i];
        const long line = c->line > 0 ? c->line : pottlei_check_line(root);
        if ((is_consequence(c) && (all->exact || reader != NULL)) ||
            (reader != NULL && reader->line == line))
            continue;
        pottlei_check_tell(check, false, line, "schema", NULL, instead, "%s",
                           c->what);
    }
}

/* -- What one kind of file says -------------------------------------------- */

/* Reads the file as every command does. What it defines comes to stand in the
 * check's own catalogue. */
static pottle_status
read_as(pottlei_check *check, int kind, pottle_recipe **recipe,
        pottle_food **food, pottle_error *error)
{
    pottle_catalogue *own = &check->catalogue;
    switch (kind) {
    case KIND_FOOD: return pottlei_food_read_file(check->path, food, error);
    case KIND_RECIPE:
        return pottle_recipe_read_file(own, check->path, recipe, error);
    case KIND_NAMES: return pottlei_names_read(own, check->path, error);
    case KIND_FIGURES: return pottlei_figures_read(own, check->path, error);
    case KIND_JARS: return pottlei_jars_read(own, check->path, error);
    case KIND_RULES: return pottlei_rules_read(own, check->path, error);
    case KIND_SOURCES: return pottlei_sources_read(own, check->path, error);
    case KIND_SYRUPS: return pottlei_syrups_read(own, check->path, error);
    case KIND_RESCUE: return pottlei_rescue_read(own, check->path, error);
    default: {
        /* with the catalogue it knows the sizes, and its own jars besides */
        pottle_kitchen kitchen;
        return pottle_kitchen_read(own, check->path, &kitchen, error);
    }
    }
}

/* A jar takes the process of a larger one, never of a smaller. */
static void
check_jars(pottlei_check *check, const pottlei_node *root)
{
    const pottle_catalogue *c = &check->catalogue;
    const pottlei_node *node = NULL;
    for (size_t i = 0; (node = pottlei_check_child(root, "jar", i)) != NULL;
         i++) {
        const pottlei_node *as = pottlei_check_child(node, "process-as", 0);
        if (as == NULL)
            continue;
        const pottle_jar *jar =
                             pottlei_jar_by_id(c, pottlei_xml_peek(node, "id")),
                         *larger =
                             pottlei_jar_by_id(c, pottlei_xml_peek(as, "jar"));
        if (jar != NULL && larger != NULL &&
            !(larger->nominal_ml > jar->nominal_ml))
            pottlei_check_tell(check, false, pottlei_check_line(as),
                               "process-as", jar->rule, NULL,
                               "%s (%g mL) may not take the process of %s (%g "
                               "mL): only of a larger jar",
                               jar->id, jar->nominal_ml, larger->id,
                               larger->nominal_ml);
    }
}

/* Publications that are revised carry the year in which someone should look for
 * a new edition. */
static void
check_sources(pottlei_check *check, const pottlei_node *root)
{
    const time_t now = time(NULL);
    struct tm today;
    if (now == (time_t)-1 || gmtime_r(&now, &today) == NULL)
        return;
    const pottlei_node *node = NULL;
    for (size_t i = 0; (node = pottlei_check_child(root, "source", i)) != NULL;
         i++) {
        const pottle_source *source = pottle_source_find(
            &check->catalogue, pottlei_xml_peek(node, "key"));
        if (source != NULL && source->review_by > 0 &&
            source->review_by < today.tm_year + 1900)
            pottlei_check_tell(
                check, true, pottlei_check_line(node), "review-due", NULL,
                "Compare its figures with the newest edition and set a later "
                "year.",
                "'%s' was to be compared with a newer edition by %d",
                source->key, source->review_by);
    }
}

static void
check_object(pottlei_check *check, int kind, const pottlei_node *root,
             const pottle_recipe *recipe, const pottle_food *food)
{
    if (kind != KIND_KITCHEN)
        pottlei_check_references(check, root);
    if (kind == KIND_JARS)
        check_jars(check, root);
    if (kind == KIND_SOURCES)
        check_sources(check, root);
    if (food != NULL)
        pottlei_check_food_sense(check, root, food);
    if (recipe != NULL) {
        pottlei_check_recipe_parts(check, root, recipe);
        pottlei_check_recipe_sense(check, root, recipe);
    }
}

static void
check_document(pottlei_check *check, const pottlei_node *root)
{
    int kind = 0;
    while (kind < KIND_COUNT &&
           (root == NULL || !pottlei_xml_is(root, roots[kind])))
        kind++;
    if (kind == KIND_COUNT) {
        pottlei_check_tell(
            check, false, pottlei_check_line(root), "element", NULL, NULL,
            "the root element must be food, recipe, names, "
            "figures, jars, rules, sources, syrups, rescue or kitchen");
        return;
    }
    xmlRelaxNG *schema = NULL;
    pottle_recipe *recipe = NULL;
    pottle_food *food = NULL;
    complaints all = { .count = 0 };
    pottle_error wrong = { .status = POTTLE_OK };
    pottlei_reader document = { .doc = NULL };
    pottlei_hush before;
    pottlei_xml_hush(&before);
    pottle_status status =
        read_schema(&check->catalogue, roots[kind], &schema, &wrong);
    if (status == POTTLE_OK) {
        status = pottlei_xml_document(&document, check->path, &wrong);
        if (status == POTTLE_EDATA) {
            tell_as_read(check, &wrong);
            goto done;
        }
    }
    if (status == POTTLE_OK)
        status = validate(schema, document.doc, &all, &wrong);
    if (status != POTTLE_OK) {
        pottlei_check_stop(check, status, &wrong);
        goto done;
    }
    status = read_as(check, kind, &recipe, &food, &wrong);
    if (status == POTTLE_EDATA)
        tell_as_read(check, &wrong);
    else if (status != POTTLE_OK)
        pottlei_check_stop(check, status, &wrong);
    tell_schema(check, &all, root, status == POTTLE_OK ? NULL : &wrong);
    if (status == POTTLE_OK)
        check_object(check, kind, root, recipe, food);
done:
    pottle_food_free(food);
    pottle_recipe_free(recipe);
    pottlei_xml_close(&document);
    xmlRelaxNGFree(schema);
    pottlei_xml_speak(&before);
}

pottle_status
pottle_file_check(const pottle_catalogue *catalogue, const char *path,
                  pottle_tell tell, void *context, size_t *errors,
                  pottle_error *error)
{
    if (catalogue == NULL || path == NULL || tell == NULL || errors == NULL)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, path, place for the count or nothing to call");
    pottlei_check check = {
        .catalogue = *catalogue, .path = path, .tell = tell, .context = context
    };
    check.catalogue.arena = (pottlei_arena){ NULL };
    pottlei_reader reader;
    pottle_error wrong = { .status = POTTLE_OK };
    const pottle_status status =
        pottlei_xml_open(&reader, path, &check.catalogue.arena, &wrong);
    if (status == POTTLE_OK)
        check_document(&check, reader.root);
    else if (status == POTTLE_EDATA)
        tell_as_read(&check, &wrong);
    else
        pottlei_check_stop(&check, status, &wrong);
    for (size_t i = 0; i < check.foods; i++)
        pottle_food_free(check.food[i].food);
    free(check.food);
    pottlei_arena_free(&check.catalogue.arena);
    if (check.status == POTTLE_OK)
        *errors = check.errors;
    else if (error != NULL)
        *error = check.stop;
    return check.status;
}
