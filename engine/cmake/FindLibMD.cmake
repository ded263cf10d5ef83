# SHA-256: target LibMD::LibMD

include(TelltaleFindLibrary)
telltale_find_library(LibMD TARGET LibMD::LibMD PKG_CONFIG libmd HEADER sha256.h LIBRARY md)
