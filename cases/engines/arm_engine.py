# An independent engine: the arm of the second machine worked out by MuJoCo's multibody mechanics, and by kingpost.
#
#   arm_engine.py            many random poses of the second machine and of three others made from it, both programs
#   arm_engine.py --write    writes cases/arm/second-machine.csv anew: what the usual tests hold the program against
#
# Nothing of ours but the command is used. Poses are drawn from a fixed seed. Exit code 77: the engine is not installed.

import csv
import io
import json
import math
import os
import pathlib
import random
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ.get("KINGPOST_BIN", str(HERE / "target" / "debug" / "kingpost"))
BOOK = HERE / "cases" / "arm" / "second-machine-book.toml"
TABLE = HERE / "cases" / "arm" / "second-machine.csv"
NOT_INSTALLED = 77

try:
    import mujoco

    from arm.book import Machine
    from arm.engine import LOOKS_LIKE, RAMS, Engine
    from arm.limits import WORKS, direction, usable
except ModuleNotFoundError as why:
    print(f"not run: {why.name} is not installed; ./check long installs it from requirements.txt")
    sys.exit(NOT_INSTALLED)

# Other machines made from the second one: pins put elsewhere, so that rams turn their joints the other way.
OTHERS = {
    "boom lowers, dipper crowds": {
        "pins": {
            "boom-ram-barrel": ("0.4 m", "0.88 m"),
            "boom-ram-rod": ("1 m", "0.24 m"),
            "dipper-ram-barrel": ("1.15 m", "0.3 m"),
            "dipper-ram-rod": ("-0.25 m", "0.12 m"),
        },
        "strokes": {"boom": ("0.75 m", "1.33 m"), "dipper": ("0.93 m", "1.37 m")},
        "out": {"boom": "lowers", "dipper": "crowds"},
        "looks": {},
    },
    "bucket opens": {
        "pins": {
            "bucket-ram-barrel": ("115 mm", "-235 mm"),
            "lever-pin": ("965 mm", "-30 mm"),
            "link-pin": ("-66 mm", "-154 mm"),
        },
        "strokes": {},
        "out": {"bucket": "opens"},
        "looks": {"bucket": 45.0, "lever": -85.0, "link": 110.0},
    },
}
OTHERS["all three the other way"] = {
    key: OTHERS["boom lowers, dipper crowds"][key] | OTHERS["bucket opens"][key] for key in ("pins", "strokes", "out", "looks")
}


def made_over(text, other):
    """The book of another machine."""

    def put(pattern, value):
        nonlocal text
        text, times = re.subn(pattern, lambda found: found[1] + value, text, flags=re.S)
        assert times == 1, pattern

    for pin, (one, two) in other["pins"].items():
        put(rf'(id = "{pin}"\non = "\w+"\nat = )\[[^\]]*\]', f'["{one}", "{two}"]')
    for ram, (closed, opened) in other["strokes"].items():
        put(rf'(moves = "{ram}"\n(?:count = 2\n)?bore = "[^"]*"\nrod = "[^"]*"\n)closed = "[^"]*"\nopen = "[^"]*"', f'closed = "{closed}"\nopen = "{opened}"')
    for ram, way in other["out"].items():
        put(rf'({ram}-ram-out = )"\w+"', f'"{way}"')
    return text


def drawn(machine, draw, how_many):
    """Ram lengths within the strokes, the ends left out, and how far the house is swung, in degrees."""
    length = lambda ram: round(ram.closed + (ram.open - ram.closed) * draw.uniform(0.01, 0.99), 6)
    return [[length(machine.rams[name]) for name in RAMS] + [round(draw.uniform(-180, 180), 3)] for _ in range(how_many)]


ASKED = ["boom length [m]", "dipper length [m]", "bucket length [m]", "swing angle [deg]"]


def worked_out(engine, lengths, degrees):
    """Everything that is compared of one pose, under the names of the program's own columns."""
    engine.pose(lengths, math.radians(degrees))
    found = {}
    for name, angle in zip(RAMS, engine.angles):
        found[f"{name}-angle [deg]"] = math.degrees(angle)
    for pin in ("dipper-pin", "bucket-pin", "tooth", "heel"):
        found[f"{pin}-r [m]"], found[f"{pin}-z [m]"] = map(float, engine.places[pin])
    for name, thrust in zip(RAMS, engine.hanging):
        found[f"{name}-hanging-thrust [N]"] = float(thrust)
    for cut in WORKS:
        added = engine.per_newton @ direction(engine, cut)
        for name, each in zip(RAMS, added):
            found[f"{cut}-per-newton-{name}"] = float(each)
        for stance, corners in engine.machine.stances.items():
            force, what = usable(engine, cut, corners)
            found[f"{cut}-usable-{stance} [N]"], found[f"{cut}-governs-{stance}"] = force, what
    found["load-tracks [N]"] = engine.mass * 9.80665
    found["load-point-x-tracks [m]"], found["load-point-y-tracks [m]"] = map(float, engine.centre[:2])
    return found


