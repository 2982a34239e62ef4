#!/bin/sh
# Everything that must hold before a change lands, in a few minutes: style, types, rules of dependency, tests.
# What takes longer runs in tests/run_long.sh.
set -eu
cd "$(dirname "$0")/.."
sh deploy/set-up.sh dev
bin=.venv/bin
# Hundreds of short processes start: what they import is compiled once.
unset PYTHONDONTWRITEBYTECODE
$bin/ruff check .
$bin/ruff format --check .
$bin/mypy
$bin/lint-imports
exec $bin/python -m tests.left_processes $bin/python -m pytest -n 2 --dist loadfile --no-loadscope-reorder -q -m "not long" "$@"
