/* Every diagnostic, once: the enum, `check`, the docs test and docs/faults.md all read this table.
 * T1xx bytes and YAML · T2xx shape and names · T3xx conditions · T4xx numbers and meaning · T5xx compiled tables ·
 * T6xx chaining · T7xx answers and worked cases. A code never changes its meaning; retired codes are not reused. */
#ifndef TT_BASE_FAULT_TABLE_H
#define TT_BASE_FAULT_TABLE_H

/* clang-format off */
#define FAULT_TABLE_LOAD(X) \
    X(NOT_UTF8, "T101", SEVERITY_ERROR, "The file is not UTF-8 text")

#define FAULT_TABLE_MODEL(X)

#define FAULT_TABLE_COMPILE(X) \
    X(NET_NO_WEIGHT, "T501", SEVERITY_ERROR, "No cause ever occurs") \
    X(NET_TOO_BIG, "T502", SEVERITY_ERROR, "Symptoms chain too many questions together") \
    X(NET_SUM_OFF, "T503", SEVERITY_WARNING, "Chances over the answers of one question do not add up") \
    X(NET_OTHERWISE_MUCH, "T504", SEVERITY_WARNING, "'otherwise' leaves little for the usual answer") \
    X(NET_CONTRADICTION, "T505", SEVERITY_WARNING, "Numbers contradict each other") \
    X(NET_UNLISTED_OFF, "T506", SEVERITY_WARNING, "A cause that is not listed shows the symptom all the same")

#define FAULT_TABLE_CHAIN(X) \
    X(LOOP_THROUGH_NOT, "T601", SEVERITY_ERROR, "Rules depend on their own opposite") \
    X(VALUES_CLASH, "T602", SEVERITY_ERROR, "Rules set two values at once") \
    X(CLASH_UNDECIDED, "T603", SEVERITY_WARNING, "Whether two values can meet was not decided")

#define FAULT_TABLE_ANSWERS(X)
/* clang-format on */

#define FAULT_TABLE(X) \
    FAULT_TABLE_LOAD(X) FAULT_TABLE_MODEL(X) FAULT_TABLE_COMPILE(X) FAULT_TABLE_CHAIN(X) FAULT_TABLE_ANSWERS(X)

#endif
