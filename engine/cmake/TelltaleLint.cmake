# What reads the sources without running them, each a target of its own, by hand: they take minutes, and some of what they say is
# wrong. `lint` runs all that are here.

add_custom_target(lint)
set(linted "${PROJECT_SOURCE_DIR}/engine" "${PROJECT_SOURCE_DIR}/cli")
file(GLOB_RECURSE lint_sources "${PROJECT_SOURCE_DIR}/engine/*.c" "${PROJECT_SOURCE_DIR}/cli/*.c")
list(FILTER lint_sources EXCLUDE REGEX "/page/(wasm/|page_engine\\.c)")

# cppcheck takes log(0) for a mistake, which is minus infinity here, and loses its way in some of our macros.
find_program(TELLTALE_CPPCHECK cppcheck)
if(TELLTALE_CPPCHECK)
    add_custom_target(lint_cppcheck
        COMMAND "${TELLTALE_CPPCHECK}" -j2 --quiet --enable=warning,performance,portability --std=c11 --inline-suppr
            --suppress=missingInclude --suppress=invalidFunctionArg --suppress=internalAstError --suppress=nullPointerRedundantCheck
            "-I${PROJECT_SOURCE_DIR}/engine" "-I${PROJECT_SOURCE_DIR}/cli" ${linted}
        USES_TERMINAL VERBATIM)
    add_dependencies(lint lint_cppcheck)
endif()

# Of clang-tidy's own checks these are wrong about us: parameters that could be swapped (most of ours could); names that the standard keeps
# (of its own macros); results of printf that nobody reads; a sum that is assigned where it is asked for; of two letters the one or the other,
# which C counts as a number in between (-Wconversion looks after the real ones); lists of pointers, which are sorted and grown on purpose;
# the same deed for two reasons in a chain of else; rows of tables, of which a name cannot stand in parentheses; memcpy_s and its like, which
# the C library has not; what asks the system's headers for more (_DEFAULT_SOURCE); the shell for a pager, whose options somebody has set;
# a list of arguments that a caller hands on; bytes that are copied into the middle of a text; fields that stand as they are told, and not as
# they take the least room.
find_program(TELLTALE_CLANG_TIDY NAMES clang-tidy clang-tidy-14)
if(TELLTALE_CLANG_TIDY)
    set(tidy_checks -* bugprone-* cert-* clang-analyzer-*
        -bugprone-easily-swappable-parameters -cert-dcl37-c -cert-err33-c -bugprone-assignment-in-if-condition -bugprone-narrowing-conversions
        -bugprone-sizeof-expression -bugprone-branch-clone -bugprone-macro-parentheses
        -clang-analyzer-security.insecureAPI.DeprecatedOrUnsafeBufferHandling -bugprone-reserved-identifier -cert-dcl51-cpp -cert-env33-c
        -clang-analyzer-valist.Uninitialized -bugprone-not-null-terminated-result
        -clang-analyzer-optin.performance.Padding)
    list(JOIN tidy_checks "," tidy_checks)
    add_custom_target(lint_tidy
        COMMAND "${TELLTALE_CLANG_TIDY}" -p "${PROJECT_BINARY_DIR}" --quiet
            "--checks=${tidy_checks}" --extra-arg=-Wno-unknown-warning-option ${lint_sources}
        USES_TERMINAL VERBATIM)
    add_dependencies(lint lint_tidy)
endif()

# gcc's own, over the engine's folders that own memory or take bytes from outside, as the compiler sees them.
if(CMAKE_C_COMPILER_ID STREQUAL "GNU")
    file(GLOB analysed "${PROJECT_SOURCE_DIR}/engine/base/*.c" "${PROJECT_SOURCE_DIR}/engine/load/*.c" "${PROJECT_SOURCE_DIR}/cli/host/*.c"
        "${PROJECT_SOURCE_DIR}/cli/books/*.c" "${PROJECT_SOURCE_DIR}/cli/depots/*.c")
    list(FILTER analysed EXCLUDE REGEX "/base/str\\.c$") # it does not see that a text with letters has a place: two false alarms
    add_library(lint_gcc OBJECT EXCLUDE_FROM_ALL ${analysed})
    target_include_directories(lint_gcc PRIVATE ${linted} "${PROJECT_BINARY_DIR}/engine/made")
    target_compile_options(lint_gcc PRIVATE -fanalyzer)
    set_target_properties(lint_gcc PROPERTIES EXPORT_COMPILE_COMMANDS OFF) # clang knows no -fanalyzer
    target_compile_definitions(lint_gcc PRIVATE TELLTALE_VERSION="" TELLTALE_RULES_DIR="" TELLTALE_PAGE_DIR="" TELLTALE_BIN_DIR="" TELLTALE_BUG_ADDRESS="")
    target_link_libraries(lint_gcc PRIVATE telltale_flags PCRE2::8BIT LibYAML::LibYAML Utf8proc::Utf8proc LibMD::LibMD)
    add_dependencies(lint_gcc telltale_engine)
    add_dependencies(lint lint_gcc)
endif()

# One version, so that two people's sources don't go back and forth; tests/style/check_format.cmake holds them to it.
find_program(TELLTALE_CLANG_FORMAT NAMES clang-format-14 clang-format)
if(TELLTALE_CLANG_FORMAT)
    file(GLOB_RECURSE formatted "${PROJECT_SOURCE_DIR}/engine/*.[ch]" "${PROJECT_SOURCE_DIR}/cli/*.[ch]" "${PROJECT_SOURCE_DIR}/tests/*.[ch]")
    add_custom_target(format COMMAND "${TELLTALE_CLANG_FORMAT}" -i ${formatted} USES_TERMINAL VERBATIM)
endif()
