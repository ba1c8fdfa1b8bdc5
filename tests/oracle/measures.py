"""Measures of a pose, each from the words of its definition, with the pose's own numbers.

`measures(oracle, pose)` gives records {id, part, side, value, unit}; value null where the definition says
so. A measure that the build has no part for (no driveline, no box …) is left out.
"""

import numpy as np
from scipy.optimize import brentq, minimize_scalar

from algebra import LONG, angle_between, apply, carried, cross, dot, length, turned, unit
from axle import Unreachable
from steering import SIDES

X = np.array([1, 0, 0], LONG)
Y = np.array([0, 1, 0], LONG)
Z = np.array([0, 0, 1], LONG)
OUTBOARD = {"left": 1, "right": -1}
deg = np.rad2deg


def rest_spin(knuckle):
    """Spin axis, leftward, of a wheel as drawn: toe-in and camber as the measures define them."""
    side = OUTBOARD[knuckle["side"]]
    steer, camber = -side * LONG(knuckle["toe"]), LONG(knuckle["camber"])
    return np.array(
        [-np.sin(steer) * np.cos(camber), np.cos(steer) * np.cos(camber), -side * np.sin(camber)], LONG
    )


class View:
    """Points and directions of one pose in vehicle axes."""

    def __init__(self, pose):
        oracle = pose.oracle
        self.pose, self.oracle = pose, oracle
        self.r, self.o = pose.r, pose.o
        self.data, self.steering = oracle.data, oracle.steering
        self.half = LONG(self.data["wheelCenters"]) / 2
        self.radius = LONG(self.data["tire"]["loadedRadius"])
        self.steered = self.data["knuckles"] is not None
        self.h = self.chassis([0, 0, -self.radius])
        up = cross(X, self.r[:, 1])
        self.ground_up = unit(up)
        self.ground_left = cross(self.ground_up, X)

    def chassis(self, in_axle):
        return self.o + apply(self.r, np.asarray(in_axle, LONG))

    def axle_point(self, at):
        return self.chassis(np.asarray(at, LONG) - np.asarray(self.data["origin"], LONG))

    def turn(self, side):
        return self.pose.turns[SIDES.index(side)]

    def on(self, body, at):
        """A drawn point on a body, now, vehicle axes."""
        if body == "chassis":
            return np.asarray(at, LONG)
        if body == "axle":
            return self.axle_point(at)
        local = self.steering.on_body(at, body, self.pose.turns, self.r, self.o, self.pose.input)
        return self.chassis(local)

    def direction_on(self, body, v):
        """A drawn direction fixed in a body, now, vehicle axes."""
        v = np.asarray(v, LONG)
        if body == "chassis":
            return v
        if body in ("left knuckle", "right knuckle"):
            side = body.split()[0]
            v = self.steering.knuckle_vector(v, side, self.turn(side))
        elif body == "pitman arm":
            axis = unit(np.asarray(self.steering.box["axis"]["direction"], LONG))
            return turned(v, axis, np.asarray(self.steering.sense * self.pose.input))
        elif body in self.steering.rods:
            ends = self.steering.rod_ends(body, self.pose.turns, self.r, self.o, self.pose.input)
            v = self.steering.rod_vector(v, body, ends)
        elif body not in ("axle", "ram rod"):
            raise ValueError(f"no direction on {body}")
        return apply(self.r, v)

    def spin(self, side):
        if not self.steered:
            return self.r[:, 1]
        n = rest_spin(self.data["knuckles"][side])
        return apply(self.r, self.steering.knuckle_vector(n, side, self.turn(side)))

    def wheel_center(self, side):
        center = np.array([0, OUTBOARD[side] * self.half, 0], LONG)
        if self.steered:
            center = self.steering.knuckle_point(center, side, self.turn(side))
        return self.chassis(center)

    def steer(self, side):
        n = self.spin(side)
        return np.arctan2(-n[0], n[1])

    def mean_steer(self):
        return (self.steer("left") + self.steer("right")) / 2

    def yaw(self):
        return np.arctan2(-self.r[0, 1], self.r[1, 1])

    def roll(self):
        return np.arcsin(self.r[2, 1])

    def pitch(self):
        return np.arctan2(-self.r[2, 0], self.r[2, 2])

    def toe(self, side):
        return -OUTBOARD[side] * self.steer(side)

    def contact(self, side):
        """A wheel's contact center and the ground directions along and across its trace."""
        n, up, center = self.spin(side), self.ground_up, self.wheel_center(side)
        steepest = up - dot(up, n) * n
        height = dot(center - self.h, up)
        foot = center - steepest * height / dot(steepest, up)
        along = unit(cross(n, up))
        return foot, along, cross(up, along)

    def kingpin(self, side):
        """Upward unit vector of the kingpin axis and its point in the ground plane."""
        k = apply(self.r, self.steering.axis[side].astype(LONG))
        lower = self.chassis(self.steering.pivot[side])
        return k, lower - k * dot(lower - self.h, self.ground_up) / dot(k, self.ground_up)

    def link_ends(self):
        """Name to (axle end, chassis end) of every link."""
        axle_ends, chassis_ends = self.oracle.axle.ends(self.pose.u)
        return {k["name"]: (a, c) for k, a, c in zip(self.data["links"], axle_ends, chassis_ends)}

    def rod_ends(self, name):
        ends = self.steering.rod_ends(name, self.pose.turns, self.r, self.o, self.pose.input)
        return tuple(self.chassis(e) for e in ends)

    def shock(self, part):
        """Length between the two ends of a shock or coil."""
        return length(self.axle_point(part["axle"]) - np.asarray(part["chassis"], LONG))

    def rams(self):
        """Length between ends of every single-ended ram."""
        found = {}
        for ram in (self.data["steering"] or {}).get("rams", []):
            if ram["kind"] == "single":
                ends = self.on(ram["body"]["on"], ram["body"]["at"]), self.on(ram["rod"]["on"], ram["rod"]["at"])
                found[ram["name"]] = length(ends[1] - ends[0])
        return found

    def pinion_axis(self):
        return apply(self.r, np.asarray(self.data["driveline"]["pinion"]["axis"], LONG))

    def shaft(self):
        """Pinion joint, transfer-case joint, vehicle axes."""
        line = self.data["driveline"]
        return self.axle_point(line["pinion"]["joint"]), np.asarray(line["transferCase"]["joint"], LONG)


