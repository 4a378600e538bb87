"""What stands between a job and its next stage, or one of its endings.

A point holds only where what the job would be called were not true. What would make an ending's
sentence to the customer false cannot be waived: another ending says what is true. All else warns.
Common practice, no source.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from diagnostics.assess import Assessed, readings_of, touched_since
from diagnostics.job_now import JobNow
from diagnostics.loop_state import OPEN, SHOWS_CHARGE
from diagnostics.models import Waiver
from diagnostics.points import must_not_run
from diagnostics.since_changed import in_words, is_fine, not_tested_since, tells
from diagnostics.verification import verification_now
from diagnostics.waived import identity
from jobs.models.changes import CLEANLINESS, NO_REPAIR, UNPLUGGED
from jobs.models.closing import ENDINGS, REPAIRED
from jobs.models.jobs import STAGES
from jobs.models.stages import is_back

BELT = "belt"
COMPLAINT_SEEN = "complaint_seen"
MUST_NOT_RUN_ON = ("timer_runs",)  # nobody repaired what still runs by itself
MUST_NOT_STAND = ("barred", "discarded_stands", "corrects_nothing")
HEAT = ("°C", "kPa")  # units of what a system can do in some heat
# Pressure is there, on a car that could not rest; more is not told. Our judgement.
TELLS_PRESSURE = (("static_pressure", "some"), ("static_pressure", "unsoaked_some"))


@dataclass(frozen=True)
class Between:
    """One thing between a job and what comes next. `holds`: not before it is settled or waived.

    `can_be_waived`: an owner may waive it; a waived one holds no more and is no pass.
    """

    code: str
    sentence: str
    page: str
    page_words: str
    about: str = ""
    holds: bool = False
    can_be_waived: bool = True
    waiver: Waiver | None = None

    @property
    def in_the_way(self) -> bool:
        """Whether it holds, and nobody waived it."""
        return self.holds and not (self.can_be_waived and self.waiver)


Check = Callable[[JobNow], Iterator[Between]]


def false_if(code: str, sentence: str, page: str, page_words: str, about: str = "") -> Between:
    """A point that no waiving makes true."""
    return Between(code, sentence, page, page_words, about, holds=True, can_be_waived=False)


def nothing_repaired(now: JobNow) -> Iterator[Between]:
    """Whether no change on the car is a repair."""
    if all(change.what in NO_REPAIR for change in now.changes):
        sentence = "No change on the car is told that repairs anything."
        yield false_if("nothing_repaired", sentence, "repair", "Repair")


def something_repaired(now: JobNow) -> Iterator[Between]:
    """Whether the car was changed, which this ending does not tell."""
    done = [change.words for change in now.changes if change.what not in NO_REPAIR]
    if done:
        sentence = f"The car was changed: {'; '.join(done)}. This ending says it was not."
        yield false_if("something_repaired", sentence, "repair", "Repair")


def not_tested_again(now: JobNow) -> Iterator[Between]:
    """What a change touched and no test looked at since, but for the inside of the loop."""
    yield from untested(now, lambda question: question != CLEANLINESS)


def inside_not_seen(now: JobNow) -> Iterator[Between]:
    """Whether nobody looked inside since: nobody opens a charged loop to see, so it only warns."""
    yield from untested(now, lambda question: question == CLEANLINESS)


def untested(now: JobNow, about: Callable[[str], bool]) -> Iterator[Between]:
    """What a change touched of such questions and no test looked at since."""
    for state, questions in not_tested_since(now.states, now.steps):
        if left := [question for question in questions if about(question)]:
            sentence = in_words(state, left)
            yield false_if("not_tested_since", sentence, "steps", "Test steps", str(state.pk))


def found_since(now: JobNow) -> Iterator[Between]:
    """What the last tests since the repair came out as, in what it touched: not nothing wrong."""
    touched = {question for state in now.states for question in state.touches}
    for one in last_of_each(now):
        if one.kind and one.kind.about in touched and found_wrong(one):
            sentence = f"Step {one.step.number}, {one.title}, since the repair: {one.finding}"
            yield false_if("found_since", sentence, "steps", "Test steps", str(one.step.key))


def last_of_each(now: JobNow) -> list[Assessed]:
    """The last test of each kind that stands and tells of the car as it is now."""
    begun = now.states
    telling = (one for one in now.steps if one.stands and tells(one))
    by_time = sorted(telling, key=lambda one: one.step.made_at)
    last = {one.step.kind: one for one in by_time}
    return [one for one in last.values() if not touched_since(one, begun)]


def found_wrong(one: Assessed) -> bool:
    """Whether a test came out as anything but nothing wrong: what cannot be told is no pass."""
    code = one.meaning.outcome.code if one.meaning else ""
    return not is_fine(one) and (one.step.kind, code) not in TELLS_PRESSURE


def not_shown_gone(now: JobNow) -> Iterator[Between]:
    """Whether nobody told of the car as it is now that it does not fail."""
    if now.job.failing_now == "yes":
        yield false_if("failing", "The switch says that it is failing now.", "job", "Job")
    elif now.job.failing_now != "no" and not seen_gone(now):
        sentence = "Whether it still fails is not told of the car as it is now."
        yield false_if("failing_not_told", sentence, "job", "Job")


def seen_gone(now: JobNow) -> bool:
    """Whether the last look at the complaint, in the car as it is now, did not find it there."""
    looks = [
        one for one in now.steps if one.stands and tells(one) and one.step.kind == COMPLAINT_SEEN
    ]
    last = max(looks, key=lambda one: one.step.made_at, default=None)
    if last is None or not last.meaning or last.meaning.outcome.code != "not_now":
        return False
    return not any(one.touches and one.number > last.step.state_then for one in now.states)


def loop_not_ready(now: JobNow) -> Iterator[Between]:
    """Whether the loop is not known to be closed and charged."""
    loop = now.loop
    if loop.code not in SHOWS_CHARGE or loop.run:
        sentence = f"The loop is not known to be closed and charged: {loop.words}. {loop.run}"
        yield false_if("loop_not_ready", sentence.strip(), "steps", "Test steps", loop.code)


def must_not_run_now(now: JobNow) -> Iterator[Between]:
    """All by which it must not be run: what tests found, and what is known of the loop."""
    for gate in must_not_run(now.shut):
        where = ("steps", "Test steps") if gate.opens else ("repair", "Repair")
        yield false_if("must_not_run", gate.run_words, *where, f"{gate.code} {gate.number or ''}")


def must_not_run_by_tests(now: JobNow) -> Iterator[Between]:
    """What tests found by which it must not be run; what the loop tells stands beside it."""
    found = {gate.run_words for gate in must_not_run(now.shut) if gate.number}
    return (point for point in must_not_run_now(now) if point.sentence in found)


def loop_left_open(now: JobNow) -> Iterator[Between]:
    """Whether the loop is open, as far as is noted."""
    if now.loop.code in OPEN:
        sentence = f"The loop is open as far as is noted: {now.loop.words}."
        yield false_if("loop_open", sentence, "repair", "Repair", now.loop.code)


def no_test(now: JobNow) -> Iterator[Between]:
    """Whether no test stands."""
    if not any(one.stands for one in now.steps):
        yield false_if("no_test", "No test is recorded that stands.", "steps", "Test steps")


def failed_here(now: JobNow) -> Iterator[Between]:
    """Whether it failed while it was here, by the switch."""
    if now.job.failing_now == "yes":
        yield false_if("failing", "The switch says that it is failing now.", "job", "Job")
    failed = [one.step.number for one in now.steps if one.stands and one.step.failing_then == "yes"]
    if failed:
        sentence = f"It was failing at step {failed[0]}, by the switch."
        yield false_if("failed_here", sentence, "steps", "Test steps", str(failed[0]))
    for one in now.steps:
        if one.stands and one.step.kind == COMPLAINT_SEEN and seen_there(one):
            sentence = f"Step {one.step.number}, {one.title}: what the customer says was there."
            yield false_if("seen_here", sentence, "steps", "Test steps", str(one.step.number))


def seen_there(one: Assessed) -> bool:
    """Whether somebody saw what the customer says; “only when hot” may be the customer's word."""
    return readings_of(one.step).get("there") == "yes"


