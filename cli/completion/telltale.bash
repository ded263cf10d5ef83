# Completion of telltale for bash: the program itself says what may stand next.

# A word as it was meant: without the quotes and backslashes that it is typed with. Nothing in it is run.
_telltale_meant() {
    case $1 in
    \'*) word=${1#\'} word=${word%\'} ;;
    \"*) word=${1#\"} word=${word%\"} ;;
    *) IFS= read -d '' word < <(printf '%s\0' "$1") ;;
    esac
}

# A word that starts at the home folder, as a program has to be told.
_telltale_whole() {
    [[ $word != '~/'* ]] || word=$HOME${word#'~'}
}

_telltale() {
    local line typed word now
    local words=()
    COMPREPLY=()
    # bash parts --state=open at its equals sign.
    for typed in "${COMP_WORDS[@]:1:COMP_CWORD}"; do
        [ "$typed" != = ] || continue
        _telltale_meant "$typed"
        now=$word
        _telltale_whole
        words+=("$word")
    done
    [ "${COMP_WORDS[COMP_CWORD]}" != = ] || { now= && words+=(''); }
    _telltale_meant "${COMP_WORDS[0]}"
    _telltale_whole
    while IFS= read -r line; do
        case $line in
        $'\tfiles') compopt -o filenames 2>/dev/null; _telltale_paths -f ;;
        $'\tfolders') compopt -o filenames 2>/dev/null; _telltale_paths -d ;;
        *) COMPREPLY+=("${line%%$'\t'*}") ;;
        esac
    done < <("$word" complete -- "${words[@]}" 2>/dev/null)
}

_telltale_paths() {
    local path
    while IFS= read -r path; do COMPREPLY+=("$path"); done < <(compgen "$1" -- "$now")
}
complete -F _telltale telltale
