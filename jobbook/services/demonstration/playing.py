"""Playing a job of the demonstration: at the desk, through its method, and to the papers that leave."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path

from jobbook.core.errors import Refused
from jobbook.services import papers, work
from jobbook.services.demonstration.agreeing import agree, ask_others, mark_done
from jobbook.services.demonstration.filed import take_in_files
from jobbook.services.demonstration.played import STEP_TIME, Played, Script
from jobbook.services.job import stores
from jobbook.services.job.release import release
from jobbook.services.measured import stands
from jobbook.services.measured.alignment import keep_geometry
from jobbook.services.office import desk
from jobbook.services.sheet.jobsheet import job_sheet
from jobbook.services.sheet.sheets import Ask, Card, Choice
from jobbook.services.vehicle import joiners, part_life
from jobbook.services.vehicle.variants import choose_variant


def play(played: Played) -> list[Path]:
    """Play one job as far as its script goes; the papers that left come back."""
    script, clock = played.script, played.clock
    _at_the_desk(played)
    if "method" not in script:
        return []
    clock.now = datetime.fromisoformat(script.get("work_begins", clock.now.isoformat()))
    method = script["method"]
    technician = played.person("technician")
    clock.on(STEP_TIME)
    work.begin_method(played.book, technician, played.job, method["key"], method["corner"], method["options"])
    _issue(played)
    stop = script.get("stop", {}).get("before", "")
    while (card := _open_card(played)) is not None and (not stop or _does(card) != stop):
        _do_step(played, card)
    if stop:
        _pass_on(played)
        return []
    _sign_rest(played)
    _say_why_it_came_off(played)
    _correct_concern(played)
    mark_done(played.book, played.person("technician"), played.job)
    return _release(played)


def _pass_on(played: Played) -> None:
    """The job goes to another technician, who reads what is open and takes it on."""
    told = played.script["passed"]
    _sign_rest(played)
    played.clock.on(STEP_TIME)
    next_one = played.people[told["to"]]
    work.pass_on(played.book, played.person("technician"), played.job, told["note"], next_one.id)
    played.clock.on(STEP_TIME)
    work.take_on(played.book, next_one, played.job)


def _open_card(played: Played) -> Card | None:
    card = job_sheet(played.book, played.job).card
    return card if card is not None and card.step.mark in ("ring", "half") else None


def _does(card: Card) -> str:
    return card.choices[0].act.do if card.choices else card.blocked[0].choice.act.do if card.blocked else ""


def _at_the_desk(played: Played) -> None:
    book, job, clock, script = played.book, played.job, played.clock, played.script
    clerk, technician = played.person("desk"), played.person("technician")
    clock.on(STEP_TIME)
    agree(book, clerk, job, script)
    if "variant" in script:
        vehicle, name = desk.get_job(book, job).vehicle_id, script["vehicle"]["variant"]
        choose_variant(book, technician, vehicle, name, **script["variant"])
    for told in script.get("joiner", ()):
        joiners.add_joiner(book, technician, job, **told)
    for told in script.get("stand", ()):
        _stand(played, told)
    for test in script.get("test", ()):
        clock.on(STEP_TIME)
        desk.add_test(book, technician, job, **test)
    if "concern" in script:
        cause, confidence = script["concern"]["cause"], script["concern"]["confidence"]
        desk.concern(book, technician, job, 1, cause=cause, confidence=confidence)
    take_in_files(played)
    ask_others(book, clerk, job, script)


def _stand(played: Played, told: Script) -> None:
    """The vehicle is left standing and read again, both at the times of the script; without an end it stands still."""
    book, technician, job = played.book, played.person("technician"), played.job
    played.clock.now = datetime.fromisoformat(told["begins"])
    begun = stands.begin_stand(book, technician, job, told["begin"])
    if "ends" not in told:
        return
    played.clock.now = datetime.fromisoformat(told["ends"])
    stands.end_stand(book, technician, job, begun.entry, told["end"])


def _issue(played: Played) -> None:
    issued = played.script["issue"]
    for need in stores.needed(played.book, played.job):
        facts = issued["strut"] if need.kind == "part" else issued["kit"]
        stores.issue(played.book, played.person("technician"), played.job, need.serves, need.needed, **facts)


def _say_why_it_came_off(played: Played) -> None:
    """The part of ours that made room for the new one: why it came off is asked where it is known."""
    told = played.script.get("came_off", {})
    off, _ = part_life.parts_before(played.book, played.job)
    for part in off if told else ():
        technician = played.person("technician")
        part_life.part_came_off(played.book, technician, played.job, part.piece, told["reason"], told["note"])


def _do_step(played: Played, card: Card) -> None:
    played.clock.on(STEP_TIME)
    choice = next((c for c in card.choices if c.main), None)
    if choice is None:
        raise Refused(f"The demonstration stopped at “{card.step.title}”: {' '.join(card.needs)}")
    answers = {ask.name: _answer(played, choice, ask) for ask in choice.asks}
    if "heights" in answers:
        answers.pop("heights")
        told = played.next("heights")
        answers |= {f"heights {corner}": value for corner, value in told["corners"].items()}
        answers["temperature"] = told["temperature"]
    if choice.act.do == "align":
        answers |= _geometry(played)
    if choice.act.what == "fault_codes":
        answers |= played.next("code")
    doer = played.person("checker" if choice.second_person else "technician")
    signer = doer if choice.signs else None
    if choice.signs:
        _sign_rest(played)
    work.keep(played.book, played.person("technician"), played.job, choice, answers, signer=signer)
    if choice.key == "wait-begun":
        played.clock.on(timedelta(minutes=int(choice.act.minutes)))


def _geometry(played: Played) -> Mapping[str, str]:
    """What the sheet has as set; what it has as found is kept before it."""
    told = played.script.get("geometry", {})
    if "found" in told:
        keep_geometry(played.book, played.person("technician"), played.job, "measure", told["found"])
        played.clock.on(STEP_TIME)
    return told.get("set", {})  # type: ignore[no-any-return]


def _answer(played: Played, choice: Choice, ask: Ask) -> str:
    act = choice.act
    if ask.kind == "angles":
        return ""
    if ask.folded:
        return str(played.script["arrival"].get(ask.name, ""))
    if ask.kind == "tool":
        chosen = played.script["tools"][act.on.partition("@")[0]]
        fit = [option.value for option in ask.options if not option.unfit]
        return next(tool for tool in ([chosen] if isinstance(chosen, str) else chosen) if tool in fit)
    if ask.name == "serial":
        return str(played.script["issue"]["strut"]["serial"])
    if ask.name == "plugs":
        return {"plug": "2", "take_off": "1" if act.on.startswith("strut@") else "0", "join": "1"}[act.do]
    if ask.name == "distance":
        return str(played.script["say"]["drive"]) + " km"
    if ask.name == "how" and ask.kind == "text":
        return str(played.script["say"]["take_off"])
    if ask.kind == "choice":
        return ask.value or ask.options[0].value
    said = played.script.get("say", {})
    return str(said.get(act.what or act.do, "")) or ("in order" if ask.required else "")


def _sign_rest(played: Played) -> None:
    """The technician signs the strip-down acts as a group."""
    waiting = [one.act_id for one in job_sheet(played.book, played.job).unsigned if one.grouped]
    if waiting:
        work.sign(played.book, played.person("technician"), played.job, waiting)


def _correct_concern(played: Played) -> None:
    correction = played.script["concern"]["correction"]
    desk.concern(played.book, played.person("technician"), played.job, 1, correction=correction)


def _release(played: Played) -> list[Path]:
    told = played.script["release"]
    played.clock.on(STEP_TIME)
    owner = played.people[told["by"]]
    release(played.book, owner, played.job, told["odometer"], played.script["vehicle"]["distance_unit"])
    played.clock.on(STEP_TIME)
    clerk = played.person("desk")
    issued = [papers.issue(played.book, clerk, played.job, kind) for kind in told["papers"]]
    return [papers.paper_path(played.book, paper) for paper in issued]
