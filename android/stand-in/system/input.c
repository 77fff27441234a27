// Of Android's own library: a queue of touches and keys.
#include "looper.h"
#include "system.h"
#include <pthread.h>
#include <stdlib.h>
#include <sys/eventfd.h>
#include <unistd.h>

enum { KEY = 1, MOTION = 2, TOUCHSCREEN = 0x1002, MOUSE = 0x2002, KEYBOARD = 0x101 };
enum { AXIS_X = 0, AXIS_Y = 1, AXIS_VSCROLL = 9 };

typedef struct Event {
  struct Event *later;
  int type, action, key, fingers;
  float x[2], y[2], turned;
} Event;
struct Queue {
  pthread_mutex_t lock;
  int ready, unended, taken;
  Event *first, *last;
  ALooper *looper;
};

Queue *queue_made(void) {
  Queue *queue = calloc(1, sizeof *queue);
  pthread_mutex_init(&queue->lock, NULL);
  queue->ready = eventfd(0, EFD_NONBLOCK | EFD_SEMAPHORE | EFD_CLOEXEC);
  return queue;
}

static void put(Queue *queue, Event given) {
  Event *event = malloc(sizeof *event);
  *event = given;
  pthread_mutex_lock(&queue->lock);
  if (queue->last) queue->last->later = event;
  else queue->first = event;
  queue->last = event;
  queue->unended++;
  pthread_mutex_unlock(&queue->lock);
  uint64_t one = 1;
  if (write(queue->ready, &one, sizeof one) < 0) abort();
}

void queue_touched(Queue *queue, int action, float x, float y, float turned) {
  put(queue, (Event){.type = MOTION, .action = action, .fingers = 1, .x = {x}, .y = {y}, .turned = turned});
}

void queue_second_finger(Queue *queue, int action, float x, float y, float second_x, float second_y) {
  put(queue, (Event){.type = MOTION, .action = action, .fingers = 2, .x = {x, second_x}, .y = {y, second_y}});
}

void queue_pressed(Queue *queue, int action, int key) {
  put(queue, (Event){.type = KEY, .action = action, .key = key});
}

int queue_empty(Queue *queue, int *taken) {
  pthread_mutex_lock(&queue->lock);
  int empty = !queue->unended;
  *taken = queue->taken;
  pthread_mutex_unlock(&queue->lock);
  return empty;
}

void AInputQueue_attachLooper(Queue *queue, ALooper *looper, int ident, Call call, void *data) {
  if (queue->looper) ALooper_removeFd(queue->looper, queue->ready);
  queue->looper = looper;
  ALooper_addFd(looper, queue->ready, ident, 1, call, data);
}

void AInputQueue_detachLooper(Queue *queue) {
  if (queue->looper) ALooper_removeFd(queue->looper, queue->ready);
  queue->looper = NULL;
}

int32_t AInputQueue_getEvent(Queue *queue, Event **event) {
  uint64_t one;
  if (read(queue->ready, &one, sizeof one) < 0) return -11;
  pthread_mutex_lock(&queue->lock);
  *event = queue->first;
  queue->first = queue->first->later;
  if (!queue->first) queue->last = NULL;
  pthread_mutex_unlock(&queue->lock);
  return 0;
}

int32_t AInputQueue_preDispatchEvent(Queue *queue, Event *event) {
  (void)queue, (void)event;
  return 0;
}

void AInputQueue_finishEvent(Queue *queue, Event *event, int handled) {
  pthread_mutex_lock(&queue->lock);
  queue->unended--;
  // Who takes a key that goes down has it.
  if (event->type == KEY && event->action == 0) queue->taken = handled;
  pthread_mutex_unlock(&queue->lock);
  free(event);
}

int32_t AInputEvent_getType(const Event *event) { return event->type; }
int32_t AInputEvent_getDeviceId(const Event *event) {
  (void)event;
  return 1;
}
int32_t AInputEvent_getSource(const Event *event) {
  return event->type == KEY ? KEYBOARD : event->turned != 0 ? MOUSE : TOUCHSCREEN;
}
int32_t AKeyEvent_getAction(const Event *event) { return event->action; }
int32_t AKeyEvent_getKeyCode(const Event *event) { return event->key; }
int32_t AKeyEvent_getMetaState(const Event *event) {
  (void)event;
  return 0;
}
int32_t AKeyEvent_getRepeatCount(const Event *event) {
  (void)event;
  return 0;
}
int32_t AMotionEvent_getAction(const Event *event) { return event->action; }
int32_t AMotionEvent_getButtonState(const Event *event) {
  (void)event;
  return 0;
}
size_t AMotionEvent_getPointerCount(const Event *event) { return event->fingers; }
int32_t AMotionEvent_getPointerId(const Event *event, size_t finger) {
  (void)event;
  return (int32_t)finger;
}
float AMotionEvent_getX(const Event *event, size_t finger) { return event->x[finger]; }
float AMotionEvent_getY(const Event *event, size_t finger) { return event->y[finger]; }
float AMotionEvent_getAxisValue(const Event *event, int32_t axis, size_t finger) {
  switch (axis) {
    case AXIS_X:
      return event->x[finger];
    case AXIS_Y:
      return event->y[finger];
    case AXIS_VSCROLL:
      return event->turned;
    default:
      return 0;
  }
}