# --- roll of a link and what its joints see ---


def wrapped(angle):
    return (angle + np.pi) % (2 * np.pi) - np.pi


class End:
    """One joint of a link: bolt now, bore at the link's reference roll, limit."""

    def __init__(self, name, bolt, bore, limit, line):
        self.name, self.limit = name, None if limit is None else float(limit)
        self.bolt, self.bore, self.line = bolt, bore, line
        across_bolt = bolt - dot(bolt, line) * line
        across_bore = bore - dot(bore, line) * line
        self.center = float(
            np.arctan2(dot(line, cross(across_bore, across_bolt)), dot(across_bore, across_bolt))
        )

    def misalignment(self, roll):
        return float(angle_between(self.bolt, turned(self.bore, self.line, np.asarray(LONG(roll)))))

    def window(self):
        """Half-width of the allowed roll about `center`: None for a full circle, < 0 for empty."""
        if self.limit is None:
            return None
        low, high = self.misalignment(self.center), self.misalignment(self.center + np.pi)
        if high <= self.limit:
            return None
        if low > self.limit:
            return -1.0
        return brentq(
            lambda half: self.misalignment(self.center + half) - self.limit, 0, np.pi, xtol=1e-15, rtol=1e-15
        ) if low < self.limit else 0.0


def drawn_bore(bolt, bore, clocking, line):
    """Bore of a joint as drawn: given or the bolt projected square to the drawn line; then clocked."""
    bolt, line = unit(np.asarray(bolt, LONG)), unit(np.asarray(line, LONG))
    if bore is None:
        across = bolt - dot(bolt, line) * line
        if length(across) < 1e-12:
            return None
        bore = unit(across)
    else:
        bore = unit(np.asarray(bore, LONG))
        if dot(bolt, bore) < 0:
            bore = -bore
    return turned(bore, line, np.asarray(LONG(clocking)))


