"""Records of the invented workshop: a front strut renewed, and the claim for the one before it."""

from dataclasses import replace
from decimal import Decimal
from typing import Any

from jobbook.core.drawing import CornerHeights, Curve
from jobbook.paperwork.answers import Answer, Correction, LetGo, Release
from jobbook.paperwork.cautions import cautions
from jobbook.paperwork.codes import CodeRow, Test
from jobbook.paperwork.concerns import Concern
from jobbook.paperwork.evidence import Deed, Evidence, Failure, Fitting
from jobbook.paperwork.handover import Handover, Retorque
from jobbook.paperwork.heights import Heights, LeakDown
from jobbook.paperwork.issue import Head, Identity, Issue, Party
from jobbook.paperwork.joints import JointRow, PlainJoint, Source
from jobbook.paperwork.parts import FittedPart, OldPart, Piece, Tool

HEAD = Head("sl-7f3a", 1241, "9f2c41d788ab03e5" * 3 + "17ab55c06d106d10", "51c2d90a44e7b3f8")
VIN = "A09VH2AT4KB204117"


def d(text: str) -> Decimal:
    return Decimal(text)


def issue(**changes: Any) -> Issue:
    made = Issue(
        "Saltmarsh Lane Suspension",
        "4 Saltmarsh Lane, Quillhaven",
        "2041",
        "26 November 2026, 09:10",
        "Jonas Wexley",
        "1",
        contact="telephone 0555 0147",
    )
    return replace(made, **changes)


def identity() -> Identity:
    return Identity("Varnholt estate, 2019", "air in front, adaptive dampers", "KX-07-ALD", VIN)


def concern() -> Concern:
    return Concern(
        "Front left is right down in the morning, comes up after a minute of driving. Three weeks now.",
        "Sleeve of the front left strut leaks at the lower roll: soap bubbles at normal height on its wheels; line and "
        "valve block port dry. Loss beyond the other three corners 31.7 mm in 13.5 h. Not over-extended, no chafing.",
        "Strut, top nuts, lower bolt with nut and line seal renewed; filled at droop; loaded joints tightened at ride "
        "height; heights calibrated, wheels aligned. After 14 h no corner differs from the rest by more than 1 mm.",
        "proved",
    )


def corners() -> tuple[CornerHeights, ...]:
    return (
        CornerHeights("FL", d("392"), d("402"), d("412"), d("366"), d("401")),
        CornerHeights("FR", d("392"), d("402"), d("412"), d("399"), d("400")),
        CornerHeights("RL", d("388"), d("398"), d("408"), d("394"), d("396")),
        CornerHeights("RR", d("388"), d("398"), d("408"), d("395"), d("397")),
    )


def heights() -> Heights:
    return Heights(
        corners(),
        "hub centre to arch edge, straight up",
        "front 402 ± 10, rear 398 ± 10 [1]",
        "25 Nov 2026 07:10, 11 °C, by Bram Ferro with tape RT-01, before the levelling woke",
        "25 Nov 2026 12:55, 13 °C, by Bram Ferro with tape RT-01, after the road test",
    )


def part() -> FittedPart:
    kit = "kit 4471-K: 3 top nuts, bolt, nut, line seal"
    return FittedPart("Air strut", "FL", "AS-4471-L", "7H-20611", "new", kit)


def joints() -> tuple[JointRow, ...]:
    by, check = "B. Ferro", "N. Oyelaran-Pike"
    top = ("clicked at 35, 3×", "hanging", "TW-04, 2 Jun 2026", f"{by} 10:16", f"{check} 10:58, clicked")
    line = ("clicked at 4", "hanging", "TW-02, 2 Jun 2026", f"{by} 10:24", "not applicable")
    wheel = ("clicked at 140, 5×", "tyres touch", "TW-09, 14 Mar 2026", f"{by} 10:44", f"{check} 11:02, clicked")
    lower = ("on its wheels, 401 mm", "TW-07 and AG-01, 14 Mar 2026", f"{by} 10:52", f"{check} 10:53, witnessed")
    return (
        JointRow("Top mount nuts FL, 3", "3 of 3, batch 26-09", "35 N·m ± 10 % [1]", *top),
        JointRow("Line nut FL", "seal 1 of 1", "4 N·m ± 10 % [1]", *line),
        JointRow("Wheel bolts FL, 5", "not single-use", "140 N·m ± 5 % [2]", *wheel),
        JointRow("Lower bolt FL", "1 of 1, batch 26-11", "70 N·m ± 5 %, +90° [1]", "clicked at 70, 90°", *lower),
    )


