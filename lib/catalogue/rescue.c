/* rescue.c - what the publications allow when something went wrong.
 *
 * A mishap is a list of cases, and the first that holds is the answer. A case
 * holds by what is known: an unknown hour is in no case that has a clock, an
 * unknown process in none that asks for one. The reader sees to it that
 * whatever lets a jar be kept asks for a process, that what depends on age has
 * a clock, and that the last case asks nothing and discards. So no jar of
 * unknown age or history is ever let pass, whatever is written in the file. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "xml.h"

/* -- Reading --------------------------------------------------------------- */

static void
read_option(pottlei_reader *reader, const pottlei_node *node,
            const pottle_rescue_case *c, pottle_rescue_option *o)
{
    static const char *const actions[] = { "discard",   "keep",
                                           "wait",      "remake",
                                           "reprocess", "refrigerate",
                                           "freeze",    NULL };
    pottlei_xml_only(reader, node,
                     "do days days-to headspace source at standing note");
    o->action = (pottle_rescue_action)pottlei_xml_choice(reader, node, "do",
                                                         actions, -1);
    o->days = pottlei_xml_number(reader, node, "days", 0);
    o->days_to = pottlei_xml_number(reader, node, "days-to", o->days);
    o->headspace.mm = pottlei_xml_number(reader, node, "headspace", 0) * 25.4;
    o->cite = pottlei_xml_cite(reader, node, NULL);
    o->text = pottlei_xml_text(reader, node);
    if (o->days_to < o->days)
        pottlei_xml_fail(reader, node, "order", "'days-to' is below 'days'");
    if (o->headspace.mm > 0 && !(o->headspace.mm >= 2 && o->headspace.mm <= 60))
        pottlei_xml_fail(reader, node, "range",
                         "a headspace of %g mm is out of range",
                         o->headspace.mm);
    if (o->action != POTTLE_RESCUE_DISCARD &&
        c->followed == POTTLE_FOLLOWED_UNKNOWN)
        pottlei_xml_fail(
            reader, node, "unknown-process",
            "a case that asks nothing of the first process may only discard");
    const bool ages = o->action == POTTLE_RESCUE_REPROCESS ||
                      o->action == POTTLE_RESCUE_REFRIGERATE ||
                      o->action == POTTLE_RESCUE_FREEZE;
    if (ages && !c->has_hours)
        pottlei_xml_fail(reader, node, "unknown-age",
                         "'%s' needs a case with a number of hours",
                         pottle_rescue_action_name((int)o->action));
}

/* <differs> and <chosen> of a case or of the remaking. */
static void
read_differing(pottlei_reader *reader, const pottlei_node *node,
               const pottle_rescue_other **list, size_t *count,
               const char **chosen)
{
    pottle_rescue_other *other = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "differs"), sizeof *other);
    *chosen = "";
    for (const pottlei_node *e = pottlei_xml_first(reader, node);
         e != NULL && reader->status == POTTLE_OK;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "differs")) {
            pottlei_xml_only(reader, e, "source at standing note");
            other[(*count)++] =
                (pottle_rescue_other){ pottlei_xml_text(reader, e),
                                       pottlei_xml_cite(reader, e, NULL) };
        } else if (pottlei_xml_is(e, "chosen")) {
            pottlei_xml_only(reader, e, "");
            *chosen = pottlei_xml_text(reader, e);
        }
    }
    *list = other;
    if (reader->status == POTTLE_OK && (*count > 0) != ((*chosen)[0] != '\0'))
        pottlei_xml_fail(
            reader, node, "chosen",
            "where sources differ the choice needs a reason, and only there");
}

static bool
asks_nothing(const pottle_rescue_case *c)
{
    return !c->has_hours && c->followed == POTTLE_FOLLOWED_UNKNOWN &&
           !c->hot_pack && !c->dense && !(c->lost_under > 0);
}

static bool
flag(pottlei_reader *reader, const pottlei_node *node, const char *name)
{
    static const char *const yes[] = { "yes", NULL };
    return pottlei_xml_peek(node, name) != NULL &&
           pottlei_xml_choice(reader, node, name, yes, -1) == 0;
}

