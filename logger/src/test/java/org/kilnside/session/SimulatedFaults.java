package org.kilnside.session;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.Function;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.AlarmLimits;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.SensorFault;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.session.SimulatedWatch.Setting;
import org.kilnside.session.SimulatedWatch.Shows;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Disturbance.Happening;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;
import org.kilnside.virtualkiln.SensorSpec;
import org.kilnside.virtualkiln.Specimen;
import org.kilnside.virtualkiln.VirtualFiring;

/** Simulated firings with one fault each, and clean ones: kilns, loads, days, programs and faults drawn from seeds. */
final class SimulatedFaults {
    private static final Set<AlarmKind> SENSOR = EnumSet.of(
            AlarmKind.SENSOR_GONE,
            AlarmKind.SENSOR_SLIPPED,
            AlarmKind.SENSOR_FROZEN,
            AlarmKind.SENSOR_SATURATED,
            AlarmKind.SENSOR_REVERSED,
            AlarmKind.SENSOR_LYING);
    private static final double SENSOR_S = 300;

    private final Population population;
    private final Population.Family family;
    private int next;

    SimulatedFaults(Population.Family family, long seed) {
        this.family = family;
        this.population = new Population(family, seed);
    }

    /** One firing's givens, drawn anew for each. */
    final class Draw {
        final int number = next++;
        final Random random = new Random(family.ordinal() * 1_000_003L + number * 7919L + population.seed());
        final Specimen kiln = population.specimen(number);

        double between(double from, double to) {
            return from + (to - from) * random.nextDouble();
        }

        Schedule plan() {
            return switch (random.nextInt(4)) {
                case 0 -> Programs.bisque(1000);
                case 1 -> Programs.candledBisque(1000, 2 + random.nextInt(3));
                case 2 -> Programs.glaze(1222, 70);
                default -> Programs.slowCoolGlaze(1222, 70);
            };
        }

        int interval() {
            int[] usual = {1, 1, 2, 5, 10};
            return usual[random.nextInt(usual.length)];
        }

        Function<Schedule, VirtualFiring.Builder> firing(Schedule plan) {
            boolean raw = plan.top().celsius() < 1100;
            return program -> raw ? kiln.bisqueFiring(program, number) : kiln.glazeFiring(program, number);
        }
    }

    Setting fault(
            String name,
            Draw draw,
            Schedule plan,
            Disturbance what,
            Shows shows,
            Set<AlarmKind> kinds,
            double promisedS) {
        return fault(name, draw, plan, draw.firing(plan), draw.kiln.controller(), what, shows, kinds, promisedS);
    }

    Setting fault(
            String name,
            Draw draw,
            Schedule plan,
            Function<Schedule, VirtualFiring.Builder> firing,
            ControllerSpec controller,
            Disturbance what,
            Shows shows,
            Set<AlarmKind> kinds,
            double promisedS) {
        return new Setting(
                label(name, draw, plan, controller),
                firing,
                controller,
                plan,
                Optional.empty(),
                Optional.of(what),
                shows,
                kinds,
                promisedS,
                AlarmLimits.USUAL,
                draw.interval(),
                false);
    }

    private String label(String name, Draw draw, Schedule plan, ControllerSpec controller) {
        return "%s | %s %d | %s | %s %s %s%s%s"
                .formatted(
                        name,
                        family,
                        draw.number,
                        plan.name(),
                        controller.regulation().getClass().getSimpleName(),
                        controller.waits() ? "waits" : "by the clock",
                        controller.reports().output() ? "o" : "-",
                        controller.reports().setpoint() ? "s" : "-",
                        controller.reports().segment() ? "g" : "-");
    }

    /** Each fault once. */
    List<Setting> oneOfEach() {
        List<Setting> all = new ArrayList<>();
        all.addAll(stuckRelays());
        all.addAll(sensors());
        SimulatedMistakes mistakes = new SimulatedMistakes(this);
        all.addAll(mistakes.maxima());
        all.addAll(mistakes.programs());
        all.addAll(powers());
        all.addAll(mistakes.wares());
        all.addAll(mistakes.controllers());
        return all;
    }

