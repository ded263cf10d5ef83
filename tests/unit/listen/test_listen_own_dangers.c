/* What a shipped book itself knows as an emergency, in words that no list of ours has. */
#include <string.h>

#include "book_folder.h"
#include "telltale.h"
#include "testing.h"

static void exhaust_is_heard_by_what_it_does_to_people(void **state)
{
    static const char *const said[] = {
        "my head hurts and i feel sleepy next to the set",
        "i got a headache since it runs",
        "the room is full of exhaust",
        "me duele la cabeza y tengo sue\xC3\xB1o junto al generador",
        "el cuarto est\xC3\xA1 lleno de humo del escape",
    };
    (void)state;
    tt_book *b = book_folder("rules/standby-generator");
    for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
        tt_overheard o;
        assert_int_equal(tt_overhear(b, said[i], true, &o), TT_OK); /* even where a name is asked */
        if (!o.danger) fail_msg("'%s' is no danger", said[i]);
    }
    tt_book_free(b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exhaust_is_heard_by_what_it_does_to_people),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
