package org.kilnside.link;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.Hello;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.protocol.Message;
import org.kilnside.protocol.ReadingLine;

/** The virtual kiln's wire: its controller says hello at its boot and each minute, and a reading each second. */
final class VirtualPort implements Port {
    private final LinkNotation.Virtual link;
    private final VirtualController controller;
    private final Surroundings around;

    VirtualPort(LinkNotation.Virtual link, VirtualController controller, Surroundings around) {
        this.link = link;
        this.controller = controller;
        this.around = around;
    }

    @Override
    public ByteStream open() {
        return new Wire();
    }

    @Override
    public String title() {
        return "the virtual kiln " + link.name();
    }

    @Override
    public double speed() {
        return link.speed();
    }

    @Override
    public boolean finite() {
        return true;
    }

    private final class Wire implements ByteStream {
        private static final int SECOND_MS = 1_000;
        private static final int HELLO_EVERY_S = 60;

        private final Pace pace = new Pace(around.clock(), around.pauses(), link.speed());
        private long seconds;
        private int sequence;
        private byte[] waiting = {};
        private int waitingFrom;

        @Override
        public int read(byte[] buffer) throws InterruptedException {
            int length = 0;
            while (length < buffer.length) {
                if (waitingFrom == waiting.length && !nextLines()) {
                    break;
                }
                int part = Math.min(waiting.length - waitingFrom, buffer.length - length);
                System.arraycopy(waiting, waitingFrom, buffer, length, part);
                waitingFrom += part;
                length += part;
            }
            if (length == 0) {
                if (controller.finished()) {
                    return END;
                }
                pace.await(uptimeMs());
            }
            return length;
        }

        /** The lines of the next second, if that is due. */
        private boolean nextLines() {
            if (controller.finished() || !pace.isDue(uptimeMs())) {
                return false;
            }
            VirtualController.Said said = controller.next();
            byte[] reading = LineEncoder.encode(new ReadingLine(
                    // Hello goes first and takes the number before.
                    seconds % HELLO_EVERY_S == 0 ? after(sequence) : sequence,
                    uptimeMs() & Message.UPTIME_MAX_MS,
                    List.of(new ChannelCodes(
                            1,
                            said.signal().thermocouple(),
                            said.signal().coldJunction(),
                            OptionalInt.of(said.signal().faultBits()))),
                    said.outputPermille(),
                    said.setpointTenths(),
                    said.segment()));
            if (seconds % HELLO_EVERY_S == 0) {
                byte[] hello = LineEncoder.encode(hello());
                sequence = after(sequence);
                waiting = new byte[hello.length + reading.length];
                System.arraycopy(hello, 0, waiting, 0, hello.length);
                System.arraycopy(reading, 0, waiting, hello.length, reading.length);
            } else {
                waiting = reading;
            }
            sequence = after(sequence);
            waitingFrom = 0;
            seconds++;
            return true;
        }

        private Hello hello() {
            return new Hello(
                    sequence,
                    uptimeMs() & Message.UPTIME_MAX_MS,
                    1,
                    Optional.of(controller.device()),
                    Optional.of("virtual-1"),
                    OptionalInt.of(1),
                    List.of(new Hello.HelloChannel(
                            1,
                            Optional.of(controller.probe().type().name()),
                            Optional.of(controller.probe().amplifier().name()))),
                    OptionalInt.of(SECOND_MS),
                    OptionalInt.of(0),
                    OptionalInt.of(1));
        }

        private long uptimeMs() {
            return seconds * SECOND_MS;
        }

        private static int after(int number) {
            return (number + 1) & Message.SEQUENCE_MAX;
        }

        @Override
        public void write(byte[] bytes) {
            // It says hello each minute of its own time anyway, and keeps nothing.
        }

        @Override
        public void close() {
            // Nothing outside is held.
        }
    }
}
