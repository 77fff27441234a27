// Of Android's own library: what kind of phone it is, and the window's flags and end.
#include "system.h"
#include <stdlib.h>
#include <string.h>

typedef struct {
  int density, night, sdk;
} AConfiguration;

static AConfiguration now = {160, 0, 29};
static int flags, finish;

void configured(int density, int night, int sdk) { now = (AConfiguration){density, night, sdk}; }
int window_flags(void) { return flags; }
int finish_asked(void) {
  int asked = finish;
  finish = 0;
  return asked;
}

AConfiguration *AConfiguration_new(void) { return calloc(1, sizeof(AConfiguration)); }
void AConfiguration_delete(AConfiguration *of) { free(of); }
void AConfiguration_copy(AConfiguration *to, AConfiguration *from) { *to = *from; }
void AConfiguration_fromAssetManager(AConfiguration *to, void *assets) {
  (void)assets;
  *to = now;
}
int32_t AConfiguration_getDensity(AConfiguration *of) { return of->density; }
int32_t AConfiguration_getSdkVersion(AConfiguration *of) { return of->sdk; }
int32_t AConfiguration_getUiModeNight(AConfiguration *of) { return of->night; }
void AConfiguration_getLanguage(AConfiguration *of, char *letters) {
  (void)of;
  memcpy(letters, "en", 2);
}
void AConfiguration_getCountry(AConfiguration *of, char *letters) {
  (void)of;
  memcpy(letters, "GB", 2);
}
#define UNKNOWN(name)                                \
  int32_t AConfiguration_get##name(AConfiguration *of) { \
    (void)of;                                        \
    return 0;                                        \
  }
UNKNOWN(Keyboard)
UNKNOWN(KeysHidden)
UNKNOWN(Mcc)
UNKNOWN(Mnc)
UNKNOWN(NavHidden)
UNKNOWN(Navigation)
UNKNOWN(Orientation)
UNKNOWN(ScreenLong)
UNKNOWN(ScreenSize)
UNKNOWN(Touchscreen)
UNKNOWN(UiModeType)

void *AAssetManager_fromJava(void *env, void *object) {
  (void)env, (void)object;
  return &now;
}

void ANativeActivity_finish(void *activity) {
  (void)activity;
  finish = 1;
}

void ANativeActivity_setWindowFlags(void *activity, uint32_t add, uint32_t remove) {
  (void)activity;
  flags = (flags | (int)add) & ~(int)remove;
}
