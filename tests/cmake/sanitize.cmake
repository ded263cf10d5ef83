# cmake -C tests/cmake/sanitize.cmake: the tests again, watched by the sanitizers.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_C_FLAGS_DEBUG "-O1 -g" CACHE STRING "")
set(TELLTALE_TESTS ON CACHE BOOL "")
set(TELLTALE_SANITIZE ON CACHE BOOL "")
