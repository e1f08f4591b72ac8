/* phrase.c - amounts of food as people type them.
 *
 * A phrase is cut at its commas. One piece begins with the amount. The longest
 * run of words that is the name of a food is the food; every other word must be
 * known: a form, a size, a state or a filler. An unknown word is an error and
 * never skipped, since it may be the one that matters. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "internal.h"

enum { WORDS_MAX = 40, FITS_MAX = 32 };

/* What a word that is no food says. */
typedef enum sense { FORM, SIZE, STATE, READY, FILLER, PERCENT } sense;

/* Folded and singular; longer ones first where one begins another. */
static const struct {
    const char *words;
    sense sense;
    const char *value;
} lexicon[] = {
    { "coarsely chopped", FORM, "coarsely-chopped" },
    { "roughly chopped", FORM, "coarsely-chopped" },
    { "finely chopped", FORM, "finely-chopped" },
    { "finely diced", FORM, "diced" },
    { "lightly packed", FORM, "lightly-packed" },
    { "firmly packed", FORM, "packed" },
    { "loosely packed", FORM, "lightly-packed" },
    { "cut up", FORM, "pieces" },
    { "in piece", FORM, "pieces" },
    { "whole", FORM, "whole" },
    { "halved", FORM, "halved" },
    { "half", FORM, "halved" },
    { "halve", FORM, "halved" },
    { "quartered", FORM, "quartered" },
    { "piece", FORM, "pieces" },
    { "sliced", FORM, "sliced" },
    { "slice", FORM, "sliced" },
    { "ring", FORM, "rings" },
    { "strip", FORM, "strips" },
    { "julienned", FORM, "strips" },
    { "cubed", FORM, "cubed" },
    { "cube", FORM, "cubed" },
    { "diced", FORM, "diced" },
    { "chopped", FORM, "chopped" },
    { "minced", FORM, "minced" },
    { "shredded", FORM, "shredded" },
    { "grated", FORM, "grated" },
    { "ground", FORM, "ground" },
    { "crushed", FORM, "crushed" },
    { "crumbled", FORM, "crumbled" },
    { "mashed", FORM, "mashed" },
    { "pureed", FORM, "pureed" },
    { "pur\xC3\xA9"
      "ed",
      FORM, "pureed" },
    { "section", FORM, "sections" },
    { "kernel", FORM, "kernels" },
    { "shelled", FORM, "shelled" },
    { "floweret", FORM, "flowerets" },
    { "floret", FORM, "flowerets" },
    { "leave", FORM, "leaves" },
    { "packed", FORM, "packed" },
    { "cooked", FORM, "cooked" },
    { "frozen", FORM, "frozen" },
    { "drained", FORM, "drained" },
    { "sifted", FORM, "sifted" },
    { "flaked", FORM, "flaked" },
    { "liquid", FORM, "liquid" },
    { "extra large", SIZE, "extra-large" },
    { "small", SIZE, "small" },
    { "medium", SIZE, "medium" },
    { "large", SIZE, "large" },
    { "big", SIZE, "large" },
    { "clove", SIZE, "clove" },
    { "bulb", SIZE, "bulb" },
    { "head", SIZE, "head" },
    { "ear", SIZE, "ear" },
    { "stalk", SIZE, "stalk" },
    { "stick", SIZE, "stick" },
    { "bunch", SIZE, "bunch" },
    { "sprig", SIZE, "sprig" },
    { "leaf", SIZE, "leaf" },
    { "spear", SIZE, "spear" },
    { "pod", SIZE, "pod" },
    { "box", SIZE, "box" },
    { "pouch", SIZE, "pouch" },
    { "can", SIZE, "can" },
    { "drop", SIZE, "drop" },
    { "as picked", STATE, "picked" },
    { "just picked", STATE, "picked" },
    { "picked", STATE, "picked" },
    { "from the garden", STATE, "picked" },
    { "with leave", STATE, "picked" },
    { "as purchased", STATE, "purchased" },
    { "as bought", STATE, "purchased" },
    { "as sold", STATE, "purchased" },
    { "unpeeled", STATE, "purchased" },
    { "untrimmed", STATE, "purchased" },
    { "prepared", STATE, "prepared" },
    { "ready to use", STATE, "prepared" },
    { "trimmed", READY, "" },
    { "peeled", READY, "" },
    { "cored", READY, "" },
    { "pitted", READY, "" },
    { "stoned", READY, "" },
    { "seeded", READY, "" },
    { "hulled", READY, "" },
    { "stemmed", READY, "" },
    { "husked", READY, "" },
    { "cleaned", READY, "" },
    { "acidity", FILLER, "" },
    { "acid", FILLER, "" },
    { "of", FILLER, "" },
    { "the", FILLER, "" },
    { "a", FILLER, "" },
    { "an", FILLER, "" },
    { "and", FILLER, "" },
    { "fresh", FILLER, "" },
    { "ripe", FILLER, "" },
    { "raw", FILLER, "" },
    { "washed", FILLER, "" },
    { "firm", FILLER, "" },
    { "cold", FILLER, "" },
    { "level", FILLER, "" },
    { "about", FILLER, "" },
    { "some", FILLER, "" },
};

