/* convert_trim.c - test_convert: what is trimmed, what needs no density, there
 * and back. */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "convert_cases.h"

/* -- Trim ------------------------------------------------------------------ */

/* What is left of a pound as bought or picked: 100 less the printed refuse. */
static const struct {
    const char *food, *trim;
    pottle_state from;
    double keeps;
    const char *source;
} trims[] = {
    { "rhubarb", "", POTTLE_PICKED, 0.75, SR28 "09307 refuse 25 %" },
    { "strawberry", "", POTTLE_PURCHASED, 0.94, SR28 "09316 refuse 6 %" },
    { "blackberry", "", POTTLE_PURCHASED, 0.96, SR28 "09042 refuse 4 %" },
    { "cherry-sour", "", POTTLE_PURCHASED, 0.90, SR28 "09063 refuse 10 %" },
    { "apple", "", POTTLE_PURCHASED, 0.77, SR28 "09004 refuse 23 %" },
    { "apple", "cored", POTTLE_PURCHASED, 0.90, SR28 "09003 refuse 10 %" },
    { "apricot", "", POTTLE_PURCHASED, 0.93, SR28 "09021 refuse 7 %" },
    { "pear", "cored", POTTLE_PURCHASED, 0.90, SR28 "09252 refuse 10 %" },
    { "plum", "", POTTLE_PURCHASED, 0.94, SR28 "09279 refuse 6 %" },
    { "pineapple", "", POTTLE_PURCHASED, 0.51, SR28 "09266 refuse 49 %" },
    { "lemon", "peeled-seeded", POTTLE_PURCHASED, 0.53,
      SR28 "09150 refuse 47 %" },
    { "tomato", "peeled-cored", POTTLE_PURCHASED, 0.774,
      "yield study section 2 mapping: 0.774" },
    { "tomato", "cored", POTTLE_PURCHASED, 0.91, SR28 "11529 refuse 9 %" },
    { "tomato", "sieved", POTTLE_PURCHASED, 0.655,
      "yield study section 2 mapping: 0.655" },
    { "onion", "", POTTLE_PURCHASED, 0.90, SR28 "11282 refuse 10 %" },
    { "sweet-pepper", "", POTTLE_PURCHASED, 0.82, SR28 "11333 refuse 18 %" },
    { "chile-pepper", "", POTTLE_PURCHASED, 0.73, SR28 "11670 refuse 27 %" },
    { "celery", "", POTTLE_PURCHASED, 0.89, SR28 "11143 refuse 11 %" },
    { "cucumber", "trimmed", POTTLE_PURCHASED, 0.97, SR28 "11205 refuse 3 %" },
    { "cucumber", "peeled", POTTLE_PURCHASED, 0.73, SR28 "11206 refuse 27 %" },
    { "corn", "", POTTLE_PURCHASED, 0.36, SR28 "11167 refuse 64 %" },
    { "pea", "", POTTLE_PURCHASED, 0.38, SR28 "11304 refuse 62 %" },
    { "cauliflower", "", POTTLE_PURCHASED, 0.39, SR28 "11135 refuse 61 %" },
    { "spinach", "", POTTLE_PURCHASED, 0.72, SR28 "11457 refuse 28 %" },
};

START_TEST(trim_both_ways)
{
    pottle_food *food = food_of(trims[_i].food);
    const pottle_phrase raw = amount_in(10, "kg", "", trims[_i].from),
                        ready = amount_in(10, "kg", "", POTTLE_PREPARED);
    pottle_estimate down = { -1, -1 }, up = { -1, -1 };
    pottle_basis basis;
    memset(&basis, 0, sizeof basis);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, &raw, POTTLE_PREPARED,
                                        trims[_i].trim, "", &down, &basis,
                                        NULL),
                     POTTLE_OK);
    ck_assert_msg(near(down.median, 10000 * trims[_i].keeps, 1e-9),
                  "10 kg of %s: %.6g g, %s", trims[_i].food, down.median,
                  trims[_i].source);
    ck_assert_msg(near(down.sd, 0.05, 1e-9),
                  "spread %g, yield study section 2: as-purchased yield 0.05",
                  down.sd);
    ck_assert_uint_ge(basis.cites, 1);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, &ready, trims[_i].from,
                                        trims[_i].trim, "", &up, NULL, NULL),
                     POTTLE_OK);
    ck_assert_msg(near(up.median, 10000 / trims[_i].keeps, 1e-9),
                  "10 kg of %s ready to use: %.6g g before, %s", trims[_i].food,
                  up.median, trims[_i].source);
    ck_assert(near(down.median * up.median, 1e8, 1e-12));
    pottle_food_free(food);
}
END_TEST

