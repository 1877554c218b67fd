"""One row in work: what the hands do for each thing that a row may say."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from tests.knitter.mistakes import Kind, Mistake
from tests.knitter.needle import Loop, Needle, Ring
from tests.knitter.words import TO_THE_END, Again, Do, Instruction, Node


@dataclass
class Basket:
    """What lies beside the needle, and the tallies."""

    held: list[list[Loop]] = field(default_factory=list)
    edges: list[int] = field(default_factory=list)
    """Stitches cast on in the place of each run of held ones."""
    gauge_loops: int = 0
    """Loops of yarn drawn through: what was knitted, purled, made, cast on, bound off."""
    rows: int = 0
    bound_off: int = 0
    picked_up: int = 0
    at_neck: int = 0
    bumps: int = 0
    """Stitches worked flat that show a purl bump on the right side."""
    turned: str = ""
    """How the row before ended: `turn`, `wrap`, or neither."""


class Hands:
    def __init__(self, needle: Needle, basket: Basket, kind: str, row: Instruction) -> None:
        self.needle = needle
        self.basket = basket
        self.kind = kind
        self.row = row
        self.number = basket.rows
        self.names_markers = bool(row.names() & {"sm", "rm"})
        self.short = kind in ("RS", "WS")
        self.flat = kind in ("flat RS", "flat WS")
        self.touched = False
        """Whether this row has done anything yet."""
        self.broken = False
        """Whether stitches were put aside between the last stitch and the next."""
        self.at_edge = False
        """Whether a cast-on here bridges held stitches."""
        self.ended = False
        self.does: dict[str, Callable[[], None]] = {
            "k": self.work,
            "p": lambda: self.work(purled=True),
            "k tbl": self.work,
            "sl": self.slip,
            "M1": self.increase,
            "yo": self.yarn_over,
            "kfb": self.front_and_back,
            "M1 purled": lambda: self.increase(purled=True),
            "pfb": self.purl_twice,
            "2tog": self.decrease,
            "3 into 1": self.decrease_to_the_centre,
            "DS": self.double,
            "close DS": lambda: self.close("DS"),
            "close wrap": lambda: self.close("wrap"),
            "wrap": self.wrap_and_turn,
            "turn": self.turn,
            "cast on": self.cast_on,
            "bind off": self.bind_off,
            "pick up": self.pick_up,
            "pm": self.place_marker,
            "sm": self.slip_marker,
            "rm": self.remove_marker,
        }

    def follow(self, body: tuple[Node, ...]) -> None:
        for node in body:
            if isinstance(node, Again):
                self._again(node)
            else:
                self._do(node)

    def _again(self, node: Again) -> None:
        if node.times != TO_THE_END:
            for _ in range(node.times):
                self.follow(node.body)
            return
        patience = self.needle.live()
        if not patience:
            raise Mistake(Kind.TOO_FEW, "there is nothing on the needle")
        while self.needle.to_bor():
            self.follow(node.body)
            patience -= 1
            if patience < 0:
                raise Mistake(Kind.TOO_FEW, "the repeat never reaches the end")

    def _do(self, node: Do) -> None:
        times = node.times if node.times != TO_THE_END else self.needle.to_bor()
        if times == 0:
            raise Mistake(Kind.TOO_FEW, "there is nothing on the needle")
        if node.name == "hold":
            self._may(node.name)
            self.hold(times)
            return
        act = self.does[node.name]
        for _ in range(times):
            self._may(node.name)
            act()
            self.touched = True

    def _may(self, name: str) -> None:
        if self.ended:
            raise Mistake(Kind.TURN, f"{name} after the row has turned")
        # The hole of a bare turn stays open unless the next stitch is doubled.
        if not self.touched and self.basket.turned == "turn" and name != "DS":
            raise Mistake(Kind.GAP, "after a turn the first stitch is not made a double stitch")

    # What takes stitches.

    def take(self) -> Loop:
        """Take the next stitch off the left needle, slipping markers on the way."""
        while True:
            item = self.needle.pass_item()
            if isinstance(item, Loop):
                return item
            self._pass_marker(item)
            self.needle.behind.append(item)

    def _pass_marker(self, ring: Ring) -> None:
        if ring is self.needle.bor:
            if not self.short:
                raise Mistake(Kind.TOO_FEW, "the row needs stitches beyond BOR")
        elif self.names_markers:
            raise Mistake(Kind.MARKER, "stitches are worked past a marker that the row leaves out")

    def plain(self) -> Loop:
        """Take a stitch that guards no gap."""
        loop = self.take()
        if loop.state:
            raise Mistake(Kind.GAP, f"worked past a {loop.state} without closing its gap")
        return loop

    def put(self, loop: Loop) -> None:
        loop.rows += 1
        self.needle.behind.append(loop)
        self.broken = self.at_edge = False
        self.basket.gauge_loops += 1

    def work(self, *, purled: bool = False) -> None:
        loop = self.plain()
        # Purled on the right side, or knitted on the wrong side.
        loop.bumps = purled == self.needle.right_side
        self.basket.bumps += self.flat and loop.bumps
        self.put(loop)

    def slip(self) -> None:
        loop = self.plain()  # which may turn the piles over, so take it first
        self.needle.behind.append(loop)
        self.broken = self.at_edge = False

    def decrease(self) -> None:
        loop = self.plain()
        following = self.needle.peek()
        if isinstance(following, Ring) and following is not self.needle.bor:
            raise Mistake(Kind.MARKER, "a marker lies between two stitches worked together")
        self.plain()
        self.put(loop)

    def decrease_to_the_centre(self) -> None:
        loops = []
        for left in (2, 1, 0):
            loops.append(self.plain())
            if left and isinstance(self.needle.peek(), Ring):
                raise Mistake(Kind.MARKER, "a marker lies between stitches worked together")
        self.put(loops[1])

    def hold(self, times: int) -> None:
        held = [self.plain() for _ in range(times)]
        self.basket.held.append(held)
        self.basket.edges.append(0)
        self.touched = self.broken = self.at_edge = True

    def bind_off(self) -> None:
        self.plain()
        self.basket.bound_off += 1
        self.basket.gauge_loops += 1

    # What makes stitches.

    def new(self) -> None:
        self.needle.behind.append(Loop(self.number))
        self.basket.gauge_loops += 1

    def purl_twice(self) -> None:
        loop = self.plain()
        if loop.born == self.number:
            raise Mistake(Kind.INCREASE, "the stitch to be worked twice was only made in this row")
        self.put(loop)
        self.basket.bumps += 2 * (self.flat and self.needle.right_side)
        self.new()

    def increase(self, *, purled: bool = False) -> None:
        before, after = self.needle.last_loop(), self.needle.next_loop()
        if before is None or after is None or before is after or self.broken:
            raise Mistake(Kind.INCREASE, "there is no bar between two stitches to lift")
        if self.number in (before.born, after.born):
            raise Mistake(Kind.INCREASE, "beside a stitch made in this row there is no bar to lift")
        self.basket.bumps += self.flat and purled == self.needle.right_side
        self.new()

    def yarn_over(self) -> None:
        if self.broken or self.needle.last_loop() is None:
            raise Mistake(Kind.INCREASE, "there is no stitch for the yarn to go over from")
        self.new()

    def front_and_back(self) -> None:
        loop = self.plain()
        if loop.born == self.number:
            raise Mistake(Kind.INCREASE, "the stitch to be worked twice was only made in this row")
        self.put(loop)
        self.new()

    def cast_on(self) -> None:
        if self.needle.bor is None and not self.needle.live():
            if self.flat:
                self.needle.begin_open()
            else:
                self.needle.begin()
        self.new()
        if self.row.is_provisional:
            self.needle.waste.append(Loop(self.number))
        if self.at_edge:
            self.basket.edges[-1] += 1

    def pick_up(self) -> None:
        if not (self.needle.edge or self.row.at_neck):
            raise Mistake(Kind.PICK_UP, "there is no cast-on edge to pick up from")
        self.new()
        if self.row.at_neck:
            self.basket.at_neck += 1
        else:
            self.basket.picked_up += 1

    # Short rows.

    def turn(self) -> None:
        if not self.short:
            raise Mistake(Kind.TURN, f"a row of kind {self.kind!r} does not turn")
        self.needle.turn()
        self.ended = True

    def wrap_and_turn(self) -> None:
        loop = self.needle.next_loop()
        if loop is None or loop.state:
            raise Mistake(Kind.GAP, "the stitch to wrap already guards a gap")
        loop.state = "wrap"
        self.turn()

    def double(self) -> None:
        if self.touched or self.basket.turned != "turn":
            raise Mistake(Kind.GAP, "a double stitch that does not follow a turn")
        loop = self.plain()
        loop.state = "DS"
        self.needle.behind.append(loop)

    def close(self, state: str) -> None:
        loop = self.take()
        if loop.state != state:
            raise Mistake(Kind.GAP, f"closes a {state} where the next stitch is none")
        loop.state = ""
        self.put(loop)

    # Markers.

    def place_marker(self) -> None:
        self.needle.behind.append(Ring())

    def slip_marker(self) -> None:
        ring = self._marker()
        self.needle.behind.append(ring)

    def remove_marker(self) -> None:
        if not self.touched and self.needle.last() is self.needle.bor is not None:
            self.needle.drop_last()
            self.needle.bor = None
        else:
            self._marker()

    def _marker(self) -> Ring:
        item = self.needle.peek()
        if not isinstance(item, Ring) or item is self.needle.bor:
            raise Mistake(Kind.MARKER, "there is no marker here")
        self.needle.pass_item()
        return item

    # The ends of a row.

    def start(self) -> None:
        if not (self.short or self.flat or self.kind in ("rnd", "part")):
            raise Mistake(Kind.UNREADABLE, f"a row of kind {self.kind!r}")
        if self.row.at_neck and not self.needle.live():
            self.needle.begin()
        if self.needle.right_side == self.kind.endswith("WS"):
            raise Mistake(Kind.SIDE, "the other side faces the knitter")
        if self.needle.live() and self.needle.is_open != self.flat:
            raise Mistake(Kind.JOIN, "open work is knitted in rows, joined work in rounds")
        if self.kind == "rnd" and self.needle.last() is not self.needle.bor:
            raise Mistake(Kind.SIDE, "a round starts away from BOR")
        if self.row.all_of and self.row.all_of != self.needle.live():
            raise Mistake(Kind.LEFT_OVER, f"not all: {self.needle.live()} are on the needle")

    def finish(self) -> None:
        if self.short:
            if not self.ended:
                raise Mistake(Kind.TURN, "a short row does not say where to turn")
            self._says("turn")
        elif self.flat:
            self._finish_flat()
        elif self.needle.live():
            self._finish_at_marker()
        self.basket.turned = self._turned()

    def _finish_flat(self) -> None:
        """Turn at the edge, with every stitch worked; or join the two edges."""
        if self.needle.to_bor():
            raise Mistake(Kind.LEFT_OVER, f"{self.needle.to_bor()} sts are left at the row's end")
        if self.row.joins:
            if not self.needle.right_side:
                raise Mistake(Kind.JOIN, "the work is joined with its inside out")
            self.needle.is_open = False
        elif self.needle.live():
            self.needle.turn()

    def _turned(self) -> str:
        if not self.short:
            return ""
        last = self.row.body[-1]
        return last.name if isinstance(last, Do) else ""

    def _finish_at_marker(self) -> None:
        if self.kind == "part" and self.needle.bor is None and self.row.ends_at == "new BOR":
            self.needle.bor = Ring()
            self.needle.behind.append(self.needle.bor)
            return
        item = self.needle.peek()
        if self.kind == "part" and self.needle.bor is None and isinstance(item, Ring):
            self._says("marker")
            self.needle.bor = item
        elif item is self.needle.bor is not None:
            self._says("BOR")
        else:
            raise Mistake(Kind.LEFT_OVER, f"{self.needle.to_bor()} sts are left at the row's end")
        self.needle.behind.append(self.needle.pass_item())

    def _says(self, end: str) -> None:
        if self.row.ends_at not in ("", end):
            raise Mistake(Kind.MARKER, f"the words say that the row ends at {self.row.ends_at}")
