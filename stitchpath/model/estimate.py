"""What a plan comes to beyond its files: cloth, batting, thread, bobbins, folds, hours."""

from dataclasses import dataclass, field

from stitchpath.model.piece import StageName


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A piece to cut, mm: along the cloth's width and length as it is to be worn or sewn.

    Attributes:
        what: Its name.
        width: Across.
        length: Along.
        may_turn: Whether it may lie turned by 90 degrees on the cloth.
    """

    what: str
    width: float
    length: float
    may_turn: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidPiece:
    """A piece where it lies on its cloth, mm: x from a selvedge, y from the cut end.

    `width` and `length` are as it lies.
    """

    what: str
    x: float
    y: float
    width: float
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """One cloth to buy.

    Attributes:
        name: `top`, `backing`, `pocket` or `binding`.
        usable_width: Between the selvedges, mm.
        length: What the laid pieces take of it, mm.
        buy: The same, rounded up to what shops cut, mm.
        pieces: How they lie.
    """

    name: str
    usable_width: float
    length: float
    buy: float
    pieces: tuple[LaidPiece, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BattingToBuy:
    """The smallest ready-cut batting that holds all pieces; nameless and empty where none does.

    Attributes:
        name: As it is sold.
        width: Of the package, mm.
        length: Of the package, mm.
        pieces: How they lie on it.
    """

    name: str = ""
    width: float = 0.0
    length: float = 0.0
    pieces: tuple[LaidPiece, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadToBuy:
    """Thread of one colour: on top and in bobbins, with waste, and in spools."""

    colour: str
    top_mm: float
    bobbin_mm: float
    buy_mm: float
    spools: int
    grams: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BobbinChange:
    """Where a bobbin has to be changed.

    Attributes:
        stage: The stage.
        hooping: Its hooping, in which the bobbin would run out.
        stitch: After about this needle point of the hooping.
        within: No full bobbin lasts for the hooping, so it is changed there; otherwise before
            the hooping.
    """

    stage: StageName
    hooping: int
    stitch: int
    within: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Bobbins:
    """Bobbins of one colour: how many to wind, where to change, what is left on the last.

    `full_mm` is what can be counted on of a full one.
    """

    colour: str
    count: int
    changes: tuple[BobbinChange, ...]
    left_mm: float
    full_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Folding:
    """How the quilt folds into its pocket, mm.

    Attributes:
        across: Parts across: 3 for thirds, 2 for both sides to the middle.
        along: Parts along.
        width: Of the folded quilt.
        length: Of the folded quilt.
        height: Of the stack.
        ease: What the pocket leaves of width or depth, whichever is less; negative: it lacks.
        smallest_pocket: Width and length of the smallest pocket of this shape that works.
        largest_quilt: Width and length of the largest quilt of this shape for this pocket;
            zero where the pocket holds none.
        steps: What to do, one line a step.
    """

    across: int
    along: int
    width: float
    length: float
    height: float
    ease: float
    smallest_pocket: tuple[float, float] = (0.0, 0.0)
    largest_quilt: tuple[float, float] = (0.0, 0.0)
    steps: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """A hooping's time at the machine, in seconds: its file, and the maker's hands."""

    stage: StageName
    hooping: int
    sewing: float
    placing: float
    thread: float
    bobbin: float

    @property
    def handling(self) -> float:
        """All but the file's own time."""
        return self.placing + self.thread + self.bobbin

    @property
    def seconds(self) -> float:
        """All of it."""
        return self.sewing + self.handling


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """What is done in one evening: hoopings from the first to the last.

    `over` tells that its one hooping takes longer than the evening.
    """

    first: tuple[StageName, int]
    last: tuple[StageName, int]
    hoopings: int
    seconds: float
    over: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """Everything that is estimated of a plan.

    Attributes:
        draw_in: For each quilted stage the share that its quilting takes off its piece.
        overhang: How far hoops reach beyond the pieces at the most, mm.
        cloths: To buy.
        batting: To buy.
        threads: To buy, colour by colour.
        bobbins: To wind, colour by colour.
        folding: How the quilt goes into its pocket; None without one.
        work: The time for each hooping, in the order of sewing.
        sessions: The evenings these fill.
    """

    draw_in: tuple[tuple[StageName, float], ...] = ()
    overhang: float = 0.0
    cloths: tuple[Cloth, ...] = ()
    batting: BattingToBuy = field(default_factory=BattingToBuy)
    threads: tuple[ThreadToBuy, ...] = ()
    bobbins: tuple[Bobbins, ...] = ()
    folding: Folding | None = None
    work: tuple[Work, ...] = ()
    sessions: tuple[Session, ...] = ()