/* 4.2 kg of rhubarb as picked are 3.15 kg of stalks, cut; 3.15 kg / 122 g
 * = 25.82 cups (SR28 09307). */
START_TEST(named_form_is_ready_to_use)
{
    pottle_food *food = food_of("rhubarb");
    const pottle_phrase p = amount_in(4.2, "kg", "", POTTLE_PICKED);
    const pottle_conversion cut = convert(food, &p, "kg", "diced"),
                            cups = convert(food, &p, "cup", "diced");
    ck_assert_msg(near(cut.value.median, 3.15, 1e-9), "%g kg",
                  cut.value.median);
    ck_assert_int_eq(cut.state, POTTLE_PREPARED);
    ck_assert_str_eq(cut.form, "diced");
    ck_assert_msg(fabs(cups.value.median - 25.82) < 0.005, "%g cups",
                  cups.value.median);
    ck_assert_int_eq(cups.state, POTTLE_PREPARED);
    /* as bought, the leaves are off: 4.2 kg x 0.75 / 0.95 (what each state
     * keeps) */
    pottle_estimate bought = { -1, -1 };
    ck_assert_int_eq(pottle_phrase_mass(catalogue, food, &p, POTTLE_PURCHASED,
                                        "", "", &bought, NULL, NULL),
                     POTTLE_OK);
    ck_assert_msg(near(bought.median, 4200 * 0.75 / 0.95, 1e-9), "%g g",
                  bought.median);
    pottle_food_free(food);
}
END_TEST

/* Where nothing is published for it, nothing is cut away, and that is said. */
START_TEST(no_trim_is_said)
{
    pottle_food *sugar = food_of("sugar"), *strawberry = food_of("strawberry");
    pottle_estimate mass = { -1, -1 };
    pottle_basis basis;
    memset(&basis, 0, sizeof basis);
    const pottle_phrase bought = amount_in(2, "kg", "", POTTLE_PURCHASED),
                        picked = amount_in(2, "kg", "", POTTLE_PICKED);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, sugar, &bought,
                                        POTTLE_PREPARED, "", "", &mass, &basis,
                                        NULL),
                     POTTLE_OK);
    ck_assert_msg(near(mass.median, 2000, 1e-12), "%g g", mass.median);
    ck_assert_uint_eq(basis.notes, 1);
    /* picked strawberries: no figure, so as bought, 6 % caps and stems (SR28
     * 09316) */
    memset(&basis, 0, sizeof basis);
    ck_assert_int_eq(pottle_phrase_mass(catalogue, strawberry, &picked,
                                        POTTLE_PREPARED, "", "", &mass, &basis,
                                        NULL),
                     POTTLE_OK);
    ck_assert_msg(near(mass.median, 1880, 1e-9), "%g g", mass.median);
    ck_assert_uint_eq(basis.notes, 1);
    ck_assert_msg(strstr(basis.note[0], "as bought") != NULL, "%s",
                  basis.note[0]);
    pottle_food_free(sugar);
    pottle_food_free(strawberry);
}
END_TEST

/* -- Without a density between --------------------------------------------- */

/* 4.2 kg / 0.45359237 = 9.259414... lb: mass to mass is exact and keeps its
 * state. */
