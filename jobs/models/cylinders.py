"""What each cylinder holds by the book, in sums that the database makes."""

from collections.abc import Collection, Iterable
from datetime import datetime

from django.db.models import QuerySet, Sum

from jobs.cylinder_limits import Held
from jobs.models.amounts import REFRIGERANT, Cylinder, Move, until


def by_gas(
    cylinders: Collection[int] | None = None, moves: QuerySet[Move] | None = None
) -> dict[int, dict[str, int]]:
    """What cylinders hold by gas, {their pk: {code: mg}}, in two queries; None: all of them."""
    all_moves = Move.objects.all() if moves is None else moves
    counted = all_moves.filter(substance=REFRIGERANT).order_by()
    sums: dict[int, dict[str, int]] = {}
    for side, sign in (("to_cylinder", 1), ("from_cylinder", -1)):
        of_side = counted.exclude(**{side: None})
        if cylinders is not None:
            of_side = counted.filter(**{f"{side}__in": list(cylinders)})
        for pk, gas, amount in of_side.values_list(side, "gas").annotate(Sum("amount")):
            gases = sums.setdefault(pk, {})
            gases[gas] = gases.get(gas, 0) + sign * amount
    return {pk: {gas: mg for gas, mg in gases.items() if mg} for pk, gases in sums.items()}


def held_by(cylinder: Cylinder, *, at: datetime | None = None, without: Iterable[int] = ()) -> Held:
    """A cylinder as its limits need it, by all moves or those until a moment.

    `without`: pks of entries whose moves do not count, such as one that is being corrected; what
    took those back counts neither.
    """
    moves = Move.objects.filter(until(at)) if at else Move.objects.all()
    left_out = list(without)
    if left_out:
        moves = moves.exclude(entry__in=left_out, undoes=None)
        moves = moves.exclude(undoes__entry__in=left_out)
    return as_held(cylinder, by_gas([cylinder.pk], moves).get(cylinder.pk, {}))


def as_held(cylinder: Cylinder, gases: dict[str, int]) -> Held:
    """A row with what it holds."""
    return Held(
        kind=cylinder.kind,
        refrigerant=cylinder.refrigerant,
        water_capacity_ul=cylinder.water_capacity_ul,
        tested_until=cylinder.tested_until,
        gone_since=cylinder.gone_since,
        by_gas=gases,
    )