static void
read_case(pottlei_reader *reader, const pottlei_node *node,
          pottle_rescue_case *c)
{
    static const char *const processes[] = { "followed", "wrong", "untested",
                                             NULL };
    pottlei_xml_only(reader, node,
                     "within under process hot-pack dense lost-under");
    const bool within = pottlei_xml_peek(node, "within") != NULL;
    c->under = pottlei_xml_peek(node, "under") != NULL;
    c->has_hours = within || c->under;
    c->hours = !c->has_hours
                 ? 0
                 : pottlei_xml_number(reader, node,
                                      c->under ? "under" : "within", -1);
    if (pottlei_xml_peek(node, "process") != NULL)
        c->followed =
            (pottle_followed)(pottlei_xml_choice(reader, node, "process",
                                                 processes, -1) +
                              1);
    c->hot_pack = flag(reader, node, "hot-pack");
    c->dense = flag(reader, node, "dense");
    c->lost_under = pottlei_xml_number(reader, node, "lost-under", 0);
    if ((within && c->under) || (c->has_hours && !(c->hours > 0)))
        pottlei_xml_fail(reader, node, "hours",
                         "a case has one number of hours above 0, or none");
    if (pottlei_xml_peek(node, "lost-under") != NULL &&
        !(c->lost_under > 0 && c->lost_under <= 1))
        pottlei_xml_fail(reader, node, "range",
                         "the share lost lies above 0 and up to 1");
    pottle_rescue_option *option = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "option"), sizeof *option);
    for (const pottlei_node *e = pottlei_xml_first(reader, node);
         e != NULL && reader->status == POTTLE_OK;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "option"))
            read_option(reader, e, c, &option[c->options++]);
        else if (!pottlei_xml_is(e, "differs") && !pottlei_xml_is(e, "chosen"))
            pottlei_xml_unknown(reader, e);
    }
    c->option = option;
    if (c->options == 0)
        pottlei_xml_fail(reader, node, "element", "a case needs an <option>");
    read_differing(reader, node, &c->other, &c->others, &c->chosen);
}

static void
read_mishap(pottlei_reader *reader, const pottlei_node *node, pottle_mishap *m)
{
    static const char *const suppositions[] = { "followed", "wrong", NULL };
    pottlei_xml_only(reader, node, "id supposes");
    m->id = pottlei_xml_id(reader, node, "id", NULL);
    m->supposes = (pottle_followed)(pottlei_xml_choice(reader, node, "supposes",
                                                       suppositions, -1) +
                                    1);
    m->title = m->clock = m->supposed = "";
    pottle_rescue_case *list = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "case"), sizeof *list);
    for (const pottlei_node *e = pottlei_xml_first(reader, node);
         e != NULL && reader->status == POTTLE_OK;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "title")) {
            m->title = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "clock")) {
            m->clock = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "supposed")) {
            m->supposed = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "case")) {
            if (m->cases > 0 && asks_nothing(&list[m->cases - 1]))
                pottlei_xml_fail(
                    reader, e, "last-case",
                    "a case after one that asks nothing is never reached");
            read_case(reader, e, &list[m->cases++]);
        } else {
            pottlei_xml_unknown(reader, e);
        }
    }
    m->list = list;
    if (reader->status == POTTLE_OK &&
        (m->title[0] == '\0' || m->clock[0] == '\0' || m->supposed[0] == '\0'))
        pottlei_xml_fail(
            reader, node, "element",
            "a mishap needs a title, a clock and what is supposed");
    if (reader->status == POTTLE_OK &&
        (m->cases == 0 || !asks_nothing(&list[m->cases - 1])))
        pottlei_xml_fail(reader, node, "last-case",
                         "the last case must ask nothing, for jars of which "
                         "nothing is known");
}

