/* What faces share. */
#include "face/face.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/str.h"
#include "host/memory.h"
#include "host/screen.h"

void face_end(face *f)
{
    if (f == NULL) return;
    arena_free(f->shown);
    f->end(f);
}

static face_got got_of(line_got got)
{
    switch (got) {
    case GOT_LINE:
        return FACE_REPLY;
    case GOT_END:
        return FACE_ENDED;
    case GOT_SIGNAL:
        return FACE_SIGNAL;
    case GOT_NEWS:
        return FACE_NEWS;
    case GOT_FAILURE:
        return FACE_FAILED;
    case GOT_NO_LINES:
        complain(
            "a megabyte came without the end of a line, which is no answer. Nothing more is read");
        return FACE_ENDED;
    }
    assert(false);
    return FACE_FAILED;
}

/* The rest of a line that is too long is no reply of its own. */
static line_got skip_rest(line_input *input)
{
    line_got got = GOT_LINE;
    while (input->cut && got == GOT_LINE) {
        char *rest = NULL;
        got = line_input_next(input, &rest);
        free(rest);
    }
    return got;
}

face_got face_read_line(face *f, const char **line)
{
    char *read = NULL;
    if (f->next_line != NULL) return f->next_line(f, line);
    line_got got = line_input_next(f->input, &read);
    const bool whole = got == GOT_LINE && !f->input->cut;
    *line = whole ? str_copy(f->shown, str_of(read)).p : NULL;
    free(read);
    if (got == GOT_LINE) got = skip_rest(f->input);
    return got_of(got);
}
