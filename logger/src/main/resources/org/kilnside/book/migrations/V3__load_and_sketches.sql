-- What was in the kiln, how it came out, photos of it, and a small copy of each curve for the list.
-- NULL is "not said", never "zero".

-- Pieces that go through the studio together: the same batch stands in its bisque and in its glaze firing.
CREATE TABLE batch (
    number        INTEGER PRIMARY KEY,
    name          TEXT NOT NULL,
    clay          TEXT,
    thickness_mm  REAL                    -- of the thickest wall
) STRICT;

-- One batch in one firing.
CREATE TABLE loaded_batch (
    number   INTEGER PRIMARY KEY,
    firing   INTEGER NOT NULL REFERENCES firing (number),
    batch    INTEGER NOT NULL REFERENCES batch (number),
    pieces   INTEGER,
    glaze    TEXT,                        -- the glaze or the number of the mix
    coats    INTEGER,
    shelf    TEXT,
    outcome  TEXT NOT NULL,
    remark   TEXT
) STRICT;

CREATE INDEX loaded_batch_by_firing ON loaded_batch (firing, number);
CREATE INDEX loaded_batch_by_batch ON loaded_batch (batch);

-- What a glaze was mixed of, as it was mixed for this firing: a recipe changed later does not change the past.
CREATE TABLE glaze_part (
    loaded_batch  INTEGER NOT NULL REFERENCES loaded_batch (number) ON DELETE CASCADE,
    position      INTEGER NOT NULL,       -- counted from 1
    name          TEXT NOT NULL,
    parts         REAL NOT NULL,          -- by the same measure throughout one mix
    PRIMARY KEY (loaded_batch, position)
) STRICT, WITHOUT ROWID;

-- Photos lie in the book, made smaller, so that one file is the whole book. A photo taken out stays for a while, so that
-- this can be undone.
CREATE TABLE photo (
    number        INTEGER PRIMARY KEY,
    firing        INTEGER NOT NULL REFERENCES firing (number),
    name          TEXT NOT NULL,          -- what its file was called
    picture       BLOB NOT NULL,          -- JPEG, at most 2048 pixels a side
    thumbnail     BLOB NOT NULL,          -- JPEG, at most 320 pixels a side
    taken_out_at  TEXT                    -- ISO 8601, UTC; NULL while it is in the record
) STRICT;

CREATE INDEX photo_by_firing ON photo (firing, number);

-- A copy of each curve as the list draws it, and the cone it came to. Worked out anew when the firing has other
-- readings, or when a later program works it out in another way; the readings stay the truth.
CREATE TABLE sketch (
    firing           INTEGER PRIMARY KEY REFERENCES firing (number),
    method           INTEGER NOT NULL,
    reading_count    INTEGER NOT NULL,
    last_elapsed_ms  INTEGER NOT NULL,
    highest_c        BLOB NOT NULL,       -- for each of its columns the highest °C as 16 bit, big end first; -32768 = none
    peak_c           REAL,
    cone_past        TEXT,                -- the cone that is down; NULL below the softest
    cone_next        TEXT,
    cone_fraction    REAL,
    cone_top         TEXT                 -- whether the top was seen; NULL where there is no cone to tell
) STRICT;

-- Counts every change a person makes to a firing's record, so that another program sees that there was one.
ALTER TABLE firing ADD COLUMN edits INTEGER NOT NULL DEFAULT 0;

PRAGMA user_version = 3;
