/* xml_file.c - the text of an XML file, before it is parsed.
 *
 * libxml2 2.9 prints to stderr when it fails to open a file, whatever the
 * flags; so the file is read here and handed over as memory. What an attacker
 * could send is cut off before the parser: size, encoding, any DTD (and with it
 * every entity). */
#include <config.h>

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "xml.h"

/* The whole file in memory; the caller frees it. */
static pottle_status
slurp(const char *path, char **text, size_t *length, pottle_error *error)
{
    char *buf = NULL;
    pottle_status status = POTTLE_OK;
    const int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOCTTY | O_NONBLOCK);
    struct stat info;
    if (fd < 0 || fstat(fd, &info) != 0) {
        /* HOME=/dev/null is the way to say that there is no home */
        const bool none = errno == ENOENT || errno == ENOTDIR;
        status = pottlei_fail(error, none ? POTTLE_ENOENT : POTTLE_EIO, "file",
                              "cannot open the file: %s", strerror(errno));
        goto done;
    }
    if (!S_ISREG(info.st_mode)) {
        status = pottlei_fail(error, POTTLE_EIO, "file", "not a plain file");
        goto done;
    }
    if (info.st_size > POTTLEI_FILE_MAX) {
        status = pottlei_fail(error, POTTLE_EDATA, "file-size",
                              "larger than %d bytes", (int)POTTLEI_FILE_MAX);
        goto done;
    }
    /* one byte more than it says, so that a file that grows is seen */
    const size_t room = (size_t)info.st_size + 1;
    buf = malloc(room + 1);
    if (buf == NULL) {
        status = pottlei_fail(error, POTTLE_ENOMEM, "memory",
                              "no memory to read the file");
        goto done;
    }
    size_t n = 0;
    while (n < room) {
        const ssize_t k = read(fd, buf + n, room - n);
        if (k < 0 && errno == EINTR)
            continue;
        if (k < 0) {
            status = pottlei_fail(error, POTTLE_EIO, "file",
                                  "cannot read the file: %s", strerror(errno));
            goto done;
        }
        if (k == 0)
            break;
        n += (size_t)k;
    }
    if (n + 1 != room) {
        status = pottlei_fail(error, POTTLE_EIO, "file",
                              "the file changes while it is read");
        goto done;
    }
    buf[n] = '\0';
    *text = buf;
    *length = n;
    buf = NULL;
done:
    free(buf);
    if (fd >= 0)
        close(fd);
    return status;
}

/* Behind what is no tag, if a comment, a CDATA section or an instruction begins
 * here; else NULL. */
static const char *
skip_other(const char *s)
{
    static const char *const kinds[][2] = { { "<!--", "-->" },
                                            { "<![CDATA[", "]]>" },
                                            { "<?", "?>" } };
    if (s[1] != '!' && s[1] != '?')
        return NULL;
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        const size_t n = strlen(kinds[i][0]);
        if (strncmp(s, kinds[i][0], n) != 0)
            continue;
        const char *end = strstr(s + n, kinds[i][1]);
        return end != NULL ? end : s + strlen(s);
    }
    return NULL;
}

/* The values of a tag. Only quotes are counted: what is not well-formed is the
 * parser's to tell. */
static size_t
values_of(const char *s)
{
    size_t values = 0;
    for (s++; *s != '\0' && *s != '>'; s++) {
        if (*s != '"' && *s != '\'')
            continue;
        values++;
        s = strchr(s + 1, *s);
        if (s == NULL)
            break;
    }
    return values;
}

/* The line of the first tag with more attributes than any may have, 0 for none.
 * No value holds a '<', so a tag is no longer than the way to the next one, and
 * most are too short for that many: " a=''". */
static long
crowded_line(const char *text)
{
    const size_t shortest = 5;
    for (const char *s = strchr(text, '<'); s != NULL;) {
        const char *other = skip_other(s);
        if (other != NULL) {
            s = strchr(other, '<');
            continue;
        }
        const char *next = strchr(s + 1, '<');
        const size_t room = next != NULL ? (size_t)(next - s) : strlen(s);
        if (room > shortest * POTTLEI_ATTRIBUTES_MAX &&
            values_of(s) > POTTLEI_ATTRIBUTES_MAX) {
            long line = 1;
            for (const char *k = text; k < s; k++)
                line += *k == '\n';
            return line;
        }
        s = next;
    }
    return 0;
}

pottle_status
pottlei_xml_file(const char *path, char **text, size_t *length,
                 pottle_error *error)
{
    pottle_status status = slurp(path, text, length, error);
    if (status != POTTLE_OK || *text == NULL)
        return status;
    if (!pottlei_utf8_valid(*text, *length))
        status =
            pottlei_fail(error, POTTLE_EDATA, "encoding", "not UTF-8 text");
    else if (strstr(*text, "<!DOCTYPE") != NULL ||
             strstr(*text, "<!ENTITY") != NULL)
        status = pottlei_fail(error, POTTLE_EDATA, "dtd",
                              "a document type declaration is not allowed");
    const long crowded = status == POTTLE_OK ? crowded_line(*text) : 0;
    if (crowded > 0) {
        status = pottlei_fail(error, POTTLE_EDATA, "attributes",
                              "an element has more than %d attributes",
                              (int)POTTLEI_ATTRIBUTES_MAX);
        if (error != NULL)
            error->line = crowded;
    }
    if (status != POTTLE_OK) {
        free(*text);
        *text = NULL;
    }
    return status;
}
