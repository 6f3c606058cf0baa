"""Hostile files too large, or too slow to make, for a test: names to functions that make them."""
import io
import os
import zlib

import numpy
from hostile_files import SVG, chunk, photo, png, scans_added, scribble
from PIL import Image

# Adam7, PNG 3, section 8.1: first column and row of each pass, and its steps.
PASSES = [(0, 0, 8, 8), (4, 0, 8, 8), (0, 4, 4, 8), (2, 0, 4, 4), (0, 2, 2, 4), (1, 0, 2, 2), (0, 1, 1, 2)]


def disc(size, values):
    """A dark disc with a soft edge on a light ground: rows of `values` numbers a pixel, 0 to 1."""
    across = (numpy.arange(size) - size / 2) / size
    grey = numpy.clip((numpy.hypot(across[:, None], across[None, :]) - 0.3) * size / 4, 0, 1).astype(numpy.float32)
    return numpy.repeat(grey[:, :, None], values, axis=2)


def packed(rows, predictor):
    """Rows of bytes, each led by its filter (PNG 3, section 9.2): 0 none, 4 the costliest to undo."""
    squeeze = zlib.compressobj(1)
    return b"".join([squeeze.compress(bytes([predictor]) + row.tobytes()) for row in rows] + [squeeze.flush()])


def deep_png(size, interlaced, predictor=0):
    """16 bits of red, green, blue and opacity. With a predictor the picture is no disc, but no less work."""
    pixels = numpy.zeros((size, size, 4), ">u2") if predictor else (disc(size, 4) * 65535).astype(">u2")
    pixels[:, :, 3] = 65535 if not predictor else 0
    if not interlaced:
        return png(size, size, packed(pixels, predictor), depth=16, colour=6)
    rows = (row for x, y, right, down in PASSES for row in pixels[y::down, x::right])
    return png(size, size, packed(rows, predictor), depth=16, colour=6, interlaced=1)


def plain_png(size, interlaced, predictor=0):
    pixels = (disc(size, 1) * 255).astype(numpy.uint8)[:, :, 0]
    if not interlaced:
        return png(size, size, packed(pixels, predictor))
    return png(size, size, packed((row for x, y, right, down in PASSES for row in pixels[y::down, x::right]), predictor),
               interlaced=1)


def many_chunks(kind, body, count=100_000):
    pixels = (disc(400, 1) * 255).astype(numpy.uint8)[:, :, 0]
    return png(400, 400, packed(pixels, 0), before=chunk(kind, body) * count)


def jpeg(width, height, more=0, **how):
    """A photo of a disc; `more`: how often the first scan of a progressive one is stored again."""
    size = min(width, height)
    pixels = numpy.full((height, width, 3), 255, numpy.uint8)
    pixels[:size, :size] = disc(size, 3) * 255
    file = io.BytesIO()
    Image.fromarray(pixels).save(file, "JPEG", **how)
    return scans_added(file.getvalue(), more)


def header_jpeg(width, height, progressive):
    """A small photo whose header says that it is large."""
    stored = bytearray(jpeg(600, 600, progressive=progressive))
    at = stored.index(b"\xff\xc2" if progressive else b"\xff\xc0")
    stored[at + 5:at + 9] = height.to_bytes(2, "big") + width.to_bytes(2, "big")
    return bytes(stored)


def circles(count, fill="black", step=9, radius=3, more=""):
    each = "".join(f"<circle cx='{step * (k % 100) + 9}' cy='{step * (k // 100) + 9}' r='{radius}' fill='{fill}'/>"
                   for k in range(count))
    return SVG % (more + each)


def subpaths(count, step=9, side=6):
    return "".join(f"M{step * (k % 70)} {step * (k // 70)}h{side}v{side}h-{side}z" for k in range(count))


def rings(count, points, between=2.0, closed=True):
    """Rings in one another, drawn as lines."""
    def ring(radius):
        turn = numpy.linspace(0, 2 * numpy.pi, points, endpoint=False)
        return " ".join(f"{600 + radius * c:.3f},{600 + radius * s:.3f}" for c, s in zip(numpy.cos(turn), numpy.sin(turn)))
    return SVG % ("<g fill='none' stroke='black'>" +
                  "".join(f"<polygon points='{ring(10 + between * k)}'/>" for k in range(count)) + "</g>")


