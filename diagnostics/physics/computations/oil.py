"""Oil by drain and match, as a computation."""

from diagnostics.physics.computations.computation import Computation, Input, Inputs, Result
from diagnostics.physics.computations.refrigerant_inputs import number, plain, text, words
from diagnostics.physics.computations.units import LEFT_OUT, optional
from diagnostics.physics.oil import ARRIVED, CUP_U, Arrived, Fault, OilPlan, OilTold, match_oil

MICROLITER = 1e-9  # m³
SOURCE = "drain and match: common practice, no source; the maker's own figures come first"
FAULTS: dict[Fault, str] = {
    "below_floor": (
        "Less came out of the old compressor than the maker's floor: the rest lies elsewhere in "
        "the loop or left with a leak. The floor is taken."
    ),
    "more_than_system": (
        "That is more than the whole loop holds: something is counted twice, or it had been filled "
        "too full."
    ),
    "not_told": "What was not told is not in the sum.",
    "no_system": "The whole loop's oil is not told, so the sum is held against nothing.",
}


def _oil(name: str, said: str, default: float | str = LEFT_OUT) -> Input:
    return Input(name, said, "mL", 0, 20_000, default=default)


def _optional(inputs: Inputs, name: str) -> int | None:
    told = optional(inputs, name)
    return None if told is None else round(told / MICROLITER)


def _arrived(inputs: Inputs) -> Arrived:
    told = text(inputs, "compressor")
    return next(one for one in ARRIVED if one == told)


def _most(told: OilTold, found: OilPlan) -> tuple[str, ...]:
    if told.system is None or "more_than_system" not in found.faults:
        return ()
    label = words(told.system * MICROLITER, "mL", 0)
    return (f"Until that is cleared, let the loop have no more than the label's {label} in all.",)


def _match(inputs: Inputs) -> Result:
    told = OilTold(
        _arrived(inputs),
        _optional(inputs, "drained_old"),
        round(number(inputs, "floor") / MICROLITER),
        _optional(inputs, "with_refrigerant"),
        _optional(inputs, "allotted"),
        _optional(inputs, "drained_new"),
        _optional(inputs, "system"),
    )
    found = match_oil(told)
    cups = sum(
        bool(amount) for amount in (told.drained_old, told.with_refrigerant, told.drained_new)
    )
    u = CUP_U * MICROLITER * cups**0.5
    return Result(
        found.add * MICROLITER,
        "mL",
        u,
        " ".join((found.sentence, *(FAULTS[fault] for fault in found.faults), *_most(told, found))),
        "each amount drained is measured within 5 mL, our judgement",
        {
            "needed": plain(found.needed * MICROLITER, "mL"),
            "brought": plain(found.brought * MICROLITER, "mL"),
            "add": plain(found.add * MICROLITER, "mL"),
            "drain": plain(found.drain * MICROLITER, "mL"),
        },
    )


COMPUTATIONS: tuple[Computation, ...] = (
    Computation(
        "oil_match",
        "Oil to put in by drain and match, and oil to drain; nothing counted twice",
        (
            Input(
                "compressor",
                "The new compressor: dry, some (drained and measured), whole_system (filled with "
                "a whole loop's oil), or kept (the old one stays in)",
                answers=ARRIVED,
            ),
            _oil("drained_old", "Drained out of the old compressor"),
            _oil("floor", "The maker's least for a new compressor", 0),
            _oil("with_refrigerant", "Came out with the refrigerant"),
            _oil("allotted", "Stays in other parts that are replaced, by the maker's figures"),
            _oil("drained_new", "Drained out of the new compressor"),
            _oil("system", "Oil of the whole loop, from the label"),
        ),
        "mL",
        SOURCE,
        _match,
    ),
)
