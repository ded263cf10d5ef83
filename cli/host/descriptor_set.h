/* Descriptors to wait for. The system's macros know small ones only, and reckon with whatever type
 * they are handed: musl's warn of a sign. */
#ifndef TT_HOST_DESCRIPTOR_SET_H
#define TT_HOST_DESCRIPTOR_SET_H

#include <assert.h>
#include <stdbool.h>
#include <sys/select.h>

static inline bool can_wait_for(int descriptor)
{
    return descriptor >= 0 && descriptor < FD_SETSIZE;
}

static inline void set_add(fd_set *set, int descriptor)
{
    assert(can_wait_for(descriptor));
    FD_SET((unsigned)descriptor, set);
}

static inline bool set_has(const fd_set *set, int descriptor)
{
    assert(can_wait_for(descriptor));
    return FD_ISSET((unsigned)descriptor, set);
}

#endif
