package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.session.Connection.State;
import org.kilnside.session.ReadingSource;
import org.kilnside.testing.Tools;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/** The serial link over real pseudo-terminals, which are to it what a USB cable is, but for DTR and RTS. */
@Timeout(60)
class SerialLinkIT {
    @TempDir
    Path folder;

    private final Heard heard = new Heard();
    private final Lines lines = new Lines();

    @Test
    void linesComeThroughAndTheControllerIsAskedToSayHello() throws Exception {
        try (PtyPair cable = new PtyPair(folder.resolve("port"));
                ReadingSource link = open(cable.port)) {
            link.start(heard);
            assertThat(cable.hears(3)).isEqualTo("?H\n");
            cable.says(LineEncoder.encode(lines.hello(10)));
            cable.says(LineEncoder.encode(lines.reading(1_010, 600)));
            eventually(() -> heard.arrivals.size() == 1);
            eventually(() -> heard.last().state() == State.RECEIVING);

            link.askForKept(600_000);
            assertThat(cable.hears(6)).isEqualTo("?K 10\n");
        }
        assertThat(heard.last().state()).isEqualTo(State.CLOSED);
    }

    @Test
    void aPulledCableIsNoticedWithinTwoSecondsAndAPluggedInOneIsUsedAgain() throws Exception {
        Path port = folder.resolve("port");
        try (ReadingSource link = open(port)) {
            long pulledAt;
            try (PtyPair cable = new PtyPair(port)) {
                link.start(heard);
                cable.hears(3);
                cable.says(LineEncoder.encode(lines.hello(10)));
                cable.says(LineEncoder.encode(lines.reading(1_010, 600)));
                eventually(() -> heard.arrivals.size() == 1);
                pulledAt = new RealClock().monotonicMs();
            }
            eventually(() -> heard.last().state() == State.LOST);
            assertThat(heard.last().sinceHostMs() - pulledAt).isLessThan(2_000);

            Thread.sleep(700);
            try (PtyPair cable = new PtyPair(port)) {
                cable.hears(3);
                cable.says(LineEncoder.encode(lines.skip().reading(3_010, 602)));
                eventually(() -> heard.arrivals.size() == 2);
                eventually(() -> heard.last().state() == State.RECEIVING);
                eventually(() -> heard.last().counts().lost() == 1);
            }
        }
    }

    @Test
    void aFloodOfNoiseAndLinesIsCountedAndSurvived() throws Exception {
        try (PtyPair cable = new PtyPair(folder.resolve("port"));
                ReadingSource link = open(cable.port)) {
            link.start(heard);
            cable.hears(3);
            cable.says(LineEncoder.encode(lines.hello(10)));
            Random random = new Random(4);
            byte[] noise = new byte[4_096];
            for (int i = 0; i < 250; i++) {
                random.nextBytes(noise);
                cable.says(noise);
                cable.says(new byte[] {'\n'});
                cable.says(LineEncoder.encode(lines.reading(1_010 + i, 600)));
            }
            eventually(() -> heard.arrivals.size() == 250);
            eventually(() -> heard.last().counts().malformed() > 250);
            assertThat(heard.last().counts().lost()).isZero();
        }
    }

    @Test
    void aPortInUseByAnotherIsSaidToBe() throws Exception {
        try (PtyPair cable = new PtyPair(folder.resolve("port"));
                ReadingSource first = open(cable.port);
                ReadingSource second = open(cable.port)) {
            first.start(new Heard());
            cable.hears(3);
            second.start(heard);
            eventually(() -> !heard.connections.isEmpty() && heard.last().state() == State.GIVEN_UP);
            assertThat(heard.last().detail().orElseThrow())
                    .contains("is in use by another program")
                    .contains(cable.port.toString());
        }
    }

    @Test
    void aPortLockedByAnotherProcessIsSaidToBeInUse() throws Exception {
        try (PtyPair cable = new PtyPair(folder.resolve("port"));
                ReadingSource link = open(cable.port)) {
            Process other = new ProcessBuilder(
                            Tools.require("flock").toString(),
                            "-x",
                            cable.port.toRealPath().toString(),
                            "sleep",
                            "30")
                    .start();
            try {
                Thread.sleep(300);
                link.start(heard);
                eventually(() -> !heard.connections.isEmpty() && heard.last().state() == State.GIVEN_UP);
                assertThat(heard.last().detail().orElseThrow()).contains("is in use by another program");
            } finally {
                other.descendants().forEach(ProcessHandle::destroy);
                other.destroy();
            }
        }
    }

    @Test
    void aPortThatIsNotThereIsSaidToBeMissing() throws Exception {
        try (ReadingSource link = open(folder.resolve("none"))) {
            link.start(heard);
            eventually(() -> !heard.connections.isEmpty() && heard.last().state() == State.GIVEN_UP);
            assertThat(heard.last().detail().orElseThrow())
                    .contains("There is no port " + folder.resolve("none"))
                    .contains("kilnside ports");
        }
    }

    @Test
    void aFileIsNoPort() throws Exception {
        Path file = Files.writeString(folder.resolve("night.txt"), "R 1\n");
        try (ReadingSource link = open(file)) {
            link.start(heard);
            eventually(() -> !heard.connections.isEmpty() && heard.last().state() == State.GIVEN_UP);
            assertThat(heard.last().detail().orElseThrow()).contains("replay:" + file);
        }
    }

    @Test
    void theVirtualKilnsBytesComeThroughACableAsTheyAre() throws Exception {
        try (PtyPair cable = new PtyPair(folder.resolve("port"));
                ReadingSource link = open(cable.port)) {
            link.start(heard);
            cable.hears(3);
            Heard direct = new Heard();
            LinkSurroundings around =
                    new LinkSurroundings(new RealClock(), Pauses.REAL, ProfileLibrary.starters(), false);
            VirtualPort virtual = VirtualPort.of(
                    (LinkNotation.Virtual) LinkNotation.parse("virtual:tall-drum?speed=max&plan=bisque"), around);
            byte[] buffer = new byte[20_000];
            try (ByteStream wire = virtual.open()) {
                int length = wire.read(buffer);
                ProtocolLines reader = new ProtocolLines(
                        new Direct(direct), new HeardLines(), Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH)));
                reader.take(buffer, length, 0);
                cable.says(java.util.Arrays.copyOf(buffer, length));
            }
            eventually(() -> heard.arrivals.size() == direct.arrivals.size());
            for (int i = 0; i < direct.arrivals.size(); i++) {
                assertThat(heard.arrivals.get(i).channels())
                        .isEqualTo(direct.arrivals.get(i).channels());
            }
        }
    }

    private record Direct(Heard heard) implements LineReader.Ears {
        @Override
        public void uptime(long uptimeMs, java.util.OptionalInt resetCauseBits) {
            // Only the arrivals are compared.
        }

        @Override
        public void hello(ReadingSource.ControllerHello hello) {
            heard.controllerSaidHello(hello);
        }

        @Override
        public void arrival(ReadingSource.Arrival arrival) {
            heard.readingArrived(arrival);
        }
    }

    private static ReadingSource open(Path port) {
        return Links.open("serial:" + port, new RealClock());
    }

    static void eventually(BooleanSupplier what) throws InterruptedException, IOException {
        for (int i = 0; i < 500; i++) {
            if (what.getAsBoolean()) {
                return;
            }
            Thread.sleep(20);
        }
        assertThat(what.getAsBoolean()).isTrue();
    }
}
