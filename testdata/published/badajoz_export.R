# Writes the data set tempb of the R package ks (Debian r-cran-ks 1.14.0) as a plain CSV.
# Run from the repository's root: Rscript testdata/published/badajoz_export.R
suppressMessages(library(ks)); data(tempb)
d <- data.frame(date = sprintf("%04d-%02d-%02d", tempb$year, tempb$month, tempb$day), tmin = tempb$tmin, tmax = tempb$tmax)
write.csv(d, "testdata/stations/badajoz.csv", row.names = FALSE, quote = FALSE, na = "")
