"""What may come of what is due, in words: of a visit, any other reminder, a tool, a wait. The keys are kept."""

from collections.abc import Mapping
from types import MappingProxyType

RETORQUE = "Wheel joints tightened once more"  # what the reminder of a visit after wheels were off says
TRIED_HOW = ("by telephone", "by message", "by mail", "spoken")
OF_A_VISIT: Mapping[str, str] = MappingProxyType(
    {
        "done here": "done here",
        "done elsewhere": "done elsewhere, with proof",
        "did not come": "the customer did not come",
        "waived": "waived, with its reason",
    }
)
OF_A_REMINDER: Mapping[str, str] = MappingProxyType({"done": "done", "waived": "no longer needed, with its reason"})
CALIBRATED = "calibrated"
OF_A_TOOL: Mapping[str, str] = MappingProxyType(
    {CALIBRATED: "calibrated", "quarantined": "set aside until it is calibrated", "scrapped": "scrapped"}
)
TAKEN_BACK = "taken back"
OF_A_WAIT: Mapping[str, str] = MappingProxyType(
    {
        "main": "it is over: the step is done",
        "early": "cut short, with its reason",
        TAKEN_BACK: "begun by mistake: taken back, with its reason",
    }
)
