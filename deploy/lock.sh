#!/bin/sh
# Writes the versions and hashes in deploy/requirements from what the two pyproject.toml allow.
#   sh deploy/lock.sh             keeps the versions that still fit, adds what is missing
#   sh deploy/lock.sh --upgrade   takes the newest
set -eu
cd "$(dirname "$0")/.."
sh deploy/set-up.sh dev
lock() {  # name of the file, then options
    name=$1
    shift
    .venv/bin/uv pip compile --quiet pyproject.toml clients/python/pyproject.toml --group build "$@" \
        --universal --python-version 3.11 --fork-strategy fewest --generate-hashes --no-annotate \
        --custom-compile-command "sh deploy/lock.sh" --output-file "deploy/requirements/$name.txt"
}
lock dev --extra api --extra batch --extra documents --extra dev "$@"
lock long --extra api --extra batch --extra documents --extra cluster --extra dev --extra long --constraint deploy/requirements/dev.txt
lock run --extra api --extra batch --extra documents --constraint deploy/requirements/dev.txt

# What the image contains, and what builds it: its wheel and the list of its packages.
image() {  # name of the file, then what to compile
    name=$1
    shift
    .venv/bin/uv pip compile --quiet "$@" --python-version 3.11 --python-platform linux --generate-hashes --no-annotate \
        --custom-compile-command "sh deploy/lock.sh" --output-file "deploy/requirements/$name.txt"
}
image image pyproject.toml --extra api --extra documents --constraint deploy/requirements/dev.txt
image image-build --group build --group image --constraint deploy/requirements/dev.txt
