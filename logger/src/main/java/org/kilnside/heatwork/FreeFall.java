package org.kilnside.heatwork;

/**
 * How a kiln comes down when its elements are off, towards a room of 20 °C. Two bodies give their heat away, each with a
 * time constant: elements, air and the very face of wall and ware follow the missing power within minutes, while all
 * that was heated through still feeds a wall that goes on taking heat. So it falls fast at first and slower from then on.
 *
 * @param quickShare the part of the height above the room that is the quick body's at a steady top, from 0 to below 1
 * @param quickS its time constant, s
 * @param slowS the time constant of the rest, s
 */
public record FreeFall(double quickShare, double quickS, double slowS) {
    /**
     * A kiln nobody knows yet: 25 °C below 1222 °C after a little over 3 minutes, 100 °C after 19. The middle of the
     * simulated kilns of six authors; five of the six have their own within a sixth of it, bisque and glaze alike (docs/validation.md).
     */
    public static final FreeFall USUAL = new FreeFall(0.02, 300, 17_000);

    /** The quickest of nine in ten of those kilns. */
    static final FreeFall USUAL_AT_LEAST = USUAL.lasting(0.55);

    /** The slowest of nine in ten of them. */
    static final FreeFall USUAL_AT_MOST = USUAL.lasting(2.5);

    private static final double ROOM_C = 20;

    public FreeFall {
        if (!(quickShare >= 0 && quickShare < 1) || !(quickS > 0) || !(slowS > 0)) {
            throw new IllegalArgumentException(
                    "a kiln falls in time, found " + quickShare + ", " + quickS + " s, " + slowS + " s");
        }
    }

    /** A kiln of which one time constant is known, as it falls from just below its top. */
    public static FreeFall ofConstant(double seconds) {
        return new FreeFall(0, seconds, seconds);
    }

    private FreeFall lasting(double times) {
        return new FreeFall(quickShare, times * quickS, times * slowS);
    }

    /** A kiln that stood at a temperature and is on its way down from it. */
    public Falling from(double celsius) {
        return new Falling(celsius);
    }

    /** A kiln on its way down. Mutable, confined to one thread. */
    public final class Falling {
        private double quickK;
        private double slowK;

        private Falling(double celsius) {
            quickK = quickShare * (celsius - ROOM_C);
            slowK = (1 - quickShare) * (celsius - ROOM_C);
        }

        public double celsius() {
            return ROOM_C + quickK + slowK;
        }

        /**
         * Goes on, with just as much power, the same all along, as ends it no colder than wanted: none where it is hotter by
         * itself.
         */
        public void go(double seconds, double wantedC) {
            double quickLeft = StrictMath.exp(-seconds / quickS);
            double slowLeft = StrictMath.exp(-seconds / slowS);
            double quickGets = quickShare * (1 - quickLeft);
            double slowGets = (1 - quickShare) * (1 - slowLeft);
            double byItself = quickK * quickLeft + slowK * slowLeft;
            double gets = quickGets + slowGets;
            double power = gets > 0 ? Math.max(0, (wantedC - ROOM_C - byItself) / gets) : 0;
            quickK = quickK * quickLeft + power * quickGets;
            slowK = slowK * slowLeft + power * slowGets;
        }
    }
}
