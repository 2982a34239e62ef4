#!/bin/sh
# The tests with the lowest or the newest versions that the two pyproject.toml allow, in an environment of its own.
#   sh tests/run_versions.sh lowest             what the service and the client need as low as may be, the rest as locked
#   sh tests/run_versions.sh newest             everything as new as may be
#   sh tests/run_versions.sh lowest tests/api   the same with arguments for pytest
set -eu
cd "$(dirname "$0")/.."
case "${1:-}" in lowest | newest) which=$1; shift ;; *) echo "lowest or newest, not ${1:-}" >&2; exit 2 ;; esac
sh deploy/set-up.sh dev
unset PYTHONDONTWRITEBYTECODE
place=.venv/$which
uv() { .venv/bin/uv --quiet "$@"; }

uv venv --clear --python .venv/bin/python "$place"
if [ "$which" = lowest ]; then
    uv pip compile pyproject.toml clients/python/pyproject.toml --extra api --no-deps --resolution lowest-direct \
        --python "$place" --no-annotate --no-header --output-file "$place/lowest.txt"
    echo "Lowest: $(tr '\n' ' ' < "$place/lowest.txt")"
    uv pip install --python "$place" --no-deps --override "$place/lowest.txt" -r deploy/requirements/dev.txt
    uv pip install --python "$place" --no-deps --no-build-isolation -e . -e clients/python
    # schemathesis needs one of the newest jsonschema-rs, the service does not
    without="-p no:schemathesis --ignore=tests/contract/test_schemathesis.py"
else
    uv pip install --python "$place" --group build -e '.[api,dev]' -e clients/python
    uv pip list --python "$place"
    without=""
fi
[ $# -gt 0 ] || set -- tests
# shellcheck disable=SC2086 - several options or none
exec "$place/bin/python" -m pytest -n 2 --dist loadfile --no-loadscope-reorder -q -m "not long" $without "$@"
