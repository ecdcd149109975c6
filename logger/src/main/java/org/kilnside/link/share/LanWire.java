package org.kilnside.link.share;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.security.cert.X509Certificate;
import java.util.HexFormat;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManager;
import javax.net.ssl.X509TrustManager;

/**
 * How two copies come to speak over a network. TLS 1.3 encrypts; the token says who may, in both directions:
 *
 * <ol>
 *   <li>the copy sends a random number;
 *   <li>the recorder answers with one of its own, the salt, and a proof under the token's sum over both numbers and its
 *       certificate: whoever stands in between with a certificate of his own cannot make it;
 *   <li>only when the proof holds, the copy sends the token;
 *   <li>the recorder compares its sum with the one it keeps, and says what is allowed.
 * </ol>
 */
public final class LanWire {
    private static final String GREETING = "kilnside-share-1";
    private static final byte[] RECORDER = "recorder".getBytes(StandardCharsets.US_ASCII);
    private static final int CONNECT_MS = 5_000;
    private static final int GREETING_MS = 5_000;
    private static final int LONGEST_GREETING = 1_000;
    private static final int SEND_BUFFER = 256 * 1024;
    private static final int NUMBER_BYTES = 32;
    private static final HexFormat HEX = HexFormat.of();
    private static final SecureRandom CHANCE = new SecureRandom();

    /**
     * A wire to a recorder and what it allows.
     *
     * @param takesNotes whether notes and acknowledgements are taken
     */
    public record Admitted(LineWire wire, boolean takesNotes) {}

    /** The other end does not know the token; one sentence for a person. */
    public static final class RefusedException extends IOException {
        private static final long serialVersionUID = 1L;

        private final boolean told;

        RefusedException(String message, boolean told) {
            super(message);
            this.told = told;
        }

        /** Whether the other end proved that it knows a token, and then took another than this. */
        public boolean wasTold() {
            return told;
        }
    }

    private LanWire() {}

    /**
     * Connects to a recorder.
     *
     * @throws RefusedException when the recorder does not know this token, or something else answers in its place
     * @throws IOException when nobody answers
     */
    public static Admitted connect(String host, int port, Token token) throws IOException {
        return connect(new Socket(), host, port, token);
    }

    /** The same over a socket that is not connected yet. */
    public static Admitted connect(Socket plain, String host, int port, Token token) throws IOException {
        try {
            InetSocketAddress address = new InetSocketAddress(host, port);
            if (address.isUnresolved()) {
                throw new IOException("there is no computer called " + host + " in this network");
            }
            plain.connect(address, CONNECT_MS);
            plain.setTcpNoDelay(true);
            plain.setKeepAlive(true);
            plain.setSoTimeout(GREETING_MS);
            SSLSocket tls = (SSLSocket) anyCertificate().getSocketFactory().createSocket(plain, host, port, true);
            tls.setEnabledProtocols(new String[] {"TLSv1.3"});
            tls.startHandshake();
            byte[] fingerprint = ShareKey.fingerprint(tls.getSession().getPeerCertificates()[0]);
            LineWire wire = Wires.over(tls.getInputStream(), tls.getOutputStream(), plain);
            boolean takesNotes = greet(wire, fingerprint, token, host);
            // From here on the one who follows watches for silence himself.
            plain.setSoTimeout(0);
            return new Admitted(wire, takesNotes);
        } catch (IOException e) {
            plain.close();
            throw e;
        }
    }

    private static boolean greet(LineWire wire, byte[] fingerprint, Token token, String host) throws IOException {
        byte[] own = number();
        wire.writeLine(GREETING + " " + HEX.formatHex(own), sent -> {});
        String[] answer = words(wire, 4);
        byte[] salt = bytes(answer[1]);
        byte[] theirs = bytes(answer[2]);
        byte[] proof = Digests.hmac(TokenHash.proofKey(token, salt), RECORDER, fingerprint, own, theirs);
        if (!Digests.same(proof, bytes(answer[3]))) {
            throw new RefusedException(
                    "The Kilnside on " + host
                            + " does not know this token, or another computer answers in its place; the token was not told."
                            + " Type the token anew, or make a new one there: kilnside share new",
                    false);
        }
        wire.writeLine(token.typed(), sent -> {});
        String[] verdict = words(wire, 2);
        if (!verdict[0].equals("welcome")) {
            throw new RefusedException(
                    "The Kilnside on " + host + " refused the token. Make a new one there: kilnside share new", true);
        }
        return verdict[1].equals("notes");
    }

