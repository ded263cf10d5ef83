# Nothing in the engine outlives the objects it is called with: no variable that can change has a place
# of its own. Tables that only hold addresses (.data.rel.ro) are made read-only by the loader.

cmake_minimum_required(VERSION 3.25)

execute_process(COMMAND "${OBJDUMP}" -t "${LIBRARY}"
    RESULT_VARIABLE status OUTPUT_VARIABLE symbols ERROR_VARIABLE error)
if(NOT status EQUAL 0)
    message(FATAL_ERROR "${OBJDUMP} -t ${LIBRARY}: ${status}\n${error}")
endif()
if(NOT symbols MATCHES "F \\.text")
    message(FATAL_ERROR "no function in ${LIBRARY}: was it read at all?")
endif()

string(REGEX MATCHALL "O (\\.data|\\.bss|\\.tdata|\\.tbss|\\*COM\\*)[\t ][^\n]*" variables "${symbols}")
if(variables)
    list(JOIN variables "\n  " text)
    message(FATAL_ERROR "variables that can change:\n  ${text}")
endif()
