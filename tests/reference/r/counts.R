# Shares of sites by the likelihood of their counts, in base R.
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
