package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Temperature;

/**
 * The kilns that a kiln about to be lit may be, as far as its owner and its earlier firings tell: a fixed set of draws,
 * so that the same question gives the same answer. They do not depend on the plan: make them once, and fire any number
 * of plans in them. Immutable.
 */
public final class LikelyKilns {
    /** Enough that a 90 % interval stands still to a few per cent of its width. */
    private static final int DRAWS = 48;

    /** So many are tried for one that is kept, where a kiln must be able to do what it was built for. */
    private static final int TRIED_FOR_ONE = 5;

    /** What a kiln of which the maker's limit is not known was built for, °C (common practice: cone 6). */
    private static final double BUILT_FOR_C = 1222;

    /** The climb a kiln must still have there, K/h: the rate by which cones are named. */
    private static final double CLIMBS_K_PER_H = 60;

    private static final NormalDistribution NORMAL = new NormalDistribution();

    /** Ware and furniture in a litre of a kiln of which only the size is known, kg (common practice: 0.3 to 0.6). */
    private static final double USUAL_KG_L = 0.45;

    private static final double USUAL_KG_SCATTER = 0.5;

    /** A weighed load: its heat capacity, and the hot face that warms with it, ln. */
    private static final double LOAD_WEIGHED = 0.12;

    /** The same with its kilograms, its clay and the kilowatts as somebody tells them, ln. */
    private static final double WEIGHED_ALONE = 0.3;

    /** The same where the kiln's size is no more than its litres, ln. */
    private static final double WEIGHED_BY_GEOMETRY = 0.45;

    /** How far a load nobody weighed may stray from those before it, ln: a kiln half full is no rarity. */
    private static final double LOAD_NOT_WEIGHED = 0.55;

    /** The fits lay a little of what a load holds to its wall: a load like those before came out early in three of four outside simulators. */
    private static final double FITTED_LOW = 1.08;

    /** Power is told over this long, s. */
    private static final double NEEDED_OVER_S = 1800;

    /** Mains voltage ±2 %, twice in the power, and elements a firing older, ln (common practice). */
    private static final double POWER_BY_THE_DAY = 0.04;

    /** A bung in or out, a vent: the leak from one firing to the next, ln. */
    private static final double LEAK_BY_THE_DAY = 0.15;

    /** What a fit leaves open of the leak, ln; the strength of the elements then is another too. */
    private static final double LEAK_REMEMBERED = 0.26;

    /** What a few fits leave open of the wall itself, ln. */
    private static final double WALL_REMEMBERED = 0.06;

    /** A day and a night pass over a firing, K. */
    private static final double ROOM_K = 3;

    /** J/(kg K) at 600 °C, fired clay and shelves (VDI Heat Atlas: fireclay 997). */
    private static final double LOAD_CAPACITY = 1000;

    /** The fits find so much more than the load: elements, and the hot face that warms with it (three outside simulators). */
    private static final double WITH_HOT_FACE = 1.35;

    /** The golden ratio generalised to eleven dimensions: the root of x¹² = x + 1. */
    private static final double GOLDEN = 1.062169167864255;

    private final Likely middle;
    private final List<Likely> draws;
    private final OptionalDouble hottestSeenC;
    private final boolean seenToCool;

    private LikelyKilns(Likely middle, List<Likely> draws, OptionalDouble hottestSeenC, boolean seenToCool) {
        this.seenToCool = seenToCool;
        this.middle = middle;
        this.draws = List.copyOf(draws);
        this.hottestSeenC = hottestSeenC;
    }

    /** Whether earlier firings of this kiln stand behind them. */
    public boolean isRemembered() {
        return hottestSeenC.isPresent();
    }

    /** Whether the middle one's firing was seen to cool by itself, so that it knows how this kiln comes down. */
    public boolean isSeenToCool() {
        return seenToCool;
    }

    /** The highest temperature an earlier firing of this kiln has shown, °C; empty where none is remembered. */
    public OptionalDouble hottestSeenC() {
        return hottestSeenC;
    }

    Likely middle() {
        return middle;
    }

    /** All equally likely. */
    List<Likely> draws() {
        return draws;
    }

