package org.kilnside.desktop;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.kilnside.command.Program;
import org.kilnside.testing.Tools;

/** A screen of memory with a window manager on it, on a display number of its own; programs are started against it. */
public final class VirtualScreen implements AutoCloseable {
    private final Process server;
    private final Optional<Process> manager;
    private final String display;

    private VirtualScreen(Process server, Optional<Process> manager, String display) {
        this.server = server;
        this.manager = manager;
        this.display = display;
    }

    /** Starts the screen, or ends the test where the programs for it are missing. */
    public static VirtualScreen start(int width, int height) throws IOException {
        VirtualScreen screen = bare(width, height);
        ProcessBuilder windows = new ProcessBuilder(Tools.require("openbox").toString())
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD);
        windows.environment().put("DISPLAY", screen.display);
        return new VirtualScreen(screen.server, Optional.of(windows.start()), screen.display);
    }

    /** The same with nobody who looks after windows: they stay where they are put, on the screen or beside it. */
    public static VirtualScreen bare(int width, int height) throws IOException {
        Path xvfb = Tools.require("Xvfb");
        Process server = new ProcessBuilder(
                        xvfb.toString(),
                        "-displayfd",
                        "1",
                        "-screen",
                        "0",
                        width + "x" + height + "x24",
                        "-nolisten",
                        "tcp")
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        BufferedReader said =
                new BufferedReader(new InputStreamReader(server.getInputStream(), StandardCharsets.US_ASCII));
        String number = said.readLine();
        if (number == null) {
            throw new IOException("Xvfb ended without saying which display it took");
        }
        String display = ":" + number.strip();
        return new VirtualScreen(server, Optional.empty(), display);
    }

    /** Starts a class of the tests' class path in a JVM of its own on this screen. */
    public Process java(List<String> options, Class<?> main, List<String> arguments) throws IOException {
        return java(Map.of(), options, main, arguments);
    }

    /** The same with further variables in its environment. */
    public Process java(Map<String, String> environment, List<String> options, Class<?> main, List<String> arguments)
            throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-ea",
                "-Djava.awt.headless=false"));
        command.addAll(Program.AS_LAUNCHED);
        command.addAll(List.of("-cp", System.getProperty("java.class.path")));
        command.addAll(options);
        command.add(main.getName());
        command.addAll(arguments);
        ProcessBuilder builder = new ProcessBuilder(command)
                .directory(new File(System.getProperty("user.dir")))
                .redirectErrorStream(true);
        builder.environment().put("DISPLAY", display);
        builder.environment().putAll(environment);
        return builder.start();
    }

    public String display() {
        return display;
    }

    @Override
    public void close() {
        manager.ifPresent(Process::destroy);
        server.destroy();
        try {
            if (!server.waitFor(5, TimeUnit.SECONDS)) {
                server.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