static void
read_way(pottlei_reader *reader, const pottlei_node *node,
         const pottle_cite *parent, pottle_remake_way *w)
{
    static const char *const pectins[] = { "powdered", "liquid", "none", NULL };
    static const char *const keeps[] = { "exact", "at-least", NULL };
    pottlei_xml_only(reader, node,
                     "pectin per unit boil boil-to source at standing note");
    w->pectin =
        pectins[pottlei_xml_choice(reader, node, "pectin", pectins, -1)];
    w->per_ml = pottlei_xml_number(reader, node, "per", -1) *
                pottlei_xml_unit(reader, node, "unit", POTTLE_VOLUME)->factor;
    w->boil_min = pottlei_xml_number(reader, node, "boil", -1);
    w->boil_to_min = pottlei_xml_number(reader, node, "boil-to", w->boil_min);
    w->cite = pottlei_xml_cite(reader, node, parent);
    w->text = "";
    pottle_remake_add *add = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "add"), sizeof *add);
    for (const pottlei_node *e = pottlei_xml_first(reader, node);
         e != NULL && reader->status == POTTLE_OK;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "text")) {
            w->text = pottlei_xml_text(reader, e);
        } else if (pottlei_xml_is(e, "add")) {
            pottlei_xml_only(reader, e, "food form amount unit keep");
            pottle_remake_add *a = &add[w->adds++];
            a->food = pottlei_xml_id(reader, e, "food", NULL);
            a->form = pottlei_xml_id(reader, e, "form", NULL);
            a->printed = pottlei_xml_attr(reader, e, "amount", NULL);
            a->amount = pottlei_xml_number(reader, e, "amount", -1);
            a->unit = pottlei_xml_unit(reader, e, "unit", POTTLE_VOLUME);
            a->keep = pottlei_xml_choice(reader, e, "keep", keeps, -1) == 1
                        ? POTTLE_AT_LEAST
                        : POTTLE_EXACT;
            if (!(a->amount > 0))
                pottlei_xml_fail(reader, e, "range", "an amount lies above 0");
        } else {
            pottlei_xml_unknown(reader, e);
        }
    }
    w->add = add;
    if (reader->status == POTTLE_OK && (w->text[0] == '\0' || w->adds == 0))
        pottlei_xml_fail(reader, node, "element",
                         "a way needs a text and what is added");
    if (!(w->per_ml > 0) || !(w->boil_min > 0) || w->boil_to_min < w->boil_min)
        pottlei_xml_fail(
            reader, node, "order",
            "the measure and the minutes lie above 0 and in order");
}

static int
whole(pottlei_reader *reader, const pottlei_node *node, const char *name,
      int most)
{
    const double x = pottlei_xml_number(reader, node, name, -1);
    if (x >= 0 && x <= most && !(fabs(x - floor(x)) > 0))
        return (int)x;
    pottlei_xml_fail(reader, node, "number",
                     "'%s' must be a whole number up to %d", name, most);
    return 0;
}

/* Boiling water only, and the bands as those of a recipe: from 0 upwards
 * without a gap, times that never fall. */
