# cmake -C tests/cmake/coverage.cmake: each branch counts how often it is taken, which tests/coverage reads. Not optimised, so that branches are
# those of the source.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(CMAKE_C_COMPILER gcc CACHE STRING "")
set(CMAKE_C_FLAGS "--coverage" CACHE STRING "")
set(CMAKE_C_FLAGS_RELEASE "-O0" CACHE STRING "")
set(CMAKE_EXE_LINKER_FLAGS "-Wl,--wrap=raise,--wrap=_exit ${CMAKE_CURRENT_LIST_DIR}/keep_counts.c" CACHE STRING "")
set(TELLTALE_TESTS ON CACHE BOOL "")
set(TELLTALE_HARDEN OFF CACHE BOOL "")
set(TELLTALE_WERROR OFF CACHE BOOL "") # some warnings are right only after optimising
