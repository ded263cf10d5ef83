# YAML events: target LibYAML::LibYAML

include(TelltaleFindLibrary)
telltale_find_library(LibYAML TARGET LibYAML::LibYAML PKG_CONFIG yaml-0.1 HEADER yaml.h LIBRARY yaml)
