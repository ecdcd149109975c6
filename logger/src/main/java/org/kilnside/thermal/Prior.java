package org.kilnside.thermal;

import java.util.Arrays;
import java.util.Optional;

/**
 * What is believed of a kiln before its curve says anything: a Gaussian in the numbers the fit moves. The first entries
 * are always there; ψ only where the output is known, the soaking only for a log that starts warm,
 * an opening only after
 * something was opened, a step only after the elements lost strength.
 */
final class Prior {
    static final int TAU = 0;
    static final int BIOT = 1;
    static final int PHI = 2;
    static final int LAMBDA = 3;
    static final int AMBIENT = 4;
    static final int LEAK_EXPONENT = 5;
    static final int CONDUCTIVITY_STEEPNESS = 6;
    static final int CAPACITY_STEEPNESS = 7;
    static final int FACE_FILM = 8;
    static final int WARE_FILM = 9;
    static final int BASIC = 10;

    /** How far ln τ of brick walls scatters. */
    static final double TAU_SPREAD = 0.42;

    /** The same of fibre: blanket of 50 mm to modules of 150 mm, and of half as much density again. */
    private static final double FIBRE_TAU_SPREAD = 0.75;

    /** How far ln of the ware's film scatters; with more, fits go from ware that sees its wall to ware that does not and back. */
    static final double WARE_FILM_SPREAD = 0.6;

    /** The same where nothing of a cooling is held against it, and on the way up there is no such opposite. */
    static final double WARE_FILM_WIDE = 0.8;

    /** How sure one is of the room where somebody gave it and a cold kiln was lit in it: a day and a night pass over a cooling, K. */
    static final double GIVEN_AMBIENT_K = 3;

    /**
     * A kiln that has not been seen to cool. Where the cooling is seen the middles above serve best, since what the model has not
     * got is then laid to load and leak; where it is not they come out too early. Brick kilns of three outside simulators and the
     * virtual kilns, fitted down to 250 °C, have ln φ at -0.4 to +0.1, ln λ at -1.3 to -1.8, ln ψ at 7.8 to 8.0 with a
     * spread of 0.2; this program's own trial kilns, half as heavily loaded, the middles above: between them, and as wide (own
     * trials).
     */
    private static final double LOADED_PHI = 0.62;

    private static final double LOADED_PHI_SPREAD = 0.58;
    private static final double SHUT_LAMBDA = 0.26;
    private static final double SHUT_LAMBDA_SPREAD = 0.75;
    private static final double BUILT_PSI_C = 2700;
    private static final double BUILT_PSI_SPREAD = 0.3;

    /** How far a load nobody weighed strays from the loads before it, ln: bisque and glaze loads differ (own estimate). */
    static final double LOAD_SCATTER = 0.4;

    /** A load whose cooling was seen, ln: next to nothing. */
    private static final double LOAD_SEEN = 0.02;

    /** Mains voltage ±2 %, twice in the power, and elements a firing older, ln (common practice). */
    static final double STRENGTH_BY_THE_DAY = 0.04;

    /** New elements, a lost ring, another supply, ln (own estimate). */
    static final double STRENGTH_CHANGED = 0.35;

    /** How much of their spread a known kiln's own numbers keep. */
    private static final double PINNED = 0.06;

    /**
     * Raw ware takes some 290 kJ/kg (45 % kaolinite of 650 kJ/kg, from memory) where it is half of what φ stands for, ware
     * that was fired before nothing; nobody says which it is.
     */
    private static final double BOUND_WATER_K = 80;

    private static final double BOUND_WATER_SPREAD_K = 130;

    /**
     * By how much ln φ lies lower where ln τ lies higher: a wall twice as thick has four times the time constant and twice
     * the heat capacity the load is measured against; one of twice the density twice of both (geometry; kilns fitted down
     * to 200 °C scatter with a slope of -0.8, own trials).
     */
    private static final double PHI_BY_TAU = -0.5;

    /** About cone 6 and 7: what kilns are built to reach, °C. */
    private static final double STONEWARE_C = 1230;

