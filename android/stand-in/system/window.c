// Of Android's own library: a window of two buffers, what is on the screen and what is drawn next.
#include "system.h"
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

typedef struct {
  int32_t left, top, right, bottom;
} ARect;
typedef struct {
  int32_t width, height, stride, format;
  void *bits;
  uint32_t reserved[6];
} Buffer;
struct Window {
  pthread_mutex_t lock;
  int width, height;
  int shown_width, shown_height;
  int next_width, next_height, stride;
  uint32_t *shown, *next;
  int posted;
};

enum { RGBX_8888 = 2 };

static uint32_t *pixels(int width, int height) { return calloc((size_t)width * height, sizeof(uint32_t)); }

Window *window_made(int width, int height) {
  Window *window = calloc(1, sizeof *window);
  pthread_mutex_init(&window->lock, NULL);
  window->width = width;
  window->height = height;
  return window;
}

void window_resized(Window *window, int width, int height) {
  pthread_mutex_lock(&window->lock);
  window->width = width;
  window->height = height;
  pthread_mutex_unlock(&window->lock);
}

int window_posted(Window *window) {
  pthread_mutex_lock(&window->lock);
  int posted = window->posted;
  pthread_mutex_unlock(&window->lock);
  return posted;
}

const uint8_t *window_shown(Window *window, int *width, int *height) {
  pthread_mutex_lock(&window->lock);
  *width = window->shown_width;
  *height = window->shown_height;
  uint32_t *copy = NULL;
  if (window->shown) {
    copy = pixels(*width, *height);
    memcpy(copy, window->shown, (size_t)*width * *height * sizeof *copy);
  }
  pthread_mutex_unlock(&window->lock);
  return (const uint8_t *)copy;
}

void ANativeWindow_acquire(Window *window) { (void)window; }
void ANativeWindow_release(Window *window) { (void)window; }
int32_t ANativeWindow_getWidth(Window *window) { return window->width; }
int32_t ANativeWindow_getHeight(Window *window) { return window->height; }
int32_t ANativeWindow_setBuffersGeometry(Window *window, int32_t width, int32_t height, int32_t format) {
  (void)window;
  return width == 0 && height == 0 && format == RGBX_8888 ? 0 : -22;
}

// As the system does it: what lies outside the part that is to be drawn is filled from the last buffer
// where that is as large, and else all is to be drawn. What lies inside may hold anything. Rows are
// longer than the window is wide.
int32_t ANativeWindow_lock(Window *window, Buffer *buffer, ARect *part) {
  pthread_mutex_lock(&window->lock);
  int width = window->width, height = window->height;
  window->next_width = width;
  window->next_height = height;
  window->stride = (width + 15) / 16 * 16;
  free(window->next);
  window->next = pixels(window->stride, height);
  int kept = window->shown && window->shown_width == width && window->shown_height == height;
  if (part && !kept) *part = (ARect){0, 0, width, height};
  for (int y = 0; y < height; y++) {
    uint32_t *row = window->next + (size_t)y * window->stride;
    if (kept) memcpy(row, window->shown + (size_t)y * width, width * sizeof *row);
    for (int x = 0; x < width; x++) {
      int inside = !part || (x >= part->left && x < part->right && y >= part->top && y < part->bottom);
      if (inside) row[x] = 0xffff00ff;
    }
  }
  *buffer = (Buffer){width, height, window->stride, RGBX_8888, window->next, {0}};
  pthread_mutex_unlock(&window->lock);
  return 0;
}

int32_t ANativeWindow_unlockAndPost(Window *window) {
  pthread_mutex_lock(&window->lock);
  int width = window->next_width, height = window->next_height;
  free(window->shown);
  window->shown = pixels(width, height);
  for (int y = 0; y < height; y++) {
    memcpy(window->shown + (size_t)y * width, window->next + (size_t)y * window->stride, width * 4);
  }
  window->shown_width = width;
  window->shown_height = height;
  window->posted++;
  pthread_mutex_unlock(&window->lock);
  return 0;
}
