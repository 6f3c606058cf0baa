"""Honest drawings at the bounds of what is read: names to functions that make them."""
import io
import math

import numpy
from PIL import Image, ImageDraw, ImageFilter

A4_AT_600 = (4_960, 7_016)  # ISO 216, at 600 dots an inch


def pear(size):
    """A pear drawn with ink on paper, as a scanner sees it: soft edges, a ground that is not even, grain."""
    width, height = size
    picture = Image.new("L", size, 240)
    pen = ImageDraw.Draw(picture)
    across, up = width / 100, height / 140
    pen.ellipse((20 * across, 60 * up, 80 * across, 122 * up), fill=35)
    pen.ellipse((33 * across, 24 * up, 67 * across, 84 * up), fill=35)
    pen.line((50 * across, 28 * up, 56 * across, 12 * up), fill=35, width=int(3 * across))
    picture = picture.rotate(3, fillcolor=240).filter(ImageFilter.GaussianBlur(1.5))
    grain = numpy.random.default_rng(1).normal(0, 2, (height, width)).astype(numpy.float32)
    shade = numpy.linspace(0, 12, width, dtype=numpy.float32)[None, :]
    return Image.fromarray(numpy.clip(numpy.asarray(picture) + grain - shade, 0, 255).astype(numpy.uint8))


def stored(picture, kind, **how):
    file = io.BytesIO()
    picture.save(file, kind, **how)
    return file.getvalue()


def coloured(grey):
    """Ink on cream paper, each colour with a grain of its own."""
    chance = numpy.random.default_rng(2)
    values = numpy.asarray(grey).astype(numpy.float32)
    return Image.merge("RGB", [Image.fromarray(numpy.clip(share * values + chance.normal(0, 1.2, values.shape), 0, 255).astype(numpy.uint8))
                               for share in (1, 0.97, 0.9)])


def page(body, width=200, height=260):
    return f"<svg xmlns='http://www.w3.org/2000/svg' width='{width}mm' height='{height}mm' viewBox='0 0 {width} {height}'>{body}</svg>"


def oak_leaf(nodes):
    """Lobes on lobes, as short lines."""
    half = []
    for k in range(nodes // 2):
        t = k / (nodes // 2 - 1)
        wide = 60 * math.sin(math.pi * t) ** 0.8 * (1 + 0.18 * math.sin(14 * math.pi * t)) + 1.5 * math.sin(60 * math.pi * t)
        half.append((max(0.0, wide), 240 - 220 * t))
    points = [(100 + x, y) for x, y in half] + [(100 - x, y) for x, y in reversed(half)]
    return page("<polygon points='" + " ".join(f"{x:.3f},{y:.3f}" for x, y in points) + "'/>")


def fern():
    """A stem with pairs of leaflets that are toothed themselves, united by the reader."""
    parts = ["<path d='M98 250L99.4 20h1.2L102 250z'/>"]
    for pair in range(16):
        y, long = 225 - 12.5 * pair, 70 * (1 - pair / 18)
        for side in (-1, 1):
            teeth = 10
            upper = " ".join(f"L{100 + side * long * k / teeth:.2f} {y - 0.3 * long * k / teeth - 3.4 * (1 - k / teeth) - 1.4 * (k % 2):.2f}"
                             for k in range(1, teeth))
            lower = " ".join(f"L{100 + side * long * k / teeth:.2f} {y - 0.3 * long * k / teeth + 3.4 * (1 - k / teeth) + 1.4 * (k % 2):.2f}"
                             for k in range(teeth - 1, 0, -1))
            parts.append(f"<path d='M100 {y - 3.4:.2f} {upper} L{100 + side * long:.2f} {y - 0.3 * long:.2f} {lower} L100 {y + 3.4:.2f}z'/>")
    return page("".join(parts))


def lace():
    """A scalloped round with rings of round and pointed cut-outs."""
    parts = [f"<circle cx='{100 + 84 * math.cos(k * math.pi / 24):.3f}' cy='{130 + 84 * math.sin(k * math.pi / 24):.3f}' r='7'/>" for k in range(48)]
    parts.append("<circle cx='100' cy='130' r='84'/>")
    for ring, (radius, count, hole) in enumerate([(82, 48, 2.4), (70, 40, 3.2), (56, 32, 3.6), (42, 24, 3.2), (28, 16, 2.6), (16, 8, 2.4)]):
        for k in range(count):
            turn = (k + 0.5 * (ring % 2)) * 2 * math.pi / count
            x, y = 100 + radius * math.cos(turn), 130 + radius * math.sin(turn)
            shape = (f"<circle cx='{x:.3f}' cy='{y:.3f}' r='{hole}' fill='white'/>" if ring % 2 == 0 else
                     f"<path fill='white' transform='translate({x:.3f} {y:.3f}) rotate({math.degrees(turn):.2f})' d='M-{hole} 0Q0 -{hole * 1.2:.2f} {hole} 0Q0 {hole * 1.2:.2f} -{hole} 0z'/>")
            parts.append(shape)
    return page("".join(parts))


def lace_line():
    """The same lace as its maker may draw it: lines alone."""
    return lace().replace("fill='white'", "fill='none' stroke='black'").replace("r='84'", "r='84' fill='none' stroke='black'").replace(
        "r='7'", "r='7' fill='none' stroke='black'")


HONEST = {
    "a4_600_grey.png": lambda: stored(pear(A4_AT_600), "PNG"),
    "a4_600_colour.png": lambda: stored(coloured(pear(A4_AT_600)), "PNG"),
    "a4_600_grey.jpg": lambda: stored(pear(A4_AT_600), "JPEG", quality=92),
    "a4_600_colour.jpg": lambda: stored(coloured(pear(A4_AT_600)), "JPEG", quality=92),
    "a4_600_in_steps.jpg": lambda: stored(coloured(pear(A4_AT_600)), "JPEG", quality=92, progressive=True),
    "a4_300_colour.png": lambda: stored(coloured(pear((2_480, 3_508))), "PNG"),
    "photo_48.jpg": lambda: stored(coloured(pear((6_000, 8_000))), "JPEG", quality=90),
    "photo_48_in_steps.jpg": lambda: stored(coloured(pear((6_000, 8_000))), "JPEG", quality=90, progressive=True),
    "oak_leaf_5000.svg": lambda: oak_leaf(5_000),
    "fern.svg": fern,
    "lace.svg": lace,
    "lace_line.svg": lace_line,
}
