#!/usr/bin/env bash
# Measures flash, RAM and stack and holds them against firmware/SIZES.md; sizes.sh --write puts them there.
# Another avr-gcc makes other sizes: then they are printed and not compared.
set -euo pipefail
cd "$(dirname "$0")"
native=target/native page=firmware/SIZES.md
./build.sh
compiler=$(avr-gcc --version | head -n 1)

section() { avr-size -A "$1" | awk -v name="$2" '$1 == name { sum += $2 } END { print sum + 0 }'; }

# The deepest the stack goes in 400 simulated seconds with hellos, requests, faults, a reset and kept readings sent,
# rounded up to 32: when an interrupt falls differs from run to run by a few bytes.
stack() { # firmware, amplifier
    local folder deepest board reader
    folder=$(mktemp -d)
    mkfifo "$folder/commands"
    exec 7<> "$folder/commands"
    "$native/simulated_board" "$native/$1.elf" --amplifier "$2" --pty "$folder/port" --speed 100 --seconds 400 \
        < "$folder/commands" > "$folder/said" &
    board=$!
    until grep -qs READY "$folder/said"; do sleep 0.05; done
    printf 'at 60 fault open\nat 70 fault none\nat 150 reset\n' >&7
    exec 8<> "$folder/port"
    cat <&8 > /dev/null 2>&1 &
    reader=$!
    for _ in 1 2 3 4 5 6; do
        sleep 0.5
        printf '?H\n?K -10080\n' >&8 2> /dev/null || break # the board's time was up first
    done
    wait "$board"
    wait "$reader" || true # ends with the port
    exec 7>&- 8>&-
    deepest=$(sed -n 's/^STACK \([0-9]*\) .*/\1/p' "$folder/said" | tail -n 1)
    rm -r "$folder"
    echo $(((deepest + 31) / 32 * 32))
}

library() { # pattern of the sections that a part brings with it
    avr-size -A "$native/kilnside_line_avr.o" | awk -v pattern="$1" '$1 ~ pattern { sum += $2 } END { print sum + 0 }'
}

# The symbol's size, which avr-nm gives in hex.
kept() { printf '%d' "0x$(avr-nm -S "$1" | awk '$4 == "kept" { print $2 }')"; }

table() {
    echo "| part | flash, bytes | RAM, bytes | of it kept readings | deepest stack, rounded up | left of 2048 |"
    echo "| --- | --- | --- | --- | --- | --- |"
    for amplifier in max31855 max31856; do
        local elf=$native/firmware-$amplifier.elf deepest text data bss noinit
        text=$(section "$elf" .text) data=$(section "$elf" .data) bss=$(section "$elf" .bss) noinit=$(section "$elf" .noinit)
        deepest=$(stack "firmware-$amplifier" "${amplifier^^}")
        echo "| firmware, ${amplifier^^} | $((text + data)) | $((data + bss + noinit)) | $(kept "$elf") | $deepest | $((2048 - data - bss - noinit - deepest)) |"
    done
    echo
    echo "| library, compiled by itself with -Os | flash, bytes | RAM, bytes |"
    echo "| --- | --- | --- |"
    echo "| writing lines | $(library '^\.text\.(kilnside_(begin|number|text|finish|crc16)|put|put_unsigned|put_key|fail|is_lower|is_upper|is_digit|is_text)') | 0 |"
    echo "| reading requests | $(library '^\.text\.(kilnside_take_request|parse_unsigned|parse_number)') | 0 |"
    echo "| reading lines | $(library '^\.text\.(kilnside_(take|parse|next_field|find|rule)$|cut_field|check_|is_text_value|word_length|hex_value)') | $(library '^\.rodata\.kilnside_rules') of constants |"
    echo
    echo "Measured with $compiler."
}

found=$(table)
echo "$found"
if [ "${1:-}" = --write ]; then
    { sed '/^<!-- measured -->$/q' "$page"; echo; echo "$found"; } > "$page.new"
    mv "$page.new" "$page"
elif grep -qF "Measured with $compiler." "$page"; then
    # How deep the stack is seen to go hangs on when a request falls into a line being sent: the page's is the most allowed.
    without_stack() { sed -E 's/^(\| firmware, [^|]*\|[^|]*\|[^|]*\|[^|]*\|).*/\1/'; }
    stacks() { awk -F'|' '/^\| firmware, / { print $6 + 0 }'; }
    written=$(sed '1,/^<!-- measured -->$/d' "$page" | sed '/./,$!d')
    deeper=$(paste <(stacks <<< "$found") <(stacks <<< "$written") | awk '$1 > $2' | wc -l)
    if ! diff <(without_stack <<< "$written") <(without_stack <<< "$found") || [ "$deeper" -gt 0 ]; then
        echo "sizes: firmware/SIZES.md says otherwise: look whether the growth is meant, then run sizes.sh --write"
        exit 1
    fi
else
    echo "sizes: firmware/SIZES.md was measured with another compiler: not compared"
fi
