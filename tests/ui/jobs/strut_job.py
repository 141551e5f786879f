"""The job sheet of the front-left strut in the middle of its work, for tests of the job page and for looking at it."""

from dataclasses import replace

from jobbook.core.work.model import Act, LooseEnd
from jobbook.services.sheet.sheets import (
    Ask,
    BegunMethod,
    Card,
    Choice,
    Fact,
    JobSheet,
    JointRow,
    Option,
    Staff,
    StateWord,
    StepRow,
    Tab,
    Unsigned,
)

TABS = (
    Tab("arrival", "Arrival", "disc"),
    Tab("diagnosis", "Diagnosis", "disc"),
    Tab("permission", "Permission", "disc"),
    Tab("parts", "Parts", "disc"),
    Tab("work", "Work", "half"),
    Tab("checks", "Final checks", "ring"),
    Tab("papers", "Papers", "ring"),
)

FACTS = (
    Fact("VIN", "A09VH2AT4KB204117", strong=True),
    Fact("Odometer", "128 410 km in", "· out not read yet"),
    Fact("Promised", "today 17:00", "· allowed 1 480.00, so far 1 212.40"),
    Fact("Variant", "2019, adaptive dampers, air in front only"),
)

STAFFS = (
    Staff("FL", "392", "402", "412", "366"),
    Staff("FR", "392", "402", "412", "399"),
    Staff("RL", "388", "398", "408", "394"),
    Staff("RR", "388", "398", "408", "395"),
)

STATE = (
    StateWord("on the lift", strong=True),
    StateWord("levelling off"),
    StateWord("battery off"),
    StateWord("restraints live"),
    StateWord("FL vented", strong=True),
    StateWord("FR charged"),
    StateWord("no air at the rear"),
)

LOOSE_NOW = tuple(
    LooseEnd(rule, on, sentence, "loose now", mark, f"2026-03-12T{since}:00+01:00")
    for rule, on, sentence, mark, since in (
        ("line-left-open", "air_line@FL", "Line at the strut FL open, plugged", "ring", "09:41"),
        ("joint-left-loose", "lower_bolt@FL", "Strut lower bolt FL by hand, tighten at ride height", "half", "10:20"),
        ("joint-left-loose", "wheel_bolts@FL", "Wheel FL off, bolts out", "ring", "09:28"),
        ("left-out", "damper_plug@FL", "Damper connector FL out", "ring", "09:46"),
        ("left-out", "sensor_plug@FL", "Height sensor connector FL out", "ring", "09:47"),
        ("left-behind", "hub_strap@FL", "Strap that carries the hub FL in place", "disc", "09:35"),
        ("plugs-differ", "plugs", "1 plug in, not taken out again", "ring", "09:41"),
        ("condition-left", "support", "The vehicle is on the lift", "ring", "09:26"),
        ("condition-left", "levelling", "Levelling is off", "ring", "09:20"),
    )
)

STILL_TO_DO = tuple(
    LooseEnd(rule, on, sentence, "still to do", mark, since)
    for rule, on, sentence, mark, since in (
        ("joint-left-loose", "top_nuts@FL", "Second check top mount nuts FL", "disc", "2026-03-12T10:16:00+01:00"),
        ("heights-missing", "heights", "Heights after the work", "ring", ""),
        ("not-calibrated", "heights", "Calibrate the heights", "ring", ""),
        ("not-calibrated", "headlamps", "Aim the headlamps", "ring", ""),
        ("not-calibrated", "driver_assistance", "Calibrate driver assistance", "ring", ""),
        ("not-aligned", "geometry", "Align the axle, before and after", "ring", ""),
        ("not-driven", "drive", "Road test", "ring", ""),
        ("codes-not-read", "codes", "Fault codes after the work", "ring", ""),
    )
)

_STEPS = """
1|disc|Fault codes of every module saved||09:14
2|disc|Heights as it stands, nothing woken||09:16
3|disc|Levelling off, by the scan tool||09:20
4|disc|Wheel bolts broken loose on the ground||09:23
5|disc|On the lift, suspension hanging||09:26
6|disc|Wheel off, bolts and hub face looked at||09:28
7|disc|Strap that carries the hub in place||09:35
8|disc|FL vented by the scan tool, sleeve felt soft||09:38
9|disc|Air line off the strut, ends plugged||09:41
10|disc|Damper connector out||09:46
11|disc|Height sensor connector out||09:47
12|disc|Link rod nut loosened||09:49
13|disc|Lower bolt loosened||09:51
14|disc|Lower bolt out||09:52
15|disc|Top mount nuts loosened||09:55
16|disc|Top mount nuts out||09:56
17|disc|Old strut off, held by hand||10:01
18|disc|Old strut looked at: chafed through at the lower fold||10:03
19|disc|Picture of the place that leaks||10:04
20|disc|Box, label and fold of the new strut looked at||10:06
21|disc|New strut in, locating lug outward|serial 7H-20611|10:08
22|disc|Top mount nuts by hand, new, 3 of 3||10:11
23|disc|Top mount nuts tightened||10:16
24|ring|Join the air line at the strut||
25|ring|Damper connector in, clip heard||
26|ring|Wheel on, bolts by hand, cross pattern||
27|ring|Fill FL at droop, look round the fold|||needs 24
28|ring|Settle, 2 min||
29|ring|Lower until the tyres touch, stop, look again|||needs 27
30|ring|Wheel bolts tightened on the ground, cross pattern||
31|ring|On its wheels, full weight|||needs 30
32|ring|Heights read at the wheel arch||
33|ring|Strut lower bolt tightened at ride height|||needs 32
34|ring|Second check, strut lower bolt||
35|ring|Line looked at under pressure: tight?||
36|ring|Levelling active||
37|ring|Heights calibrated||
38|ring|Axle aligned, before and after||
39|ring|Headlamps aimed||
40|ring|Fault codes after the work||
41|ring|Road test||
"""


