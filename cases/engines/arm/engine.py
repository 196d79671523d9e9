# The whole machine in MuJoCo: every link, lever, barrel and rod a body of its own, the loops closed at the pins.
#
# Nothing of the closed form is used. A pose is found by walking from the middle of all strokes to the wanted lengths in
# small steps, each closed again by Newton's method on the engine's own Jacobians, so that no loop flips to its mirror
# image. Thrusts come from the engine's gravity forces: S f + J_loop^T c = bias - J_tooth^T F, solved for the thrusts f
# and the forces c in the loops. mj_inverse is of no use here: its soft loops carry next to nothing at rest.

import math

import mujoco
import numpy as np

GRAVITY = 9.80665
RAMS = ("boom", "dipper", "bucket")
# Ends that must meet: the rod of each ram and its pin, the end of the link and its pin on the bucket.
LOOPS = (("boom-rod", "boom-eye"), ("dipper-rod", "dipper-eye"), ("bucket-rod", "bucket-eye"), ("link-end", "link-eye"))
HINGES = ("boom", "dipper", "bucket", "lever", "link", "boom-barrel", "dipper-barrel", "bucket-barrel")
# One look at the arm with all rams half out, in degrees: boom up a little, dipper drawn in, bucket half curled, the
# lever standing off the dipper, the link turning down to the bucket. Newton's method finds the rest.
LOOKS_LIKE = {"boom": 15.0, "dipper": -85.0, "bucket": -45.0, "lever": 85.0, "link": -110.0}
STEPS = 60


def body(name, at, joint, mass, inside, sites=()):
    """A body with a hinge or slide at its own origin; x along it, z up, turning from x to z."""
    (kilograms, (x, z)) = mass
    turns = {"hinge": '<joint name="%s" type="hinge" axis="0 -1 0"/>', "slide": '<joint name="%s" type="slide" axis="1 0 0"/>'}
    spots = "".join(f'<site name="{site}" pos="{sx!r} 0 {sz!r}"/>' for site, (sx, sz) in sites)
    return (
        f'<body name="{name}" pos="{at[0]!r} 0 {at[1]!r}">{turns[joint] % name}'
        f'<inertial pos="{x!r} 0 {z!r}" mass="{kilograms!r}" diaginertia="1 1 1"/>{spots}{inside}</body>'
    )


def ram(machine, name):
    """Barrel on its pin, rod sliding in it; the slide's place is the ram's length."""
    sizes, at = machine.rams[name], machine.pins[f"{name}-ram-barrel"]
    rod = body(f"{name}-ram", (0, 0), "slide", (sizes.rod[0], (-sizes.rod[1], 0)), "", [(f"{name}-rod", (0, 0))])
    return body(f"{name}-barrel", at, "hinge", (sizes.barrel[0], (sizes.barrel[1], 0)), rod)


def description(machine):
    """The machine as the engine reads it, its bucket empty."""
    pins, mass = machine.pins, dict(machine.masses)
    along = lambda part: (mass[part][0], (mass[part][1][0], 0))
    link = body("link", (machine.lever, 0), "hinge", along("link"), "", [("link-end", (machine.link, 0))])
    lever = body("lever", pins["lever-pin"], "hinge", along("lever"), link, [("bucket-eye", (machine.lever, 0))])
    spots = [("link-eye", pins["link-pin"]), ("tooth", pins["tooth"]), ("heel", pins["heel"])]
    bucket = body("bucket", pins["bucket-pin"], "hinge", mass["bucket"], "", spots)
    on_dipper = [("dipper-eye", pins["dipper-ram-rod"])]
    dipper = body("dipper", pins["dipper-pin"], "hinge", mass["dipper"], bucket + lever + ram(machine, "bucket"), on_dipper)
    on_boom = [("boom-eye", pins["boom-ram-rod"])]
    boom = body("boom", pins["boom-foot"], "hinge", mass["boom"], dipper + ram(machine, "dipper"), on_boom)
    (post, (r, z)), (base, place) = mass["post"], mass["machine"]
    heading = 0 if machine.forwards > 0 else 180
    return (
        f'<mujoco><compiler angle="degree"/><option gravity="0 0 {-GRAVITY!r}"/><worldbody>'
        f'<body name="base"><inertial pos="{place[0]!r} {place[1]!r} {place[2]!r}" mass="{base!r}" diaginertia="1 1 1"/></body>'
        f'<body name="house" pos="{machine.axis!r} 0 0" euler="0 0 {heading}"><joint name="swing" type="hinge" axis="0 0 1"/>'
        f'<inertial pos="{r!r} 0 {z!r}" mass="{post!r}" diaginertia="1 1 1"/>{boom}{ram(machine, "boom")}</body>'
        "</worldbody></mujoco>"
    )


