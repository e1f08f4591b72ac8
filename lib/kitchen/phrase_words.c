/* phrase_words.c - the words of a phrase: cut, folded, and what each one says.
 *
 * Every word is the name of a food or stands in the lexicon; a run of words is
 * never cut short, so that none is dropped. */
#include <config.h>

#include <string.h>

#include "kitchen/phrase.h"

/* What a word that is no food says. */
typedef enum sense { FORM, SIZE, STATE, READY, FRESH, FILLER } sense;

/* Folded and singular; sorted by their bytes, to search in. */
static const struct {
    const char *words;
    sense sense;
    const char *value;
} lexicon[] = {
    { "a", FILLER, "" },
    { "about", FILLER, "" },
    { "acid", FILLER, "" },
    { "acidity", FILLER, "" },
    { "an", FILLER, "" },
    { "and", FILLER, "" },
    { "as bought", STATE, "purchased" },
    { "as picked", STATE, "picked" },
    { "as purchased", STATE, "purchased" },
    { "as sold", STATE, "purchased" },
    { "big", SIZE, "large" },
    { "box", SIZE, "box" },
    { "bulb", SIZE, "bulb" },
    { "bunch", SIZE, "bunch" },
    { "can", SIZE, "can" },
    { "chopped", FORM, "chopped" },
    { "cleaned", READY, "" },
    { "clove", SIZE, "clove" },
    { "coarsely chopped", FORM, "coarsely-chopped" },
    { "cold", FILLER, "" },
    { "cooked", FORM, "cooked" },
    { "cored", READY, "" },
    { "crumbled", FORM, "crumbled" },
    { "crushed", FORM, "crushed" },
    { "cube", FORM, "cubed" },
    { "cubed", FORM, "cubed" },
    { "cut up", FORM, "pieces" },
    { "diced", FORM, "diced" },
    { "drained", FORM, "drained" },
    { "drop", SIZE, "drop" },
    { "ear", SIZE, "ear" },
    { "extra large", SIZE, "extra-large" },
    { "finely chopped", FORM, "finely-chopped" },
    { "finely diced", FORM, "diced" },
    { "firm", FILLER, "" },
    { "firmly packed", FORM, "packed" },
    { "flaked", FORM, "flaked" },
    { "floret", FORM, "flowerets" },
    { "floweret", FORM, "flowerets" },
    { "fresh", FRESH, "" },
    { "from the garden", STATE, "picked" },
    { "frozen", FORM, "frozen" },
    { "grated", FORM, "grated" },
    { "ground", FORM, "ground" },
    { "half", FORM, "halved" },
    { "halve", FORM, "halved" },
    { "halved", FORM, "halved" },
    { "head", SIZE, "head" },
    { "hulled", READY, "" },
    { "husked", READY, "" },
    { "in piece", FORM, "pieces" },
    { "julienned", FORM, "strips" },
    { "just picked", STATE, "picked" },
    { "kernel", FORM, "kernels" },
    { "large", SIZE, "large" },
    { "leaf", SIZE, "leaf" },
    { "leave", FORM, "leaves" },
    { "level", FILLER, "" },
    { "lightly packed", FORM, "lightly-packed" },
    { "liquid", FORM, "liquid" },
    { "loosely packed", FORM, "lightly-packed" },
    { "mashed", FORM, "mashed" },
    { "medium", SIZE, "medium" },
    { "minced", FORM, "minced" },
    { "of", FILLER, "" },
    { "packed", FORM, "packed" },
    { "peeled", READY, "" },
    { "picked", STATE, "picked" },
    { "piece", FORM, "pieces" },
    { "pitted", READY, "" },
    { "pod", SIZE, "pod" },
    { "pouch", SIZE, "pouch" },
    { "prepared", STATE, "prepared" },
    { "pureed", FORM, "pureed" },
    { "pur\xC3\xA9"
      "ed",
      FORM, "pureed" },
    { "quartered", FORM, "quartered" },
    { "raw", FRESH, "" },
    { "ready to use", STATE, "prepared" },
    { "ring", FORM, "rings" },
    { "ripe", FILLER, "" },
    { "roughly chopped", FORM, "coarsely-chopped" },
    { "section", FORM, "sections" },
    { "seeded", READY, "" },
    { "shelled", FORM, "shelled" },
    { "shredded", FORM, "shredded" },
    { "sifted", FORM, "sifted" },
    { "slice", FORM, "sliced" },
    { "sliced", FORM, "sliced" },
    { "small", SIZE, "small" },
    { "some", FILLER, "" },
    { "spear", SIZE, "spear" },
    { "sprig", SIZE, "sprig" },
    { "stalk", SIZE, "stalk" },
    { "stemmed", READY, "" },
    { "stick", SIZE, "stick" },
    { "stoned", READY, "" },
    { "strip", FORM, "strips" },
    { "the", FILLER, "" },
    { "trimmed", READY, "" },
    { "unpeeled", STATE, "purchased" },
    { "untrimmed", STATE, "purchased" },
    { "washed", FILLER, "" },
    { "whole", FORM, "whole" },
    { "with leave", STATE, "picked" },
};

