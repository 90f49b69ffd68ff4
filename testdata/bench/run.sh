#!/usr/bin/env bash
# Measures what a person waits for: plan, tonight, page, serve's slowest page, and stations
# beside a tuned script. Takes a minute or two. Options go on to measure, such as
# -before PROGRAM (an earlier build to compare with) or -rounds 9.
set -euo pipefail
cd "$(dirname "$0")/../.."
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
CGO_ENABLED=0 go build -trimpath -ldflags="-s -w" -o "$dir/frostward" ./cmd/frostward
go build -o "$dir/make" ./testdata/bench/make
go build -o "$dir/measure" ./testdata/bench/measure
# One core for the script's libraries, as the program is given one.
export OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1
"$dir/measure" -program "$dir/frostward" -make "$dir/make" -scripts testdata/bench "$@"
