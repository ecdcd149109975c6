package org.kilnside.host;

import java.awt.geom.AffineTransform;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/**
 * How a camera was held, as a JPEG says it: Exif tag 0x0112, values 1 to 8 (JEITA CP-3451, 4.6.4 A).
 *
 * @param value 1 = as it lies, 3 = upside down, 6 = turn to the right, 8 = turn to the left; the even others mirrored
 */
record JpegOrientation(int value) {
    private static final JpegOrientation AS_IT_LIES = new JpegOrientation(1);
    private static final int APP1 = 0xE1;
    private static final int START_OF_SCAN = 0xDA;
    private static final int TAG = 0x0112;

    /** The orientation a file says; as it lies where it says none, or is no JPEG. */
    static JpegOrientation of(byte[] file) {
        ByteBuffer bytes = ByteBuffer.wrap(file);
        if (file.length < 4 || bytes.getShort(0) != (short) 0xFFD8) {
            return AS_IT_LIES;
        }
        int at = 2;
        while (at + 4 <= file.length && (file[at] & 0xFF) == 0xFF) {
            int marker = file[at + 1] & 0xFF;
            int length = bytes.getShort(at + 2) & 0xFFFF;
            if (marker == START_OF_SCAN || length < 2) {
                break;
            }
            int from = at + 4;
            int to = Math.min(file.length, at + 2 + length);
            if (marker == APP1
                    && to - from > 14
                    && new String(file, from, 6, StandardCharsets.ISO_8859_1).equals("Exif\0\0")) {
                return ofExif(ByteBuffer.wrap(file, from + 6, to - from - 6).slice());
            }
            at += 2 + length;
        }
        return AS_IT_LIES;
    }

    private static JpegOrientation ofExif(ByteBuffer tiff) {
        tiff.order(tiff.getShort(0) == 0x4949 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
        long directory = tiff.getInt(4) & 0xFFFFFFFFL;
        if (directory + 2 > tiff.limit()) {
            return AS_IT_LIES;
        }
        int entries = tiff.getShort((int) directory) & 0xFFFF;
        for (int i = 0; i < entries; i++) {
            long entry = directory + 2 + i * 12L;
            if (entry + 12 > tiff.limit()) {
                break;
            }
            if ((tiff.getShort((int) entry) & 0xFFFF) == TAG) {
                int value = tiff.getShort((int) entry + 8) & 0xFFFF;
                return value >= 1 && value <= 8 ? new JpegOrientation(value) : AS_IT_LIES;
            }
        }
        return AS_IT_LIES;
    }

    /** Whether what lies wide stands tall when upright. */
    boolean swapsSides() {
        return value >= 5;
    }

    /** From the picture as it lies to the picture upright. */
    AffineTransform upright(double width, double height) {
        return switch (value) {
            case 2 -> new AffineTransform(-1, 0, 0, 1, width, 0);
            case 3 -> new AffineTransform(-1, 0, 0, -1, width, height);
            case 4 -> new AffineTransform(1, 0, 0, -1, 0, height);
            case 5 -> new AffineTransform(0, 1, 1, 0, 0, 0);
            case 6 -> new AffineTransform(0, 1, -1, 0, height, 0);
            case 7 -> new AffineTransform(0, -1, -1, 0, height, width);
            case 8 -> new AffineTransform(0, -1, 1, 0, 0, width);
            default -> new AffineTransform();
        };
    }
}
