"""seeds.py FOLDER: small drawings and pictures that fuzzing begins from, in FOLDER/svg, FOLDER/png and FOLDER/jpeg."""
import pathlib
import shutil
import sys

from PIL import Image, ImageDraw, ImageFilter

target = pathlib.Path(sys.argv[1])
drawings = pathlib.Path(__file__).parents[1] / "tests/traced/drawings"
for kind in ("svg", "png", "jpeg"):
    (target / kind).mkdir(parents=True, exist_ok=True)
for drawing in sorted(drawings.glob("*.svg")):
    shutil.copy(drawing, target / "svg")


def pear(mode, ground, ink, lines=False):
    picture = Image.new(mode, (90, 120), ground)
    pen = ImageDraw.Draw(picture)
    for box in ((15, 50, 75, 110), (30, 12, 60, 70)):
        pen.ellipse(box, **({"outline": ink, "width": 2} if lines else {"fill": ink}))
    return picture


pictures = {
    "grey": pear("L", 240, 30), "lines": pear("L", 240, 30, lines=True), "colour": pear("RGB", "ivory", "seagreen"),
    "bits": pear("L", 255, 0).convert("1"), "palette": pear("RGB", "ivory", "seagreen").convert("P"),
    "opaque": pear("RGBA", (0, 0, 0, 0), (20, 90, 20, 255)), "soft": pear("L", 250, 20).filter(ImageFilter.GaussianBlur(2)),
}
for name, picture in pictures.items():
    picture.save(target / "png" / f"{name}.png")
    if picture.mode in ("L", "RGB"):
        picture.save(target / "jpeg" / f"{name}.jpg", quality=70)
turned = Image.Exif()
turned[0x0112] = 6  # orientation
pictures["grey"].save(target / "jpeg" / "turned.jpg", exif=turned)
pictures["colour"].save(target / "jpeg" / "in_steps.jpg", progressive=True)
pictures["colour"].convert("CMYK").save(target / "jpeg" / "inks.jpg")
