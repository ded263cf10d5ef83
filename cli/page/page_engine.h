/* The conversation as the page in a browser holds it: five calls over texts in JSON, compiled to
 * WebAssembly with the engine. Like the program it only leads a talk: turns and replies are those
 * of `ask --json`, records those of a case's files, byte for byte. It keeps nothing: what is to be
 * kept comes out, and the next turn only after page_kept. There is no way back from memory that
 * ended or a bug: the module stops, and the page begins anew from what was kept. */
#ifndef TT_CLI_PAGE_ENGINE_H
#define TT_CLI_PAGE_ENGINE_H

#include <stdbool.h>
#include <stddef.h>

typedef struct page_engine page_engine;

/* Each takes a map as JSON text. What came of it: page_said. */

/* {"folder", "revision", "files": [{"name", "text"}], "site": {"name", "path", "revision", "text"}
 * or null, "practice"} → {"title", "edition", "language", "site", "tongues", "cautions"} or
 * {"wrong"} */
page_engine *page_open(const char *setup, size_t length);
/* {"case", "writer", "now", "by", "on", "how", "role", "language", "telephone", "kept", "records":
 * [lines]}: a talk from the records that there are. → {"keep": [lines], "turn", "words": {id:
 * text}, "number", "left_out"}; while there is something to keep, turn is null. */
void page_begin(page_engine *p, const char *setup, size_t length);
/* A reply, as docs/turn.schema.json has it → the same. */
void page_hear(page_engine *p, const char *reply, size_t length);
/* What came to be kept last is, or is not → the same. */
void page_kept(page_engine *p, bool kept);
/* {"language"} → our own words around a turn, by their ids; "touched": what a page says instead of
 * a text of ours that tells what to type. */
void page_texts(page_engine *p, const char *setup, size_t length);
/* {"case", "records"} → the case in a few words, as `cases --json` has it. */
void page_summary(page_engine *p, const char *setup, size_t length);

/* Of the last call, until the next. */
const char *page_said(const page_engine *p);
void page_close(page_engine *p);

#endif
