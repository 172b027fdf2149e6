"""A project file with some values written anew, read again with all its checks."""

from __future__ import annotations

from collections.abc import Mapping

from fitter.domain.project import Project
from fitter.project import project_of
from fitter.project.source import read_text
from fitter.project.tree import Data, Tree, read_tree
from fitter.project.varying import changed


def rewritten(path: str, values: Mapping[str, str]) -> Project:
    """The project of a file in which some keys have other values.

    Args:
        path: of the file.
        values: key paths such as `room.routes.0.width`, each with what is written there, in one line.

    Raises:
        ProjectError: a file with these values cannot be used.
    """
    tree = read_tree(read_text(path), path)
    data: Data = tree.data
    for key, text in values.items():
        data = changed(data, key.split("."), read_tree(text, path).data)
    return project_of(Tree(tree.file, data, dict(tree.places), dict(tree.keys), list(tree.findings)))
