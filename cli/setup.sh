# shellcheck shell=sh disable=SC2016,SC2034,SC2154 # read by others, which set root
# Read by cli/start and tests/run: gets what a build needs, and builds. Speaks one line for each step
# on standard error, keeps the rest in a log, and shows the log when a step fails.
#
# Before reading this, a script sets `root` to the checkout's top folder.

export DEBIAN_FRONTEND=noninteractive

work=$root/.build
log=$work/log.txt

say() {
    printf 'telltale: %s\n' "$*" >&2
}

# What this machine must offer: Debian's package that brings it, and how to see that it is there.
needed_to_build='
cmake         has_command cmake
gcc           has_compiler
libc6-dev     has_header stdio.h
pkg-config    has_command pkg-config
ninja-build   has_generator
libpcre2-dev  has_module libpcre2-8
libyaml-dev   has_module yaml-0.1
libutf8proc-dev has_module libutf8proc
libmd-dev     has_module libmd
libjansson-dev has_module jansson
liblzma-dev   has_module liblzma
'
needed_to_test='
libcmocka-dev has_module cmocka
patch         has_command patch
units         has_command units
git           has_command git
rsync         has_command rsync
gringo        has_command clingo
'
# What only ./tests/run --everything brings, for it is large; where it is there, it is used in any
# case. Behind each stands what is skipped without.
brought_by_everything='
chromium      has_command chromium  a browser; pages are not looked at as it draws them
nodejs        has_command node      runs what checks pages and drives editors
npm           has_command npm       fetches what checks pages and drives editors
libreoffice-calc has_command soffice  a spreadsheet; tables are not opened and saved by one
parallel      has_command parallel  plays parts of a rehearsal at once; the page about that is not run
g++           has_command c++       compiles dlib; no second opinion on networks of causes
libpq-dev     has_module libpq      cases in a database; the program is built without them
clang-format  has_command clang-format  the form of the sources is not checked
mandoc        has_command mandoc    what it says of the manual pages is not known
lintian       has_command lintian   what it says of the packages is not known
zsh           has_command zsh       completion is not tried in it
fish          has_command fish      completion is not tried in it
postgresql    has_file usr/lib/postgresql/15/bin/initdb  a server; cases in a database are not tested
'
# What the engine of the page for a phone is compiled with, for WebAssembly. Where it is there, it is
# used in any case; else `telltale page` says what to install.
needed_for_page='
clang         has_command clang  the page for a phone has no engine
lld           has_command wasm-ld  the page for a phone has no engine
wasi-libc     has_file usr/include/wasm32-wasi/stdio.h  the page for a phone has no engine
libclang-rt-14-dev-wasm32 has_file usr/lib/llvm-14/lib/clang/14.0.6/lib/wasi/libclang_rt.builtins-wasm32.a  the page for a phone has no engine
dpkg-dev      has_command dpkg-source  the page for a phone has no engine
'
# Packages of which only files are read: fetched and unpacked into .build, not installed, for they
# would bring much along that nobody runs (weka a Java, dlib's headers a window system).
read_by_everything='
weka          has_file usr/share/doc/weka/examples/soybean.arff  data sets; what others learnt from them is not compared
libdlib-dev   has_file usr/include/dlib/bayes_utils.h  no second opinion on networks of causes
'

has_command() {
    command -v "$1" >/dev/null 2>&1
}

has_compiler() {
    has_command "${CC:-cc}"
}

has_header() {
    has_compiler && printf '#include <%s>\n' "$1" | "${CC:-cc}" -E - >/dev/null 2>&1
}

has_generator() {
    has_command ninja || has_command make
}

has_module() {
    has_command pkg-config && pkg-config --exists "$1" 2>/dev/null
}

# On this machine, or unpacked.
has_file() {
    [ -e "/$1" ] && return
    set -- "$work"/*/"$1"
    [ -e "$1" ]
}

# Prints the packages of a list (as above) that this machine lacks.
lacking() {
    printf '%s\n' "$1" | while read -r package test argument _; do
        [ -z "$package" ] || "$test" "$argument" || printf ' %s' "$package"
    done
}

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    else
        sudo env DEBIAN_FRONTEND="$DEBIAN_FRONTEND" "$@"
    fi
}

# tenth WORDS PERCENT: says each tenth of what is being done, once.
tenth() {
    [ "$1" = "$counting" ] || spoken=0
    counting=$1
    now=$(($2 / 10 * 10))
    if [ "$now" -gt "$spoken" ] && [ "$now" -lt 100 ]; then
        spoken=$now
        say "    $1 $now %"
    fi
}

# The percentage in what apt-get tells of its packages: "pmstatus:NAME:12.3456:WORDS", where a name may
# have colons of its own.
percent_installed() {
    rest=${1#*:*:}
    while [ "$rest" != "${rest#*:}" ]; do
        case ${rest%%:*} in
        '' | *[!0-9.]*) rest=${rest#*:} ;;
        *) break ;;
        esac
    done
    rest=${rest%%[!0-9]*}
    printf '%s' "${rest:-0}"
}

# Takes what a command says into the log, and says the tenths that apt-get, ninja and make count.
# Ends as the command ended, which its last line tells.
watch() {
    counting=
    ended=1
    while IFS= read -r line; do
        case $line in
        'ended with '*) ended=${line#ended with } ;;
        dlstatus:*)
            line=${line#dlstatus:*:}
            tenth fetched "${line%%[!0-9]*}"
            ;;
        pmstatus:*) tenth installed "$(percent_installed "$line")" ;;
        *) printf '%s\n' "$line" >>"$log" ;;
        esac
        case $line in
        '['[0-9]*/[0-9]*'] '*)
            line=${line#'['}
            line=${line%%]*}
            tenth built $((${line%/*} * 100 / ${line#*/}))
            ;;
        '['*[0-9]'%] '*)
            line=${line#'['}
            tenth built $((${line%%'%'*}))
            ;;
        esac
    done
    return "$ended"
}

