"""The story of each joint that was undone: its last cycle from new pieces to the second check."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from jobbook.core.days import in_time
from jobbook.core.figures.stages import parse_stages, stages_text
from jobbook.core.work.model import Figure, Joint
from jobbook.core.work.state import State, called
from jobbook.paperwork.joints import JointRow, PlainJoint, Source
from jobbook.services.job.replay import Kept, piece_ids
from jobbook.services.papers.gathered import JobFacts, Moment, day, hour
from jobbook.services.sheet.joint_rows import short_name
from jobbook.services.sheet.step_words import SUPPORT

UNDOING = ("loosen", "take_out")


@dataclass(frozen=True)
class Story:
    """One joint with the acts of its last cycle."""

    joint: Joint
    title: str
    hand: Moment | None
    stages: tuple[Moment, ...]
    check: Moment | None
    word: str


def joint_stories(facts: JobFacts) -> tuple[Story, ...]:
    """The joints that were worked on, in the order in which they were closed."""
    stories = []
    for name, now in facts.state.joints.items():
        joint = facts.state.things[name]
        if now.touched and isinstance(joint, Joint):
            stories.append(_story(facts, joint, now.word))
    return tuple(sorted(stories, key=_closed))


def _closed(story: Story) -> tuple[bool, datetime]:
    """The joints that were closed in their order in time, then the others."""
    return not story.stages, in_time(story.stages[-1].kept.act.at if story.stages else "")


def _story(facts: JobFacts, joint: Joint, word: str) -> Story:
    mine = [m for m in facts.moments if m.kept.act.on == joint.name and m.kept.act.answer == "done"]
    last = max((n for n, m in enumerate(mine) if m.kept.act.do in UNDOING), default=-1)
    cycle = mine[last + 1 :]
    hand = next((m for m in reversed(cycle) if m.kept.act.do == "start"), None)
    check = next((m for m in reversed(cycle) if m.kept.act.do == "second_check"), None)
    stages = tuple(m for m in cycle if m.kept.act.do == "tighten")
    return Story(joint, called(facts.state, joint.name), hand, stages, check, word)


class Sources:
    """Numbers the documents that figures were read from, in the order in which they are met."""

    def __init__(self, names: Mapping[str, str]) -> None:
        self._names = names
        self._marks: dict[tuple[str, str, str], str] = {}

    def mark(self, document: str, edition: str, read_by: str) -> str:
        if not document:
            return ""
        key = (document, edition, read_by)
        return f" [{self._marks.setdefault(key, str(len(self._marks) + 1))}]"

    def all(self) -> tuple[Source, ...]:
        return tuple(
            Source(mark, f"{document}, edition {edition or 'not recorded'}, read by {self._names.get(reader, reader)}")
            for (document, edition, reader), mark in self._marks.items()
        )


def sheet_row(facts: JobFacts, story: Story, sources: Sources) -> JointRow:
    """The joint as the warranty desk reads it."""
    names, last = facts.names, story.stages[-1] if story.stages else None
    return JointRow(
        _counted(story),
        new_pieces(facts, story),
        specification(facts.state, story.joint, sources),
        "; ".join(m.kept.act.reached or "not recorded" for m in story.stages) or f"not tightened: {story.word}",
        condition(story),
        "; ".join(dict.fromkeys(_tool(m) for m in story.stages)) or "none",
        _by(names, last.kept) if last else "",
        _checked(names, story),
    )


def plain_row(facts: JobFacts, story: Story) -> PlainJoint:
    """The joint as the customer reads it."""
    last = story.stages[-1] if story.stages else None
    figure = facts.state.figures.get(story.joint.figure)
    to = stages_text(parse_stages(figure.text)) if figure else "by feel"
    where = ", at ride height" if story.joint.loaded and last else ""
    by = _both(facts, last.kept) if last else ""
    who = facts.name(story.check.kept.act.by) if story.check else "not made" if story.joint.safety else "not applicable"
    return PlainJoint(_counted(story), f"{to}{where}" if last else f"not tightened: {story.word}", by, who)


def _by(names: Mapping[str, str], kept: Kept) -> str:
    """Who tightened it and when; with the one who countersigned for somebody who was learning."""
    done = f"{short_name(names, kept.act.by)} {day(kept.act.at)} {hour(kept.act.at)}"
    if not kept.learning:
        return done
    second = short_name(names, kept.countersigned_by) if kept.countersigned_by else "nobody"
    return f"{done}, learning, with {second}"


def _both(facts: JobFacts, kept: Kept) -> str:
    names = [facts.name(one) for one in (kept.act.by, kept.countersigned_by) if one]
    return " and ".join(names)


def _counted(story: Story) -> str:
    return f"{story.title}, {story.joint.count}" if story.joint.count > 1 else story.title


def new_pieces(facts: JobFacts, story: Story) -> str:
    """New pieces fitted against those needed, with their batch."""
    if not story.joint.single_use:
        return "not single-use"
    used = piece_ids(story.hand.kept.act) if story.hand else set()
    batches = sorted({piece.batch or piece.number for piece in facts.pieces if piece.id in used} - {""})
    fitted = story.joint.count if used else 0
    return f"{fitted} of {story.joint.count}" + (f", {', '.join(batches)}" if batches else "")


def specification(state: State, joint: Joint, sources: Sources) -> str:
    figure = state.figures.get(joint.figure)
    if figure is None:
        return "tightened by feel" if not joint.figure else "not known"
    return figure_words(figure) + sources.mark(figure.document, figure.edition, figure.read_by)


def figure_words(figure: Figure) -> str:
    """A figure as papers write it: 50 N·m ± 10 %, then +90°."""
    return stages_text(parse_stages(", ".join(figure.stages))) if figure.kind == "torque" else figure.text


def condition(story: Story) -> str:
    """How the vehicle stood at the last stage, with the height where the joint is tightened at ride height."""
    if not story.stages:
        return ""
    last = story.stages[-1]
    return SUPPORT[last.before.conditions["support"]]


def _tool(moment: Moment) -> str:
    tool = moment.kept.act.tool
    if tool is None:
        return "no tool recorded"
    calibrated = day(tool.calibrated_on) or "calibration not recorded"
    return f"{tool.number}, {calibrated}" + (f" ({tool.unfit})" if tool.unfit else "")


def _checked(names: Mapping[str, str], story: Story) -> str:
    if story.check is None:
        return "not made" if story.joint.safety else "not applicable"
    act = story.check.kept.act
    return f"{short_name(names, act.by)} {hour(act.at)}, {act.how}"
