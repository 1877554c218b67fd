"""Random rows for the property tests: any steps, canonical or not."""

from __future__ import annotations

from hypothesis import strategies as st

from yokefellow.rows.model import STITCHES, Op, Repeat, Step

YARNS = st.sampled_from(["", "", "", "MC", "CC1", "CC2"])

OPS = st.builds(
    Op,
    code=st.sampled_from(sorted(STITCHES)),
    times=st.one_of(st.just(1), st.integers(min_value=1, max_value=40)),
    yarn=YARNS,
)


def _repeats(inner: st.SearchStrategy[Step]) -> st.SearchStrategy[Step]:
    return st.builds(
        Repeat,
        steps=st.lists(inner, min_size=1, max_size=4).map(tuple),
        times=st.integers(min_value=1, max_value=6),
    )


STEPS: st.SearchStrategy[tuple[Step, ...]] = st.lists(
    st.recursive(OPS, _repeats, max_leaves=8), min_size=1, max_size=5
).map(tuple)
