package org.kilnside.thermal;

import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.kilnside.firing.Trace;

/** One firing of a {@link TrialKiln}, calculated in full, with the noisy log and the truth behind it. */
final class TrialFiring implements Tried {
    private static final double SIGMA = 5.670374419e-8;
    private static final double STEP_S = 15;

    /** A leg of the plan: to a temperature at a rate, then a hold; a rate of 0 = elements off from here. */
    record Leg(double kelvinPerHour, double toC, double holdS) {}

    /** What is done to the kiln and when: the leak is multiplied from then on. */
    record Opened(double belowC, double leakTimes) {}

    record Conditions(
            double startC,
            double ambientC,
            double swingK,
            double noiseK,
            double quantumK,
            double sampleS,
            List<Opened> opened,
            double mainsShare) {}

    final double stepS = STEP_S;
    final double[] sensorC;
    final double[] output;
    final double[] setpointC;
    final double[] ambientC;
    final double[] wareC;
    final int size;
    final double suppliedJ;
    final Trace log;

    static TrialFiring run(
            TrialKiln kiln, TrialKiln.Load load, List<Leg> plan, Conditions conditions, long seed, double untilC) {
        return new TrialFiring(kiln, load, plan, conditions, seed, untilC);
    }

    private TrialFiring(
            TrialKiln kiln, TrialKiln.Load load, List<Leg> plan, Conditions conditions, long seed, double untilC) {
        int most = (int) (90 * 3600 / STEP_S);
        double[] sensor = new double[most];
        double[] out = new double[most];
        double[] wanted = new double[most];
        double[] outside = new double[most];
        double[] ware = new double[most];
        Random random = new Random(seed);
        double phase = random.nextDouble() * 2 * Math.PI;

        List<PanelState> panels = kiln.panels().stream()
                .map(panel -> new PanelState(panel, conditions.startC()))
                .toList();
        double[] lot = {conditions.startC(), conditions.startC()};
        double[] lotKg = {load.thinKg(), load.thickKg()};
        double seen = conditions.startC();
        double setpoint = conditions.startC();
        double integral = 0;
        int leg = 0;
        double held = 0;
        boolean off = false;
        double supplied = 0;
        int n = 0;
        boolean[] done = new boolean[conditions.opened().size()];
        double leakTimes = 1;
        for (; n < most; n++) {
            double now = n * STEP_S;
            double ambient =
                    conditions.ambientC() + conditions.swingK() / 2 * Math.sin(phase + 2 * Math.PI * now / 86400);
            double share = 0;
            if (!off) {
                Leg current = plan.get(leg);
                if (current.kelvinPerHour() == 0) {
                    off = true;
                } else {
                    double step = current.kelvinPerHour() / 3600 * STEP_S;
                    boolean up = current.toC() >= setpoint;
                    boolean waiting = Math.abs(setpoint - seen) > 15 && up;
                    if (Math.abs(current.toC() - setpoint) <= step) {
                        setpoint = current.toC();
                        if (Math.abs(seen - setpoint) < 4 || !up) {
                            held += STEP_S;
                        }
                        if (held >= current.holdS()) {
                            held = 0;
                            leg++;
                            off = leg >= plan.size();
                        }
                    } else if (!waiting) {
                        setpoint += up ? step : -step;
                    }
                    double error = setpoint - seen;
                    integral = Math.max(0, Math.min(1, integral + error * STEP_S / 12000.0));
                    share = Math.max(0, Math.min(1, 0.03 * error + integral));
                }
            }
            if (off) {
                share = 0;
            }
            double power = share * kiln.powerW() * conditions.mainsShare();
            supplied += power * STEP_S;
            // Ware and hot faces: exchange linearised about this step's start, solved implicitly panel by panel.
            double areaHot = panels.stream().mapToDouble(p -> p.area[0]).sum();
            double toWare = power * kiln.elementsToWare();
            double toFaces = power - toWare;
            double gas = 0;
            double gasWeight = 0;
            double[] hWare = new double[2];
            double[] sumToWare = new double[2];
            double faceMean = 0;
            for (PanelState p : panels) {
                faceMean += p.surfaceC * p.area[0] / areaHot;
            }
            for (int k = 0; k < 2; k++) {
                double area = Math.min(lotKg[k] * load.areaPerKgM2(), 2.0 * areaHot);
                double tw = lot[k] + 273.15;
                double tf = faceMean + 273.15;
                double radiation = load.exchange() * SIGMA * (tw * tw + tf * tf) * (tw + tf);
                hWare[k] = (radiation + 3)
                        * Math.min(area, areaHot * lotKg[k] / Math.max(1e-9, lotKg[0] + lotKg[1]))
                        * (k == 0 ? 1 : 0.5);
                gas += lot[k] * area;
                gasWeight += area;
            }
            gas = (gas + faceMean * areaHot) / (gasWeight + areaHot);
            double leak = kiln.leakWK() * leakTimes * Math.pow(Math.max(1, gas - ambient) / 500, kiln.leakExponent());
            double leaking = leak * (gas - ambient);
            for (PanelState p : panels) {
                double part = p.area[0] / areaHot;
                double flux = toFaces * part - leaking * 0.5 * part;
                double h0 = hWare[0] * part;
                double h1 = hWare[1] * part;
                p.step(STEP_S, flux, h0, lot[0], h1, lot[1], ambient, kiln.shellEmissivity());
                sumToWare[0] += h0 * p.surfaceC;
                sumToWare[1] += h1 * p.surfaceC;
            }
            for (int k = 0; k < 2; k++) {
                if (lotKg[k] <= 0) {
                    lot[k] = faceMean;
                    continue;
                }
                double capacity = lotKg[k]
                        * ((kiln.plainWare() ? 1000 : wareCapacity(lot[k])) + load.quartzJKg() * turnsPerK(lot[k]));
                double share1 = lotKg[k] / (lotKg[0] + lotKg[1]);
                lot[k] = (capacity * lot[k] / STEP_S + sumToWare[k] + (toWare - leaking * 0.5) * share1)
                        / (capacity / STEP_S + hWare[k]);
            }
            faceMean = 0;
            for (PanelState p : panels) {
                faceMean += p.surfaceC * p.area[0] / areaHot;
            }
            double around = kiln.sensorSeesWare() * lot[0] + (1 - kiln.sensorSeesWare()) * faceMean;
            seen += (around - seen) * (1 - Math.exp(-STEP_S / kiln.sensorLagS()));
            sensor[n] = seen;
            out[n] = share;
            wanted[n] = off ? Double.NaN : setpoint;
            outside[n] = ambient;
            ware[n] = lotKg[1] > 0 ? lot[1] : lot[0];
            for (int i = 0; i < done.length; i++) {
                if (off && !done[i] && seen < conditions.opened().get(i).belowC()) {
                    done[i] = true;
                    leakTimes *= conditions.opened().get(i).leakTimes();
                }
            }
            if (off && seen < untilC) {
                n++;
                break;
            }
        }
        size = n;
        sensorC = sensor;
        output = out;
        setpointC = wanted;
        ambientC = outside;
        wareC = ware;
        suppliedJ = supplied;
        Trace.Builder builder = new Trace.Builder();
        int every = (int) Math.max(1, Math.round(conditions.sampleS() / STEP_S));
        for (int i = 0; i < n; i += every) {
            double noisy = sensor[i] + conditions.noiseK() * random.nextGaussian();
            builder.add(
                    Math.round(i * STEP_S * 1000),
                    Math.round(noisy / conditions.quantumK()) * conditions.quantumK(),
                    OptionalDouble.of(Math.round(out[i] * 100) / 100.0),
                    Double.isNaN(wanted[i]) ? OptionalDouble.empty() : OptionalDouble.of(wanted[i]));
        }
        log = builder.view();
    }

