#!/bin/sh
# Makes the image localhost/tepidarium-base from Debian's own packages: a base for places that reach no image registry.
# Needs root, debootstrap and buildah.
#   sh deploy/image/debian_base.sh FOLDER    a folder to unpack into, which is filled and can be kept
set -eu
folder=${1:?name a folder to unpack into}
[ -x "$folder/usr/bin/python3" ] || debootstrap --variant=minbase --include=python3,python3-venv,ca-certificates \
    bookworm "$folder" >&2
container=$(buildah from scratch)
buildah add --quiet "$container" "$folder" / >&2
buildah commit --quiet "$container" tepidarium-base
buildah rm "$container" >/dev/null
