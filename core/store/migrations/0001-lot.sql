-- The lot as rows. What can be derived (validity, findings, the way, "waiting for") is never stored.
-- Days are ISO 8601 text, money is whole cents, structured values are JSON text. `seq` keeps the order
-- in which things were kept and is never used twice, so that undo can put a row back where it stood.

CREATE TABLE act (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  title TEXT NOT NULL,
  at TEXT NOT NULL,
  undoes INTEGER REFERENCES act(seq),
  -- Why this act can't be undone; NULL where it can.
  lasting TEXT
) STRICT;
CREATE INDEX act_undoes ON act(undoes);

-- Written by triggers (made for every connection from the columns of each table): the row before and after.
CREATE TABLE change (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  act INTEGER NOT NULL REFERENCES act(seq),
  tbl TEXT NOT NULL,
  row_key INTEGER NOT NULL,
  before TEXT,
  after TEXT
) STRICT;
CREATE INDEX change_act ON change(act);
CREATE INDEX change_row ON change(tbl, row_key);

CREATE TABLE lease (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  token TEXT NOT NULL,
  program TEXT NOT NULL,
  host TEXT NOT NULL,
  pid INTEGER NOT NULL,
  booted INTEGER NOT NULL,
  heartbeat INTEGER NOT NULL
) STRICT;

-- Practices are kept by hash and never changed; `layers` are the texts they were made from.
CREATE TABLE practice (
  sha TEXT PRIMARY KEY,
  title TEXT NOT NULL,
  json TEXT NOT NULL,
  layers TEXT NOT NULL
) STRICT;

CREATE TABLE lot (
  seq INTEGER PRIMARY KEY CHECK (seq = 1),
  title TEXT NOT NULL,
  begun TEXT NOT NULL,
  target TEXT,
  practice TEXT NOT NULL REFERENCES practice(sha)
) STRICT;

CREATE TABLE lot_fact (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  question TEXT NOT NULL UNIQUE,
  answer TEXT NOT NULL CHECK (json_valid(answer))
) STRICT;

CREATE TABLE identity (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  sort TEXT NOT NULL CHECK (sort IN ('owner', 'place', 'parcel')),
  text TEXT NOT NULL,
  since TEXT,
  till TEXT
) STRICT;

CREATE TABLE same_as (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  sort TEXT NOT NULL CHECK (sort IN ('owner', 'place', 'parcel')),
  a TEXT NOT NULL,
  b TEXT NOT NULL,
  UNIQUE (sort, a, b)
) STRICT;

CREATE TABLE subject (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  sort TEXT NOT NULL CHECK (sort IN ('engagement', 'area', 'draw')),
  title TEXT NOT NULL,
  firm TEXT,
  trade TEXT,
  since TEXT,
  till TEXT
) STRICT;

CREATE TABLE event (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  event TEXT NOT NULL,
  day TEXT NOT NULL,
  note TEXT,
  UNIQUE (event, day)
) STRICT;

-- "The clerk said otherwise": a practice amendment by word, as a layer text.
CREATE TABLE office_word (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  office TEXT NOT NULL,
  who TEXT NOT NULL,
  day TEXT NOT NULL,
  said TEXT NOT NULL,
  layer TEXT NOT NULL
) STRICT;

-- Files by hash. A purged file keeps its row, without bytes.
CREATE TABLE file (
  sha TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  ext TEXT NOT NULL,
  bytes INTEGER NOT NULL CHECK (bytes >= 0),
  purged INTEGER NOT NULL DEFAULT 0 CHECK (purged IN (0, 1))
) STRICT;

CREATE TABLE purge (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  file TEXT NOT NULL REFERENCES file(sha),
  at TEXT NOT NULL,
  reason TEXT NOT NULL
) STRICT;

CREATE TABLE rendition (
  sha TEXT PRIMARY KEY,
  source TEXT NOT NULL REFERENCES file(sha),
  recipe TEXT NOT NULL,
  tool TEXT NOT NULL,
  rung TEXT NOT NULL,
  sealed INTEGER NOT NULL CHECK (sealed IN (0, 1)),
  notes TEXT NOT NULL,
  bytes INTEGER NOT NULL CHECK (bytes >= 0),
  purged INTEGER NOT NULL DEFAULT 0 CHECK (purged IN (0, 1))
) STRICT;
CREATE INDEX rendition_source ON rendition(source);

