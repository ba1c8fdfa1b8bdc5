"""Small vector algebra that works on real and complex arrays of any precision.

Every function takes stacks (`...,3`), so that one call evaluates a model at many perturbed inputs at
once, and is analytic, so that a complex step gives its derivative exactly
(Squire and Trapp, SIAM Review 40(1), 1998).
"""

import numpy as np

LONG = np.longdouble
COMPLEX_STEP = 1e-30


def dot(a, b):
    return np.sum(a * b, axis=-1)


def length(v):
    """Euclidean length without conjugation, so that it stays analytic."""
    return np.sqrt(dot(v, v))


def unit(v):
    return v / length(v)[..., None]


def cross(a, b):
    a, b = np.broadcast_arrays(a, b)
    return np.stack(
        [
            a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1],
            a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2],
            a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0],
        ],
        axis=-1,
    )


def apply(matrix, v):
    """Matrix times vector, both may be stacks."""
    return np.sum(matrix * v[..., None, :], axis=-1)


def rotation(vector):
    """Rotation matrix of a rotation vector (Rodrigues' formula; a series close to zero)."""
    angle2 = dot(vector, vector)
    small = np.abs(angle2) < 1e-4
    angle = np.sqrt(np.where(small, 1.0, angle2))
    sine = np.where(
        small,
        1 - angle2 / 6 * (1 - angle2 / 20 * (1 - angle2 / 42 * (1 - angle2 / 72))),
        np.sin(angle) / angle,
    )
    versine = np.where(
        small,
        0.5 - angle2 / 24 * (1 - angle2 / 30 * (1 - angle2 / 56 * (1 - angle2 / 90))),
        2 * np.sin(angle / 2) ** 2 / angle**2,
    )
    identity = np.broadcast_to(np.eye(3, dtype=vector.dtype), (*vector.shape[:-1], 3, 3))
    outer = vector[..., :, None] * vector[..., None, :]
    turn = np.swapaxes(cross(vector[..., None, :], identity), -1, -2)
    return (
        identity
        + sine[..., None, None] * turn
        + versine[..., None, None] * (outer - angle2[..., None, None] * identity)
    )


def turned(v, axis, angle):
    """v turned right-handed about the unit vector `axis` by `angle`."""
    c = np.cos(angle)[..., None]
    s = np.sin(angle)[..., None]
    along = dot(axis, v)[..., None] * axis
    return along + c * (v - along) + s * cross(axis, v)


def carried(v, start, end):
    """v under the smallest rotation that takes the unit vector `start` to the unit vector `end`."""
    w = cross(start, end)
    c = dot(start, end)[..., None]
    return v + cross(w, v) + cross(w, cross(w, v)) / (1 + c)


def angle_between(a, b):
    """Angle of two real vectors, 0 to pi, accurate at both ends."""
    return np.arctan2(length(cross(a, b)), dot(a, b))


def jacobian(function, u):
    """d function / d u by complex steps: `function` maps (...,n) to (...,m); returns (m, n)."""
    n = u.shape[-1]
    kind = np.clongdouble if u.dtype == LONG else np.complex128
    steps = u[None, :] + 1j * np.asarray(COMPLEX_STEP, dtype=u.dtype) * np.eye(n, dtype=kind)
    return np.swapaxes(function(steps.astype(kind)).imag / u.dtype.type(COMPLEX_STEP), -1, -2)
