# Completion of telltale for fish: the program itself says what may stand next.

function __telltale_next
    set -l words (commandline -opc)
    set -l now (commandline -ct)
    for line in (eval $words[1] complete -- (string escape -- $words[2..] "$now") 2>/dev/null)
        switch $line
            case \tfiles
                __fish_complete_path "$now"
            case \tfolders
                __fish_complete_directories "$now" ''
            case '*'
                echo $line
        end
    end
end
complete -c telltale -f -a '(__telltale_next)'
