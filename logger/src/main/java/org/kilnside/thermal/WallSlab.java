package org.kilnside.thermal;

import java.util.Arrays;

/**
 * The wall and the chamber in front of it, stepped forward in time. Mutable scratch for one thread: the inner loop of
 * every forecast. Temperatures in °C, times in s; heat in units of the wall's heat capacity per volume at 600 °C times
 * its hot-face area times its thickness, so that 1 unit warms such a slab by 1 K.
 *
 * <p>Steps are implicit (backward Euler), conductivity and capacity taken at the temperature extrapolated to the
 * middle of the step. An explicit step oscillates when the chamber holds little heat.
 */
final class WallSlab {
    /** Cells enough for 0.3 % in the times of a cooling; see the step- and cell-halving tests. */
    static final int USUAL_CELLS = 12;

    /** The longest driven step, s: leaves the time of a cooling right within 0.2 %. */
    static final double DRIVEN_STEP_S = 300;

    /** The longest coasting step, s: leaves the time of a cooling right within 0.3 %. */
    static final double COASTING_STEP_S = 600;

    /** Below these the curves would leave the physical range; a share of the value at 600 °C. */
    private static final double LEAST_CONDUCTIVITY = 0.12;

    private static final double LEAST_CAPACITY = 0.5;
    private static final double HOTTEST_C = 1400;

    private final WallShape shape;
    private final WallCells cells;
    private final int count;

    private final double[] temperature;
    private final double[] change;
    private final double[] resistance;
    private final double[] conductance;
    private final double[] capacity;
    private final double[] rightSide;
    private final double[] follow;

    private KilnParameters kiln;
    private WallShape.Quadratic kappa;
    private WallShape.Quadratic heat;
    private double lastStepS;
    private double chamberC;
    private double chamberChange;
    private double stackC;
    private double stackStore;
    private double stackReach;
    private double stackHottestC;
    private double waterStore;
    private double waterTook;
    private double shellC;
    private double outer;
    private double intoWall;
    private double fromShell;
    private double supplied;
    private double leaked;

    WallSlab(WallShape shape, int cells) {
        this.shape = shape;
        this.cells = new WallCells(shape, cells);
        count = cells;
        temperature = new double[count];
        change = new double[count];
        resistance = new double[count];
        conductance = new double[count];
        capacity = new double[count];
        rightSide = new double[count];
        follow = new double[count];
    }

    /** From now on steps are those of this kiln. */
    void use(KilnParameters parameters) {
        kiln = parameters;
        kappa = shape.conductivity().steeper(parameters.conductivitySteepness());
        heat = shape.capacity().steeper(parameters.capacitySteepness());
    }

    /** Starts at one temperature throughout. */
    void startUniform(double celsius) {
        Arrays.fill(temperature, celsius);
        Arrays.fill(change, 0);
        chamberC = celsius;
        stackC = celsius;
        stackHottestC = celsius;
        shellC = celsius;
        forget();
    }

    /**
     * Starts as a wall that has long been as hot as the chamber is now: each cell a part of the way to the steady
     * profile from ambient.
     *
     * @param soaked 0 = still at ambient, 1 = steady
     */
    void startSoaked(double celsius, double soaked) {
        startUniform(kiln.ambientC());
        // A day at one temperature is steady for any kiln; steps of two hours are enough for that.
        for (int i = 0; i < 60; i++) {
            drive(Math.max(7200, kiln.tauS() / 5), celsius);
        }
        for (int i = 0; i < count; i++) {
            temperature[i] = kiln.ambientC() + soaked * (temperature[i] - kiln.ambientC());
        }
        Arrays.fill(change, 0);
        shellC = kiln.ambientC() + soaked * (shellC - kiln.ambientC());
        chamberC = celsius;
        stackC = celsius;
        stackHottestC = celsius;
        forget();
    }

    private void forget() {
        waterTook = 0;
        chamberChange = 0;
        lastStepS = 1;
        intoWall = 0;
        fromShell = 0;
        supplied = 0;
        leaked = 0;
    }

    /** Goes on from another slab's state; both have the same shape and number of cells. */
    void startLike(WallSlab other) {
        System.arraycopy(other.temperature, 0, temperature, 0, count);
        System.arraycopy(other.change, 0, change, 0, count);
        kiln = other.kiln;
        kappa = other.kappa;
        heat = other.heat;
        chamberC = other.chamberC;
        stackC = other.stackC;
        stackHottestC = other.stackHottestC;
        waterTook = other.waterTook;
        chamberChange = other.chamberChange;
        shellC = other.shellC;
        lastStepS = other.lastStepS;
        intoWall = other.intoWall;
        fromShell = other.fromShell;
        supplied = other.supplied;
        leaked = other.leaked;
    }

