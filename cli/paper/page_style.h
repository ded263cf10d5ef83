#ifndef TT_CLI_PAGE_STYLE_H
#define TT_CLI_PAGE_STYLE_H

/* The one style of all pages. */
extern const char page_style[];

/* The style's digest, for the page's policy: 44 letters of base64. Freed by the caller. */
char *page_style_digest(void);

#endif
