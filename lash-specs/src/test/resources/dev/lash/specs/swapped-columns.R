# Writes swapped-columns.csv from the data set Davis of the R package carData, for OpenDataImportTest:
#   Rscript swapped-columns.R > swapped-columns.csv
# Each person becomes a machine: the weight, kilograms as micrometres, is the reading of an intake valve, the height,
# centimetres as micrometres, that of an exhaust valve. Only these two columns are used. Day and usage are made up: the
# data have none, and each machine has one visit.
library(carData)
cat("machine,date,usage,valve,clearance\n")
for (i in seq_len(nrow(Davis))) {
  cat(sprintf("Row %d,2031-04-02,0 km,1-in-1,%.3f\n", i, Davis$weight[i] / 1000))
  cat(sprintf("Row %d,2031-04-02,0 km,1-ex-1,%.3f\n", i, Davis$height[i] / 1000))
}
