package org.kilnside.thermal;

/**
 * A kiln following what is left of its plan, as controllers do: the set-point moves on in time, a hold begins when the
 * kiln is there, and a kiln that cannot keep up, or cools more slowly than planned, is waited for.
 *
 * @param endS when the last of the plan is over and the kiln is left to itself
 * @param arrivalS when it first was as hot as asked; NaN when it was not
 */
record PlanRun(double endS, double arrivalS) {
    /** So near to a corner a controller calls it reached, K. */
    static final double THERE_K = 4;

    /** A kiln that has gained less than this in the last hour will not get there. */
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
        double time = nowS;
        double arrival = slab.chamberC() >= askedC - 1 ? nowS : Double.NaN;
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
            boolean rising = corner.temperatureC() > begin + 0.5;
            boolean falling = corner.temperatureC() < begin - 0.5;
            while (true) {
                boolean lags = rising && slab.chamberC() < corner.temperatureC() - THERE_K
                        || falling && slab.chamberC() > corner.temperatureC() + THERE_K;
                if (gone >= span && !lags || waited > LONGEST_WAIT_S) {
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
                if (Double.isNaN(arrival) && slab.chamberC() >= askedC - 1) {
                    double gain = slab.chamberC() - before;
                    arrival = time + step * (gain <= 0 ? 1 : Math.max(0, Math.min(1, (askedC - 1 - before) / gain)));
                }
                time += step;
                watch.step(number, time, wanted);
                sinceHour += step;
                if (sinceHour >= 3600) {
                    if (lags && rising && slab.chamberC() - hourAgo < STALLED_K_PER_H) {
                        return new PlanRun(time, arrival);
                    }
                    hourAgo = slab.chamberC();
                    sinceHour = 0;
                }
            }
            wanted = corner.temperatureC();
            cornerS = corner.elapsedS();
        }
        return new PlanRun(time, arrival);
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
