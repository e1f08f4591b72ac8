/* command_run.c - the whole command in this process, in a folder of its own.
 *
 * What it prints goes into memory, by streams in the place of stdout and
 * stderr; their descriptors stay what they are, so that a sanitizer can still
 * be heard. The folder has a kitchen file, a recipe of one's own and files that
 * are not in order; HOME is in it too. */
#include <config.h>

#include <dirent.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command.h"

static char folder[64];
static int here = -1, there = -1; /* descriptors of the two folders */
static uint64_t as_made;

static void
fail(const char *what)
{
    perror(what);
    exit(99); /* broken set-up */
}

/* -- The catalogue --------------------------------------------------------- */

enum { LENT = 32 };
static struct {
    pottle_catalogue *catalogue;
    unsigned parts;
} shelf[LENT];
static long out_on_loan;

static void
free_shelf(void)
{
    for (size_t i = 0; i < LENT; i++)
        pottle_catalogue_free(shelf[i].catalogue);
}

pottle_status
fuzz_lend_catalogue(const char *from, const char *own_folder, unsigned parts,
                    pottle_catalogue **out, pottle_error *error)
{
    size_t i = 0;
    if (own_folder != NULL) {
        const pottle_status status =
            pottle_catalogue_open(from, own_folder, parts, out, error);
        out_on_loan += status == POTTLE_OK;
        return status;
    }
    while (i + 1 < LENT && shelf[i].catalogue != NULL &&
           shelf[i].parts != parts)
        i++;
    if (shelf[i].catalogue == NULL || shelf[i].parts != parts) {
        pottle_catalogue_free(shelf[i].catalogue);
        shelf[i].catalogue = NULL;
        shelf[i].parts = parts;
        if (pottle_catalogue_open(from, NULL, parts, &shelf[i].catalogue,
                                  error) != POTTLE_OK)
            fail(from);
    }
    *out = shelf[i].catalogue;
    out_on_loan++;
    return POTTLE_OK;
}

void
fuzz_return_catalogue(pottle_catalogue *catalogue)
{
    if (catalogue == NULL)
        return;
    out_on_loan--;
    for (size_t i = 0; i < LENT; i++)
        if (shelf[i].catalogue == catalogue)
            return;
    pottle_catalogue_free(catalogue);
}

/* -- The folder ------------------------------------------------------------ */

/* All that is in a folder, and with `itself` the folder as well. */
static void
clear(int at, const char *name, bool itself)
{
    const int fd = openat(at, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW);
    DIR *dir = fd >= 0 ? fdopendir(fd) : NULL;
    if (dir == NULL)
        fail(name);
    for (struct dirent *e; (e = readdir(dir)) != NULL;) {
        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0)
            continue;
        if (unlinkat(fd, e->d_name, 0) != 0)
            clear(fd, e->d_name, true);
    }
    closedir(dir);
    if (itself && unlinkat(at, name, AT_REMOVEDIR) != 0)
        fail(name);
}

/* A number for what lies in a folder: names, sizes, times. */
static uint64_t
state_of(int at, const char *name)
{
    uint64_t sum = 0;
    const int fd = openat(at, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW);
    DIR *dir = fd >= 0 ? fdopendir(fd) : NULL;
    if (dir == NULL)
        fail(name);
    for (struct dirent *e; (e = readdir(dir)) != NULL;) {
        struct stat s;
        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0 ||
            fstatat(fd, e->d_name, &s, AT_SYMLINK_NOFOLLOW) != 0)
            continue;
        uint64_t h = 1469598103934665603u;
        for (const char *c = e->d_name; *c != '\0'; c++)
            h = (h ^ (unsigned char)*c) * 1099511628211u;
        const bool is_folder = S_ISDIR(s.st_mode);
        h = (h ^ (is_folder ? 1 : (uint64_t)s.st_ino)) * 1099511628211u;
        h = (h ^ (is_folder ? 1 : (uint64_t)s.st_size)) * 1099511628211u;
        h = (h ^ (is_folder ? 1 : (uint64_t)s.st_mtim.tv_nsec)) *
            1099511628211u;
        sum += is_folder ? h + 31 * state_of(fd, e->d_name) : h;
    }
    closedir(dir);
    return sum;
}

static void
put(const char *name, const char *text, size_t size)
{
    const int fd = openat(there, name, O_WRONLY | O_CREAT | O_TRUNC, 0666);
    if (fd < 0 || write(fd, text, size) != (ssize_t)size || close(fd) != 0)
        fail(name);
}

/* A file of the catalogue; a tested recipe under another name, as one's own. */
static void
put_shipped(const char *from, const char *to)
{
    static char text[1 << 16];
    static const struct {
        const char *from, *to;
    } swaps[] = { { "id=\"chile-salsa\"", "id=\"green-salsa\"" },
                  { "status=\"tested\"", "status=\"own\"   " } };
    char path[600];
    snprintf(path, sizeof path, "%s/%s", getenv("POTTLE_DATA"), from);
    FILE *file = fopen(path, "rb");
    if (file == NULL)
        fail(path);
    size_t n = fread(text, 1, sizeof text - 1, file);
    fclose(file);
    text[n] = '\0';
    for (size_t i = 0; strchr(to, '/') != NULL && i < 2; i++) {
        char *at = strstr(text, swaps[i].from);
        if (at == NULL)
            fail(path);
        memcpy(at, swaps[i].to, strlen(swaps[i].to));
    }
    put(to, text, n);
}