    /**
     * Makers put in a fifth to nine tenths more than it takes to hold that, elements lose up to half of it before somebody
     * changes them (common practice, from memory): ln of power over need.
     */
    private static final double STRENGTH_SPREAD = 0.5;

    /** What nobody can see coming: mains drift by some half a per cent of their voltage, one standard deviation; of the power. */
    private static final double MAINS_DRIFT = 0.012;

    private final double[] mean;
    private final double[] spread;
    private final int psi;
    private final int soak;
    private final int opened;
    private final int step;
    private final int quartz;
    private final int water;
    private final Optional<WallShape> firesAsBuilt;

    private Prior(
            double[] mean,
            double[] spread,
            int psi,
            int soak,
            int opened,
            int step,
            int quartz,
            int water,
            Optional<WallShape> firesAsBuilt) {
        this.mean = mean;
        this.spread = spread;
        this.psi = psi;
        this.soak = soak;
        this.opened = opened;
        this.step = step;
        this.quartz = quartz;
        this.water = water;
        this.firesAsBuilt = firesAsBuilt;
    }

    /**
     * The prior of a kind of wall.
     *
     * @param ambient what is known of it
     * @param withPower whether ψ is fitted
     * @param soaked how far a log that starts warm finds the wall soaked; empty for a cold start
     * @param withOpening whether the leak may have changed on the way
     * @param withStep whether the elements may have lost strength on the way
     * @param withQuartz whether the ware was seen to cool through the turning of its quartz
     * @param withWater whether the power it took may have gone into the bound water of raw ware
     */
    static Prior of(
            WallKind kind,
            Ambient ambient,
            boolean withPower,
            Optional<Soak> soaked,
            boolean withOpening,
            boolean withStep,
            boolean withQuartz,
            boolean withWater) {
        boolean fibre = kind == WallKind.FIBRE;
        int size = BASIC
                + (withPower ? 1 : 0)
                + (soaked.isPresent() ? 1 : 0)
                + (withOpening ? 1 : 0)
                + (withStep ? 1 : 0)
                + (withQuartz ? 1 : 0)
                + (withWater ? 1 : 0);
        double[] mean = new double[size];
        double[] spread = new double[size];
        set(mean, spread, TAU, Math.log(kind.typicalTauS()), fibre ? FIBRE_TAU_SPREAD : TAU_SPREAD);
        set(mean, spread, BIOT, Math.log(fibre ? 5.5 : 2.7), 0.35);
        set(mean, spread, PHI, Math.log(fibre ? 3 : 0.5), fibre ? 0.7 : 0.8);
        set(mean, spread, LAMBDA, Math.log(fibre ? 0.5 : 0.3), fibre ? 0.8 : 1);
        set(mean, spread, AMBIENT, ambient.celsius(), ambient.spreadK());
        set(mean, spread, LEAK_EXPONENT, 0.25, 0.22);
        // The makes of firebrick in the VDI Heat Atlas lie between 0.6 and 1 times the steepest. A kiln of fibre also
        // has joints, studs, a floor and a door frame, which conduct nearly alike at all temperatures.
        set(mean, spread, CONDUCTIVITY_STEEPNESS, fibre ? 0.85 : 0.82, fibre ? 0.2 : 0.17);
        set(mean, spread, CAPACITY_STEEPNESS, fibre ? 1 : 0.75, 0.3);
        set(mean, spread, FACE_FILM, Math.log(0.015), 0.7);
        set(mean, spread, WARE_FILM, Math.log(0.045), WARE_FILM_SPREAD);
        int next = BASIC;
        int psi = -1;
        int soak = -1;
        int opened = -1;
        if (withPower) {
            psi = next++;
            set(mean, spread, psi, Math.log(2500), 1);
        }
        if (soaked.isPresent()) {
            soak = next++;
            set(mean, spread, soak, soaked.get().mean(), soaked.get().spread());
        }
        if (withOpening) {
            opened = next++;
            set(mean, spread, opened, LastSpan.OPEN_TIMES, 1.2);
        }
        int step = -1;
        if (withStep) {
            step = next++;
            set(mean, spread, step, Math.log(2.0 / 3), 0.4);
        }
        int quartz = -1;
        if (withQuartz) {
            quartz = next++;
            set(mean, spread, quartz, QuartzTurning.USUAL_K, QuartzTurning.SPREAD_K);
        }
        int water = -1;
        if (withWater) {
            water = next;
            set(mean, spread, water, BOUND_WATER_K, BOUND_WATER_SPREAD_K);
        }
        return new Prior(mean, spread, psi, soak, opened, step, quartz, water, Optional.empty());
    }

