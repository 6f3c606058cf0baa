"""A kit, read by programs that are not ours, gives the numbers of its kit.json.

Usage: kit_reads_back.py FANWRIGHT DESIGN...
Leaf and ruler to 0.1 mm in SVG (librsvg) and PDF (poppler); PDF free of errors (qpdf) with its processing steps;
two runs give the same bytes."""

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from PIL import Image

import measured

ALLOWED_MM = 0.1

# ISO 19593-1:2018: groups and types of the processing steps; Legend and Dimensions take no type.
STEPS = {
    "Cut": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Cutting"},
    "Score": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Creasing"},
    "Glue inside": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Gluing"},
    "Glue between": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Gluing"},
    "Dimensions": {"/GTS_ProcStepsGroup": "/Dimensions"},
    "Notes": {"/GTS_ProcStepsGroup": "/Legend"},
}


class Report:
    def __init__(self):
        self.faults = []
        self.largest_mm = 0.0

    def near(self, what, seen, stated):
        off = abs(seen - stated)
        self.largest_mm = max(self.largest_mm, off)
        if not off <= ALLOWED_MM:
            self.faults.append(f"{what}: seen {seen:.3f} mm, kit.json says {stated:.3f} mm")

    def require(self, what, holds):
        if not holds:
            self.faults.append(what)


def check_page(report, what, numbers, cut, dimensions):
    left, top = numbers["leaf_corner_mm"]
    width, height = numbers["leaf_size_mm"]
    outline = measured.line_around(cut, (left, top + height / 2))
    for name, seen, stated in zip(
        ("leaf's left", "leaf's top", "leaf's width", "leaf's height"),
        measured.leaf_box_mm(outline),
        (left, top, width, height),
    ):
        report.near(f"{what}, {name}", seen, stated)
    first, last = measured.ruler_mm(dimensions, numbers["ruler_left_mm"], numbers["ruler_length_mm"])
    report.near(f"{what}, ruler's zero", first, numbers["ruler_left_mm"][0])
    report.near(f"{what}, ruler's length", last - first, numbers["ruler_length_mm"])


def check_svg(report, folder, size, work):
    what = f"{size['name']}/leaf.svg"
    file = folder / "leaf.svg"
    numbers = size["leaf_drawing"]
    cut = measured.svg_group(file, "cut", work)
    for pixels, stated in zip(reversed(cut.shape), numbers["page_mm"]):
        report.near(f"{what}, page", pixels / measured.MM, stated)
    check_page(report, what, numbers, cut, measured.svg_group(file, "notes", work))
    report.near(f"{what}, leaf's width in the table", size["leaf"]["width_mm"], numbers["leaf_size_mm"][0])
    for group in ("score", "glue-inside", "glue-between"):
        report.require(f"{what}: group {group} is empty", measured.svg_group(file, group, work).any())


def check_pdf(report, folder, size, work):
    what = f"{size['name']}/sheets.pdf"
    file = folder / "sheets.pdf"
    report.require(f"{what}: qpdf finds faults", subprocess.run(["qpdf", "--check", file], capture_output=True).returncode == 0)
    steps = {name: step for name, (_, step) in measured.layers(file).items()}
    report.require(f"{what}: processing steps are {steps}", steps == STEPS)
    pages = size["sheets"]["pages"]
    boxes = measured.media_boxes(file)
    report.require(f"{what}: {len(boxes)} pages", len(boxes) == len(pages))
    cut_leaves = sum(page["copies"] * page["leaves"] for page in pages)
    report.require(f"{what}: {cut_leaves} leaves are cut", cut_leaves == size["leaves"])
    for number, (page, box) in enumerate(zip(pages, boxes), 1):
        for points, stated in zip(box[2:], size["sheets"]["size_mm"]):
            # ISO 32000-1: 1/72 in. Never larger than the sheet, and not 0.001 point smaller.
            report.require(f"{what}: page is {points} points", -0.001 < points - stated * 72 / 25.4 <= 0)
        cut = measured.pdf_layer(file, number, "Cut", work)
        check_page(report, f"{what}, page {number}", page, cut, measured.pdf_layer(file, number, "Dimensions", work))


def check_picture(report, folder, size):
    with Image.open(folder / "opened.png") as picture:
        picture.load()
        report.require(f"{size['name']}/opened.png is blank", len(picture.convert("RGB").resize((64, 64)).getcolors(4096)) > 200)


def files(folder):
    return {path.relative_to(folder): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def check_kit(report, fanwright, design, work):
    kits = [work / "first", work / "second"]
    for kit in kits:
        start = time.monotonic()
        done = subprocess.run([fanwright, "kit", design, "--out", kit], capture_output=True, text=True)
        if done.returncode != 0:
            report.faults.append(f"{design}: exit {done.returncode}: {done.stderr.strip()}")
            return
        print(f"{design}: kit written in {time.monotonic() - start:.1f} s")
    report.require(f"{design}: two runs differ", files(kits[0]) == files(kits[1]))
    numbers = json.loads((kits[0] / "kit.json").read_text())
    for size in numbers["sizes"]:
        folder = kits[0] / size["folder"]
        check_svg(report, folder, size, work)
        check_pdf(report, folder, size, work)
        check_picture(report, folder, size)


def main(fanwright, *designs):
    report = Report()
    for design in designs:
        with tempfile.TemporaryDirectory() as work:
            check_kit(report, fanwright, Path(design), Path(work))
    for fault in report.faults:
        print(fault)
    print(f"{len(report.faults)} faults; largest difference {report.largest_mm:.3f} mm of {ALLOWED_MM} mm allowed")
    return 1 if report.faults or not designs else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
