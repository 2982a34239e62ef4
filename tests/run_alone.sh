#!/bin/sh
# Every test file by itself: none may depend on what others leave behind. What a file prints is shown when it fails.
# (`sh tests/run.sh -p randomly` takes all tests in a random order and prints its seed; `-p randomly
# --randomly-seed=N` repeats that order.)
set -eu
cd "$(dirname "$0")/.."
sh deploy/set-up.sh dev
unset PYTHONDONTWRITEBYTECODE
find tests -name 'test_*.py' | sort | xargs -P 2 -I FILE sh tests/run_file.sh FILE
