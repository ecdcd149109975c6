#!/usr/bin/env bash
# Builds the C library's tests, the firmware and the simulated board into target/native (or $1), if anything changed.
# Needs gcc, gcc-avr, avr-libc, binutils-avr, libsimavr-dev. Safe to call from several processes at once.
set -euo pipefail
cd "$(dirname "$0")"
out=${1:-target/native}
mkdir -p "$out"
exec 9> "$out/.lock"
flock 9

stamp=$({ cat build.sh c/*.[ch] c/README.md c/test/*.[ch] firmware/*.[ch] firmware/test/*.c board/*.[ch]; gcc --version; avr-gcc --version; } | cksum)
[ "$(cat "$out/.stamp" 2> /dev/null)" = "$stamp" ] && exit 0
rm -f "$out/.stamp"

warnings="-Wall -Wextra -Werror"
library="-std=c99 -Wpedantic -Wconversion $warnings"
sanitized="-g -fsanitize=address,undefined -fno-sanitize-recover=all"
tests="-std=c99 -D_POSIX_C_SOURCE=200809L $warnings"

gcc $library -O1 $sanitized -c c/kilnside_line.c -o "$out/kilnside_line.o"
for test in line_test fields_test; do
    gcc $tests -O1 $sanitized "c/test/$test.c" "$out/kilnside_line.o" -o "$out/$test"
done
gcc $library -O2 $sanitized -c c/kilnside_line.c -o "$out/kilnside_line_fast.o"
gcc $tests -O2 $sanitized c/test/fuzz_test.c "$out/kilnside_line_fast.o" -o "$out/fuzz_test"
# The filter is started once a vector: without sanitizers it starts ten times faster. The tests above have them.
gcc $library -O2 c/kilnside_line.c -c -o "$out/kilnside_line_plain.o"
gcc $tests -O2 c/test/line_tool.c "$out/kilnside_line_plain.o" -o "$out/line_tool"
gcc $tests -O2 $sanitized firmware/test/kept_test.c firmware/kept.c "$out/kilnside_line.o" -o "$out/kept_test"
# The example in c/README.md is what the reader is told: it is cut out, compiled and run by verify.sh.
awk '/^```c$/ { inside = 1; next } /^```$/ { inside = 0 } inside' c/README.md > "$out/readme_example.c"
gcc -std=c99 $warnings -O1 $sanitized -I c "$out/readme_example.c" "$out/kilnside_line.o" -o "$out/readme_example"

avr="avr-gcc -std=gnu99 -mmcu=atmega328p -DF_CPU=16000000UL -Os $warnings -ffunction-sections -fdata-sections"
firmware() { # name, amplifier, more
    $avr -flto -Wl,--gc-sections ${3:-} firmware/main.c firmware/clock.c firmware/serial.c firmware/kept.c "firmware/$2.c" \
        c/kilnside_line.c -o "$out/$1.elf"
    avr-objcopy -O ihex -R .eeprom "$out/$1.elf" "$out/$1.hex"
}
firmware firmware-max31855 max31855
firmware firmware-max31856 max31856
# Uptime begins 40 s before it wraps: for the test of the wrap alone.
firmware firmware-max31855-wrap max31855 -DCLOCK_START_TICKS=42949272UL
$avr -std=c99 -c c/kilnside_line.c -o "$out/kilnside_line_avr.o"

gcc -std=gnu99 -O2 -g $warnings board/*.c -o "$out/simulated_board" -lsimavr -lm
echo "$stamp" > "$out/.stamp"
