/* The example site of the foam line a year old: rounds, records of what is good, faults, and things
 * that came back. All of it is invented. It is led through the conversation, so that its records
 * are what a year of calls leaves behind; the same, byte for byte, each time. */
#ifndef TT_SUPPORT_EXAMPLE_YEAR_H
#define TT_SUPPORT_EXAMPLE_YEAR_H

/* Its cases, as they lie in a folder of cases. */
void write_example_year(const char *folder);

#endif
