# Packages: `cpack -G DEB` or `cpack -G TGZ` in a build. The same sources give the same bytes, wherever they lie and whenever: every
# date in them is that of the newest entry of docs/CHANGELOG.md, or what SOURCE_DATE_EPOCH says.

file(STRINGS "${PROJECT_SOURCE_DIR}/docs/CHANGELOG.md" entries REGEX "^## ")
list(GET entries 0 entry)
if(NOT entry MATCHES "^## ${PROJECT_VERSION}, ([0-9]+-[0-9]+-[0-9]+)$")
    message(FATAL_ERROR "docs/CHANGELOG.md: the first entry should read '## ${PROJECT_VERSION}, YYYY-MM-DD', not '${entry}'")
endif()
set(CPACK_TELLTALE_DAY "${CMAKE_MATCH_1}")

set(TELLTALE_MAINTAINER "Telltale contributors <telltale@telltale.example.org>" CACHE STRING
    "Who answers for a package: NAME <ADDRESS>")

set(CPACK_PACKAGE_VENDOR "Telltale contributors")
set(CPACK_PACKAGE_CONTACT "${TELLTALE_MAINTAINER}")
set(CPACK_PACKAGE_DIRECTORY "${PROJECT_BINARY_DIR}/packages")
set(CPACK_RESOURCE_FILE_LICENSE "${PROJECT_SOURCE_DIR}/LICENSE")
set(CPACK_PACKAGING_INSTALL_PREFIX "/usr")
set(CPACK_GENERATOR "TGZ;DEB")
set(CPACK_STRIP_FILES ON)
set(CPACK_VERBATIM_VARIABLES ON)
set(CPACK_COMPONENTS_ALL program library development)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
    OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_INSTALL_SCRIPTS "${CMAKE_CURRENT_LIST_DIR}/PackageDates.cmake")
set(CPACK_PRE_BUILD_SCRIPTS "${CMAKE_CURRENT_LIST_DIR}/PackageParts.cmake")
set(CPACK_POST_BUILD_SCRIPTS "${CMAKE_CURRENT_LIST_DIR}/PackageAgain.cmake")

set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_GENERATE_SHLIBS ON)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_COMPRESSION_TYPE gzip) # PackageAgain.cmake makes it xz

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME telltale)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SUGGESTS libpq5)
set(CPACK_DEBIAN_PROGRAM_DESCRIPTION
"A book of rules says how the faults of a machine show, what cures them and
what can hurt somebody. Telltale asks what tells most, ranks the causes by
their chances, and leads through the fixes, the safe ones first; danger comes
before all else.")

set(library_package "libtelltale${TELLTALE_KEEPS_TO}")
set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME "${library_package}")
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libs)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_CONTROL_EXTRA "${CMAKE_CURRENT_LIST_DIR}/package/triggers")
set(CPACK_DEBIAN_LIBRARY_DESCRIPTION
"The engine of telltale for other programs. It takes and gives buffers, opens
no file, reads no clock, and has no state of its own.")

set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libtelltale-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "${library_package} (= ${PROJECT_VERSION})")
set(CPACK_DEBIAN_DEVELOPMENT_DESCRIPTION
"Headers, static library, and what pkg-config and CMake read, for programs that
use the engine of telltale.")

include(CPack)
