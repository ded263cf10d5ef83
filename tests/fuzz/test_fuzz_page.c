/* What a page sends to its engine: its calls with texts in JSON, one a line, behind a letter for
 * which; in the order that page_engine.h asks for. */
#include "fuzz_target.h"

#include <string.h>

#include "page/page_engine.h"

static const char setup[] = "{\"folder\":\"w\",\"revision\":\"r\",\"practice\":true,\"site\":null,"
                            "\"files\":[{\"name\":\"a.yaml\",\"text\":"
                            "\"book:\\n  title: T\\n  edition: 1\\n  roles: [hand]\\nquestions:\\n "
                            " smoke:\\n    ask: Is there smoke?\\n    safe: no\\n"
                            "    usual: no\\n    because: Smoke poisons.\\n  lamp:\\n    ask: Is "
                            "the lamp lit?\\n    usual: yes\\nsymptoms:\\n  dark:\\n"
                            "    text: It is dark\\n    when: {lamp: no}\\n    shown-by: {worn: 90 "
                            "%}\\n    otherwise: 1 %\\ncauses:\\n  worn:\\n"
                            "    text: It is worn\\n    how-often: common\\n    part: "
                            "p\\nfixes:\\n  renew:\\n    text: Renew it\\n"
                            "    cures: {worn: 90 %}\\n    takes: 5 min\\n    role: hand\\n    "
                            "harm: none\\n    put-back: not needed\\n\"}]}";

typedef enum stand { NO_TALK, TO_BE_KEPT, TURN_STANDS, CALL_ENDED } stand;

static stand stand_now(const page_engine *p)
{
    const char *said = page_said(p), *turn = strstr(said, "\"turn\":");
    MUST(said[0] == '{');
    if (turn == NULL) return NO_TALK;
    if (strncmp(turn, "\"turn\":null", 11) == 0) return TO_BE_KEPT;
    return strstr(turn, "\\\"kind\\\":\\\"end\\\"") != NULL ? CALL_ENDED : TURN_STANDS;
}

static void call(page_engine *p, stand *s, char which, const char *text, size_t length)
{
    if (which == 'b')
        page_begin(p, text, length);
    else if (which == 'h' && *s == TURN_STANDS)
        page_hear(p, text, length);
    else if (which == 'k' && *s == TO_BE_KEPT)
        page_kept(p, length > 0 && text[0] != 'n');
    else if (which == 't')
        page_texts(p, text, length);
    else if (which == 's')
        page_summary(p, text, length);
    else
        return;
    const stand after = stand_now(p);
    if (which != 't' && which != 's') *s = after;
}

static void one(const uint8_t *bytes, size_t length)
{
    page_engine *p = page_open(setup, sizeof setup - 1);
    MUST(p != NULL && strstr(page_said(p), "\"title\"") != NULL);
    const char *at = (const char *)bytes, *end = at + length;
    stand s = NO_TALK;
    while (at < end) {
        const char *line_end = memchr(at, '\n', (size_t)(end - at));
        if (line_end == NULL) line_end = end;
        if (line_end > at) call(p, &s, at[0], at + 1, (size_t)(line_end - at) - 1);
        at = line_end + 1;
    }
    page_close(p);
}

FUZZ_TARGET("page", one, NULL)
