/* test_status.c - status texts, the version, errors, and the memory objects
 * live in. */
#include <config.h>

#include <check.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"
#include "suite.h"

static const int statuses[] = {
    POTTLE_OK,      POTTLE_EDOMAIN, POTTLE_EBOUNDS,    POTTLE_EUNIT,
    POTTLE_EDATA,   POTTLE_ENOENT,  POTTLE_EIO,        POTTLE_ENOMEM,
    POTTLE_EMISUSE, POTTLE_ESYNTAX, POTTLE_EAMBIGUOUS,
};
enum { STATUSES = sizeof statuses / sizeof statuses[0] };

/* Values are never renumbered: these are part of the interface. */
START_TEST(numbers_stand) { ck_assert_int_eq(statuses[_i], _i); }
END_TEST

START_TEST(every_status_has_its_own_text)
{
    const char *text = pottle_strerror(statuses[_i]);
    ck_assert_ptr_nonnull(text);
    ck_assert_uint_gt(strlen(text), 3);
    ck_assert_str_ne(text, pottle_strerror(-1));
    for (int k = 0; k < STATUSES; k++)
        if (k != _i)
            ck_assert_str_ne(text, pottle_strerror(statuses[k]));
}
END_TEST

START_TEST(any_int_has_a_text)
{
    static const int strange[] = { -1, STATUSES, 4711, INT_MAX, INT_MIN };
    for (size_t i = 0; i < sizeof strange / sizeof strange[0]; i++) {
        ck_assert_ptr_nonnull(pottle_strerror(strange[i]));
        ck_assert_str_eq(pottle_strerror(strange[i]), "unknown status");
    }
}
END_TEST

START_TEST(version_is_that_of_the_header)
{
    char text[40];
    snprintf(text, sizeof text, "%d.%d.%d", POTTLE_VERSION_MAJOR,
             POTTLE_VERSION_MINOR, POTTLE_VERSION_PATCH);
    ck_assert_int_eq(strncmp(pottle_version(), text, strlen(text)), 0);
    ck_assert_str_eq(pottle_version(), POTTLE_VERSION_TEXT);
}
END_TEST

START_TEST(fail_writes_the_error)
{
    pottle_error error;
    memset(&error, 'x', sizeof error);
    ck_assert_int_eq(pottlei_fail(&error, POTTLE_EUNIT, "some-code",
                                  "%s and %d", "text", 42),
                     POTTLE_EUNIT);
    ck_assert_int_eq(error.status, POTTLE_EUNIT);
    ck_assert_str_eq(error.code, "some-code");
    ck_assert_str_eq(error.what, "text and 42");
    ck_assert_str_eq(error.where, "");
    ck_assert_str_eq(error.source, "");
    ck_assert_str_eq(error.at, "");
    ck_assert_str_eq(error.instead, "");
    ck_assert_int_eq(error.line, 0);
}
END_TEST

START_TEST(fail_without_a_place_gives_the_status)
{
    ck_assert_int_eq(
        pottlei_fail(NULL, POTTLE_EDATA, "some-code", "%s", "text"),
        POTTLE_EDATA);
}
END_TEST

/* A message that is too long is cut at a whole character. */
START_TEST(fail_cuts_long_messages)
{
    char text[3000];
    for (size_t i = 0; i + 2 < sizeof text; i += 2)
        memcpy(text + i, "\xC3\xA9", 3);
    pottle_error error;
    for (int shift = 0; shift < 2; shift++) {
        ck_assert_int_eq(pottlei_fail(&error, POTTLE_EDATA, "code", "%s%s",
                                      shift == 0 ? "" : "-", text),
                         POTTLE_EDATA);
        const size_t n = strlen(error.what);
        ck_assert_uint_ge(n, sizeof error.what - 2);
        ck_assert(pottlei_utf8_valid(error.what, n));
    }
}
END_TEST

static const struct {
    const char *text, *printed, *why;
} printable[] = {
    { "plain", "plain", "ASCII" },
    { "3\xC2\xBD cups", "3\xC2\xBD cups", "a whole character stays" },
    { "\xF0\x9F\x8D\x93", "\xF0\x9F\x8D\x93", "four bytes stay" },
    { "cr\xC3", "cr?", "cut in a character" },
    { "\xFF\xFE", "??", "no UTF-8 at all" },
    { "a\xC3(b", "a?(b", "a lead byte without what follows" },
    { "\x1B[31m", "?[31m", "escape" },
    { "\xC2\x9B"
      "31m",
      "??31m", "the escape of the second set of control characters" },
    { "\xED\xA0\x80", "???", "a surrogate" },
};

