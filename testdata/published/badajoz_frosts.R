# Counts the frost dates of Badajoz independently of this program, in R.
# Run from the repository's root: Rscript testdata/published/badajoz_frosts.R > testdata/published/badajoz_frosts.csv
# Made with R 4.2.2 (Debian 12); the record is data set tempb of the package ks 1.14.0 (Debian r-cran-ks),
# a GHCN-Daily station, written to testdata/stations/badajoz.csv by badajoz_export.R.
d <- read.csv("testdata/stations/badajoz.csv")
d$date <- as.Date(d$date)
cat("# R 4.2.2, testdata/published/badajoz_frosts.R; cold year 1 August to 31 July; seasons with every day of\n")
cat("# November to April (spring: the half from November, autumn: the half to April) measured\n")
cat("threshold,half,season,date\n")
first <- as.integer(format(min(d$date), "%Y")); last <- as.integer(format(max(d$date), "%Y"))
tmin <- setNames(d$tmin, as.character(d$date))
for (t in c(0, 2)) for (y in (first + 1):(last - 1)) {
  spring <- seq(as.Date(paste0(y - 1, "-08-01")), as.Date(paste0(y, "-07-31")), "day")
  autumn <- seq(as.Date(paste0(y, "-08-01")), as.Date(paste0(y + 1, "-07-31")), "day")
  s <- tmin[as.character(spring)]; a <- tmin[as.character(autumn)]
  need <- function(v, days) all(!is.na(v[as.character(days)]))
  winter1 <- seq(as.Date(paste0(y - 1, "-11-01")), as.Date(paste0(y, "-04-30")), "day")
  winter2 <- seq(as.Date(paste0(y, "-11-01")), as.Date(paste0(y + 1, "-04-30")), "day")
  if (need(s, winter1)) { f <- spring[which(s <= t)]; cat(t, ",spring,", y, ",", if (length(f)) as.character(max(f)) else "none", "\n", sep = "") }
  if (need(a, winter2)) { f <- autumn[which(a <= t)]; cat(t, ",autumn,", y, ",", if (length(f)) as.character(min(f)) else "none", "\n", sep = "") }
}
