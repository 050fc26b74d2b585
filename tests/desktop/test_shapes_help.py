"""Keys that the page on shapes names lead where it says."""

from armorplan.app.help_pages import page_text
from armorplan.desktop.actions import TABLE


def test_keys_named_on_the_page_lead_there():
    text, keys = page_text("shapes"), {key: action.id for action in TABLE for key in action.keys}
    named = {
        "Ctrl+M": "go_shapes",
        "F6": "how_reckoned",
        "Ctrl+D": "all_marks",
        "Ctrl+B": "test_strip",
    }
    for key, action in named.items():
        assert f"`{key}`" in text
        assert keys[key] == action