def nothing_read(now: JobNow) -> Iterator[Between]:
    """Whether no test that stands read a temperature or a pressure, by which heat is judged."""
    if not any(one.stands and reads_heat(one) for one in now.steps):
        sentence = "No temperature and no pressure of the air conditioning was read."
        yield false_if("nothing_read", sentence, "steps", "Test steps")


def reads_heat(one: Assessed) -> bool:
    """Whether a temperature or a pressure was read in it, more than those of the day."""
    numbers = one.kind.numbers if one.kind else ()
    asked = {number.name for number in numbers if number.unit in HEAT and not number.condition}
    return not asked.isdisjoint(readings_of(one.step))


def not_made_safe(now: JobNow) -> Iterator[Between]:
    """Whether no change tells how it was made safe."""
    if not any(one.what == UNPLUGGED or one.part == BELT for one in now.changes):
        sentence = "No change on the car tells how it was made safe: unplugged, a shorter belt."
        yield false_if("not_made_safe", sentence, "repair", "Repair")


def only_a_belt(now: JobNow) -> Iterator[Between]:
    """Whether a belt is all that was changed for it: an ordinary new one makes nothing safe."""
    belts = [one for one in now.changes if one.part == BELT]
    if belts and not any(one.what == UNPLUGGED for one in now.changes):
        sentence = f"{belts[-1].words}: say below that it is a shorter one, past the compressor."
        yield false_if("only_a_belt", sentence, "repair", "Repair")


