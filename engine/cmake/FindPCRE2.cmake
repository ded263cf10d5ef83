# Patterns over UTF-8 text: target PCRE2::8BIT

include(TelltaleFindLibrary)
telltale_find_library(PCRE2 TARGET PCRE2::8BIT PKG_CONFIG libpcre2-8 HEADER pcre2.h LIBRARY pcre2-8)
