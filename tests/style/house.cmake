# What the checks of this folder share. Each is run as
#     cmake -DROOT=<repository> -P check_<what>.cmake
# collects every complaint, and fails if there is one.

cmake_minimum_required(VERSION 3.25)

if(NOT IS_DIRECTORY "${ROOT}")
    message(FATAL_ERROR "say which tree to check: -DROOT=<repository>")
endif()

set(complaints "")

macro(complain text)
    list(APPEND complaints "${text}")
endmacro()

macro(report)
    if(complaints)
        list(JOIN complaints "\n  " text)
        message(FATAL_ERROR "\n  ${text}")
    endif()
endmacro()

# The .c and .h files of the named folders, relative to ROOT.
function(sources_of out)
    set(patterns ${ARGN})
    list(TRANSFORM patterns REPLACE "(.+)" "${ROOT}/\\1/*.c;${ROOT}/\\1/*.h" OUTPUT_VARIABLE patterns)
    file(GLOB_RECURSE found RELATIVE "${ROOT}" ${patterns})
    list(SORT found)
    set(${out} ${found} PARENT_SCOPE)
endfunction()

# What a file includes: "name" for our own, <name> for others.
function(includes_of out file)
    file(STRINGS "${ROOT}/${file}" lines REGEX "^[ \t]*#[ \t]*include")
    list(TRANSFORM lines REPLACE "^[ \t]*#[ \t]*include[ \t]*([<\"][^>\"]*[>\"]).*" "\\1")
    set(${out} ${lines} PARENT_SCOPE)
endfunction()