typedef struct parse {
    const pottle_catalogue *catalogue;
    const char *text;
    const char *const *preferred;
    size_t preferred_count;
    pottle_error *error;
    pottle_phrase out;
    char folded[POTTLE_PHRASE_MAX + 1]; /* words of one piece */
    const char *word[WORDS_MAX];
    size_t words;
    bool amount_seen, food_seen;
} parse;

/* Cuts a piece into folded singular words. A percentage ("4%", "4 %") is taken
 * out here. */
static pottle_status
split(parse *p, const char *text, size_t n)
{
    char piece[POTTLE_PHRASE_MAX + 1];
    memcpy(piece, text, n);
    piece[n] = '\0';
    pottlei_fold(piece, p->folded, sizeof p->folded);
    p->words = 0;
    for (char *s = p->folded; *s != '\0';) {
        if (p->words == WORDS_MAX)
            return pottlei_fail(p->error, POTTLE_ESYNTAX, "too-long",
                                "'%.60s...' has more than %d words", p->text,
                                (int)WORDS_MAX);
        const size_t k = strcspn(s, " ");
        const bool last = s[k] == '\0';
        s[k] = '\0';
        const char *number = s;
        pottle_range range;
        if (pottlei_number_scan(&number, &range) == POTTLE_OK) {
            const char *next = last ? "" : s + k + 1;
            const bool glued = strcmp(number, "%") == 0;
            if (!glued &&
                !(*number == '\0' && (strncmp(next, "%", 1) == 0 ||
                                      strncmp(next, "percent", 7) == 0)))
                return pottlei_fail(
                    p->error, POTTLE_ESYNTAX, "second-number",
                    "'%.80s': a second number '%.20s'; write one amount",
                    p->text, s);
            if (!(range.low > 0) || range.high > range.low ||
                p->out.percent > 0)
                return pottlei_fail(p->error, POTTLE_ESYNTAX, "percent",
                                    "'%.80s': write one strength above 0 %%",
                                    p->text);
            p->out.percent = range.low;
            if (!glued)
                s += k + 1, s += strcspn(s, " "), s += *s == ' ';
            else
                s = last ? s + k : s + k + 1;
            continue;
        }
        pottlei_singular(s);
        p->word[p->words++] = s;
        if (last)
            break;
        s += k + 1;
    }
    return POTTLE_OK;
}

/* Joins words [from, to) into buf; false when they do not fit, so that no word
 * is ever dropped. */
static bool
join(const parse *p, size_t from, size_t to, char *buf, size_t size)
{
    size_t n = 0;
    buf[0] = '\0';
    for (size_t i = from; i < to; i++) {
        if (n + strlen(p->word[i]) + 2 > size)
            return false;
        n += (size_t)snprintf(buf + n, size - n, "%s%s", i == from ? "" : " ",
                              p->word[i]);
    }
    return true;
}

