#!/usr/bin/env bash
# Fails when something a reader of this version relies on was renamed, retyped, rescaled, given another range or unknown
# value, or taken away (PROTOCOL.md, section 9). Rows may be added; meanings may be worded better.
#   check-fields.sh [FOLDER]     the folder with the three tables; default: this one
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
folder=${1:-$here}
version=$(sed -n 's/^# .*, version \([0-9]*\)$/\1/p' "$here/PROTOCOL.md")
frozen=$here/frozen/v$version
failed=0
[ -d "$frozen" ] || { echo "check-fields: version $version has no folder frozen/v$version: a version step freezes its tables there"; exit 1; }
grep -q "KILNSIDE_PROTOCOL_VERSION $version\$" "$here/c/kilnside_line.h" || { echo "check-fields: PROTOCOL.md says version $version, c/kilnside_line.h another"; failed=1; }
grep -q "^## Version $version" "$here/CHANGES.md" || { echo "check-fields: CHANGES.md says nothing of version $version"; failed=1; }

compare() { # table, number of columns that bind, more columns that bind not at the end
    local table=$1 columns=$2 row
    if [ "$(head -n 1 "$folder/$table")" != "$(head -n 1 "$frozen/$table")" ]; then
        echo "check-fields: $table has other columns than in version $version"
        failed=1
    fi
    while IFS= read -r row; do
        if ! cut -d, -f"$columns" "$folder/$table" | grep -qxF -- "$row"; then
            echo "check-fields: $table no longer has \"$row\": renamed, retyped, rescaled or taken away without a version step"
            failed=1
        fi
    done < <(tail -n +2 "$frozen/$table" | cut -d, -f"$columns")
    if [ -n "$(tail -n +2 "$folder/$table" | cut -d, -f"$3" | sort | uniq -d)" ]; then
        echo "check-fields: $table says something twice: $(tail -n +2 "$folder/$table" | cut -d, -f"$3" | sort | uniq -d | head -n 1)"
        failed=1
    fi
}
compare fields.csv 1-12 1-3
compare amplifiers.csv 1-9 1
compare bits.csv 1-5 1-3
# Adding a field that a controller must send breaks every controller there is.
added=$(cut -d, -f1-3,11 "$folder/fields.csv" | grep ',yes$' | grep -vxFf <(cut -d, -f1-3,11 "$frozen/fields.csv") || true)
[ -z "$added" ] || { echo "check-fields: a field was added that every controller must send: $added"; failed=1; }
[ "$failed" = 0 ] && echo "check-fields: version $version holds"
exit "$failed"
