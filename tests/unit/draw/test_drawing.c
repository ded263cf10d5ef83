/* What is passed on of a drawing, and that nothing else is: also of bytes at random. */
#include "luck.h"
#include "testing.h"

#include <stdio.h>

#include "draw/svg_file.h"
#include "test_sources.h"

typedef struct drawn {
    arena *keep, *scratch;
    svg_drawing made;
    const char *said;
} drawn;

static drawn draw(const char *bytes, size_t length)
{
    drawn d = {.keep = test_arena(), .scratch = test_arena()};
    const sources all = source_from_text(d.keep, "fan.svg", (str){bytes, length});
    faults *list = faults_new(d.keep);
    d.made = draw_file(d.keep, d.scratch, &all, 0, list);
    d.said = faults_text(list, d.keep, &all, 0).p;
    return d;
}

static void done(drawn *d)
{
    arena_free(d->keep);
    arena_free(d->scratch);
}

static void draws(const char *given, const char *wanted)
{
    drawn d = draw(given, strlen(given));
    if (!d.made.good) fail_msg("%s\ngives:\n%s", given, d.said);
    assert_string_equal(d.made.svg.p, wanted);
    done(&d);
}

#define FRAME "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 60\">"
#define GIVEN "<svg viewBox='0 0 100 60'>"

static void what_is_drawn_is_passed_on(void **state)
{
    (void)state;
    draws(GIVEN "<rect x='1' y='2.5px' width='8' height='-3e1' fill='#fC0'/></svg>",
          FRAME "<rect x=\"1\" y=\"2.5px\" width=\"8\" height=\"-3e1\" fill=\"#fC0\"/></svg>");
    draws(GIVEN "<g transform='translate(1,2) rotate(90)'><path d='M1 2\n L3 4z'/></g></svg>",
          FRAME "<g transform=\"translate(1,2) rotate(90)\"><path d=\"M1 2  L3 4z\"/></g></svg>");
    draws(GIVEN "<text x='1'>a &lt; b &amp; &#xe9;  c\n<tspan>\"d\"</tspan></text></svg>",
          FRAME "<text x=\"1\">a &lt; b &amp; \xc3\xa9 c <tspan>\"d\"</tspan></text></svg>");
}

static void what_nobody_sees_is_left_out(void **state)
{
    (void)state;
    draws(
        "\xef\xbb\xbf<?xml version='1.0'?>\r\n<!DOCTYPE svg PUBLIC 'a' 'b'>\r\n<!-- c -->" GIVEN
        "<title>t</title><metadata><a:b>c<d/></a:b></metadata><defs><linearGradient id='g'/></defs>"
        "<l:view l:x='1'/><g id='a' class='b' l:n='1' font-family='sans'>\r\n</g></svg>\r\n",
        FRAME "<g></g></svg>");
    draws("<svg width='100px' height='60'><g/></svg>", FRAME "<g/></svg>");
    draws("<svg width='100%' height='5mm' viewBox='0,0 100,60' x='3' fill='none'/>",
          "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 60\" fill=\"none\"/>");
}

/* Of one, two, three and four bytes. */
static void characters_are_read_by_their_numbers(void **state)
{
    (void)state;
    draws(GIVEN "<text>&#65;&#x7e;&#233;&#xE9;&#8451;&#x2103;&#x1F525;</text></svg>",
          FRAME "<text>A~\xc3\xa9\xc3\xa9\xe2\x84\x83\xe2\x84\x83\xf0\x9f\x94\xa5</text></svg>");
    draws(GIVEN "<text>a\r\n\tb&#10;&#9;&#13;c</text></svg>", FRAME "<text>a b c</text></svg>");
    draws(GIVEN "<g l:note='one&#10;two'><path d='M1 2&#xA;L3\t4'/></g></svg>",
          FRAME "<g><path d=\"M1 2 L3 4\"/></g></svg>");
}

