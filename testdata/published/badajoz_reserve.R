# A planting of Badajoz and its reserve, season by season, independently of this program, in R.
# Run from the repository's root: Rscript testdata/published/badajoz_reserve.R > testdata/published/badajoz_reserve.csv
# Made with R 4.2.2 (Debian 12) from testdata/stations/badajoz.csv (see badajoz_export.R).
# An invented crop that 2 °C kills, out on 1 March, ready after 60 days of growth and worth its bed once it has been
# picked for 14 days; its reserve on 22 March: spare plants in place of what has been killed by then, or a second planting.
d <- read.csv("testdata/stations/badajoz.csv")
day <- function(y, m, n) as.Date(sprintf("%d-%s-01", y, m)) + n - 1
at <- function(days) d[match(days, as.Date(d$date)), ]
play <- function(start) {
  grows <- at(start + 1:59); picked <- at(start + 59 + 1:13)
  k <- which(grows$tmin <= 2)
  list(lost = length(k) > 0, on = if (length(k)) start + k[1] else NA, crop = length(k) == 0 && !any(picked$tmin <= 2))
}
cat("# R 4.2.2, testdata/published/badajoz_reserve.R; seasons with every day from 1 March to 30 June measured\n")
cat("season,first,second,spare,again\n")
n <- 0; sum <- c(0, 0, 0, 0)
for (y in 1955:2015) {
  whole <- at(seq(day(y, "03", 1), day(y, "06", 30), "day"))
  if (any(is.na(whole$tmin)) || any(is.na(whole$tmax))) next
  a <- play(day(y, "03", 1)); b <- play(day(y, "03", 22))
  goes <- a$lost && a$on <= day(y, "03", 22)
  r <- c(a$crop, b$crop, if (goes) b$crop else a$crop, a$crop || b$crop)
  cat(y, r + 0, sep = ","); cat("\n")
  n <- n + 1; sum <- sum + r
}
cat("all", sprintf("%.6f", sum / n), sep = ","); cat("\n")
