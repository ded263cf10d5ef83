/* Noting, holding back and passing on INT, TERM and HUP. */
#include "host/signals.h"

#include <pthread.h>
#include <stddef.h>
#include <unistd.h>

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

static const int own_fault[] = {SIGABRT, SIGSEGV, SIGBUS, SIGFPE, SIGILL};
enum { OWN_FAULTS = sizeof own_fault / sizeof own_fault[0] };

/* The handler is gone by now, and the signal comes again when this returns. */
static void tell_own_fault(int number)
{
    static const char text[] =
        "\ntelltale: this is a fault of the program itself, not yours. What was said in a case is "
        "kept, "
        "unless it was --unsaved.\n"
        "Please tell " TELLTALE_BUG_ADDRESS
        ": what you typed, the lines above, and telltale --version (" TELLTALE_VERSION ").\n";
    const ssize_t written = write(STDERR_FILENO, text, sizeof text - 1);
    (void)written; /* nobody may be there to read it */
    raise(number);
}

void signals_own_faults(void)
{
    struct sigaction now, ours = {.sa_handler = tell_own_fault, .sa_flags = (int)SA_RESETHAND};
    sigemptyset(&ours.sa_mask);
    for (unsigned i = 0; i < OWN_FAULTS; i++) /* a sanitizer has its own */
        if (sigaction(own_fault[i], NULL, &now) == 0 && now.sa_handler == SIG_DFL)
            sigaction(own_fault[i], &ours, NULL);
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
