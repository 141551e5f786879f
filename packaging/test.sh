#!/usr/bin/env bash
# Everything that must hold, in one command. Stops at the first stage that does not, with a status other than nought.
. "$(dirname "${BASH_SOURCE[0]}")/common.sh"

make_environment "[dev]"
# What is missing is named here and fails the stage that needs it.
# shellcheck disable=SC2086
need_packages $TEST_PACKAGES || true

SCRATCH=$(mktemp -d)
SERVER=""

clear_up() {
    if [ -n "$SERVER" ]; then
        as_database "$SERVER/pg_ctl" -D "$SCRATCH/data" -m immediate -s stop >/dev/null 2>&1 || true
    fi
    rm -rf "$SCRATCH"
}
trap clear_up EXIT
trap 'exit 130' INT TERM

# stage NAME COMMAND...: one line when it holds; all it said when it does not.
stage() {
    local name=$1 began=$SECONDS
    shift
    if "$@" >"$SCRATCH/said" 2>&1; then
        say "$name: holds ($((SECONDS - began)) s)"
    else
        cat "$SCRATCH/said"
        fail "$name"
    fi
}

# as_database COMMAND...: PostgreSQL refuses to run as root, so root steps down to the user that its package made.
as_database() {
    if [ "$(id -u)" = 0 ]; then
        runuser -u postgres -- "$@"
    else
        "$@"
    fi
}

newest_server() {
    ls -d /usr/lib/postgresql/*/bin 2>/dev/null | sort -V | tail -n 1
}

start_server() {
    local programs port
    programs=$(newest_server)
    [ -n "$programs" ] || { say "PostgreSQL is not installed (sudo apt-get install postgresql)"; return 1; }
    [ "$(id -u)" != 0 ] || chown postgres "$SCRATCH" || return 1
    port=$("$PY" -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])') || return 1
    cd "$SCRATCH" || return 1
    as_database "$programs/initdb" -D "$SCRATCH/data" -U jobbook -A trust -E UTF8 --locale=C --no-sync || return 1
    as_database "$programs/pg_ctl" -D "$SCRATCH/data" -l "$SCRATCH/server.log" -w -t 60 \
        -o "-k '$SCRATCH' -p $port -c listen_addresses=127.0.0.1 -c fsync=off" start || { cat "$SCRATCH/server.log"; return 1; }
    SERVER=$programs
    as_database "$programs/createdb" -h 127.0.0.1 -p "$port" -U jobbook jobbook || return 1
    cd "$ROOT" || return 1
    export JOBBOOK_TEST_POSTGRES="postgresql+psycopg://jobbook@127.0.0.1:$port/jobbook"
}

stage "format" "$PY" -m ruff format --check .
stage "lint" "$PY" -m ruff check .
stage "types" "$PY" -m mypy --strict jobbook
stage "layers" "$VENV/bin/lint-imports"
stage "database server" start_server

export QT_QPA_PLATFORM=offscreen COVERAGE_FILE="$SCRATCH/coverage"
say "tests:"
"$PY" -m pytest -q --cov --cov-report= --cov-report="json:$SCRATCH/coverage.json" || fail "tests"
"$PY" packaging/coverage_floor.py "$SCRATCH/coverage.json" || fail "coverage"
say "everything holds"
