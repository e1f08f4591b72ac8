/* cmd_cook.c - pottle cook: the weight, the depth and the time at which a
 * boiling pot is done. */
#include "cli.h"

#include <string.h>

static const option options[] = {
    { "have", "'AMOUNT FOOD'",
      "what is on hand; may be given several times, the scarcest decides" },
    { "batches", "X", "so many published batches" },
    { "fill", "'N JAR'", "so many jars: '14 quart'" },
    { "jar", "JAR", "size of jar: half-pint, pint, quart, 500-ml ..." },
    { "set", "'AMOUNT FOOD'",
      "total of one ingredient over all that is made; may be repeated" },
    { "pot", "N", "which pot, from 1, when it takes several" },
    { "pot-tare", "M|POT",
      "the empty pot on the scale: '2.1 kg', or a pot of the kitchen file" },
    { "started", "M", "the scale with everything in the pot: '5.4 kg'" },
    { "now", "M", "the scale later: '4.8 kg'" },
    { "after", "T", "that many minutes of boiling later: '20 min'" },
    { "burner", "P", "rated power of the burner: '2 kW', '1800 W'" },
    { "hob", "HOB", "induction, electric or gas" },
    { "pot-width", "L", "inside width of the pot: '28 cm', '11 in'" },
    { "altitude", "H", "'900 m' or '6200 ft'" },
    { "kitchen", "FILE", "another kitchen file than the usual one" },
    { "recipes", "FOLDER", "a folder of your own recipes, searched first" },
    { "json", NULL, "print JSON" },
    { "help", NULL, "print this" },
    { NULL, NULL, NULL },
};

/* -- Arguments ------------------------------------------------------------- */

/* The weight and, when it is known, the width of a pot of the kitchen file. */
static int
take_pot(const pottle_kitchen_pot *pot, pottle_stove *stove)
{
    pottle_error error;
    if (pot->tare.unit == NULL) {
        complain("the kitchen file does not say what %.64s weighs: 'pottle "
                 "kitchen set pot %.64s --tare M'",
                 pot->id, pot->id);
        return USAGE;
    }
    if (pottle_unit_convert(pot->tare.low, pot->tare.unit,
                            pottle_unit_find("g"), &stove->tare_g,
                            &error) != POTTLE_OK ||
        (pot->width.unit != NULL &&
         pottle_unit_convert(pot->width.low, pot->width.unit,
                             pottle_unit_find("mm"), &stove->pot_width.mm,
                             &error) != POTTLE_OK))
        return report(NULL, &error);
    return DONE;
}

static int
read_stove(const command *self, const args *a, const scaled *s,
           pottle_stove *stove)
{
    pottle_error error;
    pottle_range range;
    const char *pot = args_value(a, "pot"), *burner = args_value(a, "burner"),
               *after = args_value(a, "after"), *hob = args_value(a, "hob");
    *stove = (pottle_stove){ .version = POTTLE_STOVE_VERSION,
                             .has_altitude = s->request.has_altitude,
                             .altitude_m = s->request.altitude_m };
    const char *tare = args_value(a, "pot-tare");
    const pottle_kitchen_pot *own =
        tare != NULL ? pottle_kitchen_pot_find(&s->house.kitchen, tare) : NULL;
    int result = own != NULL ? take_pot(own, stove)
                             : read_single(self, a, "pot-tare", POTTLE_MASS,
                                           "g", &stove->tare_g);
    if (result == DONE)
        result = read_single(self, a, "started", POTTLE_MASS, "g",
                             &stove->started_g);
    if (result == DONE)
        result = read_single(self, a, "now", POTTLE_MASS, "g", &stove->now_g);
    if (result == DONE)
        result = read_single(self, a, "pot-width", POTTLE_LENGTH, "mm",
                             &stove->pot_width.mm);
    if (result != DONE)
        return result;
    if (pot != NULL) {
        if (pottle_number_read(pot, &range) != POTTLE_OK || !(range.low >= 1) ||
            range.high > range.low || range.low > 1000)
            return usage_error(self, "'%.40s' is not a pot; they count from 1",
                               pot);
        stove->pot = (size_t)range.low - 1;
    }
    if ((after != NULL &&
         pottle_minutes_read(after, &stove->after_min, &error) != POTTLE_OK) ||
        (burner != NULL &&
         pottle_power_read(burner, &stove->burner_w, &error) != POTTLE_OK) ||
        (hob != NULL && pottle_hob_find(hob, &stove->hob, &error) != POTTLE_OK))
        return report(NULL, &error);
    if (args_has(a, "now") != args_has(a, "after"))
        return usage_error(self, "--now and --after go together");
    if (args_has(a, "pot-tare") != args_has(a, "started"))
        return usage_error(self, "--pot-tare and --started go together");
    if (!args_has(a, "started") &&
        (args_has(a, "now") || args_has(a, "burner") ||
         args_has(a, "pot-width")))
        return usage_error(self, "the time needs --pot-tare and --started");
    return DONE;
}

