"""The handover paper: what the customer takes home."""

from dataclasses import dataclass

from jobbook.paperwork.answers import Answer, Correction, Release
from jobbook.paperwork.concerns import Concern
from jobbook.paperwork.heights import Heights
from jobbook.paperwork.issue import Identity, Issue, Party
from jobbook.paperwork.joints import PlainJoint
from jobbook.paperwork.parts import FittedPart, OldPart


@dataclass(frozen=True)
class Retorque:
    """The visit at which the wheel joints are checked once more: after which distance, by which date, how arranged."""

    after: str = ""
    by: str = ""
    how: str = ""


@dataclass(frozen=True)
class Handover:
    """Every word and figure of the paper, decided before it is set. Empty text prints "not recorded".

    `retorque` is None where no wheel joint was out. `cautions` are whole sentences, see `cautions.CAUTIONS`.
    """

    issue: Issue
    title: str
    customer: Party = Party()
    identity: Identity = Identity()
    odometer_in: str = ""
    odometer_out: str = ""
    arrived: str = ""
    concerns: tuple[Concern, ...] = ()
    parts: tuple[FittedPart, ...] = ()
    old_parts: tuple[OldPart, ...] = ()
    heights: Heights = Heights()
    joints: tuple[PlainJoint, ...] = ()
    answers: tuple[Answer, ...] = ()
    corrections: tuple[Correction, ...] = ()
    release: Release = Release()
    retorque: Retorque | None = None
    cautions: tuple[str, ...] = ()
    warranty: str = ""
