# Expected values of this package's tests, as R 4.2.2 gives them with fitdistrplus 1.1-8 and
# evd 2.3-6.1 from Debian: Rscript check.R
suppressMessages({library(fitdistrplus); library(evd)})
show <- function(what, x) cat(what, sprintf("%.10g", x), "\n")
x <- c(118, 121, 97, 130, 125, 110, 140, 115, 122, 128)  # invented frost dates

show("quantile type 7", quantile(x, c(.05, .1, .2, .5, .8, .9, .95), type = 7))

n <- length(x)
for (p in c(.1, .2, .5, .8, .9)) {
  f <- function(k, chance) pbeta(p, k, n + 1 - k) - chance
  show(paste("fractional ranks of the 90 % interval, p", p),
       sapply(c(.95, .05), function(chance) uniroot(f, c(1e-9, n + 1 - 1e-9), chance = chance, tol = 1e-12)$root))
}
for (p in c(.1, .5))
  show(paste("normal quantile interval, p", p), mean(x) + sd(x) * qt(c(.05, .95), n - 1, qnorm(p) * sqrt(n)) / sqrt(n))
for (a in list(c(.05, 9, -4.0526), c(.95, 9, -4.0526), c(.95, 39, 0), c(.05, 1, -2), c(.95, 1, -2), c(.05, 4, .5), c(.95, 199, 18)))
  show(paste("noncentral t", toString(a)), suppressWarnings(qt(a[1], a[2], a[3])))
for (a in list(c(0, 10), c(1, 10), c(5, 10), c(10, 10), c(37, 45)))
  show(paste("Wilson", toString(a)), suppressWarnings(prop.test(a[1], a[2], conf.level = .9, correct = FALSE))$conf.int)

# Maximum likelihood divides by n.
show("fitdist normal", fitdist(x, "norm")$estimate)

# CRPS from its definition, for a normal and for a Gumbel distribution.
crps <- function(cdf, y) integrate(function(v) cdf(v)^2, -Inf, y, rel.tol = 1e-12)$value +
  integrate(function(v) (1 - cdf(v))^2, y, Inf, rel.tol = 1e-12)$value
show("CRPS N(0,1) at 0 1 2", sapply(0:2, function(y) crps(pnorm, y)))
show("CRPS Gumbel(2, 3) at -1 2 9", sapply(c(-1, 2, 9), function(y) crps(function(v) pgumbel(v, 2, 3), y)))

for (k in c(1.2, 1.8, 2.5)) {
  s <- (1:20)^k
  u <- pnorm((s - mean(s)) / sd(s))
  i <- 1:20
  a <- -20 - mean((2 * i - 1) * (log(u) + log(1 - rev(u))))
  b <- a * (1 + .75 / 20 + 2.25 / 400)
  p <- if (b < .34) 1 - exp(-8.318 + 42.796 * b - 59.938 * b^2) else if (b < .6)
    exp(.9177 - 4.279 * b - 1.38 * b^2) else exp(1.2937 - 5.709 * b + .0186 * b^2)
  show(paste("Anderson-Darling, (1:20)^", k, sep = ""), c(a, p))
}
