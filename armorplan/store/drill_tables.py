"""The tables of practice and of skills; a part of migrations, and as unchanging."""

from armorplan.store.only_added import ONLY_ADDED_TO

DRILLS_SKILLS = (
    # What a reason is worth by now is reckoned from these, and kept nowhere.
    """
    CREATE TABLE drills (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        at TEXT NOT NULL,
        person TEXT NOT NULL,
        pattern TEXT NOT NULL,
        pattern_name TEXT NOT NULL,
        piece TEXT NOT NULL,
        kind TEXT NOT NULL,
        level INTEGER NOT NULL,
        seed INTEGER NOT NULL,
        asked_piece TEXT NOT NULL,
        asked_part TEXT NOT NULL,
        asked_focus TEXT NOT NULL,
        answer TEXT NOT NULL,
        right INTEGER NOT NULL,
        grade TEXT NOT NULL,
        seconds REAL NOT NULL,
        hint INTEGER NOT NULL
    ) STRICT
    """,
    "CREATE INDEX drills_by_person ON drills(person, seq)",
    """
    CREATE TABLE drill_reasons (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        drill INTEGER NOT NULL REFERENCES drills(seq),
        rule TEXT NOT NULL,
        name TEXT NOT NULL,
        kept INTEGER NOT NULL,
        decided INTEGER NOT NULL
    ) STRICT
    """,
    "CREATE INDEX drill_reasons_by_drill ON drill_reasons(drill, seq)",
    # Of a person and a kind the last row counts; one that takes back says 'as the shop file says'.
    """
    CREATE TABLE skills (
        seq INTEGER PRIMARY KEY AUTOINCREMENT,
        at TEXT NOT NULL,
        person TEXT NOT NULL,
        kind TEXT NOT NULL,
        how TEXT NOT NULL,
        by TEXT NOT NULL,
        note TEXT NOT NULL
    ) STRICT
    """,
    *(
        statement.replace("<table>", table)
        for table in ("drills", "drill_reasons", "skills")
        for statement in ONLY_ADDED_TO
    ),
)
