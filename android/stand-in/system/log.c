// Android's log, on standard error as it was when the program started: the app puts its own there too.
#include <stdio.h>
#include <unistd.h>

static int out;

__attribute__((constructor)) static void open_log(void) { out = dup(2); }

int __android_log_write(int priority, const char *tag, const char *text) {
  return dprintf(out, "%d %s: %s\n", priority, tag, text);
}
