#!/bin/sh
# Makes an environment with the lowest or the newest versions that the two pyproject.toml allow, in .venv/lowest or
# .venv/newest.
#   lowest   what the service and the client need as low as may be, the rest as locked
#   newest   everything as new as may be
set -eu
cd "$(dirname "$0")/.."
case "${1:-}" in lowest | newest) which=$1 ;; *) echo "lowest or newest, not ${1:-}" >&2; exit 2 ;; esac
sh deploy/set-up.sh dev
place=.venv/$which
uv() { .venv/bin/uv --quiet "$@"; }

uv venv --clear --python .venv/bin/python "$place"
if [ "$which" = lowest ]; then
    uv pip compile pyproject.toml clients/python/pyproject.toml --extra api --no-deps --resolution lowest-direct \
        --python "$place" --no-annotate --no-header --output-file "$place/lowest.txt"
    echo "Lowest: $(tr '\n' ' ' < "$place/lowest.txt")"
    uv pip install --python "$place" --no-deps --override "$place/lowest.txt" -r deploy/requirements/dev.txt
    uv pip install --python "$place" --no-deps --no-build-isolation -e . -e clients/python
else
    uv pip install --python "$place" --group build -e '.[api,dev]' -e clients/python
    uv pip list --python "$place"
fi
