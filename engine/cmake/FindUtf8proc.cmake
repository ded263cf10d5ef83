# Unicode normal forms and case folding: target Utf8proc::Utf8proc

include(TelltaleFindLibrary)
telltale_find_library(Utf8proc TARGET Utf8proc::Utf8proc PKG_CONFIG libutf8proc HEADER utf8proc.h LIBRARY utf8proc)
