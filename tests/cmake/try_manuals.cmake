# The manual pages are clean for two programs that read them.

cmake_minimum_required(VERSION 3.25)

find_program(mandoc mandoc)
find_program(man man)
file(GLOB pages "${SOURCE}/docs/*.1" "${SOURCE}/docs/*.5")
set(complaints "")
foreach(page IN LISTS pages)
    if(mandoc) # whether the pages that are referred to are installed on this machine says nothing of ours
        execute_process(COMMAND "${mandoc}" -Tlint -Wstyle "${page}" OUTPUT_VARIABLE said ERROR_VARIABLE said)
        string(REGEX REPLACE "[^\n]*referenced manual not found[^\n]*\n" "" said "${said}")
        string(APPEND complaints "${said}")
    endif()
    if(man)
        execute_process(COMMAND "${CMAKE_COMMAND}" -E env LC_ALL=C.UTF-8 "${man}" --warnings -E UTF-8 -l -Tutf8 -Z "${page}"
            OUTPUT_QUIET ERROR_VARIABLE said)
        string(APPEND complaints "${said}")
    endif()
endforeach()
if(complaints)
    message(FATAL_ERROR "\n${complaints}")
endif()
if(NOT mandoc)
    message("skipped: what mandoc says of the manual pages; apt-get install mandoc brings it")
endif()