run_watched() {
    printf '\n== %s\n' "$*" >>"$log"
    { "$@" 2>&1 </dev/null; printf '\nended with %s\n' $?; } | watch
}

# step WORDS COMMAND...: runs the command with its output in the log.
step() {
    say "$1"
    shift
    run_watched "$@" && return
    grep -v '^\[[0-9]*/[0-9]*\] ' "$log" >&2 # all but the lines that say how far it is
    say "this did not work: $*"
    say "the lines above are also in $log"
    exit 1
}

# attempt WORDS COMMAND...: as step, but what does not work is only said.
attempt() {
    say "$1"
    shift
    run_watched "$@" && return
    say "this did not work, so the tests that need it are skipped: $*"
    return 1
}

# One at a time in a checkout: a second build waits for the first one.
take_turn() {
    mkdir -p "$work" || exit 1
    if has_command flock; then
        exec 9>"$work/turn"
        flock -n 9 || {
            say 'another build is running here, waiting for it'
            until flock -w 60 9; do say '    still waiting'; done
        }
    fi
    : >"$log"
}

give_turn() {
    exec 9>&-
}

# The words before the packages' names. What it counts stands on its standard output.
install() {
    as_root apt-get -q -y -o APT::Status-Fd=1 install --no-install-recommends "$@"
}

install_missing() {
    missing=$(lacking "$1")
    [ -n "$missing" ] || return 0
    if ! has_command apt-get; then
        say "this needs what Debian calls:$missing"
        say 'please install these with your own package manager, and start again'
        exit 1
    fi
    if [ "$(id -u)" -ne 0 ] && ! has_command sudo; then
        say 'something is missing, and only root can install it. As root:'
        say "    apt-get update && apt-get install --no-install-recommends$missing"
        exit 1
    fi
    step 'reading the lists of packages' as_root apt-get -q update
    # shellcheck disable=SC2086 # a list of words
    step "installing$missing" install $missing
    missing=$(lacking "$1")
    [ -z "$missing" ] || { say "still missing after installing:$missing"; exit 1; }
}

unpack() (
    mkdir -p "$work/$1" && cd "$work/$1" || exit 1
    apt-get -q download "$1" ||
        { as_root apt-get -q update && apt-get -q download "$1"; } || exit 1
    dpkg-deb --extract "$1"_*.deb . && rm -f "$1"_*.deb
)

# What only some tests need: they are skipped without. What has come is looked for anew by cmake.
install_wanted() {
    wanted=$(lacking "$1")
    [ -n "$wanted" ] || return 0
    has_command apt-get && { [ "$(id -u)" -eq 0 ] || has_command sudo; } || return 0
    attempt 'reading the lists of packages' as_root apt-get -q update
    # shellcheck disable=SC2086 # a list of words
    attempt "installing$wanted" install $wanted && forget_setup
}

unpack_wanted() {
    has_command apt-get && has_command dpkg-deb || return 0
    for package in $(lacking "$1"); do
        attempt "fetching data from the package $package" unpack "$package" && forget_setup
    done
}

