-- By which kind of cone a firing is judged, as its kiln had it when it began: a kiln that gets other cones later leaves
-- its earlier firings as they were. Witness cones noted for the firing go before it.
ALTER TABLE firing ADD COLUMN series TEXT NOT NULL DEFAULT 'self_supporting';  -- self_supporting, large, small

-- The cones in which a sketch tells what the firing came to; NULL where there is no cone to tell.
ALTER TABLE sketch ADD COLUMN cone_series TEXT;

-- Until now every cone a sketch tells was a self-supporting one; those of firings with other witness cones are to be made
-- anew.
UPDATE sketch SET cone_series = 'self_supporting' WHERE cone_top IS NOT NULL;
UPDATE sketch SET method = 0 WHERE firing IN (SELECT firing FROM witness_cone WHERE series <> 'self_supporting');

PRAGMA user_version = 4;
