#!/bin/sh
# Makes the faces of the page from the full ones, which two npm packages carry
# under the SIL Open Font License 1.1 (the licences stand beside this file).
# Needs npm and python3 with fonttools and brotli:
#
#     sh internal/book/html/fonts/subset.sh
#
# What is left: Latin with its accents, Greek, and the signs that a shop uses.
# The Reserved Font Name clause of the licence asks that a changed face be
# called by another name: the family inside the files is 'Rodwork'.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
tmp=$(mktemp -d)
trap 'rm -rf "$tmp"' EXIT
cd "$tmp"
for pkg in @expo-google-fonts/source-sans-3@0.4.1 @expo-google-fonts/source-serif-4@0.4.1 \
	@fontsource-variable/source-serif-4@5.3.1; do
	tar xzf "$(npm pack --silent "$pkg")" && mv package "$(echo "$pkg" | tr -dc 'a-z0-9')"
done
/usr/bin/env python3 "$here/subset.py" "$tmp" "$here"
