"""Turns poses into records, as oracle.py prints and the files in records/ hold them."""

import base64
import gzip
import json
import sys

import numpy as np
from scipy.optimize import least_squares

from algebra import jacobian, length
from axle import Unreachable
from measures import measures
from steering import SIDES
from view import View


def numbers(values):
    return [float(v) for v in values]


def pose_record(oracle, left, right, steer=None):
    """One pose with everything that a test may compare; `unreachable` with the least residual found."""
    head = {"left_in": left, "right_in": right, "steer": steer if oracle.steering.driven else None}
    try:
        pose = oracle.pose(left, right, steer or 0.0)
    except Unreachable as error:
        return head | {"status": "unreachable"} | nearby(oracle, error.last, left, right, steer or 0.0)
    view = View(pose)
    axle = oracle.axle
    links = oracle.data["links"]
    stretch = axle.stretch(pose.u, pose.multiplier, None, axle.free)
    lengths = {name: float(length(c - a)) for name, (a, c) in view.link_ends().items()}
    for name in oracle.steering.rods:
        a, b = view.rod_ends(name)
        lengths[name] = float(length(b - a))
    lengths |= {name: float(v) for name, v in view.rams().items()}
    lengths |= {shock["name"]: float(view.shock(shock)) for shock in oracle.data["shocks"]}
    return head | {
        "status": "solved",
        "origin_in": numbers(pose.o),
        "chassisFromAxle": [numbers(row) for row in pose.r],
        "knuckleTurn_rad": dict(zip(SIDES, numbers(pose.turns))) if view.steered else None,
        "stretch_in": {k["name"]: float(s) for k, (s, _) in zip(links, stretch)},
        "force_lbf": {k["name"]: float(f) for k, (_, f) in zip(links, stretch)},
        "joints": {
            name: {"offset_in": float(d), "force_lbf": float(f)}
            for name, (d, f) in axle.joints(pose.u).items()
        },
        "lengths_in": lengths,
        "measures": measures(oracle, pose),
        "residual": max(pose.facts["rigid"], pose.steer_facts[0]),
        "gradient_lbf": pose.facts["gradient"],
    }


def nearby(oracle, last, left, right, steer, starts=60, seed=1):
    """Least residual (in) from many starts around the last pose of the branch.

    Exact layouts: the axle's six unknowns from starts within 4 in and 0.4 rad; where the axle can be
    posed, or is held by energy, the knuckles' turns from starts all around. `nearest` tells how far the
    closest true solution lies from where the branch ended (in plus half the track times rad), null where
    none was found.
    """
    random = np.random.default_rng(seed)
    axle, steering = oracle.axle, oracle.steering
    travel = np.array([left, right], float)
    stacked = lambda v: np.concatenate(axle.parts(v, travel, axle.free), axis=-1)
    least, nearest, posed = np.inf, None, None
    base = np.asarray(last.u, float)
    scale = np.where(np.arange(axle.size) % 6 < 3, 0.4, 4.0)[: axle.size] if axle.exact else 0.05
    if abs(left - right) >= 2 * axle.half:
        # no housing is that wide: the two heights cannot be had
        return {"residual": abs(left - right) - 2 * axle.half, "nearest": None, "starts": 0, "ends": "axle"}
    if axle.exact:
        for i in range(starts):
            u = base + (random.uniform(-1, 1, axle.size) * scale if i else 0)
            found = least_squares(stacked, u, jac=lambda v: jacobian(stacked, v), method="lm", xtol=1e-14, ftol=1e-14, gtol=1e-14, max_nfev=400)
            worst = float(np.abs(found.fun).max())
            least = min(least, worst)
            if worst < 1e-9:
                away = np.abs(found.x - base)
                away[:3] *= axle.half
                if nearest is None or away.max() < nearest:
                    nearest, posed = float(away.max()), found.x
        if nearest is None or nearest > 4:
            return {"residual": least, "nearest": nearest, "starts": starts, "ends": "axle"}
    else:
        posed = axle.solve(last.u, (left, right), axle.free)[0]
    r, o = axle.place(np.asarray(posed, float))
    value = float(oracle.input_of(steer))
    function = lambda t: steering.errors(t, r, o, value, steering.free)
    turns, least, nearest = np.asarray(last.turns, float), np.inf, None
    for i in range(starts):
        t = turns + (random.uniform(-1.5, 1.5, 2) if i else 0)
        found = least_squares(function, t, jac=lambda v: jacobian(function, v), method="lm", xtol=1e-14, ftol=1e-14, gtol=1e-14)
        worst = float(np.abs(found.fun).max())
        least = min(least, worst)
        if worst < 1e-9:
            away = float(np.abs(found.x - turns).max()) * axle.half
            nearest = away if nearest is None else min(nearest, away)
    return {"residual": least, "nearest": nearest, "starts": starts, "ends": "steering"}


def case(oracle, poses, name, build=None, file=None, variant=None, **more):
    return {
        "name": name,
        "build": build,
        "file": file,
        "variant": variant,
        "axle": oracle.data["name"],
        **more,
        "poses": [pose_record(oracle, *p) for p in poses],
    }


def written(cases):
    import scipy

    made = f"scipy {scipy.__version__}, numpy {np.__version__}, extended precision {np.finfo(np.longdouble).nmant + 1} bits"
    return {"made": made, "cases": cases}