/* -- Text ------------------------------------------------------------------ */

/* "4.83 kg (4.62 to 5.08 kg)" */
static void
range_text(pottle_interval i, void (*write)(double, char *, size_t), char *buf,
           size_t size)
{
    char low[40], middle[40], high[40];
    write(i.low, low, sizeof low);
    write(i.expected, middle, sizeof middle);
    write(i.high, high, sizeof high);
    snprintf(buf, size, "%s (%s to %s)", middle, low, high);
}

static void
minutes_text(double minutes, char *buf, size_t size)
{
    char number[40];
    pottle_number_write(minutes, minutes < 10 ? 1 : 0, number, sizeof number);
    snprintf(buf, size, "%s min", number);
}

static void
volume_text(double ml, char *buf, size_t size)
{
    pottle_measure m;
    char metric[40], cups[60] = "";
    short_number(ml, metric, sizeof metric);
    if (pottle_measure_round(ml, POTTLE_VOLUME, POTTLE_FREE, &m) == POTTLE_OK)
        pottle_measure_write(&m, cups, sizeof cups);
    snprintf(buf, size, "%s mL%s%s", metric, cups[0] != '\0' ? ", about " : "",
             cups);
}

/* What is boiled down by eye, where the source tells the produce of a canner
 * load: how much of it boils off is in no figure. NULL for the others. */
static const char *
by_eye(const pottle_recipe *recipe)
{
    const pottle_cook *cook = pottle_recipe_cook(recipe);
    return cook->end == POTTLE_END_LOAD && cook->cite.note[0] != '\0'
             ? cook->cite.note
             : NULL;
}

static void
balance_text(const pottle_balance *b, const char *eye)
{
    char in[40], off[40], done[80], volume[80], text[400];
    mass_text(b->mass_in_g, in, sizeof in);
    if (eye != NULL) {
        snprintf(
            text, sizeof text,
            "by the recipe: %s goes in and is %s, by eye; its source tells "
            "what a canner load takes and no weight to stop at",
            in, eye);
        print_folded(stdout, "  ", text);
        return;
    }
    mass_text(b->evaporated_g, off, sizeof off);
    range_text(pottle_estimate_interval(b->finished_g), mass_text, done,
               sizeof done);
    volume_text(b->finished_ml.median, volume, sizeof volume);
    snprintf(text, sizeof text,
             "by the recipe: %s goes in, %s boils off, %s is in the pot when "
             "it is done: %s",
             in, off, done, volume);
    print_folded(stdout, "  ", text);
    if (b->drained_g > 0 || b->left_over_g > 0) {
        char drained[40], left[40];
        mass_text(b->drained_g, drained, sizeof drained);
        mass_text(b->left_over_g, left, sizeof left);
        snprintf(text, sizeof text,
                 "%s drains away before; %s of covering liquid is left over",
                 drained, left);
        print_folded(stdout, "  ", text);
    }
}

