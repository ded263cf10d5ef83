# A file's name says which file it is, without its folder: no two sources or scripts share one.

include("${CMAKE_CURRENT_LIST_DIR}/house.cmake")

file(GLOB_RECURSE files RELATIVE "${ROOT}"
    "${ROOT}/engine/*" "${ROOT}/cli/*" "${ROOT}/tests/*")
list(FILTER files INCLUDE REGEX "\\.(c|h|cmake|sh)$|/[^./]+$")
list(SORT files)

foreach(file IN LISTS files)
    cmake_path(GET file FILENAME name)
    if(DEFINED "place_${name}")
        complain("${name}: both ${place_${name}} and ${file}")
    else()
        set("place_${name}" "${file}")
    endif()
endforeach()

report()
