"""What `shapes` raises.

ValueError
└── ShapeError     an argument breaks a rule of its shape
RuntimeError
└── KernelError    the solid kernel refused a solid; never the user's doing
"""


class ShapeError(ValueError):
    """An argument breaks a rule of its shape.

    Attributes:
        argument: name of the argument.
        rule: what it must be, without numbers: "less than half of width".
        value_mm: what it was [mm], or None where the value is not one length.
        limit_mm: the number behind the rule [mm], where there is one.
    """

    def __init__(
        self, argument: str, rule: str, value_mm: float | None = None, limit_mm: float | None = None
    ) -> None:
        self.argument = argument
        self.rule = rule
        self.value_mm = value_mm
        self.limit_mm = limit_mm
        limit = "" if limit_mm is None else f" ({limit_mm:g} mm)"
        found = "" if value_mm is None else f", not {value_mm:g} mm"
        super().__init__(f"{argument} must be {rule}{limit}{found}")


class KernelError(RuntimeError):
    """The solid kernel refused a solid that passed every check here."""
