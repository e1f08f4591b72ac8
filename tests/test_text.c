/* test_text.c - names: valid UTF-8, folding, plurals, near misses. */
#include <config.h>

#include <check.h>
#include <locale.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"
#include "suite.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* Source of the limits: RFC 3629, section 4. */
static const struct {
    const char *text;
    size_t n;
    bool valid;
    const char *why;
} utf8[] = {
    { "", 0, true, "nothing" },
    { "abc", 3, true, "ASCII" },
    { "a\tb\r\nc", 6, true, "blanks" },
    { "\xC2\xA0", 2, true, "U+00A0, the first after the controls" },
    { "\xC3\xA9", 2, true, "U+00E9" },
    { "\xDF\xBF", 2, true, "U+07FF, the last of two bytes" },
    { "\xE0\xA0\x80", 3, true, "U+0800, the first of three bytes" },
    { "\xE2\x85\x93", 3, true, "U+2153" },
    { "\xED\x9F\xBF", 3, true, "U+D7FF, the last before the surrogates" },
    { "\xEE\x80\x80", 3, true, "U+E000, the first after them" },
    { "\xEF\xBF\xBD", 3, true, "U+FFFD" },
    { "\xF0\x90\x80\x80", 4, true, "U+10000, the first of four bytes" },
    { "\xF4\x8F\xBF\xBF", 4, true, "U+10FFFF, the last" },

    { "a\0b", 3, false, "NUL" },
    { "\x01", 1, false, "control" },
    { "\x0B", 1, false, "vertical tab" },
    { "\x1B", 1, false, "escape" },
    { "\x7F", 1, false, "delete" },
    { "\xC2\x80", 2, false, "U+0080, a control" },
    { "\xC2\x9F", 2, false, "U+009F, a control" },
    { "\x80", 1, false, "continuation alone" },
    { "\xC3", 1, false, "cut" },
    { "\xE2\x85", 2, false, "cut" },
    { "\xF0\x90\x80", 3, false, "cut" },
    { "\xC3(", 2, false, "no continuation" },
    { "\xE2(\x93", 3, false, "no continuation" },
    { "\xE2\x85(", 3, false, "no continuation" },
    { "\xC0\xAF", 2, false, "overlong" },
    { "\xC1\xBF", 2, false, "overlong" },
    { "\xE0\x9F\xBF", 3, false, "overlong" },
    { "\xF0\x8F\xBF\xBF", 4, false, "overlong" },
    { "\xED\xA0\x80", 3, false, "surrogate" },
    { "\xED\xBF\xBF", 3, false, "surrogate" },
    { "\xF4\x90\x80\x80", 4, false, "U+110000" },
    { "\xF5\x80\x80\x80", 4, false, "beyond" },
    { "\xFF", 1, false, "never a byte of UTF-8" },
    { "\xE2\x85\x93\x93", 4, false, "one continuation too many" },
};

START_TEST(utf8_validity)
{
    /* a copy of exactly n bytes, so that a look past them is seen by the
     * sanitizers */
    char *text = malloc(utf8[_i].n + 1);
    ck_assert_ptr_nonnull(text);
    char *exact = utf8[_i].n > 0 ? realloc(text, utf8[_i].n) : text;
    ck_assert_ptr_nonnull(exact);
    memcpy(exact, utf8[_i].text, utf8[_i].n);
    const bool valid = pottlei_utf8_valid(exact, utf8[_i].n);
    free(exact);
    ck_assert_msg(valid == utf8[_i].valid, "%s", utf8[_i].why);
}
END_TEST

static const struct {
    const char *text;
    size_t size;
    const char *folded;
} folds[] = {
    { "", 8, "" },
    { "Apple", 40, "apple" },
    { "ACORN SQUASH", 40, "acorn squash" },
    { "acorn-squash", 40, "acorn squash" },
    { "acorn_squash", 40, "acorn squash" },
    { "  acorn \t\n\r squash--", 40, "acorn squash" },
    { "- _ -", 40, "" },
    { "Br\xC3\xA9"
      "CHE",
      40,
      "br\xC3\xA9"
      "che" },
    { "\xC3\x89", 40, "\xC3\x89" }, /* only ASCII letters fold */
    { "TITI", 40, "titi" },
    { "1/2", 40, "1/2" },
    /* size - 1 bytes fit, more are cut */
    { "abc", 4, "abc" },
    { "abcd", 4, "abc" },
    { "a b", 4, "a b" },
    { "ab c", 4, "ab" },
    { "abc ", 4, "abc" },
    { "abc d", 4, "abc" },
    { "a", 1, "" },
    { "ab\xC3\xA9", 4, "ab" }, /* never in a character */
    { "ab\xC3\xA9", 5, "ab\xC3\xA9" },
    { "a \xC3\xA9", 4, "a" },
    { "a\xF0\x9F\x8D\x93", 5, "a" },
};

