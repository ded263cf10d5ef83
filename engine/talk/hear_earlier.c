/* Whether it is one of the earlier cases, as the person says. */
#include <assert.h>
#include <string.h>

#include "talk/talk_replies.h"

static void keep_apart(tt_talk *t)
{
    value_builder b = value_map(t->keep), numbers = value_list(t->keep);
    for (uint32_t i = 0; i + 1 < t->turn.choice_count; i++) {
        const char *id = t->turn.choices[i].id;
        value_add(&numbers, value_of_str(t->keep, str_copy(t->keep, str_of(strchr(id, '-') + 1))));
    }
    value_put(&b, "cases", value_done(&numbers));
    keep_record(t, "apart", &b);
}

static void go_on_there(tt_talk *t, const char *number, const char *how)
{
    value_builder b = value_map(t->keep);
    value_put_text(&b, "how", "elsewhere");
    value_put(&b, "case", value_of_str(t->keep, str_of(number)));
    keep_record(t, "close", &b);
    t->left = true;
    t->how = how;
    t->elsewhere = number;
}

void on_earlier(tt_talk *t, const char *id)
{
    assert(t->turn.kind == TT_TURN_EARLIER);
    if (strcmp(id, earlier_none) == 0) {
        keep_apart(t);
        return;
    }
    const bool back = strncmp(id, earlier_back, strlen(earlier_back)) == 0;
    const size_t from = strlen(back ? earlier_back : earlier_open);
    go_on_there(t, str_copy(t->keep, str_of(id + from)).p, back ? "came-back" : "elsewhere");
}