def rolling_parts(view):
    """(part, [End …]) of every link and rod that has a joint with a bolt or stud."""
    found = []
    ends = view.link_ends()
    for link in view.data["links"]:
        a, c = ends[link["name"]]
        drawn = unit(np.subtract(link["chassis"]["at"], link["axle"]["at"]).astype(LONG))
        now = unit(c - a)
        joints = []
        for end, body in ((link["axle"], "axle"), (link["chassis"], "chassis")):
            if end["bolt"] is None:
                continue
            bore = drawn_bore(end["bolt"], end["bore"], end["clocking"], drawn)
            if bore is not None:
                bolt = view.direction_on(body, unit(np.asarray(end["bolt"], LONG)))
                joints.append(End(end["name"], bolt, carried(bore, drawn, now), end["limit"], now))
        found.append((link["name"], joints))
    for name, rod in view.steering.rods.items():
        a, c = view.rod_ends(name)
        drawn = unit(np.subtract(rod["to"]["at"], rod["from"]["at"]).astype(LONG))
        now = unit(c - a)
        joints = []
        for key in ("from", "to"):
            end = rod[key]
            if end["stud"] is None:
                continue
            bore = drawn_bore(end["stud"], None, 0, drawn)
            if bore is not None:
                bolt = view.direction_on(end["on"], unit(np.asarray(end["stud"], LONG)))
                joints.append(End(f"{name}.{key}", bolt, carried(bore, drawn, now), end["limit"], now))
        found.append((name, joints))
    return [(name, joints) for name, joints in found if joints]


def easiest_roll(joints):
    """Roll at which the larger share of the ends' limits is least."""
    limited = [j for j in joints if j.limit is not None]
    chosen = limited or joints
    if len(chosen) == 1:
        return chosen[0].center
    a, c = chosen
    share = lambda j, roll: j.misalignment(roll) / (j.limit if limited else 1.0)
    gap = lambda roll: share(a, roll) - share(c, roll)
    candidates = [a.center, c.center]
    grid = np.linspace(-np.pi, np.pi, 721)
    values = [gap(x) for x in grid]
    for low, high, f, g in zip(grid, grid[1:], values, values[1:]):
        if f * g < 0:
            candidates.append(brentq(gap, low, high, xtol=1e-15, rtol=1e-15))
    return min(candidates, key=lambda roll: max(share(a, roll), share(c, roll)))


def roll_window(joints):
    """(low, high) of the roll that all limits allow, 'full', or 'empty'."""
    arcs = [(j.center, w) for j in joints if (w := j.window()) is not None]
    if any(w < 0 for _, w in arcs):
        return "empty"
    if not arcs:
        return "full"
    if len(arcs) == 1:
        (center, w), = arcs
        return center - w, center + w
    (ca, wa), (cc, wc) = arcs
    middle = wrapped(cc - ca)
    pieces = []
    for shift in (-2 * np.pi, 0, 2 * np.pi):
        low, high = max(-wa, middle + shift - wc), min(wa, middle + shift + wc)
        if low <= high:
            pieces.append((ca + low, ca + high))
    if not pieces:
        return "empty"
    holding = [p for p in pieces if (0 - p[0]) % (2 * np.pi) <= p[1] - p[0]]
    return holding[0] if holding else max(pieces, key=lambda p: p[1] - p[0])


def largest_in(joint, window):
    if window == "full":
        return joint.misalignment(joint.center + np.pi)
    low, high = window
    values = [joint.misalignment(low), joint.misalignment(high)]
    if (joint.center + np.pi - low) % (2 * np.pi) <= high - low:
        values.append(joint.misalignment(joint.center + np.pi))
    return max(values)


# --- driveshaft ---


def ripple(view):
    """Peak to peak of pinion speed over transfer-case speed, %, over one turn."""
    line = view.data["driveline"]
    pinion, case = view.shaft()
    flow_in = np.asarray(unit(np.asarray(line["transferCase"]["axis"], LONG)), float)
    flow_out = -np.asarray(unit(view.pinion_axis()), float)
    shaft = np.asarray(unit(pinion - case), float)
    helper = np.eye(3)[int(np.argmin(np.abs(flow_in)))]
    e0 = np.cross(flow_in, helper)
    e0 /= np.linalg.norm(e0)

    def through(yoke, axis_in, axis_out):
        """Other yoke of a cross on axis_out, and the speed ratio out over in."""
        other = np.cross(yoke, axis_out)
        other /= np.linalg.norm(other)
        ratio = -np.dot(other, np.cross(axis_in, yoke)) / np.dot(np.cross(axis_out, other), yoke)
        return other, ratio

    def ratio(turn):
        yoke = turned(e0, flow_in, np.asarray(turn))
        if line["transferCase"]["kind"] == "double cardan":
            total, q = 1.0, turned(np.cross(shaft, np.roll(shaft, 1)), shaft, np.asarray(turn))
            q = q / np.linalg.norm(q)
        else:
            q, total = through(yoke, flow_in, shaft)
        if line["pinion"]["kind"] == "single":
            q = turned(q, -shaft, np.asarray(line["phase"]))
            total *= through(q, shaft, flow_out)[1]
        return total

    grid = np.linspace(0, np.pi, 361)
    values = np.array([ratio(x) for x in grid])
    found = []
    for sign in (1, -1):
        i = int(np.argmin(sign * values))
        best = minimize_scalar(
            lambda x: sign * ratio(x),
            bounds=(grid[i] - 0.02, grid[i] + 0.02),
            method="bounded",
            options={"xatol": 1e-10},
        )
        found.append(sign * min(best.fun, sign * values[i]))
    return 100 * (found[1] - found[0])


