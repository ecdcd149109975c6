package org.kilnside.thermal;

/**
 * A kiln following what is left of its plan, as controllers do: the set-point moves on in time, a hold begins when the
 * kiln is there, and a kiln that cannot keep up, or cools more slowly than planned, is waited for.
 *
 * @param endS when the last of the plan is over and the kiln is left to itself
 * @param arrivalS when it first was as hot as asked; NaN when it was not
 * @param highestC the hottest it was on the way
 */
record PlanRun(double endS, double arrivalS, double highestC) {
    /** So near to a corner a controller calls it reached, K. */
    static final double THERE_K = 4;

    /** So near to the temperature asked for it is reached, K. */
    private static final double ASKED_WITHIN_K = 1;

    /** A kiln behind its set-point that has gained less than this in the last hour will not get there. */
    private static final double STALLED_K_PER_H = 2;

    private static final double LONGEST_WAIT_S = 24 * 3600;

    /** Sees every step of a run. */
    @FunctionalInterface
    interface Watch {
        /**
         * One step is over.
         *
         * @param corner which of the plan's corners the kiln is on the way to
         * @param endS when the step ended
         * @param wantedC the set-point then
         */
        void step(int corner, double endS, double wantedC);
    }

    /**
     * Follows a plan from now.
     *
     * @param limited whether the elements are as strong as the fit says; else as strong as the plan needs
     * @param askedC the temperature whose arrival is asked for
     */
    static PlanRun follow(WallSlab slab, PlanAhead plan, double nowS, boolean limited, double askedC) {
        return follow(slab, plan, nowS, limited, askedC, (corner, endS, wantedC) -> {});
    }

    /** The same under somebody's eyes. */
    static PlanRun follow(WallSlab slab, PlanAhead plan, double nowS, boolean limited, double askedC, Watch watch) {
        return run(slab, plan, nowS, limited, askedC, true, watch);
    }

    /** The same by a controller that goes by the clock: its plan ends in time, wherever the kiln is. */
    static PlanRun byTheClock(WallSlab slab, PlanAhead plan, double nowS, boolean limited, double askedC) {
        return run(slab, plan, nowS, limited, askedC, false, (corner, endS, wantedC) -> {});
    }

    private static PlanRun run(
            WallSlab slab, PlanAhead plan, double nowS, boolean limited, double askedC, boolean waits, Watch watch) {
        double highest = slab.chamberC();
        double time = nowS;
        double arrival = slab.chamberC() >= askedC - ASKED_WITHIN_K ? nowS : Double.NaN;
        double cornerS = nowS;
        double wanted = slab.chamberC();
        for (int number = 0; number < plan.corners().size(); number++) {
            PlanAhead.Corner corner = plan.corners().get(number);
            double span = Math.max(0, corner.elapsedS() - cornerS);
            double begin = wanted;
            double gone = 0;
            double waited = 0;
            double hourAgo = Double.NEGATIVE_INFINITY;
            double sinceHour = 0;
            // What is asked for is waited for to the end: a run that let go just under it would never have been there.
            boolean asked = Double.isNaN(arrival) && corner.temperatureC() >= askedC - ASKED_WITHIN_K;
            double wholeK = Math.min(THERE_K, asked ? corner.temperatureC() - (askedC - ASKED_WITHIN_K) : THERE_K);
            boolean rising = corner.temperatureC() > begin + 0.5;
            boolean falling = corner.temperatureC() < begin - 0.5;
            while (true) {
                boolean lags = rising && slab.chamberC() < corner.temperatureC() - wholeK
                        || falling && slab.chamberC() > corner.temperatureC() + THERE_K;
                if (gone >= span && !(lags && waits) || waited > LONGEST_WAIT_S) {
                    break;
                }
                double step = gone < span ? Math.min(WallSlab.DRIVEN_STEP_S, span - gone) : WallSlab.DRIVEN_STEP_S / 2;
                gone += step;
                waited += gone > span ? step : 0;
                wanted = gone >= span || span == 0
                        ? corner.temperatureC()
                        : begin + (corner.temperatureC() - begin) * gone / span;
                double before = slab.chamberC();
                advance(slab, step, wanted, limited, falling);
                if (Double.isNaN(arrival) && slab.chamberC() >= askedC - ASKED_WITHIN_K) {
                    double gain = slab.chamberC() - before;
                    double part = (askedC - ASKED_WITHIN_K - before) / gain;
                    arrival = time + step * (gain <= 0 ? 1 : Math.max(0, Math.min(1, part)));
                }
                highest = Math.max(highest, slab.chamberC());
                time += step;
                watch.step(number, time, wanted);
                sinceHour += step;
                if (sinceHour >= 3600) {
                    // On a ramp as slow as that a kiln that is where it ought to be has not stalled.
                    boolean behind = gone >= span || slab.chamberC() < wanted - ASKED_WITHIN_K;
                    if (waits && lags && rising && behind && slab.chamberC() - hourAgo < STALLED_K_PER_H) {
                        return new PlanRun(time, arrival, highest);
                    }
                    hourAgo = slab.chamberC();
                    sinceHour = 0;
                }
            }
            wanted = corner.temperatureC();
            cornerS = corner.elapsedS();
        }
        return new PlanRun(time, arrival, highest);
    }

    private static void advance(WallSlab slab, double step, double wanted, boolean limited, boolean falling) {
        if (limited) {
            slab.control(step, wanted);
        } else if (falling || wanted <= slab.chamberC()) {
            slab.keepAbove(step, wanted);
        } else {
            slab.drive(step, wanted);
        }
    }

    /** The highest temperature within a time at full output from now. */
    static double topsOutC(WallSlab slab, double withinS) {
        double highest = slab.chamberC();
        for (double time = 0; time < withinS; time += WallSlab.DRIVEN_STEP_S) {
            slab.run(WallSlab.DRIVEN_STEP_S, 1);
            highest = Math.max(highest, slab.chamberC());
        }
        return highest;
    }
}
