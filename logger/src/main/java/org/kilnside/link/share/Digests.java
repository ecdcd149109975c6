package org.kilnside.link.share;

import java.security.InvalidKeyException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/** The two sums everything here rests on, and the comparison that takes as long for a wrong one as for the right one. */
final class Digests {
    private Digests() {}

    /** SHA-256 (FIPS 180-4) over the parts one after the other. */
    static byte[] sha256(byte[]... parts) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            for (byte[] part : parts) {
                digest.update(part);
            }
            return digest.digest();
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /** HMAC-SHA-256 (RFC 2104) over the parts one after the other; all but the first have a fixed length. */
    static byte[] hmac(byte[] key, byte[]... parts) {
        try {
            Mac mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(key, "HmacSHA256"));
            for (byte[] part : parts) {
                mac.update(part);
            }
            return mac.doFinal();
        } catch (NoSuchAlgorithmException | InvalidKeyException e) {
            throw new IllegalStateException("every Java has HMAC-SHA-256", e);
        }
    }

    /** Whether both are the same, in a time that does not tell where they differ. */
    static boolean same(byte[] one, byte[] other) {
        return MessageDigest.isEqual(one, other);
    }
}
