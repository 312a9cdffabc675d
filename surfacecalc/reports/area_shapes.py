"""What `areas --json` and `check --json` print, field by field; see `json_shapes`."""

from typing import Literal, TypedDict

from surfacecalc.problems import Level


class ProblemData(TypedDict):
    """A mistake or a note; `file` is null where it is in the piece file itself."""

    level: Level
    file: str | None
    line: int | None
    where: str
    message: str


class ProblemsData(TypedDict):
    """What check prints, and every command where the file has a mistake."""

    schema: Literal[1]
    problems: list[ProblemData]


class FaceData(TypedDict):
    """The exposed area of a face [m2]."""

    part: str
    face: str
    area_m2: float


class ZoneData(TypedDict):
    """A finish zone [m2], what it counts as work [m2], and how far it meets other zones [m].

    Of a set these are for all its pieces; `area_each_m2` is for one.
    """

    zone: str
    area_m2: float
    area_each_m2: float
    labour_m2: float
    by_hand_m2: float
    leave: bool
    meets_m: dict[str, float]
    faces: list[FaceData]


class NoZoneData(TypedDict):
    """Exposed faces that are in no zone [m2]."""

    area_m2: float
    faces: list[FaceData]


class AirData(TypedDict):
    """Air between two faces: how wide [mm], and over which area [m2]."""

    part: str
    face: str
    other_part: str
    other_face: str
    distance_mm: float
    area_m2: float


class AreasData(TypedDict):
    """What areas prints of one file; size is width, depth and height [mm]."""

    schema: Literal[1]
    piece: str
    count: int
    size_mm: list[float]
    exposed_m2: float
    exposed_each_m2: float
    zones: list[ZoneData]
    in_no_zone: NoZoneData
    closed: list[AirData]
    gaps: list[AirData]


class FileAreasData(AreasData):
    """What areas prints of one of several files."""

    file: str


class FileProblemsData(ProblemsData):
    """The mistakes in one of several files."""

    file: str


FileData = FileAreasData | FileProblemsData
"""One of several files: its areas, or its mistakes."""


class AreasOfFilesData(TypedDict):
    """What areas prints of several files."""

    schema: Literal[1]
    files: list[FileData]
