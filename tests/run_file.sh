#!/bin/sh
# One test file by itself; what it prints is shown only when it fails. A file of long tests alone has none to run.
status=0
output=$(.venv/bin/python -m pytest -q -m "not long" "$1" 2>&1) || status=$?
[ "$status" -eq 0 ] || [ "$status" -eq 5 ] || { echo "$1 by itself:"; echo "$output"; exit 1; }
