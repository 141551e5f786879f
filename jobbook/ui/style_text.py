"""The style sheet with names in place of colours and sizes; `look` fills them in.

A widget says what it is by its property `role`:
labels: title, heading, strong, soft, small, figure, result, error, caution, cry, held, kept, unit, loud
frames: sheet, card, index, foot, rule; buttons: main, plain, quiet, index
"""

STYLE = """
QWidget { color: $ink; }
QMainWindow, QDialog, QWidget[role="ground"] { background: $ground; }
QToolTip { background: $sheet; color: $ink; border: 1px solid $rule; padding: ${half}px; }

QMenu { background: $sheet; border: 1px solid $rule; padding: ${half}px; }
QMenu::item { padding: ${half}px ${wide}px; }
QMenu::item:selected { background: $on_chosen; }

QLabel { background: transparent; }
QLabel[role="title"] { font-size: ${large}px; font-weight: 600; }
QLabel[role="figure"] { font-size: ${large}px; }
QLabel[role="result"] { font-size: ${large}px; font-weight: 600; }
QLabel[role="unit"] { font-size: ${large}px; color: $soft; }
QLabel[role="book"] { font-size: ${large}px; font-weight: 600; padding-left: 13px; }
QLabel[role="heading"] { font-size: ${small}px; font-weight: 600; color: $soft; }
QLabel[role="section"] { font-weight: 600; }
QLabel[role="needed"] { font-size: ${small}px; font-weight: 600; }
QLabel[role="asked"] { font-size: ${small}px; color: $soft; }
QLabel[role="strong"] { font-weight: 600; }
QLabel[role="soft"] { color: $soft; }
QLabel[role="small"] { font-size: ${small}px; color: $soft; }
QLabel[role="stage"] { color: $bluing; font-weight: 600; }
QLabel[role="loose"] { color: $ochre; }
QLabel[role="loud"] { color: $oxide; font-weight: 600; }
QLabel[role="error"] { color: $oxide; font-size: ${small}px; }
QLabel[role="hint"] { color: $ochre; font-size: ${small}px; }
QLabel[role="caution"] { color: $oxide; background: $on_caution; border-left: ${half}px solid $oxide; font-weight: 600;
    padding: ${half}px ${unit}px; }
QLabel[role="cry"] { color: $bluing; background: $on_cry; border-left: ${half}px solid $bluing; font-weight: 600;
    padding: ${half}px ${unit}px; }
QLabel[role="held"] { color: $ochre; background: $on_held; border-left: ${half}px solid $ochre; font-weight: 600;
    padding: ${unit}px; }
QLabel[role="kept"] { color: $patina; background: $on_kept; border-left: ${half}px solid $patina;
    padding: ${half}px ${unit}px; }

QFrame[role="sheet"] { background: $sheet; border: 1px solid $rule; }
QFrame[role="card"] { background: $on_card; border: 1px solid $bluing; border-left: ${half}px solid $bluing; }
QFrame[role="index"] { background: $on_index; border: none; border-right: 1px solid $rule; }
QFrame[role="head"] { background: $ground; border: none; border-bottom: 1px solid $rule; }
QFrame[role="foot"] { background: $ground; border: none; border-top: 1px solid $rule; }
QFrame[role="rule"] { background: $rule; border: none; max-height: 1px; min-height: 1px; }

QScrollArea { background: transparent; border: none; }
QScrollArea > QWidget > QWidget { background: transparent; }
QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle { background: $rule; border-radius: 4px; min-height: 32px; min-width: 32px; margin: 1px; }
QScrollBar::handle:hover { background: $soft; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }

QLineEdit, QPlainTextEdit, QComboBox { background: $sheet; border: 1px solid $edge; border-radius: 2px;
    padding: 5px ${unit}px; selection-background-color: $bluing; selection-color: $sheet;
    placeholder-text-color: $soft; }
QLineEdit:hover, QPlainTextEdit:hover, QComboBox:hover { border-color: $ink; }
QLineEdit:focus, QPlainTextEdit:focus, QComboBox:focus { border: 2px solid $bluing; padding: 4px 7px; }
QLineEdit[state="error"], QPlainTextEdit[state="error"], QComboBox[state="error"] { border-color: $oxide; }
QLineEdit[state="hint"], QPlainTextEdit[state="hint"], QComboBox[state="hint"] { border-color: $ochre; }
QLineEdit:disabled, QPlainTextEdit:disabled, QComboBox:disabled { background: $ground; color: $soft; }
QLineEdit[role="figure"] { font-size: ${large}px; }
QComboBox { combobox-popup: 0; }
QComboBox::drop-down { border: none; width: 24px; }
QComboBox QAbstractItemView { background: $sheet; border: 1px solid $edge; padding: ${half}px 0;
    selection-background-color: $on_chosen; selection-color: $ink; outline: none; }

QPushButton { background: $sheet; color: $bluing; border: 1px solid $bluing; border-radius: 2px; font-weight: 600;
    padding: 6px ${wide}px; }
QPushButton:hover { background: $on_hover; }
QPushButton:pressed { background: $on_chosen; }
QPushButton:focus { border: 2px solid $bluing; padding: 5px 15px; outline: none; }
QPushButton:disabled { color: $soft; border-color: $rule; background: transparent; }
QPushButton[role="main"] { background: $bluing; color: $sheet; }
QPushButton[role="main"]:hover, QPushButton[role="main"]:pressed { background: $pressed; }
QPushButton[role="main"]:focus { border: 2px solid $ink; }
QPushButton[role="main"]:disabled { background: $rule; color: $soft; border-color: $rule; }
QPushButton[role="quiet"] { background: transparent; border: 1px solid transparent; font-weight: 400;
    padding: 4px ${unit}px; }
QPushButton[role="quiet"]:hover { text-decoration: underline; }
QPushButton[role="quiet"]:focus { border: 2px solid $bluing; padding: 3px 7px; }
QPushButton[role="quiet"]:disabled { color: $soft; }
QPushButton[role="line"] { background: transparent; border: 1px solid transparent; font-weight: 400;
    padding: 0 ${unit}px; }
QPushButton[role="line"]:hover { text-decoration: underline; }
QPushButton[role="line"]:focus { border: 1px solid $bluing; }
QPushButton[role="index"] { background: transparent; border: none; border-left: ${half}px solid transparent;
    border-radius: 0; color: $ink; font-weight: 400; text-align: left; padding: ${unit}px 14px; }
QPushButton[role="index"]:hover { background: $on_hover; }
QPushButton[role="index"]:checked { background: $ground; color: $ink; font-weight: 600; border-left-color: $bluing; }
QPushButton[role="index"]:focus { color: $bluing; text-decoration: underline; }
QPushButton[role="tab"] { background: transparent; border: none; border-bottom: 3px solid transparent;
    border-radius: 0; color: $soft; font-weight: 400; padding: ${unit}px ${half}px; }
QPushButton[role="tab"]:hover { color: $ink; }
QPushButton[role="tab"]:checked { color: $ink; font-weight: 600; border-bottom-color: $bluing; }
QPushButton[role="tab"]:focus { color: $bluing; text-decoration: underline; }
QPushButton[role="row"] { background: transparent; border: 1px solid transparent; border-radius: 0; color: $ink;
    font-weight: 400; text-align: left; padding: ${half}px ${unit}px; }
QPushButton[role="row"]:hover { background: $on_hover; }
QPushButton[role="row"]:checked { background: $on_chosen; font-weight: 600; }
QPushButton[role="row"]:focus { border: 1px solid $bluing; }

QAbstractButton[role="step"], QAbstractButton[role="more"] { border: 1px solid transparent; }
QAbstractButton[role="step"]:hover, QAbstractButton[role="more"]:hover { background: $on_hover; }
QAbstractButton[role="step"]:focus, QAbstractButton[role="more"]:focus { border: 1px solid $bluing;
    background: $on_hover; }
QAbstractButton[role="held"] { background: $on_held; border: none; border-left: ${half}px solid $ochre; }
QAbstractButton[role="held"]:hover, QAbstractButton[role="held"]:focus { border: 1px solid $ochre;
    border-left: ${half}px solid $ochre; }
QAbstractButton[role="tab"] { border: none; border-bottom: 3px solid transparent; }
QAbstractButton[role="tab"]:hover { background: $on_hover; }
QAbstractButton[role="tab"]:checked { border-bottom-color: $bluing; }
QAbstractButton[role="tab"]:focus { background: $on_chosen; }
QFrame[role="strip"] { background: $on_cry; border: none; border-top: 1px solid $rule; }
QLabel[role="needs"] { color: $ochre; background: $on_held; border-left: ${half}px solid $ochre;
    padding: ${half}px ${unit}px; }

QCheckBox, QRadioButton { spacing: ${unit}px; padding: ${half}px; border: 1px solid transparent; }
QCheckBox:focus, QRadioButton:focus { border: 1px solid $bluing; outline: none; }
QCheckBox:disabled, QRadioButton:disabled { color: $soft; }
QCheckBox::indicator, QRadioButton::indicator { width: 14px; height: 14px; border: 1px solid $soft;
    background: $sheet; }
QRadioButton::indicator { border-radius: 8px; }
QCheckBox::indicator:checked, QRadioButton::indicator:checked { background: $bluing; border: 1px solid $bluing; }

QTableView, QListView { background: $sheet; border: none; outline: none; gridline-color: $rule;
    selection-background-color: $on_chosen; selection-color: $ink; }
QTableView::item { border-bottom: 1px solid $rule; padding: 0 ${unit}px; }
QTableView::item:selected { background: $on_chosen; color: $ink; }
QHeaderView { background: $sheet; }
QHeaderView::section { background: $sheet; color: $soft; border: none; border-bottom: 1px solid $rule;
    font-size: ${small}px; font-weight: 600; padding: ${half}px 11px; }
QListView::item { padding: ${half}px ${unit}px; border: none; }
QListView::item:selected { background: $on_chosen; color: $ink; }

QListView[role="shelf"]::item { border: 2px solid transparent; padding: ${half}px; }
QListView[role="shelf"]::item:focus { border: 2px solid $bluing; }
QListView[role="found"] { border: 1px solid $bluing; }

QProgressBar { background: $rule; border: none; max-height: 6px; min-height: 6px; }
QProgressBar::chunk { background: $bluing; }
"""
