"""What of a data folder goes into a backup, what does not, and why."""

from pathlib import Path

# The database's name inside the file, by its engine.
DATABASE = {"sqlite": "shop.sqlite3", "postgresql": "shop.pgdump"}
# Bytes named by their own hash, and written once: jobs/kept_bytes.py.
FOLDERS = ("photos", "originals", "records")
# Signs sign-ins and authors' passes. In the file as it is: see DEVELOPERS, Backups.
SECRET_KEY = "secret_key"  # noqa: S105 - the name of a file
# The shop's name and port on its network: under another, tablets would begin empty.
CHOSEN = "lan.json"
# What shopac/lan keeps: the authority that tablets trust is public, its key goes in only sealed by
# a passphrase, and the server's own certificate is made anew.
CERTIFICATES = "certificates"
AUTHORITY = f"{CERTIFICATES}/authority.pem"
AUTHORITY_KEY = f"{CERTIFICATES}/authority_key.pem"
SEALED = f"{CERTIFICATES}/authority_key.sealed"
# What a data folder holds beside that. A name that stands in neither list fails a test.
LEFT_OUT = {
    "backing_up": "what is known of the last backup and the last drill here",
    "backups": "the backups themselves",
    "begin_token": "ends with its use",
    "lock": "held while the program runs",
    "new_password_token": "ends with the next start",
    "restoring": "a restore under way",
    "shop.sqlite3-shm": "the database's own, made anew",
    "shop.sqlite3-wal": "the database's own; what stands in it is in the copy",
    "static": "the program's files, collected anew",
    "static_seen": "belongs to static",
    "version": "stands in the manifest",
    "weighed": "worked out again when it is not there",
}
# Signed in at the moment of the copy: whoever opens the file must not be.
SESSIONS = "django_session"
# What is counted, and held against the restored database.
COUNTED = {
    "jobs": "jobs_job",
    "entries": "jobs_entry",
    "photos": "jobs_photo",
    "records": "jobs_record",
    "people": "jobs_person",
}
README = """A backup of a shop's data, made by shopac.

Private: it holds names, phones, photos and signatures of customers, the PINs of the people of the
shop as hashes, and the key that signs their sign-ins. Keep it where only the owner gets at it.

It is a ZIP file; any program opens it. To bring a shop back from it, stop the program and run in
its folder, in one line:

    .venv/bin/python manage.py restore FILE

on Windows with .venv\\Scripts\\python.exe. What is in the data folder by then is moved aside,
never deleted.
"""


def files_of(data: Path, folder: str) -> list[tuple[str, Path]]:
    """(name inside the backup, path) of each whole file in a folder of the data folder, by name.

    A name that begins with a dot is a file that is still being written.
    """
    found = sorted((data / folder).rglob("*")) if (data / folder).is_dir() else []
    return [
        (path.relative_to(data).as_posix(), path)
        for path in found
        if path.is_file() and not path.name.startswith(".")
    ]
