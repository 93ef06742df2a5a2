"""What differs between two revisions of an entry, in words."""

from catalog import Revision, differences, sentences


def changes(before: Revision, after: Revision) -> str:
    """What differs between two revisions, in one line."""
    said = [f"name: {before.name} -> {after.name}"] if before.name != after.name else []
    said += sentences(differences(before.content, after.content))
    if before.is_withdrawn != after.is_withdrawn:
        said.append("taken out of use" if after.is_withdrawn else "in use again")
    return "; ".join(dict.fromkeys(said)) or "nothing"
