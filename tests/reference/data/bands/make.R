source("../../r/records.R"); source("../../r/curves.R"); source("../../r/bands.R")
b <- read.csv("bmt.csv"); x <- b[b$group == "ALL", ]
B <- band_block(x$t_dfs, x$dfs_event, 100, 600)
full <- { r <- pl_rows(x$t_dfs, x$dfs_event); e <- r$time[r$events > 0 & r$survival > 0]; band_block(x$t_dfs, x$dfs_event, min(e), max(e)) }
grid <- expand.grid(aL = c(.02, .1, .2, .4), aU = c(.3, .58, .88, .98)); grid <- grid[grid$aU > grid$aL, ]
crit <- data.frame(grid, equal_precision_exact = mapply(ep_crit, grid$aL, grid$aU), equal_precision_approx = mapply(ep_crit_approx, grid$aL, grid$aU), hall_wellner_exact = mapply(hw_crit, grid$aL, grid$aU))
near(ep_prob(B$equal_precision$critical_exact, B$aL, B$aU), .95, 1e-10); near(hw_prob(B$hall_wellner$critical_exact, B$aL, B$aU, 200), .95, 1e-10)
pc <- function(q, s, v) pub("Klein & Moeschberger 2003, Tables C.3/C.4 (as stored in R package km.ci)", q, s, v, "looked up: R package km.ci")
write_expected(list(topic = "Simultaneous confidence bands", software = software("survival", "KMsurv"),
  conventions = list(scale = "a(t) = n s2/(1 + n s2), s2 = Greenwood variance of log S at t; n = group size",
    critical = "exact: solved numerically (Ornstein-Uhlenbeck eigenvalues; reflected bridge), confirmed by simulation (coverage within 0.001). Textbook tables rest on Nair's approximation and round a to multiples of 0.02, so they differ in the 2nd-3rd decimal; a toolkit using the approximation should match critical_approx.",
    tolerance = "critical values to 1e-6 where they are solved exactly; else 0.02"),
  cases = list(
  case("critical_values", "none", "95% critical values on a grid", NULL, crit, list(
    pc("equal precision c (approximation), aL=.10, aU=.58", "2.8723", ep_crit_approx(.1, .58)), pc("equal precision c (approximation), aL=.10, aU=.60; textbook example 4.2 bone marrow ALL", "2.8826", ep_crit_approx(.1, .6)), pc("Hall-Wellner k, aL=.10, aU=.60; same example", "1.3211", hw_crit(.1, .6)), pc("equal precision c (approximation), aL=.10, aU=.88", "3.0384", ep_crit_approx(.1, .88)),
    pc("Hall-Wellner k, aL=.02, aU=.10", "0.6825", hw_crit(.02, .1)), pc("Hall-Wellner k, aL=.10, aU=.58", "1.3134", hw_crit(.1, .58)), pc("Hall-Wellner k, aL=.40, aU=.58", "1.2691", hw_crit(.4, .58))), rel = 1e-6),
  case("bmt_all_100_600", "bmt.csv", "95% bands between day 100 and day 600", list(time = "t_dfs", event = "dfs_event", where = "group = ALL"), B, rel = 1e-6),
  case("bmt_all_full_range", "bmt.csv", "95% bands from first to last event with S > 0", list(time = "t_dfs", event = "dfs_event", where = "group = ALL"), full, rel = 1e-6))))
