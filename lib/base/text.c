/* text.c - names as people write them: folding, plurals, near misses.
 *
 * Folding is for ASCII letters only and never asks the locale, so that a
 * Turkish locale cannot change which food is meant. */
#include <config.h>

#include <stdio.h>
#include <string.h>

#include "internal.h"

/* Whether eight bytes are printable ASCII. The high bit of each byte tells: of
 * the byte itself when it is no ASCII, of its difference with 0x20 when it is
 * below (the first borrow comes from such a byte), of its sum with 1 at 0x7F.
 */
static bool
plain_ascii(const unsigned char *s)
{
    const uint64_t ones = 0x0101010101010101u;
    uint64_t bytes;
    memcpy(&bytes, s, sizeof bytes);
    return ((bytes | (bytes - 0x20u * ones) | (bytes + ones)) & 0x80u * ones) ==
           0;
}

bool
pottlei_utf8_valid(const char *text, size_t n)
{
    const unsigned char *s = (const unsigned char *)text;
    for (size_t i = 0; i < n;) {
        /* nearly all there is */
        while (n - i >= sizeof(uint64_t) && plain_ascii(s + i))
            i += sizeof(uint64_t);
        while (i < n && s[i] >= 0x20u && s[i] < 0x7Fu)
            i++;
        if (i == n)
            break;
        const unsigned c = s[i];
        if (c < 0x80u) {
            if (c == 0x7Fu ||
                (c < 0x20u && c != '\t' && c != '\n' && c != '\r'))
                return false;
            i++;
            continue;
        }
        const size_t more = c >= 0xC2u && c <= 0xDFu ? 1
                          : c >= 0xE0u && c <= 0xEFu ? 2
                          : c >= 0xF0u && c <= 0xF4u ? 3
                                                     : 0;
        if (more == 0 || more >= n - i)
            return false;
        for (size_t k = 1; k <= more; k++)
            if ((s[i + k] & 0xC0u) != 0x80u)
                return false;
        /* the second set of control characters; overlong forms, surrogates,
         * beyond U+10FFFF */
        if ((c == 0xC2u && s[i + 1] < 0xA0u) ||
            (c == 0xE0u && s[i + 1] < 0xA0u) ||
            (c == 0xEDu && s[i + 1] > 0x9Fu) ||
            (c == 0xF0u && s[i + 1] < 0x90u) ||
            (c == 0xF4u && s[i + 1] > 0x8Fu))
            return false;
        i += more + 1;
    }
    return true;
}

/* Bytes up to the next blank of folded text, or to its end: a short word, for
 * which strcspn takes longer to begin than to search. */
static size_t
word_length(const char *folded)
{
    size_t n = 0;
    while (folded[n] != '\0' && folded[n] != ' ')
        n++;
    return n;
}

/* Length of the first n bytes of buf less a UTF-8 character that was cut at
 * their end. */
static size_t
whole_characters(const char *buf, size_t n, const char *next)
{
    if (((unsigned char)*next & 0xC0u) != 0x80u)
        return n;
    while (n > 0 && ((unsigned char)buf[n - 1] & 0xC0u) == 0x80u)
        n--;
    return n > 0 && ((unsigned char)buf[n - 1] & 0xC0u) == 0xC0u ? n - 1 : n;
}

size_t
pottlei_fold(const char *text, char *buf, size_t size)
{
    if (size == 0)
        return 0;
    size_t n = 0;
    bool gap = false;
    for (const char *s = text; *s != '\0'; s++) {
        const char c = *s;
        if (c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '-' ||
            c == '_') {
            gap = n > 0;
            continue;
        }
        if (n + (gap ? 2 : 1) >= size) {
            n = whole_characters(buf, n, s);
            n -= n > 0 && buf[n - 1] == ' ' ? 1 : 0;
            break;
        }
        if (gap)
            buf[n++] = ' ';
        gap = false;
        buf[n++] = c;
        if (c >= 'A' && c <= 'Z')
            buf[n - 1] = "abcdefghijklmnopqrstuvwxyz"[c - 'A'];
    }
    buf[n] = '\0';
    return n;
}

static bool
ends(const char *word, size_t n, const char *tail)
{
    const size_t k = strlen(tail);
    return n > k && memcmp(word + n - k, tail, k) == 0;
}

void
pottlei_singular(char *word)
{
    const size_t n = strlen(word);
    if (n < 4 || word[n - 1] != 's' || ends(word, n, "ss") ||
        ends(word, n, "us") || ends(word, n, "is"))
        return;
    if (ends(word, n, "ies") && n > 4)
        memcpy(word + n - 3, "y", 2);
    else if (ends(word, n, "oes") || ends(word, n, "ches") ||
             ends(word, n, "shes") || ends(word, n, "xes") ||
             ends(word, n, "sses"))
        word[n - 2] = '\0';
    else
        word[n - 1] = '\0';
}

