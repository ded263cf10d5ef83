# What a check rests on is a standard, a handbook, a paper, a book or open data, named in full, or it is computed here: nothing that
# may be gone tomorrow, or that nobody answers for.

include("${CMAKE_CURRENT_LIST_DIR}/house.cmake")

# The page has each block of the tests (docs/test_docs_checks.c) in one line.
set(page docs/outside-checks.md)
if(EXISTS "${ROOT}/${page}")
    file(STRINGS "${ROOT}/${page}" rows REGEX "^\\| ")
    foreach(row IN LISTS rows)
        string(TOLOWER "${row}" row)
        foreach(word IN ITEMS blog forum lecture slides wiki www. "from memory" tutorial stackexchange)
            string(FIND "${row}" "${word}" place)
            if(NOT place LESS 0)
                complain("${page}: ${word}, in ${row}")
            endif()
        endforeach()
    endforeach()
endif()

# Hosts. Those of an XML namespace, and those that are set apart for examples, lead nowhere.
sources_of(files tests)
foreach(file IN LISTS files)
    file(STRINGS "${ROOT}/${file}" lines REGEX "([a-z0-9-]+\\.)+(com|org|pl|info|edu|gov|io)([^a-z0-9_(]|$)")
    list(FILTER lines EXCLUDE REGEX "www\\.w3\\.org|\\.example|example\\.(com|org)")
    foreach(line IN LISTS lines)
        string(STRIP "${line}" line)
        complain("${file}: a host: ${line}")
    endforeach()
endforeach()

report()
