package org.kilnside.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.Test;

class Crc16Test {
    /** Published: the check value of CRC-16/CCITT-FALSE (also called CRC-16/IBM-3740) for the digits 1 to 9. */
    @Test
    void theCheckValueIsThePublishedOne() {
        byte[] digits = "123456789".getBytes(StandardCharsets.US_ASCII);
        assertThat(Crc16.of(digits, 0, digits.length)).isEqualTo(0x29B1);
    }

    @Test
    void nothingHasTheStartingValue() {
        assertThat(Crc16.of(new byte[0], 0, 0)).isEqualTo(0xFFFF);
    }

    /** Independent: the bit-by-bit loop of PROTOCOL.md. */
    @Test
    void fourBytesAtAStepGiveWhatTheLoopOfTheSpecificationGives() {
        Random random = new Random(1);
        for (int round = 0; round < 2_000; round++) {
            byte[] bytes = new byte[random.nextInt(130)];
            random.nextBytes(bytes);
            int from = random.nextInt(bytes.length + 1);
            assertThat(Crc16.of(bytes, from, bytes.length)).isEqualTo(bitByBit(bytes, from));
        }
    }

    private static int bitByBit(byte[] bytes, int from) {
        int crc = 0xFFFF;
        for (int i = from; i < bytes.length; i++) {
            crc ^= (bytes[i] & 0xFF) << 8;
            for (int bit = 0; bit < 8; bit++) {
                crc = (crc & 0x8000) != 0 ? (crc << 1 ^ 0x1021) & 0xFFFF : crc << 1 & 0xFFFF;
            }
        }
        return crc;
    }
}
