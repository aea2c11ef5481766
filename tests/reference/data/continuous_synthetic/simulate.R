# The rows of two treatments in the invented cohort whose generator stands in ../../r.
source("../../r/synthetic-cohort.R"); d <- synth_cohort(4711)
write.csv(d[d$treatment != "ring", c("treatment", "mm_week6")], "week6.csv", row.names = FALSE, quote = FALSE)
