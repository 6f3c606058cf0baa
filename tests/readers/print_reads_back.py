"""A printed PDF, read by programs that are not ours (qpdf, poppler), is what was drawn.

Usage: print_reads_back.py FILE.pdf STATED.json
STATED.json: title, author, subject, language; layers (names); pages, each with size_mm, words (in the order drawn) and
spots: [x_mm, y_mm, [red, green, blue] of 0..255]."""

import json
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as tree
from pathlib import Path

from PIL import Image

import measured

DUBLIN_CORE = "{http://purl.org/dc/elements/1.1/}"
LIST_ITEM = ".//{http://www.w3.org/1999/02/22-rdf-syntax-ns#}li"
# One step of 8-bit colour for the rounding of decimals in the file.
ALLOWED_LEVELS = 1


def said_by(*command):
    return subprocess.run([str(word) for word in command], capture_output=True, check=True).stdout.decode("utf-8")


def about_faults(file, stated):
    rows = dict(re.findall(r"^([A-Za-z ]+):\s*(.*)$", said_by("pdfinfo", "-isodates", file), re.MULTILINE))
    wanted = {"Title": stated["title"], "Author": stated["author"], "Subject": stated["subject"], "Producer": "Fanwright"}
    for key, words in wanted.items():
        if rows.get(key, "") != words:
            yield f"pdfinfo: {key} is {rows.get(key)!r} instead of {words!r}"
    for key in ("CreationDate", "ModDate"):
        if key in rows:
            yield f"pdfinfo: there is a {key}"
    metadata = tree.fromstring(said_by("pdfinfo", "-meta", file).strip().encode("utf-8"))
    for name, words in (("title", stated["title"]), ("creator", stated["author"]), ("description", stated["subject"])):
        items = [item.text for item in metadata.findall(f".//{DUBLIN_CORE}{name}/{LIST_ITEM}")]
        if items != ([words] if words else []):
            yield f"XMP: dc:{name} is {items} instead of {words!r}"
    if re.search(r"Date", tree.tostring(metadata, encoding="unicode")):
        yield "XMP: there is a date"
    languages = [value.get("/Lang") for _, value in measured.values(measured.pdf_objects(file), lambda v: v.get("/Type") == "/Catalog")]
    if languages != ["u:" + stated["language"]]:
        yield f"qpdf: the catalogue's language is {languages}"


def font_faults(file):
    for row in said_by("pdffonts", file).splitlines()[2:]:
        # name, type (two words), encoding, emb, sub, uni, object number
        if row.split()[-5:-3] != ["yes", "yes"]:
            yield f"pdffonts: not embedded as a subset: {row}"


def page_faults(file, number, page, work):
    picture = Path(work) / "page"
    # 254 dots to the inch: 10 to the mm.
    said_by("pdftoppm", "-r", 254, "-f", number, "-l", number, "-singlefile", file, picture)
    with Image.open(picture.with_suffix(".ppm")) as image:
        # poppler rounds the page up to whole dots.
        for dots, mm in zip(image.size, page["size_mm"]):
            if not -1e-9 <= dots - 10 * mm <= 1:
                yield f"page {number}: {dots} dots for {mm} mm"
        for x, y, colour in page["spots"]:
            seen = image.getpixel((round(10 * x), round(10 * y)))
            if max(abs(a - b) for a, b in zip(seen, colour)) > ALLOWED_LEVELS:
                yield f"page {number}: colour at {x}, {y} mm is {seen} instead of {tuple(colour)}"
    text = said_by("pdftotext", "-raw", "-f", number, "-l", number, file, "-")
    at = 0
    for words in page["words"]:
        found = text.find(words, at)
        if found < 0:
            yield f"page {number}: pdftotext does not find {words!r} (in this order) in {text!r}"
        at = max(at, found)


def main(file, stated_file):
    stated = json.loads(Path(stated_file).read_text(encoding="utf-8"))
    faults = []
    if subprocess.run(["qpdf", "--check", file], capture_output=True, check=False).returncode != 0:
        faults.append("qpdf finds faults")
    faults += about_faults(file, stated)
    faults += font_faults(file)
    layers = sorted(measured.layers(file))
    if layers != sorted(stated["layers"]):
        faults.append(f"layers are {layers}")
    with tempfile.TemporaryDirectory() as work:
        for number, page in enumerate(stated["pages"], 1):
            faults += page_faults(file, number, page, work)
    for fault in faults:
        print(fault)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
