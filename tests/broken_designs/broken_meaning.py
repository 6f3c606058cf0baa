"""Well-formed JSON whose meaning is wrong: keys, types, units, ranges, outlines and glue rows."""
import copy
import json

from broken_text import BASE

RECTANGLE = "M 0 0 H 60 V 120 H 0"
LISTED = [
    {"side": "inside", "from": [3, 10], "to": [57, 10], "width": 3},
    {"side": "between", "from": [3, 30], "to": [57, 30], "width": 3},
    {"side": "inside", "from": [3, 50], "to": [57, 50], "width": 3},
    {"side": "between", "from": [3, 70], "to": [57, 70], "width": 3},
    {"side": "inside", "from": [3, 90], "to": [57, 90], "width": 3},
    {"side": "between", "from": [3, 110], "to": [57, 110], "width": 3},
]


def rectangle():
    """A second sound design: a rectangle, its rows listed."""
    design = copy.deepcopy(BASE)
    design["silhouette"]["path"] = RECTANGLE
    design["rows"] = copy.deepcopy(LISTED)
    design["sizes"] = [{"name": "as it is"}]
    return design


def changed(design, path, value):
    """The design with the value at `path` (keys and indices) replaced."""
    result = copy.deepcopy(design)
    inner = result
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    return json.dumps(result).encode()


def places(value, path=()):
    """The path of every value in a design but the root."""
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, inner in steps:
        yield (*path, step), inner
        yield from places(inner, (*path, step))


def name(path):
    return "/" + "/".join(map(str, path))


def wrong_types():
    for path, value in places(BASE):
        if path == ("rows",):
            wrong = ("11", "Auto", 11, True, None)
        elif path == ("publishing", "licence"):
            wrong = (7, None, True, {"text": value}, [7], [""], ["first", ["second"]])
        elif path == ("making", "score"):
            wrong = ("dotted", 2, True, None, [2, 1.5])
        elif isinstance(value, bool):
            wrong = ("true", 1, None, [value], "yes")
        elif isinstance(value, dict):
            wrong = ("text", 7, None, [])
        elif isinstance(value, list):
            wrong = ("text", {}, None)
        elif isinstance(value, str):
            wrong = (7, None, [value], {"text": value})
        else:
            wrong = (str(value), None, [value], True)
        for replacement in wrong:
            yield f"{name(path)} is {json.dumps(replacement)}", changed(BASE, path, replacement)


def unknown_keys():
    yield "unknown key at the top", changed(BASE, ("leafs",), 46)
    for path, value in places(BASE):
        if isinstance(value, dict):
            yield f"unknown key in {name(path)}", changed(BASE, (*path, "Width"), 3)
    yield "unknown key in a listed row", changed(rectangle(), ("rows", 0, "length"), 3)
    yield "key with a capital", changed(BASE, ("Leaves",), 46)
    yield "empty key", changed(BASE, ("",), 46)
    yield "key with a line break", changed(BASE, ("a\nb\u2028c",), 46)


def missing_keys():
    for path in (("fanwright",), ("silhouette",), ("silhouette", "path"), ("silhouette", "shows"), ("sizes", 0, "name"),
                 ("paper", "stiffness", "across"), ("paper", "stiffness", "along")):
        design = copy.deepcopy(BASE)
        inner = design
        for step in path[:-1]:
            inner = inner[step]
        del inner[path[-1]]
        yield f"without {name(path)}", json.dumps(design).encode()
    for key in ("side", "from", "to", "width"):
        design = rectangle()
        del design["rows"][3][key]
        yield f"row without {key}", json.dumps(design).encode()


