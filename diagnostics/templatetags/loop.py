"""What the loop as it is says of a timer that is to be begun."""

from django import template

from diagnostics.assess import overrides_of, steps_of, system_of
from diagnostics.loop_as_told import as_told
from diagnostics.loop_state import loop_state
from diagnostics.points import Gate, gates
from diagnostics.repaired import work_of
from jobs.models import Job
from jobs.models.changes import changes_of, standing

register = template.Library()


@register.simple_tag
def bars_pumping(job: Job | None) -> list[Gate]:
    """What was found by which it is not to be pumped down or put under nitrogen yet.

    It bars what is offered, and no entry: what was done is recorded all the same.
    """
    if job is None:
        return []
    steps, states = steps_of(job), list(job.car_states.all())
    loop = loop_state(steps, standing(changes_of(job)), told=as_told(job))
    system = system_of(job.vehicle.system)
    shut = gates(system, steps, states, loop, overrides_of(job), work_of(job))
    return [gate for gate in shut if gate.act == "pump" and gate.found]
