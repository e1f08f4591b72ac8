/* chain_model.c - the links of a recipe's chain and what they rest on.
 *
 * The published batch is scaled once; its amounts, its foods' trims and
 * densities and its predicted volume become steps. The whole batch is
 * multiplied, so what is measured of one ingredient counts batches, and
 * everything else follows. Only the deviation of the produce itself (a cup that
 * weighs more than the table says) reaches the pot on its own, with its share.
 */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/chain.h"

/* -- The limiting line ----------------------------------------------------- */

static int
rank(const char *role)
{
    return strcmp(role, "produce") == 0  ? 3
         : strcmp(role, "low-acid") == 0 ? 2
                                         : 1;
}

/* The line of the food asked for, else of the produce; of several the heaviest.
 */
static pottle_status
find_line(pottlei_making *m, pottle_error *error)
{
    const pottle_plan *plan = m->chain->plan;
    const char *wanted = m->request->food;
    double most = 0, total = 0;
    int best = 0;
    for (size_t i = 0; i < plan->lines; i++) {
        const pottle_line *l = &plan->list[i];
        const double g = plan->amount[i].mass_g.median;
        if (!(g > 0) || (wanted != NULL && strcmp(l->food, wanted) != 0))
            continue;
        const int r = wanted != NULL ? 1 : rank(l->ingredient->role);
        if (r > best || (r == best && g > most)) {
            best = r;
            most = g;
            m->at = i;
        }
    }
    if (best == 0)
        return pottlei_fail(
            error, POTTLE_ENOENT, "no-amount",
            "%s has no published amount of %s to count batches by",
            pottle_recipe_id(m->chain->recipe),
            wanted != NULL ? wanted : "anything");
    for (size_t i = 0; i < plan->lines; i++)
        total += strcmp(plan->list[i].food, plan->list[m->at].food) == 0
                   ? plan->amount[i].mass_g.median
                   : 0;
    m->all_to_main = total / most;
    m->chain->food = plan->line_food[m->at];
    const pottle_line *line = &plan->list[m->at];
    m->trim = strcmp(line->food, line->ingredient->food) == 0
                ? line->ingredient->trim
                : "";
    return POTTLE_OK;
}

/* -- From the container to the batches ------------------------------------- */

static pottle_status
grams(const pottlei_making *m, const pottle_phrase *one, pottle_state state,
      const char *form, pottle_estimate *out, pottle_basis *basis,
      pottle_error *error)
{
    return pottle_phrase_mass(m->catalogue, m->chain->food, one, state, m->trim,
                              form, out, basis, error);
}

static bool
has_picked_trim(const pottle_food *food)
{
    size_t n = 0;
    const pottle_trim *t = pottle_food_trims(food, &n);
    for (size_t i = 0; i < n; i++)
        if (t[i].from == POTTLE_PICKED)
            return true;
    return false;
}

static pottle_status
link_picked(pottlei_making *m, pottle_error *error)
{
    pottle_chain_facts *f = &m->chain->facts;
    pottlei_chain_model *model = &m->chain->model;
    const pottle_state recipe = m->chain->plan->list[m->at].ingredient->state;
    f->picked = m->request->picked_said   ? m->request->picked
              : recipe != POTTLE_PREPARED ? recipe
                                          : POTTLE_PURCHASED;
    /* without a figure for the leaves, as picked is as bought, and then the
     * batch may be counted by that weight */
    if (f->picked == POTTLE_PICKED && !has_picked_trim(m->chain->food))
        f->picked = POTTLE_PURCHASED;
    const pottle_phrase gram = { .low = 1,
                                 .high = 1,
                                 .unit = pottle_unit_find("g"),
                                 .state = f->picked,
                                 .state_said = true };
    const pottle_status status = grams(m, &gram, POTTLE_PREPARED, "", &m->keeps,
                                       &m->basis[POTTLE_CHAIN_PREPARED], error);
    if (status != POTTLE_OK)
        return status;
    model->has[POTTLE_CHAIN_PREPARED] = model->has[POTTLE_CHAIN_PICKED] = true;
    model->sd[POTTLEI_STEP_TRIM] = m->keeps.sd;
    model->offset[POTTLE_CHAIN_PICKED] = -log(m->keeps.median);
    model->weight[POTTLE_CHAIN_PICKED][POTTLEI_STEP_TRIM] = -1;
    return POTTLE_OK;
}

