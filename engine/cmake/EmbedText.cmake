# Makes a C file of a text: its bytes under a name. Arguments: FROM, INTO, NAME.
file(READ "${FROM}" bytes HEX)
string(LENGTH "${bytes}" digits)
math(EXPR count "${digits} / 2")
string(REGEX REPLACE "(................................)" "\\1\n" bytes "${bytes}")
string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${bytes}")
file(WRITE "${INTO}" "/* Made from ${NAME}. */\n#include <stddef.h>\nextern const unsigned char ${NAME}[];\nextern const size_t ${NAME}_length;\nconst unsigned char ${NAME}[] = {\n${bytes}};\nconst size_t ${NAME}_length = ${count};\n")
