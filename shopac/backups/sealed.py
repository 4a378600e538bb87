"""The key of the shop's certificate authority inside a backup: only under the owner's passphrase.

The passphrase is typed once; what it seals lies in the data folder and goes into every backup. It
is kept nowhere. scrypt (RFC 7914) with the parameters below takes 64 MB and some tenths of a
second for one try; the key is sealed by AES-256-GCM.
"""

import hashlib
import json
import os
import secrets
import shutil
from base64 import b64decode, b64encode
from pathlib import Path

from cryptography.exceptions import InvalidTag
from cryptography.hazmat.primitives.ciphers.aead import AESGCM

from jobs.kept_bytes import sync_folder, write_whole
from shopac.backups import contents
from shopac.backups.trouble import BackupTrouble

N, R, P = 2**16, 8, 1
MEMORY = 128 * 1024 * 1024
FEWEST = 12  # letters; our judgement
MEANT = b"shopac authority key"


def seal(data: Path, passphrase: str) -> None:
    """Seal the authority's key for the backups to come.

    Raises:
        BackupTrouble: there is no authority yet.

    """
    key = data / contents.AUTHORITY_KEY
    if not key.exists():
        raise BackupTrouble("There is no certificate authority in this shop yet.")
    salt, nonce = secrets.token_bytes(16), secrets.token_bytes(12)
    plain = key.read_bytes()
    hidden = AESGCM(derived(passphrase, salt)).encrypt(nonce, plain, MEANT)
    told = {
        "salt": b64encode(salt).decode(),
        "nonce": b64encode(nonce).decode(),
        "key": b64encode(hidden).decode(),
        "of": hashlib.sha256(plain).hexdigest(),
    }
    write_whole(data / contents.SEALED, json.dumps(told).encode())
    sync_folder((data / contents.SEALED).parent)


def derived(passphrase: str, salt: bytes) -> bytes:
    """The key that a passphrase makes."""
    typed = passphrase.strip().encode()
    return hashlib.scrypt(typed, salt=salt, n=N, r=R, p=P, maxmem=MEMORY, dklen=32)


def state(data: Path) -> str:
    """Whether the authority's key goes into backups: none, open (not sealed), old or sealed.

    `old`: what is sealed is the key of an authority that the shop has no more.
    """
    key, kept = data / contents.AUTHORITY_KEY, data / contents.SEALED
    if not key.exists():
        return "none"
    if not kept.exists():
        return "open"
    told = json.loads(kept.read_text())
    return "sealed" if told["of"] == hashlib.sha256(key.read_bytes()).hexdigest() else "old"


def open_into(folder: Path, passphrase: str) -> bool:
    """Unseal the authority's key in an unpacked folder; whether it is there now.

    Where it is not, certificates are not restored at all: those of this machine stay as they are,
    and a machine without any makes a new authority, with which every tablet is to be paired.

    Raises:
        BackupTrouble: the passphrase is another.

    """
    kept = folder / contents.SEALED
    if not kept.exists() or not passphrase:
        shutil.rmtree(folder / contents.CERTIFICATES, ignore_errors=True)
        return False
    told: dict[str, str] = json.loads(kept.read_text())
    cipher = AESGCM(derived(passphrase, b64decode(told["salt"])))
    try:
        plain = cipher.decrypt(b64decode(told["nonce"]), b64decode(told["key"]), MEANT)
    except InvalidTag:
        raise BackupTrouble(
            "The passphrase is not the one that sealed the authority's key. Nothing was restored."
        ) from None
    path = folder / contents.AUTHORITY_KEY
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as file:
        file.write(plain)
        file.flush()
        os.fsync(file.fileno())
    return True