static pottle_status
link_container(pottlei_making *m, pottle_error *error)
{
    pottle_chain_facts *f = &m->chain->facts;
    pottlei_chain_model *model = &m->chain->model;
    size_t n = 0;
    const pottle_container *listed = pottle_food_containers(m->chain->food, &n);
    const pottle_unit *unit = m->request->container != NULL
                                ? pottlei_dry_measure(m->request->container)
                            : n > 0 ? listed[0].of
                                    : NULL;
    if (unit == NULL)
        return POTTLE_OK;
    if (unit->dimension != POTTLE_CONTAINER)
        return pottlei_fail(error, POTTLE_EUNIT, "dimension",
                            "%s is %s, not a container", unit->id,
                            pottle_dimension_name((int)unit->dimension));
    const pottle_phrase one = { .low = 1, .high = 1, .unit = unit };
    pottle_estimate g;
    const pottle_status status =
        grams(m, &one, f->picked, "", &g, &m->basis[POTTLE_CHAIN_PICKED],
              m->request->container != NULL ? error : NULL);
    if (status != POTTLE_OK)
        return m->request->container != NULL ? status : POTTLE_OK;
    f->container = unit;
    model->has[POTTLE_CHAIN_CONTAINER] = true;
    model->sd[POTTLEI_STEP_CONTAINER] = g.sd;
    model->offset[POTTLE_CHAIN_CONTAINER] =
        model->offset[POTTLE_CHAIN_PICKED] - log(g.median);
    model->weight[POTTLE_CHAIN_CONTAINER][POTTLEI_STEP_TRIM] = -1;
    model->weight[POTTLE_CHAIN_CONTAINER][POTTLEI_STEP_CONTAINER] = -1;
    return POTTLE_OK;
}

/* Ready-to-use mass of one batch of what is cooked before it is measured. */
static pottle_status
find_raw(pottlei_making *m, pottle_error *error)
{
    const pottle_phrase bought = { .low = m->chain->plan->amount[m->at].raw_g,
                                   .high = m->chain->plan->amount[m->at].raw_g,
                                   .unit = pottle_unit_find("g"),
                                   .state = POTTLE_PURCHASED,
                                   .state_said = true };
    pottle_estimate ready = { 0, 0 };
    if (!(bought.low > 0))
        return POTTLE_OK;
    const pottle_status status =
        grams(m, &bought, POTTLE_PREPARED, "", &ready, NULL, error);
    m->raw_g = ready.median;
    return status;
}