static void
read_process(pottlei_reader *reader, const pottlei_node *node,
             const pottle_cite *parent, pottle_process_table *t)
{
    static const char *const methods[] = { "boiling-water", NULL };
    pottlei_xml_only(reader, node,
                     "method jars headspace sterile source at standing note");
    t->method =
        (pottle_method)pottlei_xml_choice(reader, node, "method", methods, -1);
    t->sterile = flag(reader, node, "sterile");
    t->headspace_in = pottlei_xml_number(reader, node, "headspace", -1);
    t->headspace = pottlei_xml_attr(reader, node, "headspace", NULL);
    t->cite = pottlei_xml_cite(reader, node, parent);
    const char *jars = pottlei_xml_attr(reader, node, "jars", NULL);
    const char **jar = pottlei_xml_array(reader, strlen(jars), sizeof *jar);
    for (const char *s = jars + strspn(jars, " ");
         *s != '\0' && reader->status == POTTLE_OK; s += strspn(s, " ")) {
        char word[64];
        const size_t n = strcspn(s, " "),
                     k = n < sizeof word ? n : sizeof word - 1;
        memcpy(word, s, k);
        word[k] = '\0';
        jar[t->jars] = pottlei_arena_text(reader->arena, word);
        if (jar[t->jars++] == NULL)
            reader->status = pottlei_fail(reader->error, POTTLE_ENOMEM,
                                          "memory", "no memory");
        else if (!pottlei_id_valid(word))
            pottlei_xml_fail(reader, node, "id",
                             "'%.40s' of 'jars' is not an id", word);
        s += n;
    }
    t->jar = jar;
    pottle_band *band = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "band"), sizeof *band);
    int next = 0;
    for (const pottlei_node *e = pottlei_xml_first(reader, node);
         e != NULL && reader->status == POTTLE_OK;
         e = pottlei_xml_next(reader, e)) {
        if (!pottlei_xml_is(e, "band")) {
            pottlei_xml_unknown(reader, e);
            return;
        }
        pottlei_xml_only(reader, e, "from to minutes");
        pottle_band *b = &band[t->bands++];
        b->from_ft = whole(reader, e, "from", 30000);
        b->to_ft = pottlei_xml_peek(e, "to") == NULL
                     ? -1
                     : whole(reader, e, "to", 30000);
        b->minutes = whole(reader, e, "minutes", 1000);
        const bool open_before = t->bands > 1 &&
                                 b[-1].to_ft<0, falls = t->bands> 1 &&
                                 b->minutes < b[-1].minutes;
        if (b->from_ft != next || (b->to_ft >= 0 && b->to_ft <= b->from_ft) ||
            open_before || falls || b->minutes == 0)
            pottlei_xml_fail(reader, e, "bands",
                             "bands begin at 0 and run on without a gap, and "
                             "times never fall with altitude");
        next = b->to_ft + 1;
    }
    t->band = band;
    if (reader->status == POTTLE_OK && (t->bands == 0 || t->jars == 0))
        pottlei_xml_fail(reader, node, "bands",
                         "a process needs a band and a jar");
    if (!(t->headspace_in >= 0.1 && t->headspace_in <= 2))
        pottlei_xml_fail(reader, node, "range",
                         "a headspace of %g in is out of range",
                         t->headspace_in);
}

static void
read_remaking(pottlei_reader *reader, const pottlei_node *node,
              pottle_remaking *r)
{
    pottlei_xml_only(reader, node,
                     "usual most unit rule source at standing note");
    const double ml =
        pottlei_xml_unit(reader, node, "unit", POTTLE_VOLUME)->factor;
    r->usual_ml = pottlei_xml_number(reader, node, "usual", -1) * ml;
    r->most_ml = pottlei_xml_number(reader, node, "most", -1) * ml;
    r->rule = pottlei_xml_id(reader, node, "rule", NULL);
    r->cite = pottlei_xml_cite(reader, node, NULL);
    pottle_remake_way *way = pottlei_xml_array(
        reader, pottlei_xml_count(reader, node, "way"), sizeof *way);
    size_t processes = 0;
    for (const pottlei_node *e = pottlei_xml_first(reader, node);
         e != NULL && reader->status == POTTLE_OK;
         e = pottlei_xml_next(reader, e)) {
        if (pottlei_xml_is(e, "way")) {
            read_way(reader, e, &r->cite, &way[r->ways++]);
            for (size_t i = 0; reader->status == POTTLE_OK && i + 1 < r->ways;
                 i++)
                if (strcmp(way[i].pectin, way[r->ways - 1].pectin) == 0)
                    pottlei_xml_fail(reader, e, "twice",
                                     "two ways with '%s' pectin",
                                     way[i].pectin);
        } else if (pottlei_xml_is(e, "process") && processes++ == 0) {
            read_process(reader, e, &r->cite, &r->process);
        } else if (!pottlei_xml_is(e, "differs") &&
                   !pottlei_xml_is(e, "chosen")) {
            pottlei_xml_unknown(reader, e);
        }
    }
    r->way = way;
    if (reader->status == POTTLE_OK && (r->ways == 0 || processes == 0))
        pottlei_xml_fail(reader, node, "element",
                         "remaking needs a way and a process");
    if (!(r->usual_ml > 0 && r->usual_ml <= r->most_ml))
        pottlei_xml_fail(reader, node, "order",
                         "the sizes of a lot are not in order");
    read_differing(reader, node, &r->other, &r->others, &r->chosen);
}

static void
read_dense(pottlei_reader *reader, const pottlei_node *node,
           pottlei_dense *dense)
{
    pottlei_xml_only(reader, node, "kind food source at standing note");
    pottlei_xml_cite(reader, node, NULL);
    dense->kind = pottlei_xml_peek(node, "kind");
    dense->food = pottlei_xml_peek(node, "food");
    if ((dense->kind == NULL) == (dense->food == NULL))
        pottlei_xml_fail(reader, node, "attribute",
                         "<dense> names a kind or a food");
    else
        pottlei_xml_id(reader, node, dense->kind != NULL ? "kind" : "food",
                       NULL);
}