START_TEST(mass_to_mass_keeps_its_state)
{
    static const pottle_state states[] = { POTTLE_PREPARED, POTTLE_PURCHASED,
                                           POTTLE_PICKED };
    pottle_food *food = food_of("rhubarb");
    for (size_t i = 0; i < COUNT(states); i++) {
        const pottle_phrase p = amount_in(4.2, "kg", "", states[i]);
        const pottle_conversion c = convert(food, &p, "lb", NULL);
        ck_assert_msg(near(c.value.median, 4.2 / 0.45359237, 1e-14) &&
                          !(c.value.sd > 0),
                      "%.12g lb, spread %g", c.value.median, c.value.sd);
        ck_assert_int_eq(c.state, states[i]);
        ck_assert_uint_eq(c.basis.notes, 0);
    }
    pottle_food_free(food);
}
END_TEST

/* 8 cups are half a gallon of whatever it is. */
START_TEST(volume_to_volume_of_one_form)
{
    pottle_food *food = food_of("rhubarb");
    const pottle_phrase p = amount_of(8, "cup", "diced", "");
    const pottle_conversion c = convert(food, &p, "gal", NULL);
    ck_assert_msg(near(c.value.median, 0.5, 1e-14) && !(c.value.sd > 0),
                  "%.12g gal, spread %g", c.value.median, c.value.sd);
    ck_assert_str_eq(c.form, "diced");
    ck_assert_int_eq(c.state, POTTLE_PREPARED);
    const pottle_conversion same = convert(food, &p, "l", "diced");
    ck_assert_msg(near(same.value.median, 8 * cup_ml / 1000, 1e-14) &&
                      !(same.value.sd > 0),
                  "%.12g l", same.value.median);
    pottle_food_free(food);
}
END_TEST

/* A range that is said is the 90 % range; its middle is the geometric one,
 * sqrt(2 x 3) = 2.4495. */
START_TEST(range_stays_a_range)
{
    pottle_food *food = food_of("onion");
    pottle_phrase p = amount_in(2, "lb", "", POTTLE_PURCHASED);
    p.high = 3;
    const pottle_interval r =
        pottle_estimate_interval(convert(food, &p, "g", NULL).value);
    ck_assert_msg(near(r.low, 2 * lb_g, 1e-9) && near(r.high, 3 * lb_g, 1e-9) &&
                      near(r.expected, sqrt(6.0) * lb_g, 1e-9),
                  "%g, %g, %g g", r.low, r.expected, r.high);
    pottle_phrase cups = amount_of(2, "cup", "chopped", "");
    cups.high = 3;
    const pottle_interval v =
        pottle_estimate_interval(convert(food, &cups, "qt", NULL).value);
    ck_assert_msg(near(v.low, 0.5, 1e-9) && near(v.high, 0.75, 1e-9),
                  "%g to %g qt", v.low, v.high);
    pottle_food_free(food);
}
END_TEST

/* The form of a volume of which none was said: the only one, or whole, or
 * liquid. */
START_TEST(form_that_is_taken)
{
    static const struct {
        const char *food;
        double grams;
        const char *source;
    } rows[] = {
        { "strawberry", 144, SR28 "09316 cup, whole" },
        { "sugar", 200, SR28 "19335 cup" },
        { "vinegar", 238, SR28 "02053 cup" },
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        pottle_food *food = food_of(rows[i].food);
        const pottle_phrase p = amount_of(1, "cup", "", "");
        ck_assert_msg(near(convert(food, &p, "g", NULL).value.median,
                           rows[i].grams, 1e-9),
                      "%s: %s %g g", rows[i].food, rows[i].source,
                      rows[i].grams);
        /* and what the caller offers */
        pottle_estimate mass = { -1, -1 };
        ck_assert_int_eq(
            pottle_phrase_mass(catalogue, food, &p, POTTLE_PREPARED, "",
                               i == 0 ? "sliced" : "", &mass, NULL, NULL),
            POTTLE_OK);
        ck_assert_msg(near(mass.median, i == 0 ? 166 : rows[i].grams, 1e-9),
                      "%g g", mass.median);
        pottle_food_free(food);
    }
}
END_TEST

