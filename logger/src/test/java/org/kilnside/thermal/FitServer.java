package org.kilnside.thermal;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

/**
 * Lets another least-squares library work on this room's own fit: prints how many numbers there are, then our own
 * fit's processor time and sum of squares, then answers each line of numbers with the residuals there.
 * {@code logger/bin/bench} runs it under SciPy where that is installed.
 */
final class FitServer {
    private static final int WARM = 20;
    private static final int TIMED = 20;

    private FitServer() {}

    /** Processor time: other work on the machine does not count. */
    private static long cpuNs() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    public static void main(String[] arguments) throws IOException {
        FiringData data = FiringData.of(Course.of(ForecastBenchmark.day()), OptionalDouble.of(15));
        LeastSquares.Residuals residuals = FiringFit.residuals(data, WallKind.BRICK);
        double[] start = new double[data.prior(WallKind.BRICK).size()];
        for (int i = 0; i < WARM; i++) {
            FiringFit.fit(data, WallKind.BRICK);
        }
        long began = cpuNs();
        for (int i = 0; i < TIMED; i++) {
            FiringFit.fit(data, WallKind.BRICK);
        }
        double milliseconds = (cpuNs() - began) / 1e6 / TIMED;
        double sum = FiringFit.fit(data, WallKind.BRICK).solution().sumOfSquares();
        System.out.println(start.length + " " + milliseconds + " " + sum);
        BufferedReader lines = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
        for (String line = lines.readLine(); line != null; line = lines.readLine()) {
            double[] at = Arrays.stream(line.split(" "))
                    .mapToDouble(Double::parseDouble)
                    .toArray();
            long before = cpuNs();
            double[] answer = residuals.at(at);
            long spent = cpuNs() - before;
            System.out.println(spent + " "
                    + Arrays.stream(answer).mapToObj(Double::toString).collect(Collectors.joining(" ")));
        }
    }
}
