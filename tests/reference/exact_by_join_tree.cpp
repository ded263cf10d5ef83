// Exact marginals of discrete Bayesian networks by a join tree (dlib's): a second opinion for
// test_join_tree.c, which writes the networks and reads what comes out.
//
// In, on standard input, networks one after another until the end:
//   number of nodes
//   for each node: how many values; how many parents, and which (numbers of nodes);
//                  for each combination of their values (the last parent's fastest) the chance of
//                  each value
//   number of nodes that are known, and for each: node, value
// Out: for each node a line with the chance of each value given what is known.
//
// A network must hang together: dlib stops at one that falls apart.
#include <cstdio>
#include <iostream>
#include <vector>

#include <dlib/bayes_utils.h>
#include <dlib/directed_graph.h>
#include <dlib/graph.h>
#include <dlib/graph_utils.h>

using namespace dlib;
using namespace dlib::bayes_node_utils;

typedef directed_graph<bayes_node>::kernel_1a network;
typedef dlib::set<unsigned long>::compare_1b node_set;
typedef graph<node_set, node_set>::kernel_1a join_tree;

struct node_text {
    unsigned long values;
    std::vector<unsigned long> parents;
    std::vector<double> table;
};

static node_text read_node(const std::vector<node_text> &before)
{
    node_text n;
    size_t parents, rows = 1;
    std::cin >> n.values >> parents;
    n.parents.resize(parents);
    for (unsigned long &p : n.parents) {
        std::cin >> p;
        rows *= before.at(p).values; // parents come before their children
    }
    n.table.resize(rows * n.values);
    for (double &chance : n.table) std::cin >> chance;
    return n;
}

static void add_node(network &net, unsigned long index, const node_text &n)
{
    for (unsigned long row = 0; row < n.table.size() / n.values; row++) {
        assignment parents;
        unsigned long rest = row;
        for (size_t i = n.parents.size(); i-- > 0;) {
            unsigned long values = node_num_values(net, n.parents[i]);
            parents.add(n.parents[i], rest % values);
            rest /= values;
        }
        for (unsigned long v = 0; v < n.values; v++)
            set_node_probability(net, index, v, parents, n.table[row * n.values + v]);
    }
}

static void build(network &net, size_t count)
{
    std::vector<node_text> nodes;
    for (size_t i = 0; i < count; i++) nodes.push_back(read_node(nodes));
    net.set_number_of_nodes(count);
    for (size_t i = 0; i < count; i++) {
        set_node_num_values(net, i, nodes[i].values);
        for (unsigned long p : nodes[i].parents) net.add_edge(p, i);
    }
    for (size_t i = 0; i < count; i++) add_node(net, i, nodes[i]);
}

static void read_known(network &net)
{
    unsigned long count, node, value;
    std::cin >> count;
    for (unsigned long i = 0; i < count; i++) {
        std::cin >> node >> value;
        set_node_value(net, node, value);
        set_node_as_evidence(net, node);
    }
}

static void print_marginals(const network &net)
{
    join_tree tree;
    create_moral_graph(net, tree);
    create_join_tree(tree, tree);
    bayesian_network_join_tree solution(net, tree);
    for (unsigned long i = 0; i < net.number_of_nodes(); i++) {
        const matrix<double> chance = solution.probability(i);
        for (long v = 0; v < chance.size(); v++)
            std::printf("%s%.17g", v > 0 ? " " : "", chance(v));
        std::printf("\n");
    }
}

int main()
{
    size_t count;
    while (std::cin >> count) {
        network net;
        build(net, count);
        read_known(net);
        if (!std::cin) return 1;
        print_marginals(net);
    }
    return std::cin.eof() ? 0 : 1;
}
