"""Where a key stands, as far as a simple scan can tell."""

from yokefellow.project_file.toml_mistakes import find_line, key_lines

TEXT = '''\
title = "a"   # [body]
[body]
chest = 38
"quoted" = 3
note = """
waist = 3
"""
[swatch.plain.washed]
stitches = [
  "26 over 10 cm",
  "27 = over 10 cm",
]
rounds = ["36 # over 10 cm"]
[garment]
body.length = "hip"
inline = { shape = "straight" }
'''


# derived: the lines of TEXT, counted
def test_keys_are_found_in_their_tables() -> None:
    lines = key_lines(TEXT)
    assert find_line(lines, ("title",)) == 1
    assert find_line(lines, ("body",)) == 2
    assert find_line(lines, ("body", "chest")) == 3
    assert find_line(lines, ("swatch", "plain", "washed", "rounds")) == 13
    assert find_line(lines, ("garment", "body", "length")) == 15


# derived: the lines of TEXT, counted
def test_an_item_of_a_list_stands_where_its_list_begins() -> None:
    assert find_line(key_lines(TEXT), ("swatch", "plain", "washed", "stitches", 1)) == 9


def test_what_is_not_sure_is_not_told() -> None:
    lines = key_lines(TEXT)
    assert find_line(lines, ("body", "waist")) is None
    assert find_line(lines, ("body", "quoted")) is None
    assert find_line(lines, ("garment", "inline", "shape")) is None
    assert find_line(lines, ("sheet",)) is None


BANDS = """\
[garment.neck]
rib = "1x1"
[[garment.yoke.bands]]
chart = "a"
[[garment.yoke.bands]]   # the second
at = "3 in"
chart = "b"
"""


# derived: the lines of the text, counted
def test_each_table_of_a_list_has_its_own_lines() -> None:
    # derived: by counting the lines above
    lines = key_lines(BANDS)
    assert find_line(lines, ("garment", "yoke", "bands", 0)) == 3
    assert find_line(lines, ("garment", "yoke", "bands", 0, "chart")) == 4
    assert find_line(lines, ("garment", "yoke", "bands", 1)) == 5
    assert find_line(lines, ("garment", "yoke", "bands", 1, "chart")) == 7
    assert find_line(lines, ("garment", "yoke", "bands", 0, "at")) is None
    assert find_line(lines, ("garment", "neck", "rib")) == 2
