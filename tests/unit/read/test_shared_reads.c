/* What is written for each piece and names none is read once, and its texts are those of each
 * piece; what names its piece is each one's own. What a book takes then does not grow with the
 * pieces times what is written. */
#include "read_kit.h"

#include <stdlib.h>

static str book_of(kit *k, uint32_t pieces, uint32_t answers)
{
    text_builder b = {.keep = k->keep};
    text_add(&b, STR("book:\n  title: T\n  edition: 1\n  roles: [op, {tech: {authorised: yes}}]\n"
                     "kinds:\n  pump: {one: pump, ask: \"Which pumps?\"}\n"
                     "site:\n  units:\n    pump:\n"));
    for (uint32_t i = 0; i < pieces; i++)
        text_addf(&b, "      p%u: {text: \"pump number %u\"}\n", i, i);
    text_add(&b,
             STR("questions:\n  smoke: {ask: \"Smoke?\", safe: [no], about: today}\n"
                 "  named:\n    for-each: pump\n    ask: How is {pump}?\n"
                 "    answers: {good: \"{pump} is good\", bad: \"It is bad\"}\n"
                 "  shakes: {for-each: pump, ask: \"Does {pump} shake?\"}\n"
                 "  plain:\n    for-each: pump\n    ask: How does {pump} sound?\n    answers:\n"));
    for (uint32_t i = 0; i < answers; i++)
        text_addf(&b, "      a%02u: {text: \"Sound %u\", heard: [\"tone %u\"]}\n", i, i, i);
    text_add(
        &b,
        STR("symptoms:\n  loud:\n    for-each: pump\n    text: It is loud\n"
            "    when: {plain: a01}\n    heard: [loud, \"it roars\"]\n    shown-by: {worn: often}\n"
            "causes:\n  worn: {for-each: pump, text: \"{pump} is worn\", how-often: common}\n"
            "fixes:\n  mend:\n    for-each: pump\n    text: Mend {pump}\n    takes: 5 min\n"
            "    role: tech\n    cures: {worn: usually}\n    harm: none\n    put-back: not needed\n"
            "    steps:\n      - Open it\n      - Close it\n"
            "    parts: [seal, \"seal of {pump}\"]\n"));
    return text_done(&b);
}

static void read_book(kit *k, uint32_t pieces, uint32_t answers)
{
    kit_begin(k);
    kit_add(k, STR("a.yaml"), book_of(k, pieces, answers));
    k->files = sources_sorted(k->keep, k->items, k->count);
    if (setjmp(k->out.place) != 0) fail();
    const node **roots = load_sources(k->keep, k->scratch, &k->files, k->list);
    k->book = book_read(k->keep, k->scratch, &k->files, NO_FILE, roots, k->list);
    if (k->book == NULL) fail_msg("%s", faults_text(k->list, k->keep, &k->files, 5).p);
}

static const char *first(const texts *t)
{
    assert_int_equal(t->count, 1);
    return t->items[0].text.p;
}

static const question *question_of(const book *b, const char *base, uint32_t piece)
{
    for (uint32_t i = 0; i < b->question_count; i++)
        if (str_is(b->questions[i].of.base, base) && b->questions[i].of.piece == piece)
            return &b->questions[i];
    fail();
    return NULL;
}

static void each_piece_has_its_texts(void **state)
{
    (void)state;
    kit k;
    read_book(&k, 3, 4);
    assert_int_equal(k.book->piece_count, 3);
    for (uint32_t p = 0; p < 3; p++) {
        char wanted[40];
        const question *plain = question_of(k.book, "plain", p),
                       *named = question_of(k.book, "named", p);
        assert_int_equal(plain->answer_count, 4);
        for (uint32_t i = 0; i < 4; i++) {
            snprintf(wanted, sizeof wanted, "Sound %u", i);
            assert_string_equal(first(&plain->answers[i].text), wanted);
            assert_int_equal(plain->shown_order[i], i);
            assert_int_equal(plain->answers[i].heard.count, 1);
        }
        assert_ptr_equal(plain->answers, question_of(k.book, "plain", 0)->answers);
        const question *shakes = question_of(k.book, "shakes", p);
        assert_int_equal(shakes->answer_count, 2);
        assert_string_equal(shakes->answers[1].text.items[0].text.p, "Yes");
        assert_ptr_equal(shakes->answers, question_of(k.book, "shakes", 0)->answers);
        snprintf(wanted, sizeof wanted, "Pump number %u is good", p);
        assert_string_equal(first(&named->answers[1].text), wanted);
        assert_string_equal(first(&named->answers[0].text), "It is bad");
    }
    kit_end(&k);
}

static void lists_are_shared_unless_they_name_the_piece(void **state)
{
    (void)state;
    kit k;
    read_book(&k, 3, 4);
    assert_int_equal(k.book->fix_count, 3);
    for (uint32_t i = 0; i < 3; i++) {
        char wanted[40];
        const fix *f = &k.book->fixes[i];
        assert_int_equal(f->steps.count, 2);
        assert_string_equal(first(&f->steps.items[0]), "Open it");
        assert_string_equal(first(&f->steps.items[1]), "Close it");
        assert_ptr_equal(f->steps.items, k.book->fixes[0].steps.items);
        assert_int_equal(f->parts.count, 2);
        snprintf(wanted, sizeof wanted, "seal of pump number %u", f->of.piece);
        assert_string_equal(first(&f->parts.items[1]), wanted);
        const symptom *s = &k.book->symptoms[i];
        assert_int_equal(s->heard.count, 2);
        assert_true(str_is(s->heard.items[1].plain, "it roars"));
    }
    kit_end(&k);
}

static size_t taken(uint32_t pieces, uint32_t answers)
{
    kit k;
    read_book(&k, pieces, answers);
    const size_t size = arena_size(k.keep) + arena_size(k.scratch);
    kit_end(&k);
    return size;
}

/* Sixty answers more cost about as much for 400 pieces as for two. */
static void memory_does_not_grow_with_both(void **state)
{
    (void)state;
    const size_t of_few = taken(2, 62) - taken(2, 2), of_many = taken(400, 62) - taken(400, 2);
    if (of_many > 2 * of_few) fail_msg("%zu bytes for two pieces, %zu for 400", of_few, of_many);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_piece_has_its_texts),
        cmocka_unit_test(lists_are_shared_unless_they_name_the_piece),
        cmocka_unit_test(memory_does_not_grow_with_both),
    };
    return cmocka_run_group_tests_name("shared reads", tests, NULL, NULL);
}
