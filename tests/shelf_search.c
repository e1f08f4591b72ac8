/* shelf_search.c - test_shelf: which jars to fill, against trying everything.
 */
#include <config.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "shelf_cases.h"
#include "no_memory.h"

static unsigned
roll(unsigned *seed, unsigned below)
{
    *seed = *seed * 1664525u + 1013904223u;
    return (*seed >> 8) % below;
}

typedef struct tried {
    unsigned long left, jars;
} tried;

/* Goes through every filling: the least that can be left, then of those within
 * `alike` of it the fewest jars, of those the least left. */
static tried
try_everything(const unsigned long *size, const unsigned long *count,
               size_t kinds, unsigned long volume, unsigned long alike)
{
    unsigned long n[6] = { 0 }, least = volume;
    tried best = { 0, 0 };
    for (int pass = 0; pass < 2; pass++) {
        bool any = false;
        memset(n, 0, sizeof n);
        for (;;) {
            unsigned long sum = 0, jars = 0;
            for (size_t i = 0; i < kinds; i++) {
                sum += n[i] * size[i];
                jars += n[i];
            }
            if (sum <= volume) {
                const unsigned long left = volume - sum;
                if (pass == 0)
                    least = left < least ? left : least;
                else if (left <= least + alike &&
                         (!any || jars < best.jars ||
                          (jars == best.jars && left < best.left))) {
                    best = (tried){ left, jars };
                    any = true;
                }
            }
            size_t i = 0;
            while (i < kinds && n[i] == count[i])
                n[i++] = 0;
            if (i == kinds)
                break;
            n[i]++;
        }
    }
    return best;
}

START_TEST(search_against_trying_everything)
{
    unsigned seed = (unsigned)_i * 2654435761u + 17;
    for (int round = 0; round < 40; round++) {
        unsigned long size[6], count[6], jars[6] = { 99, 99, 99, 99, 99, 99 },
                                         all = 0, sum = 0, jars_filled = 0;
        const size_t kinds = 1 + roll(&seed, 5);
        for (size_t i = 0; i < kinds; i++) {
            /* few sizes, so that equal ones and multiples come up */
            size[i] = roll(&seed, 2) == 0 ? 5u * (1 + roll(&seed, 8))
                                          : 1 + roll(&seed, 60);
            count[i] = roll(&seed, 6);
            all += size[i] * count[i];
        }
        const unsigned long volume = roll(&seed, (unsigned)(all + all / 4 + 5)),
                            alike = roll(&seed, 3) * roll(&seed, 12);
        const tried best = try_everything(size, count, kinds, volume, alike);
        ck_assert_int_eq(
            pottlei_pack(size, count, kinds, volume, alike, jars, NULL),
            POTTLE_OK);
        for (size_t i = 0; i < kinds; i++) {
            ck_assert_msg(jars[i] <= count[i], "more jars than there are");
            sum += size[i] * jars[i];
            jars_filled += jars[i];
        }
        ck_assert_msg(sum <= volume, "more than there is");
        /* where all are filled, there is no choice and alike does not count */
        const unsigned long left = all <= volume ? volume - all : best.left,
                            jars_wanted =
                                all <= volume ? jars_filled : best.jars;
        ck_assert_msg(volume - sum == left && jars_filled == jars_wanted,
                      "seed %d round %d: %zu kinds, volume %lu, alike %lu: "
                      "left %lu in %lu jars; by trying everything %lu in %lu",
                      _i, round, kinds, volume, alike, volume - sum,
                      jars_filled, left, jars_wanted);
    }
}
END_TEST

/* More food never fills less, and never leaves a jar that would have been full.
 */
START_TEST(search_is_monotonic)
{
    static const unsigned long size[] = { 118, 237, 355, 473, 946 },
                               count[] = { 3, 5, 2, 4, 3 };
    unsigned long before = 0;
    for (unsigned long volume = 0; volume < 7500; volume += 13) {
        unsigned long jars[5], sum = 0;
        ck_assert_int_eq(pottlei_pack(size, count, 5, volume, 0, jars, NULL),
                         POTTLE_OK);
        for (size_t i = 0; i < 5; i++)
            sum += jars[i] * size[i];
        ck_assert_msg(sum >= before && sum <= volume,
                      "volume %lu: %lu after %lu", volume, sum, before);
        for (size_t i = 0; i < 5; i++)
            ck_assert_msg(jars[i] == count[i] || volume - sum < size[i],
                          "a jar of %lu could still be filled at %lu", size[i],
                          volume);
        before = sum;
    }
    ck_assert_uint_eq(before, 3 * 118 + 5 * 237 + 2 * 355 + 4 * 473 + 3 * 946);
}
END_TEST

