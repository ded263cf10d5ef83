/* A picture, for programs. */
#ifndef TT_SHOW_PICTURE_FIELDS_H
#define TT_SHOW_PICTURE_FIELDS_H

#include "show/fields.h"

extern const shape picture_shape; /* of a tt_picture */

#endif
