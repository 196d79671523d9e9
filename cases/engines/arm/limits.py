# How much force the tooth can use, by trying: the force is raised until something gives way, and halved in on.

import math

import numpy as np

from .engine import GRAVITY, RAMS

WORKS = {"curl": "bucket", "crowd": "dipper", "push-down": "boom", "pull-up": "boom"}
FAR = 1e9


def direction(engine, cut):
    """The unit direction of the ground's force on the tooth, in the arm's plane."""
    if cut == "push-down":
        return np.array([0.0, 1.0])
    if cut == "pull-up":
        return np.array([0.0, -1.0])
    arm = engine.places["tooth"] - engine.places[f"{WORKS[cut]}-pin"]
    return np.array([-arm[1], arm[0]]) / math.hypot(*arm)


def carried(engine, force):
    """The load on the ground with this force on the tooth, and where it comes through."""
    level = force[0] * engine.outwards[:2]
    load = engine.mass * GRAVITY - force[1]
    moment = engine.mass * GRAVITY * engine.centre[:2] - force[1] * engine.turned[:2] + engine.turned[2] * level
    return load, moment / load if load > 0 else np.full(2, np.nan)


def gives_way(engine, cut, corners):
    """What gives way under a force: nothing, or the first of rams, tipping and sliding."""
    machine, along = engine.machine, direction(engine, cut)

    def first(size):
        force = size * along
        for name, thrust in zip(RAMS, engine.thrusts(force)):
            works = name == WORKS[cut]
            push, pull = machine.rams[name].working if works else machine.rams[name].holding
            if not -pull <= thrust <= push:
                return ("working " if works else "holding ") + name
        load, (x, y) = carried(engine, force)
        for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1]):
            if not (bx - ax) * (y - ay) - (by - ay) * (x - ax) >= 0:
                return "tipping"
        if not abs(force[0]) <= machine.friction * load:
            return "sliding"
        return None

    return first


def usable(engine, cut, corners):
    """The largest force that nothing gives way under, and what gives way just above it."""
    first = gives_way(engine, cut, corners)
    if first(0.0):
        return 0.0, first(0.0)
    low, high = 0.0, FAR
    while high - low > 1e-13 * high:
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (low, middle) if first(middle) else (middle, high)
    return low, first(high)
