package org.kilnside.desktop.kiln;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kilnside.files.LinePattern;
import org.kilnside.files.LinePattern.Quantity;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.session.LineView;
import org.kilnside.session.ReadingSource.ControllerHello;
import org.kilnside.wording.Words;

/** Says each step of the first steps, and what can be done there. */
final class GuideSteps {
    private static final int LINES_SHOWN = 4;

    private final GuideModel model;
    private final Words words;
    private final List<Runnable> deeds = new ArrayList<>();
    private final List<GuideStep.Option> options = new ArrayList<>();

    private GuideSteps(GuideModel model, Words words) {
        this.model = model;
        this.words = words;
    }

    /** The step the person stands at. */
    static GuideStep step(GuideModel model, Words words) {
        return new GuideSteps(model, words).step();
    }

    /** Does what the option at this place of the list says. */
    static void choose(GuideModel model, Words words, int option) {
        GuideSteps steps = new GuideSteps(model, words);
        steps.step();
        if (option >= 0 && option < steps.deeds.size()) {
            steps.deeds.get(option).run();
        }
    }

    private GuideStep step() {
        return switch (model.stop()) {
            case LOADING -> loading();
            case START -> start();
            case TYPE -> type();
            case COLD -> cold();
            case LISTEN -> listen();
            case NOISE -> noise();
            case PROPOSAL -> proposal();
            case AMPLIFIER -> amplifier();
            case FOUND -> found();
            case TRIAL -> trial();
            case WATCHED -> watched();
            case TRIED -> tried();
            case ABOUT -> about();
            case BEGINNING -> plain(4, "guide.beginning.title", "guide.beginning.text", List.of());
        };
    }

    private GuideStep loading() {
        if (model.trouble().isPresent()) {
            can("guide.start.look_again", "", model::restart);
        }
        return plain(0, "guide.loading.title", "guide.loading.text", List.of());
    }

    private GuideStep start() {
        Recordings.Role role = model.recordings().role();
        String text = words.text("guide.start.text");
        if (role == Recordings.Role.ELSEWHERE || role == Recordings.Role.ONLY_LOOKING) {
            can("guide.start.to_now", "", model::begun);
            String key = role == Recordings.Role.ELSEWHERE ? "guide.start.elsewhere" : "guide.start.only_looking";
            return made(0, words.text("guide.start.title_going"), words.text(key), Optional.empty());
        }
        Recordings.Choices choices = model.choices().orElseThrow();
        Optional<String> caution = Optional.of(words.text("caution.cable.text"));
        if (role == Recordings.Role.HERE) {
            String from = model.recordings()
                    .here()
                    .map(wish -> Origins.name(wish.from(), words))
                    .orElse("");
            text = words.text("guide.start.here", from);
            can("guide.start.to_now", "", model::begun);
        } else if (choices.last().isPresent()) {
            Recordings.Wish last = choices.last().get();
            options.add(new GuideStep.Option(
                    words.text("guide.start.again", Origins.name(last.from(), words)), whatIsFired(last)));
            deeds.add(() -> model.beginAtOnce(last));
            caution = model.lastKnown().opening() == Wire.Opening.RESTARTS
                    ? Optional.of(words.text("guide.start.again_restarts"))
                    : caution;
        }
        for (Wire.PortSeen port : model.ports()) {
            options.add(new GuideStep.Option(
                    port.path(), port.description().equals(port.path()) ? "" : port.description()));
            deeds.add(() -> model.choose(port.path()));
        }
        can("guide.start.virtual", "guide.start.virtual_detail", () -> model.beginAtOnce(choices.virtual()));
        can("guide.start.type", "guide.start.type_detail", model::toTyping);
        can("guide.start.look_again", "", model::restart);
        if (model.ports().isEmpty()) {
            text = text + " " + words.text("guide.start.no_port");
        }
        return made(0, words.text("guide.start.title"), text, caution);
    }

    private String whatIsFired(Recordings.Wish wish) {
        return wish.kiln().orElse("") + wish.plan().map(plan -> ", " + plan).orElse("");
    }

    private GuideStep type() {
        can("guide.go_on", "", () -> model.choose(model.typed()));
        back();
        return field(
                0,
                "guide.type.title",
                "guide.type.text",
                Optional.empty(),
                new GuideStep.Field(words.text("guide.type.field"), model.typed(), "/dev/ttyUSB0"));
    }

