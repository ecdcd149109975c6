package org.kilnside.command;

import java.time.Duration;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Consumer;
import java.util.function.IntSupplier;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Bell;
import org.kilnside.files.NightSettings;
import org.kilnside.firing.Lighting;
import org.kilnside.host.ComputerName;
import org.kilnside.host.StayAwake;
import org.kilnside.host.TestedAlarm;
import org.kilnside.link.AttachedFiring;
import org.kilnside.session.AlarmTrial;
import org.kilnside.session.Connection;
import org.kilnside.session.Host;
import org.kilnside.session.HostClock;
import org.kilnside.session.LineView;
import org.kilnside.session.Listeners;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.LiveFiring;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps watch over a live firing on this computer: rings, keeps the computer awake, and on a copy that follows raises
 * the alarm that nothing is heard any more. The feed it gives on is the firing's own with what this computer has to add.
 */
final class NightWatch implements LiveFeed, AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(NightWatch.class);
    private static final long TICK_MS = 500;

    private final LiveFeed inner;
    private final HostClock clock;
    private final WatchedFrom from;
    private final Announcer announcer;
    private final StayAwake awake;
    private final Rehearsal rehearsal;
    private final String name;
    private final Words words;
    private final Bell bell;
    private final Health health;
    private final Listeners listeners = new Listeners();
    private final Subscription subscription;
    private final Thread thread = new Thread(this::work, "night-watch");
    private final Object publishing = new Object();

    private final AnsweredHere answered = new AnsweredHere();
    private final UnheardOnRecord unheard;

    private volatile List<Alarm> own = List.of();
    private volatile Post post;
    private volatile Snapshot latest;
    private volatile boolean closed;
    private boolean listNoted;
    private boolean rung;

    private NightWatch(
            LiveFeed inner,
            HostClock clock,
            WatchedFrom from,
            NightSettings settings,
            StayAwake awake,
            TestedAlarm tested,
            Words words) {
        this.inner = inner;
        this.rehearsal = new Rehearsal(tested);
        this.clock = clock;
        this.from = from;
        this.announcer = new Announcer(settings, words);
        this.awake = awake;
        this.name = settings.name().orElseGet(ComputerName::ofThisComputer);
        this.words = words;
        this.unheard = new UnheardOnRecord(words, from.record());
        this.bell = new Bell(settings.quiet());
        this.post = look();
        this.health = new Health(clock.monotonicMs());
        this.latest = whole(inner.latest());
        this.subscription = inner.subscribe(snapshot -> publish());
        thread.setDaemon(true);
    }

    /**
     * Keeps watch over a recording of this process.
     *
     * @param followers how many copies follow it
     * @param host asked for the line about its health
     * @param tested keeps when its alarm was heard
     */
    static NightWatch overRecording(
            LiveFiring firing,
            HostClock clock,
            IntSupplier followers,
            Host host,
            NightSettings settings,
            StayAwake awake,
            TestedAlarm tested,
            Words words) {
        NightWatch watch = new NightWatch(
                firing, clock, WatchedFrom.recorder(firing, followers, host), settings, awake, tested, words);
        watch.thread.start();
        return watch;
    }

    /** Keeps watch over a recording that is followed. */
    static NightWatch overCopy(
            AttachedFiring firing, HostClock clock, NightSettings settings, TestedAlarm tested, Words words) {
        return over(WatchedFrom.copy(firing, true), firing, clock, settings, tested, words);
    }

    /** Keeps watch from a window opened where perhaps nothing is recorded: then nothing rings. */
    static NightWatch overPerhaps(
            AttachedFiring firing, HostClock clock, NightSettings settings, TestedAlarm tested, Words words) {
        return over(WatchedFrom.copy(firing, false), firing, clock, settings, tested, words);
    }

    private static NightWatch over(
            WatchedFrom from,
            AttachedFiring firing,
            HostClock clock,
            NightSettings settings,
            TestedAlarm tested,
            Words words) {
        NightWatch watch =
                new NightWatch(firing, clock, from, settings, StayAwake.ofThisComputer(words), tested, words);
        watch.thread.start();
        return watch;
    }

    private boolean records() {
        return from.role() == Post.Role.RECORDER;
    }

    private void work() {
        while (!closed) {
            try {
                tick();
                Thread.sleep(TICK_MS);
            } catch (InterruptedException e) {
                return;
            } catch (RuntimeException e) {
                // Whoever keeps watch goes on, whatever happens.
                LOG.error("a fault while keeping watch", e);
                post = look();
            }
        }
    }

    private void tick() {
        long now = clock.monotonicMs();
        Snapshot snapshot = inner.latest();
        awake.keep(!RecorderSilence.isOver(snapshot));
        own = ownAlarms(snapshot, now);
        if (records()) {
            noteUnlitList(snapshot);
        }
        post = look();
        if (snapshot.firing().isPresent()) {
            // Before there is a record to write it into it stands on the screen.
            unheard.look(post, rung);
        }
        publish();
        ring(latest, now);
        health.tell(snapshot, post, from.host().report(), now);
    }

    private void ring(Snapshot snapshot, long now) {
        answered.keepOnly(snapshot.alarms());
        List<Alarm> audible =
                snapshot.alarms().stream().filter(answered::isAudible).toList();
        LocalTime time = LocalTime.ofInstant(clock.wallClock(), ZoneId.systemDefault());
        bell.due(audible, now, time).forEach(ring -> {
            rung = true;
            announcer.ring(ring, snapshot);
        });
        if (audible.stream().noneMatch(Alarm::rings)) {
            announcer.quiet();
        }
    }

    private List<Alarm> ownAlarms(Snapshot snapshot, long now) {
        List<Alarm> alarms = new ArrayList<>(rehearsal.look(now));
        from.silence().ifPresent(it -> alarms.addAll(it.look(snapshot, now)));
        return List.copyOf(alarms);
    }

    private Post look() {
        StayAwake.Answer sleep = awake.answer();
        return new Post(
                from.role(),
                Post.Awake.valueOf(sleep.state().name()),
                sleep.why(),
                announcer.sounds(),
                announcer.soundTrouble(),
                announcer.hasCommand(),
                announcer.commandTrouble(),
                rehearsal.lastHere(),
                rehearsal.elsewhere(),
                from.waiting().getAsInt(),
                from.tooLate().getAsInt(),
                records() ? OptionalInt.of(from.followers().getAsInt()) : OptionalInt.empty());
    }

    /** A kiln that was lit without a word about the list: that is noted, and can be made up for. */
    private void noteUnlitList(Snapshot snapshot) {
        if (!listNoted
                && snapshot.firing().isPresent()
                && snapshot.stage() == Snapshot.Stage.HEATING
                && snapshot.lighting().isEmpty()) {
            listNoted = true;
            inner.lighting(Lighting.SKIPPED);
        } else if (snapshot.stage() == Snapshot.Stage.WAITING_TO_START) {
            listNoted = false;
        }
    }

    private void publish() {
        synchronized (publishing) {
            Snapshot next = whole(inner.latest());
            if (!same(next, latest)) {
                latest = next;
                listeners.tell(next);
            }
        }
    }

    private static boolean same(Snapshot one, Snapshot other) {
        return one.sequence() == other.sequence()
                && one.connection().equals(other.connection())
                && one.latest().equals(other.latest())
                && one.alarms().equals(other.alarms())
                && one.posts().equals(other.posts());
    }

    /** The firing's own snapshot with this computer's alarms and post added. */
    private Snapshot whole(Snapshot its) {
        List<Post> posts = new ArrayList<>(its.posts());
        posts.add(post);
        Snapshot whole = its.withPosts(posts);
        List<Alarm> alarms = new ArrayList<>(its.alarms());
        alarms.addAll(own);
        if (!records()) {
            // A test is over where its recorder is gone.
            alarms.removeIf(
                    alarm -> alarm.kind() == AlarmKind.TEST && its.connection().state() == Connection.State.LOST);
            // What was answered here stands as answered here, also where the recorder cannot be told.
            alarms.replaceAll(answered::asAnswered);
        }
        if (alarms.equals(its.alarms())) {
            return whole;
        }
        alarms.sort(Alarm.WORST_FIRST);
        return whole.withAlarms(alarms);
    }

    /** An alarm as it stands for who sits before this computer. */
    Alarm asAnswered(Alarm alarm) {
        return answered.asAnswered(alarm);
    }

    @Override
    public Optional<AlarmTrial> alarmTrial() {
        return Optional.of(new AlarmTrial() {
            @Override
            public Optional<String> tryIt() {
                return announcer.test();
            }

            @Override
            public void heard() {
                rehearsal.heardHere(clock.wallClock());
            }
        });
    }

    @Override
    public void lighting(Lighting list) {
        inner.lighting(list);
    }

    @Override
    public Snapshot latest() {
        return latest;
    }

    @Override
    public Subscription subscribe(Consumer<Snapshot> listener) {
        return listeners.add(listener);
    }

    @Override
    public LineView lines() {
        return inner.lines();
    }

    @Override
    public boolean takesNotes() {
        return inner.takesNotes();
    }

    @Override
    public void note(String text) {
        inner.note(text);
    }

    @Override
    public void note(String text, Duration ago) {
        inner.note(text, ago);
    }

    @Override
    public void ringTest() {
        if (records()) {
            rehearsal.begin(clock.monotonicMs(), RecorderSilence.elapsedNow(latest, clock.monotonicMs()));
        } else {
            inner.ringTest();
        }
    }

    @Override
    public void testHeard(String computer) {
        if (records()) {
            String heard = rehearsal.heardElsewhere(computer, clock.wallClock());
            inner.note(words.text("alarm_test.noted", heard));
        } else {
            inner.testHeard(computer);
        }
    }

    /** A person hears the test here: it is silent here and rings on elsewhere, if there is an elsewhere. */
    private void testHeardHere() {
        rehearsal.heardHere(clock.wallClock());
        if (records()) {
            if (from.followers().getAsInt() == 0) {
                rehearsal.end();
            }
            inner.note(words.text("alarm_test.noted", name));
        } else if (inner.takesNotes()) {
            inner.testHeard(name);
        }
    }

    @Override
    public void acknowledge(String alarmId) {
        boolean test = latest.alarms().stream()
                .anyMatch(alarm -> alarm.kind() == AlarmKind.TEST && alarm.id().equals(alarmId));
        latest.alarms().stream().filter(alarm -> alarm.id().equals(alarmId)).forEach(answered::answer);
        boolean ownAlarm = own.stream().anyMatch(alarm -> alarm.id().equals(alarmId));
        if (test) {
            testHeardHere();
        } else if (ownAlarm) {
            from.silence().ifPresent(it -> it.acknowledge(alarmId, latest, clock.monotonicMs()));
        } else if (inner.takesNotes()) {
            inner.acknowledge(alarmId);
        }
    }

    @Override
    public void firingBegins() {
        inner.firingBegins();
    }

    @Override
    public void firingEnds() {
        inner.firingEnds();
    }

    @Override
    public void close() {
        closed = true;
        thread.interrupt();
        subscription.close();
        announcer.close();
        awake.close();
    }
}