enum { LEXICON = sizeof lexicon / sizeof lexicon[0] };

const char *
pottlei_words_entry(size_t i)
{
    return i < LEXICON ? lexicon[i].words : NULL;
}

bool
pottlei_words_join(const pottlei_phrase_parse *p, size_t from, size_t to,
                   char *buf, size_t size)
{
    size_t n = 0;
    buf[0] = '\0';
    for (size_t i = from; i < to; i++) {
        const size_t k = strlen(p->word[i]);
        if (n + k + 2 > size)
            return false;
        if (i > from)
            buf[n++] = ' ';
        memcpy(buf + n, p->word[i], k + 1);
        n += k;
    }
    return true;
}

/* Looks it up among the words [i, end). */
static size_t
look_up(const pottlei_phrase_parse *p, size_t i, size_t end, size_t *entry)
{
    size_t length =
        end - i < POTTLEI_ENTRY_WORDS ? end - i : POTTLEI_ENTRY_WORDS;
    for (; length > 0; length--) {
        char text[96];
        if (!pottlei_words_join(p, i, i + length, text, sizeof text))
            continue;
        size_t low = 0, high = LEXICON;
        while (low < high) {
            const size_t middle = low + (high - low) / 2;
            const int order = strcmp(lexicon[middle].words, text);
            if (order == 0) {
                *entry = middle;
                return length;
            }
            if (order < 0)
                low = middle + 1;
            else
                high = middle;
        }
    }
    return 0;
}

pottle_status
pottlei_words_split(pottlei_phrase_parse *p, const char *text, size_t n)
{
    char piece[POTTLE_PHRASE_MAX + 1];
    memcpy(piece, text, n);
    piece[n] = '\0';
    pottlei_fold(piece, p->folded, sizeof p->folded);
    p->words = 0;
    for (char *s = p->folded; *s != '\0';) {
        if (p->words == POTTLEI_WORDS_MAX)
            return pottlei_fail(p->error, POTTLE_ESYNTAX, "too-long",
                                "'%.60s...' has more than %d words", p->text,
                                (int)POTTLEI_WORDS_MAX);
        size_t k = 0;
        while (s[k] != '\0' && s[k] != ' ')
            k++;
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
    for (size_t i = 0; i < p->words; i++)
        p->at[i].length = look_up(p, i, p->words, &p->at[i].entry);
    return POTTLE_OK;
}

size_t
pottlei_words_lexicon_at(const pottlei_phrase_parse *p, size_t i, size_t end,
                         size_t *entry)
{
    /* only an entry that is cut by the end is looked up again */
    if (p->at[i].length > end - i)
        return look_up(p, i, end, entry);
    *entry = p->at[i].entry;
    return p->at[i].length;
}

bool
pottlei_words_known(const pottlei_phrase_parse *p, size_t from, size_t to)
{
    for (size_t i = from, k = 0; i < to;) {
        const size_t length = pottlei_words_lexicon_at(p, i, to, &k);
        if (length == 0)
            return false;
        i += length;
    }
    return true;
}

/* A second form does not take the place of the first: it may be the one that
 * matters. */
static void
take_form(pottlei_phrase_parse *p, const char *form, bool later)
{
    const char *before = later ? p->out.then : p->out.form;
    if (before[0] != '\0' && strcmp(before, form) != 0)
        p->second_form = form;
    else if (later)
        POTTLEI_SET(p->out.then, form);
    else
        POTTLEI_SET(p->out.form, form);
}

void
pottlei_words_take(pottlei_phrase_parse *p, size_t from, size_t to, bool later)
{
    for (size_t i = from, k = 0; i < to;) {
        const size_t length = pottlei_words_lexicon_at(p, i, to, &k);
        if (length == 0)
            return;
        i += length;
        switch (lexicon[k].sense) {
        case FORM: take_form(p, lexicon[k].value, later); break;
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
        case FRESH: p->fresh = true; break;
        case FILLER: break;
        }
    }
}