static void
time_text(const scaled *s, const pottle_cook_goal *g)
{
    char text[400], range[90], rate[40], left[90], warm[40];
    const pottle_batch *batch = pottle_recipe_batch(s->recipe);
    if (g->has_now) {
        short_number(g->rate_g_min.median, rate, sizeof rate);
        range_text(g->left_min, minutes_text, range, sizeof range);
        range_text(g->left_g, mass_text, left, sizeof left);
        if (g->done)
            snprintf(text, sizeof text,
                     "it is done by the %s: the pot boils off %s g a minute",
                     g->stop == POTTLE_STOP_CLOCK ? "clock" : "weight", rate);
        else if (g->stop == POTTLE_STOP_CLOCK)
            snprintf(text, sizeof text,
                     "%.0f more minutes by the recipe: %s will boil off at the "
                     "rate of this pot, %s g a minute",
                     g->left_min.expected, left, rate);
        else
            snprintf(text, sizeof text,
                     "still to boil off: %s; that takes %s at the rate of this "
                     "pot, %s g a minute",
                     left, range, rate);
        print_folded(stdout, "  ", text);
    } else if (g->has_forecast) {
        short_number(g->forecast_rate_g_min.median, rate, sizeof rate);
        range_text(g->forecast_min, minutes_text, range, sizeof range);
        minutes_text(g->heat_up_min.median, warm, sizeof warm);
        snprintf(text, sizeof text,
                 "rough forecast: %s, about %s g a minute%s%s%s; weigh again "
                 "after 10 minutes of boiling for a better one",
                 range, rate, g->heat_up_min.median > 0 ? ", of that " : "",
                 g->heat_up_min.median > 0 ? warm : "",
                 g->heat_up_min.median > 0 ? " to come to the boil" : "");
        print_folded(stdout, "  ", text);
    }
    if (g->has_twice) {
        range_text(g->twice_min, minutes_text, range, sizeof range);
        snprintf(text, sizeof text,
                 "twice the batch in the same pot would have to boil %g times "
                 "as long, %s in all: the pot gives off no more steam for "
                 "being full. It is tested up to %g batch%s a pot",
                 g->twice_factor, range, batch->largest,
                 batch->largest > 1 ? "es" : "");
        print_folded(stdout, "  ", text);
    }
}

static void
goal_text(const scaled *s, const pottle_cook_goal *g)
{
    char text[400], range[90], off[90], volume[90], part[90];
    range_text(g->reading_g, mass_text, range, sizeof range);
    snprintf(text, sizeof text,
             g->stop == POTTLE_STOP_CLOCK ? "the recipe goes by the clock; at "
                                            "its time the scale shows about %s"
                                          : "stop when the scale shows %s",
             range);
    print_folded(stdout, "  ", text);
    range_text(g->boil_off_g, mass_text, off, sizeof off);
    volume_text(g->stop_ml.median, volume, sizeof volume);
    const pottle_interval share = pottle_estimate_interval(g->depth_share);
    snprintf(part, sizeof part, "%.2f of the depth at the start (%.2f to %.2f)",
             share.expected, share.low, share.high < 1 ? share.high : 1.0);
    snprintf(text, sizeof text, "then %s has boiled off; the pot holds %s, %s",
             off, volume, part);
    print_folded(stdout, "  ", text);
    time_text(s, g);
}

/* The end point of the recipe, with where its figure comes from. */
static void
end_text(const scaled *s)
{
    char text[500], source[400];
    const pottle_cook *cook = pottle_recipe_cook(s->recipe);
    const pottle_figure *f = pottle_cook_end_figure(s->catalogue, s->recipe);
    if (f == NULL)
        return;
    source_text(s->catalogue, f->cite.source, f->cite.at, source,
                sizeof source);
    snprintf(text, sizeof text, "%s Here %g, x/÷ %.2f (%s: %s).", f->text,
             f->value,
             pottle_estimate_interval((pottle_estimate){ 1, f->spread }).high,
             pottle_standing_name((int)f->cite.standing), source);
    print_folded(stdout, "End point: ", text);
    if (cook->end == POTTLE_END_REDUCE && cook->minutes > 0)
        print_folded(stdout, "",
                     "It is of what is in the pot after the earlier boils; the "
                     "depth above is of all that went in at the start.");
}