static const struct {
    unsigned long size[3], count[3], volume, alike, jars[3];
    const char *why;
} packs[] = {
    { { 237, 473, 946 },
      { 9, 9, 9 },
      2000,
      10,
      { 0, 0, 2 },
      "1892 of 2000 is within 10 of 4 x 473, and of 2 x 473 + 4 x 237 = 1894, "
      "with fewer jars" },
    { { 237, 473, 946 },
      { 9, 9, 9 },
      2000,
      0,
      { 8, 0, 0 },
      "to the last millilitre 8 x 237 = 1896 leaves least" },
    { { 237, 473, 946 },
      { 2, 9, 9 },
      1000,
      10,
      { 0, 0, 1 },
      "946 leaves 54; 473 + 2 x 237 = 947 leaves 53 in three jars" },
    { { 237, 473, 946 },
      { 2, 9, 9 },
      1200,
      10,
      { 1, 0, 1 },
      "946 + 237 = 1183" },
    { { 237, 473, 946 }, { 2, 2, 2 }, 9999, 10, { 2, 2, 2 }, "all of them" },
    { { 237, 473, 946 },
      { 2, 2, 2 },
      236,
      10,
      { 0, 0, 0 },
      "no jar is filled in part" },
    { { 237, 473, 946 }, { 0, 0, 0 }, 5000, 10, { 0, 0, 0 }, "no jars" },
    { { 237, 473, 946 }, { 2, 2, 2 }, 0, 10, { 0, 0, 0 }, "nothing to fill" },
    { { 0, 473, 0 },
      { 5, 3, 5 },
      1000,
      10,
      { 0, 2, 0 },
      "kinds that may not be used have no size" },
};

START_TEST(search_by_hand)
{
    unsigned long jars[3] = { 9, 9, 9 };
    ck_assert_int_eq(pottlei_pack(packs[_i].size, packs[_i].count, 3,
                                  packs[_i].volume, packs[_i].alike, jars,
                                  NULL),
                     POTTLE_OK);
    ck_assert_msg(memcmp(jars, packs[_i].jars, sizeof jars) == 0,
                  "%s: found %lu, %lu, %lu", packs[_i].why, jars[0], jars[1],
                  jars[2]);
}
END_TEST

/* Eight sizes and 200 of each in less than 50 ms, by the processor's clock; the
 * sanitizers and valgrind take their own time. */
START_TEST(search_is_quick)
{
    static const unsigned long size[] = { 118, 236, 250, 354,
                                          473, 500, 946, 1892 },
                               count[] = { 200, 200, 200, 200,
                                           200, 200, 200, 200 };
    double slowest = 0;
    for (unsigned long volume = 1003; volume < 960000; volume += 31957) {
        unsigned long jars[8], sum = 0;
        const clock_t begin = clock();
        ck_assert_int_eq(pottlei_pack(size, count, 8, volume, 10, jars, NULL),
                         POTTLE_OK);
        const double ms = 1000.0 * (double)(clock() - begin) / CLOCKS_PER_SEC;
        slowest = ms > slowest ? ms : slowest;
        for (size_t i = 0; i < 8; i++)
            sum += jars[i] * size[i];
        const unsigned long all =
            200ul * (118 + 236 + 250 + 354 + 473 + 500 + 946 + 1892);
        ck_assert_msg(sum <= volume && (sum == all || volume - sum <= 118 + 10),
                      "%lu of %lu", sum, volume);
    }
    printf("8 sizes, 200 of each: %.1f ms at most\n", slowest);
    fflush(stdout);
#if defined(__SANITIZE_ADDRESS__) || !defined(__OPTIMIZE__)
    ck_assert(slowest < 2000);
#else
    ck_assert_msg(slowest < 50 || getenv("CK_FORK") != NULL, "%.1f ms",
                  slowest);
#endif
}
END_TEST

START_TEST(search_refuses)
{
    static const unsigned long large[] = { 4000000000ul, 7, 11 },
                               sizes[] = { 1000000, 2000000, 4000000 },
                               many[] = { 1000, 1000, 1000 },
                               endless[] = { 70000, 2, 1 };
    unsigned long jars[3] = { 7, 7, 7 };
    pottle_error error = { .status = POTTLE_OK };
    ck_assert_int_eq(pottlei_pack(large, many, 3, 100000000, 0, jars, &error),
                     POTTLE_EDOMAIN);
    ck_assert_str_eq(error.code, "shelf");
    ck_assert_int_eq(pottlei_pack(sizes, many, 3, 1900000000, 0, jars, &error),
                     POTTLE_EDOMAIN);
    ck_assert_int_eq(pottlei_pack(large + 1, endless, 2, 100, 0, jars, &error),
                     POTTLE_EDOMAIN);
    static const unsigned long two[] = { 3, 5 }, some[] = { 4, 4 };
    fail_at = 0;
    allocations = 0;
    const pottle_status status =
        pottlei_pack(two, some, 2, 20, 0, jars, &error);
    fail_at = -1;
    ck_assert_int_eq(status, POTTLE_ENOMEM);
    ck_assert(jars[0] == 7 && jars[1] == 7 && jars[2] == 7);
}
END_TEST

TCase *
shelf_search(void)
{
    TCase *t = tcase_create("search");
    tcase_set_timeout(t, 120);
    tcase_add_loop_test(t, search_against_trying_everything, 0, 60);
    tcase_add_test(t, search_is_monotonic);
    tcase_add_loop_test(t, search_by_hand, 0, COUNT(packs));
    tcase_add_test(t, search_is_quick);
    tcase_add_test(t, search_refuses);
    return t;
}
