"""What was seen of the parts of the loop that stay; one telling for several of them."""

from collections.abc import Iterator
from typing import Any

from django.utils.datastructures import MultiValueDict

from jobs.forms.fields import Lines, OnJob, Tap
from jobs.logbook import Told
from jobs.models.loop_parts import BY_FIELD, LOOKED, Fitted, name_of
from jobs.told import LoopSeen

NOTHING_TOLD = "Tap at least one part."


class LoopPartsForm(OnJob):
    """One answer a part; what is not tapped stays as it was told before."""

    note = Lines(300, "What was seen, and how far?", "Goes with the parts tapped here.")

    def __init__(
        self,
        data: MultiValueDict[str, str] | None = None,
        told: Told | None = None,
        **kwargs: Any,
    ) -> None:
        super().__init__(data, told, **kwargs)
        for code, place in BY_FIELD.items():
            self.fields[code] = Tap(name_of(place), LOOKED)

    def call(self, system: Fitted) -> None:
        """Name the parts as this car has them."""
        for code, place in BY_FIELD.items():
            self.fields[code].label = name_of(place, system)

    def clean(self) -> dict[str, Any]:
        """At least one part is told of."""
        said = super().clean()
        if not self.errors and not any(self.seen()):
            self.add_error(next(iter(BY_FIELD)), NOTHING_TOLD)
        return said

    def seen(self) -> Iterator[LoopSeen]:
        """What was told of each part."""
        said = self.cleaned_data
        for code, (part, branch) in BY_FIELD.items():
            if said.get(code):
                yield LoopSeen(part, branch, said[code], said["note"])
