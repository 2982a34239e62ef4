#!/bin/sh
# The long checks: large corpora, fuzzers, drills, generated clients, the lowest versions. They run after tests/run.sh
# has passed.
set -eu
cd "$(dirname "$0")/.."
sh deploy/set-up.sh long
unset PYTHONDONTWRITEBYTECODE
.venv/bin/python -m pytest -n 2 --dist loadfile -q -m long "$@"
[ $# -eq 0 ] || exit 0
sh tests/run_alone.sh
sh tests/run_versions.sh lowest -p randomly tests