def sources() -> tuple[Source, ...]:
    return (
        Source("1", "maker's sheet VH-SUS-12, edition 3, 2024, read by Imke Tolland on 20 Nov 2026"),
        Source("2", "maker's sheet VH-WHL-02, edition 1, 2021, read by Imke Tolland on 20 Nov 2026"),
    )


def stand() -> LeakDown:
    others = Curve("others 4.3", ((d("0"), d("0")), (d("13.5"), d("4.3"))))
    left = Curve("FL 36", ((d("0"), d("0")), (d("13.5"), d("36"))), strong=True)
    return LeakDown(
        (others, left),
        "17:40, 18 °C",
        "07:10, 11 °C",
        "dashed: average of FR, RL, RR",
        "24 to 25 Nov 2026, level floor of bay 2, ignition off, levelling off by its fuse, doors shut, not woken",
        "FL fell 36 mm in 13.5 h, the other three 4.3 mm on average: 31.7 mm beyond the rest",
    )


def declined() -> Answer:
    return Answer(
        "Second strut of the axle (FR)",
        "declined",
        "customer wants the leaking side only",
        "The other strut is as old; it may leak soon. A later failure there is not a comeback.",
        "Mr Harrow by telephone, 24 Nov 2026 15:20",
    )


def correction() -> Correction:
    return Correction(
        "Lower bolt FL, reached",
        "clicked at 170",
        "clicked at 70",
        "typed 170, the wrench was set to 70",
        "Bram Ferro",
        "25 Nov 2026 10:55",
    )


def handover(**changes: Any) -> Handover:
    made = Handover(
        issue(),
        "Air strut, front left: renewed",
        Party("Ansel Harrow", "11 Ropewalk, Quillhaven"),
        identity(),
        "128 410 km, 24 Nov 2026 16:50",
        "128 417 km, 25 Nov 2026 13:05",
        "driven in",
        (concern(),),
        (part(),),
        (OldPart("Air strut FL, serial 5C-11873", "shelf C2, tag 2041-1", "kept for the supplier; can be looked at"),),
        replace(heights(), limits="front 402 ± 10, rear 398 ± 10: maker's sheet VH-SUS-12, edition 3, 2024"),
        (
            PlainJoint("Top mount nuts, 3", "35 N·m", "Bram Ferro", "Nadia Oyelaran-Pike"),
            PlainJoint("Line nut", "4 N·m", "Bram Ferro", "not applicable"),
            PlainJoint("Wheel bolts, 5", "140 N·m", "Bram Ferro", "Nadia Oyelaran-Pike"),
            PlainJoint("Lower bolt and nut", "70 N·m, then +90°, at ride height", "Bram Ferro", "Nadia Oyelaran-Pike"),
        ),
        (
            declined(),
            Answer(
                "Camera calibration", "not possible", "target stand on loan until 1 Dec", "See below.", "Bram Ferro"
            ),
        ),
        (),
        Release("Imke Tolland", "25 Nov 2026 13:20"),
        Retorque("100 km", "9 December 2026", "Without charge, ten minutes, no appointment needed."),
        cautions(("opened", "cold", "lifting", "wheels", "assistance", "maker first", "keep")),
        "12 months or 20 000 km from 25 Nov 2026, whichever comes first, on parts and labour of this job. "
        "Your rights in law stand beside it. Turn to Saltmarsh Lane Suspension.",
    )
    return replace(made, **changes)


