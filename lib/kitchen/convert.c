/* convert.c - from any measure of a food to its mass, and back to any other.
 *
 * Mass is the hub: every measure has a factor to the mass in the state in which
 * it is taken, and trims lead from state to state. Each factor has a spread,
 * and each its source. */
#include <config.h>

#include <math.h>
#include <string.h>

#include "kitchen/density.h"

/* -- Trim ------------------------------------------------------------------ */

/* What a state keeps on the way to ready: 1 for prepared. A trim that is not
 * listed for picked is taken from purchased, and none at all keeps everything,
 * with a note. */
static pottle_status
kept(const pottle_catalogue *catalogue, const pottle_food *food,
     pottle_state from, const char *trim, pottle_estimate *out,
     pottle_basis *basis, pottle_error *error)
{
    *out = (pottle_estimate){ 1.0, 0.0 };
    if (from == POTTLE_PREPARED)
        return POTTLE_OK;
    size_t n = 0;
    const pottle_trim *t = pottle_food_trims(food, &n), *found = NULL;
    for (size_t i = 0; i < n && found == NULL; i++)
        if (t[i].from == from &&
            (trim[0] == '\0' || strcmp(t[i].id, trim) == 0))
            found = &t[i];
    if (found == NULL && from == POTTLE_PICKED) {
        /* the named way, then any way, from as bought */
        for (size_t i = 0; i < n && found == NULL; i++)
            if (t[i].from == POTTLE_PICKED)
                found = &t[i];
        if (found == NULL) {
            pottlei_basis_note(basis,
                               "no figure for %s as picked: taken as bought",
                               pottle_food_title(food));
            return kept(catalogue, food, POTTLE_PURCHASED, trim, out, basis,
                        error);
        }
    }
    if (found == NULL && trim[0] != '\0') {
        char list[200] = "";
        for (size_t i = 0; i < n; i++)
            pottlei_list_add(list, sizeof list, t[i].id);
        return pottlei_fail(
            error, POTTLE_ENOENT, "no-trim", "%s has no figure for '%s'%s%s",
            pottle_food_title(food), trim, n > 0 ? "; known: " : "", list);
    }
    if (found == NULL)
        return POTTLE_OK;
    pottlei_basis_cite(basis, &found->cite);
    *out = (pottle_estimate){
        found->keeps,
        found->keeps < 1 ? pottlei_figure(catalogue, "spread-trim", 0.05) : 0
    };
    return POTTLE_OK;
}

static bool
has_trim(const pottle_food *food)
{
    size_t n = 0;
    pottle_food_trims(food, &n);
    return n > 0;
}

/* From one state to another. Between picked and purchased the shared way to
 * ready cancels. */
static pottle_status
change_state(const pottle_catalogue *catalogue, const pottle_food *food,
             pottle_state from, pottle_state to, const char *trim,
             pottle_estimate *mass, pottle_basis *basis, pottle_error *error)
{
    if (from == to)
        return POTTLE_OK;
    pottle_estimate a, b;
    pottle_status status = kept(catalogue, food, from, trim, &a, basis, error);
    if (status == POTTLE_OK)
        status = kept(catalogue, food, to, trim, &b, basis, error);
    if (status == POTTLE_OK)
        *mass = pottle_estimate_over(pottle_estimate_times(*mass, a), b);
    return status;
}

/* -- Measures to mass ------------------------------------------------------ */

/* A number that was said: a range is taken as its 90 % interval. */
static pottle_estimate
said(double low, double high)
{
    pottle_estimate e = { low, 0 };
    if (high > low && pottle_estimate_between(low, high, &e) != POTTLE_OK)
        e = (pottle_estimate){ low, 0 };
    return e;
}

static const pottle_piece *
find_piece(const pottle_food *food, const char *size)
{
    size_t n = 0;
    const pottle_piece *p = pottle_food_pieces(food, &n);
    const char *const wanted[] = { size[0] != '\0' ? size : "one",
                                   size[0] != '\0' ? size : "medium" };
    for (size_t k = 0; k < 2; k++)
        for (size_t i = 0; i < n; i++)
            if (strcmp(p[i].size, wanted[k]) == 0)
                return &p[i];
    return NULL;
}

