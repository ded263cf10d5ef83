# Completion of telltale for fish: the program itself says what may stand next.

function __telltale_next
    set -l words (commandline -opc)
    set -l now (commandline -ct)
    # What was typed is never read as a command again: a folder's name may hold anything.
    set -l program (string replace -r '^~(?=/)' "$HOME" -- $words[1])
    # Of --into=FILE the shell completes what stands behind the sign.
    set -l lead (string match -r '^--[^=]*=' -- "$now")
    set -l path (string replace -r '^--[^=]*=' '' -- "$now")
    for line in ($program complete -- $words[2..] "$now" 2>/dev/null)
        switch $line
            case \tfiles
                string replace -r -- '^' "$lead" (__fish_complete_path "$path")
            case \tfolders
                string replace -r -- '^' "$lead" (__fish_complete_directories "$path" '')
            case '*'
                echo $line
        end
    end
end
complete -c telltale -f -a '(__telltale_next)'
