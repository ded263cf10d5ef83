#include "join_tree.h"

#include "testing.h"

uint32_t join_add(join_network *n, const uint32_t *parents, uint32_t parent_count,
                  join_chance chance, const void *context)
{
    assert_true(n->count < JOIN_NODES && parent_count <= JOIN_PARENTS);
    struct join_node *node = &n->nodes[n->count];
    node->parent_count = parent_count;
    for (uint32_t i = 0; i < parent_count; i++) {
        assert_true(parents[i] < n->count);
        node->parents[i] = parents[i];
    }
    for (uint32_t set = 0; set < 1u << parent_count; set++) node->table[set] = chance(context, set);
    n->known[n->count] = JOIN_NOT_KNOWN;
    return n->count++;
}

/* In the file the last parent's value is the fastest; here the first one's is. */
static uint32_t turned_round(uint32_t row, uint32_t bits)
{
    uint32_t set = 0;
    for (uint32_t i = 0; i < bits; i++) set |= (row >> i & 1) << (bits - 1 - i);
    return set;
}

static void write_node(FILE *out, const struct join_node *node)
{
    fprintf(out, "2 %u", node->parent_count);
    for (uint32_t i = 0; i < node->parent_count; i++) fprintf(out, " %u", node->parents[i]);
    fprintf(out, "\n");
    for (uint32_t row = 0; row < 1u << node->parent_count; row++) {
        double chance = node->table[turned_round(row, node->parent_count)];
        fprintf(out, "%.17g %.17g\n", 1 - chance, chance);
    }
}

void join_write(FILE *out, const join_network *n)
{
    uint32_t known = 0;
    fprintf(out, "%u\n", n->count);
    for (uint32_t i = 0; i < n->count; i++) {
        write_node(out, &n->nodes[i]);
        known += n->known[i] != JOIN_NOT_KNOWN;
    }
    fprintf(out, "%u\n", known);
    for (uint32_t i = 0; i < n->count; i++)
        if (n->known[i] != JOIN_NOT_KNOWN) fprintf(out, "%u %u\n", i, n->known[i]);
}

void join_read(FILE *in, const join_network *n, double *chance)
{
    double other;
    for (uint32_t i = 0; i < n->count; i++)
        if (fscanf(in, "%lf %lf", &other, &chance[i]) != 2)
            fail_msg("the join tree says nothing about node %u of %u", i, n->count);
}
