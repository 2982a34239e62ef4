#!/bin/sh
# Designs the example house and one of two storeys: sets itself up, starts the service on loopback for as long as it
# needs it, prints the schedule of the first and writes the results of both into a folder (default: results).
set -eu
cd "$(dirname "$0")/.."
sh deploy/set-up.sh run
folder="${1:-results}"
.venv/bin/tepidarium designs --local --output "$folder" examples/house.json
exec .venv/bin/tepidarium designs --local --output "$folder/two-storeys" examples/two-storeys.json > /dev/null
