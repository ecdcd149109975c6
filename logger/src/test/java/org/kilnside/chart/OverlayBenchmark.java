package org.kilnside.chart;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.jfree.chart.ChartFactory;
import org.jfree.chart.JFreeChart;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.kilnside.firing.Trace;
import org.kilnside.tracking.PlanPosition.PlanPoint;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A frame of the Book's chart at 1600 × 900, of one firing of 130,000 readings and of ten over each other, against the
 * chart library's plain path in the same run, with the flags the program is started with. Aim: 8 ms, and five times as fast. Smooth curves flatter a chart, so these
 * have the noise and the steps of a thermocouple's amplifier, and each frame shows another stretch than the one before.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(
        value = 1,
        jvmArgsAppend = {"-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmx320m"})
public class OverlayBenchmark {
    private static final int READINGS = 130_000;
    private static final Rectangle2D FRAME = new Rectangle2D.Double(0, 0, 1600, 900);
    private static final List<Color> COLOURS = List.of(Color.RED, Color.BLUE, Color.YELLOW, Color.MAGENTA, Color.GREEN);

    /** How many firings are over each other. */
    @Param({"1", "10"})
    public int firings;

    private final BufferedImage image = new BufferedImage(1600, 900, BufferedImage.TYPE_INT_RGB);
    private final OverlayChart chart = new OverlayChart();
    private Overlay overlay;
    private JFreeChart plain;
    private Words words;
    private long shift;
    private long mark;

    @Setup
    public void fillIn() {
        Random amplifier = new Random(20261126);
        List<Overlay.Line> lines = new ArrayList<>();
        XYSeriesCollection all = new XYSeriesCollection();
        for (int k = 0; k < firings; k++) {
            Trace.Builder curve = new Trace.Builder();
            XYSeries series = new XYSeries("curve " + k, false, true);
            for (int i = 0; i < READINGS; i++) {
                double celsius = SampleReadings.withAmplifier(
                        SampleSnapshots.kilnC(i / 60.0 * (1 + k * 0.02)) * (1 + k * 0.01), amplifier);
                curve.add(i * 1000L, celsius);
                series.add(i * 1000L, celsius, false);
            }
            lines.add(new Overlay.Line("No. " + k, CurveLevels.of(curve.view()), -k * 60_000L));
            all.addSeries(series);
        }
        overlay = new Overlay(
                lines,
                List.of(new PlanPoint(0, 20), new PlanPoint(36_000_000, 1000)),
                Optional.empty(),
                OptionalDouble.empty(),
                OptionalLong.empty(),
                true);
        plain = ChartFactory.createXYLineChart("", "h", "°C", all);
        words = Words.of(
                Language.ENGLISH,
                new Preferences(
                        TemperatureUnit.CELSIUS,
                        ClockStyle.TWENTY_FOUR_HOURS,
                        ZoneId.of("Europe/Amsterdam"),
                        Opening.LID));
    }

    @Benchmark
    public BufferedImage frame() {
        shift = shift == 0 ? 60_000 : 0;
        return draw(overlay);
    }

    /** The same stretch again, with a mark that has moved: the curves are inked already. */
    @Benchmark
    public BufferedImage frameOfWhichOnlyAMarkHasMoved() {
        mark = (mark + 600_000) % 100_000_000;
        return draw(overlay.marking(OptionalLong.of(mark)));
    }

    private BufferedImage draw(Overlay shown) {
        TimeSpan whole = new TimeSpan(shift - 600_000, shift + READINGS * 1000L);
        Graphics2D g = image.createGraphics();
        chart.draw(g, FRAME, shown, new OverlayView(Optional.of(whole)), ChartLooks.PLAIN, COLOURS, words);
        g.dispose();
        return image;
    }

    @Benchmark
    public BufferedImage plainPathOfTheChartLibrary() {
        Graphics2D g = image.createGraphics();
        plain.draw(g, FRAME);
        g.dispose();
        return image;
    }
}
