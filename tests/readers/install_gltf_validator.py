"""Installs the pinned Khronos glTF validator into a folder, unless it is there already.

Usage: install_gltf_validator.py FOLDER
npm checks the package against the sum in gltf/package-lock.json."""

import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent / "gltf"


def main(folder):
    folder.mkdir(parents=True, exist_ok=True)
    lock = folder / "package-lock.json"
    wanted = (HERE / "package-lock.json").read_bytes()
    installed = folder / "node_modules" / "gltf-validator" / "package.json"
    if lock.is_file() and lock.read_bytes() == wanted and installed.is_file():
        return 0
    for name in ("package.json", "package-lock.json"):
        shutil.copyfile(HERE / name, folder / name)
    return subprocess.run(["npm", "ci", "--no-audit", "--no-fund", "--ignore-scripts"], cwd=folder, check=False).returncode


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
