-- SPDX-License-Identifier: GPL-3.0-or-later
-- The record book, version 1. Nothing changes in place: rows are added, and triggers refuse the rest.
-- Times are UTC as 2026-11-25T13:40:00Z, dates 2026-11-25, volumes mL, temperatures degC.

CREATE TABLE batch (
	id INTEGER PRIMARY KEY,
	opened TEXT NOT NULL
) STRICT;

-- The tables and options that a judgement was made with, each text once.
CREATE TABLE basis (
	id INTEGER PRIMARY KEY,
	kind TEXT NOT NULL CHECK (kind IN ('limits', 'still', 'flash offset', 'options')),
	text TEXT NOT NULL,
	UNIQUE (kind, text)
) STRICT;

-- A record of a batch as it was added; a corrected one is a new revision with its reason.
-- hash: FNV-1a (64 bit) of the original bytes, to look them up; the bytes themselves decide.
-- day: date where that is a date, else the day it was added; the order of a list.
CREATE TABLE revision (
	id INTEGER PRIMARY KEY,
	batch INTEGER NOT NULL REFERENCES batch,
	number INTEGER NOT NULL CHECK (number >= 1),
	added TEXT NOT NULL,
	reason TEXT CHECK ((number = 1) = (reason IS NULL)),
	file TEXT NOT NULL,
	size INTEGER NOT NULL,
	hash INTEGER NOT NULL,
	name TEXT,
	date TEXT,
	day TEXT NOT NULL,
	feed TEXT,
	history TEXT NOT NULL,
	still TEXT,
	drawn TEXT,
	program TEXT NOT NULL,
	word TEXT NOT NULL,
	grade TEXT,
	limits_basis INTEGER NOT NULL REFERENCES basis,
	still_basis INTEGER REFERENCES basis,
	offset_basis INTEGER REFERENCES basis,
	options_basis INTEGER NOT NULL REFERENCES basis,
	UNIQUE (batch, number)
) STRICT;
CREATE INDEX revision_by_day ON revision (day, batch);
CREATE INDEX revision_by_hash ON revision (hash);

-- The large part of a revision, apart so that lists do not read past it.
CREATE TABLE content (
	revision INTEGER PRIMARY KEY REFERENCES revision,
	bytes BLOB NOT NULL,
	judgement TEXT NOT NULL
) STRICT;

-- Every figure that can be followed over time: t10_c, flash_c, loss_pct, ...
CREATE TABLE figure (
	revision INTEGER NOT NULL REFERENCES revision,
	key TEXT NOT NULL,
	value REAL NOT NULL,
	low REAL,
	high REAL,
	PRIMARY KEY (key, revision)
) STRICT, WITHOUT ROWID;

CREATE TABLE note (
	id INTEGER PRIMARY KEY,
	batch INTEGER NOT NULL REFERENCES batch,
	added TEXT NOT NULL,
	text TEXT NOT NULL
) STRICT;
CREATE INDEX note_by_batch ON note (batch);

-- The balance of the run that made a batch: what went in and what came out.
CREATE TABLE amount (
	id INTEGER PRIMARY KEY,
	batch INTEGER NOT NULL REFERENCES batch,
	added TEXT NOT NULL,
	what TEXT NOT NULL,
	resin TEXT,
	value REAL NOT NULL,
	unit TEXT NOT NULL CHECK (unit IN ('kg', 'mL', 'MJ'))
) STRICT;

CREATE TABLE jar (
	id TEXT PRIMARY KEY,
	opened TEXT NOT NULL,
	capacity_ml REAL CHECK (capacity_ml > 0.0),
	place TEXT
) STRICT, WITHOUT ROWID;

-- What is in a jar is the replay of its movements in the order of their ids. A test is one for
-- peroxides, colour and sediment: the storage clock starts again.
CREATE TABLE movement (
	id INTEGER PRIMARY KEY,
	added TEXT NOT NULL,
	date TEXT NOT NULL,
	kind TEXT NOT NULL CHECK (kind IN ('fill', 'mix', 'empty', 'place', 'test')),
	batch INTEGER REFERENCES batch,
	from_jar TEXT REFERENCES jar,
	to_jar TEXT REFERENCES jar,
	volume_ml REAL CHECK (volume_ml > 0.0),
	text TEXT,
	CHECK (kind <> 'fill' OR (batch IS NOT NULL AND to_jar IS NOT NULL AND volume_ml IS NOT NULL)),
	CHECK (kind <> 'mix' OR (from_jar IS NOT NULL AND to_jar IS NOT NULL AND volume_ml IS NOT NULL)),
	CHECK (kind <> 'empty' OR (from_jar IS NOT NULL AND volume_ml IS NOT NULL)),
	CHECK (kind <> 'place' OR (to_jar IS NOT NULL AND text IS NOT NULL)),
	CHECK (kind <> 'test' OR to_jar IS NOT NULL)
) STRICT;
CREATE INDEX movement_to ON movement (to_jar);
CREATE INDEX movement_from ON movement (from_jar);

-- The plain file of a still, each version that was imported or learnt.
CREATE TABLE still (
	id INTEGER PRIMARY KEY,
	added TEXT NOT NULL,
	name TEXT NOT NULL,
	text TEXT NOT NULL
) STRICT;

-- A re-run: the batch that was charged and the one that came out.
CREATE TABLE pair (
	id INTEGER PRIMARY KEY,
	added TEXT NOT NULL,
	feed INTEGER NOT NULL REFERENCES batch,
	product INTEGER NOT NULL REFERENCES batch,
	still TEXT,
	cut_c REAL,
	until_c REAL,
	plan TEXT,
	CHECK (feed <> product)
) STRICT;

CREATE TRIGGER batch_stays_update BEFORE UPDATE ON batch BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER batch_stays_delete BEFORE DELETE ON batch BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER basis_stays_update BEFORE UPDATE ON basis BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER basis_stays_delete BEFORE DELETE ON basis BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER revision_stays_update BEFORE UPDATE ON revision BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER revision_stays_delete BEFORE DELETE ON revision BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER content_stays_update BEFORE UPDATE ON content BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER content_stays_delete BEFORE DELETE ON content BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER figure_stays_update BEFORE UPDATE ON figure BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER figure_stays_delete BEFORE DELETE ON figure BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER note_stays_update BEFORE UPDATE ON note BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER note_stays_delete BEFORE DELETE ON note BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER amount_stays_update BEFORE UPDATE ON amount BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER amount_stays_delete BEFORE DELETE ON amount BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER jar_stays_update BEFORE UPDATE ON jar BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER jar_stays_delete BEFORE DELETE ON jar BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER movement_stays_update BEFORE UPDATE ON movement BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER movement_stays_delete BEFORE DELETE ON movement BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER still_stays_update BEFORE UPDATE ON still BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER still_stays_delete BEFORE DELETE ON still BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER pair_stays_update BEFORE UPDATE ON pair BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
CREATE TRIGGER pair_stays_delete BEFORE DELETE ON pair BEGIN SELECT RAISE(ABORT, 'the book is only added to'); END;
