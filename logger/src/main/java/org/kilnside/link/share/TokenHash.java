package org.kilnside.link.share;

import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.util.HexFormat;

/**
 * What the recorder keeps of a token. A token is random as a whole, so that one round of SHA-256 over it is as hard to
 * turn round as many.
 *
 * @param saltHex 16 random bytes, so that two recorders with one token keep different sums; 32 hexadecimal digits
 * @param sumHex the sum over salt and token; 64 hexadecimal digits
 */
record TokenHash(String saltHex, String sumHex) {
    private static final byte[] PURPOSE = "kilnside share 1".getBytes(StandardCharsets.US_ASCII);
    private static final HexFormat HEX = HexFormat.of();

    static TokenHash of(Token token, SecureRandom chance) {
        byte[] salt = new byte[16];
        chance.nextBytes(salt);
        return new TokenHash(HEX.formatHex(salt), HEX.formatHex(sum(token, salt)));
    }

    private static byte[] sum(Token token, byte[] salt) {
        return Digests.sha256(PURPOSE, salt, token.bytes());
    }

    boolean matches(Token token) {
        return Digests.same(sum(), sum(token, salt()));
    }

    byte[] salt() {
        return HEX.parseHex(saltHex);
    }

    byte[] sum() {
        return HEX.parseHex(sumHex);
    }

    /** The key under which both ends prove that they know the token: the recorder from what it keeps, a copy from the token. */
    static byte[] proofKey(Token token, byte[] salt) {
        return sum(token, salt);
    }

    @Override
    public String toString() {
        return "a token's sum";
    }
}