static pottle_status
one_piece(const pottle_catalogue *catalogue, const pottle_food *food,
          const char *size, pottle_estimate *grams, pottle_state *state,
          pottle_basis *basis, pottle_error *error)
{
    const pottle_piece *piece = find_piece(food, size);
    if (piece == NULL) {
        size_t n = 0;
        const pottle_piece *p = pottle_food_pieces(food, &n);
        char list[160] = "";
        for (size_t i = 0; i < n; i++)
            pottlei_list_add(list, sizeof list, p[i].size);
        if (n == 0)
            return pottlei_fail(
                error, POTTLE_ENOENT, "no-piece",
                "%s has no published weight of a piece: weigh it",
                pottle_food_title(food));
        return pottlei_fail(error, POTTLE_ENOENT, "no-piece",
                            "how large is a piece of %s? known: %s",
                            pottle_food_title(food), list);
    }
    pottlei_basis_cite(basis, &piece->cite);
    *grams =
        (pottle_estimate){ piece->grams,
                           pottlei_figure(catalogue, "spread-piece", 0.15) };
    *state = piece->state;
    return POTTLE_OK;
}

static const pottle_unit *
container_of(const pottle_food *food, const pottle_unit *unit)
{
    size_t n = 0;
    const pottle_container *c = pottle_food_containers(food, &n);
    for (size_t i = 0; i < n; i++)
        if (c[i].of == unit)
            return unit;
    return NULL;
}

static pottle_status
one_container(const pottle_catalogue *catalogue, const pottle_food *food,
              const pottle_unit *unit, pottle_estimate *grams,
              pottle_basis *basis, pottle_error *error)
{
    size_t n = 0;
    const pottle_container *c = pottle_food_containers(food, &n);
    double low = 0, high = 0;
    for (size_t i = 0; i < n; i++) {
        if (c[i].of != unit)
            continue;
        low = low > 0 && low < c[i].low_g ? low : c[i].low_g;
        high = high > c[i].high_g ? high : c[i].high_g;
        pottlei_basis_cite(basis, &c[i].cite);
    }
    if (!(low > 0)) {
        char list[160] = "";
        for (size_t i = 0; i < n; i++)
            if (strstr(list, c[i].of->id) == NULL)
                pottlei_list_add(list, sizeof list, c[i].of->id);
        return pottlei_fail(
            error, POTTLE_ENOENT, "no-container",
            "no weight of a %s of %s is published%s%s. Weigh it", unit->id,
            pottle_food_title(food), n > 0 ? "; known: " : "", list);
    }
    *grams = said(low, high);
    grams->sd =
        hypot(grams->sd, pottlei_figure(catalogue, "spread-container", 0.03));
    return POTTLE_OK;
}

/* A pint or quart of produce as bought is a basket: the dry measure, where its
 * weight is published. */
static const pottle_unit *
basket(const pottle_food *food, const pottle_phrase *phrase)
{
    if (!phrase->state_said || phrase->state == POTTLE_PREPARED ||
        phrase->unit->dimension != POTTLE_VOLUME)
        return NULL;
    const pottle_unit *dry = pottlei_dry_measure(phrase->unit);
    return dry == phrase->unit ? NULL : container_of(food, dry);
}

