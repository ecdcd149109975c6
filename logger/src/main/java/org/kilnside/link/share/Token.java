package org.kilnside.link.share;

import java.security.SecureRandom;
import java.util.Arrays;
import java.util.Locale;

/**
 * The 128 random bits that let another computer follow a recording, and how a person types them: seven groups of four
 * characters, the last of which check the rest. Letters and digits that look alike are one and the same.
 */
public final class Token {
    /** What a person has to type, spaces and hyphens apart. */
    static final int CHARACTERS = 28;

    private static final int BYTES = 16;
    private static final int CHECK_BITS = 12;
    private static final int BITS_A_CHARACTER = 5;
    private static final int GROUP = 4;

    /** 32 characters without I, L, O and U: nothing is mistaken for 1, 0 or V. */
    private static final String ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

    private final byte[] bytes;

    private Token(byte[] bytes) {
        this.bytes = bytes;
    }

    /** A new token; nobody can guess it. */
    public static Token random(SecureRandom chance) {
        byte[] bytes = new byte[BYTES];
        chance.nextBytes(bytes);
        return new Token(bytes);
    }

    /**
     * The token a person typed, in any case, with or without hyphens and spaces.
     *
     * @throws IllegalArgumentException with one sentence when it cannot be the token that was shown
     */
    public static Token parse(String typed) {
        String text = typed.replaceAll("[\\s\\-–—.]", "")
                .toUpperCase(Locale.ROOT)
                .replace('O', '0')
                .replace('I', '1')
                .replace('L', '1');
        for (int i = 0; i < text.length(); i++) {
            if (ALPHABET.indexOf(text.charAt(i)) < 0) {
                throw new IllegalArgumentException("a token has no \"" + text.charAt(i)
                        + "\": it is made of digits and letters other than I, L, O and U");
            }
        }
        if (text.length() != CHARACTERS) {
            throw new IllegalArgumentException(
                    "a token has " + CHARACTERS + " characters in seven groups of four, found " + text.length());
        }
        byte[] bytes = new byte[BYTES];
        for (int bit = 0; bit < BYTES * 8; bit++) {
            if (bitAt(text, bit)) {
                bytes[bit / 8] |= (byte) (0x80 >> bit % 8);
            }
        }
        Token token = new Token(bytes);
        if (!token.characters().equals(text)) {
            throw new IllegalArgumentException(
                    "a character of the token is not as it was shown: compare the seven groups one by one");
        }
        return token;
    }

    private static boolean bitAt(String text, int bit) {
        int value = ALPHABET.indexOf(text.charAt(bit / BITS_A_CHARACTER));
        return (value >> (BITS_A_CHARACTER - 1 - bit % BITS_A_CHARACTER) & 1) == 1;
    }

    /** The token as a person types it: {@code 7K2M-…}, seven groups of four. */
    public String typed() {
        String characters = characters();
        StringBuilder groups = new StringBuilder();
        for (int i = 0; i < CHARACTERS; i += GROUP) {
            groups.append(i == 0 ? "" : "-").append(characters, i, i + GROUP);
        }
        return groups.toString();
    }

    private String characters() {
        byte[] digest = Digests.sha256(bytes);
        byte[] all = Arrays.copyOf(bytes, BYTES + 2);
        // The check is the digest's first 12 bits: one mistyped token in 4096 gets past it, and none past the recorder.
        all[BYTES] = digest[0];
        all[BYTES + 1] = (byte) (digest[1] & 0xF0);
        StringBuilder text = new StringBuilder();
        for (int at = 0; at < BYTES * 8 + CHECK_BITS; at += BITS_A_CHARACTER) {
            int value = 0;
            for (int bit = at; bit < at + BITS_A_CHARACTER; bit++) {
                value = value << 1 | (all[bit / 8] >> (7 - bit % 8) & 1);
            }
            text.append(ALPHABET.charAt(value));
        }
        return text.toString();
    }

    byte[] bytes() {
        return bytes.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Token token && Digests.same(bytes, token.bytes);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(bytes);
    }

    /** Says nothing of the token: it may end up in a log. */
    @Override
    public String toString() {
        return "a token";
    }
}
