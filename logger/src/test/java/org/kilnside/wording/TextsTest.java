package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.alarm.AlarmChange;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Grade;
import org.kilnside.desktop.week.WeekField;
import org.kilnside.files.KilnSetting;
import org.kilnside.files.LinePattern;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Lighting;
import org.kilnside.firing.Outcome;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.PlanWarning;
import org.kilnside.outlook.WantedCone;
import org.kilnside.review.Advice;
import org.kilnside.review.CauseCode;
import org.kilnside.review.Evidence;
import org.kilnside.review.Remark;
import org.kilnside.review.Sureness;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.SensorFault;
import org.kilnside.sensor.SignalWatch;
import org.kilnside.session.Connection;
import org.kilnside.session.LineView;
import org.kilnside.session.Post;
import org.kilnside.thermal.Forecast;
import org.kilnside.tracking.PlanPosition;
import org.kilnside.week.PlannedFiring;

/** The three languages' files against each other and against the program that uses them. */
class TextsTest {
    /** Families whose key ends in a constant's name. */
    private static final Map<String, Class<? extends Enum<?>>> FAMILIES = Map.ofEntries(
            Map.entry("event", FiringEvent.Kind.class),
            Map.entry("fault", SensorFault.class),
            Map.entry("leg", PlanPosition.Leg.class),
            Map.entry("alarm", AlarmKind.class),
            Map.entry("alarm.do", AlarmKind.Advice.class),
            Map.entry("alarm.what", AlarmChange.What.class),
            Map.entry("alarm.grade", Grade.class),
            Map.entry("lighting", Lighting.Item.class),
            Map.entry("lighting.short", Lighting.Item.class),
            Map.entry("post.role", Post.Role.class),
            Map.entry("post.awake", Post.Awake.class),
            Map.entry("connection", Connection.State.class),
            Map.entry("doubt", SignalWatch.Suspicion.class),
            Map.entry("forecast.stage", Forecast.Stage.class),
            Map.entry("forecast.choice", Forecast.Choice.Way.class),
            Map.entry("forecast.remark", Forecast.Remark.Kind.class),
            Map.entry("kilns.setting", KilnSetting.class),
            Map.entry("ahead.choice", Forecast.Choice.Way.class),
            Map.entry("kilns.by", Calibration.By.class),
            Map.entry("outlook.basis", PlanWarning.Basis.class),
            Map.entry("outlook.too_fast", PlanWarning.Passage.class),
            Map.entry("outlook.unknown", Outlook.Unknown.class),
            Map.entry("outlook.no_top", WantedCone.NoTop.class),
            Map.entry("line", LineView.Verdict.class),
            Map.entry("line.sort", LineView.Sort.class),
            Map.entry("line.why", LineView.Verdict.class),
            Map.entry("outcome", Outcome.class),
            Map.entry("noted.looks", WitnessCone.Bend.class),
            Map.entry("noted.series", ConeSeries.class),
            Map.entry("pattern", LinePattern.Quantity.class),
            Map.entry("review.cause", CauseCode.class),
            Map.entry("review.sure", Sureness.class),
            Map.entry("review.evidence", Evidence.Kind.class),
            Map.entry("review.advice", Advice.Kind.class),
            Map.entry("review.remark", Remark.Kind.class),
            Map.entry("week.waits", PlannedFiring.WaitsFor.class),
            Map.entry("week.at_top", PlannedFiring.AtTop.class),
            Map.entry("week.field", WeekField.class));

    private static final Pattern PLACE = Pattern.compile("\\{\\d}");
    private static final Pattern LITERAL = Pattern.compile("\"([a-z0-9_]+(?:\\.[a-zA-Z0-9_]+)*)\"");

