package org.kilnside.book;

import java.sql.SQLException;
import java.util.List;
import org.kilnside.firing.FiringEvent;
import org.kilnside.sensor.Probe;
import org.kilnside.session.FiringBook.ClockTie;
import org.kilnside.session.FiringBook.FiringStart;

/** Something on its way into the book. */
sealed interface Entry {
    long firing();

    /** Hands this to the connection; on disk once the commit it belongs to has returned. */
    void write(BookWriter writer) throws SQLException;

    record Begin(long firing, FiringStart start) implements Entry {
        @Override
        public void write(BookWriter writer) throws SQLException {
            writer.begin(firing, start);
        }
    }

    record Line(long firing, ReadingRow row) implements Entry {
        @Override
        public void write(BookWriter writer) throws SQLException {
            writer.reading(firing, row);
        }
    }

    record Happening(long firing, FiringEvent event) implements Entry {
        @Override
        public void write(BookWriter writer) throws SQLException {
            writer.event(firing, event);
        }
    }

    record Sensors(long firing, long fromElapsedMs, List<Probe> probes) implements Entry {
        @Override
        public void write(BookWriter writer) throws SQLException {
            writer.sensors(firing, fromElapsedMs, probes);
        }
    }

    record Tie(long firing, ClockTie tie) implements Entry {
        @Override
        public void write(BookWriter writer) throws SQLException {
            writer.clockTie(firing, tie);
        }
    }

    record End(long firing, long elapsedMs) implements Entry {
        @Override
        public void write(BookWriter writer) throws SQLException {
            writer.end(firing, elapsedMs);
        }
    }
}
