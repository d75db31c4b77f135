"""Colours as eyes without one kind of cone see them, and how far apart two colours are.

Machado, Oliveira and Fernandes 2009, "A physiologically-based model for simulation of color vision
deficiency", IEEE TVCG 15(6), the matrices of full severity, for linear RGB (from memory; that each
keeps grey grey is checked). sRGB: IEC 61966-2-1. Lab and its distance: CIE 15:2004, white D65.
"""

import numpy as np
from numpy.typing import NDArray

Colour = tuple[int, int, int]
Values = NDArray[np.float64]

TYPES = {
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
"""Matrix for linear RGB by the common kinds of colour blindness, each at full severity."""
TO_XYZ = np.array(((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505)))
"""Matrix from linear sRGB to XYZ."""


def linear(colour: Colour) -> Values:
    """Linear RGB of an sRGB colour, each from 0 to 1."""
    share = np.array(colour) / 255
    return np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)


def seen_by(kind: str, colour: Colour) -> Values:
    """Linear RGB of a colour as eyes of one of TYPES see it."""
    return np.clip(np.array(TYPES[kind]) @ linear(colour), 0.0, 1.0)


def lab(light: Values) -> Values:
    """CIE Lab of a linear RGB."""
    ratio = TO_XYZ @ light / (TO_XYZ @ np.ones(3))
    curved = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array(
        (
            116 * curved[1] - 16,
            500 * (curved[0] - curved[1]),
            200 * (curved[1] - curved[2]),
        )
    )


def apart(one: Values, other: Values) -> float:
    """Distance of two linear RGB colours in CIE Lab; about 2.3 is just noticed."""
    return float(np.linalg.norm(lab(one) - lab(other)))


def contrast(one: Colour, other: Colour) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2, definition of contrast ratio)."""
    bright, dark = sorted((float(TO_XYZ[1] @ linear(each)) for each in (one, other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)
