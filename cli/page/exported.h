/* What the module shows to the page. Elsewhere these are functions as any. */
#ifndef TT_CLI_EXPORTED_H
#define TT_CLI_EXPORTED_H

#ifdef __wasm__
#define PAGE_EXPORT(name) __attribute__((export_name(#name)))
#else
#define PAGE_EXPORT(name)
#endif

#endif
