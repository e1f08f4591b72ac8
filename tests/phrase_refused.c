/* phrase_refused.c - test_phrase: what is refused, and with which words. */
#include <config.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "phrase_cases.h"

/* What is no number may be taken for an unreadable amount or for an unknown
 * word. */
#define ANY_REFUSAL POTTLE_OK

/* word: something the sentence must say; NULL: anything. */
static const struct {
    const char *text;
    pottle_status status;
    const char *word;
    const char *why;
} refused[] = {
    { "", POTTLE_ESYNTAX, "amount", "empty" },
    { "   \t ", POTTLE_ESYNTAX, "amount", "blanks" },
    { ",", POTTLE_ESYNTAX, "amount", "a comma" },
    { ", ,,", POTTLE_ESYNTAX, "amount", "commas" },
    { "8", POTTLE_ESYNTAX, "food", "only a number" },
    { "8 cups", POTTLE_ESYNTAX, "food", "only an amount" },
    { "8 cups chopped", POTTLE_ESYNTAX, "food", "no food" },
    { "1 dozen", POTTLE_ESYNTAX, "food", "no food" },
    { "8 cups of the", POTTLE_ESYNTAX, "food", "no food" },
    { "rhubarb", POTTLE_ESYNTAX, "amount", "only a food" },
    { "chopped rhubarb, as picked", POTTLE_ESYNTAX, "amount", "only a food" },
    { "4% vinegar", POTTLE_ESYNTAX, "amount", "a strength is no amount" },

    { "2 cups 3 lb rhubarb", POTTLE_ESYNTAX, NULL, "two amounts" },
    { "2 cups rhubarb, 3 lb", POTTLE_ESYNTAX, "two amounts", "two amounts" },
    { "3 lb, 2 cups rhubarb", POTTLE_ESYNTAX, "two amounts", "two amounts" },
    { "1 lb 8 oz apples", POTTLE_ESYNTAX, NULL, "two amounts; write 1 1/2 lb" },
    { "2 x 3 cups sugar", POTTLE_ESYNTAX, NULL, "two numbers" },
    { "3 + 4 cups sugar", POTTLE_ESYNTAX, NULL, "two numbers" },
    { "1,500 g sugar", POTTLE_ESYNTAX, NULL, "a comma is no part of a number" },
    { "1,5 kg sugar", POTTLE_ESYNTAX, NULL, "a comma is no part of a number" },
    { "2.5.5 cups sugar", POTTLE_ESYNTAX, NULL, "two points" },
    { "2 cups rhubarb, apple", POTTLE_ESYNTAX, "more than one food",
      "two foods" },
    { "rhubarb, 2 cups, apple", POTTLE_ESYNTAX, "more than one food",
      "two foods" },
    { "2 cups rhubarb and apple", POTTLE_ENOENT, "rhubarb and apple",
      "two foods" },
    { "2 cups rhubarb apples", POTTLE_ENOENT, "rhubarb apple", "two foods" },

    { "0 cups rhubarb", POTTLE_EDOMAIN, "above 0", "nothing" },
    { "0.0 cups rhubarb", POTTLE_EDOMAIN, "above 0", "nothing" },
    { "0/5 cups rhubarb", POTTLE_EDOMAIN, "above 0", "nothing" },
    { "0-3 cups rhubarb", POTTLE_EDOMAIN, "above 0", "perhaps nothing" },
    { "rhubarb, 0 cups", POTTLE_EDOMAIN, "above 0", "nothing" },
    { "3-2 lb onions", POTTLE_EDOMAIN, NULL, "the higher end first" },
    { "1/0 cups rhubarb", POTTLE_EDOMAIN, NULL, "divided by nothing" },
    { "1/0% vinegar, 1 cup", POTTLE_EDOMAIN, NULL, "divided by nothing" },
    { "1000000000000000000000000000000 cups rhubarb", POTTLE_EDOMAIN, NULL,
      "1e30" },
    { "1000000001 cups rhubarb", POTTLE_EDOMAIN, NULL,
      "above the largest number" },
    { "0.0000001 cups rhubarb", POTTLE_EDOMAIN, NULL,
      "under the smallest number" },
    { "-2 cups rhubarb", ANY_REFUSAL, NULL, "no sign is read" },
    { "\xE2\x88\x92"
      "2 cups rhubarb",
      ANY_REFUSAL, NULL, "nor a typeset one" },
    { "+2 cups rhubarb", ANY_REFUSAL, NULL, "no sign is read" },
    { "nan cups rhubarb", ANY_REFUSAL, "nan", "no number" },
    { "inf cups rhubarb", ANY_REFUSAL, "inf", "no number" },
    { "1e30 cups rhubarb", ANY_REFUSAL, "e30", "no exponent is read" },
    { "0x10 cups rhubarb", POTTLE_EDOMAIN, NULL, "0, and no hexadecimal" },
    { "two cups sugar", ANY_REFUSAL, "two", "digits only" },

    { "3 psi tomatoes", POTTLE_EUNIT, "pressure", "a pressure" },
    { "3 ft rhubarb", POTTLE_EUNIT, "length", "a length" },
    { "3 m rhubarb", POTTLE_EUNIT, "length", "a length" },
    { "20 deg C water", POTTLE_EUNIT, "temperature", "a temperature" },
    { "rhubarb, 20 \xC2\xB0"
      "F",
      POTTLE_EUNIT, "temperature", "a temperature" },

    { "1 cup 0% vinegar", ANY_REFUSAL, NULL,
      "no acid at all: percent 0 would mean that none was said" },
    { "1 cup 4% vinegar 6%", ANY_REFUSAL, NULL, "two strengths" },

    { "2 cups rhubarv", POTTLE_ENOENT, "nearest: rhubarb", "a slip" },
    { "2 cups chopped ruhbarb", POTTLE_ENOENT, "rhubarb", "a slip" },
    { "2 lb strawbery", POTTLE_ENOENT, "strawberry", "a slip" },
    { "2 kg plutonium", POTTLE_ENOENT, "plutonium", "no food" },

    /* an unknown word is never skipped: it may be the one that matters */
    { "3 cups chopped blarg rhubarb", POTTLE_ENOENT, "blarg",
      "unknown between known" },
    { "3 cups blarg chopped rhubarb", POTTLE_ENOENT, "blarg",
      "unknown in front" },
    { "3 cups chopped rhubarb blarg", POTTLE_ENOENT, "blarg",
      "unknown behind" },
    { "3 blarg cups rhubarb", POTTLE_ENOENT, "blarg", "unknown unit" },
    { "blarg, 3 cups rhubarb", POTTLE_ENOENT, "blarg",
      "unknown piece in front" },
    { "3 cups rhubarb, blarg", POTTLE_ENOENT, "blarg", "unknown piece behind" },
    { "3 cups rhubarb, chopped, blarg", POTTLE_ENOENT, "blarg",
      "unknown piece behind" },
    { "3 cups rhubarb, finely blarg chopped", POTTLE_ENOENT, "blarg",
      "unknown in a piece behind" },
    { "3 cups not chopped rhubarb", POTTLE_ENOENT, "not",
      "a no turned into a yes" },
    { "3 cups unchopped rhubarb", POTTLE_ENOENT, "unchopped", "the opposite" },
    { "3 cups rhubarb (diced)", POTTLE_ENOENT, "diced", "brackets" },
    { "3 cups rhubarb without leaves", POTTLE_ENOENT, "without",
      "the opposite" },
    { "1 cup homemade vinegar", POTTLE_ENOENT, "homemade",
      "a word that matters" },
    { "2 cups rhubarb a a a a a a a a a a a a a a a a a a a a a a a a a a a a "
      "a a a a a a a a a a a a a blarg",
      ANY_REFUSAL, NULL, "unknown behind 41 idle words" },
    { "2 cups rhubarb a a a a a a a a a a a a a a a a a a a a a a a a a a a a "
      "a a a a a a a a a a a a a 3 lb",
      POTTLE_ESYNTAX, NULL, "a second amount behind 41 idle words" },
};

