"""What every row that people can point at has: a key."""

import uuid

from django.db import models


class Keyed(models.Model):
    """A row whose key is its id everywhere: in addresses, entries and on tablets.

    The key is made where the thing was first typed, so a car taken in without the server keeps its
    address when the server learns of it. The integer id stays inside the database.
    """

    key = models.UUIDField(unique=True, default=uuid.uuid4, editable=False)

    class Meta:
        abstract = True
