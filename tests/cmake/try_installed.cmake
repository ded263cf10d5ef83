# Installs the build into SCRATCH, then is a stranger there: compiles a program against the installed
# header and library as pkg-config tells it to, runs it, and looks at what the library shows.

cmake_minimum_required(VERSION 3.25)

set(prefix "${SCRATCH}/usr")
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

run(ignored "${CMAKE_COMMAND}" --install "${BUILD}" --prefix "${prefix}")

foreach(file IN ITEMS
    include/telltale.h ${LIBDIR}/libtelltale.so ${LIBDIR}/libtelltale.a
    ${LIBDIR}/pkgconfig/telltale.pc ${BINDIR}/telltale)
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

# The shared library shows what the header declares, and nothing else.
run(symbols "${NM}" -D --defined-only "${prefix}/${LIBDIR}/libtelltale.so")
string(REGEX MATCHALL "[^ \n]+(\n|$)" shown "${symbols}")
list(TRANSFORM shown STRIP)
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