def turns_as_the_book_says(engine):
    """Whether the assembly that the engine found is the one that the book tells of."""
    says = {"raises": 1, "lowers": -1, "reaches": 1, "crowds": -1, "opens": 1, "curls": -1}
    before = None
    for share in (0.4, 0.6):
        engine.pose([r.closed + share * (r.open - r.closed) for r in map(engine.machine.rams.get, RAMS)])
        turned, before = before and [now - then for now, then in zip(engine.angles, before)], engine.angles
    return all(turn * says[engine.machine.arm[f"{name}-ram-out"]] > 0 for name, turn in zip(RAMS, turned))


def ours(text, poses):
    """The program's own rows for these poses of this book."""
    with tempfile.TemporaryDirectory() as folder:
        book, file = pathlib.Path(folder, "book.toml"), pathlib.Path(folder, "poses.csv")
        book.write_text(text, encoding="utf-8")
        file.write_text("\n".join([",".join(ASKED)] + [",".join(map(repr, pose)) for pose in poses]) + "\n")
        run = subprocess.run([PROGRAM, "--json", "arm", book, "--poses", file], capture_output=True, text=True)
    if run.returncode != 0:
        raise SystemExit(f"exit {run.returncode}: {run.stderr}{run.stdout}")
    return json.loads(run.stdout)["poses"]


def off(name, theirs, mine):
    """How far two values are apart, as a share of what is allowed: 1 is too far."""
    if isinstance(theirs, str) or isinstance(mine, str) or mine is None:
        return 0.0 if theirs == mine else math.inf
    share, floor = (1e-8, 1e-5) if "usable" in name else (1e-10, 1e-6) if "[N]" in name else (1e-10, 1e-9)
    return abs(theirs - mine) / max(share * abs(theirs), floor)


def compared(name, text, looks_like, how_many):
    """Random poses of one book by both programs; prints the worst of each kind of figure and says whether all agree."""
    engine = Engine(Machine(text), looks_like)
    if not turns_as_the_book_says(engine):
        print(f"{name}: the engine's assembly is not the book's")
        return False
    poses = drawn(engine.machine, random.Random(f"poses of {name}"), how_many)
    worst = {}
    for pose, row in zip(poses, ours(text, poses), strict=True):
        theirs = worked_out(engine, pose[:3], pose[3])
        for key, value in theirs.items():
            mine = row.get(key.split(" [")[0])
            # Where two limits are as good as equal, either may be named.
            if "-governs-" in key and value != mine:
                value = equal_limits(row, key, value)
            kind = re.sub(r"(boom|dipper|bucket|curl|crowd|push-down|pull-up|tooth|heel|tracks|blade)", "*", key)
            worst[kind] = max(worst.get(kind, (0.0, "")), (off(key, value, mine), f"{pose} {key}: {value} and not {mine}"))
    agrees = all(share < 1 for share, _ in worst.values())
    print(f"{name}: {how_many} poses, {len(worst)} kinds of figure, {'agree' if agrees else 'DIFFER'}")
    for kind, (share, where) in sorted(worst.items()):
        if not agrees and share >= 1:
            print(f"  {kind}: {where}")
    print(f"  worst, as a share of what is allowed: {max(share for share, _ in worst.values()):.2g}")
    return agrees


def equal_limits(row, key, value):
    """The program's own word where the limit that the engine names allows as much to within a hundred millionth."""
    cut, stance = key.split("-governs-")
    least = row[f"{cut}-usable-{stance}"]
    kind, _, ram = value.partition(" ")
    other = row.get({"tipping": f"{cut}-tips-{stance}", "sliding": f"{cut}-slides-{stance}"}.get(kind, f"{cut}-{ram}-{kind}"))
    close = isinstance(other, float) and abs(other - least) <= 1e-8 * max(abs(least), 1)
    return row[key] if close else value


def write(text):
    """The table for the usual tests."""
    engine = Engine(Machine(text))
    assert turns_as_the_book_says(engine)
    out = io.StringIO()
    rows = []
    for pose in drawn(engine.machine, random.Random("the second machine's table"), 60):
        rows.append(dict(zip(ASKED, pose)) | worked_out(engine, pose[:3], pose[3]))
    table = csv.DictWriter(out, rows[0].keys(), lineterminator="\n")
    table.writeheader()
    table.writerows(rows)
    says = f"# The second machine, an invented one, computed by MuJoCo {mujoco.__version__}: cases/engines/arm_engine.py --write\n"
    TABLE.write_text(says + out.getvalue(), encoding="utf-8")
    print(f"{TABLE.relative_to(HERE)}: {len(rows)} poses")


def main():
    """Compares, or writes the table."""
    text = BOOK.read_text(encoding="utf-8")
    if sys.argv[1:] == ["--write"]:
        write(text)
        return 0
    agree = [compared("the second machine", text, LOOKS_LIKE, 150)]
    for name, other in OTHERS.items():
        agree.append(compared(name, made_over(text, other), LOOKS_LIKE | other["looks"], 60))
    return 0 if all(agree) else 1


if __name__ == "__main__":
    sys.exit(main())
