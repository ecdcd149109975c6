package org.kilnside.link;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.kilnside.testing.Tools;

/** A cable made of two pseudo-terminals, one end for the program, one for a pretended controller. */
public final class PtyPair implements AutoCloseable {
    private final Process socat;
    private final OutputStream controller;
    final Path port;
    private final Path controllerEnd;

    /** Plugs the cable in; the port appears under this path, as a USB port does. */
    public PtyPair(Path port) throws IOException, InterruptedException {
        this.port = port;
        controllerEnd = Path.of(port + "-controller");
        Files.deleteIfExists(port);
        Files.deleteIfExists(controllerEnd);
        socat = new ProcessBuilder(
                        Tools.require("socat").toString(), "pty,rawer,link=" + port, "pty,rawer,link=" + controllerEnd)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
        for (int i = 0; i < 200 && !(Files.exists(port) && Files.exists(controllerEnd)); i++) {
            Thread.sleep(20);
        }
        controller = Files.newOutputStream(controllerEnd);
    }

    public void says(byte[] bytes) throws IOException {
        controller.write(bytes);
        controller.flush();
    }

    /** What the program has written, as far as it has come. */
    String hears(int length) throws IOException {
        byte[] bytes = new byte[length];
        try (var in = Files.newInputStream(controllerEnd)) {
            return new String(bytes, 0, in.readNBytes(bytes, 0, length), java.nio.charset.StandardCharsets.US_ASCII);
        }
    }

    /** Pulls the cable out. */
    @Override
    public void close() throws IOException {
        controller.close();
        socat.destroy();
        try {
            if (!socat.waitFor(5, TimeUnit.SECONDS)) {
                socat.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        Files.deleteIfExists(port);
        Files.deleteIfExists(controllerEnd);
    }
}