CREATE TABLE page (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  rendition TEXT NOT NULL REFERENCES rendition(sha),
  page INTEGER NOT NULL CHECK (page >= 0),
  width REAL NOT NULL,
  height REAL NOT NULL,
  sheet TEXT NOT NULL,
  clear_strips TEXT NOT NULL,
  open_saves INTEGER NOT NULL,
  extra_restores INTEGER NOT NULL,
  bytes INTEGER NOT NULL,
  UNIQUE (rendition, page)
) STRICT;

-- Apart from `page`, so that looking up where a found word stands reads a few dense rows and not all the text.
CREATE TABLE page_text (
  seq INTEGER PRIMARY KEY REFERENCES page(seq),
  text TEXT NOT NULL
) STRICT;

CREATE TABLE paper (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  title TEXT NOT NULL,
  subject TEXT REFERENCES subject(id),
  not_applicable TEXT
) STRICT;
CREATE INDEX paper_kind ON paper(kind, subject, title);
CREATE INDEX paper_subject ON paper(subject);

CREATE TABLE edition (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  paper TEXT NOT NULL REFERENCES paper(id),
  received TEXT NOT NULL,
  issued TEXT,
  effective TEXT,
  good_through TEXT,
  number TEXT,
  issuer TEXT,
  revision TEXT,
  physical_only INTEGER NOT NULL CHECK (physical_only IN (0, 1)),
  sealed INTEGER NOT NULL CHECK (sealed IN (0, 1)),
  readable INTEGER NOT NULL CHECK (readable IN (0, 1))
) STRICT;
CREATE INDEX edition_paper ON edition(paper);

-- `pages` is JSON, 0-based pages of the rendition in order; `sheets` their distinct sizes, measured when kept.
CREATE TABLE edition_part (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  edition TEXT NOT NULL REFERENCES edition(id),
  position INTEGER NOT NULL,
  rendition TEXT NOT NULL REFERENCES rendition(sha),
  pages TEXT NOT NULL,
  page_count INTEGER NOT NULL CHECK (page_count > 0),
  sheets TEXT NOT NULL,
  turn INTEGER NOT NULL CHECK (turn IN (0, 90, 180, 270)),
  UNIQUE (edition, position)
) STRICT;
CREATE INDEX edition_part_rendition ON edition_part(rendition);

CREATE TABLE edition_original (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  edition TEXT NOT NULL REFERENCES edition(id),
  position INTEGER NOT NULL,
  file TEXT NOT NULL REFERENCES file(sha),
  UNIQUE (edition, position)
) STRICT;
CREATE INDEX edition_original_file ON edition_original(file);

CREATE TABLE edition_link (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  edition TEXT NOT NULL REFERENCES edition(id),
  word TEXT NOT NULL CHECK (word IN ('replaces', 'amends', 'extends', 'continues', 'made from')),
  target TEXT NOT NULL REFERENCES edition(id),
  UNIQUE (edition, word, target)
) STRICT;
CREATE INDEX edition_link_target ON edition_link(target);

CREATE TABLE standing (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  edition TEXT NOT NULL REFERENCES edition(id),
  office TEXT NOT NULL,
  word TEXT NOT NULL CHECK (word IN ('received', 'approved', 'refused', 'revoked', 'closed')),
  day TEXT NOT NULL,
  note TEXT
) STRICT;
CREATE INDEX standing_edition ON standing(edition);

