# Packs a build for /usr twice, as two people would on two days: the packages are the same byte for byte. Then a linter reads them.
# The build is the test's own, for where libraries go below /usr is not where they go below /usr/local, and it stays for the next time.

cmake_minimum_required(VERSION 3.25)

find_program(dpkg_deb dpkg-deb)
find_program(shlibdeps dpkg-shlibdeps)
find_program(file file) # dpkg-dev does not bring it
if(NOT dpkg_deb OR NOT shlibdeps OR NOT file)
    message("skipped: packages for Debian: they are put together with dpkg-deb, dpkg-shlibdeps and file; apt-get install dpkg-dev file brings them")
    return()
endif()
unset(ENV{SOURCE_DATE_EPOCH})
file(REMOVE_RECURSE "${SCRATCH}/one" "${SCRATCH}/another one")

set(build "${SCRATCH}/build")
foreach(step IN ITEMS setting_up building)
    set(setting_up -S "${SOURCE}" -B "${build}" -G "${GENERATOR}" -C "${SOURCE}/tests/cmake/release.cmake" -DCMAKE_INSTALL_PREFIX=/usr
        -DTELLTALE_TESTS=OFF -DCMAKE_C_FLAGS_RELEASE=-O1 "-DCMAKE_C_COMPILER=${COMPILER}" "-DCMAKE_C_COMPILER_LAUNCHER=${LAUNCHER}" "-DTELLTALE_PAGE_LIBRARIES=${PAGES}")
    set(building --build "${build}" --parallel 2)
    execute_process(COMMAND "${CMAKE_COMMAND}" ${${step}} RESULT_VARIABLE status OUTPUT_VARIABLE said ERROR_VARIABLE said)
    if(NOT status EQUAL 0)
        message(FATAL_ERROR "${step} the packages' build: ${status}\n${said}")
    endif()
endforeach()

function(pack generator into zone mask locale)
    file(MAKE_DIRECTORY "${SCRATCH}/${into}")
    execute_process(COMMAND sh -c "umask ${mask}; exec \"$@\"" sh
            "${CMAKE_COMMAND}" -E env "TZ=${zone}" "LC_ALL=${locale}" "${CPACK}" -G ${generator} -D CPACK_TELLTALE_LEVEL=0 -B "${SCRATCH}/${into}"
        WORKING_DIRECTORY "${build}" RESULT_VARIABLE status OUTPUT_VARIABLE said ERROR_VARIABLE said)
    if(NOT status EQUAL 0)
        message(FATAL_ERROR "cpack -G ${generator}: ${status}\n${said}")
    endif()
endfunction()
foreach(generator IN ITEMS DEB TGZ)
    pack(${generator} one Asia/Kathmandu 022 C)
    pack(${generator} "another one" America/St_Johns 077 C.UTF-8)
endforeach()

file(GLOB packages RELATIVE "${SCRATCH}/one" "${SCRATCH}/one/*.deb" "${SCRATCH}/one/*.tar.gz")
list(LENGTH packages count)
if(NOT count EQUAL 4)
    message(FATAL_ERROR "three packages for Debian and an archive, but there are: ${packages}")
endif()
foreach(package IN LISTS packages)
    execute_process(COMMAND cmp "${SCRATCH}/one/${package}" "${SCRATCH}/another one/${package}" RESULT_VARIABLE status)
    if(NOT status EQUAL 0)
        message(FATAL_ERROR "${package} is not the same each time")
    endif()
endforeach()

if(NOT LINTIAN)
    message("skipped: what a linter says of packages; apt-get install lintian brings it")
    return()
endif()
file(GLOB packages "${SCRATCH}/one/*.deb")
execute_process(COMMAND "${LINTIAN}" --pedantic --fail-on error,warning,info,pedantic --allow-root ${packages}
    RESULT_VARIABLE status OUTPUT_VARIABLE said ERROR_VARIABLE ignored)
if(NOT status EQUAL 0)
    message(FATAL_ERROR "${said}")
endif()
