/* A picture's file. What is let through has none of what could run or load something. */
#include "fuzz_target.h"

#include <string.h>

#include "draw/svg_file.h"
#include "test_sources.h"

static void one(const uint8_t *bytes, size_t length)
{
    arena *keep = test_arena(), *scratch = test_arena();
    sources all =
        source_from_text(keep, "picture.svg", (str){length > 0 ? (const char *)bytes : "", length});
    faults *list = faults_new(keep);
    const svg_drawing d = draw_file(keep, scratch, &all, 0, list);
    MUST(!d.read || d.good == (faults_errors(list) == 0));
    static const char *const never[] = {"<script", "href",   "url(",           "onload",
                                        "<style",  "<image", "<foreignObject", "javascript",
                                        "<!",      "<?"};
    const char *svg = d.read && d.good ? str_copy(keep, d.svg).p : "";
    for (size_t i = 0; i < sizeof never / sizeof never[0]; i++) MUST(strstr(svg, never[i]) == NULL);
    MUST(faults_text(list, keep, &all, 0).n > 0 || d.good || !d.read);
    arena_free(scratch);
    arena_free(keep);
}

static const char *const more[] = {"tests/unit/draw/faults", NULL};

FUZZ_TARGET("drawing", one, more)