    private List<Setting> stuckRelays() {
        List<Setting> all = new ArrayList<>();
        Set<AlarmKind> stuck = EnumSet.of(AlarmKind.STUCK_RELAY);
        Draw low = new Draw();
        Schedule candled = Programs.candledBisque(1000, 3);
        all.add(fault(
                "stuck: all relays while candling",
                low,
                candled,
                Disturbance.rising(low.between(70, 84), Happenings.allRelaysWeld()),
                Shows.OVER,
                stuck,
                180));
        Draw one = new Draw();
        all.add(fault(
                "stuck: one relay while candling",
                one,
                candled,
                Disturbance.rising(one.between(70, 84), Happenings.relayWelds(one.random.nextInt(3))),
                Shows.OVER,
                stuck,
                180));
        Draw ramp = new Draw();
        Schedule any = ramp.plan();
        all.add(fault(
                "stuck: all relays in a ramp",
                ramp,
                any,
                Disturbance.rising(ramp.between(200, 900), Happenings.allRelaysWeld()),
                Shows.OVER,
                stuck,
                180));
        Draw top = new Draw();
        Schedule topped = top.plan();
        all.add(fault(
                "stuck: all relays at the top",
                top,
                topped,
                Disturbance.rising(topped.top().celsius() - top.between(3, 6), Happenings.allRelaysWeld()),
                Shows.OVER,
                EnumSet.of(AlarmKind.STUCK_RELAY, AlarmKind.ABOVE_PLAN_MAXIMUM),
                180));
        Draw cooling = new Draw();
        Schedule glaze = Programs.glaze(1222, 70);
        all.add(fault(
                "stuck: all relays in the cooling",
                cooling,
                glaze,
                Disturbance.falling(cooling.between(400, 1100), Happenings.allRelaysWeld()),
                Shows.OVER,
                stuck,
                180));
        return all;
    }

    private List<Setting> sensors() {
        List<Setting> all = new ArrayList<>();
        all.add(sensor("sensor: fault reported", draw -> Happenings.sensorFault(SensorFault.OPEN_CIRCUIT), 60, 1150));
        all.add(sensor("sensor: open, unnoticed", draw -> Happenings.sensorOpensUnnoticed(), 120, 1150));
        all.add(sensor("sensor: slipped", draw -> Happenings.sensorSlips(draw.between(0.3, 0.9)), 250, 1100));
        all.add(sensor("sensor: shorted", draw -> Happenings.sensorShorted(draw.between(0.3, 1)), 250, 1100));
        all.add(sensor("sensor: reversed", draw -> Happenings.leadsReversed(), 120, 1000));
        Draw frozen = new Draw();
        Schedule plan = frozen.plan();
        all.add(fault(
                "sensor: frozen",
                frozen,
                plan,
                Disturbance.rising(frozen.between(90, 0.9 * plan.top().celsius()), Happenings.sensorFreezes()),
                Shows.AT_ONCE,
                SENSOR,
                SENSOR_S));
        Draw ends = new Draw();
        SensorSpec old = SensorSpec.typeK(Amplifier.MAX6675);
        Schedule glaze = Programs.glaze(1222, 70);
        all.add(fault(
                "sensor: saturated",
                ends,
                glaze,
                program -> ends.firing(glaze).apply(program).sensors(old),
                ends.kiln.controller(),
                Disturbance.rising(990, firing -> {}),
                Shows.AT_ITS_END,
                SENSOR,
                SENSOR_S));
        Draw wrong = new Draw();
        Schedule any = wrong.plan();
        all.add(fault(
                "sensor: S wire on a K input",
                wrong,
                any,
                wrong.firing(any),
                wrong.kiln.controller().reporting(ControllerSpec.Reports.ALL),
                Disturbance.at(1, Happenings.wrongWire(ThermocoupleType.S)),
                Shows.POWER_UNEXPLAINED,
                EnumSet.of(AlarmKind.SENSOR_LYING, AlarmKind.NOT_THIS_PLAN),
                SENSOR_S));
        return all;
    }

    private Setting sensor(String name, Function<Draw, Happening> what, double fromC, double toC) {
        Draw draw = new Draw();
        Schedule plan = draw.plan();
        double atC = draw.between(fromC, Math.min(toC, plan.top().celsius() - 20));
        return fault(name, draw, plan, Disturbance.rising(atC, what.apply(draw)), Shows.OFF_TWIN, SENSOR, SENSOR_S);
    }

