# Maximum likelihood by direct maximisation, with derivatives by Richardson's extrapolation: for models that no package at hand fits.
suppressPackageStartupMessages(library(numDeriv))
# error laws: log density and log upper tail of e in log T = x'b + scale * e
law_of <- function(law, q = NULL) switch(law,
  weibull = list(ld = function(z) z - exp(z), lt = function(z) -exp(z)),
  exponential = list(ld = function(z) z - exp(z), lt = function(z) -exp(z)),
  lognormal = list(ld = function(z) dnorm(z, log = TRUE), lt = function(z) pnorm(z, lower.tail = FALSE, log.p = TRUE)),
  loglogistic = list(ld = function(z) dlogis(z, log = TRUE), lt = function(z) plogis(z, lower.tail = FALSE, log.p = TRUE)),
  gengamma = list(ld = function(z) { a <- 1/q^2; log(abs(q)) + a*(2*log(1/abs(q)) + q*z) - a*exp(q*z) - lgamma(a) },
    lt = function(z) { a <- 1/q^2; pgamma(a*exp(q*z), a, lower.tail = q < 0, log.p = TRUE) }))
# log-likelihood of each row; left = right exact, right = Inf right-censored, left = 0 left-censored; conditional on no event by entry
row_ll <- function(par, X, left, right, entry, law) {
  p <- ncol(X); mu <- as.vector(X %*% par[1:p]); s <- if (law == "exponential") 1 else exp(par[p + 1]); l <- law_of(law, if (law == "gengamma") par[p + 2])
  z <- function(t) (log(t) - mu)/s; ta <- ifelse(left > 0, l$lt(z(left)), 0); tb <- ifelse(is.finite(right), l$lt(z(right)), -Inf)
  ifelse(left == right, l$ld(z(left)) - log(s) - log(left), ta + log(-expm1(tb - ta))) - ifelse(entry > 0, l$lt(z(pmax(entry, 1e-9))), 0) }
fit_ml <- function(start, f) { # f: row log-likelihoods
  g <- function(p) -sum(f(p)); o <- optim(start, g, control = list(maxit = 20000, reltol = 1e-14)); o <- optim(o$par, g, method = "BFGS", control = list(maxit = 2000, reltol = 1e-15))
  p <- o$par; for (k in 1:6) p <- p - solve(hessian(g, p), grad(g, p))
  stopifnot(max(abs(grad(g, p))) < 1e-5); H <- hessian(g, p); V <- solve(H); list(par = p, ll = -g(p), V = V, influence = jacobian(f, p) %*% V) }
by_cluster <- function(influence, cluster) crossprod(rowsum(influence, cluster))
