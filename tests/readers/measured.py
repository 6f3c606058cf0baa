"""What outside readers see of a kit: drawings rendered by rsvg-convert and pdftoppm, measured in millimetres."""

import json
import re
import subprocess
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import numpy
from PIL import Image

import leaf_lines

DPI = 254  # 0.1 mm a pixel: lines are judged by the places of pixels' centres
MM = DPI / 25.4
FINE_DPI = 1016  # of the strips in which scales are measured: 0.025 mm a pixel
FINE_MM = FINE_DPI / 25.4
CUT_LINE_MM = 0.25

SVG = "{http://www.w3.org/2000/svg}"


def run(*command):
    return subprocess.run([str(part) for part in command], check=True, capture_output=True).stdout


def dark(image_file):
    """True where ink covers at least half of a pixel; colours count as ink."""
    Image.MAX_IMAGE_PIXELS = None
    return numpy.asarray(Image.open(image_file).convert("L")) < 160


def svg_alone(svg_file, group_id, work, window=None):
    """A copy with one named group alone in black, and of the page only a window (left, top, width, height in mm)."""
    tree = ElementTree.parse(svg_file)
    root = tree.getroot()
    for group in list(root.findall(SVG + "g")):
        if group.get("id") != group_id:
            root.remove(group)
        for mark in group.iter():  # colour must not decide what counts as ink
            mark.set("stroke", "#000000" if mark.get("stroke") != "none" else "none")
    if window:
        root.set("viewBox", " ".join(map(str, window)))
        root.set("width", f"{window[2]}mm")
        root.set("height", f"{window[3]}mm")
    alone = Path(work) / "group.svg"
    tree.write(alone)
    return alone


class SvgGroup:
    """One group of an SVG file."""

    def __init__(self, svg_file, group_id, work):
        self.file, self.group_id, self.work = svg_file, group_id, work

    def picture(self, window, dpi):
        png = Path(self.work) / "group.png"
        alone = svg_alone(self.file, self.group_id, self.work, window)
        run("rsvg-convert", "-d", dpi, "-p", dpi, "-b", "white", "-o", png, alone)
        return dark(png)

    def whole(self):
        return self.picture(None, DPI)

    def strip(self, left, top, width, height):
        return self.picture((left, top, width, height), FINE_DPI)


def pdf_objects(pdf_file):
    return json.loads(run("qpdf", "--json=2", "--json-key=qpdf", pdf_file))["qpdf"][1]


def values(objects, wanted):
    """Dictionaries among the objects for which wanted(value) holds, with their object names."""
    for name, entry in objects.items():
        value = entry.get("value")
        if isinstance(value, dict) and wanted(value):
            yield name, value


def layers(pdf_file):
    """Name of each optional content group -> its object number and processing step metadata."""
    found = {}
    for name, value in values(pdf_objects(pdf_file), lambda v: v.get("/Type") == "/OCG"):
        number = int(name.split(":")[1].split()[0])
        found[value["/Name"].removeprefix("u:")] = (number, value["/GTS_Metadata"])
    return found


def layers_seen_by_mutool(pdf_file):
    """The same, name -> metadata, out of mutool's own listing of the objects."""
    found = {}
    numbers = run("mutool", "show", pdf_file, "trailer/Root/OCProperties/OCGs").decode()
    for number in re.findall(r"(\d+) 0 R", numbers):
        text = run("mutool", "show", "-g", pdf_file, number).decode()
        name = re.search(r"/Name\s*\(([^)]*)\)", text)[1]
        metadata = re.search(r"/GTS_Metadata\s*<<([^>]*)>>", text)[1]
        found[name] = dict(re.findall(r"(/GTS_\w+)\s*(/\w+)", metadata))
    return found


def media_boxes(pdf_file):
    return [value["/MediaBox"] for _, value in values(pdf_objects(pdf_file), lambda v: v.get("/Type") == "/Page")]


class PdfLayer:
    """One layer of a PDF file, the others switched off in a copy."""

    def __init__(self, pdf_file, layer, work):
        numbers = {name: number for name, (number, _) in layers(pdf_file).items()}
        off = b" ".join(b"%d 0 R" % number for name, number in numbers.items() if name != layer)
        data = Path(pdf_file).read_bytes()
        data, count = re.subn(rb"/ON \[[^\]]*\]", b"/ON [ %d 0 R ] /OFF [ " % numbers[layer] + off + b" ]", data)
        assert count == 1, "one list of visible layers"
        self.work = Path(work)
        self.file = self.work / f"layer {layer}.pdf"
        # Its cross-reference table is stale now; the second reader rebuilds it, once for all pages.
        stale = self.work / "stale.pdf"
        stale.write_bytes(data)
        subprocess.run(["qpdf", stale, self.file], capture_output=True)

    def picture(self, page, dpi, *crop):
        run("pdftoppm", "-r", dpi, "-f", page, "-l", page, *crop, "-gray", "-singlefile", self.file, self.work / "layer")
        return dark(self.work / "layer.pgm")

    def whole(self, page):
        return self.picture(page, DPI)

    def strip(self, page, left, top, width, height):
        """The crop begins on a whole pixel: `left` and `top` must be multiples of 0.025 mm."""
        numbers = [round(length * FINE_MM) for length in (left, top, width, height)]
        return self.picture(page, FINE_DPI, *(word for pair in zip(("-x", "-y", "-W", "-H"), numbers) for word in pair))


