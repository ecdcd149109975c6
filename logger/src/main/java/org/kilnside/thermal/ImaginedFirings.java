package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;

/**
 * A plan fired once in each kiln that this one may be, before it is lit. Pure: the same question gives the same answer.
 */
public final class ImaginedFirings {
    private static final double LOW = 0.05;
    private static final double HIGH = 0.95;

    /**
     * What the draws of a kiln known from earlier firings have too much of spread: those firings' fits differ by more
     * than the kiln does. Set on the virtual kilns of seeds 12 to 14, looked at on others (own output).
     */
    private static final double SPREAD_REMEMBERED = 0.5;

    private final ImaginedFiring middle;
    private final List<ImaginedFiring> draws;
    private final boolean remembered;
    private final boolean coolAsSeen;

    private ImaginedFirings(ImaginedFiring middle, List<ImaginedFiring> draws, LikelyKilns kilns) {
        remembered = kilns.isRemembered();
        coolAsSeen = kilns.isSeenToCool();
        this.middle = middle;
        this.draws = List.copyOf(draws);
    }

    /**
     * Fires a plan.
     *
     * @param below temperatures whose times are asked for, falling
     */
    public static ImaginedFirings of(Schedule plan, LikelyKilns kilns, List<Temperature> below) {
        double[] thresholds = thresholds(below);
        List<ImaginedFiring> firings = new ArrayList<>();
        for (LikelyKilns.Likely likely : kilns.draws()) {
            firings.add(ImaginedFiring.of(likely, plan, thresholds));
        }
        return new ImaginedFirings(ImaginedFiring.of(kilns.middle(), plan, thresholds), firings, kilns);
    }

    /** In the middle kiln alone: quick, for trying one plan after the other. */
    public static ImaginedFiring middle(Schedule plan, LikelyKilns kilns, List<Temperature> below) {
        return ImaginedFiring.of(kilns.middle(), plan, thresholds(below));
    }

    /**
     * How hot the kilns get with everything on from the lighting, °C; empty where nothing is known of their power.
     *
     * @param within how long everything is on, s
     */
    public static Optional<Likely> topsOut(LikelyKilns kilns, double within) {
        double[] highest = kilns.draws().stream()
                .filter(LikelyKilns.Likely::powerKnown)
                .mapToDouble(likely -> topsOutC(likely, within))
                .sorted()
                .toArray();
        if (highest.length == 0 || 2 * highest.length < kilns.draws().size()) {
            return Optional.empty();
        }
        return Optional.of(new Likely(quantile(highest, 0.5), quantile(highest, LOW), quantile(highest, HIGH)));
    }

    private static double topsOutC(LikelyKilns.Likely likely, double within) {
        WallSlab slab = new WallSlab(likely.kind().shape(), WallSlab.USUAL_CELLS);
        slab.use(likely.kiln());
        slab.startUniform(likely.kiln().ambientC());
        return PlanRun.topsOutC(slab, within);
    }

    private static double[] thresholds(List<Temperature> below) {
        double[] thresholds = below.stream().mapToDouble(Temperature::celsius).toArray();
        for (int i = 1; i < thresholds.length; i++) {
            if (thresholds[i] > thresholds[i - 1]) {
                throw new IllegalArgumentException("temperatures asked for fall, found " + below);
            }
        }
        return thresholds;
    }

    /** The firing of the middle kiln. */
    public ImaginedFiring middle() {
        return middle;
    }

    /** Whether the kilns come down as this one was seen to. */
    public boolean coolAsSeen() {
        return coolAsSeen;
    }

    /** The firings of all the kilns it may be; all are equally likely. */
    public List<ImaginedFiring> draws() {
        return draws;
    }

    /** The part of the draws, 0 … 1, of which something is so. */
    public double share(Function<ImaginedFiring, Boolean> so) {
        return draws.stream().filter(so::apply).count() / (double) draws.size();
    }

    /**
     * A number above 0 of the firing, such as a time, with its interval: nine in ten by the draws that have it. Empty
     * when fewer than half have.
     *
     * @param least half-width that is never gone below, as a part of the number: what the draws do not know of
     */
    public Optional<Likely> likely(Function<ImaginedFiring, OptionalDouble> number, double least) {
        return likely(number, least, 1);
    }

    /** The same for a time, whose interval is as wide as other kilns' times have asked for. */
    public Optional<Likely> time(Function<ImaginedFiring, OptionalDouble> time, double least) {
        return likely(time, least, remembered ? SPREAD_REMEMBERED : 1);
    }

    private Optional<Likely> likely(Function<ImaginedFiring, OptionalDouble> number, double least, double spread) {
        double[] numbers = draws.stream()
                .map(number)
                .filter(OptionalDouble::isPresent)
                .mapToDouble(OptionalDouble::getAsDouble)
                .sorted()
                .toArray();
        if (numbers.length == 0 || 2 * numbers.length < draws.size()) {
            return Optional.empty();
        }
        double middle = quantile(numbers, 0.5);
        double down = Math.hypot(least, spread * Math.log(middle / quantile(numbers, LOW)));
        double up = Math.hypot(least, spread * Math.log(quantile(numbers, HIGH) / middle));
        return Optional.of(new Likely(middle, middle * Math.exp(-down), middle * Math.exp(up)));
    }

    /** Straight between neighbours. */
    static double quantile(double[] sorted, double part) {
        double place = part * (sorted.length - 1);
        int below = (int) place;
        return below + 1 >= sorted.length
                ? sorted[sorted.length - 1]
                : sorted[below] + (place - below) * (sorted[below + 1] - sorted[below]);
    }

    /** A number with the interval that holds nine in ten. */
    public record Likely(double at, double from, double to) {}
}