    private GuideStep cold() {
        can("guide.cold.yes", "guide.cold.yes_detail", model::isCold);
        can("guide.cold.firing", "guide.cold.firing_detail", model::isFiring);
        back();
        Optional<String> caution = model.known().opening() == Wire.Opening.RESTARTS
                ? Optional.of(words.text(
                        "guide.cold.restarts",
                        model.known()
                                .since()
                                .map(day -> words.day(
                                        day.atStartOfDay(ZoneId.systemDefault()).toInstant()))
                                .orElse("?")))
                : Optional.of(words.text("guide.cold.caution"));
        return made(1, words.text("guide.cold.title"), words.text("guide.cold.text"), caution);
    }

    private GuideStep listen() {
        back();
        String origin = Origins.name(model.port().link(), words);
        String text = switch (model.port().look()) {
            case SILENT -> words.text("guide.listen.silent");
            case NO_TEMPERATURE -> {
                can("guide.go_on", "", model::goOn);
                yield words.text("guide.listen.no_temperature");
            }
            default ->
                model.port().isTryingSpeeds()
                        ? words.text("guide.listen.speed", model.port().speed())
                        : words.text("guide.listen.text", model.waitedMs() / 1000);
        };
        return made(2, words.text("guide.listen.title", origin), text, Optional.empty());
    }

    private GuideStep noise() {
        if (model.port().hasSpeed()) {
            can("guide.noise.try", "guide.noise.try_detail", model::trySpeeds);
            for (int speed : OpenPort.SPEEDS.stream()
                    .filter(speed -> speed != model.port().speed())
                    .limit(3)
                    .toList()) {
                options.add(new GuideStep.Option(words.text("guide.noise.speed", speed), ""));
                deeds.add(() -> model.atSpeed(speed));
            }
        }
        can("guide.again", "", model::listen);
        back();
        return made(
                2,
                words.text("guide.noise.title"),
                words.text(
                        model.port().hasSpeed() ? "guide.noise.text" : "guide.noise.text_network",
                        model.port().speed()),
                Optional.empty());
    }

    private GuideStep proposal() {
        List<GuideStep.Fact> facts = new ArrayList<>();
        Optional<LinePattern> pattern = model.lines().pattern();
        if (pattern.isEmpty()) {
            can("guide.again", "", model::listen);
            back();
            return made(2, words.text("guide.proposal.none"), words.text("guide.proposal.none_text"), Optional.empty());
        }
        facts.addAll(PatternWords.facts(pattern.get(), lastLine(), words));
        boolean fahrenheit =
                pattern.get().places().get(Quantity.TEMPERATURE).unit().equals("°F");
        can("guide.proposal.yes", "guide.proposal.yes_detail", model::patternIsRight);
        options.add(new GuideStep.Option(words.text("guide.proposal.unit", fahrenheit ? "°C" : "°F"), ""));
        deeds.add(() -> model.lines().inUnit(fahrenheit ? "°C" : "°F"));
        PatternWords.otherNumber(pattern.get(), lastLine()).ifPresent(place -> {
            options.add(new GuideStep.Option(
                    words.text("guide.proposal.other", PatternWords.where(pattern.get(), place, words)), ""));
            deeds.add(() -> model.lines().temperatureAt(place));
        });
        can("guide.again", "", model::listen);
        back();
        return made(2, words.text("guide.proposal.title"), words.text("guide.proposal.text"), Optional.empty(), facts);
    }

    private Optional<String> lastLine() {
        return model.port().heard().flatMap(heard -> {
            List<LineView.Line> lines = heard.lines().lines();
            return lines.isEmpty()
                    ? Optional.empty()
                    : Optional.of(lines.get(lines.size() - 1).text());
        });
    }

    private GuideStep amplifier() {
        Optional<Amplifier> said = model.lines().said(model.port()).map(Probe::amplifier);
        boolean chipSaid = said.isPresent() && said.get() != Amplifier.CELSIUS;
        can(
                "guide.amplifier.celsius",
                said.isPresent() ? "guide.amplifier.celsius_later" : "guide.amplifier.celsius_detail",
                () -> model.readSo(Amplifier.CELSIUS));
        if (!chipSaid || said.get() == Amplifier.MAX31855) {
            can("guide.amplifier.max31855", "guide.amplifier.max31855_detail", () -> model.readSo(Amplifier.MAX31855));
        }
        if (!chipSaid || said.get() == Amplifier.MAX6675) {
            can("guide.amplifier.max6675", "", () -> model.readSo(Amplifier.MAX6675));
        }
        back();
        return plain(
                2, "guide.amplifier.title", chipSaid ? "guide.amplifier.text_chip" : "guide.amplifier.text", List.of());
    }

