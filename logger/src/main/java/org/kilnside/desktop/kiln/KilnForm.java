package org.kilnside.desktop.kiln;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kilnside.files.KilnSetting;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.wording.ElementWords;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What is known of a kiln, to be read and changed. Each change is written at once and can be undone; text that no kiln
 * can have is refused with one sentence beside it, and stays to be mended.
 */
final class KilnForm {
    private static final Logger LOG = LoggerFactory.getLogger(KilnForm.class);
    private static final Set<KilnSetting> TEMPERATURES =
            Set.of(KilnSetting.CUT_OUT, KilnSetting.TOP, KilnSetting.CRACK, KilnSetting.UNLOAD);

    private final KilnShelf shelf;
    private final Chores chores;
    private Runnable changed = () -> {};
    private List<String> kilns = List.of();
    private Optional<String> chosen = Optional.empty();
    private Optional<KilnShelf.Page> page = Optional.empty();
    private Optional<String> trouble = Optional.empty();
    private Optional<KilnShelf.Elements> elements = Optional.empty();
    private final Map<KilnSetting, Refused> refused = new EnumMap<>(KilnSetting.class);
    private final Deque<Change> done = new ArrayDeque<>();

    /** How many changes are being written, and what waits for them. */
    private int pending;

    private Optional<Runnable> afterwards = Optional.empty();

    /** A text that was refused, why, and what the file itself said of it. */
    private record Refused(String text, KilnRefusal refusal, String said) {
        String why(Words words) {
            return refusal.sentence(words).orElseGet(() -> words.text("kilns.bad.file", said));
        }
    }

    private record Change(String kiln, KilnSetting setting, Optional<String> before) {}

    /**
     * A field.
     *
     * @param text what stands in it
     * @param remark whose number it is where nobody has set one, or for which firings it holds; empty otherwise
     * @param problem why what was typed cannot be; empty where all is well
     * @param options what can be chosen, as the file has it; empty where text is typed
     */
    record Field(KilnSetting setting, String label, String text, String remark, String problem, List<String> options) {
        Field {
            options = List.copyOf(options);
        }
    }

    KilnForm(KilnShelf shelf, Chores chores) {
        this.shelf = shelf;
        this.chores = chores;
    }

    void whenChanged(Runnable listener) {
        changed = listener;
    }

    /** Reads what there is; begins with the kiln that is being recorded, else with the first. */
    void look(Optional<String> recorded, Words words) {
        chores.run(
                () -> {
                    List<String> names = new ArrayList<>(shelf.kilns());
                    recorded.filter(name -> !names.contains(name)).ifPresent(name -> names.add(0, name));
                    return names;
                },
                names -> {
                    kilns = List.copyOf(names);
                    String first = chosen.or(() -> recorded)
                            .or(() -> names.stream().findFirst())
                            .orElse("");
                    if (!first.isEmpty()) {
                        open(first, words);
                    }
                    changed.run();
                },
                this::fault);
    }

    /** Turns to a kiln. */
    void open(String kiln, Words words) {
        chosen = Optional.of(kiln);
        refused.clear();
        elements = Optional.empty();
        chores.run(
                () -> shelf.open(kiln, words),
                its -> {
                    opened(its);
                    lookAtElements(kiln, its);
                },
                this::fault);
    }

    private void lookAtElements(String kiln, KilnShelf.Page its) {
        chores.run(
                () -> shelf.elements(its),
                found -> {
                    if (chosen.equals(Optional.of(kiln))) {
                        elements = found;
                        changed.run();
                    }
                },
                this::fault);
    }

    /** How strong the elements were, in sentences; empty while that is not known. */
    List<String> elements(Words words) {
        return elements.map(its -> new ElementWords(words)
                        .lines(its.strength(), its.firings()).stream()
                                .map(line -> words.sentence(line) + ".")
                                .toList())
                .orElse(List.of());
    }

    private void opened(KilnShelf.Page its) {
        page = Optional.of(its);
        trouble = Optional.empty();
        changed.run();
    }

    private void fault(Exception failure) {
        if (!(failure instanceof RefusedException)) {
            LOG.error("a fault in the kiln's form", failure);
        }
        trouble = Optional.of(String.valueOf(failure.getMessage()));
        changed.run();
    }

    /** Takes what a person typed into a field and writes it, if it says something else than stands there. */
    void change(KilnSetting setting, String text, Words words) {
        if (page.isEmpty() || text.strip().equals(field(setting, words).text().strip())) {
            return;
        }
        String kiln = chosen.orElseThrow();
        Kiln its = page.get().kiln();
        Optional<String> before = setting.of(its);
        Optional<String> value =
                text.isBlank() ? Optional.empty() : Optional.of(withUnit(setting, text.strip(), words));
        pending++;
        chores.run(
                () -> shelf.set(kiln, setting, value, words),
                written -> {
                    pending--;
                    refused.remove(setting);
                    done.push(new Change(kiln, setting, before));
                    opened(written);
                    rest();
                },
                failure -> {
                    pending--;
                    // What could not be written keeps the person here, to see why.
                    afterwards = Optional.empty();
                    if (failure instanceof RefusedException) {
                        refused.put(
                                setting,
                                new Refused(text, new KilnRefusal(setting, text, value, its), failure.getMessage()));
                        changed.run();
                    } else {
                        fault(failure);
                    }
                });
    }

