# The page's engine, built a second time from copies in other folders: the same bytes. And with it each of our books was made a page.

cmake_minimum_required(VERSION 3.25)

if(NOT LIBRARIES OR NOT EXISTS "${BUILD}/module/telltale.wasm")
    execute_process(COMMAND "${CMAKE_COMMAND}" -E echo
        "skipped: the page's engine built twice: it is not built here; ./tests/run --everything brings what it is built with")
    return()
endif()

function(run)
    execute_process(COMMAND ${ARGN} RESULT_VARIABLE status OUTPUT_VARIABLE text ERROR_VARIABLE text)
    if(NOT status EQUAL 0)
        list(JOIN ARGN " " command)
        message(FATAL_ERROR "${command}: ${status}\n${text}")
    endif()
endfunction()

file(REMOVE_RECURSE "${SCRATCH}")
set(top "${SCRATCH}/somewhere else")
file(COPY "${SOURCE}/engine" "${SOURCE}/cli" DESTINATION "${top}")
file(COPY "${SOURCE}/docs/book.schema.json" DESTINATION "${top}/docs")
file(COPY "${LIBRARIES}/" DESTINATION "${SCRATCH}/libraries")
set(module "${top}/cli/page/wasm")
run("${CMAKE_COMMAND}" -S "${module}" -B "${SCRATCH}/build" -G "${GENERATOR}" "-DCMAKE_TOOLCHAIN_FILE=${module}/wasm32.cmake"
    "-DLIBRARIES=${SCRATCH}/libraries" "-DVERSION=${VERSION}")
run("${CMAKE_COMMAND}" --build "${SCRATCH}/build" --parallel 2)
foreach(name IN ITEMS telltale unpack)
    file(SHA256 "${BUILD}/module/${name}.wasm" first)
    file(SHA256 "${SCRATCH}/build/${name}.wasm" second)
    if(NOT first STREQUAL second)
        message(FATAL_ERROR "${name}.wasm is not the same when it is built in ${SCRATCH}")
    endif()
endforeach()

# A page that is made once more is the same, too.
file(GLOB books "${SOURCE}/rules/*/book.yaml")
foreach(book IN LISTS books)
    cmake_path(GET book PARENT_PATH folder)
    cmake_path(GET folder FILENAME name)
    run("${CMAKE_COMMAND}" -E env "TELLTALE_PAGE_DIR=${SCRATCH}/build" "${BUILD}/cli/telltale" page "${folder}" --into "${SCRATCH}/${name}.html")
    run("${CMAKE_COMMAND}" -E compare_files "${BUILD}/page/${name}.html" "${SCRATCH}/${name}.html")
endforeach()
file(REMOVE_RECURSE "${SCRATCH}")