    /**
     * One kiln it may be.
     *
     * @param kiln its numbers; ψ is 0 where nothing is known of its power
     * @param conductanceWK the slab's k A / L that turns the model's heat into watts; empty where unknown
     */
    record Likely(WallKind kind, KilnParameters kiln, OptionalDouble conductanceWK) {
        boolean powerKnown() {
            return kiln.psiC() > 0;
        }
    }

    /**
     * The draws for a kiln.
     *
     * @param kiln as its owner describes it: wall, power, volume and limit are used
     * @param memory what its earlier firings taught
     * @param room where it stands, and how warm it is when lit
     * @param loadKg ware and furniture, where weighed; used where the kiln's volume, or its power and its output, are
     *     known
     */
    public static LikelyKilns of(Kiln kiln, KilnMemory memory, Temperature room, OptionalDouble loadKg) {
        return memory.kilns().isEmpty()
                ? unseen(kiln, memory, room.celsius(), loadKg)
                : remembered(kiln, memory.kilns(), room.celsius(), loadKg);
    }

    private static LikelyKilns unseen(Kiln kiln, KilnMemory memory, double roomC, OptionalDouble loadKg) {
        Optional<WallKind> told = kiln.wall().map(wall -> WallKind.valueOf(wall.name()));
        Map<WallKind, Double> kinds = told.map(kind -> Map.of(kind, 1.0)).orElseGet(memory::kinds);
        double builtForC = kiln.limits().temperature().map(Temperature::celsius).orElse(BUILT_FOR_C);
        WallKind usual = WallKind.BRICK;
        List<Likely> draws = new ArrayList<>();
        for (WallKind kind : WallKind.values()) {
            double weight = kinds.getOrDefault(kind, 0.0);
            usual = weight > kinds.getOrDefault(usual, 0.0) ? kind : usual;
            int wanted = (int) Math.round(DRAWS * weight);
            List<Likely> weaker = new ArrayList<>();
            int found = 0;
            for (int i = 0; i < TRIED_FOR_ONE * wanted && found < wanted; i++) {
                Likely draw = unseen(kiln, kind, roomC, loadKg, OptionalDouble.of(i));
                if (canDo(draw, builtForC)) {
                    draws.add(draw);
                    found++;
                } else {
                    weaker.add(draw);
                }
            }
            // A description that fits hardly any kiln is taken as it stands.
            for (int i = 0; found + i < wanted && i < weaker.size(); i++) {
                draws.add(weaker.get(i));
            }
        }
        Likely middle = middle(unseen(kiln, usual, roomC, loadKg, OptionalDouble.empty()), draws);
        return new LikelyKilns(middle, draws, OptionalDouble.empty(), false);
    }

    /** The plain guess, with power in the middle of what the draws have. */
    private static Likely middle(Likely guess, List<Likely> draws) {
        if (!guess.powerKnown()) {
            return guess;
        }
        double[] powers = draws.stream()
                .filter(draw -> draw.kind() == guess.kind())
                .mapToDouble(draw -> draw.kiln().psiC())
                .sorted()
                .toArray();
        return powers.length == 0
                ? guess
                : new Likely(guess.kind(), guess.kiln().withPsiC(powers[powers.length / 2]), guess.conductanceWK());
    }

    /** A kiln is built to get to its limit, and to climb there. */
    private static boolean canDo(Likely draw, double builtForC) {
        if (!draw.powerKnown()) {
            return true;
        }
        KilnParameters kiln = draw.kiln();
        WallSlab slab = new WallSlab(draw.kind().shape(), WallSlab.USUAL_CELLS);
        slab.use(kiln);
        slab.startSoaked(builtForC, 1);
        double hourS = 3600;
        slab.drive(hourS, builtForC);
        double wall = slab.intoWall() * kiln.tauS() / hourS;
        double load = slab.loadTakes(builtForC - CLIMBS_K_PER_H, builtForC) * kiln.tauS() / hourS;
        double leak = kiln.leakAt(builtForC) * (builtForC - kiln.ambientC());
        return kiln.psiC() >= wall + load + leak;
    }