# --- what derivatives along travel need ---


def moving(view):
    """Numbers of a pose whose derivatives by travel the measures use, as one array."""
    feet = [view.chassis([0, s * view.half, -view.radius])[0] for s in (1, -1)]
    springs = [view.shock(p) for p in view.data["shocks"] + view.data["coils"]]
    return np.array(
        [view.h[0], view.h[1], view.roll(), view.yaw(), *feet, *view.o, *view.r.reshape(9), *springs], LONG
    )


def driven_end(steering, name):
    """Side of the knuckle that a rod drives, and which of its ends (0 from, 1 to) is on it."""
    ends = [steering.rods[name][key]["on"] for key in ("from", "to")]
    turning = [i for i, on in enumerate(ends) if on.endswith("knuckle")]
    if len(turning) == 2:
        link = steering.rods["drag link"]
        held = {link["from"]["on"], link["to"]["on"]}
        turning = [i for i in turning if ends[i] not in held]
    return ends[turning[0]].split()[0], turning[0]


def over_center(view, name):
    """Margin of a rod that drives a knuckle: 1 where its line is square to the circle's radius."""
    ends = view.steering.rod_ends(name, view.pose.turns, view.r, view.o, view.pose.input)
    side, at = driven_end(view.steering, name)
    point, center = ends[at], ends[1 - at]
    axis, pivot = view.steering.axis[side], view.steering.pivot[side]
    foot = pivot + axis * dot(point - pivot, axis)
    arm, away = point - foot, center - foot
    # |foot + arm(t) − center|² = L²  becomes  A cos t + B sin t = C from the present point
    a, b = dot(arm, away), dot(cross(axis.astype(LONG), arm), away)
    return np.abs(b) / np.hypot(a, b)


def drives(view):
    """Names of rods that have a circle–sphere equation of their own."""
    rods = view.steering.rods
    if any(end["on"] == "tie rod" for rod in rods.values() for end in (rod["from"], rod["to"])):
        return []
    return list(rods)


