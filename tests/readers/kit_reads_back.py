"""A kit, read by programs that are not ours, gives the numbers of its kit.json.

Usage: kit_reads_back.py FANWRIGHT DESIGN...
Cut lines to 0.1 mm in every SVG (librsvg) and on every printed page (poppler) against the leaf's DXF (ezdxf); scales to
0.1 mm in 100, squares likewise; DXF against SVG; PDF free of errors (qpdf) with its processing steps (qpdf, mutool);
booklets, stencils and zip (handed_on.py); two runs give the same bytes."""

import json
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from PIL import Image

import dxf_reads_back
import handed_on
import leaf_lines
import measured

ALLOWED_MM = 0.1
STRAY = 1e-4  # share of pixels: where lines end or meet at a sharp angle, their round joins differ from a true distance

# ISO 19593-1:2018: groups and types of the processing steps; Legend and Dimensions take no type.
STEPS = {
    "Cut": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Cutting"},
    "Score": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Creasing"},
    "Score on the back": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/ReverseCreasing"},
    "Glue inside": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Gluing"},
    "Glue between": {"/GTS_ProcStepsGroup": "/Structural", "/GTS_ProcStepsType": "/Gluing"},
    "Dimensions": {"/GTS_ProcStepsGroup": "/Dimensions"},
    "Notes": {"/GTS_ProcStepsGroup": "/Legend"},
}
TEMPLATES = ("leaf", "half", "part", "half part")
# ISO 216; ANSI/ASME Y14.1 (8.5 x 11 in).
PRINT_SHEETS = {"A4": (210, 297), "letter": (215.9, 279.4)}


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


def lines_of(page, leaf):
    """The cut lines that the page should show, by the lines of one leaf in leaf coordinates."""
    if page["shows"] in TEMPLATES:  # nicks are for the leaves themselves: a template shows their rows
        leaf = [line for line in leaf if leaf_lines.closed(line)]
    if page["shows"].startswith("half"):
        leaf = leaf_lines.right_half(leaf)
    lines = [line for place in page["leaves"] for line in leaf_lines.on_page(leaf, place)]
    return leaf_lines.inside(lines, page["window_mm"]) if "window_mm" in page else lines


def check_cut(report, what, page, ink, leaf):
    lines = lines_of(page, leaf)
    stray, missing = measured.line_faults(ink, lines, ALLOWED_MM)
    report.require(f"{what}: {100 * stray:.3f} % of what is drawn lies off the leaf's lines", stray <= STRAY)
    report.require(f"{what}: {100 * missing:.3f} % of the leaf's lines is not drawn", missing <= STRAY)


def check_measures(report, what, page, drawing):
    for name, length in (("millimetres", 100), ("inches", 101.6)):
        scale = page[name]
        report.require(f"{what}: the scale of {name} is {scale['length_mm']} mm long", scale["length_mm"] == length)
        first, last = measured.scale_mm(drawing, scale)
        report.near(f"{what}, zero of {name}", first, 0)
        report.near(f"{what}, length of {name}", last - first, length)
    if "square_corner_mm" in page:
        left, right, top, bottom = measured.square_mm(drawing, page["square_corner_mm"])
        report.near(f"{what}, square's width", right - left, 50)
        report.near(f"{what}, square's height", bottom - top, 50)
    else:
        for scale in page["square_sides"]:
            report.require(f"{what}: a side of the square is short", scale["length_mm"] >= 50)
            first, last = measured.scale_mm(drawing, scale)
            report.near(f"{what}, side of the square", last - first, scale["length_mm"])


def check_cut_files(report, folder, size, work):
    """Returns the leaf's cut lines in leaf coordinates."""
    drawing = size["leaf_drawing"]
    lines = leaf_lines.cut_lines(folder / "cut" / "leaf.dxf", drawing["page_mm"][1])
    leaf = leaf_lines.in_leaf(lines, drawing["leaves"][0])
    width = max(line[:, 0].max() for line in leaf) - min(line[:, 0].min() for line in leaf)
    report.near(f"{size['name']}, leaf's width in the table", width, size["leaf"]["width_mm"])
    pages = [("leaf", drawing)] + [(f"sheet-{i}", page) for i, page in enumerate(size["sheets"]["pages"], 1)]
    for name, page in pages:
        svg = folder / "cut" / f"{name}.svg"
        what = f"{size['name']}/cut/{name}.svg"
        report.require(f"{what}: the DXF differs", dxf_reads_back.main(svg.with_suffix(".dxf"), svg) == 0)
        ink = measured.SvgGroup(svg, "cut", work).whole()
        for pixels, stated in zip(reversed(ink.shape), page["page_mm"]):
            report.near(f"{what}, page", pixels / measured.MM, stated)
        check_cut(report, what, page, ink, leaf)
        check_measures(report, what, page, measured.SvgGroup(svg, "notes", work))
    cut_leaves = sum(page["copies"] * len(page["leaves"]) for _, page in pages[1:])
    report.require(f"{size['name']}: {cut_leaves} leaves are cut", cut_leaves == size["leaves"])
    return leaf


