#!/bin/sh
# Builds the image tepidarium:<version of the engine> with buildah; options go to buildah.
#   sh deploy/image/build.sh
#   sh deploy/image/build.sh --isolation chroot --build-arg BASE=localhost/base
set -eu
cd "$(dirname "$0")/../.."
version=$(sed -n 's/^__version__ = "\(.*\)"$/\1/p' engine/tepidarium_engine/__init__.py)
exec buildah build --file deploy/image/Containerfile --ignorefile deploy/image/ignored --format docker \
    --tag "tepidarium:$version" "$@" .
