"""A DXF, read by ezdxf, is without fault and shows what the SVG of the same page shows.

Usage: dxf_reads_back.py FILE.dxf FILE.svg
Curves to 0.02 mm both ways, straight lines and corners to 0.001 mm, layer by layer; notes word by word."""

import math
import re
import sys
import xml.etree.ElementTree as tree

import ezdxf
import ezdxf.path
import numpy
from ezdxf.lldxf.encoding import decode_dxf_unicode

CURVES_MM = 0.02
# SVG is written to 0.0001 mm.
LINES_MM = 0.001
# How near chains of chords follow the curves that they are compared as.
SAMPLED_MM = 0.004
SVG = "{http://www.w3.org/2000/svg}"
LAYERS = {
    "cut": "CUT",
    "perforate": "PERFORATE",
    "score": "SCORE",
    "score-back": "SCORE_BACK",
    "glue-inside": "GLUE_INSIDE",
    "glue-between": "GLUE_BETWEEN",
    "notes": "NOTES",
}
MILLIMETRES, METRIC = 4, 1


class Line:
    """One subpath as a chain of points, y up; `curved` when any part of it is."""

    def __init__(self, points, closed, curved):
        self.points, self.closed, self.curved = numpy.array(points, dtype=float), closed, curved
        self.box = numpy.concatenate([self.points.min(axis=0), self.points.max(axis=0)])


def arc_points(start, radii, rotation_deg, large, sweep, end):
    """SVG 2, appendix B.2.4, sampled."""
    (x1, y1), (x2, y2), (rx, ry) = start, end, map(abs, radii)
    if (x1, y1) == (x2, y2):
        return []
    if rx == 0 or ry == 0:
        return [end]
    turn = complex(math.cos(math.radians(rotation_deg)), math.sin(math.radians(rotation_deg)))
    half = complex(x1 - x2, y1 - y2) / 2 / turn
    lacking = max(1.0, math.hypot(half.real / rx, half.imag / ry))
    rx, ry = rx * lacking, ry * lacking
    # On the unit circle: both ends are symmetric about the chord's middle.
    unit = complex(half.real / rx, half.imag / ry)
    away = math.sqrt(max(0.0, 1 / abs(unit) ** 2 - 1)) * (1 if large != sweep else -1)
    centre = complex(unit.imag, -unit.real) * away
    first, last = ((unit - centre), (-unit - centre))
    begin = math.atan2(first.imag, first.real)
    angle = math.atan2(last.imag, last.real) - begin
    if sweep and angle < 0:
        angle += 2 * math.pi
    if not sweep and angle > 0:
        angle -= 2 * math.pi
    # Chords of an angle a lie within r a^2 / 8 of the arc.
    count = max(8, math.ceil(abs(angle) * math.sqrt(max(rx, ry) / (8 * SAMPLED_MM))))
    points = []
    for i in range(1, count):
        at = complex(math.cos(begin + angle * i / count), math.sin(begin + angle * i / count)) + centre
        at = complex(at.real * rx, at.imag * ry) * turn
        points.append((at.real + (x1 + x2) / 2, at.imag + (y1 + y2) / 2))
    return [*points, end]


def cubic_points(a, b, c, d):
    count = max(8, math.ceil(2 * (math.dist(a, b) + math.dist(b, c) + math.dist(c, d))))
    points = []
    for i in range(1, count + 1):
        t = i / count
        weights = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        points.append(tuple(sum(w * p[axis] for w, p in zip(weights, (a, b, c, d))) for axis in (0, 1)))
    return points


def svg_lines(data, height):
    """The subpaths of path data with the commands M L C A Z."""
    words = iter(re.findall(r"[MLCAZ]|[-+.\deE]+", data))
    number = lambda: float(next(words))
    place = lambda: (number(), number())
    points, curved, lines = [], False, []

    def finish(closed):
        nonlocal curved
        if len({(round(x, 5), round(y, 5)) for x, y in points}) > 1:
            lines.append(Line([(x, height - y) for x, y in points], closed, curved))
        curved = False

    for command in words:
        if command == "Z":
            start = points[0]
            points.append(start)
            finish(True)
            points = [start]
        elif command == "M":
            finish(False)
            points = [place()]
        elif command == "L":
            points.append(place())
        elif command == "C":
            points += cubic_points(points[-1], place(), place(), place())
            curved = True
        elif command == "A":
            radii, rotation, large, sweep = place(), number(), number() != 0, number() != 0
            points += arc_points(points[-1], radii, rotation, large, sweep, place())
            curved = True
        else:
            raise SystemExit(f"path data holds {command}")
    finish(False)
    return lines


def read_svg(file):
    """Layer -> lines, and (words, x, y) of the notes; y up."""
    root = tree.parse(file).getroot()
    height = float(root.get("viewBox").split()[3])
    lines, words = {}, []
    for group in root.iter(f"{SVG}g"):
        layer = LAYERS.get(group.get("id"))
        if layer is None:
            continue
        for path in group.iter(f"{SVG}path"):
            lines.setdefault(layer, []).extend(svg_lines(path.get("d"), height))
        for text in group.iter(f"{SVG}text"):
            words.append((text.text or "", float(text.get("x")), height - float(text.get("y"))))
    return lines, words


