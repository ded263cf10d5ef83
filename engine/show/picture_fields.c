/* A picture, for programs: its table of fields. */
#include "show/picture_fields.h"

#include "telltale.h"

static const field area_fields[] = {
    FIELD(tt_area, name, FIELD_TEXT, ALWAYS, 2,
          "Of the symptom; with the kind complaint the name of a choice."),
    FIELD(tt_area, text, FIELD_TEXT, ALWAYS, 2, ""),
    FIELD(tt_area, x, FIELD_FIGURE, ALWAYS, 2, "From the left, in the numbers of the viewBox."),
    FIELD(tt_area, y, FIELD_FIGURE, ALWAYS, 2, "From the top."),
    FIELD(tt_area, width, FIELD_FIGURE, ALWAYS, 2, ""),
    FIELD(tt_area, height, FIELD_FIGURE, ALWAYS, 2, ""),
};
static const shape area_shape = SHAPE("area", tt_area, area_fields, "Where a sign is seen.");

static const field picture_fields[] = {
    FIELD(tt_picture, text, FIELD_TEXT, ALWAYS, 2,
          "What it shows in words, for whoever does not see it: to be given with the drawing."),
    FIELD(tt_picture, file, FIELD_TEXT, ALWAYS, 2, "In the book's folder."),
    FIELD(tt_picture, svg, FIELD_TEXT, ALWAYS, 2,
          "The drawing, one <svg> element with a viewBox, to be put into a page as it stands: it "
          "has no script, style, link or reference. Its colours want a white ground."),
    FIELD_ALL_OF(tt_picture, areas, area_count, FIELD_LIST, ALWAYS, 2, &area_shape,
                 "Where in it signs are seen, from the top."),
};
const shape picture_shape = SHAPE("picture", tt_picture, picture_fields, "");
