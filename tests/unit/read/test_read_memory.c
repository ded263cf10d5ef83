/* Memory that ends while a book is read: at each taking, the reader leaves by the guard
 * and nothing leaks. */
#include "read_kit.h"

#include "memory_sweep.h"

static bool reads_it(void *of, arena *keep, arena *scratch)
{
    const kit *k = of;
    faults *list = faults_new(keep);
    const sources files = sources_sorted(keep, k->items, k->count);
    const node **roots = load_sources(keep, scratch, &files, list);
    book_read(keep, scratch, &files, NO_FILE, roots, list);
    return true; /* also a faulty one is read to its end */
}

static void sweep(const char *file)
{
    kit k;
    kit_begin(&k);
    assert_true(kit_add_file(&k, str_of(file)));
    kit_add_drawing(&k);
    memory_sweeps(reads_it, &k);
    kit_end(&k);
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
