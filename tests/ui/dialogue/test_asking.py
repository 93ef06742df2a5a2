"""Questions in the terminal: Ctrl+C stops them wherever it comes."""

from types import SimpleNamespace

import pytest

from ui.commands.asking import DialogueStopped, ask_all
from ui.shared.dialogue.questions import Question, Script


@pytest.mark.parametrize("pressed_while", ["the question is made", "the line is read", "the whole is looked at"])
def test_ctrl_c_stops_the_questions_wherever_it_comes(pressed_while: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def press(*_: object) -> str:
        raise KeyboardInterrupt

    def script() -> Script[str]:
        if pressed_while == "the question is made":
            press()
        yield Question(key="name", asks="Name?", allowed="a name", explains="Read it.", reads=str)
        return "told"

    read = press if pressed_while == "the line is read" else lambda: "Blue hardtail\n"
    monkeypatch.setattr("sys.stdin", SimpleNamespace(readline=read))
    with pytest.raises(DialogueStopped):
        ask_all(script, wrong=press)
