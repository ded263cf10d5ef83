# PostgreSQL's library for programs: target Libpq::Libpq

include(TelltaleFindLibrary)
telltale_find_library(Libpq TARGET Libpq::Libpq PKG_CONFIG libpq HEADER libpq-fe.h LIBRARY pq)
