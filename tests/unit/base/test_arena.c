#include "testing.h"

#include "base/arena.h"
#include "failing_memory.h"

/* Where every taking is a block of its own, none is kept. */
#ifdef TT_ARENA_EACH
enum { KEEPS = false };
#else
enum { KEEPS = true };
#endif

static void memory_is_zeroed_aligned_and_apart(void **state)
{
    (void)state;
    arena *a = arena_new(NULL, NULL);
    unsigned char *blocks[300];
    for (size_t i = 0; i < 300; i++) {
        size_t size = (i * 37) % 700 + 1;
        blocks[i] = arena_try(a, size);
        assert_non_null(blocks[i]);
        assert_int_equal((uintptr_t)blocks[i] % 16, 0);
        for (size_t b = 0; b < size; b++) assert_int_equal(blocks[i][b], 0);
        memset(blocks[i], (int)(i % 251) + 1, size);
    }
    for (size_t i = 0; i < 300; i++) {
        size_t size = (i * 37) % 700 + 1;
        for (size_t b = 0; b < size; b++) assert_int_equal(blocks[i][b], (int)(i % 251) + 1);
    }
    arena_free(a);
}

static void nothing_and_a_lot_can_be_taken(void **state)
{
    (void)state;
    arena *a = arena_new(NULL, NULL);
    assert_non_null(arena_try(a, 0));
    char *large = arena_try(a, 5000000);
    assert_non_null(large);
    large[4999999] = 1;
    assert_true(arena_size(a) >= 5000000);
    assert_null(arena_try(a, SIZE_MAX));
    assert_null(arena_try(a, SIZE_MAX / 2 + 1));
    arena_free(a);
    arena_free(NULL);
}

/* What it was is asked for no second time, and all of it is given back in the end. */
static void going_back_makes_room(void **state)
{
    (void)state;
    failing_memory m = {0};
    memory_source memory = failing_memory_source(&m);
    arena *a = arena_new(&memory, NULL);
    arena_mark empty = arena_here(a);
    char *kept = arena_try(a, 10);
    kept[0] = 'k';
    arena_mark mark = arena_here(a);
    size_t size = arena_size(a), live = m.live, takings = 0;
    for (int round = 0; round < 3; round++) {
        for (int i = 0; i < 100; i++) memset(arena_try(a, 1000), 0xFF, 1000);
        assert_true(m.live > live);
        if (KEEPS && round > 0) assert_int_equal(m.takings, takings);
        takings = m.takings;
        arena_back_to(a, mark);
        if (!KEEPS) assert_int_equal(m.live, live);
        assert_int_equal(arena_size(a), size);
        assert_int_equal(kept[0], 'k');
    }
    const char *again = arena_try(a, 1000);
    for (int i = 0; i < 1000; i++) assert_int_equal(again[i], 0);
    arena_back_to(a, empty);
    assert_int_equal(arena_size(a), 0);
    assert_non_null(arena_try(a, 10)); /* also when nothing was left of it */
    if (KEEPS) assert_int_equal(m.takings, takings);
    arena_free(a);
    assert_int_equal(m.live, 0);
}

/* Not of more than a few large blocks; what comes next is zeroed as if they were new. */
static void going_back_keeps_large_blocks(void **state)
{
    enum { TIMES = 40, EACH = 700000 };
    (void)state;
    failing_memory m = {0};
    memory_source memory = failing_memory_source(&m);
    arena *a = arena_new(&memory, NULL);
    assert_non_null(arena_try(a, 10));
    const arena_mark mark = arena_here(a);
    const size_t size = arena_size(a);
    size_t kept = 0, asked = 0;
    for (int round = 0; round < 3; round++) {
        const size_t before = m.takings;
        for (int i = 0; i < TIMES; i++) {
            unsigned char *taken = arena_try(a, EACH);
            for (size_t b = 0; b < EACH; b += 1000) assert_int_equal(taken[b], 0);
            memset(taken, 0xFF, EACH);
        }
        arena_back_to(a, mark);
        assert_int_equal(arena_size(a), size);
        if (round > 0) assert_int_equal(m.live, kept);
        if (KEEPS && round > 0) assert_true(m.takings - before < asked);
        if (round == 0) asked = m.takings - before;
        kept = m.live;
        assert_true(kept < TIMES / 2);
    }
    arena_free(a);
    assert_int_equal(m.live, 0);
}

