"""Files that are not JSON, or JSON that no design file may be: cuts, stray characters, bounds on size and depth."""
import json

BASE = {
    "fanwright": 1,
    "title": "Pear",
    "units": "mm",
    "silhouette": {"path": "M 0 0 H 40 C 70 40 70 80 30 120 L 0 150", "shows": "flat"},
    "leaves": 46,
    "opening": 360,
    "rows": {"count": 9, "first": "inside", "width": 3, "spine_gap": 3, "edge_gap": 3},
    "paper": {
        "grammage": 160,
        "caliper": 0.2,
        "stiffness": {"along": 3.0, "across": 1.3},
        "grain": "along spine",
    },
    "sizes": [{"name": "small", "height": 120, "leaves": 40}],
    "sheet": {"size": "A3", "margin": 6, "gap": 2},
    "fans": [],
    "making": {
        "score": {"dash": 2, "gap": 1.5},
        "marks": "nicks",
        "cutting": "by machine",
        "display": "hangs",
        "glue": "paste",
        "bead": 0.6,
        "glitter": True,
        "drying": 15,
        "last_drying": 60,
        "presses": 2,
        "packets_per_press": 12,
        "hands": 2,
        "pieces": 5,
    },
    "prices": {"currency": "EUR", "sheet": 0.25, "hour": 25, "waste": 0.1, "fee_share": 0.1, "margin": 0.3},
    "publishing": {"maker": "Orchard collection", "version": "1", "licence": "Make and give away.", "languages": ["en"]},
}

TEXT = json.dumps(BASE, indent=2)


def cut_short():
    """The valid text, ended early."""
    for end in range(0, len(TEXT), 17):
        yield f"cut after {end} bytes", TEXT[:end].encode()


def one_character_lost():
    """Each brace, bracket, comma, colon and every fifth quote removed, one at a time."""
    seen_quotes = 0
    for place, character in enumerate(TEXT):
        if character == '"':
            seen_quotes += 1
        if character in "{}[],:" or (character == '"' and seen_quotes % 5 == 0):
            inside_path = TEXT.rfind("\n", 0, place) < TEXT.find('"path"') < place and "M 0" in TEXT[place - 40 : place + 4]
            if not inside_path:
                yield f"lost {character} at {place}", (TEXT[:place] + TEXT[place + 1 :]).encode()


def replaced(old, new):
    assert TEXT.count(old) >= 1, old
    return TEXT.replace(old, new, 1).encode("utf-8", "surrogateescape")


def stray():
    """Things that people and programs put into JSON although it does not know them."""
    number = '"leaves": 46'
    for literal in ("NaN", "-NaN", "nan", "Infinity", "-Infinity", "1e999", "-1e999", "0x2E", "046", "+46", "46.",
                    ".46", "4_6", "46mm", "46,0", "True", "undefined", "'46'", "1e", "--46", "", "46 46"):
        yield f"leaves {literal or 'nothing'}", replaced(number, f'"leaves": {literal}')
    yield "a million digits", replaced(number, '"leaves": ' + "9" * 1_000_000)
    yield "trailing comma in object", replaced('"gap": 2\n', '"gap": 2,\n')
    yield "trailing comma in list", replaced('"fans": []', '"fans": [,]')
    yield "line comment", replaced(number, number + " // forty-six")
    yield "block comment", replaced(number, "/* many */ " + number)
    yield "hash comment", replaced(number, "# many\n" + number)
    yield "single quotes", TEXT.replace('"', "'").encode()
    yield "curly quotes", TEXT.replace('"', "\u201d").encode()
    yield "bare key", replaced('"leaves"', "leaves")
    yield "line break in text", replaced("Pear", "Pe\nar")
    yield "tab in text", replaced("Pear", "Pe\tar")
    yield "zero byte in text", replaced("Pear", "Pe\0ar")
    yield "escaped zero byte in title", replaced("Pear", "Pe\\u0000ar")
    yield "escaped line break in title", replaced("Pear", "Pe\\nar")
    yield "unknown escape", replaced("Pear", "Pe\\ar")
    yield "half a surrogate pair", replaced("Pear", "Pe\\ud800ar")
    yield "not UTF-8", replaced("Pear", "Pe\udcffar")
    yield "overlong UTF-8", replaced("Pear", "Pe\udcc0\udcafar")
    yield "UTF-16", TEXT.encode("utf-16")
    yield "UTF-32", TEXT.encode("utf-32")
    yield "two documents", (TEXT + "\n" + TEXT).encode()
    yield "text after the end", (TEXT + "\nthe end").encode()
    yield "zero bytes after the end", TEXT.encode() + bytes(100)
    yield "carriage returns and a cut", TEXT.replace("\n", "\r\n")[:200].encode()


