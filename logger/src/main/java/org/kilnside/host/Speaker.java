package org.kilnside.host;

import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.SourceDataLine;
import org.kilnside.alarm.Grade;
import org.kilnside.wording.Language;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * This computer's loudspeaker. Sounds on a thread of its own, one sound at a time; whoever asks never waits. Where there
 * is no sound device, or it does not take the sound, {@link #trouble()} says so.
 */
public final class Speaker implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Speaker.class);

    /** The longest sound takes 3 s; a device that has not taken it by then hangs. */
    private static final long HANGS_AFTER_NANOS = 15_000_000_000L;

    private final Supplier<SourceDataLine> device;
    private final Words words;
    private final AtomicReference<Wanted> wanted = new AtomicReference<>();
    private final Thread thread;
    private volatile Optional<String> trouble = Optional.empty();
    private volatile long playingSinceNanos;
    private volatile boolean playing;
    private volatile boolean closed;
    private Language saidIn;

    private record Wanted(Grade grade, double loudness, Runnable done) {}

    /** The system's usual sound device. */
    public static Speaker ofThisComputer(Words words) {
        return new Speaker(() -> usualDevice(words), words);
    }

    /**
     * @param device opens the device; throws {@link IllegalStateException} with a sentence when there is none
     * @param words says what is wrong
     */
    Speaker(Supplier<SourceDataLine> device, Words words) {
        this.words = words;
        this.saidIn = words.language();
        this.device = device;
        this.thread = new Thread(this::work, "speaker");
        thread.setDaemon(true);
        thread.start();
    }

    private static SourceDataLine usualDevice(Words words) {
        AudioFormat format = format();
        try {
            SourceDataLine line = AudioSystem.getSourceDataLine(format);
            line.open(format);
            return line;
        } catch (LineUnavailableException | IllegalArgumentException | SecurityException e) {
            throw new IllegalStateException(words.text("host.no_sound_device"), e);
        } catch (LinkageError e) {
            throw new IllegalStateException(words.text("host.no_sound_java"), e);
        }
    }

    private static AudioFormat format() {
        return new AudioFormat(Sound.RATE, 16, 1, true, false);
    }

    /** Sounds a grade; of several asked for meanwhile the worst is sounded next. */
    public void sound(Grade grade, double loudness) {
        sound(grade, loudness, () -> {});
    }

    /** @param done called on the speaker's thread once the sound was played, or could not be */
    public void sound(Grade grade, double loudness, Runnable done) {
        Wanted next = new Wanted(grade, loudness, done);
        wanted.accumulateAndGet(
                next, (there, its) -> there != null && there.grade.compareTo(its.grade) < 0 ? there : its);
        synchronized (this) {
            notifyAll();
        }
    }

    /** Why nothing is heard; empty as long as nothing speaks against it. */
    public Optional<String> trouble() {
        if (playing && System.nanoTime() - playingSinceNanos > HANGS_AFTER_NANOS) {
            return Optional.of(words.text("host.sound_hangs"));
        }
        return trouble;
    }

    /** Looks for the device before anything has to be heard, so that its absence is known in the evening. */
    private void look() {
        saidIn = words.language();
        try {
            device.get().close();
            trouble = Optional.empty();
        } catch (IllegalStateException e) {
            trouble = Optional.of(String.valueOf(e.getMessage()));
        } catch (RuntimeException e) {
            LOG.warn("the sound device failed", e);
            trouble = Optional.of(words.text("host.sound_failed", e.getMessage()));
        }
    }

    private void work() {
        look();
        while (!closed) {
            Wanted next = wanted.getAndSet(null);
            if (next == null) {
                if (trouble.isPresent() && words.language() != saidIn) {
                    look();
                }
                synchronized (this) {
                    try {
                        if (wanted.get() == null) {
                            wait(1_000);
                        }
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                        return;
                    }
                }
                continue;
            }
            playingSinceNanos = System.nanoTime();
            playing = true;
            trouble = play(next);
            playing = false;
            next.done.run();
        }
    }

    private Optional<String> play(Wanted next) {
        byte[] samples = Sound.of(next.grade, next.loudness);
        try (SourceDataLine line = device.get()) {
            line.start();
            int written = line.write(samples, 0, samples.length);
            line.drain();
            return written == samples.length ? Optional.empty() : Optional.of(words.text("host.sound_broken_off"));
        } catch (IllegalStateException e) {
            LOG.debug("no sound", e);
            return Optional.of(String.valueOf(e.getMessage()));
        } catch (RuntimeException e) {
            // Drivers throw what they like; the alarm goes on by its other ways.
            LOG.warn("the sound device failed", e);
            return Optional.of(words.text("host.sound_failed", e.getMessage()));
        }
    }

    @Override
    public void close() {
        closed = true;
        thread.interrupt();
    }
}