RANGES = {
    ("fanwright",): (0, 2, 1.5, -1),
    ("leaves",): (0, 1, 401, 10000, -46, 46.5, 1e300, 1e-300),
    ("opening",): (0, -1, 360.5, 720, 1e9),
    ("rows", "count"): (0, 1, 201, 1e6, 4.5, -3),
    ("rows", "width"): (0, -3, 0.1, 101, 1e300),
    ("rows", "spine_gap"): (-0.1, 501, 1e12),
    ("rows", "edge_gap"): (-3, 501),
    ("paper", "grammage"): (0, 19.9, 601, -160),
    ("paper", "caliper"): (0, 0.019, 1.6, 200, -0.2),
    ("paper", "stiffness", "along"): (0, -3, 0.01, 5000, 1e8),
    ("paper", "stiffness", "across"): (0, 0.001, 1000),
    ("sizes", 0, "height"): (0, 9, 2001, -120),
    ("sizes", 0, "leaves"): (0, 1, 401, 10000),
    ("making", "score", "dash"): (0, 0.4, 51, -2),
    ("making", "score", "gap"): (0, 0.2, 51, -1.5),
    ("making", "bead"): (0, 0.05, 5.1, -0.6, 1e300),
    ("making", "drying"): (-1, 1441, 1e9),
    ("making", "last_drying"): (-1, 10081),
    ("making", "presses"): (0, -1, 51, 1.5, 1e300),
    ("making", "packets_per_press"): (0, 201, 2.5, 1e12),
    ("making", "hands"): (0, 21, 0.5, -2),
    ("making", "pieces"): (0, 101, 1e6, 1.5),
    ("prices", "sheet"): (-0.25, 1000001, 1e300),
    ("prices", "hour"): (-1, 1e7),
    ("prices", "waste"): (-0.1, 1.5, 10),
    ("prices", "fee_share"): (-0.1, 1, 9.5),
    ("prices", "margin"): (-0.3, 1, 30),
    ("sheet", "margin"): (-1, 101, 149),
    ("sheet", "gap"): (-1, 101),
}


def out_of_range():
    for path, values in RANGES.items():
        for value in values:
            yield f"{name(path)} is {value}", changed(BASE, path, value)
    for poisson in (-0.1, 0.5, 1, 30):
        yield f"poisson {poisson}", changed(BASE, ("paper", "poisson"), poisson)
    for modulus in (0, 49, 30001, -3000, {"along": 3000}, {"along": 3000, "across": 0}, [3000, 2000]):
        yield f"modulus {modulus}", changed(BASE, ("paper",), {"grammage": 160, "modulus": modulus})
    yield "stiffness and modulus", changed(BASE, ("paper", "modulus"), 3000)
    for size in ("a4", "A9", "", "A4 ", {"width": 210}, {"width": 0, "height": 297}, {"width": 1e6, "height": 297}):
        yield f"sheet {size}", changed(BASE, ("sheet", "size"), size)
    yield "margins as wide as the sheet", changed(BASE, ("sheet",), {"size": {"width": 100, "height": 300}, "margin": 50})
    for colour in ("red", "#fff", "#gggggg", "c8563c", "#c8563c00", ""):
        yield f"colour {colour}", changed(BASE, ("colour",), colour)
    fan = {"name": "tail", "pleats": 20, "depth": 10, "length": 60, "spread": 120}
    for key, value in (("name", ""), ("pleats", 1), ("depth", 0), ("depth", 1e9), ("length", -60), ("spread", 400),
                       ("outline", "M 0 0"), ("flap", 101), ("lap", -1), ("inner_radius", 1e6), ("feathers", 3)):
        yield f"a fan's {key} {value}", changed(BASE, ("fans",), [{**fan, key: value}])
    for seat in (None, [], {"hold": "edge"}, {"below_neck": -1}, {"azimuth": 1e9}, {"rise": 10}, {"depth": 8},
                 {"hold": "at point", "last_on_head": True}, {"hold": "in cell", "turn": 181}, {"height": 3}):
        yield f"a fan's seat {seat}", changed(BASE, ("fans",), [{**fan, "seat": seat}])
    for outline in ("", "M", "M 0 0 L 1 1", "M 50 0 L 50 1", "M -50 0 L 50 0", "M 1e308 0 L 0 1e308", "M -50 20 L 50 20 M 0 0 L 1 1"):
        yield f"a fan's outline {outline}", changed(BASE, ("fans",), [
            {"name": "tail", "pleats": 20, "depth": 10, "outline": outline}])
    yield "two fans of one name", changed(BASE, ("fans",), [fan, fan])
    yield "a price that fees and margin use up", changed(BASE, ("prices", "margin"), 0.95)


