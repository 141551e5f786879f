"""The pieces of an act: which issued ones it fits, and whether the part in the hand is the one for this corner."""

from jobbook.core.errors import Refused
from jobbook.core.vehicle.parts import Piece
from jobbook.core.work.model import Act, Part
from jobbook.core.work.state import called
from jobbook.services.job.replay import piece_ids
from jobbook.services.sheet.bay import Bay


def fitted_pieces(bay: Bay, act: Act) -> set[str]:
    """The ids of the issued pieces that an act fits: those that it names, and the part with the serial just read."""
    return piece_ids(act) | {piece.id for piece in _meant(act, waiting_parts(bay, act))}


def _meant(act: Act, waiting: list[Piece]) -> list[Piece]:
    marked = [piece for piece in waiting if act.serial and act.serial.casefold() in _marks(piece)]
    return (marked or waiting)[:1]


def _marks(piece: Piece) -> set[str]:
    return {mark.casefold() for mark in (piece.serial, piece.batch) if mark}


def waiting_parts(bay: Bay, act: Act) -> list[Piece]:
    """The parts issued for what an act puts on, and not fitted yet; none where the same one goes back on."""
    if act.do != "put_on" or act.piece == "same":
        return []
    return [piece for piece in bay.pieces if piece.serves == act.on and piece.state == "issued"]


def look_at_serial(act: Act, bay: Bay) -> None:
    """The serial read at the corner must be that of the part issued for this corner."""
    thing = bay.state.things.get(act.on)
    if act.do != "put_on" or act.piece == "same" or not isinstance(thing, Part) or not thing.renewed:
        return
    waiting = waiting_parts(bay, act)
    what = called(bay.state, act.on)
    if not waiting:
        raise Refused(f"No {what} is issued to this job: issue it under Parts with its number, then put it on.")
    marks = {mark for piece in waiting for mark in _marks(piece)}
    if not act.serial or not marks or act.serial.casefold() in marks:
        return
    other = next((piece for piece in bay.pieces if act.serial.casefold() in _marks(piece)), None)
    if other is not None:
        where = called(bay.state, other.serves)
        raise Refused(f"{act.serial} was issued for {where}, and this is {what}: look at the side marked on the part.")
    raise Refused(f"{act.serial} was not issued to this job for {what}: read the part again, or issue it under Parts.")
