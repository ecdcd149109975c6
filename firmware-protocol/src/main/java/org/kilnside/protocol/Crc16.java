package org.kilnside.protocol;

/**
 * CRC-16/CCITT-FALSE: polynomial 0x1021, begins with 0xFFFF, not reflected, nothing added at the end. Check value for
 * the ASCII digits 123456789: 0x29B1.
 */
public final class Crc16 {
    private static final int POLYNOMIAL = 0x1021;
    private static final int START = 0xFFFF;

    /** TABLES[n][b]: what byte b does to the checksum when n more bytes follow it; four bytes go in at a step. */
    private static final char[][] TABLES = tables();

    private Crc16() {}

    /** The checksum of the bytes from an index up to, not including, another. */
    public static int of(byte[] bytes, int from, int to) {
        char[] last = TABLES[0];
        char[] third = TABLES[1];
        char[] second = TABLES[2];
        char[] first = TABLES[3];
        int crc = START;
        int at = from;
        for (; at + 4 <= to; at += 4) {
            crc = first[(crc >>> 8) ^ (bytes[at] & 0xFF)]
                    ^ second[(crc & 0xFF) ^ (bytes[at + 1] & 0xFF)]
                    ^ third[bytes[at + 2] & 0xFF]
                    ^ last[bytes[at + 3] & 0xFF];
        }
        for (; at < to; at++) {
            crc = ((crc << 8) & 0xFFFF) ^ last[(crc >>> 8) ^ (bytes[at] & 0xFF)];
        }
        return crc;
    }

    private static char[][] tables() {
        char[][] tables = new char[4][256];
        for (int b = 0; b < 256; b++) {
            int crc = b << 8;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 0x8000) == 0 ? crc << 1 : (crc << 1) ^ POLYNOMIAL;
            }
            tables[0][b] = (char) crc;
        }
        for (int n = 1; n < 4; n++) {
            for (int b = 0; b < 256; b++) {
                int before = tables[n - 1][b];
                tables[n][b] = (char) (((before << 8) & 0xFFFF) ^ tables[0][before >>> 8]);
            }
        }
        return tables;
    }
}
