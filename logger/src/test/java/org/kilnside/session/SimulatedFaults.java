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
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.SensorFault;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.session.SimulatedWatch.Setting;
import org.kilnside.session.SimulatedWatch.Shows;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Disturbance.Happening;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Misprogramming;
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
    private final class Draw {
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

    private Setting fault(
            String name,
            Draw draw,
            Schedule plan,
            Disturbance what,
            Shows shows,
            Set<AlarmKind> kinds,
            double promisedS) {
        return fault(name, draw, plan, draw.firing(plan), draw.kiln.controller(), what, shows, kinds, promisedS);
    }

    private Setting fault(
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
        all.addAll(maxima());
        all.addAll(programs());
        all.addAll(powers());
        all.addAll(wares());
        all.addAll(controllers());
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
                Shows.AT_ONCE,
                SENSOR,
                3600));
        Draw wrong = new Draw();
        Schedule any = wrong.plan();
        all.add(fault(
                "sensor: S wire on a K input",
                wrong,
                any,
                wrong.firing(any),
                wrong.kiln.controller().reporting(ControllerSpec.Reports.ALL),
                Disturbance.at(1, Happenings.wrongWire(ThermocoupleType.S)),
                Shows.OFF_TWIN,
                EnumSet.of(AlarmKind.SENSOR_LYING, AlarmKind.NOT_THIS_PLAN),
                1200));
        return all;
    }

    private Setting sensor(String name, Function<Draw, Happening> what, double fromC, double toC) {
        Draw draw = new Draw();
        Schedule plan = draw.plan();
        double atC = draw.between(fromC, Math.min(toC, plan.top().celsius() - 20));
        return fault(name, draw, plan, Disturbance.rising(atC, what.apply(draw)), Shows.OFF_TWIN, SENSOR, SENSOR_S);
    }

    private List<Setting> maxima() {
        List<Setting> all = new ArrayList<>();
        Draw kiln = new Draw();
        Schedule glaze = Programs.glaze(1222, 70);
        Setting base = fault(
                "maximum: the kiln's",
                kiln,
                glaze,
                Disturbance.at(1, firing -> {}),
                Shows.ABOVE_LIMIT,
                EnumSet.of(AlarmKind.ABOVE_KILN_MAXIMUM),
                30);
        all.add(withLimits(
                base,
                AlarmLimits.USUAL.forKiln(
                        Optional.of(Temperature.ofCelsius(kiln.between(1000, 1215))),
                        Optional.empty(),
                        Temperature.ofCelsius(120),
                        Temperature.ofCelsius(50))));
        Draw ware = new Draw();
        Setting second = fault(
                "maximum: the ware's",
                ware,
                glaze,
                Disturbance.at(1, firing -> {}),
                Shows.ABOVE_LIMIT,
                EnumSet.of(AlarmKind.ABOVE_WARE_MAXIMUM),
                30);
        all.add(withLimits(second, AlarmLimits.USUAL.forWare(Temperature.ofCelsius(ware.between(900, 1215)))));
        Draw top = new Draw();
        Schedule plan = top.plan();
        all.add(fault(
                "maximum: the plan's",
                top,
                plan,
                Disturbance.rising(plan.top().celsius() - 5, Happenings.allRelaysWeld()),
                Shows.ABOVE_LIMIT,
                EnumSet.of(AlarmKind.ABOVE_PLAN_MAXIMUM),
                30));
        return all;
    }

    private static Setting withLimits(Setting of, AlarmLimits limits) {
        return new Setting(
                of.name(),
                of.firing(),
                of.controller(),
                of.plan(),
                of.keyedIn(),
                of.fault(),
                of.shows(),
                of.expected(),
                of.promisedS(),
                limits,
                of.intervalS(),
                of.forecasts());
    }

    private Setting keyedIn(
            String name, Draw draw, Schedule plan, Schedule program, Set<AlarmKind> kinds, double promisedS) {
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

    private List<Setting> programs() {
        List<Setting> all = new ArrayList<>();
        Set<AlarmKind> other = EnumSet.of(AlarmKind.NOT_THIS_PLAN);
        Schedule bisque = Programs.bisque(1000);
        all.add(keyedIn("program: glaze on a bisque plan", new Draw(), bisque, Programs.glaze(1222, 70), other, 2700));
        all.add(keyedIn("program: bisque on a glaze plan", new Draw(), Programs.glaze(1222, 70), bisque, other, 2700));
        all.add(keyedIn(
                "program: °C taken for °F",
                new Draw(),
                bisque,
                Misprogramming.celsiusTakenForFahrenheit(bisque),
                other,
                2700));
        all.add(keyedIn(
                "program: °F taken for °C",
                new Draw(),
                bisque,
                Misprogramming.fahrenheitTakenForCelsius(bisque),
                other,
                2700));
        return all;
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

    private List<Setting> wares() {
        List<Setting> all = new ArrayList<>();
        Draw wet = new Draw();
        Schedule bisque = Programs.bisque(1000);
        double ware = 0.6 * wet.kiln.usualKg();
        Load damp = new Load(ware, 0.4 * wet.kiln.usualKg(), 0.008, wet.between(0.05, 0.1) * ware, true, 0.4);
        all.add(fault(
                "ware: water above the boiling point",
                wet,
                bisque,
                program -> wet.kiln.bisqueFiring(program, wet.number).load(damp),
                ControllerSpec.waiting(),
                Disturbance.rising(110, firing -> {}),
                Shows.AT_ONCE,
                EnumSet.of(AlarmKind.WATER_LEAVING),
                3600));
        Draw lid = new Draw();
        Schedule plan = lid.plan();
        all.add(fault(
                "lid: propped",
                lid,
                plan,
                Disturbance.falling(lid.between(100, 250), Happenings.lid(lid.between(0.01, 0.08))),
                Shows.OFF_TWIN,
                EnumSet.of(AlarmKind.LID_MOVED),
                300));
        Draw steam = new Draw();
        Schedule slow = new Schedule(
                "Slow bisque",
                List.of(
                        ramp(60, 85, 0),
                        ramp(60, 150, 0),
                        ramp(100, 600, 0),
                        ramp(130, 1000, 10),
                        new Segment.FreeCooling()));
        Schedule rash = new Schedule(
                "Rash bisque",
                List.of(
                        ramp(60, 85, 0),
                        ramp(160, 150, 0),
                        ramp(100, 600, 0),
                        ramp(130, 1000, 10),
                        new Segment.FreeCooling()));
        all.add(keyedIn(
                "ware: too fast through the steam",
                steam,
                slow,
                rash,
                EnumSet.of(AlarmKind.TOO_FAST, AlarmKind.NOT_THIS_PLAN, AlarmKind.STUCK_RELAY),
                7200));
        Draw hot = new Draw();
        Schedule candled = Programs.candledBisque(1000, 3);
        Schedule hotter = new Schedule(
                "Hot candling",
                List.of(
                        ramp(60, 104, 180),
                        ramp(60, 200, 0),
                        ramp(100, 600, 0),
                        ramp(130, 1000, 10),
                        new Segment.FreeCooling()));
        Setting overshoot = keyedIn(
                "ware: candling overshoots", hot, candled, hotter, EnumSet.of(AlarmKind.CANDLING_OVERSHOOT), 300);
        all.add(new Setting(
                overshoot.name(),
                overshoot.firing(),
                overshoot.controller(),
                candled,
                overshoot.keyedIn(),
                Optional.of(Disturbance.at(1, firing -> {})),
                Shows.NEARLY_BOILING,
                overshoot.expected(),
                300,
                AlarmLimits.USUAL,
                overshoot.intervalS(),
                false));
        return all;
    }

    private List<Setting> controllers() {
        List<Setting> all = new ArrayList<>();
        Draw restart = new Draw();
        Schedule plan = restart.plan();
        all.add(fault(
                "controller: restarts",
                restart,
                plan,
                restart.firing(plan),
                restart.kiln.controller().afterPowerCut(ControllerSpec.AfterPowerCut.GO_ON),
                Disturbance.rising(restart.between(60, plan.top().celsius() - 60), Happenings.controllerRestarts()),
                Shows.AT_ONCE,
                EnumSet.of(AlarmKind.CONTROLLER_RESTARTED),
                60));
        Draw box = new Draw();
        Schedule second = box.plan();
        all.add(fault(
                "controller: box too hot",
                box,
                second,
                Disturbance.rising(box.between(200, 800), Happenings.boxHeats(box.between(48, 70))),
                Shows.BOX_HOT,
                EnumSet.of(AlarmKind.BOX_TOO_HOT),
                300));
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

    private static Segment.Ramp ramp(double perHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                org.kilnside.quantity.HeatingRate.ofKelvinPerHour(perHour),
                Temperature.ofCelsius(toC),
                java.time.Duration.ofMinutes(holdMinutes));
    }
}