/* Pieces to pieces are counted: 12 large ones are a dozen, whatever they weigh.
 */
START_TEST(count_to_count)
{
    static const char *const sizes[] = { "medium", "large", "small" };
    pottle_food *food = food_of("tomato");
    for (size_t i = 0; i < COUNT(sizes); i++) {
        const pottle_phrase p = amount_of(12, "count", "", sizes[i]);
        const pottle_conversion dozen = convert(food, &p, "dozen", NULL),
                                pieces = convert(food, &p, "count", NULL);
        ck_assert_msg(near(dozen.value.median, 1, 1e-9),
                      "12 %s tomatoes are %g dozen", sizes[i],
                      dozen.value.median);
        ck_assert_msg(near(pieces.value.median, 12, 1e-9),
                      "12 %s tomatoes are %g", sizes[i], pieces.value.median);
    }
    pottle_food_free(food);
}
END_TEST

/* 12 x 123 g = 1476 g, / 180 g = 8.2 cups chopped (SR28 11529). 5 lb of apples
 * x 0.77 / 110 g = 15.876 cups sliced (09004). 2 lb as bought x 0.774 / 123 g
 * = 5.709 medium tomatoes. 4 cups of whole strawberries x 144 / 166 = 3.470
 * sliced. */
START_TEST(through_mass)
{
    pottle_food *tomato = food_of("tomato"), *apple = food_of("apple"),
                *strawberry = food_of("strawberry");
    const pottle_phrase medium = amount_of(12, "count", "", "medium"),
                        apples = amount_in(5, "lb", "", POTTLE_PURCHASED),
                        lb = amount_in(2, "lb", "", POTTLE_PURCHASED),
                        whole = amount_of(4, "cup", "whole", "");
    ck_assert_msg(near(convert(tomato, &medium, "cup", "chopped").value.median,
                       8.2, 1e-9),
                  "12 medium tomatoes, chopped");
    ck_assert_msg(fabs(convert(apple, &apples, "cup", "sliced").value.median -
                       15.876) < 5e-4,
                  "5 lb of apples, sliced");
    ck_assert_msg(
        fabs(convert(tomato, &lb, "count", NULL).value.median - 5.709) < 5e-4,
        "2 lb of tomatoes in pieces");
    ck_assert_msg(
        fabs(convert(strawberry, &whole, "cup", "sliced").value.median -
             3.470) < 5e-4,
        "4 cups of whole strawberries, sliced");
    pottle_food_free(tomato);
    pottle_food_free(apple);
    pottle_food_free(strawberry);
}
END_TEST

/* -- There and back -------------------------------------------------------- */

/* What came out, as an amount that goes in. */
static pottle_phrase
as_amount(const pottle_conversion *c, const char *size)
{
    pottle_phrase p =
        amount_in(c->value.median, c->unit->id,
                  c->unit->dimension == POTTLE_VOLUME ? c->form : "", c->state);
    snprintf(p.size, sizeof p.size, "%s", size);
    return p;
}

static void
check_back(const pottle_food *food, const pottle_phrase *p, const char *to,
           const char *as, size_t *seen)
{
    const bool volume = p->unit->dimension == POTTLE_VOLUME;
    const pottle_conversion there = convert(food, p, to, as);
    ck_assert_msg(there.value.median > 0 && there.value.sd >= 0 &&
                      isfinite(there.value.median) && there.value.sd < 2,
                  "%s: %g %s", pottle_food_id(food), there.value.median, to);
    const pottle_phrase back = as_amount(&there, p->size);
    const pottle_conversion home =
        convert(food, &back, p->unit->id, volume ? p->form : NULL);
    ck_assert_msg(near(home.value.median, p->low, 1e-9),
                  "%s: %g %s %s%s is %g %s, and back %.12g",
                  pottle_food_id(food), p->low, p->unit->id, p->form, p->size,
                  there.value.median, to, home.value.median);
    (*seen)++;
}

