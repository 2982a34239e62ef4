#!/bin/sh
# One test file by itself; what it prints is shown only when it fails. A file of long tests alone has none to run.
python=${TEST_PYTHON:-.venv/bin/python}
plugins="-p randomly"
if [ "$python" = .venv/lowest/bin/python ]; then
    # schemathesis needs one of the newest jsonschema-rs, the service does not: its file runs with the locked versions.
    plugins="$plugins -p no:schemathesis"
    [ "$1" != tests/contract/test_schemathesis.py ] || exit 0
fi
status=0
# shellcheck disable=SC2086 - several options
output=$("$python" -m pytest -q -m "not long" $plugins "$1" 2>&1) || status=$?
[ "$status" -eq 0 ] || [ "$status" -eq 5 ] || { echo "$1 by itself:"; echo "$output"; exit 1; }
