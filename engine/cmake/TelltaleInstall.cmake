# What is installed beside the program and the library: books, schemas, pages to read, the manual, completion, licences.

set(telltale_data_dir "${CMAKE_INSTALL_DATADIR}/telltale")

install(DIRECTORY rules/ DESTINATION "${telltale_data_dir}/rules"
    FILES_MATCHING PATTERN "*.yaml" PATTERN "*.svg")
install(FILES docs/cases.sql DESTINATION "${telltale_data_dir}")

file(GLOB schemas CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/docs/*.schema.json")
install(FILES ${schemas} DESTINATION "${telltale_data_dir}/schemas")

foreach(section IN ITEMS 1 5)
    file(GLOB manuals CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/docs/*.${section}")
    install(FILES ${manuals} DESTINATION "${CMAKE_INSTALL_MANDIR}/man${section}")
endforeach()

# What contributors read (DEVELOPERS.md, and what the tests write of themselves) stays with the sources.
file(GLOB pages CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/docs/*.md")
list(FILTER pages EXCLUDE REGEX "/(outside-checks|CHANGELOG)\\.md$")
install(FILES ${pages} docs/CHANGELOG.md DESTINATION "${CMAKE_INSTALL_DOCDIR}")
install(FILES LICENSE DESTINATION "${CMAKE_INSTALL_DOCDIR}" RENAME copyright)
include(LibraryLicences)
install(FILES "${licences}" DESTINATION "${CMAKE_INSTALL_DOCDIR}")

# Completion in the folders where the shells look.
install(FILES cli/completion/telltale.bash DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions" RENAME telltale)
install(FILES cli/completion/telltale.zsh DESTINATION "${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions" RENAME _telltale)
install(FILES cli/completion/telltale.fish DESTINATION "${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d")
