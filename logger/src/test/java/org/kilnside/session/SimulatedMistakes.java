package org.kilnside.session;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.AlarmLimits;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.session.SimulatedWatch.Setting;
import org.kilnside.session.SimulatedWatch.Shows;
import org.kilnside.virtualkiln.ControllerSpec;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Misprogramming;
import org.kilnside.virtualkiln.Programs;

/** What goes wrong with limits, programs, ware and controller: too hot, another program, damp ware, lids, restarts. */
final class SimulatedMistakes {
    private final SimulatedFaults faults;

    SimulatedMistakes(SimulatedFaults faults) {
        this.faults = faults;
    }

    List<Setting> maxima() {
        List<Setting> all = new ArrayList<>();
        SimulatedFaults.Draw kiln = faults.new Draw();
        Schedule glaze = Programs.glaze(1222, 70);
        Setting base = faults.fault(
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
        SimulatedFaults.Draw ware = faults.new Draw();
        Setting second = faults.fault(
                "maximum: the ware's",
                ware,
                glaze,
                Disturbance.at(1, firing -> {}),
                Shows.ABOVE_LIMIT,
                EnumSet.of(AlarmKind.ABOVE_WARE_MAXIMUM),
                30);
        all.add(withLimits(second, AlarmLimits.USUAL.forWare(Temperature.ofCelsius(ware.between(900, 1215)))));
        SimulatedFaults.Draw top = faults.new Draw();
        Schedule plan = top.plan();
        all.add(faults.fault(
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

    List<Setting> programs() {
        List<Setting> all = new ArrayList<>();
        Set<AlarmKind> other = EnumSet.of(AlarmKind.NOT_THIS_PLAN);
        Schedule bisque = Programs.bisque(1000);
        all.add(faults.keyedIn(
                "program: glaze on a bisque plan", faults.new Draw(), bisque, Programs.glaze(1222, 70), other, 2700));
        all.add(faults.keyedIn(
                "program: bisque on a glaze plan", faults.new Draw(), Programs.glaze(1222, 70), bisque, other, 2700));
        all.add(faults.keyedIn(
                "program: °C taken for °F",
                faults.new Draw(),
                bisque,
                Misprogramming.celsiusTakenForFahrenheit(bisque),
                other,
                2700));
        all.add(faults.keyedIn(
                "program: °F taken for °C",
                faults.new Draw(),
                bisque,
                Misprogramming.fahrenheitTakenForCelsius(bisque),
                other,
                2700));
        return all;
    }

    List<Setting> wares() {
        List<Setting> all = new ArrayList<>();
        SimulatedFaults.Draw wet = faults.new Draw();
        Schedule bisque = Programs.bisque(1000);
        double ware = 0.6 * wet.kiln.usualKg();
        Load damp = new Load(ware, 0.4 * wet.kiln.usualKg(), 0.008, wet.between(0.05, 0.1) * ware, true, 0.4);
        all.add(faults.fault(
                "ware: water above the boiling point",
                wet,
                bisque,
                program -> wet.kiln.bisqueFiring(program, wet.number).load(damp),
                ControllerSpec.waiting(),
                Disturbance.rising(100, firing -> {}),
                Shows.STILL_WET,
                EnumSet.of(AlarmKind.WATER_LEAVING),
                3000));
        SimulatedFaults.Draw lid = faults.new Draw();
        Schedule plan = lid.plan();
        all.add(faults.fault(
                "lid: propped",
                lid,
                plan,
                Disturbance.falling(lid.between(100, 250), Happenings.lid(lid.between(0.01, 0.08))),
                Shows.OFF_TWIN,
                EnumSet.of(AlarmKind.LID_MOVED),
                300));
        SimulatedFaults.Draw steam = faults.new Draw();
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
        all.add(showing(
                faults.keyedIn(
                        "ware: too fast through the steam",
                        steam,
                        slow,
                        rash,
                        EnumSet.of(AlarmKind.TOO_FAST, AlarmKind.NOT_THIS_PLAN, AlarmKind.STUCK_RELAY),
                        1200),
                Shows.FAST_IN_STEAM));
        SimulatedFaults.Draw hot = faults.new Draw();
        Schedule candled = Programs.candledBisque(1000, 3);
        Schedule hotter = new Schedule(
                "Hot candling",
                List.of(
                        ramp(60, 104, 180),
                        ramp(60, 200, 0),
                        ramp(100, 600, 0),
                        ramp(130, 1000, 10),
                        new Segment.FreeCooling()));
        Setting overshoot = faults.keyedIn(
                "ware: candling overshoots", hot, candled, hotter, EnumSet.of(AlarmKind.CANDLING_OVERSHOOT), 300);
        all.add(showing(overshoot, Shows.NEARLY_BOILING));
        return all;
    }

    /** Of another program it shows only from a moment in the readings on. */
    private static Setting showing(Setting of, Shows shows) {
        return new Setting(
                of.name(),
                of.firing(),
                of.controller(),
                of.plan(),
                of.keyedIn(),
                Optional.of(Disturbance.at(1, firing -> {})),
                shows,
                of.expected(),
                of.promisedS(),
                of.limits(),
                of.intervalS(),
                of.forecasts());
    }

    List<Setting> controllers() {
        List<Setting> all = new ArrayList<>();
        SimulatedFaults.Draw restart = faults.new Draw();
        Schedule plan = restart.plan();
        all.add(faults.fault(
                "controller: restarts",
                restart,
                plan,
                restart.firing(plan),
                restart.kiln.controller().afterPowerCut(ControllerSpec.AfterPowerCut.GO_ON),
                Disturbance.rising(restart.between(60, plan.top().celsius() - 60), Happenings.controllerRestarts()),
                Shows.AT_ONCE,
                EnumSet.of(AlarmKind.CONTROLLER_RESTARTED),
                60));
        SimulatedFaults.Draw box = faults.new Draw();
        Schedule second = box.plan();
        all.add(faults.fault(
                "controller: box too hot",
                box,
                second,
                Disturbance.rising(box.between(200, 800), Happenings.boxHeats(box.between(48, 70))),
                Shows.BOX_HOT,
                EnumSet.of(AlarmKind.BOX_TOO_HOT),
                300));
        return all;
    }

    private static Segment.Ramp ramp(double perHour, double toC, long holdMinutes) {
        return new Segment.Ramp(
                org.kilnside.quantity.HeatingRate.ofKelvinPerHour(perHour),
                Temperature.ofCelsius(toC),
                java.time.Duration.ofMinutes(holdMinutes));
    }
}
