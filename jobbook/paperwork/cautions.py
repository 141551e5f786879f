"""What the customer is told to watch for. Facts of the trade in our words; services choose those that apply."""

from types import MappingProxyType

CAUTIONS = MappingProxyType(
    {
        "opened": "The air suspension was opened and filled again. Look at the vehicle every day for the first week: "
        "if one corner stands lower than the others, or a red warning shows, do not drive and call us.",
        "empty spring": "Never drive on a spring that has lost its air: it is ruined within metres.",
        "cold": "After a cold night all four corners may stand a few millimetres lower together. That is the air "
        "shrinking. One corner lower than the rest is not.",
        "lifting": "Before the vehicle is lifted, for a wheel change too, switch its levelling to jacking mode as the "
        "handbook says. With levelling on it moves while somebody is under it.",
        "wheels": "Wheels were off. Their bolts must be tightened once more at the visit that this paper names.",
        "not aligned": "The wheels were not aligned after work on the suspension. Tyres may wear unevenly and the "
        "vehicle may pull to one side until that is done.",
        "assistance": "Cameras and radars of the driver assistance were not calibrated after the work. Treat these "
        "functions as not reliable until that is done.",
        "lamps": "The headlamps were not aimed after the work. They may dazzle others or light too short.",
        "maker first": "The vehicle maker's handbook comes before anything on this paper.",
        "keep": "Keep this paper: it proves the day and the odometer reading of the fitting.",
    }
)


def cautions(keys: tuple[str, ...]) -> tuple[str, ...]:
    """The sentences for these keys, in the order of the list above. An unknown key is a KeyError."""
    chosen = {key: CAUTIONS[key] for key in keys}
    return tuple(chosen[key] for key in CAUTIONS if key in chosen)
