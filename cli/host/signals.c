/* Noting, holding back and passing on INT, TERM and HUP. */
#include "host/signals.h"

#include <pthread.h>
#include <stddef.h>

static const int ending[] = {SIGINT, SIGTERM, SIGHUP};
enum { ENDING = sizeof ending / sizeof ending[0] };

static volatile sig_atomic_t noted;

static void note(int number)
{
    noted = number;
}

void signals_note(void)
{
    struct sigaction now, ours = {.sa_handler = note, .sa_flags = (int)SA_RESETHAND};
    sigemptyset(&ours.sa_mask);
    for (unsigned i = 0; noted == 0 && i < ENDING; i++)
        if (sigaction(ending[i], NULL, &now) == 0 && now.sa_handler != SIG_IGN)
            sigaction(ending[i], &ours, NULL);
}

int signals_noted(void)
{
    return noted;
}

void signals_pass_on(void)
{
    int number = noted;
    if (number == 0) return;
    signal(number, SIG_DFL);
    raise(number);
}

void signals_hold(sigset_t *before)
{
    sigset_t held;
    sigemptyset(&held);
    for (unsigned i = 0; i < ENDING; i++) sigaddset(&held, ending[i]);
    pthread_sigmask(SIG_BLOCK, &held, before);
}

void signals_let_go(const sigset_t *before)
{
    pthread_sigmask(SIG_SETMASK, before, NULL);
}
