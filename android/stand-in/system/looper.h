// What the stand-in's other parts take of loopers.
#pragma once

typedef int (*Call)(int fd, int events, void *data);
typedef struct ALooper ALooper;

int ALooper_addFd(ALooper *, int fd, int ident, int events, Call, void *data);
int ALooper_removeFd(ALooper *, int fd);
