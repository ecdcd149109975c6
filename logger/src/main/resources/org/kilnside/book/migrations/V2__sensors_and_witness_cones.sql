-- What stands in a kiln to read its temperature, what is known of it, and what witness cones showed.
-- What the kiln itself is (volume, limits, thresholds, tariff) stands in its file; here is what happened to it.
-- NULL is "not said", never "zero".

-- One sensor in one place, from a time to a time. A new sensor, amplifier or place is a new row: what was known of the
-- old one ends with it.
CREATE TABLE sensor (
    number             INTEGER PRIMARY KEY,
    kiln               TEXT NOT NULL,      -- its name, as in its firings
    channel            INTEGER NOT NULL CHECK (channel BETWEEN 1 AND 4),  -- 1 guides
    name               TEXT NOT NULL,      -- what the potter calls this very sensor
    place              TEXT NOT NULL,      -- where its tip is, in the potter's words
    thermocouple_type  TEXT NOT NULL,      -- IEC 60584 letter
    amplifier          TEXT NOT NULL,      -- by which the readings come
    uncorrected        TEXT,               -- the chip whose number the controller shows as it is; NULL = it shows the truth
    tolerance_class    INTEGER NOT NULL CHECK (tolerance_class BETWEEN 1 AND 3),  -- IEC 60584-1
    fitted_at          TEXT NOT NULL,      -- ISO 8601, UTC
    removed_at         TEXT                -- NULL while it is there
) STRICT;

CREATE INDEX sensor_by_kiln ON sensor (kiln, channel, fitted_at);

-- What had to be added to a sensor's reading to have the truth, found by comparing it with something.
CREATE TABLE calibration_point (
    number        INTEGER PRIMARY KEY,
    sensor        INTEGER NOT NULL REFERENCES sensor (number),
    reading_c     REAL,                    -- what the sensor read; NULL = the same everywhere
    correction_k  REAL NOT NULL,
    half_width_k  REAL NOT NULL CHECK (half_width_k > 0),  -- how far the correction may be off
    compared_with TEXT NOT NULL,
    found_at      TEXT NOT NULL            -- ISO 8601, UTC
) STRICT;

CREATE INDEX calibration_point_by_sensor ON calibration_point (sensor);

-- One witness cone of a firing.
CREATE TABLE witness_cone (
    number                INTEGER PRIMARY KEY,
    firing                INTEGER NOT NULL REFERENCES firing (number),
    shelf                 TEXT NOT NULL,   -- in the potter's words
    series                TEXT NOT NULL,   -- self_supporting, large, small
    cone                  TEXT NOT NULL,   -- its number, the zero in front kept
    bent_degrees          REAL CHECK (bent_degrees BETWEEN 0 AND 180),  -- NULL = nobody looked how far
    seen_down_elapsed_ms  INTEGER          -- when it was seen to go down, on the recording's clock
) STRICT;

CREATE INDEX witness_cone_by_firing ON witness_cone (firing, number);

-- A copy: by how much a firing's cones say that the ware was hotter than the sensor read. Worked out when cones are
-- noted; the cones and the readings stay the truth.
CREATE TABLE witness_offset (
    firing        INTEGER PRIMARY KEY REFERENCES firing (number),
    sensor        INTEGER NOT NULL REFERENCES sensor (number),
    correction_k  REAL NOT NULL,
    half_width_k  REAL NOT NULL,
    at_c          REAL NOT NULL,
    disagree      INTEGER NOT NULL CHECK (disagree BETWEEN 0 AND 1)
) STRICT;

PRAGMA user_version = 2;
