# Writes the files of this folder's book into a C source, so that the program can make one anywhere.
# cmake -D OUT=... -D FOLDER=... -P embed_sample.cmake

file(GLOB files LIST_DIRECTORIES NO "${FOLDER}/*.yaml")
list(SORT files)
set(bytes "")
set(rows "")
foreach(file IN LISTS files)
    cmake_path(GET file FILENAME name)
    cmake_path(GET file STEM stem)
    file(READ "${file}" hex HEX)
    string(LENGTH "${hex}" length)
    math(EXPR length "${length} / 2")
    string(REGEX REPLACE "(..)" "0x\\1," hex "${hex}")
    string(REGEX REPLACE "(................................................................................)" "    \\1\n" hex "${hex}")
    string(APPEND bytes "static const unsigned char ${stem}[] = {\n${hex}\n};\n")
    string(APPEND rows "    {\"${name}\", (const char *)${stem}, ${length}},\n")
endforeach()
file(WRITE "${OUT}"
    "/* Made by embed_sample.cmake. */\n#include \"books/new_book.h\"\n\n${bytes}\n"
    "const sample_file sample_files[] = {\n${rows}};\n"
    "const unsigned sample_file_count = sizeof sample_files / sizeof sample_files[0];\n")