def check_fans(report, folder, size, work):
    """Pages of fans for machines: DXF against SVG, page, scales and square."""
    for number, page in enumerate(size.get("fans", {"pages": []})["pages"], 1):
        svg = folder / "cut" / f"fans-{number}.svg"
        what = f"{size['name']}/cut/{svg.name}"
        report.require(f"{what}: the DXF differs", dxf_reads_back.main(svg.with_suffix(".dxf"), svg) == 0)
        for pixels, stated in zip(reversed(measured.SvgGroup(svg, "cut", work).whole().shape), page["page_mm"]):
            report.near(f"{what}, page", pixels / measured.MM, stated)
        check_measures(report, what, page, measured.SvgGroup(svg, "notes", work))


def check_layers(report, what, file, wanted):
    report.require(f"{what}: qpdf finds faults", subprocess.run(["qpdf", "--check", file], capture_output=True).returncode == 0)
    steps = {name: step for name, (_, step) in measured.layers(file).items()}
    report.require(f"{what}: processing steps are {steps}", steps == wanted)
    seen = measured.layers_seen_by_mutool(file)
    report.require(f"{what}: mutool sees the steps {seen}", seen == wanted)


def steps_of(pages, marks):
    """Glue is on templates in any case, on leaves only where the maker has its places printed. Fans alone are scored on
    both faces, and glued on one."""
    if any(page["shows"] == "fans" for page in pages):
        return {name: step for name, step in STEPS.items() if name != "Glue between"}
    glue = marks == "printed" or any(page["shows"] in TEMPLATES for page in pages)
    steps = {name: step for name, step in STEPS.items() if name != "Score on the back"}
    return {name: step for name, step in steps.items() if glue or not name.startswith("Glue")}


def check_print(report, folder, size, printed, leaf, marks, work):
    what = f"{size['name']}/{printed['file']}"
    file = folder / printed["file"]
    pages = printed["pages"]
    check_layers(report, what, file, steps_of(pages, marks))
    boxes = measured.media_boxes(file)
    report.require(f"{what}: {len(boxes)} pages", len(boxes) == len(pages))
    cut, dimensions = (measured.PdfLayer(file, layer, work) for layer in ("Cut", "Dimensions"))
    for number, (page, box) in enumerate(zip(pages, boxes), 1):
        report.require(f"{what}: page is {page['page_mm']}", tuple(page["page_mm"]) == PRINT_SHEETS[printed["sheet"]])
        for points, stated in zip(box[2:], page["page_mm"]):
            # ISO 32000-1: 1/72 in. Never larger than the sheet, and not 0.001 point smaller.
            report.require(f"{what}: page is {points} points", -0.001 < points - stated * 72 / 25.4 <= 0)
        check_measures(report, f"{what}, page {number}", page, measured.PdfLayerPage(dimensions, number))
        if page["shows"] in ("front", *TEMPLATES):
            check_cut(report, f"{what}, page {number}", page, cut.whole(number), leaf)
    leaves = sum(page["copies"] * len(page["leaves"]) for page in pages if page["shows"] == "front")
    template = any(page["shows"] in ("leaf", "part", "fans") for page in pages)
    report.require(f"{what}: {leaves} leaves are printed", leaves == (0 if template else size["leaves"]))


def check_picture(report, folder, size):
    with Image.open(folder / "opened.png") as picture:
        picture.load()
        report.require(f"{size['name']}/opened.png is blank", len(picture.convert("RGB").resize((64, 64)).getcolors(4096)) > 200)


def check_kit(report, fanwright, design, work):
    kit = work / "kit"
    start = time.monotonic()
    done = subprocess.run([fanwright, "kit", design, "--out", kit], capture_output=True, text=True)
    if done.returncode != 0:
        report.faults.append(f"{design}: exit {done.returncode}: {done.stderr.strip()}")
        return
    print(f"{design}: kit written in {time.monotonic() - start:.1f} s")
    numbers = json.loads((kit / "kit.json").read_text())
    drawn_up = json.loads(design.read_text())
    marks = drawn_up.get("making", {}).get("marks", "printed")
    for size in numbers["sizes"]:
        folder = kit / size["folder"]
        leaf = check_cut_files(report, folder, size, work)
        check_fans(report, folder, size, work)
        for printed in size["prints"]:
            check_print(report, folder, size, printed, leaf, marks, work)
        check_picture(report, folder, size)
    handed_on.check(report, kit, numbers, drawn_up.get("publishing", {}).get("maker", ""))


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
