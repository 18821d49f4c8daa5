"""The clinic: who it is, how its pages look, whom a patient calls."""

from __future__ import annotations

from typing import ClassVar

from authoring.model.base import HEX_COLOUR, IMAGE_NAME, LANGUAGE_TAG, Node, fact, node, optional
from authoring.model.figure_look import FigureLook
from authoring.model.pain import PainRule
from authoring.model.text import Text
from authoring.model.vocabulary import Paper, TypeSize


@node
class Logo(Node):
    """The clinic's mark."""

    image: str = fact("File in the library's images folder.", pattern=IMAGE_NAME)
    alt: Text = fact("What a person who can't see it needs to know.")


@node
class Brand(Node):
    """Colours, font and logo."""

    colour: str = fact("The clinic's colour.", default="#123F5C", pattern=HEX_COLOUR)
    ink: str = fact("Colour of text.", default="#15191C", pattern=HEX_COLOUR)
    font: str = fact("Font of handouts, by family name.", default="Noto Sans", longest=80)
    logo: Logo | None = optional("Logo.")


@node
class EmergencyWording(Node):
    """Leads of the stop box, one for each urgency; each says where to go."""

    emergency: Text = fact("Lead for an emergency ('Call 112 now if:').")
    same_day: Text = fact("Lead for medical care the same day.")
    call_clinic: Text = fact("Lead for a call to the clinic.")
    stop_exercise: Text = fact("Lead for stopping the exercise.")


@node
class Clinic(Node):
    """One clinic."""

    FORMAT: ClassVar[str] = "rungbook/clinic"

    language: str = fact("Language of plain strings and default of handouts.", pattern=LANGUAGE_TAG)
    name: Text = fact("Name.")
    phone: str = fact("Telephone.", default="", longest=60)
    hours: Text | None = optional("When it can be called.")
    closed: Text | None = optional("Whom to call when it is closed, as a sentence.")
    email: str = fact("Mail address.", default="", longest=200)
    website: str = fact("Address of the website, as text.", default="", longest=200)
    address: Text | None = optional("Postal address.")
    brand: Brand = fact("Colours, font and logo.", factory=Brand)
    figure: FigureLook = fact("The people in drawn pictures.", factory=FigureLook)
    letterhead: str | None = optional("Letterhead .docx in the library folder.", longest=120)
    emergency: EmergencyWording | None = optional("Wording of the stop box.")
    paper: Paper = fact("Paper size.", default=Paper.A4)
    print_size: TypeSize = fact("Print size.", default=TypeSize.STANDARD)
    pain: PainRule | None = optional("Pain rule where no protocol, stage or exercise has one.")
    protocol_numbers: bool = fact(
        "Whether a patient's plan keeps the protocol's numbers.", default=False
    )
    second_approver: bool = fact("Whether an author alone can't approve.", default=True)
    second_sign: bool = fact(
        "Whether overriding a contraindication needs a second clinician's sign.", default=False
    )
    most_exercises: int | None = optional("Most exercises on one sheet.", low=1, high=60)
    small_print: Text | None = optional("Last line of every handout.")
    invented: bool = fact("Whether this is an invented sample.", default=False)
