# The regression of climate/site on an invented log of two springs, by nlme's generalised least squares
# (no prior) and in closed form (with one). Run: Rscript site_regression.R > site_regression.csv
# Made with R 4.2.2 and nlme 3.1-162.
library(nlme)
set.seed(7)
n <- 40
log <- data.frame(season = rep(1:2, each = n / 2), day = sort(sample(59:150, n, TRUE)), tmin = round(rnorm(n, 3, 3), 1),
                  before = round(runif(n, 9, 20), 1), after = round(runif(n, 9, 20), 1), fall = round(rnorm(n, 0, 3), 1))
range <- pmin(18, pmax(0, (log$before + log$after) / 2 - log$tmin))
w <- cos(2 * pi * (log$day - 15) / 365)
u <- log$tmin - (5 - 6 * cos(2 * pi * log$day / 365) - 2 * sin(2 * pi * log$day / 365)) + 3
share <- pmin(1, 0.4 + 0.09 * range) * exp(0.15 * w)
log$spot <- round(log$tmin - 1.5 - 0.17 * (range - 10) + share * rnorm(n, 0, 1.2), 1)
y <- log$spot - log$tmin
X <- cbind(1, range - 10, w, u, log$fall)
d <- data.frame(y, r = X[, 2], w, u, p = log$fall, share2 = share^2, season = factor(log$season))
g <- gls(y ~ r + w + u + p, d, weights = varFixed(~share2), correlation = corCompSymm(0.115, ~ 1 | season, fixed = TRUE))
# With a prior: means m, covariance S, and a night's spread of 1.3 degrees.
m <- c(-1.6, -0.15, -0.2, 0.02, 0.1)
S <- diag(c(0.8, 0.07, 0.2, 0.03, 0.06)^2); S[1, 2] <- S[2, 1] <- 0.03
s <- 1.3
V <- s^2 * (0.885 * diag(share^2) + 0.115 * outer(share, share) * outer(log$season, log$season, "=="))
P <- solve(S); A <- P + t(X) %*% solve(V, X)
b <- solve(A, P %*% m + t(X) %*% solve(V, y)); C <- solve(A)
row <- function(name, x) cat(paste(c(name, x), collapse = ","), "\n", sep = "")
for (k in names(log)) row(k, log[[k]])
row("gls", format(coef(g), digits = 12, trim = TRUE))
row("posterior", format(b, digits = 12, trim = TRUE))
row("sd", format(sqrt(diag(C)), digits = 12, trim = TRUE))
