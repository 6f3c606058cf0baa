#!/usr/bin/env python3
"""Turns a solver case (one half-panel: outline, glue strips, isotropic sheet) into a design file.

    tools/case_to_design.py CASE.json [DESIGN.ornament.json]

A case has: leaves, opening_deg, thickness (mm), E (MPa), nu, outline: [[x, z], ...] in mm with x from the spine, and
glue: [{side: "A" (inside) or "B" (between), width} with {x0, x1, z} or {x0, z0, x1, z1}]. y of the design points up,
as z of the case does. Without a second argument the design goes to standard output.
"""
import json
import pathlib
import sys

# Weight plays no part in the opened form; any usual card will do.
GRAMMAGE_GSM = 160

SIDES = {"A": "inside", "B": "between"}


def listed_row(strip):
    foot_z = strip.get("z0", strip.get("z"))
    top_z = strip.get("z1", strip.get("z"))
    return {
        "side": SIDES[strip["side"]],
        "from": [strip["x0"], foot_z],
        "to": [strip["x1"], top_z],
        "width": strip["width"],
    }


def path_data(outline):
    points = [f"{x:.10g} {z:.10g}" for x, z in outline]
    return "M " + " L ".join(points) + " Z"


def design_of(case):
    return {
        "fanwright": 1,
        "title": case["name"],
        "units": "mm",
        "silhouette": {"path": path_data(case["outline"]), "shows": "flat"},
        "leaves": case["leaves"],
        "opening": case["opening_deg"],
        "rows": [listed_row(strip) for strip in case["glue"]],
        "paper": {
            "grammage": GRAMMAGE_GSM,
            "caliper": case["thickness"],
            "modulus": case["E"],
            "poisson": case["nu"],
        },
    }


def main(case_file, design_file=None):
    case = json.loads(pathlib.Path(case_file).read_text(encoding="utf-8"))
    text = json.dumps(design_of(case), indent=2) + "\n"
    if design_file is None:
        sys.stdout.write(text)
    else:
        pathlib.Path(design_file).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    main(*sys.argv[1:])
