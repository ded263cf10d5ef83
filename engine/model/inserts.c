/* {name}, {name as found, unit}: what an insert in a text asks for. */
#include "model/book.h"

insert insert_parts(str inside)
{
    insert in = {str_trim(inside), STR(""), STR("")};
    size_t comma = str_find_byte(in.name, ',');
    if (comma != SIZE_MAX) {
        in.unit = str_trim(str_slice(in.name, comma + 1, in.name.n));
        in.name = str_trim(str_slice(in.name, 0, comma));
    }
    size_t as = str_find(in.name, STR(" as "));
    if (as != SIZE_MAX) {
        in.when = str_trim(str_slice(in.name, as + 4, in.name.n));
        in.name = str_trim(str_slice(in.name, 0, as));
    }
    return in;
}