/* Measured by a gram ready to use: mL of the form, or pieces. */
static pottle_status
measured_by_gram(pottlei_making *m, bool pieces, pottle_estimate *out,
                 pottle_error *error)
{
    const pottle_line *line = &m->chain->plan->list[m->at];
    const pottle_chain_request *r = m->request;
    pottle_chain_facts *f = &m->chain->facts;
    if (pieces) {
        pottle_phrase one = { .low = 1,
                              .high = 1,
                              .unit = pottle_unit_find("count"),
                              .state = POTTLE_PREPARED };
        POTTLEI_SET(one.size,
                    r->size != NULL ? r->size : line->ingredient->size);
        pottle_estimate g;
        const pottle_status status =
            grams(m, &one, POTTLE_PREPARED, "", &g,
                  &m->basis[POTTLE_CHAIN_MEASURED], error);
        if (status != POTTLE_OK)
            return status;
        POTTLEI_SET(f->size, one.size);
        *out = pottle_estimate_over((pottle_estimate){ 1, 0 }, g);
        return POTTLE_OK;
    }
    const pottle_phrase gram = { .low = 1,
                                 .high = 1,
                                 .unit = pottle_unit_find("g"),
                                 .state = POTTLE_PREPARED,
                                 .state_said = true };
    const char *shape = r->form != NULL ? r->form : line->form;
    pottle_conversion c;
    const pottle_status status = pottle_convert(
        m->catalogue, m->chain->food, &gram, pottle_unit_find("ml"),
        shape[0] != '\0' ? shape : NULL, &c, error);
    if (status != POTTLE_OK)
        return status;
    POTTLEI_SET(f->form, c.form);
    m->basis[POTTLE_CHAIN_MEASURED] = c.basis;
    *out = c.value;
    /* what is cooked is not what went in: as the source has it, about */
    if (m->raw_g > 0 && strcmp(f->form, line->form) == 0) {
        const double about = pottlei_figure(m->catalogue, "error-about", 0.15);
        *out = (pottle_estimate){ m->chain->plan->amount[m->at].volume_ml /
                                      m->raw_g,
                                  hypot(c.value.sd, about) };
        m->basis[POTTLE_CHAIN_MEASURED] = (pottle_basis){ .cites = 0 };
        pottlei_basis_cite(&m->basis[POTTLE_CHAIN_MEASURED],
                           &line->ingredient->cite);
    }
    return POTTLE_OK;
}

static pottle_status
link_measured(pottlei_making *m, pottle_error *error)
{
    const pottle_chain_request *r = m->request;
    pottlei_chain_model *model = &m->chain->model;
    const pottle_dimension recipe =
        m->chain->plan->list[m->at].ingredient->unit->dimension;
    const pottle_dimension asked = r->measured != NULL ? r->measured->dimension
                                 : recipe == POTTLE_COUNT && r->form == NULL
                                     ? POTTLE_COUNT
                                     : POTTLE_VOLUME;
    if (asked != POTTLE_COUNT && asked != POTTLE_VOLUME)
        return pottlei_fail(
            error, POTTLE_EUNIT, "dimension",
            "%s is %s: what is measured out is a volume or pieces",
            r->measured->id, pottle_dimension_name((int)asked));
    const bool said = r->measured != NULL || r->form != NULL || r->size != NULL;
    pottle_estimate by_gram;
    const pottle_status status = measured_by_gram(
        m, asked == POTTLE_COUNT, &by_gram, said ? error : NULL);
    if (status != POTTLE_OK)
        return said || status == POTTLE_ENOMEM ? status : POTTLE_OK;
    m->chain->facts.measured =
        pottle_unit_find(asked == POTTLE_COUNT ? "count" : "ml");
    model->has[POTTLE_CHAIN_MEASURED] = true;
    model->sd[POTTLEI_STEP_FORM] = by_gram.sd;
    model->offset[POTTLE_CHAIN_MEASURED] = log(by_gram.median);
    model->weight[POTTLE_CHAIN_MEASURED][POTTLEI_STEP_FORM] = -1;
    return POTTLE_OK;
}

/* The batch is counted where the recipe measures; elsewhere by the mass ready
 * to use. */
