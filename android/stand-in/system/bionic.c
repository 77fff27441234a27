// Android's C library on a desktop: each name of it that the app takes, led to the desktop's own of the
// same name. Both have one layout for what is passed; what differs is below. Built once for each of the
// three libraries, with NAMES naming a list of LED(name) or OWN(name).
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

// The desktop's own, where a name of its own here stands in front.
void *desktop_open(const char *, int);
void *desktop_find(void *, const char *);
__asm__(".symver desktop_open,dlopen@GLIBC_2.2.5\n.symver desktop_find,dlsym@GLIBC_2.2.5\n");

// A jump to where the desktop's own is, which changes neither what was passed nor who called.
#define LED(name)                                                                          \
  void *at_##name __attribute__((visibility("hidden")));                                   \
  __asm__(".text\n.globl led_" #name "\n.type led_" #name ",@function\nled_" #name ":\n"   \
          "  jmp *at_" #name "(%rip)\n.symver led_" #name "," #name "@@LIBC\n");
#define OWN(name) __asm__(".symver own_" #name "," #name "@@LIBC\n");
#include NAMES
#undef LED
#undef OWN

__attribute__((constructor)) static void find(void) {
  void *found;
#define LED(name)                                                                          \
  if (!(found = desktop_find(desktop_open(DESKTOP, RTLD_NOW), #name))) {                                \
    fprintf(stderr, "the desktop has no " #name "\n");                                     \
    exit(2);                                                                               \
  }                                                                                        \
  at_##name = found;
#define OWN(name)
#include NAMES
}

#ifdef C_LIBRARY
int *own___errno(void) { return __errno_location(); }

int own___system_property_get(const char *name, char *value) {
  (void)name;
  *value = 0;
  return 0;
}

int __xpg_strerror_r(int, char *, size_t);
int own_strerror_r(int error, char *words, size_t room) { return __xpg_strerror_r(error, words, room); }

// The questions have other numbers there.
long own_sysconf(int question) {
  long (*desktop_sysconf)(int) = desktop_find(desktop_open(DESKTOP, RTLD_NOW), "sysconf");
  switch (question) {
    case 39:
    case 40:
      return desktop_sysconf(_SC_PAGESIZE);
    case 96:
      return desktop_sysconf(_SC_NPROCESSORS_CONF);
    case 97:
      return desktop_sysconf(_SC_NPROCESSORS_ONLN);
    default:
      errno = EINVAL;
      return -1;
  }
}
#endif
