package org.kilnside.link.share;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.SecureRandom;
import java.security.Signature;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.security.spec.ECGenParameterSpec;

/**
 * Makes a key pair and the certificate TLS wants around it. Nobody else signs it and nobody has to: a copy believes it
 * because the recorder proves, under the token, that this certificate is its own. Java has no public way to make a
 * certificate, so the few fields of RFC 5280 are written here.
 */
final class SelfSigned {
    /** A certificate and its private key. */
    record Identity(KeyPair keys, X509Certificate certificate) {}

    private static final int INTEGER = 0x02;
    private static final int BITS = 0x03;
    private static final int OBJECT = 0x06;
    private static final int UTF8 = 0x0C;
    private static final int SEQUENCE = 0x30;
    private static final int SET = 0x31;
    private static final int TIME = 0x18;
    private static final int VERSION = 0xA0;

    /** 1.2.840.10045.4.3.2, ecdsa-with-SHA256 (RFC 5758). */
    private static final byte[] ECDSA_WITH_SHA256 = {0x2A, (byte) 0x86, 0x48, (byte) 0xCE, 0x3D, 0x04, 0x03, 0x02};

    /** 2.5.4.3, a common name. */
    private static final byte[] COMMON_NAME = {0x55, 0x04, 0x03};

    private SelfSigned() {}

    static Identity make(SecureRandom chance) {
        try {
            KeyPairGenerator generator = KeyPairGenerator.getInstance("EC");
            generator.initialize(new ECGenParameterSpec("secp256r1"), chance);
            KeyPair keys = generator.generateKeyPair();
            byte[] body = body(keys, new BigInteger(120, chance).setBit(119));
            Signature signature = Signature.getInstance("SHA256withECDSA");
            signature.initSign(keys.getPrivate(), chance);
            signature.update(body);
            byte[] whole = der(SEQUENCE, body, algorithm(), bits(signature.sign()));
            X509Certificate certificate = (X509Certificate)
                    CertificateFactory.getInstance("X.509").generateCertificate(new ByteArrayInputStream(whole));
            return new Identity(keys, certificate);
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("this Java lacks elliptic curves (its module jdk.crypto.ec)", e);
        }
    }

    private static byte[] body(KeyPair keys, BigInteger serial) {
        byte[] name = der(
                SEQUENCE,
                der(
                        SET,
                        der(
                                SEQUENCE,
                                der(OBJECT, COMMON_NAME),
                                der(UTF8, "kilnside".getBytes(StandardCharsets.UTF_8)))));
        // No clock decides whether it holds: a board without a clock of its own may start in 1970.
        byte[] validity = der(SEQUENCE, time("19700101000000Z"), time("99991231235959Z"));
        return der(
                SEQUENCE,
                der(VERSION, der(INTEGER, new byte[] {2})),
                der(INTEGER, serial.toByteArray()),
                algorithm(),
                name,
                validity,
                name,
                keys.getPublic().getEncoded());
    }

    private static byte[] algorithm() {
        return der(SEQUENCE, der(OBJECT, ECDSA_WITH_SHA256));
    }

    private static byte[] time(String text) {
        return der(TIME, text.getBytes(StandardCharsets.US_ASCII));
    }

    private static byte[] bits(byte[] whole) {
        return der(BITS, new byte[] {0}, whole);
    }

    /** One value in DER (ITU-T X.690): tag, length, content. */
    private static byte[] der(int tag, byte[]... parts) {
        ByteArrayOutputStream content = new ByteArrayOutputStream();
        for (byte[] part : parts) {
            content.writeBytes(part);
        }
        ByteArrayOutputStream value = new ByteArrayOutputStream();
        value.write(tag);
        int length = content.size();
        if (length < 0x80) {
            value.write(length);
        } else if (length < 0x100) {
            value.write(0x81);
            value.write(length);
        } else {
            value.write(0x82);
            value.write(length >> 8);
            value.write(length);
        }
        value.writeBytes(content.toByteArray());
        return value.toByteArray();
    }
}