    /**
     * Whether all that was typed is in the file.
     *
     * @param later run once it is, where it is not yet; not where it cannot be
     */
    boolean isSettled(Runnable later) {
        afterwards = pending == 0 ? Optional.empty() : Optional.of(later);
        return pending == 0;
    }

    private void rest() {
        if (pending == 0) {
            Optional<Runnable> its = afterwards;
            afterwards = Optional.empty();
            its.ifPresent(Runnable::run);
        }
    }

    /** Puts back what stood there before the last change. */
    void undo(Words words) {
        if (done.isEmpty()) {
            return;
        }
        Change last = done.pop();
        chosen = Optional.of(last.kiln);
        refused.clear();
        chores.run(() -> shelf.set(last.kiln, last.setting, last.before, words), this::opened, this::fault);
    }

    boolean canUndo() {
        return !done.isEmpty();
    }

    List<String> kilns() {
        return kilns;
    }

    Optional<String> chosen() {
        return chosen;
    }

    Optional<String> trouble() {
        return trouble;
    }

    String file() {
        return page.map(KilnShelf.Page::file).orElse("");
    }

    /** The fields in the order in which a person thinks of them; none before a kiln is open. */
    List<Field> fields(Words words) {
        if (page.isEmpty()) {
            return List.of();
        }
        List<Field> fields = new ArrayList<>();
        for (KilnSetting setting : KilnSetting.values()) {
            fields.add(field(setting, words));
        }
        return fields;
    }

    private Field field(KilnSetting setting, Words words) {
        Kiln kiln = page.orElseThrow().kiln();
        Optional<Refused> wrong = Optional.ofNullable(refused.get(setting));
        String text = wrong.map(Refused::text).orElseGet(() -> value(setting, kiln, words));
        boolean usual = (setting == KilnSetting.CRACK || setting == KilnSetting.UNLOAD)
                && kiln.thresholds().source() == Kiln.Thresholds.Source.COMMON_PRACTICE;
        return new Field(
                setting,
                words.named("kilns.setting", setting),
                text,
                usual
                        ? words.text("kilns.common_practice", value(setting, kiln, words))
                        : setting == KilnSetting.SERIES ? words.text("kiln.form.from_now") : "",
                wrong.map(its -> its.why(words)).orElse(""),
                switch (setting) {
                    case WALL -> List.of("", "brick", "fibre", "layered");
                    case OPENING -> List.of("lid", "door");
                    case SERIES ->
                        Arrays.stream(ConeSeries.values()).map(ConeSeries::word).toList();
                    case FROM_MAKER -> List.of("no", "yes");
                    default -> List.of();
                });
    }

    /** As the person reads temperatures; all else as the file has it. */
    private static String value(KilnSetting setting, Kiln kiln, Words words) {
        return switch (setting) {
            case TOP -> kiln.limits().temperature().map(words::temperature).orElse("");
            case RATE -> kiln.limits().rate().map(words::speed).orElse("");
            case CRACK -> words.temperature(kiln.thresholds().crack());
            case UNLOAD -> words.temperature(kiln.thresholds().unload());
            case CUT_OUT ->
                kiln.cutOut()
                        .map(cutOut -> cutOut.at()
                                .map(words::temperature)
                                .orElse(words.text(cutOut.fitted() ? "kilns.cut_out.fitted" : "kilns.cut_out.none")))
                        .orElse("");
            case VOLUME, POWER, TARIFF ->
                setting.of(kiln)
                        .map(text -> text.replace('.', words.decimalMark()))
                        .orElse("");
            default -> setting.of(kiln).orElse("");
        };
    }

    /** Whether there is a cut-out has words of its own in each language; the file knows one. */
    private static String cutOut(String text, Words words) {
        if (text.equalsIgnoreCase(words.text("kilns.cut_out.fitted"))) {
            return "fitted";
        }
        return text.equalsIgnoreCase(words.text("kilns.cut_out.none")) ? "none" : text;
    }

    /** A bare number is in the unit the person reads; a unit that was typed is the person's word. */
    private static String withUnit(KilnSetting setting, String text, Words words) {
        String plain = text.replace('\u2212', '-');
        if (!plain.matches("[+-]?\\d+([.,]\\d+)?")) {
            // The hour has its own letter in each language; the file knows one.
            return switch (setting) {
                case RATE -> plain.replaceAll("/\\s*" + words.text("unit.hour") + "$", "/h");
                case CUT_OUT -> cutOut(plain, words);
                default -> plain;
            };
        }
        if (TEMPERATURES.contains(setting)) {
            return plain + " " + words.unit();
        }
        return switch (setting) {
            case RATE -> plain + " " + words.unit() + "/h";
            case POWER -> plain + " kW";
            case VOLUME -> plain + " l";
            default -> plain;
        };
    }
}