/* What is taken of the system in large pages: zeroed, aligned and apart as all else. */
static void much_can_be_taken_in_pieces(void **state)
{
    enum { PIECES = 64, EACH = 150001 };
    (void)state;
    arena *a = arena_new(NULL, NULL);
    const arena_mark empty = arena_here(a);
    unsigned char *pieces[PIECES];
    for (int round = 0; round < 2; round++) {
        for (size_t i = 0; i < PIECES; i++) {
            pieces[i] = arena_try(a, EACH);
            assert_non_null(pieces[i]);
            assert_int_equal((uintptr_t)pieces[i] % 16, 0);
            for (size_t b = 0; b < EACH; b++) assert_int_equal(pieces[i][b], 0);
            memset(pieces[i], (int)i + 1, EACH);
        }
        for (size_t i = 0; i < PIECES; i++)
            for (size_t b = 0; b < EACH; b++) assert_int_equal(pieces[i][b], (int)i + 1);
        arena_back_to(a, empty);
        assert_int_equal(arena_size(a), 0);
    }
    arena_free(a);
}

static void no_memory_for_the_arena_itself(void **state)
{
    (void)state;
    failing_memory m = {.fail_at = 1};
    memory_source memory = failing_memory_source(&m);
    assert_null(arena_new(&memory, NULL));
    assert_int_equal(m.live, 0);
}

/* Takes until memory ends; true if it left by the guard. */
static bool left_by_guard(failing_memory *m, bool array)
{
    memory_source memory = failing_memory_source(m);
    guard way_out;
    arena *volatile a = arena_new(&memory, &way_out);
    assert_non_null(a);
    if (setjmp(way_out.place)) {
        arena_free(a);
        return true;
    }
    if (array)
        arena_take_array(a, SIZE_MAX / 4, 16);
    else
        arena_take(a, 100);
    arena_free(a);
    return false;
}

static void out_of_memory_leaves_by_the_guard(void **state)
{
    (void)state;
    failing_memory none = {0}, first_block = {.fail_at = 2}, product = {0};
    assert_false(left_by_guard(&none, false));
    assert_true(left_by_guard(&first_block, false));
    assert_true(left_by_guard(&product, true));
    assert_int_equal(none.live + first_block.live + product.live, 0);
}

static void a_null_from_try_leaves_the_arena_whole(void **state)
{
    (void)state;
    failing_memory m = {.fail_at = 2};
    memory_source memory = failing_memory_source(&m);
    arena *a = arena_new(&memory, NULL);
    assert_null(arena_try(a, 64));
    assert_int_equal(arena_size(a), 0);
    assert_non_null(arena_try(a, 64));
    arena_free(a);
    assert_int_equal(m.live, 0);
}

static void the_guard_can_be_changed_for_a_while(void **state)
{
    (void)state;
    guard outer, inner;
    arena *a = arena_new(NULL, &outer);
    assert_ptr_equal(arena_guard(a, &inner), &outer);
    volatile bool left = false;
    if (setjmp(inner.place))
        left = true;
    else
        arena_leave(a);
    assert_true(left);
    assert_ptr_equal(arena_guard(a, &outer), &inner);
    arena_free(a);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(memory_is_zeroed_aligned_and_apart),
        cmocka_unit_test(nothing_and_a_lot_can_be_taken),
        cmocka_unit_test(going_back_makes_room),
        cmocka_unit_test(going_back_keeps_large_blocks),
        cmocka_unit_test(much_can_be_taken_in_pieces),
        cmocka_unit_test(no_memory_for_the_arena_itself),
        cmocka_unit_test(out_of_memory_leaves_by_the_guard),
        cmocka_unit_test(a_null_from_try_leaves_the_arena_whole),
        cmocka_unit_test(the_guard_can_be_changed_for_a_while),
    };
    return cmocka_run_group_tests_name("arena", tests, NULL, NULL);
}
