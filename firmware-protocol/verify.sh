#!/usr/bin/env bash
# Builds and tests everything here that is not Java: verify.sh [FUZZ_ROUNDS]. Prints flash and RAM. Java's own tests
# (codec, firmware on the simulated board) are Maven's; one of them runs this script.
set -euo pipefail
cd "$(dirname "$0")"
rounds=${1:-300000} # ten inputs a round
native=target/native

./build.sh
./check-fields.sh
bash c/test/check_fields_test.sh
"$native/line_test"
"$native/fields_test" fields.csv bits.csv
bash c/test/vectors_test.sh "$native/line_tool" vectors
"$native/kept_test"
printed=$("$native/readme_example")
grep -qxF "It prints \`$printed\`." c/README.md || { echo "c/README.md does not say what its example prints: $printed"; exit 1; }
"$native/fuzz_test" "$rounds"
./sizes.sh