/* Every form, piece and container of every food. */
START_TEST(there_and_back)
{
    size_t seen = 0, n = 0;
    for (size_t i = 0; pottle_food_at(catalogue, i) != NULL; i++) {
        pottle_food *food = food_of(pottle_food_at(catalogue, i));
        size_t forms = 0;
        const pottle_form *form = pottle_food_forms(food, &forms);
        const pottle_piece *piece = pottle_food_pieces(food, &n);
        for (size_t k = 0; k < forms; k++) {
            const pottle_phrase cups = amount_of(3.7, "cup", form[k].id, "");
            check_back(food, &cups, "g", NULL, &seen);
            check_back(food, &cups, "ml", NULL, &seen);
            check_back(food, &cups, "oz", form[k].id, &seen);
            check_back(food, &cups, "qt", form[0].id, &seen);
        }
        for (size_t k = 0; k < n; k++) {
            const pottle_phrase pieces =
                amount_of(7, "count", "", piece[k].size);
            check_back(food, &pieces, "kg", NULL, &seen);
            if (forms > 0)
                check_back(food, &pieces, "cup", form[0].id, &seen);
        }
        const pottle_container *container = pottle_food_containers(food, &n);
        for (size_t k = 0; k < n; k++) {
            const pottle_phrase bushels =
                amount_in(2.5, container[k].of->id, "", POTTLE_PURCHASED);
            check_back(food, &bushels, "lb", NULL, &seen);
            if (forms > 0)
                check_back(food, &bushels, "l", form[0].id, &seen);
        }
        pottle_food_free(food);
    }
    ck_assert_msg(seen > 3000, "only %zu", seen);
}
END_TEST

/* mass = volume x density for every form, and the range covers every weight
 * that is published for it. */
START_TEST(density_covers_its_sources)
{
    size_t seen = 0, n = 0;
    for (size_t i = 0; pottle_food_at(catalogue, i) != NULL; i++) {
        pottle_food *food = food_of(pottle_food_at(catalogue, i));
        const pottle_form *form = pottle_food_forms(food, &n);
        for (size_t k = 0; k < n; k++) {
            pottle_estimate density = { -1, -1 };
            ck_assert_int_eq(pottle_form_density(catalogue, food, form[k].id,
                                                 &density, NULL, NULL),
                             POTTLE_OK);
            const pottle_interval r = pottle_estimate_interval(density);
            for (size_t w = 0; w < form[k].weights; w++) {
                const double published =
                    form[k].weight[w].grams / form[k].weight[w].volume_ml;
                ck_assert_msg(published >= r.low * (1 - 1e-9) &&
                                  published <= r.high * (1 + 1e-9),
                              "%s %s: %s a %s lies outside %g to %g g/mL",
                              pottle_food_id(food), form[k].id,
                              form[k].weight[w].printed,
                              form[k].weight[w].measure, r.low, r.high);
                seen++;
            }
            const pottle_phrase p = amount_of(1, "l", form[k].id, "");
            const pottle_conversion c = convert(food, &p, "g", NULL);
            ck_assert(near(c.value.median, 1000 * density.median, 1e-12) &&
                      near(c.value.sd, density.sd, 1e-12));
        }
        pottle_food_free(food);
    }
    ck_assert_msg(seen > 500, "only %zu", seen);
}
END_TEST

TCase *
convert_trim(void)
{
    TCase *t = tcase_create("trim");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, trim_both_ways, 0, COUNT(trims));
    tcase_add_test(t, named_form_is_ready_to_use);
    tcase_add_test(t, no_trim_is_said);
    return t;
}

TCase *
convert_between(void)
{
    TCase *t = tcase_create("between");
    tcase_set_timeout(t, 60);
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_test(t, mass_to_mass_keeps_its_state);
    tcase_add_test(t, volume_to_volume_of_one_form);
    tcase_add_test(t, range_stays_a_range);
    tcase_add_test(t, form_that_is_taken);
    tcase_add_test(t, count_to_count);
    tcase_add_test(t, through_mass);
    tcase_add_test(t, there_and_back);
    tcase_add_test(t, density_covers_its_sources);
    return t;
}
