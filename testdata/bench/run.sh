#!/usr/bin/env bash
# Measures how fast the program is and prints ratios: reading against wc -l, the whole job
# against pandas, numpy and scipy, two workers against one, memory, plan, the binary's size.
# Takes a minute or two. Options go on to measure, such as -size 1000000000 -rounds 9.
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