static void refuses(const char *given, const char *why)
{
    drawn d = draw(given, strlen(given));
    if (d.made.good || strstr(d.said, why) == NULL)
        fail_msg("%s\ngives:\n%s\nand not:\n%s", given, d.said, why);
    done(&d);
}

static void what_is_no_character_is_refused(void **state)
{
    static const char *const none[] = {
        "#x;",     "#;",      "#1a;",      "#xg0;",     "#xFG;",        "#0;",  "#x1F;",
        "#xD800;", "#xDFFF;", "#x110000;", "#x7FFFFF;", "#0000000065;", "x65;", "nbsp;"};
    (void)state;
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        char given[120];
        snprintf(given, sizeof given, GIVEN "<text>a &%s</text></svg>", none[i]);
        refuses(given, "begins no character");
    }
}

static void what_no_value_can_be_is_refused(void **state)
{
    static const char *const wrong[] = {"transform='rotate 90)'",
                                        "transform='rotate(90'",
                                        "transform=')rotate('",
                                        "transform='turn(90)'",
                                        "transform='rotate(a)'",
                                        "transform='rotate()'",
                                        "transform=''",
                                        "d=''",
                                        "d='L 1 2'",
                                        "d='M 1 2 X'",
                                        "fill='#ff'",
                                        "fill='ffcc'",
                                        "fill='#ffccgg'",
                                        "points='1,two'",
                                        "points=''"};
    (void)state;
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        char given[120];
        snprintf(given, sizeof given, GIVEN "<g %s/></svg>", wrong[i]);
        refuses(given, "can't be read from");
    }
    draws(GIVEN "<g transform='translate(1,2),rotate(3)'/></svg>",
          FRAME "<g transform=\"translate(1,2),rotate(3)\"/></svg>");
}

/* The same slip is told once, and another one beside it. */
static void each_slip_is_told_once(void **state)
{
    const char *given = GIVEN "<g fill='#ff'/><g fill='#ff'/><g fill='#fg'/></svg>";
    (void)state;
    drawn d = draw(given, strlen(given));
    assert_non_null(strstr(d.said, "2 errors"));
    done(&d);
}

static void what_of_a_style_can_be_kept_is_said(void **state)
{
    (void)state;
    refuses(GIVEN "<g style='bold; fill:url(#a); fill:red;'/></svg>",
            "Write 'fill=\"red\"', and so in all of the drawing.");
}

static void a_frame_without_size_is_refused(void **state)
{
    (void)state;
    refuses("<svg viewBox='0 0 0 60'/>", "[T155]");
    refuses("<svg viewBox='0 0 100 0'/>", "[T155]");
    refuses("<svg width='100'/>", "[T155]");
    refuses("<svg width='0' height='60'/>", "[T155]");
    refuses("<svg height='60'/>", "[T155]");
}

static void too_many_attributes_are_refused(void **state)
{
    (void)state;
    arena *keep = test_arena();
    text_builder many = {.keep = keep};
    text_add(&many, STR(GIVEN "<g"));
    for (int i = 0; i < 101; i++) text_addf(&many, " l:a%d='1'", i);
    text_add(&many, STR("/></svg>"));
    refuses(text_done(&many).p, "more attributes than a drawing needs");
    arena_free(keep);
}

static void too_much_is_refused(void **state)
{
    (void)state;
    arena *keep = test_arena();
    text_builder large = {.keep = keep}, many = {.keep = keep};
    text_add(&large, STR(GIVEN));
    while (large.length <= DRAWING_BYTES_MAX) text_add(&large, STR("        "));
    drawn d = draw(large.bytes, large.length);
    assert_non_null(strstr(d.said, "[T156]"));
    done(&d);
    text_add(&many, STR(GIVEN));
    for (int i = 0; i < DRAWING_ELEMENTS_MAX; i++) text_add(&many, STR("<g/>"));
    text_add(&many, STR("</svg>"));
    d = draw(many.bytes, many.length);
    assert_non_null(strstr(d.said, "more than 4000 elements"));
    done(&d);
    arena_free(keep);
}

