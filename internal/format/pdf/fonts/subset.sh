#!/bin/sh
# Makes the faces of printed pages from the full ones. Source Serif 4 and Source
# Sans 3 come in two npm packages under the SIL Open Font License 1.1; the signs
# that they lack (diameter, boxes, ticks) come from DejaVu Sans, which Debian's
# fonts-dejavu-core carries. The licences stand beside this file.
# Needs npm, fonts-dejavu-core, and python3 with fonttools and brotli:
#
#     sh internal/format/pdf/fonts/subset.sh
#
# What is left: Latin with its accents, Greek, Cyrillic, and the signs that a
# shop uses; no hints, no layout tables. Kerning is written into the old 'kern'
# table, pair by pair, which a small reader can read. The Reserved Font Name
# clause of the licence asks that a changed face be called by another name: the
# family inside the files is 'Rodwork'.
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