def weave(count):
    """One line to and fro, then up and down."""
    to_and_fro = " ".join(f"{1000 * (k % 2)},{1000 * k / count:.2f} {1000 * (k % 2)},{1000 * (k + 1) / count:.2f}" for k in range(count))
    up_and_down = " ".join(f"{1000 * k / count:.2f},{1000 * (k % 2)} {1000 * (k + 1) / count:.2f},{1000 * (k % 2)}" for k in range(count))
    return f"<polygon fill-rule='evenodd' points='{to_and_fro} {up_and_down}'/>"


def many_weaves():
    return SVG % "".join(f"<g transform='translate({300 * (k % 12)} {300 * (k // 12)}) scale(.2)'>{weave(30)}</g>" for k in range(140))


def rules(count, elements, rule, element):
    style = "".join(rule.format(k) for k in range(count))
    return SVG % (f"<style>{style}</style>" + "".join(element.format(k) for k in range(elements)))


def clipped(count, points):
    """Shapes each clipped by one long line."""
    turn = numpy.linspace(0, 2 * numpy.pi, points, endpoint=False)
    line = " ".join(f"{500 + 400 * c:.2f},{500 + 400 * s:.2f}" for c, s in zip(numpy.cos(turn), numpy.sin(turn)))
    shapes = "".join(f"<rect x='{9 * (k % 100)}' y='{9 * (k // 100)}' width='20' height='20' clip-path='url(#c)'/>"
                     for k in range(count))
    return SVG % f"<clipPath id='c'><polygon points='{line}'/></clipPath>{shapes}"


def changing(count):
    """Ink and ground in turn, on a figure of many points."""
    turn = numpy.linspace(0, 2 * numpy.pi, 4000, endpoint=False)
    line = " ".join(f"{500 + 400 * c:.2f},{500 + 400 * s:.2f}" for c, s in zip(numpy.cos(turn), numpy.sin(turn)))
    pair = "<circle cx='{0}' cy='500' r='9' fill='white'/><circle cx='{0}' cy='500' r='4'/>"
    return SVG % (f"<polygon points='{line}'/>" + "".join(pair.format(200 + k) for k in range(count)))


def target(size, step):
    """Rings in one another, as a picture."""
    across = numpy.arange(size) - size / 2
    away = numpy.hypot(across[:, None], across[None, :])
    grey = numpy.where((away % step < step / 4) & (away < size * 0.45), 0, 255).astype(numpy.uint8)
    file = io.BytesIO()
    Image.fromarray(grey).save(file, "PNG")
    return file.getvalue()


def dotted(size, step, radius):
    across = numpy.arange(size) % step - step / 2
    file = io.BytesIO()
    Image.fromarray(numpy.where(numpy.hypot(across[:, None], across[None, :]) < radius, 0, 255).astype(numpy.uint8)).save(file, "PNG")
    return file.getvalue()


FRAME = "<path d='M0 0H2000V2000H1990V5H0z'/>"

