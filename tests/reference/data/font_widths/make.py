"""Reads the advance widths of the two faces in src/report/fonts with fonttools. Usage: python3 make.py, in this folder."""
import json

import fontTools
from fontTools.ttLib import TTFont

fonts = "../../../../src/report/fonts"


def widths(name):
    face = TTFont(f"{fonts}/{name}.ttf")
    advance = face["hmtx"].metrics
    characters = sorted(face.getBestCmap().items())
    return {
        "unitsPerEm": face["head"].unitsPerEm,
        "notdef": advance[".notdef"][0],
        "advance": {str(code): advance[glyph][0] for code, glyph in characters},
    }


faces = {name: widths(name) for name in ("Inter-Regular", "Inter-Bold")}
made_with = f"fonttools {fontTools.version}"
with open("expected.json", "w", encoding="utf-8") as out:
    json.dump({"made_with": made_with, "faces": faces}, out, separators=(",", ":"))
