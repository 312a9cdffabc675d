"""What people read of each question of `new`, as an option and as a question: one table.

What is measured is worded for each kind of piece in `piece_kinds`; here is only its option, which
many kinds share. This module imports nothing heavy, so that `--help` comes at once.
"""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Wording:
    """The words of one question.

    Attributes:
        option: what `surfacecalc new --help` says of its option.
        before: what is read before it is asked.
        prompt: what goes before the cursor.
        help: what "?" shows.
    """

    option: str
    before: str = ""
    prompt: str = ""
    help: str = ""


WORDINGS: Mapping[str, Wording] = {
    "kind": Wording(
        "The kind of piece; leave it off to see the list.",
        "What kind of piece is it?",
        "Kind (name or number)",
        "Type a name from the list, the start of a name, or a number. Choose the kind that is built"
        " most like your piece; you can change any part in the file later.",
    ),
    "mesh": Wording(
        "The mesh file: a 3D model or a scan of the piece.",
        "Where is the mesh file? It can be STL, OBJ, PLY, GLB, GLTF, 3MF or OFF.",
        "Mesh file",
        "Type the path of the file from the folder you are in, such as models/chair.stl.",
    ),
    "name": Wording(
        "The name of the piece.",
        "What do you want to call it? The name is printed at the top of every list.",
        "Name",
        'Any words will do, such as "Aunt\'s dresser". The file is named after it.',
    ),
    "file": Wording(
        "The file to write, such as dresser.toml.",
        "What should the file be called? If you leave off .toml, it is added.",
        "File name",
        "Type a name, such as dresser, or a folder that exists and a name, such as pieces/dresser."
        " The file is written after the last question.",
    ),
    "unit": Wording(
        "The unit of plain numbers: in, cm or mm.",
        'Which unit is on your tape? A plain number, such as "22 1/2" or "22.5", is taken in that'
        ' unit. For another unit, write it after the number: "5 ft 2 in", "113 cm".',
        "Unit (in, cm or mm)",
        "Choose in for a tape marked in inches and fractions, cm or mm for a metric tape.",
    ),
    "mesh-unit": Wording(
        "The unit of the mesh file: mm, cm, m, in or ft.",
        "Which unit is the mesh file in? The file does not say. The size in each unit:",
        "Unit of the mesh file",
        "Choose the line that shows the real size of the piece.",
    ),
    "width": Wording(
        'Overall width, such as "36 1/2 in" (for kind doors, that of a lower door).',
        help="Do not count knobs, pulls or hinges. If one end is wider, take the wider one.",
    ),
    "depth": Wording(
        "Overall depth.",
        help="Do not count knobs, pulls or hinges. If the sides differ, take the deeper one.",
    ),
    "height": Wording(
        "Overall height (for a chair or bench, seat height; for kind doors, that of a lower door).",
        help="Stand the tape on the floor and read it straight up. Do not count castors.",
    ),
    "leg-height": Wording(
        "Leg height under a case, or none.",
        help="Look under the piece: it is the gap between the floor and the case. A plinth that "
        "closes the gap is part of the case, so type none.",
    ),
    "leg-thickness": Wording(
        "Leg thickness at the top.",
        help="For a round or turned leg, give its diameter. You can change the shape of the leg in "
        "the file later.",
    ),
    "foot-thickness": Wording(
        "Leg thickness at the floor.",
        help="A tapered leg is thinner at the floor. The file works out the slope between the two.",
    ),
    "board": Wording(
        "Thickness of the boards, of a headboard panel, or of a frame.",
        help="If the boards differ, give the thickness that most of them have.",
    ),
    "lid-thickness": Wording(
        "Lid thickness of a chest.",
        help="Open the lid and measure its edge. If a strip is fixed under the edge, do not count "
        "it.",
    ),
    "drawers": Wording(
        "Rows of drawers (for a desk or kind doors, number of drawers).",
        help="Two small drawers beside each other at the top are one row.",
    ),
    "across": Wording(
        "Number of drawers side by side.",
        help="One long drawer in a row of its own counts as 1.",
    ),
    "back": Wording(
        "Whether a bookcase has a back: yes or no.",
        help="A thin panel nailed on from behind is a back.",
    ),
    "shelves": Wording(
        "Number of shelves.",
        help="Loose shelves count as well.",
    ),
    "doors": Wording(
        "Number of doors (for kind doors, of the lower row).",
        help="A pair of doors counts as 2.",
    ),
    "frame": Wording(
        "Frame width of a door or a mirror.",
        help="It is the flat wood around the panel or the glass.",
    ),
    "top-thickness": Wording(
        "Thickness of the top, or of the seat.",
        help="Measure where the edge is plain, without a moulding or a bevel.",
    ),
    "overhang": Wording(
        "Overhang of the top, lid or seat, or none.",
        help="Look from below: it is how far the edge reaches past the leg, or past the side of a"
        " case.",
    ),
    "apron": Wording(
        "Height of the apron or seat rail, or none.",
        help="It is the board on edge between the legs, right under the top or the seat.",
    ),
    "apron-inside": Wording(
        "Whether the inside of the apron is finished too: yes or no.",
        help='You see these faces only from under the top. With "no" they go with the underside.',
    ),
    "rungs": Wording(
        "Number of rungs on each side of a chair.",
        help="They are the rods or bars that tie the legs together below the seat.",
    ),
    "back-height": Wording(
        "Height of a chair's back above the seat, or none.",
        help="Hold the tape against a back post, along its slope.",
    ),
    "top-rail": Wording(
        "Height of a chair's top rail, or none.",
        help="If the rail is curved, measure it at its middle.",
    ),
    "slats": Wording(
        "Number of slats in a chair's back.",
        help="Round spindles count as slats here; you can change their shape in the file later.",
    ),
    "upper-doors": Wording(
        "Number of doors in the upper row, for kind doors.",
        help="Tall doors from floor to ceiling count in the row whose size is closer to theirs.",
    ),
    "upper-width": Wording(
        "Width of an upper door.",
        help="Take the door off, or measure it closed; hinges do not count.",
    ),
    "upper-height": Wording(
        "Height of an upper door.",
        help="Take the door off, or measure it closed; hinges do not count.",
    ),
    "drawer-width": Wording(
        "Width of a drawer front, for kind doors.",
        help="Only the front counts here; the box behind it usually stays as it is.",
    ),
    "drawer-height": Wording(
        "Height of a drawer front, for kind doors.",
        help="Only the front counts here; the box behind it usually stays as it is.",
    ),
    "drawer-frame": Wording(
        "Frame width of panelled drawer fronts, or none.",
        help="A drawer front has a panel only if a frame goes all the way around a lower field.",
    ),
    "edges": Wording(
        "Whether the edges of doors and drawer fronts are finished too: yes or no.",
        help="You see the edges when a door is open, and a paint line on them shows.",
    ),
    "inside-faces": Wording(
        "Whether the inside faces of doors and drawer fronts are finished too: yes or no.",
        help="They count once more: they are as large as the fronts.",
    ),
    "post-thickness": Wording(
        "Post thickness of a headboard, or none.",
        help="For a round post, give its diameter.",
    ),
    "board-height": Wording(
        "Height of the headboard panel.",
        help="Do not count the posts or their tops.",
    ),
    "finish": Wording(
        'paint, stain, clear, oil, wax or leave; "ZONE=paint" for one zone. You can repeat it.',
        "Choose a finish for each zone:",
        "Finish (paint, stain, clear, oil, wax or leave)",
        "Choose the new finish for this zone, or leave if it gets none. Stain includes a clear coat"
        " over it. Clear is varnish without colour, on bare wood or over a sound old finish.",
    ),
    "condition": Wording(
        'bare, sealed, varnished or painted; "ZONE=bare" for one zone. You can repeat it.',
        "What is on the surface now?",
        "Surface now (bare, sealed, varnished or painted)",
        "Choose what is on this zone now. If you cannot name a clear coat, choose varnished. An"
        " oiled or waxed surface counts as varnished too, because it has to be cleaned or stripped"
        " like one.",
    ),
    "built": Wording(
        "The year it was made, or unknown.",
        "About what year was it made? Old coatings may contain lead.",
        "Year (or unknown)",
        'Type a year; "1930s", "the fifties" and "about 1930" are fine too. Of ten years, the'
        " middle is taken. If you type unknown, the piece is treated"
        " as old enough to have lead in its coatings.",
    ),
    "stripping": Wording(
        "How the old finish comes off: stripper or sanding.",
        "How do you take the old finish off? Old coatings may contain lead, and sanding them dry"
        " makes poisonous dust.",
        "Take it off with",
        "Choose stripper unless a test has shown that there is no lead in the old finish.",
    ),
    "product": Wording(
        'One of your own products, as "paint=moss green"; "paint=new" for none. You can repeat it.',
        "Your own list of products has these for the {supply}:",
        "Which {supply}",
        "Choose the one you will use. Its price, its coverage and its waiting times come from your"
        " list. Choose new to get a new one in the file, without a price.",
    ),
    "currency": Wording(
        "The currency of your prices, such as USD, or none.",
        "What currency are your prices in? Type three letters (USD, EUR), or none.",
        "Currency",
        "Type the three-letter code of your currency, such as USD, EUR or GBP, or none to leave it"
        " off.",
    ),
}


def label(key: str) -> str:
    """Return a question's name in a list of answers.

    >>> label("leg-height"), label("condition drawer fronts")
    ('leg height', 'surface of drawer fronts')
    """
    name, _, zone = key.partition(" ")
    labels = {
        "finish": f"finish of {zone}",
        "condition": f"surface of {zone}",
        "built": "year",
        "product": zone,
    }
    return labels.get(name, name.replace("-", " "))
