source("../../r/records.R"); suppressPackageStartupMessages(library(metafor))
# counts of fourteen studies as in ../pooling/proportions.csv; the sites are made up: small, all or none with the event, effective sizes
sets <- list(
  fourteen = list(x = c(16, 10, 4, 43, 10, 25, 13, 12, 22, 4, 5, 18, 58, 6), m = c(17, 12, 8, 58, 10, 42, 14, 12, 41, 5, 6, 23, 68, 10)),
  three = list(x = c(5, 30, 150), m = c(6, 40, 260)),
  two = list(x = c(3, 31), m = c(6, 40)),
  alike = list(x = c(6, 12, 30), m = c(10, 20, 50)),
  edges = list(x = c(6, 0, 9, 14, 40), m = c(6, 5, 9, 30, 41)),
  effective = list(x = c(4.2, 18.75, 61.3, 7.9), m = c(5.5, 27.2, 80.4, 16.1)))
# the likelihood of a site: the binomial kernel over normal deviates, summed on a grid of 0.02 from -9 to 9 (such a sum of a smooth function that falls to nothing is exact to rounding)
u <- seq(-9, 9, by = .02); lu <- dnorm(u, log = TRUE) + log(.02)
site <- function(x, m, mu, tau) { if (tau == 0) return(x*mu - m*log1p(exp(mu))); eta <- mu + tau*u; f <- x*eta - m*(pmax(eta, 0) + log1p(exp(-abs(eta)))) + lu; h <- max(f); h + log(sum(exp(f - h))) }
ll <- function(d, mu, tau) sum(mapply(function(x, m) site(x, m, mu, tau), d$x, d$m))
slope <- function(d, mu, tau) { h <- .01; g <- function(k) ll(d, mu + k*h, tau); (-g(-3) + 9*g(-2) - 45*g(-1) + 45*g(1) - 9*g(2) + g(3))/(60*h) }
top_mean <- function(d, tau) uniroot(function(mu) slope(d, mu, tau), c(-40, 40), tol = 1e-13)$root
curvature <- function(d, mu, tau) { h <- .02; g <- function(k) ll(d, mu + k*h, tau); -(2*g(-3) - 27*g(-2) + 270*g(-1) - 490*g(0) + 270*g(1) - 27*g(2) + 2*g(3))/(180*h^2) }
full <- function(d, tau) ll(d, top_mean(d, tau), tau)
restricted <- function(d, tau) { m <- top_mean(d, tau); h <- ll(d, m, tau); s <- 1/sqrt(curvature(d, m, tau)); z <- seq(-9, 9, by = .1); h + log(sum(exp(sapply(z, function(z) ll(d, m + s*z, tau)) - h))*.1*s) }
fit <- function(d, profile) { grid <- c(0, .05*2^(0:8)); v <- sapply(grid, function(t) profile(d, t)); k <- which.max(v); if (k == 1) tau <- 0 else tau <- optimize(function(t) profile(d, t), grid[c(k - 1, min(k + 1, length(grid)))], maximum = TRUE, tol = 1e-9)$maximum
  m <- top_mean(d, tau); n <- length(d$x); se <- 1/sqrt(curvature(d, m, tau)); tq <- qt(.975, n - 1); pq <- if (n > 2) qt(.975, n - 2) else NA
  list(tau = tau, log_odds = m, se = se, log_likelihood = profile(d, tau), share = plogis(m), ci95 = plogis(m + c(-1, 1)*tq*se), prediction95 = plogis(m + c(-1, 1)*pq*sqrt(tau^2 + se^2))) }
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
