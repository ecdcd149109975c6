package org.kilnside.link;

import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicBoolean;
import org.kilnside.protocol.Request;
import org.kilnside.session.Connection.State;
import org.kilnside.session.LineView;

/**
 * The one reader behind every link: opens the port, takes its bytes through the codec to the listener, notices silence
 * and loss, and opens again as far as that is allowed.
 */
final class LinkReader implements PortEar {
    private static final int BUFFER_BYTES = 1 << 16;
    private static final long LONGEST_CLOSE_MS = 5_000;

    private final String notation;
    private final Port port;
    private final LinkSurroundings around;
    private final LineReader.Maker lines;
    private final ForeignSample sample = new ForeignSample();
    private final HeardLines heard = new HeardLines();
    private final Queue<byte[]> requests = new ConcurrentLinkedQueue<>();
    private final AtomicBoolean started = new AtomicBoolean();
    private volatile boolean closing;
    private volatile Optional<Thread> thread = Optional.empty();

    LinkReader(String notation, Port port, LinkSurroundings around, LineReader.Maker lines) {
        this.notation = notation;
        this.port = port;
        this.around = around;
        this.lines = lines;
    }

    @Override
    public Optional<LinePatternProposal> proposal() {
        return sample.proposal();
    }

    @Override
    public LineView lines() {
        return heard.view();
    }

    @Override
    public String notation() {
        return notation;
    }

    @Override
    public double speed() {
        return port.speed();
    }

    @Override
    public void start(Listener listener) {
        if (!started.compareAndSet(false, true)) {
            throw new IllegalStateException(notation + " is started already");
        }
        Thread reader = new Thread(() -> run(listener), "link " + notation);
        reader.setDaemon(true);
        thread = Optional.of(reader);
        reader.start();
    }

    @Override
    public void askForKept(long sinceUptimeMs) {
        long minute = Math.floorDiv(sinceUptimeMs, 60_000L);
        requests.add(Request.kept((int) Math.max(Request.EARLIEST_MINUTE, Math.min(minute, Request.LATEST_MINUTE))));
    }

    @Override
    public void close() {
        closing = true;
        if (thread.isEmpty() || thread.get() == Thread.currentThread()) {
            return;
        }
        thread.get().interrupt();
        try {
            thread.get().join(LONGEST_CLOSE_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** All that happens on the link's thread; also called as it is by tests that move a clock by hand. */
    void run(Listener listener) {
        LinkWatch watch = new LinkWatch(
                port,
                around.clock(),
                listener,
                sample,
                heard,
                lines,
                around.library().portNotes(),
                around.words());
        Backoff backoff = new Backoff();
        try {
            while (!closing) {
                watch.connecting();
                try (ByteStream stream = port.open()) {
                    backoff.reset();
                    watch.opened();
                    ask(stream, Request.hello());
                    String ending = readToTheEnd(stream, watch);
                    if (closing) {
                        return;
                    }
                    if (port.finite()) {
                        watch.finished();
                        return;
                    }
                    watch.lost(ending);
                } catch (LinkTroubleException e) {
                    if (closing) {
                        // Closing interrupts a read, which some streams take for trouble.
                        return;
                    }
                    boolean firstTime = !watch.everOpened() && (e.isHopeless() || !around.patient());
                    if (firstTime || port.finite()) {
                        watch.givenUp(e.getMessage());
                        return;
                    }
                    watch.lost(e.getMessage());
                }
                if (!watch.reopeningAllowed()) {
                    watch.givenUp();
                    return;
                }
                around.pauses().pause(backoff.nextMs());
            }
        } catch (InterruptedException e) {
            // Only close() interrupts this thread: the loop is over, and so is the thread.
            closing = true;
        } catch (RuntimeException e) {
            // A fault of this program: said, so that a link that stands still does not look alive.
            watch.givenUp(around.words().text("wire.fault", port.title(), e));
            throw e;
        } finally {
            watch.closed(closing);
        }
    }

    /** Reads until the stream ends, and says in a sentence how it did. */
    private String readToTheEnd(ByteStream stream, LinkWatch watch) throws InterruptedException, LinkTroubleException {
        byte[] buffer = new byte[BUFFER_BYTES];
        while (!closing) {
            for (byte[] request = requests.poll(); request != null; request = requests.poll()) {
                stream.write(request);
            }
            int length = stream.read(buffer);
            if (length == ByteStream.END) {
                return around.words().text("wire.gone", port.title());
            }
            boolean wasSilent = watch.state() == State.SILENT;
            watch.took(buffer, length);
            if (!wasSilent && watch.state() == State.SILENT) {
                // Harmless to ask, and a peer that is gone shows itself when written to.
                ask(stream, Request.hello());
            }
            if (watch.peerIsGone()) {
                return around.words()
                        .text("wire.dead", port.title(), watch.goneAfterMs().orElseThrow() / 1000);
            }
        }
        return "";
    }

    private static void ask(ByteStream stream, byte[] request) throws LinkTroubleException {
        stream.write(request);
    }
}