static void
make_files(void)
{
    static const char kitchen[] =
        "<kitchen>\n<altitude value=\"900\" unit=\"m\"/>\n"
        "<cup kind=\"metric\"/>\n<scale error=\"0.5\" unit=\"percent\"/>\n"
        "<canner id=\"big\" method=\"dial-gauge\">"
        "<gauge reads=\"high\" by=\"1\" unit=\"psi\"/>"
        "<holds jar=\"quart\" count=\"7\"/></canner>\n"
        "<pot id=\"jam-pan\" title=\"jam pan\">"
        "<tare value=\"2.1\" unit=\"kg\"/></pot>\n"
        "<shelf jar=\"quart\" count=\"6\"/>\n"
        "<measured-jar id=\"honey\" title=\"honey jar\" count=\"6\">"
        "<empty value=\"310\" unit=\"g\"/><full value=\"812\" unit=\"g\"/>"
        "<mouth value=\"63\" unit=\"mm\"/></measured-jar>\n</kitchen>\n";
    static const char broken[] = "<recipe id=\"broken\"/>\n";
    static const char furlongs[] =
        "<kitchen><altitude value=\"900\" unit=\"furlong\"/></kitchen>\n";
    if (mkdirat(there, "home", 0777) != 0 || mkdirat(there, "own", 0777) != 0)
        fail(folder);
    put("kitchen.xml", kitchen, sizeof kitchen - 1);
    put("broken.xml", broken, sizeof broken - 1);
    put("furlongs.xml", furlongs, sizeof furlongs - 1);
    put("text.xml", "not XML\n", 8);
    put_shipped("salsa/chile-salsa.xml", "own/green-salsa.xml");
    put_shipped("salsa/chile-salsa.xml", "chile-salsa.xml");
    put_shipped("pickle/pickled-asparagus.xml", "pickled-asparagus.xml");
    put_shipped("jars.xml", "jars.xml");
    as_made = state_of(there, ".");
}

static void
remove_folder(void)
{
    clear(here, folder, true);
}

static void
make_folder(void)
{
    char path[512], whole[600];
    const char *srcdir = getenv("srcdir");
    if (here >= 0)
        return;
    fuzz_catalogue(); /* and with it what listens to libxml2 */
    if (realpath(srcdir != NULL ? srcdir : ".", path) == NULL)
        fail("srcdir");
    snprintf(whole, sizeof whole, "%s/recipes", path);
    setenv("POTTLE_DATA", whole, 1);
    snprintf(folder, sizeof folder, "command-%ld.tmp", (long)getpid());
    if (mkdir(folder, 0777) != 0 || realpath(folder, path) == NULL)
        fail(folder);
    snprintf(whole, sizeof whole, "%s/home", path);
    setenv("HOME", whole, 1);
    unsetenv("XDG_CONFIG_HOME");
    here = open(".", O_RDONLY | O_DIRECTORY);
    there = open(folder, O_RDONLY | O_DIRECTORY);
    FILE *input = tmpfile();
    if (here < 0 || there < 0 || input == NULL ||
        dup2(fileno(input), STDIN_FILENO) < 0)
        fail(folder);
    fclose(input);
    atexit(remove_folder);
    atexit(free_shelf);
    make_files();
}

bool
command_changed(void)
{
    if (state_of(there, ".") == as_made)
        return false;
    clear(there, ".", false);
    make_files();
    return true;
}

/* -- The command ----------------------------------------------------------- */

/* The next that would be given. */
static int
free_descriptor(void)
{
    const int fd = dup(STDIN_FILENO);
    close(fd);
    return fd;
}

void
command_run(const command_line *c, bool json, command_answer *out)
{
    static char name[] = "pottle", first[] = "--json";
    char *argv[COMMAND_WORDS + 3];
    int argc = 0;
    make_folder();
    argv[argc++] = name;
    if (json)
        argv[argc++] = first;
    for (int i = 1; i < c->words; i++)
        argv[argc++] = c->word[i];
    argv[argc] = NULL;
    if (ftruncate(STDIN_FILENO, 0) != 0 ||
        pwrite(STDIN_FILENO, c->input, c->input_size, 0) !=
            (ssize_t)c->input_size ||
        lseek(STDIN_FILENO, 0, SEEK_SET) != 0)
        fail("standard input");
    const int before = free_descriptor();
    FILE *const out_was = stdout, *const err_was = stderr;
    FILE *const to = open_memstream(&out->out, &out->out_size),
                *const bad = open_memstream(&out->err, &out->err_size);
    if (to == NULL || bad == NULL || fchdir(there) != 0)
        fail(folder);
    stdout = to;
    stderr = bad;
    json_begin();
    out->status = run_command(argc, argv);
    stdout = out_was;
    stderr = err_was;
    if (fclose(to) != 0 || fclose(bad) != 0 || fchdir(here) != 0)
        fail(folder);
    fuzz_expect(free_descriptor() == before, "a file is left open");
    fuzz_expect(out_on_loan == 0, "a catalogue is left open");
    out_on_loan = 0;
}

void
command_answer_free(command_answer *a)
{
    free(a->out);
    free(a->err);
}
