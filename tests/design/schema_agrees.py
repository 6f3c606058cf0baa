"""Checks that schema/ornament.schema.json takes and refuses the same designs as verdicts.json says the parser does."""
import json
import pathlib
import sys

import jsonschema


def merged(base, patch):
    """JSON merge patch, RFC 7396."""
    if not isinstance(patch, dict):
        return patch
    result = dict(base) if isinstance(base, dict) else {}
    for key, value in patch.items():
        if value is None:
            result.pop(key, None)
        else:
            result[key] = merged(result.get(key), value)
    return result


def main(schema_file, verdicts_file, examples):
    schema = json.loads(pathlib.Path(schema_file).read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    verdicts = json.loads(pathlib.Path(verdicts_file).read_text(encoding="utf-8"))
    wrong = []
    for verdict in ("accepted", "refused"):
        for case in verdicts[verdict]:
            if validator.is_valid(merged(verdicts["base"], case["patch"])) != (verdict == "accepted"):
                wrong.append(f"should be {verdict}: {json.dumps(case['patch'])}")
    for example in sorted(pathlib.Path(examples).rglob("*.ornament.json")):
        for error in validator.iter_errors(json.loads(example.read_text(encoding="utf-8"))):
            wrong.append(f"{example}: {error.message}")
    print("\n".join(wrong) or "the schema agrees with every verdict")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
