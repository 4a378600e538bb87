"""The index behind find: trigrams over jobs_foundby.folded, on either database.

SQLite: an FTS5 table whose text stays in jobs_foundby, kept by triggers. A migration that alters a
column of jobs_foundby itself (not of jobs_job) makes SQLite build the table anew, loses the
triggers and has to run `make` again.
"""

from django.core.management.base import CommandError
from django.db import ProgrammingError, migrations

OUT = "INSERT INTO jobs_foundby_find(jobs_foundby_find, rowid, folded) VALUES ('delete', old.job_id, old.folded);"
IN = "INSERT INTO jobs_foundby_find(rowid, folded) VALUES (new.job_id, new.folded);"
SQLITE = [
    "CREATE VIRTUAL TABLE jobs_foundby_find"
    " USING fts5(folded, content='jobs_foundby', content_rowid='job_id', tokenize='trigram')",
    f"CREATE TRIGGER jobs_foundby_find_new AFTER INSERT ON jobs_foundby BEGIN {IN} END",
    f"CREATE TRIGGER jobs_foundby_find_gone AFTER DELETE ON jobs_foundby BEGIN {OUT} END",
    f"CREATE TRIGGER jobs_foundby_find_changed AFTER UPDATE OF folded ON jobs_foundby BEGIN {OUT} {IN} END",
    "INSERT INTO jobs_foundby_find(jobs_foundby_find) VALUES ('rebuild')",
]
SQLITE_BACK = [
    "DROP TRIGGER IF EXISTS jobs_foundby_find_new",
    "DROP TRIGGER IF EXISTS jobs_foundby_find_gone",
    "DROP TRIGGER IF EXISTS jobs_foundby_find_changed",
    "DROP TABLE IF EXISTS jobs_foundby_find",
]
POSTGRES = "CREATE INDEX jobs_foundby_trigrams ON jobs_foundby USING gin (folded gin_trgm_ops)"
POSTGRES_BACK = "DROP INDEX IF EXISTS jobs_foundby_trigrams"
NO_RIGHT = (
    "Find needs PostgreSQL's extension pg_trgm, which this database user may not create. "
    "Ask whoever runs the database for: CREATE EXTENSION pg_trgm;"
)


def make(apps, schema_editor):
    connection = schema_editor.connection
    if connection.vendor == "sqlite":
        for statement in SQLITE:
            schema_editor.execute(statement)
        return
    with connection.cursor() as cursor:
        cursor.execute("SELECT 1 FROM pg_extension WHERE extname = 'pg_trgm'")
        if not cursor.fetchone():
            try:
                cursor.execute("CREATE EXTENSION pg_trgm")
            except ProgrammingError as refused:
                raise CommandError(NO_RIGHT) from refused
    schema_editor.execute(POSTGRES)


def unmake(apps, schema_editor):
    back = SQLITE_BACK if schema_editor.connection.vendor == "sqlite" else [POSTGRES_BACK]
    for statement in back:
        schema_editor.execute(statement)


class Migration(migrations.Migration):
    dependencies = [("jobs", "0001_initial")]
    operations = [migrations.RunPython(make, unmake)]