def measures(oracle, pose):
    """All measures of one pose, degrees and inches, as plain records."""
    out = []
    view = View(pose)
    same_ride = View(oracle.pose(0, 0, pose.steer))
    data, build = oracle.data, oracle.build
    front = data["name"] == "front"

    def put(id, value, unit_name, part=None, side=None):
        if value is not None:
            value = float(value)
            value = value if np.isfinite(value) else None
        out.append({"id": id, "part": part, "side": side, "value": value, "unit": unit_name})

    # steering and wheels
    for side in SIDES:
        put("steer", deg(view.steer(side)), "deg", side=side)
        put("toe", deg(view.toe(side)), "deg", side=side)
        put("camber", -deg(np.arcsin(OUTBOARD[side] * dot(view.spin(side), view.ground_up))), "deg", side=side)
    put("totalToeChange", deg(sum(view.toe(s) - same_ride.toe(s) for s in SIDES)), "deg")
    mean = view.mean_steer()
    put("meanSteer", deg(mean), "deg")
    put("axleSteer", deg(view.yaw()), "deg")
    put("knuckleSteer", deg(mean - view.yaw()), "deg")
    put("bumpSteer", deg(mean - same_ride.mean_steer()), "deg")
    if view.steered:
        for side in SIDES:
            k, on_ground = view.kingpin(side)
            inboard = -OUTBOARD[side]
            put(
                "kingpinInclination",
                deg(np.arctan2(inboard * dot(k, view.ground_left), dot(k, view.ground_up))),
                "deg",
                side=side,
            )
            put("caster", deg(np.arctan2(-k[0], k[2])), "deg", side=side)
            foot, along, across = view.contact(side)
            put("mechanicalTrail", dot(on_ground - foot, along), "in", side=side)
            put("scrubRadius", inboard * dot(on_ground - foot, across), "in", side=side)
            put("axleShaftJointAngle", deg(angle_between(view.r[:, 1], view.spin(side))), "deg", side=side)
        if oracle.steering.driven and oracle.steering.box and oracle.steering.box["ratio"]:
            put("steeringWheelToStraight", steering_wheel(oracle, pose, same_ride.mean_steer()), "deg")
        put("ackermannError", deg(ackermann(view, build["wheelbase"])), "deg")
        put("turningCircle", turning_circle(view, build["wheelbase"]), "ft")

    # where the axle has gone
    level_travel = (pose.left + pose.right) / 2
    level = View(oracle.pose(level_travel, level_travel, pose.steer))
    shift = view.o - same_ride.o
    arc = level.o[1] - same_ride.o[1]
    put("lateralShift", shift[1], "in")
    put("foreAftShift", shift[0], "in")
    put("lateralShiftArc", arc, "in")
    put("lateralShiftRoll", shift[1] - arc, "in")
    put("lateralShiftGround", view.h[1] - same_ride.h[1], "in")

    # driveline
    if data["driveline"]:
        angle = np.arcsin(view.pinion_axis()[2])
        put("pinionAngle", deg(angle), "deg")
        put("pinionChange", deg(angle - np.arcsin(same_ride.pinion_axis()[2])), "deg")
        pinion, case = view.shaft()
        for id, axis in (
            ("pinionJointAngle", view.pinion_axis()),
            ("transferJointAngle", np.asarray(data["driveline"]["transferCase"]["axis"], LONG)),
        ):
            a = angle_between(axis, pinion - case)
            put(id, deg(min(a, LONG(np.pi) - a)), "deg")
        before = same_ride.shaft()
        put("driveshaftSlip", length(pinion - case) - length(before[0] - before[1]), "in")
        put("pinionSpeedRipple", ripple(view), "%")

    # joints of links
    for part, joints in rolling_parts(view):
        roll = easiest_roll(joints)
        window = roll_window(joints)
        for joint in joints:
            put("misalignment", deg(joint.misalignment(roll)), "deg", part=joint.name)
        if any(j.limit is not None for j in joints):
            for joint in joints:
                largest = None if window == "empty" else deg(largest_in(joint, window))
                put("misalignmentFreeRoll", largest, "deg", part=joint.name)
            width = {"empty": 0.0, "full": 2 * np.pi}.get(window) if isinstance(window, str) else window[1] - window[0]
            put("linkRollWindow", deg(width), "deg", part=part)
    for arm in data["radiusArms"]:
        for end in (*arm["axle"], arm["chassis"]):
            if end["bolt"] is not None:
                _, bolt, bore = oracle.axle.arm_joint(pose.u, arm, end)
                put("misalignment", deg(angle_between(bolt, bore)), "deg", part=end["name"])

    # lengths of springs and rams
    for shock in data["shocks"]:
        now = view.shock(shock)
        put("shockLength", now, "in", part=shock["name"])
        put("shockStrokeShare", 100 * (shock["longest"] - now) / (shock["longest"] - shock["shortest"]), "%", part=shock["name"])
    for coil in data["coils"]:
        put("coilLength", view.shock(coil), "in", part=coil["name"])
    for name, now in view.rams().items():
        put("ramLength", now, "in", part=name)

    # derivatives by travel
    both = oracle.derivative(pose, lambda p: moving(View(p)), 1, 1)
    crossed = oracle.derivative(pose, lambda p: moving(View(p)), 1, -1)
    springs = [("shock", p) for p in data["shocks"]] + [("coil", p) for p in data["coils"]]
    for i, (kind, part) in enumerate(springs):
        put(f"{kind}MotionRatio", -both[18 + i], "in/in", part=part["name"])
        if part["side"]:
            put(f"{kind}MotionRatioCrossed", -OUTBOARD[part["side"]] * crossed[18 + i], "in/in", part=part["name"])
    put("rollCenterHeight", crossed[1] / crossed[2], "in")
    put("axleRollAxisSlope", crossed[3] / crossed[2], "deg/deg")
    spin = both[9:18].reshape(3, 3) @ view.r.T
    turn_y = (spin[0, 2] - spin[2, 0]) / 2
    flat = abs(turn_y) < 1e-9
    put("sideViewCenterX", None if flat else view.o[0] + both[8] / turn_y, "in")
    put("sideViewCenterZ", None if flat else view.o[2] - both[6] / turn_y, "in")
    weights = build["weights"]
    if weights and weights["centerOfGravity"]:
        over_h = LONG(build["wheelbase"]) / LONG(weights["centerOfGravity"][2])
        brake, drive = weights["brakeShareFront"], weights["driveShareFront"]
        if front:
            rows = (("brakeAntiDive", brake, 1), ("driveAntiLift", drive, 1))
        else:
            rows = (
                ("antiSquat", None if drive is None else 1 - drive, -1),
                ("brakeAntiLift", None if brake is None else 1 - brake, -1),
            )
        for id, share, sign in rows:
            if share is None:
                continue
            put(id, sign * 100 * share * both[0] * over_h, "%")
            put(f"{id}Crossed", sign * 100 * share * crossed[4] * over_h, "%", side="left")
            put(f"{id}Crossed", sign * 100 * share * -crossed[5] * over_h, "%", side="right")

    # drag link, track bar, rods
    bar = next((k["name"] for k in data["links"] if k["kind"] == "track bar"), None)
    if oracle.steering.driven and "drag link" in oracle.steering.rods and bar:
        a, c = view.link_ends()[bar]
        d, e = view.rod_ends("drag link")
        for id, keep in (("dragLinkToTrackBarFront", [0, 1, 1]), ("dragLinkToTrackBarPlan", [1, 1, 0])):
            angle = angle_between((c - a) * keep, (e - d) * keep)
            put(id, deg(min(angle, LONG(np.pi) - angle)), "deg")
        put("dragLinkMinusTrackBar", length(e - d) - length(c - a), "in")
    if oracle.steering.driven:
        for name in drives(view):
            put("overCenterMargin", over_center(view, name), "1", part=name)

    # bind
    for link, (stretch, _) in zip(data["links"], oracle.axle.stretch(pose.u, pose.multiplier, None, oracle.axle.free)):
        put("bind", stretch, "in", part=link["name"])
    for name, (offset, _) in oracle.axle.joints(pose.u).items():
        put("bind", offset, "in", part=name)

    # stops and lines
    for stop in data["bumpStops"]:
        pad = view.on(stop["pad"]["on"], stop["pad"]["at"])
        plane = view.on(stop["strike"]["on"], stop["strike"]["at"])
        normal = view.direction_on(stop["strike"]["on"], stop["strike"]["normal"])
        put("stopHeight", dot(pad - plane, normal), "in", part=stop["name"])
    for line in data["lines"]:
        chord = view.on(line["to"]["on"], line["to"]["at"]) - view.on(line["from"]["on"], line["from"]["at"])
        put("lineSlack", line["length"] - length(chord), "in", part=line["name"])
    return out