# By ending: what would make its sentence false.
FALSE_BY: dict[str, tuple[Check, ...]] = {
    "repaired_verified": (
        nothing_repaired,
        not_tested_again,
        found_since,
        not_shown_gone,
        loop_not_ready,
        must_not_run_by_tests,
    ),
    "repaired_not_verifiable": (nothing_repaired, must_not_run_now),
    "tested_only": (no_test, something_repaired),
    "declined": (),
    "not_reproduced": (no_test, failed_here, must_not_run_now),
    "as_designed": (no_test, nothing_read, must_not_run_now),
    "made_safe": (not_made_safe,),
    "released_unfinished": (),
    "refused": (),
    "passed_on": (),
}
# By ending: what only warns.
WARN_BY: dict[str, tuple[Check, ...]] = {
    "repaired_verified": (inside_not_seen,),
    "repaired_not_verifiable": (loop_not_ready, found_since),
    "tested_only": (loop_left_open,),
    "declined": (no_test, loop_left_open),
    "not_reproduced": (found_since, loop_left_open),
    "as_designed": (found_since, not_shown_gone),
    "made_safe": (only_a_belt, loop_left_open),
    "released_unfinished": (loop_left_open,),
    "refused": (loop_left_open,),
    "passed_on": (loop_left_open,),
}
# By stage: what its own words on the record need.
NEEDED_BY: dict[str, tuple[Check, ...]] = {
    "deciding": (no_test,),
    "verifying": (nothing_repaired,),
}


def before_closing(now: JobNow, code: str) -> list[Between]:
    """What stands between a job and an ending, all at once; what holds comes first."""
    held = [point for check in FALSE_BY[code] for point in check(now)]
    warned = [softened(point) for check in WARN_BY.get(code, ()) for point in check(now)]
    said = {point.sentence for point in (*held, *warned)}
    rest = [point for point in points_of(now, code) if point.sentence not in said]
    return sorted([*held, *warned, *rest], key=lambda point: not point.in_the_way)


def still_to_show(now: JobNow) -> list[Between]:
    """What of the repair is not shown, or not in whole, in one sentence; in three queries."""
    left = verification_now(now).still_open
    if not left:
        return []
    named = "; ".join(f"{one.item.words} ({one.words})" for one in left)
    about = " ".join(one.item.code for one in left)
    return [Between("not_shown", f"Of the repair: {named}.", "verification", "Verification", about)]


def before_stage(now: JobNow, to: str) -> list[Between]:
    """What stands between a job and a stage; nothing on the way back."""
    if is_back(now.job.stage, to):
        return []
    held = [
        with_waiver(now, Between(one.code, one.sentence, one.page, one.page_words, to, holds=True))
        for check in NEEDED_BY.get(to, ())
        for one in check(now)
    ]
    rest = points_of(now)
    return sorted([*held, *rest], key=lambda point: not point.in_the_way)


def to_waive(now: JobNow) -> list[Between]:
    """The points that may be waived: all that are open, and what holds the next stage."""
    return before_stage(now, next_stage(now.job.stage))


def points_of(now: JobNow, ending: str = "") -> list[Between]:
    """The job's open points; of tests on which an ending rests, those that must not stand hold."""
    rests = ending in ENDINGS and ENDINGS[ending].rests_on_tests
    return [
        with_waiver(
            now,
            Between(
                *(point.code, point.sentence, point.page, point.page_words, point.about),
                holds=(rests and point.page == "steps" and point.code in MUST_NOT_STAND)
                or (ending in REPAIRED and point.code in MUST_NOT_RUN_ON),
            ),
        )
        for point in now.points
    ]


def softened(point: Between) -> Between:
    """The same where it only warns."""
    return Between(point.code, point.sentence, point.page, point.page_words, point.about)


def with_waiver(now: JobNow, point: Between) -> Between:
    """The point with what waived it, if anything did."""
    last = {(one.code, one.about): one for one in now.waivers}
    named = (point.code, point.sentence, point.page, point.page_words, point.about)
    return Between(*named, point.holds, point.can_be_waived, last.get(identity(point)))


def next_stage(stage: str) -> str:
    """The stage after this one."""
    order = list(STAGES)
    return order[min(order.index(stage) + 1, len(order) - 1)]


def in_the_way(points: list[Between]) -> list[str]:
    """What holds and is not waived, in sentences."""
    return [point.sentence for point in points if point.in_the_way]