pottle_status
pottlei_rescue_read(pottle_catalogue *catalogue, const char *path,
                    pottle_error *error)
{
    pottlei_reader reader;
    if (pottlei_xml_open(&reader, path, &catalogue->arena, error) != POTTLE_OK)
        return reader.status;
    const pottlei_node *root = pottlei_xml_root(&reader, "rescue");
    pottle_mishap *mishap = pottlei_xml_array(
        &reader, pottlei_xml_count(&reader, root, "mishap"), sizeof *mishap);
    pottlei_dense *dense = pottlei_xml_array(
        &reader, pottlei_xml_count(&reader, root, "dense"), sizeof *dense);
    pottle_remaking *remaking = pottlei_xml_array(&reader, 1, sizeof *remaking);
    size_t mishaps = 0, denses = 0, remakings = 0;
    for (const pottlei_node *e = pottlei_xml_first(&reader, root);
         e != NULL && reader.status == POTTLE_OK;
         e = pottlei_xml_next(&reader, e)) {
        if (pottlei_xml_is(e, "mishap")) {
            pottle_mishap *m = &mishap[mishaps++];
            read_mishap(&reader, e, m);
            /* sorted by id, as the other files are */
            if (reader.status == POTTLE_OK && mishaps > 1 &&
                strcmp(m[-1].id, m->id) >= 0)
                pottlei_xml_fail(&reader, e,
                                 strcmp(m[-1].id, m->id) == 0 ? "twice"
                                                              : "order",
                                 "'%s' stands after '%s'", m->id, m[-1].id);
        } else if (pottlei_xml_is(e, "dense")) {
            read_dense(&reader, e, &dense[denses++]);
        } else if (pottlei_xml_is(e, "remaking") && remakings++ == 0) {
            read_remaking(&reader, e, remaking);
        } else {
            pottlei_xml_unknown(&reader, e);
        }
    }
    if (reader.status == POTTLE_OK && (mishaps == 0 || remakings == 0))
        pottlei_xml_fail(&reader, root, "element",
                         "a mishap and a remaking are needed");
    if (reader.status == POTTLE_OK) {
        catalogue->mishap = mishap;
        catalogue->mishap_count = mishaps;
        catalogue->dense = dense;
        catalogue->dense_count = denses;
        catalogue->remaking = remaking;
    }
    return reader.status;
}

/* -- Asking ---------------------------------------------------------------- */

const char *
pottle_rescue_action_name(int action)
{
    switch (action) {
    case POTTLE_RESCUE_DISCARD: return "discard";
    case POTTLE_RESCUE_KEEP: return "keep";
    case POTTLE_RESCUE_WAIT: return "wait";
    case POTTLE_RESCUE_REMAKE: return "remake";
    case POTTLE_RESCUE_REPROCESS: return "reprocess";
    case POTTLE_RESCUE_REFRIGERATE: return "refrigerate";
    case POTTLE_RESCUE_FREEZE: return "freeze";
    default: return "unknown";
    }
}

const pottle_mishap *
pottle_mishaps(const pottle_catalogue *c, size_t *count)
{
    *count = c->mishap_count;
    return c->mishap;
}