    /** Quartz turns ever faster up to 573 °C, from some forty kelvins below; from memory. */
    private static double turnsPerK(double celsius) {
        double below = 573 - celsius;
        return below < 0 || below > 40 ? 0 : 2 * (40 - below) / (40 * 40);
    }

    /** Clay's heat capacity in J/(kg K), from memory: about 850 cold, 1100 at red heat. */
    private static double wareCapacity(double celsius) {
        return 800 + 0.33 * Math.min(celsius, 900);
    }

    /** When the elements went off for the last time, s. */
    @Override
    public double offS() {
        for (int i = size - 1; i >= 0; i--) {
            if (output[i] > 0) {
                return (i + 1) * STEP_S;
            }
        }
        return 0;
    }

    /** When the noise-free sensor first falls below after the elements are off for good; NaN when it does not. */
    @Override
    public double belowS(double celsius) {
        for (int i = (int) (offS() / STEP_S); i < size; i++) {
            if (sensorC[i] < celsius) {
                if (i == 0 || sensorC[i - 1] < celsius) {
                    return i * STEP_S;
                }
                double part = (sensorC[i - 1] - celsius) / (sensorC[i - 1] - sensorC[i]);
                return (i - 1 + part) * STEP_S;
            }
        }
        return Double.NaN;
    }

    /** The log up to a moment. */
    @Override
    public Trace until(double seconds, boolean withOutput) {
        Trace.Builder builder = new Trace.Builder();
        int last = log.indexAt(Math.round(seconds * 1000));
        for (int i = 0; i <= last; i++) {
            builder.add(
                    log.elapsedMs(i),
                    log.temperatureC(i),
                    withOutput ? log.output(i) : OptionalDouble.empty(),
                    withOutput ? log.setpointC(i) : OptionalDouble.empty());
        }
        return builder.view();
    }

