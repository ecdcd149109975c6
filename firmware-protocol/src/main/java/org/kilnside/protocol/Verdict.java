package org.kilnside.protocol;

import java.util.Locale;

/** What became of one line. The defects stand in the order in which PROTOCOL.md lets the first that holds name a line. */
public enum Verdict {
    /** A line this reader understands wholly. */
    GOOD,
    /** Understood, but it carried keys this reader does not know and skipped. */
    GOOD_WITH_UNKNOWN_KEYS,
    /** A line with a good checksum, of a kind this reader does not know. */
    UNKNOWN_KIND,
    /** More than 119 bytes before its end. */
    TOO_LONG,
    /** A byte outside printable ASCII. */
    NOT_ASCII,
    /** Does not end with space, tilde and four capital hexadecimal digits. */
    CRC_MISSING,
    /** The checksum is not that of the bytes. */
    CRC_WRONG,
    BAD_KIND,
    BAD_SEQUENCE,
    BAD_UPTIME,
    BAD_FIELD,
    DOUBLED_KEY,
    OUT_OF_RANGE,
    MISSING_FIELD;

    /** Whether there is a message. */
    public boolean good() {
        return this == GOOD || this == GOOD_WITH_UNKNOWN_KEYS;
    }

    /** Whether the line is to be discarded. */
    public boolean defect() {
        return compareTo(TOO_LONG) >= 0;
    }

    /** The name PROTOCOL.md gives it, such as {@code crc-wrong}. */
    public String title() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
