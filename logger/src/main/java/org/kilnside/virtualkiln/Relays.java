package org.kilnside.virtualkiln;

import org.kilnside.virtualkiln.ControllerSpec.ProportionalIntegral;
import org.kilnside.virtualkiln.ControllerSpec.Thermostat;

/** Turns an error in temperature into an output and the output into closed relays. */
abstract sealed class Relays {
    /** 0 … 1, as the controller would report it. */
    abstract double output();

    /** Goes on by a step with the kiln this much too cold, K. */
    abstract void steer(double seconds, double tooColdC);

    /** Stays off and forgets. */
    abstract void off();

    /** Share of a step for which they are closed. */
    abstract double closed(double seconds);

    static Relays of(ControllerSpec.Regulation regulation) {
        return regulation instanceof Thermostat thermostat
                ? new OnOff(thermostat)
                : new Windows((ProportionalIntegral) regulation);
    }

    private static final class Windows extends Relays {
        private final ProportionalIntegral law;
        private double integral;
        private double output;
        private double intoWindowS;
        private double windowOutput;

        Windows(ProportionalIntegral law) {
            this.law = law;
        }

        @Override
        double output() {
            return output;
        }

        @Override
        void steer(double seconds, double tooColdC) {
            double error = tooColdC / law.bandC();
            double wanted = error + integral;
            output = Math.max(0, Math.min(1, wanted));
            // The integral stands still while the output is at its end: the simplest guard against windup.
            if (wanted == output || (wanted > 1 && error < 0) || (wanted < 0 && error > 0)) {
                integral = Math.max(0, Math.min(1, integral + error * seconds / law.integralS()));
            }
        }

        @Override
        void off() {
            output = 0;
            integral = 0;
        }

        /** A step may reach across the ends of windows. */
        @Override
        double closed(double seconds) {
            double closed = 0;
            double left = seconds;
            while (left > 1e-9) {
                if (intoWindowS <= 0) {
                    windowOutput = output;
                }
                double part = Math.min(left, law.windowS() - intoWindowS);
                closed += Math.max(0, Math.min(windowOutput * law.windowS() - intoWindowS, part));
                left -= part;
                intoWindowS = intoWindowS + part >= law.windowS() - 1e-9 ? 0 : intoWindowS + part;
            }
            return output == 0 ? 0 : Math.min(1, closed / seconds);
        }
    }

    private static final class OnOff extends Relays {
        private final Thermostat law;
        private boolean on;
        private double onForS;

        OnOff(Thermostat law) {
            this.law = law;
        }

        @Override
        double output() {
            return on ? 1 : 0;
        }

        @Override
        void steer(double seconds, double tooColdC) {
            onForS = on ? onForS + seconds : 0;
            if (!on && tooColdC > law.hysteresisC()) {
                on = true;
            } else if (on && tooColdC < -law.hysteresisC() && onForS >= law.leastOnS()) {
                on = false;
            }
        }

        @Override
        void off() {
            on = false;
            onForS = 0;
        }

        @Override
        double closed(double seconds) {
            return output();
        }
    }
}