    private static Likely unseen(Kiln kiln, WallKind kind, double roomC, OptionalDouble loadKg, OptionalDouble draw) {
        Prior prior =
                Prior.of(kind, new Prior.Ambient(roomC, ROOM_K), false, Optional.empty(), false, false, false, false);
        double[] z = new double[Prior.BASIC];
        for (int p = 0; p < z.length; p++) {
            z[p] = normal(draw, p);
        }
        KilnParameters guess = prior.kiln(z);
        OptionalDouble conductance = byGeometry(kiln, kind, guess, normal(draw, Prior.BASIC));
        OptionalDouble load = loadKg.isPresent() || kiln.volume().isEmpty()
                ? loadKg
                : OptionalDouble.of(USUAL_KG_L
                        * kiln.volume().get().litres()
                        * Math.exp(USUAL_KG_SCATTER * normal(draw, Prior.PHI)));
        return weighed(guess, kind, kiln, conductance, load, normal(draw, Prior.BASIC + 1));
    }

    private static LikelyKilns remembered(Kiln kiln, List<FittedKiln> earlier, double roomC, OptionalDouble loadKg) {
        List<Likely> draws = new ArrayList<>();
        double logPhi = earlier.stream()
                .mapToDouble(each -> Math.log(each.kiln().phi()))
                .average()
                .orElseThrow();
        FittedKiln newest = earlier.get(earlier.size() - 1);
        Optional<StrengthSeen> strength = StrengthSeen.of(earlier);
        for (int i = 0; i < DRAWS; i++) {
            FittedKiln fit = earlier.get(i % earlier.size());
            draws.add(remembered(kiln, fit, strength, roomC, logPhi, loadKg, OptionalDouble.of(i)));
        }
        OptionalDouble hottestC = earlier.stream()
                .flatMapToDouble(each -> Arrays.stream(each.data().course.temperatureC))
                .max();
        return new LikelyKilns(
                remembered(kiln, newest, strength, roomC, logPhi, loadKg, OptionalDouble.empty()),
                draws,
                hottestC,
                !newest.data().free.isEmpty());
    }

    private static Likely remembered(
            Kiln kiln,
            FittedKiln fit,
            Optional<StrengthSeen> strength,
            double roomC,
            double logPhi,
            OptionalDouble loadKg,
            OptionalDouble draw) {
        KilnParameters known = fit.kiln();
        KilnParameters wall = known.withWall(
                known.tauS() * Math.exp(WALL_REMEMBERED * normal(draw, 0)),
                known.biot() * Math.exp(WALL_REMEMBERED * normal(draw, 1)),
                known.lambda() * Math.exp(LEAK_REMEMBERED * normal(draw, 3)));
        double psiC = strength.map(seen -> seen.psiC(wall, fit.kind())).orElse(known.psiC());
        boolean wattsKnown = fit.prior().hasPower() && kiln.power().isPresent();
        boolean sizeKnown = wattsKnown || kiln.volume().isPresent();
        double strays = loadKg.isPresent() && sizeKnown ? Prior.LOAD_SCATTER : LOAD_NOT_WEIGHED;
        double phi = FITTED_LOW * Math.exp((logPhi + Math.log(known.phi())) / 2 + strays * normal(draw, 2));
        KilnParameters guess = wall.withPhi(phi)
                .withLambda(wall.lambda() * Math.exp(LEAK_BY_THE_DAY * normal(draw, 8)))
                .withPsiC(psiC * Math.exp(POWER_BY_THE_DAY * normal(draw, 4)))
                .withAmbientC(roomC + ROOM_K * normal(draw, 5))
                .fired();
        OptionalDouble conductance = wattsKnown
                ? OptionalDouble.of(kiln.power().get().watts() / known.psiC())
                : byGeometry(kiln, fit.kind(), guess, normal(draw, 6));
        Likely likely = weighed(guess, fit.kind(), kiln, conductance, loadKg, normal(draw, 7));
        if (loadKg.isPresent() && sizeKnown) {
            // What the loads before took and what this one weighs, each with its own doubts.
            double weighed = wattsKnown ? WEIGHED_ALONE : WEIGHED_BY_GEOMETRY;
            double before = Prior.LOAD_SCATTER * Prior.LOAD_SCATTER;
            double weight = before / (before + weighed * weighed);
            double log = weight * Math.log(WITH_HOT_FACE * likely.kiln().phi()) + (1 - weight) * Math.log(guess.phi());
            likely = new Likely(likely.kind(), likely.kiln().withPhi(Math.exp(log)), conductance);
        }
        return fit.prior().hasPower() || !likely.powerKnown() ? likely : asStrongAs(fit, likely);
    }

