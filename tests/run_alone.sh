#!/bin/sh
# Every test file by itself, its tests in random order: none may depend on what others leave behind. What a file prints,
# the seed of its order too, is shown when it fails (`-p randomly --randomly-seed=N` repeats that order).
#   sh tests/run_alone.sh          with the locked versions
#   sh tests/run_alone.sh lowest   with the lowest versions that are allowed, or the newest
set -eu
cd "$(dirname "$0")/.."
if [ $# -gt 0 ]; then
    sh tests/make_versions.sh "$1"
    export TEST_PYTHON=".venv/$1/bin/python"
else
    sh deploy/set-up.sh dev
fi
unset PYTHONDONTWRITEBYTECODE
find tests -name 'test_*.py' | sort | xargs -P 2 -I FILE sh tests/run_file.sh FILE
