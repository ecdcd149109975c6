package org.kilnside.link.share;

import java.io.IOException;
import java.net.Socket;
import java.security.SecureRandom;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManager;
import javax.net.ssl.X509TrustManager;

/** The encryption alone, without the greeting, for tests that play a stranger. */
public final class TlsByHand {
    private TlsByHand() {}

    /** Speaks as a recorder with this key would. */
    public static LineWire asRecorder(Socket plain, ShareKey key) throws IOException {
        SSLSocket tls = (SSLSocket) key.context().getSocketFactory().createSocket(plain, null, true);
        tls.setUseClientMode(false);
        tls.startHandshake();
        return Wires.over(tls.getInputStream(), tls.getOutputStream(), plain);
    }

    /** Speaks as a copy would that believes any certificate. */
    public static LineWire asCopy(Socket plain, String host, int port) throws Exception {
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, new TrustManager[] {new Believer()}, new SecureRandom());
        SSLSocket tls = (SSLSocket) context.getSocketFactory().createSocket(plain, host, port, true);
        tls.startHandshake();
        return Wires.over(tls.getInputStream(), tls.getOutputStream(), plain);
    }

    private static final class Believer implements X509TrustManager {
        @Override
        public void checkClientTrusted(java.security.cert.X509Certificate[] chain, String kind) {
            // Believes.
        }

        @Override
        public void checkServerTrusted(java.security.cert.X509Certificate[] chain, String kind) {
            // Believes.
        }

        @Override
        public java.security.cert.X509Certificate[] getAcceptedIssuers() {
            return new java.security.cert.X509Certificate[0];
        }
    }
}
