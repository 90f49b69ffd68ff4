"""What is usual on each day of the year (biweight mean and spread), and helpers of the checks."""
import numpy as np

ENOUGH, WINDOW, BIWEIGHT = 100, 7, 7.5


def pad(v):
    """A missing day before and after."""
    out = np.full((2, v.shape[1] + 2), np.nan)
    out[:, 1:-1] = v
    return out


def runs(mask, least):
    """First index and length of the runs of at least so many true values."""
    at = np.flatnonzero(mask)
    if len(at) < least or not (at[least - 1:] - at[:len(at) - least + 1] == least - 1).any():
        return []
    parts = np.split(at, np.flatnonzero(np.diff(at) != 1) + 1)
    return [(p[0], len(p)) for p in parts if len(p) >= least]


def tenths(x):
    """Bins of a tenth, from -90 °C; halves away from 0."""
    return (np.copysign(np.floor(np.abs(x) * 10 + 0.5), x) + 900).astype(int)


def usual(day, v):
    """Biweight mean and standard deviation (Lanzante 1996) by day of the year, from the values of
    either element within a week of it; counted by tenths, so that nothing is sorted."""
    mean, sd = np.full((2, 2, 365), np.nan)
    for e, x in enumerate(v):
        at = np.flatnonzero(x == x)
        if len(at) >= ENOUGH:
            mean[e], sd[e] = biweight(day[at], tenths(x[at]))
    return mean, sd


def biweight(day, bins):
    low = bins.min()
    width = bins.max() - low + 1
    count = np.bincount(day * width + (bins - low), minlength=365 * width).reshape(365, width)
    around = np.zeros((365 + 2 * WINDOW + 1, width))
    np.cumsum(count[np.arange(-WINDOW, 365 + WINDOW) % 365], axis=0, out=around[1:])
    count = around[2 * WINDOW + 1:] - around[:-2 * WINDOW - 1]  # of the days within the window
    up_to = np.zeros((365, width + 1))
    np.cumsum(count, axis=1, out=up_to[:, 1:])
    n = up_to[:, -1]
    half = n // 2 + 1
    mid = np.minimum((up_to[:, 1:] < half[:, None]).sum(axis=1), width - 1)
    # the least distance from it with half of the values, by halving, all days at once
    row, short, far = np.arange(365), np.full(365, -1), np.full(365, width)
    while (far - short > 1).any():
        d = (short + far) // 2
        has = up_to[row, np.minimum(mid + d + 1, width)] - up_to[row, np.maximum(mid - d, 0)] >= half
        far, short = np.where(has, d, far), np.where(has, short, d)
    mean, sd = np.full((2, 365), np.nan)
    for a in range(0, 365, 40):  # as many days at once as stay in the processor's cache
        d = slice(a, min(a + 40, 365))
        mean[d], sd[d] = moments(count[d], n[d], mid[d], far[d].astype(float))
    mean = (mean + low - 900) / 10
    mean[n < ENOUGH] = sd[n < ENOUGH] = np.nan
    return mean, sd


def moments(count, n, mid, mad):
    """Mean (in bins) and standard deviation of days whose values are counted by bins."""
    x = np.arange(count.shape[1]) - mid[:, None].astype(float)
    flat = mad == 0
    u = x / (BIWEIGHT * np.where(flat, 1, mad))[:, None]
    u *= u
    v = np.maximum(1 - u, 0)
    one = count * v
    den = one.sum(axis=1) - 5 * np.einsum("ij,ij->i", one, u)
    two = np.multiply(one, v, out=one)
    weights, first = two.sum(axis=1), np.einsum("ij,ij->i", two, x)
    v *= v
    v *= two
    x *= x
    num = np.einsum("ij,ij->i", v, x)
    with np.errstate(invalid="ignore", divide="ignore"):  # days of which nothing is known
        mean, sd = mid + first / weights, np.sqrt(n * num) / np.abs(den) / 10
    return np.where(flat, mid, mean), np.where(flat, np.nan, sd)
