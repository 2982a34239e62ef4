#!/bin/sh
# The long checks: large corpora, fuzzers, drills, generated clients, the lowest versions. They run after tests/run.sh
# has passed.
set -eu
cd "$(dirname "$0")/.."
sh deploy/set-up.sh long
unset PYTHONDONTWRITEBYTECODE
check() { .venv/bin/python -m pytest -n 2 --dist loadfile --no-loadscope-reorder -q -m long "$@"; }
if [ $# -gt 0 ]; then
    check "$@"
    exit
fi
# Files that take minutes come first, so that no core waits for the last of them.
check tests/fuzz/test_storeys.py tests/contract tests/fuzz tests/engine/test_random_rooms.py tests/drills tests
sh tests/run_alone.sh lowest