forget_setup() {
    rm -f "$work"/*/configured-as
}

# Says of each package in a list that is not here what is left out for it.
say_left_out() {
    printf '%s\n' "$1" | while read -r package test argument why; do
        [ -z "$package" ] || "$test" "$argument" || say "left out: $package ($why)"
    done
}

has_page_tools() {
    [ -e "$work/pages/fetched" ] && cmp -s "$root/tests/pages/package-lock.json" "$work/pages/package-lock.json"
}

# What tests/pages/package-lock.json pins, beside the builds.
fetch_page_tools() {
    pinned=$root/tests/pages
    has_command npm || return 0
    if has_page_tools; then return; fi
    mkdir -p "$work/pages" && rm -f "$work/pages/fetched"
    cp "$pinned/package.json" "$pinned/package-lock.json" "$work/pages/"
    attempt 'fetching what pages and editors are checked with' \
        npm ci --prefix "$work/pages" --no-audit --no-fund --ignore-scripts && : >"$work/pages/fetched"
}

# ---- the engine of the page for a phone ----

page_libraries='pcre2 libyaml utf8proc jansson libmd'

# Debian's own sources, by a list of ours: the machine's lists are left alone. An archive that lacks a
# version that its list names may have the one before.
fetch_source() {
    set -- "$1" -q -o Dir::Etc::sourcelist=/dev/null -o "Dir::Etc::sourceparts=$PWD" \
        -o "Dir::State::lists=$PWD/lists" -o Dir::Cache::srcpkgcache= -o Dir::Cache::pkgcache= -o APT::Sandbox::User=
    package=$1
    shift
    if [ ! -e lists/read ]; then apt-get "$@" update && : >lists/read || return; fi
    for version in $(apt-cache "$@" showsrc "$package" | sed -n 's/^Version: //p' | sort -rV); do
        apt-get "$@" source --download-only "$package=$version" && return
    done
    return 1
}

unpack_libraries() (
    rm -rf "$work/libraries" && mkdir -p "$work/libraries/lists/partial" && cd "$work/libraries" || exit 1
    # The archives that this machine takes its packages from; before it has read their lists, they say no origin.
    apt-get indextargets --format '$(ORIGIN)|$(REPO_URI) $(RELEASE) $(COMPONENT)' 'Created-By: Packages' | sort -u |
        sed -nE 's/^(Debian|)\|([^ ]+) ([^ ]+) main$/\2 \3/p' | while read -r from suite; do
        printf 'Types: deb-src\nURIs: %s\nSuites: %s\nComponents: main\nSigned-By: %s\n\n' \
            "$from" "$suite" /usr/share/keyrings/debian-archive-keyring.gpg
    done >ours.sources
    for package in $page_libraries; do
        fetch_source "$package" && dpkg-source --no-check -x "$package"_*.dsc || exit 1
    done
    : >unpacked
)

# What cmake is told so that it builds the page's engine in this folder; nothing where that can't be.
page_settings() {
    if [ -e "$work/libraries/unpacked" ] && [ -z "$(lacking "$needed_for_page")" ]; then
        printf '%s' "-DTELLTALE_PAGE_LIBRARIES=$work/libraries"
    else
        printf '%s' '-DTELLTALE_PAGE_LIBRARIES='
    fi
}

fetch_libraries() {
    has_command apt-get && [ -z "$(lacking "$needed_for_page")" ] || return 0
    [ -e "$work/libraries/unpacked" ] || attempt 'fetching the sources of libraries for the page' unpack_libraries
}

# Is a source newer than the last build of the target that ended well? Folders count, so that a
# deleted file does. The tests are no part of the program.
out_of_date() {
    set -- "$1" "$2" "$root/CMakeLists.txt" "$root/engine" "$root/cli"
    [ "$2" = practice_pages ] || set -- "$@" "$root/tests"
    built=$work/$1/built
    shift 2
    [ ! -e "$built" ] || [ -n "$(find "$@" -newer "$built" -print | head -n 1)" ]
}

# What a folder was set up with, as words to compare.
setup_words() {
    if has_command ninja; then set -- -G Ninja "$@"; else set -- -G 'Unix Makefiles' "$@"; fi
    printf '%s' "$root ${CC:-cc} $*"
}

# is_built FOLDER TARGET CMAKE-ARGUMENT...: is there nothing for `build` to do?
is_built() {
    folder=$1
    target=$2
    shift 2
    [ "$(setup_words "$@")" = "$(cat "$work/$folder/configured-as" 2>/dev/null)" ] &&
        ! out_of_date "$folder" "$target"
}

# build FOLDER TARGET CMAKE-ARGUMENT...: sets up the build if that was never done with these
# arguments, then builds what is out of date. Says nothing if there is nothing to do.
build() {
    folder=$1
    target=$2
    shift 2
    wanted=$(setup_words "$@")
    if [ "$wanted" != "$(cat "$work/$folder/configured-as" 2>/dev/null)" ]; then
        rm -f "$work/$folder/configured-as" "$work/$folder/built"
        if has_command ninja; then set -- -G Ninja "$@"; else set -- -G 'Unix Makefiles' "$@"; fi
        step "setting up .build/$folder" cmake --fresh -S "$root" -B "$work/$folder" "$@"
        printf '%s' "$wanted" >"$work/$folder/configured-as"
    fi
    if out_of_date "$folder" "$target"; then
        : >"$work/$folder/begun"
        step "building .build/$folder" cmake --build "$work/$folder" --target "$target" --parallel 2
        mv "$work/$folder/begun" "$work/$folder/built"
    fi
}
