# The non-central t of R warns where its own series ends at a millionth of a millionth.
options(warn = -1); source("../../r/records.R"); source("../../r/continuous.R"); d <- read.csv("week6.csv")
of <- function(treatment) d$mm_week6[d$treatment == treatment]
write_expected(list(topic = "Two groups of a large SYNTHETIC cohort", software = software(),
  cases = list(case("continuous", "week6.csv", "continuous", NULL,
    list(week6_surgery_minus_tape = t_block(of("surgery"), of("tape")), rank_sum = mw_block(of("surgery"), of("tape"))), rel = 1e-7))))