def wrong_making():
    for score in ("dotted", "", {}, {"dash": 2}, {"gap": 1}, {"dash": 2, "gap": 1, "ends": 3}):
        yield f"score {score}", changed(BASE, ("making", "score"), score)
    for key, words in (("marks", "pencil"), ("cutting", "laser"), ("display", "lies"), ("glue", ""), ("glue", "a\nb"), ("glue", "x" * 61)):
        yield f"{key} {words[:9]!r}", changed(BASE, ("making", key), words)
    for key, words in (("maker", "m" * 121), ("maker", "a\tb"), ("version", "1" * 21), ("licence", "l" * 1001), ("licence", "a\nb")):
        yield f"{key} {words[:9]!r}", changed(BASE, ("publishing", key), words)
    yield "21 paragraphs", changed(BASE, ("publishing", "licence"), ["paragraph"] * 21)
    yield "a currency of nine characters", changed(BASE, ("prices", "currency"), "shillings")
    for languages in ([], ["fr"], ["EN"], ["en", "en"], ["en", "de", "en"], ["en", 7], ["deutsch"]):
        yield f"languages {languages}", changed(BASE, ("publishing", "languages"), languages)


def wrong_units():
    for unit in ("cm", "m", "inch", "inches", "MM", "px", "pt", "", "mm "):
        yield f"units {unit!r}", changed(BASE, ("units",), unit)
    yield "mm said to be inches", changed(BASE, ("units",), "in")
    for path in (("rows", "width"), ("paper", "caliper"), ("making", "bead"), ("sizes", 0, "height"), ("sheet", "margin")):
        yield f"{name(path)} with a unit", changed(BASE, path, "3 mm")


def wrong_names():
    for text in ("", " ", ".", "..", "../up", "a/b", "a\\b", "small ", "small.", "-small", "gro\u00df", "a\nb", "a:b", "x" * 41):
        yield f"size named {text[:9]!r}", changed(BASE, ("sizes", 0, "name"), text)
    yield "two sizes of one name", changed(BASE, ("sizes",), [{"name": "a"}, {"name": "a"}])
    yield "names that differ by capitals", changed(BASE, ("sizes",), [{"name": "Small"}, {"name": "small"}])
    yield "thirteen sizes", changed(BASE, ("sizes",), [{"name": f"s{i}"} for i in range(13)])


def wrong_paths():
    """Path data that is no path, or no outline of a leaf."""
    faulty = {
        "spaces only": "   ", "words": "a pear", "no first move": "L 60 0 V 120 H 0", "move only": "M 0 0",
        "half a pair": "M 0 0 L 60", "NaN": "M 0 0 H NaN V 120 H 0", "infinite": "M 0 0 H 1e999 V 120 H 0",
        "unknown command": "M 0 0 H 60 W 120 H 0", "bad arc flag": "M 0 0 A 60 60 0 2 1 0 120", "unit inside": "M 0 0 H 60mm V 120 H 0",
        "text after": "M 0 0 H 60 V 120 H 0 end", "a comma too many": "M 0,,0 H 60 V 120 H 0", "markup": "<path d='M 0 0'/>",
        "a million commands": "M 0 0 " + "h 1 " * 200_000, "huge": "M 0 0 H 1e30 V 1e30 H 0", "zero byte": "M 0 0\0 H 60 V 120 H 0",
        "open at the top": "M 0 0 H 60 V 120", "open at the top, near": "M 0 0 H 60 V 120 H 5", "open at the foot": "M 10 0 H 60 V 120 H 0",
        "left of the spine": "M 0 0 H -60 V 120 H 0", "partly left": "M 0 0 H 60 L -20 60 L 60 120 H 0", "both halves": "M -60 0 H 60 V 120 H -60 Z",
        "a bulge to the left": "M 0 0 H 60 V 120 C -80 120 -80 60 0 120",
        "crosses itself": "M 0 0 L 60 0 L 20 120 L 60 120 L 20 0.5 L 20 130 L 0 130", "figure of eight": "M 0 0 L 60 120 L 60 0 L 0 120",
        "loop": "M 0 0 H 60 C 120 120 -40 120 60 20 L 60 120 H 0", "no area": "M 0 0 H 60 H 0", "one line": "M 0 0 V 120",
        "one point": "M 0 0 L 0 0 Z", "smaller than a hair": "M 0 0 H 0.001 V 0.001 H 0",
        "larger than a room": "M 0 0 H 60000 V 120000 H 0",
        "cut-out outside": RECTANGLE + " M 80 50 h 10 v 10 h -10 Z", "cut-out on the spine": RECTANGLE + " M 0 50 h 10 v 10 h -10 Z",
        "cut-out across the outline": RECTANGLE + " M 55 55 h 10 v 5 h -10 Z", "cut-outs that overlap": RECTANGLE + " M 20 15 h 10 v 8 h -10 Z M 25 16 h 10 v 8 h -10 Z",
        "open cut-out": RECTANGLE + " M 20 55 h 10 v 10", "cut-out that crosses itself": RECTANGLE + " M 20 55 l 10 10 l 0 -10 l -10 10 Z",
    }
    for what, path in faulty.items():
        yield f"path: {what}", changed(rectangle(), ("silhouette", "path"), path)


