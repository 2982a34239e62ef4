#!/bin/sh
# The tests with the lowest or the newest versions that are allowed; more arguments are for pytest.
#   sh tests/run_versions.sh newest tests/api
set -eu
cd "$(dirname "$0")/.."
sh tests/make_versions.sh "${1:-}"
which=$1
shift
unset PYTHONDONTWRITEBYTECODE
# schemathesis needs one of the newest jsonschema-rs, the service does not
without=""
[ "$which" = newest ] || without="-p no:schemathesis --ignore=tests/contract/test_schemathesis.py"
# shellcheck disable=SC2086 - several options or none
exec ".venv/$which/bin/python" -m pytest -n 2 --dist loadfile --no-loadscope-reorder -q -m "not long" $without "$@"