pottle_status
pottle_mishap_find(const pottle_catalogue *c, const char *name,
                   const pottle_mishap **out, pottle_error *error)
{
    if (c == NULL || name == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, name or place for the result");
    char folded[64], id[64];
    pottlei_fold(name, folded, sizeof folded);
    pottlei_near near;
    pottlei_near_init(&near, folded);
    for (size_t i = 0; i < c->mishap_count; i++) {
        pottlei_fold(c->mishap[i].id, id, sizeof id);
        if (strcmp(id, folded) == 0) {
            *out = &c->mishap[i];
            return POTTLE_OK;
        }
        pottlei_near_try(&near, c->mishap[i].id);
    }
    char list[200];
    pottlei_near_write(&near, list, sizeof list);
    return pottlei_fail(error, POTTLE_ENOENT, "unknown-mishap",
                        "'%.60s' is not a mishap that is known%s", name, list);
}

const pottle_remaking *
pottle_remaking_of(const pottle_catalogue *c)
{
    return c->remaking;
}

void
pottle_jar_facts_add(const pottle_catalogue *c, const pottle_recipe *recipe,
                     const pottle_jar *jar, pottle_jar_facts *facts)
{
    if (recipe->status != POTTLE_TESTED)
        facts->followed = POTTLE_FOLLOWED_UNTESTED;
    for (size_t i = 0; i < recipe->process_count; i++) {
        const pottle_process_table *t = &recipe->process[i];
        bool takes = jar == NULL;
        for (size_t k = 0; k < t->jars && !takes; k++) {
            const pottle_jar *tested = NULL;
            takes = pottle_jar_find(c, t->jar[k], &tested, NULL) == POTTLE_OK &&
                    tested->nominal_ml >= jar->nominal_ml;
        }
        facts->hot_pack = facts->hot_pack ||
                          (takes && !t->raw && recipe->status == POTTLE_TESTED);
    }
    for (size_t i = 0; i < c->dense_count && !facts->dense; i++) {
        const pottlei_dense *d = &c->dense[i];
        facts->dense = d->kind != NULL && strcmp(d->kind, recipe->kind) == 0;
        for (size_t k = 0;
             d->food != NULL && k < recipe->ingredient_count && !facts->dense;
             k++)
            facts->dense = strcmp(d->food, recipe->ingredient[k].food) == 0;
    }
}

static bool
holds(const pottle_rescue_case *c, const pottle_jar_facts *f)
{
    if (c->has_hours && !(f->has_hours && (c->under ? f->hours < c->hours
                                                    : f->hours <= c->hours)))
        return false;
    if (c->followed != POTTLE_FOLLOWED_UNKNOWN && c->followed != f->followed)
        return false;
    if ((c->hot_pack && !f->hot_pack) || (c->dense && !f->dense))
        return false;
    return !(c->lost_under > 0) || (f->has_lost && f->lost < c->lost_under);
}

pottle_status
pottle_rescue_find(const pottle_mishap *mishap, const pottle_jar_facts *facts,
                   const pottle_rescue_case **out, pottle_error *error)
{
    if (mishap == NULL || facts == NULL || out == NULL ||
        facts->version != POTTLE_JAR_FACTS_VERSION)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no mishap, facts or place for the result, or "
                            "facts of another version");
    if (facts->has_hours && !(facts->hours >= 0 && facts->hours < HUGE_VAL))
        return pottlei_fail(error, POTTLE_EDOMAIN, "hours",
                            "the hours must be a number from 0 upwards");
    if (facts->has_lost && !(facts->lost >= 0 && facts->lost <= 1))
        return pottlei_fail(
            error, POTTLE_EDOMAIN, "share",
            "the share of the liquid that was lost lies between 0 and 1");
    size_t i = 0;
    while (i + 1 < mishap->cases && !holds(&mishap->list[i], facts))
        i++;
    *out = &mishap->list[i]; /* the last asks nothing */
    return POTTLE_OK;
}

pottle_status
pottle_remaking_process(const pottle_catalogue *c, const pottle_jar *jar,
                        double altitude_m, pottle_process *out,
                        pottle_error *error)
{
    if (c == NULL || jar == NULL || out == NULL)
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, jar or place for the result");
    if (c->remaking == NULL)
        return pottlei_fail(error, POTTLE_ENOENT, "no-remaking",
                            "the processes of remade spreads were not read");
    /* dressed as a recipe, so that one look-up serves all */
    const pottle_recipe remade = { .id = "a remade jam or jelly",
                                   .status = POTTLE_TESTED,
                                   .process_count = 1,
                                   .process = &c->remaking->process };
    pottle_process found[POTTLE_PROCESS_MAX];
    size_t n = 0;
    const pottle_status status = pottle_process_find(
        c, &remade, jar, NULL, POTTLE_ANY_PACK, altitude_m, found, &n, error);
    if (status == POTTLE_OK)
        *out = found[0];
    return status;
}
