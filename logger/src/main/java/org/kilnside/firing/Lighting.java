package org.kilnside.firing;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.kilnside.quantity.Temperature;

/**
 * The short list a potter goes through before the kiln is lit, as it was ticked.
 *
 * @param ticked what was seen to
 * @param cutOut the temperature at which the kiln's independent cut-out is set to act; empty when nobody said
 * @param attends who will be there when the top is reached; empty when nobody said
 * @param skipped whether the list was passed over: what was ticked before stands all the same
 */
public record Lighting(Set<Item> ticked, Optional<Temperature> cutOut, Optional<String> attends, boolean skipped) {
    /** Nothing ticked, nothing passed over. */
    public static final Lighting OPEN = new Lighting(Set.of(), Optional.empty(), Optional.empty(), false);

    /** Passed over as a whole. */
    public static final Lighting SKIPPED = new Lighting(Set.of(), Optional.empty(), Optional.empty(), true);

    private static final Pattern LINE =
            Pattern.compile("(list|skipped)(?: ticked=([a-z,-]+))?(?: cut-out=([0-9.]{1,7})C)?(?: attends=(.+))?");

    /** What is on the list, in the order in which it is gone through. */
    public enum Item {
        /** The controller's program, read back from the controller, is this plan. */
        PROGRAM,
        /** Witness cones are in, and can be seen. */
        CONES,
        /** Vent on or off, bung in or out, as this firing wants it. */
        VENT,
        /** Nothing touches elements or sensor. */
        CLEARANCE,
        /** An independent cut-out is fitted. */
        CUT_OUT,
        /** Somebody attends the top. */
        ATTENDANCE,
        /** Tonight's alarm was tested and heard where it has to be. */
        ALARM;

        String code() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    public Lighting {
        ticked = ticked.isEmpty() ? Set.of() : Collections.unmodifiableSet(EnumSet.copyOf(ticked));
        attends = attends.map(who -> who.strip().replaceAll("\\s+", " ")).filter(who -> !who.isEmpty());
    }

    /** The same with one item ticked or not. */
    public Lighting with(Item item, boolean seenTo) {
        Set<Item> others = EnumSet.noneOf(Item.class);
        others.addAll(ticked);
        if (seenTo) {
            others.add(item);
        } else {
            others.remove(item);
        }
        return new Lighting(others, cutOut, attends, false);
    }

    public Lighting withCutOut(Optional<Temperature> at) {
        return new Lighting(ticked, at, attends, skipped);
    }

    public Lighting withAttends(Optional<String> who) {
        return new Lighting(ticked, cutOut, who, skipped);
    }

    /** The same, the rest passed over. */
    public Lighting skip() {
        return new Lighting(ticked, cutOut, attends, true);
    }

    /** Whether every item was seen to. */
    public boolean isComplete() {
        return ticked.size() == Item.values().length;
    }

    /** The list as one line, as events in the book hold it: {@code list ticked=program,cut-out cut-out=1260.0C attends=Mara}. */
    public String text() {
        StringBuilder text = new StringBuilder(skipped ? "skipped" : "list");
        if (!ticked.isEmpty()) {
            text.append(" ticked=").append(ticked.stream().map(Item::code).collect(Collectors.joining(",")));
        }
        cutOut.ifPresent(at -> text.append(String.format(Locale.ROOT, " cut-out=%.1fC", at.celsius())));
        attends.ifPresent(who -> text.append(" attends=").append(who));
        return text.toString();
    }

    /** The list a line holds; empty when it holds none. Items of a later version are left out. */
    public static Optional<Lighting> parse(String text) {
        Matcher line = LINE.matcher(text);
        if (!line.matches()) {
            return Optional.empty();
        }
        Set<Item> ticked = EnumSet.noneOf(Item.class);
        for (String code : line.group(2) == null ? new String[0] : line.group(2).split(",", -1)) {
            Arrays.stream(Item.values())
                    .filter(item -> item.code().equals(code))
                    .forEach(ticked::add);
        }
        try {
            return Optional.of(new Lighting(
                    ticked,
                    Optional.ofNullable(line.group(3)).map(Double::parseDouble).map(Temperature::ofCelsius),
                    Optional.ofNullable(line.group(4)),
                    line.group(1).equals("skipped")));
        } catch (NumberFormatException e) {
            return Optional.empty();
        }
    }
}
