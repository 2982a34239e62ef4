#!/bin/sh
# The long checks: large corpora, fuzzers, drills. They run after tests/run.sh has passed.
set -eu
cd "$(dirname "$0")/.."
sh deploy/set-up.sh dev
unset PYTHONDONTWRITEBYTECODE
exec .venv/bin/python -m pytest -n 2 --dist loadfile -q -m long "$@"