/* What one of a measure weighs, and the state in which it does. */
static pottle_status
weigh_one(const pottle_catalogue *catalogue, const pottle_food *food,
          const pottle_phrase *phrase, const pottle_unit *unit,
          const char *form, pottle_estimate *one, pottle_state *from,
          pottle_basis *basis, pottle_error *error)
{
    pottle_status status = POTTLE_OK;
    /* "2 boxes of pectin": the food knows a box as a piece */
    const bool piece = unit->dimension == POTTLE_CONTAINER &&
                       container_of(food, unit) == NULL &&
                       find_piece(food, unit->id) != NULL;
    if (unit->dimension == POTTLE_MASS) {
        one->median = unit->factor;
    } else if (unit->dimension == POTTLE_VOLUME) {
        const char *shape = phrase->form[0] != '\0' ? phrase->form
                          : form[0] != '\0'         ? form
                                            : pottlei_default_form(food);
        if (shape[0] == '\0')
            return pottlei_form_missing(food, "", error);
        status = pottle_form_density(catalogue, food, shape, one, basis, error);
        one->median *= unit->factor;
    } else if (unit->dimension == POTTLE_COUNT || piece) {
        status = one_piece(catalogue, food, piece ? unit->id : phrase->size,
                           one, from, basis, error);
        one->median *= piece ? 1 : unit->factor;
    } else if (unit->dimension == POTTLE_CONTAINER) {
        status = one_container(catalogue, food, unit, one, basis, error);
        if (!phrase->state_said)
            *from = POTTLE_PURCHASED;
    } else {
        return pottlei_fail(error, POTTLE_EUNIT, "dimension",
                            "%s is %s, not an amount of food", unit->id,
                            pottle_dimension_name((int)unit->dimension));
    }
    return status;
}

pottle_status
pottle_phrase_mass(const pottle_catalogue *catalogue, const pottle_food *food,
                   const pottle_phrase *phrase, pottle_state state,
                   const char *trim, const char *form, pottle_estimate *out,
                   pottle_basis *basis, pottle_error *error)
{
    if (catalogue == NULL || food == NULL || phrase == NULL ||
        phrase->unit == NULL || trim == NULL || form == NULL || out == NULL)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, food, phrase or place for the result");
    pottle_estimate mass = said(phrase->low, phrase->high), one = { 1, 0 };
    pottle_state from = phrase->state;
    pottle_status status = POTTLE_OK;
    const pottle_unit *unit = phrase->unit;
    const pottle_unit *dry = basket(food, phrase);
    if (dry != NULL) {
        pottlei_basis_note(basis, "a %s as bought is taken as the dry measure",
                           unit->id);
        unit = dry;
    }
    status = weigh_one(catalogue, food, phrase, unit, form, &one, &from, basis,
                       error);
    if (status != POTTLE_OK)
        return status;
    mass = pottle_estimate_times(mass, one);
    /* without a figure for what is cut away, as bought is ready to use */
    if (from != state && !has_trim(food))
        pottlei_basis_note(basis,
                           "no trim loss is published for %s: none is taken",
                           pottle_food_title(food));
    status =
        change_state(catalogue, food, from, state, trim, &mass, basis, error);
    if (status == POTTLE_OK)
        *out = mass;
    return status;
}

/* -- Conversion ------------------------------------------------------------ */

/* An amount of food on its way to another measure: its mass, and what one of
 * the measure weighs. */
typedef struct way {
    const pottle_catalogue *catalogue;
    const pottle_food *food;
    const pottle_phrase *phrase;
    const char *as; /* the form wanted; NULL for that of the phrase */
    pottle_estimate mass, one;
    pottle_error *error;
} way;

static pottle_status
weigh(way *w, pottle_conversion *c)
{
    return pottle_phrase_mass(w->catalogue, w->food, w->phrase, c->state, "",
                              "", &w->mass, &c->basis, w->error);
}

/* The same measure on both sides: nothing that is uncertain lies between. */
static void
keep_measure(const way *w, pottle_conversion *c)
{
    c->value =
        pottle_estimate_multiple(said(w->phrase->low, w->phrase->high),
                                 w->phrase->unit->factor / c->unit->factor);
}

static pottle_status
to_volume(way *w, pottle_conversion *c, bool *kept_measure)
{
    const pottle_phrase *phrase = w->phrase;
    const char *shape = w->as != NULL ? w->as : phrase->form;
    if (shape[0] == '\0')
        shape = pottlei_default_form(w->food);
    if (shape[0] == '\0')
        return pottlei_form_missing(w->food, "", w->error);
    pottlei_copy(c->form, sizeof c->form, shape);
    c->state = POTTLE_PREPARED;
    *kept_measure = phrase->unit->dimension == POTTLE_VOLUME &&
                    basket(w->food, phrase) == NULL &&
                    phrase->state == POTTLE_PREPARED &&
                    strcmp(shape, phrase->form[0] != '\0'
                                      ? phrase->form
                                      : pottlei_default_form(w->food)) == 0;
    if (*kept_measure)
        return POTTLE_OK;
    pottle_status status = weigh(w, c);
    if (status == POTTLE_OK)
        status = pottle_form_density(w->catalogue, w->food, shape, &w->one,
                                     &c->basis, w->error);
    w->one.median *= c->unit->factor;
    return status;
}