START_TEST(phrase_is_refused)
{
    pottle_phrase p;
    memset(&p, 0x5A, sizeof p);
    pottle_error error = { .status = POTTLE_OK };
    const pottle_status status =
        pottle_phrase_read(catalogue, refused[_i].text, NULL, 0, &p, &error);
    const bool wanted = refused[_i].status == ANY_REFUSAL
                          ? status == POTTLE_ESYNTAX ||
                                status == POTTLE_ENOENT ||
                                status == POTTLE_EDOMAIN
                          : status == refused[_i].status;
    ck_assert_msg(wanted, "'%s' (%s): %s: %s", refused[_i].text,
                  refused[_i].why, pottle_strerror((int)status), error.what);
    ck_assert_int_eq(error.status, status);
    ck_assert(error.code[0] != '\0' && error.what[0] != '\0');
    ck_assert_msg(refused[_i].word == NULL ||
                      strstr(error.what, refused[_i].word) != NULL,
                  "'%s': '%s' does not say %s", refused[_i].text, error.what,
                  refused[_i].word);
    check_untouched(&p);
    /* without a place for the detail it is refused as well */
    ck_assert_int_eq(
        pottle_phrase_read(catalogue, refused[_i].text, NULL, 0, &p, NULL),
        status);
    check_untouched(&p);
}
END_TEST