/* Length in words of the lexicon's entry that begins at word i; 0 for none. */
static size_t
lexicon_at(const parse *p, size_t i, size_t end, size_t *entry)
{
    for (size_t length = end - i < 3 ? end - i : 3; length > 0; length--) {
        char text[96];
        if (!join(p, i, i + length, text, sizeof text))
            continue;
        for (size_t k = 0; k < sizeof lexicon / sizeof lexicon[0]; k++) {
            if (strcmp(lexicon[k].words, text) == 0) {
                *entry = k;
                return length;
            }
        }
    }
    return 0;
}

/* Whether words [from, to) are all in the lexicon. */
static bool
known(const parse *p, size_t from, size_t to)
{
    for (size_t i = from, k = 0; i < to;) {
        const size_t length = lexicon_at(p, i, to, &k);
        if (length == 0)
            return false;
        i += length;
    }
    return true;
}

/* Takes the meaning of words [from, to): `later` when they stand behind the
 * amount's comma. */
static void
take(parse *p, size_t from, size_t to, bool later)
{
    for (size_t i = from, k = 0; i < to;) {
        const size_t length = lexicon_at(p, i, to, &k);
        if (length == 0)
            return;
        i += length;
        switch (lexicon[k].sense) {
        case FORM:
            if (later)
                POTTLEI_SET(p->out.then, lexicon[k].value);
            else
                POTTLEI_SET(p->out.form, lexicon[k].value);
            break;
        case SIZE: POTTLEI_SET(p->out.size, lexicon[k].value); break;
        case STATE:
            p->out.state_said = true;
            p->out.state = lexicon[k].value[2] == 'c' ? POTTLE_PICKED
                         : lexicon[k].value[1] == 'u' ? POTTLE_PURCHASED
                                                      : POTTLE_PREPARED;
            break;
        case READY:
            if (!later) {
                p->out.state_said = true;
                p->out.state = POTTLE_PREPARED;
            }
            break;
        case FILLER:
        case PERCENT: break;
        }
    }
}

/* Of the foods a name fits, the one the context prefers. */
static pottle_status
choose(parse *p, const char *name, const char *const *ids, size_t count)
{
    const char *chosen = count == 1 ? ids[0] : NULL;
    size_t liked = 0;
    for (size_t i = 0; count > 1 && i < count; i++)
        for (size_t k = 0; k < p->preferred_count; k++)
            if (strcmp(ids[i], p->preferred[k]) == 0) {
                chosen = ids[i];
                liked++;
                break;
            }
    if (count > 1 && liked != 1) {
        char list[240] = "";
        for (size_t i = 0, n = 0; i < count && n + 70 < sizeof list; i++)
            n += (size_t)snprintf(list + n, sizeof list - n, "%s%s",
                                  i == 0 ? "" : ", ", ids[i]);
        return pottlei_fail(p->error, POTTLE_EAMBIGUOUS, "ambiguous-food",
                            "'%.60s' may mean %s: which one?", name, list);
    }
    POTTLEI_SET(p->out.food, chosen);
    p->food_seen = true;
    return POTTLE_OK;
}

/* Finds the food among the words of one piece; the rest must be known words. */
static pottle_status
read_words(parse *p, bool later)
{
    if (p->words == 0)
        return POTTLE_OK;
    if (!p->food_seen) {
        for (size_t length = p->words; length > 0; length--) {
            for (size_t from = 0; from + length <= p->words; from++) {
                char name[POTTLE_PHRASE_MAX + 1];
                const char *ids[FITS_MAX];
                size_t count = 0;
                if (!join(p, from, from + length, name, sizeof name) ||
                    !known(p, 0, from) || !known(p, from + length, p->words) ||
                    pottle_names_find(p->catalogue, name, ids, FITS_MAX, &count,
                                      NULL) != POTTLE_OK)
                    continue;
                const pottle_status status =
                    choose(p, name, ids, count < FITS_MAX ? count : FITS_MAX);
                take(p, 0, from, false);
                take(p, from + length, p->words, false);
                return status;
            }
        }
    }
    if (known(p, 0, p->words)) {
        take(p, 0, p->words, later);
        return POTTLE_OK;
    }
    /* name the words that are not known, for the nearest names */
    size_t from = 0, to = p->words, k = 0;
    for (size_t length;
         from < to && (length = lexicon_at(p, from, to, &k)) > 0;)
        from += length;
    while (to > from + 1 && known(p, to - 1, to))
        to--;
    char name[POTTLE_PHRASE_MAX + 1];
    size_t count = 0;
    if (!join(p, from, to, name, sizeof name))
        pottlei_copy(name, sizeof name, p->word[from]);
    const pottle_status status =
        pottle_names_find(p->catalogue, name, NULL, 0, &count, p->error);
    return status == POTTLE_OK
             ? pottlei_fail(p->error, POTTLE_ESYNTAX, "two-foods",
                            "'%.80s' names more than one food", p->text)
             : status;
}

