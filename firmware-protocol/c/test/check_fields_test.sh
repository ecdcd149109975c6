#!/usr/bin/env bash
# check-fields.sh must fail for every change that breaks a reader, and pass for those that do not.
set -euo pipefail
cd "$(dirname "$0")/../.."
folder=$(mktemp -d)
trap 'rm -r "$folder"' EXIT
checks=0 failed=0
change() { # expected: breaks or holds; what; table; sed expression
    cp fields.csv amplifiers.csv bits.csv "$folder"
    sed -i "$4" "$folder/$3"
    checks=$((checks + 1))
    if cmp -s "$3" "$folder/$3"; then
        echo "check_fields_test: \"$2\" changes nothing"
        failed=$((failed + 1))
    fi
    if ./check-fields.sh "$folder" > "$folder/said"; then found=holds; else found=breaks; fi
    if [ "$found" != "$1" ]; then
        failed=$((failed + 1))
        echo "check_fields_test: $2: expected that it $1, and it $found:"
        cat "$folder/said"
    fi
}
change breaks "a key renamed" fields.csv 's/^u,RK/q,RK/'
change breaks "a name renamed" fields.csv 's/element output/heater output/'
change breaks "a field retyped" fields.csv 's/^i,H,no,line interval,integer/i,H,no,line interval,text/'
change breaks "a field rescaled" fields.csv 's/^s,RK,no,set-point,integer,°C,1\/10/s,RK,no,set-point,integer,°C,1\/100/'
change breaks "another unit" fields.csv 's/,permille,/,percent,/'
change breaks "a wider range" fields.csv 's/,1,0,1000,9999/,1,0,1100,9999/'
change breaks "another unknown value" fields.csv 's/,1,0,1000,9999/,1,0,1000,65535/'
change breaks "a field taken away" fields.csv '/^g,/d'
change breaks "a field made required" fields.csv 's/,255,no,1,sum of the bits in bits.csv; absent/,255,yes,1,sum of the bits in bits.csv; absent/'
change breaks "a field moved to other kinds" fields.csv 's/^u,RK/u,R/'
change breaks "a new field that must be sent" fields.csv '$ a q,H,no,colour,integer,count,1,0,9,,yes,1,new'
change breaks "a key said twice" fields.csv '$ a u,RK,no,umbrella,integer,count,1,0,9,,no,1,new'
change breaks "an amplifier's step" amplifiers.csv 's/1\/128/1\/256/'
change breaks "an amplifier renamed" amplifiers.csv 's/^CELSIUS/DEGREES/'
change breaks "another bit for a fault" bits.csv 's/^f,RK,64/f,RK,128/'
change breaks "a column taken away" bits.csv 's/,[^,]*$//'
change holds "a meaning worded better" fields.csv 's/share of full power given to the elements/share of full power/'
change holds "a new field" fields.csv '$ a q,R,no,colour,integer,count,1,0,9,15,no,1,new'
change holds "a new amplifier" amplifiers.csv '$ a MAX99999,1\/4,0,4095,,,,no,1,invented'
change holds "a new bit" bits.csv '$ a r,H,32,sunspots,1,new'
echo "check_fields_test: $checks checks, $failed failed"
[ "$failed" = 0 ]
