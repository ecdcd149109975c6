package org.kilnside.link;

import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.OptionalLong;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.protocol.Message;

/** A port that does what a test wrote down, on a clock moved by hand. After the last step it closes the link. */
final class ScriptedPort implements Port {
    private static final int READ_WAITS_MS = 100;

    private final HandMovedClock clock;
    private final Deque<Step> steps = new ArrayDeque<>();
    final List<String> written = new ArrayList<>();
    final List<Long> openedAtMs = new ArrayList<>();
    boolean dtrWiredToReset;
    boolean refusesWrites;
    OptionalLong goneAfterSilence = OptionalLong.empty();
    Runnable afterTheLastStep = () -> {};
    private int open;

    private interface Step {}

    private record Bytes(byte[] bytes) implements Step {}

    private record Silence(long milliseconds) implements Step {}

    private record End() implements Step {}

    private record Refused(LinkTroubleException trouble) implements Step {}

    private record Act(Runnable action) implements Step {}

    ScriptedPort(HandMovedClock clock) {
        this.clock = clock;
    }

    ScriptedPort says(Message message) {
        steps.add(new Bytes(LineEncoder.encode(message)));
        return this;
    }

    ScriptedPort says(String bytes) {
        steps.add(new Bytes(bytes.getBytes(StandardCharsets.ISO_8859_1)));
        return this;
    }

    ScriptedPort says(byte[] bytes) {
        steps.add(new Bytes(bytes));
        return this;
    }

    ScriptedPort silentFor(long milliseconds) {
        steps.add(new Silence(milliseconds));
        return this;
    }

    /** The cable is pulled. */
    ScriptedPort ends() {
        steps.add(new End());
        return this;
    }

    ScriptedPort refusesToOpen(LinkTroubleException trouble) {
        steps.add(new Refused(trouble));
        return this;
    }

    ScriptedPort then(Runnable action) {
        steps.add(new Act(action));
        return this;
    }

    @Override
    public ByteStream open() throws LinkTroubleException {
        openedAtMs.add(clock.monotonicMs());
        if (steps.peekFirst() instanceof Refused refused) {
            steps.pollFirst();
            throw refused.trouble();
        }
        open++;
        refusesWrites = false;
        return new Stream();
    }

    @Override
    public String title() {
        return "/dev/ttyTEST";
    }

    @Override
    public boolean mayRestartController() {
        return true;
    }

    @Override
    public OptionalLong goneAfterSilenceMs() {
        return goneAfterSilence;
    }

    boolean isOpen() {
        return open > 0;
    }

    private final class Stream implements ByteStream {
        @Override
        public int read(byte[] buffer) {
            Step step = steps.pollFirst();
            if (step == null) {
                afterTheLastStep.run();
                return 0;
            }
            if (step instanceof Bytes bytes) {
                System.arraycopy(bytes.bytes, 0, buffer, 0, bytes.bytes.length);
                return bytes.bytes.length;
            }
            if (step instanceof Silence silence) {
                long now = Math.min(READ_WAITS_MS, silence.milliseconds);
                clock.advance(now);
                if (silence.milliseconds > now) {
                    steps.addFirst(new Silence(silence.milliseconds - now));
                }
                return 0;
            }
            if (step instanceof Act act) {
                act.action.run();
                return 0;
            }
            if (step instanceof Refused) {
                throw new IllegalStateException("the script opens before this step");
            }
            return END;
        }

        @Override
        public void write(byte[] bytes) throws LinkTroubleException {
            if (refusesWrites) {
                throw LinkTroubleException.passing("The connection broke.");
            }
            written.add(new String(bytes, StandardCharsets.US_ASCII));
        }

        @Override
        public void close() {
            open--;
        }
    }
}
