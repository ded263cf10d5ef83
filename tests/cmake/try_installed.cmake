# Installs the build into SCRATCH, moves it elsewhere, then is a stranger there: has the program find what came with it, compiles
# a program against the header and library as pkg-config and CMake tell it to, runs it, and looks at what the library shows.

cmake_minimum_required(VERSION 3.25)

set(prefix "${SCRATCH}/moved-elsewhere/usr")
file(REMOVE_RECURSE "${SCRATCH}")

function(run out)
    execute_process(COMMAND ${ARGN}
        RESULT_VARIABLE status OUTPUT_VARIABLE text ERROR_VARIABLE error)
    if(NOT status EQUAL 0)
        list(JOIN ARGN " " command)
        message(FATAL_ERROR "${command}: ${status}\n${text}${error}")
    endif()
    string(STRIP "${text}" text)
    set(${out} "${text}" PARENT_SCOPE)
endfunction()

run(ignored "${CMAKE_COMMAND}" --install "${BUILD}" --prefix "${SCRATCH}/first/usr")
file(RENAME "${SCRATCH}/first" "${SCRATCH}/moved-elsewhere")

foreach(file IN ITEMS
    include/telltale.h ${LIBDIR}/libtelltale.so ${LIBDIR}/libtelltale.a
    ${LIBDIR}/pkgconfig/telltale.pc ${BINDIR}/telltale ${LIBDIR}/cmake/telltale/telltale-config.cmake
    share/bash-completion/completions/telltale share/zsh/vendor-completions/_telltale share/fish/vendor_completions.d/telltale.fish
    share/man/man1/telltale.1 share/man/man5/telltale-book.5
    share/doc/telltale/copyright share/doc/telltale/libraries.txt share/doc/telltale/CHANGELOG.md share/doc/telltale/language.md
    share/telltale/schemas/book.schema.json share/telltale/cases.sql)
    if(NOT EXISTS "${prefix}/${file}")
        message(FATAL_ERROR "not installed: ${file}")
    endif()
endforeach()

# Every book of the source tree, whole.
file(GLOB_RECURSE ours RELATIVE "${SOURCE}/rules" "${SOURCE}/rules/*.yaml" "${SOURCE}/rules/*.svg")
file(GLOB_RECURSE theirs RELATIVE "${prefix}/share/telltale/rules"
    "${prefix}/share/telltale/rules/*.yaml" "${prefix}/share/telltale/rules/*.svg")
if(NOT ours STREQUAL theirs)
    message(FATAL_ERROR "rules/ and what is installed of it differ:\n${ours}\n${theirs}")
endif()

# Of every library that the program is linked with, its licence.
file(READ "${prefix}/share/doc/telltale/libraries.txt" licences)
foreach(library IN ITEMS pcre2 libyaml utf8proc jansson libmd liblzma)
    if(NOT licences MATCHES "\n==== ${library} ====\n\n[^\n]")
        message(FATAL_ERROR "libraries.txt lacks the licence of ${library}")
    endif()
endforeach()

# No place is written into anything but the one that whoever set up the build has named.
file(GLOB_RECURSE everything "${prefix}/*")
foreach(file IN LISTS everything)
    if(IS_ABSOLUTE "${RULES}" AND file MATCHES "/${BINDIR}/telltale$")
        continue()
    endif()
    foreach(place IN ITEMS "${SOURCE}" "${BUILD}")
        execute_process(COMMAND grep -qF "${place}" "${file}" RESULT_VARIABLE status)
        if(status EQUAL 0)
            message(FATAL_ERROR "${file} names ${place}")
        endif()
    endforeach()
endforeach()

# Where the page's engine is built, a page of each book to practise with.
if(PAGES)
    file(GLOB books RELATIVE "${SOURCE}/rules" "${SOURCE}/rules/*/book.yaml")
    foreach(book IN LISTS books)
        cmake_path(GET book PARENT_PATH book)
        if(NOT EXISTS "${prefix}/share/telltale/page/${book}.html")
            message(FATAL_ERROR "not installed: the page of ${book}")
        endif()
    endforeach()
endif()

run(version "${prefix}/${BINDIR}/telltale" --version)
if(NOT version MATCHES "^telltale ${VERSION}(\n|$)")
    message(FATAL_ERROR "telltale --version says: ${version}")
endif()

# The books that came along are found by their names, wherever one stands, and the examples of the help work.
file(MAKE_DIRECTORY "${SCRATCH}/somewhere")
function(run_there out)
    execute_process(COMMAND "${prefix}/${BINDIR}/telltale" ${ARGN} WORKING_DIRECTORY "${SCRATCH}/somewhere"
        RESULT_VARIABLE status OUTPUT_VARIABLE text ERROR_VARIABLE text)
    if(NOT status EQUAL 0)
        message(FATAL_ERROR "telltale ${ARGN}: ${status}\n${text}")
    endif()
    set(${out} "${text}" PARENT_SCOPE)
endfunction()
foreach(book IN ITEMS foam-line dosing-and-pumping standby-generator)
    run_there(said check ${book})
    if(NOT said MATCHES "No faults")
        message(FATAL_ERROR "telltale check ${book}: ${said}")
    endif()