static bool
is_percent(const char *text)
{
    text += strspn(text, " ");
    return *text == '%' || strncmp(text, "percent", 7) == 0 ||
           strncmp(text, "per cent", 8) == 0;
}

/* Where an amount stands behind words ("rhubarb 8 cups"); NULL when there is
 * none. */
static const char *
amount_within(const char *from, const char *end)
{
    for (const char *s = from; s < end; s++) {
        const bool begins =
            s > from && s[-1] == ' ' &&
            ((*s >= '0' && *s <= '9') || (unsigned char)*s >= 0xC2u);
        const char *at = s;
        pottle_range range;
        if (begins && pottlei_number_scan(&at, &range) == POTTLE_OK &&
            !is_percent(at))
            return s;
    }
    return NULL;
}

/* The amount and its unit at the start of a piece; moves *s behind them. */
static pottle_status
read_amount(parse *p, const char **s, const char *end)
{
    char piece[POTTLE_PHRASE_MAX + 1];
    memcpy(piece, *s, (size_t)(end - *s));
    piece[end - *s] = '\0';
    const char *at = piece;
    if (strncmp(at, "about ", 6) == 0 || strncmp(at, "About ", 6) == 0)
        at += 6;
    if (*at == '-' && at[1] >= '0' && at[1] <= '9')
        return pottlei_fail(p->error, POTTLE_EDOMAIN, "amount-range",
                            "'%.80s': an amount is not negative", p->text);
    pottle_range range;
    pottle_status status = pottlei_number_scan(&at, &range);
    if (status == POTTLE_ENOENT)
        return status;
    if (status == POTTLE_OK && !(range.low > 0))
        status = POTTLE_EDOMAIN;
    if (status == POTTLE_EDOMAIN)
        return pottlei_fail(
            p->error, status, "amount-range",
            "'%.80s': an amount lies above 0 and up to 1,000,000,000", p->text);
    if (status != POTTLE_OK)
        return pottlei_fail(p->error, POTTLE_ESYNTAX, "amount",
                            "'%.80s': the amount cannot be read", p->text);
    if (is_percent(at))
        return POTTLE_ENOENT; /* "4 % vinegar": a strength and no amount */
    if (p->amount_seen)
        return pottlei_fail(p->error, POTTLE_ESYNTAX, "second-number",
                            "'%.80s' has two amounts", p->text);
    p->amount_seen = true;
    p->out.low = range.low;
    p->out.high = range.high;
    /* a letter right behind the number ("3kg") or a word after a blank; "2
     * boxes pectin" counts pieces when the food says so */
    p->out.unit = pottlei_unit_scan(&at);
    if (p->out.unit == NULL)
        p->out.unit = pottle_unit_find("count");
    if (p->out.unit->dimension == POTTLE_COUNT && p->out.unit->factor > 1) {
        p->out.low *= p->out.unit->factor;
        p->out.high *= p->out.unit->factor;
        p->out.unit = pottle_unit_find("count");
    }
    if (p->out.unit->dimension != POTTLE_MASS &&
        p->out.unit->dimension != POTTLE_VOLUME &&
        p->out.unit->dimension != POTTLE_COUNT &&
        p->out.unit->dimension != POTTLE_CONTAINER)
        return pottlei_fail(p->error, POTTLE_EUNIT, "dimension",
                            "'%.80s': %s is %s, not an amount of food", p->text,
                            p->out.unit->id,
                            pottle_dimension_name((int)p->out.unit->dimension));
    *s += at - piece;
    return POTTLE_OK;
}

