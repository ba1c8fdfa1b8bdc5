"""Measures of a pose, each from the words of its definition, with the pose's own numbers.

`measures(oracle, pose)` gives records {id, part, side, value, unit}; value null where the definition says
so. A measure that the build has no part for (no driveline, no box …) is left out.
"""

import numpy as np

from algebra import LONG, angle_between, cross, dot, length
from axle import Unreachable
from driveshaft import ripple
from roll import easiest_roll, largest_in, roll_window, rolling_parts
from steering import SIDES
from view import OUTBOARD, View, deg


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
