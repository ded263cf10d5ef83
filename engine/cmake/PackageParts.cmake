# When all parts are laid out and before they are packed: what Debian's packages hold beside what is installed, and one date.

if(NOT DEFINED ENV{SOURCE_DATE_EPOCH})
    message(FATAL_ERROR "the day that packages carry is not known")
endif()
set(laid "${CPACK_TEMPORARY_DIRECTORY}")
function(run)
    execute_process(COMMAND ${ARGN} COMMAND_ERROR_IS_FATAL ANY)
endfunction()

function(debian_part part package)
    set(doc "${laid}/${part}/usr/share/doc/${package}")
    file(MAKE_DIRECTORY "${doc}")
    if(NOT part STREQUAL "program")
        file(COPY_FILE "${laid}/program/usr/share/doc/telltale/copyright" "${doc}/copyright")
    endif()
    file(WRITE "${doc}/changelog"
        "telltale (${CPACK_PACKAGE_VERSION}) unstable; urgency=medium\n\n"
        "  * What has changed stands in CHANGELOG.md of the package telltale.\n\n"
        " -- ${CPACK_PACKAGE_CONTACT}  ${day}\n")
    run(gzip -9n "${doc}/changelog")
endfunction()

if(CPACK_GENERATOR STREQUAL "DEB")
    execute_process(COMMAND date -u -R -d "@$ENV{SOURCE_DATE_EPOCH}" OUTPUT_VARIABLE day
        OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
    debian_part(program telltale)
    debian_part(library "${CPACK_DEBIAN_LIBRARY_PACKAGE_NAME}")
    debian_part(development "${CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME}")
    file(GLOB manuals "${laid}/program/usr/share/man/man*/*")
    run(gzip -9n ${manuals})
endif()

run(find "${laid}" -exec touch -h -d "@$ENV{SOURCE_DATE_EPOCH}" {} +)
run(chmod -R u+rwX,go+rX,go-w "${laid}")
