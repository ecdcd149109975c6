package org.kilnside.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.kilnside.page.Doorkeeper.Outcome;
import org.kilnside.session.HandClock;

class DoorkeeperTest {
    private final HandClock clock = new HandClock();
    private final Doorkeeper keeper = new Doorkeeper(clock);
    private final InetAddress bedroom = address(192, 168, 1, 20);
    private final InetAddress stranger = address(192, 168, 1, 66);

    @Test
    void threeSlipsCostNothing() {
        for (int i = 0; i < 3; i++) {
            assertThat(keeper.mayGreet(bedroom)).isTrue();
            keeper.done(bedroom, Outcome.WRONG);
        }
        assertThat(keeper.mayGreet(bedroom)).isFalse();
    }

    @Test
    void everyFurtherWrongTokenDoublesTheWaitUpToTenMinutes() {
        for (int i = 0; i < 3; i++) {
            keeper.mayGreet(stranger);
            keeper.done(stranger, Outcome.WRONG);
        }
        long waitMs = 2_000;
        for (int i = 0; i < 12; i++) {
            clock.forwardMs(waitMs - 1);
            assertThat(keeper.mayGreet(stranger)).as("after %d ms", waitMs - 1).isFalse();
            clock.forwardMs(1);
            assertThat(keeper.mayGreet(stranger)).isTrue();
            keeper.done(stranger, Outcome.WRONG);
            waitMs = Math.min(600_000, waitMs * 2);
        }
        assertThat(keeper.turnedAway()).isEqualTo(12);
    }

    @Test
    void aStrangerHoldsUpNobodyElse() {
        for (int i = 0; i < 20; i++) {
            if (keeper.mayGreet(stranger)) {
                keeper.done(stranger, Outcome.WRONG);
            }
        }
        assertThat(keeper.mayGreet(bedroom)).isTrue();
    }

    @Test
    void theRightTokenWipesTheSlateClean() {
        keeper.mayGreet(bedroom);
        keeper.done(bedroom, Outcome.WRONG);
        keeper.mayGreet(bedroom);
        keeper.done(bedroom, Outcome.RIGHT);
        for (int i = 0; i < 3; i++) {
            assertThat(keeper.mayGreet(bedroom)).isTrue();
            keeper.done(bedroom, Outcome.WRONG);
        }
    }

    @Test
    void oneAddressMayNotKeepAllGreetingsForItself() {
        int begun = 0;
        for (int i = 0; i < 1_000; i++) {
            begun += keeper.mayGreet(stranger) ? 1 : 0;
        }
        assertThat(begun).isEqualTo(32);
        assertThat(keeper.mayGreet(bedroom)).isTrue();
        clock.forward(Duration.ofMinutes(1));
        keeper.done(stranger, Outcome.BROKEN_OFF);
        assertThat(keeper.mayGreet(stranger)).isTrue();
    }

    @Test
    void addressesOfOneNetworkOf64BitsAreOneVisitor() throws UnknownHostException {
        for (int i = 0; i < 3; i++) {
            InetAddress one = InetAddress.getByName("2001:db8:1:2::" + (i + 1));
            assertThat(keeper.mayGreet(one)).isTrue();
            keeper.done(one, Outcome.WRONG);
        }
        assertThat(keeper.mayGreet(InetAddress.getByName("2001:db8:1:2::ffff"))).isFalse();
        assertThat(keeper.mayGreet(InetAddress.getByName("2001:db8:1:3::1"))).isTrue();
    }

    private static InetAddress address(int... bytes) {
        try {
            return InetAddress.getByAddress(
                    new byte[] {(byte) bytes[0], (byte) bytes[1], (byte) bytes[2], (byte) bytes[3]});
        } catch (UnknownHostException e) {
            throw new AssertionError(e);
        }
    }
}
