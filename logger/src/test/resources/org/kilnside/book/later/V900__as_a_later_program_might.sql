-- Only for tests: a book one version on.
ALTER TABLE firing ADD COLUMN weather TEXT;
CREATE TABLE visitor (name TEXT NOT NULL) STRICT;
INSERT INTO visitor (name) SELECT coalesce(kiln, 'nobody') FROM firing;
UPDATE firing SET weather = 'dry';
DELETE FROM event;
PRAGMA user_version = 900;