-- `value` is JSON; `unit` makes the row readable without the program (an elevation's unit names its datum).
CREATE TABLE fact (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  edition TEXT NOT NULL REFERENCES edition(id),
  fact TEXT NOT NULL,
  sort TEXT NOT NULL,
  value TEXT NOT NULL CHECK (json_valid(value)),
  unit TEXT,
  page INTEGER,
  place TEXT,
  UNIQUE (edition, fact)
) STRICT;

CREATE TABLE mark (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  edition TEXT NOT NULL REFERENCES edition(id),
  mark TEXT NOT NULL,
  UNIQUE (edition, mark)
) STRICT;

-- Where the paper sheets themselves are ("blue binder", "roll in the truck").
CREATE TABLE original_copy (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  edition TEXT NOT NULL REFERENCES edition(id),
  place TEXT NOT NULL,
  count INTEGER NOT NULL CHECK (count > 0),
  note TEXT
) STRICT;
CREATE INDEX original_copy_edition ON original_copy(edition);

-- Plans are kept by hash like practices; the words of their pages stand in `page` alone.
CREATE TABLE plan (
  sha TEXT PRIMARY KEY,
  json TEXT NOT NULL
) STRICT;

CREATE TABLE packet (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  errand TEXT,
  code TEXT NOT NULL,
  title TEXT NOT NULL,
  recipient TEXT NOT NULL,
  day TEXT NOT NULL,
  folder TEXT NOT NULL,
  plan TEXT NOT NULL REFERENCES plan(sha),
  practice TEXT NOT NULL REFERENCES practice(sha),
  override TEXT
) STRICT;

CREATE TABLE packet_file (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  packet TEXT NOT NULL REFERENCES packet(id),
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  bytes INTEGER NOT NULL,
  purged INTEGER NOT NULL DEFAULT 0 CHECK (purged IN (0, 1)),
  UNIQUE (packet, position)
) STRICT;

CREATE TABLE packet_edition (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  packet TEXT NOT NULL REFERENCES packet(id),
  edition TEXT NOT NULL REFERENCES edition(id),
  UNIQUE (packet, edition)
) STRICT;
CREATE INDEX packet_edition_edition ON packet_edition(edition);

CREATE TABLE visit (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  errand TEXT NOT NULL,
  subject TEXT REFERENCES subject(id),
  day TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('planned', 'left with them', 'sent back', 'settled')),
  outcome TEXT,
  note TEXT,
  packet TEXT REFERENCES packet(id)
) STRICT;
CREATE INDEX visit_packet ON visit(packet);
CREATE INDEX visit_subject ON visit(subject);

CREATE TABLE comment (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  visit TEXT NOT NULL REFERENCES visit(id),
  number TEXT NOT NULL,
  text TEXT NOT NULL,
  answer TEXT,
  answered TEXT
) STRICT;
CREATE INDEX comment_visit ON comment(visit);

CREATE TABLE handover (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  packet TEXT REFERENCES packet(id),
  visit TEXT REFERENCES visit(id),
  office TEXT,
  recipient TEXT NOT NULL,
  how TEXT NOT NULL,
  day TEXT NOT NULL,
  receipt TEXT,
  note TEXT,
  withdrawn_day TEXT,
  withdrawn_reason TEXT
) STRICT;
CREATE INDEX handover_packet ON handover(packet);
CREATE INDEX handover_visit ON handover(visit);

CREATE TABLE handover_file (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  handover TEXT NOT NULL REFERENCES handover(id),
  name TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  bytes INTEGER NOT NULL
) STRICT;
CREATE INDEX handover_file_handover ON handover_file(handover);

CREATE TABLE handover_edition (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  handover TEXT NOT NULL REFERENCES handover(id),
  edition TEXT NOT NULL REFERENCES edition(id),
  copies INTEGER NOT NULL CHECK (copies > 0),
  surrendered INTEGER NOT NULL CHECK (surrendered IN (0, 1)),
  UNIQUE (handover, edition)
) STRICT;
CREATE INDEX handover_edition_edition ON handover_edition(edition);

CREATE TABLE record (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  sort TEXT NOT NULL CHECK (sort IN ('photo', 'receipt', 'serial number', 'note')),
  day TEXT NOT NULL,
  title TEXT NOT NULL,
  place TEXT,
  trade TEXT,
  amount INTEGER,
  text TEXT,
  file TEXT REFERENCES file(sha)
) STRICT;
CREATE INDEX record_file ON record(file);

-- Full-text search, derived: words only, no copy of the text. Rows of page_words carry page.seq;
-- rows of paper_words carry edition.seq * 2, or paper.seq * 2 + 1 for a paper without editions.
CREATE VIRTUAL TABLE page_words USING fts5(
  text, content='', contentless_delete=1, tokenize='unicode61 remove_diacritics 2', prefix='2 3'
);
CREATE VIRTUAL TABLE paper_words USING fts5(
  title, number, office, facts, content='', contentless_delete=1, tokenize='unicode61 remove_diacritics 2', prefix='2 3'
);