START_TEST(fail_quotes_only_what_prints)
{
    pottle_error error;
    ck_assert_int_eq(
        pottlei_fail(&error, POTTLE_ESYNTAX, "code", "%s", printable[_i].text),
        POTTLE_ESYNTAX);
    ck_assert_msg(strcmp(error.what, printable[_i].printed) == 0, "%s",
                  printable[_i].why);
    ck_assert(pottlei_utf8_valid(error.what, strlen(error.what)));
}
END_TEST

static const struct {
    const char *text;
    size_t size;
    const char *copy;
} copies[] = {
    { "", 1, "" },
    { "abc", 1, "" },
    { "abc", 3, "ab" },
    { "abc", 4, "abc" },
    { "abc", 40, "abc" },
    { "a\xC3\xA9", 3, "a" },
    { "a\xC3\xA9", 4, "a\xC3\xA9" },
    { "\xF0\x9F\x8D\x93", 4, "" },
};

START_TEST(copy_cuts_at_whole_characters)
{
    char buf[48];
    memset(buf, 'x', sizeof buf);
    pottlei_copy(buf, copies[_i].size, copies[_i].text);
    ck_assert_str_eq(buf, copies[_i].copy);
    ck_assert_int_eq(buf[copies[_i].size], 'x');
}
END_TEST

START_TEST(arena_gives_zeroed_aligned_memory)
{
    pottlei_arena arena = { NULL };
    enum { PIECES = 2000 };
    unsigned char *piece[PIECES];
    for (size_t i = 0; i < PIECES; i++) {
        const size_t n = i * 7 % 97 + 1;
        piece[i] = pottlei_arena_new(&arena, n, 1);
        ck_assert_ptr_nonnull(piece[i]);
        ck_assert_uint_eq((uintptr_t)piece[i] % _Alignof(max_align_t), 0);
        for (size_t k = 0; k < n; k++)
            ck_assert_uint_eq(piece[i][k], 0);
        memset(piece[i], (int)(i % 251) + 1, n);
    }
    /* no piece runs into another */
    for (size_t i = 0; i < PIECES; i++)
        for (size_t k = 0; k < i * 7 % 97 + 1; k++)
            ck_assert_uint_eq(piece[i][k], i % 251 + 1);
    pottlei_arena_free(&arena);
    ck_assert_ptr_null(arena.last);
    pottlei_arena_free(&arena);
}
END_TEST

START_TEST(arena_takes_large_pieces_and_texts)
{
    pottlei_arena arena = { NULL };
    double *many = pottlei_arena_new(&arena, 100000, sizeof *many);
    ck_assert_ptr_nonnull(many);
    many[99999] = 1.5;
    char *text = pottlei_arena_text(&arena, "rhubarb");
    ck_assert_str_eq(text, "rhubarb");
    ck_assert_str_eq(pottlei_arena_text(&arena, ""), "");
    pottlei_arena_free(&arena);
}
END_TEST

START_TEST(arena_refuses_sizes_that_overflow)
{
    pottlei_arena arena = { NULL };
    ck_assert_ptr_null(pottlei_arena_new(&arena, SIZE_MAX / 2, 8));
    ck_assert_ptr_null(pottlei_arena_new(&arena, SIZE_MAX, 1));
    ck_assert_ptr_null(pottlei_arena_new(&arena, 8, SIZE_MAX / 8));
    ck_assert_ptr_null(arena.last);
    pottlei_arena_free(&arena);
}
END_TEST

int
main(void)
{
    Suite *suite = suite_create("status");
    TCase *t = tcase_create("status");
    tcase_add_loop_test(t, numbers_stand, 0, STATUSES);
    tcase_add_loop_test(t, every_status_has_its_own_text, 0, STATUSES);
    tcase_add_test(t, any_int_has_a_text);
    tcase_add_test(t, version_is_that_of_the_header);
    suite_add_tcase(suite, t);

    t = tcase_create("error");
    tcase_add_test(t, fail_writes_the_error);
    tcase_add_test(t, fail_without_a_place_gives_the_status);
    tcase_add_test(t, fail_cuts_long_messages);
    tcase_add_loop_test(t, fail_quotes_only_what_prints, 0,
                        sizeof printable / sizeof printable[0]);
    tcase_add_loop_test(t, copy_cuts_at_whole_characters, 0,
                        sizeof copies / sizeof copies[0]);
    suite_add_tcase(suite, t);

    t = tcase_create("memory");
    tcase_add_test(t, arena_gives_zeroed_aligned_memory);
    tcase_add_test(t, arena_takes_large_pieces_and_texts);
    tcase_add_test(t, arena_refuses_sizes_that_overflow);
    suite_add_tcase(suite, t);

    return suite_run(suite);
}
