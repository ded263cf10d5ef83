# What is wrong in a catalogue of our own texts stops the build, with file, line and what to write. Each case changes one thing in a small
# set of catalogues that holds.

cmake_minimum_required(VERSION 3.25)

set(head "msgid \"\"\nmsgstr \"\"\n\"Language: xx\\n\"\n\"Plural-Forms: nplurals=2; plural=(n != 1);\\n\"\n\n")
set(failures "")

function(text out id words)
    set(${out} "msgid \"${id}\"\nmsgstr \"${words}\"\n\n" PARENT_SCOPE)
endfunction()

# As they hold.
text(hello TEXT_HELLO "Hello, {1}")
text(hola TEXT_HELLO "Hola, {1}")
set(days "msgid \"TEXT_DAYS\"\nmsgid_plural \"TEXT_DAYS\"\nmsgstr[0] \"one day of {2}\"\nmsgstr[1] \"{1} days of {2}\"\n\n")
set(dias "msgid \"TEXT_DAYS\"\nmsgid_plural \"TEXT_DAYS\"\nmsgstr[0] \"{1} día de {2}\"\nmsgstr[1] \"{1} días de {2}\"\n\n")
text(sheet SHEET_PAGE "Page [1]; and more")
text(hoja SHEET_PAGE "Página [1]; y más")

macro(lay_good)
    file(REMOVE_RECURSE "${SCRATCH}")
    file(WRITE "${SCRATCH}/people.en.po" "${head}${hello}${days}")
    file(WRITE "${SCRATCH}/people.es.po" "${head}${hola}${dias}")
    file(WRITE "${SCRATCH}/desk.en.po" "${head}${sheet}")
    file(WRITE "${SCRATCH}/desk.es.po" "${head}${hoja}")
    file(WRITE "${SCRATCH}/programs.en.po" "${head}msgid \"PROGRAM_NO\"\nmsgstr \"no\"\n")
    file(WRITE "${SCRATCH}/authors.en.po" "${head}msgid \"LEARN_NO\"\nmsgstr \"no\"\n")
endmacro()

macro(make)
    execute_process(COMMAND "${CMAKE_COMMAND}" "-DFOLDER=${SCRATCH}" "-DIDS=${SCRATCH}/ids.h" "-DTABLES=${SCRATCH}/tables.c" ${ARGN}
        -P "${CATALOGUE}" RESULT_VARIABLE status OUTPUT_VARIABLE said ERROR_VARIABLE said)
    string(REGEX REPLACE "[ \n]+" " " said "${said}")
endmacro()

# `file` holds `content` instead; `ARGN`: what must be said.
function(expect what file content)
    lay_good()
    file(WRITE "${SCRATCH}/${file}" "${content}")
    make()
    if(status EQUAL 0)
        list(APPEND failures "${what}: nothing stopped the build")
    endif()
    if(EXISTS "${SCRATCH}/tables.c")
        list(APPEND failures "${what}: tables were made all the same")
    endif()
    foreach(words IN ITEMS ${ARGN})
        string(FIND "${said}" "${words}" place)
        if(place LESS 0)
            list(APPEND failures "${what}: no '${words}' in: ${said}")
        endif()
    endforeach()
    set(failures "${failures}" PARENT_SCOPE)
endfunction()

lay_good()
make()
if(NOT status EQUAL 0)
    list(APPEND failures "catalogues that hold: ${said}")
endif()
file(READ "${SCRATCH}/tables.c" tables)
foreach(line IN ITEMS "[TEXT_DAYS] = {\"one day of {2}\", \"{1} days of {2}\"}" "[TEXT_HELLO] = {\"Hola, {1}\", NULL}" "[LEARN_NO] = {\"no\", NULL}")
    string(FIND "${tables}" "${line}" place)
    if(place LESS 0)
        list(APPEND failures "the tables lack ${line}")
    endif()
endforeach()
make(-DFOR_PAGE=ON)
file(READ "${SCRATCH}/tables.c" tables)
if(tables MATCHES "SHEET_PAGE|LEARN_NO|\"TEXT_HELLO\"" OR NOT tables MATCHES "\\[TEXT_HELLO\\] = {\"Hola" OR NOT tables MATCHES "PROGRAM_NO")
    list(APPEND failures "a page's tables hold too much or too little: ${tables}")
