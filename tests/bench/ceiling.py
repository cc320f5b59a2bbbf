"""How well the mistakes could be told by somebody who knows the simulator: the likelihood-ratio ceiling.

The simulator's own distribution is fitted by a mixture of normal distributions on many more of its dogs; every mistake
is undone exactly as it is made, and all are equally likely. Nothing could do better but for the error of the fit.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tests.bench.made_mistakes import Made


@dataclass(frozen=True, kw_only=True)
class Mixture:
    """Normal distributions over the logarithms of six measures."""

    shares: np.ndarray
    means: np.ndarray
    covariances: np.ndarray

    def log_density(self, logs: np.ndarray, columns: tuple[int, ...]) -> np.ndarray:
        """Give the log density of rows, of which only some columns count."""
        places = np.array(columns)
        parts = np.empty((len(logs), len(self.shares)))
        for part, (share, mean, covariance) in enumerate(zip(self.shares, self.means, self.covariances, strict=True)):
            root = np.linalg.cholesky(covariance[np.ix_(places, places)])
            white = np.linalg.solve(root, (logs[:, places] - mean[places]).T)
            scale = np.log(np.diag(root)).sum() + 0.5 * len(places) * np.log(2 * np.pi)
            parts[:, part] = np.log(share) - 0.5 * (white**2).sum(axis=0) - scale
        return np.logaddexp.reduce(parts, axis=1)


def fitted(logs: np.ndarray, *, parts: int = 40, rounds: int = 40, seed: int = 0) -> Mixture:
    """Fit a mixture by expectation and maximisation."""
    rng = np.random.default_rng(seed)
    size = logs.shape[1]
    mixture = Mixture(
        shares=np.full(parts, 1 / parts),
        means=logs[rng.choice(len(logs), parts, replace=False)],
        covariances=np.array([np.cov(logs.T) / 4] * parts),
    )
    for _ in range(rounds):
        mixture = _improved(mixture, logs, size)
    return mixture


def _improved(mixture: Mixture, logs: np.ndarray, size: int) -> Mixture:
    joint = np.column_stack(
        [
            Mixture(
                shares=mixture.shares[[k]], means=mixture.means[[k]], covariances=mixture.covariances[[k]]
            ).log_density(logs, tuple(range(size)))
            for k in range(len(mixture.shares))
        ]
    )
    weights = np.exp(joint - joint.max(axis=1, keepdims=True))
    weights /= weights.sum(axis=1, keepdims=True)
    counts = weights.sum(axis=0) + 1e-9
    means = (weights.T @ logs) / counts[:, None]
    covariances = np.empty_like(mixture.covariances)
    for k, mean in enumerate(means):
        off = logs - mean
        covariances[k] = (off * weights[:, [k]]).T @ off / counts[k] + 1e-5 * np.eye(size)
    return Mixture(shares=counts / counts.sum(), means=means, covariances=covariances)


def evidence(mixture: Mixture, told: np.ndarray, kinds: Sequence[Made]) -> np.ndarray:
    """Give the log likelihood ratio of each mistake against a sound dog: a row a dog, a column a kind."""
    logs = np.log(told)
    sound = mixture.log_density(logs, (0, 1, 2, 3, 4))
    columns = []
    for kind in kinds:
        ways = [mixture.log_density(right, places) + share for right, places, share in kind.undo(logs)]
        columns.append(np.logaddexp.reduce(ways, axis=0) - sound)
    return np.column_stack(columns)
