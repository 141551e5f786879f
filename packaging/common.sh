# What both commands share: the folder, the words, Python, the virtual environment, the system's packages.
# It is sourced, so it only defines things and steps into the project's folder.

set -euo pipefail

ROOT=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
VENV="$ROOT/.venv"
PY="$VENV/bin/python"
cd "$ROOT"

# What a visible Qt window needs on a bare Debian or Ubuntu.
WINDOW_PACKAGES="libegl1 libgl1 libfontconfig1 libdbus-1-3 libxkbcommon0 libxkbcommon-x11-0 libxcb-cursor0 libxcb-icccm4
    libxcb-keysyms1 libxcb-image0 libxcb-render-util0 libxcb-shape0"

# What the tests need beside it: a screen that nobody sees, a hand on it, a reader of printed pages, the shared database.
TEST_PACKAGES="$WINDOW_PACKAGES xvfb xdotool poppler-utils postgresql"

say() { printf '%s\n' "$*"; }

fail() {
    printf 'failed: %s\n' "$*" >&2
    exit 1
}

# as_root COMMAND...: runs it as root; status 77 when there is no way to.
as_root() {
    if [ "$(id -u)" = 0 ]; then
        "$@"
    elif command -v sudo >/dev/null 2>&1 && sudo -n true 2>/dev/null; then
        sudo -n "$@"
    else
        return 77
    fi
}

# missing PACKAGE...: prints those that are not installed.
missing() {
    local package
    for package in "$@"; do
        dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed || printf '%s ' "$package"
    done
}

# need_packages PACKAGE...: installs what is missing where that is possible; otherwise names it and returns 1.
need_packages() {
    command -v dpkg-query >/dev/null 2>&1 || { say "packages: this is no Debian or Ubuntu; it needs its own form of: $*"; return 1; }
    local absent
    absent=$(missing "$@")
    [ -n "$absent" ] || { say "packages: nothing is missing"; return 0; }
    # The words are package names without spaces, so they are meant to fall apart.
    # shellcheck disable=SC2086
    if as_root apt-get update -qq >/dev/null 2>&1 &&
        as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $absent >/dev/null 2>&1; then
        say "packages: installed $absent"
    else
        say "packages: could not be installed from here; run: sudo apt-get install $absent"
        return 1
    fi
}

# find_python: prints the first Python of 3.11 or newer that really runs.
find_python() {
    local name
    for name in "${PYTHON:-}" python3.11 python3.12 python3.13 python3.14 python3 python; do
        [ -n "$name" ] || continue
        if "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then
            command -v "$name"
            return 0
        fi
    done
    return 1
}

# make_environment EXTRAS: a virtual environment with the project in it; does nothing while the project file is unchanged.
make_environment() {
    local extras=$1 python stamp
    if ! "$PY" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; then
        python=$(find_python) || fail "Python 3.11 or newer was not found; install it (sudo apt-get install python3 python3-venv)"
        if ! "$python" -c 'import ensurepip' >/dev/null 2>&1; then
            need_packages "$(basename "$(readlink -f "$python")")-venv" || fail "Python cannot make a virtual environment"
        fi
        "$python" -m venv --clear "$VENV" || fail "no virtual environment could be made in $VENV"
    fi
    stamp="$("$PY" -c 'import sys; print(sys.version)') $ROOT $(cksum <pyproject.toml)"
    if [ "$(cat "$VENV/installed$extras" 2>/dev/null)" != "$stamp" ]; then
        "$PY" -m pip install --quiet --disable-pip-version-check -e ".$extras" || fail "the project could not be installed into $VENV"
        printf '%s' "$stamp" >"$VENV/installed$extras"
    fi
    say "environment: $("$PY" --version) in $VENV"
}
