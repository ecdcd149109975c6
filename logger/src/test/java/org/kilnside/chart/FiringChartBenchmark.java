package org.kilnside.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.jfree.chart.ChartFactory;
import org.jfree.chart.JFreeChart;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.kilnside.firing.Trace;
import org.kilnside.thermal.ForecastFan;
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
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** A frame of 130,000 readings at 1600 × 900, against the chart library's plain path in the same run. Aim: 8 ms. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 4, time = 2)
@Fork(
        value = 1,
        jvmArgsAppend = {"-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xmx320m"})
public class FiringChartBenchmark {
    private static final int READINGS = 130_000;
    private static final Rectangle2D FRAME = new Rectangle2D.Double(0, 0, 1600, 900);

    private final BufferedImage image = new BufferedImage(1600, 900, BufferedImage.TYPE_INT_RGB);
    private final FiringChart chart = new FiringChart();
    private ChartContent content;
    private JFreeChart plain;
    private Words words;

    @Setup
    public void fillIn() {
        Random amplifier = new Random(20261126);
        Trace.Builder curve = new Trace.Builder();
        XYSeries series = new XYSeries("curve", false, true);
        for (int i = 0; i < READINGS; i++) {
            double celsius = SampleReadings.withAmplifier(SampleSnapshots.kilnC(i / 60.0), amplifier);
            curve.add(i * 1000L, celsius);
            series.add(i * 1000L, celsius, false);
        }
        content = new ChartContent(
                curve.view(),
                List.of(new PlanPoint(0, 20), new PlanPoint(36_000_000, 1000)),
                fan(),
                OptionalLong.of(READINGS * 1000L),
                Optional.of(SampleSnapshots.BEGAN),
                true,
                OptionalLong.empty(),
                Optional.empty());
        plain = ChartFactory.createXYLineChart("", "h", "°C", new XYSeriesCollection(series));
        words = Words.of(
                Language.ENGLISH,
                new Preferences(
                        TemperatureUnit.CELSIUS,
                        ClockStyle.TWENTY_FOUR_HOURS,
                        ZoneId.of("Europe/Amsterdam"),
                        Opening.LID));
    }

    /** As many points as a forecast has at the most. */
    private static List<ForecastFan.Point> fan() {
        List<ForecastFan.Point> fan = new ArrayList<>();
        for (int i = 0; i < 300; i++) {
            fan.add(new ForecastFan.Point((READINGS + i * 60L) * 1000, 60 - i * 0.1, 70 - i * 0.1, 85 - i * 0.1));
        }
        return fan;
    }

    @Benchmark
    public BufferedImage frame() {
        Graphics2D g = image.createGraphics();
        chart.draw(g, FRAME, content, ChartView.WHOLE, ChartLooks.PLAIN, words);
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
