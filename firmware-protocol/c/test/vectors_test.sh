#!/usr/bin/env bash
# Every vector through the C library: vectors_test.sh LINE_TOOL VECTORS
set -euo pipefail
tool=$1 vectors=$2 count=0 failed=0
check() { # name, found, expected
    count=$((count + 1))
    if [ "$2" != "$3" ]; then failed=$((failed + 1)); printf '%s:\n  expected %s\n  found    %s\n' "$1" "$3" "$2"; fi
}
for file in "$vectors"/good/*.line; do
    words=$(tr '\n' ' ' < "${file%.line}.expect"); words=${words% }
    if [ "${words%skipped-kind}" != "$words" ]; then expected="skipped-kind ${words% skipped-kind}"; else expected="line $words"; fi
    check "$file" "$("$tool" decode < "$file")" "$expected"
done
for file in "$vectors"/bad/*/*.line; do
    check "$file" "$("$tool" decode < "$file")" "discarded $(basename "$(dirname "$file")")"
done
for file in "$vectors"/streams/*.bytes; do
    found=$("$tool" decode < "$file")
    check "$file" "$(for kind in line skipped-kind discarded; do grep -c "^$kind " <<< "$found" || true; done | tr '\n' ' ')" \
        "$(cut -d= -f2 "${file%.bytes}.expect" | tr '\n' ' ')"
done
for file in "$vectors"/requests/*.bytes; do
    check "$file" "$("$tool" requests < "$file")" "$(cat "${file%.bytes}.expect")"
done
# What this language writes, it writes to the byte: every good line without skipped fields, unchanged endings and defaults.
for file in "$vectors"/good/*.line; do
    case $file in *carriage-return*|*unknown-kind.line) continue ;; esac
    check "$file written" "$(sed 's/ ~....$//' "$file" | "$tool" encode)" "$(cat "$file")"
done
echo "vectors_test: $count checks, $failed failed"
[ "$failed" = 0 ] && [ "$count" -gt 200 ]
