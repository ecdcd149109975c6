package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.virtualkiln.VirtualKilns.Lining;

class VirtualKilnsTest {
    @Test
    void kilnsAreFoundByName() {
        assertThat(VirtualKilns.names())
                .allSatisfy(name -> assertThat(VirtualKilns.named(name))
                        .hasValueSatisfying(kiln -> assertThat(kiln.name()).isEqualTo(name)));
        assertThat(VirtualKilns.named("no such kiln")).isEmpty();
    }

    /** A kiln described by volume, power and lining alone gets through a bisque. */
    @ParameterizedTest
    @EnumSource
    void aKilnOfWhichLittleIsKnownFiresABisque(Lining lining) {
        VirtualKilnSpec kiln = VirtualKilns.like("a kiln", 90, 7, lining);
        VirtualFiring firing = VirtualFiring.of(kiln, Programs.bisque(998))
                .load(Load.raw(25, 15))
                .interval(10)
                .start();
        double highestC = 0;
        for (int i = 0; i < 15 * 360; i++) {
            highestC = Math.max(highestC, firing.next().truth().tipC());
        }
        assertThat(highestC).isBetween(996.0, 1012.0);
        assertThat(firing.kiln().energy().mismatch()).isLessThan(1e-3);
    }
}
