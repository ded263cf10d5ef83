# The licences of what is linked, as one file to install: made where the build is set up, of the texts that lie with the libraries
# there, so that they are those of the very versions. What a page carries is built from sources: there, of those.

set(licences "${PROJECT_BINARY_DIR}/libraries.txt")
set(text "What Telltale is linked with, and under which licences. Its own stands in the file copyright beside this one.\n")

function(telltale_add_licence name)
    set(found "")
    foreach(pattern IN LISTS ARGN)
        file(GLOB files "${pattern}")
        list(SORT files)
        list(APPEND found ${files})
    endforeach()
    list(POP_FRONT found file)
    if(file)
        file(READ "${file}" words)
        string(STRIP "${words}" words)
    else()
        set(words "(Its text was not on the machine that built this; it lies with the library.)")
    endif()
    string(APPEND text "\n\n==== ${name} ====\n\n${words}\n")
    set(text "${text}" PARENT_SCOPE)
endfunction()

foreach(library IN ITEMS pcre2 libyaml utf8proc jansson libmd liblzma libpq)
    if(library STREQUAL "libpq" AND NOT TELLTALE_DATABASE)
        continue()
    endif()
    string(REGEX REPLACE "^lib" "" package "${library}")
    string(PREPEND package lib)
    telltale_add_licence("${library}"
        "${TELLTALE_PAGE_LIBRARIES}/${library}-[0-9]*/LICEN[CS]E*" "${TELLTALE_PAGE_LIBRARIES}/${library}-[0-9]*/License*"
        "${TELLTALE_PAGE_LIBRARIES}/${library}-[0-9]*/COPYING*"
        "/usr/share/doc/${package}[0-9]/copyright" "/usr/share/doc/${package}-[0-9]*/copyright" "/usr/share/doc/${package}-dev/copyright")
endforeach()
if(TELLTALE_PAGE_LIBRARIES)
    telltale_add_licence("wasi-libc, in the page for a phone" "/usr/share/doc/wasi-libc/copyright")
endif()
file(WRITE "${licences}" "${text}")
