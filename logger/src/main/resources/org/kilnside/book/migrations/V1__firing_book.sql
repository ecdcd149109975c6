-- The firing book. Times are the recording's own: milliseconds since its zero, on the controller's clock.
-- A number goes with its unit in the column's name. NULL is "not said", never "zero".

CREATE TABLE firing (
    number            INTEGER PRIMARY KEY,
    kiln              TEXT,
    link              TEXT NOT NULL,      -- where the readings came from, as a person types it
    started_at        TEXT NOT NULL,      -- the wall clock at elapsed 0, ISO 8601, UTC
    plan_name         TEXT,
    plan_text         TEXT,               -- the plan's file as it was
    load_text         TEXT,               -- what was in the kiln, in the potter's words
    notes             TEXT,
    ended_elapsed_ms  INTEGER,            -- NULL while the firing goes on
    -- What the list shows, worked out when the firing ends; the readings stay the truth.
    reading_count     INTEGER,
    last_elapsed_ms   INTEGER,
    peak_c            REAL,
    peak_elapsed_ms   INTEGER
) STRICT;

-- The plan as it was understood: one row a segment. Free cooling has no rate, target or hold.
CREATE TABLE plan_segment (
    firing            INTEGER NOT NULL REFERENCES firing (number),
    position          INTEGER NOT NULL,   -- counted from 1
    rate_c_per_hour   REAL,               -- always positive
    target_c          REAL,
    hold_ms           INTEGER,
    PRIMARY KEY (firing, position)
) STRICT, WITHOUT ROWID;

-- One line of the controller: its guiding channel (1) and what it says of itself. Codes are the amplifier's own;
-- what one step is worth follows from the probe in force at that time.
CREATE TABLE reading (
    firing                 INTEGER NOT NULL REFERENCES firing (number),
    elapsed_ms             INTEGER NOT NULL,
    repeat                 INTEGER NOT NULL,  -- 0; counts on where several lines fall into one millisecond
    thermocouple_code      INTEGER,
    cold_junction_code     INTEGER,
    fault_bits             INTEGER NOT NULL,
    output_hundredths_pct  INTEGER,           -- element output in 0.01 %
    setpoint_hundredths_c  INTEGER,           -- set-point in 0.01 °C
    segment                INTEGER,           -- counted from 1, as the controller says
    origin                 INTEGER NOT NULL CHECK (origin BETWEEN 0 AND 2), -- 0 live, 1 filled in, 2 imported
    PRIMARY KEY (firing, elapsed_ms, repeat)
) STRICT, WITHOUT ROWID;

-- Channels beside the guiding one, on the same line: witnesses.
CREATE TABLE further_channel (
    firing              INTEGER NOT NULL,
    elapsed_ms          INTEGER NOT NULL,
    repeat              INTEGER NOT NULL,
    channel             INTEGER NOT NULL CHECK (channel > 1),
    thermocouple_code   INTEGER,
    cold_junction_code  INTEGER,
    fault_bits          INTEGER NOT NULL,
    PRIMARY KEY (firing, elapsed_ms, repeat, channel),
    FOREIGN KEY (firing, elapsed_ms, repeat) REFERENCES reading (firing, elapsed_ms, repeat)
) STRICT, WITHOUT ROWID;

-- What stood behind a channel from a time on. A change ends every calibration.
CREATE TABLE probe (
    firing             INTEGER NOT NULL REFERENCES firing (number),
    from_elapsed_ms    INTEGER NOT NULL,
    channel            INTEGER NOT NULL,
    thermocouple_type  TEXT NOT NULL,     -- IEC 60584 letter
    amplifier          TEXT NOT NULL,
    PRIMARY KEY (firing, from_elapsed_ms, channel)
) STRICT, WITHOUT ROWID;

-- A moment at which the recording's clock and the wall clock were both read.
CREATE TABLE clock_tie (
    firing      INTEGER NOT NULL REFERENCES firing (number),
    elapsed_ms  INTEGER NOT NULL,
    uptime_ms   INTEGER,                  -- the controller's uptime, its wrap bridged
    wall_clock  TEXT NOT NULL,            -- ISO 8601, UTC
    PRIMARY KEY (firing, elapsed_ms)
) STRICT, WITHOUT ROWID;

CREATE TABLE event (
    number      INTEGER PRIMARY KEY,
    firing      INTEGER NOT NULL REFERENCES firing (number),
    elapsed_ms  INTEGER NOT NULL,
    kind        TEXT NOT NULL,
    text        TEXT
) STRICT;

CREATE INDEX event_by_firing ON event (firing, elapsed_ms);

PRAGMA application_id = 1265200238; -- 'Kiln': tells a firing book from any other SQLite file
PRAGMA user_version = 1;
