"""Ripple of the pinion's speed over a turn of the driveshaft, by the crosses of both joints."""

import numpy as np
from scipy.optimize import minimize_scalar

from algebra import LONG, turned, unit


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
