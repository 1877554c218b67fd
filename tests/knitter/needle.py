"""A circular needle with its stitches, markers and tips.

The work is a ring. The tips part it into two piles: `ahead`, whose last item
is the next on the left needle, and `behind`, whose last item was worked last.
Turning the work swaps the piles. The far ends of the piles meet, unless the
work lies open: then it is a row with two edges.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import chain
from typing import TypeAlias

from tests.knitter.mistakes import Kind, Mistake


class Loop:
    """A live stitch."""

    __slots__ = ("born", "bumps", "rows", "state")

    def __init__(self, born: int, *, bumps: bool = False) -> None:
        self.bumps = bumps
        """Whether it shows a purl bump on the right side of the work."""
        self.born = born
        """The row that made it."""
        self.rows = 0
        """How often a loop was drawn through it: the height of its column in rows."""
        self.state = ""
        """`DS` or `wrap` while it guards the gap of a turn."""


class Ring:
    """A marker."""

    __slots__ = ()


Item: TypeAlias = Loop | Ring


@dataclass
class Needle:
    ahead: list[Item] = field(default_factory=list)
    behind: list[Item] = field(default_factory=list)
    bor: Ring | None = None
    edge: int = 0
    """Stitches of the underarm edge from which this piece may pick up."""
    right_side: bool = True
    is_open: bool = False
    """Whether the work is a row with two edges."""
    waste: list[Loop] = field(default_factory=list)
    """The other side of a provisional cast-on: loops to be taken up again."""

    @classmethod
    def holding(cls, loops: list[Loop], *, edge: int) -> Needle:
        """Held stitches put back, ready to work from the first of them."""
        bor = Ring()
        return cls(ahead=list(reversed(loops)), behind=[bor], bor=bor, edge=edge)

    def live(self) -> int:
        return sum(type(item) is Loop for pile in (self.ahead, self.behind) for item in pile)

    def begin(self) -> None:
        """Hang BOR on an empty needle."""
        self.bor = Ring()
        self.is_open = False
        self.ahead, self.behind = [], [self.bor]

    def begin_open(self) -> None:
        """Take an empty needle for a row with two edges."""
        self.bor = None
        self.is_open = True
        self.ahead, self.behind = [], []

    def take_up(self) -> None:
        """Put the loops of the provisional cast-on on the empty needle, BOR before the first."""
        self.begin()
        self.ahead = [*reversed(self.waste), *self.ahead]
        self.waste = []

    def peek(self) -> Item | None:
        """The next item on the left needle."""
        if not self.ahead and not self.is_open:
            self.ahead, self.behind = self.behind[::-1], []
        return self.ahead[-1] if self.ahead else None

    def last(self) -> Item | None:
        """The item before it: the last on the right needle."""
        if self.behind:
            return self.behind[-1]
        return self.ahead[0] if self.ahead and not self.is_open else None

    def next_loop(self) -> Loop | None:
        """The next stitch, looking past markers."""
        self.peek()
        round_about = chain(reversed(self.ahead), () if self.is_open else self.behind)
        return next((item for item in round_about if isinstance(item, Loop)), None)

    def last_loop(self) -> Loop | None:
        """The stitch before, looking past markers."""
        round_about = chain(reversed(self.behind), () if self.is_open else self.ahead)
        return next((item for item in round_about if isinstance(item, Loop)), None)

    def pass_item(self) -> Item:
        """Take the next item off the left needle."""
        if self.peek() is None:
            raise Mistake(Kind.TOO_FEW, "there is nothing on the needle")
        return self.ahead.pop()

    def drop_last(self) -> None:
        """Take off the marker that was passed last."""
        if self.behind:
            self.behind.pop()
        else:
            self.ahead.pop(0)

    def turn(self) -> None:
        self.ahead, self.behind = self.behind, self.ahead
        self.right_side = not self.right_side

    def level(self) -> None:
        """Measure the columns from here on."""
        for item in (*self.ahead, *self.behind):
            if isinstance(item, Loop):
                item.rows = 0

    def heights(self) -> tuple[int, ...]:
        """The rows in each column, in the order in which the next row meets them."""
        self.peek()
        way = (*reversed(self.ahead), *self.behind)
        return tuple(item.rows for item in way if isinstance(item, Loop))

    def to_bor(self) -> int:
        """Stitches from here to BOR, or to the edge of open work."""
        if self.is_open:
            return sum(type(item) is Loop for item in self.ahead)
        self.peek()
        way = (*reversed(self.ahead), *self.behind)
        until = way.index(self.bor) if self.bor in way else len(way)
        return sum(type(item) is Loop for item in way[:until])