    private GuideStep found() {
        can("guide.go_on", "", model::goOn);
        back();
        Wire.Heard heard = model.port().heard().orElseThrow();
        List<GuideStep.Fact> facts = new ArrayList<>();
        heard.temperature()
                .ifPresent(it ->
                        facts.add(new GuideStep.Fact(words.text("guide.found.temperature"), words.temperature(it))));
        heard.hello()
                .flatMap(ControllerHello::device)
                .ifPresent(it -> facts.add(new GuideStep.Fact(words.text("guide.found.device"), it)));
        heard.hello()
                .flatMap(ControllerHello::firmware)
                .ifPresent(it -> facts.add(new GuideStep.Fact(words.text("guide.found.firmware"), it)));
        heard.hello()
                .map(hello -> hello.probes().stream()
                        .map(probe -> words.text(
                                "guide.found.probe", probe.type(), PatternWords.amplifier(probe.amplifier(), words)))
                        .collect(Collectors.joining("; ")))
                .filter(probes -> !probes.isEmpty())
                .ifPresent(it -> facts.add(new GuideStep.Fact(words.text("guide.found.thermocouple"), it)));
        return plain(2, "guide.found.title", "guide.found.text", facts);
    }

    private GuideStep trial() {
        back();
        return made(
                3,
                words.text("guide.trial.title"),
                words.text("guide.trial.text", model.waitedMs() / 1000),
                Optional.empty());
    }

    private GuideStep watched() {
        can("guide.watched.no", "guide.watched.no_detail", () -> model.sawRestart(false));
        can("guide.watched.yes", "guide.watched.yes_detail", () -> model.sawRestart(true));
        can("guide.watched.unknown", "", model::toAbout);
        return plain(3, "guide.watched.title", "guide.watched.text", List.of());
    }

    private GuideStep tried() {
        Wire.Answer answer = model.answer().orElseThrow();
        can("guide.go_on", "", model::toAbout);
        back();
        String text = answer.trouble().orElseGet(() -> switch (answer.outcome()) {
            case GOES_ON -> words.text("guide.tried.goes_on");
            case RESTARTS -> words.text("guide.tried.restarts");
            case NOT_COLD ->
                words.text(
                        "guide.tried.not_cold",
                        answer.temperature().map(words::temperature).orElse("?"));
            case NO_TEMPERATURE -> words.text("guide.tried.no_temperature");
            case NO_UPTIME, SILENT, NOT_OPENED -> words.text("guide.tried.silent");
        });
        boolean good = answer.outcome() == Wire.Outcome.GOES_ON;
        return made(3, words.text(good ? "guide.tried.title_good" : "guide.tried.title"), text, Optional.empty());
    }

    private GuideStep about() {
        can("guide.about.no_plan", "", () -> model.beginChosen(Optional.empty()));
        for (String plan : model.choices().map(Recordings.Choices::plans).orElse(List.of())) {
            options.add(new GuideStep.Option(words.text("guide.about.plan", plan), ""));
            deeds.add(() -> model.beginChosen(Optional.of(plan)));
        }
        back();
        String hint = model.choices()
                .map(Recordings.Choices::kilns)
                .filter(kilns -> !kilns.isEmpty())
                .map(kilns -> words.text("guide.about.kilns", String.join(", ", kilns)))
                .orElse("");
        return field(
                4,
                "guide.about.title",
                "guide.about.text",
                Optional.of(words.text("caution.cutout.text") + " " + words.text("caution.presence.text")),
                new GuideStep.Field(words.text("guide.about.field"), model.name(), hint));
    }

    private void back() {
        can("guide.back", "", model::restart);
    }

    /** @param detail the key of what comes of it; empty where the label says all */
    private void can(String label, String detail, Runnable deed) {
        options.add(new GuideStep.Option(words.text(label), detail.isEmpty() ? "" : words.text(detail)));
        deeds.add(deed);
    }

    private GuideStep plain(int place, String title, String text, List<GuideStep.Fact> facts) {
        return made(place, words.text(title), words.text(text), Optional.empty(), facts);
    }

    private GuideStep field(int place, String title, String text, Optional<String> caution, GuideStep.Field field) {
        return new GuideStep(
                place,
                words.text(title),
                words.text(text),
                caution,
                model.trouble(),
                Optional.of(field),
                List.of(),
                List.of(),
                options);
    }

    private GuideStep made(int place, String title, String text, Optional<String> caution) {
        return made(place, title, text, caution, List.of());
    }

    private GuideStep made(int place, String title, String text, Optional<String> caution, List<GuideStep.Fact> facts) {
        List<LineView.Line> lines =
                model.port().heard().map(heard -> heard.lines().lines()).orElse(List.of());
        return new GuideStep(
                place,
                title,
                text,
                caution,
                model.trouble(),
                Optional.empty(),
                facts,
                lines.subList(Math.max(0, lines.size() - LINES_SHOWN), lines.size()).stream()
                        .map(LineView.Line::text)
                        .toList(),
                options);
    }
}
