# The strength kernel for curling in Python, as anchors for the one in Rust: numpy over whole columns, numba pose by pose.
#
# usage: strength.py POSES ROUNDS. First the numbers on one line: the kernel's, then low and high length of each ram. Then
# one word a line, numpy, numba or mujoco; each answers with the best time of a round in nanoseconds a pose and the sum of
# all results, or with "none" where that is not installed. MuJoCo has the whole closed linkage of the reference machine,
# its states given, places and thrusts asked for: no limits, and so no sum.

import pathlib
import sys
import time

try:
    import numpy as np
except ModuleNotFoundError:
    np = None
try:
    import numba
except ModuleNotFoundError:
    numba = None

ROOT = pathlib.Path(__file__).resolve().parents[3]
POSES, ROUNDS = int(sys.argv[1]), int(sys.argv[2])


def strength(k, l1, l2, l3):
    """Tooth, direction, work against gravity, turn and lever of each joint, moment: for columns or for one pose."""
    foot_r, foot_z, boom_length, dipper_length, tip, gravity = k[0], k[1], k[2], k[3], k[4], k[5]

    # Boom and dipper: squares, 1 / 2ab, ab, sign, start, barrel, rod.
    def turned(ar, az, ur, uz):
        return ar * ur - az * uz, ar * uz + az * ur

    def swung(c, length, inner_r, inner_z):
        over = 1.0 / length
        cosine = (k[c] - length * length) * k[c + 1]
        sine = (1.0 - cosine * cosine) ** 0.5
        ur, uz = turned(k[c + 4], k[c + 5], cosine, k[c + 3] * sine)
        ar, az = turned(inner_r, inner_z, ur, uz)
        rr, rz = turned(k[c + 8], k[c + 9], ar, az)
        br, bz = turned(k[c + 6], k[c + 7], inner_r, inner_z)
        er, ez = (rr - br) * over, (rz - bz) * over
        return ar, az, rr, rz, er, ez, k[c + 2] * sine * over, er * (er * rr + ez * rz) * over

    boom_r, boom_z, rod1_r, rod1_z, unit1_r, unit1_z, lever1, swing1 = swung(6, l1, 1.0, 0.0)
    dip_r, dip_z, rod2_r, rod2_z, unit2_r, unit2_z, lever2, swing2 = swung(16, l2, boom_r, boom_z)

    rod1, diff1, rod2, diff2, rod3, diff3 = k[26], k[27], k[28], k[29], k[30], k[31]
    barrel_r, barrel_z, pin_r, pin_z, bpin_r, bpin_z, to_r, to_z = k[32], k[33], k[34], k[35], k[36], k[37], k[38], k[39]
    to_sq, over_to_sq, lever_sq, crank_sq, link_sq, over_crank_sq = k[40], k[41], k[42], k[43], k[44], k[45]
    on_r, on_z, shared_side, link_side = k[46], k[47], k[48], k[49]
    mass_r, mass_z, on_shared, on_link_pin, bmass_r, bmass_z, turning_lever = k[50], k[51], k[52], k[53], k[54], k[55], k[56]
    on_boom_r, on_boom_z, boom_barrel, mass_from_foot = k[57], k[58], k[59], k[60]

    over, square = 1.0 / l3, l3 * l3
    along = (square - lever_sq + to_sq) * (0.5 * over_to_sq)
    across = shared_side * (square * over_to_sq - along * along) ** 0.5
    sh_r, sh_z = barrel_r + to_r * along - to_z * across, barrel_z + to_z * along + to_r * across
    way_r, way_z = sh_r - bpin_r, sh_z - bpin_z
    over_way = 1.0 / (way_r * way_r + way_z * way_z)
    along = 0.5 + (crank_sq - link_sq) * (0.5 * over_way)
    across = link_side * (crank_sq * over_way - along * along) ** 0.5
    cr_r, cr_z = way_r * along - way_z * across, way_z * along + way_r * across
    arm_r, arm_z = sh_r - pin_r, sh_z - pin_z
    link_r, link_z = way_r - cr_r, way_z - cr_z
    rate = (link_z * cr_r - link_r * cr_z) / (link_z * arm_r - link_r * arm_z)
    e_r, e_z = (sh_r - barrel_r) * over, (sh_z - barrel_z) * over
    bu_r, bu_z = (cr_r * on_r + cr_z * on_z) * over_crank_sq, (cr_z * on_r - cr_r * on_z) * over_crank_sq
    lever3 = (e_z * arm_r - e_r * arm_z) * rate

    ab_r, ab_z = turned(dip_r, dip_z, bu_r, bu_z)
    td_r, td_z = boom_r * boom_length, boom_z * boom_length
    tb_r, tb_z = dip_r * dipper_length, dip_z * dipper_length
    tip_r, tip_z = ab_r * tip, ab_z * tip
    tm_r, tm_z = turned(bmass_r, bmass_z, bu_r, bu_z)
    m_r = mass_r + sh_r * on_shared + (bpin_r + cr_r) * on_link_pin + tm_r + e_r * diff3
    m_z = mass_z + sh_z * on_shared + (bpin_z + cr_z) * on_link_pin + tm_z + e_z * diff3
    dipper_moment = m_r * dip_r - m_z * dip_z + rod2 * rod2_r
    boom_moment = on_boom_r * boom_r - on_boom_z * boom_z + dipper_moment + diff2 * unit2_r + rod1 * rod1_r
    swing = (e_r * dip_r - e_z * dip_z) * (e_r * arm_r + e_z * arm_z) * over
    with_lever = (turning_lever + rod3) * (arm_r * dip_r - arm_z * dip_z) + diff3 * swing
    g1 = gravity * (boom_moment + diff1 * swing1)
    g2 = gravity * (dipper_moment + diff2 * swing2)
    g3 = gravity * (with_lever * rate + on_link_pin * (cr_r * dip_r - cr_z * dip_z) + bmass_r * ab_r - bmass_z * ab_z)

    fd_r, fd_z = tb_r + tip_r, tb_z + tip_z
    d_r, d_z = -tip_z / tip, tip_r / tip
    t1 = d_z * (td_r + fd_r) - d_r * (td_z + fd_z)
    t2 = d_z * fd_r - d_r * fd_z
    t3 = d_z * tip_r - d_r * tip_z
    moment = boom_barrel + mass_from_foot * foot_r + boom_moment + diff1 * unit1_r
    return foot_r + td_r + fd_r, foot_z + td_z + fd_z, d_r, d_z, g1, t1, lever1, g2, t2, lever2, g3, t3, lever3, moment


