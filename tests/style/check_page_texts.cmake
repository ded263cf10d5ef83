# The page for a phone carries the engine without the texts of desk.*.po and authors.en.po. So nothing that it is made of says one of these.

include("${CMAKE_CURRENT_LIST_DIR}/house.cmake")

set(absent "")
foreach(catalogue IN ITEMS desk authors)
    file(STRINGS "${ROOT}/engine/say/po/${catalogue}.en.po" lines REGEX "^msgid \"[A-Z]")
    list(TRANSFORM lines REPLACE "^msgid \"([A-Z0-9_]+)\"$" "\\1")
    list(APPEND absent ${lines})
endforeach()

file(STRINGS "${ROOT}/cli/page/wasm/CMakeLists.txt" lines REGEX "{top}/cli/.*\\.c\"")
string(REGEX MATCHALL "{top}/cli/[^\"]*\\.c" own "${lines}")
list(TRANSFORM own REPLACE "{top}/" "")
sources_of(sources engine)

foreach(file IN LISTS sources own)
    file(READ "${ROOT}/${file}" text)
    string(REGEX MATCHALL "[A-Z][A-Z0-9]*_[A-Z0-9_]+" named "${text}")
    list(REMOVE_DUPLICATES named)
    foreach(id IN LISTS named)
        if(id IN_LIST absent)
            complain("${file}: says ${id}, which the page for a phone has no text of: move it to people.*.po")
        endif()
    endforeach()
endforeach()

report()