def wrong_rows():
    def row(index, key, value):
        return changed(rectangle(), ("rows", index, key), value)

    yield "row beyond the outline", row(1, "to", [70, 30])
    yield "row that touches the outline", row(1, "to", [60, 30])
    yield "row far outside", changed(rectangle(), ("rows", 1), {"side": "between", "from": [100, 300], "to": [150, 300], "width": 3})
    yield "row left of the spine", row(2, "from", [-3, 50])
    yield "row above the top", changed(rectangle(), ("rows", 5), {"side": "between", "from": [3, 130], "to": [57, 130], "width": 3})
    yield "row half above the top", changed(rectangle(), ("rows", 5), {"side": "between", "from": [3, 119.5], "to": [57, 119.5], "width": 3})
    yield "row below the foot", changed(rectangle(), ("rows", 0), {"side": "inside", "from": [3, -10], "to": [57, -10], "width": 3})
    yield "row that climbs out", row(4, "to", [57, 125])
    yield "the same row twice", changed(rectangle(), ("rows", 1), dict(LISTED[0], side="between"))
    yield "rows that overlap", changed(rectangle(), ("rows", 1), {"side": "between", "from": [3, 12], "to": [57, 12], "width": 3})
    yield "rows that cross", changed(rectangle(), ("rows", 1), {"side": "between", "from": [3, 5], "to": [57, 40], "width": 3})
    yield "row wider than its gap", row(2, "width", 60)
    yield "row without length", row(2, "to", [3, 50])
    yield "upright row", row(2, "to", [3, 60])
    yield "row to nowhere", row(2, "to", [57])
    yield "row in space", row(2, "to", [57, 50, 0])
    yield "row beyond all bounds", row(2, "to", [1e9, 50])
    yield "side in capitals", row(0, "side", "Inside")
    yield "side A", row(0, "side", "A")
    yield "one row", changed(rectangle(), ("rows",), LISTED[:1])
    yield "no row", changed(rectangle(), ("rows",), [])
    yield "201 rows", changed(rectangle(), ("rows",), [dict(LISTED[0], width=0.2, **{"from": [3, 3 + i / 2], "to": [57, 3 + i / 2]}) for i in range(201)])
    yield "rows through a cut-out", changed(rectangle(), ("silhouette", "path"), RECTANGLE + " M 20 45 h 10 v 10 h -10 Z")
    yield "200 generated rows of 3 mm in 120 mm", changed(BASE, ("rows", "count"), 200)
    yield "generated rows wider than the leaf is high", changed(BASE, ("rows",), {"count": 3, "width": 90})
    yield "gaps wider than the leaf", changed(BASE, ("rows",), {"count": 5, "spine_gap": 200})
    for count in ("Auto", "automatic", "", ["auto"], {"auto": 9}):
        yield f"row count {count!r}", changed(BASE, ("rows", "count"), count)
    for look in ("thick", "", "Open", 2, None, ["open"]):
        yield f"look {look!r}", changed(BASE, ("rows",), {"count": "auto", "look": look})
    yield "a look beside a count", changed(BASE, ("rows", "look"), "open")
    yield "placed rows with no room for three", changed(BASE, ("rows",), {"count": "auto", "width": 60})
    yield "placed rows with gaps wider than the leaf", changed(BASE, ("rows",), {"count": "auto", "spine_gap": 200})
    yield "placed rows under a bead as thick as a pencil", changed({**BASE, "rows": "auto"}, ("making", "bead"), 5)
    yield "edge gap wider than the leaf", changed(BASE, ("rows",), {"count": 5, "edge_gap": 90})


def all_cases():
    families = (wrong_types, unknown_keys, missing_keys, out_of_range, wrong_making, wrong_units, wrong_names, wrong_paths, wrong_rows)
    for family in families:
        yield from family()
