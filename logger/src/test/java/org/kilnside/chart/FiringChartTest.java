package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

class FiringChartTest {
    private static final Words WORDS = Words.of(
            Language.ENGLISH,
            new Preferences(
                    TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID));

    private final FiringChart chart = new FiringChart();

    @Test
    void curveAndPlanAndNowAreDrawnWhereTheyBelong() {
        Snapshot snapshot = SampleSnapshots.heating();
        long now = snapshot.latest().orElseThrow().elapsedMs();
        ChartContent content = ChartContent.of(snapshot, OptionalLong.of(now), true, false, Optional.empty());
        BufferedImage image = draw(content);
        ChartGeometry geometry = chart.geometry().orElseThrow();
        double nowX = geometry.area().getX()
                + geometry.area().getWidth()
                        * (now - geometry.span().fromMs())
                        / geometry.span().lengthMs();
        assertThat(IntStream.range((int) nowX - 60, (int) nowX - 20)
                        .anyMatch(x -> columnHas(image, x, ChartLooks.PLAIN.curve())))
                .isTrue();
        assertThat(columnHas(image, (int) (nowX + 40), ChartLooks.PLAIN.curve()))
                .isFalse();
        assertThat(has(image, ChartLooks.PLAIN.plan())).isTrue();
        assertThat(columnHas(image, (int) Math.floor(nowX), ChartLooks.PLAIN.now())
                        || columnHas(image, (int) Math.ceil(nowX), ChartLooks.PLAIN.now()))
                .isTrue();
        assertThat(geometry.timeMs(nowX)).isCloseTo(now, org.assertj.core.data.Offset.offset(1000L));
    }

    @Test
    void soonAfterThePeakNowIsNotWrittenOverThePeaksNumber() {
        ChartContent cooling =
                ChartContent.of(SampleSnapshots.cooling(), OptionalLong.empty(), true, false, Optional.empty());
        long peak = cooling.peakMs().orElseThrow();
        long now = peak + 60_000;
        List<ForecastFan.Point> toCome =
                List.of(new ForecastFan.Point(now, 950, 949, 951), new ForecastFan.Point(3 * peak, 50, 40, 60));
        BufferedImage image = draw(new ChartContent(
                cooling.curve(),
                cooling.plan(),
                toCome,
                OptionalLong.of(now),
                cooling.zero(),
                false,
                cooling.peakMs(),
                Optional.empty()));
        ChartGeometry geometry = chart.geometry().orElseThrow();
        Rectangle2D area = geometry.area();
        double nowX = area.getX()
                + area.getWidth()
                        * (now - geometry.span().fromMs())
                        / geometry.span().lengthMs();
        assertThat(nowX).as("left of the middle, where it is written above").isLessThan(area.getCenterX());
        BufferedImage above = image.getSubimage((int) nowX + 4, (int) area.getY() + 2, 24, 18);
        BufferedImage below = image.getSubimage((int) nowX + 4, (int) area.getMaxY() - 20, 24, 18);
        assertThat(isWrittenOn(above)).isFalse();
        assertThat(isWrittenOn(below)).isTrue();
    }

    @Test
    void theLineOfNowIsNotDrawnThroughThePeaksNumber() {
        ChartContent cooling =
                ChartContent.of(SampleSnapshots.cooling(), OptionalLong.empty(), true, false, Optional.empty());
        long peak = cooling.peakMs().orElseThrow();
        for (long minutes = 5; minutes < 120; minutes += 5) {
            long now = peak + minutes * 60_000;
            BufferedImage image = draw(new ChartContent(
                    cooling.curve(),
                    cooling.plan(),
                    List.of(),
                    OptionalLong.of(now),
                    cooling.zero(),
                    false,
                    cooling.peakMs(),
                    Optional.empty()));
            ChartGeometry geometry = chart.geometry().orElseThrow();
            Rectangle2D area = geometry.area();
            double nowX = area.getX()
                    + area.getWidth()
                            * (now - geometry.span().fromMs())
                            / geometry.span().lengthMs();
            BufferedImage alongTheLine = image.getSubimage((int) nowX - 3, (int) area.getY() + 2, 7, 60);
            assertThat(count(alongTheLine, ChartLooks.PLAIN.text()))
                    .as(minutes + " minutes after the peak")
                    .isZero();
        }
    }

