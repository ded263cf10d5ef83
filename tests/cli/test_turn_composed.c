/* A turn as blocks of text: what is to be typed, what a caller is told, what is said with a word of
 * warning. Each row is one turn, with what stands in its blocks. */
#include <math.h>

#include "face/turn_blocks.h"
#include "shown_text.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

/* Each block on a line, behind a letter for its place. */
static char *composed(const tt_turn *turn, compose_wishes wishes)
{
    static const char places[] = "HBPLCW";
    arena *keep = host_arena();
    shown_text *s = show_at(0);
    const blocks all = compose_turn(keep, turn, wishes);
    for (uint32_t i = 0; i < all.count; i++)
        fprintf(s->on.out, "%c %.*s%.*s\n", places[all.items[i].place], STR_ARG(all.items[i].lead),
                STR_ARG(all.items[i].text));
    char *text = strdup(shown(s));
    assert_non_null(text);
    shown_free(s);
    arena_free(keep);
    return text;
}

static const tt_turn plain = {.number = 1,
                              .kind = TT_TURN_QUESTION,
                              .language = "en",
                              .subject = "",
                              .title = "",
                              .together = "",
                              .prompt = "How strong is it?",
                              .say = "",
                              .place = "",
                              .because = "",
                              .progress = {0, NAN},
                              .takes = {.unit = "", .low = NAN, .high = NAN},
                              .wrong_code = "",
                              .wrong = "",
                              .kept = true,
                              .how = ""};

static void assert_composed(const tt_turn *turn, bool telephone, const char *whole)
{
    char *text = composed(turn, (compose_wishes){.telephone = telephone});
    assert_string_equal(text, whole);
    free(text);
}