static void
link_batches(pottlei_making *m)
{
    pottle_chain_facts *f = &m->chain->facts;
    pottlei_chain_model *model = &m->chain->model;
    const pottle_plan *plan = m->chain->plan;
    const pottle_line *line = &plan->list[m->at];
    const pottlei_amount *amount = &plan->amount[m->at];
    const pottle_dimension unit = line->ingredient->unit->dimension,
                           measured = f->measured != NULL
                                        ? f->measured->dimension
                                        : POTTLE_NUMBER;
    if (unit == POTTLE_VOLUME && measured == POTTLE_VOLUME &&
        strcmp(f->form, line->form) == 0 && amount->volume_ml > 0) {
        f->base = POTTLE_CHAIN_MEASURED;
        f->base_amount = amount->volume_ml * m->all_to_main;
    } else if (unit == POTTLE_COUNT && measured == POTTLE_COUNT &&
               strcmp(f->size, line->ingredient->size) == 0 &&
               amount->count > 0) {
        f->base = POTTLE_CHAIN_MEASURED;
        f->base_amount = amount->count * m->all_to_main;
    } else if (unit == POTTLE_MASS && line->ingredient->state == f->picked) {
        f->base = POTTLE_CHAIN_PICKED;
        f->base_amount = amount->mass_g.median * m->all_to_main;
    } else {
        f->base = POTTLE_CHAIN_PREPARED;
        f->base_amount =
            (m->raw_g > 0 ? m->raw_g : m->part[m->at].prepared_g.median) *
            m->all_to_main;
    }
    model->has[POTTLE_CHAIN_BATCHES] = true;
    model->offset[POTTLE_CHAIN_BATCHES] =
        model->offset[f->base] - log(f->base_amount);
    memcpy(model->weight[POTTLE_CHAIN_BATCHES], model->weight[f->base],
           sizeof model->weight[0]);
    pottlei_basis_cite(&m->basis[POTTLE_CHAIN_BATCHES],
                       &line->ingredient->cite);
}

/* -- The whole ------------------------------------------------------------- */

/* Ready-to-use mass of each line of one published batch, whatever the pots it
 * is cooked in. */
static pottle_status
make_parts(pottlei_making *m, pottle_error *error)
{
    const pottle_plan *plan = m->chain->plan;
    const pottle_status status =
        pottlei_cook_parts(m->catalogue, plan, 0, m->part, error);
    for (size_t i = 0; status == POTTLE_OK && i < plan->lines; i++)
        m->part[i].prepared_g.median *= plan->factor / plan->pots.pot[0];
    return status;
}

static void
make_links(pottlei_making *m)
{
    pottle_chain *chain = m->chain;
    const pottlei_posterior nothing = { .level = false };
    pottlei_posterior prior = nothing;
    pottlei_chain_condition(&chain->model, NULL, 0, 0, &prior);
    size_t before = POTTLE_CHAIN_NODES;
    for (size_t i = 0; i < POTTLE_CHAIN_NODES; i++) {
        chain->facts.has[i] = chain->model.has[i];
        if (!chain->model.has[i])
            continue;
        if (before < POTTLE_CHAIN_NODES)
            chain->link[chain->links++] = (pottle_chain_link){
                (pottle_chain_node)before, (pottle_chain_node)i,
                pottlei_chain_ratio(&chain->model, &prior, before, i),
                m->basis[i]
            };
        before = i;
    }
}

pottle_status
pottlei_chain_model_make(const pottle_catalogue *catalogue, pottle_chain *chain,
                         const pottle_chain_request *request,
                         pottle_error *error)
{
    pottlei_making m = { .catalogue = catalogue,
                         .request = request,
                         .chain = chain };
    pottle_chain_facts *f = &chain->facts;
    pottle_status status = find_line(&m, error);
    if (status == POTTLE_OK)
        status = make_parts(&m, error);
    if (status == POTTLE_OK)
        status = link_picked(&m, error);
    if (status == POTTLE_OK)
        status = link_container(&m, error);
    if (status == POTTLE_OK)
        status = find_raw(&m, error);
    if (status == POTTLE_OK)
        status = link_measured(&m, error);
    if (status != POTTLE_OK)
        return status;
    f->food = chain->plan->list[m.at].food;
    f->title = chain->plan->list[m.at].title;
    f->jar = chain->plan->jar;
    f->own = chain->plan->own;
    f->headspace = chain->plan->headspace;
    f->fill_ml = chain->plan->fill_ml;
    f->smallest = pottle_recipe_batch(chain->recipe)->smallest;
    pottle_plan_loads(chain->plan, &f->per_load);
    link_batches(&m);
    pottlei_chain_link_pot(&m);
    make_links(&m);
    return POTTLE_OK;
}