    /**
     * The prior of a kiln that is known: its own numbers are pinned near where its firings put them; load, room, power and
     * whatever happened stay as open as before.
     *
     * @param z where its firings put the first {@link #BASIC} numbers, in this prior's spreads
     */
    Prior pinned(double[] z) {
        double[] middle = mean.clone();
        double[] narrow = spread.clone();
        for (int p = 0; p < BASIC; p++) {
            if (p != PHI && p != AMBIENT) {
                middle[p] += spread[p] * z[p];
                narrow[p] *= PINNED;
            }
        }
        middle[PHI] += PHI_BY_TAU * spread[TAU] * z[TAU];
        return new Prior(middle, narrow, psi, soak, opened, step, quartz, water, firesAsBuilt);
    }

    /** The same with a load about as heavy as earlier ones, not weighed. */
    Prior loadedAsBefore(double logPhi) {
        return with(PHI, logPhi, LOAD_SCATTER);
    }

    /** The same with the load of which the cooling was seen. */
    Prior loadedAsSeen(double logPhi) {
        return with(PHI, logPhi, LOAD_SEEN);
    }

    /** The same with elements of which the strength is known within a spread of its logarithm. */
    Prior strong(double logPsi, double by) {
        return with(psi, logPsi, by);
    }

    /** The same with elements that may be others than those seen before. */
    Prior perhapsStrongAsBefore(double logPsi) {
        return with(psi, logPsi, STRENGTH_CHANGED);
    }

    Prior moved(int at, double by) {
        return with(at, mean[at] + by, spread[at]);
    }

    Prior with(int at, double middle, double by) {
        double[] means = mean.clone();
        double[] spreads = spread.clone();
        set(means, spreads, at, middle, by);
        return new Prior(means, spreads, psi, soak, opened, step, quartz, water, firesAsBuilt);
    }

    /**
     * The prior of a kiln built to fire stoneware: its power is believed to be that which holds {@link #STONEWARE_C}, within
     * a spread, whatever wall and leak are. A kiln on its way up cannot tell strong elements in a lossy kiln from weak ones
     * in a tight one, only how much stronger than its losses it is.
     */
    Prior firesAsBuilt(WallKind kind) {
        if (!hasPower()) {
            return this;
        }
        double[] middle = mean.clone();
        double[] narrow = spread.clone();
        set(middle, narrow, psi, 0, STRENGTH_SPREAD);
        narrow[WARE_FILM] = WARE_FILM_WIDE;
        return new Prior(middle, narrow, psi, soak, opened, step, quartz, water, Optional.of(kind.shape()));
    }

    /**
     * The prior of a kiln that has not been seen to cool; of fibre nothing else is known.
     *
     * @param outputSeen whether the output is told: a guess of it must not speak of the load
     */
    Prior notSeenToCool(WallKind kind, boolean outputSeen) {
        if (kind == WallKind.FIBRE) {
            return this;
        }
        double[] middle = mean.clone();
        double[] narrow = spread.clone();
        set(middle, narrow, PHI, Math.log(LOADED_PHI), LOADED_PHI_SPREAD);
        set(middle, narrow, LAMBDA, Math.log(SHUT_LAMBDA), SHUT_LAMBDA_SPREAD);
        narrow[WARE_FILM] = WARE_FILM_WIDE;
        if (hasPower() && outputSeen) {
            set(middle, narrow, psi, Math.log(BUILT_PSI_C), BUILT_PSI_SPREAD);
        }
        return new Prior(middle, narrow, psi, soak, opened, step, quartz, water, firesAsBuilt);
    }

