package org.kilnside.command;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.files.KilnFile;
import org.kilnside.files.KilnSetting;
import org.kilnside.firing.Kiln;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** What is known of the kilns. */
@Command(
        name = "kiln",
        mixinStandardHelpOptions = true,
        subcommands = {
            KilnCommand.ListKilns.class,
            KilnShow.class,
            KilnCommand.Set.class,
            KilnSensorCommands.Fit.class,
            KilnSensorCommands.Move.class,
            KilnSensorCommands.Compare.class,
            KilnSensorCommands.Strike.class
        },
        description =
                "Says what is known of a kiln, and changes it. What the kiln is stands in its file; which sensor it"
                        + " has, and what is known of that, in the firing book.")
public final class KilnCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Override
    public Integer call() {
        around.usage();
        return Complaint.ExitCode.USAGE.code();
    }

    /** The names of all kilns. */
    @Command(name = "list", mixinStandardHelpOptions = true, description = "Lists the kilns that have a file.")
    static final class ListKilns implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Override
        public Integer call() {
            List<String[]> rows = new ArrayList<>();
            for (String name : around.library().kilnNames()) {
                rows.add(new String[] {name, around.library().kiln(name).name()});
            }
            Table.print(around.out(), rows);
            return Complaint.ExitCode.DONE.code();
        }
    }

    /** Changes what the kiln's file says. */
    @Command(
            name = "set",
            mixinStandardHelpOptions = true,
            description = {
                "Changes what a kiln's file says, and says what stood there before; comments in the file stay. A kiln"
                        + " nobody has described yet gets a file of its own.",
                "For example: kilnside kiln set \"Tall Drum\" crack=\"100 °C\" unload=\"45 °C\" from-maker=yes"
            })
    static final class Set implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Parameters(index = "0", paramLabel = "KILN", description = "The kiln's name, or its file.")
        private String kiln;

        @Parameters(
                index = "1..*",
                arity = "1..*",
                paramLabel = "SETTING=VALUE",
                description = "name, volume, power, wall, opening, isolator, tariff, cut-out, series (the kind of cone:"
                        + " self-supporting, large or small), top (the maker's highest temperature), rate (the maker's fastest), crack, unload, from-maker. Nothing after the = takes"
                        + " a setting out.")
        private List<String> changes;

        @Override
        public Integer call() {
            Map<KilnSetting, Optional<String>> asked = new LinkedHashMap<>();
            for (String change : changes) {
                int at = change.indexOf('=');
                Optional<KilnSetting> setting = at < 1 ? Optional.empty() : KilnSetting.ofWord(change.substring(0, at));
                String value = at < 0 ? "" : change.substring(at + 1).strip();
                asked.put(
                        setting.orElseThrow(() -> new Complaint(
                                Complaint.ExitCode.USAGE,
                                "found \"" + change + "\", expected a setting and its value such as crack=\"100 °C\";"
                                        + " \"kilnside kiln set --help\" lists the settings")),
                        value.isEmpty() ? Optional.empty() : Optional.of(value));
            }
            KilnFile before = around.library().kilnFile(kiln);
            KilnFile after = before;
            for (Map.Entry<KilnSetting, Optional<String>> each : inAnOrderThatCanBeTaken(asked)) {
                after = after.with(each.getKey(), each.getValue());
            }
            after.write();
            say(asked.keySet(), before.kiln(), after);
            return Complaint.ExitCode.DONE.code();
        }

        /** The maker's word needs both thresholds to be there. */
        private static List<Map.Entry<KilnSetting, Optional<String>>> inAnOrderThatCanBeTaken(
                Map<KilnSetting, Optional<String>> asked) {
            List<Map.Entry<KilnSetting, Optional<String>>> ordered = new ArrayList<>(asked.entrySet());
            boolean takesMakerBack = asked.getOrDefault(KilnSetting.FROM_MAKER, Optional.of("yes"))
                    .map("no"::equalsIgnoreCase)
                    .orElse(true);
            ordered.sort((one, other) -> Boolean.compare(
                    (one.getKey() == KilnSetting.FROM_MAKER) != takesMakerBack,
                    (other.getKey() == KilnSetting.FROM_MAKER) != takesMakerBack));
            return ordered;
        }

        private void say(java.util.Set<KilnSetting> settings, Kiln before, KilnFile after) {
            Words words = around.words();
            for (KilnSetting setting : settings) {
                around.out()
                        .println(words.text(
                                "kilns.changed",
                                words.named("kilns.setting", setting),
                                setting.of(before).orElse(words.text("kilns.not_said")),
                                setting.of(after.kiln()).orElse(words.text("kilns.not_said"))));
            }
            around.out().println(words.text("kilns.written", after.path()));
            if (settings.contains(KilnSetting.SERIES)) {
                around.out().println(words.text("kiln.form.from_now"));
            }
            if (KilnFileWatch.FOLLOWED.stream().anyMatch(settings::contains)) {
                around.out().println(words.text("kilns.followed"));
            }
        }
    }
}
