#!/bin/sh
# Makes .venv at the top of the project and installs the project into it, with the versions of deploy/requirements.
#   sh deploy/set-up.sh run    the service, the engine, the client with its command line
#   sh deploy/set-up.sh dev    the same and what the tests need
#   sh deploy/set-up.sh long   the same and what the long checks need: more Python packages, the npm packages of
#                              clients/typescript and tests/browser, and as root on Debian what the deployment is tried with
# Installs again only when what it installs has changed.
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

state_of() { cat "$@" | cksum | cut -d' ' -f1; }

install_python() {  # run, dev or long
    state=$(state_of pyproject.toml clients/python/pyproject.toml deploy/requirements/*.txt)
    for more in run dev long; do  # each holds what those before it hold
        [ "$more" = "$1" ] && enough=yes
        [ "${enough:-no}" = yes ] && [ -f ".venv/.installed-$more-$state" ] && return
    done
    [ -x .venv/bin/python ] || "$python" -m venv .venv
    echo "Installing into .venv (a minute or two the first time)" >&2
    pip="-m pip --disable-pip-version-check install --quiet --no-deps"
    # For tests modules are compiled when they are first imported, since most never are.
    [ "$1" = run ] || pip="$pip --no-compile"
    .venv/bin/python $pip --require-hashes -r "deploy/requirements/$1.txt"
    .venv/bin/python $pip --no-build-isolation -e . -e clients/python
    touch ".venv/.installed-$1-$state"
}

install_debian() {
    missing=""
    for package in buildah chromium debootstrap nginx-light openssl; do
        dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing="$missing $package"
    done
    [ -n "$missing" ] || return 0
    echo "Installing Debian's packages$missing" >&2
    as_root=""
    [ "$(id -u)" -eq 0 ] || as_root=sudo
    # shellcheck disable=SC2086 - one word for each package
    $as_root apt-get update -qq && DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends \
        $missing >/dev/null
}

install_npm() {  # a folder with package.json
    folder=$1
    state=$(state_of "$folder/package.json" "$folder/package-lock.json")
    stamp="$folder/node_modules/.installed-$state"
    [ ! -f "$stamp" ] || return 0
    if ! node -e 'const [a, b] = process.versions.node.split("."); process.exit(a > 20 || (a == 20 && b >= 19) ? 0 : 1)' \
        2>/dev/null || ! npm --version >/dev/null 2>&1; then
        echo "Node.js 20.19 or later with npm is needed for the long checks" >&2
        exit 1
    fi
    echo "Installing into $folder/node_modules" >&2
    npm --prefix "$folder" ci --silent --no-audit --no-fund
    touch "$stamp"
}

case "$want" in
    run | dev) install_python "$want" ;;
    long) install_debian; install_python long; install_npm clients/typescript; install_npm tests/browser ;;
    *) echo "run, dev or long, not $want" >&2; exit 2 ;;
esac
