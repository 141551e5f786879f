"""A book with nobody in it but its people, and lists written for the tests."""

from pathlib import Path

from jobbook.services.clock import Pace
from jobbook.services.lists.importing import Done, keep
from jobbook.services.lists.planning import Plan, headings_of, plan

HASTE = Pace(pause=lambda seconds: None)
VEHICLES = """FIN;Kennzeichen;Hersteller;Halter;Telefon
A09VH2AT4KB204117;KX-07-ALD;Varnholt;Jörg Weißenfels;0170 1
XX0KSTLLE00654321;ML-44-TOR;Kestelle;Berit Ångström;0170 2
;ON-1;Ondry;Jörg Weißenfels;0170 1
"""


def written(folder: Path, text: str, name: str = "list.csv", encoding: str = "utf-8") -> Path:
    file = folder / name
    file.write_bytes(text.encode(encoding))
    return file


def planned(book, kind: str, file: Path, **told: str) -> Plan:
    return plan(book, kind, *headings_of(book, kind, file, told))


def taken_in(book, who, kind: str, file: Path, **more) -> Done:
    return keep(book, who, planned(book, kind, file), pace=HASTE, **more)