endif()

expect("missing" people.es.po "${head}${dias}"
    "people.es.po: TEXT_HELLO is missing (people.en.po:6): write msgid \"TEXT_HELLO\" and in msgstr what 'Hello, {1}' is in this language.")
expect("missing at the desk" desk.es.po "${head}"
    "desk.es.po: SHEET_PAGE is missing (desk.en.po:6): write")
text(wrong TEXT_HALLO "Hola")
expect("unknown" people.es.po "${head}${hola}${dias}${wrong}"
    "people.es.po:14: TEXT_HALLO is unknown: people.en.po has no such text, so take it out or correct its name.")
expect("in the wrong catalogue" desk.es.po "${head}${hoja}${hola}"
    "desk.es.po:9: TEXT_HELLO is unknown: desk.en.po has no such text" "desk.es.po:9: TEXT_HELLO is there twice: leave one of them out.")
text(wrong TEXT_HELLO "Hola")
expect("an insert left out" people.es.po "${head}${wrong}${dias}"
    "people.es.po:6: TEXT_HELLO has the inserts '' where the English text has '{1}': write each of these.")
text(wrong TEXT_HELLO "Hola, {1} y {2}")
expect("an insert too many" people.es.po "${head}${wrong}${dias}"
    "people.es.po:6: TEXT_HELLO has the inserts '{1} {2}' where the English text has '{1}': write each of these.")
set(wrong "msgid \"TEXT_DAYS\"\nmsgid_plural \"TEXT_DAYS\"\nmsgstr[0] \"un día de {2}\"\nmsgstr[1] \"días de {2}\"\n\n")
expect("the number left out of many" people.es.po "${head}${hola}${wrong}"
    "people.es.po:9: TEXT_DAYS has the inserts '{2}' where the English text has '{1} {2}': write each of these.")
text(wrong TEXT_DAYS "{1} días de {2}")
expect("one form for two" people.es.po "${head}${hola}${wrong}"
    "people.es.po:9: TEXT_DAYS has msgid_plural in one language and not in the other: write it in both.")
set(wrong "msgid \"TEXT_DAYS\"\nmsgid_plural \"TEXT_DAYS\"\nmsgstr[0] \"{1} día de {2}\"\n\n")
expect("the form for many left out" people.es.po "${head}${hola}${wrong}"
    "people.es.po:9: TEXT_DAYS has msgid_plural: write msgstr[0] for one and msgstr[1] for other numbers.")
expect("twice" people.es.po "${head}${hola}${dias}${hola}"
    "people.es.po:14: TEXT_HELLO is there twice: leave one of them out.")
expect("twice in two catalogues" authors.en.po "${head}${hello}"
    "authors.en.po:6: TEXT_HELLO is there twice: leave one of them out.")
text(wrong TEXT_HELLO "")
expect("empty" people.es.po "${head}${wrong}${dias}"
    "people.es.po:6: TEXT_HELLO has no text: write it in msgstr.")
expect("not translated yet" people.es.po "${head}#, fuzzy\n${hola}${dias}"
    "people.es.po:6: a text marked fuzzy is not translated yet: translate it and take the mark away.")
expect("no line of a catalogue" people.es.po "${head}${hola}${dias}Hola"
    "people.es.po:14: this is no line of a catalogue here: write msgid \"NAME\" and under it msgstr \"text\".")
expect("another rule of counting" people.es.po "msgid \"\"\nmsgstr \"\"\n\"Plural-Forms: nplurals=1; plural=0;\\n\"\n\n${hola}${dias}"
    "people.es.po:1: the head (msgid \"\") must say Plural-Forms: nplurals=2; plural=(n != 1)")

# A language begun in one catalogue and not in the other.
lay_good()
file(WRITE "${SCRATCH}/people.de.po" "${head}${hello}${days}")
make()
if(status EQUAL 0 OR NOT said MATCHES "desk\\.de\\.po is missing: copy desk\\.en\\.po and translate each msgstr\\.")
    list(APPEND failures "half a language: ${said}")
endif()

if(failures)
    list(JOIN failures "\n  " text)
    message(FATAL_ERROR "\n  ${text}")
endif()