/* ---- at random ---- */

static const char *const scraps[] = {"<svg viewBox='0 0 9 9'>",
                                     "</svg>",
                                     "<g>",
                                     "</g>",
                                     "<text>",
                                     "</text>",
                                     "<rect x='1'",
                                     "/>",
                                     ">",
                                     "<script>",
                                     "</script>",
                                     "&amp;",
                                     "&#106;avascript:",
                                     "onload='a'",
                                     "style='a:b'",
                                     "href='x'",
                                     "fill='red'",
                                     "d='M0 0'",
                                     "<!--",
                                     "-->",
                                     "<![CDATA[",
                                     "]]>",
                                     "<?a",
                                     "?>",
                                     "<!DOCTYPE a",
                                     "<a:b c='d'>",
                                     "</a:b>",
                                     " ",
                                     "'",
                                     "\"",
                                     "<style>",
                                     "</style>",
                                     "<defs>",
                                     "</defs>",
                                     "&",
                                     "<"};

static bool holds(str text, const char *what)
{
    return str_find(text, str_of(what)) != SIZE_MAX;
}

/* Within < and >: what a text says draws nothing. */
static bool markup_holds(str svg, const char *what)
{
    for (size_t from; (from = str_find_byte(svg, '<')) != SIZE_MAX;) {
        svg = str_slice(svg, from, svg.n);
        const size_t to = str_find_byte(svg, '>');
        if (to == SIZE_MAX || holds(str_slice(svg, 0, to), what)) return true;
        svg = str_slice(svg, to, svg.n);
    }
    return false;
}

/* Whatever is written: it is drawn from what may be drawn, or told. */
static void nothing_else_is_ever_passed_on(void **state)
{
    (void)state;
    uint64_t seed = 20261129;
    uint32_t good = 0;
    const size_t scrap_count = sizeof scraps / sizeof *scraps;
    for (int round = 0; round < 20000; round++) {
        arena *keep = test_arena();
        text_builder b = {.keep = keep};
        text_add(&b, STR("<svg viewBox='0 0 9 9'>"));
        for (uint32_t i = luck_below(&seed, 12); i > 0; i--)
            text_add(&b, str_of(scraps[luck_below(&seed, scrap_count)]));
        text_add(&b, STR("</svg>"));
        drawn d = draw(b.bytes, b.length);
        assert_true(d.made.good == (*d.said == '\0'));
        good += d.made.good;
        static const char *const never[] = {"<script", "<style", "<a", " on",  "href",
                                            "style=",  "<!",     "<?", "url(", ":b"};
        for (size_t i = 0; d.made.good && i < sizeof never / sizeof *never; i++)
            if (markup_holds(d.made.svg, never[i]))
                fail_msg("%.*s\npasses on:\n%s", (int)b.length, b.bytes, d.made.svg.p);
        done(&d);
        arena_free(keep);
    }
    assert_true(good > 500); /* else nothing was looked at */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_drawn_is_passed_on),
        cmocka_unit_test(what_nobody_sees_is_left_out),
        cmocka_unit_test(characters_are_read_by_their_numbers),
        cmocka_unit_test(what_is_no_character_is_refused),
        cmocka_unit_test(what_no_value_can_be_is_refused),
        cmocka_unit_test(each_slip_is_told_once),
        cmocka_unit_test(what_of_a_style_can_be_kept_is_said),
        cmocka_unit_test(a_frame_without_size_is_refused),
        cmocka_unit_test(too_many_attributes_are_refused),
        cmocka_unit_test(too_much_is_refused),
        cmocka_unit_test(nothing_else_is_ever_passed_on),
    };
    return cmocka_run_group_tests_name("drawings", tests, NULL, NULL);
}