def allows_all(gravity, turns, lever, push, pull):
    """What one ram allows, for whole columns."""
    with np.errstate(divide="ignore", invalid="ignore"):
        force = (gravity - np.where(turns * lever < 0.0, push, -pull) * lever) / turns
    thrust, size = np.where(lever < 0.0, -gravity, gravity), np.abs(lever)
    holds = (thrust <= push * size) & (thrust >= -pull * size)
    return np.where(holds, np.where(turns == 0.0, np.inf, force), -1.0)


def by_numpy(k, columns):
    tooth_r, tooth_z, d_r, d_z, g1, t1, v1, g2, t2, v2, g3, t3, v3, moment = strength(k, *columns)
    three = [(g1, t1, v1, 61), (g2, t2, v2, 63), (g3, t3, v3, 65)]
    return [tooth_r, tooth_z, d_r, d_z, *(allows_all(g, t, v, k[at], k[at + 1]) for g, t, v, at in three), moment]


def compiled():
    """The same, pose by pose, compiled; strict arithmetic."""
    one = numba.njit(strength)

    @numba.njit
    def allows(gravity, turns, lever, push, pull):
        thrust = -gravity if lever < 0.0 else gravity
        if not (thrust <= push * abs(lever) and thrust >= -pull * abs(lever)):
            return -1.0
        if turns == 0.0:
            return np.inf
        return (gravity - (push if turns * lever < 0.0 else -pull) * lever) / turns

    @numba.njit
    def all_of(k, l1, l2, l3, out):
        for i in range(len(l1)):
            found = one(k, l1[i], l2[i], l3[i])
            out[0, i], out[1, i], out[2, i], out[3, i] = found[0], found[1], found[2], found[3]
            out[4, i] = allows(found[4], found[5], found[6], k[61], k[62])
            out[5, i] = allows(found[7], found[8], found[9], k[63], k[64])
            out[6, i] = allows(found[10], found[11], found[12], k[65], k[66])
            out[7, i] = found[13]

    return all_of


def best_of(rounds, poses, run):
    """The best time of a round, in nanoseconds a pose."""
    best = float("inf")
    for _ in range(rounds):
        start = time.perf_counter_ns()
        run()
        best = min(best, (time.perf_counter_ns() - start) / poses)
    return best


class Anchors:
    """Each way, made ready the first time it is asked for."""

    def __init__(self, numbers):
        self.k = np.array(numbers[:-6])
        strides = (0.6180339887498949, 0.41421356237309503, 0.7320508075688772)
        share = [(np.arange(POSES) * stride) % 1.0 for stride in strides]
        ends = numbers[-6:]
        self.columns = [ends[2 * ram] + share[ram] * (ends[2 * ram + 1] - ends[2 * ram]) for ram in range(3)]
        self.ready = {}

    def numpy(self):
        best = best_of(ROUNDS // 10, POSES, lambda: by_numpy(self.k, self.columns))
        return best, sum(float(column.sum()) for column in by_numpy(self.k, self.columns))

    def numba(self):
        if numba is None:
            return None
        run = self.ready.setdefault("numba", compiled())
        out = np.empty((8, POSES))
        run(self.k, *self.columns, out)
        return best_of(ROUNDS, POSES, lambda: run(self.k, *self.columns, out)), float(out.sum())

    def mujoco(self):
        if "mujoco" not in self.ready:
            self.ready["mujoco"] = whole_linkage(self.columns)
        run = self.ready["mujoco"]
        return run and (best_of(5, 100, run), float("nan"))


def whole_linkage(columns):
    """A hundred poses of the reference machine in MuJoCo, their states found before; nothing where it is not installed."""
    sys.path.insert(0, str(ROOT / "cases/engines"))
    try:
        from arm.book import Machine
        from arm.engine import Engine
    except ModuleNotFoundError:
        return None
    engine = Engine(Machine((ROOT / "cases/arm/reference-machine-book.toml").read_text(encoding="utf-8")))
    states = []
    for lengths in list(zip(*columns))[:100]:
        engine.pose(lengths)
        states.append(engine.at_swing_nothing)

    def run():
        for state in states:
            engine.take(state)

    return run


def main():
    if np is None:
        anchors = None
        sys.stdin.readline()
    else:
        anchors = Anchors([float(word) for word in sys.stdin.readline().split()])
    for line in sys.stdin:
        found = anchors and getattr(anchors, line.strip())()
        print("none" if not found else f"{found[0]:.6f} {found[1]!r}", flush=True)


main()
