"""A kit of leaves that their sheet does not take whole: halves joined with a lap, read back by programs that are not ours.

Usage: halves_read_back.py FANWRIGHT
What the cutting files should show is made from the whole leaf's DXF (ezdxf) and the lap's own measure: cut lines to
0.1 mm as librsvg draws them, score and glue place to 0.01 mm as ezdxf reads them, DXF against SVG."""

import json
import subprocess
import sys
import tempfile
from pathlib import Path

import ezdxf
import numpy

import dxf_reads_back
import leaf_lines
import measured
from kit_reads_back import ALLOWED_MM, STRAY, Report

LAP_MM = 8
ENDS_MM = 0.5  # the lap begins so far from the spine's ends
BORDER_MM = 1  # glue keeps so far off score and cut edges
WRITTEN_MM = 0.01
DESIGN = {
    "fanwright": 1, "title": "Tall acorn", "units": "mm",
    "silhouette": {"path": "M 0 0 H 14 A 34 40 0 0 1 30 80 Q 44 90 36 104 C 30 120 12 124 0 124 Z M 14 50 v 6 h 6 v -6 Z",
                   "shows": "flat"},
    "leaves": 24, "rows": {"count": 7, "first": "between", "width": 2.5, "spine_gap": 3, "edge_gap": 3},
    "paper": {"grammage": 120}, "sheet": {"size": {"width": 92, "height": 200}, "margin": 6, "gap": 2},
}


def lap_of(foot, top):
    """The lap's corners in leaf coordinates, from the spine's top round to its foot."""
    foot, top = foot + ENDS_MM, top - ENDS_MM
    return [(0, top), (-LAP_MM, top - LAP_MM), (-LAP_MM, foot + LAP_MM), (0, foot)]


def glue_of(foot, top):
    """The lap's corners moved in by the border from all four sides; its ends are cut at 45 degrees."""
    foot, top = foot + ENDS_MM + 2 ** 0.5 * BORDER_MM, top - ENDS_MM - 2 ** 0.5 * BORDER_MM
    return [(x, z) for x in (-BORDER_MM, BORDER_MM - LAP_MM) for z in (top + x, foot - x)]


def halves_of(leaf):
    """Cut lines of the right and of the left half, and the glue place, from those of the whole leaf."""
    spine = [line[numpy.abs(line[:, 0]) < 1e-6, 1] for line in leaf]
    foot, top = min(z.min(initial=1e9) for z in spine), max(z.max(initial=-1e9) for z in spine)
    lap = lap_of(foot, top)
    chain = lambda points: leaf_lines.dense(numpy.array(points, dtype=float))
    left = [run for line in leaf for run in leaf_lines.runs(line, line[:, 0] <= 1e-9)]
    return (leaf_lines.right_half(leaf) + [chain([(0, top), *lap, (0, foot)])], left + [chain([(0, foot), (0, top)])],
            glue_of(foot, top), (foot, top))


def there(points, place):
    return leaf_lines.on_page([numpy.array(points, dtype=float)], place)[0]


def holds(lines, points):
    """Whether one of the DXF's lines has just these corners, in any order."""
    wanted = sorted(map(tuple, points))
    for line in lines:
        seen = sorted({tuple(point) for point in line.points.round(4)})
        if len(seen) == len(wanted) and numpy.abs(numpy.array(seen) - numpy.array(wanted).round(4)).max() <= WRITTEN_MM:
            return True
    return False


def check_marks(report, what, dxf, page, glue, spine):
    lines, _ = dxf_reads_back.read_dxf(ezdxf.readfile(dxf), lambda fine, fault: report.require(fault, fine))
    up = lambda points: points * (1, -1) + (0, page["page_mm"][1])
    scores, rights = lines.get("SCORE", []), page["right_halves"]
    report.require(f"{what}: {len(scores)} scores for {len(rights)} right halves", len(scores) == len(rights))
    for place in rights:
        report.require(f"{what}: no score along the spine", holds(scores, up(there([(0, spine[0]), (0, spine[1])], place))))
        report.require(f"{what}: no glue place on the lap", holds(lines.get("GLUE_INSIDE", []), up(there(glue, place))))
    for place in page["left_halves"]:
        report.require(f"{what}: no glue place behind the left half",
                       holds(lines.get("GLUE_BETWEEN", []), up(there(glue, place))))


def check_pages(report, kit, size, work):
    cut = kit / size["folder"] / "cut"
    drawing = size["leaf_drawing"]
    leaf = leaf_lines.in_leaf(leaf_lines.cut_lines(cut / "leaf.dxf", drawing["page_mm"][1]), drawing["leaves"][0])
    right, left, glue, spine = halves_of(leaf)
    counts = {"leaves": 0, "right_halves": 0, "left_halves": 0}
    for number, page in enumerate(size["sheets"]["pages"], 1):
        svg = cut / f"sheet-{number}.svg"
        report.require(f"{svg.name}: the DXF differs", dxf_reads_back.main(svg.with_suffix(".dxf"), svg) == 0)
        lines = [line for half, key in ((right, "right_halves"), (left, "left_halves")) for place in page[key]
                 for line in leaf_lines.on_page(half, place)]
        stray, missing = measured.line_faults(measured.SvgGroup(svg, "cut", work).whole(), lines, ALLOWED_MM)
        report.require(f"{svg.name}: {100 * stray:.3f} % lies off the halves' lines", stray <= STRAY)
        report.require(f"{svg.name}: {100 * missing:.3f} % of the halves' lines is not drawn", missing <= STRAY)
        check_marks(report, svg.name, svg.with_suffix(".dxf"), page, glue, spine)
        for key in counts:
            counts[key] += page["copies"] * len(page[key])
    wanted = {"leaves": 0, "right_halves": size["leaves"], "left_halves": size["leaves"]}
    report.require(f"{counts} are cut instead of {wanted}", counts == wanted)


def main(fanwright):
    report = Report()
    with tempfile.TemporaryDirectory() as folder:
        work = Path(folder)
        design, kit = work / "acorn.ornament.json", work / "kit"
        design.write_text(json.dumps(DESIGN))
        command = [fanwright, "kit", design, "--out", kit]
        refused = subprocess.run(command, capture_output=True, text=True)
        report.require(f"without a lap: exit {refused.returncode}: {refused.stderr}",
                       refused.returncode == 1 and "split it at the spine" in refused.stderr and not kit.exists())
        done = subprocess.run([*command, "--lap", str(LAP_MM)], capture_output=True, text=True)
        if done.returncode != 0:
            report.faults.append(f"exit {done.returncode}: {done.stderr.strip()}")
        else:
            check_pages(report, kit, json.loads((kit / "kit.json").read_text())["sizes"][0], work)
            report.require("README.txt does not tell how to join the halves",
                           "Leaves in two halves" in (kit / "README.txt").read_text())
    for fault in report.faults:
        print(fault)
    return 1 if report.faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