HOSTILE = {
    "empty.svg": lambda: b"",
    "empty.png": lambda: b"",
    "text_only.svg": lambda: SVG % "<text x='9' y='9'>a pear</text>",
    "words.svg": lambda: b"a pear, please",
    "wrong_type.png": lambda: b"%PDF-1.4 " + os.urandom(10_000),
    "wrong_type.svg": lambda: photo("PNG")[8:],
    "circles_9000.svg": lambda: circles(9_000),
    "circles_9000_framed.svg": lambda: circles(9_000, more=FRAME),
    "circles_9000_white.svg": lambda: circles(9_000, "white", more="<rect width='1200' height='1200' x='1'/>"),
    "circles_9000_touching.svg": lambda: circles(9_000, radius=5),
    "circles_9000_heaped.svg": lambda: circles(9_000, step=1, radius=30),
    "circles_9000_drawn.svg": lambda: circles(9_000, "none' stroke='black"),
    "circles_40000.svg": lambda: circles(40_000),
    "subpaths_4900.svg": lambda: SVG % f"<path d='{subpaths(4_900)}'/>",
    "subpaths_4900_framed.svg": lambda: SVG % f"<path fill-rule='evenodd' d='M-9 -9h1000v1000h-1000z{subpaths(4_900)}'/>",
    "subpaths_linked.svg": lambda: SVG % f"<path fill-rule='evenodd' d='{subpaths(4_900, side=10)}'/>",
    "rings_300.svg": lambda: rings(300, 300),
    "rings_290_touching.svg": lambda: rings(290, 300, between=0.001),
    "weave_300.svg": lambda: SVG % weave(300),
    "weave_700.svg": lambda: SVG % weave(700),
    "weaves.svg": many_weaves,
    "scribbles_20.svg": lambda: SVG % "".join(f"<polygon points='{scribble(300 + k)}'/>" for k in range(20)),
    "rules_2000.svg": lambda: rules(2_000, 40_000, ".a{0}{{fill:red}}", "<path class='b' d='M0 0H9V{0}z'/>"),
    "rules_1000_all.svg": lambda: rules(1_000, 40_000, ".a.b{0}{{fill:red;stroke:red;opacity:1;display:inline;mask:none}}",
                                        "<path class='a' d='M0 0H9V{0}z'/>"),
    "rules_1000_met.svg": lambda: rules(1_000, 49_000, "path.a,.a{{fill:red;stroke:red;opacity:1;display:inline}}",
                                        "<path class='a' d='M0 0H9V9z'/>"),
    "rule_long.svg": lambda: SVG % (f"<style>{'a,' * 900}a{{{'fill:red;' * 3_000_000}}}</style><path d='M0 0H9V9z'/>"),
    "styles_million.svg": lambda: SVG % ("<style>.a{fill:red}</style>" * 490_000 + "<path d='M0 0H9V9z'/>"),
    "style_reused.svg": lambda: SVG % (f"<path id='p' style='{'fill:red;' * 1_000}' d='M0 0H9V9z'/>" + "<use href='#p'/>" * 49_000),
    "blanks_reused.svg": lambda: SVG % (f"<path id='p' d='{' ' * 10_000_000}'/>" + "<use href='#p'/>" * 49_000),
    "attributes.svg": lambda: SVG % ("<path " + " ".join(f"a{k}='1'" for k in range(900_000)) + " d='M0 0H9V9z'/>"),
    "elements_8_million.svg": lambda: SVG % ("<a/>" * 7_900_000),
    "clipped_9000.svg": lambda: clipped(9_000, 20_000),
    "changing_2000.svg": lambda: changing(2_000),
    "headers.png": lambda: png(30_000, 30_000),
    "interlaced_49.png": lambda: plain_png(7_000, True),
    "interlaced_25.png": lambda: plain_png(5_000, True),
    "interlaced_25_costly.png": lambda: plain_png(5_000, True, 4),
    "grey_36_costly.png": lambda: plain_png(6_000, False, 4),
    "deep_36.png": lambda: deep_png(6_000, False),
    "deep_27.png": lambda: deep_png(5_200, False),
    "deep_27_costly.png": lambda: deep_png(5_200, False, 4),
    "deep_27_interlaced.png": lambda: deep_png(5_200, True),
    "deep_27_interlaced_costly.png": lambda: deep_png(5_200, True, 4),
    "words_100000.png": lambda: many_chunks(b"tEXt", b"Comment\0pear"),
    "packed_words_100000.png": lambda: many_chunks(b"zTXt", b"Comment\0\0" + zlib.compress(b"pear" * 10_000)),
    "own_chunks_100000.png": lambda: many_chunks(b"peAr", b"pear"),
    "exif_100000.png": lambda: many_chunks(b"eXIf", b"II*\0\x08\0\0\0\0\0"),
    "profile_100000.png": lambda: many_chunks(b"iCCP", b"pear\0\0" + zlib.compress(b"p" * 100_000)),
    "target.png": lambda: target(2_200, 9),
    "dotted_900.png": lambda: dotted(2_100, 70, 25),
    "dotted_9000.png": lambda: dotted(2_160, 24, 8),
    "headers.jpg": lambda: header_jpeg(30_000, 30_000, False),
    "header_49.jpg": lambda: header_jpeg(7_000, 7_000, False),
    "header_49_in_steps.jpg": lambda: header_jpeg(7_000, 7_000, True),
    "steps_49.jpg": lambda: jpeg(7_000, 7_000, progressive=True),
    "steps_49_full_colour.jpg": lambda: jpeg(7_000, 7_000, progressive=True, subsampling=0),
    "steps_49_10_more.jpg": lambda: jpeg(7_000, 7_000, 10, progressive=True),
    "steps_49_100_more.jpg": lambda: jpeg(7_000, 7_000, 100, progressive=True),
    "steps_12_70_more.jpg": lambda: jpeg(3_500, 3_500, 70, progressive=True),
    "steps_strip.jpg": lambda: jpeg(65_000, 760, 10, progressive=True),
    "cut_49.jpg": lambda: jpeg(7_000, 7_000, progressive=True)[:200_000],
}