static void
gel_hint(const scaled *s)
{
    char text[300], celsius[40], fahrenheit[40];
    pottle_gel gel;
    double degF = 0;
    if (pottle_recipe_cook(s->recipe)->end != POTTLE_END_GEL_POINT ||
        !s->request.has_altitude ||
        pottle_gel_point(&s->request.altitude_m, NULL, &gel, NULL) !=
            POTTLE_OK ||
        pottle_unit_convert(gel.rule.degC, pottle_unit_find("degC"),
                            pottle_unit_find("degF"), &degF, NULL) != POTTLE_OK)
        return;
    pottle_number_write(gel.rule.degC, 1, celsius, sizeof celsius);
    pottle_number_write(degF, 0, fahrenheit, sizeof fahrenheit);
    snprintf(text, sizeof text,
             "the gel point at your altitude is %s deg C (%s deg F) on a "
             "standard day ('pottle gel --boiling' has it for your thermometer "
             "today); begin to test near the weight above",
             celsius, fahrenheit);
    print_folded(stdout, "  ", text);
}

static void
cook_text(const scaled *s, size_t pot, const pottle_balance *b,
          const pottle_cook_goal *g)
{
    size_t pots = 0;
    char part[40], text[300];
    short_number(pottle_plan_pots(s->plan, &pots)[pot], part, sizeof part);
    snprintf(text, sizeof text, "%s, pot %zu of %zu: %s of the %s",
             pottle_recipe_title(s->recipe), pot + 1, pots, part,
             batch_word(s->recipe));
    print_folded(stdout, "", text);
    if (g != NULL)
        goal_text(s, g);
    balance_text(b, by_eye(s->recipe));
    gel_hint(s);
    puts("");
    end_text(s);
    for (size_t i = 0; cautions[i] != NULL; i++)
        print_folded(stdout, "", cautions[i]);
}

/* -- JSON ------------------------------------------------------------------ */

static json_t *
balance_json(const pottle_balance *b)
{
    json_t *root = json_object();
    const struct {
        const char *name;
        double value;
    } member[] = {
        { "water_in_g", b->water_in_g },
        { "solids_in_g", b->solids_in_g },
        { "drained_g", b->drained_g },
        { "evaporated_g", b->evaporated_g },
        { "water_lost_g", b->water_lost_g },
        { "solids_lost_g", b->solids_lost_g },
        { "left_over_g", b->left_over_g },
        { "water_jars_g", b->water_jars_g },
        { "solids_jars_g", b->solids_jars_g },
        { "density_g_ml", b->density.g_ml },
    };
    for (size_t i = 0; i < sizeof member / sizeof member[0]; i++)
        json_object_set_new(root, member[i].name, json_number(member[i].value));
    json_object_set_new(root, "finished_g", json_interval(b->finished_g));
    json_object_set_new(root, "finished_ml", json_interval(b->finished_ml));
    json_object_set_new(root, "volume_ml", json_interval(b->volume_ml));
    return root;
}

