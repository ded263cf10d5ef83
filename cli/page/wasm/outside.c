/* What the module needs of the world outside: nothing but to say why it stopped. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "host/plain_text.h"
#include "page/exported.h"

__attribute__((import_module("page"), import_name("stopped"))) _Noreturn void
page_stopped(const char *why, size_t length);

static _Noreturn void stop(const char *why)
{
    page_stopped(why, strlen(why));
}

_Noreturn void abort(void)
{
    stop("aborted");
}

void memory_ended(void)
{
    stop("there is no memory left");
}

/* jansson's tables are spread by a number that is drawn once; here all that comes in is our own
 * page's. */
extern volatile uint32_t hashtable_seed;
volatile uint32_t hashtable_seed = 1;
void json_object_seed(size_t seed);
void json_object_seed(size_t seed)
{
    (void)seed;
}

/* Memory for what comes in. */
void *page_take(size_t size);
PAGE_EXPORT(page_take)
void *page_take(size_t size)
{
    return malloc(size);
}

void page_give_back(void *block);
PAGE_EXPORT(page_give_back)
void page_give_back(void *block)
{
    free(block);
}
