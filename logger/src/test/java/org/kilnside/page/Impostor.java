package org.kilnside.page;

import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import org.kilnside.link.share.LineWire;
import org.kilnside.link.share.ShareKey;
import org.kilnside.link.share.TlsByHand;

/** Stands between a copy and its recorder: encrypts with each, and reads and passes on every line. */
final class Impostor {
    private Impostor() {}

    static void passOn(ServerSocket trap, ShareKey own, String host, int port, List<String> overheard) {
        try (Socket victim = trap.accept();
                Socket recorder = new Socket(host, port)) {
            LineWire copy = TlsByHand.asRecorder(victim, own);
            LineWire real = TlsByHand.asCopy(recorder, host, port);
            String line;
            boolean fromCopy = true;
            while ((line = (fromCopy ? copy : real).readLine(10_000)) != null) {
                overheard.add(line);
                (fromCopy ? real : copy).writeLine(line, sent -> {});
                fromCopy = !fromCopy;
            }
        } catch (Exception e) {
            overheard.add("ended: " + e);
        }
    }
}
