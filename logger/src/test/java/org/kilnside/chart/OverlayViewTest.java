package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

class OverlayViewTest {
    private static Overlay twoFirings() {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < 600; i++) {
            curve.add(i * 60_000L, 20 + i);
        }
        CurveLevels levels = CurveLevels.of(curve.view());
        return new Overlay(
                List.of(new Overlay.Line("No. 1", levels, 0), new Overlay.Line("No. 2", levels, -3_600_000)),
                List.of(),
                Optional.empty(),
                OptionalDouble.empty(),
                OptionalLong.empty(),
                false);
    }

    @Test
    void theWholeSpansAllFirings() {
        TimeSpan whole = OverlayView.WHOLE.span(twoFirings());
        assertThat(whole.fromMs()).isEqualTo(-3_600_000);
        assertThat(whole.toMs()).isGreaterThan(599 * 60_000L);
    }

    @Test
    void zoomingKeepsThePlaceUnderThePointer() {
        Overlay overlay = twoFirings();
        TimeSpan before = OverlayView.WHOLE.span(overlay);
        TimeSpan after = OverlayView.WHOLE.zoom(0.5, 0.25, overlay).span(overlay);
        assertThat(after.at(0.25)).isCloseTo(before.at(0.25), org.assertj.core.data.Offset.offset(2L));
        assertThat(OverlayView.WHOLE
                        .zoom(0.5, 0.5, overlay)
                        .zoom(4, 0.5, overlay)
                        .isWhole())
                .isTrue();
    }

    @Test
    void noMovementLeavesTheFiringsAltogether() {
        Overlay overlay = twoFirings();
        OverlayView view = OverlayView.WHOLE;
        Random random = new Random(4);
        for (int i = 0; i < 2000; i++) {
            view = random.nextBoolean()
                    ? view.zoom(0.3 + random.nextDouble() * 2, random.nextDouble(), overlay)
                    : view.pan(random.nextDouble() * 6 - 3, overlay);
            TimeSpan span = view.span(overlay);
            assertThat(span.lengthMs()).isGreaterThanOrEqualTo(TimeSpan.SHORTEST_MS);
            assertThat(span.fromMs()).isLessThan(overlay.whole().toMs());
            assertThat(span.toMs()).isGreaterThan(overlay.whole().fromMs());
        }
    }

    @Test
    void aReadOutIsEmptyInAGapAndOutside() {
        Overlay overlay = twoFirings();
        assertThat(overlay.at(overlay.lines().get(0), 60_000).orElseThrow().celsius())
                .isEqualTo(21);
        assertThat(overlay.at(overlay.lines().get(1), 0).orElseThrow().celsius())
                .isEqualTo(80);
        assertThat(overlay.at(overlay.lines().get(0), -1)).isEmpty();
        assertThat(overlay.at(overlay.lines().get(0), 999_000_000)).isEmpty();
    }
}
