# One way to find a library that ships no CMake package: ask pkg-config where it is installed, then
# look there and in the usual places, and hang the result on an imported target.
#
#   telltale_find_library(<Package> TARGET <target> PKG_CONFIG <module> HEADER <file> LIBRARY <name>...)
#
# Sets <Package>_FOUND, and makes <target> if the library is there.

include(FindPackageHandleStandardArgs)

function(telltale_find_library package)
    cmake_parse_arguments(PARSE_ARGV 1 arg "" "TARGET;PKG_CONFIG;HEADER" "LIBRARY")

    find_package(PkgConfig QUIET)
    if(PkgConfig_FOUND)
        pkg_check_modules(PC_${package} QUIET ${arg_PKG_CONFIG})
    endif()

    find_path(${package}_INCLUDE_DIR NAMES ${arg_HEADER}
        HINTS ${PC_${package}_INCLUDE_DIRS} ${PC_${package}_INCLUDEDIR})
    find_library(${package}_LIBRARY NAMES ${arg_LIBRARY}
        HINTS ${PC_${package}_LIBRARY_DIRS} ${PC_${package}_LIBDIR})
    mark_as_advanced(${package}_INCLUDE_DIR ${package}_LIBRARY)

    find_package_handle_standard_args(${package}
        REQUIRED_VARS ${package}_LIBRARY ${package}_INCLUDE_DIR
        VERSION_VAR PC_${package}_VERSION)
    set(${package}_FOUND ${${package}_FOUND} PARENT_SCOPE)

    if(${package}_FOUND AND NOT TARGET ${arg_TARGET})
        add_library(${arg_TARGET} UNKNOWN IMPORTED)
        set_target_properties(${arg_TARGET} PROPERTIES
            IMPORTED_LOCATION "${${package}_LIBRARY}"
            INTERFACE_INCLUDE_DIRECTORIES "${${package}_INCLUDE_DIR}")
    endif()
endfunction()
