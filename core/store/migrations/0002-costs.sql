-- Money of the house and what hangs on it: estimates by trade, change orders, invoices, payments, lien waivers,
-- suppliers' notices, the lender's draws; and what more is known of an office's numbered comments.
-- All money is whole cents, rates are hundredths of a percent. Sums, what is still to pay and what a lender would
-- say are worked out, never stored.

CREATE TABLE cost_line (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  sort TEXT NOT NULL CHECK (sort IN ('work', 'land', 'fees', 'contingency')),
  title TEXT NOT NULL,
  trade TEXT,
  subject TEXT REFERENCES subject(id),
  estimate INTEGER NOT NULL CHECK (estimate >= 0),
  agreed INTEGER CHECK (agreed >= 0),
  note TEXT
) STRICT;
CREATE INDEX cost_line_subject ON cost_line(subject);
-- One contingency: two would each look untouched.
CREATE UNIQUE INDEX cost_line_contingency ON cost_line(sort) WHERE sort = 'contingency';

-- With `from_contingency`, what the trade gains the contingency gives: the sum of the house stays as it was.
CREATE TABLE change_order (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  line TEXT NOT NULL REFERENCES cost_line(id),
  number TEXT NOT NULL,
  title TEXT NOT NULL,
  day TEXT NOT NULL,
  amount INTEGER NOT NULL CHECK (amount <> 0),
  from_contingency INTEGER NOT NULL CHECK (from_contingency IN (0, 1)),
  edition TEXT REFERENCES edition(id)
) STRICT;
CREATE INDEX change_order_line ON change_order(line);
CREATE INDEX change_order_edition ON change_order(edition);

CREATE TABLE invoice (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  line TEXT NOT NULL REFERENCES cost_line(id),
  payee TEXT NOT NULL,
  subject TEXT REFERENCES subject(id),
  number TEXT,
  day TEXT NOT NULL,
  amount INTEGER NOT NULL CHECK (amount > 0),
  held INTEGER NOT NULL CHECK (held >= 0 AND held <= amount),
  edition TEXT REFERENCES edition(id)
) STRICT;
CREATE INDEX invoice_line ON invoice(line);
CREATE INDEX invoice_subject ON invoice(subject);
CREATE INDEX invoice_edition ON invoice(edition);

-- `cleared`: the day the money was seen to arrive (cheque deposited, or acknowledged in writing).
CREATE TABLE payment (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  invoice TEXT NOT NULL REFERENCES invoice(id),
  day TEXT NOT NULL,
  amount INTEGER NOT NULL CHECK (amount > 0),
  how TEXT NOT NULL,
  cleared TEXT,
  edition TEXT REFERENCES edition(id)
) STRICT;
CREATE INDEX payment_invoice ON payment(invoice);
CREATE INDEX payment_edition ON payment(edition);

-- A supplier or lower firm who told the owner that it delivers for a firm on the job.
CREATE TABLE supplier_notice (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  supplier TEXT NOT NULL,
  subject TEXT NOT NULL REFERENCES subject(id),
  day TEXT NOT NULL,
  since TEXT,
  delivers TEXT,
  edition TEXT REFERENCES edition(id)
) STRICT;
CREATE INDEX supplier_notice_subject ON supplier_notice(subject);
CREATE INDEX supplier_notice_edition ON supplier_notice(edition);

CREATE TABLE waiver (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  invoice TEXT NOT NULL REFERENCES invoice(id),
  -- Who signed: the payee of the invoice, or the supplier who gave this notice.
  notice TEXT REFERENCES supplier_notice(id),
  conditional INTEGER NOT NULL CHECK (conditional IN (0, 1)),
  final INTEGER NOT NULL CHECK (final IN (0, 1)),
  day TEXT NOT NULL,
  through TEXT,
  amount INTEGER CHECK (amount >= 0),
  exceptions TEXT,
  edition TEXT REFERENCES edition(id)
) STRICT;
CREATE INDEX waiver_invoice ON waiver(invoice);
CREATE INDEX waiver_notice ON waiver(notice);
CREATE INDEX waiver_edition ON waiver(edition);

CREATE TABLE draw (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  number INTEGER NOT NULL UNIQUE CHECK (number > 0),
  subject TEXT NOT NULL UNIQUE REFERENCES subject(id),
  day TEXT NOT NULL,
  work_rate INTEGER NOT NULL CHECK (work_rate BETWEEN 0 AND 10000),
  stored_rate INTEGER NOT NULL CHECK (stored_rate BETWEEN 0 AND 10000),
  final INTEGER NOT NULL CHECK (final IN (0, 1)),
  asked TEXT,
  paid TEXT,
  paid_amount INTEGER CHECK (paid_amount >= 0),
  anyway TEXT,
  CHECK ((paid IS NULL) = (paid_amount IS NULL))
) STRICT;

-- `work` is what was done since the draw before; `stored` is all that lies on the site now and is not built in.
CREATE TABLE draw_line (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  draw TEXT NOT NULL REFERENCES draw(id),
  line TEXT NOT NULL REFERENCES cost_line(id),
  work INTEGER NOT NULL CHECK (work >= 0),
  stored INTEGER NOT NULL CHECK (stored >= 0),
  UNIQUE (draw, line)
) STRICT;
CREATE INDEX draw_line_line ON draw_line(line);

-- Apart from `comment`, so that acts of older lots on comments can still be undone.
CREATE TABLE comment_more (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  comment INTEGER NOT NULL UNIQUE REFERENCES comment(seq),
  due TEXT,
  evidence TEXT REFERENCES edition(id)
) STRICT;
CREATE INDEX comment_more_evidence ON comment_more(evidence);
