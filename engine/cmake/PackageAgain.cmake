# Debian's packages put together once more, by Debian's own tool: CPack's carry the umask of whoever packed them, and scripts that
# run ldconfig beside the trigger that does.

if(NOT CPACK_GENERATOR STREQUAL "DEB")
    return()
endif()
if(NOT DEFINED CPACK_TELLTALE_LEVEL)
    set(CPACK_TELLTALE_LEVEL 6)
endif()
function(run)
    execute_process(COMMAND ${ARGN} OUTPUT_QUIET COMMAND_ERROR_IS_FATAL ANY)
endfunction()

foreach(package IN LISTS CPACK_PACKAGE_FILES)
    set(apart "${package}.apart")
    file(REMOVE_RECURSE "${apart}")
    run(dpkg-deb --raw-extract "${package}" "${apart}")
    file(REMOVE "${apart}/DEBIAN/postinst" "${apart}/DEBIAN/postrm")
    run(chmod -R u+rwX,go+rX,go-w "${apart}")
    run(dpkg-deb --root-owner-group --threads-max=1 -Zxz -z${CPACK_TELLTALE_LEVEL} --build "${apart}" "${package}")
    file(REMOVE_RECURSE "${apart}")
endforeach()
