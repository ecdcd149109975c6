package org.kilnside.page;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.ServerSocket;
import java.net.Socket;

/** Passes a connection on byte by byte and keeps what went by, both ways. */
final class Wiretap {
    private Wiretap() {}

    static void pass(ServerSocket trap, String host, int port, ByteArrayOutputStream seen) {
        try (Socket one = trap.accept();
                Socket other = new Socket(host, port)) {
            Thread back = new Thread(() -> copy(other, one, seen), "tap-back");
            back.setDaemon(true);
            back.start();
            copy(one, other, seen);
            back.join(5_000);
        } catch (IOException e) {
            // One side hung up: the tap has heard all there was.
            return;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void copy(Socket from, Socket to, ByteArrayOutputStream seen) {
        byte[] buffer = new byte[8192];
        try {
            InputStream in = from.getInputStream();
            OutputStream out = to.getOutputStream();
            int count;
            while ((count = in.read(buffer)) > 0) {
                seen.write(buffer, 0, count);
                out.write(buffer, 0, count);
                out.flush();
            }
            to.shutdownOutput();
        } catch (IOException e) {
            // As above.
            return;
        }
    }
}