def fitting() -> Fitting:
    return Fitting(
        "Air strut",
        "AS-4471-L",
        "5C-11873",
        "FL",
        "18 Sep 2025 by Bram Ferro, job 1377",
        "106 480 km",
        "delivery note 88114, 12 Sep 2025",
        "R-55120, 15 Sep 2025",
        "2025-0713, 18 Sep 2025",
        "4471-K, renewed complete",
    )


def failure() -> Failure:
    return Failure(
        "2 Nov 2026, by the customer",
        "23 Nov 2026",
        "25 Nov 2026 by Bram Ferro, job 2041",
        "128 410 km",
        "14 months, 21 930 km",
        "24 months from invoice, no distance",
        "shelf C2, tag 2041-1, vented, ports closed",
        "AS-4471-L, serial 7H-20611",
        "A-7713, Ms Quade, 24 Nov 2026 11:05",
    )


def excluded() -> tuple[Test, ...]:
    return (
        Test("Line and valve block port, soap", "done", "dry at normal height", "", "Bram Ferro, 25 Nov 08:05"),
        Test("Compressor, run time", "done", "41 s to level, shop limit 120 s", "", "Bram Ferro, 25 Nov 08:20"),
        Test("Strut unmounted, under water", "not possible", "", "no adapter for this port", "Bram Ferro, 25 Nov"),
    )


def pieces() -> tuple[Piece, ...]:
    return (
        Piece("Top mount nut", "3", "3", "3", "3, bagged", "26-09, kit 4471-K, received 20 Nov 2026"),
        Piece("Lower bolt with nut", "1", "1", "1", "1, bagged", "26-11, kit 4471-K, received 20 Nov 2026"),
        Piece("Line seal", "1", "1", "1", "1, bagged", "unknown"),
    )


def tools() -> tuple[Tool, ...]:
    return (
        Tool("TW-04", "click wrench", "10 to 50 N·m", "2 Jun 2026", "2 Jun 2027", "C-1180", "in use"),
        Tool("TW-07", "click wrench", "40 to 200 N·m", "14 Mar 2026", "14 Mar 2027", "C-1102", "in use"),
        Tool("AG-01", "angle gauge", "0 to 360°", "14 Mar 2026", "14 Mar 2027", "", "in use"),
    )


def codes() -> tuple[CodeRow, ...]:
    before, after = "stored\n24 Nov 17:20, 128 410 km", "gone\n25 Nov 12:40, 128 417 km"
    none = CodeRow("Brakes", "none stored", "", "none stored\n24 Nov 17:22", "not read", "not applicable")
    return (CodeRow("Level control", "C1A2B (5A2B)", "run too long", before, after, "by Bram Ferro, 11:20"), none)


def deeds() -> tuple[Deed, ...]:
    return (
        Deed("25 Nov 2026 09:28", "Bram Ferro", "Strut FL out", "did"),
        Deed("25 Nov 2026 10:58", "Nadia Oyelaran-Pike", "Top mount nuts FL, second check", "checked"),
        Deed("25 Nov 2026 13:20", "Imke Tolland", "Vehicle released", "released"),
    )


def evidence(**changes: Any) -> Evidence:
    made = Evidence(
        issue=issue(),
        title="Air strut, front left: leaking at the lower roll of the sleeve",
        recipient="the supplier of the part removed",
        claim="2026-031",
        identity=identity(),
        fitting=fitting(),
        failure=failure(),
        concerns=(concern(),),
        excluded=excluded(),
        heights=heights(),
        leak_down=stand(),
        parts=(part(),),
        joints=joints(),
        sources=sources(),
        pieces=pieces(),
        tools=tools(),
        codes=codes(),
        answers=(declined(),),
        corrections=(correction(),),
        deeds=deeds(),
        release=Release("Imke Tolland", "25 Nov 2026 13:20"),
        attached=("entries.json: 214 entries of the book with inclusion proofs and signed head",),
    )
    return replace(made, **changes)


def let_go_release() -> Release:
    end = LetGo("Wheel alignment after the work", "alignment stand booked 30 Nov", "Imke Tolland", "25 Nov 13:18")
    return Release("Imke Tolland", "25 Nov 2026 13:20", "No trailer, 80 km/h, until aligned on 30 Nov.", (end,))