def other_documents():
    """Well-formed, but no design."""
    for text in ("null", "true", "46", '"pear"', "[]", "{}", "[1, 2, 3]", '{"fanwright": 1}', "[" + TEXT + "]",
                 '{"design": ' + TEXT + "}", '{"": 1}'):
        yield f"document {text[:20]}", text.encode()
    yield "only spaces", b" \n\t \r\n"
    yield "only zero bytes", bytes(1000)
    yield "all byte values", bytes(range(256))
    yield "a picture's first bytes", b"\x89PNG\r\n\x1a\n" + bytes(64)
    yield "markup", b'<svg xmlns="http://www.w3.org/2000/svg"><path d="M 0 0"/></svg>'


def without_bounds():
    """Sizes and depths that must not be followed."""
    yield "50 MB of spaces", TEXT.encode() + b" " * 50_000_000
    yield "50 MB of title", replaced("Pear", "P" * 50_000_000)
    yield "50 MB of one list", b'{"fanwright": 1, "fans": [' + b"0," * 25_000_000 + b"0]}"
    yield "one byte over 1 MiB", TEXT.encode().ljust(1024 * 1024 + 1)
    yield "100,000 lists deep", b"[" * 100_000 + b"]" * 100_000
    yield "100,000 lists deep, never closed", b"[" * 100_000
    yield "100,000 objects deep", b'{"a":' * 100_000 + b"1" + b"}" * 100_000
    yield "33 lists deep in the design", replaced('"fans": []', '"fans": ' + "[" * 33 + "]" * 33)
    yield "lists in making, deep", replaced('"making": {', '"making": {"a": ' + "[" * 500_000 + "]" * 500_000 + ",")
    yield "50,000 keys", ("{" + ",".join(f'"k{i}":{i}' for i in range(50_000)) + "}").encode()
    yield "a title of 100,000 letters", replaced("Pear", "P" * 100_000)
    yield "a key of 500,000 letters", replaced('"leaves"', '"' + "k" * 500_000 + '"')
    yield "100,000 sizes", replaced('"sizes": [', '"sizes": [' + '{"a":1},' * 100_000)
    yield "100,000 fans", replaced('"fans": []', '"fans": [' + "0," * 100_000 + "0]")


def duplicate_keys():
    """Every object of the design with its first key given twice: by the same value, and by another."""
    for key in ('"fanwright": 1', '"path": "M 0 0 H 40 C 70 40 70 80 30 120 L 0 150"', '"shows": "flat"', '"leaves": 46',
                '"count": 9', '"width": 3', '"grammage": 160', '"along": 3.0', '"name": "small"', '"size": "A3"',
                '"opening": 360', '"units": "mm"'):
        yield f"twice {key[:24]}", replaced(key, f"{key}, {key}")
    yield "a key twice, once escaped", replaced('"leaves": 46', '"leaves": 46, "l\\u0065aves": 46')
    yield "leaves twice, far apart", replaced('"publishing": {', '"leaves": 45, "publishing": {')


def all_cases():
    for family in (cut_short, one_character_lost, stray, other_documents, without_bounds, duplicate_keys):
        yield from family()
