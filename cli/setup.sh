# shellcheck shell=sh disable=SC2034,SC2154 # read by others, which set root
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

# What this machine must offer, how to see that it does, and Debian's package that brings it.
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
'
needed_to_test='
libcmocka-dev has_module cmocka
patch         has_command patch
units         has_command units
git           has_command git
rsync         has_command rsync
gringo        has_command clingo
g++           has_command c++
'
# For the tests of pages, which are skipped where these can't be had.
wanted_to_test='
chromium      has_command chromium
nodejs        has_command node
npm           has_command npm
'
# Packages of which only files are read: fetched and unpacked into .build, not installed, for they
# would bring much along that nobody runs (weka a Java, dlib's headers a window system).
needed_to_read='
weka usr/share/doc/weka/examples/soybean.arff
libdlib-dev usr/include/dlib/bayes_utils.h
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

# Prints the packages of a list (as above) that this machine lacks.
lacking() {
    printf '%s\n' "$1" | while read -r package test argument; do
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

# step WORDS COMMAND...: runs the command with its output in the log.
step() {
    say "$1"
    shift
    printf '\n== %s\n' "$*" >>"$log"
    "$@" >>"$log" 2>&1 </dev/null && return
    grep -v '^\[[0-9]*/[0-9]*\] ' "$log" >&2 # all but the lines that say how far it is
    say "this did not work: $*"
    say "the lines above are also in $log"
    exit 1
}

# One at a time in a checkout: a second start waits for the first one's build.
take_turn() {
    mkdir -p "$work" || exit 1
    if has_command flock; then
        exec 9>"$work/turn"
        flock -n 9 || { say 'another build is running here, waiting for it'; flock 9; }
    fi
    : >"$log"
}

give_turn() {
    exec 9>&-
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
    step "installing$missing" as_root apt-get -q -y install --no-install-recommends $missing
    missing=$(lacking "$1")
    [ -z "$missing" ] || { say "still missing after installing:$missing"; exit 1; }
}

# Prints the packages of a list (package, file) whose file is neither on this machine nor unpacked.
unread() {
    printf '%s\n' "$1" | while read -r package file; do
        [ -z "$package" ] || [ -e "/$file" ] || [ -e "$work/$package/$file" ] ||
            printf ' %s' "$package"
    done
}

unpack() (
    mkdir -p "$work/$1" && cd "$work/$1" || exit 1
    apt-get -q download "$1" ||
        { as_root apt-get -q update && apt-get -q download "$1"; } || exit 1
    dpkg-deb --extract "$1"_*.deb . && rm -f "$1"_*.deb
)

# Elsewhere than on Debian the tests that read them fail, and say what is missing.
unpack_missing() {
    has_command apt-get && has_command dpkg-deb || return 0
    for package in $(unread "$1"); do
        step "fetching data from the package $package" unpack "$package"
    done
}

# attempt WORDS COMMAND...: as step, but what does not work is only said.
attempt() {
    say "$1"
    shift
    printf '\n== %s\n' "$*" >>"$log"
    "$@" >>"$log" 2>&1 </dev/null && return
    say "this did not work, so the tests that need it are skipped: $*"
    return 1
}

# What only some tests need: they are skipped without.
install_wanted() {
    wanted=$(lacking "$1")
    [ -n "$wanted" ] || return 0
    has_command apt-get && { [ "$(id -u)" -eq 0 ] || has_command sudo; } || return 0
    as_root apt-get -q update >>"$log" 2>&1 </dev/null
    # shellcheck disable=SC2086 # a list of words
    attempt "installing$wanted" as_root apt-get -q -y install --no-install-recommends $wanted
}

# What tests/pages/package-lock.json pins, beside the builds.
fetch_page_tools() {
    pinned=$root/tests/pages
    has_command npm || return 0
    [ -e "$work/pages/fetched" ] && cmp -s "$pinned/package-lock.json" "$work/pages/package-lock.json" && return
    mkdir -p "$work/pages" && rm -f "$work/pages/fetched"
    cp "$pinned/package.json" "$pinned/package-lock.json" "$work/pages/"
    attempt 'fetching what pages are checked with' \
        npm ci --prefix "$work/pages" --no-audit --no-fund --ignore-scripts && : >"$work/pages/fetched"
}

# Is a source newer than the last build that ended well? Folders count, so that a deleted file does.
out_of_date() {
    [ ! -e "$1/built" ] ||
        [ -n "$(find "$root/CMakeLists.txt" "$root/engine" "$root/cli" "$root/tests" \
            -newer "$1/built" -print | head -n 1)" ]
}

# build FOLDER TARGET CMAKE-ARGUMENT...: sets up the build if that was never done with these
# arguments, then builds what is out of date. Says nothing if there is nothing to do.
build() {
    folder=$work/$1
    target=$2
    name=${folder#"$root"/}
    shift 2
    if has_command ninja; then set -- -G Ninja "$@"; else set -- -G 'Unix Makefiles' "$@"; fi
    wanted="$root ${CC:-cc} $*"
    if [ "$wanted" != "$(cat "$folder/configured-as" 2>/dev/null)" ]; then
        rm -f "$folder/configured-as" "$folder/built"
        step "setting up $name" cmake --fresh -S "$root" -B "$folder" "$@"
        printf '%s\n' "$wanted" >"$folder/configured-as"
    fi
    if out_of_date "$folder"; then
        : >"$folder/begun"
        step "building $name" cmake --build "$folder" --target "$target" --parallel 2
        mv "$folder/begun" "$folder/built"
    fi
}