def _step(line: str) -> StepRow:
    number, mark, title, note, at, needs = [*line.split("|"), ""][:6]
    at = f"2026-03-12T{at}:00+01:00" if at else ""
    return StepRow(0, int(number), title, "FL", mark, note, at, needs.removeprefix("needs "))


STEPS = tuple(_step(line) for line in _STEPS.split("\n") if line)

JOINT = JointRow(
    "Line nut FL",
    (
        ("New", "", "seal 1 of 1 issued"),
        ("By hand", "ring", ""),
        ("Torque", "ring", "4 N·m ± 10 %"),
        ("Angle", "", "–"),
        ("Check", "", "–"),
        ("Tool", "", "TW-02, 2 to 10 N·m"),
    ),
)

WHY = (Ask("reason", "Why not?", "long text"),)

JOINED = Choice("done", "Joined", "Enter", Act("join", on="air_line@FL"), main=True)
NOT_DONE = Choice("not-done", "Not done", "N", Act("join", on="air_line@FL", answer="not done"), WHY)
PICTURE = Choice("picture", "Picture", "P", Act("photo"), (Ask("text", "What it shows"),))

TIGHTEN = Choice(
    "tighten",
    "Clicked at 70 N·m",
    "Enter",
    Act("tighten", on="lower_bolt@FL", stage=1),
    (
        Ask(
            "tool",
            "Tool",
            "tool",
            (
                Option("TW-07", "TW-07, click wrench, 20 to 100 N·m, calibrated to 14 Mar 2027"),
                Option("TW-02", "TW-02, click wrench, 2 to 10 N·m", "70 N·m is outside its range of 2 to 10 N·m"),
                Option("TW-11", "TW-11, click wrench, 40 to 200 N·m", "its calibration ran out on 2 March 2026"),
            ),
        ),
    ),
    main=True,
    signs=True,
)
OTHER_VALUE = Choice(
    "reached",
    "The tool shows a value",
    "V",
    Act("tighten", on="lower_bolt@FL", stage=1),
    (*TIGHTEN.asks, Ask("reached", "Reached", "quantity", unit="N·m")),
    signs=True,
)
CHECK = Choice(
    "check",
    "Clicked at the set value, nothing moved",
    "Enter",
    Act("second_check", on="lower_bolt@FL"),
    (Ask("how", "How", "choice", (Option("clicked", "clicked again"), Option("witnessed", "witnessed"))),),
    main=True,
    signs=True,
    second_person=True,
)

CARD = Card(
    STEPS[23],
    "Plug out of the line, new seal on, nut started by hand, then tightened. The strut's own cap comes off last.",
    "Eye protection. Keep the seal clean and off sharp edges; a nicked seal is a leak.",
    (JOINT,),
    ("maker's sheet VH-SUS-12, edition 3, 2024 · read by I. Tolland, second look N. Oyelaran-Pike",),
    (JOINED, NOT_DONE, PICTURE),
)

UNSIGNED = tuple(
    Unsigned(f"a{n}", 1200 + n, words, "Bram Ferro", f"2026-03-12T{at}:00+01:00")
    for n, words, at in (
        (1, "Link rod nut FL loosened", "09:49"),
        (2, "Lower bolt FL loosened", "09:51"),
        (3, "Lower bolt FL out", "09:52"),
    )
)


def strut_sheet() -> JobSheet:
    """Job 2041 as it stands at twenty-four minutes past ten."""
    return JobSheet(
        number=2041,
        stage="in work",
        stage_words="in work since 09:12",
        vehicle="Varnholt estate",
        plate="KX-07-ALD",
        concern="Front left is right down in the morning, comes up after a minute.",
        facts=FACTS,
        cry="FL strut was fitted here 14 months ago, job 1377. Inside the supplier's 24 months: keep the part.",
        staffs=STAFFS,
        heights_from="hub centre to arch edge, mm",
        state=STATE,
        loose_now=LOOSE_NOW,
        still_to_do=STILL_TO_DO,
        held="Release is held by 17 loose ends",
        tabs=TABS,
        methods=(BegunMethod(0, "Air strut, renew one corner", "FL"),),
        steps=STEPS,
        card=CARD,
        unsigned=(),
    )


def at_step(number: int, *choices: Choice, **changes: object) -> JobSheet:
    """The same job with another step open and these choices on its card."""
    step = STEPS[number - 1]
    card = replace(CARD, step=step, choices=choices, **changes)  # type: ignore[arg-type]
    return replace(strut_sheet(), card=card)