    @Test
    void theChartLibrarysOwnGreyIsNowhere() {
        BufferedImage image =
                draw(ChartContent.of(SampleSnapshots.cooling(), OptionalLong.empty(), true, true, Optional.empty()));
        // Only where the edges of two of our own colours mix may a few pixels come near a grey.
        assertThat(count(image, Color.LIGHT_GRAY)).isLessThan(40);
        assertThat(count(image, Color.GRAY)).isLessThan(40);
        assertThat(has(image, ChartLooks.PLAIN.mark())).isTrue();
    }

    @Test
    void aSpikeOfASingleReadingReachesItsHeight() {
        Trace.Builder curve = new Trace.Builder();
        for (int i = 0; i < 50_000; i++) {
            curve.add(i * 1000L, i == 25_000 ? 800 : 400);
        }
        ChartContent content = new ChartContent(
                curve.view(),
                java.util.List.of(),
                java.util.List.of(),
                OptionalLong.empty(),
                Optional.empty(),
                false,
                OptionalLong.empty(),
                Optional.empty());
        BufferedImage image = draw(content);
        int top = -1;
        for (int y = 40; y < image.getHeight() && top < 0; y++) {
            for (int x = 0; x < image.getWidth() && top < 0; x++) {
                if (near(image.getRGB(x, y), ChartLooks.PLAIN.curve())) {
                    top = y;
                }
            }
        }
        Rectangle2D area = chart.geometry().orElseThrow().area();
        assertThat((double) top).isLessThan(area.getY() + area.getHeight() * 0.2);
    }

    @Test
    void everyLanguageUnitAndClockCanBeDrawnAndAnEmptyFiringToo() {
        for (Language language : Language.values()) {
            for (TemperatureUnit unit : TemperatureUnit.values()) {
                Words words = Words.of(language, WORDS.preferences().withUnit(unit));
                BufferedImage image = new BufferedImage(400, 240, BufferedImage.TYPE_INT_RGB);
                Graphics2D g = image.createGraphics();
                chart.draw(
                        g,
                        new Rectangle2D.Double(0, 0, 400, 240),
                        ChartContent.EMPTY,
                        ChartView.WHOLE,
                        ChartLooks.PLAIN,
                        words);
                g.dispose();
                assertThat(has(image, ChartLooks.PLAIN.past())).isTrue();
            }
        }
    }

    private BufferedImage draw(ChartContent content) {
        BufferedImage image = new BufferedImage(1000, 600, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        chart.draw(g, new Rectangle2D.Double(0, 0, 1000, 600), content, ChartView.WHOLE, ChartLooks.PLAIN, WORDS);
        g.dispose();
        return image;
    }

    /** Letters are dark on a light ground, their edges somewhere between. */
    private static boolean isWrittenOn(BufferedImage image) {
        return java.util.Arrays.stream(
                        image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth()))
                .mapToObj(Color::new)
                .anyMatch(pixel -> pixel.getRed() + pixel.getGreen() + pixel.getBlue() < 330);
    }

    private static long count(BufferedImage image, Color colour) {
        return java.util.Arrays.stream(
                        image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth()))
                .filter(rgb -> near(rgb, colour))
                .count();
    }

    private static boolean has(BufferedImage image, Color colour) {
        for (int x = 0; x < image.getWidth(); x++) {
            if (columnHas(image, x, colour)) {
                return true;
            }
        }
        return false;
    }

    private static boolean columnHas(BufferedImage image, int x, Color colour) {
        for (int y = 40; y < image.getHeight(); y++) {
            if (near(image.getRGB(x, y), colour)) {
                return true;
            }
        }
        return false;
    }

    private static boolean near(int rgb, Color colour) {
        Color found = new Color(rgb);
        return Math.abs(found.getRed() - colour.getRed())
                        + Math.abs(found.getGreen() - colour.getGreen())
                        + Math.abs(found.getBlue() - colour.getBlue())
                < 24;
    }
}
