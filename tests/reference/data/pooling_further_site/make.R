source("../../r/records.R")
# The spread integrated out with R's own quadrature (integrate over tau), the limits by uniroot: no package, and no grid as the toolkit has it.
reference <- function(tau, v) sqrt(sum((tau/(v + tau^2))^2))
over <- function(f, split) sum(mapply(function(a, b) integrate(Vectorize(f), a, b, rel.tol = 1e-10, abs.tol = 0, subdivisions = 2000)$value, head(split, -1), tail(split, -1)))
limits <- function(at, v, split, level = .95) {
  top <- max(sapply(exp(seq(log(split[2]) - 3, log(rev(split)[2]) + 3, length.out = 200)), function(t) at(t)$log))
  weight <- function(t) { a <- at(t); exp(a$log - top)*reference(t, v) }
  total <- over(weight, split)
  tail <- function(x, lower) over(function(t) { a <- at(t); exp(a$log - top)*reference(t, v)*pnorm(x, a$mean, sqrt(a$se^2 + t^2), lower.tail = lower) }, split)/total
  middle <- at(split[3])$mean
  c(uniroot(function(x) tail(x, TRUE) - (1 - level)/2, middle + c(-60, 0)*split[4], tol = 1e-9)$root, uniroot(function(x) tail(x, FALSE) - (1 - level)/2, middle + c(0, 60)*split[4], tol = 1e-9)$root) }
normal <- function(y, v) function(t) { w <- 1/(v + t^2); m <- sum(w*y)/sum(w); list(mean = m, se = 1/sqrt(sum(w)), log = .5*(sum(log(w)) - log(sum(w)) - sum(w*(y - m)^2))) }
bcg <- read.csv("../pooling/bcg.csv"); bcg[] <- lapply(bcg, as.numeric)
sets <- list(
  trials = list(y = log(bcg$ai/(bcg$ai + bcg$bi)*(bcg$ci + bcg$di)/bcg$ci), v = 1/bcg$ai - 1/(bcg$ai + bcg$bi) + 1/bcg$ci - 1/(bcg$ci + bcg$di)),
  three = list(y = c(.2, -.1, .5), v = c(.04, .01, .09)), agreeing = list(y = c(1, 1.05, .98, 1.02, 1), v = c(.3, .2, .1, .4, .2)), apart = list(y = c(-3, 0, 2, 6), v = c(.01, .02, .01, .03)))
of_normal <- lapply(sets, function(d) { s <- sqrt(median(d$v)); z <- max(s, sd(d$y)); list(estimates = arr(d$y), variances = arr(d$v), limits = limits(normal(d$y, d$v), d$v, c(0, s/3, s, z + s, 5*(z + s), 60*(z + s), 1e5*z))) })
# counts: each site's binomial likelihood summed over its normal deviates, the mean at its top, and its curvature there
# steps of 0.004: at a spread of 20 a large site is narrow
u <- seq(-9, 9, by = .004); lu <- dnorm(u, log = TRUE) + log(.004)
site <- function(x, m, mu, tau) { eta <- mu + tau*u; f <- x*eta - m*(pmax(eta, 0) + log1p(exp(-abs(eta)))) + lu; h <- max(f); h + log(sum(exp(f - h))) }
ll <- function(d, mu, tau) sum(mapply(function(x, m) site(x, m, mu, tau), d$x, d$m))
counts <- function(d) function(t) { g <- function(mu) ll(d, mu, t); slope <- function(mu) { h <- .01; (-g(mu - 3*h) + 9*g(mu - 2*h) - 45*g(mu - h) + 45*g(mu + h) - 9*g(mu + 2*h) + g(mu + 3*h))/(60*h) }
  m <- uniroot(slope, c(-25, 25), tol = 1e-10)$root; h <- .02; k <- function(i) g(m + i*h); i <- -(2*k(-3) - 27*k(-2) + 270*k(-1) - 490*k(0) + 270*k(1) - 27*k(2) + 2*k(3))/(180*h^2)
  list(mean = m, se = 1/sqrt(i), log = g(m) - log(i)/2) }
# the curve over tau is costly, so it is laid through splines on log tau from 0.0001 to 20, and integrated from there
splined <- function(d, n = 140) { at <- counts(d); l <- seq(log(1e-4), log(20), length.out = n); p <- lapply(exp(l), at); f <- function(key) splinefun(l, sapply(p, `[[`, key)); m <- f("mean"); s <- f("se"); o <- f("log"); function(t) { x <- log(max(t, 1e-4)); list(mean = m(x), se = s(x), log = o(x)) } }
shares <- list(four = list(x = c(4.2, 18.75, 61.3, 7.9), m = c(5.5, 27.2, 80.4, 16.1)), edges = list(x = c(6, 1, 9, 14, 40), m = c(6, 5, 9, 30, 41)), three = list(x = c(5, 30, 150), m = c(6, 40, 260)))
of_counts <- lapply(shares, function(d) { v <- 1/(d$x + .5) + 1/(d$m - d$x + .5); list(events = arr(d$x), sizes = arr(d$m), limits = plogis(limits(splined(d), v, c(0, .05, .3, 1, 3, 8, 20)))) })
write_expected(list(topic = "Where a further site is expected, the spread between sites integrated out", software = software(),
  conventions = list(density = "restricted likelihood of tau times the root of the information on it; counts: each site's binomial likelihood, the mean integrated out by its curvature, tau up to 20"),
  cases = list(case("estimates", "none", "normal estimates with known errors", NULL, of_normal, rel = 1e-6), case("counts", "none", "binomial counts with normal log odds", NULL, of_counts, rel = 1e-5))))
