package org.kilnside.command;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Supplier;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.Kiln;
import org.kilnside.link.LinkNotation;
import org.kilnside.session.FiringSettings;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** What a person says of a firing that is to be recorded: plan, kiln, and the book it goes into. */
final class WhatIsFired {
    @Option(
            names = "--plan",
            paramLabel = "FILE",
            description = "The plan to follow: a file, or the name of one, such as bisque.")
    private Optional<String> plan = Optional.empty();

    @Option(names = "--kiln", paramLabel = "NAME", description = "The kiln's name, for the book.")
    private Optional<String> kiln = Optional.empty();

    @Option(
            names = "--book",
            paramLabel = "FILE",
            description = "The firing book (this system's usual place, unless given).")
    private Optional<Path> book = Optional.empty();

    @Mixin
    private AlarmOptions limits;

    Path book() {
        return Surroundings.book(book);
    }

    Optional<String> kiln() {
        return kiln;
    }

    Optional<String> plan() {
        return plan;
    }

    FiredIn in(ProfileLibrary library) {
        return in(library, kiln, plan).saying(limits::applied);
    }

    static FiringSettings settings(ProfileLibrary library, Optional<String> kiln, Optional<String> plan) {
        return in(library, kiln, plan).settings();
    }

    static FiredIn in(ProfileLibrary library, Optional<String> kiln, Optional<String> plan) {
        Optional<ProfileLibrary.Plan> found = plan.map(library::plan);
        Supplier<Optional<Kiln>> file = () -> kiln.filter(library::knowsKiln).map(library::kiln);
        // A name alone is as good for the book as a kiln with a file; but that has one name in the book, as in its
        // file.
        Optional<String> name = file.get().map(Kiln::name).or(() -> kiln);
        return new FiredIn(
                FiringSettings.of(name, found.map(ProfileLibrary.Plan::schedule), found.map(ProfileLibrary.Plan::text)),
                file,
                settings -> settings);
    }

    /** The link as typed; a virtual kiln that was given no plan of its own fires the one that is followed. */
    String firing(String link) {
        LinkNotation notation = LinkNotation.parse(link);
        if (plan.isPresent()
                && notation instanceof LinkNotation.Virtual virtual
                && virtual.plan().isEmpty()) {
            return new LinkNotation.Virtual(virtual.name(), virtual.speed(), plan).text();
        }
        return link;
    }
}
