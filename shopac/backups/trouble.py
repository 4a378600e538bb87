"""The one exception for a backup that was not made, or cannot be restored."""


class BackupTrouble(Exception):
    """What is wrong and what to do about it, in sentences for the owner."""
