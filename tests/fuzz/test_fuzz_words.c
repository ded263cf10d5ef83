/* What somebody says: the first byte names the question that is asked, the rest is said. What is
 * heard lies within what was said, cleaned of what is no text (each bad byte becomes three). */
#include "fuzz_target.h"

#include "ear_kit.h"
#include "fuzz_books.h"
#include "test_sources.h"

static void one(const uint8_t *bytes, size_t length)
{
    static ear_kit ear;
    if (ear.l == NULL) ear = ear_of((tt_book *)fuzz_book_once("rules/foam-line")->book);
    const str said = {length > 0 ? (const char *)bytes + 1 : "", length > 0 ? length - 1 : 0};
    const uint32_t questions = ear.book->question_count, number = length > 0 ? bytes[0] : 255;
    const uint32_t asked = number < questions && number < 255 ? number : NO_ID;
    arena *keep = test_arena();
    const listen_parts heard = listen_all(ear.l, keep, asked, NULL, said);
    for (uint32_t i = 0; i < heard.count; i++) {
        const listen_part *p = &heard.items[i];
        MUST(p->from <= p->to && p->to <= 3 * said.n);
        MUST(i == 0 || heard.items[i - 1].from <= p->from);
        MUST(p->kind != LISTEN_ANSWER || p->question < questions);
        MUST(p->kind != LISTEN_COMPLAINT || p->complaint != NULL);
    }
    const complaints_heard complaints = listen_complaints(ear.l, keep, said);
    for (uint32_t i = 0; i < complaints.count; i++)
        MUST(complaints.items[i].ranked[0].posterior > 0);
    listen_manner(ear.l, keep, said);
    arena_free(keep);
}

FUZZ_TARGET("words", one, NULL)
