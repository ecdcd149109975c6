package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.session.Connection.State;
import org.kilnside.session.ReadingSource;
import org.kilnside.testing.Tools;

/**
 * Peers that vanish without a word. A network that swallows packets cannot be made here without changing this
 * computer's own; a peer whose process stands still looks the same to the program, though not to the system's probes:
 * that those are switched on is read from the system's table.
 */
@Timeout(100)
@EnabledOnOs(OS.LINUX)
class TcpSilentPeerIT {
    private final Heard heard = new Heard();
    private final Lines lines = new Lines();

    @Test
    void aPeerThatAcceptsAndGoesSilentIsSilentThenTakenForDeadAndConnectedToAnew() throws Exception {
        try (ServerSocket adapter = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
                ReadingSource link = open(adapter.getLocalPort())) {
            link.start(heard);
            try (Socket halfOpen = adapter.accept()) {
                say(halfOpen, 1_010);
                eventually(() -> heard.arrivals.size() == 1, 10);
                assertThat(probesAreOn(adapter.getLocalPort())).isTrue();
                eventually(() -> heard.last().state() == State.SILENT, 10);
                try (Socket anew = adapter.accept()) {
                    assertThat(heard.detailIn(State.LOST).orElseThrow()).contains("taken for dead");
                    say(anew, 40_010);
                    eventually(() -> heard.arrivals.size() == 2, 10);
                }
            }
            assertThat(heard.states()).containsSubsequence(State.RECEIVING, State.SILENT, State.LOST, State.RECEIVING);
        }
    }

    @Test
    void anAdapterThatStandsStillComesBackByItself() throws Exception {
        try (ServerSocket controller = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
            int port = freePort();
            Process proxy = new ProcessBuilder(
                            Tools.require("socat").toString(),
                            "TCP-LISTEN:" + port + ",bind=127.0.0.1,reuseaddr",
                            "TCP:127.0.0.1:" + controller.getLocalPort())
                    .start();
            try (ReadingSource link = open(port)) {
                Thread.sleep(500);
                link.start(heard);
                try (Socket behind = controller.accept()) {
                    say(behind, 1_010);
                    eventually(() -> heard.arrivals.size() == 1, 10);
                    signal("STOP", proxy);
                    say(behind, 2_010);
                    eventually(() -> heard.last().state() == State.SILENT, 10);
                    signal("CONT", proxy);
                    eventually(() -> heard.arrivals.size() == 2, 10);
                    eventually(() -> heard.last().state() == State.RECEIVING, 10);
                    signal("STOP", proxy);
                    signal("KILL", proxy);
                    eventually(() -> heard.last().state() == State.LOST, 10);
                }
            } finally {
                proxy.destroyForcibly();
            }
        }
    }

    private void say(Socket to, long uptimeMs) throws IOException {
        to.getOutputStream().write(LineEncoder.encode(lines.hello(uptimeMs - 10)));
        to.getOutputStream().write(LineEncoder.encode(lines.reading(uptimeMs, 600)));
    }

    /** In /proc/net/tcp a connection whose running timer is 2 is being probed (Linux, proc_net_tcp.txt). */
    private static boolean probesAreOn(int port) throws IOException {
        String remote = String.format(":%04X", port);
        for (String file : new String[] {"/proc/net/tcp", "/proc/net/tcp6"}) {
            for (String line : Files.readAllLines(Path.of(file))) {
                String[] words = line.strip().split("\\s+");
                if (words.length > 5 && words[2].endsWith(remote) && words[5].startsWith("02:")) {
                    return true;
                }
            }
        }
        return false;
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    private static void signal(String name, Process process) throws IOException, InterruptedException {
        assertThat(new ProcessBuilder("kill", "-" + name, Long.toString(process.pid()))
                        .start()
                        .waitFor())
                .isZero();
    }

    private static ReadingSource open(int port) {
        return Links.open("tcp:127.0.0.1:" + port, new RealClock());
    }

    private static void eventually(BooleanSupplier what, int seconds) throws InterruptedException {
        for (int i = 0; i < seconds * 50; i++) {
            if (what.getAsBoolean()) {
                return;
            }
            Thread.sleep(20);
        }
        assertThat(what.getAsBoolean()).isTrue();
    }
}
