source("../../r/records.R"); source("../../r/curves.R"); rd <- function(f) read.csv(f, check.names = FALSE)
fr <- rd("freireich.csv"); a <- subset(fr, group == "6-MP"); b <- subset(fr, group == "placebo"); lu <- rd("lung.csv")
M <- "Restricted mean (area under the product-limit curve to tau)"
two <- function(x, y, taus, nm) lapply(taus, function(t) { u <- rmst_block(x$time, x$status, t); v <- rmst_block(y$time, y$status, t)
  r <- list(u, v); names(r) <- nm; c(list(tau = t), r, list(difference_first_minus_second = rmst_diff(u, v))) })
a$time <- a$weeks; a$status <- a$relapse; b$time <- b$weeks; b$status <- b$relapse
F <- two(a, b, c(6, 10, 20, 23), c("6-MP", "placebo")); Lg <- two(lu[lu$sex == 2, ], lu[lu$sex == 1, ], c(182.5, 365, 730, 965), c("sex 2", "sex 1"))
whole <- lapply(c(35, 40), function(t) rmst_block(a$time, a$status, t))
s <- summary(survfit(Surv(time, status) ~ 1, lu))$table
write_expected(list(topic = "Restricted mean time", software = software("survival"),
  conventions = list(variance = "sum over event times t <= tau of (area from t to tau)^2 * d/(n(n-d)); no n/(n-1) factor; a term with zero remaining area is 0 even when n = d",
    beyond = "tau past the last observation: the curve is carried flat at its last value",
    difference = "independent groups, normal test; ratio on the log scale by the delta method"),
  cases = list(
  case("freireich_groups", "freireich.csv", M, list(time = "weeks", event = "relapse"), F),
  case("freireich_6mp_at_and_beyond_last", "freireich.csv", M, list(where = "group = 6-MP"), whole, note = "last follow-up is a censored time at week 35"),
  case("lung_by_sex", "lung.csv", M, list(time = "time", event = "status"), Lg),
  case("lung_all", "lung.csv", M, NULL, lapply(c(182.5, 365, 730, 1022), function(t) rmst_block(lu$time, lu$status, t)),
    list(pub("Documentation output of R package survival (print with restricted mean)", "lung, area to day 1022", "376", rmst_one(lu$time, lu$status, 1022)$estimate))))))
