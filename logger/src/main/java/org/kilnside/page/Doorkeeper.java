package org.kilnside.page;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import org.kilnside.session.HostClock;

/**
 * Who may try the token, and when. A few slips of the finger cost nothing; after that each wrong token doubles the wait
 * of its address. Nobody can guess 128 bits anyway: this keeps trying from costing the recorder anything.
 */
final class Doorkeeper {
    private static final int FREE_SLIPS = 3;
    private static final long FIRST_WAIT_MS = 2_000;
    private static final long LONGEST_WAIT_MS = 600_000;
    private static final long FORGOTTEN_AFTER_MS = 3_600_000;

    /** Greetings under way at a time: each holds a thread for at most some seconds. */
    private static final int AT_A_TIME = 64;

    private static final int AT_A_TIME_FROM_ONE = 32;

    /** More addresses than a house has; beyond it the longest silent one is forgotten. */
    private static final int MOST_ADDRESSES = 1_000;

    private final HostClock clock;
    private final Map<String, Visitor> visitors = new HashMap<>();
    private int greeting;
    private long turnedAway;

    Doorkeeper(HostClock clock) {
        this.clock = clock;
    }

    /** Whether this address may greet now; if so, {@link #done} has to follow. */
    synchronized boolean mayGreet(InetAddress address) {
        Visitor visitor = visitors.computeIfAbsent(network(address), name -> new Visitor());
        long now = clock.monotonicMs();
        visitor.seenMs = now;
        forgetTheLongSilent(now);
        if (greeting >= AT_A_TIME || visitor.greeting >= AT_A_TIME_FROM_ONE || now < visitor.notBeforeMs) {
            turnedAway++;
            return false;
        }
        greeting++;
        visitor.greeting++;
        return true;
    }

    /** The greeting is over: whether the token was right, wrong, or none came. */
    synchronized void done(InetAddress address, Outcome outcome) {
        greeting--;
        Visitor visitor = visitors.computeIfAbsent(network(address), name -> new Visitor());
        visitor.greeting = Math.max(0, visitor.greeting - 1);
        switch (outcome) {
            case RIGHT -> {
                visitor.wrong = 0;
                visitor.notBeforeMs = Long.MIN_VALUE;
            }
            case WRONG -> {
                visitor.wrong++;
                if (visitor.wrong >= FREE_SLIPS) {
                    int doublings = Math.min(20, visitor.wrong - FREE_SLIPS);
                    visitor.notBeforeMs = clock.monotonicMs() + Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS << doublings);
                }
            }
            case BROKEN_OFF -> {
                // A network that came and went, or a port scanner: neither says anything of the token.
            }
        }
    }

    /** How many were turned away unheard so far. */
    synchronized long turnedAway() {
        return turnedAway;
    }

    private void forgetTheLongSilent(long now) {
        if (visitors.size() > MOST_ADDRESSES) {
            visitors.values()
                    .removeIf(visitor -> visitor.greeting == 0
                            && (now - visitor.seenMs > FORGOTTEN_AFTER_MS || visitor.notBeforeMs <= now));
        }
    }

    /** An IPv6 computer has as many addresses as it likes within its network of 64 bits. */
    private static String network(InetAddress address) {
        return address instanceof Inet6Address
                ? Arrays.toString(Arrays.copyOf(address.getAddress(), 8))
                : address.getHostAddress();
    }

    enum Outcome {
        RIGHT,
        WRONG,
        BROKEN_OFF
    }

    private static final class Visitor {
        private int wrong;
        private int greeting;
        private long notBeforeMs = Long.MIN_VALUE;
        private long seenMs;
    }
}
