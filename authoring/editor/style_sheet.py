"""The one style sheet, made from the theme. Focus is painted by an overlay, not here."""

from __future__ import annotations

from string import Template

from authoring.editor.theme import FAMILY, FAMILY_SEMIBOLD, Theme, tokens

_SHEET = Template("""
* { font-family: "$family"; font-size: ${t_body}px; color: $ink; outline: none; }
QMainWindow, QDialog, QWidget#ground { background: $ground; }
QToolTip { background: $sheet; color: $ink; border: 1px solid $edge; padding: ${s4}px; }
QMenuBar { background: $sheet; border-bottom: 1px solid $rule; padding: 0 ${s12}px; }
QMenuBar::item { padding: ${s4}px ${s8}px; background: transparent; }
QMenuBar::item:selected { background: $wash; color: $ink; }
QMenu { background: $sheet; border: 1px solid $edge; padding: ${s4}px; }
QMenu::item { padding: ${s4}px ${s24}px; border-radius: ${r}px; }
QMenu::item:selected { background: $wash; color: $ink; }
QMenu::item:disabled { color: $soft; }
QMenu::separator { height: 1px; background: $rule; margin: ${s4}px ${s8}px; }

QLabel { background: transparent; }
QLabel[type="display"] { font-size: ${t_display}px; font-weight: 700; }
QLabel[type="title"] { font-family: "$semibold"; font-size: ${t_title}px; }
QLabel[type="heading"] { font-family: "$semibold"; font-size: ${t_heading}px; }
QLabel[type="strong"] { font-family: "$semibold"; }
QLabel[type="small"] { font-size: ${t_small}px; color: $soft; }
QLabel[type="label"] { font-size: ${t_small}px; color: $soft; }
QLabel[soft="true"] { color: $soft; }
QLabel[fault="true"] { font-size: ${t_small}px; color: $ink; }

QPushButton, QToolButton {
  font-family: "$semibold"; background: $sheet; border: 1px solid $edge;
  border-radius: ${r}px; padding: ${s4}px ${s12}px; min-height: ${h_button}px; }
QPushButton:hover, QToolButton:hover { background: $wash; }
QPushButton:pressed, QToolButton:pressed { background: $gate; border-color: $ink; }
QPushButton:disabled, QToolButton:disabled { color: $soft; border-color: $rule; background: transparent; }
QPushButton[main="true"] { background: $fill; color: $on_accent; border-color: $fill; }
QPushButton[main="true"]:hover { border: 2px solid $ink; }
QPushButton[main="true"]:pressed { background: $ink; color: $sheet; }
QPushButton[main="true"]:disabled { background: transparent; color: $soft; border-color: $rule; }
QPushButton[quiet="true"], QToolButton[quiet="true"] { border-color: transparent; background: transparent; }
QPushButton[quiet="true"]:hover, QToolButton[quiet="true"]:hover { background: $wash; }
QPushButton[link="true"] { border: none; background: transparent; color: $focus; padding: 0; text-align: left; }
QToolButton::menu-indicator { image: none; }

QLineEdit, QPlainTextEdit, QTextEdit, QSpinBox, QDoubleSpinBox, QDateEdit, QComboBox {
  background: $sheet; border: 1px solid $edge; border-radius: ${r}px;
  padding: ${s4}px ${s8}px; min-height: ${h_field}px;
  selection-background-color: $fill; selection-color: $on_accent; }
QLineEdit:hover, QPlainTextEdit:hover, QTextEdit:hover, QSpinBox:hover, QComboBox:hover { border-color: $ink; }
QLineEdit:disabled, QPlainTextEdit:disabled, QTextEdit:disabled, QSpinBox:disabled, QComboBox:disabled {
  color: $soft; border-color: $rule; background: transparent; }
*[fault="true"]:!pressed { border: 2px solid $stop; background: $stop_wash; }
QLabel[fault="true"] { border: none; background: transparent; }
QComboBox::drop-down { border: none; width: ${s24}px; }
QComboBox QAbstractItemView { background: $sheet; border: 1px solid $edge; selection-background-color: $wash; selection-color: $ink; }

QListView, QTreeView, QTableView {
  background: $sheet; border: 1px solid $rule; border-radius: ${r4}px; alternate-background-color: $sheet;
  selection-background-color: $wash; selection-color: $ink; gridline-color: $rule; }
QListView::item, QTreeView::item { padding: ${s4}px ${s8}px; min-height: ${h_row}px; border-bottom: 1px solid $rule; }
QListView::item:selected, QTreeView::item:selected, QTableView::item:selected { background: $wash; color: $ink; border-left: 2px solid $accent; }
QListView::item:hover, QTreeView::item:hover { background: $gate; }
QHeaderView::section { background: $sheet; color: $soft; border: none; border-bottom: 1px solid $rule; padding: ${s4}px ${s8}px; font-size: ${t_small}px; }

QScrollArea, QGraphicsView { background: transparent; border: none; }
QScrollArea > QWidget > QWidget { background: transparent; }
QScrollBar:vertical { background: transparent; width: ${s12}px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: ${s12}px; margin: 0; }
QScrollBar::handle { background: $edge; border-radius: ${r}px; min-height: ${s24}px; min-width: ${s24}px; margin: 2px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QSplitter::handle { background: $rule; }

QFrame[panel="true"] { background: $sheet; border: 1px solid $rule; border-radius: ${r4}px; }
QFrame[gate="true"] { background: $gate; border: 1px solid $rule; border-radius: ${r4}px; }
QFrame[line="true"] { background: $rule; max-height: 1px; min-height: 1px; border: none; }
QFrame#header { background: $sheet; border-bottom: 1px solid $rule; }
QFrame#keyline { background: $sheet; border-top: 1px solid $rule; }
QLabel[key="true"] { font-family: "$semibold"; font-size: ${t_small}px; color: $soft; border: 1px solid $edge; border-radius: ${r}px; padding: 0 ${s4}px; background: $sheet; }
QLabel[status="true"] { font-family: "$semibold"; font-size: ${t_small}px; border: 1px solid $ink; border-radius: ${r}px; padding: 1px ${s8}px; background: $sheet; }

QPushButton[place="true"] { border: none; border-bottom: 4px solid transparent; border-radius: 0; background: transparent; padding: 0 ${s8}px; font-family: "$family"; }
QPushButton[place="true"]:checked { border-bottom-color: $accent; font-family: "$semibold"; }
QPushButton[place="true"]:hover { background: $wash; }
QPushButton[segment="true"] { border-radius: 0; padding: ${s4}px ${s12}px; font-family: "$family"; margin: 0; }
QPushButton[segment="true"]:checked { background: $wash; border-bottom: 3px solid $accent; font-family: "$semibold"; }

QCheckBox, QRadioButton { spacing: ${s8}px; min-height: ${s24}px; background: transparent; }
QCheckBox::indicator, QRadioButton::indicator { width: ${s16}px; height: ${s16}px; border: 1px solid $edge; background: $sheet; border-radius: ${r}px; }
QRadioButton::indicator { border-radius: ${s8}px; }
QCheckBox::indicator:checked, QRadioButton::indicator:checked { background: $fill; border: 4px solid $sheet; outline: 1px solid $edge; }
QProgressBar { background: $gate; border: 1px solid $edge; border-radius: ${r}px; text-align: center; }
QProgressBar::chunk { background: $fill; }
""")


def style_sheet(used: Theme) -> str:
    """The style sheet of a theme at its scale."""
    colours = {token.replace("-", "_"): value for token, value in used.colours.items()}
    spaces = {f"s{space}": used.px(space) for space in tokens()["space_px"]}
    types = {f"t_{name}": used.px(size[0]) for name, size in tokens()["type_px"].items()}
    radius = tokens()["radius_px"]
    return _SHEET.substitute(
        **colours,
        **spaces,
        **types,
        family=FAMILY,
        semibold=FAMILY_SEMIBOLD,
        r=used.px(radius["control"]),
        r4=used.px(radius["entry"]),
        h_button=used.px(26),
        h_field=used.px(22),
        h_row=used.px(24),
    )
