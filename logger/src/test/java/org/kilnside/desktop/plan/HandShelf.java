package org.kilnside.desktop.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kilnside.files.PlanFiles;
import org.kilnside.firing.Kiln;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.wording.Words;

/** A library held in the hand: own plans as texts, two starter plans, one kiln. */
final class HandShelf implements PlanShelf {
    final Map<String, String> own = new LinkedHashMap<>();
    final Map<String, String> starters = new LinkedHashMap<>();
    final List<String> printed = new ArrayList<>();
    Optional<String> broken = Optional.empty();
    Optional<Kiln> kiln = Optional.empty();
    List<String> kilns = List.of("Tall Drum");

    private void mayBreak() {
        broken.ifPresent(sentence -> {
            throw new IllegalStateException(sentence);
        });
    }

    @Override
    public List<Entry> plans() {
        List<Entry> all = new ArrayList<>();
        own.forEach((name, text) ->
                all.add(new Entry(name, PlanFiles.parse(text, name).name(), true, Optional.empty())));
        starters.forEach((name, text) ->
                all.add(new Entry(name, PlanFiles.parse(text, name).name(), false, Optional.empty())));
        return all;
    }

    @Override
    public Opened open(String shortName) {
        mayBreak();
        boolean isOwn = own.containsKey(shortName);
        String text = isOwn ? own.get(shortName) : starters.get(shortName);
        return new Opened(shortName, isOwn, text, PlanFiles.parse(text, shortName));
    }

    @Override
    public Optional<String> textNow(String shortName) {
        return Optional.ofNullable(own.get(shortName));
    }

    @Override
    public Saved save(String shortName, Schedule plan, String lastRead) {
        mayBreak();
        Optional<String> aside = Optional.empty();
        String now = own.get(shortName);
        if (now != null && !now.equals(lastRead)) {
            own.put(shortName + "-2", now);
            aside = Optional.of(shortName + "-2");
        }
        String text = PlanFiles.text(plan, lastRead);
        own.put(shortName, text);
        return new Saved(shortName, text, aside);
    }

    @Override
    public Saved saveNew(Schedule plan) {
        mayBreak();
        String name = "own-" + (own.size() + 1);
        own.put(name, PlanFiles.text(plan));
        return new Saved(name, own.get(name), Optional.empty());
    }

    @Override
    public List<String> kilns() {
        return kilns;
    }

    @Override
    public Kiln described(String name) {
        return kiln.orElse(Kiln.named(name));
    }

    @Override
    public KnownKiln kiln(String name) {
        return new KnownKiln(
                described(name), KilnMemory.none(Optional.empty()), 0, SensorInPlace.asSaid(Probe.UNKNOWN));
    }

    @Override
    public String print(Schedule plan, Optional<String> kiln, ControllerNumbers numbers, Words words) {
        printed.add(plan.name());
        return "card.html";
    }
}
