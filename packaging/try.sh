#!/usr/bin/env bash
# The job book, tried out: with a screen the demonstration book in its window, without one the main job and its two papers.
. "$(dirname "${BASH_SOURCE[0]}")/common.sh"

make_environment ""
JOBBOOK="$VENV/bin/jobbook"

first_job() { "$PY" -c 'import json, sys; print(json.load(sys.stdin)["jobs"][0])'; }

open_window() {
    # shellcheck disable=SC2086
    need_packages $WINDOW_PACKAGES || say "the window may not open without them"
    local told book="$ROOT/out/book"
    if [ ! -d "$book" ]; then
        mkdir -p "$ROOT/out"
        # Built beside its place and moved there whole, so that a build broken off is never taken for a book.
        rm -rf "$book.part"
        say "building the demonstration book"
        told=$("$JOBBOOK" sample "$book.part") || fail "the demonstration book could not be built"
        mv "$book.part" "$book"
        say "${told//"$book.part"/$book}"
    fi
    say "opening $book"
    exec "$JOBBOOK" "$book"
}

do_the_job() {
    local folder facts job kind paper
    mkdir -p "$ROOT/out"
    folder=$(mktemp -d "$ROOT/out/trial-XXXXXX")
    say "there is no screen, so the main job runs without a window, in a fresh book:"
    facts=$("$JOBBOOK" sample --json "$folder/book") || fail "the demonstration book could not be built"
    job=$(first_job <<<"$facts")
    for kind in handover evidence; do
        paper=$("$JOBBOOK" paper "$folder/book" "$job" "$kind" --out "$folder") || fail "the paper could not be printed"
        say "$kind paper of job $job: $paper"
    done
    "$JOBBOOK" audit "$folder/book" || fail "the book is not whole"
    for paper in "$folder"/*.pdf; do
        "$JOBBOOK" verify "$paper" --book "$folder/book" || fail "$paper does not fit its book"
    done
}

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    open_window
else
    do_the_job
fi
