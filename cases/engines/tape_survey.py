# An independent engine: the tape survey of cases/arm/survey.toml fitted anew by numpy's least squares.
#
#   tape_survey.py           fits the measurements of the file and holds the figures beside them against what comes out
#   tape_survey.py --write   draws the measurements from a fixed seed and writes the file
#
# Nothing of ours is used: pins as complex numbers, angles by the law of cosines, derivatives by extrapolated differences,
# steps by numpy.linalg.lstsq, covariance by numpy.linalg.inv. Exit code 77: numpy is not installed.

import cmath
import math
import pathlib
import sys
import tomllib

FILE = pathlib.Path(__file__).resolve().parents[2] / "cases" / "arm" / "survey.toml"
NOT_INSTALLED = 77

try:
    import numpy as np
except ImportError:
    print("not run: numpy is not installed")
    sys.exit(NOT_INSTALLED)

# The reference machine of cases/arm: foot, boom ram barrel and rod, dipper ram barrel, boom length, dipper ram rod,
# bucket ram barrel, lever's pin, dipper length, link pin, tip radius, heel, lever, link.
CRANK = cmath.rect(0.22, math.radians(115.0))
TRUTH = [0.24, 0.66, 0.06, 1.04, 1.22, 0.27, 1.1, 0.33, 2.35, -0.36, 0.17, 0.17, 0.33, 1.28, 0.03, 1.55]
TRUTH += [CRANK.real, CRANK.imag, 0.85, 0.3, 0.42, 0.35, 0.38]
RAMS = [(0.935, 0.71), (0.975, 0.675), (0.85, 0.545)]
PINS = len(TRUTH)
TAPE, RAM, TOOTH = 0.0015, 0.002, 0.004
POSE = [1.29, 1.2045, 0.96554]
BODIES = [
    ["boom-foot", "boom-ram-barrel", "ground", "swing-axis"],
    ["boom-foot", "boom-ram-rod", "dipper-ram-barrel", "dipper-pin"],
    ["dipper-pin", "dipper-ram-rod", "bucket-ram-barrel", "lever-pin", "bucket-pin"],
    ["bucket-pin", "link-pin", "tooth", "heel"],
    ["lever-pin", "linkage-pin"],
    ["linkage-pin", "link-pin"],
]
WRONG, BY = 15, 0.012


def places(x):
    """Where each pin is on each body, in the order of BODIES; ground and swing axis are not points."""
    at = lambda k: complex(x[k], x[k + 1])
    return [
        {"boom-foot": at(0), "boom-ram-barrel": at(2)},
        {"boom-foot": 0, "boom-ram-rod": at(4), "dipper-ram-barrel": at(6), "dipper-pin": x[8]},
        {"dipper-pin": 0, "dipper-ram-rod": at(9), "bucket-ram-barrel": at(11), "lever-pin": at(13), "bucket-pin": x[15]},
        {"bucket-pin": 0, "link-pin": at(16), "tooth": x[18], "heel": at(19)},
        {"lever-pin": 0, "linkage-pin": x[21]},
        {"linkage-pin": 0, "link-pin": x[22]},
    ]


def distance(x, one, other):
    for names, pins in zip(BODIES, places(x)):
        if one in names and other in names:
            if "ground" in (one, other):
                return pins[one if other == "ground" else other].imag
            if "swing-axis" in (one, other):
                return pins[one if other == "swing-axis" else other].real
            return abs(pins[one] - pins[other])
    raise ValueError((one, other))


def joint(barrel, rod, length):
    """The angle of a joint whose longer ram turns it clockwise."""
    cosine = (abs(barrel) ** 2 + abs(rod) ** 2 - length**2) / (2 * abs(barrel) * abs(rod))
    return cmath.phase(barrel) - cmath.phase(rod) - math.acos(cosine)


def meet(one, radius, other, second, side):
    """Where two circles meet, on the left (1) or right (-1) of the way between their centres."""
    way = abs(other - one)
    along = (radius**2 - second**2 + way**2) / (2 * way)
    return one + (other - one) / way * (along + side * 1j * math.sqrt(radius**2 - along**2))


def tooth(x, rams):
    at = lambda k: complex(x[k], x[k + 1])
    boom = joint(at(2) - at(0), at(4), rams[0])
    dipper = boom + joint(at(6) - x[8], at(9), rams[1])
    shared = meet(at(11), rams[2], at(13), x[21], 1)
    link = meet(x[15], abs(at(16)), shared, x[22], -1)
    bucket = dipper + cmath.phase(link - x[15]) - cmath.phase(at(16))
    return at(0) + cmath.rect(x[8], boom) + cmath.rect(x[15], dipper) + cmath.rect(x[18], bucket)


