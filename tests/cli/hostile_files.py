"""Hostile and broken files for fanwright new, each with what its refusal says, and how one is tried and measured."""
import io
import math
import os
import pathlib
import random
import resource
import struct
import time
import zlib

from PIL import Image

MOST_KILOBYTES = 500_000
SVG = "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink'>%s</svg>"


def chunk(kind, body):
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def png(width, height, data=b"", depth=8, colour=0, interlaced=0, before=b""):
    header = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, interlaced)
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + before + chunk(b"IDAT", data) + chunk(b"IEND", b""))


def photo(kind, size=600):
    file = io.BytesIO()
    Image.effect_noise((size, size), 90).save(file, kind)
    return file.getvalue()


def chequered(size, across, up):
    """Black and white squares; stripes where `up` is 0."""
    picture = Image.new("L", (size, size), 255)
    picture.putdata([0 if (x // across + (y // up if up else 0)) % 2 else 255 for y in range(size) for x in range(size)])
    file = io.BytesIO()
    picture.save(file, "PNG")
    return file.getvalue()


def entities():
    names = [f"<!ENTITY e{k} '{f'&e{k - 1};' * 10}'>" for k in range(1, 12)]
    return f"<!DOCTYPE svg [<!ENTITY e0 'ha'>{''.join(names)}]>" + SVG % "<text>&e11;</text><desc>&e11;</desc>"


def reuse_bomb():
    levels = [f"<g id='g{k}'>{f'<use href=%s#g{k - 1}%s/>' % (chr(34), chr(34)) * 10}</g>" for k in range(1, 12)]
    return SVG % f"<defs><g id='g0'><rect width='5' height='5'/></g>{''.join(levels)}</defs><use href='#g11'/>"


def scribble(count):
    return " ".join(f"{(k * 7919) % 1000} {(k * 104729) % 1000}" for k in range(count))


def blob(points, across, radius):
    """A ring of jagged teeth round (across, 500)."""
    dice = random.Random(points)
    ring = []
    for k in range(points):
        reach, angle = radius * (1 + 0.15 * dice.random()), 2 * math.pi * k / points
        ring.append(f"{across + reach * math.cos(angle):.2f} {500 + reach * math.sin(angle):.2f}")
    return f"M{' '.join(ring)}Z"


def scans_added(stored, count):
    """The first scan of a progressive picture stored so often again."""
    begin = stored.index(b"\xff\xda")
    end = stored.index(b"\xff", begin + 2)
    while stored[end + 1] == 0:
        end = stored.index(b"\xff", end + 2)
    return stored[:end] + stored[begin:end] * count + stored[end:]


def many_scans():
    file = io.BytesIO()
    Image.new("L", (800, 800), 128).save(file, "JPEG", progressive=True)
    return scans_added(file.getvalue(), 2_000)


HOSTILE = {
    "entities.svg": (entities(), "Lettering is not read"),
    "reuse.svg": (reuse_bomb(), "50000 elements"),
    "reuse_of_itself.svg": (SVG % "<g id='a'><use href='#a'/></g>", "64 deep"),
    "clip_of_itself.svg": (SVG % "<clipPath id='c' clip-path='url(#c)'><path clip-path='url(#c)' d='M0 0H9V9'/></clipPath>"
                           "<path clip-path='url(#c)' d='M0 0H9V9'/>", "64 deep"),
    "elsewhere.svg": (SVG % "<image href='http://127.0.0.1:1/a.png'/><use xlink:href='file:///etc/passwd#a'/>"
                      "<style>@import url(http://127.0.0.1:1/a.css);</style>", "another file"),
    "outside_entity.svg": ("<!DOCTYPE svg [<!ENTITY x SYSTEM 'file:///etc/passwd'>]>" + SVG % "<text>&x;</text>",
                           "Lettering"),
    "deep.svg": (SVG % ("<g>" * 200_000 + "<path d='M0 0H9V9'/>" + "</g>" * 200_000), "64 deep"),
    "million_commands.svg": (SVG % f"<path d='M0 0{' L1 1 2 2' * 500_000}'/>", "20000 commands"),
    "million_points.svg": (SVG % f"<polygon points='{scribble(1_000_000)}'/>", "100000 curves and lines"),
    "million_shapes.svg": (SVG % ("<path d='M0 0H9V9'/>" * 1_000_000), "million elements"),
    "many_shapes.svg": (SVG % ("<path d='M0 0H9V9'/>" * 60_000), "50000 elements"),
    "scribble.svg": (SVG % f"<polygon points='{scribble(60_000)}'/>", "cross one another"),
    "many_scribbles.svg": (SVG % "".join(f"<polygon points='{scribble(900 + k)}'/>" for k in range(60)),
                           "cross one another"),
    "far.svg": (SVG % "<path transform='scale(1e300)' d='M0 0H9000V9000z'/>", "too far"),
    "nan.svg": (SVG % "<path transform='scale(nan)' d='M0 0H9V9z'/>", "cannot be understood"),
    "rules.svg": (SVG % ("<style>" + ".a{fill:red}" * 200_000 + "</style>" + "<path class='b' d='M0 0'/>" * 40_000),
                  "no filled shape"),
    "cut.svg": ((SVG % "<path d='M0 0H9V9'/>")[:60], "is broken"),
    "zeros.svg": ("\0" * 100_000, "no drawing"),
    "huge.png": (png(30_000, 30_000, zlib.compress(b"\0" * 30_001_000)), "at most 36 million"),
    "huger.png": (png(2_000_000_000, 2_000_000_000), "PNG picture"),
    "bomb.png": (png(6_000, 6_000, zlib.compress(b"\0" * (6_001 * 6_000))), "stands out"),
    "cut.png": (photo("PNG")[:5_000], "cut short"),
    "cut.jpg": (photo("JPEG")[:5_000], "cut short"),
    "head.jpg": (photo("JPEG")[:20], "cut short"),
    "wrong.jpg": (photo("PNG")[:8] + b"no picture", "cut short"),
    "big_head.jpg": (photo("JPEG").replace(struct.pack(">HH", 600, 600), struct.pack(">HH", 60_000, 60_000)),
                     "at most 50 million"),
    "plain.png": (png(64, 64, zlib.compress((b"\0" + b"\x80" * 64) * 64)), "stands out"),
    "squares.png": (chequered(600, 10, 10), "stands out"),
    "stripes.png": (chequered(400, 4, 0), "no leaf can be"),
    "one_blob.svg": (SVG % f"<path d='{blob(19_000, 500, 300)}'/>", "too ragged"),
    "five_blobs.svg": (SVG % f"<path d='{' '.join(blob(3_900, 100 + 310 * k, 100) for k in range(5))}'/>", "too ragged"),
    "teeth.svg": (SVG % f"<path d='{blob(2_000, 500, 300)}'/>", "teeth"),
    "long_style.svg": (SVG % f"<path style='{'fill:red;' * 500_000}' d='M0 0H9V9z'/>", "10000 characters"),
    "circles.svg": (SVG % "".join(f"<circle cx='{9 * (k % 50)}' cy='{9 * (k // 50)}' r='3'/>" for k in range(2_000)),
                    "1000 separate pieces"),
    "sieve.svg": (SVG % ("<rect x='1' y='1' width='500' height='500'/>" + "".join(
        f"<circle fill='white' cx='{9 + 9 * (k % 50)}' cy='{9 + 9 * (k // 50)}' r='3'/>"
        for k in range(2_000))), "1000 separate cut-outs"),
    "noise.jpg": (photo("JPEG", 2_000), "stands out"),
    "scans.jpg": (many_scans(), "too many passes"),
    "strip.png": (png(1, 40_000, zlib.compress(b"\0\x80" * 40_000)), "pixels"),
    "tiny.png": (png(1, 1, zlib.compress(b"\0\0")), "pixels"),
}


def run(program, folder, name, *more):
    """Exit status, complaint, seconds, the most memory (kB) and seconds of processor of fanwright new on one file."""
    said = os.open(os.path.join(folder, "..", name + ".said"), os.O_RDWR | os.O_CREAT | os.O_TRUNC)
    begun = time.monotonic()
    child = os.fork()
    if child == 0:
        os.chdir(folder)
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        os.dup2(said, 2)
        resource.setrlimit(resource.RLIMIT_CPU, (60, 60))  # a file that hangs is found, not waited for
        os.execv(program, [program, "new", "--from", name, *more])
    _, status, usage = os.wait4(child, 0)
    seconds = time.monotonic() - begun
    os.lseek(said, 0, os.SEEK_SET)
    text = os.read(said, 100_000).decode()
    os.close(said)
    return status, text, seconds, usage.ru_maxrss, usage.ru_utime + usage.ru_stime


def written(folder, content_of):
    """Writes the files, names to bytes or text, into the folder."""
    for name, content in content_of.items():
        pathlib.Path(folder, name).write_bytes(content if isinstance(content, bytes) else content.encode())
