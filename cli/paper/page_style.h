#ifndef TT_CLI_PAGE_STYLE_H
#define TT_CLI_PAGE_STYLE_H

#include <stddef.h>
#include <stdint.h>

/* The one style of all pages. */
extern const char page_style[];

/* Freed by the caller. */
char *base64_of(const uint8_t *bytes, size_t count);
/* A digest for a page's policy: 44 letters of base64. Freed by the caller. */
char *text_digest(const char *text, size_t length);
/* The style's: 44 letters of base64. Freed by the caller. */
char *page_style_digest(void);

#endif
