// Of Android's own library: loopers over epoll, and a clock for frames.
#define _GNU_SOURCE
#include "looper.h"
#include "system.h"
#include <stdlib.h>
#include <sys/epoll.h>
#include <sys/eventfd.h>
#include <sys/timerfd.h>
#include <unistd.h>

typedef struct {
  int fd, ident;
  Call call;
  void *data;
} Watched;
struct ALooper {
  int poll, wake;
  Watched watched[16];
};

enum { WOKEN = 99, POLL_WAKE = -1, POLL_CALLBACK = -2, POLL_TIMEOUT = -3, POLL_ERROR = -4 };

static __thread ALooper *own;

ALooper *ALooper_forThread(void) { return own; }

ALooper *ALooper_prepare(int options) {
  (void)options;
  if (!own) {
    own = calloc(1, sizeof *own);
    own->poll = epoll_create1(EPOLL_CLOEXEC);
    own->wake = eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC);
    for (int i = 0; i < 16; i++) own->watched[i].fd = -1;
    struct epoll_event event = {EPOLLIN, {.u32 = WOKEN}};
    epoll_ctl(own->poll, EPOLL_CTL_ADD, own->wake, &event);
  }
  return own;
}

void ALooper_acquire(ALooper *looper) { (void)looper; }
void ALooper_release(ALooper *looper) { (void)looper; }

void ALooper_wake(ALooper *looper) {
  uint64_t one = 1;
  if (write(looper->wake, &one, sizeof one) < 0) return;
}

int ALooper_addFd(ALooper *looper, int fd, int ident, int events, Call call, void *data) {
  (void)events;
  for (int i = 0; i < 16; i++) {
    if (looper->watched[i].fd != -1) continue;
    looper->watched[i] = (Watched){fd, ident, call, data};
    struct epoll_event event = {EPOLLIN, {.u32 = i}};
    return epoll_ctl(looper->poll, EPOLL_CTL_ADD, fd, &event) ? -1 : 1;
  }
  return -1;
}

int ALooper_removeFd(ALooper *looper, int fd) {
  for (int i = 0; i < 16; i++) {
    if (looper->watched[i].fd != fd) continue;
    looper->watched[i].fd = -1;
    return epoll_ctl(looper->poll, EPOLL_CTL_DEL, fd, NULL) ? -1 : 1;
  }
  return 0;
}

int ALooper_pollOnce(int milliseconds, int *fd, int *events, void **data) {
  struct epoll_event event;
  int n = epoll_wait(own->poll, &event, 1, milliseconds);
  if (n < 0) return POLL_WAKE;
  if (n == 0) return POLL_TIMEOUT;
  if (event.data.u32 == WOKEN) {
    uint64_t times;
    if (read(own->wake, &times, sizeof times) < 0) return POLL_ERROR;
    return POLL_WAKE;
  }
  Watched *watched = &own->watched[event.data.u32];
  if (watched->call) {
    if (!watched->call(watched->fd, 1, watched->data)) ALooper_removeFd(own, watched->fd);
    return POLL_CALLBACK;
  }
  if (fd) *fd = watched->fd;
  if (events) *events = 1;
  if (data) *data = watched->data;
  return watched->ident;
}

void main_turn(void) {
  while (ALooper_pollOnce(0, NULL, NULL, NULL) > POLL_TIMEOUT) {
  }
}

// Frames: the next one comes 16 ms after it was asked for.

typedef void (*Frame)(long nanoseconds, void *data);
typedef struct AChoreographer {
  int timer;
  Frame frame;
  void *data;
} AChoreographer;

static __thread AChoreographer *beat;

static int due(int fd, int events, void *data) {
  (void)events;
  AChoreographer *choreographer = data;
  uint64_t times;
  if (read(fd, &times, sizeof times) > 0) choreographer->frame(0, choreographer->data);
  return 1;
}

AChoreographer *AChoreographer_getInstance(void) {
  if (!own) return NULL;
  if (!beat) {
    beat = calloc(1, sizeof *beat);
    beat->timer = timerfd_create(CLOCK_MONOTONIC, TFD_CLOEXEC);
    ALooper_addFd(own, beat->timer, POLL_CALLBACK, 1, due, beat);
  }
  return beat;
}

void AChoreographer_postFrameCallback(AChoreographer *choreographer, Frame frame, void *data) {
  choreographer->frame = frame;
  choreographer->data = data;
  struct itimerspec once = {.it_value = {.tv_nsec = 16000000}};
  timerfd_settime(choreographer->timer, 0, &once, NULL);
}
