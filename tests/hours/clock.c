/* Loaded into a program, adds to the time of day what /etc/clock-offset says, in
   seconds. How time passes (the monotonic clock) is left alone; who waits until a time of
   day waits until the real one. tests/hours/run loads it into all that it runs. */

#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <pthread.h>
#include <semaphore.h>
#include <stdlib.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

/* The C library's own, whose name and type are those of ours. */
#define THEIRS(name) static typeof(name) *theirs; if (!theirs) theirs = dlsym(RTLD_NEXT, #name)

static time_t offset;

__attribute__((constructor)) static void read_offset(void) {
    char digits[32] = {0};
    int file = open("/etc/clock-offset", O_RDONLY | O_CLOEXEC);
    if (file < 0) return;
    if (read(file, digits, sizeof digits - 1) > 0) offset = atol(digits);
    close(file);
}

static int is_time_of_day(clockid_t clock) {
    return clock == CLOCK_REALTIME || clock == CLOCK_REALTIME_COARSE;
}

static struct timespec real(const struct timespec *until) {
    return (struct timespec){until->tv_sec - offset, until->tv_nsec};
}

int clock_gettime(clockid_t clock, struct timespec *at) {
    THEIRS(clock_gettime);
    int failed = theirs(clock, at);
    if (!failed && is_time_of_day(clock)) at->tv_sec += offset;
    return failed;
}

int gettimeofday(struct timeval *at, void *zone) {
    struct timespec now;
    (void)zone;
    int failed = clock_gettime(CLOCK_REALTIME, &now);
    if (!failed) *at = (struct timeval){now.tv_sec, now.tv_nsec / 1000};
    return failed;
}

time_t time(time_t *into) {
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    if (into) *into = now.tv_sec;
    return now.tv_sec;
}

int clock_nanosleep(clockid_t clock, int flags, const struct timespec *until, struct timespec *left) {
    THEIRS(clock_nanosleep);
    struct timespec then = real(until);
    int is_until = flags & TIMER_ABSTIME && is_time_of_day(clock);
    return theirs(clock, flags, is_until ? &then : until, left);
}

int sem_timedwait(sem_t *semaphore, const struct timespec *until) {
    struct timespec then = real(until);
    return sem_clockwait(semaphore, CLOCK_REALTIME, &then);
}

/* A condition is made for either clock, and no machine has run for fifteen years. */
int pthread_cond_timedwait(pthread_cond_t *condition, pthread_mutex_t *mutex, const struct timespec *until) {
    if (until->tv_sec < 500000000)
        return pthread_cond_clockwait(condition, mutex, CLOCK_MONOTONIC, until);
    struct timespec then = real(until);
    return pthread_cond_clockwait(condition, mutex, CLOCK_REALTIME, &then);
}
