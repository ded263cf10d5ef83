# A source file that goes past 500 lines has become two files.

include("${CMAKE_CURRENT_LIST_DIR}/house.cmake")

set(most_lines 500)

sources_of(files engine cli)
foreach(file IN LISTS files)
    file(READ "${ROOT}/${file}" text)
    string(REPLACE "\n" "" joined "${text}")
    string(LENGTH "${text}" length)
    string(LENGTH "${joined}" without_breaks)
    math(EXPR lines "${length} - ${without_breaks}")
    if(lines GREATER most_lines)
        complain("${file}: ${lines} lines, the most is ${most_lines}")
    endif()
endforeach()

report()