    /** Advances with the chamber held to a measured temperature at the end of the step. */
    void drive(double stepS, double endC) {
        double hot = eliminate(stepS);
        stack(stepS);
        chamberChange = endC - chamberC;
        chamberC = endC;
        substitute(stepS, hot);
    }

    /**
     * Advances with the chamber left to itself and its elements.
     *
     * @param output element output 0 … 1
     */
    void run(double stepS, double output) {
        double hot = eliminate(stepS);
        double store = store(stepS);
        double leak = kiln.leakAt(chamberC);
        double power = kiln.psiC() * output;
        double stack = stack(stepS);
        double end = (store * chamberC + power + stack * stackC + hot * rightSide[0] + leak * kiln.ambientC())
                / (store + stack + hot * (1 - follow[0]) + leak);
        chamberChange = end - chamberC;
        chamberC = end;
        substitute(stepS, hot);
        supplied += power * stepS / kiln.tauS();
        leaked += leak * (end - kiln.ambientC()) * stepS / kiln.tauS();
    }

    /**
     * Advances with elements off and the chamber falling. A backward Euler step of h takes an exponential of time
     * constant T only as far as it goes in T ln(1 + h/T); the step is stretched by as much, T being the chamber's own in
     * the step before.
     */
    void coast(double stepS) {
        double left = chamberC - kiln.ambientC();
        double stretch = 0;
        if (chamberChange < 0 && left > 1) {
            stretch = Math.min(0.3, -chamberChange / lastStepS * stepS / left / 2);
        }
        run(stepS * (1 + stretch), 0);
    }

    /**
     * Advances as a controller would: to the set-point where the elements can, at most as fast as full output allows
     * where they cannot, and freely where the kiln is hotter than wanted.
     *
     * @return the element output it takes, 0 … 1
     */
    double control(double stepS, double setpointC) {
        double hot = eliminate(stepS);
        double store = store(stepS);
        double leak = kiln.leakAt(chamberC);
        double stack = stack(stepS);
        double needed = (store + stack + hot * (1 - follow[0]) + leak) * setpointC
                - store * chamberC
                - stack * stackC
                - hot * rightSide[0]
                - leak * kiln.ambientC();
        double output = Math.max(0, Math.min(1, needed / kiln.psiC()));
        run(stepS, output);
        return output;
    }

    /** Advances with just as much power as keeps the chamber from falling below a temperature, however much that is. */
    void keepAbove(double stepS, double leastC) {
        double hot = eliminate(stepS);
        double store = store(stepS);
        double leak = kiln.leakAt(chamberC);
        double stack = stack(stepS);
        double free = (store * chamberC + stack * stackC + hot * rightSide[0] + leak * kiln.ambientC())
                / (store + stack + hot * (1 - follow[0]) + leak);
        drive(stepS, Math.max(free, leastC));
    }

    private double store(double stepS) {
        double middleC = chamberC + 0.5 * chamberChange * stepS / lastStepS;
        return (1 - KilnParameters.STACK) * kiln.phi() * loadCapacityAt(middleC) * kiln.tauS() / stepS;
    }

    /** What the stack takes from the chamber for each kelvin the chamber ends above the stack's beginning. */
    private double stack(double stepS) {
        stackStore = KilnParameters.STACK * kiln.phi() * loadCapacityAt(stackC) * kiln.tauS() / stepS;
        waterStore = 0;
        if (kiln.boundWaterK() > 0 && chamberC >= stackC && stackC >= stackHottestC) {
            // Water that leaves takes heat as a heavier load would, once and for good.
            waterStore = kiln.phi() * kiln.boundWaterK() * BoundWaterLeaving.perK(stackC) * kiln.tauS() / stepS;
            stackStore += waterStore;
        }
        stackReach = 1 / Math.max(1e-6, film(kiln.wareFilm(), (chamberC + stackC) / 2));
        return stackStore * stackReach / (stackStore + stackReach);
    }

    static double film(double at600C, double celsius) {
        double kelvin = (celsius + 273.15) / 873.15;
        return at600C / (kelvin * kelvin * kelvin + 0.05);
    }

    /** Eliminates the wall from the shell inwards, after which each cell follows its inner neighbour linearly. */
    private double eliminate(double stepS) {
        takeProperties(stepS);
        double half = cells.areaAt[count] / resistance[count - 1];
        double times = shape.constantShell() ? 1 : shellFactor(shellC - kiln.ambientC());
        double shell = kiln.biot() * cells.areaAt[count] * times;
        outer = half * shell / (half + shell);
        // At each face the wall beyond takes (taken T - given) / whole. The three go inwards undivided, so that no cell
        // waits for the division of the one before; twelve cells are far from too large a number for it.
        int last = count - 1;
        double whole = 1;
        double taken = capacity[last] + outer;
        double given = capacity[last] * temperature[last] + outer * kiln.ambientC();
        for (int i = last; i >= 0; i--) {
            double in = conductance[i];
            double before = whole;
            whole = in * before + taken;
            double share = 1 / whole;
            follow[i] = in * before * share;
            rightSide[i] = given * share;
            if (i > 0) {
                double held = capacity[i - 1] * whole;
                taken = held + in * taken;
                given = held * temperature[i - 1] + in * given;
            }
        }
        return conductance[0];
    }

