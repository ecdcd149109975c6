package org.kilnside.desktop;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Rectangle;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A screen is unplugged while the window is on it. */
class InSightTest {
    private static final Rectangle LAPTOP = new Rectangle(0, 0, 1366, 768);
    private static final Rectangle WALL = new Rectangle(1366, 0, 1920, 1080);

    @Test
    void aWindowThatIsSeenStaysWhereItIs() {
        assertThat(InSight.place(new Rectangle(1500, 40, 1200, 900), List.of(LAPTOP, WALL)))
                .isEmpty();
        assertThat(InSight.place(new Rectangle(-900, 40, 1000, 600), List.of(LAPTOP)))
                .as("pushed half out by its owner")
                .isEmpty();
    }

    @Test
    void oneWhoseScreenIsGoneComesToTheOneThatIsLeftAndFitsIt() {
        assertThat(InSight.place(new Rectangle(1500, 40, 1600, 900), List.of(LAPTOP)))
                .contains(new Rectangle(0, 0, 1366, 768));
        assertThat(InSight.place(new Rectangle(1500, 40, 1000, 600), List.of(LAPTOP)))
                .contains(new Rectangle(183, 84, 1000, 600));
    }

    @Test
    void oneWhoseUpperEdgeIsOutOfReachComesBack() {
        assertThat(InSight.place(new Rectangle(100, -300, 1000, 600), List.of(LAPTOP)))
                .isPresent();
    }

    @Test
    void withoutAnyScreenThereIsNowhereToGo() {
        assertThat(InSight.place(new Rectangle(0, 0, 1000, 600), List.of())).isEmpty();
    }
}
