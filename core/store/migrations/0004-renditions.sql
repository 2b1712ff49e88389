-- What was asked for beyond sound pages (a clean-up, places blacked out), as JSON; empty for a file's own pages. Pages
-- made as asked belong to the paper they were made for and never stand in for the file's own.
ALTER TABLE rendition ADD COLUMN asked TEXT NOT NULL DEFAULT '';
-- What each digital signature of the original says.
ALTER TABLE rendition ADD COLUMN seals TEXT NOT NULL DEFAULT '[]';
UPDATE rendition SET asked = '{"blackOut":"places told by the recipe"}' WHERE recipe LIKE '%; blacked out/%';
UPDATE rendition SET asked = '{"clean":"told by the recipe"}' WHERE asked = '' AND recipe LIKE '%cleaned up as asked%';
