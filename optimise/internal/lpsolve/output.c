//go:build !windows

#include <errno.h>
#include <fcntl.h>
#include <unistd.h>

/* Go's runtime opens the null device where standard output was closed by whoever
   started the program, and an answer written there would seem to have arrived. Opened
   before that, for reading alone, it refuses what is written as closed output does. This
   has nothing to do with the library; it stands here because only C comes before Go,
   and no other package has C. */
__attribute__((constructor)) static void keep_output_closed(void) {
  if (fcntl(STDOUT_FILENO, F_GETFD) != -1 || errno != EBADF) {
    return;
  }
  int fd = open("/dev/null", O_RDONLY);
  if (fd >= 0 && fd != STDOUT_FILENO) {
    dup2(fd, STDOUT_FILENO);
    close(fd);
  }
}
