"""While a point is dragged an estimate comes with a mesh of its own, which is that of the changed leaf.
Arguments: the fanwright program, the folder of the examples."""

import json
import pathlib
import struct
import sys
import tempfile

from talk import Events, Studio

program, examples = sys.argv[1], pathlib.Path(sys.argv[2])


def radius(mesh):
    """Of the widest point, mm."""
    assert mesh[:4] == b"FWM1", mesh[:40]
    points = struct.unpack_from("<I", mesh, 4)[0]
    places = struct.unpack_from(f"<{3 * points}f", mesh, 20)
    return max((places[k] ** 2 + places[k + 1] ** 2) ** 0.5 for k in range(0, 3 * points, 3))


with tempfile.TemporaryDirectory() as folder, Studio(program, folder) as studio:
    design = json.loads((examples / "pear.ornament.json").read_text())
    design["sizes"] = [size for size in design["sizes"] if size["name"] == "small"]
    before = json.dumps(design)
    status, opened = studio.ask("POST", "/api/designs", {"text": before, "name": "pear.ornament.json"})
    assert status == 200, (status, opened)
    events = Events(studio, opened["id"])
    status, first = studio.shape(opened["id"], 1, before, "small")
    assert status == 200 and first["stage"] == "estimate", first
    settled = events.wait(lambda event: event[0] == "form" and event[1]["revision"] == 1)
    assert settled and settled[1]["form"]["mesh"], settled
    # What the next drag is shown with is made once the form has been told.
    checked = events.wait(lambda event: event[0] == "checks" and event[1]["revision"] == 1)
    assert checked, "no checks came"

    # The size grows by one millimetre: all points of the leaf move a little.
    height = design["sizes"][0]["height"]
    design["sizes"][0]["height"] = height + 1
    status, shown = studio.ask("POST", f"/api/designs/{opened['id']}/shape",
                               {"revision": 2, "size": "small", "text": json.dumps(design), "settle": False})
    assert status == 200 and shown["stage"] == "estimate" and "stage=estimate" in (shown["form"]["mesh"] or ""), shown
    grown = shown["form"]["diameter_mm"] - settled[1]["form"]["diameter_mm"]
    assert 0.2 < grown < 2, grown
    status, mesh = studio.ask("GET", shown["form"]["mesh"])
    assert status == 200, (status, mesh)
    assert abs(2 * radius(mesh) - shown["form"]["diameter_mm"]) < 0.2, (2 * radius(mesh), shown["form"]["diameter_mm"])

    # An estimate that a newer one has followed is no more.
    design["sizes"][0]["height"] = height + 2
    status, _ = studio.ask("POST", f"/api/designs/{opened['id']}/shape",
                           {"revision": 3, "size": "small", "text": json.dumps(design), "settle": False})
    assert status == 200
    assert studio.ask("GET", shown["form"]["mesh"])[0] == 410
    events.close()
print("the ornament follows the hand")