class Engine:
    """One machine in the engine, posed and asked."""

    def __init__(self, machine, looks_like=LOOKS_LIKE):
        self.machine = machine
        self.model = mujoco.MjModel.from_xml_string(description(machine))
        self.data = mujoco.MjData(self.model)
        place = lambda joint: self.model.jnt_dofadr[self.model.joint(joint).id]
        self.hinges = [place(name) for name in HINGES]
        self.slides = [place(f"{name}-ram") for name in RAMS]
        self.swing = place("swing")
        self.plane = sorted(self.hinges + self.slides)
        self.middle = [(machine.rams[name].closed + machine.rams[name].open) / 2 for name in RAMS]
        for name, degrees in looks_like.items():
            self.data.qpos[place(name)] = math.radians(degrees)
        self._aim_barrels(place)
        self._close(self.middle)
        self.start = self.data.qpos.copy()

    def _aim_barrels(self, place):
        """Each barrel points at the pin its rod belongs on."""
        for name in RAMS:
            mujoco.mj_kinematics(self.model, self.data)
            way = self.data.site(f"{name}-eye").xpos - self.data.body(f"{name}-barrel").xpos
            inside = self.data.body(f"{name}-barrel").xmat.reshape(3, 3).T @ way
            self.data.qpos[place(f"{name}-barrel")] += math.atan2(inside[2], inside[0])

    def _jacobian(self, site):
        jacobian = np.zeros((3, self.model.nv))
        mujoco.mj_jacSite(self.model, self.data, jacobian, None, self.model.site(site).id)
        return jacobian

    def _loops(self):
        """How far the loops stand open, and how that changes with every coordinate."""
        mujoco.mj_kinematics(self.model, self.data)
        mujoco.mj_comPos(self.model, self.data)
        apart, rates = [], []
        for one, other in LOOPS:
            apart.append((self.data.site(one).xpos - self.data.site(other).xpos)[[0, 2]])
            rates.append((self._jacobian(one) - self._jacobian(other))[[0, 2]])
        return np.concatenate(apart), np.concatenate(rates)

    def _close(self, lengths):
        self.data.qpos[self.slides] = lengths
        for _ in range(50):
            apart, rates = self._loops()
            step = np.linalg.solve(rates[:, self.hinges], apart)
            self.data.qpos[self.hinges] -= step
            if np.abs(step).max() < 1e-14:
                break
        apart, _ = self._loops()
        if np.abs(apart).max() > 1e-12:
            raise ArithmeticError(f"the loops do not close at {lengths}")

    def pose(self, lengths, swing=0.0):
        """Takes the pose with the rams at these lengths; swing in radians, to the left."""
        self.data.qpos[:] = self.start
        ways = zip(self.middle, lengths)
        steps = [np.linspace(start, end, STEPS + 1)[1:] for start, end in ways]
        for at in zip(*steps):
            self._close(at)
        self.at_swing_nothing = self.data.qpos.copy()
        self.take(self.at_swing_nothing)
        self.data.qpos[self.swing] = swing
        mujoco.mj_forward(self.model, self.data)
        self.mass = float(self.model.body_subtreemass[0])
        self.centre = self.data.subtree_com[0].copy()
        self.turned = self.data.site("tooth").xpos.copy()
        self.outwards = self.data.body("house").xmat.reshape(3, 3)[:, 0].copy()

    def take(self, state):
        """Takes a pose whose state is known already, and asks for places and thrusts."""
        self.data.qpos[:] = state
        self.data.qvel[:] = 0
        mujoco.mj_forward(self.model, self.data)
        self._ask()

    def _ask(self):
        """What is asked in the arm's own plane: places, angles, and thrusts for no force and for one newton each way."""
        house = self.data.body("house").xmat.reshape(3, 3)
        inside = lambda point: (house.T @ (point - self.data.body("house").xpos))[[0, 2]]
        self.places = {name: inside(self.data.site(name).xpos) for name in ("tooth", "heel", "link-eye", "bucket-eye")}
        self.places |= {f"{name}-pin": inside(self.data.body(name).xpos) for name in ("boom", "dipper", "bucket")}
        wrap = lambda angle: math.remainder(angle, 2 * math.pi)
        self.angles = [wrap(float(self.data.qpos[self.hinges[i]])) for i in range(3)]
        _, rates = self._loops()
        driven = np.zeros((self.model.nv, 3))
        driven[self.slides, range(3)] = 1
        left = np.hstack([driven, rates.T])[self.plane]
        across, up = house[:, 0] @ self._jacobian("tooth"), house[:, 2] @ self._jacobian("tooth")
        right = np.stack([self.data.qfrc_bias, -across, -up], axis=1)[self.plane]
        answer = np.linalg.solve(left, right)[:3]
        self.hanging, self.per_newton = answer[:, 0], answer[:, 1:]

    def thrusts(self, force):
        """The thrust of each ram with this force of the ground on the tooth, (r, z) in newtons."""
        return self.hanging + self.per_newton @ np.asarray(force)
