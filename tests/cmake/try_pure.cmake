# The engine is handed all that it needs: what its objects call of others is arithmetic, texts, memory and the libraries that read texts. No file, no
# descriptor, no clock, no locale, no environment; so the same conversation runs wherever its host is. What is allowed stands here, each
# with its reason; anything else fails.

cmake_minimum_required(VERSION 3.25)

set(allowed
    # memory, texts, sorting; that a block is to be a large page, where there are any, changes nothing but what it costs
    malloc calloc free aligned_alloc madvise qsort "mem(chr|cmp|cpy|move|set)" "str(chr|cmp|cspn|len|pbrk|rchr|spn|str|ncmp)" strtod strtol strtoull snprintf vsnprintf
    # arithmetic
    exp expm1 log log1p log2 log10 pow sqrt fmax fmin floor ceil fabs round lround llround __popcountdi2
    # leaving by one door, and assertions
    _setjmp setjmp longjmp __longjmp_chk __assert_fail __stack_chk_fail
    # fortified sisters of the same
    "__(memcpy|memmove|memset|snprintf|vsnprintf)_chk"
    _GLOBAL_OFFSET_TABLE_
    # libraries that read texts
    "json_[a-z_]+" "pcre2_[a-z_0-9]+" "utf8proc_[a-z_]+" "yaml_[a-z_]+" "SHA256(Init|Update|Final)")
list(JOIN allowed "|" pattern)

function(symbols_of out)
    execute_process(COMMAND "${NM}" ${ARGN} "${LIBRARY}" RESULT_VARIABLE status OUTPUT_VARIABLE text ERROR_VARIABLE error)
    if(NOT status EQUAL 0)
        message(FATAL_ERROR "${NM} ${LIBRARY}: ${status}\n${error}")
    endif()
    string(REGEX MATCHALL "[^\n]+" lines "${text}")
    set(names "")
    foreach(line IN LISTS lines)
        if(line MATCHES " ([A-Za-z_.0-9]+)$") # not the name of an object, which ends in a colon
            list(APPEND names "${CMAKE_MATCH_1}")
        endif()
    endforeach()
    list(REMOVE_DUPLICATES names)
    set(${out} "${names}" PARENT_SCOPE)
endfunction()

symbols_of(needed --undefined-only)
symbols_of(defined --defined-only)
list(LENGTH needed count)
if(count LESS 20)
    message(FATAL_ERROR "${LIBRARY} needs only ${count} symbols: was it read at all?")
endif()
list(REMOVE_ITEM needed ${defined})
list(FILTER needed EXCLUDE REGEX "^(${pattern})$")
if(needed)
    list(JOIN needed "\n  " text)
    message(FATAL_ERROR "the engine calls what it should be handed:\n  ${text}")
endif()
