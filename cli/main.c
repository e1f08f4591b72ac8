/* main.c - the standard streams, before and after the command. */
#include "cli.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

/* A result that could not be written is no result: a full disk or a closed pipe
 * must not look like success. */
static int
close_stdout(int status)
{
    const bool failed = fflush(stdout) != 0 || ferror(stdout) != 0;
    if (fclose(stdout) != 0 || failed) {
        fprintf(stderr, "pottle: cannot write the result: %s\n",
                strerror(errno));
        return FAILED;
    }
    return status;
}

/* Were one of the three closed, the next file to be opened would take its
 * number, and what is printed would go into that file. What holds the place
 * instead fails as a closed one does. */
static void
hold_standard_streams(void)
{
    for (int fd = 0; fd <= 2; fd++)
        if (fcntl(fd, F_GETFD) == -1)
            (void)!open("/dev/null", fd == 0 ? O_WRONLY : O_RDONLY);
}

int
main(int argc, char **argv)
{
    hold_standard_streams();
    json_begin();
    return close_stdout(run_command(argc, argv));
}
