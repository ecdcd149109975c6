package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.tracking.PlanPosition.PlanPoint;

class ChartViewTest {
    private static final long HOUR = 3_600_000;

    private static ChartContent at(long nowMs) {
        Trace curve = new Trace.Builder().add(0, 20).add(nowMs, 500).view();
        return new ChartContent(
                curve,
                List.of(new PlanPoint(0, 20), new PlanPoint(10 * HOUR, 1000)),
                List.of(),
                OptionalLong.of(nowMs),
                Optional.empty(),
                false,
                OptionalLong.empty(),
                Optional.empty());
    }

    private final ChartContent fiveHoursIn = at(5 * HOUR);

    @Test
    void theWholeIsPastAndPlanned() {
        TimeSpan span = ChartView.WHOLE.span(fiveHoursIn);
        assertThat(span.fromMs()).isZero();
        assertThat(span.toMs()).isGreaterThan(10 * HOUR);
    }

    @Test
    void zoomingKeepsThePlaceUnderThePointer() {
        long under = ChartView.WHOLE.span(fiveHoursIn).at(0.3);
        ChartView closer = ChartView.WHOLE.zoom(0.25, 0.3, fiveHoursIn);
        assertThat(closer.span(fiveHoursIn).at(0.3)).isCloseTo(under, within(2L));
        assertThat(closer.goesWithNow()).isFalse();
    }

    @Test
    void zoomingOutEndsWithTheWholeAndZoomingInWithFiveMinutes() {
        ChartView view = ChartView.WHOLE.zoom(0.5, 0.5, fiveHoursIn);
        assertThat(view.zoom(4, 0.5, fiveHoursIn).isWhole()).isTrue();
        for (int i = 0; i < 40; i++) {
            view = view.zoom(0.5, 0.5, fiveHoursIn);
        }
        assertThat(view.span(fiveHoursIn).lengthMs()).isEqualTo(TimeSpan.SHORTEST_MS);
    }

    @Test
    void backToNowGoesAlongWithTheFiring() {
        ChartView now = ChartView.WHOLE.zoom(0.1, 0.1, fiveHoursIn).backToNow(fiveHoursIn);
        assertThat(now.goesWithNow()).isTrue();
        assertThat(now.span(fiveHoursIn).contains(5 * HOUR)).isTrue();
        assertThat(now.span(at(6 * HOUR)).contains(6 * HOUR)).isTrue();
        assertThat(now.span(at(6 * HOUR)).fromMs() - now.span(fiveHoursIn).fromMs())
                .isEqualTo(HOUR);
    }

    @Test
    void panningMovesButNeverOutOfTheFiring() {
        ChartView view = ChartView.WHOLE.zoom(0.2, 0.5, fiveHoursIn);
        ChartView later = view.pan(0.5, fiveHoursIn);
        assertThat(later.span(fiveHoursIn).fromMs())
                .isEqualTo(
                        view.span(fiveHoursIn).fromMs() + view.span(fiveHoursIn).lengthMs() / 2);
        for (int i = 0; i < 100; i++) {
            later = later.pan(1, fiveHoursIn);
        }
        assertThat(later.span(fiveHoursIn).fromMs()).isLessThan(11 * HOUR);
    }

    @Test
    void anEmptyDrawingHasASpanToo() {
        assertThat(ChartView.WHOLE.span(ChartContent.EMPTY).lengthMs()).isEqualTo(TimeSpan.SHORTEST_MS);
        assertThat(ChartView.WHOLE
                        .backToNow(ChartContent.EMPTY)
                        .span(ChartContent.EMPTY)
                        .lengthMs())
                .isPositive();
    }
}