def dumps(record):
    """JSON with one line a measure, so that a change shows as the lines that changed."""
    lines = ['{ "made": ' + json.dumps(record["made"]) + ', "cases": [']
    for i, one in enumerate(record["cases"]):
        rest = {k: v for k, v in one.items() if k != "poses"}
        lines.append(json.dumps(rest)[:-1] + ', "poses": [')
        for j, pose in enumerate(one["poses"]):
            rows = pose.get("measures")
            rest = {k: v for k, v in pose.items() if k != "measures"}
            end = "," if j + 1 < len(one["poses"]) else ""
            if rows is None:
                lines.append(json.dumps(rest) + end)
                continue
            lines.append(json.dumps(rest)[:-1] + ', "measures": [')
            lines += [json.dumps(row) + "," for row in rows]
            lines[-1] = lines[-1][:-1]
            lines.append("]}" + end)
        lines.append("]}" + ("," if i + 1 < len(record["cases"]) else ""))
    return "\n".join([*lines, "]}"]) + "\n"


STANDARD = [(0, 0), (5, 5), (-5, -5), (5, -5), (-5, 5), (3, -2), (-1.5, 4.25)]


def standard_poses(oracle):
    """Poses of an example: straight ahead over the travel, then turned both ways."""
    if not oracle.steering.driven:
        return [(float(l), float(r)) for l, r in STANDARD]
    lock = 30.0 if oracle.unit == "deg" else 2.5
    turned_ = [(0, 0, lock), (0, 0, -lock), (4, 4, lock / 2), (4, -4, -lock), (-3, 5, lock), (5, 5, -lock / 2)]
    return [(float(l), float(r), 0.0) for l, r in STANDARD] + [(float(l), float(r), s) for l, r, s in turned_]


def branch_end(oracle, direction, beyond):
    """A pose `beyond` past the end of the branch along a direction from ride, or None within 30."""
    try:
        oracle.follow(oracle.ride, *(30.0 * np.asarray(direction, float)))
    except Unreachable as error:
        last = np.array([error.last.left, error.last.right, error.last.steer])
        at = last + beyond * np.asarray(direction, float)
        return tuple(float(round(v, 6)) for v in at)
    return None


def random_poses(oracle, seed):
    """Six poses: both up, crossed, three anywhere, and one that cannot be where the layout has such."""
    import random

    draw = random.Random(f"poses {seed}")
    number = lambda size: round(draw.uniform(-size, size) * 16) / 16
    lock = {"deg": 25, "in": 2.5, None: 0}[oracle.unit]
    b, c = number(6), number(6)
    wanted = [(0, 0, number(lock)), (b, b, 0), (c, -c, number(lock))]
    wanted += [(number(6), number(6), number(lock)) for _ in range(3)]
    poses = []
    for pose in wanted:
        for _ in range(20):
            try:
                oracle.pose(*pose)
                break
            except Unreachable:
                pose = tuple(round(v * 0.75 * 16) / 16 for v in pose)
        poses.append(tuple(float(v) for v in pose))
    if draw.random() < 0.6:
        choices = [((-1, -1, 0), 0.25), ((1, -0.2, 0), 0.25), ((0.3, 1, 0), 0.25)] if oracle.axle.exact else []
        if oracle.unit == "deg":
            choices = [((0, 0, 3), 0.3), ((0, 0, -3), 0.3), *choices]
        elif oracle.unit == "in":
            choices = [((0, 0, 0.3), 0.3), ((0, 0, -0.3), 0.3), *choices]
        draw.shuffle(choices)
        for direction, beyond in choices:
            past = branch_end(oracle, direction, beyond)
            if past is None:
                continue
            found = pose_record(oracle, *past)
            proved = found["status"] == "unreachable" and (found["nearest"] is None or found["nearest"] > 4)
            if proved and found["residual"] > 1e-4:
                poses[5] = past
                break
    return poses


def main():
    what, target = sys.argv[1], sys.argv[2]
    if what == "worked":
        import vehicle
        from oracle import Oracle

        cases = []
        for made in (vehicle.long_arms(), vehicle.short_arms()):
            oracle = Oracle(made)
            poses = [*standard_poses(oracle), (0.0, 0.0, -40.4), (0.0, 0.0, 36.9)]
            cases.append(case(oracle, poses, made["name"], made))
    elif what == "random":
        from layouts import all_layouts

        cases = []
        for seed, made, oracle in all_layouts():
            cases.append(case(oracle, random_poses(oracle, seed), made["name"], made, seed=seed))
            print(made["name"], [p["status"] for p in cases[-1]["poses"]], file=sys.stderr, flush=True)
    else:
        from oracle import Oracle

        cases = []
        with open(what) as file:
            dumped = json.load(file)
        for one in dumped["build"]["axles"]:
            oracle = Oracle(dumped["build"], one["name"])
            name = f"{dumped['build']['name']}, {one['name']}"
            more = {"sha256": dumped["sha256"]}
            cases.append(case(oracle, standard_poses(oracle), name, None, dumped["file"], dumped["variant"], **more))
    text = dumps(written(cases))
    if target.endswith(".gz.base64"):
        # one line of text, so that diffs and searches stay quiet
        with open(target, "wb") as file:
            file.write(base64.b64encode(gzip.compress(text.encode(), 9, mtime=0)) + b"\n")
    else:
        with open(target, "w") as file:
            file.write(text)


if __name__ == "__main__":
    main()
