# cmake -C tests/cmake/release.cmake: as it is installed, with its tests.
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(TELLTALE_TESTS ON CACHE BOOL "")
