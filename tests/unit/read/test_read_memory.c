/* Memory that ends while a book is read: at each taking once, the reader leaves by the guard
 * and nothing leaks. */
#include "read_kit.h"

#include <stdlib.h>

typedef struct scarce {
    size_t left;
} scarce;

static void *take(void *context, size_t size)
{
    scarce *s = context;
    if (s->left == 0) return NULL;
    s->left--;
    return malloc(size);
}

static void give_back(void *context, void *block)
{
    (void)context;
    free(block);
}

/* Whether the book was read with so many takings from memory. */
static bool read_with(const char *file, size_t takings)
{
    static kit k;
    memset(&k, 0, sizeof k);
    kit plenty;
    kit_begin(&plenty);
    assert_true(kit_add_file(&plenty, str_of(file)));
    kit_add_drawing(&plenty);
    static scarce s;
    s.left = SIZE_MAX;
    memory_source from = {take, give_back, &s};
    k.keep = arena_new(&from, &k.out);
    k.scratch = arena_new(&from, &k.out);
    s.left = takings;
    static bool done;
    done = false;
    if (setjmp(k.out.place) == 0) {
        k.list = faults_new(k.keep);
        k.files = sources_sorted(k.keep, plenty.items, plenty.count);
        const node **roots = load_sources(k.keep, k.scratch, &k.files, k.list);
        book_read(k.keep, k.scratch, &k.files, NO_FILE, roots, k.list);
        done = true;
    }
    kit_end(&k);
    kit_end(&plenty);
    return done;
}

static void sweep(const char *file)
{
    size_t takings = 0;
    while (!read_with(file, takings)) {
        takings += takings < 2000 ? 1 : 7;
        assert_true(takings < 100000);
    }
    assert_true(takings > 2);
}

static void test_memory_ends_in_a_good_book(void **state)
{
    (void)state;
    sweep("full.yaml");
}

static void test_memory_ends_among_equipment(void **state)
{
    (void)state;
    sweep("equipment.yaml");
}

static void test_memory_ends_among_quantities(void **state)
{
    (void)state;
    sweep("quantities.yaml");
}

static void test_memory_ends_in_a_ring_of_quantities(void **state)
{
    (void)state;
    sweep("faults/T445-loop.yaml");
}

static void test_memory_ends_in_a_ring_of_equipment(void **state)
{
    (void)state;
    sweep("faults/T246-order-loop.yaml");
}

static void test_memory_ends_in_a_faulty_book(void **state)
{
    (void)state;
    sweep("twenty/symptoms.yaml");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_memory_ends_in_a_good_book),
        cmocka_unit_test(test_memory_ends_among_equipment),
        cmocka_unit_test(test_memory_ends_in_a_ring_of_equipment),
        cmocka_unit_test(test_memory_ends_among_quantities),
        cmocka_unit_test(test_memory_ends_in_a_ring_of_quantities),
        cmocka_unit_test(test_memory_ends_in_a_faulty_book),
    };
    return cmocka_run_group_tests_name("memory of the book reader", tests, NULL, NULL);
}
