package org.kilnside.book;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;

/**
 * What has been handed over and is not on disk yet. Holds {@value #MOST_READINGS} readings, 24 h at one a second.
 * While the book can be written, somebody faster than the disk waits for it at that mark; while it cannot, every
 * second reading is left out once the mark is reached, of those waiting and of those to come, and so on by halves: a
 * whole curve, evenly coarser, rather than a fine one that breaks off.
 */
final class WaitingEntries {
    static final int MOST_READINGS = 86_400;

    private final ReentrantLock lock = new ReentrantLock();
    private final Condition changed = lock.newCondition();
    private final int mostReadings;
    private final long groupNanos;
    private final int fullBatch;
    private ArrayDeque<Entry> entries = new ArrayDeque<>();
    private int readings;
    private int readingsInHand;
    private long leftOut;
    private long offeredWhileStuck;
    private long oneIn = 1;
    private boolean stuck;
    private boolean closed;
    private boolean hurried;
    private boolean batchInHand;
    private long lastTakenNanos;

    /**
     * @param groupNanos how long readings are gathered after the last commit
     * @param fullBatch how many entries are worth a commit at once
     */
    WaitingEntries(int mostReadings, long groupNanos, int fullBatch) {
        this.mostReadings = mostReadings;
        this.groupNanos = groupNanos;
        this.fullBatch = fullBatch;
        this.lastTakenNanos = System.nanoTime() - groupNanos;
    }

    /** Adds an entry; waits only for room, and only while the book can be written. */
    void add(Entry entry) {
        boolean reading = entry instanceof Entry.Line;
        lock.lock();
        try {
            while (reading && readings + readingsInHand >= mostReadings && !closed) {
                if (stuck) {
                    leaveOutEverySecond();
                    break;
                }
                changed.awaitUninterruptibly();
            }
            if (closed) {
                throw new IllegalStateException("the book is closed: nothing more can be written into it");
            }
            if (reading && stuck && offeredWhileStuck++ % oneIn != 0) {
                leftOut++;
                return;
            }
            entries.addLast(entry);
            readings += reading ? 1 : 0;
            changed.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /** Adds an entry that never waits for room; does nothing when closed. */
    void addIfOpen(Entry entry) {
        lock.lock();
        try {
            if (!closed) {
                entries.addLast(entry);
                changed.signalAll();
            }
        } finally {
            lock.unlock();
        }
    }

    private void leaveOutEverySecond() {
        ArrayDeque<Entry> kept = new ArrayDeque<>(entries.size());
        boolean leave = false;
        for (Entry entry : entries) {
            boolean reading = entry instanceof Entry.Line;
            if (reading && leave) {
                readings--;
                leftOut++;
            } else {
                kept.addLast(entry);
            }
            leave = reading ? !leave : leave;
        }
        entries = kept;
        oneIn *= 2;
    }

    /**
     * Waits for entries and until they are worth a commit: at once after a quiet while, else when the group's time
     * is over or a full batch waits.
     *
     * @return the next batch, in the order handed over; empty when closed and nothing is left
     */
    List<Entry> take() throws InterruptedException {
        lock.lockInterruptibly();
        try {
            while (!closed || !entries.isEmpty()) {
                long left = groupNanos - (System.nanoTime() - lastTakenNanos);
                if (!entries.isEmpty() && (left <= 0 || closed || hurried || entries.size() >= fullBatch)) {
                    return batch();
                }
                if (entries.isEmpty()) {
                    changed.await();
                } else {
                    changed.await(left, TimeUnit.NANOSECONDS);
                }
            }
            return List.of();
        } finally {
            lock.unlock();
        }
    }

    private List<Entry> batch() {
        List<Entry> batch = new ArrayList<>(Math.min(entries.size(), fullBatch));
        while (!entries.isEmpty() && batch.size() < fullBatch) {
            Entry entry = entries.removeFirst();
            readingsInHand += entry instanceof Entry.Line ? 1 : 0;
            batch.add(entry);
        }
        readings -= readingsInHand;
        batchInHand = true;
        hurried = hurried && !entries.isEmpty();
        lastTakenNanos = System.nanoTime();
        return batch;
    }

    /**
     * The batch last taken is on disk.
     *
     * @return how many readings were left out while it could not be written
     */
    long written() {
        lock.lock();
        try {
            long coarser = leftOut;
            readingsInHand = 0;
            batchInHand = false;
            stuck = false;
            leftOut = 0;
            changed.signalAll();
            return coarser;
        } finally {
            lock.unlock();
        }
    }

    /** The batch last taken could not be written: it waits again, before all that came after it. */
    void putBack(List<Entry> batch) {
        lock.lock();
        try {
            for (int i = batch.size() - 1; i >= 0; i--) {
                entries.addFirst(batch.get(i));
            }
            readings += readingsInHand;
            readingsInHand = 0;
            batchInHand = false;
            if (!stuck) {
                stuck = true;
                offeredWhileStuck = readings;
                oneIn = 1;
            }
            changed.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /**
     * Asks for a commit at once and waits until nothing is left to write.
     *
     * @return whether all is on disk; false when the time is over before
     */
    boolean awaitWritten(long nanos) throws InterruptedException {
        lock.lockInterruptibly();
        try {
            long left = nanos;
            while ((batchInHand || !entries.isEmpty()) && left > 0) {
                hurried = true;
                changed.signalAll();
                left = changed.awaitNanos(left);
            }
            return !batchInHand && entries.isEmpty();
        } finally {
            lock.unlock();
        }
    }

    /** Waits a while before the next attempt, or until closed. */
    void pause(long nanos) throws InterruptedException {
        lock.lockInterruptibly();
        try {
            long left = nanos;
            while (left > 0 && !closed) {
                left = changed.awaitNanos(left);
            }
        } finally {
            lock.unlock();
        }
    }

    /** Nothing more is added; what waits is still to be taken. */
    void close() {
        lock.lock();
        try {
            closed = true;
            changed.signalAll();
        } finally {
            lock.unlock();
        }
    }

    /** Readings not yet on disk. */
    int readings() {
        lock.lock();
        try {
            return readings + readingsInHand;
        } finally {
            lock.unlock();
        }
    }

    /** Readings left out for want of room since the book could last be written. */
    long leftOut() {
        lock.lock();
        try {
            return leftOut;
        } finally {
            lock.unlock();
        }
    }
}