/* Where there is one number only, the sentence does not speak of a second. */
START_TEST(refusal_says_what_is_wrong)
{
    static const char *const single[] = { "-2 cups rhubarb", "rhubarb 8 cups",
                                          "rhubarb, diced 8 cups" };
    for (size_t i = 0; i < COUNT(single); i++) {
        pottle_phrase p;
        pottle_error error = { .status = POTTLE_OK };
        if (pottle_phrase_read(catalogue, single[i], NULL, 0, &p, &error) !=
            POTTLE_OK)
            ck_assert_msg(strstr(error.what, "second") == NULL, "%s",
                          error.what);
    }
}
END_TEST

START_TEST(bad_text)
{
    static const struct {
        const char *text;
        const char *why;
    } bad[] = {
        { "2 cups \xFFrhubarb", "never a byte of UTF-8" },
        { "2 cups rhubarb\xC3", "cut" },
        { "2 cups \xC0\xAFrhubarb", "overlong" },
        { "2 cups \xED\xA0\x80rhubarb", "surrogate" },
        { "2 cups \x01rhubarb", "control" },
        { "2 cups \x1B[1mrhubarb", "escape" },
        { "2 \xBD cups rhubarb", "Latin-1 half" },
        { "\x80", "continuation alone" },
    };
    for (size_t i = 0; i < COUNT(bad); i++) {
        pottle_phrase p;
        memset(&p, 0x5A, sizeof p);
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_msg(pottle_phrase_read(catalogue, bad[i].text, NULL, 0, &p,
                                         &error) == POTTLE_ESYNTAX,
                      "%s", bad[i].why);
        ck_assert_str_eq(error.code, "encoding");
        ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
        check_untouched(&p);
    }
}
END_TEST

/* In all 10,000 characters, and at the edge of what is read. */
/* "2 cups raw raw raw ... NAME" */
static void
n_fillers(char *text, int n, const char *name)
{
    strcpy(text, "2 cups ");
    for (int i = 0; i < n; i++)
        strcat(text, "raw ");
    strcat(text, name);
}

START_TEST(long_text)
{
    enum { LONG = 10000 };
    static const char *const fillings[] = { "a",       " ", "2 cups rhubarb ",
                                            ",",       "9", "\xC2\xBD",
                                            "rhubarb," };
    char *text = malloc(LONG + 32);
    ck_assert_ptr_nonnull(text);
    pottle_phrase p;
    memset(&p, 0x5A, sizeof p);
    for (size_t i = 0; i < COUNT(fillings); i++) {
        size_t n = 0;
        while (n < LONG) {
            memcpy(text + n, fillings[i], strlen(fillings[i]));
            n += strlen(fillings[i]);
        }
        text[n] = '\0';
        pottle_error error = { .status = POTTLE_OK };
        ck_assert_int_eq(
            pottle_phrase_read(catalogue, text, NULL, 0, &p, &error),
            POTTLE_ESYNTAX);
        ck_assert_str_eq(error.code, "too-long");
        ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
        check_untouched(&p);
    }
    /* a name is found behind as many words as fit */
    n_fillers(text, 36, "red wine vinegar");
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 0, &p, NULL),
                     POTTLE_OK);
    ck_assert_str_eq(p.food, "wine-vinegar");
    memset(&p, 0x5A, sizeof p);
    /* 200 bytes are read, 201 are not */
    memset(text, ' ', 202);
    memcpy(text, "2 cups", 6);
    memcpy(text + 193, "rhubarb", 8);
    ck_assert_uint_eq(strlen(text), 200);
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 0, &p, NULL),
                     POTTLE_OK);
    ck_assert_str_eq(p.food, "rhubarb");
    memset(text + 6, ' ', 196);
    memcpy(text + 194, "rhubarb", 8);
    ck_assert_uint_eq(strlen(text), 201);
    memset(&p, 0x5A, sizeof p);
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 0, &p, NULL),
                     POTTLE_ESYNTAX);
    check_untouched(&p);
    free(text);
}
END_TEST

