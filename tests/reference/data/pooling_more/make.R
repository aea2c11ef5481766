source("../../r/records.R"); source("../../r/counts.R"); suppressPackageStartupMessages(library(metafor))
# counts of fourteen studies as in ../pooling/proportions.csv; the sites are made up: small, all or none with the event, effective sizes
sets <- list(
  fourteen = list(x = c(16, 10, 4, 43, 10, 25, 13, 12, 22, 4, 5, 18, 58, 6), m = c(17, 12, 8, 58, 10, 42, 14, 12, 41, 5, 6, 23, 68, 10)),
  three = list(x = c(5, 30, 150), m = c(6, 40, 260)),
  two = list(x = c(3, 31), m = c(6, 40)),
  alike = list(x = c(6, 12, 30), m = c(10, 20, 50)),
  edges = list(x = c(6, 0, 9, 14, 40), m = c(6, 5, 9, 30, 41)),
  effective = list(x = c(4.2, 18.75, 61.3, 7.9), m = c(5.5, 27.2, 80.4, 16.1)))
shares <- lapply(sets, function(d) list(events = arr(d$x), sizes = arr(d$m), restricted = fit(d, restricted), likelihood = fit(d, full)))
log_odds <- { d <- sets$edges; e <- escalc("PLO", xi = x, ni = m, data = as.data.frame(d), add = .5, to = "all"); list(yi = as.numeric(e$yi), vi = as.numeric(e$vi)) }
bcg <- read.csv("../pooling/bcg.csv"); bcg[] <- lapply(bcg, as.numeric); y <- log(bcg$ai/(bcg$ai + bcg$bi)*(bcg$ci + bcg$di)/bcg$ci); v <- 1/bcg$ai - 1/(bcg$ai + bcg$bi) + 1/bcg$ci - 1/(bcg$ci + bcg$di)
control <- list(threshold = 1e-14, maxiter = 5000, tau2.max = 1e4, tol = 1e-14); year <- c(48, 49, 60, 77, 73, 53, 73, 80, 68, 61, 74, 69, 76)
one <- function(X, method, test) { f <- rma.uni(y, v, mods = X, method = method, test = test, control = control); list(tau2 = f$tau2, coef = arr(f$b), se = arr(f$se), p = arr(f$pval), lower = arr(f$ci.lb), upper = arr(f$ci.ub), qe = f$QE, qe_p = f$QEp, qm = f$QM, qm_p = f$QMp) }
X <- cbind(bcg$latitude, year); group <- ifelse(bcg$latitude > 40, 1, ifelse(bcg$latitude > 20, 2, 3)); G <- cbind(group == 1, group == 2, group == 3) + 0
regression <- do.call(c, lapply(c(REML = "REML", ML = "ML", DL = "DL", PM = "PM"), function(method) list(list(method = method, normal = one(X, method, "z"), hartung_knapp = one(X, method, "knha")))))
groups <- { f <- rma.uni(y, v, mods = G, intercept = FALSE, method = "REML", test = "knha", control = control); b <- rma.uni(y, v, mods = G[, -1], method = "REML", test = "knha", control = control); list(tau2 = f$tau2, estimates = arr(f$b), se = arr(f$se), lower = arr(f$ci.lb), upper = arr(f$ci.ub), f = b$QM, p = b$QMp) }
write_expected(list(topic = "Shares of sites, and what explains why sites differ", software = software("metafor"),
  conventions = list(shares = "each site's binomial likelihood over normal log odds, summed on a fine grid (no package); restricted: the mean integrated out under a flat weight; se from the curvature in the mean; t with k - 1, prediction with k - 2 degrees of freedom", regression = "rma.uni with mods; hartung_knapp: test = 'knha', plain"),
  cases = list(case("shares", "none", "binomial with normal log odds", NULL, shares, rel = 1e-6), case("log_odds", "none", "half an event added at every site", NULL, log_odds, rel = 1e-9),
    case("regression", "none", "log risk ratio of the vaccine trials on latitude and year", NULL, list(yi = y, vi = v, latitude = bcg$latitude, year = year, fits = regression), rel = 1e-6), case("groups", "none", "the same in three bands of latitude", NULL, c(list(group = group), groups), rel = 1e-6))))
