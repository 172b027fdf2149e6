"""A catalogue is tried alike one after another, in several processes, and on a cluster."""

from __future__ import annotations

import pickle
import warnings
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fitter.domain.catalogue import Candidate, Trial, ranked
from fitter.domain.layout import Verdict
from fitter.project.catalogue import read_catalogue
from fitter.project.mould import Mould
from fitter.workflow import cataloguing
from fitter.workflow.cataloguing import ClusterError, Tried, try_all, try_on_cluster
from fitter.workflow.fitting import fit

STOOP = """\
units: in
room:
  sides: {AB: 70, BC: 54, CD: 70, DA: 54}
  turns: {A: left, B: left}
wish: {shape: straight, against: [AB]}
frame: {seat_height: 17}
"""
LIST = """\
name,width,depth,thickness,price
two of these,24,24,4,40
three of these,20,24,4,30
too wide,72,24,4,90
too thick,24,24,14,90
"""


@pytest.fixture
def candidates(tmp_path: Path) -> tuple[Candidate, ...]:
    """Two that fit, one that the room is too narrow for, one that the seat is too low for."""
    project, listed = tmp_path / "stoop.yaml", tmp_path / "list.csv"
    project.write_text(STOOP, encoding="utf-8")
    listed.write_text(LIST, encoding="utf-8")
    mould = Mould(str(project))
    return mould.candidates(read_catalogue(str(listed), mould.unit))


def test_each_trial_is_the_fit_of_its_project(candidates: tuple[Candidate, ...]) -> None:
    tried = try_all(candidates, 1)
    assert [trial.candidate for trial in tried.trials] == list(candidates)
    assert [trial.verdict for trial in tried.trials] == [Verdict.PROVEN] * 2 + [Verdict.IMPOSSIBLE] * 2
    for trial in tried.trials[:3]:
        assert trial.candidate.project is not None
        assert trial.found is not None
        alone = fit(trial.candidate.project)
        assert (trial.found.layouts, trial.found.clash) == (alone.layouts, alone.clash)
        assert trial.found.seconds == 0.0
    assert tried.trials[3].found is None
    names = [trial.candidate.row.cushion.name for trial in ranked(tried.trials).best]
    assert names == ["three of these", "two of these"]


def test_processes_change_nothing(candidates: tuple[Candidate, ...]) -> None:
    heard: list[Trial] = []
    tried = try_all(candidates, 2, heard=heard.append)
    assert tried == try_all(candidates, 1)
    assert sorted(heard, key=lambda trial: trial.candidate.row.line) == list(tried.trials)


def test_what_is_handed_out_is_small(candidates: tuple[Candidate, ...]) -> None:
    """Some thousand bytes each way, so that sending them costs nothing beside solving."""
    (asked, *_), (trial, *_) = candidates, try_all(candidates[:1], 1).trials
    assert len(pickle.dumps((asked.project, trial.found))) < 40_000


def test_an_interruption_keeps_what_was_tried(candidates: tuple[Candidate, ...]) -> None:
    def stop(trial: Trial) -> None:
        if trial.candidate.row.line == 2:
            raise KeyboardInterrupt

    tried = try_all(candidates, 1, heard=stop)
    assert tried.interrupted
    assert [trial.candidate.row.line for trial in tried.trials] == [2, 5]


@pytest.fixture
def cluster() -> Iterator[Any]:
    """Two workers within this process, so that the test is quick."""
    distributed = pytest.importorskip("distributed")
    with warnings.catch_warnings():
        # What the library says of itself is no business of ours.
        warnings.simplefilter("ignore")
        started = distributed.LocalCluster(
            n_workers=2, threads_per_worker=2, processes=False, dashboard_address=None, silence_logs=50
        )
        with started:
            yield started


@pytest.mark.filterwarnings("ignore")
def test_a_cluster_changes_nothing(candidates: tuple[Candidate, ...], cluster: Any) -> None:
    assert try_on_cluster(cluster.scheduler_address, candidates) == try_all(candidates, 1)


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("address", ["tcp://127.0.0.1:9", "nonsense://here", "127.0.0.1:9"])
def test_nobody_answers(candidates: tuple[Candidate, ...], monkeypatch: pytest.MonkeyPatch, address: str) -> None:
    pytest.importorskip("distributed")
    monkeypatch.setattr(cataloguing, "PATIENCE", 0.3)
    with pytest.raises(ClusterError) as caught:
        try_on_cluster(address, candidates)
    assert caught.value.code == "no-cluster"
    assert address in str(caught.value)


def test_without_the_library_it_is_told_how_to_get_it(
    candidates: tuple[Candidate, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cataloguing, "find_spec", lambda _: None)
    with pytest.raises(ClusterError) as caught:
        try_on_cluster("tcp://127.0.0.1:9", candidates)
    assert caught.value.code == "no-cluster-library"
    assert "patio-fitter[cluster]" in caught.value.help


def test_nothing_to_solve(candidates: tuple[Candidate, ...]) -> None:
    refused = candidates[3:]
    assert try_all(refused, 2) == Tried((Trial(refused[0], None),))