def residuals(y, taped, read):
    out = [(is_ - distance(y, one, other)) / TAPE for one, other, is_ in taped]
    for number, (rams, height, reach) in enumerate(read):
        own = y[PINS + 3 * number : PINS + 3 * number + 3]
        there = tooth(y, own)
        out += [(is_ - true) / RAM for is_, true in zip(rams, own)]
        out += [(height - there.imag) / TOOTH, (reach - there.real) / TOOTH]
    return np.array(out)


def changes(function, y):
    """The derivative, by central differences of two steps extrapolated."""

    def with_step(k, step):
        up, down = np.array(y, float), np.array(y, float)
        up[k] += step
        down[k] -= step
        return (np.array(function(up)) - np.array(function(down))) / (2 * step)

    return np.array([(4 * with_step(k, 5e-5) - with_step(k, 1e-4)) / 3 for k in range(len(y))]).T


def fit(taped, read):
    y = np.array(TRUTH + [length for rams, _, _ in read for length in rams])
    model = lambda y: residuals(y, taped, read)
    for _ in range(20):
        y = y - np.linalg.lstsq(changes(model, y), model(y), rcond=None)[0]
    slope, left = changes(model, y), model(y)
    covariance = np.linalg.inv(slope.T @ slope)
    shown = np.eye(len(left)) - slope @ covariance @ slope.T
    redundancy = np.diag(shown)
    part = changes(lambda pins: [tooth(pins, POSE).real, tooth(pins, POSE).imag], y[:PINS])
    spread = part @ covariance[:PINS, :PINS] @ part.T
    there = tooth(y, POSE)
    return {
        "pins": list(y[:PINS]),
        "sd": list(np.sqrt(np.diag(covariance))[:PINS]),
        "squares": float(left @ left),
        "redundancy": list(redundancy),
        "normalised": list(left / np.sqrt(redundancy)),
        "together": list(shown[WRONG] / np.sqrt(redundancy[WRONG] * redundancy)),
        "tooth": [there.real, there.imag, math.sqrt(spread[0, 0]), math.sqrt(spread[1, 1]), spread[0, 1]],
    }


def drawn():
    chance = np.random.default_rng(20261125)
    error = lambda sd: sd * chance.standard_normal()
    pairs = [
        (names[i], names[j])
        for names in BODIES
        for i in range(len(names))
        for j in range(i + 1, len(names))
        if (names[i], names[j]) != ("ground", "swing-axis")
    ]
    taped = [(one, other, round(distance(TRUTH, one, other) + error(TAPE), 4)) for one, other in pairs]
    one, other, is_ = taped[WRONG]
    taped[WRONG] = (one, other, round(is_ + BY, 4))
    read = []
    for shares in [(0.2, 0.2, 0.3), (0.5, 0.4, 0.7), (0.7, 0.8, 0.4)]:
        rams = [closed + share * stroke for share, (closed, stroke) in zip(shares, RAMS)]
        there = tooth(TRUTH, rams)
        rams = [round(length + error(RAM), 4) for length in rams]
        read.append((rams, round(there.imag + error(TOOTH), 4), round(there.real + error(TOOTH), 4)))
    return taped, read


HEAD = """\
# A tape survey of the reference machine with drawn errors, one distance 12 mm too long, and its fit by numpy.
#
# Written by cases/engines/tape_survey.py --write. Metres. Standard uncertainties: tape 1.5 mm, ram lengths of a pose 2 mm,
# the tooth's height and reach 4 mm. Pins in the order of the survey's unknowns; `together` is the correlation of each test
# with that of the wrong distance; `tooth` its reach and height in one pose, their uncertainties and covariance.

"""


def write(taped, read, fitted):
    digits = lambda number: repr(float(f"{number:.12g}"))
    lines = [f'[[distance]]\nfrom = "{one}"\nto = "{other}"\nis = {is_}\n' for one, other, is_ in taped]
    lines += [f"[[reading]]\nrams = {rams}\nheight = {height}\nreach = {reach}\n" for rams, height, reach in read]
    lines.append(f"[fitted]\npose = {POSE}\nwrong = {WRONG}")
    for name, value in fitted.items():
        text = "[" + ", ".join(map(digits, value)) + "]" if isinstance(value, list) else digits(value)
        lines.append(f"{name} = {text}")
    FILE.write_text(HEAD + "\n".join(lines) + "\n")


def main():
    if "--write" in sys.argv:
        taped, read = drawn()
        write(taped, read, fit(taped, read))
        return 0
    file = tomllib.loads(FILE.read_text())
    taped = [(line["from"], line["to"], line["is"]) for line in file["distance"]]
    read = [(line["rams"], line["height"], line["reach"]) for line in file["reading"]]
    worst = 0.0
    for name, value in fit(taped, read).items():
        kept = np.array(file["fitted"][name])
        worst = max(worst, float(np.max(np.abs(np.array(value) - kept) / (1e-3 + np.abs(kept)))))
    print(f"tape survey: {len(taped)} distances, {len(read)} poses, largest difference {worst:.1e}")
    return 0 if worst < 1e-7 else 1


sys.exit(main())
