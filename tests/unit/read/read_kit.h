/* For the tests of this folder: books read from files and from texts, every fault as it is
 * printed. */
#ifndef TT_TESTS_READ_KIT_H
#define TT_TESTS_READ_KIT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "read/book_read.h"

#define READ_FOLDER TT_SOURCE_DIR "/tests/unit/read/"
enum { KIT_FILES_MAX = 16 };

typedef struct kit {
    guard out;
    arena *keep, *scratch;
    source items[KIT_FILES_MAX];
    uint32_t count;
    source site; /* the site's own file; without bytes: none */
    sources files;
    faults *list;
    const book *book;
} kit;

static inline void kit_begin(kit *k)
{
    memset(k, 0, sizeof *k);
    k->keep = arena_new(NULL, &k->out);
    k->scratch = arena_new(NULL, &k->out);
    assert_non_null(k->keep);
    assert_non_null(k->scratch);
    k->list = faults_new(k->keep);
}

static inline void kit_end(kit *k)
{
    arena_free(k->scratch);
    arena_free(k->keep);
}

static inline str kit_file(kit *k, const char *path)
{
    FILE *f = fopen(path, "rb");
    if (f == NULL) return (str){NULL, 0};
    enum { MOST = 1 << 18 };
    char *bytes = arena_take(k->keep, MOST);
    size_t n = fread(bytes, 1, MOST - 1, f);
    fclose(f);
    return (str){bytes, n};
}

static inline void kit_add(kit *k, str name, str bytes)
{
    assert_true(k->count < KIT_FILES_MAX);
    k->items[k->count++] = (source){name, bytes};
}

/* A file of this folder, named without it; no bytes if there is none. */
static inline source kit_source(kit *k, str name)
{
    str bytes = kit_file(k, str_printf(k->keep, READ_FOLDER "%.*s", STR_ARG(name)).p);
    size_t slash = str_find_byte(name, '/');
    return (source){slash == SIZE_MAX ? name : str_slice(name, slash + 1, name.n), bytes};
}

/* The file of this folder; false if there is none. */
static inline bool kit_add_file(kit *k, str name)
{
    source s = kit_source(k, name);
    if (s.bytes.p == NULL) return false;
    kit_add(k, s.name, s.bytes);
    return true;
}

/* The site's file comes last, whatever its name, as in the program. */
static inline void kit_add_site(kit *k)
{
    source *all = ARENA_ARRAY(k->keep, source, (size_t)k->files.count + 1);
    for (uint32_t i = 0; i < k->files.count; i++) all[i] = k->files.items[i];
    all[k->files.count] = k->site;
    k->files = (sources){all, k->files.count + 1};
}

/* The drawing that the whole language's book names. */
static inline void kit_add_drawing(kit *k)
{
    for (uint32_t i = 0; i < k->count; i++) {
        if (str_find(k->items[i].bytes, STR("file: pump.svg")) == SIZE_MAX) continue;
        assert_true(kit_add_file(k, STR("pump.svg")));
        return;
    }
}

static inline const book *kit_read(kit *k)
{
    if (setjmp(k->out.place)) fail_msg("memory ended");
    kit_add_drawing(k);
    bool site = k->site.bytes.p != NULL;
    k->files = sources_sorted(k->keep, k->items, k->count);
    if (site) kit_add_site(k);
    const node **roots = load_sources(k->keep, k->scratch, &k->files, k->list);
    k->book = book_read(k->keep, k->scratch, &k->files, site ? k->count : NO_FILE, roots, k->list);
    return k->book;
}

static inline const char *kit_said(kit *k)
{
    return faults_text(k->list, k->keep, &k->files, 0).p;
}

static inline const book *kit_read_text_at(kit *k, const char *text, const char *site)
{
    kit_add(k, STR("rules.yaml"), str_of(text));
    if (site != NULL) k->site = (source){STR("site.yaml"), str_of(site)};
    const book *b = kit_read(k);
    if (b == NULL) print_error("%s\n", kit_said(k));
    return b;
}

static inline const book *kit_read_text(kit *k, const char *text)
{
    return kit_read_text_at(k, text, NULL);
}

#define assert_text(actual, expected) \
    do { \
        str text_ = (actual); \
        if (!str_is(text_, (expected))) \
            fail_msg("'%.*s' is not '%s'", STR_ARG(text_), (expected)); \
    } while (0)
#define assert_near(actual, expected) \
    do { \
        double is_ = (actual), want_ = (expected); \
        if (!(is_ <= want_ + 1e-12 && is_ >= want_ - 1e-12)) \
            fail_msg("%.17g is not %.17g", is_, want_); \
    } while (0)

#endif
