"""The leaf's cut lines, taken from its DXF, where kit.json says that leaves lie on a page."""

import math

import ezdxf
import numpy

import dxf_reads_back

STEP_MM = 0.1  # between points; a pixel that lies beside two of them is 0.005 mm nearer to the line than they say


def dense(points):
    """The chain of points filled up to steps of STEP_MM."""
    parts = [points[:1]]
    for a, b in zip(points, points[1:]):
        count = max(1, math.ceil(math.dist(a, b) / STEP_MM))
        parts.append(a + (b - a) * (numpy.arange(1, count + 1) / count)[:, None])
    return numpy.vstack(parts)


def cut_lines(dxf_file, page_height_mm):
    """Page coordinates, mm, y down: one array a line."""
    lines, _ = dxf_reads_back.read_dxf(ezdxf.readfile(dxf_file), lambda holds, fault: None)
    return [dense(line.points) * (1, -1) + (0, page_height_mm) for line in lines["CUT"]]


def origin_of(leaf):
    return numpy.array(leaf["spine_foot_origin_mm"])


def in_leaf(lines, leaf):
    """Page points back in leaf coordinates (x from the spine, z up), of a leaf that stands upright and unmirrored."""
    assert leaf["turn_deg"] == 0 and not leaf["mirrored"]
    return [(line - origin_of(leaf)) * (1, -1) for line in lines]


def runs(line, wanted):
    """The unbroken runs of wanted points."""
    edges = numpy.flatnonzero(numpy.diff(numpy.concatenate([[0], wanted.astype(int), [0]])))
    return [line[first:end] for first, end in zip(edges[::2], edges[1::2])]


def right_half(lines):
    """What of a leaf's lines lies on the right of the spine."""
    return [run for line in lines for run in runs(line, line[:, 0] >= 0)]


def closed(line):
    return math.dist(line[0], line[-1]) < 1e-9


def on_page(lines, leaf):
    """Leaf points where kit.json puts that leaf on a page."""
    turn = math.radians(leaf["turn_deg"])
    c, s = round(math.cos(turn)), round(math.sin(turn))
    placed = []
    for line in lines:
        x, z = c * line[:, 0] - s * line[:, 1], s * line[:, 0] + c * line[:, 1]
        placed.append(numpy.column_stack([-x if leaf["mirrored"] else x, -z]) + origin_of(leaf))
    return placed


def inside(lines, window):
    (left, top), (right, bottom) = window
    seen = []
    for line in lines:
        x, y = line[:, 0], line[:, 1]
        seen += runs(line, (x >= left) & (x <= right) & (y >= top) & (y <= bottom))
    return seen
