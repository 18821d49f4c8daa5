"""Undo and redo: one word of typing is one step, and every sequence comes back."""

from hypothesis import given
from hypothesis import strategies as st

from authoring.editor.history import History


def test_typing_under_one_key_is_one_step_until_sealed() -> None:
    history = History("")
    for value in ("w", "wo", "wor"):
        history = history.edited("Type", value, "title")
    assert history.undo().value == ""
    sealed = history.sealed().edited("Type", "word", "title")
    assert sealed.undo().value == "wor"


def test_an_edit_that_changes_nothing_is_no_step() -> None:
    assert not History(1).edited("Set", 1).steps


def test_a_new_edit_forgets_what_was_undone() -> None:
    history = History(1).edited("Set", 2).undo().edited("Set", 3)
    assert history.redo().value == 3


ACTIONS = st.lists(
    st.one_of(
        st.tuples(st.just("edit"), st.integers(0, 5), st.sampled_from(["", "a", "b"])),
        st.just(("undo",)),
        st.just(("redo",)),
        st.just(("seal",)),
    ),
    max_size=40,
)


def act(history: History[int], action: tuple[object, ...]) -> History[int]:
    match action:
        case ("edit", int(value), str(key)):
            return history.edited("Set", value, key)
        case ("undo",):
            return history.undo()
        case ("redo",):
            return history.redo()
    return history.sealed()


@given(ACTIONS)
def test_undoing_all_gives_the_first_value_and_redoing_all_the_last(
    actions: list[tuple[object, ...]],
) -> None:
    history = History(0)
    for action in actions:
        history = act(history, action)
    last = history.value
    ahead = len(history.undone)
    while history.undone:
        history = history.redo()
    furthest = history.value
    while history.steps:
        history = history.undo()
    assert history.value == 0
    while history.undone:
        history = history.redo()
    assert history.value == furthest
    for _ in range(ahead):
        history = history.undo()
    assert history.value == last