class PdfLayerPage:
    def __init__(self, layer, page):
        self.layer, self.page = layer, page

    def whole(self):
        return self.layer.whole(self.page)

    def strip(self, left, top, width, height):
        return self.layer.strip(self.page, left, top, width, height)


def line_faults(ink, lines, allowed_mm):
    """Ink further than allowed from every line, and line further than allowed from ink: shares of ink and of line.

    A pixel is dark when its centre lies on a line of CUT_LINE_MM, so it may lie half of that and `allowed_mm` away from
    the line's middle, and nearer than half of it less `allowed_mm` it must be dark. Not so at the ends of open lines,
    which may fall short by what is allowed."""
    may = within(ink.shape, numpy.vstack(lines), CUT_LINE_MM / 2 + allowed_mm)
    inner = [line if leaf_lines.closed(line) else without_ends(line, allowed_mm) for line in lines]
    must = within(ink.shape, numpy.vstack(inner), CUT_LINE_MM / 2 - allowed_mm)
    return (ink & ~may).sum() / max(1, ink.sum()), (must & ~ink).sum() / max(1, must.sum())


def without_ends(line, length_mm):
    far = numpy.minimum(numpy.hypot(*(line - line[0]).T), numpy.hypot(*(line - line[-1]).T))
    return line[far > 2 * length_mm]


def within(shape, points_mm, distance_mm):
    """The pixels whose centres lie within a distance of one of the points."""
    seen = numpy.zeros(shape, dtype=bool)
    points = points_mm * MM - 0.5  # in pixels, by their centres
    nearest = numpy.rint(points).astype(int)
    reach = int(distance_mm * MM) + 1
    for dy in range(-reach, reach + 1):
        for dx in range(-reach, reach + 1):
            x, y = nearest[:, 0] + dx, nearest[:, 1] + dy
            near = numpy.hypot(x - points[:, 0], y - points[:, 1]) <= distance_mm * MM
            near &= (x >= 0) & (y >= 0) & (x < shape[1]) & (y < shape[0])
            seen[y[near], x[near]] = True
    return seen


def middle(ink, axis):
    """Middle of the ink along an axis of a strip, in pixels; nan without ink."""
    places = numpy.flatnonzero(ink.any(axis=axis))
    return (places[0] + places[-1] + 1) / 2 if places.size else float("nan")


def scale_mm(drawing, scale):
    """Where the first and the last tick of a scale lie, mm along it from where its zero should be."""
    x, y = scale["zero_mm"]
    length = scale["length_mm"]
    up = scale["runs"] == "up"
    half, beside = 0.45, 0.8  # no other tick lies nearer than 0.9 mm to the two that are looked for
    grid = lambda v: round(v * FINE_MM) / FINE_MM
    seen = []
    for along in (0, length):
        # The line itself, 0.18 mm wide, is left out: ticks stand on either side of it.
        found = []
        for side in (-beside, 0.2):
            if up:
                left, top = grid(x + side), grid(y - along - half)
                ink = drawing.strip(left, top, beside - 0.2, 2 * half)
                found.append(y - (top + middle(ink, 1) / FINE_MM))
            else:
                left, top = grid(x + along - half), grid(y + side)
                ink = drawing.strip(left, top, 2 * half, beside - 0.2)
                found.append(left + middle(ink, 0) / FINE_MM - x)
        seen.append(numpy.nanmean(found))
    return seen


def square_mm(drawing, corner):
    """Left, right, top, bottom of the 50 mm square by the middles of its sides."""
    grid = lambda v: round(v * FINE_MM) / FINE_MM
    half, side = 0.45, 50
    sides = []
    for along in (0, side):
        left, top = grid(corner[0] + along - half), grid(corner[1] + 20)
        sides.append(left + middle(drawing.strip(left, top, 2 * half, 2), 0) / FINE_MM)
    for along in (0, side):
        left, top = grid(corner[0] + 20), grid(corner[1] + along - half)
        sides.append(top + middle(drawing.strip(left, top, 2, 2 * half), 1) / FINE_MM)
    return sides