static json_t *
goal_json(const pottle_stove *stove, const pottle_cook_goal *g)
{
    json_t *root = json_pack(
        "{s:s, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "stop",
        g->stop == POTTLE_STOP_CLOCK ? "clock" : "mass", "tare_g",
        json_number(stove->tare_g), "started_g", json_number(stove->started_g),
        "net_g", json_number(g->net_g), "solids_g", json_interval(g->solids_g),
        "reading_g", json_span(g->reading_g), "stop_g",
        json_interval(g->stop_g), "boil_off_g", json_span(g->boil_off_g),
        "start_ml", json_number(g->start_ml), "stop_ml",
        json_interval(g->stop_ml), "depth_share",
        json_interval(g->depth_share));
    json_t *now = json_null(), *forecast = json_null(), *twice = json_null();
    if (g->has_now)
        now =
            json_pack("{s:o, s:o, s:b, s:o, s:o, s:o, s:o}", "now_g",
                      json_number(stove->now_g), "after_min",
                      json_number(stove->after_min), "done", g->done,
                      "boiled_g", json_number(g->boiled_g), "rate_g_min",
                      json_interval(g->rate_g_min), "left_g",
                      json_span(g->left_g), "left_min", json_span(g->left_min));
    if (g->has_forecast)
        forecast =
            json_pack("{s:b, s:o, s:o, s:o}", "rough", true, "rate_g_min",
                      json_interval(g->forecast_rate_g_min), "heat_up_min",
                      g->heat_up_min.median > 0 ? json_interval(g->heat_up_min)
                                                : json_null(),
                      "minutes", json_span(g->forecast_min));
    if (g->has_twice)
        twice = json_pack("{s:o, s:o}", "factor", json_number(g->twice_factor),
                          "minutes", json_span(g->twice_min));
    json_object_set_new(root, "now", now);
    json_object_set_new(root, "forecast", forecast);
    json_object_set_new(root, "twice", twice);
    return root;
}

static int
cook_json(const scaled *s, const pottle_stove *stove, const pottle_balance *b,
          const pottle_cook_goal *g)
{
    size_t pots = 0;
    const double *factor = pottle_plan_pots(s->plan, &pots);
    const pottle_figure *f = pottle_cook_end_figure(s->catalogue, s->recipe);
    return print_json(json_pack(
        "{s:s, s:s, s:I, s:I, s:o, s:o, s:o, s:o, s:o}", "recipe",
        pottle_recipe_id(s->recipe), "title", pottle_recipe_title(s->recipe),
        "pot", (json_int_t)stove->pot + 1, "pots", (json_int_t)pots, "factor",
        json_number(factor[stove->pot]), "target",
        g != NULL ? goal_json(stove, g) : json_null(), "balance",
        by_eye(s->recipe) == NULL ? balance_json(b) : json_null(), "source",
        f != NULL ? json_source(s->catalogue, f->cite.source, f->cite.at)
                  : json_null(),
        "cautions", json_cautions()));
}

static int
run(const command *self, const args *a, bool json)
{
    scaled s;
    pottle_stove stove;
    pottle_balance balance;
    pottle_cook_goal goal;
    pottle_error error;
    memset(&stove, 0, sizeof stove);
    int result = scaled_make(self, a, &s);
    if (result == DONE)
        result = read_stove(self, a, &s, &stove);
    const bool weighed = result == DONE && stove.started_g > 0;
    if (result == DONE &&
        (pottle_cook_balance(s.catalogue, s.plan, stove.pot, &balance,
                             &error) != POTTLE_OK ||
         (weighed && pottle_cook_target(s.catalogue, s.plan, &stove, &goal,
                                        &error) != POTTLE_OK)))
        result = report(s.catalogue, &error);
    else if (result == DONE && json)
        result = cook_json(&s, &stove, &balance, weighed ? &goal : NULL);
    else if (result == DONE)
        cook_text(&s, stove.pot, &balance, weighed ? &goal : NULL);
    scaled_free(&s);
    return result;
}

const command cook_command = {
    "cook", run,
    "RECIPE (--have 'AMOUNT FOOD')... | --batches X | --fill 'N JAR'\n"
    "       --pot-tare M --started M [--now M --after T] [--pot N]\n"
    "       [--burner P] [--hob HOB] [--pot-width L] [--altitude H]",
    "when a boiling pot is done: weight, depth, time", options
};