static pottle_status
to_mass(way *w, pottle_conversion *c)
{
    const pottle_phrase *phrase = w->phrase;
    const pottle_dimension from = phrase->unit->dimension;
    const bool keeps =
        w->as == NULL && (from == POTTLE_MASS || from == POTTLE_CONTAINER);
    const bool purchased = from == POTTLE_CONTAINER && !phrase->state_said;
    c->state = !keeps    ? POTTLE_PREPARED
             : purchased ? POTTLE_PURCHASED
                         : phrase->state;
    if (w->as == NULL && basket(w->food, phrase) != NULL)
        c->state = phrase->state;
    w->one.median = c->unit->factor;
    return weigh(w, c);
}

static pottle_status
to_pieces(way *w, pottle_conversion *c)
{
    pottle_status status = one_piece(w->catalogue, w->food, w->phrase->size,
                                     &w->one, &c->state, &c->basis, w->error);
    if (status == POTTLE_OK)
        status = weigh(w, c);
    w->one.median *= c->unit->factor;
    return status;
}

static pottle_status
to_containers(way *w, pottle_conversion *c)
{
    c->state = POTTLE_PURCHASED;
    const pottle_status status = one_container(w->catalogue, w->food, c->unit,
                                               &w->one, &c->basis, w->error);
    return status == POTTLE_OK ? weigh(w, c) : status;
}

pottle_status
pottle_convert(const pottle_catalogue *catalogue, const pottle_food *food,
               const pottle_phrase *phrase, const pottle_unit *to,
               const char *as, pottle_conversion *out, pottle_error *error)
{
    if (catalogue == NULL || food == NULL || phrase == NULL ||
        phrase->unit == NULL || to == NULL || out == NULL)
        return pottlei_fail(
            error, POTTLE_EMISUSE, "misuse",
            "no catalogue, food, phrase, unit or place for the result");
    pottle_conversion c;
    memset(&c, 0, sizeof c);
    c.unit = to;
    way w = { .catalogue = catalogue,
              .food = food,
              .phrase = phrase,
              .one = { 1, 0 },
              .error = error };
    char wanted[32];
    if (as != NULL) {
        pottlei_fold(as, wanted, sizeof wanted);
        for (char *s = wanted; *s != '\0'; s++)
            if (*s == ' ')
                *s = '-';
        if (pottle_food_form(food, wanted) == NULL)
            return pottlei_form_missing(food, wanted, error);
        w.as = wanted;
    }
    pottlei_copy(c.form, sizeof c.form, as != NULL ? wanted : phrase->form);
    pottle_status status = POTTLE_OK;
    bool kept_measure = false;
    if (to->dimension == POTTLE_VOLUME) {
        status = to_volume(&w, &c, &kept_measure);
    } else if (to->dimension == POTTLE_MASS) {
        status = to_mass(&w, &c);
    } else if (to->dimension == POTTLE_COUNT &&
               phrase->unit->dimension == POTTLE_COUNT) {
        /* pieces stay pieces, whatever they weigh */
        c.state = phrase->state;
        kept_measure = true;
    } else if (to->dimension == POTTLE_COUNT) {
        status = to_pieces(&w, &c);
    } else if (to->dimension == POTTLE_CONTAINER) {
        status = to_containers(&w, &c);
    } else {
        return pottlei_fail(
            error, POTTLE_EUNIT, "dimension",
            "an amount of %s cannot be given in %s, which is %s",
            pottle_food_title(food), to->id,
            pottle_dimension_name((int)to->dimension));
    }
    if (status != POTTLE_OK)
        return status;
    if (kept_measure)
        keep_measure(&w, &c);
    else
        c.value = pottle_estimate_over(w.mass, w.one);
    *out = c;
    return POTTLE_OK;
}
