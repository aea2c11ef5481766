# The made-up data sets (seeded draws) stand in sets.json, by case; the figures are those of cmprsk and survival, or written out.
source("../../r/records.R"); suppressPackageStartupMessages({library(survival); library(cmprsk); library(jsonlite)})
sets <- fromJSON("sets.json"); Z95 <- qnorm(.975)
one <- function(id, expected, rel = 1e-9) list(id = id, tolerance = list(rel = rel, abs = 1e-12), data = lapply(sets[[id]], arr), expected = expected)

## ---- competing events with heavy ties --------------------------------------------------
tied <- function(id, rho) { d <- sets[[id]]; x <- cbind(d$x1, d$x2)
  fit <- function(...) crr(d$time, d$cause, x, failcode = 1, gtol = 1e-12, maxiter = 100, ...)
  f <- fit(); g <- fit(cengroup = d$censoring_group); p <- predict(f, c(1, .5))
  gray <- function(...) unname(cuminc(d$time, d$cause, d$group, rho = rho, ...)$Tests[, 1])
  one(id, list(rho = rho, coef = unname(f$coef), variance = unname(f$var), coef_by_censoring_group = unname(g$coef), loglik = f$loglik, loglik_null = f$loglik.null,
    gray = gray(), gray_strata = gray(strata = d$stratum), predicted = list(x = c(1, .5), time = p[, 1], incidence = p[, 2])), 1e-6) }

## ---- clustered log-rank: robust score test at a ratio of 1, Breslow ties ----------------
clustered <- function(id) { d <- sets[[id]]; g <- factor(d$group); # one fit has no finite coefficient; the score at 0 does not need it
  score <- function(form) as.numeric(suppressWarnings(coxph(form, ties = "breslow", cluster = d$cluster))$rscore)
  one(id, list(plain = score(Surv(d$time, d$event) ~ g), strata = score(Surv(d$time, d$event) ~ g + strata(d$stratum)), entry = score(Surv(d$entry, d$time, d$event) ~ g))) }

## ---- every deal of the groups within strata ----------------------------------------------
# all distinct orders of the elements of x, a row each
orders <- function(x) if (length(x) <= 1) matrix(x, 1) else do.call(rbind, lapply(unique(x), function(v) cbind(v, orders(x[-match(v, x)]))))
deals <- function(id, rho = 0) { d <- sets[[id]]; n <- length(d$time); strata <- sort(unique(d$stratum)); all <- matrix(0, 1, n)
  for (s in strata) { i <- which(d$stratum == s); o <- orders(d$group[i]); k <- nrow(all); all <- all[rep(seq_len(k), nrow(o)), , drop = FALSE]; all[, i] <- o[rep(seq_len(nrow(o)), each = k), ] }
  surplus <- function(g) { f <- if (length(strata) > 1) survdiff(Surv(d$time, d$event) ~ g + strata(d$stratum), rho = rho) else survdiff(Surv(d$time, d$event) ~ g, rho = rho)
    if (is.matrix(f$obs)) rowSums(f$obs - f$exp) else f$obs - f$exp }
  u <- t(apply(all, 1, surplus)); here <- surplus(d$group); k <- seq_along(here)[-1]
  # over every deal the surplus has mean 0; its covariance has the number of deals as divisor
  V <- crossprod(u)/nrow(u); chisq <- function(v) as.numeric(t(v[k]) %*% solve(V[k, k, drop = FALSE], v[k])); all_chisq <- apply(u, 1, chisq); e <- 1e-9
  one(id, list(deals = nrow(u), chisq = chisq(here), p = mean(all_chisq >= chisq(here) - e), more = mean(u[, 1] >= here[1] - e), fewer = mean(u[, 1] <= here[1] + e))) }

## ---- two curves at a time, and the one-step ratio ------------------------------------------
fr <- read.csv("../logrank/freireich.csv")
curve <- function(word, at) { s <- summary(survfit(Surv(weeks, relapse) ~ 1, fr[fr$group == word, ], conf.type = "log-log"), times = at)
  list(share = 1 - s$surv, se = s$std.err, lower = 1 - s$upper, upper = 1 - s$lower) }
landmark <- function(at) { a <- curve("6-MP", at); b <- curve("placebo", at); d <- a$share - b$share; s <- sqrt(a$se^2 + b$se^2)
  log_ratio <- log(a$share/b$share); sr <- sqrt((a$se/a$share)^2 + (b$se/b$share)^2)
  # test of equal shares on the scale log(-log(survival))
  g <- function(x) log(-log(1 - x$share)); v <- function(x) (x$se/((1 - x$share)*log(1 - x$share)))^2
  list(time = at, difference = d, se = s, plain = d + c(-1, 1)*Z95*s,
    hybrid = d + c(-1, 1)*sqrt(c((a$share - a$lower)^2 + (b$upper - b$share)^2, (a$upper - a$share)^2 + (b$share - b$lower)^2)),
    ratio = exp(log_ratio), ratio_ci = exp(log_ratio + c(-1, 1)*Z95*sr), test = (g(a) - g(b))^2/(v(a) + v(b))) }
f <- survdiff(Surv(weeks, relapse) ~ factor(group, c("placebo", "6-MP")), fr); U <- f$obs[1] - f$exp[1]; V <- f$var[1, 1]

write_expected(list(topic = "Ties, strata, clusters, deals, two curves at a time", software = software("survival", "cmprsk"),
  cases = c(Map(tied, paste0("tied_", 1:8), c(0, 1, 0, 0, .5, .5, 1, 1)) |> unname(), lapply(paste0("clustered_", 1:6), clustered),
    list(deals("deals_two_groups"), deals("deals_two_groups_rho1", 1), deals("deals_three_groups"), deals("deals_strata"),
      list(id = "landmarks_freireich", tolerance = list(rel = 1e-9, abs = 1e-12), data = NULL, expected = lapply(c(6, 10, 16, 22), landmark)),
      list(id = "one_step_ratio_freireich", tolerance = list(rel = 1e-9, abs = 1e-12), data = NULL, expected = list(ratio = exp(U/V), ci = exp(U/V + c(-1, 1)*Z95/sqrt(V))))))))
