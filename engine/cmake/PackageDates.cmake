# Before anything is put together: the day that packages carry.

if(NOT DEFINED ENV{SOURCE_DATE_EPOCH})
    execute_process(COMMAND date -u -d "${CPACK_TELLTALE_DAY}" +%s
        OUTPUT_VARIABLE seconds OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
    set(ENV{SOURCE_DATE_EPOCH} "${seconds}")
endif()