    /** A kiln whose output nobody told was at least as strong as what it did before took. */
    private static Likely asStrongAs(FittedKiln fit, Likely likely) {
        double needed = needed(fit) * Math.exp(-POWER_BY_THE_DAY);
        return likely.kiln().psiC() >= needed
                ? likely
                : new Likely(likely.kind(), likely.kiln().withPsiC(needed), likely.conductanceWK());
    }

    /** The most power an earlier firing took over half an hour, in the model's °C. */
    private static double needed(FittedKiln fit) {
        FiringData data = fit.data();
        KilnParameters kiln = fit.kiln();
        WallSlab slab = new WallSlab(fit.kind().shape(), WallSlab.USUAL_CELLS);
        data.start(slab, kiln, fit.prior().soaked(fit.solution().parameters()));
        double most = 0;
        double heat = 0;
        double seconds = 0;
        for (int i = 1; i < data.driveS.length; i++) {
            double step = data.driveS[i] - data.driveS[i - 1];
            double taken = slab.intoWall();
            slab.drive(step, data.driveC[i]);
            double middleC = (data.driveC[i] + data.driveC[i - 1]) / 2;
            heat += (slab.loadTakes(data.driveC[i - 1], data.driveC[i]) + slab.intoWall() - taken) * kiln.tauS()
                    + kiln.leakAt(middleC) * (middleC - kiln.ambientC()) * step;
            seconds += step;
            if (seconds >= NEEDED_OVER_S) {
                most = Math.max(most, heat / seconds);
                heat = 0;
                seconds = 0;
            }
        }
        return most;
    }

    /** Where the kiln's size is known in watts per kelvin, its power and a weighed load can be put into the model. */
    private static Likely weighed(
            KilnParameters guess,
            WallKind kind,
            Kiln kiln,
            OptionalDouble conductance,
            OptionalDouble loadKg,
            double normal) {
        KilnParameters found = guess;
        if (conductance.isPresent()) {
            double wattsPerK = conductance.getAsDouble();
            if (loadKg.isPresent()) {
                found = found.withPhi(loadKg.getAsDouble()
                        * LOAD_CAPACITY
                        / (wattsPerK * found.tauS())
                        * Math.exp(LOAD_WEIGHED * normal));
            }
            if (found.psiC() == 0 && kiln.power().isPresent()) {
                found = found.withPsiC(kiln.power().get().watts() / wattsPerK);
            }
        }
        return new Likely(kind, found, conductance);
    }

    /**
     * k A / L of a kiln of which the volume is known: the hot face of a drum or box as high as wide, and the thickness
     * that makes the drawn time constant with the usual material of such walls.
     */
    private static OptionalDouble byGeometry(Kiln kiln, WallKind kind, KilnParameters guess, double normal) {
        if (kiln.volume().isEmpty()) {
            return OptionalDouble.empty();
        }
        double hotFaceM2 = 5.8 * Math.pow(kiln.volume().get().litres() / 1000, 2.0 / 3);
        double thicknessM = Math.sqrt(guess.tauS() * kind.usualDiffusivityM2S());
        return OptionalDouble.of(
                kind.usualConductivityWMK() * hotFaceM2 / thicknessM * Math.exp(kind.conductivityScatter() * normal));
    }

    /** The draw's value in one dimension: an additive recurrence that fills all of them evenly; 0 for the middle. */
    private static double normal(OptionalDouble draw, int dimension) {
        if (draw.isEmpty()) {
            return 0;
        }
        double ratio = 1.0 / Math.pow(GOLDEN, dimension + 1);
        double part = (0.5 + ratio * (draw.getAsDouble() + 1)) % 1;
        return NORMAL.inverseCumulativeProbability(Math.min(1 - 1e-3, Math.max(1e-3, part)));
    }
}
