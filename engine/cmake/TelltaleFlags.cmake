# The target telltale_flags carries what every file of ours is compiled with.
#
# An assertion that fails stops the program: a case is synced after every answer, so a stop loses
# nothing, while wrong advice could hurt somebody. That is why no build of ours defines NDEBUG.

foreach(kind IN ITEMS RELEASE RELWITHDEBINFO MINSIZEREL)
    string(REGEX REPLACE "[-/]DNDEBUG" "" CMAKE_C_FLAGS_${kind} "${CMAKE_C_FLAGS_${kind}}")
endforeach()

add_library(telltale_flags INTERFACE)

# No fused multiply-add: the same case gives the same bytes on every machine. gcc's whole -Wshadow
# also refuses a variable named as a type is (cause, question); clang's doesn't.
target_compile_options(telltale_flags INTERFACE
    -ffp-contract=off
    -Wall -Wextra -Wpedantic -Wconversion -Wstrict-prototypes -Wmissing-prototypes
    $<$<C_COMPILER_ID:GNU>:-Wshadow=local> $<$<C_COMPILER_ID:Clang>:-Wshadow>
    -Wvla -Wundef -Wformat-security
    $<$<C_COMPILER_ID:Clang>:-Wno-string-conversion> # assert(!"why this can't be")
    $<$<BOOL:${TELLTALE_WERROR}>:-Werror>)
target_compile_definitions(telltale_flags INTERFACE
    _POSIX_C_SOURCE=200809L
    _XOPEN_SOURCE=700
    $<$<BOOL:${TELLTALE_ARENA_EACH}>:TT_ARENA_EACH>)

target_link_options(telltale_flags INTERFACE LINKER:--as-needed)

if(TELLTALE_SANITIZE)
    target_compile_options(telltale_flags INTERFACE
        -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer -g)
    target_link_options(telltale_flags INTERFACE -fsanitize=address,undefined)
elseif(TELLTALE_HARDEN)
    target_compile_options(telltale_flags INTERFACE
        -fstack-protector-strong
        $<$<NOT:$<CONFIG:Debug>>:-U_FORTIFY_SOURCE>
        $<$<NOT:$<CONFIG:Debug>>:-D_FORTIFY_SOURCE=2>)
    target_link_options(telltale_flags INTERFACE LINKER:-z,relro LINKER:-z,now)
endif()

# The same sources give the same program wherever the checkout lies.
target_compile_options(telltale_flags INTERFACE
    "-ffile-prefix-map=${PROJECT_SOURCE_DIR}/=")
