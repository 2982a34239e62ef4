#!/bin/sh
# Designs the example house: sets itself up, starts the service on loopback for as long as it needs it, prints the
# schedule and writes the results into a folder (default: results).
set -eu
cd "$(dirname "$0")/.."
sh deploy/set-up.sh run
exec .venv/bin/tepidarium design --local --output "${1:-results}" examples/house.json