def read_dxf(document, report):
    lines, words = {}, []
    for entity in document.modelspace():
        layer = entity.dxf.layer
        if entity.dxftype() == "TEXT":
            _, at, other = entity.get_placement()
            at = at if other is None else other
            words.append((decode_dxf_unicode(entity.plain_text()), at.x, at.y))
            report(layer == "NOTES", f"text {entity.plain_text()!r} is on layer {layer}")
        elif entity.dxftype() == "LWPOLYLINE":
            points = [(p.x, p.y) for p in ezdxf.path.make_path(entity).flattening(SAMPLED_MM)]
            curved = any(bulge != 0 for (bulge,) in entity.get_points("b"))
            lines.setdefault(layer, []).append(Line(points, entity.closed, curved))
        else:
            report(False, f"there is a {entity.dxftype()}")
    return lines, words


def farthest(points, chain):
    """How far any of the points lies from the chain, mm."""
    worst = 0.0
    a, b = chain[:-1], chain[1:]
    along = b - a
    squared = numpy.maximum((along**2).sum(axis=1), 1e-30)
    for block in numpy.array_split(points, max(1, len(points) * len(a) // 500000)):
        share = numpy.clip(((block[:, None] - a) * along).sum(axis=2) / squared, 0, 1)
        off = block[:, None] - (a + share[:, :, None] * along)
        worst = max(worst, math.sqrt((off**2).sum(axis=2).min(axis=1).max()))
    return worst


def compare_layer(layer, drawn, read, report):
    report(len(drawn) == len(read), f"{layer}: {len(read)} lines instead of {len(drawn)}")
    boxes = numpy.array([line.box for line in read]).reshape(-1, 4)
    free = numpy.ones(len(read), dtype=bool)
    for line in drawn:
        allowed = CURVES_MM if line.curved else LINES_MM
        for index in numpy.flatnonzero(free & (numpy.abs(boxes - line.box).max(axis=1, initial=0) <= allowed)):
            other = read[index]
            off = max(farthest(line.points, other.points), farthest(other.points, line.points))
            if off <= allowed and other.closed == line.closed and (line.curved or not other.curved):
                free[index] = False
                break
        else:
            report(False, f"{layer}: no line like the one in the box {line.box.round(3)}")


def check_head(file, document, report):
    auditor = document.audit()
    for entry in (*auditor.errors, *auditor.fixes):
        report(False, f"ezdxf's audit: {entry.message}")
    report(document.dxfversion == "AC1015", f"version is {document.dxfversion}")
    for name, wanted in (("$INSUNITS", MILLIMETRES), ("$MEASUREMENT", METRIC)):
        report(document.header.get(name) == wanted, f"{name} is {document.header.get(name)}")
    rows = open(file, encoding="ascii").read().split("\n")
    pairs = list(zip((row.strip() for row in rows[0::2]), rows[1::2]))
    head = pairs.index(("0", "ENDSEC"))
    handles = [int(value, 16) for code, value in pairs[head:] if code in ("5", "105")]
    report(len(handles) == len(set(handles)), "a handle is given twice")
    seed = int(pairs[pairs.index(("9", "$HANDSEED")) + 1][1], 16)
    report(seed > max(handles), "the handle seed is already taken")
    layers = {layer.dxf.name for layer in document.layers} - {"0", "Defpoints"}
    report(layers <= set(LAYERS.values()), f"layers are {sorted(layers)}")


def same_words(drawn, read):
    """Places are written with four decimals in either file."""
    return len(drawn) == len(read) and all(
        a[0] == b[0] and abs(a[1] - b[1]) < 1e-3 and abs(a[2] - b[2]) < 1e-3 for a, b in zip(drawn, read))


def check_extents(document, lines, words, report):
    points = [line.points for layer in lines.values() for line in layer] + [numpy.array([[x, y] for _, x, y in words])] * bool(words)
    if not points:
        return
    points = numpy.concatenate(points)
    for name, seen in (("$EXTMIN", points.min(axis=0)), ("$EXTMAX", points.max(axis=0))):
        stated = document.header[name][:2]
        report(numpy.abs(seen - stated).max() <= LINES_MM, f"{name} is {stated}, the drawing's {seen}")


def main(dxf_file, svg_file):
    faults = []
    report = lambda holds, fault: holds or faults.append(fault)
    document = ezdxf.readfile(dxf_file)
    check_head(dxf_file, document, report)
    drawn, drawn_words = read_svg(svg_file)
    read, read_words = read_dxf(document, report)
    for layer in sorted(drawn.keys() | read.keys()):
        compare_layer(layer, drawn.get(layer, []), read.get(layer, []), report)
    drawn_words, read_words = sorted(drawn_words), sorted(read_words)
    if not same_words(drawn_words, read_words):
        faults.append(f"words are {read_words} instead of {drawn_words}")
    check_extents(document, read, read_words, report)
    for fault in faults[:20]:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