    @Override
    public double aboveS(double celsius) {
        for (int i = 0; i < size; i++) {
            if (sensorC[i] > celsius) {
                return i * STEP_S;
            }
        }
        return Double.NaN;
    }

    @Override
    public double roomC() {
        return ambientC[0];
    }

    @Override
    public double peakC() {
        double peak = 0;
        for (int i = 0; i < size; i++) {
            peak = Math.max(peak, sensorC[i]);
        }
        return peak;
    }

    private static final class PanelState {
        final double[] temperature;
        final double[] width;
        final double[] area;
        final TrialMaterial[] material;
        final double[] lower;
        final double[] right;
        double surfaceC;

        PanelState(TrialKiln.Panel panel, double startC) {
            int cells = 0;
            for (TrialKiln.Layer layer : panel.layers()) {
                cells += cellsOf(layer);
            }
            temperature = new double[cells];
            width = new double[cells];
            area = new double[cells + 1];
            material = new TrialMaterial[cells];
            lower = new double[cells];
            right = new double[cells];
            double depth = 0;
            int i = 0;
            area[0] = panel.areaM2();
            for (TrialKiln.Layer layer : panel.layers()) {
                int of = cellsOf(layer);
                for (int k = 0; k < of; k++, i++) {
                    width[i] = layer.thicknessM() / of;
                    material[i] = layer.material();
                    temperature[i] = startC;
                    depth += width[i];
                    double side = 1 + panel.growthPerM() * depth;
                    area[i + 1] = panel.areaM2() * side * side;
                }
            }
            surfaceC = startC;
        }

        private static int cellsOf(TrialKiln.Layer layer) {
            return Math.max(3, (int) Math.ceil(layer.thicknessM() / 0.005));
        }

        /** One implicit step; the hot face itself holds no heat: flux in = conduction into the first half cell. */
        void step(
                double dt,
                double fluxW,
                double h0,
                double t0,
                double h1,
                double t1,
                double ambientC,
                double emissivity) {
            int n = temperature.length;
            double[] k = new double[n];
            for (int i = 0; i < n; i++) {
                k[i] = material[i].conductivityAt(temperature[i]);
            }
            double first = k[0] * area[0] / (width[0] / 2);
            // surface: fluxW + h0 (t0 − s) + h1 (t1 − s) = first (s − T0)
            double sum = h0 + h1 + first;
            double source = (fluxW + h0 * t0 + h1 * t1) / sum;
            double factor = first / sum;
            double shellC = temperature[n - 1];
            double last = k[n - 1] * area[n] / (width[n - 1] / 2);
            for (int turn = 0; turn < 3; turn++) {
                double outer = outerCoefficient(shellC, ambientC, emissivity) * area[n];
                shellC = (last * temperature[n - 1] + outer * ambientC) / (last + outer);
            }
            double outer = outerCoefficient(shellC, ambientC, emissivity) * area[n];
            double loss = last * outer / (last + outer);
            double carried = 0;
            for (int i = 0; i < n; i++) {
                double capacity = material[i].densityKgM3()
                        * material[i].capacityAt(temperature[i])
                        * width[i]
                        * (area[i] + area[i + 1])
                        / 2
                        / dt;
                double diagonal = capacity;
                double rhs = capacity * temperature[i];
                double up = 0;
                if (i == 0) {
                    diagonal += first * (1 - factor);
                    rhs += first * source;
                } else {
                    up = area[i] / (width[i - 1] / 2 / k[i - 1] + width[i] / 2 / k[i]);
                    diagonal += up;
                }
                double down = 0;
                if (i == n - 1) {
                    diagonal += loss;
                    rhs += loss * ambientC;
                } else {
                    down = area[i + 1] / (width[i] / 2 / k[i] + width[i + 1] / 2 / k[i + 1]);
                    diagonal += down;
                }
                double pivot = diagonal - (i == 0 ? 0 : up * carried);
                double value = rhs + (i == 0 ? 0 : up * right[i - 1]);
                carried = down / pivot;
                lower[i] = carried;
                right[i] = value / pivot;
            }
            temperature[n - 1] = right[n - 1];
            for (int i = n - 2; i >= 0; i--) {
                temperature[i] = right[i] + lower[i] * temperature[i + 1];
            }
            surfaceC = source + factor * temperature[0];
        }

        private static double outerCoefficient(double shellC, double ambientC, double emissivity) {
            double ts = shellC + 273.15;
            double ta = ambientC + 273.15;
            double difference = Math.max(0.5, Math.abs(shellC - ambientC));
            return 1.4 * Math.pow(difference, 0.27) + emissivity * SIGMA * (ts * ts + ta * ta) * (ts + ta);
        }
    }
}
