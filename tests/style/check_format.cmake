# The sources have the form that .clang-format says, as clang-format of one release writes it: another
# release writes some lines otherwise, so that two people's sources would go back and forth.
# `ninja format` writes them so.

include("${CMAKE_CURRENT_LIST_DIR}/house.cmake")

set(release 14)
find_program(clang_format NAMES clang-format-${release} clang-format)
if(clang_format)
    execute_process(COMMAND "${clang_format}" --version OUTPUT_VARIABLE version)
endif()
if(NOT version MATCHES "version ${release}\\.")
    message("skipped: the form of the sources; apt-get install clang-format brings what looks at it (release ${release})")
    return()
endif()

sources_of(files engine cli tests)
list(TRANSFORM files PREPEND "${ROOT}/")
execute_process(COMMAND "${clang_format}" --dry-run --Werror ${files} ERROR_VARIABLE found)
string(REGEX MATCHALL "[^\n]*:[0-9]+:[0-9]+: error" places "${found}")
foreach(place IN LISTS places)
    string(REPLACE "${ROOT}/" "" place "${place}")
    string(REGEX REPLACE ":[0-9]+: error" "" place "${place}")
    complain("${place}: not as clang-format writes it")
endforeach()
list(LENGTH complaints count)
if(count GREATER 20)
    list(SUBLIST complaints 0 20 complaints)
    complain("and ${count} places in all")
endif()

report()
