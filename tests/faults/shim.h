/* shim.h - a library that is put before a command (LD_PRELOAD) and makes it
 * meet faults. POTTLE_FAULT says which:
 *
 * count        none: the allocations are counted
 * allocations  each allocation that the command makes fails once (forks.c)
 * reading      each call by which it reads a file fails once (forks.c)
 * disk         the n-th call by which it writes a file fails (disk.c)
 * kill         it is killed in the n-th call by which it writes a file, and
 *              behind each byte (disk.c)
 *
 * What is wrong goes into the file POTTLE_FAULT_LOG, a line each; the last line
 * says how many faults were tried. */
#ifndef POTTLE_TESTS_SHIM_H
#define POTTLE_TESTS_SHIM_H

#include <stdbool.h>
#include <sys/types.h>

typedef enum shim_mode {
    SHIM_OFF,
    SHIM_COUNT,
    SHIM_ALLOCATIONS,
    SHIM_READING,
    SHIM_DISK,
    SHIM_KILL
} shim_mode;

/* SHIM_OFF until main of the command begins. */
extern shim_mode shim_mode_now;
/* Faults that were tried. */
extern long shim_tried;
/* This process has met its fault. */
extern bool shim_in_child;

typedef int shim_main(int argc, char **argv, char **environment);

/* A line of the log. */
void shim_say(const char *format, ...) __attribute__((format(printf, 1, 2)));
/* The value of a variable; without it the program ends. */
const char *shim_setting(const char *name);
/* How a child ended, "exit status 1" or "signal 11". */
const char *shim_end(int status, char text[40]);

/* The calls of the system, whatever stands before them. */
int shim_open(const char *path, int flags, mode_t mode);
ssize_t shim_read(int fd, void *buf, size_t n);
ssize_t shim_write(int fd, const void *buf, size_t n);

/* forks.c: reading of a file is to fail with *error, or gives out at most
 * *most bytes. */
bool shim_reading(const char *call, int *error, size_t *most);
/* disk.c */
int shim_disk_run(shim_main *command, bool killing, int argc, char **argv,
                  char **env);
/* A call that changes the disk: the error it is to fail with, or 0. A write
 * gives its bytes, and *n becomes how many of them are to be written. */
int shim_changing(const char *call, int fd, const void *bytes, size_t *n);

#endif
