# An independent engine: the same leaves worked out by Python's own statistics, fractions and itertools, on drawn inputs.
#
# Nothing of ours but the command is used. Numbers are drawn from a fixed seed; each answer must agree to 1e-9 of its size.
# What Python has of its own: statistics.NormalDist (normal distribution), fractions (exact sums), itertools (all tours).

import itertools
import json
import math
import os
import pathlib
import random
import statistics
import subprocess
import sys
from fractions import Fraction

HERE = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ.get("KINGPOST_BIN", str(HERE / "target" / "debug" / "kingpost"))
DRAW = random.Random(20260302)


def ours(leaf, **inputs):
    """The first output of a leaf, by the command."""
    text = [f"{name}={';'.join(map(repr, v)) if isinstance(v, list) else repr(v)}" for name, v in inputs.items()]
    run = subprocess.run([PROGRAM, "--json", "reckon", leaf, *text], capture_output=True, text=True)
    if run.returncode != 0:
        raise SystemExit(f"{leaf} {inputs}: exit {run.returncode}: {run.stderr}{run.stdout}")
    return {output["name"]: output["value"] for output in json.loads(run.stdout)["outputs"]}


def conformity():
    """Share of a normal distribution inside limits, by statistics.NormalDist."""
    low, width, u = DRAW.uniform(-5, 5), DRAW.uniform(0.1, 6), DRAW.uniform(0.05, 2)
    measured = DRAW.uniform(low - 2, low + width + 2)
    normal = statistics.NormalDist(measured, u)
    inputs = dict(measured=measured, standard_uncertainty=u, low=low, high=low + width)
    return "machine.conformity_probability", inputs, normal.cdf(low + width) - normal.cdf(low)


def guard_band():
    """Risk at a guard band, by statistics.NormalDist."""
    w, u = DRAW.uniform(0, 3), DRAW.uniform(0.2, 2)
    return "machine.guard_band_risk", dict(guard_band=w, standard_uncertainty=u), statistics.NormalDist(0, u).cdf(-w)


def lap():
    """The shortest lap over all orders, by itertools."""
    n = DRAW.randint(3, 7)
    places = [(DRAW.uniform(-6, 6), DRAW.uniform(-3, 3)) for _ in range(n)]
    way = [[math.dist(a, b) for b in places] for a in places]
    orders = itertools.permutations(range(1, n))
    best = min(sum(way[a][b] for a, b in zip((0, *order), (*order, 0))) for order in orders)
    distances = [d for row in way for d in row]
    return "machine.lap_length", dict(distances=distances, back_to_start=1), best


def mean():
    """Mean of spans, exactly, by fractions."""
    spans = [round(DRAW.uniform(10, 60), 3) for _ in range(DRAW.randint(1, 6))]
    exact = sum(map(Fraction, spans)) / len(spans)
    return "machine.span_mean", dict(spans=spans, reading_half_width=1.5), float(exact)


def grease():
    """Grease of a round, exactly, by fractions."""
    fittings, strokes, grams = DRAW.randint(1, 60), DRAW.randint(1, 8), round(DRAW.uniform(0.5, 3), 2)
    exact = Fraction(fittings) * strokes * Fraction(grams)
    return "upkeep.grease_round_mass", dict(fittings=fittings, strokes=strokes, grams_per_stroke=grams), float(exact)


def meter():
    """A meter that ran over, exactly, by fractions."""
    modulus = 99999.9
    before = round(DRAW.uniform(90000, 99999), 1)
    after = round(DRAW.uniform(0, 50), 1)
    exact = Fraction(after) - Fraction(before) + Fraction(modulus)
    return "upkeep.meter_advance", dict(before=before, after=after, modulus=modulus), float(exact)


def main():
    """Each kind forty times; prints the worst difference of each."""
    failed = 0
    for kind in (conformity, guard_band, lap, mean, grease, meter):
        worst = 0.0
        for _ in range(40):
            leaf, inputs, theirs = kind()
            values = ours(leaf, **inputs)
            value = next(iter(values.values()))
            value = value if not isinstance(value, list) else value[0]
            worst = max(worst, abs(value - theirs) / max(1e-3, abs(theirs)))
        agrees = worst < 1e-9
        failed += not agrees
        print(f"{leaf:35} 40 draws, worst difference {worst:.1e} {'agrees' if agrees else 'DIFFERS'}")
    return 1 if failed else 0


sys.exit(main())
