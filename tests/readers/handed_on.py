"""What a kit's booklets, stencils and zip are to programs that are not ours: qpdf, poppler, ezdxf, Python's zipfile."""

import re
import subprocess
import zipfile

import dxf_reads_back
import measured

OWN_FOLDER = "for-you-only"
# ISO 32000-1: 1/72 in; ISO 216 and ANSI/ASME Y14.1.
PAGE_POINTS = {"A4": (595.276, 841.890), "letter": (612.0, 792.0)}


def output(*command):
    return subprocess.run([str(part) for part in command], check=True, capture_output=True, text=True).stdout


def check_pdf(report, kit, file, title, author):
    what = file.relative_to(kit)
    checked = subprocess.run(["qpdf", "--check", file], capture_output=True).returncode
    report.require(f"{what}: qpdf finds faults", checked == 0)
    fonts = [line.split() for line in output("pdffonts", file).splitlines()[2:]]
    # Columns: name, type (one or two words), encoding, emb, sub, uni, object ID.
    report.require(f"{what}: has no text", bool(fonts))
    report.require(f"{what}: a font is not embedded", all(font[-5] == "yes" and font[-4] == "yes" for font in fonts))
    about = dict(line.split(":", 1) for line in output("pdfinfo", file).splitlines() if ":" in line)
    report.require(f"{what}: titled {about.get('Title', '').strip()}", about.get("Title", "").strip().startswith(title))
    report.require(f"{what}: by {about.get('Author', '').strip()}", about.get("Author", "").strip() == author)
    report.require(f"{what}: bears a date", "CreationDate" not in about and "ModDate" not in about)


def check_booklets(report, kit, numbers, author):
    booklets = sorted(kit.glob("booklet-*.pdf")) + sorted((kit / OWN_FOLDER).glob("*.pdf"))
    report.require("no booklet", len(booklets) >= 4)
    for file in booklets:
        what = file.relative_to(kit)
        check_pdf(report, kit, file, numbers["title"], author)
        stated = PAGE_POINTS[file.stem.rsplit("-", 1)[1]]
        for box in measured.media_boxes(file):
            for seen, points in zip(box[2:], stated):
                report.require(f"{what}: a page of {seen} points", -0.001 < seen - points <= 0.0005)
        text = output("pdftotext", "-layout", file, "-")
        for size in numbers["sizes"]:
            report.require(f"{what}: nothing of {size['name']}", size["name"] in text)
            opened = size["opened"]
            if file.parent == kit:
                for length in (opened["height_mm"], opened["diameter_mm"]):
                    report.require(f"{what}: {length} mm not told", re.search(rf"\b{length:.0f}\s*±", text) is not None)
                    report.require(f"{what}: {length} has no spread", opened["height_spread_mm"] > 0)


def check_stencils(report, kit, size, title, author):
    folder = kit / size["folder"]
    for svg in sorted(folder.glob("stencil-*.svg")):
        what = svg.relative_to(kit)
        report.require(f"{what}: the DXF differs", dxf_reads_back.main(svg.with_suffix(".dxf"), svg) == 0)
    for file in sorted(folder.glob("stencils-*.pdf")):
        check_pdf(report, kit, file, title, author)


def check_zip(report, kit):
    archives = list(kit.glob("*-kit.zip"))
    report.require(f"{len(archives)} archives", len(archives) == 1)
    shared = {path.relative_to(kit).as_posix(): path.read_bytes() for path in kit.rglob("*")
              if path.is_file() and path not in archives and OWN_FOLDER not in path.parts}
    with zipfile.ZipFile(archives[0]) as archive:
        held = {name.split("/", 1)[1]: archive.read(name) for name in archive.namelist()}
    report.require(f"{archives[0].name} holds other than the folder", held == shared)


def check(report, kit, numbers, author):
    check_booklets(report, kit, numbers, author)
    for size in numbers["sizes"]:
        check_stencils(report, kit, size, numbers["title"], author)
    check_zip(report, kit)
    total = sum(path.stat().st_size for path in kit.rglob("*") if path.is_file())
    report.require(f"{total} bytes in all", total <= 30e6)
