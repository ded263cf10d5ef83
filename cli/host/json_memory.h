/* Memory for the library that reads JSON. */
#ifndef TT_CLI_JSON_MEMORY_H
#define TT_CLI_JSON_MEMORY_H

/* From here on memory that it can't have ends the program, as everywhere in it (plain_text.h). By
 * itself the library goes on: it leaves letters out of a text, and says of what is whole that it is
 * no JSON, so that a record would count as damaged. */
void json_memory_ends_program(void);

#endif
