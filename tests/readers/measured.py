"""What outside readers see of a kit: drawings rendered by rsvg-convert and pdftoppm, measured in millimetres."""

import json
import re
import subprocess
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import numpy
from PIL import Image, ImageDraw

DPI = 508  # 0.05 mm a pixel: half of what is asserted
MM = DPI / 25.4
CUT_LINE_MM = 0.25

SVG = "{http://www.w3.org/2000/svg}"


def run(*command):
    return subprocess.run([str(part) for part in command], check=True, capture_output=True).stdout


def dark(image_file):
    """True where ink covers at least half of a pixel; colours count as ink."""
    Image.MAX_IMAGE_PIXELS = None
    return numpy.asarray(Image.open(image_file).convert("L")) < 160


def svg_group(svg_file, group_id, work):
    """The picture of one named group alone."""
    tree = ElementTree.parse(svg_file)
    root = tree.getroot()
    for group in list(root.findall(SVG + "g")):
        if group.get("id") != group_id:
            root.remove(group)
        for mark in group.iter():  # colour must not decide what counts as ink
            mark.set("stroke", "#000000" if mark.get("stroke") != "none" else "none")
    alone = Path(work) / "group.svg"
    tree.write(alone)
    png = Path(work) / "group.png"
    run("rsvg-convert", "-d", DPI, "-p", DPI, "-b", "white", "-o", png, alone)
    return dark(png)


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


def media_boxes(pdf_file):
    return [value["/MediaBox"] for _, value in values(pdf_objects(pdf_file), lambda v: v.get("/Type") == "/Page")]


def pdf_layer(pdf_file, page, layer, work):
    """The picture of one layer of one page (from 1) alone, the others switched off in a copy."""
    numbers = {name: number for name, (number, _) in layers(pdf_file).items()}
    off = b" ".join(b"%d 0 R" % number for name, number in numbers.items() if name != layer)
    data = Path(pdf_file).read_bytes()
    data, count = re.subn(rb"/ON \[[^\]]*\]", b"/ON [ %d 0 R ] /OFF [ " % numbers[layer] + off + b" ]", data)
    assert count == 1, "one list of visible layers"
    alone = Path(work) / "layer.pdf"
    alone.write_bytes(data)
    # Its cross-reference table is stale now; poppler rebuilds it.
    run("pdftoppm", "-r", DPI, "-f", page, "-l", page, "-gray", "-singlefile", alone, Path(work) / "layer")
    return dark(Path(work) / "layer.pgm")


def box_mm(ink):
    """Left, top, right, bottom of the ink, mm."""
    rows, columns = numpy.flatnonzero(ink.any(axis=1)), numpy.flatnonzero(ink.any(axis=0))
    return columns[0] / MM, rows[0] / MM, (columns[-1] + 1) / MM, (rows[-1] + 1) / MM


def line_around(ink, point_mm):
    """The connected ink nearest to a point: one leaf's outline among many."""
    rows, columns = numpy.nonzero(ink)
    nearest = numpy.argmin((columns / MM - point_mm[0]) ** 2 + (rows / MM - point_mm[1]) ** 2)
    image = Image.fromarray(numpy.where(ink, 255, 0).astype("uint8")).copy()
    ImageDraw.floodfill(image, (int(columns[nearest]), int(rows[nearest])), 128)
    return numpy.asarray(image) == 128


def leaf_box_mm(ink):
    """Left, top, width, height of the cut itself: the line's own width taken off."""
    left, top, right, bottom = box_mm(ink)
    half = CUT_LINE_MM / 2
    return left + half, top + half, right - left - CUT_LINE_MM, bottom - top - CUT_LINE_MM


def ruler_mm(ink, left_mm, length_mm):
    """Place of the first and the last tick below a ruler's line, mm from the page's left edge."""
    row = ink[int((left_mm[1] + 0.8) * MM)]
    first, last = int((left_mm[0] - 3) * MM), int((left_mm[0] + length_mm + 1) * MM)
    places = numpy.flatnonzero(row[max(0, first) : last]) + max(0, first)
    ticks = numpy.split(places, numpy.flatnonzero(numpy.diff(places) > 1) + 1)
    return (ticks[0].mean() + 0.5) / MM, (ticks[-1].mean() + 0.5) / MM
