# JSON: target Jansson::Jansson

include(TelltaleFindLibrary)
telltale_find_library(Jansson TARGET Jansson::Jansson PKG_CONFIG jansson HEADER jansson.h LIBRARY jansson)
