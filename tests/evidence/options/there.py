"""What is not missing in a test."""

from typing import TypeVar

Found = TypeVar("Found")


def there(found: Found | None) -> Found:
    assert found is not None
    return found
