-- Which wall of a room a photo shows: what is asked for once the wall is closed.
ALTER TABLE record ADD COLUMN wall TEXT;
-- The history's images follow the columns: records noted before can still be taken back.
UPDATE change SET before = json_set(before, '$.wall', NULL) WHERE tbl = 'record' AND before IS NOT NULL;
UPDATE change SET after = json_set(after, '$.wall', NULL) WHERE tbl = 'record' AND after IS NOT NULL;
