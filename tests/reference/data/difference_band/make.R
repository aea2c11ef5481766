# Band for the difference over time of two cumulative incidences. Influences by survfit (package survival), summed within clusters; the largest standardised
# process over the times from 200,000 draws in which the influences of each cluster are multiplied by one normal number.
source("../../r/records.R"); suppressMessages(library(survival))
rd <- function(f) read.csv(f, check.names = FALSE); m <- rd("../competing_means/mgus2.csv"); f <- rd("../competing_means/fingers.csv")
# share with cause 1 and the influence of each row on it, at each of the times
share <- function(entry, time, cause, at) { late <- any(entry > -Inf); st <- factor(cause, c(0, sort(unique(cause[cause > 0])))); d <- data.frame(time, st, row = seq_along(time)); if (late) d$entry <- entry
  s <- if (late) survfit(Surv(entry, time, st) ~ 1, d, id = row, influence = TRUE) else survfit(Surv(time, st) ~ 1, d, id = row, influence = TRUE)
  I <- s$influence.pstate; first <- dim(I)[2] - length(s$time); j <- match("1", s$states); k <- sapply(at, function(t) sum(s$time <= t))
  list(F = ifelse(k > 0, s$pstate[pmax(k, 1), j], 0), I = sapply(k, function(i) if (i > 0) I[, first + i, j] else rep(0, length(time)))) }
band <- function(time, cause, group, at, stratum = rep(0, length(time)), cluster = seq_along(time), entry = rep(-Inf, length(time)), seed = 17) {
  w <- table(stratum)/length(time); D <- rep(0, length(at)); X <- matrix(0, length(time), length(at))
  for (s in names(w)) for (g in 0:1) { i <- which(stratum == s & group == g); r <- share(entry[i], time[i], cause[i], at); sign <- if (g == 1) w[[s]] else -w[[s]]; D <- D + sign*r$F; X[i, ] <- sign*r$I }
  U <- rowsum(X, cluster); se <- sqrt(colSums(U^2)); keep <- se > 1e-12; Z <- sweep(U[, keep, drop = FALSE], 2, se[keep], "/"); set.seed(seed)
  largest <- unlist(lapply(1:40, function(chunk) apply(abs(matrix(rnorm(5000*nrow(Z)), 5000) %*% Z), 1, max)))
  critical <- function(level) quantile(largest, level, type = 1, names = FALSE); each <- sapply(1:40, function(c) quantile(largest[(c - 1)*5000 + 1:5000], .95, type = 1))
  list(times = at, difference = D, se = se, units = nrow(U), critical_95 = critical(.95), critical_90 = critical(.9), monte_carlo_error = sd(each)/sqrt(40)) }
M <- "difference of Aalen-Johansen shares with cause 1, group 1 less group 0"
write_expected(list(topic = "Band for a difference over time", software = software("survival"),
  conventions = list(se = "root of the summed squares of the influences, summed within clusters", critical = "quantile of the largest |process| / se over the times at which se > 0, of 200,000 draws; no widening for few units"),
  cases = list(
  case("mgus2", "../competing_means/mgus2.csv", M, list(groups = "women 0, men 1"), with(m, band(months, cause, +(sex == "M"), seq(12, 240, 12)))),
  case("fingers", "../competing_means/fingers.csv", M, list(cluster = "person"), with(f, band(time, cause, group, seq(6, 60, 3), cluster = person))),
  case("fingers_late_entry", "../competing_means/fingers.csv", M, list(cluster = "person", entry = "entry"), with(f, band(time, cause, group, seq(30, 60, 3), cluster = person, entry = entry))),
  case("fingers_standardised", "../competing_means/fingers.csv", paste(M, "standardised over grades", sep = ", "), list(cluster = "person"), with(f, band(time, cause, group, seq(6, 60, 3), grade, person))))))
