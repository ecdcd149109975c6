package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.session.Connection.State;
import org.kilnside.session.ReadingSource;

/** A serial-over-network adapter pretended by a socket on this computer. */
@Timeout(60)
class TcpLinkTest {
    private final Heard heard = new Heard();
    private final Lines lines = new Lines();

    @Test
    void linesComeThroughTheNetwork() throws Exception {
        try (ServerSocket adapter = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
                ReadingSource link = open(adapter)) {
            link.start(heard);
            try (Socket here = adapter.accept()) {
                assertThat(new String(here.getInputStream().readNBytes(3), StandardCharsets.US_ASCII))
                        .isEqualTo("?H\n");
                here.getOutputStream().write(LineEncoder.encode(lines.hello(10)));
                here.getOutputStream().write(LineEncoder.encode(lines.reading(1_010, 600)));
                eventually(() -> heard.arrivals.size() == 1);
            }
        }
    }

    @Test
    void aClosedConnectionIsMadeAnew() throws Exception {
        try (ServerSocket adapter = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
                ReadingSource link = open(adapter)) {
            link.start(heard);
            try (Socket here = adapter.accept()) {
                here.getOutputStream().write(LineEncoder.encode(lines.hello(10)));
                here.getOutputStream().write(LineEncoder.encode(lines.reading(1_010, 600)));
                eventually(() -> heard.arrivals.size() == 1);
            }
            try (Socket again = adapter.accept()) {
                again.getOutputStream().write(LineEncoder.encode(lines.reading(3_010, 602)));
                eventually(() -> heard.arrivals.size() == 2);
            }
            assertThat(heard.states()).containsSubsequence(State.RECEIVING, State.LOST, State.RECEIVING);
        }
    }

    @Test
    void aRefusedConnectionIsSaidInASentence() throws Exception {
        int free;
        try (ServerSocket socket = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
            free = socket.getLocalPort();
        }
        try (ReadingSource link = Links.open("tcp:127.0.0.1:" + free, new RealClock())) {
            link.start(heard);
            eventually(() -> !heard.connections.isEmpty() && heard.last().state() == State.GIVEN_UP);
            assertThat(heard.last().detail().orElseThrow()).contains("127.0.0.1 is there but refuses port " + free);
        }
    }

    @Test
    void aHostNobodyKnowsIsSaidInASentence() throws Exception {
        try (ReadingSource link = Links.open("tcp:no-such-adapter.invalid:4403", new RealClock())) {
            link.start(heard);
            eventually(() -> !heard.connections.isEmpty() && heard.last().state() == State.GIVEN_UP);
            assertThat(heard.last().detail().orElseThrow()).contains("There is no host no-such-adapter.invalid");
        }
    }

    private static ReadingSource open(ServerSocket adapter) {
        return Links.open("tcp:127.0.0.1:" + adapter.getLocalPort(), new RealClock());
    }

    private static void eventually(BooleanSupplier what) throws InterruptedException {
        for (int i = 0; i < 500; i++) {
            if (what.getAsBoolean()) {
                return;
            }
            Thread.sleep(20);
        }
        assertThat(what.getAsBoolean()).isTrue();
    }
}
