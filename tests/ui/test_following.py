"""The window follows what is written, and does not read its page anew for every entry of an import."""


def test_many_changes_in_a_moment_refresh_the_page_in_sight_twice_and_none_is_lost(qtbot, window, monkeypatch):
    heard = []
    monkeypatch.setattr(window, "_refresh", lambda kinds: heard.append(set(kinds)))
    for number in range(30):
        window.changed.emit({f"kind{number}/1"})
    qtbot.waitUntil(lambda: sum(len(kinds) for kinds in heard) == 30)
    assert len(heard) == 2