START_TEST(fold)
{
    char buf[48];
    memset(buf, 'x', sizeof buf);
    const size_t n = pottlei_fold(folds[_i].text, buf, folds[_i].size);
    ck_assert_str_eq(buf, folds[_i].folded);
    ck_assert_uint_eq(n, strlen(buf));
    ck_assert_int_eq(buf[folds[_i].size], 'x');
}
END_TEST

START_TEST(fold_into_nothing)
{
    char byte = 'x';
    ck_assert_uint_eq(pottlei_fold("apple", &byte, 0), 0);
    ck_assert_uint_eq(pottlei_fold_singular("apple", &byte, 0), 0);
    ck_assert_int_eq(byte, 'x');
}
END_TEST

/* Folding twice changes nothing more. */
START_TEST(fold_is_idempotent)
{
    char once[48], twice[48];
    pottlei_fold(folds[_i].text, once, folds[_i].size);
    pottlei_fold(once, twice, sizeof twice);
    ck_assert_str_eq(once, twice);
}
END_TEST

static const struct {
    const char *plural, *singular;
} plurals[] = {
    { "apples", "apple" },
    { "apple", "apple" },
    { "berries", "berry" },
    { "cherries", "cherry" },
    { "pies", "pie" },
    { "tomatoes", "tomato" },
    { "potatoes", "potato" },
    { "peaches", "peach" },
    { "radishes", "radish" },
    { "boxes", "box" },
    { "glasses", "glass" },
    { "limes", "lime" },
    { "cups", "cup" },
    { "ounces", "ounce" },
    { "inches", "inch" },
    /* not plurals */
    { "asparagus", "asparagus" },
    { "citrus", "citrus" },
    { "cress", "cress" },
    { "swiss", "swiss" },
    { "iris", "iris" },
    { "gas", "gas" },
    { "lbs", "lbs" },
    { "s", "s" },
    { "", "" },
};

START_TEST(singular)
{
    char word[32];
    memcpy(word, plurals[_i].plural, strlen(plurals[_i].plural) + 1);
    pottlei_singular(word);
    ck_assert_str_eq(word, plurals[_i].singular);
}
END_TEST

static const struct {
    const char *text;
    size_t size;
    const char *result;
} names[] = {
    { "Sour Cherries", 64, "sour cherry" },
    { "bell-peppers, red", 64,
      "bell peppers, red" }, /* a comma is part of its word: callers cut there
                                first */
    { "Tomatoes", 64, "tomato" },
    { "  fluid   OUNCES ", 64, "fluid ounce" },
    { "", 64, "" },
    { "cups", 4, "cup" },
    { "red cups", 8, "red cup" },
    { "apples", 3, "ap" },
    /* a word that does not fit is cut, never dropped: the rest must not be a
       shorter name */
    { "apple butterworth", 10, "apple but" },
    { "apple \xC3\xA9tude", 8, "apple" },
    { "apple \xC3\xA9tude", 9, "apple \xC3\xA9" },
    { "a", 1, "" },
};

START_TEST(fold_singular)
{
    char buf[72];
    memset(buf, 'x', sizeof buf);
    const size_t n = pottlei_fold_singular(names[_i].text, buf, names[_i].size);
    ck_assert_str_eq(buf, names[_i].result);
    ck_assert_uint_eq(n, strlen(buf));
    ck_assert_int_eq(buf[names[_i].size], 'x');
}
END_TEST

/* However long a name is, it never becomes the short name it begins with. */
START_TEST(long_names_do_not_shrink)
{
    char text[600] = "apple ";
    const size_t tail = (size_t)_i;
    memset(text + 6, 'q', tail);
    text[6 + tail] = '\0';
    char buf[64];
    const size_t n = pottlei_fold_singular(text, buf, sizeof buf);
    ck_assert_uint_lt(n, sizeof buf);
    ck_assert_uint_eq(n, strlen(buf));
    ck_assert_str_ne(buf, "apple");
}
END_TEST

/* Source: by hand; an edit is an insertion, a deletion, another letter or two neighbours
 * changed over, and no place is edited twice. */
static const struct {
    const char *a, *b;
    unsigned distance;
} distances[] = {
    { "", "", 0 },
    { "", "plum", 4 },
    { "plum", "plum", 0 },
    { "plum", "plumb", 1 },
    { "plum", "pum", 1 },
    { "plum", "plam", 1 },
    { "plum", "pulm", 1 },
    { "tomato", "tomatos", 1 },
    { "cherry", "chrery", 1 },
    { "rhubarb", "rubarb", 1 },
    { "rhubarb", "rhubrab", 1 },
    { "ca", "abc", 3 },
    { "kitten", "sitting", 3 },
    { "apple", "orange", 5 },
};

