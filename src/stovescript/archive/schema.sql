-- What an archive's out folder knows: each talk as it was last drafted, and what its draft holds.
-- A talk is named by its path under the folder that was read. Seconds are from the start of its video.

CREATE TABLE facts (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;

CREATE TABLE talks (
    talk TEXT PRIMARY KEY,
    state TEXT NOT NULL CHECK (state IN ('drafted', 'failed', 'no talk')),
    found INTEGER NOT NULL DEFAULT 1,   -- 0: the last run did not find it
    fingerprint TEXT NOT NULL,          -- of all that its draft depends on; '' where it is to be tried again
    captions_sha256 TEXT,
    answers_sha256 TEXT,
    model TEXT,
    program TEXT,
    error TEXT,                         -- why it failed, in one sentence
    video TEXT,                         -- path under the folder that was read
    draft TEXT,                         -- path in the out folder
    page TEXT,
    title TEXT,
    summary TEXT,
    length REAL,                        -- of the talk, in seconds
    words INTEGER,
    ingredients INTEGER,
    steps INTEGER,
    must INTEGER,
    should INTEGER,
    could INTEGER,
    promises INTEGER,                   -- promised to viewers and not kept yet
    notices TEXT,                       -- what to look at again after the answers, a line each
    drafting_seconds REAL
) STRICT;

CREATE TABLE ingredients (
    talk TEXT NOT NULL REFERENCES talks ON DELETE CASCADE,
    id TEXT NOT NULL,
    name TEXT NOT NULL,
    component TEXT,
    optional INTEGER NOT NULL,
    amount TEXT,                        -- in kitchen style; empty where it was not said
    low REAL,
    high REAL,
    unit TEXT,
    preparation TEXT,
    uses INTEGER NOT NULL,
    allergens TEXT,
    heard_at REAL,
    PRIMARY KEY (talk, id)
) STRICT;

CREATE TABLE settings (
    talk TEXT NOT NULL REFERENCES talks ON DELETE CASCADE,
    step INTEGER NOT NULL,
    appliance TEXT,
    program TEXT,
    level TEXT,
    temperature_low REAL,
    temperature_high REAL,
    scale TEXT,
    scale_said INTEGER,
    seconds_low REAL,
    seconds_high REAL,
    release TEXT,
    heard_at REAL
) STRICT;

CREATE TABLE gaps (
    talk TEXT NOT NULL REFERENCES talks ON DELETE CASCADE,
    id TEXT NOT NULL,
    kind TEXT NOT NULL,
    severity TEXT NOT NULL,
    about TEXT NOT NULL,
    question TEXT NOT NULL,
    heard_at REAL,
    PRIMARY KEY (talk, id)
) STRICT;

CREATE INDEX settings_of ON settings (talk);