endforeach()
file(WRITE "${SCRATCH}/somewhere/answers.yaml" "danger: safe\n")
run_there(ignored rank foam-line answers.yaml --json)
run_there(said complete -- check f)
if(NOT said MATCHES "^foam-line\t")
    message(FATAL_ERROR "telltale complete -- check f: ${said}")
endif()
if(PAGES)
    run_there(ignored page foam-line --into foam.html)
endif()

# Programs find it by a name that changes with its structs.
if(READELF)
    run(dynamic "${READELF}" -d "${prefix}/${LIBDIR}/libtelltale.so")
    if(dynamic MATCHES "SONAME" AND NOT dynamic MATCHES "\\[libtelltale\\.so\\.${KEEPS_TO}\\]")
        message(FATAL_ERROR "libtelltale.so is not looked for as libtelltale.so.${KEEPS_TO}: ${dynamic}")
    endif()
    if(KEEPS_TO EQUAL 0)
        message(FATAL_ERROR "the structs of edition 0.x may grow: the name has to hold the minor number")
    endif()
endif()

# The shared library shows what the header declares, and nothing else.
run(symbols "${NM}" -D --defined-only "${prefix}/${LIBDIR}/libtelltale.so")
string(REGEX MATCHALL "[^ \n]+(\n|$)" shown "${symbols}")
list(TRANSFORM shown STRIP)
if(VERSIONED)
    foreach(name IN LISTS shown)
        if(NOT name MATCHES "^(tt_[a-z0-9_]+@@)?TELLTALE_0$")
            message(FATAL_ERROR "libtelltale.so shows ${name}, without its version")
        endif()
    endforeach()
endif()
list(FILTER shown EXCLUDE REGEX "^TELLTALE_0$")
list(TRANSFORM shown REPLACE "@@.*" "")
file(GLOB headers "${SOURCE}/engine/*.h")
set(header "")
foreach(file IN LISTS headers)
    cmake_path(GET file FILENAME name)
    file(READ "${prefix}/include/${name}" part)
    string(APPEND header "${part}")
endforeach()
string(REGEX MATCHALL "TT_PUBLIC [^(;]*[ *]tt_[a-z0-9_]+\\(" declared "${header}")
list(TRANSFORM declared REPLACE ".*[ *](tt_[a-z0-9_]+)\\($" "\\1")
foreach(name IN LISTS shown)
    if(NOT name IN_LIST declared)
        message(FATAL_ERROR "libtelltale.so shows ${name}, which telltale.h does not declare")
    endif()
endforeach()
foreach(name IN LISTS declared)
    if(NOT name IN_LIST shown)
        message(FATAL_ERROR "telltale.h declares ${name}, which libtelltale.so does not have")
    endif()
endforeach()
if(NOT declared)
    message(FATAL_ERROR "telltale.h declares nothing")
endif()

# A stranger's program.
set(ENV{PKG_CONFIG_PATH} "${prefix}/${LIBDIR}/pkgconfig")
run(flags pkg-config --cflags --libs telltale)
separate_arguments(flags UNIX_COMMAND "${flags}")
file(WRITE "${SCRATCH}/stranger.c" "
#include <telltale.h>
int main(void)
{
    const tt_source nothing = {\"empty.yaml\", \"\", 0};
    tt_book *book = 0;
    tt_report *report = 0;
    tt_status status = tt_book_load(&nothing, 1, &book, &report);
    int refused = status == TT_FAULTY && tt_report_errors(report) > 0 && book == 0;
    tt_report_free(report);
    tt_book_free(book);
    tt_document *data = 0;
    if (tt_document_read(\"{\\\"title\\\":\\\"well\\\"}\", 16, 100, &data) != TT_OK) return 2;
    const tt_record begin = {\"east\", 1, 1, \"2026-11-29T08:00:00Z\", 0, \"begin\", tt_document_value(data)};
    tt_journal *journal = 0;
    tt_case_summary summary = {0};
    if (tt_journal_new(&begin, 1, 0, &journal) != TT_OK || tt_journal_summary(journal, &summary) != TT_OK) return 3;
    int open = summary.state == TT_CASE_OPEN && summary.title[0] == 'w';
    tt_journal_free(journal);
    tt_document_free(data);
    return refused && open ? 0 : 1;
}
")
run(ignored "${COMPILER}" -std=c11 -Wall -Wextra -Wpedantic -Werror
    "${SCRATCH}/stranger.c" -o "${SCRATCH}/stranger" ${flags} "-Wl,-rpath,${prefix}/${LIBDIR}")
run(ignored "${SCRATCH}/stranger")

# The same with CMake's package.
file(WRITE "${SCRATCH}/project/CMakeLists.txt" "
cmake_minimum_required(VERSION 3.25)
project(stranger LANGUAGES C)
find_package(telltale ${VERSION} REQUIRED)
add_executable(stranger ../stranger.c)
target_link_libraries(stranger PRIVATE telltale::telltale)
")
run(ignored "${CMAKE_COMMAND}" -S "${SCRATCH}/project" -B "${SCRATCH}/project/build" "-DCMAKE_C_COMPILER=${COMPILER}"
    "-DCMAKE_PREFIX_PATH=${prefix}")
run(ignored "${CMAKE_COMMAND}" --build "${SCRATCH}/project/build")
run(ignored "${SCRATCH}/project/build/stranger")
