/* A picture's file → a drawing that can be shown anywhere: SVG of a small set of elements, written
 * anew, so that nothing is passed on that was not understood. No script, no style, no link and
 * nothing from elsewhere can be in it. */
#ifndef TT_DRAW_SVG_FILE_H
#define TT_DRAW_SVG_FILE_H

#include "base/arena.h"
#include "base/faults.h"
#include "base/source.h"
#include "base/str.h"

enum {
    DRAWING_BYTES_MAX = 256 * 1024,
    DRAWING_ELEMENTS_MAX = 4000,
    DRAWING_DEPTH_MAX = 32,
};

typedef struct svg_drawing {
    bool read;
    bool good;                  /* false: its faults have been told */
    str svg;                    /* one <svg> with its viewBox */
    double x, y, width, height; /* the viewBox: what areas are measured in */
} svg_drawing;

/* The file's faults go to the list, each sort of them once. */
svg_drawing draw_file(arena *keep, arena *scratch, const sources *all, uint32_t file, faults *list);

#endif
