source("../../r/records.R"); source("../../r/interval-censored.R"); suppressPackageStartupMessages(library(survival))
b <- read.csv("breast_cosmesis.csv", check.names = FALSE); g1 <- b[b$treatment == "radiotherapy", ]; g2 <- b[b$treatment == "radio+chemo", ]
at <- c(4, 5, 8, 10, 12, 20, 24, 30, 34, 40, 45, 48, 60)
x1 <- npmle_block(g1$left, g1$right, at = at); x2 <- npmle_block(g2$left, g2$right, at = at); xa <- npmle_block(b$left, b$right, at = at)
# the survival package's own (loosely converged) answer must agree to 3 decimals outside support intervals
for (g in list(list(g1, x1), list(g2, x2))) { d <- g[[1]]; f <- survfit(Surv(ifelse(d$left == 0, NA, d$left), d$right, type = "interval2") ~ 1)
  for (i in which(is.finite(g[[2]]$support$to))) { t <- g[[2]]$support$to[i]; k <- max(c(0, which(f$time <= t))); stopifnot(abs((if (k) f$surv[k] else 1) - g[[2]]$support$survival_after[i]) < 2e-3) } }
src <- "Finkelstein & Wolfe 1985 data (Biometrics 41:933); masses as printed in the documentation of R package interval"
ps <- function(x, v, nm) Map(function(s, i) pub(src, paste0(nm, " mass on (", x$support$from[i], ",", x$support$to[i], "]"), s, x$support$mass[i]), v, seq_along(v))
t4 <- read.csv("turnbull1974.csv"); L <- ifelse(t4$kind == "left", 0, t4$time); R <- ifelse(t4$kind == "right", Inf, t4$time)
k <- t4$count > 0; T <- npmle_block(L[k], R[k], t4$count[k], at = 1:4)
write_expected(list(topic = "Interval-censored nonparametric maximum likelihood", software = software("survival", "KMsurv"),
  conventions = list(interval = "(left, right]: event after left and no later than right; empty right = still free at left; left = 0 with a finite right = left-censored; left = right = exact",
    support = "mass can only sit on innermost intervals; where inside such an interval it sits is not identified, so between its ends the curve is undetermined",
    optimality = "checked: for every candidate interval, sum over subjects of (indicator / fitted probability) is at most n, and equals n where there is mass",
    closed = "treating the left end as belonging to the interval ([left,right]) merges touching intervals and gives a DIFFERENT answer for tied ends: this set uses half-open"),
  cases = list(
  case("cosmesis_radiotherapy", "breast_cosmesis.csv", "NPMLE", list(where = "treatment = radiotherapy"), x1, ps(x1, c("0.0463","0.0334","0.0887","0.0708","0.0926","0.0818","0.1209","0.4656"), "radiotherapy"), rel = 1e-7, abs = 1e-9),
  case("cosmesis_radio_chemo", "breast_cosmesis.csv", "NPMLE", list(where = "treatment = radio+chemo"), x2, ps(x2, c("0.0433","0.0433","0.0692","0.1454","0.1411","0.1157","0.0999","0.0709","0.1608","0.0552","0.0552"), "radio+chemo"), rel = 1e-7, abs = 1e-9),
  case("cosmesis_all", "breast_cosmesis.csv", "NPMLE", NULL, xa, rel = 1e-7, abs = 1e-9),
  case("turnbull_1974", "turnbull1974.csv", "NPMLE with counts: left = event by that time, right = still free at that time, exact = event at that time", list(weight = "count"), T,
    Map(function(s, i) pub("Turnbull 1974, JASA 69:169", paste("S after", i), s, T$at_times$survival_upper[i], "looked up: R package survival, its test of the Turnbull example"), c("0.538","0.295","0.210","0.095"), 1:4), rel = 1e-7, abs = 1e-9))))
