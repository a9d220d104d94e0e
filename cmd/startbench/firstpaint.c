/* Starts a program and prints how many milliseconds pass until the screen,
 * which must be black before, shows COLOURS colours: that a window is there and
 * painted; and the milliseconds of the processor that the program took for it.
 * Then it ends the program.
 *
 *   firstpaint COLOURS PROGRAM [ARGUMENT]...                                 */
#include <X11/Xlib.h>
#include <X11/Xutil.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec * 1e3 + t.tv_nsec / 1e6;
}

/* colours counts the colours on the screen, as far as most. */
static int colours(Display *d, int most) {
  Window root = DefaultRootWindow(d);
  XWindowAttributes size;
  XGetWindowAttributes(d, root, &size);
  XImage *screen = XGetImage(d, root, 0, 0, size.width, size.height, AllPlanes, ZPixmap);
  unsigned found[256];
  int n = 0;
  for (int y = 0; y < size.height && n < most; y++) {
    unsigned *row = (unsigned *)(screen->data + y * screen->bytes_per_line);
    for (int x = 0; x < size.width && n < most; x++) {
      unsigned c = row[x] & 0xffffff;
      int i = 0;
      while (i < n && found[i] != c) i++;
      if (i == n) found[n++] = c;
    }
  }
  XDestroyImage(screen);
  return n;
}

/* processor is the time that a living process has taken, in milliseconds. */
static double processor(pid_t id) {
  char name[64], line[1024] = "";
  unsigned long user = 0, system = 0;
  snprintf(name, sizeof name, "/proc/%d/stat", id);
  FILE *f = fopen(name, "r");
  if (f && fgets(line, sizeof line, f) && strrchr(line, ')'))
    sscanf(strrchr(line, ')'), ") %*c %*d %*d %*d %*d %*d %*u %*u %*u %*u %*u %lu %lu", &user, &system);
  if (f) fclose(f);
  return (user + system) * 1e3 / sysconf(_SC_CLK_TCK);
}

int main(int argc, char **argv) {
  Display *d = XOpenDisplay(NULL);
  int want = argc > 2 ? atoi(argv[1]) : 0;
  if (!d || want < 2 || want > 256) return 2;
  for (int i = 0; colours(d, 2) > 1; i++) { /* the last program's window may still go */
    if (i > 500) return 3;
    usleep(10000);
  }
  double from = now();
  pid_t child = fork();
  if (child == 0) {
    execvp(argv[2], argv + 2);
    _exit(127);
  }
  int result = 0;
  while (colours(d, want) < want) {
    if (now() - from > 30000 || waitpid(child, NULL, WNOHANG) == child) {
      result = 4;
      break;
    }
    usleep(1000);
  }
  if (!result) printf("%.0f %.0f\n", now() - from, processor(child));
  kill(child, SIGTERM);
  waitpid(child, NULL, 0);
  return result;
}
