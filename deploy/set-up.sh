#!/bin/sh
# Makes .venv at the top of the project and installs the project into it.
#   sh deploy/set-up.sh run    the service, the engine, the client with its command line
#   sh deploy/set-up.sh dev    the same and what the tests need
# Installs again only when a pyproject.toml has changed since.
set -eu
cd "$(dirname "$0")/.."
want=${1:-run}
python=${PYTHON:-python3}

if ! "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
    echo "Python 3.11 or later is needed; name one with PYTHON=/path/to/python3" >&2
    exit 1
fi
if ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
    # Debian keeps these two modules in a package of their own.
    echo "Installing the python3-venv package" >&2
    as_root=""
    [ "$(id -u)" -eq 0 ] || as_root=sudo
    $as_root apt-get update -qq && $as_root apt-get install -y -qq python3-venv
fi

case "$want" in
    run) extras=api ;;
    dev) extras=api,dev ;;
    *) echo "run or dev, not $want" >&2; exit 2 ;;
esac
state=$(cat pyproject.toml clients/python/pyproject.toml | cksum | cut -d' ' -f1)
for stamp in ".venv/.installed-$want-$state" ".venv/.installed-dev-$state"; do
    [ -f "$stamp" ] && exit 0
done

[ -x .venv/bin/python ] || "$python" -m venv .venv
echo "Installing into .venv (a minute or two the first time)" >&2
.venv/bin/python -m pip install --quiet --disable-pip-version-check -e ".[$extras]" -e clients/python
touch ".venv/.installed-$want-$state"