size_t
pottlei_fold_singular(const char *text, char *buf, size_t size)
{
    char folded[256];
    pottlei_fold(text, folded, sizeof folded);
    size_t n = 0;
    if (size > 0)
        buf[0] = '\0';
    for (char *s = folded; *s != '\0';) {
        const size_t k = word_length(s);
        const bool last = s[k] == '\0';
        s[k] = '\0';
        pottlei_singular(s);
        size_t m = strlen(s);
        const size_t gap = n > 0 ? 1 : 0;
        if (n + gap + 1 >= size)
            break;
        const size_t room = size - n - gap - 1;
        /* a long word is cut, not dropped: what is left must not be a shorter
         * name */
        const bool cut = m > room;
        if (cut)
            m = whole_characters(s, room, s + room);
        if (m == 0)
            break;
        if (gap > 0)
            buf[n++] = ' ';
        memcpy(buf + n, s, m);
        n += m;
        buf[n] = '\0';
        if (last || cut)
            break;
        s += k + 1;
    }
    return n;
}

enum { FAR = 255, LONGEST = 63 };

unsigned
pottlei_distance(const char *a, const char *b)
{
    const size_t na = strlen(a), nb = strlen(b);
    if (na > LONGEST || nb > LONGEST)
        return FAR;
    unsigned rows[3][LONGEST + 1];
    unsigned *before = rows[0], *above = rows[1], *row = rows[2];
    for (size_t j = 0; j <= nb; j++)
        above[j] = (unsigned)j;
    memcpy(before, above, sizeof rows[0]);
    for (size_t i = 1; i <= na; i++) {
        row[0] = (unsigned)i;
        for (size_t j = 1; j <= nb; j++) {
            const unsigned other = a[i - 1] != b[j - 1];
            unsigned best = above[j - 1] + other;
            if (above[j] + 1 < best)
                best = above[j] + 1;
            if (row[j - 1] + 1 < best)
                best = row[j - 1] + 1;
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] &&
                a[i - 2] == b[j - 1] && before[j - 2] + 1 < best)
                best = before[j - 2] + 1;
            row[j] = best;
        }
        unsigned *spare = before;
        before = above;
        above = row;
        row = spare;
    }
    return above[nb];
}

void
pottlei_near_init(pottlei_near *near, const char *wanted)
{
    memset(near, 0, sizeof *near);
    near->wanted = wanted;
    for (size_t i = 0; i < 3; i++)
        near->distance[i] = FAR;
}

void
pottlei_near_try(pottlei_near *near, const char *name)
{
    const size_t n = strlen(near->wanted), m = strlen(name), most = 2 + n / 4;
    /* a name that contains the wanted one is near, however long it is */
    const bool within = n >= 3 && strstr(name, near->wanted) != NULL;
    /* what is longer or shorter by more than that is as far at least */
    if (!within && (n > m + most || m > n + most))
        return;
    unsigned d = pottlei_distance(near->wanted, name);
    if (within && d > 2)
        d = 2;
    if (d == FAR || d > most)
        return;
    for (size_t i = 0; i < 3; i++)
        if (near->name[i] != NULL && strcmp(near->name[i], name) == 0)
            return;
    for (size_t i = 0; i < 3; i++) {
        if (d >= near->distance[i])
            continue;
        for (size_t k = 2; k > i; k--) {
            near->name[k] = near->name[k - 1];
            near->distance[k] = near->distance[k - 1];
        }
        near->name[i] = name;
        near->distance[i] = d;
        return;
    }
}

void
pottlei_near_write(const pottlei_near *near, char *buf, size_t size)
{
    size_t n = 0;
    buf[0] = '\0';
    for (size_t i = 0; i < 3 && near->name[i] != NULL; i++) {
        const int k = snprintf(buf + n, size - n, "%s%s",
                               i == 0 ? "; nearest: " : ", ", near->name[i]);
        if (k < 0 || (size_t)k >= size - n) {
            buf[n] = '\0';
            return;
        }
        n += (size_t)k;
    }
}

void
pottlei_list_add(char *list, size_t size, const char *name)
{
    const size_t used = strlen(list);
    const char *comma = used > 0 ? ", " : "";
    if (used + strlen(comma) + strlen(name) < size)
        snprintf(list + used, size - used, "%s%s", comma, name);
}
