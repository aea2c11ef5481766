# Writes openxlsx.xlsx with R package openxlsx. SYNTHETIC data.
library(openxlsx)
book <- createWorkbook()
addWorksheet(book, "Patients")
writeData(book, "Patients", "SYNTHETIC", startRow = 1)
mergeCells(book, "Patients", cols = 1:6, rows = 1)
rows <- data.frame(
  Who = c("P01", "P02", "007"),
  Injured = as.Date(c("2024-03-04", "1999-12-31", "2024-02-29")),
  rest = c(2.4, 0.1 + 0.2, 3),
  Back = as.POSIXct(c("2024-06-03 14:30", NA, "2024-06-03 00:00"), tz = "UTC"),
  Taped = c(TRUE, FALSE, NA),
  Note = c("Größe & <Wert>", "two\nlines", "  spaces  ")
)
names(rows)[3] <- "TPD rest (mm)"
writeData(book, "Patients", rows, startRow = 3)
addStyle(book, "Patients", createStyle(numFmt = "dd.mm.yyyy"), rows = 4:6, cols = 2)
setRowHeights(book, "Patients", rows = 5, heights = 15)
setColWidths(book, "Patients", cols = 6, widths = 8, hidden = TRUE)
addWorksheet(book, "Empty")
addWorksheet(book, "Legend")
writeData(book, "Legend", data.frame(TPD = "distance"))
saveWorkbook(book, "openxlsx.xlsx", overwrite = TRUE)
cat(as.character(packageVersion("openxlsx")), "\n")