def steering_wheel(oracle, pose, wanted):
    """Box ratio times the pitman angle to add so that mean steer is `wanted`; null if out of reach."""
    at = pose
    for _ in range(30):
        error = View(at).mean_steer() - wanted
        slope = oracle.derivative(at, lambda p: np.array(View(p).mean_steer()), 0, 0, 1)
        step = -error / slope
        if abs(step) < 1e-15:
            break
        try:
            at = oracle.follow(at, pose.left, pose.right, float(LONG(at.steer) + step))
        except Unreachable:
            return None
        if abs(step) < 1e-10:
            break
    return oracle.steering.box["ratio"] * (at.steer - pose.steer)


def ackermann(view, wheelbase):
    """Outer steer less the outer steer that the inner one calls for, rad."""
    sign = 1 if view.mean_steer() >= 0 else -1
    inner, outer = ("left", "right") if sign > 0 else ("right", "left")
    track = length(view.kingpin("left")[1] - view.kingpin("right")[1])
    i, o = sign * view.steer(inner), sign * view.steer(outer)
    return o - np.arctan2(np.sin(i), np.cos(i) + np.sin(i) * track / LONG(wheelbase))


def turning_circle(view, wheelbase):
    """Curb-to-curb diameter in ft, or null."""
    crossings = []
    for side in SIDES:
        n, center = view.spin(side), view.wheel_center(side)
        if abs(n[0]) < 1e-9:
            return None
        crossings.append(center[1] + n[1] * (-LONG(wheelbase) - center[0]) / n[0])
    if crossings[0] * crossings[1] <= 0:
        return None
    middle = np.array([-LONG(wheelbase), (crossings[0] + crossings[1]) / 2], LONG)
    radius = max(length(view.wheel_center(s)[:2] - middle) for s in SIDES)
    return 2 * (radius + LONG(view.data["tire"]["width"]) / 2) / 12
