"""What holds a table to rows that are only added; a part of migrations, and as unchanging."""

ONLY_ADDED_TO = (
    """
    CREATE TRIGGER <table>_never_change BEFORE UPDATE ON <table>
    BEGIN SELECT RAISE(ABORT, 'a row of <table> never changes'); END
    """,
    """
    CREATE TRIGGER <table>_stay BEFORE DELETE ON <table>
    BEGIN SELECT RAISE(ABORT, 'a row of <table> is never deleted'); END
    """,
    """
    CREATE TRIGGER <table>_are_not_replaced BEFORE INSERT ON <table>
    WHEN EXISTS (SELECT 1 FROM <table> WHERE seq = NEW.seq)
    BEGIN SELECT RAISE(ABORT, 'a row of <table> is never replaced'); END
    """,
)
