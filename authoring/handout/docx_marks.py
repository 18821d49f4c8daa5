"""Small decorative marks, drawn as SVG; words always stand beside them."""

from __future__ import annotations

from authoring.handout.document import BrandStyle


def _svg(width: int, height: int, body: str) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
        f'viewBox="0 0 {width} {height}">{body}</svg>'
    )


def rung_mark(direction: int, brand: BrandStyle) -> str:
    """A ladder, 20 x 30: thick low rung for easier (-1), thick high for harder, middle for 0."""
    thick = {-1: 26, 0: 15, 1: 4}.get(direction, 15)
    thin = "".join(f"M4 {y}H16" for y in (4, 15, 26) if y != thick)
    return _svg(
        20,
        30,
        f'<path d="M4 0V30M16 0V30{thin}" stroke="{brand.soft}" stroke-width="1.6" fill="none"/>'
        f'<path d="M0 {thick}H20" stroke="{brand.brand}" stroke-width="5"/>',
    )


def stop_mark(brand: BrandStyle) -> str:
    """A dark square with a bar, 24 x 24."""
    return _svg(
        24,
        24,
        f'<rect width="24" height="24" rx="3" fill="{brand.ink}"/>'
        '<rect x="5" y="9.5" width="14" height="5" fill="#FFFFFF"/>',
    )


def care_mark(brand: BrandStyle) -> str:
    """A half-filled diamond, 24 x 24."""
    return _svg(
        24,
        24,
        f'<path d="M12 1.5L22.5 12L12 22.5L1.5 12Z" fill="#FFFFFF" stroke="{brand.ink}" '
        f'stroke-width="2"/><path d="M1.5 12H22.5L12 22.5Z" fill="{brand.ink}"/>',
    )


def clear_mark() -> str:
    """Nothing to see: fills the line that Word needs between two tables."""
    return _svg(4, 4, '<rect width="4" height="4" fill="#FFFFFF"/>')
