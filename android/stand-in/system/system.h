// What the stand-in for the system and its driver say to each other.
#pragma once
#include <stddef.h>
#include <stdint.h>

typedef struct Window Window;
typedef struct Queue Queue;

Window *window_made(int width, int height);
void window_resized(Window *, int width, int height);
int window_posted(Window *);
/// Copies what is on the screen: four bytes a pixel, red first. Its size is in `width` and `height`.
const uint8_t *window_shown(Window *, int *width, int *height);

Queue *queue_made(void);
void queue_touched(Queue *, int action, float x, float y, float turned);
void queue_second_finger(Queue *, int action, float x, float y, float second_x, float second_y);
void queue_pressed(Queue *, int action, int key);
/// Whether everything has been taken and ended; the app took the last key that went down where `taken` is 1.
int queue_empty(Queue *, int *taken);

void configured(int density, int night, int sdk);
/// Lets what waits for the main thread have its turn.
void main_turn(void);
int window_flags(void);
/// Whether the app has asked to be ended.
int finish_asked(void);