    @ParameterizedTest
    @EnumSource(Language.class)
    void everyLanguageHasTheSameTexts(Language language) {
        assertThat(texts(language).stringPropertyNames())
                .containsExactlyInAnyOrderElementsOf(texts(Language.ENGLISH).stringPropertyNames());
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void everyTextHasTheSamePlacesToFillAsInEnglish(Language language) {
        Properties english = texts(Language.ENGLISH);
        Properties other = texts(language);
        for (String key : english.stringPropertyNames()) {
            assertThat(places(other.getProperty(key)))
                    .as(key + " in " + language)
                    .isEqualTo(places(english.getProperty(key)));
        }
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void noTextIsEmptyAndNoneIsWrittenTwice(Language language) throws IOException {
        assertThat(texts(language).values()).noneMatch(text -> text.toString().isBlank());
        try (Stream<String> lines = Files.lines(file(language), StandardCharsets.UTF_8)) {
            assertThat(lines.filter(line -> !line.startsWith("#") && line.contains("="))
                            .map(line -> line.substring(0, line.indexOf('=')).strip()))
                    .doesNotHaveDuplicates();
        }
    }

    @Test
    void everyTextIsUsedAndEveryTextUsedIsThere() throws IOException {
        Set<String> there = texts(Language.ENGLISH).stringPropertyNames();
        Set<String> spoken = new HashSet<>();
        FAMILIES.forEach((family, constants) -> Arrays.stream(constants.getEnumConstants())
                .forEach(constant -> spoken.add(family + "." + constant.name())));
        Cautions.TOPICS.forEach(topic -> {
            spoken.add("caution." + topic + ".heading");
            spoken.add("caution." + topic + ".text");
        });
        Set<String> heads =
                there.stream().map(key -> key.replaceAll("\\..*", "")).collect(Collectors.toSet());
        Set<String> asked = new TreeSet<>();
        try (Stream<Path> sources = Files.walk(Path.of("src/main/java"))) {
            for (Path source :
                    sources.filter(path -> path.toString().endsWith(".java")).toList()) {
                String code = Files.readString(source);
                Matcher literal = LITERAL.matcher(code);
                while (literal.find()) {
                    if (there.contains(literal.group(1))) {
                        spoken.add(literal.group(1));
                    }
                }
                Matcher call = Pattern.compile("\\.text\\(\\s*(?:\\w[^()\"]*\\?\\s*)?\"([a-z_.A-Z0-9]+)\"")
                        .matcher(code);
                // There the keys are those of a person's own files.
                boolean ofFiles = source.startsWith("src/main/java/org/kilnside/files");
                while (!ofFiles && call.find()) {
                    asked.add(call.group(1));
                }
            }
        }
        assertThat(there).as("texts nobody says").isSubsetOf(spoken);
        assertThat(spoken).as("texts of a family that are missing").isSubsetOf(there);
        assertThat(asked.stream().filter(key -> heads.contains(key.replaceAll("\\..*", ""))))
                .as("texts asked for that are missing")
                .allMatch(key -> there.contains(key) || key.endsWith("."));
        assertThat(asked).hasSizeGreaterThan(40);
    }

    @Test
    void noTextCallsAnythingSafe() {
        assertThat(all(Language.ENGLISH)).doesNotContainPattern("(?i)\\bsafe(ly)?\\b");
        assertThat(all(Language.DUTCH)).doesNotContainPattern("(?i)\\bveilig");
        assertThat(all(Language.GERMAN)).doesNotContainPattern("(?i)\\bsicher\\b|ungefährlich");
    }

    @Test
    void dutchSpellsWitnessConesInOneWay() {
        assertThat(all(Language.DUTCH)).contains("getuigenkegels").doesNotContainPattern("(?i)getuigekegel");
    }

    @Test
    void inDutchAFiringUsesItsEnergyAndCostsItsMoney() {
        Properties dutch = texts(Language.DUTCH);
        assertThat(dutch.getProperty("outlook.energy")).isEqualTo("verbruikt {0} kWh ({1} tot {2})");
        assertThat(dutch.getProperty("outlook.cost")).isEqualTo("kost {0} {3} ({1} tot {2})");
    }

    @Test
    void noTextUsesTheProgrammersWords() {
        // The command that lets other computers follow is called share, and a text may name it.
        assertThat(all(Language.ENGLISH).replaceAll("kilnside share|--share", ""))
                .doesNotContainPattern("(?i)\\b(link|stage|shares?|likelihood|kept|soak)\\b");
    }

    private static String all(Language language) {
        return String.join(
                "\n", texts(language).values().stream().map(Object::toString).toList());
    }

    private static Set<String> places(String text) {
        return PLACE.matcher(text).results().map(found -> found.group()).collect(Collectors.toCollection(TreeSet::new));
    }

    private static Properties texts(Language language) {
        Properties texts = new Properties();
        try (Reader reader = new InputStreamReader(Files.newInputStream(file(language)), StandardCharsets.UTF_8)) {
            texts.load(reader);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        return texts;
    }

    private static Path file(Language language) {
        return Path.of("src/main/resources/org/kilnside/wording/texts_"
                + language.locale().getLanguage() + ".properties");
    }
}