    /** The point of this fit that stands for the kiln another one found under other beliefs of the same numbers. */
    double[] like(Prior other, double[] found) {
        double[] like = new double[found.length];
        for (int p = 0; p < like.length; p++) {
            like[p] = (other.value(found, p) - mean[p]) / spread[p];
        }
        if (hasPower()) {
            like[psi] = 0;
            like[psi] = Math.log(other.kiln(found).psiC() / kiln(like).psiC()) / spread[psi];
        }
        return like;
    }

    /** Where ln ψ lies and how far it may be off, in the fit's own numbers; only where power is fitted. */
    double logPsi(double[] z) {
        return Math.log(kiln(z).psiC());
    }

    double logPsiError(double[][] covariance) {
        return spread[psi] * Math.sqrt(covariance[psi][psi]);
    }

    /** A fit's covariance of all but the bound water, which may be anything. */
    double[][] withoutBoundWater(double[][] covariance) {
        if (water < 0) {
            return covariance;
        }
        double[][] others = new double[covariance.length - 1][];
        for (int p = 0; p < others.length; p++) {
            // It is the last number of all.
            others[p] = Arrays.copyOf(covariance[p], others.length);
        }
        return others;
    }

    /** A fit's covariance where power was fitted, with what the mains may do from now on. */
    double[][] withMainsDrifting(double[][] covariance) {
        double[][] wider = new double[covariance.length][];
        for (int p = 0; p < wider.length; p++) {
            wider[p] = covariance[p].clone();
        }
        if (hasPower()) {
            wider[psi][psi] += MAINS_DRIFT * MAINS_DRIFT / (spread[psi] * spread[psi]);
        }
        return wider;
    }

    private static void set(double[] mean, double[] spread, int at, double middle, double by) {
        mean[at] = middle;
        spread[at] = by;
    }

    int size() {
        return mean.length;
    }

    boolean hasPower() {
        return psi >= 0;
    }

    private double value(double[] z, int at) {
        return mean[at] + spread[at] * z[at];
    }

    /** The kiln a point of the fit stands for; z = 0 is the prior's middle. */
    KilnParameters kiln(double[] z) {
        KilnParameters kiln = withPsiAsIs(z);
        return firesAsBuilt
                .map(shape -> kiln.withPsiC(kiln.psiC() * HoldingPower.psiC(kiln, shape, STONEWARE_C)))
                .orElse(kiln);
    }

    private KilnParameters withPsiAsIs(double[] z) {
        return new KilnParameters(
                Math.exp(value(z, TAU)),
                Math.exp(value(z, BIOT)),
                Math.exp(value(z, PHI) + PHI_BY_TAU * spread[TAU] * z[TAU]),
                Math.exp(value(z, LAMBDA)),
                value(z, LEAK_EXPONENT),
                value(z, CONDUCTIVITY_STEEPNESS),
                value(z, CAPACITY_STEEPNESS),
                Math.exp(value(z, FACE_FILM)),
                Math.exp(value(z, WARE_FILM)),
                psi < 0 ? 0 : Math.exp(value(z, psi)),
                value(z, AMBIENT),
                water < 0 ? 0 : Math.max(0, value(z, water)),
                quartz < 0 ? QuartzTurning.USUAL_K : Math.max(0, value(z, quartz)));
    }

    /** How far the wall is soaked at the log's beginning; 0 where it starts cold. */
    double soaked(double[] z) {
        return soak < 0 ? 0 : value(z, soak);
    }

    /** What the leak is multiplied by once something was opened. */
    double openedTimes(double[] z) {
        return opened < 0 ? 1 : Math.exp(value(z, opened));
    }

    /** What the elements' strength is multiplied by after its step. */
    double strengthLeft(double[] z) {
        return step < 0 ? 1 : Math.exp(value(z, step));
    }

    /** How hot the room is, as far as anybody knows. */
    record Ambient(double celsius, double spreadK) {}

    /** How far a warm wall is soaked. */
    record Soak(double mean, double spread) {}
}
