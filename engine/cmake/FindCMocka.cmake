# The test runner inside each test program: target CMocka::CMocka

include(TelltaleFindLibrary)
telltale_find_library(CMocka TARGET CMocka::CMocka PKG_CONFIG cmocka HEADER cmocka.h LIBRARY cmocka)
