/* Part of telltale.h, which includes it: what is shown to programs, as JSON. docs/ has a schema of
 * each, made from the same table of fields. */
#ifndef TELLTALE_SHOW_H
#define TELLTALE_SHOW_H

#ifdef __cplusplus
extern "C" {
#endif

/* What an output rests on. Digests are in hexadecimal, worked out by whoever read the files. */
typedef struct tt_origin {
    const tt_book *book;
    const char *revision;      /* of the book's sources */
    const char *site_revision; /* of the site's file; "" or null: none was given beside the book */
} tt_origin;

/* Where a case stands: docs/rank.schema.json. Several lines of JSON, freed by the caller with
 * free(). */
TT_PUBLIC tt_status tt_standing_json(const tt_origin *origin, tt_case *c, char **out);
/* The same with why the first cause rather than its strongest rival, and what would turn it. */
TT_PUBLIC tt_status tt_standing_why_json(const tt_origin *origin, tt_case *c, char **out);

#ifdef __cplusplus
}
#endif

#endif