START_TEST(distance)
{
    ck_assert_uint_eq(pottlei_distance(distances[_i].a, distances[_i].b),
                      distances[_i].distance);
    ck_assert_uint_eq(pottlei_distance(distances[_i].b, distances[_i].a),
                      distances[_i].distance);
}
END_TEST

START_TEST(distance_of_long_texts)
{
    char a[65], b[65];
    memset(a, 'a', sizeof a);
    memset(b, 'b', sizeof b);
    a[63] = b[63] = '\0';
    ck_assert_uint_eq(pottlei_distance(a, b), 63);
    ck_assert_uint_eq(pottlei_distance(a, a), 0);
    a[63] = 'a';
    a[64] = '\0';
    ck_assert_uint_eq(pottlei_distance(a, b), 255);
    ck_assert_uint_eq(pottlei_distance(b, a), 255);
    ck_assert_uint_eq(pottlei_distance(a, a), 255);
}
END_TEST

static const char *const shelf[] = {
    "apple", "apricot", "blackberry",  "blueberry", "cherry", "peach",
    "pear",  "plum",    "sour cherry", "peach",     "prune",
};

/* By hand: the three nearest, nearest first, of those within 2 edits and one
 * more for every four letters; a name that holds the wanted one counts as 2
 * edits away at most. */
static const struct {
    const char *wanted, *message;
} nears[] = {
    { "pear", "; nearest: pear, peach, plum" },
    { "peer", "; nearest: pear, peach, plum" },
    { "aple", "; nearest: apple, plum" },
    { "cherry", "; nearest: cherry, sour cherry" },
    { "blakberry", "; nearest: blackberry, blueberry" },
    { "zzzzzz", "" },
    { "", "" },
};

START_TEST(near)
{
    pottlei_near list;
    pottlei_near_init(&list, nears[_i].wanted);
    for (size_t i = 0; i < COUNT(shelf); i++)
        pottlei_near_try(&list, shelf[i]);
    char buf[128];
    pottlei_near_write(&list, buf, sizeof buf);
    ck_assert_str_eq(buf, nears[_i].message);
}
END_TEST

START_TEST(near_write_cuts_whole_names)
{
    pottlei_near list;
    pottlei_near_init(&list, "pear");
    for (size_t i = 0; i < COUNT(shelf); i++)
        pottlei_near_try(&list, shelf[i]);
    static const char whole[] = "; nearest: pear, peach, plum";
    for (size_t size = 1; size <= sizeof whole; size++) {
        char buf[sizeof whole + 1];
        memset(buf, '#', sizeof buf);
        pottlei_near_write(&list, buf, size);
        ck_assert_int_eq(buf[size], '#');
        const size_t n = strlen(buf);
        ck_assert_int_eq(strncmp(buf, whole, n), 0);
        ck_assert(n == 0 || whole[n] == ',' || whole[n] == '\0');
    }
}
END_TEST

/* In a Turkish locale the small letter of I has no dot; folding must not ask.
 */
START_TEST(locale_does_not_fold)
{
    if (setlocale(LC_ALL, "tr_TR.UTF-8") == NULL)
        setlocale(LC_ALL, "");
    char buf[16];
    pottlei_fold("TITI", buf, sizeof buf);
    ck_assert_str_eq(buf, "titi");
    setlocale(LC_ALL, "C");
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("text");
    TCase *t = tcase_create("utf8");
    tcase_add_loop_test(t, utf8_validity, 0, COUNT(utf8));
    suite_add_tcase(suite, t);

    t = tcase_create("fold");
    tcase_add_loop_test(t, fold, 0, COUNT(folds));
    tcase_add_loop_test(t, fold_is_idempotent, 0, COUNT(folds));
    tcase_add_test(t, fold_into_nothing);
    tcase_add_loop_test(t, singular, 0, COUNT(plurals));
    tcase_add_loop_test(t, fold_singular, 0, COUNT(names));
    tcase_add_loop_test(t, long_names_do_not_shrink, 1, 500);
    tcase_add_test(t, locale_does_not_fold);
    suite_add_tcase(suite, t);

    t = tcase_create("near");
    tcase_add_loop_test(t, distance, 0, COUNT(distances));
    tcase_add_test(t, distance_of_long_texts);
    tcase_add_loop_test(t, near, 0, COUNT(nears));
    tcase_add_test(t, near_write_cuts_whole_names);
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
