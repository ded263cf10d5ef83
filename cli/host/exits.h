/* Exit statuses, once: the program, its help and the manual's list come from this table. */
#ifndef TT_CLI_EXITS_H
#define TT_CLI_EXITS_H

#define EXIT_TABLE(X) \
    X(EXIT_DONE, 0, "done") \
    X(EXIT_PROBLEMS, 1, "check or try found problems; ask ended with somebody to call") \
    X(EXIT_USAGE, 2, "the command was written wrongly") \
    X(EXIT_UNFINISHED, 3, "stopped before the end; the case can be taken up again") \
    X(EXIT_BAD_DATA, 65, "the book, the answers or the case can't be used as they are") \
    X(EXIT_NO_FILE, 66, "no such file or folder") \
    X(EXIT_AWAY, 69, "the database can't be reached") \
    X(EXIT_OUR_BUG, 70, "a fault of the program itself, or no memory left") \
    X(EXIT_CANNOT_CREATE, 73, "a case, a sheet or a book can't be written where it should be") \
    X(EXIT_IO, 74, "reading or writing failed") \
    X(EXIT_BUSY, 75, "the case is open elsewhere") \
    X(EXIT_NOT_ALLOWED, 77, "not allowed to read a file")

#define EXIT_ENUM_ENTRY(name, number, text) name = (number),
typedef enum exit_status { EXIT_TABLE(EXIT_ENUM_ENTRY) } exit_status;
#undef EXIT_ENUM_ENTRY

#endif
