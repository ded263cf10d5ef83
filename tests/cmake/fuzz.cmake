# cmake -C tests/cmake/fuzz.cmake: the targets of tests/fuzz as programs that look for odd inputs by
# themselves, led by what the code does with them (clang, libclang-rt-dev).
set(CMAKE_C_COMPILER clang CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_C_FLAGS "-fsanitize=fuzzer-no-link" CACHE STRING "")
set(CMAKE_C_FLAGS_DEBUG "-O1 -g" CACHE STRING "")
set(TELLTALE_TESTS ON CACHE BOOL "")
set(TELLTALE_SANITIZE ON CACHE BOOL "")
set(TELLTALE_FUZZ ON CACHE BOOL "")
