# The top level tells what the project is made of: exactly these, and dot files. Folders somebody
# builds in are passed over.

include("${CMAKE_CURRENT_LIST_DIR}/house.cmake")

set(expected CMakeLists.txt DEVELOPERS.md LICENSE README.md cli docs engine rules tests)

file(GLOB found LIST_DIRECTORIES YES RELATIVE "${ROOT}" "${ROOT}/*")
list(FILTER found EXCLUDE REGEX "^\\.")
foreach(name IN LISTS found)
    if(NOT name IN_LIST expected AND NOT EXISTS "${ROOT}/${name}/CMakeCache.txt")
        complain("${name} is not on the list of what stands at the top level")
    endif()
endforeach()
foreach(name IN LISTS expected)
    if(NOT name IN_LIST found)
        complain("${name} is missing")
    endif()
endforeach()

report()
