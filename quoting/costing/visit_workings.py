"""Workings of visits: hours at the venue, the crew that fits, and the hours as they are billed."""

from __future__ import annotations

from quoting.costing.costed_jobs import CostedJob
from quoting.costing.labour import Stage
from quoting.costing.steps import HAIR, Steps, plus, ref
from quoting.costing.visits import CrewVisit
from quoting.domain.plans import Section

SECONDS = "seconds"


def visit_workings(costed: CostedJob) -> Section:
    """Give the section "visits": "install crew" people, "install factor" of the rates, "install billed" seconds.

    So of a strike. "install added" are the billed seconds that are no piece's: set-up, rounding, minimum.
    """
    steps = Steps("visits", "Visits to the venue", costed.prices.shop.currency.code)
    rules = costed.prices.shop.crew
    least = steps.given("minimum", "Minimum call-out", rules.minimum_hours, unit="hours")
    rounding = steps.given("hours step", "Hours are rounded up to", rules.hours_step, unit="minutes, 0: not rounded")
    for visit in costed.visits:
        name = visit.stage.value
        _add_work(costed, steps, visit)
        _add_crew(steps, visit)
        _add_factor(steps, visit)
        work = ref(f"{name} work")
        stepped = f"IF({rounding}=0,{work},-INT(-ROUND({work}/IF({rounding}=0,1,{rounding})/60,9))*{rounding}*60)"
        formula = f"IF({work}=0,0,MAX({least}*3600,{stepped}))"
        billed = steps.step(f"{name} billed", f"{name}: billed".capitalize(), visit.billed, formula, unit=SECONDS)
        added = visit.billed - visit.work + visit.setup
        setup = ref("setup") if visit.stage is Stage.INSTALL else "0"
        label = f"{name}: billed beyond the pieces".capitalize()
        steps.step(f"{name} added", label, added, f"{billed}-{work}+{setup}", unit=SECONDS)
    return steps.section()


def _add_work(costed: CostedJob, steps: Steps, visit: CrewVisit) -> None:
    name = visit.stage.value
    terms = [
        f"{ref(f'{name} {number}', 'labour')}*{ref(f'quantity {number}', 'stock')}"
        for number in range(1, len(costed.plans) + 1)
    ]
    if visit.stage is Stage.INSTALL:
        job, rules = costed.job, costed.prices.shop.crew
        minutes = rules.setup_minutes if job.access.setup_minutes is None else job.access.setup_minutes
        laid = steps.given("setup minutes", "Set-up and clear-away", minutes, unit="minutes")
        carried = sum(piece.quantity for piece, plan in costed.plans if plan.outline is not None)
        terms_up = "0"
        if job.access.flights:
            flights = steps.given("flights", "Flights of stairs", job.access.flights)
            each = steps.given("flight minutes", "Per piece and flight", rules.flight_minutes, unit="minutes")
            terms_up = f"{flights}*{each}*{steps.given('carried', 'Pieces carried', carried)}"
        formula = f"IF(({plus(terms)})=0,0,({laid}+{terms_up})*60)"
        terms.append(steps.step("setup", "Set-up, clear-away and stairs", visit.setup, formula, unit=SECONDS))
    label = f"{name}: work of one pair of hands".capitalize()
    steps.step(f"{name} work", label, visit.work, plus(terms), unit=SECONDS)


def _add_crew(steps: Steps, visit: CrewVisit) -> None:
    name = visit.stage.value
    least = steps.given(f"{name} least", f"{name}: people at the least".capitalize(), visit.least,
                        words="two for what is over 2 m high or 3 m wide")  # fmt: skip
    formula = least
    if visit.room is not None and visit.room > 0:
        label = f"{name}: time that the work may take".capitalize()
        room = steps.given(f"{name} room", label, visit.room, unit=SECONDS)
        formula = f"MAX({least},ROUNDUP({ref(f'{name} work')}/{room}-{HAIR},0))"
    crew = steps.step(f"{name} crew", f"{name}: people".capitalize(), visit.crew, formula)
    label = f"{name}: time on the clock".capitalize()
    steps.step(f"{name} clock", label, visit.lasts, f"{ref(f'{name} work')}/{crew}", unit=SECONDS)


def _add_factor(steps: Steps, visit: CrewVisit) -> None:
    """Add how the hours are cut where their rate changes, and the one factor it comes to."""
    name, clock = visit.stage.value, ref(f"{visit.stage.value} clock")
    starts, rates = [], []
    for number, span in enumerate(visit.spans, 1):
        told = f"{name}: rate {number}, {span.name or 'plain'}".capitalize()
        begun = f"{name}: rate {number} begins, after the work began".capitalize()
        starts.append(steps.given(f"{name} from {number}", begun, span.start, unit=SECONDS))
        rates.append(steps.given(f"{name} rate {number}", told, span.factor, unit="× plain"))
    terms = []
    for number, span in enumerate(visit.spans, 1):
        end = f"MIN({clock},{starts[number]})" if number < len(starts) else clock
        formula = f"MAX(0,{end}-{starts[number - 1]})"
        label = f"{name}: time at rate {number}".capitalize()
        made = steps.step(f"{name} span {number}", label, span.seconds, formula, unit=SECONDS)
        terms.append(f"{made}*{rates[number - 1]}")
    formula = f"IF({clock}=0,1,({plus(terms)})/IF({clock}=0,1,{clock}))"
    steps.step(f"{name} factor", f"{name}: hours ÷ plain hours".capitalize(), visit.factor, formula)
