package org.kilnside;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Collection;
import java.util.List;
import org.openjdk.jmh.infra.BenchmarkParams;
import org.openjdk.jmh.infra.IterationParams;
import org.openjdk.jmh.profile.InternalProfiler;
import org.openjdk.jmh.results.AggregationPolicy;
import org.openjdk.jmh.results.IterationResult;
import org.openjdk.jmh.results.Result;
import org.openjdk.jmh.results.ScalarResult;

/**
 * What a benchmark's own threads had of the processor for each operation: the figure to go by on a machine that others
 * use too. Asked for with {@code -prof org.kilnside.ProcessorTime}. Neither the compiler's nor the collector's threads
 * are in it.
 */
public final class ProcessorTime implements InternalProfiler {
    private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    private long before;

    @Override
    public String getDescription() {
        return "processor time of the benchmark's threads";
    }

    @Override
    public void beforeIteration(BenchmarkParams benchmark, IterationParams iteration) {
        before = nanos();
    }

    @Override
    @SuppressWarnings("rawtypes") // The library's own signature.
    public Collection<? extends Result> afterIteration(
            BenchmarkParams benchmark, IterationParams iteration, IterationResult result) {
        long operations = Math.max(1, result.getMetadata().getMeasuredOps());
        double milliseconds = (nanos() - before) / 1e6 / operations;
        return List.of(new ScalarResult("processor", milliseconds, "ms/op", AggregationPolicy.AVG));
    }

    private long nanos() {
        long sum = 0;
        for (long id : threads.getAllThreadIds()) {
            sum += Math.max(0, threads.getThreadCpuTime(id));
        }
        return sum;
    }
}
