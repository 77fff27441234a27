// Android's own half of the native window: what its Java calls to start the app's library and to tell it
// of its life. android/stand-in/java/android/app/NativeActivity.java is the other half.
#define _GNU_SOURCE
#include "system.h"
#include <dlfcn.h>
#include <jni.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct ANativeActivity ANativeActivity;
typedef void (*Told)(ANativeActivity *);
typedef void (*ToldOf)(ANativeActivity *, void *);
typedef struct {
  Told started, resumed;
  void *(*saved)(ANativeActivity *, size_t *);
  Told paused, stopped, destroyed;
  void (*focused)(ANativeActivity *, int);
  ToldOf window_made, window_resized, window_redrawn, window_gone, queue_made, queue_gone, content;
  Told configured, low;
} Calls;
struct ANativeActivity {
  Calls *calls;
  JavaVM *vm;
  JNIEnv *env;
  jobject object;
  const char *internal, *external;
  int32_t sdk;
  void *instance, *assets;
  const char *obb;
};
typedef struct {
  ANativeActivity activity;
  Calls calls;
  Window *window;
  Queue *queue;
} Life;

// Of the order in NativeActivity.java.
enum {
  STARTED, RESUMED, SAVED, PAUSED, STOPPED, DESTROYED, FOCUSED, UNFOCUSED, WINDOW_MADE, WINDOW_RESIZED,
  WINDOW_REDRAWN, WINDOW_GONE, QUEUE_MADE, QUEUE_GONE, CONFIGURED, LOW
};

#define NATIVE(kind, name) JNIEXPORT kind JNICALL Java_android_app_NativeActivity_##name

NATIVE(void, prepare)(JNIEnv *env, jclass of) {
  (void)env, (void)of;
  void *ALooper_prepare(int);
  ALooper_prepare(0);
}

NATIVE(jlong, begin)(JNIEnv *env, jclass of, jstring path, jobject object, jstring folder, jint sdk) {
  (void)of;
  Life *life = calloc(1, sizeof *life);
  ANativeActivity *activity = &life->activity;
  (*env)->GetJavaVM(env, &activity->vm);
  activity->calls = &life->calls;
  activity->env = env;
  activity->object = (*env)->NewGlobalRef(env, object);
  activity->internal = strdup((*env)->GetStringUTFChars(env, folder, NULL));
  activity->external = "";
  activity->sdk = sdk;
  void *library = dlopen((*env)->GetStringUTFChars(env, path, NULL), RTLD_NOW | RTLD_LOCAL);
  void (*made)(ANativeActivity *, void *, size_t) = library ? dlsym(library, "ANativeActivity_onCreate") : NULL;
  if (!made) {
    fprintf(stderr, "%s\n", dlerror());
    exit(3);
  }
  made(activity, NULL, 0);
  return (jlong)life;
}

NATIVE(void, tell)(JNIEnv *env, jclass of, jlong handle, jint what) {
  (void)env, (void)of;
  Life *life = (Life *)handle;
  ANativeActivity *activity = &life->activity;
  Calls *calls = &life->calls;
  size_t length;
  switch (what) {
    case STARTED: calls->started(activity); break;
    case RESUMED: calls->resumed(activity); break;
    case SAVED: free(calls->saved(activity, &length)); break;
    case PAUSED: calls->paused(activity); break;
    case STOPPED: calls->stopped(activity); break;
    case DESTROYED: calls->destroyed(activity); break;
    case FOCUSED: calls->focused(activity, 1); break;
    case UNFOCUSED: calls->focused(activity, 0); break;
    case WINDOW_MADE: calls->window_made(activity, life->window); break;
    case WINDOW_RESIZED: calls->window_resized(activity, life->window); break;
    case WINDOW_REDRAWN: calls->window_redrawn(activity, life->window); break;
    case WINDOW_GONE: calls->window_gone(activity, life->window); break;
    case QUEUE_MADE: calls->queue_made(activity, life->queue = queue_made()); break;
    case QUEUE_GONE: calls->queue_gone(activity, life->queue); break;
    case CONFIGURED: calls->configured(activity); break;
    case LOW: calls->low(activity); break;
  }
}

NATIVE(void, size)(JNIEnv *env, jclass of, jlong handle, jint width, jint height) {
  (void)env, (void)of;
  Life *life = (Life *)handle;
  if (life->window) window_resized(life->window, width, height);
  else life->window = window_made(width, height);
}

NATIVE(void, forget)(JNIEnv *env, jclass of, jlong handle) {
  (void)env, (void)of;
  ((Life *)handle)->window = NULL;
}

NATIVE(jint, posted)(JNIEnv *env, jclass of, jlong handle) {
  (void)env, (void)of;
  Life *life = (Life *)handle;
  return life->window ? window_posted(life->window) : 0;
}

// Width, height, then a pixel each: red, green and blue from the highest byte but one.
NATIVE(jintArray, shown)(JNIEnv *env, jclass of, jlong handle) {
  (void)of;
  int width, height;
  Life *life = (Life *)handle;
  const uint8_t *from = life && life->window ? window_shown(life->window, &width, &height) : NULL;
  if (!from) return NULL;
  int n = width * height;
  jint *pixels = malloc((n + 2) * sizeof *pixels);
  pixels[0] = width;
  pixels[1] = height;
  for (int i = 0; i < n; i++) pixels[i + 2] = from[4 * i] << 16 | from[4 * i + 1] << 8 | from[4 * i + 2];
  jintArray all = (*env)->NewIntArray(env, n + 2);
  (*env)->SetIntArrayRegion(env, all, 0, n + 2, pixels);
  free(pixels);
  free((void *)from);
  return all;
}

NATIVE(void, touch)(JNIEnv *env, jclass of, jlong handle, jint action, jfloat x, jfloat y, jfloat turned) {
  (void)env, (void)of;
  queue_touched(((Life *)handle)->queue, action, x, y, turned);
}

NATIVE(void, touchTwo)
(JNIEnv *env, jclass of, jlong handle, jint action, jfloat x, jfloat y, jfloat second_x, jfloat second_y) {
  (void)env, (void)of;
  queue_second_finger(((Life *)handle)->queue, action, x, y, second_x, second_y);
}

NATIVE(void, key)(JNIEnv *env, jclass of, jlong handle, jint action, jint key) {
  (void)env, (void)of;
  queue_pressed(((Life *)handle)->queue, action, key);
}

// -1 while something waits to be taken, else whether the app took the last key.
NATIVE(jint, taken)(JNIEnv *env, jclass of, jlong handle) {
  (void)env, (void)of;
  int taken;
  return queue_empty(((Life *)handle)->queue, &taken) ? taken : -1;
}

NATIVE(void, configure)(JNIEnv *env, jclass of, jint density, jint night, jint sdk) {
  (void)env, (void)of;
  configured(density, night, sdk);
}

NATIVE(void, loop)(JNIEnv *env, jclass of) {
  (void)env, (void)of;
  main_turn();
}

NATIVE(jint, flags)(JNIEnv *env, jclass of) {
  (void)env, (void)of;
  return window_flags();
}

NATIVE(jboolean, finishAsked)(JNIEnv *env, jclass of) {
  (void)env, (void)of;
  return finish_asked() != 0;
}
