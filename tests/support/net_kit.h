/* Networks for tests, written by hand: findings, causes and symptoms added one by one, then built.
 */
#ifndef TT_SUPPORT_NET_KIT_H
#define TT_SUPPORT_NET_KIT_H

#include "compile/net.h"

enum { NET_KIT_ROOM = 64 };

typedef struct net_kit {
    arena *keep, *scratch;
    faults *list;
    net_finding findings[NET_KIT_ROOM];
    net_symptom symptoms[NET_KIT_ROOM];
    net_rate rates[NET_KIT_ROOM][NET_KIT_ROOM]; /* [symptom] */
    str causes[NET_KIT_ROOM];
    double weights[NET_KIT_ROOM];
    net_input in; /* 3 % not listed, 5 % with two faults */
} net_kit;

net_kit *net_kit_new(void);
void net_kit_free(net_kit *k);

/* Reliability 0.95, no usual state. Returns the finding. */
uint32_t net_kit_finding(net_kit *k, const char *name, uint32_t states);
uint32_t net_kit_cause(net_kit *k, const char *name, double weight);
const expr *net_kit_is(net_kit *k, uint32_t finding, uint32_t state);
/* Its place is bytes [10 i, 10 i + 9) of file 0 for symptom i. */
uint32_t net_kit_symptom(net_kit *k, const char *name, const expr *when, double otherwise);
void net_kit_list(net_kit *k, uint32_t symptom, uint32_t cause, double chance);

/* Builds with the kit's list of faults. */
const net *net_kit_build(net_kit *k);

#endif