static void what_is_to_be_typed(void **state)
{
    (void)state;
    static const struct {
        const char *unit, *line;
        bool reading, count, several;
    } rows[] = {
        {"", "P Type several numbers with commas, like 1,2.\n", false, false, true},
        {"", "P Type how many.\n", false, true, false},
        {"1:N", "P Type it such as 1:50, which is 1 part of product to 50 of water.\n", true, false,
         false},
        {"1 in N", "P Type it such as 1 in 50, which is 1 part of product in 50 of the mix.\n",
         true, false, false},
        {"psi", "P Type the number in psi, or with the unit that you read.\n", true, false, false},
        {"", "P Type the number.\n", true, false, false},
        {"", "", false, false, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        tt_turn t = plain;
        t.takes.unit = rows[i].unit;
        t.takes.reading = rows[i].reading;
        t.takes.count = rows[i].count;
        t.takes.several = rows[i].several;
        char whole[160];
        snprintf(whole, sizeof whole, "P How strong is it?\n%s", rows[i].line);
        assert_composed(&t, false, whole);
    }
}

/* Where in the work, how far along, and at which place. */
static void how_far_it_is(void **state)
{
    (void)state;
    tt_turn t = plain;
    t.progress.asked = 3;
    assert_composed(&t, false, "P Question 3\nP How strong is it?\n");
    t.progress.minutes_left = 8;
    t.place = "the left pump";
    assert_composed(&t, false,
                    "P Question 3, about 8 minutes left. At: the left pump\n"
                    "P How strong is it?\n");
    t.progress.asked = 0;
    assert_composed(&t, false, "P At: the left pump\nP How strong is it?\n");
    t.kind = TT_TURN_DANGER;
    t.place = "";
    assert_composed(&t, false, "P Danger first:\nP How strong is it?\n");
    t.kind = TT_TURN_FIX_STEP;
    t.title = "Swap\tthe seal";
    t.step = 2;
    t.steps = 5;
    t.practice = true;
    t.kept = false;
    assert_composed(&t, false,
                    "H PRACTICE: the example site\n"
                    "H NOT KEPT: nobody can go on with this later.\n"
                    "H Swap the seal: 2 of 5\nP How strong is it?\n");
}

static const char *const items[] = {"gloves", "goggles"};

static void what_to_wear_stands_on_each_page(void **state)
{
    (void)state;
    const tt_turn_part parts[] = {
        {.kind = TT_PART_WEAR, .title = "Wear", .items = items, .item_count = 2},
        {.kind = TT_PART_WEAR, .title = "Wear", .items = NULL, .item_count = 0},
        {.kind = TT_PART_LOOK, .title = "", .items = items, .item_count = 1}};
    tt_turn t = plain;
    t.parts = parts;
    t.part_count = 3;
    assert_composed(&t, false, "H WEAR: gloves; goggles\nP How strong is it?\nL gloves\n");
}

static void each_signal_word_stands_before_its_text(void **state)
{
    (void)state;
    const tt_turn_part parts[] = {
        {.kind = TT_PART_CAUTION, .title = "danger", .items = items, .item_count = 1},
        {.kind = TT_PART_CAUTION, .title = "warning", .items = items, .item_count = 1},
        {.kind = TT_PART_CAUTION, .title = "notice", .items = items, .item_count = 2},
        {.kind = TT_PART_CAUTION,
         .title = "What always holds here",
         .items = items,
         .item_count = 1},
        {.kind = TT_PART_NOTE, .title = "warning", .items = items, .item_count = 1}};
    tt_turn t = plain;
    t.parts = parts;
    t.part_count = 5;
    assert_composed(&t, false,
                    "B DANGER: gloves\nB WARNING: gloves\nB NOTICE: gloves\n"
                    "B NOTICE: goggles\nB What always holds here\nB   - gloves\n"
                    "B warning\nB   - gloves\nP How strong is it?\n");
}

/* ---- with a caller on the line ---- */

#define CHOICE(id_, text_) \
    { \
        .id = id_, .text = text_ \
    }

static void choices_are_read_aloud(void **state)
{
    (void)state;
    static const tt_turn_choice thick[] = {CHOICE("thin", "thin"), CHOICE("stiff", "stiff"),
                                           CHOICE("same", "as always")},
                                yes_no[] = {CHOICE("yes", "Yes"), CHOICE("no", "No")},
                                yes_other[] = {CHOICE("yes", "Yes"), CHOICE("other", "Another")};
    tt_turn t = plain;
    t.say = "How is the foam?";
    t.choices = thick;
    t.choice_count = 3;
    assert_composed(&t, true,
                    "P Say: “How is the foam?”\nL Say: “Is it: thin; stiff; or as always?”\n"
                    "C  1  thin\nC  2  stiff\nC  3  as always\n");
    t.choices = yes_no;
    t.choice_count = 2;
    assert_composed(&t, true, "P Say: “How is the foam?”\nC  1  Yes\nC  2  No\n");
    t.choices = yes_other;
    assert_composed(&t, true,
                    "P Say: “How is the foam?”\nL Say: “Is it: Yes; or Another?”\n"
                    "C  1  Yes\nC  2  Another\n");
    t.kind = TT_TURN_OUTCOME; /* the agent's to say, not the caller's */
    t.say = "";
    assert_composed(&t, true, "P How strong is it?\nC  1  Yes\nC  2  Another\n");
    t.kind = TT_TURN_QUESTION;
    t.choice_count = 0;
    assert_composed(&t, true, "P How strong is it?\n");
}

static void whom_the_caller_may_ask_for(void **state)
{
    (void)state;
    static const tt_contact contacts[] = {
        {"fitter", "", "east", "555 0100", "by day", "The fitter"},
        {"", "parts", "store", "", "", "The store"}};
    static const tt_turn_choice leading[] = {CHOICE("worn", "Worn: 60 %"),
                                             CHOICE("loose", "Loose: 40 %")};
    tt_turn t = plain;
    t.contacts = contacts;
    t.contact_count = 2;
    t.leading = leading;
    t.leading_count = 2;
    assert_composed(&t, true,
                    "B   - The fitter: 555 0100 (by day)\nB   - The store\n"
                    "B Leading: Worn: 60 %; Loose: 40 %\nP How strong is it?\n");
    assert_composed(&t, false, "P How strong is it?\n");
    const tt_turn_part call[] = {
        {.kind = TT_PART_CALL, .title = "", .items = items, .item_count = 1}};
    t.parts = call;
    t.part_count = 1;
    t.dangerous = true; /* nothing but danger counts then */
    assert_composed(&t, true, "B gloves\nP How strong is it?\n");
    t.kind = TT_TURN_CALL;
    assert_composed(&t, true, "B Read out:\nB gloves\nP How strong is it?\n");
    t.kind = TT_TURN_STOP;
    t.title = "How strong is it?";
    assert_composed(&t, true,
                    "H DANGER\nH How strong is it?\nB Read out:\nB gloves\n"
                    "P How strong is it?\n");
}

/* ---- what Enter takes ---- */

static void enter_takes_what_it_says(void **state)
{
    (void)state;
    static const struct {
        tt_turn_kind kind;
        const char *id;
        bool taken;
    } rows[] = {{TT_TURN_KNOWN, "go-on", true},     {TT_TURN_WHY, "go-on", true},
                {TT_TURN_WORDS, "go-on", true},     {TT_TURN_CAUTIONS, "go-on", true},
                {TT_TURN_PROCEDURE, "go-on", true}, {TT_TURN_KNOWN, "none", false},
                {TT_TURN_NOTE, "none", true},       {TT_TURN_TO, "none", true},
                {TT_TURN_SITE_NAME, "none", true},  {TT_TURN_SITE_PIECES, "none", true},
                {TT_TURN_SITE_PATH, "none", true},  {TT_TURN_CALLER, "none", true},
                {TT_TURN_CALL_BACK, "none", true},  {TT_TURN_TICKET, "none", true},
                {TT_TURN_TICKET, "go-on", false},   {TT_TURN_BOOK, "any", true},
                {TT_TURN_QUESTION, "go-on", false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        const tt_turn_choice one[] = {CHOICE(rows[i].id, "Go on")};
        tt_turn t = plain;
        t.kind = rows[i].kind;
        t.choices = one;
        t.choice_count = 1;
        const tt_turn_choice *taken = enter_takes(&t);
        if ((taken == one) != rows[i].taken) fail_msg("row %zu", i);
        char *text = composed(&t, (compose_wishes){.enter = true});
        assert_int_equal(strstr(text, "W Enter: Go on\n") != NULL, rows[i].taken);
        assert_true(!rows[i].taken || strstr(text, "C  1") == NULL); /* not twice */
        free(text);
        t.choice_count = 0;
        assert_null(enter_takes(&t));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_to_be_typed),
        cmocka_unit_test(how_far_it_is),
        cmocka_unit_test(what_to_wear_stands_on_each_page),
        cmocka_unit_test(each_signal_word_stands_before_its_text),
        cmocka_unit_test(choices_are_read_aloud),
        cmocka_unit_test(whom_the_caller_may_ask_for),
        cmocka_unit_test(enter_takes_what_it_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
