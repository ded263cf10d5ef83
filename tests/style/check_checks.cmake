# Each check of this folder must see what it is there for: a small tree with every fault in it is
# laid out in SCRATCH, and each check has to complain of the right thing.

cmake_minimum_required(VERSION 3.25)

file(REMOVE_RECURSE "${SCRATCH}")
function(lay file)
    string(JOIN "\n" text ${ARGN})
    file(WRITE "${SCRATCH}/${file}" "${text}\n")
endfunction()

lay(engine/load/upward.h "#include \"session/turn.h\"")
lay(engine/load/foreign.c "#include <yaml.h>")
lay(engine/load/texts.c "#include <jansson.h>")
lay(cli/face/texts.c "#include <jansson.h>")
lay(engine/load/clock.c "#include <time.h>" "#include <sys/time.h>" "#include <stdio.h>")
lay(engine/load/sideways.c "#include \"upward.h\"")
lay(engine/base/ring_a.h "#include \"base/ring_b.h\"")
lay(engine/base/ring_b.h "#include \"base/ring_a.h\"")
lay(engine/elsewhere/lost.c "int lost(void)\;")
lay(engine/telltale.h "#include \"base/ring_a.h\"")
lay(engine/session/turn.h "")
lay(engine/session/shown.c "#include \"face/page.h\"")
lay(cli/host/inside.c "#include \"session/turn.h\"")
lay(cli/host/drawn.c "#include \"face/page.h\"")
lay(cli/face/page.h "")
lay(engine/base/talks.c "void f(void) { printf(t)\; str_printf(t)\; snprintf(t)\; getenv(t)\; }")
lay(cli/verb/talks_too.c "void f(void) { printf(t)\; }")
lay(cli/host/door.c "void f(void) { open(t)\; }")
lay(cli/host/back.c "void f(void) { openat(t)\; reopen(t)\; }")
lay(cli/verb/careless.c "void f(char *t) { strcpy (t, a[0])\; b = snprintf(t)\; }")
lay(tests/unit/careless.c "int x = atoi(s)\;")
lay(tests/unit/sleepy.c "void f(void) { usleep(t)\; }")
lay(tests/unit/sleepy_too.c "static const char c[] = \"sleep 0.3\"\;")
lay(tests/bench/timed.c "void f(void) { clock()\; }")
string(REPEAT "int x\;\n" 501 text)
lay(engine/base/long.c "${text}")
lay(engine/say/po/desk.en.po "msgid \"SHEET_PAGE\"" "msgstr \"x\"")
lay(engine/say/po/authors.en.po "msgid \"LEARN_ALL\"" "msgstr \"x\"")
lay(engine/talk/sheets.c "int x = SHEET_PAGE, y = SHEET_PAGES\;")
lay(cli/page/drawn_page.c "int x = LEARN_ALL\;")
lay(cli/page/wasm/CMakeLists.txt "add_executable(x \"\${top}/cli/page/drawn_page.c\")")
lay(cli/paper/may.c "int x = SHEET_PAGE\;")
lay(docs/outside-checks.md "| what | a lecture of somebody | VERIFIED |" "| what | a handbook | FROM MEMORY |" "| foam | a book | COMPUTED |")
lay(tests/unit/hosted.c "/* stands at somewhere-else.org */" "int x = y.org_of(z)\;" "/* http://www.w3.org/2000/svg */")
lay(.clang-format "BasedOnStyle: LLVM")
lay(stray.txt "")
lay(.hidden "")
lay(out/CMakeCache.txt "")

set(failures "")
# Arguments: the check, then "+pattern" for what it must say and "-pattern" for what it must not.
function(expect check)
    execute_process(COMMAND "${CMAKE_COMMAND}" -DROOT=${SCRATCH}
        -P "${CMAKE_CURRENT_LIST_DIR}/${check}.cmake"
        RESULT_VARIABLE status OUTPUT_VARIABLE said ERROR_VARIABLE said)
    string(REGEX REPLACE "[ \n]+" " " said "${said}")
    if(status EQUAL 0)
        list(APPEND failures "${check} found nothing")
    endif()
    foreach(pattern IN LISTS ARGN)
        string(SUBSTRING "${pattern}" 0 1 sign)
        string(SUBSTRING "${pattern}" 1 -1 words)
        string(FIND "${said}" "${words}" place)
        if((sign STREQUAL "+" AND place LESS 0) OR (sign STREQUAL "-" AND NOT place LESS 0))
            list(APPEND failures "${check}: ${sign} '${words}' in: ${said}")
        endif()
    endforeach()
    set(failures "${failures}" PARENT_SCOPE)
endfunction()

find_program(clang_format NAMES clang-format-14 clang-format)
if(clang_format)
    expect(check_format "+cli/verb/careless.c:1: not as clang-format writes it" "-engine/load/foreign.c")
endif()
expect(check_includes
    "+engine/load/upward.h: load may not include \"session/turn.h\""
    "+engine/load/foreign.c: only engine/load/yaml_nodes.c may see <yaml.h>"
    "+engine/load/texts.c: only engine/show/json.c, cli/host/json_memory.c may see <jansson.h>"
    "+cli/face/texts.c: only engine/show/json.c, cli/host/json_memory.c may see <jansson.h>"
    "+engine/load/clock.c: the engine may not see <time.h>"
    "+engine/load/clock.c: the engine may not see <sys/time.h>"
    "-stdio"
    "+engine/load/sideways.c: \"upward.h\" should be written from engine/ or cli/"
    "+engine/elsewhere/lost.c: include-table.txt has no line for elsewhere"
    "+engine/telltale.h: the public face includes nothing of ours"
    "+cli/host/inside.c: host may not include \"session/turn.h\""
    "+cli/host/drawn.c: host may not include \"face/page.h\""
    "-cli/face/page.h: "
    "+engine/session/shown.c: session may not include \"face/page.h\""
    "+include each other, or need one of those: base/ring_a.h;base/ring_b.h"
    "-turn.h: ")
expect(check_banned
    "+cli/verb/careless.c: strcpy"
    "+tests/unit/careless.c: atoi"
    "+tests/unit/sleepy.c: usleep"
    "+tests/unit/sleepy_too.c: sleep, in a command"
    "-timed"
    "+engine/base/talks.c: printf, getenv"
    "+cli/host/back.c: openat "
    "-talks_too" "-sprintf" "-door.c")
expect(check_names "+careless.c: both cli/verb/careless.c and tests/unit/careless.c" "-long.c")
expect(check_page_texts
    "+engine/talk/sheets.c: says SHEET_PAGE, which"
    "+cli/page/drawn_page.c: says LEARN_ALL, which"
    "-may.c" "-SHEET_PAGES")
expect(check_sources
    "+lecture, in"
    "+from memory, in"
    "+hosted.c: a host: /* stands at somewhere-else.org */"
    "-a book" "-org_of" "-w3.org")
expect(check_size "+engine/base/long.c: 502 lines" "-careless")
expect(check_top_level "+stray.txt is not" "+README.md is missing" "-hidden" "-out")

if(failures)
    list(JOIN failures "\n  " text)
    message(FATAL_ERROR "\n  ${text}")
endif()