    /** What the cells conduct and hold at the temperature they will have in the middle of the step. */
    private void takeProperties(double stepS) {
        double part = 0.5 * stepS / lastStepS;
        double perStep = kiln.tauS() / stepS;
        for (int i = 0; i < count; i++) {
            double at = notBeyondHottest(temperature[i] + part * change[i]);
            resistance[i] = cells.resistance[i] / conductivityAt(at);
            capacity[i] = cells.capacity[i] * capacityAt(at) * perStep;
        }
        conductance[0] = 1 / (resistance[0] + film(kiln.faceFilm(), chamberC));
        for (int i = 1; i < count; i++) {
            conductance[i] = cells.areaAt[i] / (resistance[i - 1] + resistance[i]);
        }
    }

    private void substitute(double stepS, double hot) {
        double stackBegan = stackC;
        stackC = (stackStore * stackC + stackReach * chamberC) / (stackStore + stackReach);
        waterTook += waterStore * (stackC - stackBegan) * stepS / kiln.tauS();
        stackHottestC = Math.max(stackHottestC, stackC);
        double inner = chamberC;
        for (int i = 0; i < count; i++) {
            double value = rightSide[i] + follow[i] * inner;
            change[i] = value - temperature[i];
            temperature[i] = value;
            inner = value;
        }
        lastStepS = stepS;
        double time = stepS / kiln.tauS();
        intoWall += hot * (chamberC - temperature[0]) * time;
        double flux = outer * (temperature[count - 1] - kiln.ambientC());
        fromShell += flux * time;
        shellC = temperature[count - 1] - flux * resistance[count - 1] / cells.areaAt[count];
    }

    /** Free convection and radiation from the jacket over their sum at about 30 K above ambient. */
    static double shellFactor(double aboveAmbientK) {
        double u = Math.max(aboveAmbientK, 0);
        return 0.45 * Math.sqrt(Math.sqrt(u / 60 + 0.05)) + 0.55 * (1 + u / 300);
    }

    // Branches that are hardly ever taken cost the inner loop less than Math.min and Math.max.
    private static double notBeyondHottest(double celsius) {
        return celsius > HOTTEST_C ? HOTTEST_C : celsius;
    }

    private double conductivityAt(double celsius) {
        double conductivity = kappa.at(celsius);
        return conductivity < LEAST_CONDUCTIVITY ? LEAST_CONDUCTIVITY : conductivity;
    }

    private double loadCapacityAt(double celsius) {
        return capacityAt(notBeyondHottest(celsius)) + kiln.quartzK() * QuartzTurning.perK(celsius);
    }

    private double capacityAt(double celsius) {
        double held = heat.at(celsius);
        return held < LEAST_CAPACITY ? LEAST_CAPACITY : held;
    }

    double chamberC() {
        return chamberC;
    }

    double shellC() {
        return shellC;
    }

    int cells() {
        return count;
    }

    double temperatureC(int cell) {
        return temperature[cell];
    }

    /** Where a cell's middle lies, 0 … 1 from the hot face. */
    double middle(int cell) {
        return cells.middle[cell];
    }

    /** Heat that went into the wall at the hot face since the start. */
    double intoWall() {
        return intoWall;
    }

    /** Heat the shell gave off since the start. */
    double fromShell() {
        return fromShell;
    }

    /** Heat the elements gave since the start, where it ran freely or controlled. */
    double supplied() {
        return supplied;
    }

    /** Heat that leaked since the start, where it ran freely or controlled. */
    double leaked() {
        return leaked;
    }

    /** Heat the wall holds above a temperature throughout. */
    double wallHolds(double aboveC) {
        double held = 0;
        for (int i = 0; i < count; i++) {
            held += cells.capacity[i] * heat.between(aboveC, temperature[i]);
        }
        return held;
    }

    /** Heat the load holds above a temperature, with what its bound water took since the start. */
    double loadHolds(double aboveC) {
        return waterTook
                + kiln.phi()
                        * ((1 - KilnParameters.STACK) * loadHolds(aboveC, chamberC)
                                + KilnParameters.STACK * loadHolds(aboveC, stackC));
    }

    /** The change in what the load holds between two temperatures, the stack keeping up. */
    double loadTakes(double fromC, double toC) {
        return kiln.phi() * loadHolds(fromC, toC);
    }

    private double loadHolds(double fromC, double toC) {
        return heat.between(fromC, toC) + kiln.quartzK() * QuartzTurning.between(fromC, toC);
    }
}
