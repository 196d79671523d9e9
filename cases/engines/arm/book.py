# The machine book as an engine needs it: numbers in metres, kilograms and pascals, read with Python's own TOML reader.

import math
import tomllib

UNITS = {"m": 1.0, "mm": 1e-3, "cm": 1e-2, "kg": 1.0, "t": 1e3, "bar": 1e5, "kPa": 1e3, "MPa": 1e6, "m2": 1.0, "m²": 1.0, "l": 1e-3, "°C": 1.0}


def number(text):
    """A number, or a number and a unit as the book writes them."""
    if isinstance(text, (int, float)):
        return float(text)
    words = text.split()
    if len(words) == 1:
        return float(words[0])
    return float(words[0]) * UNITS[words[1]]


class Machine:
    """One machine: pins by name in the frame of their link, lengths, rams by what they move, masses, supports."""

    def __init__(self, text):
        book = tomllib.loads(text)
        self.arm = book["arm"]
        self.pins = {pin["id"]: tuple(map(number, pin["at"])) for pin in book["pin"]}
        between = {(d["from"], d["to"]): number(d["is"]) for d in book["distance"]}
        self.lever = between["lever-pin", "linkage-pin"]
        self.link = between["linkage-pin", "link-pin"]
        self.rams = {ram["moves"]: Ram(ram) for ram in book["ram"] if ram["moves"] in ("boom", "dipper", "bucket")}
        self.masses = {m["of"]: (number(m["is"]), tuple(map(number, m["at"]))) for m in book["mass"]}
        self.stances = {s["stance"]: [tuple(map(number, c)) for c in s["corner"]] for s in book["support"]}
        self.friction = number(book["ground"]["friction"])
        self.forwards = 1.0 if self.arm["points"] == "forwards" else -1.0
        self.axis = self.forwards * number(self.arm.get("axis-from-middle", 0))


class Ram:
    """All rams of one joint together."""

    def __init__(self, ram):
        self.count = ram.get("count", 1)
        self.closed, self.open = number(ram["closed"]), number(ram["open"])
        piston = self.count * math.pi / 4 * number(ram["bore"]) ** 2
        ring = piston - self.count * math.pi / 4 * number(ram["rod"]) ** 2
        supply = number(ram["supply"])
        # The most it can push and pull: driven by the pump, and holding against the relief of the squeezed side.
        self.working = supply * piston, supply * ring
        self.holding = number(ram["relief-piston"]) * piston, number(ram["relief-rod"]) * ring
        self.barrel = self.count * number(ram["barrel-mass"]), number(ram["barrel-centre"])
        self.rod = self.count * number(ram["rod-mass"]), number(ram["rod-centre"])