START_TEST(misuse_is_told)
{
    static const char text[] = "2 cups rhubarb";
    pottle_phrase p;
    memset(&p, 0x5A, sizeof p);
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottle_phrase_read(NULL, text, NULL, 0, &p, &error),
                     POTTLE_EMISUSE);
    ck_assert_str_eq(error.code, "misuse");
    ck_assert_int_eq(pottle_phrase_read(catalogue, NULL, NULL, 0, &p, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 0, NULL, NULL),
                     POTTLE_EMISUSE);
    ck_assert_int_eq(pottle_phrase_read(catalogue, text, NULL, 1, &p, NULL),
                     POTTLE_EMISUSE);
    check_untouched(&p);
}
END_TEST

/* Whatever is typed, an amount that comes back is one that was typed: above 0,
 * finite, in a unit of food, a known food. Words are drawn from a small bag, so
 * that many phrases are whole; the loop number is the seed. */
START_TEST(any_words)
{
    static const char *const bag[] = {
        "2",         "3.5",          "1/2",     "0",
        "-1",        "4 %",          "5%",      "cups",
        "lb",        "psi",          "kg",      "dozen",
        "medium",    "clove",        "bushels", "rhubarb",
        "sugar",     "strawberries", "vinegar", "lemon juice",
        "chopped",   "diced",        "crushed", "whole",
        "as picked", "as purchased", "peeled",  ",",
        ", ",        "of",           "about",   "blarg",
        "\xC2\xBD",  "to",           "-",
    };
    unsigned state = (unsigned)_i * 2654435761u + 12345u;
    for (int n = 0; n < 400; n++) {
        char text[160] = "";
        size_t used = 0;
        state = state * 1664525u + 1013904223u;
        const unsigned words = 1 + (state >> 16) % 8;
        bool blarg = false;
        for (unsigned w = 0; w < words; w++) {
            state = state * 1664525u + 1013904223u;
            const char *word = bag[(state >> 16) % COUNT(bag)];
            blarg = blarg || strcmp(word, "blarg") == 0;
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%s",
                                     w > 0 ? " " : "", word);
        }
        pottle_phrase p;
        memset(&p, 0x5A, sizeof p);
        pottle_error error = { .status = POTTLE_OK };
        const pottle_status status =
            pottle_phrase_read(catalogue, text, NULL, 0, &p, &error);
        if (status != POTTLE_OK) {
            ck_assert_msg(error.status == status && error.code[0] != '\0' &&
                              error.what[0] != '\0',
                          "'%s'", text);
            check_untouched(&p);
            continue;
        }
        ck_assert_msg(!blarg, "'%s' is read, though it has an unknown word",
                      text);
        ck_assert_msg(p.low > 0 && p.low <= p.high &&
                          p.high <= POTTLE_NUMBER_MAX * 12,
                      "'%s': %g to %g", text, p.low, p.high);
        ck_assert_msg(p.unit->dimension == POTTLE_MASS ||
                          p.unit->dimension == POTTLE_VOLUME ||
                          p.unit->dimension == POTTLE_COUNT ||
                          p.unit->dimension == POTTLE_CONTAINER,
                      "'%s': %s", text, p.unit->id);
        ck_assert_msg(pottle_food_name(catalogue, p.food, 0) != NULL,
                      "'%s': food '%s'", text, p.food);
        ck_assert_msg(p.percent >= 0, "'%s': %g %%", text, p.percent);
        ck_assert_msg((strstr(text, "crushed") != NULL) ||
                          (strcmp(p.form, "crushed") != 0 &&
                           strcmp(p.then, "crushed") != 0),
                      "'%s': crushed", text);
    }
}
END_TEST

TCase *
phrase_refused(void)
{
    TCase *t = tcase_create("refused");
    tcase_add_unchecked_fixture(t, open_catalogue, close_catalogue);
    tcase_add_loop_test(t, phrase_is_refused, 0, COUNT(refused));
    tcase_add_test(t, refusal_says_what_is_wrong);
    tcase_add_test(t, bad_text);
    tcase_add_test(t, long_text);
    tcase_add_test(t, misuse_is_told);
    tcase_add_loop_test(t, any_words, 0, 20);
    return t;
}
