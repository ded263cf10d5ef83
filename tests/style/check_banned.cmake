# Functions with a safer sister. Names in comments count too: write about them without the bracket.

include("${CMAKE_CURRENT_LIST_DIR}/house.cmake")

set(banned gets sprintf vsprintf strcat strcpy strtok localtime atoi atol atof alloca)
# The engine is handed what it needs, and hands back what it has to say.
set(banned_in_engine ${banned} printf vprintf fprintf vfprintf puts fputs putchar putc fputc fopen
    open getenv setlocale system exit time)

# A test waits for what happens, never for a time (tests/support/window.h), and counts work, not time.
set(banned_in_tests ${banned} sleep usleep nanosleep clock_nanosleep alarm setitimer clock)
set(sleep_of_a_shell "(^|[^A-Za-z0-9_])(sleep|timeout) [0-9]")

# What opens something outside, or lists it, which one file of the program does for all.
set(opening open openat creat fopen freopen opendir readdir scandir mkstemp tmpfile)
set(door cli/host/door.c)

sources_of(files engine cli tests)
foreach(file IN LISTS files)
    if(file MATCHES "^engine/")
        list(JOIN banned_in_engine "|" names)
    elseif(file MATCHES "^cli/" AND NOT file STREQUAL door)
        list(JOIN banned "|" names)
        list(JOIN opening "|" names_of_opening)
        string(APPEND names "|${names_of_opening}")
    elseif(file MATCHES "^tests/" AND NOT file MATCHES "^tests/bench/")
        list(JOIN banned_in_tests "|" names)
        file(STRINGS "${ROOT}/${file}" sleeps REGEX "${sleep_of_a_shell}")
        if(sleeps)
            complain("${file}: sleep, in a command")
        endif()
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
