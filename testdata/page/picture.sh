#!/bin/sh
# Makes garden.png, README's picture: the page of the built-in, invented garden on a fixed day.
# Run it in the top folder; CHROMIUM names the browser where it is not chromium.
set -eu
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
go run ./cmd/frostward page --as-of 2026-05-17 -o "$work/garden.html"
"${CHROMIUM:-chromium}" --headless --no-sandbox --disable-gpu --disable-background-networking --hide-scrollbars --disable-lcd-text \
	--user-data-dir="$work/profile" --window-size=960,830 --screenshot="$PWD/testdata/page/garden.png" "file://$work/garden.html"
