package org.kilnside.link.share;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.KeyStore;
import java.security.PrivateKey;
import java.security.SecureRandom;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.security.spec.PKCS8EncodedKeySpec;
import java.time.LocalDate;
import java.util.Base64;
import java.util.Properties;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;

/** The recorder's side of sharing: the sum of the token it gave out, and the key it speaks under. */
public final class ShareKey {
    private final TokenHash hash;
    private final PrivateKey key;
    private final X509Certificate certificate;
    private final LocalDate since;

    private ShareKey(TokenHash hash, PrivateKey key, X509Certificate certificate, LocalDate since) {
        this.hash = hash;
        this.key = key;
        this.certificate = certificate;
        this.since = since;
    }

    /** A key for a token that is about to be shown. */
    public static ShareKey of(Token token, SecureRandom chance, LocalDate today) {
        SelfSigned.Identity identity = SelfSigned.make(chance);
        return new ShareKey(TokenHash.of(token, chance), identity.keys().getPrivate(), identity.certificate(), today);
    }

    /** The day the token was made. */
    public LocalDate since() {
        return since;
    }

    TokenHash hash() {
        return hash;
    }

    byte[] fingerprint() {
        return fingerprint(certificate);
    }

    static byte[] fingerprint(Certificate certificate) {
        try {
            return Digests.sha256(certificate.getEncoded());
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("a certificate that was read can be written", e);
        }
    }

    /** What a server that speaks under this key needs. */
    SSLContext context() throws IOException {
        try {
            char[] none = new char[0];
            KeyStore store = KeyStore.getInstance("PKCS12");
            store.load(null, none);
            store.setKeyEntry("kilnside", key, none, new Certificate[] {certificate});
            KeyManagerFactory keys = KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
            keys.init(store, none);
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(keys.getKeyManagers(), null, null);
            return context;
        } catch (GeneralSecurityException e) {
            throw new IOException("the key for sharing cannot be used: " + e.getMessage(), e);
        }
    }

    Properties written() {
        Properties written = new Properties();
        try {
            written.setProperty("token_salt", hash.saltHex());
            written.setProperty("token_sha256", hash.sumHex());
            written.setProperty("certificate", Base64.getEncoder().encodeToString(certificate.getEncoded()));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("a certificate that was made can be written", e);
        }
        written.setProperty("private_key", Base64.getEncoder().encodeToString(key.getEncoded()));
        written.setProperty("since", since.toString());
        return written;
    }

    /** @throws IllegalArgumentException when the properties are not what {@link #written()} gives */
    static ShareKey read(Properties written) {
        try {
            X509Certificate certificate = (X509Certificate) CertificateFactory.getInstance("X.509")
                    .generateCertificate(new ByteArrayInputStream(
                            Base64.getDecoder().decode(written.getProperty("certificate", ""))));
            PrivateKey key = KeyFactory.getInstance("EC")
                    .generatePrivate(new PKCS8EncodedKeySpec(
                            Base64.getDecoder().decode(written.getProperty("private_key", ""))));
            TokenHash hash =
                    new TokenHash(written.getProperty("token_salt", ""), written.getProperty("token_sha256", ""));
            if (hash.salt().length != 16 || hash.sum().length != 32) {
                throw new IllegalArgumentException("the token's sum is not whole");
            }
            return new ShareKey(hash, key, certificate, LocalDate.parse(written.getProperty("since", "")));
        } catch (GeneralSecurityException | java.time.DateTimeException e) {
            throw new IllegalArgumentException("the key is not whole", e);
        }
    }
}
