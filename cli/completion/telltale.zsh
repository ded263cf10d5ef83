#compdef telltale
# Completion of telltale for zsh: the program itself says what may stand next.

local line name
local -a lines found
lines=("${(@f)$(${~${(Q)words[1]}} complete -- "${(@Q)words[2,CURRENT]}" 2>/dev/null)}")
for line in $lines; do
    case $line in
    $'\tfiles') compset -P '--*='; _files ;; # of --into=FILE, what stands behind the sign
    $'\tfolders') compset -P '--*='; _files -/ ;;
    *)
        name=${line%%$'\t'*}
        found+=("${name//:/\\:}:${line#*$'\t'}")
        ;;
    esac
done
(( $#found )) && _describe -V telltale found
