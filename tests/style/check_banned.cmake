# Functions with a safer sister. Names in comments count too: write about them without the bracket.

include("${CMAKE_CURRENT_LIST_DIR}/house.cmake")

set(banned gets sprintf vsprintf strcat strcpy strtok localtime atoi atol atof alloca)
# The engine is handed what it needs, and hands back what it has to say.
set(banned_in_engine ${banned} printf vprintf fprintf vfprintf puts fputs putchar putc fputc fopen
    open getenv setlocale system exit time)

# What opens something outside, which one file of the program does for all.
set(opening open openat creat fopen freopen opendir scandir mkstemp)
set(door cli/host/door.c)

sources_of(files engine cli tests)
foreach(file IN LISTS files)
    if(file MATCHES "^engine/")
        list(JOIN banned_in_engine "|" names)
    elseif(file MATCHES "^cli/" AND NOT file STREQUAL door)
        list(JOIN banned "|" names)
        list(JOIN opening "|" names_of_opening)
        string(APPEND names "|${names_of_opening}")
    else()
        list(JOIN banned "|" names)
    endif()
    file(STRINGS "${ROOT}/${file}" hits REGEX "(^|[^A-Za-z0-9_])(${names})[ \t]*\\(")
    if(hits)
        string(REGEX MATCHALL "(^|[^A-Za-z0-9_])(${names})[ \t]*\\(" calls "${hits}")
        list(TRANSFORM calls REPLACE "[^a-z]" "")
        list(REMOVE_DUPLICATES calls)
        list(JOIN calls ", " calls)
        complain("${file}: ${calls}")
    endif()
endforeach()

report()
