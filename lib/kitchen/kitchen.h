/* kitchen.h - shared inside lib/kitchen. */
#ifndef POTTLE_KITCHEN_KITCHEN_H
#define POTTLE_KITCHEN_KITCHEN_H

#include "internal.h"

/* Value of a figure in figures.xml, or the fallback where that file was not
 * read. */
double pottlei_figure(const pottle_catalogue *catalogue, const char *id,
                      double fallback);

/* Adds a source to what an answer rests on, once and as long as there is room;
 * nothing where either is NULL. */
void pottlei_basis_cite(pottle_basis *basis, const pottle_cite *cite);

/* The form taken for a volume of which none was said: the only one, or whole,
 * or liquid; "" when it must be asked. */
const char *pottlei_default_form(const pottle_food *food);

/* A pint or quart of produce as sold is a basket: the dry measure; any other
 * unit is itself. */
const pottle_unit *pottlei_dry_measure(const pottle_unit *unit);

/* Bulk of a form ("cut"), or "" when the food has no such form. */
const char *pottlei_form_bulk(const pottle_food *food, const char *id);

/* without.c: whether a food is an ingredient's own or may stand in its place.
 */
bool pottlei_place_takes(const pottle_ingredient *ingredient, const char *food);

/* Whether an ingredient is fruit or vegetables. */
bool pottlei_is_produce(const pottle_ingredient *ingredient);

/* Refuses by a rule of rules.xml: the error gets the rule's text, source and
 * way out. `instead` replaces the rule's when it is not NULL. Returns
 * POTTLE_EBOUNDS. */
pottle_status pottlei_refuse(const pottle_catalogue *catalogue,
                             pottle_error *error, const char *code,
                             const char *rule, const char *instead,
                             const char *what, ...)
#if defined(__GNUC__)
    __attribute__((format(printf, 6, 7)))
#endif
    ;

/* Whether `amount` may stand where the tested amount is `tested` (both in one
 * unit, amount with a spread): at least and at most are judged by the
 * unfavourable end of the spread, exact by both ends. */
bool pottlei_keep_holds(pottle_keep keep, pottle_estimate amount,
                        double tested);

/* The same where the source prints a range: all of it was tested. */
bool pottlei_keep_between(pottle_keep keep, pottle_estimate amount, double low,
                          double high);

/* fill.c: whether a jar can have that headspace. POTTLE_EDOMAIN. */
pottle_status pottlei_headspace_check(pottle_length headspace,
                                      pottle_error *error);

/* How a factor is cut into pots. */
typedef struct pottlei_pots {
    double *pot;
    size_t count;
    double factor;
} pottlei_pots;
enum { POTTLEI_POTS_MAX = 1000 };

/* Splits a factor into pots of at most the largest tested batch, the last one
 * with the rest; a rest under the smallest is left out (pots.factor is what is
 * made). The caller frees pots.pot.
 * Status:    POTTLE_OK; POTTLE_EBOUNDS when nothing can be made or it takes
 *            over POTTLEI_POTS_MAX pots; POTTLE_ENOMEM */
pottle_status pottlei_pots_split(const pottle_catalogue *catalogue,
                                 const pottle_recipe *recipe, double factor,
                                 pottlei_pots *out, pottle_error *error);

/* A line as it is needed for the prediction of a batch. */
typedef struct pottlei_part {
    const pottle_ingredient *ingredient;
    const pottle_food *food;
    pottle_estimate prepared_g; /* of the published batch, ready to use */
    bool by_volume_cut;         /* measured by volume in a cut form */
} pottlei_part;

/* Volume of the published batch when it is done, by mass balance
 * (docs/PREDICTION.md).
 *
 * Given:     parts   the ingredients that stay in, by mass
 *            fill_ml what a jar of the wanted size holds
 * Returned:  out     volume that is filled, counting pieces in a jar as its
 *                    fill (mL)
 * Status:    POTTLE_OK; POTTLE_ENOENT when a part's composition is not known or
 *            the balance has no meaning */
pottle_status pottlei_cook_balance(const pottle_catalogue *catalogue,
                                   const pottle_recipe *recipe,
                                   const pottlei_part *parts, size_t count,
                                   pottle_estimate *out, pottle_error *error);

/* The published yield and the balance together: what one batch fills (mL). */
pottle_status pottlei_cook_predict(const pottle_catalogue *catalogue,
                                   const pottle_recipe *recipe,
                                   const pottlei_part *parts, size_t count,
                                   pottle_length headspace,
                                   pottle_estimate *out, pottle_error *error);

/* plain_pack.c: jars of a size from one canner load of produce (kind "load"):
 * count for the published batch.
 * Status:    POTTLE_OK; POTTLE_ENOENT when the recipe has no loads */
pottle_status pottlei_load_count(const pottle_catalogue *catalogue,
                                 const pottle_recipe *recipe,
                                 const pottle_jar *jar, double batch_g,
                                 pottle_estimate *out, pottle_error *error);

/* loads.c: jars of a size in one load of a canner, NULL for a standard one; 0
 * when that is not known. A size that is not listed for it takes the number of
 * the next larger one. */
unsigned long pottlei_canner_holds(const pottle_catalogue *catalogue,
                                   const pottle_kitchen_canner *canner,
                                   const pottle_jar *jar);

#endif
