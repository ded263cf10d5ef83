# Completion of telltale for bash: the program itself says what may stand next.

_telltale() {
    local line word IFS=$'\n'
    local words=()
    COMPREPLY=()
    # bash parts --state=open at its equals sign.
    for word in "${COMP_WORDS[@]:1:COMP_CWORD}"; do
        [ "$word" = = ] || words+=("$word")
    done
    [ "${COMP_WORDS[COMP_CWORD]}" != = ] || words+=('')
    local now=${words[${#words[@]} - 1]}
    while read -r line; do
        case $line in
        files) compopt -o filenames 2>/dev/null; COMPREPLY+=($(compgen -f -- "$now")) ;;
        folders) compopt -o filenames 2>/dev/null; COMPREPLY+=($(compgen -d -- "$now")) ;;
        *) COMPREPLY+=("${line%%$'\t'*}") ;;
        esac
    done < <("${COMP_WORDS[0]/#\~/$HOME}" complete -- "${words[@]}" 2>/dev/null | sed 's/^\t//')
}
complete -F _telltale telltale