    /**
     * Greets a copy that has connected.
     *
     * @param plain the connection; closed when the copy is turned away
     * @param takesNotes what to tell it
     * @throws RefusedException when the copy does not know the token
     * @throws IOException when it says nothing, or nothing that can be understood
     */
    public static LineWire accept(Socket plain, ShareKey key, boolean takesNotes) throws IOException {
        try {
            plain.setTcpNoDelay(true);
            plain.setKeepAlive(true);
            plain.setSoTimeout(GREETING_MS);
            // One that does not read shows after a few snapshots, and holds no more memory than this.
            plain.setSendBufferSize(SEND_BUFFER);
            SSLSocket tls = (SSLSocket) key.context().getSocketFactory().createSocket(plain, null, true);
            tls.setUseClientMode(false);
            tls.setEnabledProtocols(new String[] {"TLSv1.3"});
            tls.startHandshake();
            LineWire wire = Wires.over(tls.getInputStream(), tls.getOutputStream(), plain);
            String[] greeting = words(wire, 2);
            if (!greeting[0].equals(GREETING)) {
                throw new IOException("no Kilnside of this kind: " + greeting[0]);
            }
            byte[] theirs = bytes(greeting[1]);
            byte[] own = number();
            byte[] proof = Digests.hmac(key.hash().sum(), RECORDER, key.fingerprint(), theirs, own);
            wire.writeLine(
                    GREETING + " " + key.hash().saltHex() + " " + HEX.formatHex(own) + " " + HEX.formatHex(proof),
                    sent -> {});
            String typed = wire.readLine(LONGEST_GREETING);
            if (typed == null || !matches(key, typed)) {
                throw new RefusedException("a copy did not know the token", false);
            }
            wire.writeLine("welcome " + (takesNotes ? "notes" : "reading"), sent -> {});
            plain.setSoTimeout(0);
            return wire;
        } catch (IOException e) {
            plain.close();
            throw e;
        }
    }

    private static boolean matches(ShareKey key, String typed) {
        try {
            return key.hash().matches(Token.parse(typed));
        } catch (IllegalArgumentException e) {
            return false;
        }
    }

    private static byte[] number() {
        byte[] number = new byte[NUMBER_BYTES];
        CHANCE.nextBytes(number);
        return number;
    }

    private static String[] words(LineWire wire, int count) throws IOException {
        String line = wire.readLine(LONGEST_GREETING);
        String[] words = line == null ? new String[0] : line.split(" ", -1);
        if (words.length != count) {
            throw new IOException("the other end ended the greeting");
        }
        return words;
    }

    private static byte[] bytes(String hex) throws IOException {
        try {
            return HEX.parseHex(hex);
        } catch (IllegalArgumentException e) {
            throw new IOException("the other end does not greet as Kilnside does", e);
        }
    }

    /** TLS that takes any certificate: the proof under the token is what binds this one to the recorder. */
    private static SSLContext anyCertificate() throws IOException {
        try {
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(null, new TrustManager[] {new ProvenLater()}, CHANCE);
            return context;
        } catch (GeneralSecurityException e) {
            throw new IOException("this Java cannot encrypt: " + e.getMessage(), e);
        }
    }

    private static final class ProvenLater implements X509TrustManager {
        @Override
        public void checkClientTrusted(X509Certificate[] chain, String kind) {
            throw new IllegalStateException("a copy shows no certificate");
        }

        @Override
        public void checkServerTrusted(X509Certificate[] chain, String kind) {
            // Nothing is believed yet: greet() believes only a recorder that proves this certificate under the token.
        }

        @Override
        public X509Certificate[] getAcceptedIssuers() {
            return new X509Certificate[0];
        }
    }
}