/* No-break and thin spaces, as word processors put them between numbers and
 * units, become blanks. */
static void
plain_blanks(const char *text, char *to)
{
    static const char *const blanks[] = { "\xC2\xA0", "\xE2\x80\x89",
                                          "\xE2\x80\xAF" };
    while (*text != '\0') {
        size_t n = 0;
        for (size_t i = 0; i < sizeof blanks / sizeof blanks[0] && n == 0; i++)
            n = strncmp(text, blanks[i], strlen(blanks[i])) == 0
                  ? strlen(blanks[i])
                  : 0;
        *to++ = n > 0 || *text == '\n' || *text == '\r' || *text == '\t'
                  ? ' '
                  : *text;
        text += n > 0 ? n : 1;
    }
    *to = '\0';
}

pottle_status
pottle_phrase_read(const pottle_catalogue *catalogue, const char *text,
                   const char *const *preferred, size_t preferred_count,
                   pottle_phrase *out, pottle_error *error)
{
    if (catalogue == NULL || text == NULL || out == NULL ||
        (preferred == NULL && preferred_count > 0))
        return pottlei_fail(error, POTTLE_EMISUSE, "misuse",
                            "no catalogue, text or place for the result");
    const size_t length = strnlen(text, POTTLE_PHRASE_MAX + 1);
    if (length > POTTLE_PHRASE_MAX)
        return pottlei_fail(error, POTTLE_ESYNTAX, "too-long",
                            "'%.40s...' is longer than %d bytes", text,
                            (int)POTTLE_PHRASE_MAX);
    if (!pottlei_utf8_valid(text, length))
        return pottlei_fail(error, POTTLE_ESYNTAX, "encoding",
                            "the phrase is not valid UTF-8 text");
    if (pottlei_has_comma_number(text))
        return pottlei_fail(
            error, POTTLE_ESYNTAX, "comma",
            "'%.60s': a comma inside a number is not read; write 1.5 or 1500",
            text);
    parse p = { .catalogue = catalogue,
                .text = text,
                .preferred = preferred,
                .preferred_count = preferred_count,
                .error = error };
    pottle_status status = POTTLE_OK;
    char plain[POTTLE_PHRASE_MAX + 1], joined[POTTLE_PHRASE_MAX + 1];
    plain_blanks(text, plain);
    for (const char *s = plain; status == POTTLE_OK;) {
        const char *end = s + strcspn(s, ",");
        s += strspn(s, " \t");
        const bool before = p.amount_seen;
        if (s < end) {
            status = read_amount(&p, &s, end);
            const char *later = status == POTTLE_ENOENT && !p.amount_seen
                                  ? amount_within(s, end)
                                  : NULL;
            if (later != NULL) {
                /* the words in front of the amount, then those behind it */
                const char *behind = later;
                status = read_amount(&p, &behind, end);
                if (status == POTTLE_OK)
                    snprintf(joined, sizeof joined, "%.*s %.*s",
                             (int)(later - s), s, (int)(end - behind), behind);
            }
            if (status == POTTLE_OK || status == POTTLE_ENOENT)
                status = later != NULL ? split(&p, joined, strlen(joined))
                                       : split(&p, s, (size_t)(end - s));
            if (status == POTTLE_OK)
                status = read_words(&p, before);
        }
        if (*end == '\0')
            break;
        s = end + 1;
    }
    if (status != POTTLE_OK)
        return status;
    if (!p.amount_seen)
        return pottlei_fail(
            error, POTTLE_ESYNTAX, "amount",
            "'%.80s' has no amount: write one such as '8 cups diced rhubarb'",
            text);
    if (!p.food_seen)
        return pottlei_fail(error, POTTLE_ESYNTAX, "food",
                            "'%.80s' names no food", text);
    if (!p.out.state_said)
        p.out.state =
            (p.out.form[0] != '\0' && strcmp(p.out.form, "whole") != 0) ||
                    p.out.unit->dimension == POTTLE_VOLUME
                ? POTTLE_PREPARED
                : POTTLE_PURCHASED;
    *out = p.out;
    return POTTLE_OK;
}