    Setting keyedIn(String name, Draw draw, Schedule plan, Schedule program, Set<AlarmKind> kinds, double promisedS) {
        return new Setting(
                label(name, draw, plan, draw.kiln.controller()),
                draw.firing(plan),
                draw.kiln.controller(),
                plan,
                Optional.of(program),
                Optional.empty(),
                Shows.FROM_BEGIN,
                kinds,
                promisedS,
                AlarmLimits.USUAL,
                draw.interval(),
                false);
    }

    private List<Setting> powers() {
        List<Setting> all = new ArrayList<>();
        Set<AlarmKind> gone = EnumSet.of(AlarmKind.POWER_GONE);
        Draw cut = new Draw();
        Schedule plan = cut.plan();
        double atC = cut.between(60, plan.top().celsius() - 60);
        all.add(fault(
                "power: the kiln's supply gone",
                cut,
                plan,
                Disturbance.rising(atC, Happenings.kilnPowerCut()),
                Shows.BELOW_TWIN,
                gone,
                600));
        Draw broken = new Draw();
        Schedule second = broken.plan();
        all.add(fault(
                "power: all elements broken",
                broken,
                second,
                Disturbance.rising(broken.between(150, second.top().celsius() - 60), Happenings.allRingsLost()),
                Shows.BELOW_TWIN,
                gone,
                600));
        Draw ring = new Draw();
        Schedule third = ring.plan();
        all.add(fault(
                "power: a ring lost",
                ring,
                third,
                ring.firing(third),
                ring.kiln.controller().reporting(ControllerSpec.Reports.ALL),
                Disturbance.rising(
                        ring.between(350, third.top().celsius() - 160), Happenings.ringLost(ring.random.nextInt(3))),
                Shows.AT_ONCE,
                EnumSet.of(AlarmKind.THIRD_OF_POWER_GONE, AlarmKind.POWER_GONE),
                1800));
        Draw weak = new Draw();
        Schedule high = Programs.glaze(1222, 70);
        double aged = weak.between(1.6, 2.1);
        Setting old = fault(
                "power: too weak for the top",
                weak,
                high,
                program -> weak.kiln.glazeFiring(program, weak.number).elementResistance(aged),
                ControllerSpec.waiting(),
                Disturbance.at(1, firing -> {}),
                Shows.TOPS_OUT,
                EnumSet.of(AlarmKind.WILL_NOT_REACH_TOP),
                -3600);
        all.add(new Setting(
                old.name(),
                old.firing(),
                old.controller(),
                high,
                Optional.empty(),
                old.fault(),
                old.shows(),
                old.expected(),
                -3600,
                AlarmLimits.USUAL,
                old.intervalS(),
                true));
        Draw both = new Draw();
        Schedule fourth = both.plan();
        all.add(fault(
                "power: the whole studio's gone",
                both,
                fourth,
                Disturbance.rising(both.between(60, fourth.top().celsius() - 60), Happenings.powerCut()),
                Shows.AT_ONCE,
                EnumSet.of(AlarmKind.NO_READINGS),
                120));
        return all;
    }

    /** A firing to which nothing happens but what is usual: bung, vent, small sags. */
    Setting clean(boolean forecasts) {
        Draw draw = new Draw();
        Schedule plan = draw.plan();
        List<Disturbance> usual = new ArrayList<>();
        if (draw.random.nextInt(3) == 0) {
            usual.add(Disturbance.at(1, Happenings.bung(1)));
            usual.add(Disturbance.rising(draw.between(600, 750), Happenings.bung(0)));
        }
        if (draw.random.nextInt(4) == 0) {
            usual.add(Disturbance.falling(draw.between(150, 300), Happenings.bung(1)));
        }
        return new Setting(
                label("clean", draw, plan, draw.kiln.controller()),
                program -> draw.firing(plan).apply(program).disturbances(usual),
                draw.kiln.controller(),
                plan,
                Optional.empty(),
                Optional.empty(),
                Shows.FROM_BEGIN,
                Set.of(),
                0,
                AlarmLimits.USUAL,
                draw.interval(),
                forecasts);
    }
}
